//! How much roof each pole carries along its length: half of the bay on either side, on the real plan.
//!
//! A bay is the deck between two neighbours, laid from a share of the way along one to the same share along the other: from
//! support to where they cross in plan, and from butt to support on the eaves. Up to half way between them it is the pole's own.
//! The loads so found change evenly along each pole, and their sum is the area between the outlines of butts and of eye.

use super::super::poles::{Layout, Lie};
use super::Secondaries;
use crate::units::Angle;

/// Square metres of roof in plan on each metre of a pole, from one place along it to another, of one zone.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Band {
    pub pole: usize,
    pub zone: usize,
    pub span: [f64; 2],
    pub widths: [f64; 2],
}

type Point = [f64; 2];

/// One side of a bay: the line of a pole in plan, and where it starts and ends along the pole.
#[derive(Clone, Copy)]
pub(super) struct Side {
    pub pole: usize,
    pub line: [Point; 2],
    pub span: [f64; 2],
}

/// A bay: its two sides from support to crossing, and the same on the eaves from butt to support, each with the zones in which
/// the halves of that part lie, that of its first side before that of the other.
#[derive(Clone, Copy)]
pub(super) struct Bay {
    pub inside: [Side; 2],
    pub eaves: [Side; 2],
    pub zones: [[usize; 2]; 2],
}

/// The bays of a ring; that of a pole lies between it and the one that it rests on.
pub(super) fn bays(layout: &Layout, lies: &[Lie], first_half: Angle) -> Vec<Bay> {
    let count = lies.len();
    let corners: Vec<Point> = lies.iter().map(|lie| plan(lie, lie.second())).collect();
    let centre = [0, 1].map(|axis: usize| corners.iter().map(|at| at[axis]).sum::<f64>() / count as f64);
    let half = Half { centre, toward: [first_half.in_rad().cos(), first_half.in_rad().sin()] };
    let bay = |(pole, &corner): (usize, &Point)| {
        let below = layout.below(pole);
        let inside = [(pole, lies[pole].second()), (below, lies[below].first)].map(|(pole, reach)| {
            let overhang = layout.rafters[pole].overhang.in_m();
            Side { pole, line: [plan(&lies[pole], 0.0), corner], span: [overhang, overhang + reach] }
        });
        let eaves = [pole, below].map(|pole| {
            let lie = &lies[pole];
            Side { pole, line: [plan(lie, lie.ends[0]), plan(lie, 0.0)], span: [0.0, -lie.ends[0]] }
        });
        let zones = [(0, inside), (2, eaves)].map(|(zone, [one, other])| {
            [[one, other], [other, one]].map(|[own, other]| zone + usize::from(!half.is_first(own, other)))
        });
        Bay { inside, eaves, zones }
    };
    corners.iter().enumerate().map(bay).collect()
}

/// What each pole carries of its bays; with secondary rafters in them, no more than half way to the first of those as far as
/// these reach.
pub(super) fn bands(bays: &[Bay], between: Option<&Secondaries>) -> Vec<Band> {
    let mut all = Vec::with_capacity(4 * bays.len());
    for (number, bay) in bays.iter().enumerate() {
        if let Some(Secondaries::OnPoles(own)) = between {
            all.extend(own.bands(number, bay));
            continue;
        }
        for (part, sides) in [(0, bay.inside), (1, bay.eaves)] {
            for (own, other, zone) in [(0, 1, bay.zones[part][0]), (1, 0, bay.zones[part][1])] {
                let (own, other) = (sides[own], sides[other]);
                let band = |share: [f64; 2], wide: f64| band(zone, (own, other), share, [wide; 2]);
                match between {
                    Some(Secondaries::Trimmed(between)) if part == 0 => {
                        all.extend(band([0.0, between.at], between.first()));
                        all.extend(band([between.at, 1.0], 0.5));
                    }
                    Some(Secondaries::Trimmed(between)) => all.extend(band([0.0, 1.0], between.first())),
                    _ => all.extend(band([0.0, 1.0], 0.5)),
                }
            }
        }
    }
    all
}

/// Square metres in plan for each share of the way along a bay, of a strip of it: as the strip starts and as it ends.
///
/// ```text
/// P(t, v) = (1 − v) p(t) + v p′(t),  dA/dt = ∫ |∂P/∂t × ∂P/∂v| dv = ((u − u²/2) p⁎ + u²/2 p′⁎) × (p′(t) − p(t)), from u to u
/// ```
pub(super) fn strip([own, other]: [Side; 2], wide: [f64; 2]) -> [f64; 2] {
    let [mine, theirs] = [own, other].map(|side| less(side.line[1], side.line[0]));
    let [from, to] = wide.map(|wide| [wide - 0.5 * wide * wide, 0.5 * wide * wide]);
    let mixed: Point = std::array::from_fn(|axis| (to[0] - from[0]) * mine[axis] + (to[1] - from[1]) * theirs[axis]);
    [0, 1].map(|end: usize| turn(mixed, less(other.line[end], own.line[end])).abs())
}

/// A strip of a bay along its own pole, from a share of the way to another; so wide, as a share of the bay, where it starts and
/// where it ends.
pub(super) fn band(zone: usize, (own, other): (Side, Side), part: [f64; 2], wide: [f64; 2]) -> Option<Band> {
    let long = own.span[1] - own.span[0];
    if long * (part[1] - part[0]) < 1e-6 {
        return None;
    }
    let widths = [0, 1].map(|place: usize| {
        let [start, end] = strip([own, other], [0.0, wide[place]]);
        (start + part[place] * (end - start)) / long
    });
    Some(Band { pole: own.pole, zone, span: part.map(|share| own.span[0] + share * long), widths })
}

/// Places and weights of the Gauss-Legendre rule with three of them, of the way from one end to the other; exact to the fifth degree.
const RULE: [[f64; 2]; 3] =
    [[0.112_701_665_379_258_3, 5.0 / 18.0], [0.5, 8.0 / 18.0], [0.887_298_334_620_741_7, 5.0 / 18.0]];

/// How a load of one on a strip of a bay turns, from a share of the way along it to another; so wide there, at such a lever.
///
/// ```text
/// M = ∫∫ x(P) |∂P/∂t × ∂P/∂v| dv dt        of no more than the fifth degree in t and v, for a strip whose sides are straight
/// ```
pub(super) fn turning(
    [one, other]: [Side; 2],
    [from, to]: [f64; 2],
    wide: impl Fn(f64) -> [f64; 2],
    lever: impl Fn(Point) -> f64,
) -> f64 {
    let [mine, theirs] = [one, other].map(|side| less(side.line[1], side.line[0]));
    let between = |[start, end]: [Point; 2], share: f64| {
        [0, 1].map(|axis: usize| start[axis] + share * (end[axis] - start[axis]))
    };
    let mut sum = 0.0;
    for [at, weight] in RULE {
        let along = from + at * (to - from);
        let ends = [one, other].map(|side| between(side.line, along));
        let [start, end] = wide(along);
        for [at, part] in RULE {
            let across = start + at * (end - start);
            let piece = turn(between([mine, theirs], across), less(ends[1], ends[0])).abs();
            sum += weight * (to - from) * part * (end - start) * piece * lever(between(ends, across));
        }
    }
    sum
}

fn plan(lie: &Lie, along: f64) -> Point {
    let [x, y, _] = lie.at(along);
    [x, y]
}

fn turn(one: Point, other: Point) -> f64 {
    one[0] * other[1] - one[1] * other[0]
}

fn less(one: Point, other: Point) -> Point {
    [one[0] - other[0], one[1] - other[1]]
}

struct Half {
    centre: Point,
    toward: Point,
}

impl Half {
    /// Whether the middle of the half of a bay that is nearer to `own` lies in the half of the roof that is loaded first.
    fn is_first(&self, own: Side, other: Side) -> bool {
        let mine = less(own.line[1], own.line[0]);
        let [first, last] = [0, 1].map(|end: usize| less(other.line[end], own.line[end]));
        let widths = strip([own, other], [0.0, 0.5]);
        // The middle of the area, by its widths: a third of the way along a triangle, half along an even strip.
        let share = (widths[0] + 2.0 * widths[1]) / (3.0 * (widths[0] + widths[1])).max(f64::MIN_POSITIVE);
        let middle: Point = std::array::from_fn(|axis| {
            own.line[0][axis] + share * mine[axis] + 0.25 * ((1.0 - share) * first[axis] + share * last[axis])
                - self.centre[axis]
        });
        middle[0] * self.toward[0] + middle[1] * self.toward[1] > -1e-9
    }
}

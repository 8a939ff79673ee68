//! How much roof each pole carries along its length: half of the bay on either side, on the real plan.
//!
//! A bay is the deck between two neighbours, laid from a share of the way along one to the same share along the other: from
//! support to where they cross in plan, and from butt to support on the eaves. Up to half way between them it is the pole's own.
//! The loads so found change evenly along each pole, and their sum is the area between the outlines of butts and of eye.

use super::super::poles::{Layout, Lie};
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
struct Side {
    pole: usize,
    line: [Point; 2],
    span: [f64; 2],
}

pub(super) fn bands(layout: &Layout, lies: &[Lie], first_half: Angle) -> Vec<Band> {
    let count = lies.len();
    let corners: Vec<Point> = lies.iter().map(|lie| plan(lie, lie.second())).collect();
    let centre = [0, 1].map(|axis: usize| corners.iter().map(|at| at[axis]).sum::<f64>() / count as f64);
    let half = Half { centre, toward: [first_half.in_rad().cos(), first_half.in_rad().sin()] };
    let mut all = Vec::with_capacity(4 * count);
    for (pole, &corner) in corners.iter().enumerate() {
        let below = layout.below(pole);
        let inside = [(pole, lies[pole].second()), (below, lies[below].first)].map(|(pole, reach)| {
            let overhang = layout.rafters[pole].overhang.in_m();
            Side { pole, line: [plan(&lies[pole], 0.0), corner], span: [overhang, overhang + reach] }
        });
        let eaves = [pole, below].map(|pole| {
            let lie = &lies[pole];
            Side { pole, line: [plan(lie, lie.ends[0]), plan(lie, 0.0)], span: [0.0, -lie.ends[0]] }
        });
        for (zone, [one, other]) in [(0, inside), (2, eaves)] {
            all.extend(half.band(zone, one, other));
            all.extend(half.band(zone, other, one));
        }
    }
    all
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
    /// The half of a bay that is carried by `own`.
    ///
    /// ```text
    /// P(t, v) = (1 − v) p(t) + v p′(t),  dA/dt = ∫₀^½ |∂P/∂t × ∂P/∂v| dv = (3/8 p⁎ + 1/8 p′⁎) × (p′(t) − p(t))
    /// ```
    fn band(&self, zone: usize, own: Side, other: Side) -> Option<Band> {
        let long = own.span[1] - own.span[0];
        if long < 1e-6 {
            return None;
        }
        let [mine, theirs] = [own, other].map(|side| less(side.line[1], side.line[0]));
        let mixed: Point = std::array::from_fn(|axis| (3.0 * mine[axis] + theirs[axis]) / 8.0);
        let [first, last] = [0, 1].map(|end: usize| less(other.line[end], own.line[end]));
        let widths = [first, last].map(|across| turn(mixed, across).abs() / long);
        // The middle of the area, by its widths: a third of the way along a triangle, half along an even strip.
        let share = (widths[0] + 2.0 * widths[1]) / (3.0 * (widths[0] + widths[1]));
        let middle: Point = std::array::from_fn(|axis| {
            own.line[0][axis] + share * mine[axis] + 0.25 * ((1.0 - share) * first[axis] + share * last[axis])
                - self.centre[axis]
        });
        let is_first = middle[0] * self.toward[0] + middle[1] * self.toward[1] > -1e-9;
        let zone = zone + usize::from(!is_first);
        Some(Band { pole: own.pole, zone, span: own.span, widths })
    }
}

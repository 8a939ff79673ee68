//! The pegs in plan: named points, ends and centres of arcs, stations along curves, jambs of doors; and how they are checked.

use kurbo::Point;

use super::part::{Meaning, Outline};
use super::{House, Opening};
use crate::build::OpeningKind;
use crate::curve::{Bend, Piece, Side};
use crate::set_out::Baseline;
use crate::units::Length;

/// An arc that turns farther than this is set out by offsets, not by ordinates from one chord: a third of a turn.
const WIDE: f64 = std::f64::consts::TAU / 3.0;

/// A place in plan that is marked by a peg.
#[derive(Clone, Debug, PartialEq)]
pub struct Peg {
    /// The stem of its rows.
    pub path: String,
    /// What it marks, in words.
    pub name: String,
    /// Its number on drawing and table, from 1.
    pub number: usize,
    /// Where it stands, in metres.
    pub at: Point,
    /// What it marks.
    pub marks: Marks,
}

/// What a peg marks.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Marks {
    /// A named point, by place in the list.
    Point(usize),
    /// Where the rounding of a corner begins.
    CornerBegins(usize),
    /// Where it ends.
    CornerEnds(usize),
    /// Its centre.
    CornerCentre(usize),
    /// The centre of the arc that leaves a named point.
    ArcCentre(usize),
    /// So many steps along the run that leaves a named point.
    Station(usize, usize),
    /// A jamb of an opening, left or right as seen from outside.
    Jamb(usize, usize),
}

impl Marks {
    /// Whether it lies on the wall line or on the runs before they are rounded.
    #[must_use]
    pub fn is_on_the_line(self) -> bool {
        matches!(self, Marks::Point(_) | Marks::CornerBegins(_) | Marks::CornerEnds(_) | Marks::Station(..))
    }
}

/// A tape between two pegs that were set without it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct CheckTape {
    /// The row that says what it reads.
    pub path: String,
    /// The two pegs, by place in the list.
    pub ends: [usize; 2],
}

/// Ordinates from the chord of an arc.
#[derive(Clone, Debug, PartialEq)]
pub struct Ordinates {
    /// The run, by place in the list of points.
    pub run: usize,
    /// Name of the point that it leaves.
    pub name: String,
    /// The ends of the chord, in metres.
    pub ends: [Point; 2],
    /// The pegs that stand there, by place in the list.
    pub pegs: [usize; 2],
    /// How many steps from the middle of the chord to either side.
    pub steps: usize,
    /// The side of the chord on which the arc lies.
    pub side: Side,
}

/// What the setting-out of a house shows.
#[derive(Clone, Debug, PartialEq)]
pub struct Pegs {
    /// The two pegs of the baseline.
    pub baseline: Baseline,
    /// The others, numbered.
    pub pegs: Vec<Peg>,
    /// The wall line.
    pub line: Outline,
    /// The check tapes.
    pub checks: Vec<CheckTape>,
    /// Arcs whose centre is hard to reach.
    pub ordinates: Vec<Ordinates>,
    /// What strings to either side of the line mark: the stem, the cob where it is of one thickness, a trench.
    pub strings: Vec<&'static str>,
}

/// The pegs of a house, in the order of a walk along the wall, then the jambs of doors.
#[must_use]
pub fn pegs(house: &House) -> Pegs {
    let mut pegs: Vec<Peg> = Vec::new();
    let mut set = |path: String, name: String, at: Point, marks: Marks| {
        let number = pegs.len() + 1;
        pegs.push(Peg { path: format!("set-out.{path}"), name, number, at, marks });
    };
    let wall = &house.wall;
    for (index, point) in wall.points.iter().enumerate() {
        let name = &point.name;
        let at = Point::new(point.x.value.in_m(), point.y.value.in_m());
        let run = wall.line.runs().get(index);
        let corner = run.and_then(|run| run.corner);
        if let Some(corner) = corner {
            set(
                format!("corner-begins.{name}"),
                format!("{name}, rounding begins"),
                corner.start,
                Marks::CornerBegins(index),
            );
        }
        let what = if corner.is_some() { format!("{name}, where the runs meet") } else { name.clone() };
        set(format!("points.{name}"), what, at, Marks::Point(index));
        if let Some(corner) = corner {
            set(format!("corner-ends.{name}"), format!("{name}, rounding ends"), corner.end, Marks::CornerEnds(index));
            if let Bend::Arc { centre, .. } = corner.bend {
                set(
                    format!("corner-centres.{name}"),
                    format!("{name}, centre of the rounding"),
                    centre,
                    Marks::CornerCentre(index),
                );
            }
        }
        let Some(run) = run else { continue };
        if let [piece] = run.whole.pieces()
            && let Bend::Arc { centre, .. } = piece.bend
        {
            set(format!("centres.{name}"), format!("centre of the arc from {name}"), centre, Marks::ArcCentre(index));
        }
        for step in 1..=stations(house, index) {
            let at = run.whole.at(house.set_out.spacing.value.in_m() * step as f64);
            if is_between(house, index, step) {
                let what = format!("{step} steps from {name}");
                set(format!("stations.{name}.{step}"), what, at, Marks::Station(index, step));
            }
        }
    }
    for (index, opening) in house.openings.iter().enumerate() {
        let Some(ends) = jambs(house, opening) else { continue };
        for (side, (word, at)) in ["left", "right"].into_iter().zip(ends).enumerate() {
            let name = format!("{word} jamb of {}, outer end", opening.name);
            set(format!("jambs.{}.{word}", opening.name), name, at, Marks::Jamb(index, side));
        }
    }
    let checks = checks(house, &pegs);
    let mut strings = vec!["stem"];
    if house.wall.thicknesses.is_even() {
        strings.insert(0, "cob");
    }
    if house.trench.is_some() {
        strings.push("trench");
    }
    let line = house.wall.line.outline(0.0, 0.002);
    let line = if house.wall.line.is_closed() {
        Outline::area(line, Meaning::Seen)
    } else {
        Outline::line(line, Meaning::Seen)
    };
    Pegs { baseline: house.set_out.baseline, ordinates: ordinates(house, &pegs), pegs, line, checks, strings }
}

/// Outer ends of the jambs of a door at its threshold or at the foot of the cob, whichever is higher.
fn jambs(house: &House, opening: &Opening) -> Option<[Point; 2]> {
    if opening.kind != OpeningKind::Door {
        return None;
    }
    let (shape, level) = (house.wall.shape(), opening.bottom.value.max(Length::ZERO).in_m());
    let ends = opening.cut.stretch(&shape, Side::Outer, level)?;
    Some(ends.map(|along| shape.point(Side::Outer, along, level)))
}

/// Whether the arc that leaves a named point cannot be swung by a string from its centre: too long, or the centre lies
/// behind the baseline. Nothing where the run is no arc.
fn is_hard(house: &House, run: usize) -> Option<bool> {
    let [piece] = house.wall.line.runs().get(run)?.whole.pieces() else { return None };
    let Bend::Arc { centre, .. } = piece.bend else { return None };
    let radius = piece.start.distance(centre);
    Some(radius > house.set_out.string.value.in_m() || house.set_out.baseline.reading(centre)[1] < 0.0)
}

/// Steps along a run at which pegs stand: along cubic curves, and along arcs too wide for one chord.
fn stations(house: &House, run: usize) -> usize {
    let Some(of) = house.wall.line.runs().get(run) else { return 0 };
    let wide = || of.whole.pieces().iter().map(|piece| piece.turning().abs()).sum::<f64>() > WIDE;
    if house.wall.points[run].curve.is_none() && !(is_hard(house, run) == Some(true) && wide()) {
        return 0;
    }
    (of.to / house.set_out.spacing.value.in_m()).floor() as usize
}

/// Whether a station stands on what rounding leaves of its run, not at its very ends.
fn is_between(house: &House, run: usize, step: usize) -> bool {
    let (of, spacing) = (&house.wall.line.runs()[run], house.set_out.spacing.value.in_m());
    let along = spacing * step as f64;
    along > of.from + 0.2 * spacing && along < of.to - 0.2 * spacing
}

fn ordinates(house: &House, pegs: &[Peg]) -> Vec<Ordinates> {
    let spacing = house.set_out.spacing.value.in_m();
    let of_run = |(run, point): (usize, &super::Point)| {
        let of = house.wall.line.runs().get(run)?;
        if is_hard(house, run) != Some(true) || stations(house, run) > 0 {
            return None;
        }
        let ends = [of.from, of.to].map(|along| of.whole.at(along));
        let steps = (0.5 * ends[0].distance(ends[1]) / spacing - 0.2).floor().max(0.0) as usize;
        let turns: f64 = of.whole.pieces().iter().map(Piece::turning).sum();
        let side = if turns > 0.0 { Side::Outer } else { Side::Inner };
        let find = |marks: Marks| pegs.iter().position(|peg| peg.marks == marks);
        let next = (run + 1) % house.wall.points.len();
        let start = find(Marks::CornerEnds(run)).or_else(|| find(Marks::Point(run)))?;
        let end = find(Marks::CornerBegins(next)).or_else(|| find(Marks::Point(next)))?;
        Some(Ordinates { run, name: point.name.clone(), ends, pegs: [start, end], steps, side })
    };
    house.wall.points.iter().enumerate().filter_map(of_run).collect()
}

/// How many steps along a chord or a curve are measured at most.
#[must_use]
pub fn most_steps(pegs: &Pegs) -> usize {
    let stations = pegs.pegs.iter().filter_map(|peg| match peg.marks {
        Marks::Station(_, step) => Some(step),
        _ => None,
    });
    stations.chain(pegs.ordinates.iter().map(|arc| arc.steps)).max().unwrap_or(0)
}

/// One tape at least to every peg: across the house from each on the line, a radius to each centre, a width between jambs.
fn checks(house: &House, pegs: &[Peg]) -> Vec<CheckTape> {
    let on: Vec<usize> = (0..pegs.len()).filter(|&place| pegs[place].marks.is_on_the_line()).collect();
    let half = on.len() / 2;
    let across = (0..on.len().div_ceil(2)).map(|index| {
        let ends = [on[index], on[(index + half) % on.len()]];
        CheckTape { path: format!("set-out.checks.{}-{}", ends[0] + 1, ends[1] + 1), ends }
    });
    let find = |marks: Marks| pegs.iter().position(|peg| peg.marks == marks);
    let own = pegs.iter().enumerate().filter_map(|(place, peg)| {
        let (path, end) = match peg.marks {
            Marks::CornerCentre(index) => {
                (format!("wall.line.{}.round", house.wall.points[index].name), find(Marks::CornerEnds(index))?)
            }
            Marks::ArcCentre(index) => {
                let start = find(Marks::CornerEnds(index)).or_else(|| find(Marks::Point(index)))?;
                (format!("wall.line.{}.radius", house.wall.points[index].name), start)
            }
            Marks::Jamb(index, 0) => (house.openings[index].width.path.clone(), place + 1),
            _ => return None,
        };
        Some(CheckTape { path, ends: [place, end] })
    });
    across.chain(own).collect()
}

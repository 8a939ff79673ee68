//! The stretches of a bond beam over runs and corners, and the parts that are divided into pieces: short stretches are joined.

use crate::curve::{Bend, Chain, Piece, PlanLine};
use crate::house::{Point, Wall};
use crate::units::Length;
use crate::wall::{Division, Made, Middle, Timber};

/// The bond beam over one run or one corner.
#[derive(Clone, Debug)]
pub struct Stretch {
    /// Its name: the run's, or the point's with `-corner` after it.
    pub name: String,
    /// The run that it lies on, or that its corner leads into.
    pub run: usize,
    /// How it goes.
    pub way: Lie,
    /// From where to where along the line it lies, in metres.
    pub along: [f64; 2],
    /// Its middle.
    middle: Vec<Piece>,
}

/// How a stretch of the bond beam goes.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Lie {
    /// Straight on.
    Straight,
    /// Along an arc; 1 where it turns to the left, -1 where it turns to the right.
    Arc(f64),
    /// Round a corner, with the same sign.
    Corner(f64),
    /// Along a cubic curve.
    Curve {
        /// The least radius of the wall line, in metres.
        least_radius: f64,
        /// Angle by which it turns, in radians, positive to the left.
        turning: f64,
    },
}

/// A part of the bond beam that is cut into equal pieces.
#[derive(Clone, Debug)]
pub struct BeamPart {
    /// The stretches that it goes over, by place in the list of the beam, in the order of the line.
    pub over: Vec<usize>,
    /// The longest of them: it is called after that one.
    pub longest: usize,
    /// Its middle.
    pub middle: Chain,
    /// Its pieces in one layer.
    pub division: Division,
}

impl Stretch {
    /// The path of one of its rows.
    #[must_use]
    pub fn path(&self, noun: &str) -> String {
        format!("wall.bond-beam.runs.{}.{noun}", self.name)
    }

    fn length(&self) -> f64 {
        self.middle.iter().map(Piece::length).sum()
    }

    /// Its name in words.
    #[must_use]
    pub fn words(&self) -> String {
        self.name.replace('-', " ")
    }
}

impl BeamPart {
    /// Distances along its middle at which its pieces end, in metres.
    #[must_use]
    pub fn joints(&self) -> Vec<f64> {
        let count = self.division.pieces.max(1);
        (0..=count).map(|place| self.middle.length() * place as f64 / count as f64).collect()
    }

    /// How its middle is measured: a run or an arc by its formula, all else as it lies.
    #[must_use]
    pub fn measured(&self, stretches: &[Stretch]) -> Middle<'_> {
        match self.over[..] {
            [only] => shape(&stretches[only], &self.middle),
            _ => Middle::Measured(&self.middle),
        }
    }
}

fn shape<'a>(stretch: &Stretch, middle: &'a Chain) -> Middle<'a> {
    let length = Length::m(middle.length());
    match (stretch.way, middle.pieces()) {
        (Lie::Straight, _) => Middle::Straight(length),
        (Lie::Arc(_) | Lie::Corner(_), [arc]) => Middle::Arc { length, radius: Length::m(1.0 / arc.curvature().abs()) },
        _ => Middle::Measured(middle),
    }
}

/// The stretches of a beam over the runs and corners of the line, its middle at an offset outside of the line.
pub(super) fn stretches(wall: &Wall, offset: Length) -> Vec<Stretch> {
    let line = &wall.line;
    let mut found: Vec<Stretch> = Vec::new();
    for (index, piece) in line.pieces().iter().enumerate() {
        let (run, is_corner) = (line.owner(index), line.is_corner(index));
        let along = [line.start(index), line.start(index) + piece.length()];
        let point = &wall.points[run];
        let name = if is_corner { format!("{}-corner", point.name) } else { point.name.clone() };
        let middle = piece.offset(offset.in_m());
        match found.last_mut() {
            // A cubic curve is laid out in many arcs.
            Some(last) if last.name == name => {
                last.along[1] = along[1];
                last.middle.push(middle);
            }
            _ => found.push(Stretch { way: way(wall, line, index, point), name, run, along, middle: vec![middle] }),
        }
    }
    found
}

/// The parts of a beam: each stretch, but one too short for a piece of its own joined to the longer of those beside it.
///
/// # Errors
/// What a part that no pieces fit goes over, in words.
pub(super) fn joined(stretches: &[Stretch], timber: Timber, is_closed: bool) -> Result<Vec<BeamPart>, String> {
    let mut parts: Vec<Vec<usize>> = (0..stretches.len()).map(|place| vec![place]).collect();
    let length = |over: &[usize]| over.iter().map(|&place| stretches[place].length()).sum::<f64>();
    let too_short = |over: &[usize]| Length::m(length(over) + NEARLY) < timber.joints_apart();
    while parts.len() > 1
        && let Some(short) = parts.iter().position(|over| too_short(over))
    {
        let count = parts.len();
        let before = (short > 0 || is_closed).then_some((short + count - 1) % count);
        let after = (short + 1 < count || is_closed).then_some((short + 1) % count);
        let reach = |part: Option<usize>| part.map_or(0.0, |part| length(&parts[part]));
        // The one that goes on into the next is kept in its place.
        let first = if reach(before) > reach(after) { before.unwrap_or(short) } else { short };
        let next = (first + 1) % count;
        let taken = parts[next].clone();
        parts[first].extend(taken);
        parts.remove(next);
    }
    parts.into_iter().map(|over| part(stretches, timber, over)).collect()
}

/// What binary fractions round, in metres.
const NEARLY: f64 = 1e-9;

fn part(stretches: &[Stretch], timber: Timber, over: Vec<usize>) -> Result<BeamPart, String> {
    let names = || over.iter().map(|&place| stretches[place].words()).collect::<Vec<_>>().join(" with ");
    let chain = |over: &[usize]| Chain::of(over.iter().flat_map(|&place| stretches[place].middle.clone()).collect());
    let longest = over.iter().copied().max_by(|&a, &b| stretches[a].length().total_cmp(&stretches[b].length()));
    let (Some(middle), Some(longest)) = (chain(&over), longest) else { return Err(names()) };
    let mut part = BeamPart { over: over.clone(), longest, middle, division: Division { pieces: 1, made: Made::Straight } };
    let own = chain(&[longest]).and_then(|own| timber.division(shape(&stretches[longest], &own)));
    match timber.division(part.measured(stretches)) {
        // Where a short corner alone asks for it, a long run is not sawn.
        Some(division) if division.made == Made::Straight || own.is_some_and(|own| own.made == Made::Sawn) => {
            part.division = division;
            Ok(part)
        }
        _ => Err(names()),
    }
}

fn way(wall: &Wall, line: &PlanLine, index: usize, point: &Point) -> Lie {
    let piece = &line.pieces()[index];
    let sign = piece.curvature().signum();
    let run = line.owner(index);
    match piece.bend {
        _ if line.is_corner(index) => Lie::Corner(sign),
        _ if point.curve.is_some() => {
            let of_run = (0..line.pieces().len()).filter(|&other| line.owner(other) == run && !line.is_corner(other));
            let turning = of_run.map(|other| line.pieces()[other].turning()).sum();
            let least_radius = wall.least_radius(run).map_or(f64::INFINITY, Length::in_m);
            Lie::Curve { least_radius, turning }
        }
        Bend::Arc { .. } => Lie::Arc(sign),
        Bend::Straight => Lie::Straight,
    }
}

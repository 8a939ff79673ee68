//! The stretches of a bond beam over runs and corners, and the parts that are divided into pieces: short stretches are joined
//! or lengthened.

use crate::curve::{Bend, Chain, Piece, PlanLine};
use crate::house::{Point, Wall};
use crate::units::Length;
use crate::wall::{self, Division, Made, Middle, Timber};

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
    /// The steepest rise of the wall's top along it, up or down.
    pub steepest: f64,
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
    /// What it takes of the part before and of the one after it; below zero what it gives to them.
    pub takes: [Length; 2],
    /// The longest of them: it is called after that one.
    pub longest: usize,
    /// Its middle.
    pub middle: Chain,
    /// The steepest rise of the wall's top along it, up or down.
    pub steepest: f64,
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

    /// Angle by which it turns, in radians, whichever way.
    #[must_use]
    pub fn bends(&self) -> f64 {
        self.middle.iter().map(|piece| piece.turning().abs()).sum()
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
        let length = Length::m(self.middle.length());
        let [only] = self.over[..] else { return Middle::Measured(&self.middle) };
        match (stretches[only].way, self.middle.pieces()) {
            (Lie::Straight, [_]) => Middle::Straight(length),
            (Lie::Arc(_) | Lie::Corner(_), [arc]) if self.is_whole() => {
                Middle::Arc { length, radius: Length::m(1.0 / arc.curvature().abs()) }
            }
            _ => Middle::Measured(&self.middle),
        }
    }

    /// Whether it neither takes of the parts beside it nor gives to them.
    #[must_use]
    pub fn is_whole(&self) -> bool {
        self.takes == [Length::ZERO; 2]
    }

    /// Whether it takes what it lacks: it is then as long as one piece must be.
    #[must_use]
    pub fn is_lengthened(&self) -> bool {
        self.takes.iter().any(|share| *share > Length::ZERO)
    }

    /// The stretches that make its shape, those that it takes of with them.
    #[must_use]
    pub fn touched(&self, count: usize) -> Vec<usize> {
        let mut found = self.over.clone();
        if let ([first, ..], [before, after]) = (&self.over[..], self.takes) {
            let last = self.over[self.over.len() - 1];
            found.extend((before > Length::ZERO).then_some((first + count - 1) % count));
            found.extend((after > Length::ZERO).then_some((last + 1) % count));
        }
        found
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
            _ => {
                let way = way(wall, line, index, point);
                found.push(Stretch { way, name, run, along, steepest: 0.0, middle: vec![middle] });
            }
        }
    }
    for stretch in &mut found {
        stretch.steepest = wall.steepest(stretch.along, (stretch.length(), stretch.way == Lie::Straight));
    }
    found
}

/// The parts of a beam: each stretch, but one too short for a piece of its own joined to the longer of those beside it; where its
/// pieces would then not be as those of that one are, it takes what it lacks from those beside it.
///
/// # Errors
/// What a part that no pieces fit goes over, in words.
pub(super) fn parts(stretches: &[Stretch], timber: Timber, is_closed: bool) -> Result<Vec<BeamPart>, String> {
    let laid = Laid { stretches, timber };
    let mut parts: Vec<Draft> =
        (0..stretches.len()).map(|place| Draft { over: vec![place], takes: [0.0; 2] }).collect();
    let apart = timber.joints_apart().in_m();
    while parts.len() > 1
        && let Some(short) = parts.iter().position(|part| laid.length(part) + NEARLY < apart)
    {
        let count = parts.len();
        let beside = [
            (short > 0 || is_closed).then_some((short + count - 1) % count),
            (short + 1 < count || is_closed).then_some((short + 1) % count),
        ];
        let [before, after] = beside.map(|part| part.map_or(0.0, |part| laid.length(&parts[part])));
        let first = if before > after { beside[0].unwrap_or(short) } else { short };
        let next = (first + 1) % count;
        let both = Draft {
            over: [&parts[first].over[..], &parts[next].over].concat(),
            takes: [parts[first].takes[0], parts[next].takes[1]],
        };
        if laid.is_cut_alike(&both) || !laid.taken(&mut parts, short, beside) {
            parts[first] = both;
            parts.remove(next);
        }
    }
    parts.into_iter().map(|part| laid.part(part)).collect()
}

/// A part before it is divided.
struct Draft {
    over: Vec<usize>,
    /// What it takes of the part before and of the one after it, in metres; below zero what it gives to them.
    takes: [f64; 2],
}

/// The stretches, and of what timber.
struct Laid<'a> {
    stretches: &'a [Stretch],
    timber: Timber,
}

/// What binary fractions round, in metres.
const NEARLY: f64 = 1e-9;

impl Laid<'_> {
    fn length(&self, part: &Draft) -> f64 {
        part.over.iter().map(|&place| self.stretches[place].length()).sum::<f64>() + part.takes[0] + part.takes[1]
    }

    fn longest(&self, part: &Draft) -> usize {
        let length = |place: &usize| self.stretches[*place].length();
        part.over.iter().copied().max_by(|a, b| length(a).total_cmp(&length(b))).unwrap_or(0)
    }

    /// Whether its pieces are straight, or sawn as those of its longest stretch alone are: a short corner does not make a long
    /// run one of sawn pieces.
    fn is_cut_alike(&self, part: &Draft) -> bool {
        let own = Draft { over: vec![self.longest(part)], takes: [0.0; 2] };
        let made = |part: &Draft| self.divided(part).map(|part| part.division.made);
        match made(part) {
            Some(Made::Straight) => true,
            Some(Made::Sawn) => made(&own) == Some(Made::Sawn),
            None => false,
        }
    }

    /// Whether what a short part lacks was there to take, half on either side or all on the longer one.
    fn taken(&self, parts: &mut [Draft], short: usize, beside: [Option<usize>; 2]) -> bool {
        let apart = self.timber.joints_apart().in_m();
        let lacks = apart - self.length(&parts[short]);
        let [before, after] = beside.map(|part| part.map_or(0.0, |part| self.length(&parts[part]) - apart));
        let shares = if beside[0] != beside[1] && before.min(after) >= 0.5 * lacks {
            [0.5 * lacks; 2]
        } else if before.max(after) < lacks {
            return false;
        } else if before >= after {
            [lacks, 0.0]
        } else {
            [0.0, lacks]
        };
        for (side, (part, share)) in beside.into_iter().zip(shares).enumerate() {
            if let Some(part) = part {
                parts[part].takes[1 - side] -= share;
            }
            parts[short].takes[side] += share;
        }
        true
    }

    /// The middle of a part, its stretches end to end.
    fn middle(&self, part: &Draft) -> Option<Chain> {
        let [first, last] = [*part.over.first()?, *part.over.last()?];
        let count = self.stretches.len();
        let pieces = |place: usize| self.stretches[place].middle.iter().copied();
        let mut found: Vec<Piece> = part.over.iter().flat_map(|&place| pieces(place)).collect();
        let mut from = -part.takes[0];
        if part.takes[0] > 0.0 {
            let before = (first + count - 1) % count;
            found.splice(0..0, pieces(before));
            from += self.stretches[before].length();
        }
        if part.takes[1] > 0.0 {
            found.extend(pieces((last + 1) % count));
        }
        Chain::of(Chain::of(found)?.part(from, from + self.length(part)))
    }

    fn divided(&self, part: &Draft) -> Option<BeamPart> {
        let middle = self.middle(part)?;
        let longest = self.longest(part);
        let takes = part.takes.map(Length::m);
        let division = Division { pieces: 1, made: Made::Straight };
        let mut divided = BeamPart { over: part.over.clone(), takes, longest, middle, steepest: 0.0, division };
        let touched = divided.touched(self.stretches.len());
        divided.steepest = touched.iter().map(|&place| self.stretches[place].steepest).fold(0.0, f64::max);
        let timber = self.timber.on_slope(wall::slope_growth(divided.steepest).value);
        divided.division = timber.division(divided.measured(self.stretches))?;
        Some(divided)
    }

    fn part(&self, part: Draft) -> Result<BeamPart, String> {
        let names = |over: &[usize]| over.iter().map(|&place| self.stretches[place].words()).collect::<Vec<_>>();
        self.divided(&part).ok_or_else(|| names(&part.over).join(" with "))
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

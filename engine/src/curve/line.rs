//! A plan line, closed or open: named points joined by straight runs, arcs and cubic curves, each corner rounded.

use std::ops::Range;

use kurbo::{Point, Vec2};

use super::chain::Chain;
use super::cubic::Cubic;
use super::fault::LineFault;
use super::piece::Piece;
use super::rounding::{self, Meeting};

/// How a run goes from its named point to the next.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Way {
    /// Straight.
    Straight,
    /// Along the arc through this point.
    Through(Point),
    /// Along the cubic curve with these tangents in the direction of travel, in metres; it is laid out as arcs.
    Curve {
        /// Tangent at this point.
        leave: Vec2,
        /// Tangent at the next point.
        arrive: Vec2,
    },
}

/// A named point of the line and the run that leaves it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Vertex {
    /// Where it is, in metres.
    pub at: Point,
    /// Radius of the rounding where the runs meet at an angle, in metres, above zero.
    pub round: f64,
    /// How the run goes to the next point.
    pub way: Way,
}

/// A run between two named points.
#[derive(Clone, Debug, PartialEq)]
pub struct Run {
    /// From the named point to the next, before rounding: one piece, or many where it follows a cubic curve.
    pub whole: Chain,
    /// Distance from the named point at which the rounding of that corner ends, in metres.
    pub from: f64,
    /// Distance from the named point at which the rounding of the next corner begins, in metres.
    pub to: f64,
    /// The rounding at the named point, where the line turns.
    pub corner: Option<Piece>,
    /// Angle by which the unrounded line turns at the named point, in radians, positive to the left.
    pub turn: f64,
}

/// A place on the line.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Station {
    /// The piece it lies on.
    pub piece: usize,
    /// Distance from that piece's start, in metres.
    pub along: f64,
    /// The point, in metres.
    pub point: Point,
    /// Unit direction of travel; the outside is to its right.
    pub axis: Vec2,
}

impl Station {
    /// The point at an offset to the right of the line here, in metres.
    #[must_use]
    pub fn beside(&self, right: f64) -> Point {
        self.point - self.axis.turn_90() * right
    }
}

/// A line walked with the inside on the left: closed, or open from its first point to its last.
#[derive(Clone, Debug, PartialEq)]
pub struct PlanLine {
    ends: Ends,
    runs: Vec<Run>,
    pieces: Vec<Piece>,
    /// The run that each piece belongs to; a rounding belongs to the run that it leads into.
    owners: Vec<usize>,
    /// Distance along the line at which each piece begins, in metres, and at last its whole length.
    starts: Vec<f64>,
}

/// Whether a line ends.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Ends {
    /// Its last run leads back to the first point.
    Closed,
    /// It ends at its last point, square to the line.
    Open,
}

/// Chord error at which lines are tested for crossing, in metres.
const TEST_CHORD: f64 = 0.002;

impl PlanLine {
    /// The closed line through the points.
    ///
    /// # Errors
    /// The first [`LineFault`], by place in the list.
    pub fn closed(points: &[Vertex]) -> Result<PlanLine, LineFault> {
        let count = points.len();
        let curved = points.iter().filter(|point| point.way != Way::Straight).count();
        if count < 2 || count + curved < 3 {
            return Err(LineFault::TooFew);
        }
        PlanLine::through(points, Ends::Closed)
    }

    /// The open line from the first point to the last, which has no run: its way, and the roundings of both ends, are not read.
    ///
    /// # Errors
    /// The first [`LineFault`], by place in the list.
    pub fn open(points: &[Vertex]) -> Result<PlanLine, LineFault> {
        if points.len() < 2 { Err(LineFault::TooFew) } else { PlanLine::through(points, Ends::Open) }
    }

    fn through(points: &[Vertex], ends: Ends) -> Result<PlanLine, LineFault> {
        let count = points.len();
        let to_last = if ends == Ends::Closed { count } else { count - 1 };
        let mut whole: Vec<Chain> = Vec::with_capacity(to_last);
        for (index, point) in points.iter().enumerate().take(to_last) {
            let next = points[(index + 1) % count].at;
            if point.at.distance(next) < 1e-6 {
                return Err(LineFault::SamePlace(index));
            }
            whole.push(match point.way {
                Way::Straight => Piece::straight(point.at, next).into(),
                Way::Through(through) => {
                    Piece::arc_through(point.at, through, next).ok_or(LineFault::FlatArc(index))?.into()
                }
                Way::Curve { leave, arrive } => Cubic::between(point.at, leave, arrive, next)
                    .map_err(|fault| LineFault::Curve(index, fault))?
                    .laid_out(),
            });
        }
        let unrounded =
            |whole: &Chain| Run { from: 0.0, to: whole.length(), whole: whole.clone(), corner: None, turn: 0.0 };
        let mut runs: Vec<Run> = whole.iter().map(unrounded).collect();
        let unrounded = PlanLine::of_runs(runs.clone(), ends);
        if let Some((a, b)) = unrounded.first_crossing(0.0) {
            return Err(LineFault::Crosses(a, b));
        }
        if ends == Ends::Closed && unrounded.area() < 0.0 {
            return Err(LineFault::Clockwise);
        }
        let first_corner = if ends == Ends::Closed { 0 } else { 1 };
        for index in first_corner..to_last {
            let before = (index + to_last - 1) % to_last;
            runs[index].turn = rounding::turn(&whole[before], &whole[index]);
            match rounding::round(&whole[before], &whole[index], points[index].round) {
                Meeting::Smooth => {}
                Meeting::Rounded(rounding) => {
                    runs[before].to = rounding.leave;
                    runs[index].from = rounding.arrive;
                    runs[index].corner = Some(rounding.arc);
                }
                Meeting::NoRoom => return Err(LineFault::NoRoomToRound(index)),
            }
        }
        if let Some(index) = runs.iter().position(|run| run.from > run.to) {
            return Err(LineFault::RoundingsMeet(index));
        }
        let line = PlanLine::of_runs(runs, ends);
        match line.first_crossing(0.0) {
            Some((a, b)) => Err(LineFault::Crosses(a, b)),
            None => Ok(line),
        }
    }

    fn of_runs(runs: Vec<Run>, ends: Ends) -> PlanLine {
        let (mut pieces, mut owners) = (Vec::new(), Vec::new());
        for (index, run) in runs.iter().enumerate() {
            let rest = if run.to - run.from > 1e-12 { run.whole.part(run.from, run.to) } else { Vec::new() };
            for piece in run.corner.into_iter().chain(rest) {
                pieces.push(piece);
                owners.push(index);
            }
        }
        let mut starts = vec![0.0];
        starts.extend(pieces.iter().scan(0.0, |sum, piece| {
            *sum += piece.length();
            Some(*sum)
        }));
        PlanLine { ends, runs, pieces, owners, starts }
    }

    /// Whether it leads back to its first point.
    #[must_use]
    pub fn is_closed(&self) -> bool {
        self.ends == Ends::Closed
    }

    /// The runs, one for each named point but the last one of an open line.
    #[must_use]
    pub fn runs(&self) -> &[Run] {
        &self.runs
    }

    /// The smooth pieces in order: roundings and what they leave of the runs.
    #[must_use]
    pub fn pieces(&self) -> &[Piece] {
        &self.pieces
    }

    /// The run that a piece belongs to; a rounding belongs to the run that it leads into.
    #[must_use]
    pub fn owner(&self, piece: usize) -> usize {
        self.owners[piece]
    }

    /// Whether a piece is the rounding of a corner.
    #[must_use]
    pub fn is_corner(&self, piece: usize) -> bool {
        self.runs[self.owners[piece]].corner == Some(self.pieces[piece])
    }

    /// Length, in metres.
    #[must_use]
    pub fn length(&self) -> f64 {
        self.starts.last().copied().unwrap_or(0.0)
    }

    /// Distance along the line at which a piece begins, in metres.
    #[must_use]
    pub fn start(&self, piece: usize) -> f64 {
        self.starts[piece]
    }

    /// Angle by which it turns in all, in radians, positive to the left: a whole turn where it is closed.
    #[must_use]
    pub fn turning(&self) -> f64 {
        match self.ends {
            Ends::Closed => std::f64::consts::TAU,
            Ends::Open => self.pieces.iter().map(Piece::turning).sum(),
        }
    }

    /// Angle by which it turns between two distances along it, in metres, in radians, positive to the left; past the end of a
    /// closed line it goes round again.
    #[must_use]
    pub fn turning_between(&self, [from, to]: [f64; 2]) -> f64 {
        let turns = if self.is_closed() { vec![0.0, self.length()] } else { vec![0.0] };
        let pieces = self.pieces.iter().enumerate().filter(|(_, on)| on.turning() != 0.0);
        pieces
            .flat_map(|(piece, on)| turns.iter().map(move |turn| (self.starts[piece] + turn, on)))
            .map(|(start, on)| ((start + on.length()).min(to) - start.max(from)).max(0.0) * on.curvature())
            .sum()
    }

    /// Enclosed area of a closed line, in m²; negative when the line goes round with the inside on the right.
    #[must_use]
    pub fn area(&self) -> f64 {
        let origin = self.pieces.first().map_or(Point::ORIGIN, |piece| piece.start);
        self.pieces.iter().map(|piece| piece.area_under(origin, Vec2::new(1.0, 0.0))).sum()
    }

    /// The place on the rounded line nearest to a distance, in metres, along an unrounded run; `None` past its ends.
    #[must_use]
    pub fn station(&self, run: usize, along: f64) -> Option<Station> {
        let whole = &self.runs.get(run)?.whole;
        if !(0.0..=whole.length()).contains(&along) {
            return None;
        }
        // What rounding trims from a run lies nearest to the rounding at that end of it.
        let next = match self.ends {
            Ends::Closed => self.of_run((run + 1) % self.runs.len()),
            Ends::Open => self.of_run(run + 1),
        };
        let near = self.of_run(run).chain(next);
        Some(self.nearest_among(near, whole.at(along)))
    }

    /// The place on the rounded line nearest to a named point; the last one of an open line is its end.
    #[must_use]
    pub fn named_point(&self, index: usize) -> Station {
        self.station(index, 0.0).unwrap_or_else(|| self.at(self.length()))
    }

    /// The pieces that belong to a run.
    fn of_run(&self, run: usize) -> Range<usize> {
        self.owners.partition_point(|&owner| owner < run)..self.owners.partition_point(|&owner| owner <= run)
    }

    /// The place on the line nearest to a point, in metres.
    #[must_use]
    pub fn nearest(&self, point: Point) -> Station {
        self.nearest_among(0..self.pieces.len(), point)
    }

    fn nearest_among(&self, pieces: impl Iterator<Item = usize>, point: Point) -> Station {
        let stations = pieces.map(|piece| {
            let on = &self.pieces[piece];
            let along = on.nearest(point);
            Station { piece, along, point: on.at(along), axis: on.direction(along) }
        });
        let first = Station { piece: 0, along: 0.0, point, axis: Vec2::new(1.0, 0.0) };
        stations.min_by(|a, b| a.point.distance(point).total_cmp(&b.point.distance(point))).unwrap_or(first)
    }

    /// The pieces that two distances along the line have between them, by place; a closed line goes round again.
    #[must_use]
    pub fn pieces_between(&self, [from, to]: [f64; 2]) -> Vec<usize> {
        let count = self.pieces.len();
        let (first, last) = (self.at(from).piece, self.at(to).piece);
        (0..=(last + count - first) % count).map(|step| (first + step) % count).collect()
    }

    /// The place at a distance along the line from its start, in metres; a closed line goes round again, an open one ends.
    #[must_use]
    pub fn at(&self, along: f64) -> Station {
        let along = match self.ends {
            Ends::Closed => along.rem_euclid(self.length()),
            Ends::Open => along.clamp(0.0, self.length()),
        };
        let piece = self.starts[1..].partition_point(|&end| end <= along).min(self.pieces.len() - 1);
        let on = &self.pieces[piece];
        let along = along - self.starts[piece];
        Station { piece, along, point: on.at(along), axis: on.direction(along) }
    }

    /// Distance along the line from its first named point, of a place at a distance from its start, in metres; a closed line
    /// goes round.
    #[must_use]
    pub fn from_first_point(&self, along: f64) -> f64 {
        match self.ends {
            Ends::Closed => (along - self.along_line(self.named_point(0))).rem_euclid(self.length()),
            Ends::Open => along,
        }
    }

    /// Distance along the line from its start to a place on it, in metres.
    #[must_use]
    pub fn along_line(&self, station: Station) -> f64 {
        self.starts[station.piece] + station.along
    }
}

mod apart;
mod crossed;
mod outline;

pub use apart::Nearest;

#[cfg(test)]
mod tests;

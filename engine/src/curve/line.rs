//! A closed plan line: named points joined by straight runs and arcs, each corner rounded.

use std::ops::Range;

use kurbo::{Point, Rect, Vec2};

use super::piece::{Bend, Piece};
use super::rounding::{self, Meeting};
use crate::solve::crossing;

/// How a run goes from its named point to the next.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Way {
    /// Straight.
    Straight,
    /// Along the arc through this point.
    Through(Point),
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

/// Why points do not make a line. Numbers are places in the list of points.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum LineFault {
    /// Two points with arcs, or three, are the least.
    TooFew,
    /// A point lies on the next one.
    SamePlace(usize),
    /// The three points of an arc lie on one straight line.
    FlatArc(usize),
    /// No circle of its radius fits the corner at this point.
    NoRoomToRound(usize),
    /// The roundings at both ends of the run from this point are longer than the run.
    RoundingsMeet(usize),
    /// Two runs cross or touch.
    Crosses(usize, usize),
    /// The line goes round with the room on the right.
    Clockwise,
}

impl LineFault {
    /// The fault in words; points are counted from 1.
    #[must_use]
    pub fn in_words(self) -> String {
        match self {
            LineFault::TooFew => "there are too few of them to go round a room".into(),
            LineFault::SamePlace(at) => format!("point {} lies on the next one", at + 1),
            LineFault::FlatArc(at) => format!("the arc from point {} passes through a point on its chord", at + 1),
            LineFault::NoRoomToRound(at) => format!("the rounding at point {} does not fit", at + 1),
            LineFault::RoundingsMeet(at) => format!("the roundings at both ends of the run from point {} meet", at + 1),
            LineFault::Crosses(a, b) => format!("the runs from points {} and {} cross", a + 1, b + 1),
            LineFault::Clockwise => "they go round with the room on the right".into(),
        }
    }
}

/// A run between two named points.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Run {
    /// From the named point to the next, before rounding.
    pub whole: Piece,
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

/// A closed line walked with the inside on the left.
#[derive(Clone, Debug, PartialEq)]
pub struct PlanLine {
    runs: Vec<Run>,
    pieces: Vec<Piece>,
    /// The run that each piece belongs to; a rounding belongs to the run that it leads into.
    owners: Vec<usize>,
    /// Distance along the line at which each piece begins, in metres, and at last its whole length.
    starts: Vec<f64>,
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
        let arcs = points.iter().filter(|point| point.way != Way::Straight).count();
        if count < 2 || count + arcs < 3 {
            return Err(LineFault::TooFew);
        }
        let mut whole = Vec::with_capacity(count);
        for (index, point) in points.iter().enumerate() {
            let next = points[(index + 1) % count].at;
            if point.at.distance(next) < 1e-6 {
                return Err(LineFault::SamePlace(index));
            }
            whole.push(match point.way {
                Way::Straight => Piece::straight(point.at, next),
                Way::Through(through) => {
                    Piece::arc_through(point.at, through, next).ok_or(LineFault::FlatArc(index))?
                }
            });
        }
        let mut runs: Vec<Run> =
            whole.iter().map(|&whole| Run { whole, from: 0.0, to: whole.length(), corner: None, turn: 0.0 }).collect();
        let unrounded = PlanLine::of_runs(runs.clone());
        if let Some((a, b)) = unrounded.first_crossing(0.0) {
            return Err(LineFault::Crosses(a, b));
        }
        if unrounded.area() < 0.0 {
            return Err(LineFault::Clockwise);
        }
        for (index, point) in points.iter().enumerate() {
            let before = (index + count - 1) % count;
            runs[index].turn = rounding::turn(&whole[before], &whole[index]);
            match rounding::round(&whole[before], &whole[index], point.round) {
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
        let line = PlanLine::of_runs(runs);
        match line.first_crossing(0.0) {
            Some((a, b)) => Err(LineFault::Crosses(a, b)),
            None => Ok(line),
        }
    }

    fn of_runs(runs: Vec<Run>) -> PlanLine {
        let (mut pieces, mut owners) = (Vec::new(), Vec::new());
        for (index, run) in runs.iter().enumerate() {
            let straight_on = (run.to - run.from > 1e-12).then(|| run.whole.part(run.from, run.to));
            for piece in run.corner.into_iter().chain(straight_on) {
                pieces.push(piece);
                owners.push(index);
            }
        }
        let mut starts = vec![0.0];
        starts.extend(pieces.iter().scan(0.0, |sum, piece| {
            *sum += piece.length();
            Some(*sum)
        }));
        PlanLine { runs, pieces, owners, starts }
    }

    /// The runs, one for each named point.
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

    /// Enclosed area, in m²; negative when the line goes round with the inside on the right.
    #[must_use]
    pub fn area(&self) -> f64 {
        let origin = self.pieces.first().map_or(Point::ORIGIN, |piece| piece.start);
        self.pieces.iter().map(|piece| piece.area_under(origin, Vec2::new(1.0, 0.0))).sum()
    }

    /// Mean of the corners of the flattened line weighted by area: the centre of the enclosed area, in metres.
    #[must_use]
    pub fn centre(&self) -> Point {
        let points = self.outline(0.0, TEST_CHORD);
        let origin = points[0];
        let (mut sum, mut area) = (Vec2::ZERO, 0.0);
        for (index, point) in points.iter().enumerate() {
            let (a, b) = (*point - origin, points[(index + 1) % points.len()] - origin);
            let twice = a.cross(b);
            sum += (a + b) * (twice / 3.0);
            area += twice;
        }
        origin + sum / area
    }

    /// The first piece whose offset, to the right when positive, in metres, would fold back on itself.
    #[must_use]
    pub fn first_fold(&self, right: f64) -> Option<usize> {
        self.pieces.iter().position(|piece| 1.0 + piece.curvature() * right < 1e-6)
    }

    /// The first two runs whose offsets, to the right when positive, in metres, cross or touch.
    #[must_use]
    pub fn first_crossing(&self, right: f64) -> Option<(usize, usize)> {
        let (mut points, mut owners) = (Vec::new(), Vec::new());
        for (piece, &owner) in self.pieces.iter().zip(&self.owners) {
            points.extend(piece.offset(right).flatten(TEST_CHORD));
            owners.resize(points.len(), owner);
        }
        crossing::first_crossing(&points).map(|(a, b)| (owners[a], owners[b]))
    }

    /// The closed polyline at an offset to the right, no farther from the true curve than `chord_error`, in metres.
    #[must_use]
    pub fn outline(&self, right: f64, chord_error: f64) -> Vec<Point> {
        self.pieces.iter().flat_map(|piece| piece.offset(right).flatten(chord_error).collect::<Vec<_>>()).collect()
    }

    /// The smallest upright box round the line at an offset to the right, in metres, with the piece that reaches each of
    /// its sides: left, bottom, right, top.
    #[must_use]
    pub fn extent(&self, right: f64) -> (Rect, [usize; 4]) {
        let ([x0, x1], [left, right_by]) = self.reach(right, Vec2::new(1.0, 0.0));
        let ([y0, y1], [low, high]) = self.reach(right, Vec2::new(0.0, 1.0));
        (Rect::new(x0, y0, x1, y1), [left, low, right_by, high])
    }

    /// The least and the largest coordinate, in metres along a unit direction, of the line at an offset, and the pieces
    /// that reach so far.
    #[must_use]
    pub fn reach(&self, right: f64, along: Vec2) -> ([f64; 2], [usize; 2]) {
        let (mut reach, mut by) = ([f64::INFINITY, f64::NEG_INFINITY], [0; 2]);
        for (index, piece) in self.pieces.iter().enumerate() {
            for point in extremes(&piece.offset(right), along) {
                let value = point.to_vec2().dot(along);
                if value < reach[0] {
                    (reach[0], by[0]) = (value, index);
                }
                if value > reach[1] {
                    (reach[1], by[1]) = (value, index);
                }
            }
        }
        (reach, by)
    }

    /// The place on the rounded line nearest to a distance, in metres, along an unrounded run; `None` past its ends.
    #[must_use]
    pub fn station(&self, run: usize, along: f64) -> Option<Station> {
        let whole = self.runs.get(run)?.whole;
        if !(0.0..=whole.length()).contains(&along) {
            return None;
        }
        // What rounding trims from a run lies nearest to the rounding at that end of it.
        let next = (run + 1) % self.runs.len();
        let near = self.of_run(run).chain(self.of_run(next));
        Some(self.nearest_among(near, whole.at(along)))
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

    /// Distance along the line of the place nearest to a named point, in metres.
    #[must_use]
    pub fn named(&self, point: usize) -> f64 {
        let last = self.runs.len().saturating_sub(1);
        let station = match self.runs.get(point) {
            Some(_) => self.station(point, 0.0),
            None => self.station(last, self.runs[last].whole.length()),
        };
        station.map_or(0.0, |station| self.along_line(station))
    }

    /// Whether its end is its start.
    #[must_use]
    pub fn is_closed(&self) -> bool {
        true
    }

    /// The place at a distance along the line from its start, in metres; a closed line goes round again.
    #[must_use]
    pub fn at(&self, along: f64) -> Station {
        let along = along.rem_euclid(self.length());
        let piece = self.starts[1..].partition_point(|&end| end <= along).min(self.pieces.len() - 1);
        let on = &self.pieces[piece];
        let along = along - self.starts[piece];
        Station { piece, along, point: on.at(along), axis: on.direction(along) }
    }

    /// Distance along the line from its start to a place on it, in metres.
    #[must_use]
    pub fn along_line(&self, station: Station) -> f64 {
        self.starts[station.piece] + station.along
    }
}

fn extremes(piece: &Piece, along: Vec2) -> Vec<Point> {
    let mut points = vec![piece.start, piece.end];
    if let Bend::Arc { centre, .. } = piece.bend {
        let radius = piece.start.distance(centre);
        for side in [along, -along] {
            let point = centre + side * radius;
            if piece.at(piece.nearest(point)).distance(point) < 1e-9 {
                points.push(point);
            }
        }
    }
    points
}

#[cfg(test)]
mod tests;

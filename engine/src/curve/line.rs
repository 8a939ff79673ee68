//! A closed plan line: named points joined by straight runs and arcs, each corner rounded.

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
        PlanLine { runs, pieces, owners }
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
        self.pieces.iter().map(Piece::length).sum()
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
        Some(self.nearest(whole.at(along)))
    }

    /// The place on the line nearest to a point, in metres.
    #[must_use]
    pub fn nearest(&self, point: Point) -> Station {
        let stations = self.pieces.iter().enumerate().map(|(piece, on)| {
            let along = on.nearest(point);
            Station { piece, along, point: on.at(along), axis: on.direction(along) }
        });
        let first = Station { piece: 0, along: 0.0, point, axis: Vec2::new(1.0, 0.0) };
        stations.min_by(|a, b| a.point.distance(point).total_cmp(&b.point.distance(point))).unwrap_or(first)
    }

    /// Distance along the line from its start to a place on it, in metres.
    #[must_use]
    pub fn along_line(&self, station: Station) -> f64 {
        self.pieces[..station.piece].iter().map(Piece::length).sum::<f64>() + station.along
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
mod tests {
    use super::*;
    use std::f64::consts::PI;

    fn vertex(x: f64, y: f64, way: Way) -> Vertex {
        Vertex { at: Point::new(x, y), round: 0.5, way }
    }

    fn ring() -> PlanLine {
        let through = |x, y| Way::Through(Point::new(x, y));
        PlanLine::closed(&[vertex(2.0, 0.0, through(0.0, 2.0)), vertex(-2.0, 0.0, through(0.0, -2.0))]).unwrap()
    }

    fn room(round: f64) -> Result<PlanLine, LineFault> {
        let corners = [(0.0, 0.0), (4.0, 0.0), (4.0, 3.0), (0.0, 3.0)];
        PlanLine::closed(&corners.map(|(x, y)| Vertex { at: Point::new(x, y), round, way: Way::Straight }))
    }

    #[test]
    fn a_ring_of_two_arcs_has_the_length_and_area_of_its_circle() {
        assert!((ring().length() - 4.0 * PI).abs() < 1e-12);
        assert!((ring().area() - 4.0 * PI).abs() < 1e-12);
        assert_eq!(ring().pieces().len(), 2, "tangent arcs need no rounding");
    }

    #[test]
    fn a_rounded_rectangle_loses_four_minus_pi_radius_squared() {
        let line = room(0.5).unwrap();
        assert!((line.area() - (12.0 - (4.0 - PI) * 0.25)).abs() < 1e-12);
        assert!((line.length() - (14.0 - 8.0 * 0.5 + PI)).abs() < 1e-12);
        assert!((line.centre() - Point::new(2.0, 1.5)).hypot() < 1e-9);
    }

    #[test]
    fn faults_name_the_point() {
        let straight = |list: &[(f64, f64)]| {
            let points: Vec<Vertex> = list.iter().map(|&(x, y)| vertex(x, y, Way::Straight)).collect();
            PlanLine::closed(&points).unwrap_err()
        };
        assert_eq!(straight(&[(0., 0.), (4., 0.)]), LineFault::TooFew);
        assert_eq!(straight(&[(0., 0.), (4., 0.), (4., 0.), (0., 3.)]), LineFault::SamePlace(1));
        assert_eq!(straight(&[(0., 0.), (0., 3.), (4., 3.), (4., 0.)]), LineFault::Clockwise);
        assert!(matches!(straight(&[(0., 0.), (4., 4.), (4., 0.), (0., 4.)]), LineFault::Crosses(..)));
        assert!(matches!(room(1.6), Err(LineFault::RoundingsMeet(_))));
        assert!(matches!(room(3.5), Err(LineFault::NoRoomToRound(_))));
    }

    #[test]
    fn a_station_past_the_end_of_its_run_is_none_and_one_in_a_corner_lies_on_the_rounding() {
        let line = room(0.5).unwrap();
        assert!(line.station(0, 4.01).is_none());
        let station = line.station(0, 3.9).unwrap();
        assert!(line.is_corner(station.piece));
        assert!((line.station(0, 2.0).unwrap().axis - Vec2::new(1.0, 0.0)).hypot() < 1e-12);
    }

    #[test]
    fn an_offset_folds_where_it_passes_the_radius() {
        let line = room(0.5).unwrap();
        assert_eq!(line.first_fold(-0.49), None);
        assert_eq!(line.first_fold(-0.51), Some(0));
    }

    #[test]
    fn the_extent_of_a_ring_is_its_diameter_with_the_wall() {
        let (extent, by) = ring().extent(0.25);
        assert!((extent.width() - 4.5).abs() < 1e-12 && (extent.height() - 4.5).abs() < 1e-12);
        assert_eq!((by[1], by[3]), (1, 0), "the lower arc reaches the bottom, the upper the top");
    }
}

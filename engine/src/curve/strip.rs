//! What a straight strip across the wall, as wide as an opening and square to it, cuts out of the faces of the wall.

use kurbo::Vec2;

use super::line::{PlanLine, Station};
use super::piece::{Bend, Piece};

/// The strip of an opening: a frame on the line and a half width, in metres.
#[derive(Clone, Copy, Debug)]
pub struct Strip<'a> {
    line: &'a PlanLine,
    station: Station,
    half_width: f64,
}

impl<'a> Strip<'a> {
    /// The strip of a given width, in metres, with its middle at a station and its sides parallel; `None` when the wall
    /// turns away from the strip at an offset in metres to the right or to the left, so that a side never meets the face.
    #[must_use]
    pub fn across(line: &'a PlanLine, station: Station, width: f64, offsets: [f64; 2]) -> Option<Strip<'a>> {
        let strip = Strip { line, station, half_width: 0.5 * width };
        offsets.iter().chain(&[0.0]).all(|&offset| strip.try_face(offset).is_some()).then_some(strip)
    }

    /// The part of the face at an offset to the right, in metres, that lies inside the strip, in the direction of travel.
    #[must_use]
    pub fn face(&self, right: f64) -> Vec<Piece> {
        self.try_face(right).unwrap_or_default()
    }

    /// The pieces of the line that the strip touches, at any of the offsets given.
    #[must_use]
    pub fn touches(&self, offsets: [f64; 2]) -> Vec<usize> {
        let mut touched: Vec<usize> = offsets
            .iter()
            .filter_map(|&offset| Some([self.reach(offset, -1.0)?.0, self.reach(offset, 1.0)?.0]))
            .flat_map(|[first, last]| self.between(first, last))
            .collect();
        touched.sort_unstable();
        touched.dedup();
        touched
    }

    /// Area of the wall between two offsets to the right, in metres, inside the strip, in m².
    #[must_use]
    pub fn area(&self, inner: f64, outer: f64) -> f64 {
        let under = |offset: f64| -> f64 {
            self.face(offset).iter().map(|piece| piece.area_under(self.station.point, self.station.axis)).sum()
        };
        under(outer) - under(inner)
    }

    /// Length of the face at an offset to the right, in metres, inside the strip.
    #[must_use]
    pub fn face_length(&self, right: f64) -> f64 {
        self.face(right).iter().map(Piece::length).sum()
    }

    /// Depth of the two sides of the strip between two offsets to the right, in metres: at its start, at its end.
    #[must_use]
    pub fn side_depths(&self, inner: f64, outer: f64) -> [f64; 2] {
        let right = -self.station.axis.turn_90();
        let ends = |offset: f64| -> Option<[f64; 2]> {
            let face = self.face(offset);
            let depth = |point: kurbo::Point| (point - self.station.point).dot(right);
            Some([depth(face.first()?.start), depth(face.last()?.end)])
        };
        match (ends(inner), ends(outer)) {
            (Some(inner), Some(outer)) => [outer[0] - inner[0], outer[1] - inner[1]],
            _ => [0.0; 2],
        }
    }

    /// Distances along the line from its start to where the two sides of the strip meet the face at an offset to the right,
    /// in metres; the second is the larger, past the line's length where the strip lies across its start.
    #[must_use]
    pub fn along_line(&self, right: f64) -> [f64; 2] {
        let place = |direction: f64| -> f64 {
            let Some((piece, stop)) = self.reach(right, direction) else { return 0.0 };
            self.line.start(piece) + stop / self.moved(piece, right).1
        };
        let (start, end) = (place(-1.0), place(1.0));
        [start, if end < start { end + self.line.length() } else { end }]
    }

    fn try_face(&self, right: f64) -> Option<Vec<Piece>> {
        let (first, from) = self.reach(right, -1.0)?;
        let (last, to) = self.reach(right, 1.0)?;
        let part = |index: usize| {
            let piece = self.moved(index, right).0;
            let begin = if index == first { from } else { 0.0 };
            piece.part(begin, if index == last { to } else { piece.length() })
        };
        Some(self.between(first, last).map(part).collect())
    }

    /// The piece, and the distance along its moved self, at which the face reaches one side of the strip.
    fn reach(&self, right: f64, direction: f64) -> Option<(usize, f64)> {
        let count = self.line.pieces().len();
        let target = direction * self.half_width;
        let axis = self.station.axis;
        for step in 0..count {
            let index = if direction > 0.0 {
                (self.station.piece + step) % count
            } else {
                (self.station.piece + count - step) % count
            };
            let (piece, scale) = self.moved(index, right);
            let length = piece.length();
            let middle = self.station.along * scale;
            let (from, to) = match (step, direction > 0.0) {
                (0, true) => (middle, length),
                (0, false) => (0.0, middle),
                _ => (0.0, length),
            };
            let place = |distance: f64| (piece.at(distance) - self.station.point).dot(axis);
            let far = if direction > 0.0 { to } else { from };
            let ahead = |distance: f64| piece.direction(distance).dot(axis) > 1e-6;
            if !ahead(if direction > 0.0 { from } else { to }) {
                return None;
            }
            if ahead(far) && (place(far) - target) * direction < 0.0 {
                continue;
            }
            return self
                .meets(&piece, target)
                .filter(|at| (from - 1e-9..=to + 1e-9).contains(at))
                .map(|at| (index, at));
        }
        None
    }

    /// Distance along a piece, travelling with the axis, at which it stands `target` metres along the axis.
    fn meets(&self, piece: &Piece, target: f64) -> Option<f64> {
        let axis = self.station.axis;
        match piece.bend {
            Bend::Straight => {
                Some((target - (piece.start - self.station.point).dot(axis)) / piece.direction(0.0).dot(axis))
            }
            Bend::Arc { centre, sweep } => {
                let spoke: Vec2 = piece.start - centre;
                let radius = spoke.hypot();
                let cosine = (target - (centre - self.station.point).dot(axis)) / radius;
                if !(-1.0..=1.0).contains(&cosine) {
                    return None;
                }
                let side = sweep.signum();
                let begin = axis.cross(spoke).atan2(axis.dot(spoke));
                let angle = side * (-side * cosine.acos() - begin);
                Some(radius * near_zero(angle, sweep.abs()))
            }
        }
    }

    fn moved(&self, index: usize, right: f64) -> (Piece, f64) {
        let piece = &self.line.pieces()[index];
        (piece.offset(right), 1.0 + piece.curvature() * right)
    }

    fn between(&self, first: usize, last: usize) -> impl Iterator<Item = usize> + use<> {
        let count = self.line.pieces().len();
        (0..=(last + count - first) % count).map(move |step| (first + step) % count)
    }
}

/// The angle plus whole turns that lies in 0..=sweep, or as near to it as a rounding error.
fn near_zero(angle: f64, sweep: f64) -> f64 {
    let turn = std::f64::consts::TAU;
    let wrapped = angle.rem_euclid(turn);
    if wrapped > sweep && turn - wrapped < wrapped - sweep { wrapped - turn } else { wrapped }
}

#[cfg(test)]
mod tests {
    use super::super::line::{Vertex, Way};
    use super::*;
    use kurbo::Point;

    fn ring(radius: f64) -> PlanLine {
        let vertex =
            |x: f64, y: f64| Vertex { at: Point::new(x, 0.0), round: 0.5, way: Way::Through(Point::new(0.0, y)) };
        PlanLine::closed(&[vertex(radius, radius), vertex(-radius, -radius)]).unwrap()
    }

    /// Area between two circles inside a strip through their centre line: twice the integral of the half chords.
    fn between_circles(half: f64, inner: f64, outer: f64) -> f64 {
        let half_segment = |r: f64| half * (r * r - half * half).sqrt() + r * r * (half / r).asin();
        half_segment(outer) - half_segment(inner)
    }

    #[test]
    fn a_strip_through_a_ring_cuts_the_closed_form_even_across_a_joint() {
        let line = ring(2.0);
        let length = line.runs()[0].whole.length();
        for along in [0.5 * length, 0.1, length] {
            let station = line.station(0, along).unwrap();
            let strip = Strip::across(&line, station, 0.9, [-0.25, 0.25]).unwrap();
            let area = strip.area(-0.25, 0.25);
            assert!((area - between_circles(0.45, 1.75, 2.25)).abs() < 1e-12, "{along}: {area}");
            assert!((strip.face_length(0.25) - 2.0 * 2.25 * (0.45f64 / 2.25).asin()).abs() < 1e-12);
            let depth = (2.25f64 * 2.25 - 0.2025).sqrt() - (1.75f64 * 1.75 - 0.2025).sqrt();
            assert!(strip.side_depths(-0.25, 0.25).iter().all(|side| (side - depth).abs() < 1e-12));
        }
    }

    #[test]
    fn a_strip_on_a_straight_run_is_width_times_thickness() {
        let corners = [(0.0, 0.0), (4.0, 0.0), (4.0, 3.0), (0.0, 3.0)];
        let line =
            PlanLine::closed(&corners.map(|(x, y)| Vertex { at: Point::new(x, y), round: 0.5, way: Way::Straight }));
        let line = line.unwrap();
        let strip = Strip::across(&line, line.station(0, 2.0).unwrap(), 1.0, [-0.2, 0.2]).unwrap();
        assert!((strip.area(-0.2, 0.2) - 0.4).abs() < 1e-12);
        assert_eq!(strip.touches([-0.2, 0.2]), [1]);
        let across_corner = Strip::across(&line, line.station(0, 3.2).unwrap(), 1.0, [-0.2, 0.2]).unwrap();
        assert_eq!(across_corner.touches([-0.2, 0.2]), [1, 2]);
    }

    #[test]
    fn a_strip_wider_than_the_ring_meets_no_face() {
        let line = ring(1.0);
        let station = line.station(0, 1.0).unwrap();
        assert!(Strip::across(&line, station, 1.6, [-0.25, 0.25]).is_none());
        assert!(Strip::across(&line, station, 1.4, [-0.25, 0.25]).is_some());
    }
}

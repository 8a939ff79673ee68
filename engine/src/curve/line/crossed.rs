//! Where a straight line in plan crosses the faces of a body on a plan line.

use kurbo::{Point, Vec2};

use super::PlanLine;
use crate::curve::piece::Piece;

impl PlanLine {
    /// Where the line at an offset to the right, in metres, crosses the straight line through `origin` along `axis`: distances
    /// along that line, in order; an even number of them where this one is closed.
    #[must_use]
    pub fn crossings(&self, right: f64, origin: Point, axis: Vec2) -> Vec<f64> {
        let mut places = crossed(&self.face(right), self.is_closed(), origin, axis);
        places.sort_by(f64::total_cmp);
        places
    }

    /// Pairs of distances along the straight line through `origin` along `axis` between which it passes through a body
    /// between two offsets to the right of this one, in metres, in order.
    #[must_use]
    pub fn passages(&self, inner: f64, outer: f64, origin: Point, axis: Vec2) -> Vec<[f64; 2]> {
        let faces = [inner, outer].map(|offset| self.face(offset));
        let mut places: Vec<f64> =
            faces.iter().flat_map(|face| crossed(face, self.is_closed(), origin, axis)).collect();
        places.extend(self.end_faces(inner, outer).iter().flat_map(|end| end.crossings(origin, axis)));
        places.sort_by(f64::total_cmp);
        places.chunks_exact(2).map(|pair| [pair[0], pair[1]]).collect()
    }

    fn face(&self, right: f64) -> Vec<Piece> {
        self.pieces.iter().map(|piece| piece.offset(right)).collect()
    }
}

fn crossed(face: &[Piece], is_closed: bool, origin: Point, axis: Vec2) -> Vec<f64> {
    let next = |place: usize| match face.get(place + 1) {
        Some(next) => next.start,
        None if is_closed => face[0].start,
        None => face[place].end,
    };
    let of = |(place, piece): (usize, &Piece)| piece.crossings_before(next(place), origin, axis);
    face.iter().enumerate().flat_map(of).collect()
}

#[cfg(test)]
#[allow(clippy::unwrap_used, reason = "a test stops at the first surprise")]
mod tests {
    use super::*;
    use crate::curve::{Vertex, Way};

    fn corner(x: f64, y: f64) -> Vertex {
        Vertex { at: Point::new(x, y), round: 0.5, way: Way::Straight }
    }

    #[test]
    fn a_line_along_a_straight_run_passes_through_the_wall_from_end_to_end_and_one_in_its_face_counts_even() {
        let corners = [corner(0.0, 0.0), corner(4.0, 0.0), corner(4.0, 3.0), corner(0.0, 3.0)];
        let closed = PlanLine::closed(&corners).unwrap();
        let east = Vec2::new(1.0, 0.0);
        let along = closed.passages(-0.2, 0.2, Point::ORIGIN, east);
        assert_eq!(along.len(), 1);
        assert!(along[0][0] < 0.2 && along[0][1] > 3.8, "{along:?}");
        for level in [-0.2, 0.2, 2.8, 3.2, -0.2 + 1e-15, 0.2 - 1e-15, -0.3, 3.3] {
            for offset in [-0.2, 0.0, 0.2] {
                let places = closed.crossings(offset, Point::new(1.0, level), east);
                assert!(places.len().is_multiple_of(2), "{level}, {offset}: {places:?}");
            }
        }
        let open = PlanLine::open(&corners[..2]).unwrap();
        assert_eq!(open.passages(-0.2, 0.2, Point::ORIGIN, east), [[0.0, 4.0]]);
        for x in [0.0, 4.0, 2.0, -1e-16, 4.0 + 1e-15] {
            let found = open.passages(-0.2, 0.2, Point::new(x, 0.0), Vec2::new(0.0, 1.0));
            assert!(found.iter().all(|[from, to]| (from + 0.2).abs() < 1e-12 && (to - 0.2).abs() < 1e-12), "{found:?}");
        }
    }

    #[test]
    fn a_line_that_touches_a_ring_crosses_it_twice_in_one_place_or_never() {
        let half = |x: f64| Vertex { at: Point::new(x, 0.0), round: 1.0, way: Way::Through(Point::new(0.0, x)) };
        let ring = PlanLine::closed(&[half(2.0), half(-2.0)]).unwrap();
        for turn in 0..360 {
            let along = Vec2::from_angle(f64::from(turn).to_radians());
            let places = ring.crossings(0.2, Point::ORIGIN + along.turn_90() * 2.2, along);
            assert!(places.is_empty() || places.len() == 2 && places[1] - places[0] < 1e-6, "{places:?}");
            let through = ring.crossings(0.2, Point::ORIGIN, along);
            assert!((through[0] + 2.2).abs() < 1e-12 && (through[1] - 2.2).abs() < 1e-12, "{through:?}");
        }
    }
}

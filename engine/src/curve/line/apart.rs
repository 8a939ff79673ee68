//! How far a plan line is from a straight side beside it.

use kurbo::Point;

use super::PlanLine;
use crate::curve::piece::{Bend, Piece};
use crate::solve::polygon::nearest_on;

/// The place at which a plan line comes nearest to something beside it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Nearest {
    /// Metres between them; 0 where they cross.
    pub apart: f64,
    /// The piece of the line.
    pub piece: usize,
    /// The point of the line.
    pub on: Point,
    /// The point of the other.
    pub beside: Point,
}

impl PlanLine {
    /// Where the line comes nearest to a straight side, in metres; to a point when both ends are the same. An open line is
    /// taken without its thickness.
    #[must_use]
    pub fn nearest_to(&self, side: [Point; 2]) -> Option<Nearest> {
        let pieces = self.pieces().iter().enumerate();
        let places = pieces.flat_map(|(piece, of)| {
            candidates(of, side).into_iter().map(move |on| {
                let beside = nearest_on(side, on);
                Nearest { apart: on.distance(beside), piece, on, beside }
            })
        });
        places.min_by(|a, b| a.apart.total_cmp(&b.apart))
    }
}

/// The points of a piece among which its nearest to a straight side is found: its ends, the nearest to either end of the
/// side, the summits of an arc towards the side, and where they cross.
fn candidates(piece: &Piece, [from, to]: [Point; 2]) -> Vec<Point> {
    let mut points = vec![piece.start, piece.end];
    points.extend([from, to].map(|end| piece.at(piece.nearest(end))));
    if from.distance(to) < 1e-9 {
        return points;
    }
    let along = (to - from).normalize();
    if let Bend::Arc { centre, .. } = piece.bend {
        let radius = piece.start.distance(centre);
        let summits = [along.turn_90(), -along.turn_90()].map(|way| centre + way * radius);
        points.extend(summits.into_iter().filter(|&summit| piece.at(piece.nearest(summit)).distance(summit) < 1e-9));
    }
    let crossings = piece.crossings(from, along).into_iter();
    points.extend(crossings.filter(|at| (0.0..=from.distance(to)).contains(at)).map(|at| from + along * at));
    points
}

#[cfg(test)]
#[allow(clippy::unwrap_used, reason = "a test stops at the first surprise")]
mod tests {
    use super::*;
    use crate::curve::{Vertex, Way};

    fn ring() -> PlanLine {
        let vertex = |x: f64, through: f64| Vertex {
            at: Point::new(x, 0.0),
            round: 0.4,
            way: Way::Through(Point::new(0.0, through)),
        };
        PlanLine::closed(&[vertex(2.0, 2.0), vertex(-2.0, -2.0)]).unwrap()
    }

    #[test]
    fn a_ring_is_as_far_from_a_side_as_its_middle_less_its_radius() {
        let away = |from: (f64, f64), to: (f64, f64)| {
            ring().nearest_to([Point::new(from.0, from.1), Point::new(to.0, to.1)]).unwrap().apart
        };
        assert!((away((-9.0, 5.0), (9.0, 5.0)) - 3.0).abs() < 1e-12);
        assert!((away((0.0, 7.0), (7.0, 0.0)) - (7.0 / 2f64.sqrt() - 2.0)).abs() < 1e-12);
        assert!((away((6.0, 8.0), (6.0, 8.0)) - 8.0).abs() < 1e-12);
        assert!((away((3.0, 4.0), (9.0, 12.0)) - 3.0).abs() < 1e-12);
        assert!(away((-5.0, 1.0), (5.0, 1.0)) < 1e-12, "it crosses");
    }
}

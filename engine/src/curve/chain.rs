//! A run as a chain of pieces, each leaving in the direction in which the one before arrives.

use kurbo::{Point, Vec2};

use super::piece::Piece;

/// What is shorter than this, in metres, is left out where a chain is parted: no direction can be told from it.
const NOTHING: f64 = 1e-9;

/// Pieces end to end, at least one. Distances are metres from the start.
#[derive(Clone, Debug, PartialEq)]
pub struct Chain {
    pieces: Vec<Piece>,
    /// Distance at which each piece begins, and at last the whole length.
    starts: Vec<f64>,
}

impl From<Piece> for Chain {
    fn from(piece: Piece) -> Chain {
        Chain { starts: vec![0.0, piece.length()], pieces: vec![piece] }
    }
}

impl Chain {
    /// Pieces end to end; `None` when there are none.
    #[must_use]
    pub fn of(pieces: Vec<Piece>) -> Option<Chain> {
        let ends = pieces.iter().scan(0.0, |sum, piece| {
            *sum += piece.length();
            Some(*sum)
        });
        let starts = std::iter::once(0.0).chain(ends).collect();
        (!pieces.is_empty()).then_some(Chain { pieces, starts })
    }

    /// The pieces in order.
    #[must_use]
    pub fn pieces(&self) -> &[Piece] {
        &self.pieces
    }

    /// Length in metres.
    #[must_use]
    pub fn length(&self) -> f64 {
        self.starts[self.pieces.len()]
    }

    /// Where it starts, in metres.
    #[must_use]
    pub fn start(&self) -> Point {
        self.pieces[0].start
    }

    /// Where it ends, in metres.
    #[must_use]
    pub fn end(&self) -> Point {
        self.pieces[self.pieces.len() - 1].end
    }

    /// Point at a distance in metres from the start.
    #[must_use]
    pub fn at(&self, distance: f64) -> Point {
        let (piece, along) = self.place(distance);
        piece.at(along)
    }

    /// Unit direction of travel at a distance in metres from the start.
    #[must_use]
    pub fn direction(&self, distance: f64) -> Vec2 {
        let (piece, along) = self.place(distance);
        piece.direction(along)
    }

    /// The piece at a distance, and how far along it that is.
    fn place(&self, distance: f64) -> (&Piece, f64) {
        let last = self.pieces.len() - 1;
        let piece = self.starts[1..=last].partition_point(|&end| end <= distance);
        (&self.pieces[piece], distance - self.starts[piece])
    }

    /// Distance along the chain to the point nearest to `point`, in metres.
    #[must_use]
    pub fn nearest(&self, point: Point) -> f64 {
        let feet = self.pieces.iter().zip(&self.starts).map(|(piece, start)| {
            let along = piece.nearest(point);
            (start + along, piece.at(along).distance(point))
        });
        feet.min_by(|a, b| a.1.total_cmp(&b.1)).map_or(0.0, |(along, _)| along)
    }

    /// The pieces between two distances from the start, in metres.
    #[must_use]
    pub fn part(&self, from: f64, to: f64) -> Vec<Piece> {
        if let [piece] = self.pieces[..] {
            return vec![piece.part(from, to)];
        }
        let parted = self.pieces.iter().zip(&self.starts).filter_map(|(piece, start)| {
            let length = piece.length();
            let (begin, end) = ((from - start).max(0.0), (to - start).min(length));
            if (begin, end) == (0.0, length) {
                return Some(*piece);
            }
            (end - begin > NOTHING).then(|| piece.part(begin, end))
        });
        parted.collect()
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::f64::consts::FRAC_PI_2;

    /// Two metres straight on, then a quarter circle to the left of radius one.
    fn hook() -> Chain {
        let corner = Point::new(2.0, 0.0);
        let quarter = Piece::short_arc(corner, Point::new(2.0, 1.0), Point::new(3.0, 1.0));
        Chain::of(vec![Piece::straight(Point::ORIGIN, corner), quarter]).unwrap()
    }

    #[test]
    fn a_chain_is_walked_as_one() {
        let hook = hook();
        assert!((hook.length() - 2.0 - FRAC_PI_2).abs() < 1e-12);
        assert!(hook.at(2.0 + FRAC_PI_2).distance(Point::new(3.0, 1.0)) < 1e-12);
        assert!((hook.direction(hook.length()) - Vec2::new(0.0, 1.0)).hypot() < 1e-12);
        assert!((hook.nearest(Point::new(4.0, 1.0)) - hook.length()).abs() < 1e-12);
        assert!((hook.nearest(Point::new(1.0, -3.0)) - 1.0).abs() < 1e-12);
    }

    #[test]
    fn a_part_of_a_chain_runs_from_place_to_place_without_crumbs() {
        let hook = hook();
        let part = hook.part(1.5, 2.5);
        assert_eq!(part.len(), 2);
        assert!(part[0].start.distance(hook.at(1.5)) < 1e-12 && part[1].end.distance(hook.at(2.5)) < 1e-12);
        assert_eq!(hook.part(2.0, 2.5).len(), 1);
        assert_eq!(hook.part(0.5, 2.0 + 1e-12).len(), 1);
        assert!(Chain::of(Vec::new()).is_none());
    }
}

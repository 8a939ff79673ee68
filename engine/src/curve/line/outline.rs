//! The outlines of a plan line at offsets: where they fold, cross, and how far they reach.

use kurbo::{Point, Rect, Vec2};

use super::{Ends, PlanLine, TEST_CHORD};
use crate::curve::piece::Piece;
use crate::solve::crossing;

/// How far a chord may lie from its curve where a centre is wanted, as a share of the line's length.
const FINE: f64 = 2e-5;

impl PlanLine {
    /// The centre of a closed line's area, in metres, from chords that are as fine on a large line as on a small one.
    #[must_use]
    pub fn centre(&self) -> Point {
        let points = self.outline(0.0, FINE * self.length());
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
        let (points, owners) = self.flattened(right, TEST_CHORD);
        let found = match self.ends {
            Ends::Closed => crossing::first_crossing(&points),
            Ends::Open => crossing::first_crossing_of_open(&points),
        };
        found.map(|(a, b)| (owners[a], owners[b]))
    }

    /// The first two runs at which a body between two offsets to the right of an open line, in metres, meets itself: its two
    /// faces and its ends as one outline.
    #[must_use]
    pub fn first_meeting(&self, inner: f64, outer: f64) -> Option<(usize, usize)> {
        let ((mut points, mut owners), mut back) =
            (self.flattened(outer, TEST_CHORD), self.flattened(inner, TEST_CHORD));
        // Walked backwards, a side belongs to the run of the point that it leads to.
        back.1.pop();
        back.1.insert(0, 0);
        points.extend(back.0.into_iter().rev());
        owners.extend(back.1.into_iter().rev());
        let ordered = |(a, b): (usize, usize)| (owners[a].min(owners[b]), owners[a].max(owners[b]));
        crossing::first_crossing(&points).map(ordered)
    }

    /// The points of an offset line and the run of each, the end of an open line among them.
    fn flattened(&self, right: f64, chord_error: f64) -> (Vec<Point>, Vec<usize>) {
        let (mut points, mut owners) = (Vec::new(), Vec::new());
        for (piece, &owner) in self.pieces.iter().zip(&self.owners) {
            points.extend(piece.offset(right).flatten(chord_error));
            owners.resize(points.len(), owner);
        }
        if let (Ends::Open, Some(last), Some(&owner)) = (self.ends, self.pieces.last(), self.owners.last()) {
            points.push(last.offset(right).end);
            owners.push(owner);
        }
        (points, owners)
    }

    /// The polyline at an offset to the right, no farther from the true curve than `chord_error`, in metres: closed, or from
    /// end to end of an open line.
    #[must_use]
    pub fn outline(&self, right: f64, chord_error: f64) -> Vec<Point> {
        self.flattened(right, chord_error).0
    }

    /// The outlines of a body between two offsets to the right, in metres: its outer and its inner face round a closed line;
    /// the outer face, the end, the inner face back and the other end of an open one.
    #[must_use]
    pub fn band(&self, inner: f64, outer: f64, chord_error: f64) -> Vec<Vec<Point>> {
        let [mut outer, mut inner] = [outer, inner].map(|offset| self.outline(offset, chord_error));
        if self.is_closed() {
            return vec![outer, inner];
        }
        inner.reverse();
        outer.append(&mut inner);
        vec![outer]
    }

    /// The straight ends of a body between two offsets to the right of an open line, in metres; a closed one has none.
    #[must_use]
    pub fn end_faces(&self, inner: f64, outer: f64) -> Vec<Piece> {
        let (false, Some(first), Some(last)) = (self.is_closed(), self.pieces.first(), self.pieces.last()) else {
            return Vec::new();
        };
        // The very points at which the faces end.
        let [inner, outer] = [inner, outer].map(|offset| [first.offset(offset).start, last.offset(offset).end]);
        inner.into_iter().zip(outer).map(|(inner, outer)| Piece::straight(inner, outer)).collect()
    }

    /// The smallest upright box round the line at an offset to the right, in metres, with the piece that reaches each of
    /// its sides: left, bottom, right, top. An open line is taken at that offset to either side.
    #[must_use]
    pub fn extent(&self, right: f64) -> (Rect, [usize; 4]) {
        let ([x0, x1], [left, right_by]) = self.reach(right, Vec2::new(1.0, 0.0));
        let ([y0, y1], [low, high]) = self.reach(right, Vec2::new(0.0, 1.0));
        (Rect::new(x0, y0, x1, y1), [left, low, right_by, high])
    }

    /// The least and the largest coordinate, in metres along a unit direction, of the line at an offset, and the pieces
    /// that reach so far. An open line is taken at that offset to either side.
    #[must_use]
    pub fn reach(&self, right: f64, along: Vec2) -> ([f64; 2], [usize; 2]) {
        let (mut reach, mut by) = ([f64::INFINITY, f64::NEG_INFINITY], [0; 2]);
        for (index, piece) in self.pieces.iter().enumerate() {
            let other_face = (!self.is_closed()).then(|| piece.offset(-right).farthest(along));
            for point in piece.offset(right).farthest(along).into_iter().chain(other_face.into_iter().flatten()) {
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
}

//! The two faces of a wall on a plan line, and where straight jambs meet them.

use kurbo::{Point, Vec2};

use super::along::Along;
use super::line::{PlanLine, Station};
use super::piece::Bend;

/// Places at which a piece of the line is looked at for the farthest.
const LOOKS: u32 = 16;
/// The golden section.
const GOLDEN: f64 = 0.618_033_988_749_894_8;

/// A face of a wall.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Side {
    /// The face towards the room, left of the line.
    Inner,
    /// The face away from the room, right of the line.
    Outer,
}

/// The body of a wall: the line, its thickness along it at level 0, and how much each face leans to the middle for each
/// metre of height, inside and outside.
#[derive(Clone, Copy, Debug)]
pub struct Shape<'a> {
    /// The line at level 0.
    pub line: &'a PlanLine,
    /// Thickness at level 0, in metres.
    pub thickness: &'a Along,
    /// Lean of the inner and of the outer face, metres for each metre of height.
    pub lean: [f64; 2],
}

/// A side of an opening in plan at one level, seen in the opening's frame: x along the line, y to the outside, metres.
#[derive(Clone, Copy, Debug)]
pub struct Jamb {
    /// x outside the crease.
    pub x: f64,
    /// y of the crease, from which the jamb runs away from the opening's middle towards the inside.
    pub crease: f64,
    /// Change of x for each metre inwards of the crease.
    pub splay: f64,
}

impl Jamb {
    /// x at a depth y, in metres.
    #[must_use]
    pub fn at(&self, y: f64) -> f64 {
        self.x + self.splay * (self.crease - y).max(0.0)
    }
}

impl Shape<'_> {
    /// How fast a face moves away from the line to the right as one goes along it.
    #[must_use]
    pub fn widening(&self, side: Side, along: f64) -> f64 {
        match side {
            Side::Inner => -0.5 * self.thickness.slope(along),
            Side::Outer => 0.5 * self.thickness.slope(along),
        }
    }

    /// Offset of a face to the right of the line at a distance along it and a level, in metres.
    #[must_use]
    pub fn offset(&self, side: Side, along: f64, level: f64) -> f64 {
        match side {
            Side::Inner => self.lean[0] * level - 0.5 * self.thickness.at(along),
            Side::Outer => 0.5 * self.thickness.at(along) - self.lean[1] * level,
        }
    }

    /// The place of a face in plan, in metres.
    #[must_use]
    pub fn point(&self, side: Side, along: f64, level: f64) -> Point {
        self.line.at(along).beside(self.offset(side, along, level))
    }

    /// Distance along the line at which a jamb of an opening in the frame of a station meets a face at a level, in metres,
    /// counted on past the start of a closed line; `None` where it never does.
    #[must_use]
    pub fn meeting(&self, side: Side, station: Station, jamb: Jamb, level: f64) -> Option<f64> {
        let right = -station.axis.turn_90();
        let level_offset = self.offset(side, self.line.along_line(station), level);
        let bend = 1.0 + self.line.pieces()[station.piece].curvature() * level_offset;
        let mut along = self.line.along_line(station) + jamb.x / bend.max(0.2);
        if jamb.splay == 0.0
            && self.thickness.is_even()
            && let Some(found) = self.upright_meeting(station, jamb.x, level_offset, along)
        {
            return Some(found);
        }
        let mut missed = f64::INFINITY;
        for _ in 0..40 {
            let on = self.line.at(along);
            let normal = -on.axis.turn_90();
            let offset = self.offset(side, along, level);
            let local: Vec2 = on.point + normal * offset - station.point;
            let [x, y] = [local.dot(station.axis), local.dot(right)];
            let scale = 1.0 + self.line.pieces()[on.piece].curvature() * offset;
            let tangent = on.axis * scale + normal * self.widening(side, along);
            let is_splayed = y < jamb.crease;
            let slope = tangent.dot(station.axis) + if is_splayed { jamb.splay * tangent.dot(right) } else { 0.0 };
            let miss = x - jamb.at(y);
            if tangent.dot(station.axis) < 1e-6 || slope.abs() < 1e-9 {
                return None;
            }
            // On an arc about a far centre no nearer than its rounding errors; a last step takes what can be had.
            let is_there = miss.abs() < 1e-11 || (miss.abs() < 1e-9 && miss.abs() >= missed);
            missed = miss.abs();
            along -= (miss / slope).clamp(-0.5, 0.5);
            if is_there {
                return Some(along);
            }
        }
        None
    }

    /// The same in closed form, where a face is everywhere as far from the line and the jamb is square: on the piece on which
    /// a guess lies, else `None`.
    fn upright_meeting(&self, station: Station, x: f64, offset: f64, guess: f64) -> Option<f64> {
        let near = self.line.at(guess).piece;
        let piece = &self.line.pieces()[near];
        let (start, axis) = (self.line.start(near), station.axis);
        let scale = 1.0 + piece.curvature() * offset;
        let face = piece.offset(offset);
        let along = match piece.bend {
            Bend::Straight => {
                let ahead = piece.direction(0.0).dot(axis);
                (ahead > 1e-6).then(|| (x - (face.start - station.point).dot(axis)) / ahead)?
            }
            Bend::Arc { centre, sweep } => {
                let spoke = face.start - centre;
                let radius = spoke.hypot();
                let cosine = (x - (centre - station.point).dot(axis)) / radius;
                // Near the turning point of an arc the way in closed form loses its digits.
                if cosine.abs() > 0.98 || scale <= 0.0 {
                    return None;
                }
                let side = sweep.signum();
                let begin = axis.cross(spoke).atan2(axis.dot(spoke));
                let turned = side * (-side * cosine.acos() - begin);
                radius * turned.rem_euclid(std::f64::consts::TAU) / scale
            }
        };
        let turns = ((guess - start - along) / self.line.length()).round() * self.line.length();
        let found = start + along + if self.line.is_closed() { turns } else { 0.0 };
        ((0.0..=piece.length()).contains(&along) && (found - guess).abs() < 0.5).then_some(found)
    }

    /// Points of a face at a level between two distances along the line, both ends included, no farther from the true
    /// curve than `chord_error`; all in metres.
    #[must_use]
    pub fn polyline(&self, side: Side, stretch: [f64; 2], level: f64, chord_error: f64) -> Vec<Point> {
        let mut points = Vec::new();
        self.over_pieces(stretch, |piece, [from, to], start| {
            let part = self.line.pieces()[piece].part(from, to);
            if self.thickness.is_even() {
                points.extend(part.offset(self.offset(side, 0.0, level)).flatten(chord_error));
            } else {
                // The face bends a little more than the widest of its offsets does.
                let [from_offset, to_offset] = [from, to].map(|at| self.offset(side, start + at, level));
                let sides = part.offset(from_offset.max(to_offset)).flatten(0.5 * chord_error).count().max(2);
                points.extend(
                    (0..sides).map(|at| self.point(side, start + from + (to - from) * at as f64 / sides as f64, level)),
                );
            }
            0.0
        });
        points.push(self.point(side, stretch[1], level));
        points
    }

    /// The greatest coordinate along a unit direction that a face reaches at a level, in metres.
    #[must_use]
    pub fn reach(&self, side: Side, level: f64, direction: Vec2) -> f64 {
        let at = |along: f64| self.point(side, along, level).to_vec2().dot(direction);
        let mut best = f64::NEG_INFINITY;
        for (piece, on) in self.line.pieces().iter().enumerate() {
            let (start, step) = (self.line.start(piece), on.length() / f64::from(LOOKS));
            let looks = (0..=LOOKS).map(|look| start + step * f64::from(look));
            let Some(near) = looks.max_by(|a, b| at(*a).total_cmp(&at(*b))) else { continue };
            let [mut from, mut to] = [(near - step).max(start), (near + step).min(start + on.length())];
            // Golden section: a maximum is flat, so its value is exact long before its place is.
            while to - from > 1e-9 {
                let [low, high] = [to - GOLDEN * (to - from), from + GOLDEN * (to - from)];
                if at(low) < at(high) { from = low } else { to = high }
            }
            best = best.max(at(near)).max(at(from.midpoint(to)));
        }
        best
    }
}

#[cfg(test)]
mod tests {
    use super::super::line::{Vertex, Way};
    use super::*;

    #[test]
    fn a_jamb_meets_an_arc_that_is_all_but_straight() {
        let at = |x: f64, y: f64, way: Way| Vertex { at: Point::new(x, y), round: 0.5, way };
        let flat = Way::Through(Point::new(2.0, -1e-5));
        let corners =
            [at(0.0, 0.0, flat), at(4.0, 0.0, Way::Straight), at(4.0, 3.0, Way::Straight), at(0.0, 3.0, Way::Straight)];
        let line = PlanLine::closed(&corners).unwrap();
        let thickness = Along::between(&[[0.0, 0.4], [5.0, 0.5]], Some(line.length()));
        let shape = Shape { line: &line, thickness: &thickness, lean: [0.05, 0.02] };
        let station = line.nearest(Point::new(2.0, 0.0));
        for level in (0..200).map(|step| f64::from(step) * 0.01) {
            for side in [Side::Inner, Side::Outer] {
                let jamb = Jamb { x: 0.4, crease: 0.1, splay: 0.3 };
                assert!(shape.meeting(side, station, jamb, level).is_some(), "{side:?} at {level}");
            }
        }
    }
}

//! One smooth piece of a plan curve: a straight run or an arc, with exact length, area and offset.

use kurbo::{Point, Vec2};

/// How a piece goes from its start to its end.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Bend {
    /// Straight.
    Straight,
    /// Along a circle; the sweep is positive to the left.
    Arc {
        /// Centre of the circle, in metres.
        centre: Point,
        /// Angle turned from start to end, in radians.
        sweep: f64,
    },
}

/// A straight run or an arc in plan. Coordinates are metres.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Piece {
    /// Where it starts.
    pub start: Point,
    /// Where it ends.
    pub end: Point,
    /// How it goes between.
    pub bend: Bend,
}

impl Piece {
    /// A straight piece.
    #[must_use]
    pub fn straight(start: Point, end: Point) -> Piece {
        Piece { start, end, bend: Bend::Straight }
    }

    /// The arc from `start` to `end` that passes through a third point; `None` when the three lie on one straight line.
    #[must_use]
    pub fn arc_through(start: Point, through: Point, end: Point) -> Option<Piece> {
        let (a, b) = (through - start, end - start);
        let twice_area = a.cross(b);
        if twice_area.abs() <= 1e-9 * a.hypot() * b.hypot() {
            return None;
        }
        let towards =
            Vec2::new(b.y * a.hypot2() - a.y * b.hypot2(), a.x * b.hypot2() - b.x * a.hypot2()) / (2.0 * twice_area);
        let centre = start + towards;
        let angle = |from: Point, to: Point| {
            let (from, to) = (from - centre, to - centre);
            from.cross(to).atan2(from.dot(to))
        };
        let (half, rest) = (positive(angle(start, through)), positive(angle(start, end)));
        let sweep = if half < rest { rest } else { rest - std::f64::consts::TAU };
        Some(Piece { start, end, bend: Bend::Arc { centre, sweep } })
    }

    /// The arc about `centre` from `start` to `end`, turning left or right by less than half a turn.
    #[must_use]
    pub fn short_arc(start: Point, centre: Point, end: Point) -> Piece {
        let (from, to) = (start - centre, end - centre);
        Piece { start, end, bend: Bend::Arc { centre, sweep: from.cross(to).atan2(from.dot(to)) } }
    }

    /// Length in metres.
    #[must_use]
    pub fn length(&self) -> f64 {
        match self.bend {
            Bend::Straight => (self.end - self.start).hypot(),
            Bend::Arc { centre, sweep } => (self.start - centre).hypot() * sweep.abs(),
        }
    }

    /// Curvature in 1/m, positive where the piece turns left.
    #[must_use]
    pub fn curvature(&self) -> f64 {
        match self.bend {
            Bend::Straight => 0.0,
            Bend::Arc { centre, sweep } => sweep.signum() / (self.start - centre).hypot(),
        }
    }

    /// Angle turned, in radians, positive to the left.
    #[must_use]
    pub fn turning(&self) -> f64 {
        match self.bend {
            Bend::Straight => 0.0,
            Bend::Arc { sweep, .. } => sweep,
        }
    }

    /// Point at a distance in metres from the start.
    #[must_use]
    pub fn at(&self, distance: f64) -> Point {
        match self.bend {
            Bend::Straight => self.start + self.direction(0.0) * distance,
            Bend::Arc { centre, .. } => centre + turned(self.start - centre, distance * self.curvature()),
        }
    }

    /// Unit direction of travel at a distance in metres from the start.
    #[must_use]
    pub fn direction(&self, distance: f64) -> Vec2 {
        match self.bend {
            Bend::Straight => (self.end - self.start).normalize(),
            Bend::Arc { centre, sweep } => {
                let spoke = turned(self.start - centre, distance * self.curvature()).normalize();
                spoke.turn_90() * sweep.signum()
            }
        }
    }

    /// The same piece moved sideways, to the right of travel when positive, in metres.
    #[must_use]
    pub fn offset(&self, right: f64) -> Piece {
        let [start, end] = match self.bend {
            Bend::Straight => {
                let aside = self.direction(0.0).turn_90() * right;
                [self.start - aside, self.end - aside]
            }
            Bend::Arc { centre, .. } => {
                let scale = 1.0 + self.curvature() * right;
                [centre + (self.start - centre) * scale, centre + (self.end - centre) * scale]
            }
        };
        Piece { start, end, bend: self.bend }
    }

    /// The part of the piece between two distances from its start, in metres.
    #[must_use]
    pub fn part(&self, from: f64, to: f64) -> Piece {
        let bend = match self.bend {
            Bend::Straight => Bend::Straight,
            Bend::Arc { centre, .. } => Bend::Arc { centre, sweep: (to - from) * self.curvature() },
        };
        Piece { start: self.at(from), end: self.at(to), bend }
    }

    /// The area under the piece as seen from a frame: the integral of y dx with x along `axis` from `origin` and y to the
    /// right of it, in m².
    #[must_use]
    pub fn area_under(&self, origin: Point, axis: Vec2) -> f64 {
        let right = -axis.turn_90();
        let local = |point: Point| Vec2::new((point - origin).dot(axis), (point - origin).dot(right));
        let (a, b) = (local(self.start), local(self.end));
        let under_chord = 0.5 * (a.y + b.y) * (b.x - a.x);
        match self.bend {
            Bend::Straight => under_chord,
            Bend::Arc { centre, sweep } => {
                let radius = (self.start - centre).hypot();
                under_chord + 0.5 * radius * radius * (sweep - sweep.sin())
            }
        }
    }

    /// Distance along the piece to the point nearest to `point`, in metres.
    #[must_use]
    pub fn nearest(&self, point: Point) -> f64 {
        let length = self.length();
        match self.bend {
            Bend::Straight => (point - self.start).dot(self.direction(0.0)).clamp(0.0, length),
            Bend::Arc { centre, sweep } => {
                let (from, to) = (self.start - centre, point - centre);
                let angle = positive(from.cross(to).atan2(from.dot(to)) * sweep.signum());
                if angle <= sweep.abs() {
                    angle * from.hypot()
                } else if point.distance(self.start) < point.distance(self.end) {
                    0.0
                } else {
                    length
                }
            }
        }
    }

    /// Where the piece, without its end, crosses the straight line through `origin` along `axis`: distances along that
    /// line, in metres.
    #[must_use]
    pub fn crossings(&self, origin: Point, axis: Vec2) -> Vec<f64> {
        self.crossings_before(self.end, origin, axis)
    }

    /// The same of a piece whose end is where the next one begins, which may be a rounding error beside its own: pieces end
    /// to end cross the line each time they change sides, whether at a joint or not. What lies on the line counts as to the
    /// left of it, so that a piece that only touches it crosses twice in one place or never.
    pub(super) fn crossings_before(&self, next: Point, origin: Point, axis: Vec2) -> Vec<f64> {
        let normal = axis.turn_90();
        let side = |point: Point| (point - origin).dot(normal);
        let (from, to) = (side(self.start), side(next));
        let changes = |from: f64, to: f64| (from < 0.0) != (to < 0.0);
        match self.bend {
            Bend::Straight if changes(from, to) => {
                vec![(self.start.lerp(next, from / (from - to)) - origin).dot(axis)]
            }
            Bend::Straight => Vec::new(),
            Bend::Arc { centre, sweep } => {
                let begin = self.start - centre;
                let (radius, off, foot) = (begin.hypot(), side(centre), (centre - origin).dot(axis));
                let half = (radius * radius - off * off).max(0.0).sqrt();
                // Between its summits to either side of the line an arc crosses it once or never.
                let summits = [1.0, -1.0].map(|way| {
                    let spoke = normal * way;
                    (positive(begin.cross(spoke).atan2(begin.dot(spoke)) * sweep.signum()), off + way * radius)
                });
                let mut places = vec![(0.0, from)];
                places.extend(summits.into_iter().filter(|(turn, _)| *turn > 0.0 && *turn < sweep.abs()));
                places.sort_by(|a, b| a.0.total_cmp(&b.0));
                places.push((sweep.abs(), to));
                let crossed = places.windows(2).filter(|pair| changes(pair[0].1, pair[1].1));
                let half_way = |pair: &[(f64, f64)]| turned(begin, pair[0].0.midpoint(pair[1].0) * sweep.signum());
                let mut found: Vec<f64> = crossed.map(|pair| foot + half.copysign(half_way(pair).dot(axis))).collect();
                found.sort_by(f64::total_cmp);
                found
            }
        }
    }

    /// The places of the piece that may reach farthest along a direction or against it: its ends and, where an arc turns back,
    /// that place.
    #[must_use]
    pub fn farthest(&self, along: Vec2) -> Vec<Point> {
        let mut points = vec![self.start, self.end];
        if let Bend::Arc { centre, .. } = self.bend {
            let radius = self.start.distance(centre);
            for side in [along, -along] {
                let point = centre + side * radius;
                if self.at(self.nearest(point)).distance(point) < 1e-9 {
                    points.push(point);
                }
            }
        }
        points
    }

    /// Points from the start up to, not including, the end, no farther from the true curve than `chord_error` metres.
    pub fn flatten(&self, chord_error: f64) -> impl Iterator<Item = Point> + use<'_> {
        let sides = match self.bend {
            Bend::Straight => 1,
            Bend::Arc { centre, sweep } => {
                let radius = (self.start - centre).hypot().max(chord_error);
                let step = 2.0 * (1.0 - chord_error / radius).clamp(-1.0, 1.0).acos();
                (sweep.abs() / step).ceil().clamp(1.0, 4096.0) as usize
            }
        };
        let length = self.length();
        // A piece of no length has no direction to go in, but it has a start.
        (0..sides).map(move |side| if side == 0 { self.start } else { self.at(length * side as f64 / sides as f64) })
    }
}

/// The angle brought into 0..2π.
fn positive(angle: f64) -> f64 {
    angle.rem_euclid(std::f64::consts::TAU)
}

fn turned(spoke: Vec2, angle: f64) -> Vec2 {
    let (sin, cos) = angle.sin_cos();
    Vec2::new(spoke.x * cos - spoke.y * sin, spoke.x * sin + spoke.y * cos)
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::f64::consts::{FRAC_PI_2, PI};

    fn close(a: f64, b: f64) {
        assert!((a - b).abs() < 1e-12, "{a} is not {b}");
    }

    #[test]
    fn an_arc_through_three_points_goes_the_way_of_the_middle_one() {
        let (east, north, west) = (Point::new(2.0, 0.0), Point::new(0.0, 2.0), Point::new(-2.0, 0.0));
        let left = Piece::arc_through(east, north, west).unwrap();
        close(left.turning(), PI);
        close(left.length(), 2.0 * PI);
        close(left.curvature(), 0.5);
        let right = Piece::arc_through(west, north, east).unwrap();
        close(right.turning(), -PI);
        let long = Piece::arc_through(east, Point::new(0.0, -2.0), north).unwrap();
        close(long.turning(), -1.5 * PI);
        assert!(Piece::arc_through(east, Point::ORIGIN, west).is_none());
    }

    #[test]
    fn an_offset_to_the_right_of_a_left_turn_is_longer() {
        let arc = Piece::arc_through(Point::new(2.0, 0.0), Point::new(0.0, 2.0), Point::new(-2.0, 0.0)).unwrap();
        close(arc.offset(0.5).length(), 2.5 * PI);
        close(arc.offset(-0.5).length(), 1.5 * PI);
        let straight = Piece::straight(Point::ORIGIN, Point::new(3.0, 0.0)).offset(0.5);
        close(straight.start.y, -0.5);
    }

    #[test]
    fn the_area_under_a_quarter_circle_is_its_sector_and_triangle() {
        let arc =
            Piece::arc_through(Point::new(1.0, 0.0), Point::new(0.5f64.sqrt(), 0.5f64.sqrt()), Point::new(0.0, 1.0));
        let under = arc.unwrap().area_under(Point::ORIGIN, Vec2::new(1.0, 0.0));
        close(under, FRAC_PI_2 / 2.0);
    }

    #[test]
    fn the_nearest_point_of_an_arc_lies_on_the_spoke_or_at_an_end() {
        let arc = Piece::arc_through(Point::new(1.0, 0.0), Point::new(0.0, 1.0), Point::new(-1.0, 0.0)).unwrap();
        close(arc.nearest(Point::new(0.0, 5.0)), FRAC_PI_2);
        close(arc.nearest(Point::new(2.0, -1.0)), 0.0);
        close(arc.nearest(Point::new(-2.0, -1.0)), PI);
    }

    #[test]
    fn a_piece_of_no_length_flattens_to_its_start() {
        let here = Point::new(1.0, 2.0);
        assert_eq!(Piece::straight(here, here).flatten(0.001).collect::<Vec<_>>(), [here]);
    }

    #[test]
    fn a_line_crosses_a_half_circle_once_or_twice_and_a_run_once() {
        let arc = Piece::arc_through(Point::new(2.0, 0.0), Point::new(0.0, 2.0), Point::new(-2.0, 0.0)).unwrap();
        let (east, up) = (Vec2::new(1.0, 0.0), Vec2::new(0.0, 1.0));
        let level = arc.crossings(Point::new(0.0, 1.0), east);
        assert_eq!(level.len(), 2);
        close(level[1], 3.0_f64.sqrt());
        close(arc.crossings(Point::new(1.0, 0.0), up)[0], 3.0_f64.sqrt());
        assert!(arc.crossings(Point::new(0.0, -1.0), east).is_empty());
        let run = Piece::straight(Point::new(0.0, -1.0), Point::new(2.0, 1.0));
        close(run.crossings(Point::ORIGIN, east)[0], 1.0);
    }

    #[test]
    fn a_flattened_arc_keeps_within_its_chord_error() {
        let arc = Piece::arc_through(Point::new(3.0, 0.0), Point::new(0.0, 3.0), Point::new(-3.0, 0.0)).unwrap();
        let points: Vec<Point> = arc.flatten(0.001).collect();
        let sagitta = 3.0 - points[0].midpoint(points[1]).to_vec2().hypot();
        assert!(sagitta <= 0.001 && sagitta > 0.0005, "{sagitta}");
    }
}

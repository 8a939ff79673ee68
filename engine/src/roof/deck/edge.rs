//! Where a deck ends in plan: the eave, the eye, or the ends of the rafters themselves.

use kurbo::{Line, ParamCurveNearest, Point, Vec2};

use crate::units::Length;

/// A line in plan at which the deck is cut.
#[derive(Clone, Debug, PartialEq)]
pub enum Edge {
    /// No line: strings between the ends of the rafters' top lines.
    Ends,
    /// A circle.
    Circle {
        /// Its middle, in metres.
        middle: Point,
        /// Its radius.
        radius: Length,
    },
    /// A closed outline of straight sides, points in metres; a curve comes as a chain of short sides.
    Outline(Vec<Point>),
    /// A stretch of an outline, open at its ends.
    Stretch(Vec<Point>),
}

impl Edge {
    /// Where the line `from` + t `way` meets it: every t, in no order.
    pub(super) fn crossings(&self, from: Point, way: Vec2) -> Vec<f64> {
        let mut all = Vec::new();
        self.each(from, way, |t| all.push(t));
        all
    }

    fn each(&self, from: Point, way: Vec2, found: impl FnMut(f64)) {
        match self {
            Edge::Ends => {}
            Edge::Circle { middle, radius } => {
                on_circle(from - *middle, way, radius.in_m()).into_iter().flatten().for_each(found);
            }
            Edge::Outline(points) => {
                let Some(&last) = points.last() else { return };
                on_chain(from, way, last, points, found);
            }
            Edge::Stretch(points) => {
                let Some((&first, rest)) = points.split_first() else { return };
                on_chain(from, way, first, rest, found);
            }
        }
    }

    /// What of an outline lies between two places on it, the shorter way round; any other edge as a whole. A bay between two
    /// tails has few of the sides of a curve.
    pub(super) fn between(&self, ends: [Point; 2]) -> Edge {
        let Edge::Outline(points) = self else { return self.clone() };
        let count = points.len();
        let side = |number: usize| Line::new(points[number % count], points[(number + 1) % count]);
        let at = ends.map(|end| {
            let off = |number: &usize| side(*number).nearest(end, CORNER).distance_sq;
            (0..count).min_by(|one, other| off(one).total_cmp(&off(other))).unwrap_or(0)
        });
        let chain = |[from, to]: [usize; 2]| -> Vec<Point> {
            (from..=from + (to + count - from) % count + 1).map(|number| points[number % count]).collect()
        };
        let long = |chain: &[Point]| chain.windows(2).map(|two| two[0].distance(two[1])).sum::<f64>();
        let [one, other] = [chain(at), chain([at[1], at[0]])];
        Edge::Stretch(if long(&one) <= long(&other) { one } else { other })
    }

    /// The t nearest to `wanted` at which the line meets it; `wanted` itself where there is no edge but the ends.
    pub(super) fn nearest(&self, from: Point, way: Vec2, wanted: f64) -> Option<f64> {
        if *self == Edge::Ends {
            return Some(wanted);
        }
        let mut nearest: Option<f64> = None;
        self.each(from, way, |t| {
            if nearest.is_none_or(|other| (t - wanted).abs() < (other - wanted).abs()) {
                nearest = Some(t);
            }
        });
        nearest
    }
}

fn on_chain(from: Point, way: Vec2, first: Point, rest: &[Point], mut found: impl FnMut(f64)) {
    let beside = |point: Point| way.cross(point - from);
    let (mut a, mut before) = (first, beside(first));
    for &b in rest {
        let after = beside(b);
        // Most sides lie on one hand of the line.
        let apart = after - before;
        if before * after <= 2.0 * CORNER * apart * apart
            && let Some(t) = on_side(from, way, a, b)
        {
            found(t);
        }
        (a, before) = (b, after);
    }
}

fn on_circle(from: Vec2, way: Vec2, radius: f64) -> Option<[f64; 2]> {
    let (square, half) = (way.hypot2(), from.dot(way));
    let root = half * half - square * (from.hypot2() - radius * radius);
    if root < 0.0 || square <= 0.0 {
        return None;
    }
    Some([(-half - root.sqrt()) / square, (-half + root.sqrt()) / square])
}

/// How far past its ends a side still counts, as a share of it, so that a corner is never missed.
const CORNER: f64 = 1e-9;

fn on_side(from: Point, way: Vec2, a: Point, b: Point) -> Option<f64> {
    let side = b - a;
    let turn = way.cross(side);
    if turn == 0.0 {
        return None;
    }
    let along_side = (a - from).cross(way) / turn;
    (-CORNER..=1.0 + CORNER).contains(&along_side).then(|| (a - from).cross(side) / turn)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_line_through_the_middle_meets_a_circle_twice_and_a_line_beside_it_never() {
        let edge = Edge::Circle { middle: Point::new(1.0, 0.0), radius: Length::m(2.0) };
        let mut found = edge.crossings(Point::new(1.0, -5.0), Vec2::new(0.0, 1.0));
        found.sort_by(f64::total_cmp);
        assert_eq!(found, [3.0, 7.0]);
        assert!(edge.crossings(Point::new(4.0, 0.0), Vec2::new(0.0, 1.0)).is_empty());
    }

    #[test]
    fn the_nearest_side_of_an_outline_is_found_and_ends_are_kept() {
        let square = [(0., 0.), (4., 0.), (4., 4.), (0., 4.)].map(|(x, y)| Point::new(x, y)).to_vec();
        let (from, way) = (Point::new(1.0, 1.0), Vec2::new(1.0, 0.0));
        assert_eq!(Edge::Outline(square.clone()).nearest(from, way, 0.0), Some(-1.0));
        assert_eq!(Edge::Outline(square).nearest(from, way, 2.0), Some(3.0));
        assert_eq!(Edge::Ends.nearest(from, way, 0.25), Some(0.25));
    }

    #[test]
    fn a_stretch_goes_the_shorter_way_round_and_is_met_only_there() {
        let square = [(0., 0.), (4., 0.), (4., 4.), (0., 4.)].map(|(x, y)| Point::new(x, y)).to_vec();
        let edge = Edge::Outline(square);
        let round = |from: (f64, f64), to: (f64, f64)| edge.between([from.into(), to.into()]);
        let corner = |found: &[(f64, f64)]| Edge::Stretch(found.iter().map(|&at| at.into()).collect());
        assert_eq!(round((3., 0.), (4., 1.)), corner(&[(0., 0.), (4., 0.), (4., 4.)]));
        assert_eq!(round((4., 1.), (3., 0.)), corner(&[(0., 0.), (4., 0.), (4., 4.)]));
        assert_eq!(round((0., 1.), (1., 0.)), corner(&[(0., 4.), (0., 0.), (4., 0.)]));
        assert_eq!(round((1., 0.), (2., 0.)), corner(&[(0., 0.), (4., 0.)]));
        let (from, way) = (Point::new(1.0, 1.0), Vec2::new(1.0, 0.0));
        assert_eq!(round((3., 0.), (4., 1.)).nearest(from, way, -1.0), Some(3.0));
    }
}

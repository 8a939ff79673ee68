//! Polygons in the plane: what lies inside, what meets, how far apart.

use kurbo::{Point, Rect, Vec2};

use super::crossing::cross;

/// Twice-checked ray rule: whether a point lies inside a closed polygon.
#[must_use]
pub fn contains(polygon: &[Point], point: Point) -> bool {
    sides(polygon).fold(false, |inside, (a, b)| {
        let spans = (a.y > point.y) != (b.y > point.y);
        let is_right = || point.x < a.x + (point.y - a.y) / (b.y - a.y) * (b.x - a.x);
        if spans && is_right() { !inside } else { inside }
    })
}

/// Whether two closed polygons cross, touch, or lie in each other.
#[must_use]
pub fn meet(one: &[Point], other: &[Point]) -> bool {
    let (Some(&first), Some(&second)) = (one.first(), other.first()) else { return false };
    let [own, theirs] = [one, other].map(|polygon| bounds(polygon.iter().copied()));
    if !own.overlaps(theirs) {
        return false;
    }
    sides(one).any(|a| sides(other).any(|b| cross(a, b))) || contains(one, second) || contains(other, first)
}

/// Whether a polygon lies wholly inside another.
#[must_use]
pub fn holds(outer: &[Point], inner: &[Point]) -> bool {
    inner.iter().all(|&point| contains(outer, point)) && !sides(outer).any(|a| sides(inner).any(|b| cross(a, b)))
}

/// Area of a closed polygon, in m² when its points are in metres, whichever way it goes round.
#[must_use]
pub fn area(polygon: &[Point]) -> f64 {
    let origin = polygon.first().copied().unwrap_or(Point::ORIGIN);
    0.5 * sides(polygon).map(|(a, b)| (a - origin).cross(b - origin)).sum::<f64>().abs()
}

/// The place on a straight side nearest to a point.
#[must_use]
pub fn nearest_on([from, to]: [Point; 2], point: Point) -> Point {
    let along = to - from;
    let share = if along.hypot2() > 0.0 { (point - from).dot(along) / along.hypot2() } else { 0.0 };
    from.lerp(to, share.clamp(0.0, 1.0))
}

/// Where the straight line through `origin` along `axis` crosses the sides of a closed polygon: distances along that line, in
/// no order, an even number of them. What lies on the line counts as to the left of it.
#[must_use]
pub fn crossings(polygon: &[Point], origin: Point, axis: Vec2) -> Vec<f64> {
    let side = |point: Point| (point - origin).dot(axis.turn_90());
    let crossed = sides(polygon).filter_map(|(a, b)| {
        let (from, to) = (side(a), side(b));
        ((from < 0.0) != (to < 0.0)).then(|| (a.lerp(b, from / (from - to)) - origin).dot(axis))
    });
    crossed.collect()
}

fn sides(polygon: &[Point]) -> impl Iterator<Item = (Point, Point)> + '_ {
    let next = polygon.iter().cycle().skip(1);
    polygon.iter().zip(next).map(|(&a, &b)| (a, b))
}

/// What of a closed polygon lies at or beyond a place along a direction; parts of it that hang together only on the other side are
/// joined along the cut, which adds no area.
#[must_use]
pub fn beyond(polygon: &[Point], along: Vec2, from: f64) -> Vec<Point> {
    let side = |point: Point| point.to_vec2().dot(along) - from;
    let mut kept = Vec::new();
    for (a, b) in sides(polygon) {
        let (here, there) = (side(a), side(b));
        if here >= 0.0 {
            kept.push(a);
        }
        if (here < 0.0) != (there < 0.0) {
            kept.push(a.lerp(b, here / (here - there)));
        }
    }
    kept
}

/// The smallest upright box round points, in their own unit; round none, a box that any union outgrows.
#[must_use]
pub fn bounds(points: impl IntoIterator<Item = Point>) -> Rect {
    let none = Rect::new(f64::INFINITY, f64::INFINITY, f64::NEG_INFINITY, f64::NEG_INFINITY);
    points.into_iter().fold(none, |all, point| all.union_pt(point))
}

#[cfg(test)]
mod tests {
    use super::*;

    fn square(x: f64, y: f64, side: f64) -> Vec<Point> {
        [(0.0, 0.0), (1.0, 0.0), (1.0, 1.0), (0.0, 1.0)].map(|(u, v)| Point::new(x + side * u, y + side * v)).to_vec()
    }

    #[test]
    fn squares_meet_when_they_cross_or_hold_each_other_and_not_when_they_stand_apart() {
        let large = square(0.0, 0.0, 4.0);
        assert!(meet(&large, &square(3.0, 3.0, 2.0)));
        assert!(meet(&large, &square(1.0, 1.0, 1.0)));
        assert!(meet(&square(1.0, 1.0, 1.0), &large));
        assert!(!meet(&large, &square(4.5, 0.0, 1.0)));
    }

    #[test]
    fn a_square_is_held_only_when_all_of_it_is_inside() {
        let hollow: Vec<Point> =
            [(0., 0.), (6., 0.), (6., 6.), (3., 1.), (0., 6.)].map(|(x, y)| Point::new(x, y)).to_vec();
        assert!(holds(&hollow, &square(0.2, 0.2, 0.5)));
        assert!(!holds(&hollow, &square(2.0, 0.5, 2.0)), "the hollow cuts in");
        assert!(!holds(&hollow, &square(7.0, 0.0, 1.0)));
        assert_eq!(area(&hollow), 36.0 - 15.0);
    }

    #[test]
    fn a_box_reaches_as_far_as_its_points_and_one_round_none_adds_nothing() {
        let box_of_two = bounds([Point::new(3.0, -1.0), Point::new(-2.0, 4.0)]);
        assert_eq!(box_of_two, Rect::new(-2.0, -1.0, 3.0, 4.0));
        assert_eq!(bounds([]).union(box_of_two), box_of_two);
    }

    #[test]
    fn the_nearest_place_is_at_the_foot_of_the_plumb_or_at_an_end() {
        let side = [Point::new(0.0, 0.0), Point::new(4.0, 0.0)];
        assert_eq!(nearest_on(side, Point::new(1.0, 3.0)), Point::new(1.0, 0.0));
        assert_eq!(nearest_on(side, Point::new(9.0, 3.0)), Point::new(4.0, 0.0));
    }
}

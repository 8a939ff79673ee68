//! Where a polyline crosses itself.

use kurbo::Point;

/// The first pair of sides of a closed polyline that cross or touch without being neighbours, by index of the side.
///
/// A sweep along x compares only sides whose spans overlap, so a line of n sides costs about n log n unless it is
/// folded many times over itself.
#[must_use]
pub fn first_crossing(points: &[Point]) -> Option<(usize, usize)> {
    let count = points.len();
    among(points, count, |low, high| high - low == 1 || (low == 0 && high == count - 1))
}

/// The same of a polyline that ends at its last point.
#[must_use]
pub fn first_crossing_of_open(points: &[Point]) -> Option<(usize, usize)> {
    among(points, points.len().saturating_sub(1), |low, high| high - low == 1)
}

fn among(points: &[Point], count: usize, neighbours: impl Fn(usize, usize) -> bool) -> Option<(usize, usize)> {
    let side = |index: usize| (points[index], points[(index + 1) % points.len()]);
    let span = |index: usize| {
        let (a, b) = side(index);
        (a.x.min(b.x), a.x.max(b.x))
    };
    let mut order: Vec<usize> = (0..count).collect();
    order.sort_by(|&a, &b| span(a).0.total_cmp(&span(b).0));
    let mut open: Vec<usize> = Vec::new();
    let mut found: Option<(usize, usize)> = None;
    for index in order {
        let left = span(index).0;
        open.retain(|&other| span(other).1 >= left);
        for &other in &open {
            let (low, high) = (index.min(other), index.max(other));
            let apart = !neighbours(low, high);
            if apart && cross(side(low), side(high)) && found.is_none_or(|first| (low, high) < first) {
                found = Some((low, high));
            }
        }
        open.push(index);
    }
    found
}

/// Whether two open polylines cross or touch; sides that follow each other on one polyline do not count.
#[must_use]
pub fn chains_cross(one: &[Point], other: &[Point]) -> bool {
    one.windows(2).any(|a| {
        let [low, high] = [a[0].x.min(a[1].x), a[0].x.max(a[1].x)];
        other.windows(2).any(|b| {
            let is_apart = b[0].x.max(b[1].x) < low || b[0].x.min(b[1].x) > high;
            let are_neighbours = a.iter().any(|end| b.contains(end));
            !is_apart && !are_neighbours && cross((a[0], a[1]), (b[0], b[1]))
        })
    })
}

/// Whether two straight sides cross or touch.
#[must_use]
pub fn cross((a, b): (Point, Point), (c, d): (Point, Point)) -> bool {
    let turn = |p: Point, q: Point, r: Point| (q - p).cross(r - p);
    let (c_side, d_side) = (turn(a, b, c), turn(a, b, d));
    let (a_side, b_side) = (turn(c, d, a), turn(c, d, b));
    let overlap = |p: f64, q: f64, r: f64, s: f64| p.min(q) <= r.max(s) && r.min(s) <= p.max(q);
    c_side * d_side <= 0.0 && a_side * b_side <= 0.0 && overlap(a.x, b.x, c.x, d.x) && overlap(a.y, b.y, c.y, d.y)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn points(list: &[(f64, f64)]) -> Vec<Point> {
        list.iter().map(|&(x, y)| Point::new(x, y)).collect()
    }

    #[test]
    fn a_square_does_not_cross_itself_and_a_bow_tie_does() {
        assert_eq!(first_crossing(&points(&[(0., 0.), (1., 0.), (1., 1.), (0., 1.)])), None);
        assert_eq!(first_crossing(&points(&[(0., 0.), (1., 1.), (1., 0.), (0., 1.)])), Some((0, 2)));
    }

    #[test]
    fn an_open_line_may_end_where_a_closed_one_would_cross_itself() {
        let hook = points(&[(0., 0.), (4., 0.), (4., 2.), (2., 2.), (2., -1.)]);
        assert_eq!(first_crossing_of_open(&hook), Some((0, 3)));
        let spiral = points(&[(0., 0.), (4., 0.), (4., 4.), (1., 4.), (1., 1.), (3., 1.)]);
        assert_eq!(first_crossing_of_open(&spiral), None);
        assert!(first_crossing(&points(&[(0., 0.), (4., 0.), (4., 4.), (1., -1.)])).is_some());
        assert_eq!(first_crossing_of_open(&points(&[(0., 0.), (4., 0.)])), None);
    }

    #[test]
    fn touching_counts_as_crossing() {
        let touching = points(&[(0., 0.), (4., 0.), (4., 2.), (2., 0.), (0., 2.)]);
        assert!(first_crossing(&touching).is_some());
    }
}

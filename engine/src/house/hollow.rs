//! The outlines of an upright body with holes taken out of it.

use i_overlay::core::fill_rule::FillRule;
use i_overlay::core::overlay_rule::OverlayRule;
use i_overlay::float::single::SingleFloatOverlay;
use kurbo::Point;

/// Coordinates nearer to each other than this are one, in metres.
const GRID: f64 = 1e-6;

/// The outlines of `body` without `holes`, in metres; an outline within another is a hole.
pub(super) fn hollow(body: &[Point], holes: &[Vec<Point>]) -> Vec<Vec<Point>> {
    let pairs = |points: &[Point]| points.iter().map(|point| [point.x, point.y]).collect::<Vec<_>>();
    let holes: Vec<Vec<[f64; 2]>> = holes.iter().map(|hole| pairs(hole)).collect();
    let mut sides: [Vec<f64>; 2] = Default::default();
    for point in pairs(body).iter().chain(holes.iter().flatten()) {
        sides.iter_mut().zip(point).for_each(|(side, value)| side.push(*value));
    }
    sides.iter_mut().for_each(|side| side.sort_by(f64::total_cmp));
    let shapes = pairs(body).overlay(&holes, OverlayRule::Difference, FillRule::NonZero);
    let outlines = shapes.into_iter().flatten();
    let exact = |[x, y]: [f64; 2]| Point::new(nearest(&sides[0], x), nearest(&sides[1], y));
    outlines.map(|outline| outline.into_iter().map(exact).collect()).collect()
}

/// The library computes on a grid of whole numbers: a coordinate that was given comes back as it was.
fn nearest(given: &[f64], value: f64) -> f64 {
    let after = given.partition_point(|side| *side < value);
    let near = given[after.saturating_sub(1)..(after + 1).min(given.len())].iter().copied();
    near.min_by(|a, b| (a - value).abs().total_cmp(&(b - value).abs()))
        .filter(|side| (side - value).abs() < GRID)
        .unwrap_or(value)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn rectangle([x0, y0, x1, y1]: [f64; 4]) -> Vec<Point> {
        [(x0, y0), (x1, y0), (x1, y1), (x0, y1)].map(|(x, y)| Point::new(x, y)).to_vec()
    }

    fn area(outlines: &[Vec<Point>]) -> f64 {
        let twice = |points: &Vec<Point>| -> f64 {
            (0..points.len()).map(|i| points[i].to_vec2().cross(points[(i + 1) % points.len()].to_vec2())).sum()
        };
        outlines.iter().map(|points| 0.5 * twice(points)).sum::<f64>().abs()
    }

    #[test]
    fn a_door_is_a_notch_a_window_a_hole_and_an_opening_at_the_end_a_step() {
        let body = rectangle([0.0, 0.0, 10.0, 2.0]);
        for (hole, outlines, left) in [
            ([2.0, -0.5, 3.0, 1.9], vec![8], 18.1),
            ([2.0, 0.5, 3.0, 1.5], vec![4, 4], 19.0),
            ([-1.0, 0.5, 1.0, 1.5], vec![8], 19.0),
            ([2.0, -1.0, 3.0, 3.0], vec![4, 4], 18.0),
        ] {
            let found = hollow(&body, &[rectangle(hole)]);
            assert_eq!(found.iter().map(Vec::len).collect::<Vec<_>>(), outlines);
            assert!((area(&found) - left).abs() < 1e-12, "{}", area(&found));
        }
        assert!(hollow(&body, &[rectangle([-1.0, -1.0, 11.0, 3.0])]).is_empty());
    }
}

//! Where an upright plane passes through a body.

use std::collections::BTreeMap;

use kurbo::{Point, Vec2};

use super::mesh::Mesh;

/// The outlines in which an upright plane passes through a closed body, counter-clockwise for who looks to the left of the
/// way: x along the way from the origin, y up, in metres. A corner in the plane counts as beyond it.
#[must_use]
pub fn slice(mesh: &Mesh, origin: Point, along: Vec2) -> Vec<Vec<Point>> {
    let beyond: Vec<f64> =
        mesh.points.iter().map(|[x, y, _]| (Point::new(*x, *y) - origin).dot(along.turn_90())).collect();
    let is_beyond = |corner: u32| beyond[corner as usize] >= 0.0;
    let edge = |a: u32, b: u32| (a.min(b), a.max(b));
    // In each triangle the edge that leads beyond the plane is followed by the one that leads back.
    let mut next: BTreeMap<(u32, u32), (u32, u32)> = BTreeMap::new();
    for &[a, b, c] in &mesh.triangles {
        let sides = [(a, b), (b, c), (c, a)];
        let leaves = sides.iter().find(|(from, to)| is_beyond(*from) && !is_beyond(*to));
        let enters = sides.iter().find(|(from, to)| !is_beyond(*from) && is_beyond(*to));
        if let (Some(&(a, b)), Some(&(c, d))) = (leaves, enters) {
            next.insert(edge(c, d), edge(a, b));
        }
    }
    let place = |(a, b): (u32, u32)| {
        let share = beyond[a as usize] / (beyond[a as usize] - beyond[b as usize]);
        let [from, to] = [mesh.points[a as usize], mesh.points[b as usize]];
        let [x, y, level] = [0, 1, 2].map(|axis| from[axis] + (to[axis] - from[axis]) * share);
        Point::new((Point::new(x, y) - origin).dot(along), level)
    };
    let mut outlines = Vec::new();
    while let Some((&first, _)) = next.first_key_value() {
        let (mut outline, mut at) = (Vec::new(), first);
        while let Some(to) = next.remove(&at) {
            outline.push(place(at));
            at = to;
        }
        outlines.push(outline);
    }
    outlines
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::solid::prism;

    /// Twice the area of an outline, above zero when it goes round counter-clockwise.
    fn twice_area(outline: &[Point]) -> f64 {
        let next = outline.iter().cycle().skip(1);
        outline.iter().zip(next).map(|(a, b)| a.to_vec2().cross(b.to_vec2())).sum()
    }

    #[test]
    fn a_prism_is_cut_in_as_many_rectangles_as_the_plane_enters_it() {
        let corners = [(0.0, 0.0), (4.0, 0.0), (4.0, 3.0), (2.0, 1.0), (0.0, 3.0)].map(|(x, y)| Point::new(x, y));
        let mesh = prism(&corners, [0.1, 0.6]).unwrap();
        for (level, widths) in [(0.5, vec![4.0]), (2.0, vec![1.0, 1.0]), (3.5, Vec::new())] {
            let mut cuts = slice(&mesh, Point::new(1.0, level), Vec2::new(1.0, 0.0));
            cuts.sort_by(|a, b| a[0].x.total_cmp(&b[0].x));
            assert_eq!(cuts.len(), widths.len(), "at {level}");
            for (outline, width) in cuts.iter().zip(widths) {
                assert!((twice_area(outline) - 2.0 * 0.5 * width).abs() < 1e-12, "{outline:?}");
            }
        }
        let other_way = slice(&mesh, Point::new(1.0, 0.5), Vec2::new(-1.0, 0.0));
        assert!((twice_area(&other_way[0]) - 4.0).abs() < 1e-12, "{other_way:?}");
        assert!(other_way[0].iter().all(|point| (-3.0 - 1e-12..=1.0 + 1e-12).contains(&point.x)));
    }
}

//! What of a picture lies above the ground.

use crate::view::Face;

/// What of a face lies above a height of the picture, in metres; the edge at that height is not drawn.
pub(super) fn above(face: Face, height: f64) -> Option<Face> {
    if face.points.iter().all(|point| point[1] >= height) {
        return Some(face);
    }
    let count = face.points.len();
    let (mut points, mut edges) = (Vec::new(), Vec::new());
    for place in 0..count {
        let (here, there) = (face.points[place], face.points[(place + 1) % count]);
        let (is_above, goes_on) = (here[1] > height, there[1] > height);
        if is_above {
            points.push(here);
            edges.push(face.edges[place]);
        }
        if is_above != goes_on {
            let share = (height - here[1]) / (there[1] - here[1]);
            points.push([here[0] + (there[0] - here[0]) * share, height]);
            edges.push(goes_on && face.edges[place]);
        }
    }
    (points.len() > 2).then_some(Face { points, edges, ..face })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::view::Shade;

    #[test]
    fn a_square_half_in_the_ground_keeps_its_upper_half_without_a_line_at_the_ground() {
        let points = vec![[0.0, -1.0], [1.0, -1.0], [1.0, 1.0], [0.0, 1.0]];
        let face = Face { body: 0, points, edges: vec![true; 4], shade: Shade::Half };
        let kept = above(face.clone(), 0.0).unwrap();
        assert_eq!(kept.points, [[1.0, 0.0], [1.0, 1.0], [0.0, 1.0], [0.0, 0.0]]);
        assert_eq!(kept.edges, [true, true, true, false]);
        assert_eq!(above(face, 2.0), None);
    }
}

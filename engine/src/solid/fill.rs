//! A flat domain between closed polylines, filled with triangles that use no other points.

use spade::{ConstrainedDelaunayTriangulation, HasPosition, Point2, Triangulation};

use super::fault::Fault;

struct Corner([f64; 2]);

impl HasPosition for Corner {
    type Scalar = f64;

    fn position(&self) -> Point2<f64> {
        // The triangulation refuses numbers that are all but zero.
        let [x, y] = self.0.map(|value| if value.abs() < 1e-30 { 0.0 } else { value });
        Point2::new(x, y)
    }
}

/// Triangles, counter-clockwise, of what lies an odd number of sides away from the far outside.
///
/// `sides` bound the domain and are kept whole; `lines` inside it are kept where they cross none. Both are places in the
/// list of points.
///
/// # Errors
/// [`Fault::Tangled`] where sides cross, or a point lies on another or on a side.
pub fn fill(points: &[[f64; 2]], sides: &[[usize; 2]], lines: &[[usize; 2]]) -> Result<Vec<[usize; 3]>, Fault> {
    if sides.is_empty() {
        return Ok(Vec::new());
    }
    let corners = points.iter().map(|&point| Corner(point)).collect();
    let mut crossing = false;
    let mut net: ConstrainedDelaunayTriangulation<Corner> =
        ConstrainedDelaunayTriangulation::try_bulk_load_cdt(corners, sides.to_vec(), |_| crossing = true)
            .map_err(|_| Fault::Tangled)?;
    if crossing || net.num_vertices() != points.len() {
        return Err(Fault::Tangled);
    }
    let place = spade::handles::FixedVertexHandle::from_index;
    if !sides.iter().all(|&[from, to]| net.exists_constraint(place(from), place(to))) {
        return Err(Fault::Tangled);
    }
    for &[from, to] in lines {
        if from != to && net.can_add_constraint(place(from), place(to)) {
            net.add_constraint(place(from), place(to));
        }
    }
    let mut bounds: Vec<[usize; 2]> = sides.iter().map(|&[a, b]| [a.min(b), a.max(b)]).collect();
    bounds.sort_unstable();
    Ok(inside(&net, &bounds))
}

fn inside(net: &ConstrainedDelaunayTriangulation<Corner>, bounds: &[[usize; 2]]) -> Vec<[usize; 3]> {
    let is_bound = |[a, b]: [usize; 2]| bounds.binary_search(&[a.min(b), a.max(b)]).is_ok();
    let mut within: Vec<Option<bool>> = vec![None; net.num_all_faces()];
    let mut next = Vec::new();
    for edge in net.convex_hull() {
        let ends = edge.vertices().map(|vertex| vertex.fix().index());
        for face in [edge.face(), edge.rev().face()].iter().filter_map(|face| face.as_inner()) {
            next.push((face, edge.is_constraint_edge() && is_bound(ends)));
        }
    }
    let mut triangles = Vec::new();
    while let Some((face, is_within)) = next.pop() {
        let known = &mut within[face.fix().index()];
        if known.is_some() {
            continue;
        }
        *known = Some(is_within);
        if is_within {
            triangles.push(face.vertices().map(|vertex| vertex.fix().index()));
        }
        for edge in face.adjacent_edges() {
            if let Some(beyond) = edge.rev().face().as_inner() {
                let ends = edge.vertices().map(|vertex| vertex.fix().index());
                next.push((beyond, is_within != (edge.is_constraint_edge() && is_bound(ends))));
            }
        }
    }
    triangles
}

#[cfg(test)]
mod tests {
    use super::*;

    const SQUARES: [[f64; 2]; 8] =
        [[0.0, 0.0], [4.0, 0.0], [4.0, 4.0], [0.0, 4.0], [1.0, 1.0], [2.0, 1.0], [2.0, 2.0], [1.0, 2.0]];

    fn ring(of: [usize; 4]) -> [[usize; 2]; 4] {
        [[of[0], of[1]], [of[1], of[2]], [of[2], of[3]], [of[3], of[0]]]
    }

    #[test]
    fn a_square_with_a_hole_is_filled_round_the_hole() {
        let sides: Vec<[usize; 2]> = ring([0, 1, 2, 3]).into_iter().chain(ring([4, 5, 6, 7])).collect();
        let triangles = fill(&SQUARES, &sides, &[]).unwrap();
        let twice = |&[a, b, c]: &[usize; 3]| {
            let [a, b, c] = [SQUARES[a], SQUARES[b], SQUARES[c]];
            (b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0])
        };
        assert!(triangles.iter().all(|triangle| twice(triangle) > 0.0));
        assert!((triangles.iter().map(twice).sum::<f64>() - 30.0).abs() < 1e-12);
    }

    #[test]
    fn sides_that_cross_are_refused() {
        assert_eq!(fill(&SQUARES[..4], &ring([0, 1, 3, 2]), &[]), Err(Fault::Tangled));
        let twice = [[0.0, 0.0], [1.0, 0.0], [1.0, 0.0], [0.0, 1.0]];
        assert_eq!(fill(&twice, &ring([0, 1, 2, 3]), &[]), Err(Fault::Tangled));
    }
}

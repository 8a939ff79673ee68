//! A body between two levels over columns of places that stand side by side round an eye.

use super::pole::outward;
use crate::solid::Mesh;

/// The body over `columns` in order round the eye, each from the eave up to the eye and all of as many places, between two
/// levels above them.
pub(super) fn body(columns: &[Vec<[f64; 3]>], levels: [f64; 2]) -> Mesh {
    let count = columns.len() as u32;
    let places = columns.first().map_or(0, Vec::len);
    let mut mesh = Mesh::default();
    for up in levels {
        for place in 0..places {
            mesh.points.extend(columns.iter().map(|column| {
                let [x, y, z] = column[place];
                [x, y, z + up]
            }));
        }
    }
    let (rows, steps) = (places as u32, places.saturating_sub(1) as u32);
    let corner = |level: u32, step: u32, column: u32| (level * rows + step) * count + column % count;
    for column in 0..count {
        let next = column + 1;
        let mut quad = |[a, b, c, d]: [u32; 4]| mesh.triangles.extend([[a, b, c], [a, c, d]]);
        for step in 0..steps {
            let corners = [(step, column), (step, next), (step + 1, next), (step + 1, column)];
            let [a, b, c, d] = corners.map(|(step, column)| corner(0, step, column));
            quad([a, d, c, b]);
            quad(corners.map(|(step, column)| corner(1, step, column)));
        }
        for (step, ends) in [(0, [column, next]), (steps, [next, column])] {
            let [from, to] = ends;
            quad([corner(0, step, from), corner(0, step, to), corner(1, step, to), corner(1, step, from)]);
        }
    }
    outward(mesh)
}

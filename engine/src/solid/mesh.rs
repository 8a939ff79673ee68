//! A triangulated surface that knows whether it is closed and how much it holds.

use std::collections::BTreeMap;

/// Points in metres (x and y as in the plan, z up) and triangles of three of them, counter-clockwise seen from outside.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Mesh {
    /// The corners, in metres.
    pub points: Vec<[f64; 3]>,
    /// Places in the list of points.
    pub triangles: Vec<[u32; 3]>,
}

impl Mesh {
    /// Volume in m³: the sum of the signed tetrahedra between a point of the body and each triangle.
    ///
    /// ```text
    /// V = Σ a · (b × c) / 6
    /// ```
    /// Source: the divergence theorem, any textbook of vector calculus.
    #[must_use]
    pub fn volume(&self) -> f64 {
        let Some(origin) = self.points.first() else { return 0.0 };
        let from = |index: u32| {
            let point = self.points[index as usize];
            [point[0] - origin[0], point[1] - origin[1], point[2] - origin[2]]
        };
        let six = |&[a, b, c]: &[u32; 3]| {
            let (a, b, c) = (from(a), from(b), from(c));
            a[0] * (b[1] * c[2] - b[2] * c[1]) + a[1] * (b[2] * c[0] - b[0] * c[2]) + a[2] * (b[0] * c[1] - b[1] * c[0])
        };
        self.triangles.iter().map(six).sum::<f64>() / 6.0
    }

    /// How many directed edges are not met by exactly one in the opposite direction; 0 for a closed body.
    #[must_use]
    pub fn open_edges(&self) -> usize {
        let mut edges: BTreeMap<(u32, u32), [u32; 2]> = BTreeMap::new();
        for &[a, b, c] in &self.triangles {
            for (from, to) in [(a, b), (b, c), (c, a)] {
                let count = edges.entry((from.min(to), from.max(to))).or_default();
                count[usize::from(from > to)] += 1;
            }
        }
        edges.values().filter(|count| **count != [1, 1]).count()
    }

    /// Both bodies, as shells of one mesh.
    #[must_use]
    pub fn with(mut self, other: &Mesh) -> Mesh {
        let first = self.points.len() as u32;
        self.points.extend(&other.points);
        self.triangles.extend(other.triangles.iter().map(|corners| corners.map(|corner| corner + first)));
        self
    }

    /// A new corner.
    pub(super) fn point(&mut self, at: [f64; 3]) -> u32 {
        self.points.push(at);
        (self.points.len() - 1) as u32
    }

    /// A triangle, unless two of its corners are one.
    pub(super) fn triangle(&mut self, corners: [u32; 3]) {
        let [a, b, c] = corners;
        if a != b && b != c && c != a {
            self.triangles.push(corners);
        }
    }

    /// A patch of four corners, some of which may be one.
    pub(super) fn quad(&mut self, [a, b, c, d]: [u32; 4]) {
        self.triangle([a, b, c]);
        self.triangle([a, c, d]);
    }

    /// The same without the points that no triangle has.
    pub(super) fn tidied(mut self) -> Mesh {
        let mut place: Vec<Option<u32>> = vec![None; self.points.len()];
        let mut points = Vec::with_capacity(self.points.len());
        for corner in self.triangles.iter_mut().flatten() {
            let old = *corner as usize;
            *corner = *place[old].get_or_insert_with(|| {
                points.push(self.points[old]);
                (points.len() - 1) as u32
            });
        }
        Mesh { points, triangles: self.triangles }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_tetrahedron_is_closed_and_holds_a_sixth() {
        let points = vec![[0.0, 0.0, 0.0], [1.0, 0.0, 0.0], [0.0, 1.0, 0.0], [0.0, 0.0, 1.0]];
        let triangles = vec![[0, 2, 1], [0, 1, 3], [1, 2, 3], [0, 3, 2]];
        let mesh = Mesh { points, triangles };
        assert!((mesh.volume() - 1.0 / 6.0).abs() < 1e-15);
        assert_eq!(mesh.open_edges(), 0);
        let open = Mesh { triangles: mesh.triangles[1..].to_vec(), ..mesh };
        assert_eq!(open.open_edges(), 3);
    }
}

//! An upright box: a board, a shelf, a sill, a timber laid in the wall.

use kurbo::{Point, Vec2};

use super::mesh::Mesh;

/// A box with level top and foot, turned in plan; metres.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Cuboid {
    /// Its middle in plan.
    pub middle: Point,
    /// Unit direction of its length in plan.
    pub axis: Vec2,
    /// Half its length and half its breadth.
    pub half: [f64; 2],
    /// Levels of its foot and its top.
    pub levels: [f64; 2],
}

impl Cuboid {
    /// Its corners in plan, counter-clockwise.
    #[must_use]
    pub fn corners(&self) -> [Point; 4] {
        let (along, aside) = (self.axis * self.half[0], self.axis.turn_90() * self.half[1]);
        [-along - aside, along - aside, along + aside, aside - along].map(|reach| self.middle + reach)
    }

    /// Volume, in m³.
    ///
    /// ```text
    /// V = l b h
    /// ```
    /// Source: volume of a box, elementary geometry.
    #[must_use]
    pub fn volume(&self) -> f64 {
        4.0 * self.half[0] * self.half[1] * (self.levels[1] - self.levels[0])
    }

    /// Its surface.
    #[must_use]
    pub fn mesh(&self) -> Mesh {
        let mut mesh = Mesh::default();
        let [foot, top] = self.rings(&mut mesh);
        sides(&mut mesh, foot, top);
        mesh.quad([foot[3], foot[2], foot[1], foot[0]]);
        mesh.quad(top);
        mesh
    }

    /// Adds its surface seen from within, without the foot or the top where those lie on a bed; its corners at foot and top.
    pub(super) fn hollow(&self, mesh: &mut Mesh, on_bed: [bool; 2]) -> [[u32; 4]; 2] {
        let [foot, top] = self.rings(mesh);
        sides(mesh, top, foot);
        if !on_bed[0] {
            mesh.quad(foot);
        }
        if !on_bed[1] {
            mesh.quad([top[3], top[2], top[1], top[0]]);
        }
        [foot, top]
    }

    fn rings(&self, mesh: &mut Mesh) -> [[u32; 4]; 2] {
        self.levels.map(|level| self.corners().map(|corner| mesh.point([corner.x, corner.y, level])))
    }
}

/// The upright sides over one ring up to the other.
fn sides(mesh: &mut Mesh, foot: [u32; 4], top: [u32; 4]) {
    for corner in 0..4 {
        let next = (corner + 1) % 4;
        mesh.quad([foot[corner], foot[next], top[next], top[corner]]);
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_box_is_closed_and_its_hollow_is_the_same_turned_inside_out() {
        let turn = 0.3_f64;
        let held = Cuboid {
            middle: Point::new(2.0, 1.0),
            axis: Vec2::new(turn.cos(), turn.sin()),
            half: [0.6, 0.1],
            levels: [0.4, 0.7],
        };
        let mesh = held.mesh();
        assert_eq!(mesh.open_edges(), 0);
        assert!((mesh.volume() - 0.072).abs() < 1e-15 && (held.volume() - 0.072).abs() < 1e-15);
        let mut hollow = Mesh::default();
        held.hollow(&mut hollow, [false; 2]);
        assert_eq!(hollow.open_edges(), 0);
        assert!((hollow.volume() + 0.072).abs() < 1e-15);
    }
}

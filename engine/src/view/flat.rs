//! The flat convex faces of a body: triangles joined where they lie in one plane, each edge knowing its other face.

use super::{Facing, Shade, Sight, cross, dot, less, normal};
use crate::solid::Mesh;

/// How far a corner may lie from the plane of its face, in metres.
const FLAT: f64 = 1e-4;
/// Cosine of the angle at which an edge is a crease: smooth curves of a drawing's chords turn by less.
const CREASE: f64 = 0.85;
/// A face that turns so little to the viewer may be too narrow to be seen: the body ends there.
const GRAZING: f64 = 0.2;
/// No triangle.
const NONE: u32 = u32::MAX;

/// A body as flat convex faces.
#[derive(Clone, Debug)]
pub struct Body {
    points: Vec<[f64; 3]>,
    faces: Vec<Flat>,
    /// The face that each triangle of the mesh went into.
    owner: Vec<u32>,
}

/// A face: corners counter-clockwise from outside, each with the triangle across the edge to the next one.
#[derive(Clone, Debug, Default)]
struct Flat {
    ring: Vec<(u32, u32)>,
    normal: [f64; 3],
}

impl Body {
    /// The faces of a closed mesh.
    #[must_use]
    pub fn of(mesh: &Mesh) -> Body {
        let across = across(mesh);
        let point = |corner: u32| mesh.points[corner as usize];
        let faces = mesh.triangles.iter().zip(&across).map(|(corners, across)| {
            let ring: Vec<(u32, u32)> = corners.iter().copied().zip(across.iter().copied()).collect();
            Flat { normal: normal(corners.iter().map(|&corner| point(corner))), ring }
        });
        let mut body = Body {
            points: mesh.points.clone(),
            faces: faces.collect(),
            owner: (0..mesh.triangles.len() as u32).collect(),
        };
        body.join(mesh, &across);
        body
    }

    /// The same so many metres higher.
    #[must_use]
    pub fn raised(mut self, by: f64) -> Body {
        for point in &mut self.points {
            point[2] += by;
        }
        self
    }

    /// Its corners, in metres.
    pub fn points(&self) -> impl Iterator<Item = [f64; 3]> {
        self.points.iter().copied()
    }

    fn join(&mut self, mesh: &Mesh, across: &[[u32; 3]]) {
        // Long edges first, so that slivers join their large neighbours and not each other.
        let mut edges: Vec<(f64, u32, u32)> = Vec::new();
        for (index, (corners, across)) in mesh.triangles.iter().zip(across).enumerate() {
            for (side, &other) in across.iter().enumerate() {
                if other != NONE && (index as u32) < other {
                    let way = less(mesh.points[corners[(side + 1) % 3] as usize], mesh.points[corners[side] as usize]);
                    edges.push((dot(way, way), index as u32, other));
                }
            }
        }
        edges.sort_by(|a, b| b.0.total_cmp(&a.0));
        for (_, first, second) in edges {
            let (a, b) = (self.face_of(first), self.face_of(second));
            if a != b
                && let Some(joined) = self.joined(a, b)
            {
                self.faces[a as usize] = joined;
                self.faces[b as usize] = Flat::default();
                self.owner[b as usize] = a;
            }
        }
        for triangle in 0..self.owner.len() as u32 {
            self.owner[triangle as usize] = self.face_of(triangle);
        }
    }

    /// The face that a triangle has gone into: the first of those joined.
    fn face_of(&mut self, triangle: u32) -> u32 {
        let mut face = triangle;
        while self.owner[face as usize] != face {
            let next = self.owner[face as usize];
            self.owner[face as usize] = self.owner[next as usize];
            face = next;
        }
        face
    }

    /// Two neighbours as one face, when they lie in one plane and it is convex.
    fn joined(&mut self, a: u32, b: u32) -> Option<Flat> {
        let (one, other) = (&self.faces[a as usize], &self.faces[b as usize]);
        // A face without area has no direction and joins any neighbour.
        let is_sliver = |face: &Flat| dot(face.normal, face.normal) < 0.5;
        if !is_sliver(one) && !is_sliver(other) && dot(one.normal, other.normal) < 0.5 {
            return None;
        }
        let (one, other) = (one.ring.clone(), other.ring.clone());
        let shared = (0..one.len()).find(|&side| {
            let across = one[side].1;
            across != NONE && self.face_of(across) == b
        })?;
        let (from, to) = (one[shared].0, one[(shared + 1) % one.len()].0);
        let back = (0..other.len()).find(|&side| other[side].0 == to && other[(side + 1) % other.len()].0 == from)?;
        let mut ring: Vec<(u32, u32)> = (1..one.len()).map(|step| one[(shared + step) % one.len()]).collect();
        ring.extend((1..other.len()).map(|step| other[(back + step) % other.len()]));
        tidy(&mut ring);
        let points: Vec<[f64; 3]> = ring.iter().map(|&(corner, _)| self.points[corner as usize]).collect();
        let normal = normal(points.iter().copied());
        (is_flat(&points, normal) && is_convex(&points, normal)).then_some(Flat { ring, normal })
    }

    /// The faces that look towards the viewer, on the picture.
    pub(super) fn facing(&self, body: usize, sight: &Sight) -> Vec<Facing> {
        let points: Vec<[f64; 3]> = self.points.iter().map(|&point| sight.at(point)).collect();
        let toward = |face: &Flat| dot(face.normal, sight.toward);
        let facing = self.faces.iter().filter(|face| face.ring.len() > 2 && toward(face) > 1e-6);
        facing
            .map(|face| {
                let is_drawn = |across: u32| {
                    if across == NONE {
                        return true;
                    }
                    let other = &self.faces[self.owner[across as usize] as usize];
                    toward(other) < GRAZING.min(0.5 * toward(face)) || dot(other.normal, face.normal) < CREASE
                };
                let corners = face.ring.iter().map(|&(corner, across)| (points[corner as usize], is_drawn(across)));
                let shade = shade(face.normal, sight);
                Facing { body, corners: corners.collect(), normal: sight.at(face.normal), shade }
            })
            .collect()
    }
}

/// The triangle across each edge of each triangle.
fn across(mesh: &Mesh) -> Vec<[u32; 3]> {
    let mut edges: Vec<(u32, u32, u32, u8)> = Vec::with_capacity(3 * mesh.triangles.len());
    for (index, corners) in mesh.triangles.iter().enumerate() {
        for side in 0..3_u8 {
            let (from, to) = (corners[usize::from(side)], corners[usize::from(side + 1) % 3]);
            edges.push((from.min(to), from.max(to), index as u32, side));
        }
    }
    edges.sort_unstable();
    let mut across = vec![[NONE; 3]; mesh.triangles.len()];
    for pair in edges.windows(2).filter(|pair| (pair[0].0, pair[0].1) == (pair[1].0, pair[1].1)) {
        across[pair[0].2 as usize][usize::from(pair[0].3)] = pair[1].2;
        across[pair[1].2 as usize][usize::from(pair[1].3)] = pair[0].2;
    }
    across
}

/// Takes out corners at which a ring turns back on itself.
fn tidy(ring: &mut Vec<(u32, u32)>) {
    let mut place = 0;
    while ring.len() > 2 && place < ring.len() {
        let count = ring.len();
        let (before, after) = ((place + count - 1) % count, (place + 1) % count);
        if ring[before].0 == ring[after].0 {
            // The corner itself and the one after go; the edge that goes on from the second is kept at the first.
            ring[before].1 = ring[after].1;
            let (first, second) = (place.max(after), place.min(after));
            ring.remove(first);
            ring.remove(second);
            place = 0;
        } else {
            place += 1;
        }
    }
}

fn is_flat(points: &[[f64; 3]], normal: [f64; 3]) -> bool {
    let [first, ..] = points else { return false };
    let heights = points.iter().map(|&point| dot(less(point, *first), normal));
    let (low, high) = heights.fold((0.0_f64, 0.0_f64), |(low, high), height| (low.min(height), high.max(height)));
    points.len() > 2 && high - low < FLAT
}

fn is_convex(points: &[[f64; 3]], normal: [f64; 3]) -> bool {
    let count = points.len();
    (0..count).all(|place| {
        let [a, b, c] = [points[place], points[(place + 1) % count], points[(place + 2) % count]];
        let (here, next) = (less(b, a), less(c, b));
        let turn = dot(cross(here, next), normal);
        let whole = (dot(here, here) * dot(next, next)).sqrt();
        turn >= -1e-6 * whole && (turn > 1e-6 * whole || dot(here, next) > 0.0)
    })
}

fn shade(normal: [f64; 3], sight: &Sight) -> Shade {
    let right = dot(normal, sight.right);
    match () {
        () if normal[2] > 0.7 => Shade::Above,
        () if right > 0.45 => Shade::Dark,
        () if right < -0.45 => Shade::Light,
        () => Shade::Half,
    }
}

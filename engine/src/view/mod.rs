//! What one sees of closed bodies along a direction: flat faces from back to front, with the edges that a drawing wants.
//!
//! Faces that look away and faces that no sample sees are left out; the rest is put in order by a tree of planes.

mod flat;
mod sampled;
mod sight;
mod tree;

pub use flat::Body;
pub use sight::Sight;

/// Which way a face looks, as the light falls from above on the left.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Shade {
    /// Up.
    Above,
    /// To the light.
    Light,
    /// Straight to the viewer, or nearly.
    Half,
    /// Away from the light.
    Dark,
}

/// A flat convex face, or a piece of one.
#[derive(Clone, Debug, PartialEq)]
pub struct Face {
    /// Its body, by place in the list given.
    pub body: usize,
    /// Its corners on the picture, in metres to the right and up, counter-clockwise.
    pub points: Vec<[f64; 2]>,
    /// Whether the edge from each corner to the next is drawn: a crease, or where the body ends before what lies behind.
    pub edges: Vec<bool>,
    /// Which way it looks.
    pub shade: Shade,
}

/// A corner on the picture: metres to the right, up, and towards the viewer; and whether the edge to the next is drawn.
pub(crate) type Corner = ([f64; 3], bool);

/// A face that looks towards the viewer.
#[derive(Clone, Debug)]
pub(crate) struct Facing {
    body: usize,
    corners: Vec<Corner>,
    normal: [f64; 3],
    shade: Shade,
}

/// The faces of bodies that one sees along a direction, from back to front.
///
/// What is smaller on the picture than `sample`, in metres, may be left out, and on a picture wider or higher than 1,200
/// samples what is smaller than a 1,200th of it. Bodies must not overlap by more than their surfaces' tolerance; where faces
/// of two bodies lie in one plane, the later body is drawn over the earlier.
#[must_use]
pub fn view(bodies: &[&Body], sight: &Sight, sample: f64) -> Vec<Face> {
    let facing: Vec<Facing> = bodies.iter().enumerate().flat_map(|(body, flats)| flats.facing(body, sight)).collect();
    let seen = sampled::seen(facing, sample);
    let ordered = tree::ordered(seen);
    ordered.into_iter().map(Face::of).collect()
}

impl Face {
    fn of(facing: Facing) -> Face {
        let Facing { body, corners, shade, .. } = facing;
        let points = corners.iter().map(|([right, up, _], _)| [*right, *up]).collect();
        Face { body, points, edges: corners.iter().map(|(_, edge)| *edge).collect(), shade }
    }
}

fn less(a: [f64; 3], b: [f64; 3]) -> [f64; 3] {
    [a[0] - b[0], a[1] - b[1], a[2] - b[2]]
}

fn dot(a: [f64; 3], b: [f64; 3]) -> f64 {
    a[0] * b[0] + a[1] * b[1] + a[2] * b[2]
}

fn cross(a: [f64; 3], b: [f64; 3]) -> [f64; 3] {
    [a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0]]
}

/// The unit normal of a flat ring of points, by the sum of its turns; zero for a ring without area.
fn normal(points: impl Iterator<Item = [f64; 3]> + Clone) -> [f64; 3] {
    let Some(origin) = points.clone().next() else { return [0.0; 3] };
    let mut sum = [0.0; 3];
    let mut before = None;
    for point in points {
        let here = less(point, origin);
        if let Some(before) = before {
            let turn = cross(before, here);
            sum = [sum[0] + turn[0], sum[1] + turn[1], sum[2] + turn[2]];
        }
        before = Some(here);
    }
    let length = dot(sum, sum).sqrt();
    if length > 0.0 { sum.map(|part| part / length) } else { [0.0; 3] }
}

//! The body of a straight round pole, even or tapered.

use kurbo::Vec2;

use crate::solid::Mesh;

/// Sides of a pole.
const SIDES: u32 = 12;

/// A pole of a picture.
#[derive(Clone)]
pub(crate) struct Pole {
    /// Where its axis begins, low, and where it ends.
    pub(crate) axis: [[f64; 3]; 2],
    pub(crate) mesh: Mesh,
    /// The row that says how much wood it holds; none where a row says so of all poles together.
    pub(crate) row: Option<String>,
}

impl Pole {
    /// A pole between the ends of its axis, with as much wood as a round one of that radius; all in metres.
    pub(super) fn new(axis: [[f64; 3]; 2], radius: f64) -> Pole {
        Pole::tapered(axis, [radius; 2])
    }

    /// The same with a radius at each end.
    pub(super) fn tapered(axis: [[f64; 3]; 2], radii: [f64; 2]) -> Pole {
        Pole { axis, mesh: body(axis, radii), row: None }
    }
}

fn body([from, to]: [[f64; 3]; 2], radii: [f64; 2]) -> Mesh {
    let step = std::f64::consts::TAU / f64::from(SIDES);
    let radii = radii.map(|radius| radius * (step / step.sin()).sqrt());
    let way = [0, 1, 2].map(|axis| to[axis] - from[axis]);
    let flat = Vec2::new(way[0], way[1]);
    let length = flat.hypot().hypot(way[2]);
    let (aside, rise) = (flat.normalize().turn_90(), way[2] / length);
    // Square to the axis: level to the left, and upwards.
    let up = [-rise * flat.x / flat.hypot(), -rise * flat.y / flat.hypot(), flat.hypot() / length];
    let ring = |end: [f64; 3], radius: f64| {
        (0..SIDES).map(move |side| {
            let angle = step * f64::from(side);
            let (out, high) = (radius * angle.cos(), radius * angle.sin());
            [end[0] + aside.x * out + up[0] * high, end[1] + aside.y * out + up[1] * high, end[2] + up[2] * high]
        })
    };
    let points = ring(from, radii[0]).chain(ring(to, radii[1])).collect();
    let mut triangles = Vec::new();
    for side in 0..SIDES {
        let next = (side + 1) % SIDES;
        // The left of the axis, then up, turns clockwise for who looks along it.
        triangles.extend([[side, side + SIDES, next], [next, side + SIDES, next + SIDES]]);
        if side > 1 {
            triangles.extend([[0, side - 1, side], [SIDES, SIDES + side, SIDES + side - 1]]);
        }
    }
    outward(Mesh { points, triangles })
}

/// The mesh turned so that it holds something.
pub(super) fn outward(mut mesh: Mesh) -> Mesh {
    if mesh.volume() < 0.0 {
        for corners in &mut mesh.triangles {
            corners.swap(1, 2);
        }
    }
    mesh
}

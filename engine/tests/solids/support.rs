//! Walls and cuts for the tests of solids, their exact volumes, and what a general library says of a mesh.
#![allow(dead_code, reason = "each file of tests uses a part of it")]

use std::f64::consts::TAU;

use engine::curve::{Along, Cut, Depth, Form, PlanLine, Shape, Side, Vertex, Way};
use engine::solid::Mesh;
use kurbo::Point;
use manifold_rust::manifold::Manifold;
use manifold_rust::types::{Error, MeshGL64};

/// Numbers from a seed.
pub struct Draw(u64);

impl Draw {
    pub fn of(seed: u64) -> Draw {
        Draw(seed.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407))
    }

    pub fn between(&mut self, low: f64, high: f64) -> f64 {
        self.0 = self.0.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
        low + (high - low) * ((self.0 >> 33) as f64 / f64::from(1u32 << 31))
    }

    pub fn below(&mut self, count: usize) -> usize {
        (self.between(0.0, count as f64) as usize).min(count - 1)
    }
}

pub fn ring(radius: f64) -> PlanLine {
    let vertex = |x: f64, y: f64| Vertex { at: Point::new(x, 0.0), round: 0.5, way: Way::Through(Point::new(0.0, y)) };
    PlanLine::closed(&[vertex(radius, radius), vertex(-radius, -radius)]).unwrap()
}

pub fn rectangle(length: f64, breadth: f64, round: f64) -> PlanLine {
    let corners = [(0.0, 0.0), (length, 0.0), (length, breadth), (0.0, breadth)];
    PlanLine::closed(&corners.map(|(x, y)| Vertex { at: Point::new(x, y), round, way: Way::Straight })).unwrap()
}

/// A ring, a rectangle, or a polygon some of whose sides are arcs that bend out or in.
pub fn random_line(draw: &mut Draw) -> PlanLine {
    match draw.below(4) {
        0 => ring(draw.between(1.5, 3.5)),
        1 => rectangle(draw.between(3.5, 6.0), draw.between(3.0, 5.0), draw.between(0.7, 1.0)),
        _ => {
            let count = 4 + draw.below(4);
            let turn = TAU / count as f64;
            let at = |angle: f64, radius: f64| Point::new(radius * angle.cos(), radius * angle.sin());
            let vertices: Vec<Vertex> = (0..count)
                .map(|index| {
                    let angle = turn * index as f64;
                    let chord = 3.0 * (0.5 * turn).cos();
                    let bulge = draw.between(-0.2, 0.5);
                    let way = match draw.below(2) {
                        0 => Way::Through(at(angle + 0.5 * turn, chord + bulge)),
                        _ => Way::Straight,
                    };
                    Vertex { at: at(angle, draw.between(2.9, 3.1)), round: draw.between(0.7, 0.9), way }
                })
                .collect();
            PlanLine::closed(&vertices).unwrap_or_else(|_| ring(2.5))
        }
    }
}

/// Volume of a whole band, in m³, by parallel sections and Gauss's rule of three points: exact for walls whose thickness and
/// beds are straight between knots.
pub fn band_volume(shape: &Shape<'_>, foot: &Along, top: &Along, [from, to]: [f64; 2]) -> f64 {
    let line = shape.line;
    let length = line.length();
    let mut knots: Vec<f64> = (0..=line.pieces().len()).map(|piece| line.start(piece)).collect();
    for along in [shape.thickness, foot, top] {
        knots.extend(along.breaks().map(|knot| knot.rem_euclid(length)));
    }
    let turned: Vec<f64> = knots.iter().map(|knot| knot + length).collect();
    knots.extend(turned);
    knots.retain(|knot| from < *knot && *knot < to);
    knots.extend([from, to]);
    knots.sort_by(f64::total_cmp);
    let gauss = |a: f64, b: f64, f: &dyn Fn(f64) -> f64| {
        let (middle, half) = (0.5 * (a + b), 0.5 * (b - a));
        let off = half * 0.6_f64.sqrt();
        half * (5.0 * f(middle - off) + 8.0 * f(middle) + 5.0 * f(middle + off)) / 9.0
    };
    let part = |pair: &[f64]| {
        let bend = line.pieces()[line.at(0.5 * (pair[0] + pair[1])).piece].curvature();
        gauss(pair[0], pair[1], &|along| {
            let [foot, top] = [foot.at(along), top.at(along)];
            let height = |level: f64| {
                let [inner, outer] = [Side::Inner, Side::Outer].map(|side| shape.offset(side, along, level));
                outer - inner + 0.5 * bend * (outer * outer - inner * inner)
            };
            if top > foot { gauss(foot, top, &height) } else { 0.0 }
        })
    };
    knots.windows(2).map(part).sum()
}

/// What the library says: whether it takes the mesh as the surface of a body, volume in m³, whether it sees it cross itself.
pub fn library(mesh: &Mesh) -> (bool, f64, bool) {
    let body = in_library(mesh);
    (body.status() == Error::NoError, body.volume(), body.as_impl().is_self_intersecting())
}

fn in_library(mesh: &Mesh) -> Manifold {
    Manifold::from_mesh_gl64(&MeshGL64 {
        num_prop: 3,
        vert_properties: mesh.points.iter().flatten().copied().collect(),
        tri_verts: mesh.triangles.iter().flatten().map(|&corner| u64::from(corner)).collect(),
        ..Default::default()
    })
}

/// What a general library says two bodies have in common, in m³.
pub fn common(one: &Mesh, other: &Mesh) -> f64 {
    in_library(one).intersection(&in_library(other)).volume()
}

/// A form as wide as twice `half`, from one level to another.
pub fn form(kind: usize, half: f64, bottom: f64, top: f64) -> Form {
    match kind {
        0 => Form::Rectangle { half, bottom, top },
        1 => Form::Round { radius: 0.5 * (top - bottom).min(2.0 * half), middle: 0.5 * (bottom + top) },
        2 => Form::Arched { half, bottom, spring: top - half.min(0.6 * (top - bottom)), top },
        _ => Form::Arched { half, bottom, spring: top - 0.3 * half.min(top - bottom), top },
    }
}

/// A cut somewhere in a wall with beds at these levels, often at an awkward place.
pub fn random_cut(draw: &mut Draw, shape: &Shape<'_>, beds: &[f64]) -> Cut {
    let line = shape.line;
    let (low, high) = (beds[0], beds[beds.len() - 1]);
    let half = draw.between(0.08, 0.45);
    let bed = beds[draw.below(beds.len())];
    let near = [0.0, 3e-5, -3e-5, 8e-5, -8e-5, 2e-3][draw.below(6)];
    let (mut bottom, mut top) = (draw.between(low, high - 0.2), draw.between(0.2, 1.2));
    top += bottom;
    match draw.below(6) {
        0 => bottom = low - 0.1,
        1 => bottom = (bed + near).min(high - 0.1),
        2 => top = (bed + near).max(low + 0.1),
        _ => {}
    }
    if top - bottom < 0.1 {
        (bottom, top) = (top - 0.3, top);
    }
    let form = form(draw.below(4), half, bottom, top);
    let joint = line.start(draw.below(line.pieces().len()));
    let along = match draw.below(6) {
        0 => joint + form.half(),
        1 => joint,
        2 => line.length() - form.half(),
        _ => draw.between(0.0, line.length()),
    };
    let station = line.at(along);
    let splay = [draw.between(0.0, 0.4), draw.between(0.0, 0.4)];
    let depth = match draw.below(5) {
        0 => Depth::Through { crease: draw.between(-0.1, 0.1), splay },
        1 => Depth::Through { crease: shape.offset(Side::Outer, along, low) + 0.1, splay },
        2 => {
            let side = [Side::Inner, Side::Outer][draw.below(2)];
            Depth::Into { side, bottom: draw.between(-0.05, 0.05) }
        }
        _ => Depth::Through { crease: 0.0, splay: [0.0; 2] },
    };
    Cut { station, form, depth }
}

//! Faces in the order in which they are drawn: what lies on top at a place is what a ray meets first there.
#![allow(clippy::unwrap_used, clippy::panic, reason = "a test stops at the first surprise")]

use engine::solid::Mesh;
use engine::view::{Body, Face, Sight, view};

/// Smallest thing of the picture that has to be seen, in metres.
const SAMPLE: f64 = 0.004;

/// A box of any attitude: its middle, three unit directions square to each other, half its size along each.
struct Block {
    middle: [f64; 3],
    axes: [[f64; 3]; 3],
    half: [f64; 3],
}

fn dot(a: [f64; 3], b: [f64; 3]) -> f64 {
    a[0] * b[0] + a[1] * b[1] + a[2] * b[2]
}

fn cross(a: [f64; 3], b: [f64; 3]) -> [f64; 3] {
    [a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0]]
}

fn unit(a: [f64; 3]) -> [f64; 3] {
    let length = dot(a, a).sqrt();
    a.map(|part| part / length)
}

impl Block {
    fn along(middle: [f64; 3], way: [f64; 3], half: [f64; 3]) -> Block {
        let first = unit(way);
        let aside = unit(cross(first, if first[2].abs() < 0.9 { [0.0, 0.0, 1.0] } else { [1.0, 0.0, 0.0] }));
        Block { middle, axes: [first, aside, cross(first, aside)], half }
    }

    fn mesh(&self) -> Mesh {
        let corner = |place: usize| {
            let sign = |axis: usize| if place >> axis & 1 == 1 { self.half[axis] } else { -self.half[axis] };
            [0, 1, 2].map(|part| self.middle[part] + (0..3).map(|axis| sign(axis) * self.axes[axis][part]).sum::<f64>())
        };
        let sides = [[0, 4, 6, 2], [1, 3, 7, 5], [0, 1, 5, 4], [2, 6, 7, 3], [0, 2, 3, 1], [4, 5, 7, 6]];
        let triangles = sides.iter().flat_map(|&[a, b, c, d]| [[a, b, c], [a, c, d]]).collect();
        Mesh { points: (0..8).map(corner).collect(), triangles }
    }

    /// How near to the viewer a ray along the sight meets the box.
    fn met(&self, sight: &Sight, [right, up]: [f64; 2]) -> Option<f64> {
        let start = [0, 1, 2].map(|axis| sight.right[axis] * right + sight.up[axis] * up);
        let from = [0, 1, 2].map(|axis| start[axis] - self.middle[axis]);
        let (mut far, mut near) = (f64::NEG_INFINITY, f64::INFINITY);
        for (axis, half) in self.axes.iter().zip(self.half) {
            let (place, speed) = (dot(from, *axis), dot(sight.toward, *axis));
            let ends = [(-half - place) / speed, (half - place) / speed];
            (far, near) = (far.max(ends[0].min(ends[1])), near.min(ends[0].max(ends[1])));
        }
        (far < near).then_some(near)
    }
}

fn first_met(blocks: &[Block], sight: &Sight, at: [f64; 2]) -> Option<usize> {
    let met = blocks.iter().enumerate().filter_map(|(index, block)| Some((block.met(sight, at)?, index)));
    met.max_by(|a, b| a.0.total_cmp(&b.0)).map(|(_, index)| index)
}

fn covers(face: &Face, [x, y]: [f64; 2]) -> bool {
    let count = face.points.len();
    (0..count).all(|place| {
        let (a, b) = (face.points[place], face.points[(place + 1) % count]);
        (b[0] - a[0]) * (y - a[1]) - (b[1] - a[1]) * (x - a[0]) >= -1e-9
    })
}

/// How many places of a grid were held against rays; places nearer to an outline than a sample are left out.
fn held(blocks: &[Block], sight: &Sight) -> usize {
    let bodies: Vec<Body> = blocks.iter().map(|block| Body::of(&block.mesh())).collect();
    let faces = view(&bodies.iter().collect::<Vec<_>>(), sight, SAMPLE);
    let mut count = 0;
    for row in -40_i32..=40 {
        for column in -40_i32..=40 {
            let at = [f64::from(column) * 0.0517, f64::from(row) * 0.0491];
            let met = first_met(blocks, sight, at);
            let near = |x: i32, y: i32| [at[0] + f64::from(x) * 3.0 * SAMPLE, at[1] + f64::from(y) * 3.0 * SAMPLE];
            let around = (-1..=1).flat_map(|x| (-1..=1).map(move |y| (x, y)));
            if around.into_iter().any(|(x, y)| first_met(blocks, sight, near(x, y)) != met) {
                continue;
            }
            let on_top = faces.iter().rev().find(|face| covers(face, at)).map(|face| face.body);
            assert_eq!(on_top, met, "at {at:?}");
            count += 1;
        }
    }
    count
}

/// Numbers between −1 and 1 from a seed.
fn draws(seed: u64) -> impl FnMut() -> f64 {
    let mut state = seed.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
    move || {
        state = state.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
        (state >> 33) as f64 / f64::from(1_u32 << 30) - 1.0
    }
}

#[test]
fn at_every_place_of_random_boxes_the_body_on_top_is_the_one_that_a_ray_meets_first() {
    let mut places = 0;
    // Where there are more faces than a plane is tried on, only some of them are asked how they lie to it.
    for (seed, count) in (0..60).map(|seed| (seed, 14)).chain([(60, 90)]) {
        let mut draw = draws(seed);
        let blocks: Vec<Block> = (0..count)
            .map(|_| {
                let middle = [draw(), draw(), draw()];
                let way = [draw(), draw(), draw()];
                Block::along(middle, way, [draw(), draw(), draw()].map(|side| 0.08 + 0.4 * side.abs()))
            })
            .collect();
        places += held(&blocks, &Sight::from(3.0 * draw(), 0.7 * draw()));
    }
    assert!(places > 200_000, "{places} places");
}

#[test]
fn three_rods_that_lie_on_each_other_in_a_ring_are_drawn_rightly() {
    let turn = std::f64::consts::TAU / 3.0;
    let rods: Vec<Block> = (0..3)
        .map(|rod| {
            let angle = turn * f64::from(rod);
            let (out, way) = ([angle.cos(), angle.sin()], [-angle.sin(), angle.cos()]);
            // Each rises along its way: its head lies on the next, its foot under the one before.
            Block::along([0.4 * out[0], 0.4 * out[1], 0.0], [way[0], way[1], 0.25], [1.2, 0.06, 0.06])
        })
        .collect();
    let above = Sight::from(0.3, 1.5);
    assert!(held(&rods, &above) > 4000);
    let order = |a: usize, b: usize| {
        let both = |at: [f64; 2]| Some((rods[a].met(&above, at)?, rods[b].met(&above, at)?));
        let places = (-300..300).flat_map(|x| (-300..300).map(move |y| [f64::from(x) * 0.005, f64::from(y) * 0.005]));
        places.into_iter().find_map(both).map(|(a, b)| a > b)
    };
    let ring = [order(0, 1), order(1, 2), order(2, 0)];
    assert!(ring == [Some(true); 3] || ring == [Some(false); 3], "no rod is uppermost: {ring:?}");
}

#[test]
fn the_sides_of_a_box_are_one_face_each_with_every_edge_drawn() {
    let block = Block::along([0.0; 3], [1.0, 0.0, 0.0], [1.0, 0.5, 0.2]);
    let faces = view(&[&Body::of(&block.mesh())], &Sight::from(0.7, 0.5), SAMPLE);
    assert_eq!(faces.len(), 3);
    assert!(faces.iter().all(|face| face.points.len() == 4 && face.edges.iter().all(|edge| *edge)));
}

#[test]
fn a_smooth_side_has_no_lines_but_its_outline() {
    let count = 48_u32;
    let ring = |level: f64| {
        (0..count).map(move |step| {
            let angle = std::f64::consts::TAU * f64::from(step) / f64::from(count);
            [angle.cos(), angle.sin(), level]
        })
    };
    let points: Vec<[f64; 3]> = ring(0.0).chain(ring(2.0)).collect();
    let mut triangles = Vec::new();
    for step in 0..count {
        let (a, b) = (step, (step + 1) % count);
        triangles.extend([[a, b, b + count], [a, b + count, a + count]]);
        if step > 1 {
            triangles.extend([[0, step, step - 1], [count, count + step - 1, count + step]]);
        }
    }
    let mesh = Mesh { points, triangles };
    assert_eq!(mesh.open_edges(), 0);
    let faces = view(&[&Body::of(&mesh)], &Sight::from(0.1, 0.0), SAMPLE);
    let upright = faces.iter().flat_map(|face| {
        let next = face.points.iter().cycle().skip(1);
        face.points.iter().zip(next).zip(&face.edges).filter(|((a, b), _)| (a[0] - b[0]).abs() < 1e-9)
    });
    let drawn: Vec<f64> = upright.filter(|(_, edge)| **edge).map(|((a, _), _)| a[0]).collect();
    assert!(!drawn.is_empty() && drawn.iter().all(|x| x.abs() > 0.97), "{drawn:?}");
}

//! Lengths and areas of wall lines beside a general geometry library, on flattened lines of falling chord error.
#![allow(clippy::unwrap_used, clippy::panic, reason = "a test stops at the first surprise")]

use engine::answers::{Inputs, answers};
use engine::curve::{PlanLine, Vertex, Way};
use engine::row::Rows;
use geo::{Area, Euclidean, Length, LineString, Polygon};
use kurbo::Point;

const DEMOS: [&str; 3] = [
    include_str!("../../builds/tansy-bank/tansy-bank.loam.toml"),
    include_str!("../../builds/burdock-rise/burdock-rise.loam.toml"),
    include_str!("../../builds/plain-ring/plain-ring.loam.toml"),
];

fn flattened(line: &PlanLine, offset: f64, chord: f64) -> (f64, f64) {
    let mut points: Vec<(f64, f64)> = line.outline(offset, chord).iter().map(|point| (point.x, point.y)).collect();
    points.push(points[0]);
    let ring = LineString::from(points);
    (Polygon::new(ring.clone(), Vec::new()).unsigned_area(), Euclidean.length(&ring))
}

/// A plan with runs, arcs bending both ways and rounded corners, its sizes from a seed.
fn plan(seed: u64) -> PlanLine {
    let mut state = seed.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
    let mut draw = |low: f64, high: f64| {
        state = state.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1);
        low + (high - low) * ((state >> 33) as f64 / f64::from(1u32 << 31))
    };
    let count = 4 + (seed % 4) as usize;
    let turn = std::f64::consts::TAU / count as f64;
    let at = |angle: f64, radius: f64| Point::new(radius * angle.cos(), radius * angle.sin());
    let vertices: Vec<Vertex> = (0..count)
        .map(|index| {
            let angle = turn * index as f64;
            let half = angle + 0.5 * turn;
            let chord = 3.0 * (0.5 * turn).cos();
            let bulge = draw(-0.25, 0.5);
            let way = if index % 2 == 0 { Way::Through(at(half, chord + bulge)) } else { Way::Straight };
            Vertex { at: at(angle, draw(2.9, 3.1)), round: draw(0.3, 0.5), way }
        })
        .collect();
    let line = PlanLine::closed(&vertices);
    assert!(line.is_ok(), "seed {seed}: {line:?}");
    line.unwrap()
}

/// The plan of a build, from the rows that say where its points are.
fn demo(build: &str) -> (PlanLine, Rows) {
    let rows = answers(&Inputs { build: build.as_bytes(), system: None }).unwrap().rows;
    let value = |path: &str| rows.find(path).and_then(|row| row.quantity.si());
    let vertices: Vec<Vertex> = rows
        .matching("wall.line.*.x")
        .map(|row| {
            let at = |x: &str, y: &str| {
                let path = |noun: &str| row.path.replace(".x", noun);
                Some(Point::new(value(&path(x))?, value(&path(y))?))
            };
            Vertex {
                at: at(".x", ".y").unwrap(),
                round: value(&row.path.replace(".x", ".round")).unwrap_or(0.4),
                way: at(".through-x", ".through-y").map_or(Way::Straight, Way::Through),
            }
        })
        .collect();
    (PlanLine::closed(&vertices).unwrap(), rows)
}

/// What a value tends to whose error is a quarter at half the step.
fn extrapolated(coarse: f64, fine: f64) -> f64 {
    fine + (fine - coarse) / 3.0
}

#[test]
fn half_the_step_leaves_a_quarter_of_the_error_and_the_limit_is_ours() {
    let plans = (0..50).map(plan).chain(DEMOS.map(|build| demo(build).0));
    for (place, line) in plans.enumerate() {
        // A chord's error goes as the square of its step: a quarter of the one is half of the other.
        let [coarse, fine] = [4e-6, 1e-6].map(|chord| flattened(&line, 0.0, chord));
        // What is lost on outer bends may be won on inner ones: errors are measured against their size on a circle.
        let circle = [line.length() * 4e-6, std::f64::consts::TAU * 4e-6];
        let both = [(line.area(), coarse.0, fine.0), (line.length(), coarse.1, fine.1)];
        for ((exact, coarse, fine), size) in both.into_iter().zip(circle) {
            let limit = extrapolated(coarse, fine);
            assert!((limit - exact).abs() < 1e-6 * exact, "plan {place}: ours {exact}, the limit {limit}");
            let apart = (coarse - exact) - 4.0 * (fine - exact);
            assert!(apart.abs() < 0.05 * size, "plan {place}: errors {} and {}", coarse - exact, fine - exact);
        }
    }
}

#[test]
fn the_rows_of_a_build_are_what_the_library_makes_of_its_faces() {
    for build in DEMOS {
        let (line, rows) = demo(build);
        let value = |path: &str| rows.find(path).unwrap().quantity.si().unwrap();
        let half = 0.5 * value("wall.thickness");
        for (path, offset) in [("wall.enclosed-area", 0.0), ("room.area", -half), ("wall.footprint", half)] {
            let [coarse, fine] = [4e-6, 1e-6].map(|chord| flattened(&line, offset, chord).0);
            let limit = extrapolated(coarse, fine);
            assert!((limit - value(path)).abs() < 1e-6 * limit, "{path}: {}, the library {limit}", value(path));
        }
        assert!((line.length() - value("wall.length")).abs() < 1e-12 * line.length());
    }
}

#[test]
fn our_areas_and_lengths_are_what_a_general_library_approaches() {
    for seed in 0..50 {
        let line = plan(seed);
        let coarse = flattened(&line, 0.0, 1e-5);
        let fine = flattened(&line, 0.0, 1e-7);
        for (ours, coarse, fine) in [(line.area(), coarse.0, fine.0), (line.length(), coarse.1, fine.1)] {
            let errors = [(ours - coarse).abs(), (ours - fine).abs()];
            assert!(errors[1] < 2e-6 * ours, "seed {seed}: ours {ours}, the library {fine}");
            assert!(errors[1] < 0.05 * errors[0], "seed {seed}: the error does not fall with the chord: {errors:?}");
        }
    }
}

#[test]
fn the_faces_enclose_what_steiner_says() {
    for seed in 0..50 {
        let line = plan(seed);
        for offset in [-0.2, 0.2] {
            let steiner = line.area() + line.length() * offset + std::f64::consts::PI * offset * offset;
            let (area, _) = flattened(&line, offset, 1e-7);
            assert!((area - steiner).abs() < 2e-6 * steiner, "seed {seed}, offset {offset}: {area} is not {steiner}");
        }
    }
}

//! Any shape of a wall with any cut: a closed mesh that holds what the integrals say, or a fault in words.
#![no_main]

use engine::curve::{Along, Body, Cut, Depth, Form, PlanLine, Shape, Side, Top, Vertex, Way};
use engine::solid::Band;
use kurbo::Point;
use libfuzzer_sys::fuzz_target;

/// Numbers from bytes, 0 to 1; nothing left gives halves.
struct Numbers<'a>(&'a [u8]);

impl Numbers<'_> {
    fn between(&mut self, low: f64, high: f64) -> f64 {
        let (value, rest) = match self.0 {
            [a, b, rest @ ..] => (f64::from(u16::from_le_bytes([*a, *b])) / 65535.0, rest),
            rest => (0.5, rest),
        };
        self.0 = rest;
        low + (high - low) * value
    }
}

fuzz_target!(|bytes: &[u8]| {
    let mut draw = Numbers(bytes);
    let count = draw.between(3.0, 7.0) as usize;
    let vertices: Vec<Vertex> = (0..count)
        .map(|index| {
            let angle = std::f64::consts::TAU * index as f64 / count as f64;
            let radius = draw.between(1.5, 4.0);
            let bend = draw.between(-0.5, 0.5);
            let place = |angle: f64, radius: f64| Point::new(radius * angle.cos(), radius * angle.sin());
            let middle = place(angle + std::f64::consts::PI / count as f64, radius + bend);
            let way = if bend.abs() < 0.1 { Way::Straight } else { Way::Through(middle) };
            Vertex { at: place(angle, radius), round: draw.between(0.2, 1.2), way }
        })
        .collect();
    let Ok(line) = PlanLine::closed(&vertices) else { return };
    let length = line.length();
    let knots = [[0.2 * length, draw.between(0.2, 0.7)], [0.7 * length, draw.between(0.2, 0.7)]];
    let thickness = Along::between(&knots, Some(length));
    let lean = [draw.between(0.0, 0.1), draw.between(0.0, 0.1)];
    let shape = Shape { line: &line, thickness: &thickness, lean };
    let [foot, top] = [0.0, draw.between(0.2, 1.0)];
    let (half, bottom, rise) = (draw.between(0.05, 0.8), draw.between(-0.3, 0.9), draw.between(0.05, 1.2));
    let form = match draw.between(0.0, 3.0) as usize {
        0 => Form::Rectangle { half, bottom, top: bottom + rise },
        1 => Form::Round { radius: half, middle: bottom + half },
        _ => Form::Arched { half, bottom, spring: bottom + rise - half.min(0.5 * rise), top: bottom + rise },
    };
    let depth = match draw.between(0.0, 3.0) as usize {
        0 => Depth::Into { side: Side::Inner, bottom: draw.between(-0.2, 0.2) },
        _ => Depth::Through { crease: draw.between(-0.2, 0.4), splay: [draw.between(0.0, 1.0), draw.between(0.0, 1.0)] },
    };
    let cut = Cut { station: line.at(draw.between(0.0, length)), form, depth };
    let [low, high] = [foot, top].map(Along::even);
    let band = Band {
        shape,
        foot: &low,
        top: &high,
        stretch: None,
        cuts: &[cut],
        boxes: &[],
        knots: &[],
        chord: 1e-3,
    };
    match band.mesh() {
        Err(fault) => assert!(!fault.in_words().is_empty()),
        Ok(mesh) => {
            assert_eq!(mesh.open_edges(), 0, "open: {cut:?}");
            let level = Top { heights: high.clone(), slope: None };
            let exact = Body::new(shape, &level, &[top]).volume(foot, top) - cut.volume(&shape, foot, top);
            assert!((mesh.volume() - exact).abs() < 3e-3 * exact + 1e-4, "{} is not {exact}: {cut:?}", mesh.volume());
        }
    }
});

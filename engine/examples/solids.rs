//! How long the bodies of a wall of 20 m in six lifts with four openings take: best of fifteen, in milliseconds.
#![allow(clippy::disallowed_types, reason = "a stopwatch needs a clock")]

use std::time::Instant;

use engine::curve::{Along, Cut, Depth, Form, LineFault, PlanLine, Shape, Vertex, Way};
use engine::solid::Band;
use kurbo::Point;

const RUNS: usize = 15;
const LIFTS: usize = 6;
const HEIGHT: f64 = 2.2;

fn main() -> Result<(), LineFault> {
    let arc = |x: f64, y: f64, bend: f64| Vertex {
        at: Point::new(x, y),
        round: 0.6,
        way: Way::Through(Point::new(bend, 2.0)),
    };
    let run = |x: f64, y: f64| Vertex { at: Point::new(x, y), round: 0.6, way: Way::Straight };
    let mixed = [run(0.0, 0.0), arc(4.5, 0.0, 5.5), run(4.5, 4.0), run(0.0, 4.0)];
    let ring = [(3.2, 3.2), (-3.2, -3.2)].map(|(x, y)| Vertex {
        at: Point::new(x, 0.0),
        round: 0.5,
        way: Way::Through(Point::new(0.0, y)),
    });
    for (name, vertices) in [("runs and an arc", &mixed[..]), ("a ring", &ring[..])] {
        let line = PlanLine::closed(vertices)?;
        let thickness = Along::between(&[[2.0, 0.5], [9.0, 0.45]], Some(line.length()));
        let shape = Shape { line: &line, thickness: &thickness, lean: [0.0, 0.05] };
        let splayed = Depth::Through { crease: 0.1, splay: [0.3, 0.3] };
        let arched = Form::Arched { half: 0.45, bottom: 0.0, spring: 1.6, top: 2.0 };
        let window = Form::Rectangle { half: 0.5, bottom: 0.9, top: 1.8 };
        let cuts = [
            Cut::straight(line.at(3.0), arched),
            Cut { station: line.at(8.0), form: window, depth: splayed },
            Cut { station: line.at(12.0), form: window, depth: splayed },
            Cut::straight(line.at(16.0), Form::Round { radius: 0.25, middle: 1.5 }),
        ];
        let beds: Vec<Along> = (0..=LIFTS).map(|bed| Along::even(HEIGHT * bed as f64 / LIFTS as f64)).collect();
        for chord in [5e-3, 1e-3] {
            let (mut best, mut triangles) = (f64::INFINITY, 0);
            for _ in 0..RUNS {
                let start = Instant::now();
                let lift = |pair: &[Along]| {
                    let [foot, top] = [&pair[0], &pair[1]];
                    let band = Band { shape, foot, top, stretch: None, cuts: &cuts, boxes: &[], knots: &[], chord };
                    band.mesh().map_or(0, |mesh| mesh.triangles.len())
                };
                triangles = beds.windows(2).map(lift).sum();
                best = best.min(start.elapsed().as_secs_f64() * 1000.0);
            }
            println!(
                "{best:8.3} ms  {name} of {:.1} m, chord {} mm, {triangles} triangles",
                line.length(),
                chord * 1000.0
            );
        }
    }
    Ok(())
}

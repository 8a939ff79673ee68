//! How long all drawings of a demo house take, answers left out and pictures not: best of fifteen, in milliseconds.
#![allow(clippy::disallowed_types, reason = "a stopwatch needs a clock")]

use std::time::Instant;

use engine::answers::{Computed, Inputs, compute};
use press::drawing::all;
use press::paper::Paper;

const BUILDS: [(&str, &str); 2] = [
    ("Tansy Bank", include_str!("../../builds/tansy-bank/tansy-bank.loam.toml")),
    ("Burdock Rise", include_str!("../../builds/burdock-rise/burdock-rise.loam.toml")),
];

const RUNS: usize = 15;

fn main() {
    for (name, text) in BUILDS {
        let inputs = Inputs { build: text.as_bytes(), system: None };
        let (Ok(house), Ok(answers)) = (compute(&inputs), compute(&inputs).map(Computed::into_answers)) else {
            continue;
        };
        let (mut best, mut bytes) = (f64::INFINITY, 0);
        for _ in 0..RUNS {
            let start = Instant::now();
            let drawings = all(&answers, &house.pictures(), Paper::of(answers.system));
            bytes = drawings.iter().map(|drawing| drawing.scaled.svg.to_string().len()).sum();
            best = best.min(start.elapsed().as_secs_f64() * 1000.0);
        }
        println!("{best:9.3} ms  all drawings of {name}, {bytes} bytes");
    }
}

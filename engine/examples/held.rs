//! How long it takes to hold the roof of Tansy Bank: all of its answers with a code of timber and without; best of runs, in
//! milliseconds.
#![allow(clippy::disallowed_types, reason = "a stopwatch needs a clock")]

use std::time::Instant;

use engine::answers::{Inputs, answers};

const TANSY_BANK: &str = include_str!("../../builds/tansy-bank/tansy-bank.loam.toml");
const RUNS: usize = 25;

fn main() {
    let bare = TANSY_BANK.replace(", \"eurocode-timber\"", "");
    for (text, name) in [(TANSY_BANK, "held by a code"), (bare.as_str(), "not held")] {
        println!("{:9.3} ms  answers, roof {name}", best(text));
    }
}

fn best(text: &str) -> f64 {
    let mut best = f64::INFINITY;
    for _ in 0..RUNS {
        let start = Instant::now();
        if answers(&Inputs { build: text.as_bytes(), system: None }).is_err() {
            return f64::NAN;
        }
        best = best.min(start.elapsed().as_secs_f64() * 1000.0);
    }
    best
}

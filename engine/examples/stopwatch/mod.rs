//! The stopwatch of the examples that measure.
#![allow(clippy::disallowed_types, reason = "a stopwatch needs a clock")]

use std::time::Instant;

/// The least time that a piece of work took in so many runs, in milliseconds; not a number where it fails.
pub fn best(runs: usize, mut work: impl FnMut() -> bool) -> f64 {
    let mut best = f64::INFINITY;
    for _ in 0..runs {
        let start = Instant::now();
        if !work() {
            return f64::NAN;
        }
        best = best.min(start.elapsed().as_secs_f64() * 1000.0);
    }
    best
}

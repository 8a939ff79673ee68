//! How long the answers of each demo house take: best of five, in milliseconds.
#![allow(clippy::disallowed_types, reason = "a stopwatch needs a clock")]

use std::time::Instant;

use engine::answers::{Inputs, answers};

const BUILDS: [(&str, &str); 2] = [
    ("tansy-bank", include_str!("../../builds/tansy-bank/tansy-bank.loam.toml")),
    ("burdock-rise", include_str!("../../builds/burdock-rise/burdock-rise.loam.toml")),
];

fn main() {
    for (name, text) in BUILDS {
        let best = (0..5)
            .map(|_| {
                let start = Instant::now();
                let rows =
                    answers(&Inputs { build: text.as_bytes(), system: None }).map_or(0, |all| all.rows.iter().count());
                (start.elapsed().as_secs_f64() * 1000.0, rows)
            })
            .min_by(|a, b| a.0.total_cmp(&b.0));
        if let Some((milliseconds, rows)) = best {
            println!("{milliseconds:9.3} ms  answers {name}, {rows} rows");
        }
    }
}

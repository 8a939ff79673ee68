//! How long all of earth takes, asked as a builder asks, and refits of a surface: best of many, in milliseconds.
//! `bench/earth.py` does the refits with other means.

mod stopwatch;

use engine::earth::mixture::{Kind, Order, fitted};
use serde_json::{Value, json};
use std::hint::black_box;
use stopwatch::best;

/// Numbers that look drawn, from 0 to 1.
fn drawn(seed: usize) -> f64 {
    let mixed = (seed as u64 + 1).wrapping_mul(0x9e37_79b9_7f4a_7c15);
    ((mixed ^ (mixed >> 29)).wrapping_mul(0xbf58_476d_1ce4_e5b9) >> 40) as f64 / (1_u64 << 24) as f64
}

fn bricks() -> Value {
    let bricks = (0..60_usize).map(|at| {
        let damp = at.is_multiple_of(5);
        let moisture = if damp { 0.04 + 0.08 * drawn(at) } else { 0.02 };
        let load = (7500.0 + 1500.0 * drawn(at + 100)) * (-12.0 * (moisture - 0.02_f64)).exp();
        json!({"load_n": load, "width_m": 0.1, "depth_m": 0.1, "height_m": 0.2, "moisture_ratio": moisture, "damp": damp})
    });
    json!({"test": "crushed", "wanted_pa": 413_685.0, "at_moisture_ratio": 0.05, "bricks": bricks.collect::<Vec<_>>()})
}

fn mixes() -> Vec<[f64; 5]> {
    (0..30).map(|run| std::array::from_fn(|part| 1.0 + (6.0 * drawn(7 * run + part)).floor() * 0.5)).collect()
}

fn recipe() -> Value {
    let runs = mixes().into_iter().enumerate().map(|(at, parts)| {
        let whole: f64 = parts.iter().sum();
        let share: Vec<f64> = parts.iter().map(|part| part / whole).collect();
        let first = 4.0 * share[0] + 2.0 * share[1] + share[2] + 6.0 * share[0] * share[1] + 0.1 * drawn(at + 500);
        let second = share[0] + 3.0 * share[3] + 2.0 * share[4] + 0.1 * drawn(at + 900);
        json!({"parts": parts, "values": [first, second]})
    });
    let ingredient = |name: &str| json!({"name": name, "low_buckets": 1, "high_buckets": 4});
    json!({
        "batch_buckets": 10, "step_buckets": 0.5, "order": "quadratic",
        "ingredients": (["soil", "sand", "straw", "dung", "fibre"].map(ingredient)),
        "goals": [{"want": "most", "low": 0.5, "target": 3}, {"want": "least", "target": 0.5, "high": 2.5}],
        "runs": runs.collect::<Vec<_>>(),
    })
}

fn main() {
    let asks: [(&str, Value); 6] = [
        ("strength", bricks()),
        ("recipe", recipe()),
        ("settling", example("settling")),
        ("hydrometer", example("hydrometer")),
        ("panel-scores", example("panel-scores")),
        ("batches", example("batches")),
    ];
    let mut whole = 0.0;
    for (name, request) in &asks {
        let reply = engine::ask::ask(name, request);
        let problems = reply.as_ref().map_or_else(Clone::clone, |reply| reply["problems"].to_string());
        let time = best(100, || black_box(engine::ask::ask(name, request)).is_ok());
        whole += time;
        println!("{time:9.3} ms  {name} {problems}");
    }
    println!("{whole:9.3} ms  all of them: 60 bricks, 30 panels, 5 ingredients");
    let mixes: Vec<Vec<f64>> =
        mixes().iter().map(|mix| mix.iter().map(|part| part / mix.iter().sum::<f64>()).collect()).collect();
    let values: Vec<f64> = mixes.iter().enumerate().map(|(at, mix)| 4.0 * mix[0] + mix[1] + 0.1 * drawn(at)).collect();
    match fitted(Kind::Shares, Order::Quadratic, &mixes, &values) {
        Ok(fit) => {
            let time = best(50, || !black_box(fit.refitted(&mixes[..15], 10_000, 1)).is_empty());
            println!("{time:9.3} ms  10,000 refits of 15 terms through 30 runs, each read at 15 mixes");
        }
        Err(fault) => println!("no fit: {fault:?}"),
    }
}

fn example(name: &str) -> Value {
    let question = engine::ask::questions().iter().find(|question| question.name == name);
    question.and_then(|question| serde_json::from_str(question.example).ok()).unwrap_or_default()
}

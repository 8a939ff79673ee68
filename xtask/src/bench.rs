//! `cargo x bench`: wall-clock times of the commands as a builder meets them, and of the engine by itself.

use std::process::{Command, Stdio};
use std::time::{Duration, Instant};

use crate::page;
use crate::step::{DEMOS, finish, root, target};

const RUNS: usize = 5;

/// Builds for speed, then prints the best of five cold starts of each command, then the engine's own figures and the page's.
///
/// # Errors
/// A sentence naming the command that failed.
pub(crate) fn bench() -> Result<(), String> {
    page::build()?;
    finish("cargo build --release --package loamwright")?;
    println!("\nbest of {RUNS} cold starts");
    let paper = target().join("bench.pdf").display().to_string();
    let model = target().join("bench.glb").display().to_string();
    for (name, file) in DEMOS {
        print_best(name, &["check", file])?;
        print_best(name, &["book", file, "--out", &paper])?;
        print_best(name, &["solids", file, "--out", &model])?;
    }
    println!();
    finish("cargo run --release --package engine --example speed")?;
    finish("cargo run --release --package press --example drawn")?;
    println!("\nthe page in a browser, both on the same cores");
    finish("npm --prefix ui run --silent measure")
}

fn print_best(name: &str, arguments: &[&str]) -> Result<(), String> {
    let mut best = Duration::MAX;
    for _ in 0..RUNS {
        best = best.min(timed(arguments)?);
    }
    let taken = best.as_secs_f64() * 1000.0;
    println!("{taken:9.1} ms  {:<6} {name}", arguments[0]);
    Ok(())
}

/// One start of the program until its end.
fn timed(arguments: &[&str]) -> Result<Duration, String> {
    let line = format!("loamwright {}", arguments.join(" "));
    let start = Instant::now();
    let told = Command::new(target().join("release").join("loamwright"))
        .args(arguments)
        .current_dir(root())
        .stdout(Stdio::null())
        .stderr(Stdio::null())
        .status();
    let taken = start.elapsed();
    match told.map(|status| status.code()) {
        Ok(Some(0)) => Ok(taken),
        Ok(code) => Err(format!("`{line}` ended with {code:?}")),
        Err(fault) => Err(format!("`{line}` could not be started: {fault}")),
    }
}

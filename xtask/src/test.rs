//! `cargo x test`: everything that must be in order before work is handed on, in steps that stop at the first failure.

use std::time::Instant;

use crate::debian::install_what_is_missing;
use crate::page;
use crate::step::{finish, is_installed, program};
use crate::tally::{Tally, count};

type Step<'a> = (&'a str, &'a dyn Fn(&mut Tally) -> Result<(), String>);

/// Runs every step, lists the seconds of each, and ends with the count of tests.
///
/// # Errors
/// What failed and in which step.
pub(crate) fn test() -> Result<(), String> {
    let steps: [Step; 9] = [
        ("programs", &|_| install_what_is_missing()),
        ("format", &|_| finish("cargo fmt --all --check")),
        ("page built", &|_| page::build()),
        ("page checked", &|_| page::check()),
        ("lints", &|_| finish(LINTS)),
        ("engine for wasm32", &|_| engine_for_wasm()),
        ("doc tests", &|tally| count(&format!("cargo test --doc {ALL}"), tally)),
        ("tests", &|tally| count(&runner(), tally)),
        ("page in a browser", &|tally| count("npm --prefix ui run --silent browser", tally)),
    ];
    let mut tally = Tally::default();
    let mut seconds = Vec::new();
    let mut fault = None;
    for (name, step) in steps {
        println!("\n== {name}");
        let start = Instant::now();
        let done = step(&mut tally);
        seconds.push((name, start.elapsed().as_secs_f64()));
        if let Err(told) = done {
            fault = Some(format!("Stopped at \"{name}\": {told}"));
            break;
        }
    }
    println!();
    for (name, taken) in seconds {
        println!("{taken:8.1} s  {name}");
    }
    if fault.is_none() && tally.passed == 0 {
        fault = Some("No test ran.".to_owned());
    }
    let counts = format!("{} passed, {} failed", tally.passed, tally.failed);
    match fault {
        None => {
            println!("{counts}");
            Ok(())
        }
        Some(fault) => Err(format!("{fault}\n{counts}")),
    }
}

const ALL: &str = "--workspace --all-features";
const LINTS: &str = "cargo clippy --quiet --workspace --all-targets --all-features -- --deny warnings";
const WASM: &str = "wasm32-unknown-unknown";

fn runner() -> String {
    match is_installed("cargo-nextest") {
        true => format!("cargo nextest run {ALL} --no-fail-fast"),
        false => format!("cargo test {ALL} --lib --bins --tests --no-fail-fast"),
    }
}

/// The engine must stay fit for the browser; tried where the compiler has the target.
fn engine_for_wasm() -> Result<(), String> {
    let told = program("rustup target list --installed").output();
    let installed = told.is_ok_and(|told| String::from_utf8_lossy(&told.stdout).contains(WASM));
    if !installed {
        println!("left out: the target {WASM} is not installed (rustup target add {WASM})");
        return Ok(());
    }
    finish(&format!("cargo check --package engine --target {WASM}"))
}

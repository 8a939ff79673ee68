//! How long the answers of each demo house take, and how the work grows with the wall: best of fifteen, in milliseconds.
#![allow(clippy::disallowed_types, reason = "a stopwatch needs a clock")]

use std::f64::consts::TAU;
use std::fmt::Write;
use std::time::Instant;

use engine::answers::{Inputs, answers};
use engine::build::{self, Source};
use engine::house;
use engine::money::money;
use engine::quantities::quantities;
use engine::row::Rows;
use engine::solids::solids;
use engine::structure::structure;
use engine::units::Length;

const BUILDS: [(&str, &str); 3] = [
    ("tansy-bank", include_str!("../../builds/tansy-bank/tansy-bank.loam.toml")),
    ("burdock-rise", include_str!("../../builds/burdock-rise/burdock-rise.loam.toml")),
    ("spiral-wall", include_str!("../../builds/spiral-wall/spiral-wall.loam.toml")),
];

const RUNS: usize = 15;

/// Points of the smallest grown wall, each with a window in its run.
const POINTS: u32 = 8;

fn main() {
    for (name, text) in BUILDS {
        let work = || answers(&Inputs { build: text.as_bytes(), system: None });
        let (milliseconds, rows) = best(work, |all| all.as_ref().map_or(0, |all| all.rows.iter().count()));
        println!("{milliseconds:9.3} ms  answers {name}, {rows} rows");
    }
    for (name, text) in BUILDS {
        for chord in [5.0, 1.0] {
            bodies_of(name, text, chord);
        }
    }
    let mut before: Option<f64> = None;
    for times in [1, 10, 100] {
        let text = grown(times);
        if let Err(problems) = answers(&Inputs { build: text.as_bytes(), system: None }) {
            eprintln!("a wall {times} times as long is refused: {problems:?}");
            std::process::exit(1);
        }
        let (milliseconds, rows) = best(|| counted(&text), |rows| rows.as_ref().map_or(0, |rows| rows.iter().count()));
        let exponent =
            before.map_or(String::new(), |before| format!(", exponent {:.3}", (milliseconds / before).log10()));
        println!(
            "{milliseconds:9.3} ms  without drawings, {times} times the wall line and openings, {rows} rows{exponent}"
        );
        before = Some(milliseconds);
    }
}

/// The bodies of a build's parts, the reading of the file and its rows left out.
fn bodies_of(name: &str, text: &str, chord_mm: f64) {
    let source = Source::new(text);
    let written = build::read(&source, text);
    let Some(house) = house::place(&source, &written) else { return };
    let (rows, _) = quantities(&house);
    let (milliseconds, triangles) = best(
        || solids(&house, &rows, Length::mm(chord_mm)),
        |made| made.bodies.iter().map(|body| body.mesh.triangles.len()).sum(),
    );
    println!("{milliseconds:9.3} ms  bodies {name}, chord {chord_mm} mm, {triangles} triangles");
}

/// The shortest run, and how many rows; what was computed is thrown away after the clock has stopped.
fn best<T>(mut work: impl FnMut() -> T, rows: impl Fn(&T) -> usize) -> (f64, usize) {
    let mut best = (f64::INFINITY, 0);
    for _ in 0..RUNS {
        let start = Instant::now();
        let found = work();
        best = (best.0.min(start.elapsed().as_secs_f64() * 1000.0), rows(&found));
    }
    best
}

/// Rows, orders and checks of a build, drawings left out.
fn counted(text: &str) -> Option<Rows> {
    let source = Source::new(text);
    let written = build::read(&source, text);
    let house = house::place(&source, &written)?;
    let (mut rows, needs) = quantities(&house);
    let orders = money(&house, &needs, &mut rows);
    let checks = structure(&house, &rows);
    (!orders.is_empty() && !checks.is_empty()).then_some(rows)
}

/// Tables of the first demo that speak of its own doors, of what is built into its wall and of the poles that span it.
const UNUSED: [&str; 13] = [
    "[poles.pile.",
    "[roof.deck",
    "[floor.bays]",
    "[prices.deadman]",
    "[prices.bottle-brick]",
    "[prices.buck-timber]",
    "[prices.frame-anchor]",
    "[prices.tile]",
    "[prices.tile-bedding]",
    "[prices.tile-grout]",
    "[prices.conduit]",
    "[prices.conduit-box]",
    "[prices.drain-sleeve]",
];

/// Tables of the first demo that speak of its own ground.
const SITED: [&str; 6] =
    ["[site.set-out]", "[site.trees]", "[site.wells.", "[site.lines.", "[site.buried.", "[site.yard]"];

/// The first demo with a many-sided wall in place of its own, a window in each run.
fn grown(times: u32) -> String {
    let count = POINTS * times;
    let text = BUILDS[0].1;
    let (head, rest) = text.split_once("[[wall.line]]").unwrap_or((text, ""));
    let (_, rest) = rest.split_once("# Lifts,").unwrap_or(("", rest));
    let (lifts, rest) = rest.split_once("[openings.door]").unwrap_or((rest, ""));
    let (_, tail) = rest.split_once("# The earth.").unwrap_or(("", rest));
    let radius = 1.5 * f64::from(count) / TAU;
    let mut line = String::new();
    for place in 0..count {
        let angle = TAU * f64::from(place) / f64::from(count);
        let (x, y) = (radius * angle.cos(), radius * angle.sin());
        // Writing to a String cannot fail.
        let _ =
            write!(line, "[[wall.line]]\nname = \"p{place}\"\nat = [\"{x:.6} m\", \"{y:.6} m\"]\nround = \"500 mm\"\n");
    }
    let mut openings = String::new();
    for place in 0..count {
        let _ = write!(
            openings,
            "[openings.w{place}]\nkind = \"window\"\nrun = \"p{place}\"\nalong = \"750 mm\"\nwidth = \"300 mm\"\nheight = \"700 mm\"\nsill = \"800 mm\"\n"
        );
    }
    let head = head
        .replace("run = \"back\"", "run = \"p0\"")
        .replace("along = \"4.7 m\"", "along = \"0.5 m\"")
        .replace("daylight = \"-1.6 m\"", "daylight = \"-90 m\"")
        .replace("fall = \"1:60\"", "fall = \"0 %\"");
    let head = without(&head, &SITED);
    let (before, site) = head.split_once("boundary = [\n").unwrap_or((&head, ""));
    let (_, after) = site.split_once("]\n").unwrap_or(("", site));
    let after =
        after.split_once("outlet =").map_or(after, |(_, after)| after.split_once('\n').map_or("", |(_, rest)| rest));
    let head = format!("{before}{after}");
    let lifts = without(lifts, &["[wall.anchors."]);
    let tail: String = without(tail, &UNUSED)
        .lines()
        .filter(|line| !line.starts_with("laid = "))
        .flat_map(|line| [line, "\n"])
        .collect();
    format!("{head}{line}# Lifts,{lifts}{openings}# The earth.{tail}")
}

/// A text without the tables whose header begins so.
fn without(text: &str, headers: &[&str]) -> String {
    let mut is_kept = true;
    let kept = text.lines().filter(|line| {
        if line.starts_with('[') {
            is_kept = !headers.iter().any(|header| line.starts_with(header));
        }
        is_kept
    });
    kept.flat_map(|line| [line, "\n"]).collect()
}

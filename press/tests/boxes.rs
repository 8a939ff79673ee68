//! Labels of the drawings of houses from a seed: none over another, none off the sheet, few in the key.
#![allow(clippy::unwrap_used, clippy::panic, reason = "a test stops at the first surprise")]

use std::f64::consts::TAU;
use std::fmt::Write;

use engine::answers::{Answers, Inputs, answers, compute};
use engine::units::System;
use press::drawing::{Drawing, Scaled, Standing, all, bricks, damp_bricks, first_shape, way, way_upright};
use press::paper::Paper;

/// Numbers from a seed.
struct Draw(u64);

impl Draw {
    fn between(&mut self, low: f64, high: f64) -> f64 {
        self.0 = self.0.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
        low + (high - low) * ((self.0 >> 33) as f64 / f64::from(1_u32 << 31))
    }

    fn below(&mut self, count: u32) -> u32 {
        (self.between(0.0, f64::from(count)) as u32).min(count - 1)
    }
}

/// A closed wall of three to seven runs, some of them arcs, with openings, built-in things and lifts.
fn house(seed: u64) -> String {
    let mut draw = Draw(seed.wrapping_mul(0x9e37_79b9_7f4a_7c15));
    let runs = 3 + draw.below(5);
    let radius = draw.between(2.4, 4.2);
    let system = if seed.is_multiple_of(2) { "metric" } else { "us" };
    let mut text = format!(
        "format = 1\n[build]\nname = \"House {seed}\"\n[site]\nunits = \"{system}\"\nnorth = \"{:.0} deg\"\n\
         [ground]\noutside = \"-{:.0} mm\"\n[wall]\nthickness = \"{:.0} mm\"\nheight = \"{:.0} mm\"\n",
        draw.between(0.0, 360.0),
        draw.between(250.0, 500.0),
        draw.between(380.0, 520.0),
        draw.between(2100.0, 2400.0),
    );
    if draw.below(2) == 0 {
        text += "bond-beam = { width = \"200 mm\", height = \"100 mm\" }\n";
    }
    if draw.below(2) == 0 {
        text += "[water.trench]\nwidth = \"550 mm\"\ndepth = \"700 mm\"\nfall = \"1:80\"\nrun = \"run-0\"\nalong = \"600 mm\"\n\
                 [water.drain]\nlength = \"8 m\"\n";
    }
    let turn = TAU / f64::from(runs);
    let at =
        |angle: f64, radius: f64| format!("[\"{:.3} m\", \"{:.3} m\"]", radius * angle.cos(), radius * angle.sin());
    for run in 0..runs {
        let angle = turn * f64::from(run);
        let _ = writeln!(text, "[[wall.line]]\nname = \"run-{run}\"\nat = {}", at(angle, radius));
        if draw.below(2) == 0 {
            let out = radius * (0.5 * turn).cos() + draw.between(0.15, 0.5);
            let _ = writeln!(text, "arc = {{ through = {} }}", at(angle + 0.5 * turn, out));
        }
        let _ = writeln!(text, "round = \"{:.0} mm\"", draw.between(550.0, 700.0));
    }
    let mut below = 0.0;
    for lift in 0..draw.below(5) {
        below += draw.between(330.0, 450.0);
        let _ = writeln!(
            text,
            "[[wall.lifts]]\nname = \"lift-{lift}\"\ntop = \"{below:.0} mm\"\nstart = \"{} days\"",
            2 * lift
        );
    }
    if below > 0.0 {
        text += "[[wall.lifts]]\nname = \"last\"\nstart = \"30 days\"\n";
    }
    // Half of the side of a polygon, or a little less than half of its arc.
    let middle = radius * (0.5 * turn).sin() * 1000.0;
    for opening in 0..(1 + draw.below(5)).min(runs) {
        let (width, kind) = (draw.between(450.0, 900.0), if opening == 0 { "door" } else { "window" });
        let height = if opening == 0 { 1950.0 } else { draw.between(500.0, 800.0) };
        let _ = writeln!(
            text,
            "[openings.{kind}-{opening}]\nkind = \"{kind}\"\nrun = \"run-{opening}\"\nalong = \"{middle:.0} mm\"\n\
             width = \"{width:.0} mm\"\nheight = \"{height:.0} mm\""
        );
        if opening > 0 {
            let _ = writeln!(text, "sill = \"{:.0} mm\"", draw.between(700.0, 1000.0));
        }
    }
    for thing in 0..draw.below(5).min(runs) {
        let run = runs - 1 - thing;
        let along = middle - 750.0;
        let _ = match draw.below(3) {
            0 => writeln!(
                text,
                "[built-in.niche-{thing}]\nkind = \"niche\"\nrun = \"run-{run}\"\nalong = \"{along:.0} mm\"\nform = \"rectangle\"\n\
                 sill = \"1100 mm\"\nwidth = \"250 mm\"\nheight = \"250 mm\"\ndepth = \"150 mm\""
            ),
            1 => writeln!(
                text,
                "[built-in.vent-{thing}]\nkind = \"vent\"\nrun = \"run-{run}\"\nalong = \"{along:.0} mm\"\nlevel = \"1850 mm\"\n\
                 diameter = \"100 mm\""
            ),
            _ => writeln!(
                text,
                "[built-in.shelf-{thing}]\nkind = \"shelf\"\nrun = \"run-{run}\"\nalong = \"{along:.0} mm\"\nlevel = \"1500 mm\"\n\
                 length = \"300 mm\"\ndepth = \"200 mm\"\nthickness = \"30 mm\""
            ),
        };
    }
    text
}

/// The faults of a drawing's labels in words.
fn faults(drawing: &Drawing) -> Vec<String> {
    let scaled = &drawing.scaled;
    let mut faults = Vec::new();
    for (place, area) in scaled.boxes.iter().enumerate() {
        if !scaled.room.contains(*area) {
            faults.push(format!("{}: {area:?} leaves {:?}", drawing.name, scaled.room));
        }
        if let Some(other) = scaled.boxes[..place].iter().find(|other| other.overlaps(*area)) {
            faults.push(format!("{}: {area:?} lies over {other:?}", drawing.name));
        }
    }
    faults
}

#[test]
fn no_label_of_two_hundred_houses_lies_over_another_or_leaves_its_sheet() {
    let (mut houses, mut labels, mut in_key) = (0, 0, 0);
    let mut refused = Vec::new();
    for seed in 0.. {
        if houses == 200 {
            break;
        }
        assert!(seed < 400, "{houses} houses of {seed} are accepted: {refused:?}");
        let text = house(seed);
        let inputs = Inputs { build: text.as_bytes(), system: None };
        let answered = match answers(&inputs) {
            Ok(answered) => answered,
            Err(problems) => {
                refused.push(problems.all()[0].to_string());
                continue;
            }
        };
        let pictures = compute(&inputs).unwrap().pictures();
        for drawing in all(&answered, &pictures, Paper::of(answered.system)) {
            let faults = faults(&drawing);
            assert!(faults.is_empty(), "seed {seed}: {faults:?}\n{text}");
            labels += drawing.scaled.boxes.len();
            in_key += drawing.scaled.key.len();
        }
        houses += 1;
    }
    println!("{labels} labels, {in_key} of them in a key, {} builds refused", refused.len());
    assert!(in_key * 200 < labels, "{in_key} of {labels} labels are in a key");
}

/// The leaves of the way round the house, with states of every length.
const STATES: [Standing<'_>; 7] = [
    ("ground", "not known: 2 of 5 checks, the drain has no level at its end", "not known"),
    ("walls", "2 fail: 8.2 times as high as thick, the limit is 6", "fails"),
    ("earth", "on trust: 136 batches of cob", "on trust"),
    ("skin", "holds", "holds"),
    ("roof", "tight: 9.86 t when wet", "tight"),
    ("stuff", "41 things to order for 12,480 EUR", "holds"),
    ("book", "", ""),
];

/// Houses of the same seeds that are accepted.
fn accepted(count: usize) -> impl Iterator<Item = (u64, Answers)> {
    let read = |seed: u64| {
        let text = house(seed);
        Some((seed, answers(&Inputs { build: text.as_bytes(), system: None }).ok()?))
    };
    (0..400).filter_map(read).take(count)
}

/// The faults of a drawing without a name.
fn faults_of(name: &str, scaled: Scaled) -> Vec<String> {
    faults(&Drawing { name: name.to_owned(), chapter: "", title: String::new(), note: String::new(), scaled })
}

fn screen(width_px: f64, height_px: f64) -> Paper {
    let [width_mm, height_mm] = [width_px, height_px].map(|px| px * 25.4 / 96.0);
    Paper::Screen { width_mm, height_mm }
}

#[test]
fn no_name_on_the_way_round_two_hundred_houses_lies_over_another_or_leaves_the_screen() {
    let mut houses = 0;
    for (seed, answered) in accepted(200) {
        let drawn = [
            ("way 1440", way(&answered, screen(1440.0, 800.0), &STATES)),
            ("way 820", way(&answered, screen(820.0, 700.0), &STATES)),
            ("way 390", way_upright(&answered, screen(390.0, 844.0), &STATES)),
        ];
        for (name, scaled) in drawn {
            assert_eq!(scaled.boxes.len(), STATES.len(), "seed {seed}: {name}");
            let faults = faults_of(name, scaled);
            assert!(faults.is_empty(), "seed {seed}: {faults:?}");
        }
        houses += 1;
    }
    assert_eq!(houses, 200);
}

#[test]
fn no_label_of_the_first_shape_lies_over_another_or_leaves_its_sheet() {
    let (mut houses, mut labels, mut in_key) = (0, 0, 0);
    for (seed, answered) in accepted(200) {
        for (name, medium) in [("first 820", screen(820.0, 620.0)), ("first 390", screen(390.0, 500.0))] {
            let scaled = first_shape(&answered, medium);
            labels += scaled.boxes.len();
            in_key += scaled.key.len();
            let faults = faults_of(name, scaled);
            assert!(faults.is_empty(), "seed {seed}: {faults:?}");
        }
        houses += 1;
    }
    assert!(houses == 200 && in_key * 100 < labels, "{houses} houses, {in_key} of {labels} labels are in a key");
}

/// The spiral wall with a lot of bricks from a seed in place of its own.
fn bricks_of(seed: u64) -> String {
    let mut draw = Draw(seed.wrapping_mul(0x9e37_79b9_7f4a_7c15));
    let whole = include_str!("../../builds/spiral-wall/spiral-wall.loam.toml");
    let bare = whole.split("[tests.bricks.young]").next().unwrap();
    let (dry, damp) = (1 + draw.below(12), draw.below(5));
    let is_proof = dry > 4 && draw.below(2) == 0;
    let mut text = format!(
        "{bare}[tests.bricks.lot]\nof = \"cob\"\ntest = \"crushed\"\nproof = {is_proof}\nlength = \"100 mm\"\nwidth = \"100 mm\"\n\
         height = \"200 mm\"\n[tests.bricks.lot.each]\n"
    );
    let long = if draw.below(8) == 0 { "-of-the-second-tarp-of-the-first-day" } else { "" };
    for brick in 0..dry + damp {
        let is_damp = brick >= dry;
        let moisture = if is_damp { draw.between(4.0, 14.0) } else { draw.between(0.2, 3.0) };
        let load = draw.between(5.0, 12.0) * (-0.1 * moisture).exp();
        let _ = writeln!(
            text,
            "brick-{brick}{long} = {{ load = \"{load:.2} kN\", moisture = \"{moisture:.2} %\", damp = {is_damp} }}"
        );
    }
    text
}

#[test]
fn no_word_of_a_hundred_lots_of_bricks_lies_over_another_or_leaves_its_sheet() {
    let mut damp = 0;
    for seed in 0..100 {
        let text = bricks_of(seed);
        for system in [System::Metric, System::Us] {
            let inputs = Inputs { build: text.as_bytes(), system: Some(system) };
            let answered = answers(&inputs).unwrap_or_else(|problems| panic!("seed {seed}: {}", problems.all()[0]));
            for medium in [Paper::A4, screen(1440.0, 800.0), screen(390.0, 700.0)] {
                let lot = &answered.bricks[0];
                let faults = faults_of("bricks", bricks(&answered, lot, medium));
                assert!(faults.is_empty(), "seed {seed} on {medium:?}: {faults:?}");
                let Some(scaled) = damp_bricks(&answered, lot, medium) else { continue };
                let faults = faults_of("damp bricks", scaled);
                assert!(faults.is_empty(), "seed {seed} on {medium:?}: {faults:?}");
                damp += 1;
            }
        }
    }
    assert!(damp > 200, "{damp} pictures of damp bricks");
}

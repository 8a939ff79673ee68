//! Rows are there where there is what they measure, are measured from what is really there, and stand once.
#![allow(clippy::unwrap_used, clippy::panic, reason = "a test stops at the first surprise")]

#[path = "laws/edit.rs"]
#[allow(dead_code, reason = "shared with the laws")]
mod edit;

use std::f64::consts::FRAC_PI_4;

use edit::{BUILDS, answered};
use engine::answers::Answers;

fn value(answers: &Answers, path: &str) -> Option<f64> {
    answers.rows.find(path)?.quantity.si()
}

fn text(name: &str) -> &'static str {
    BUILDS.iter().find(|(build, _)| *build == name).unwrap().1
}

#[test]
fn what_a_frame_needs_is_a_row_of_openings_that_have_one() {
    let answers = answered(text("tansy-bank"));
    assert!(answers.rows.find("openings.west-light.width").is_some());
    for noun in ["gap", "on-site-by", "frame.volume", "clear-width"] {
        for (opening, is_framed) in [("door", true), ("reading-window", true), ("west-light", false)] {
            let path = format!("openings.{opening}.{noun}");
            assert_eq!(answers.rows.find(&path).is_some(), is_framed, "{path}");
        }
    }
}

#[test]
fn poles_that_fall_one_way_cross_the_wall_twice_and_those_of_a_reciprocal_frame_once() {
    for (name, crossings, count, pitch) in
        [("burdock-rise", 2.0, "roof.poles.count", "roof.angle"), ("tansy-bank", 1.0, "poles.count", "roof.pitch")]
    {
        let answers = answered(text(name));
        let at = |path: &str| value(&answers, path).unwrap();
        let number = answers.rows.find(count).unwrap().quantity.si().unwrap();
        // Under a top that rises the mean counts.
        let mean = answers.rows.find("wall.mean-top-thickness").is_some();
        let thick = at(if mean { "wall.mean-top-thickness" } else { "wall.top-thickness" });
        let pole = FRAC_PI_4 * at("poles.diameter").powi(2) * thick / at(pitch).cos();
        let whole = at("wall.top-length") * thick * at("wall.gap.height");
        let ours = at("wall.gap.volume");
        assert!((whole - crossings * number * pole - ours).abs() < 1e-12, "{name}: {ours}");
    }
}

#[test]
fn the_gap_over_a_bare_wall_is_as_long_as_the_middle_of_its_top() {
    let bare = text("burdock-rise").split("\n\n").filter(|block| !block.starts_with("[prices.b"));
    let bare = bare.collect::<Vec<_>>().join("\n\n");
    let answers =
        answered(&bare.lines().filter(|line| !line.starts_with("bond-beam = ")).collect::<Vec<_>>().join("\n"));
    assert!(answers.rows.find("wall.bond-beam.width").is_none());
    let gap = answers.rows.find("wall.gap.volume").unwrap();
    assert!(gap.reason.inputs.iter().any(|input| input.path == "wall.top-length"));
    // It leans more outside, 1:24, than inside, 1:72: the middle of the top is shorter than the line.
    assert!(value(&answers, "wall.top-length") < value(&answers, "wall.length"));
}

#[test]
fn a_platform_stands_on_the_ground_that_topsoil_is_stripped_from_unless_the_strip_ends_before_it() {
    let ring = text("plain-ring");
    let height = |site: &str| {
        let answers = answered(&ring.replace("[site]\n", &format!("[site]\n{site}\n")));
        let last = answers.rows.matching("wall.lifts.*.above-ground").last().unwrap();
        last.quantity.si().unwrap()
    };
    // The top of the wall is 2 m above its foot, the ground 0.45 m below it.
    assert!((height("topsoil = \"200 mm\"") - 2.65).abs() < 1e-12);
    // Trench and stem are 500 mm and 400 mm wide, the wall 400 mm: the strip ends as far beyond the wall as its margin and
    // 50 mm more, and the platform begins 150 mm beyond it.
    assert!((height("topsoil = \"200 mm\"\nstrip-margin = \"101 mm\"") - 2.65).abs() < 1e-12);
    assert!((height("topsoil = \"200 mm\"\nstrip-margin = \"100 mm\"") - 2.45).abs() < 1e-12);
}

#[test]
fn what_follows_from_another_row_alone_is_not_written_twice() {
    for (name, text) in BUILDS {
        let answers = answered(text);
        for path in ["roof.soft-joint", "wall.bond-beam.laid-at", "wall.bond-beam.length", "wall.cover.length"] {
            assert!(answers.rows.find(path).is_none(), "{name}: {path}");
        }
        assert!(value(&answers, "wall.top-length").is_some(), "{name}");
    }
}

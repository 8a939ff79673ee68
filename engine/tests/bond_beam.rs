//! The bond beam: joints far enough apart for their scarfs in every layer, no piece longer than its timber, short corners joined.
#![allow(clippy::unwrap_used, clippy::panic, reason = "a test stops at the first surprise")]

#[path = "laws/edit.rs"]
#[allow(dead_code, reason = "shared with the laws")]
mod edit;

use edit::{BUILDS, answered};
use engine::answers::Answers;

fn value(answers: &Answers, path: &str) -> Option<f64> {
    answers.rows.find(path).and_then(|row| row.quantity.si())
}

/// The stems of the parts of a beam with the length of each along its middle.
fn parts(answers: &Answers) -> Vec<(String, f64)> {
    let rows = answers.rows.matching("wall.bond-beam.runs.*.pieces");
    rows.map(|row| {
        let stem = row.path.trim_end_matches(".pieces").to_owned();
        let length = ["joined-length", "length"].iter().find_map(|noun| value(answers, &format!("{stem}.{noun}")));
        (stem, length.unwrap())
    })
    .collect()
}

#[test]
fn joints_of_a_layer_and_of_the_next_stand_a_scarf_apart_and_the_parts_are_the_whole() {
    let mut beams = 0;
    for (name, text) in BUILDS {
        let answers = answered(text);
        let beam = |noun: &str| value(&answers, &format!("wall.bond-beam.{noun}")).unwrap();
        if answers.rows.find("wall.bond-beam.scarf").is_none() {
            continue;
        }
        beams += 1;
        let between = if beam("layers") > 1.0 { 2.0 } else { 1.0 };
        let whole = value(&answers, "wall.top-length").unwrap();
        let mut sum = 0.0;
        for (stem, length) in parts(&answers) {
            let pieces = value(&answers, &format!("{stem}.pieces")).unwrap();
            assert!(length / pieces > between * beam("scarf") - 1e-9, "{name}: {stem}: {length} in {pieces}");
            sum += length;
        }
        assert!((sum - whole).abs() < 1e-9, "{name}: the parts are {sum}, the beam is {whole}");
        assert!(beam("longest") <= beam("piece") + 1e-9, "{name}: {}", beam("longest"));
    }
    assert_eq!(beams, 3);
}

#[test]
fn a_corner_shorter_than_a_piece_must_be_is_cut_with_the_run_beside_it() {
    let [(_, text), ..] = BUILDS;
    let answers = answered(text);
    let value = |path: &str| value(&answers, &format!("wall.bond-beam.runs.{path}"));
    let corners = ["back-corner", "east-end-corner"];
    for corner in corners {
        let length = value(&format!("{corner}.length")).unwrap();
        assert!(length < 0.4 && value(&format!("{corner}.pieces")).is_none(), "{corner}: {length}");
    }
    let own: f64 = corners.iter().map(|corner| value(&format!("{corner}.length")).unwrap()).sum();
    let (joined, run) = (value("back.joined-length").unwrap(), value("back.length").unwrap());
    assert!((joined - run - own).abs() < 1e-12, "{joined} of {run} and {own}");
}

//! The drawings of whole houses: every number on them is a row, nothing runs off the sheet, the same each time.
#![allow(clippy::unwrap_used, clippy::panic, reason = "a test stops at the first surprise")]

use engine::answers::{Answers, Inputs, answers};
use press::drawing::{plan, section};
use press::paper::Paper;

const BUILDS: [(&str, &str); 3] = [
    ("tansy-bank", include_str!("../../builds/tansy-bank/tansy-bank.loam.toml")),
    ("burdock-rise", include_str!("../../builds/burdock-rise/burdock-rise.loam.toml")),
    ("plain-ring", include_str!("../../builds/plain-ring/plain-ring.loam.toml")),
];

fn answered(text: &str) -> Answers {
    answers(&Inputs { build: text.as_bytes(), system: None }).unwrap_or_else(|problems| panic!("{}", problems.all()[0]))
}

/// Everything of an SVG that says which row or part it shows.
fn paths(svg: &str) -> Vec<&str> {
    svg.split("data-path=\"").skip(1).filter_map(|rest| rest.split('"').next()).collect()
}

#[test]
fn every_number_on_a_drawing_is_a_row_or_names_a_part() {
    for (name, text) in BUILDS {
        let answers = answered(text);
        let paper = Paper::of(answers.system);
        for drawing in [plan(&answers, paper), section(&answers, paper)] {
            let svg = drawing.svg.to_string();
            assert!(paths(&svg).len() > 8, "{name}: too little is named");
            for path in paths(&svg) {
                let inside = format!("{path}.");
                let known = answers.rows.iter().any(|row| row.path == path || row.path.starts_with(&inside));
                assert!(known, "{name}: {path} is neither a row nor a part");
            }
        }
    }
}

#[test]
fn every_label_finds_room_on_the_demo_houses() {
    for (name, text) in BUILDS {
        let answers = answered(text);
        for paper in [Paper::A4, Paper::Letter] {
            for drawing in [plan(&answers, paper), section(&answers, paper)] {
                assert!(drawing.key.is_empty(), "{name}: {:?}", drawing.key);
                let [width, height] = paper.drawing_mm();
                assert!(drawing.svg.width_mm() <= width && drawing.svg.height_mm() <= height, "{name}");
            }
        }
    }
}

#[test]
fn a_plan_at_one_to_fifty_is_drawn_so() {
    let answers = answered(BUILDS[2].1);
    let drawing = plan(&answers, Paper::A4);
    assert_eq!(drawing.scale, "1:50");
    let svg = drawing.svg.to_string();
    let bar = svg.split("<rect ").filter(|rect| rect.contains("height=\"1.4\"")).count();
    assert_eq!(bar, 4, "the scale bar has four steps");
    assert!(svg.contains("width=\"20\" height=\"1.4\""), "a metre is 20 mm");
}

#[test]
fn a_drawing_is_the_same_each_time() {
    for (_, text) in BUILDS {
        let once = plan(&answered(text), Paper::A4).svg.to_string();
        assert_eq!(once, plan(&answered(text), Paper::A4).svg.to_string());
    }
}

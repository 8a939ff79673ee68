//! Skin and floor in parts: the stretches are the face, their lots the lot, the bays the floor.
#![allow(clippy::unwrap_used, clippy::panic, reason = "a test stops at the first surprise")]

#[path = "laws/builds.rs"]
#[allow(dead_code, reason = "some tests take single builds, others all")]
mod builds;

use builds::{BURDOCK_RISE, PLAIN_RING, QUINCE_HUT, SPIRAL_WALL, TANSY_BANK};
use engine::answers::{Answers, Inputs, answers};

/// Coats for a build that has none.
const COATS: &str = "
[[skin.inside]]
name = \"body\"
of = \"ready-plaster\"
thickness = \"12 mm\"

[[skin.outside]]
name = \"body\"
of = \"ready-plaster\"
thickness = \"16 mm\"
";

fn answered(text: &str) -> Answers {
    answers(&Inputs { build: text.as_bytes(), system: None }).unwrap_or_else(|problems| panic!("{}", problems.all()[0]))
}

fn value(answers: &Answers, path: &str) -> f64 {
    answers.rows.find(path).unwrap_or_else(|| panic!("no {path}")).quantity.si().unwrap()
}

fn sum(answers: &Answers, pattern: &str) -> f64 {
    answers.rows.matching(pattern).map(|row| row.quantity.si().unwrap()).sum()
}

fn coated() -> Vec<(&'static str, Answers)> {
    vec![
        ("tansy-bank", answered(TANSY_BANK)),
        ("burdock-rise", answered(BURDOCK_RISE)),
        ("quince-hut", answered(&format!("{QUINCE_HUT}{COATS}"))),
        ("plain-ring", answered(&format!("{PLAIN_RING}{COATS}"))),
        ("spiral-wall", answered(&format!("{SPIRAL_WALL}{COATS}"))),
    ]
}

#[test]
fn the_stretches_of_a_face_are_the_face() {
    for (name, answers) in coated() {
        let along = sum(&answers, "wall.line.*.stretch");
        assert!((along - value(&answers, "wall.length")).abs() < 1e-9, "{name}: {along} along the line");
        for (side, face) in [("inside", "inner"), ("outside", "outer")] {
            let gross = sum(&answers, &format!("skin.{side}-stretches.*.gross-area"));
            let whole = value(&answers, &format!("wall.{face}-gross-area"));
            assert!((gross - whole).abs() < 1e-9, "{name}: {side} before openings {gross} is not {whole}");
            let area = sum(&answers, &format!("skin.{side}-stretches.*.area"));
            let whole = value(&answers, &format!("skin.{side}-area"));
            assert!((area - whole).abs() < 1e-9, "{name}: {side} {area} is not {whole}");
        }
    }
}

#[test]
fn what_the_stretches_take_of_a_lot_is_the_lot_and_its_bins_hold_it() {
    for (name, answers) in coated().into_iter().take(2) {
        for coat in &answers.surfaces.coats {
            let taken = sum(&answers, &format!("skin.{}-stretches.*.lot.{}", coat.side, coat.name));
            let lot = value(&answers, &format!("{}.lot", coat.stem));
            assert!((taken - lot).abs() < 1e-9, "{name}: {} {taken} is not {lot}", coat.stem);
            let (bins, bin) = (value(&answers, &format!("{}.bins", coat.stem)), value(&answers, "skin.bin"));
            assert!(bins * bin >= lot && (bins - 1.0) * bin < lot, "{name}: {}", coat.stem);
        }
    }
}

#[test]
fn the_bays_of_a_floor_are_the_floor_and_the_last_is_at_the_door() {
    let two_lobes = TANSY_BANK.replace("width = \"950 mm\"", "width = \"300 mm\"");
    let builds = [TANSY_BANK, BURDOCK_RISE, QUINCE_HUT, &two_lobes];
    for text in builds {
        let answers = answered(text);
        let name = &answers.about.name;
        let bays = sum(&answers, "floor.bays.*.area");
        assert!((bays - value(&answers, "floor.area")).abs() < 1e-9, "{name}: {bays}");
        let count = value(&answers, "floor.bays.count");
        let wide = value(&answers, "floor.bays.even-width");
        assert!(wide <= value(&answers, "floor.bays.width") + 1e-12, "{name}: {wide}");
        // What is poured is laid in no order.
        let top = answers.surfaces.layers.last().unwrap();
        assert_eq!(answers.surfaces.bays.is_some(), top.recipe.is_some(), "{name}");
        let Some(plan) = answers.surfaces.bays.as_ref() else { continue };
        assert!((plan.bays.len() as f64 - count).abs() < 1e-12, "{name}");
        let away = |at: usize| plan.bays[at].middle.distance(plan.way_out[0]);
        let last = plan.bays.len() - 1;
        assert!(plan.bays[last].arrow.is_none() && away(last) < away(0), "{name}: the last bay is not at the door");
    }
    assert!(answered(&two_lobes).surfaces.bays.unwrap().from_both_ends);
}

#[test]
fn more_people_close_more_wall_and_a_stretch_asks_for_as_many_as_close_it() {
    let answers = answered(TANSY_BANK);
    let each = value(&answers, "skin.wet-area") / value(&answers, "skin.people");
    for row in answers.rows.matching("skin.inside-stretches.*.people") {
        let area = value(&answers, &row.path.replace(".people", ".area"));
        let people = row.quantity.si().unwrap();
        assert!(people * each >= area && (people - 1.0) * each < area, "{}", row.path);
    }
}

#[test]
fn oil_and_thinner_are_the_coat() {
    let answers = answered(BURDOCK_RISE);
    for (stem, _) in &answers.surfaces.oil {
        let thinner =
            answers.rows.find(&format!("{stem}.thinner-volume")).map_or(0.0, |row| row.quantity.si().unwrap());
        let coat = value(&answers, &format!("{stem}.volume"));
        assert!((value(&answers, &format!("{stem}.oil-volume")) + thinner - coat).abs() < 1e-15, "{stem}");
        let by_hand = value(&answers, "floor.area") / value(&answers, &format!("{stem}.covers"));
        assert!((coat - by_hand * value(&answers, &format!("{stem}.takes"))).abs() < 1e-15, "{stem}");
    }
}

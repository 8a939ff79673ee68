//! The second ring in the chapter of the roof: its rafters, their heads, and whether poles that carry are cut for it.

use engine::answers::Answers;
use engine::house::RingPlan;
use serde_json::Value;

use super::super::rows::lines;
use crate::spoken::spoken;

/// A line for each of its rafters; no lines where there is none.
pub(super) fn rafters(answers: &Answers, ring: &RingPlan) -> Value {
    second(answers, ring, ("roof.secondary.", "along"), &SECOND)
}

/// A line for the head of each.
pub(super) fn heads(answers: &Answers, ring: &RingPlan) -> Value {
    second(answers, ring, ("roof.crossings.second-", "push"), &HEADS)
}

/// Whether poles that already carry are cut or bored for a second ring.
pub(super) fn is_cut_overhead(answers: &Answers) -> bool {
    let size = |noun: &str| answers.rows.find(&format!("roof.secondary.{noun}")).and_then(|row| row.quantity.si());
    let has_second = answers.rows.find("roof.secondary.1.along").is_some();
    has_second && ["housing", "bolt"].iter().any(|noun| size(noun).is_some_and(|size| size > 0.0))
}

/// Rows of a rafter of a second ring, and what they are called here.
const SECOND: [(&str, &str); 5] = [
    ("along", "from the butt of that pole"),
    ("level", "level of its middle there"),
    ("above", "its top above the pole's"),
    ("angle", "angle of the two"),
    ("cut", "cut to"),
];

/// Rows of its head on its pole.
const HEADS: [(&str, &str); 16] = [
    ("push", "presses on it"),
    ("seat", "bears on"),
    ("bearing", "bearing used"),
    ("asd-bearing", "bearing used"),
    ("notch", "notch used"),
    ("asd-notch", "notch used"),
    ("across", "across its bolt"),
    ("lift", "lifts it off"),
    ("bolt", "bolt used"),
    ("split", "split"),
    ("asd-split", "split"),
    ("bolt-end", "beyond it"),
    ("asd-bolt-end", "beyond it"),
    ("bolt-side", "beside it"),
    ("asd-bolt-side", "beside it"),
    ("friction", "friction that would do"),
];

/// A line for each rafter of a second ring that has a row; no lines where there is none.
fn second(answers: &Answers, ring: &RingPlan, (stem, noun): (&str, &str), nouns: &[(&str, &str)]) -> Value {
    let bays = ring.places.iter().enumerate().filter_map(|(place, pole)| {
        let stem = format!("{stem}{}.", place + 1);
        answers.rows.find(&format!("{stem}{noun}"))?;
        let on = pole.neighbours.rests_on;
        let tag = spoken(&ring.places.get(on)?.tag);
        Some((format!("{} and {}, on {tag}", place + 1, on + 1), stem))
    });
    lines(answers, "between places", bays, nouns)
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used, reason = "a test stops at the first surprise")]
    use engine::answers::{Inputs, answers};

    use super::super::chapter;

    const TANSY_BANK: &str = include_str!("../../../../builds/tansy-bank/tansy-bank.loam.toml");

    #[test]
    fn poles_are_housed_and_bored_for_a_second_ring_before_the_prop_comes_out_and_nobody_stands_beneath() {
        let keys = "\n[roof.secondary]\nkind = \"ring\"\nat = \"60 %\"\ndiameter = \"130 mm\"\nof = \"larch-pole\"\n";
        let told = |cut: &str| {
            let build = format!("{TANSY_BANK}{keys}{cut}");
            let chapter = chapter(&answers(&Inputs { build: build.as_bytes(), system: None }).unwrap());
            let lines = ["steps", "holds"].map(|noun| {
                let lines = chapter[noun].as_array().unwrap();
                let at = |words: &str| lines.iter().position(|line| line.as_str().unwrap().contains(words));
                let out = at("prop comes out").or(at("Prop out")).unwrap();
                lines[out - 1].as_str().unwrap().to_owned()
            });
            let stages = chapter["stages"]["rows"].as_array().unwrap();
            (lines, stages[stages.len() - 2][2].as_str().unwrap().to_owned())
        };
        for cut in ["housing = \"20 mm\"\n", "bolt = \"12 mm\"\n"] {
            let (lines, stage) = told(cut);
            for line in lines.iter().chain([&stage]) {
                assert!(line.to_lowercase().contains("second ring") && line.contains("nobody beneath"), "{line}");
            }
            assert!(lines[1].starts_with('!'), "a signature is wanted: {}", lines[1]);
        }
        let (lines, stage) = told("");
        assert!(
            lines.iter().chain([&stage]).all(|line| !line.to_lowercase().contains("second ring")),
            "{lines:?}, {stage}"
        );
    }
}

//! The second ring in the chapter of the roof: its rafters, their heads, and whether poles that carry are cut for it.

use engine::answers::Answers;
use engine::house::RingPlan;
use serde_json::{Value, json};

use super::super::rows::lines;
use crate::spoken::spoken;

/// A line for each of its rafters; no lines where there is none.
pub(super) fn rafters(answers: &Answers, ring: &RingPlan) -> Value {
    second(answers, ring, ("roof.secondary.", "along", true), &SECOND)
}

/// What presses on the head of each and lifts it, a line a head.
pub(super) fn pressed(answers: &Answers, ring: &RingPlan) -> Value {
    second(answers, ring, ("roof.crossings.second-", "push", false), &PRESSED)
}

/// How far each head is used, a line a head.
pub(super) fn heads(answers: &Answers, ring: &RingPlan) -> Value {
    second(answers, ring, ("roof.crossings.second-", "push", false), &HEADS)
}

/// How poles that already carry are cut for a second ring, in words.
pub(super) struct Overhead {
    /// What is done to them.
    pub(super) done: &'static str,
    /// What whoever does it is told to do.
    pub(super) doing: &'static str,
    /// How deep or wide each is made.
    pub(super) depth: &'static str,
    /// What none is.
    pub(super) limit: &'static str,
    /// What is made, and how.
    made: &'static str,
    /// What becomes of a pole.
    pole: &'static str,
}

/// How poles are cut for a second ring while the prop stands; none where they stay whole.
pub(super) fn overhead(ring: &RingPlan) -> Option<Overhead> {
    let second = ring.second?;
    let done = second.in_words()?;
    let housed = ("each to its own depth and no deeper", "no cut deeper than is written");
    let ((depth, limit), doing, made, pole) = match (second.is_housed, second.is_bored) {
        (true, true) => (
            housed,
            "Mark, cut and bore the housings and holes",
            "Housings and holes are marked, cut and bored",
            "The pole is cut there to its own depth and no deeper, for it is bent most near there, and bored for the bolt that is written.",
        ),
        (true, false) => (
            housed,
            "Mark and cut the housings",
            "Housings are marked and cut",
            "The pole is cut there to its own depth and no deeper, for it is bent most near there.",
        ),
        _ => (
            ("each no wider than its bolt wants", "no hole wider than its bolt wants"),
            "Mark and bore the holes",
            "Holes are marked and bored",
            "The pole is bored there for the bolt that is written and not cut, for it is bent most near there.",
        ),
    };
    Some(Overhead { done, doing, depth, limit, made, pole })
}

/// What the chapter says of the poles under a second ring, and what is made while the prop stands.
pub(super) fn cut_in_words(ring: &RingPlan) -> Value {
    match overhead(ring) {
        Some(Overhead { made, pole, .. }) => json!({"pole": pole, "made": made}),
        None => json!({"pole": "Nothing is cut into the pole, for it is bent most near there.", "made": null}),
    }
}

/// Rows of a rafter of a second ring, and what they are called here.
const SECOND: [(&str, &str); 5] = [
    ("along", "from the butt of that pole"),
    ("level", "level of its middle there"),
    ("above", "its top above the pole's"),
    ("angle", "angle of the two"),
    ("cut", "cut to"),
];

/// Rows of what comes on its head.
const PRESSED: [(&str, &str); 5] = [
    ("push", "presses on its pole"),
    ("seat", "bears on"),
    ("across", "across its bolt"),
    ("lift", "lifts it off"),
    ("friction", "friction that would do"),
];

/// Rows of how far its head is used.
const HEADS: [(&str, &str); 11] = [
    ("bearing", "bearing used"),
    ("asd-bearing", "bearing used"),
    ("notch", "notch used"),
    ("asd-notch", "notch used"),
    ("bolt", "bolt used"),
    ("split", "split"),
    ("asd-split", "split"),
    ("bolt-end", "beyond it"),
    ("asd-bolt-end", "beyond it"),
    ("bolt-side", "beside it"),
    ("asd-bolt-side", "beside it"),
];

/// A line for each rafter of a second ring that has a row, with the pole that its head lies on where that is named; no lines where
/// there is none.
fn second(
    answers: &Answers,
    ring: &RingPlan,
    (stem, noun, names_pole): (&str, &str, bool),
    nouns: &[(&str, &str)],
) -> Value {
    let bays = ring.places.iter().enumerate().filter_map(|(place, pole)| {
        let stem = format!("{stem}{}.", place + 1);
        answers.rows.find(&format!("{stem}{noun}"))?;
        let on = pole.neighbours.rests_on;
        let tag = spoken(&ring.places.get(on)?.tag);
        let on_pole = if names_pole { format!(", on {tag}") } else { String::new() };
        Some((format!("{} and {}{on_pole}", place + 1, on + 1), stem))
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
            assert_eq!(chapter["cut"]["made"].is_null(), cut.is_empty(), "{cut}");
            let has_bolt = cut.contains("bolt");
            let header = chapter["heads"]["header"].as_array().unwrap();
            assert_eq!(header.iter().any(|noun| noun == "beyond it"), has_bolt, "{cut}");
            assert_eq!(chapter["cut"]["pole"].as_str().unwrap().contains("bored"), has_bolt, "{cut}");
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
            let absent = if cut.starts_with("bolt") { "hous" } else { "bor" };
            for line in lines.iter().chain([&stage]) {
                assert!(line.to_lowercase().contains("second ring") && line.contains("nobody beneath"), "{line}");
                assert!(!line.to_lowercase().contains(absent), "{cut}: {line}");
            }
            assert!(lines[1].starts_with('!'), "a signature is wanted: {}", lines[1]);
        }
        let (lines, stage) = told("housing = \"20 mm\"\nbolt = \"12 mm\"\n");
        assert!(lines.iter().chain([&stage]).all(|line| line.to_lowercase().contains("bor")), "{lines:?}, {stage}");
        let (lines, stage) = told("");
        assert!(
            lines.iter().chain([&stage]).all(|line| !line.to_lowercase().contains("second ring")),
            "{lines:?}, {stage}"
        );
    }
}

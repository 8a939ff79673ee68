//! Tried mixes of a build file: the recipe that they choose, held by hand and against the recipe of the file, and what changes it.
#![allow(clippy::unwrap_used, clippy::panic, reason = "a test stops at the first surprise")]

use engine::answers::{Answers, Inputs, answers};
use engine::check::State;

const TANSY_BANK: &str = include_str!("../../builds/tansy-bank/tansy-bank.loam.toml");
const BURDOCK_RISE: &str = include_str!("../../builds/burdock-rise/burdock-rise.loam.toml");

fn answered(text: &str) -> Answers {
    answers(&Inputs { build: text.as_bytes(), system: None }).unwrap_or_else(|problems| panic!("{}", problems.all()[0]))
}

fn changed(from: &str, to: &str) -> String {
    let text = TANSY_BANK.replacen(from, to, 1);
    assert_ne!(text, TANSY_BANK, "{from} is not in the build");
    text
}

fn value(answers: &Answers, path: &str) -> f64 {
    answers.rows.find(path).unwrap_or_else(|| panic!("{path} is no row")).quantity.si().unwrap()
}

#[track_caller]
fn near(found: f64, expected: f64, within: f64) {
    assert!((found - expected).abs() <= within * expected.abs(), "{found} is not {expected}");
}

fn recipe_state(answers: &Answers, mixes: &str) -> (State, String) {
    let path = format!("tests.mixes.{mixes}.off");
    let check = answers.checks.iter().find(|check| check.path.as_deref() == Some(&path)).unwrap();
    (check.state, check.sentence(answers.system))
}

#[test]
fn the_recipe_on_the_batch_card_is_the_one_that_the_statistics_chose() {
    for (text, mixes, recipe, ingredients) in [
        (TANSY_BANK, "cob", "cob", &["soil", "sand"][..]),
        (BURDOCK_RISE, "cob", "cob", &["clay-soil", "sand"]),
        (BURDOCK_RISE, "floor", "floor-mix", &["clay-soil", "sand", "pumice"]),
    ] {
        let answers = answered(text);
        for ingredient in ingredients {
            let chosen = value(&answers, &format!("tests.mixes.{mixes}.best.buckets.{ingredient}"));
            assert_eq!(chosen, value(&answers, &format!("earth.recipes.{recipe}.buckets.{ingredient}")));
        }
        assert_eq!(recipe_state(&answers, mixes).0, State::Holds, "{mixes}");
    }
}

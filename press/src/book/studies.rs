//! What the long computations of the roof found, for paper: a study that was not computed is named as such.

use engine::answers::Answers;
use engine::studies::Findings;
use serde_json::{Value, json};

use crate::studies::{About, Told, all};

/// The studies of the roof; null where it has none.
pub(super) fn chapter(answers: &Answers, findings: &Findings) -> Value {
    let pages: Vec<Value> = all(answers, findings).into_iter().map(|(about, told)| page(about, told)).collect();
    if pages.is_empty() { Value::Null } else { json!(pages) }
}

fn page(about: About, told: Option<Told>) -> Value {
    let is_computed = told.is_some();
    let told = told.unwrap_or_default();
    let tables =
        told.tables.iter().map(|table| json!({"title": table.title, "header": table.header, "rows": table.rows}));
    json!({
        "title": about.title,
        "about": about.words,
        "computed": is_computed,
        "words": told.words,
        "offer": told.offer,
        "tables": tables.collect::<Vec<_>>(),
        "notes": told.notes,
        "caution": told.caution,
    })
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used, reason = "a test stops at the first surprise")]
    use super::*;
    use engine::answers::{Inputs, answers};

    const TANSY_BANK: &str = include_str!("../../../builds/tansy-bank/tansy-bank.loam.toml");
    const BURDOCK_RISE: &str = include_str!("../../../builds/burdock-rise/burdock-rise.loam.toml");

    fn answered(build: &str) -> Answers {
        answers(&Inputs { build: build.as_bytes(), system: None }).unwrap()
    }

    #[test]
    fn a_study_that_was_not_computed_has_no_figures_and_says_so() {
        let answers = answered(TANSY_BANK);
        let pages = chapter(&answers, &Findings::default());
        assert_eq!(pages.as_array().unwrap().len(), 2);
        for page in pages.as_array().unwrap() {
            assert_eq!((&page["computed"], &page["tables"], &page["words"]), (&json!(false), &json!([]), &json!([])));
        }
        assert_eq!(chapter(&answered(BURDOCK_RISE), &Findings::default()), Value::Null);
    }

    #[test]
    fn every_pole_has_its_stage_and_its_loss() {
        let answers = answered(TANSY_BANK);
        let pages = chapter(&answers, &answers.studies.found());
        let trial = &pages[0];
        let count = answers.ring_plan.as_ref().unwrap().places.len();
        for table in [0, 1] {
            assert_eq!(trial["tables"][table]["rows"].as_array().unwrap().len(), count);
        }
        let text = trial.to_string();
        assert!(text.contains("the ring comes down") && text.contains("an engineer decides"));
        assert!(pages[1].to_string().contains("none is better"), "a pile of eleven is counted out");
    }
}

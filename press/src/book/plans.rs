//! Mixes to make, with a page to fill, and the log of the first batches.

use engine::answers::Answers;
use engine::earth::panel;
use serde_json::{Value, json};

use super::rows::columns;
use crate::{batches, plans};

/// The scale of cracks in a sentence.
fn cracks() -> String {
    let steps = panel::scale().iter().filter(|step| step.aspect == panel::ASPECTS[0]);
    steps.map(|step| format!("{} {}", step.score, step.words)).collect::<Vec<_>>().join("; ")
}

pub(super) fn chapter(answers: &Answers) -> Value {
    let all = plans::plans(answers).into_iter().map(|plan| {
        json!({
            "title": plan.title,
            "facts": plan.facts,
            "mixes": columns(&plan.mixes),
            "bricks": plan.bricks,
            "more": plan.more,
            "cracks": cracks(),
            "bars": plan.has[0],
            "panels": plan.has[1],
            "open": plan.open,
        })
    });
    json!(all.collect::<Vec<_>>())
}

pub(super) fn logs(answers: &Answers) -> Value {
    let all = batches::logs(answers).into_iter().map(|log| {
        json!({
            "title": log.title,
            "each": columns(&log.each),
            "together": log.together,
            "open": log.open,
            "drawing": format!("/batches-{}.svg", log.name),
        })
    });
    json!(all.collect::<Vec<_>>())
}

//! Tried mixes series by series: what each was made of, what was found, what is wanted, and the recipe that they choose.

use engine::answers::Answers;
use serde_json::{Value, json};

use super::rows::columns;
use crate::mixes::series;

pub(super) fn chapter(answers: &Answers) -> Value {
    let all = series(answers).into_iter().map(|mixes| {
        json!({
            "title": mixes.title,
            "tried": columns(&mixes.tried),
            "wishes": columns(&mixes.wishes),
            "together": mixes.together,
            "open": mixes.open,
            "drawing": format!("/mixes-{}.svg", mixes.name),
        })
    });
    json!(all.collect::<Vec<_>>())
}

//! Test panels face by face: the scale, what judges scored, and the mix that is chosen.

use engine::answers::Answers;
use serde_json::{Value, json};

use super::rows::columns;
use crate::panels::{series, steps};

pub(super) fn chapter(answers: &Answers) -> Value {
    let all = series(answers).into_iter().map(|panels| {
        json!({
            "title": panels.title,
            "scored": columns(&panels.scored),
            "together": panels.together,
            "open": panels.open,
            "drawing": format!("/panels-{}.svg", panels.name),
        })
    });
    json!({ "scale": columns(&steps()), "faces": all.collect::<Vec<_>>() })
}

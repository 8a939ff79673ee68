//! Test bricks lot by lot: what was measured, what each bore, what they say together and what a code takes of it.

use engine::answers::Answers;
use serde_json::{Value, json};

use super::rows::{columns, figures};
use crate::bricks::lots;
use crate::samples;
use crate::spoken::capital;

/// What a code is shown of the wall's cob.
const SHOWN: [(&str, &str); 7] = [
    ("compression", "compressive strength, the least of its lot"),
    ("compression-mean", "compressive strength, the mean of its lot"),
    ("rupture", "modulus of rupture, the least of its lot"),
    ("rupture-mean", "modulus of rupture, the mean of its lot"),
    ("shrinkage", "greatest shrinkage of a bar"),
    ("drip-index", "index of the drip test, the worst"),
    ("spray-index", "index of the spray test, the worst"),
];

pub(super) fn chapter(answers: &Answers) -> Value {
    let lots = lots(answers).into_iter().map(|lot| {
        json!({
            "title": lot.title,
            "measured": columns(&lot.measured),
            "bore": columns(&lot.bore),
            "together": lot.together,
            "open": lot.open,
            "lever": answers.rows.find(&format!("tests.bricks.{}.lever.arm", lot.name)).is_some(),
            "drawings": [format!("/bricks-{}.svg", lot.name), format!("/damp-bricks-{}.svg", lot.name)],
        })
    });
    json!({
        "lots": lots.collect::<Vec<_>>(),
        "bars": columns(&samples::bars(answers)),
        "washed": columns(&samples::washed(answers)),
        "open": samples::open(answers).iter().map(|words| capital(words)).collect::<Vec<_>>(),
        "shown": figures(answers, "tests.cob.", &SHOWN),
    })
}

//! What has its place in the book and is not computed yet, with the first cut that is.

use engine::answers::Answers;
use serde_json::{Value, json};

use super::quantities::marked;

/// Rows of the first cut: what they are called here.
const ROOF: [(&str, &str); 8] = [
    ("Poles", "poles.count"),
    ("Cut length", "roof.poles.cut-length"),
    ("Diameter at the first crossing", "poles.diameter"),
    ("Pitch", "roof.pitch"),
    ("Prop, first height", "roof.prop-height"),
    ("Roof on the slope", "roof.area"),
    ("Saturated, all layers", "roof.saturated-mass"),
    ("Dead load", "roof.dead-load"),
];

pub(super) fn chapter(answers: &Answers) -> Value {
    let roof =
        ROOF.iter().filter_map(|(title, path)| Some([(*title).to_owned(), marked(answers, answers.rows.find(path)?)]));
    json!({"roof": roof.collect::<Vec<_>>()})
}

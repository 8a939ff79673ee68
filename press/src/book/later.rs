//! What has its place in the book and is not computed yet, with the first cut that is.

use engine::answers::Answers;
use serde_json::{Value, json};

use super::rows::figures;

/// Rows of the first cut, and what they are called here.
const ROOF: [(&str, &str); 8] = [
    ("poles.count", "Poles"),
    ("roof.poles.cut-length", "Cut length"),
    ("poles.diameter", "Diameter at the first crossing"),
    ("roof.pitch", "Pitch"),
    ("roof.prop-height", "Prop, first height"),
    ("roof.area", "Roof on the slope"),
    ("roof.saturated-mass", "Saturated, all layers"),
    ("roof.dead-load", "Dead load"),
];

pub(super) fn chapter(answers: &Answers) -> Value {
    let is_first_cut = answers.deck.is_none() && answers.boarding.is_none();
    let roof = if is_first_cut { figures(answers, "", &ROOF) } else { Vec::new() };
    json!({ "roof": roof })
}

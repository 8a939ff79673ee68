//! What tests say of the soil: jars with their marks and layers, gradings, limits, sand to add, and the clay that is written.

use engine::answers::Answers;
use serde_json::{Value, json};

use super::rows::table;
use crate::spoken::capital;

const MARKS: [(&str, &str); 5] = [
    ("height", "water stands"),
    ("water", "water"),
    ("mark-sand", "mark the sand after"),
    ("mark-silt", "mark the silt after"),
    ("still-to-stand", "stands still for"),
];
const LAYERS: [(&str, &str); 3] = [("layers.sand", "sand"), ("layers.silt", "silt"), ("layers.clay", "clay")];
const BANDS: [(&str, &str); 6] = [
    ("sand-low", "sand from"),
    ("sand-high", "to"),
    ("silt-low", "silt from"),
    ("silt-high", "to"),
    ("clay-low", "clay from"),
    ("clay-high", "to"),
];
const SPREAD: [(&str, &str); 4] = [
    ("jars-to-shake", "jars to shake"),
    ("sand-spread", "apart in sand"),
    ("silt-spread", "in silt"),
    ("clay-spread", "in clay"),
];
const CLAY: [(&str, &str); 3] =
    [("clay", "clay, tested"), ("clay-error", "off by"), ("clay-over-tested", "written over it")];
const LIMITS: [(&str, &str); 6] = [
    ("liquid", "liquid limit"),
    ("plastic", "plastic limit"),
    ("fine", "under 0.425 mm"),
    ("index", "index"),
    ("over-a-line", "over A-line"),
    ("under-u-line", "under U-line"),
];
const SAND: [(&str, &str); 6] = [
    ("clay", "clay wanted"),
    ("dry", "by dry mass"),
    ("low", "from"),
    ("high", "to"),
    ("buckets", "buckets"),
    ("lacking", "clay lacking"),
];

/// The section; null where nothing of the soil is tested.
pub(super) fn section(answers: &Answers) -> Value {
    let stems = ["tests.jars.", "tests.gradings.", "tests.limits."];
    if !answers.rows.iter().any(|row| stems.iter().any(|stem| row.path.starts_with(stem))) {
        return Value::Null;
    }
    let aside = answers.rows.matching("tests.jars.*.readings.*.height").filter(|row| row.title.contains(", set aside: "));
    let textures = answers.rows.matching("tests.soils.*.classes").map(|row| capital(&row.title));
    json!({
        "marks": table(answers, "tests.jars.", &MARKS),
        "aside": aside.map(|row| format!("{}: {}", capital(&row.title), row.shown(answers.system))).collect::<Vec<_>>(),
        "layers": table(answers, "tests.jars.", &LAYERS),
        "jars": table(answers, "tests.jars.", &BANDS),
        "gradings": table(answers, "tests.gradings.", &BANDS),
        "soils": table(answers, "tests.soils.", &CLAY),
        "spread": table(answers, "tests.soils.", &SPREAD),
        "limits": table(answers, "tests.limits.", &LIMITS),
        "sand": table(answers, "tests.sand-to-add.", &SAND),
        "textures": textures.collect::<Vec<_>>(),
    })
}

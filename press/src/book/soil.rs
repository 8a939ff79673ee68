//! What tests say of the soil: jars with their marks and layers, gradings, limits, sand to add, and the clay that is written.

use engine::answers::Answers;
use serde_json::{Value, json};

use super::rows::{lines, table};
use crate::spoken::{capital, marked, spoken};

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

const READINGS: [(&str, &str); 4] =
    [("after", "after"), ("reading", "reads"), ("size", "grain afloat"), ("finer", "finer")];
const MOISTURE: [(&str, &str); 3] = [("wet", "wet"), ("dry", "dried"), ("moisture", "of dry mass")];
const BULKING: [(&str, &str); 3] = [("damp", "damp"), ("flooded", "flooded"), ("bulking", "bulks")];
const WEIGHINGS: [(&str, &str); 4] =
    [("full", "full"), ("empty", "empty"), ("loose-density", "loose, dry"), ("over-weighed", "computed with, over it")];
const FEEL: [(&str, &str); 6] = [
    ("ribbon", "ribbon"),
    ("clay-low", "clay from"),
    ("clay-high", "to"),
    ("clay-within", "tests lie within by"),
    ("flattened", "dropped ball flattened"),
    ("drop.pieces", "pieces"),
];

/// The section; null where nothing of the soil is tested.
pub(super) fn section(answers: &Answers) -> Value {
    let stems =
        ["jars", "gradings", "limits", "moisture", "bulking", "weighings", "feel"].map(|noun| format!("tests.{noun}."));
    if !answers.rows.iter().any(|row| stems.iter().any(|stem| row.path.starts_with(stem.as_str()))) {
        return Value::Null;
    }
    let aside =
        answers.rows.matching("tests.jars.*.readings.*.height").filter(|row| row.title.contains(", set aside: "));
    let said = ["tests.soils.*.classes", "tests.feel.*.classes", "tests.feel.*.flattened"];
    let textures = said.into_iter().flat_map(|pattern| answers.rows.matching(pattern)).map(|row| capital(&row.title));
    json!({
        "marks": table(answers, "tests.jars.", &MARKS),
        "aside": aside.map(|row| format!("{}: {}", capital(&row.title), marked(answers, row))).collect::<Vec<_>>(),
        "layers": table(answers, "tests.jars.", &LAYERS),
        "jars": table(answers, "tests.jars.", &BANDS),
        "gradings": table(answers, "tests.gradings.", &BANDS),
        "soils": table(answers, "tests.soils.", &CLAY),
        "spread": table(answers, "tests.soils.", &SPREAD),
        "limits": table(answers, "tests.limits.", &LIMITS),
        "sand": table(answers, "tests.sand-to-add.", &SAND),
        "readings": readings(answers),
        "small": [
            ["Moisture of a pile", table(answers, "tests.moisture.", &MOISTURE)],
            ["How damp sand bulks", table(answers, "tests.bulking.", &BULKING)],
            ["A bucket, weighed", table(answers, "tests.weighings.", &WEIGHINGS)],
            ["How it feels", table(answers, "tests.feel.", &FEEL)],
        ],
        "textures": textures.collect::<Vec<_>>(),
    })
}

/// The readings of all hydrometers, the last of each first.
fn readings(answers: &Answers) -> Value {
    let sizes = answers.rows.matching("tests.gradings.*.hydrometer.readings.*.size");
    let names = sizes.filter_map(|row| {
        let keys: Vec<&str> = row.path.split('.').collect();
        Some((format!("{}, {}", spoken(keys.get(2)?), keys.get(5)?), row.path.strip_suffix("size")?.to_owned()))
    });
    lines(answers, "", names, &READINGS)
}

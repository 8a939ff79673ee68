//! Every quantity: points of the line, runs, openings, and the rest with origins; the main ones with their reasons.

use engine::answers::Answers;
use engine::row::Row;
use serde_json::{Value, json};

use super::rows::table;
use crate::spoken::{capital, marked};

/// Nouns of rows, each with what it is called.
type Nouns = [(&'static str, &'static str)];

const POINTS: [(&str, &str); 7] = [
    ("x", "x"),
    ("y", "y"),
    ("through-x", "arc through, x"),
    ("through-y", "arc through, y"),
    ("round", "corner radius"),
    ("thickness", "thickness"),
    ("height", "height"),
];
const CURVES: [(&str, &str); 5] = [
    ("leave-x", "curve leaves, x"),
    ("leave-y", "leaves, y"),
    ("arrive-x", "arrives, x"),
    ("arrive-y", "arrives, y"),
    ("least-radius", "least radius"),
];
const RUNS: [(&str, &str); 6] = [
    ("run", "run to the next"),
    ("radius", "radius"),
    ("corner", "rounded corner"),
    ("trim-before", "trim before"),
    ("trim-after", "trim after"),
    ("trench-depth", "trench depth"),
];
const SIZES: [(&str, &str); 8] = [
    ("along", "middle at"),
    ("width", "width"),
    ("height", "height"),
    ("rise", "rise"),
    ("sill", "sill"),
    ("threshold", "threshold"),
    ("corner-distance", "from corner"),
    ("pier", "pier to next"),
];
const TAKEN: [(&str, &str); 5] = [
    ("volume", "cob taken out"),
    ("stem-volume", "stem taken out"),
    ("outer-area", "outer face"),
    ("inner-area", "inner face"),
    ("reveal-area", "reveals"),
];

const JOINERY: [(&str, &str); 7] = [
    ("splay.left", "splay, left"),
    ("splay.right", "splay, right"),
    ("frame.length", "frame, length"),
    ("frame.volume", "frame"),
    ("sill-board.volume", "sill board"),
    ("lintel.length", "lintel, length"),
    ("lintel.volume", "lintel"),
];
const PILES: [(&str, &str); 6] = [
    ("density", "dry density"),
    ("bulking", "bulking"),
    ("loose-density", "dry, loose"),
    ("moisture", "moisture"),
    ("clay", "clay"),
    ("bucket-mass", "a full bucket"),
];
const LAYERS: [(&str, &str); 8] = [
    ("thickness", "thickness"),
    ("area", "area"),
    ("on-slope", "on its slope"),
    ("volume", "in place"),
    ("loose-volume", "loose"),
    ("saturated", "saturated"),
    ("dry", "dry"),
    ("saturated-mass", "mass, saturated"),
];
const LAID_ON: [(&str, &str); 5] = [
    ("above-deck", "above the deck"),
    ("underside", "surface below it"),
    ("bucket", "a bucket makes"),
    ("buckets", "buckets"),
    ("bucket-mass", "a bucket, soaked"),
];

const CORNERS: [(&str, &str); 3] = [("x", "x"), ("y", "y"), ("side", "side to the next")];
const STANDS: [(&str, &str); 6] = [
    ("at.x", "x"),
    ("at.y", "y"),
    ("side", "side"),
    ("width", "width"),
    ("walk-round", "way round it"),
    ("crown", "crown"),
];
const BOUGHT: [(&str, &str); 4] =
    [("holds", "holds"), ("density", "density"), ("covers", "covers"), ("count", "count")];
const ORDERED: [(&str, &str); 3] =
    [("volume", "volume"), ("delivered-density", "density as delivered"), ("bought", "bought")];

/// Stems of rows that have tables of their own.
const TABLED: [&str; 23] = [
    "wall.line.",
    "wall.lifts.",
    "openings.",
    "crew.",
    "dates.",
    "earth.ingredients.",
    "earth.recipes.",
    "floor.layers.",
    "skin.inside.",
    "skin.outside.",
    "roof.layers.",
    "roof.members.",
    "roof.crossings.",
    "roof.feet.",
    "roof.beam.",
    "roof.places.",
    "roof.rafters.",
    "roof.trade.",
    "order.",
    "site.boundary.",
    "site.trees.",
    "site.yard.",
    "wall.platform.",
];

/// Tests that have a line of their own in the table of their chapter: each brick, each tried mix, each panel.
const ONE_OF_MANY: [&str; 2] = [".each.", ".tried."];

/// The other rows, by what they belong to.
const GROUPS: [(&str, &[&str]); 8] = [
    ("House and wall", &["wall.", "room.", "site.", "house.", "weather."]),
    ("Built into and onto the wall", &["built-in."]),
    ("Services", &["services."]),
    ("Ground, trench and drain", &["ground.", "water."]),
    ("Buckets, loaves, straw", &["earth."]),
    ("Tests of soil, mixes, panels and bricks", &["tests."]),
    ("Floor and skin", &["floor.", "skin."]),
    ("Roof", &["roof.", "poles."]),
];

/// Rows whose reasons are printed in full, beside the water of the first recipe and the first order.
const REASONS: [&str; 4] = ["wall.gross-volume", "wall.volume", "wall.cob.clay", "roof.pitch"];

pub(super) fn chapter(answers: &Answers) -> Value {
    let water = answers.recipes.first().map(|recipe| format!("earth.recipes.{recipe}.water-mass"));
    let order = answers.orders.first().map(|order| order.path("units"));
    let paths = REASONS.into_iter().map(str::to_owned).chain(water).chain(order);
    let reasons = paths
        .filter_map(|path| answers.rows.find(&path))
        .filter(|row| row.own.is_none())
        .map(|row| reason(answers, row));
    let groups = GROUPS.iter().map(|(title, stems)| json!({"title": title, "rows": group(answers, stems)}));
    let others: [(&str, &str, &Nouns); 10] = [
        ("The floor, from the ground up", "floor.layers.", &LAYERS),
        ("Coats inside", "skin.inside.", &LAYERS),
        ("Coats outside", "skin.outside.", &LAYERS),
        ("The roof, from the poles up", "roof.layers.", &LAYERS),
        ("What its layers lie on, and how they are hoisted", "roof.layers.", &LAID_ON),
        ("The land, corner by corner", "site.boundary.", &CORNERS),
        ("Trees", "site.trees.", &STANDS),
        ("What stands in the yard", "site.yard.", &STANDS),
        ("What one of a thing that is bought holds or covers", "prices.", &BOUGHT),
        ("What is ordered", "order.", &ORDERED),
    ];
    let others = others.map(|(title, stem, nouns)| json!({"title": title, "table": table(answers, stem, nouns)}));
    json!({
        "points": table(answers, "wall.line.", &POINTS),
        "curves": table(answers, "wall.line.", &CURVES),
        "runs": table(answers, "wall.line.", &RUNS),
        "sizes": table(answers, "openings.", &SIZES),
        "taken": table(answers, "openings.", &TAKEN),
        "joinery": table(answers, "openings.", &JOINERY),
        "piles": table(answers, "earth.ingredients.", &PILES),
        "others": others,
        "groups": groups.collect::<Vec<_>>(),
        "reasons": reasons.collect::<Vec<_>>(),
    })
}

/// Title, value and origin of each row of a group that has no table of its own.
fn group(answers: &Answers, stems: &[&str]) -> Vec<[String; 3]> {
    let starts = |row: &&Row, stems: &[&str]| stems.iter().any(|stem| row.path.starts_with(stem));
    answers
        .rows
        .iter()
        .filter(|row| starts(row, stems) && !starts(row, &TABLED))
        .filter(|row| !row.path.starts_with("tests.") || !ONE_OF_MANY.iter().any(|part| row.path.contains(part)))
        .map(|row| [capital(&row.title), marked(answers, row), row.origin_in_words()])
        .collect()
}

fn reason(answers: &Answers, row: &Row) -> Value {
    let words = row.reason.words();
    let inputs = row.reason.inputs.iter().map(|input| {
        let origin = answers.rows.find(&input.path).map_or_else(String::new, Row::origin_in_words);
        [input.name(), engine::row::shown(input.quantity, answers.system), origin]
    });
    let inputs: Vec<[String; 3]> = inputs.collect();
    let title = format!("{}: {}", capital(&row.title), marked(answers, row));
    let many = inputs.len() > 9;
    json!({
        "title": title,
        "about": format!("{} {}", words.title, words.explanation).trim_end(),
        // Conditions stand beside an equation in the code; a page is narrower.
        "equation": words.equation.replace("        ", "\n    "),
        "source": words.source,
        "inputs": if many { Vec::new() } else { inputs.clone() },
        "many": if many { format!("{} inputs, listed in the tables above.", inputs.len()) } else { String::new() },
    })
}

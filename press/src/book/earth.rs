//! Lifts, recipes and the cards that hang beside the tarp.

use engine::answers::Answers;
use serde_json::{Value, json};

use super::quantities::marked;
use crate::drawing;

/// Width of a recipe's drawing on a card, in millimetres.
pub(super) const CARD: f64 = 148.0;

/// Lines of a recipe's table of figures: noun and words.
const FIGURES: [(&str, &str); 9] = [
    ("dry-mass", "Dry earth in a batch"),
    ("loose-volume", "Loose, as it is tipped on the tarp"),
    ("placed-volume", "Placed"),
    ("straw-mass", "Straw"),
    ("pile-water", "Water that the piles bring"),
    ("water-volume", "Water to add"),
    ("wet-mass", "The batch weighs, wet"),
    ("density", "Dry, in a placed cubic metre"),
    ("batches", "Batches in all"),
];

const COLUMNS: [(&str, &str); 4] =
    [("buckets", "buckets"), ("settled", "if it did not bulk"), ("mass", "dry mass"), ("share", "share")];

/// The recipes that the house uses: a card and what stands behind it.
pub(super) fn recipes(answers: &Answers) -> Value {
    let used = answers.recipes.iter().map(|recipe| one(answers, recipe));
    json!(used.collect::<Vec<_>>())
}

/// The drawings of the recipes: a name in the typesetter's folder, and the text.
pub(super) fn drawings(answers: &Answers) -> Vec<(String, String)> {
    let used = answers.recipes.iter();
    used.filter_map(|recipe| {
        let drawn = drawing::buckets(answers, recipe, CARD)?;
        Some((format!("/buckets-{recipe}.svg"), drawn.to_string()))
    })
    .collect()
}

fn one(answers: &Answers, recipe: &str) -> Value {
    let stem = format!("earth.recipes.{recipe}");
    let find = |noun: &str| answers.rows.find(&format!("{stem}.{noun}"));
    let said = |noun: &str| find(noun).map(|row| row.shown(answers.system));
    let stem_of = format!("{stem}.buckets.");
    let names: Vec<&str> = answers.rows.iter().filter_map(|row| row.path.strip_prefix(&stem_of)).collect();
    let parts = names.iter().map(|name| {
        let cell = |noun: &str| find(&format!("{noun}.{name}")).map_or("–".to_owned(), |row| marked(answers, row));
        std::iter::once(name.replace('-', " ")).chain(COLUMNS.map(|(noun, _)| cell(noun))).collect::<Vec<_>>()
    });
    let figures = FIGURES.iter().filter_map(|(noun, words)| Some([(*words).to_owned(), marked(answers, find(noun)?)]));
    let clay = find("clay").or_else(|| answers.rows.find("wall.cob.clay").filter(|_| find("loaves").is_some()));
    let clay = clay.map(|row| ["Clay in the dry mix".to_owned(), marked(answers, row)]);
    let name = recipe.replace('-', " ");
    json!({
        "name": recipe,
        "title": format!("One tarp of {name}"),
        "width": CARD,
        "words": words(answers, &stem),
        "steps": steps(answers, &stem, &name),
        "heavy": heavy(answers, &names),
        "header": std::iter::once("").chain(COLUMNS.map(|(_, title)| title)).collect::<Vec<_>>(),
        "parts": parts.collect::<Vec<_>>(),
        "figures": figures.chain(clay).collect::<Vec<_>>(),
        "makes": said("placed-volume").map_or(String::new(), |placed| format!("makes {placed}")),
    })
}

/// How a bucket is filled.
fn words(answers: &Answers, stem: &str) -> String {
    let said = |path: &str| answers.rows.find(path).map(|row| row.shown(answers.system)).unwrap_or_default();
    let filled = if answers.rows.find("earth.bucket.filled").is_some() {
        format!(
            "Buckets heaped: {} to the brim, {} with the heap.",
            said("earth.bucket.brim"),
            said("earth.bucket.filled")
        )
    } else {
        format!("Buckets struck: level with the brim, {}.", said("earth.bucket.brim"))
    };
    let whole = answers.rows.find(&format!("{stem}.batches"));
    match whole {
        Some(batches) => format!("{filled} About {} batches in all.", batches.shown(answers.system)),
        None => filled,
    }
}

/// What to do, in order; the amounts are rows, the rest is common practice.
fn steps(answers: &Answers, stem: &str, name: &str) -> Vec<String> {
    let find = |noun: &str| answers.rows.find(&format!("{stem}.{noun}"));
    let said = |noun: &str| find(noun).map(|row| row.shown(answers.system)).unwrap_or_default();
    let spoken = |noun: &str| find(noun).and_then(|row| row.quantity.si()).map(drawing::bucket_number);
    let mut steps = vec![
        "Look through soil and sand for glass, nails and roots. Tip the buckets on the tarp and mix them dry."
            .to_owned(),
    ];
    let water = spoken("water-buckets").unwrap_or_default();
    let buckets = if water == "1" { "bucket" } else { "buckets" };
    steps.push(format!(
        "Water: {} ({water} {buckets}). Give two thirds, tread, turn the tarp, then give the rest bit by bit: the pile is \
         never as damp as it was last week.",
        said("water-volume")
    ));
    if let Some(armfuls) = spoken("armfuls") {
        steps.push(format!(
            "Straw: {armfuls} armfuls ({}), strewn while you tread, until none shows dry.",
            said("straw-mass")
        ));
    }
    match find("loaves") {
        Some(loaves) => steps.push(format!(
            "It is ready when a ball dropped from chest height stays a ball with few cracks. Shape {} loaves of {} each.",
            loaves.shown(answers.system),
            said("loaf-mass")
        )),
        None => steps.push(format!("It is ready when {name} of the last batch and of this one feel alike: keep a handful in a lidded pot.")),
    }
    steps
}

/// What full buckets weigh: a hand should know before it lifts.
fn heavy(answers: &Answers, names: &[&str]) -> String {
    let masses = names.iter().filter_map(|name| {
        let row = answers.rows.find(&format!("earth.ingredients.{name}.bucket-mass"))?;
        Some(format!("{} {}", name.replace('-', " "), row.shown(answers.system)))
    });
    format!("A full bucket weighs: {}. Half-fill it or lift it by two.", masses.collect::<Vec<_>>().join(", "))
}

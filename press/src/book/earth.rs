//! Lifts, recipes and the cards that hang beside the tarp.

use engine::answers::Answers;
use engine::row::{Row, shown};
use engine::units::Ratio;
use serde_json::{Value, json};

use super::rows::said;
use crate::spoken::{marked, spoken};
use crate::{drawing, samples};

/// Width of a recipe's drawing on a card, in millimetres.
pub(super) const CARD: f64 = 148.0;

/// Figures of a batch: noun and words.
const FIGURES: [(&str, &str); 18] = [
    ("dry-mass", "dry earth in a batch"),
    ("loose-volume", "loose on the tarp"),
    ("yield", "placed for each loose volume"),
    ("placed-volume", "placed"),
    ("straw", "straw, of dry mass"),
    ("straw-mass", "straw"),
    ("water", "moisture on the tarp, of dry mass"),
    ("pile-water", "water in the piles"),
    ("water-volume", "water to add"),
    ("wet-mass", "a batch weighs, wet"),
    ("density", "dry density, placed"),
    ("wet-density", "wet density, placed"),
    ("clay", "clay in the dry mix"),
    ("volume", "to mix in all"),
    ("batches", "batches in all"),
    ("whole-batches", "whole batches"),
    ("water-in-all", "water to add in all"),
    ("bales", "bales of straw in all"),
];

const COLUMNS: [(&str, &str); 4] =
    [("buckets", "buckets"), ("settled", "if it did not bulk"), ("mass", "dry mass"), ("share", "by dry mass")];

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
    let name = spoken(recipe);
    json!({
        "name": recipe,
        "title": format!("One tarp of {name}"),
        "width": CARD,
        "words": words(answers, &stem),
        "steps": steps(answers, &stem, &name),
        "heavy": heavy(answers, &ingredients(answers, recipe)),
    })
}

/// Names of what goes into a recipe.
fn ingredients<'a>(answers: &'a Answers, recipe: &str) -> Vec<&'a str> {
    let stem = format!("earth.recipes.{recipe}.buckets.");
    answers.rows.iter().filter_map(|row| row.path.strip_prefix(&stem)).collect()
}

/// What stands behind the buckets: one line an ingredient of each recipe, and one column a recipe.
pub(super) fn behind(answers: &Answers) -> Value {
    let find = |recipe: &str, noun: &str| answers.rows.find(&format!("earth.recipes.{recipe}.{noun}"));
    let said = |row: Option<&Row>| row.map_or("–".to_owned(), |row| marked(answers, row));
    let mut parts: Vec<Vec<String>> = Vec::new();
    for recipe in &answers.recipes {
        for name in ingredients(answers, recipe) {
            let cells = COLUMNS.map(|(noun, _)| said(find(recipe, &format!("{noun}.{name}"))));
            let title = format!("{}: {}", spoken(recipe), spoken(name));
            parts.push(std::iter::once(title).chain(cells).collect());
        }
    }
    let figures = FIGURES.map(|(noun, words)| {
        let cells = answers.recipes.iter().map(|recipe| {
            let cob = || answers.rows.find("wall.cob.clay").filter(|_| find(recipe, "loaves").is_some());
            said(find(recipe, noun).or_else(|| if noun == "clay" { cob() } else { None }))
        });
        std::iter::once(words.to_owned()).chain(cells).collect::<Vec<_>>()
    });
    let names = answers.recipes.iter().map(|recipe| spoken(recipe));
    json!({
        "parts": {
            "header": std::iter::once("").chain(COLUMNS.map(|(_, title)| title)).collect::<Vec<_>>(),
            "rows": parts,
        },
        "figures": {
            "header": std::iter::once(String::new()).chain(names).collect::<Vec<_>>(),
            "rows": figures,
        },
    })
}

/// How a bucket is filled.
fn words(answers: &Answers, stem: &str) -> String {
    let said = |path: &str| said(answers, path).unwrap_or_default();
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
        Some(batches) => format!("{filled} About {} batches in all.", marked(answers, batches)),
        None => filled,
    }
}

/// What to do, in order; the amounts are rows, the rest is common practice.
fn steps(answers: &Answers, stem: &str, name: &str) -> Vec<String> {
    let find = |noun: &str| answers.rows.find(&format!("{stem}.{noun}"));
    let said = |noun: &str| find(noun).map(|row| marked(answers, row)).unwrap_or_default();
    let count = |noun: &str| find(noun).and_then(|row| row.quantity.si());
    let spoken = |noun: &str| count(noun).map(drawing::bucket_number);
    let recipe = stem.rsplit('.').next().unwrap_or_default();
    let mut steps: Vec<String> =
        samples::beforehand(answers, recipe).map(|words| format!("{words}.")).into_iter().collect();
    steps.push(
        "Look through soil and sand for glass, nails and roots. Tip the buckets on the tarp and mix them dry."
            .to_owned(),
    );
    let water = spoken("water-buckets").unwrap_or_default();
    let buckets = if count("water-buckets").is_some_and(|count| count < 1.125) { "bucket" } else { "buckets" };
    let is_trodden = find("loaves").is_some();
    let mixed = if is_trodden { "tread, turn the tarp" } else { "mix, let it stand" };
    steps.push(format!(
        "Water: {} ({water} {buckets}). Give two thirds, {mixed}, then give the rest bit by bit: the pile is never as damp \
         as it was last week.",
        said("water-volume")
    ));
    if let Some(armfuls) = spoken("armfuls") {
        steps.push(format!(
            "Straw: {armfuls} armfuls ({}, an armful {} as weighed), strewn while you {}, until none shows dry.",
            said("straw-mass"),
            self::said(answers, "earth.straw.armful").unwrap_or_default(),
            if is_trodden { "tread" } else { "mix" }
        ));
    }
    match find("loaves") {
        Some(loaves) => steps.push(format!(
            "It is ready when a ball dropped from chest height stays a ball with few cracks. Shape {} loaves of {} each.",
            marked(answers, loaves),
            said("loaf-mass")
        )),
        None => steps.push(format!("It is ready when {name} of the last batch and of this one feel alike: keep a handful in a lidded pot.")),
    }
    let strip = logged_strip(answers, stem).unwrap_or_default();
    steps.push(format!(
        "Stop and ask when a ball flies apart or lies flat, water stands on the tarp, straw smells of mould, a clod or a root shows{strip}: \
         find what changed before the next batch. Sand damper? Another pile?"
    ));
    steps
}

/// Between which moistures a handful lies, where ten batches of a recipe are logged.
fn logged_strip(answers: &Answers, stem: &str) -> Option<String> {
    let of_it = format!("{stem}.yield");
    let row = answers
        .rows
        .matching("tests.batches.*.yield.apart")
        .find(|row| row.reason.inputs.iter().any(|own| own.path == of_it))?;
    let log = row.path.strip_suffix("yield.apart")?;
    let [mean, reach] = ["mean", "reach"].map(|noun| answers.rows.value::<Ratio>(&format!("{log}moisture.{noun}")));
    let (mean, reach) = (mean?, reach?);
    let [least, most] = [mean - reach, mean + reach].map(|end| shown(end.into(), answers.system));
    Some(format!(", or a dried handful held less than {least} of water or more than {most}"))
}

/// What full buckets weigh: a hand should know before it lifts.
fn heavy(answers: &Answers, names: &[&str]) -> String {
    let masses = names.iter().filter_map(|name| {
        let row = answers.rows.find(&format!("earth.ingredients.{name}.bucket-mass"))?;
        Some(format!("{} {}", spoken(name), marked(answers, row)))
    });
    format!("A full bucket weighs: {}. Half-fill it or lift it by two.", masses.collect::<Vec<_>>().join(", "))
}

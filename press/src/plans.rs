//! Plans of mixes in words: what to make in which order, of what, by when, and the pieces of each; page and book say the same.

use engine::answers::Answers;

use crate::bricks::Columns;
use crate::mixes::names;
use crate::spoken::{marked, spoken};

/// The words of a plan.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct PlanWords {
    /// What it is.
    pub title: String,
    /// How many, by when, what to set aside: words and value.
    pub facts: Vec<[String; 2]>,
    /// Each mix in the order in which they are made.
    pub mixes: Columns,
    /// Names of the bricks, in that order.
    pub bricks: Vec<String>,
    /// Dry bricks of each mix that have no line of their own.
    pub more: usize,
    /// Whether bars, and whether panels are made.
    pub has: [bool; 2],
    /// What is not known, in sentences.
    pub open: Vec<String>,
}

const FACTS: [(&str, &str); 14] = [
    ("distinct", "Distinct mixes"),
    ("runs", "Mixes to make"),
    ("placed", "A trial mix gives, placed"),
    ("moulded", "The pieces of one take"),
    ("bricks", "Dry bricks of each"),
    ("all.bricks", "Dry bricks in all"),
    ("all.damp", "Damp bricks in all"),
    ("all.bars", "Bars in all"),
    ("all.panels", "Panels in all"),
    ("first", "The first is made on"),
    ("last", "The last is made on"),
    ("dry", "Days to dry, a guess"),
    ("wanted-by", "Tested on"),
    ("start", "Order drawn from"),
];

/// Letters of bricks.
const NAMES: &str = "abcdefghijklmnopqrstuvwxyz";
/// No more bricks of one mix have a line of their own.
const MOST: usize = 12;

/// The words of all plans.
#[must_use]
pub fn plans(answers: &Answers) -> Vec<PlanWords> {
    names(answers, "tests.mixes.*.plan.runs", 2).into_iter().map(|name| words(answers, &name)).collect()
}

fn words(answers: &Answers, name: &str) -> PlanWords {
    let path = |noun: &str| format!("tests.mixes.{name}.plan.{noun}");
    let find = |noun: &str| answers.rows.find(&path(noun));
    let said = |noun: &str| find(noun).map(|row| marked(answers, row));
    let count = |noun: &str| find(noun).and_then(|row| row.quantity.si()).unwrap_or(0.0) as usize;
    let ingredients = names(answers, &path("run.1.*"), 6);
    let runs = count("runs");
    let mixes = (1..=runs).map(|run| {
        let cells = ingredients.iter().map(|own| said(&format!("run.{run}.{own}")).unwrap_or_default());
        std::iter::once(run.to_string()).chain(cells).collect()
    });
    let wishes = names(answers, &format!("tests.mixes.{name}.wishes.*.value"), 4).into_iter().filter_map(|wish| {
        let of = |noun: &str| answers.rows.find(&format!("tests.mixes.{name}.wishes.{wish}.{noun}"));
        let useless =
            ["below", "above"].into_iter().filter_map(|side| Some(format!("{side} {}", marked(answers, of(side)?))));
        let useless = useless.collect::<Vec<_>>().join(" and ");
        Some([format!("Wanted of {}", spoken(&wish)), format!("{}; useless {useless}", marked(answers, of("value")?))])
    });
    let facts = FACTS.iter().filter_map(|(noun, words)| Some([(*words).to_owned(), said(noun)?]));
    let aside = ingredients.iter().filter_map(|own| {
        let [buckets, volume] = ["buckets", "volume"].map(|noun| said(&format!("aside.{own}.{noun}")));
        let mass = said(&format!("aside.{own}.mass")).map(|mass| format!(", {mass}")).unwrap_or_default();
        Some([format!("Set aside of {}", spoken(own)), format!("{} buckets: {}{mass}", buckets?, volume?)])
    });
    let damp = count("all.damp").checked_div(runs).unwrap_or(0);
    let dry = count("bricks").min(MOST);
    let bricks = (1..=runs).flat_map(|run| {
        let letters = NAMES.chars().take(dry + damp).enumerate();
        letters.map(move |(place, letter)| format!("{run} {letter}{}", if place < dry { "" } else { ", damp" }))
    });
    let header = std::iter::once("mix".to_owned()).chain(ingredients.iter().map(|own| spoken(own)));
    PlanWords {
        title: format!("Mixes to make, {}", spoken(name)),
        facts: facts.chain(wishes).chain(aside).collect(),
        mixes: Columns { header: header.collect(), rows: mixes.collect() },
        bricks: bricks.collect(),
        more: count("bricks").saturating_sub(MOST),
        has: ["all.bars", "all.panels"].map(|noun| find(noun).is_some()),
        open: answers.rows.unknown(&path("*")).map(|(_, title)| format!("Not known: {title}.")).collect(),
    }
}

//! Logs of batches in words: a line for each, the strip of the first ten, which later ones lie outside; page and book say the same.

use engine::answers::Answers;

use crate::bricks::Columns;
use crate::mixes::names;
use crate::spoken::{capital, marked, spoken};

/// The words of a log of batches.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct BatchWords {
    /// Its name.
    pub name: String,
    /// What it is.
    pub title: String,
    /// What was found of each.
    pub each: Columns,
    /// What they say together: words and value.
    pub together: Vec<[String; 2]>,
    /// What is not known without more of them, in sentences.
    pub open: Vec<String>,
}

const EACH: [(&str, &str); 8] = [
    ("placed", "placed"),
    ("yield", "yield"),
    ("handful.wet", "handful"),
    ("handful.dry", "dried"),
    ("moisture", "moisture"),
    ("people", "people"),
    ("time", "time"),
    ("person-time", "people's time"),
];

const TOGETHER: [(&str, &str); 4] = [
    ("yield.mean", "Mean yield of the first ones, ten at most"),
    ("yield.reach", "How far from it a later yield may lie"),
    ("moisture.mean", "Mean moisture of the first ones, ten at most, of dry mass"),
    ("moisture.reach", "How far from it a later moisture may lie"),
];

/// The words of all logs of batches.
#[must_use]
pub fn logs(answers: &Answers) -> Vec<BatchWords> {
    logged(answers).into_iter().map(|name| words(answers, name)).collect()
}

/// The names of all logs of batches.
#[must_use]
pub fn logged(answers: &Answers) -> Vec<String> {
    let patterns = ["tests.batches.*.each.*.yield", "tests.batches.*.each.*.moisture", "tests.batches.*.each.*.time"];
    let mut all: Vec<String> = patterns.iter().flat_map(|pattern| names(answers, pattern, 2)).collect();
    all.sort();
    all.dedup();
    all
}

/// What a log is called.
pub(crate) fn title(name: &str) -> String {
    format!("Batches, {}", spoken(name))
}

fn words(answers: &Answers, name: String) -> BatchWords {
    let path = |noun: &str| format!("tests.batches.{name}.{noun}");
    let find = |noun: &str| answers.rows.find(&path(noun));
    let cell = |noun: &str| find(noun).map_or("–".to_owned(), |row| marked(answers, row));
    let stem = path("each.");
    let mut batches: Vec<String> = Vec::new();
    for named in answers.rows.iter().filter_map(|row| row.path.strip_prefix(&stem)?.split('.').next()) {
        if !batches.iter().any(|batch| batch == named) {
            batches.push(named.to_owned());
        }
    }
    let used: Vec<(&str, &str)> = EACH
        .into_iter()
        .filter(|(noun, _)| batches.iter().any(|batch| find(&format!("each.{batch}.{noun}")).is_some()))
        .collect();
    let rows = batches.iter().map(|batch| {
        let cells = used.iter().map(|(noun, _)| cell(&format!("each.{batch}.{noun}")));
        std::iter::once(spoken(batch)).chain(cells).collect()
    });
    let header = std::iter::once("batch").chain(used.iter().map(|(_, words)| *words)).map(str::to_owned);
    let said = TOGETHER.iter().filter_map(|(noun, words)| Some([(*words).to_owned(), marked(answers, find(noun)?)]));
    let by_title = ["time-for-volume", "yield.apart", "changed"].into_iter().filter_map(find);
    let by_title = by_title.map(|row| [capital(&row.title), marked(answers, row)]);
    BatchWords {
        title: title(&name),
        each: Columns { header: header.collect(), rows: rows.collect() },
        together: said.chain(by_title).collect(),
        open: answers
            .rows
            .unknown(&path("*.*"))
            .chain(answers.rows.unknown(&path("*")))
            .map(|(_, title)| format!("Not known: {title}."))
            .collect(),
        name,
    }
}

//! Bars and washed samples as tables, and what a mix takes beforehand in words; page and book say the same.

use engine::answers::Answers;

use crate::bricks::Columns;
use crate::mixes::names;
use crate::spoken::{marked, spoken};

const BARS: [(&str, &str); 5] = [
    ("wet", "wet"),
    ("dry", "dry"),
    ("shrinkage", "shrinks by"),
    ("shrinkage-low", "at least"),
    ("shrinkage-high", "at most"),
];
const WASHED: [(&str, &str); 4] = [("pit", "pit"), ("time", "in"), ("in-an-hour", "in an hour"), ("index", "index")];

/// Every bar with what it shrank by; no lines where none was measured.
#[must_use]
pub fn bars(answers: &Answers) -> Columns {
    columns(answers, ("tests.bars", "bar"), ("wet", &BARS))
}

/// Every sample that was washed; no lines where none was.
#[must_use]
pub fn washed(answers: &Answers) -> Columns {
    columns(answers, ("tests.erosion", "sample"), ("pit", &WASHED))
}

/// What is not known of bars and washed samples, and where what is written is not what bars say, in sentences.
#[must_use]
pub fn open(answers: &Answers) -> Vec<String> {
    let unknown = answers.rows.unknown("tests.erosion.*.index").map(|(_, title)| format!("Not known: {title}."));
    let apart = answers.rows.matching("earth.recipes.*.shrinkage-over-bars");
    unknown.chain(apart.map(|row| format!("{}: {}.", row.title, row.shown(answers.system)))).collect()
}

/// One line a test: its name, and one column a noun.
fn columns(answers: &Answers, (stem, first): (&str, &str), (always, nouns): (&str, &[(&str, &str)])) -> Columns {
    let tests = names(answers, &format!("{stem}.*.{always}"), 2);
    let rows = tests.iter().map(|name| {
        let find = |noun: &str| answers.rows.find(&format!("{stem}.{name}.{noun}"));
        let cells = nouns.iter().map(|(noun, _)| find(noun).map_or_else(|| "–".to_owned(), |row| marked(answers, row)));
        std::iter::once(spoken(name)).chain(cells).collect()
    });
    let header = std::iter::once(first).chain(nouns.iter().map(|(_, words)| *words)).map(str::to_owned);
    Columns { header: header.collect(), rows: rows.collect() }
}

/// What is begun before a mix is mixed, and by when; none where nothing takes time beforehand.
#[must_use]
pub fn beforehand(answers: &Answers, recipe: &str) -> Option<String> {
    let stem = format!("earth.recipes.{recipe}");
    let steps: Vec<String> = answers
        .rows
        .find(&format!("{stem}.lead-time"))?
        .reason
        .inputs
        .iter()
        .filter_map(|step| {
            let row = answers.rows.find(&step.path)?;
            Some(format!("{} {}", row.path.rsplit('.').next()?, row.shown(answers.system)))
        })
        .collect();
    let said = |noun: &str| answers.rows.find(&format!("{stem}.{noun}")).map(|row| row.shown(answers.system));
    let all = said("lead-time").filter(|_| steps.len() > 1).map_or_else(String::new, |all| format!(", {all} in all"));
    let steps = format!("{}{all}", steps.join(", then "));
    let mixed = said("lead.start").map_or_else(String::new, |day| format!(", to be mixed from {day} on"));
    Some(match said("begin") {
        Some(day) => format!("Begin by {day}: {steps}{mixed}"),
        None => format!("Begin beforehand: {steps}"),
    })
}

//! Bars and washed samples as tables, and what a mix takes beforehand in words; page and book say the same.

use engine::answers::Answers;
use engine::build::Washed;

use crate::bricks::Columns;
use crate::mixes::cell;
use crate::spoken::spoken;

const BARS: [(&str, &str); 5] = [
    ("wet", "wet"),
    ("dry", "dry"),
    ("shrinkage", "shrinks by"),
    ("shrinkage-low", "at least"),
    ("shrinkage-high", "at most"),
];
const WASHED: [(&str, &str); 4] = [("pit", "pit"), ("time", "in"), ("in-an-hour", "in an hour"), ("index", "index")];

/// Every bar with its mix and what it shrank by; no lines where none was measured.
#[must_use]
pub fn bars(answers: &Answers) -> Columns {
    let tests = answers.bars.iter().map(|bar| (vec![spoken(&bar.name), spoken(&bar.of)], bar.path("")));
    columns(answers, &["bar", "of"], &BARS, tests)
}

/// Every sample that was washed, with its mix, what it was and what washed it; no lines where none was.
#[must_use]
pub fn washed(answers: &Answers) -> Columns {
    let tests = answers.erosion.iter().map(|test| {
        let on = match test.on {
            None => "–",
            Some(Washed::Brick) => "a brick",
            Some(Washed::Panel) => "a panel",
        };
        let words = [spoken(&test.name), spoken(&test.of), on.to_owned(), test.kind.word().to_owned()];
        (words.to_vec(), test.path(""))
    });
    columns(answers, &["sample", "of", "on", "test"], &WASHED, tests)
}

/// What is not known of bars and washed samples, and where what is written is not what bars say, in sentences.
#[must_use]
pub fn open(answers: &Answers) -> Vec<String> {
    let unknown = answers.rows.unknown("tests.erosion.*.index").map(|(_, title)| format!("Not known: {title}."));
    let apart = answers.rows.matching("earth.recipes.*.shrinkage-over-bars");
    unknown.chain(apart.map(|row| format!("{}: {}.", row.title, row.shown(answers.system)))).collect()
}

/// One line a test: what it is, and one column a noun of the rows whose paths begin as its stem.
fn columns(
    answers: &Answers,
    what: &[&str],
    nouns: &[(&str, &str)],
    tests: impl Iterator<Item = (Vec<String>, String)>,
) -> Columns {
    let rows = tests.map(|(words, stem)| {
        let cells = nouns.iter().map(|(noun, _)| cell(answers, answers.rows.find(&format!("{stem}{noun}"))));
        words.into_iter().chain(cells).collect()
    });
    let rows = rows.collect();
    let header = what.iter().copied().chain(nouns.iter().map(|(_, words)| *words)).map(str::to_owned);
    Columns { header: header.collect(), rows }
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

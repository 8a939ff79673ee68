//! Test bricks in words: a line for each, what they say together, what the rules want; page, book and pictures say the same.

use engine::answers::Answers;
use engine::build::BrickTest;
use engine::check::Check;
use engine::pictures::{BrickLot, TestedBrick};

use crate::spoken::{marked, spoken};

/// The words of a lot.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct LotWords {
    /// Their name.
    pub name: String,
    /// What they are.
    pub title: String,
    /// What was measured of each.
    pub measured: Columns,
    /// What follows of each.
    pub bore: Columns,
    /// What they say together: words and value.
    pub together: Vec<[String; 2]>,
    /// What is not known without more of them, in sentences.
    pub open: Vec<String>,
}

/// A table: one line a brick.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Columns {
    /// The words over the columns.
    pub header: Vec<String>,
    /// The lines.
    pub rows: Vec<Vec<String>>,
}

const MEASURED: [(&str, &str); 8] = [
    ("hung", "hung on the lever"),
    ("load", "load"),
    ("length", "length"),
    ("width", "width"),
    ("height", "height"),
    ("span", "roller to roller"),
    ("mass.wet", "weighed"),
    ("mass.dry", "weighed dry"),
];

const BORE: [(&str, &str); 5] = [
    ("moisture", "moisture"),
    ("stress", "stress"),
    ("slenderness", "height over side"),
    ("shape", "for its shape"),
    ("strength", "strength"),
];

const TOGETHER: [(&str, &str); 14] = [
    ("day", "Tested on"),
    ("age", "Age"),
    ("dry", "Dry bricks"),
    ("still-to-make", "Still to make, for the sample of the cob appendix"),
    ("mean", "Mean of the dry ones"),
    ("deviation", "Scatter, one deviation"),
    ("factor", "Deviations taken off the mean"),
    ("lower-bound", "By normal tolerance: 95 of 100 exceed it, three times of four"),
    ("least", "By the rule of the cob appendix: the least of them"),
    ("wanted", "Bricks like these by which what is wanted of the least could be relied on"),
    ("driest", "Moisture of the driest"),
    ("dampest", "Moisture of the dampest"),
    ("fall", "What the logarithm of the strength loses for a moisture of one"),
    ("damp-strength", "Strength as damp as the dampest"),
];

/// The words of every lot of test bricks.
#[must_use]
pub fn lots(answers: &Answers) -> Vec<LotWords> {
    answers.bricks.iter().map(|lot| words(answers, lot)).collect()
}

fn words(answers: &Answers, lot: &BrickLot) -> LotWords {
    let proof = if lot.is_proof { ", offered as proof" } else { "" };
    let open = lot.path("*");
    LotWords {
        name: lot.name.clone(),
        title: format!("{}{proof}", title(lot)),
        measured: columns(answers, lot, &MEASURED, false),
        bore: columns(answers, lot, &BORE, true),
        together: together(answers, lot),
        open: answers.rows.unknown(&open).map(|(_, title)| format!("Not known: {title}.")).collect(),
    }
}

/// What a lot is, without what it is for.
pub(crate) fn title(lot: &BrickLot) -> String {
    let test = match lot.test {
        BrickTest::Crushed => "crushed",
        BrickTest::Broken => "broken over rollers",
    };
    format!("Bricks {} of {}, {test}", spoken(&lot.name), spoken(&lot.of))
}

/// What the rules of the house want of the cob that a lot is of, each with the noun of the lot's row that is held against it.
pub(crate) fn wanted<'a>(answers: &'a Answers, lot: &BrickLot) -> Vec<(&'static str, &'a Check)> {
    let stem = match lot.test {
        BrickTest::Crushed => "tests.cob.compression",
        BrickTest::Broken => "tests.cob.rupture",
    };
    let noun = |check: &Check| match check.rule.limit.as_ref()?.measures.strip_prefix(stem)? {
        "" => Some("least"),
        "-mean" => Some("mean"),
        _ => None,
    };
    let checks = answers.checks.iter().filter(|_| lot.is_of_wall);
    checks.filter_map(|check| Some((noun(check)?, check))).collect()
}

/// One line a brick, one column a noun that any of them has of its own or by a size of all.
fn columns(answers: &Answers, lot: &BrickLot, nouns: &[(&str, &str)], with_state: bool) -> Columns {
    let row = |brick: &TestedBrick, noun: &str| {
        let own = answers.rows.find(&lot.path_of(brick, noun));
        own.or_else(|| answers.rows.find(&lot.path(noun)).filter(|_| noun != "strength"))
    };
    let is_used = |noun: &str| lot.bricks.iter().any(|brick| row(brick, noun).is_some());
    let used: Vec<&(&str, &str)> = nouns.iter().filter(|(noun, _)| is_used(noun)).collect();
    let rows = lot.bricks.iter().map(|brick| {
        let cells = used.iter().map(|(noun, _)| row(brick, noun).map_or("–".to_owned(), |row| marked(answers, row)));
        let state = with_state.then(|| state(brick).to_owned());
        std::iter::once(spoken(&brick.name)).chain(cells).chain(state).collect()
    });
    let rows = rows.collect();
    let last = with_state.then_some("tested");
    let header = std::iter::once("brick").chain(used.iter().map(|(_, title)| *title)).chain(last);
    Columns { header: header.map(str::to_owned).collect(), rows }
}

fn state(brick: &TestedBrick) -> &'static str {
    match (brick.is_damp, brick.is_strange) {
        (true, _) => "damp",
        (false, true) => "dry, strange",
        (false, false) => "dry",
    }
}

fn together(answers: &Answers, lot: &BrickLot) -> Vec<[String; 2]> {
    let said = |noun: &str| answers.rows.find(&lot.path(noun)).map(|row| marked(answers, row));
    let mut lines: Vec<[String; 2]> =
        TOGETHER.iter().filter_map(|(noun, words)| Some([(*words).to_owned(), said(noun)?])).collect();
    if let Some(low) = said("damp-strength-low") {
        lines.push(["What 19 of 20 more as damp as that exceed".to_owned(), low]);
    }
    if let Some(brick) = lot.bricks.iter().find(|brick| brick.is_strange) {
        let words = "Strangely far from the others, counted all the same: look at its pieces";
        lines.push([words.to_owned(), format!("brick {}", spoken(&brick.name))]);
    }
    let wanted = wanted(answers, lot);
    if wanted.is_empty() && lot.is_of_wall {
        lines.push(["Wanted".to_owned(), "nothing: no rulebook of this house asks for it".to_owned()]);
    }
    for (noun, check) in wanted {
        let Some(limit) = &check.rule.limit else { continue };
        let whose = if noun == "least" { "the least brick" } else { "the mean" };
        let borrowed = if check.rule.borrowed.is_some() { ", borrowed" } else { "" };
        let state = if lot.is_proof { format!(": {}", check.state.word()) } else { String::new() };
        lines.push([
            format!("Wanted of {whose}, {}{borrowed}", check.rule.citation.place),
            format!("{}{state}", limit.in_words(answers.system)),
        ]);
    }
    lines
}

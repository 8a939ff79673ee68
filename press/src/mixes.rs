//! Tried mixes in words: what each was made of, what was found, what the surfaces say, which recipe is chosen; page and book say the same.

use engine::answers::Answers;
use engine::row::Row;

use crate::bricks::Columns;
use crate::spoken::{capital, marked, spoken};

/// The words of mixes that were tried for a recipe.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct MixWords {
    /// Their name.
    pub name: String,
    /// What they are.
    pub title: String,
    /// What each was made of and what was found of it.
    pub tried: Columns,
    /// What is wanted, what the surface through what was found says, and how far it may be off.
    pub wishes: Columns,
    /// What is chosen: words and value.
    pub together: Vec<[String; 2]>,
    /// What is not known without more of them, in sentences.
    pub open: Vec<String>,
}

/// What is said of each wish, by the noun of its row.
const WISH: [(&str, &str); 11] = [
    ("wishes.{}.value", "wanted"),
    ("wishes.{}.below", "useless below"),
    ("wishes.{}.above", "useless above"),
    ("fit.{}.distinct", "distinct mixes that were measured"),
    ("fit.{}.terms", "terms of the surface"),
    ("fit.{}.scatter", "scatter about the surface"),
    ("fit.{}.left-out", "what a mix is missed by that is left out"),
    ("fit.{}.explained", "share explained, each left out"),
    ("fit.{}.lack", "chance of such misses, were it bent enough"),
    ("best.{}.expected", "expected of the chosen recipe"),
    ("best.{}.within", "one more lies within, 19 times of 20"),
];

/// The words of all tried mixes.
#[must_use]
pub fn series(answers: &Answers) -> Vec<MixWords> {
    names(answers, "tests.mixes.*.tried.*.buckets.*", 2).into_iter().map(|name| words(answers, &name)).collect()
}

/// The names of the mixes that choose a recipe and have a picture: those of two or three ingredients.
#[must_use]
pub fn drawn(answers: &Answers) -> Vec<String> {
    let mut names = names(answers, "tests.mixes.*.overall", 2);
    names.retain(|name| answers.rows.matching(&format!("tests.mixes.{name}.limits.*.low")).count() <= 3);
    names
}

/// What mixes are called.
pub(crate) fn title(name: &str) -> String {
    format!("Tried mixes, {}", spoken(name))
}

/// The names that stand at a place of the paths of a pattern, each once.
pub(crate) fn names(answers: &Answers, pattern: &str, place: usize) -> Vec<String> {
    let mut names: Vec<String> = Vec::new();
    for name in answers.rows.matching(pattern).filter_map(|row| row.path.split('.').nth(place)) {
        if !names.iter().any(|own| own == name) {
            names.push(name.to_owned());
        }
    }
    names
}

fn words(answers: &Answers, name: &str) -> MixWords {
    let path = |noun: &str| format!("tests.mixes.{name}.{noun}");
    let said = |noun: &str| answers.rows.find(&path(noun));
    let ingredients = names(answers, &path("limits.*.low"), 4);
    let wishes = names(answers, &path("wishes.*.value"), 4);
    let tried = names(answers, &path("tried.*.buckets.*"), 4).into_iter().map(|mix| {
        let buckets = ingredients.iter().map(|own| format!("tried.{mix}.buckets.{own}"));
        let found = wishes.iter().map(|own| format!("tried.{mix}.found.{own}"));
        let cells = buckets.chain(found).map(|noun| cell(answers, said(&noun)));
        std::iter::once(spoken(&mix)).chain(cells).collect()
    });
    let header = std::iter::once("mix".to_owned())
        .chain(ingredients.iter().map(|own| format!("{}, buckets", spoken(own))))
        .chain(wishes.iter().map(|own| spoken(own)));
    MixWords {
        name: name.to_owned(),
        title: title(name),
        tried: Columns { header: header.collect(), rows: tried.collect() },
        wishes: of_wishes(answers, name, &wishes),
        together: together(answers, name, &ingredients),
        open: answers
            .rows
            .unknown(&path("fit.*.*"))
            .chain(answers.rows.unknown(&path("*")))
            .map(|(_, title)| format!("Not known: {title}."))
            .collect(),
    }
}

/// What a row says in a table; a dash where there is none.
pub(crate) fn cell(answers: &Answers, row: Option<&Row>) -> String {
    row.map_or("–".to_owned(), |row| marked(answers, row))
}

/// One line a noun, one column a wish.
fn of_wishes(answers: &Answers, name: &str, wishes: &[String]) -> Columns {
    let row = |noun: &str, wish: &str| answers.rows.find(&format!("tests.mixes.{name}.{}", noun.replace("{}", wish)));
    let used = WISH.iter().filter(|(noun, _)| wishes.iter().any(|wish| row(noun, wish).is_some()));
    let rows = used.map(|(noun, title)| {
        let cells = wishes.iter().map(|wish| cell(answers, row(noun, wish)));
        std::iter::once((*title).to_owned()).chain(cells).collect()
    });
    let rows = rows.collect();
    let header = std::iter::once("what".to_owned()).chain(wishes.iter().map(|wish| spoken(wish)));
    Columns { header: header.collect(), rows }
}

fn together(answers: &Answers, name: &str, ingredients: &[String]) -> Vec<[String; 2]> {
    let said = |noun: &str| answers.rows.find(&format!("tests.mixes.{name}.{noun}"));
    let mut lines = Vec::new();
    for ingredient in ingredients {
        if let Some(row) = said(&format!("best.buckets.{ingredient}")) {
            let words = format!("Chosen: buckets of {}", spoken(ingredient));
            lines.push([words, marked(answers, row)]);
        }
    }
    let of_fits = answers.rows.iter().filter(|row| {
        row.path.strip_prefix(&format!("tests.mixes.{name}.fit.")).is_some_and(|rest| rest.ends_with(".terms"))
    });
    let rows = ["overall", "off", "nearly", "next"].into_iter().filter_map(said);
    for row in rows.chain(of_fits) {
        lines.push([capital(&row.title), marked(answers, row)]);
    }
    for check in answers.checks.iter().filter(|check| check.path == said("off").map(|row| row.path.clone())) {
        lines.push(["The recipe on the card is the chosen one".to_owned(), check.state.word().to_owned()]);
    }
    lines
}

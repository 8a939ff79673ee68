//! Test panels in words: the scale, what judges scored, how far they differ, the mix that is chosen; page and book say the same.

use engine::answers::Answers;
use engine::earth::panel::{ASPECTS, scale, worst};

use crate::bricks::Columns;
use crate::mixes::{cell, names};
use crate::spoken::{capital, marked, spoken};

/// The words of the panels of a face.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct PanelWords {
    /// Their name.
    pub name: String,
    /// What they are.
    pub title: String,
    /// What each was made of and what was scored.
    pub scored: Columns,
    /// What they choose: words and value.
    pub together: Vec<[String; 2]>,
    /// What is not known without more of them, in sentences.
    pub open: Vec<String>,
}

/// The words of all test panels.
#[must_use]
pub fn series(answers: &Answers) -> Vec<PanelWords> {
    names(answers, "tests.panels.*.panels", 2).into_iter().map(|name| words(answers, &name)).collect()
}

/// The names of the panels that have a picture: those whose cracks were scored.
#[must_use]
pub fn drawn(answers: &Answers) -> Vec<String> {
    names(answers, "tests.panels.*.each.*.crack.*", 2)
}

/// The scale on which they are scored: one line a score.
#[must_use]
pub fn steps() -> Columns {
    let said = |aspect: &str, score: usize| {
        let step = scale().iter().find(|step| step.aspect == aspect && step.score == score);
        step.map_or_else(String::new, |step| step.words.clone())
    };
    let rows = (0..=worst()).map(|score| {
        std::iter::once(score.to_string()).chain(ASPECTS.map(|aspect| said(aspect, score))).collect::<Vec<_>>()
    });
    let header = ["score", "crack, by the widest", "dusting, by a dark cloth", "adhesion, by knock and scrape"];
    Columns { header: header.map(str::to_owned).to_vec(), rows: rows.collect() }
}

/// What panels are called.
pub(crate) fn title(name: &str) -> String {
    format!("Test panels, {}", spoken(name))
}

fn words(answers: &Answers, name: &str) -> PanelWords {
    let path = |noun: &str| format!("tests.panels.{name}.{noun}");
    let ingredients = names(answers, &path("each.*.buckets.*"), 6);
    PanelWords {
        name: name.to_owned(),
        title: title(name),
        scored: scored(answers, name, &ingredients),
        together: together(answers, name, &ingredients),
        open: ["*", "fit.*.*", "best.*.*"]
            .into_iter()
            .flat_map(|nouns| answers.rows.unknown(&path(nouns)).map(|(_, title)| title.to_owned()).collect::<Vec<_>>())
            .map(|title| format!("Not known: {title}."))
            .collect(),
    }
}

/// One line a panel; scores of one aspect in the order of its judges.
fn scored(answers: &Answers, name: &str, ingredients: &[String]) -> Columns {
    let path = |noun: &str| format!("tests.panels.{name}.{noun}");
    let row = |noun: String| answers.rows.find(&path(&noun));
    let scored = ASPECTS.map(|aspect| (aspect, names(answers, &path(&format!("each.*.{aspect}.*")), 6)));
    let scored: Vec<&(&str, Vec<String>)> = scored.iter().filter(|(_, judges)| !judges.is_empty()).collect();
    let rows = names(answers, &path("each.*.buckets.*"), 4).into_iter().map(|panel| {
        let buckets = ingredients.iter().map(|own| cell(answers, row(format!("each.{panel}.buckets.{own}"))));
        let mut is_rejected = false;
        let scores: Vec<String> = scored
            .iter()
            .map(|(aspect, judges)| {
                let own = judges.iter().map(|judge| {
                    let score = row(format!("each.{panel}.{aspect}.{judge}"));
                    is_rejected |= score.and_then(|row| row.quantity.si()).is_some_and(|own| own >= worst() as f64);
                    cell(answers, score)
                });
                own.collect::<Vec<_>>().join(" · ")
            })
            .collect();
        let rejected = if is_rejected { ", rejected" } else { "" };
        std::iter::once(format!("{}{rejected}", spoken(&panel))).chain(buckets).chain(scores).collect()
    });
    let rows = rows.collect();
    let header = std::iter::once("panel".to_owned())
        .chain(ingredients.iter().map(|own| format!("{}, buckets", spoken(own))))
        .chain(scored.iter().map(|(aspect, judges)| format!("{aspect} ({})", judges.join(" · "))));
    Columns { header: header.collect(), rows }
}

fn together(answers: &Answers, name: &str, ingredients: &[String]) -> Vec<[String; 2]> {
    let said = |noun: &str| answers.rows.find(&format!("tests.panels.{name}.{noun}"));
    let mut lines = Vec::new();
    let chosen = ingredients
        .iter()
        .filter_map(|own| Some(format!("{} {}", marked(answers, said(&format!("best.buckets.{own}"))?), spoken(own))));
    let chosen: Vec<String> = chosen.collect();
    if !chosen.is_empty() {
        lines.push(["Chosen, in buckets".to_owned(), chosen.join(" : ")]);
    }
    for aspect in ASPECTS {
        let pair = ["chance", "surely"].map(|noun| said(&format!("best.{aspect}.{noun}")));
        if let [Some(chance), Some(sure)] = pair {
            let value = format!("{}, surely {}", marked(answers, chance), marked(answers, sure));
            lines.push([format!("Chance that it scores 0 or 1 in {aspect}"), value]);
        }
    }
    for row in ["overall", "off", "nearly", "next", "rejected", "over"].into_iter().filter_map(said) {
        lines.push([capital(&row.title), marked(answers, row)]);
    }
    let by_aspect = |noun: &str| {
        let own =
            ASPECTS.map(|aspect| Some(format!("{aspect} {}", marked(answers, said(&format!("fit.{aspect}.{noun}"))?))));
        own.into_iter().flatten().collect::<Vec<_>>().join(", ")
    };
    let apart = by_aspect("apart");
    if !apart.is_empty() {
        lines.push(["Scores of one panel lie apart, in the mean".to_owned(), apart]);
    }
    for judge in names(answers, &format!("tests.panels.{name}.fit.*.severity.*"), 6) {
        let words = format!("Odds of a worse score by {judge}, over those by the first judge");
        lines.push([words, by_aspect(&format!("severity.{judge}"))]);
    }
    let check = answers
        .checks
        .iter()
        .find(|check| check.path.is_some() && check.path == said("off").map(|row| row.path.clone()));
    if let Some(check) = check {
        lines.push(["The recipe on the card is the chosen one".to_owned(), check.state.word().to_owned()]);
    }
    lines
}

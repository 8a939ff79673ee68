//! A house as the page shows it: its answers, and rows and checks in the page's own form.

use std::collections::BTreeMap;
use std::sync::{Arc, OnceLock};

use engine::answers::{Answers, Computed, Inputs, compute};
use engine::check::State;
use engine::pictures::Pictures;
use engine::problem::{self, Problems};
use engine::units::System;

use super::leaves;
use super::wire::{Check, Problem, Row};

/// The answers of a text that reads.
#[derive(Debug)]
pub struct Standing {
    /// All that the engine answers.
    pub answers: Answers,
    /// Its rows; those that are as they were share their words with the house before.
    pub rows: Arc<Vec<Arc<Row>>>,
    /// Its checks, the most urgent first.
    pub checks: Arc<Vec<Check>>,
    /// The text that was answered, and the units asked for.
    text: String,
    system: Option<System>,
    pictures: OnceLock<Pictures>,
}

impl Standing {
    /// Computes a text.
    ///
    /// # Errors
    /// Every problem of the text.
    pub fn of(text: &str, system: Option<System>) -> Result<Standing, Vec<Problem>> {
        Standing::after(None, text, system)
    }

    /// Computes a text that came from another: what stayed as it was is not put into words again.
    ///
    /// # Errors
    /// Every problem of the text.
    pub fn after(last: Option<&Standing>, text: &str, system: Option<System>) -> Result<Standing, Vec<Problem>> {
        let answers = computed(text, system)?.into_answers();
        let rows = Arc::new(rows(&answers, last));
        let checks = Arc::new(checks(&answers));
        Ok(Standing { answers, rows, checks, text: text.to_owned(), system, pictures: OnceLock::new() })
    }

    /// The text that was answered.
    #[must_use]
    pub fn text(&self) -> &str {
        &self.text
    }

    /// Pictures of the whole house, made when they are first asked for.
    pub fn pictures(&self) -> Option<&Pictures> {
        if self.pictures.get().is_none() {
            let made = computed(&self.text, self.system).ok()?.pictures();
            let _ = self.pictures.set(made);
        }
        self.pictures.get()
    }
}

/// A text, placed and computed, with handles that can be dragged.
///
/// # Errors
/// Every problem of the text.
pub fn computed(text: &str, system: Option<System>) -> Result<Computed, Vec<Problem>> {
    compute(&Inputs { build: text.as_bytes(), system }).map_err(|problems| problems_of(&problems))
}

/// Problems in the page's form.
pub fn problems_of(problems: &Problems) -> Vec<Problem> {
    problems.shown().0.iter().map(problem).collect()
}

/// A problem in the page's form.
pub fn problem(problem: &problem::Problem) -> Problem {
    Problem {
        path: problem.path.clone(),
        line: u32::try_from(problem.line).unwrap_or(u32::MAX),
        message: problem.message.clone(),
        hint: problem.hint.clone(),
    }
}

/// A problem of what was asked, at no place of the text.
pub fn refused(path: &str, message: impl Into<String>, hint: &str) -> Problem {
    Problem { path: path.to_owned(), line: 1, message: message.into(), hint: hint.to_owned() }
}

fn rows(answers: &Answers, last: Option<&Standing>) -> Vec<Arc<Row>> {
    let last = last.filter(|last| last.answers.system == answers.system);
    let mut before = last.into_iter().flat_map(|last| last.answers.rows.iter().zip(last.rows.iter()));
    let kept = |found: &engine::row::Row| match before.next() {
        Some((was, words)) if is_alike(was, found) => Arc::clone(words),
        _ => Arc::new(row(found, answers.system)),
    };
    answers.rows.iter().map(kept).collect()
}

/// Whether two rows are shown in the same words.
fn is_alike(one: &engine::row::Row, other: &engine::row::Row) -> bool {
    (one.quantity, one.origin, one.own) == (other.quantity, other.origin, other.own)
        && (&one.path, &one.title) == (&other.path, &other.title)
}

/// A row in the page's form.
pub fn row(row: &engine::row::Row, system: System) -> Row {
    Row {
        path: row.path.clone(),
        title: row.title.clone(),
        shown: row.shown(system),
        origin: row.origin_in_words(),
        assumed: row.is_assumed(),
    }
}

/// The checks in the page's form; each leaf has a first of every rule and state.
fn checks(answers: &Answers) -> Vec<Check> {
    let mut before: BTreeMap<&str, (&str, State)> = BTreeMap::new();
    let said = answers.checks.iter().map(|found| {
        let path = found.path.clone().unwrap_or_default();
        let leaf = leaves::of(&path);
        let kind = (found.rule.id.as_str(), found.state);
        let is_first = before.insert(leaf, kind) != Some(kind);
        check(found, path, leaf, is_first, answers.system)
    });
    said.collect()
}

fn check(check: &engine::check::Check, path: String, leaf: &str, first_of_rule: bool, system: System) -> Check {
    let (named, more) = check.leaning(first_of_rule);
    Check {
        state: check.state.word().to_owned(),
        title: check.subject.clone(),
        words: check.sentence(system),
        leaf: leaf.to_owned(),
        path,
        rule: check.rule.citation.to_string(),
        leans_on: named.to_vec(),
        leans_more: more,
        who_decides: check.rule.who_decides.clone(),
    }
}

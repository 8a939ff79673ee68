//! A house as the page shows it: its answers, and rows and checks in the page's own form.

use std::sync::{Arc, OnceLock};

use engine::answers::{Answers, Computed, Inputs, compute};
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
    /// Its rows.
    pub rows: Arc<Vec<Row>>,
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
        let answers = computed(text, system)?.into_answers();
        let rows = Arc::new(answers.rows.iter().map(|found| row(found, answers.system)).collect());
        let checks = Arc::new(answers.checks.iter().map(|found| check(found, answers.system)).collect());
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

fn check(check: &engine::check::Check, system: System) -> Check {
    let path = check.path.clone().unwrap_or_default();
    Check {
        state: check.state.word().to_owned(),
        title: check.subject.clone(),
        words: check.sentence(system),
        leaf: leaves::of(&path).to_owned(),
        path,
    }
}

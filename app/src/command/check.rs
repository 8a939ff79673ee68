//! `check`: every check with its reason, and what is assumed.

use std::fmt::Write;
use std::path::Path;

use anyhow::Result;
use engine::answers::Answers;
use engine::check::{Check, State};
use engine::studies::Findings;
use engine::units::System;

use crate::folder;
use crate::lanes::{self, Shelf};
use crate::told::{Told, say};

/// Prints the checks of a build file, the most urgent first.
///
/// # Errors
/// The file cannot be read.
pub fn check(file: &Path, system: Option<System>, short: bool) -> Result<Told> {
    let Some(answers) = folder::answered(file, system)? else { return Ok(Told::Problems) };
    let mut text = format!("{}\n", answers.about.name);
    figures(&mut text, &answers)?;
    text.push('\n');
    let mut last = "";
    for check in &answers.checks {
        one(&mut text, check, answers.system)?;
        if !short {
            reason(&mut text, check, check.rule.id != last)?;
        }
        last = &check.rule.id;
    }
    if !short {
        assumed(&mut text, &answers)?;
    }
    studied(&mut text, &answers, &lanes::kept(&answers.studies, &Shelf::of(file)))?;
    write!(text, "\n{}", counted(&answers.checks))?;
    say(&text)?;
    Ok(Told::Answered)
}

const FIGURES: [&str; 6] =
    ["room.area", "wall.length", "wall.volume", "wall.stem.volume", "water.trench.volume", "wall.outer-area"];

fn figures(text: &mut String, answers: &Answers) -> Result<()> {
    for row in FIGURES.iter().filter_map(|path| answers.rows.find(path)) {
        writeln!(text, "  {:<52} {:>14}", row.title, row.shown(answers.system))?;
    }
    Ok(())
}

fn one(text: &mut String, check: &Check, system: System) -> Result<()> {
    Ok(writeln!(text, "{:<10} {}", check.state.word(), check.sentence(system))?)
}

/// What a check leans on, and its rule where that was not said just before.
fn reason(text: &mut String, check: &Check, first_of_rule: bool) -> Result<()> {
    if first_of_rule {
        writeln!(text, "           Rule: {}", check.rule.citation)?;
    }
    let (named, more) = check.leaning(first_of_rule);
    for (path, title) in named {
        writeln!(text, "           Leans on an assumption: {title} ({path})")?;
    }
    if more > 0 {
        writeln!(text, "           and on {more} more, named at the first check of its rule")?;
    }
    if first_of_rule && !check.rule.who_decides.is_empty() {
        writeln!(text, "           Decides: {}", check.rule.who_decides)?;
    }
    Ok(())
}

fn assumed(text: &mut String, answers: &Answers) -> Result<()> {
    writeln!(text, "\nAssumed, because the build file does not say:")?;
    for (path, value, why) in &answers.assumed {
        writeln!(text, "  {path} = {value}: {why}")?;
    }
    for row in answers.rows.iter().filter(|row| row.is_assumed()) {
        let words = row.reason.words();
        let why = words.title.trim_start_matches("Assumed: ");
        writeln!(
            text,
            "  {} = {}: {} ({})",
            row.path,
            row.shown(answers.system),
            why.trim_end_matches('.'),
            row.origin
        )?;
    }
    for (table, line) in &answers.unread {
        writeln!(text, "  [{table}] in line {line} is not computed yet")?;
    }
    Ok(())
}

/// What is kept of the long computations; none is begun here, and no old figure is shown.
fn studied(text: &mut String, answers: &Answers, findings: &Findings) -> Result<()> {
    for (about, told) in press::studies::all(answers, findings) {
        writeln!(text, "\n{}", about.title)?;
        match told {
            Some(told) => told.words.iter().chain(&told.offer).try_for_each(|words| writeln!(text, "  {words}"))?,
            None => writeln!(text, "  not computed yet: `loamwright export studies FILE` or the book computes it")?,
        }
    }
    Ok(())
}

fn counted(checks: &[Check]) -> String {
    let states = [State::NotKnown, State::Fails, State::OnTrust, State::Tight, State::Holds];
    let counts = states.map(|state| {
        let count = checks.iter().filter(|check| check.state == state).count();
        format!("{count} {}", state.word())
    });
    format!("{} checks: {}", checks.len(), counts.join(", "))
}

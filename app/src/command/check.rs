//! `check`: every check with its reason, and what is assumed.

use std::path::Path;

use anyhow::Result;
use engine::answers::Answers;
use engine::check::{Check, State};
use engine::units::System;

use crate::folder;
use crate::told::Told;

/// Prints the checks of a build file, the most urgent first.
///
/// # Errors
/// The file cannot be read.
pub fn check(file: &Path, system: Option<System>, short: bool) -> Result<Told> {
    let Some(answers) = folder::answered(file, system)? else { return Ok(Told::Problems) };
    println!("{}", answers.about.name);
    print_figures(&answers);
    println!();
    for check in &answers.checks {
        print_check(check, answers.system, short);
    }
    if !short {
        print_assumed(&answers);
    }
    println!("\n{}", counted(&answers.checks));
    Ok(Told::Answered)
}

const FIGURES: [&str; 6] =
    ["room.area", "wall.length", "wall.volume", "wall.stem.volume", "water.trench.volume", "wall.outer-area"];

fn print_figures(answers: &Answers) {
    for row in FIGURES.iter().filter_map(|path| answers.rows.find(path)) {
        println!("  {:<52} {:>14}", row.title, row.shown(answers.system));
    }
}

fn print_check(check: &Check, system: System, short: bool) {
    println!("{:<10} {}", check.state.word(), check.sentence(system));
    if short {
        return;
    }
    println!("           Rule: {}, {}", check.rule.title, check.rule.citation);
    if check.state == State::OnTrust || check.state == State::Fails {
        for (path, title) in &check.leans_on {
            println!("           Leans on an assumption: {title} ({path})");
        }
    }
    if !check.rule.who_decides.is_empty() {
        println!("           Decides: {}", check.rule.who_decides);
    }
}

fn print_assumed(answers: &Answers) {
    println!("\nAssumed, because the build file does not say:");
    for (path, value, why) in &answers.assumed {
        println!("  {path} = {value}: {why}");
    }
    for row in answers.rows.iter().filter(|row| row.is_assumed()) {
        let why = row.reason.title.trim_start_matches("Assumed: ");
        println!("  {} = {}: {} ({})", row.path, row.shown(answers.system), why.trim_end_matches('.'), row.origin);
    }
    for (table, line) in &answers.unread {
        println!("  [{table}] in line {line} is not computed yet");
    }
}

fn counted(checks: &[Check]) -> String {
    let states = [State::NotKnown, State::Fails, State::OnTrust, State::Tight, State::Holds];
    let counts = states.map(|state| {
        let count = checks.iter().filter(|check| check.state == state).count();
        format!("{count} {}", state.word())
    });
    format!("{} checks: {}", checks.len(), counts.join(", "))
}

//! `order`: the order list, line by line, as it is said on the telephone.

use std::fmt::Write;
use std::path::Path;

use anyhow::Result;
use engine::units::System;
use press::orders::{OrderLine, lines, totals, uncounted};

use crate::folder;
use crate::told::{Told, say};

/// Prints what to order.
///
/// # Errors
/// The file cannot be read.
pub fn order(file: &Path, system: Option<System>) -> Result<Told> {
    let Some(answers) = folder::answered(file, system)? else { return Ok(Told::Problems) };
    let mut text = format!("{}\n", answers.about.name);
    if answers.about.invented {
        text.push_str("Invented for a demonstration: amounts are computed, prices are made up.\n");
    }
    for line in lines(&answers) {
        one(&mut text, &line)?;
    }
    for words in uncounted(&answers) {
        write!(text, "\n{words}\n")?;
    }
    for [words, amount] in totals(&answers) {
        write!(text, "\n{words}: {amount}")?;
    }
    text.push_str("\n\nA star marks an assumed loss. `check` lists all that is assumed.");
    say(&text)?;
    Ok(Told::Answered)
}

fn one(text: &mut String, line: &OrderLine) -> Result<()> {
    writeln!(text, "\n{}", line.about)?;
    let said = [
        ("order", &line.order),
        ("the build takes", &line.needed),
        ("loss", &line.loss),
        ("loads", &line.loads),
        ("delivery weighs", &line.mass),
        ("ground in the yard", &line.ground),
        ("price of one", &line.price),
        ("price", &line.cost),
    ];
    for (words, value) in said.into_iter().filter(|(_, value)| *value != "–") {
        writeln!(text, "  {words:<20}{value}")?;
    }
    if !line.open.is_empty() {
        writeln!(text, "  {}", line.open)?;
    }
    Ok(())
}

//! `export`: answers in open formats on standard output.

use std::path::Path;

use anyhow::{Result, bail};
use engine::units::System;
use press::drawing::Scaled;

use crate::told::{Told, say};
use crate::{Export, folder};

/// Prints one export of a build file.
///
/// # Errors
/// The file cannot be read, or the house lacks what is to be drawn.
pub fn export(what: Export, file: &Path, system: Option<System>) -> Result<Told> {
    let Some(answers) = folder::answered(file, system)? else { return Ok(Told::Problems) };
    let paper = press::paper::Paper::of(answers.system);
    match what {
        Export::Answers => say(&serde_json::to_string_pretty(&press::export::answers(&answers))?)?,
        Export::Rows => say(press::export::rows(&answers)?.trim_end())?,
        Export::Order => say(press::orders::table(&answers)?.trim_end())?,
        Export::Plan => say(&drawn(press::drawing::plan(&answers, paper)))?,
        Export::Section => say(&drawn(press::drawing::section(&answers, paper)))?,
        Export::Unrolled => say(&drawn(press::drawing::unrolled(&answers, paper)))?,
        Export::Trench => match press::drawing::trench_section(&answers, paper) {
            Some(trench) => say(&drawn(trench))?,
            None => bail!("{} has no trench to draw: write [water.trench]", file.display()),
        },
    }
    Ok(Told::Answered)
}

fn drawn(drawing: Scaled) -> String {
    drawing.svg.to_string()
}

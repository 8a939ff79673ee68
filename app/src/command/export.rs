//! `export`: answers in open formats on standard output.

use std::path::Path;

use anyhow::{Result, bail};
use engine::units::System;

use crate::lanes::{self, Shelf};
use crate::told::{self, Told, say};
use crate::{Export, folder};

/// Prints one export of a build file.
///
/// # Errors
/// The file cannot be read, or the house lacks what is to be drawn.
pub fn export(what: Export, file: &Path, system: Option<System>) -> Result<Told> {
    let answers = match &what {
        Export::Drawing(name) => return drawing(name, file, system),
        Export::Drawings => return drawings(file, system),
        Export::Answers | Export::Studies | Export::Rows | Export::Order | Export::Quantities => {
            folder::answered(file, system)?
        }
    };
    let Some(answers) = answers else { return Ok(Told::Problems) };
    match what {
        Export::Answers => say(&serde_json::to_string_pretty(&press::export::answers(&answers))?)?,
        Export::Studies => {
            let findings = lanes::found(&answers.studies, Some(&Shelf::of(file)), &told::going_on);
            say(&serde_json::to_string_pretty(&press::export::studies(&answers, &findings))?)?;
        }
        Export::Rows => say(press::export::rows(&answers)?.trim_end())?,
        Export::Order => say(press::orders::table(&answers)?.trim_end())?,
        Export::Quantities => say(press::export::quantities(&answers)?.trim_end())?,
        Export::Drawing(_) | Export::Drawings => {}
    }
    Ok(Told::Answered)
}

/// Prints one drawing.
fn drawing(name: &str, file: &Path, system: Option<System>) -> Result<Told> {
    let Some((answers, pictures)) = folder::pictured(file, system)? else { return Ok(Told::Problems) };
    let drawings = press::drawing::all(&answers, &pictures, press::paper::Paper::of(answers.system));
    let Some(drawing) = drawings.iter().find(|drawing| drawing.name == name) else {
        let names: Vec<&str> = drawings.iter().map(|drawing| drawing.name.as_str()).collect();
        bail!("{} has no drawing called {name}; it has {}", file.display(), names.join(", "))
    };
    say(&drawing.scaled.svg.to_string())?;
    Ok(Told::Answered)
}

/// Writes every drawing into a folder beside the build file.
fn drawings(file: &Path, system: Option<System>) -> Result<Told> {
    let Some((answers, pictures)) = folder::pictured(file, system)? else { return Ok(Told::Problems) };
    let folder = folder::beside(file, "drawings");
    for drawing in press::drawing::all(&answers, &pictures, press::paper::Paper::of(answers.system)) {
        let path = folder.join(format!("{}.svg", drawing.name));
        folder::write(&path, drawing.scaled.svg.to_string().as_bytes())?;
        say(&path.display().to_string())?;
    }
    Ok(Told::Answered)
}

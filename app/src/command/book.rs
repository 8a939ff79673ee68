//! `book`: the build book as PDF.

use std::path::{Path, PathBuf};

use anyhow::{Result, anyhow};
use engine::units::System;

use crate::folder;
use crate::lanes::{self, Shelf};
use crate::told::{self, Told, say};

/// Writes the build book and says where.
///
/// # Errors
/// The build file cannot be read, or the book not written.
pub fn book(file: &Path, system: Option<System>, out: Option<PathBuf>) -> Result<Told> {
    let Some((answers, pictures)) = folder::pictured(file, system)? else { return Ok(Told::Problems) };
    let out = out.unwrap_or_else(|| folder::beside(file, "pdf"));
    let findings = lanes::found(&answers.studies, Some(&Shelf::of(file)), &told::going_on);
    let book = press::book::book(&answers, &pictures, &findings, jiff::ZonedDateTime::now().date())
        .map_err(|fault| anyhow!("the book cannot be set: {fault}"))?;
    folder::write(&out, &book.pdf)?;
    say(&format!("{}: {} pages, {}", answers.about.name, book.pages, out.display()))?;
    Ok(Told::Answered)
}

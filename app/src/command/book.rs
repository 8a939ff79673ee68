//! `book`: the build book as PDF.

use std::path::{Path, PathBuf};

use anyhow::{Result, anyhow};
use engine::units::System;

use crate::folder;
use crate::told::{Told, say};

/// Writes the build book and says where.
///
/// # Errors
/// The build file cannot be read, or the book not written.
pub fn book(file: &Path, system: Option<System>, out: Option<PathBuf>) -> Result<Told> {
    let Some(answers) = folder::answered(file, system)? else { return Ok(Told::Problems) };
    let out = out.unwrap_or_else(|| beside(file));
    let book = press::book::book(&answers, jiff::ZonedDateTime::now().date())
        .map_err(|fault| anyhow!("the book cannot be set: {fault}"))?;
    folder::write(&out, &book.pdf)?;
    say(&format!("{}: {} pages, {}", answers.about.name, book.pages, out.display()))?;
    Ok(Told::Answered)
}

fn beside(file: &Path) -> PathBuf {
    let name = file.file_name().map_or_else(String::new, |name| name.to_string_lossy().into_owned());
    let stem = name.strip_suffix(".loam.toml").or_else(|| name.strip_suffix(".toml")).unwrap_or(&name);
    file.with_file_name(format!("{stem}.pdf"))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_book_lies_beside_its_build_file() {
        assert_eq!(beside(Path::new("builds/a/a.loam.toml")), Path::new("builds/a/a.pdf"));
        assert_eq!(beside(Path::new("house")), Path::new("house.pdf"));
    }
}

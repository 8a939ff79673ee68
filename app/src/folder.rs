//! Reads and writes a build's files.

use std::fs;
use std::io::Read;
use std::path::{Path, PathBuf};

use anyhow::{Context, Result, bail};
use engine::answers::{Answers, Computed, Inputs, compute};
use engine::build::LARGEST;
use engine::pictures::Pictures;
use engine::units::System;

use crate::told;

/// The house of a build file, computed; `None` when its problems were shown instead.
///
/// # Errors
/// The file cannot be read.
pub fn computed(file: &Path, system: Option<System>) -> Result<Option<Computed>> {
    let build = read(file)?;
    Ok(match compute(&Inputs { build: &build, system }) {
        Ok(computed) => Some(computed),
        Err(problems) => {
            let text = if build.len() > LARGEST { "".into() } else { String::from_utf8_lossy(&build) };
            told::show(&problems, &file.display().to_string(), &text);
            None
        }
    })
}

/// The answers of a build file; `None` when its problems were shown instead.
///
/// # Errors
/// The file cannot be read.
pub fn answered(file: &Path, system: Option<System>) -> Result<Option<Answers>> {
    Ok(computed(file, system)?.map(Computed::into_answers))
}

/// The answers of a build file with its pictures; `None` when its problems were shown instead.
///
/// # Errors
/// The file cannot be read.
pub fn pictured(file: &Path, system: Option<System>) -> Result<Option<(Answers, Pictures)>> {
    let Some(house) = computed(file, system)? else { return Ok(None) };
    let pictures = house.pictures();
    Ok(Some((house.into_answers(), pictures)))
}

/// A file, or no more of it than shows that it is too large to be a build file.
fn read(file: &Path) -> Result<Vec<u8>> {
    if file.is_dir() {
        bail!(
            "{} is a folder: write the build file in it, such as {}",
            file.display(),
            file.join("NAME.loam.toml").display()
        );
    }
    let open = || -> std::io::Result<Vec<u8>> {
        let mut bytes = Vec::new();
        fs::File::open(file)?.take(LARGEST as u64 + 1).read_to_end(&mut bytes)?;
        Ok(bytes)
    };
    open().with_context(|| format!("{} cannot be read", file.display()))
}

/// Writes a file whole, in a folder that is made when there is none.
///
/// # Errors
/// The folder or the file cannot be written.
pub fn write(file: &Path, bytes: &[u8]) -> Result<()> {
    if let Some(folder) = file.parent() {
        fs::create_dir_all(folder).with_context(|| format!("{} cannot be made", folder.display()))?;
    }
    fs::write(file, bytes).with_context(|| format!("{} cannot be written", file.display()))
}

/// The file of the same name beside a build file, with another extension.
#[must_use]
pub fn beside(file: &Path, extension: &str) -> PathBuf {
    let name = file.file_name().map_or_else(String::new, |name| name.to_string_lossy().into_owned());
    let stem = name.strip_suffix(".loam.toml").or_else(|| name.strip_suffix(".toml")).unwrap_or(&name);
    file.with_file_name(format!("{stem}.{extension}"))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_is_made_lies_beside_its_build_file() {
        assert_eq!(beside(Path::new("builds/a/a.loam.toml"), "pdf"), Path::new("builds/a/a.pdf"));
        assert_eq!(beside(Path::new("house"), "glb"), Path::new("house.glb"));
    }
}

//! Reads and writes a build's files.

use std::fs;
use std::io::Read;
use std::path::{Path, PathBuf};

use anyhow::{Context, Result};
use engine::answers::{Answers, Inputs, answers};
use engine::build::LARGEST;
use engine::pictures::Pictures;
use engine::problem::Problems;
use engine::solids::Solids;
use engine::units::{Length, System};

use crate::told;

/// The answers of a build file; `None` when its problems were shown instead.
///
/// # Errors
/// The file cannot be read.
pub fn answered(file: &Path, system: Option<System>) -> Result<Option<Answers>> {
    asked(file, system, answers)
}

/// The answers of a build file with its pictures; `None` when its problems were shown instead.
///
/// # Errors
/// The file cannot be read.
pub fn pictured(file: &Path, system: Option<System>) -> Result<Option<(Answers, Pictures)>> {
    asked(file, system, |inputs| Ok((answers(inputs)?, engine::answers::pictures(inputs)?)))
}

/// The bodies of a build file's parts, no chord farther than `chord` from its curve; `None` when its problems were shown instead.
///
/// # Errors
/// The file cannot be read.
pub fn bodies(file: &Path, chord: Length) -> Result<Option<Solids>> {
    asked(file, None, |inputs| engine::answers::bodies(inputs, chord))
}

fn asked<T>(
    file: &Path,
    system: Option<System>,
    ask: impl Fn(&Inputs<'_>) -> Result<T, Problems>,
) -> Result<Option<T>> {
    let build = read(file)?;
    Ok(match ask(&Inputs { build: &build, system }) {
        Ok(answer) => Some(answer),
        Err(problems) => {
            let text = if build.len() > LARGEST { "".into() } else { String::from_utf8_lossy(&build) };
            told::show(&problems, &file.display().to_string(), &text);
            None
        }
    })
}

/// A file, or no more of it than shows that it is too large to be a build file.
fn read(file: &Path) -> Result<Vec<u8>> {
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

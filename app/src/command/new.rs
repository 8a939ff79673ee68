//! `new`: a commented build file that already computes.

use std::path::PathBuf;

use anyhow::{Result, bail};

use crate::folder;
use crate::told::{Told, say};

const TEMPLATE: &str = include_str!("new.loam.toml");

/// Writes `NAME.loam.toml` in the folder it is called in.
///
/// # Errors
/// The name is not one, or the file is there already.
pub fn new(name: &str) -> Result<Told> {
    let plain =
        !name.is_empty() && name.bytes().all(|byte| byte.is_ascii_lowercase() || byte.is_ascii_digit() || byte == b'-');
    if !plain {
        bail!("\"{name}\" is no name for a file here; use small letters, figures and hyphens, such as garden-house");
    }
    let file = PathBuf::from(format!("{name}.loam.toml"));
    if file.exists() {
        bail!("{} is there already; choose another name or move it away", file.display());
    }
    folder::write(&file, text(name).as_bytes())?;
    say(&format!("{0} is written. See what it says: loamwright check {0}", file.display()))?;
    Ok(Told::Answered)
}

fn text(name: &str) -> String {
    let words = name.replace('-', " ");
    let mut letters = words.chars();
    let title = letters.next().map_or_else(String::new, |first| first.to_uppercase().chain(letters).collect());
    TEMPLATE.replace("NAME OF THE HOUSE", &title)
}

#[cfg(test)]
mod tests {
    use super::*;
    use engine::answers::{Inputs, answers};
    use engine::check::State;

    #[test]
    fn a_new_build_file_computes_and_fails_nothing() {
        let text = text("garden-house");
        let answers = answers(&Inputs { build: text.as_bytes(), system: None }).unwrap();
        assert_eq!(answers.about.name, "Garden house");
        assert!(answers.checks.iter().all(|check| check.state != State::Fails));
    }
}

//! Starts other programs from the root of the repository and says how they ended.

use std::path::{Path, PathBuf};
use std::process::{Command, ExitStatus};

/// The builds whose books the commands write: name, build file.
pub(crate) const DEMOS: [(&str, &str); 2] = [
    ("tansy-bank", "builds/tansy-bank/tansy-bank.loam.toml"),
    ("burdock-rise", "builds/burdock-rise/burdock-rise.loam.toml"),
];

/// The root of the repository.
pub(crate) fn root() -> PathBuf {
    let own = Path::new(env!("CARGO_MANIFEST_DIR"));
    own.parent().unwrap_or(own).to_path_buf()
}

/// Where cargo puts what it builds: `CARGO_TARGET_DIR`, else `target` in the root.
pub(crate) fn target() -> PathBuf {
    match std::env::var_os("CARGO_TARGET_DIR").filter(|folder| !folder.is_empty()) {
        Some(folder) => std::path::absolute(&folder).unwrap_or_else(|_| folder.into()),
        None => root().join("target"),
    }
}

/// A program with its arguments (parted by blanks), to be started from the root.
pub(crate) fn program(line: &str) -> Command {
    let mut words = line.split_whitespace();
    let mut command = match words.next() {
        Some("cargo") => Command::new(std::env::var_os("CARGO").unwrap_or_else(|| "cargo".into())),
        Some(name) => Command::new(name),
        None => Command::new(""),
    };
    command.args(words).current_dir(root());
    if std::env::var_os("CARGO_TARGET_DIR").is_some() {
        // A relative folder was meant from where the caller stands, not from the root.
        command.env("CARGO_TARGET_DIR", target());
    }
    command
}

/// Runs a program to its end.
///
/// # Errors
/// A sentence, when it cannot be started or ends otherwise than well.
pub(crate) fn finish(line: &str) -> Result<(), String> {
    ended_well(line, begin(line)?)
}

/// Runs a program to its end, whatever the end.
///
/// # Errors
/// A sentence, when it cannot be started.
pub(crate) fn begin(line: &str) -> Result<ExitStatus, String> {
    program(line).status().map_err(|fault| format!("`{line}` could not be started: {fault}"))
}

/// # Errors
/// A sentence, when the program ended otherwise than well.
pub(crate) fn ended_well(line: &str, status: ExitStatus) -> Result<(), String> {
    match status.success() {
        true => Ok(()),
        false => Err(format!("`{line}` ended with {status}")),
    }
}

/// Whether a program of this name is on the path.
pub(crate) fn is_installed(name: &str) -> bool {
    let folders = std::env::var_os("PATH").unwrap_or_default();
    std::env::split_paths(&folders).any(|folder| folder.join(name).is_file())
}

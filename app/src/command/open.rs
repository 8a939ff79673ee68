//! `open`: a live page of one build, on this computer only.

use std::path::{Path, PathBuf};
use std::process::{Command, Stdio};

use anyhow::{Result, anyhow};
use engine::units::System;

use crate::serve::{Session, serve};
use crate::told::{Told, say};

/// Serves a build until it is interrupted. Without a file, the only build file of the folder, or a page on which to begin one.
///
/// # Errors
/// The file cannot be read, or the port is taken; or the disk does not have the build at the end.
pub fn open(file: Option<&Path>, port: u16, quiet: bool, system: Option<System>) -> Result<Told> {
    let folder = match file.and_then(Path::parent) {
        Some(folder) if !folder.as_os_str().is_empty() => folder.to_owned(),
        _ => PathBuf::from("."),
    };
    let mut session = Session::new(&folder, system);
    let only = match (file, &session.builds()[..]) {
        (Some(file), _) => Some(file.to_owned()),
        (None, [only]) => Some(folder.join(&only.file)),
        _ => None,
    };
    if let Some(file) = &only {
        session.open(file).map_err(|why| anyhow!(why))?;
    }
    let what = only.map_or_else(|| "A page to begin a build".to_owned(), |file| file.display().to_string());
    serve(session, port, |port| {
        let address = format!("{}://127.0.0.1:{port}/", "http");
        let _ = say(&format!("{what} is open at {address}\nEnd with Ctrl-C; all changes are in the file."));
        if !quiet {
            show(&address);
        }
    })?;
    Ok(Told::Answered)
}

/// Asks the desktop for its browser; where there is none, the printed address is enough.
fn show(address: &str) {
    let opener = if cfg!(target_os = "macos") {
        "open"
    } else if cfg!(windows) {
        "explorer"
    } else {
        "xdg-open"
    };
    let mut command = Command::new(opener);
    let _ = command.arg(address).stdin(Stdio::null()).stdout(Stdio::null()).stderr(Stdio::null()).spawn();
}

//! The page: built with Node when its sources changed, checked, and tried in a real browser.

use std::fs;
use std::path::{Path, PathBuf};

use crate::step::{finish, is_installed, program, root, target};

/// The oldest Node that builds the page: its first two numbers.
const NODE: [u32; 2] = [20, 19];
/// What the page is built from: its own files and the typefaces that it shares with paper.
const SOURCES: [&str; 10] = [
    "ui/src",
    "ui/public",
    "ui/index.html",
    "ui/package.json",
    "ui/package-lock.json",
    "ui/.npmrc",
    "ui/vite.config.ts",
    "ui/svelte.config.js",
    "ui/tsconfig.json",
    "press/src/fonts",
];

/// Installs what the page is built with and builds it, unless nothing changed since.
///
/// # Errors
/// Why the page cannot be built.
pub(crate) fn build() -> Result<(), String> {
    fit_node()?;
    let (stamp, digest) = (target().join("page.stamp"), digest_of_sources()?);
    let is_built = root().join("ui/dist/index.html").is_file() && root().join("ui/node_modules").is_dir();
    if is_built && fs::read_to_string(&stamp).is_ok_and(|known| known == digest) {
        return Ok(());
    }
    finish("npm --prefix ui ci --silent")?;
    finish("npm --prefix ui run --silent build")?;
    fs::create_dir_all(target()).map_err(|fault| fault.to_string())?;
    fs::write(&stamp, digest).map_err(|fault| format!("{}: {fault}", stamp.display()))
}

/// Whether a Node is there that can build the page.
///
/// # Errors
/// A sentence that says what is missing.
pub(crate) fn fit_node() -> Result<(), String> {
    let [least, minor] = NODE;
    let wanted = format!("The page needs Node {least}.{minor} or newer with npm");
    if !is_installed("node") || !is_installed("npm") {
        return Err(format!("{wanted}; it is not installed."));
    }
    let told = program("node --version").output().map_err(|fault| fault.to_string())?;
    let version = String::from_utf8_lossy(&told.stdout).trim().to_owned();
    let mut numbers = version.trim_start_matches('v').split('.').map(|part| part.parse::<u32>().unwrap_or(0));
    let found = [numbers.next().unwrap_or(0), numbers.next().unwrap_or(0)];
    if found < NODE { Err(format!("{wanted}; found {version}.")) } else { Ok(()) }
}

/// Types, accessibility hints of the compiler, and a lock file without addresses.
///
/// # Errors
/// What is wrong with them.
pub(crate) fn check() -> Result<(), String> {
    let lock = root().join("ui/package-lock.json");
    let text = fs::read_to_string(&lock).map_err(|fault| format!("{}: {fault}", lock.display()))?;
    if text.contains("\"resolved\"") {
        return Err("ui/package-lock.json holds addresses: install with the project's own .npmrc.".to_owned());
    }
    finish("npm --prefix ui run --silent check")
}

/// A digest of every source of the page by its name and bytes (FNV-1a).
fn digest_of_sources() -> Result<String, String> {
    let mut files = Vec::new();
    for source in SOURCES {
        gather(&root().join(source), &mut files).map_err(|fault| format!("{source}: {fault}"))?;
    }
    files.sort();
    let mut digest = 0xcbf2_9ce4_8422_2325_u64;
    for file in files {
        let bytes = fs::read(&file).map_err(|fault| format!("{}: {fault}", file.display()))?;
        for byte in file.to_string_lossy().bytes().chain(bytes) {
            digest = (digest ^ u64::from(byte)).wrapping_mul(0x0100_0000_01b3);
        }
    }
    Ok(format!("{digest:016x}"))
}

fn gather(place: &Path, files: &mut Vec<PathBuf>) -> std::io::Result<()> {
    if place.is_dir() {
        for entry in fs::read_dir(place)? {
            gather(&entry?.path(), files)?;
        }
    } else {
        files.push(place.to_owned());
    }
    Ok(())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_file_that_the_page_brings_in_from_elsewhere_is_one_of_its_sources() {
        let mut files = Vec::new();
        gather(&root().join("ui/src"), &mut files).unwrap();
        let texts = files.iter().filter_map(|file| Some((file, fs::read_to_string(file).ok()?)));
        let mut brought = 0;
        for (file, text) in texts {
            for outside in text.split('"').filter(|piece| piece.starts_with("../../")) {
                let target = file.parent().unwrap().join(outside).canonicalize().unwrap();
                let is_known =
                    SOURCES.iter().any(|source| target.starts_with(root().join(source).canonicalize().unwrap()));
                assert!(is_known, "{} brings in {outside}", file.display());
                brought += 1;
            }
        }
        assert!(brought > 0);
    }
}

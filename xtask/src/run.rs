//! `cargo x run`: build, write the books of both demo houses, say how they stand.

use std::path::Path;
use std::process::Command;

use crate::page;
use crate::step::{DEMOS, ended_well, finish, program, root};

/// Writes `books/NAME.pdf` for both demo houses and prints their checks in short.
///
/// # Errors
/// A sentence naming the command that failed.
pub(crate) fn run() -> Result<(), String> {
    built()?;
    let books = root().join("books");
    std::fs::create_dir_all(&books).map_err(|fault| format!("{}: {fault}", books.display()))?;
    for (name, file) in DEMOS {
        finish(&format!("{APP} book {file} --out {}", book(name)))?;
    }
    for (_, file) in DEMOS {
        println!();
        finish(&format!("{APP} check {file} --short"))?;
    }
    let written: Vec<String> = DEMOS.iter().map(|(name, _)| book(name)).collect();
    println!("\nBooks written: {}", written.join(" and "));
    println!("To see a house and change it: cargo x open {}", DEMOS[0].1);
    Ok(())
}

/// Builds everything and shows the page of a build file, or of the folder.
///
/// # Errors
/// A sentence naming the command that failed.
pub(crate) fn open(file: Option<&str>) -> Result<(), String> {
    built()?;
    let here = std::env::current_dir().map_err(|fault| format!("the folder cannot be read: {fault}"))?;
    let status = page_of(file, &here).status().map_err(|fault| format!("the page could not be started: {fault}"))?;
    ended_well("loamwright open", status)
}

/// The page of a build file as it is named from where one stands, or of that folder.
fn page_of(file: Option<&str>, here: &Path) -> Command {
    let mut command = program("cargo run --quiet --package loamwright --manifest-path");
    command.arg(root().join("Cargo.toml")).args(["--", "open"]).args(file.map(|file| here.join(file)));
    command.current_dir(here);
    command
}

/// The page first, since the program carries it; without a fit Node the program says so in its place.
fn built() -> Result<(), String> {
    match page::fit_node() {
        Ok(()) => page::build()?,
        Err(why) => println!("{why} Everything but the page is built."),
    }
    finish("cargo build --package loamwright")
}

const APP: &str = "cargo run --quiet --package loamwright --";

fn book(name: &str) -> String {
    format!("books/{name}.pdf")
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_build_file_is_found_from_where_one_stands_and_its_path_may_hold_a_blank() {
        let here = root().join("builds");
        let command = page_of(Some("hazel corner/hut.loam.toml"), &here);
        let last = command.get_args().last().map(Path::new);
        assert_eq!(last, Some(here.join("hazel corner/hut.loam.toml").as_path()));
        assert_eq!(command.get_current_dir(), Some(here.as_path()));
        let of_the_folder = page_of(None, &here);
        assert_eq!(of_the_folder.get_args().last().and_then(|last| last.to_str()), Some("open"));
        assert_eq!(of_the_folder.get_current_dir(), Some(here.as_path()));
    }
}

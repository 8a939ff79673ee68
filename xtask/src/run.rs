//! `cargo x run`: build, write the books of both demo houses, say how they stand.

use crate::page;
use crate::step::{DEMOS, finish, root};

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
pub(crate) fn open(file: &str) -> Result<(), String> {
    built()?;
    finish(format!("{APP} open {file}").trim_end())
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

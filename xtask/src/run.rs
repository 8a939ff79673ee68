//! `cargo x run`: build, write the books of both demo houses, say how they stand.

use crate::step::{DEMOS, finish, root};

/// Writes `books/NAME.pdf` for both demo houses and prints their checks in short.
///
/// # Errors
/// A sentence naming the command that failed.
pub(crate) fn run() -> Result<(), String> {
    finish("cargo build --package loamwright")?;
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
    Ok(())
}

const APP: &str = "cargo run --quiet --package loamwright --";

fn book(name: &str) -> String {
    format!("books/{name}.pdf")
}

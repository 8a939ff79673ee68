//! The command line: reads build files, prints answers, writes the book, serves the page.

mod command;
mod folder;
mod lanes;
mod serve;
mod told;

use std::path::PathBuf;
use std::process::ExitCode;

use clap::{Parser, Subcommand, ValueEnum};
use engine::units::System;

/// Answers are many short texts. With it they take a sixth less time, and a house is thrown away on one thread without holding up
/// the next one, which is computed on another.
#[global_allocator]
static ALLOCATOR: mimalloc::MiMalloc = mimalloc::MiMalloc;

/// From one build file to quantities, checks, drawings and the build book of a small cob house.
#[derive(Parser)]
#[command(version)]
struct Loamwright {
    #[command(subcommand)]
    command: Command,
    /// Units to show; the build file's own when left out
    #[arg(long, global = true)]
    units: Option<Units>,
}

#[derive(Clone, Copy, ValueEnum)]
enum Units {
    /// mm, m, m², m³, kg, t
    Metric,
    /// in, ft, sq ft, cu yd, lb, short tons
    Us,
}

#[derive(Subcommand)]
enum Command {
    /// Write a commented build file that already computes
    New {
        /// Name of the house, in small letters and hyphens; the file is NAME.loam.toml
        name: String,
    },
    /// Show a build as a live page, on this computer only
    Open {
        /// The build file, NAME.loam.toml; the only one of the folder when left out, or a page on which to begin one
        file: Option<PathBuf>,
        /// The port; a free one when left out
        #[arg(long, default_value_t = 0)]
        port: u16,
        /// Print the address only; no browser is started
        #[arg(long)]
        quiet: bool,
    },
    /// Print every check with its reason, and what is assumed
    Check {
        /// The build file, NAME.loam.toml
        file: PathBuf,
        /// One line a check
        #[arg(long)]
        short: bool,
    },
    /// Write the build book as PDF
    Book {
        /// The build file, NAME.loam.toml
        file: PathBuf,
        /// Where to write it; beside the build file when left out
        #[arg(long)]
        out: Option<PathBuf>,
    },
    /// Write the bodies of all parts as a binary glTF 2.0 file
    Solids {
        /// The build file, NAME.loam.toml
        file: PathBuf,
        /// Where to write it; beside the build file when left out
        #[arg(long)]
        out: Option<PathBuf>,
    },
    /// Print what to order, line by line
    Order {
        /// The build file, NAME.loam.toml
        file: PathBuf,
    },
    /// Answer one question from JSON on standard input: plain SI numbers, keys that carry their unit
    Ask {
        /// The question
        name: Option<String>,
        /// Print every question
        #[arg(long)]
        list: bool,
        /// Print a request that is answered
        #[arg(long)]
        example: bool,
    },
    /// Print what the engine knows in an open format
    Export {
        /// `answers` (JSON), `studies` (JSON, computed where nothing is kept), `rows`, `quantities` or `order` (comma-separated
        /// values), the name of a drawing such as `plan` (SVG in millimetres of paper at a true scale), or `drawings` (every drawing
        /// into a folder beside the build file)
        #[arg(value_parser = |what: &str| Ok::<_, std::convert::Infallible>(Export::from(what)))]
        what: Export,
        /// The build file, NAME.loam.toml
        file: PathBuf,
    },
    /// Print our values beside published ones
    Proof,
}

#[derive(Clone)]
enum Export {
    Answers,
    Studies,
    Rows,
    Order,
    Quantities,
    Drawings,
    Drawing(String),
}

impl From<&str> for Export {
    fn from(what: &str) -> Export {
        match what {
            "answers" => Export::Answers,
            "studies" => Export::Studies,
            "rows" => Export::Rows,
            "order" => Export::Order,
            "quantities" => Export::Quantities,
            "drawings" => Export::Drawings,
            drawing => Export::Drawing(drawing.to_owned()),
        }
    }
}

fn main() -> ExitCode {
    let asked = Loamwright::parse();
    let system = asked.units.map(|units| match units {
        Units::Metric => System::Metric,
        Units::Us => System::Us,
    });
    let done = match asked.command {
        Command::New { name } => command::new::new(&name),
        Command::Open { file, port, quiet } => command::open::open(file.as_deref(), port, quiet, system),
        Command::Check { file, short } => command::check::check(&file, system, short),
        Command::Book { file, out } => command::book::book(&file, system, out),
        Command::Solids { file, out } => command::solids::solids(&file, out),
        Command::Order { file } => command::order::order(&file, system),
        Command::Ask { name, list, example } => command::ask::ask(name.as_deref(), list, example),
        Command::Export { what, file } => command::export::export(what, &file, system),
        Command::Proof => command::proof::proof(),
    };
    match done {
        Ok(told::Told::Answered) => ExitCode::SUCCESS,
        Ok(told::Told::Problems) => ExitCode::from(1),
        Err(failure) => {
            eprintln!("loamwright: {failure:#}");
            ExitCode::from(2)
        }
    }
}

//! What a command ends with, and how problems of a build file are shown.

use std::fmt::Write as _;
use std::io::{IsTerminal, Write as _};

use engine::problem::Problems;
use miette::{LabeledSpan, MietteDiagnostic, NamedSource, Report};

/// How a command ended, when nothing outside it failed.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Told {
    /// It answered.
    Answered,
    /// What was written cannot be answered; the problems were shown.
    Problems,
}

/// Prints an answer and ends its line on standard output; a reader that has had enough (`| head`) is no failure.
///
/// # Errors
/// Standard output cannot be written.
pub fn say(text: &str) -> anyhow::Result<()> {
    let mut out = std::io::stdout().lock();
    match writeln!(out, "{text}").and_then(|()| out.flush()) {
        Err(error) if error.kind() != std::io::ErrorKind::BrokenPipe => Err(error.into()),
        _ => Ok(()),
    }
}

/// Shows on standard error how far a long computation is, on one line that is written over where a person looks on; goes on.
#[must_use]
pub fn going_on(what: &str, share: f64) -> bool {
    let mut out = std::io::stderr().lock();
    if out.is_terminal() {
        let end = if share < 1.0 { "" } else { "\n" };
        let _ = write!(out, "\r{what}: {:3.0} %{end}", 100.0 * share).and_then(|()| out.flush());
    }
    true
}

/// Shows the problems of a build file on standard error, each with its line.
pub fn show(problems: &Problems, file: &str, text: &str) {
    let (shown, rest) = problems.shown();
    let mut all = String::new();
    for problem in shown {
        let span = problem.span.start.min(text.len())..problem.span.end.min(text.len());
        let what = if problem.path.is_empty() {
            problem.message.clone()
        } else {
            format!("{}: {}", problem.path, problem.message)
        };
        let mut diagnostic = MietteDiagnostic::new(what).with_help(problem.hint.clone());
        if !problem.of_whole_file() {
            diagnostic = diagnostic.with_label(LabeledSpan::at(span, "here"));
        }
        let report = Report::new(diagnostic).with_source_code(NamedSource::new(file, text.to_owned()));
        let _ = writeln!(all, "{report:?}");
    }
    if rest > 0 {
        let _ = writeln!(all, "and {rest} more");
    }
    let total = shown.len() + rest;
    let _ = writeln!(all, "{file}: {total} {}; nothing was computed", if total == 1 { "problem" } else { "problems" });
    let _ = std::io::stderr().write_all(all.as_bytes());
}

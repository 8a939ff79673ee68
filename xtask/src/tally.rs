//! Passes a test runner's output on while counting the tests it reports.

use std::io::{BufRead, BufReader, Read, Write};
use std::process::Stdio;
use std::thread;

use crate::step::{ended_well, program};

/// Tests reported so far.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub(crate) struct Tally {
    pub(crate) passed: u64,
    pub(crate) failed: u64,
}

impl Tally {
    /// Adds what a line says, if it is a summary, known by how it opens.
    fn read(&mut self, opening: &str, line: &str) {
        let summary = line.trim_start();
        if !summary.starts_with(opening) {
            return;
        }
        let words: Vec<&str> = summary.split(|sign: char| " ,;.:".contains(sign)).collect();
        for pair in words.windows(2) {
            if let (Ok(count), word) = (pair[0].parse::<u64>(), pair[1]) {
                match word {
                    "passed" => self.passed += count,
                    "failed" | "timed" | "exec" => self.failed += count,
                    _ => {}
                }
            }
        }
    }

    fn add(&mut self, other: Tally) {
        self.passed += other.passed;
        self.failed += other.failed;
    }
}

/// How the summary of the runner in this command line opens. `cargo nextest` also repeats the summary of each test that
/// failed, which must not be counted again.
fn opening(line: &str) -> &'static str {
    match line.starts_with("cargo nextest") {
        true => "Summary [",
        false => "test result:",
    }
}

/// Runs a test runner to its end, shows all it says, and adds its counts to `tally`.
///
/// # Errors
/// A sentence, when the runner cannot be started or ends otherwise than well.
pub(crate) fn count(line: &str, tally: &mut Tally) -> Result<(), String> {
    let unstarted = |fault| format!("`{line}` could not be started: {fault}");
    let mut child = program(line).stdout(Stdio::piped()).stderr(Stdio::piped()).spawn().map_err(unstarted)?;
    let opening = opening(line);
    let errors = child.stderr.take();
    let aside = thread::spawn(move || errors.map(|pipe| pass_on(opening, pipe, std::io::stderr())));
    let spoken = child.stdout.take().map(|pipe| pass_on(opening, pipe, std::io::stdout()));
    for part in [spoken, aside.join().ok().flatten()].into_iter().flatten() {
        tally.add(part);
    }
    ended_well(line, child.wait().map_err(unstarted)?)
}

fn pass_on(opening: &str, from: impl Read, mut to: impl Write) -> Tally {
    let mut tally = Tally::default();
    for line in BufReader::new(from).split(b'\n').map_while(Result::ok) {
        let line = String::from_utf8_lossy(&line);
        tally.read(opening, &line);
        // A reader that has gone away must not stop the tests.
        let _ = writeln!(to, "{line}");
    }
    tally
}

#[cfg(test)]
mod tests {
    use super::*;

    const OWN: &str =
        "test result: FAILED. 24 passed; 1 failed; 0 ignored; 0 measured; 3 filtered out; finished in 6.97s";
    const NEXT: &str = "     Summary [   0.021s] 27 tests run: 25 passed (1 slow), 1 failed, 1 timed out, 4 skipped";

    fn read(command: &str, lines: &[&str]) -> Tally {
        let mut tally = Tally::default();
        lines.iter().for_each(|line| tally.read(opening(command), line));
        tally
    }

    #[test]
    fn both_runners_are_understood() {
        let lines = ["test a ... ok", OWN, NEXT, "12 passed", ""];
        assert_eq!(read("cargo test --doc", &lines), Tally { passed: 24, failed: 1 });
        assert_eq!(read("cargo nextest run", &lines), Tally { passed: 25, failed: 2 });
    }

    #[test]
    fn what_nextest_repeats_of_a_failed_test_is_not_counted() {
        assert_eq!(read("cargo nextest run", &[OWN]), Tally::default());
    }
}

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
    /// Adds what a line says, if it is a summary line of `cargo test` or of `cargo nextest`.
    fn read(&mut self, line: &str) {
        let summary = line.trim_start();
        if !summary.starts_with("test result:") && !summary.starts_with("Summary [") {
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

/// Runs a test runner to its end, shows all it says, and adds its counts to `tally`.
///
/// # Errors
/// A sentence, when the runner cannot be started or ends otherwise than well.
pub(crate) fn count(line: &str, tally: &mut Tally) -> Result<(), String> {
    let unstarted = |fault| format!("`{line}` could not be started: {fault}");
    let mut child = program(line).stdout(Stdio::piped()).stderr(Stdio::piped()).spawn().map_err(unstarted)?;
    let errors = child.stderr.take();
    let aside = thread::spawn(move || errors.map(|pipe| pass_on(pipe, std::io::stderr())));
    let spoken = child.stdout.take().map(|pipe| pass_on(pipe, std::io::stdout()));
    for part in [spoken, aside.join().ok().flatten()].into_iter().flatten() {
        tally.add(part);
    }
    ended_well(line, child.wait().map_err(unstarted)?)
}

fn pass_on(from: impl Read, mut to: impl Write) -> Tally {
    let mut tally = Tally::default();
    for line in BufReader::new(from).split(b'\n').map_while(Result::ok) {
        let line = String::from_utf8_lossy(&line);
        tally.read(&line);
        // A reader that has gone away must not stop the tests.
        let _ = writeln!(to, "{line}");
    }
    tally
}

#[cfg(test)]
mod tests {
    use super::*;

    fn read(lines: &[&str]) -> Tally {
        let mut tally = Tally::default();
        lines.iter().for_each(|line| tally.read(line));
        tally
    }

    #[test]
    fn both_runners_are_understood() {
        let own = "test result: FAILED. 24 passed; 1 failed; 0 ignored; 0 measured; 3 filtered out; finished in 6.97s";
        let next = "     Summary [   0.021s] 27 tests run: 25 passed (1 slow), 1 failed, 1 timed out, 4 skipped";
        assert_eq!(read(&[own]), Tally { passed: 24, failed: 1 });
        assert_eq!(read(&[next]), Tally { passed: 25, failed: 2 });
        assert_eq!(read(&[own, next]), Tally { passed: 49, failed: 3 });
    }

    #[test]
    fn other_lines_count_nothing() {
        assert_eq!(read(&["test a ... ok", "12 passed", ""]), Tally::default());
    }
}

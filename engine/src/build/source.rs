//! The text of a build file, the faults found in it, and values with their place in it.

use std::cell::{Cell, RefCell};
use std::ops::Range;

use crate::problem::Problems;

/// A value as it was written, with its place.
#[derive(Clone, Debug, PartialEq)]
pub struct Written<T> {
    /// The value.
    pub value: T,
    /// Its key, such as `wall.thickness`.
    pub path: String,
    /// Its line in the file, from 1.
    pub line: usize,
    /// Its byte range in the file.
    pub span: Range<usize>,
}

/// The text of a build file and the faults found in it so far.
#[derive(Debug)]
pub struct Source<'i> {
    text: &'i str,
    /// The byte at which each line after the first begins.
    lines: Vec<usize>,
    problems: RefCell<Problems>,
    /// A file with broken lines has lost keys that its builder did write: nothing is said of missing ones.
    broken: Cell<bool>,
}

impl<'i> Source<'i> {
    /// A source without faults.
    #[must_use]
    pub fn new(text: &'i str) -> Source<'i> {
        let lines = text.match_indices('\n').map(|(at, _)| at + 1).collect();
        Source { text, lines, problems: RefCell::default(), broken: Cell::new(false) }
    }

    /// What stands in a byte range.
    #[must_use]
    pub fn spelled(&self, span: &Range<usize>) -> &'i str {
        self.text.get(span.clone()).unwrap_or("")
    }

    /// Notes a fault at a byte range.
    pub fn fault(&self, span: Range<usize>, path: &str, message: impl Into<String>, hint: impl Into<String>) {
        self.problems.borrow_mut().note(self.text, span, path, message, hint);
    }

    /// Notes that a stretch of the file is not TOML.
    pub fn broken(&self, span: Range<usize>, message: &str, hint: &str) {
        self.broken.set(true);
        self.fault(span, "", message, hint);
    }

    /// Whether a fault was noted at a key or inside it.
    #[must_use]
    pub fn is_faulty(&self, path: &str) -> bool {
        let inside =
            |other: &str| other.strip_prefix(path).is_some_and(|rest| rest.is_empty() || rest.starts_with('.'));
        self.problems.borrow().all().iter().any(|problem| inside(&problem.path))
    }

    /// Whether a stretch of the file is not TOML.
    #[must_use]
    pub fn is_broken(&self) -> bool {
        self.broken.get()
    }

    /// Whether no fault was noted.
    #[must_use]
    pub fn is_clean(&self) -> bool {
        self.problems.borrow().is_empty()
    }

    /// Every fault noted, in the order of the file.
    #[must_use]
    pub fn into_problems(self) -> Problems {
        self.problems.into_inner().in_order()
    }

    /// The line, from 1, on which a byte range begins.
    #[must_use]
    pub fn line(&self, span: &Range<usize>) -> usize {
        1 + self.lines.partition_point(|&begin| begin <= span.start)
    }
}

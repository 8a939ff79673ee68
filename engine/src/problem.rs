//! What the builder wrote that cannot be: a place in the file, one sentence, and what would be right.

use std::fmt;
use std::ops::Range;

/// One fault of a build file.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Problem {
    /// Line of the file, from 1.
    pub line: usize,
    /// Column in that line in characters, from 1.
    pub column: usize,
    /// Byte range in the file.
    pub span: Range<usize>,
    /// The key that is at fault, such as `openings.south-window.width`; empty for the file as a whole.
    pub path: String,
    /// What is wrong, one sentence.
    pub message: String,
    /// What would be right, one sentence.
    pub hint: String,
}

impl Problem {
    /// Whether the fault is of the file as a whole, at no place in it.
    #[must_use]
    pub fn of_whole_file(&self) -> bool {
        self.path.is_empty() && self.span == (0..0)
    }
}

impl fmt::Display for Problem {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        if !self.of_whole_file() {
            write!(f, "line {}, column {}: ", self.line, self.column)?;
        }
        if !self.path.is_empty() {
            write!(f, "{}: ", self.path)?;
        }
        write!(f, "{}; {}", self.message, self.hint)
    }
}

/// All faults of one file, in the order of the file.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Problems {
    all: Vec<Problem>,
}

impl Problems {
    /// How many are shown; the rest is counted.
    pub const SHOWN: usize = 50;

    /// Notes one more fault at a byte range of `text`.
    pub fn note(
        &mut self,
        text: &str,
        span: Range<usize>,
        path: &str,
        message: impl Into<String>,
        hint: impl Into<String>,
    ) {
        let (line, column) = line_and_column(text, span.start);
        let (path, message, hint) = (path.to_owned(), message.into(), hint.into());
        self.all.push(Problem { line, column, span, path, message, hint });
    }

    /// Puts the faults in the order of the file.
    #[must_use]
    pub fn in_order(mut self) -> Self {
        self.all.sort_by_key(|problem| problem.span.start);
        self
    }

    /// Whether the file has no fault.
    #[must_use]
    pub fn is_empty(&self) -> bool {
        self.all.is_empty()
    }

    /// Every fault.
    #[must_use]
    pub fn all(&self) -> &[Problem] {
        &self.all
    }

    /// The first [`Problems::SHOWN`] faults, and how many more there are.
    #[must_use]
    pub fn shown(&self) -> (&[Problem], usize) {
        let shown = self.all.len().min(Self::SHOWN);
        (&self.all[..shown], self.all.len() - shown)
    }
}

/// Line and column, both from 1 and the column in characters, of a byte in a text. A byte past the end or inside a
/// character counts as the nearest one before it.
#[must_use]
pub fn line_and_column(text: &str, byte: usize) -> (usize, usize) {
    let mut end = byte.min(text.len());
    while !text.is_char_boundary(end) {
        end -= 1;
    }
    let before = &text[..end];
    let start = before.rfind('\n').map_or(0, |newline| newline + 1);
    (before.matches('\n').count() + 1, before[start..].chars().count() + 1)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_place_counts_lines_and_characters_from_one() {
        let text = "äb\ncd";
        assert_eq!(line_and_column(text, 0), (1, 1));
        assert_eq!(line_and_column(text, 1), (1, 1), "inside ä");
        assert_eq!(line_and_column(text, 2), (1, 2));
        assert_eq!(line_and_column(text, 4), (2, 1));
        assert_eq!(line_and_column(text, 99), (2, 3));
    }

    #[test]
    fn the_first_fifty_are_shown_and_the_rest_counted() {
        let mut problems = Problems::default();
        for _ in 0..53 {
            problems.note("x", 0..1, "", "a", "b");
        }
        let (shown, rest) = problems.shown();
        assert_eq!((shown.len(), rest), (50, 3));
    }
}

//! Lines that are not TOML, told in a builder's words, once for each slip.

use std::ops::Range;

use super::source::Source;
use crate::problem::line_and_column;

/// What the messages of the TOML reader mean: words of the message, what is wrong, what would be right. The first that
/// fits counts.
const MEANINGS: [(&str, &str, &str); 8] = [
    ("must be quoted", "a value stands without its quotes", "write it in quotes, such as \"450 mm\""),
    ("key with no value", "a key stands without its value", "write key = \"value\""),
    ("duplicate key", "this is written for the second time", "keep one of the two"),
    ("unclosed table", "the name of a table is not closed", "write it in brackets, such as [wall]"),
    ("unclosed array table", "the name of a table is not closed", "write it in two brackets, such as [[wall.line]]"),
    (LIST, "a list before this is not closed, or lacks a comma", "write a list as [\"4.2 m\", \"0 m\"]"),
    (BRACES, "braces before this are not closed, or lack a comma", "write { width = \"1 m\", height = \"1 m\" }"),
    ("string", "a text is not closed by its quote", "write it between two quotes on one line, such as \"450 mm\""),
];

/// What the TOML reader calls a list.
const LIST: &str = "array";

/// What it calls a table in braces.
const BRACES: &str = "inline table";

/// Lines between two faults of one meaning that count as one slip: a table written twice repeats all its keys.
const NEAR: usize = 2;

/// Notes what the TOML reader could not read. A list or a brace that is not closed swallows good lines that follow: they
/// are not blamed.
pub(super) fn note(source: &Source<'_>, text: &str, mut errors: Vec<(Range<usize>, &str)>) {
    errors.sort_by_key(|(span, _)| span.start);
    let mut last: Option<(&str, usize)> = None;
    for (span, said) in errors {
        let said = said.lines().next().unwrap_or("");
        let other = ("", "this line cannot be read", "a line reads key = \"value\"; a table begins with [name]");
        let (word, message, hint) = MEANINGS.into_iter().find(|(word, ..)| said.contains(word)).unwrap_or(other);
        let line = line_and_column(text, span.start).0;
        let again = last.is_some_and(|(before, at)| before == message && line <= at + NEAR);
        last = Some((message, line));
        if !again {
            source.broken(span, message, hint);
        }
        if [LIST, BRACES].contains(&word) {
            break;
        }
    }
}

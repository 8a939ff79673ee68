//! Whole lines of a build file: those of a table, the comment above it, and where something new goes.

use std::ops::Range;

use toml_edit::{InlineTable, Item, Table};

use super::tree::Node;

/// Where the line with a byte begins.
pub(super) fn line_start(text: &str, at: usize) -> usize {
    text[..at].rfind('\n').map_or(0, |newline| newline + 1)
}

/// Where the line after that with a byte begins.
pub(super) fn line_end(text: &str, at: usize) -> usize {
    text[at..].find('\n').map_or(text.len(), |newline| at + newline + 1)
}

/// How lines of a text end.
pub(super) fn eol(text: &str) -> &'static str {
    if text.contains("\r\n") { "\r\n" } else { "\n" }
}

/// The end of the last value of a table's own, those under dotted keys among them.
pub(super) fn values_end(table: &Table) -> Option<usize> {
    let ends = table.iter().filter_map(|(_, item)| match item {
        Item::Value(value) => value.span().map(|span| span.end),
        Item::Table(inner) if inner.is_dotted() => values_end(inner),
        _ => None,
    });
    ends.max()
}

/// The lines from a table's header to its last value; none where it has no header.
fn own(text: &str, table: &Table) -> Option<Range<usize>> {
    if table.is_dotted() || table.is_implicit() {
        return None;
    }
    let header = table.span()?;
    let end = values_end(table).map_or(header.end, |end| end.max(header.end));
    Some(line_start(text, header.start)..line_end(text, end))
}

/// The lines of a table or of entries with all tables inside, in the order of the text.
pub(super) fn all(text: &str, node: Node<'_>) -> Vec<Range<usize>> {
    let mut found = Vec::new();
    gather(text, node, &mut found);
    found.sort_by_key(|lines| lines.start);
    found
}

fn gather(text: &str, node: Node<'_>, found: &mut Vec<Range<usize>>) {
    match node {
        Node::Value(_) => {}
        Node::Entries(entries) => entries.iter().for_each(|entry| gather(text, Node::Table(entry), found)),
        Node::Table(table) => {
            found.extend(own(text, table));
            for (_, item) in table.iter() {
                match item {
                    Item::Table(inner) => gather(text, Node::Table(inner), found),
                    Item::ArrayOfTables(entries) => gather(text, Node::Entries(entries), found),
                    _ => {}
                }
            }
        }
    }
}

/// Where the comment right above a line begins. One that follows a line of another table belongs to that.
pub(super) fn with_comment(text: &str, start: usize) -> usize {
    let mut at = start;
    while at > 0 {
        let above = line_start(text, at - 1);
        if !text[above..at].trim_start().starts_with('#') {
            let is_free = text[above..at].trim().is_empty();
            return if is_free { at } else { start };
        }
        at = above;
    }
    at
}

/// Where comment lines that follow right after a line end.
pub(super) fn with_tail(text: &str, end: usize) -> usize {
    let mut at = end;
    while at < text.len() && text[at..line_end(text, at)].trim_start().starts_with('#') {
        at = line_end(text, at);
    }
    at
}

/// What goes at the end of a line, with the line break before it that the last line of a text may lack.
pub(super) fn after_line(text: &str, at: usize, lines: &str) -> String {
    let own = lines.replace("\r\n", "\n").replace('\n', eol(text));
    if at > 0 && !text[..at].ends_with('\n') { format!("{}{own}", eol(text)) } else { own }
}

/// Where a key and a value more go in a table in braces, and what is put before them and after.
pub(super) fn in_braces(table: &InlineTable) -> Option<(usize, [&'static str; 2])> {
    let span = table.span()?;
    let last = table.iter().filter_map(|(_, value)| value.span()).map(|span| span.end).max();
    Some(match last {
        Some(end) => (end, [", ", ""]),
        None => (span.start + 1, [" ", if span.len() > 2 { "" } else { " " }]),
    })
}

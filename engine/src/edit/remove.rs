//! Takes out a key, a table with all that is in it, or an entry of a list, and what belongs to it alone.

use std::ops::Range;

use toml_edit::{Table, Value};

use super::tree::{Node, Tree, keys};
use super::{Splice, blocks};
use crate::problem::Problem;

pub(super) fn remove(tree: &Tree<'_>, path: &str) -> Result<Vec<Splice>, Problem> {
    let keys = keys(path);
    let nothing = || tree.nothing_there(path);
    let (Some(node), Some((key, parent))) = (tree.find(&keys), keys.split_last()) else { return Err(nothing()) };
    let parent = tree.find(parent).ok_or_else(nothing)?;
    let text = tree.text();
    let ranges = match (node, parent) {
        (Node::Value(value), Node::Table(table)) => vec![key_lines(text, table, key, value).ok_or_else(nothing)?],
        (Node::Value(value), Node::Value(Value::InlineTable(table))) => {
            let spans: Option<Vec<Range<usize>>> =
                table.iter().map(|(key, value)| Some(table.key(key)?.span()?.start..value.span()?.end)).collect();
            let own = value.span().ok_or_else(nothing)?;
            let inside = table.span().filter(|_| table.len() == 1).map(|braces| braces.start + 1..braces.end - 1);
            vec![inside.or_else(|| one_of(&spans?, own.end)).ok_or_else(nothing)?]
        }
        (Node::Value(value), Node::Value(Value::Array(parts))) => {
            let spans: Option<Vec<Range<usize>>> = parts.iter().map(Value::span).collect();
            let own = value.span().ok_or_else(nothing)?;
            vec![one_of(&spans.ok_or_else(nothing)?, own.end).ok_or_else(nothing)?]
        }
        (Node::Table(table), _) if table.is_dotted() => dotted_lines(text, table),
        (Node::Table(table), Node::Entries(entries)) => {
            // What is said above the first of several entries is said of them all.
            let is_first = entries.len() > 1 && entries.get(0).is_some_and(|first| first.span() == table.span());
            tables(text, node, is_first)
        }
        _ => tables(text, node, false),
    };
    Ok(ranges.into_iter().map(|range| (range, String::new())).collect())
}

/// The lines of a key and its value.
fn key_lines(text: &str, table: &Table, key: &str, value: &Value) -> Option<Range<usize>> {
    let start = table.key(key)?.span()?.start;
    Some(blocks::line_start(text, start)..blocks::line_end(text, value.span()?.end))
}

fn dotted_lines(text: &str, table: &Table) -> Vec<Range<usize>> {
    let inner = table.iter().flat_map(|(key, item)| match (item.as_value(), item.as_table()) {
        (Some(value), _) => key_lines(text, table, key, value).into_iter().collect(),
        (None, Some(inner)) => dotted_lines(text, inner),
        (None, None) => Vec::new(),
    });
    inner.collect()
}

/// One of several parts with commas between them, with the comma that is no longer needed.
fn one_of(parts: &[Range<usize>], end: usize) -> Option<Range<usize>> {
    let at = parts.iter().position(|part| part.end == end)?;
    let own = &parts[at];
    Some(match (parts.get(at + 1), at.checked_sub(1)) {
        (Some(next), _) => own.start..next.start,
        (None, Some(before)) => parts[before].end..own.end,
        (None, None) => own.clone(),
    })
}

/// The lines of tables with the comments that belong to them, and one of the gaps about them.
fn tables(text: &str, node: Node<'_>, keeps_comment: bool) -> Vec<Range<usize>> {
    let mut ranges: Vec<Range<usize>> = Vec::new();
    for (place, own) in blocks::all(text, node).into_iter().enumerate() {
        let start = if keeps_comment && place == 0 { own.start } else { blocks::with_comment(text, own.start) };
        let mut end = blocks::with_tail(text, own.end);
        let above_is_free = start == 0 || text[..start].trim_end_matches([' ', '\t', '\r', '\n']).len() + 1 < start;
        let below_is_free = |end: usize| end < text.len() && text[end..blocks::line_end(text, end)].trim().is_empty();
        if (above_is_free || start != own.start) || keeps_comment && place == 0 {
            while below_is_free(end) {
                end = blocks::line_end(text, end);
            }
        }
        match ranges.last_mut() {
            Some(last) if last.end >= start => last.end = end,
            _ => ranges.push(start..end),
        }
    }
    ranges
}

//! Moves an entry of a list to another place in it, each with the comment above it.

use std::ops::Range;

use toml_edit::Value;

use super::tree::{Node, Tree, keys};
use super::{Splice, blocks};
use crate::problem::Problem;

pub(super) fn reorder(tree: &Tree<'_>, path: &str, to: usize) -> Result<Vec<Splice>, Problem> {
    let keys = keys(path);
    let nothing = || tree.nothing_there(path);
    let (Some(node), Some((_, parent))) = (tree.find(&keys), keys.split_last()) else { return Err(nothing()) };
    let text = tree.text();
    let (spans, from): (Vec<Range<usize>>, Option<usize>) = match (tree.find(parent), node) {
        (Some(Node::Entries(entries)), Node::Table(own)) => {
            let from = entries.iter().position(|entry| entry.span() == own.span());
            let spans = entries.iter().enumerate().filter_map(|(place, entry)| {
                let lines = blocks::all(text, Node::Table(entry));
                let (first, last) = (lines.first()?.start, lines.last()?.end);
                // What is said above the first entry is said of the list.
                let start = if place == 0 { first } else { blocks::with_comment(text, first) };
                Some(start..blocks::with_tail(text, last))
            });
            (spans.collect(), from)
        }
        (Some(Node::Value(Value::Array(parts))), Node::Value(own)) => {
            let spans: Vec<Range<usize>> = parts.iter().filter_map(Value::span).collect();
            let from = own.span().and_then(|own| spans.iter().position(|span| *span == own));
            (spans, from)
        }
        _ => {
            let message = "this stands in no list, so it has no place in one";
            return Err(tree.problem(0..0, path, message, "move an entry such as a point, a lift or a layer"));
        }
    };
    let from = from.ok_or_else(nothing)?;
    if to >= spans.len() || spans.windows(2).any(|pair| pair[0].end > pair[1].start) {
        let message = format!("the list has {} entries", spans.len());
        return Err(tree.problem(0..0, path, message, format!("write a place from 0 to {}", spans.len() - 1)));
    }
    let mut order: Vec<usize> = (0..spans.len()).collect();
    let moved = order.remove(from);
    order.insert(to, moved);
    let ends_bare = |piece: &str| !piece.ends_with('\n') && matches!(node, Node::Table(_));
    let splices = spans.iter().zip(order).map(|(span, other)| {
        let piece = &text[spans[other].clone()];
        let piece = if ends_bare(piece) { format!("{piece}{}", blocks::eol(text)) } else { piece.to_owned() };
        (span.clone(), piece)
    });
    Ok(splices.collect())
}

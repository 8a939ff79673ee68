//! Writes a table or an entry of a list that is not there yet, in the style of those beside it.

use toml_edit::{Document, Item, Table, Value};

use super::tree::{Node, Tree, holds_named, is_listed, is_name, keys};
use super::{Splice, blocks, quoted, set};
use crate::problem::Problem;

pub(super) fn add(tree: &Tree<'_>, path: &str, body: &str) -> Result<Vec<Splice>, Problem> {
    let keys = keys(path);
    let Some((name, parent)) = keys.split_last() else { return Err(tree.nothing_there(path)) };
    if tree.find(&keys).is_some() {
        return Err(tree.problem(0..0, path, "this is written already", "give the new one its own name"));
    }
    let is_number = name.parse::<usize>().is_ok();
    if !is_name(name) && !is_number || !parent.iter().all(|key| is_name(key) || key.parse::<usize>().is_ok()) {
        let hint = "use small letters, figures and hyphens, such as south-window";
        return Err(tree.problem(0..0, path, format!("\"{name}\" is no name"), hint));
    }
    let unread = || {
        let hint = "write keys and values, such as width = \"900 mm\"";
        tree.problem(0..0, path, "what is to stand in it cannot be read", hint)
    };
    let inside = Document::parse(body).map_err(|_| unread())?;
    let Some(pairs) = pairs(body, inside.as_table()) else { return Err(unread()) };
    let has_name = inside.as_table().contains_key("name") || is_number;
    let in_braces = |with_name: bool| {
        let own = (with_name && !has_name).then(|| format!("name = {}", quoted(name)));
        let all: Vec<String> = own.into_iter().chain(pairs.iter().cloned()).collect();
        if all.is_empty() { "{}".to_owned() } else { format!("{{ {} }}", all.join(", ")) }
    };
    let lines = lines(body);
    let splice = match tree.find(parent) {
        Some(Node::Entries(_)) => set::new_table(tree, parent, &entry(parent, name, has_name, &lines)),
        Some(Node::Value(Value::Array(parts))) => in_brackets(tree, parts, &in_braces(true)).ok_or_else(unread)?,
        Some(Node::Value(Value::InlineTable(table))) => {
            let (at, [before, after]) = blocks::in_braces(table).ok_or_else(unread)?;
            (at..at, format!("{before}{name} = {}{after}", in_braces(false)))
        }
        Some(Node::Value(_)) => {
            let message = format!("`{}` is a value and has no tables in it", parent.join("."));
            return Err(tree.problem(0..0, path, message, "write the value itself"));
        }
        Some(Node::Table(table)) if tree.crosses_a_list(&keys) || holds_named(parent) && is_in_lines(table) => {
            set::new_line(tree, parent, table, &format!("{name} = {}", in_braces(false)))
        }
        Some(Node::Table(_)) => set::new_table(tree, parent, &format!("[{path}]\n{lines}", path = keys.join("."))),
        None => {
            let depth = (0..keys.len()).rev().find(|depth| tree.find(&keys[..*depth]).is_some()).unwrap_or(0);
            if tree.crosses_a_list(&keys) || matches!(tree.find(&keys[..depth]), Some(Node::Entries(_))) {
                return Err(tree.nothing_there(&parent.join(".")));
            }
            let block = if is_listed(parent) {
                entry(parent, name, has_name, &lines)
            } else {
                format!("[{}]\n{lines}", keys.join("."))
            };
            set::new_table(tree, &keys[..depth], &block)
        }
    };
    Ok(vec![splice])
}

/// Keys and values, each as written; none where a table has a header.
fn pairs(body: &str, inside: &Table) -> Option<Vec<String>> {
    let pair = |(key, item): (&str, &Item)| Some(format!("{key} = {}", body.get(item.as_value()?.span()?)?));
    inside.iter().map(pair).collect()
}

fn lines(body: &str) -> String {
    let body = body.trim();
    if body.is_empty() { String::new() } else { format!("{body}\n") }
}

fn entry(list: &[String], name: &str, has_name: bool, lines: &str) -> String {
    let own = if has_name { String::new() } else { format!("name = {}\n", quoted(name)) };
    format!("[[{}]]\n{own}{lines}", list.join("."))
}

/// Whether the named tables inside are written in braces, one to a line.
fn is_in_lines(table: &Table) -> bool {
    table.iter().any(|(_, item)| item.is_inline_table()) && !table.iter().any(|(_, item)| item.is_table())
}

/// One part more of a list in brackets, in lines when its parts stand in lines.
fn in_brackets(tree: &Tree<'_>, parts: &toml_edit::Array, part: &str) -> Option<Splice> {
    let (text, span) = (tree.text(), parts.span()?);
    let Some(last) = parts.iter().last().and_then(Value::span) else {
        return Some((span.start + 1..span.start + 1, part.to_owned()));
    };
    let line = blocks::line_start(text, last.start);
    let is_in_lines = line > span.start && text[line..last.start].trim().is_empty();
    let between = if is_in_lines { format!(",{}{}", blocks::eol(text), &text[line..last.start]) } else { ", ".into() };
    Some((last.end..last.end, format!("{between}{part}")))
}

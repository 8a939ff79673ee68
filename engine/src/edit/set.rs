//! Writes a value at a key: in the style of the one that stands there, or as a new key of its table.

use toml_edit::Value;

use super::tree::{Node, Tree, holds_named, is_listed, keys};
use super::{Splice, blocks, value};
use crate::problem::Problem;

pub(super) fn set(tree: &Tree<'_>, path: &str, to: &str) -> Result<Vec<Splice>, Problem> {
    let keys = keys(path);
    if keys.iter().any(|key| key.is_empty() || key.contains(|sign: char| !is_bare(sign))) {
        return Err(tree.problem(0..0, path, "this is no key of a build file", "write keys with dots between them"));
    }
    match tree.find(&keys) {
        Some(Node::Value(old)) => value::splices(tree.text(), old, to).ok_or_else(|| is_table(tree, path)),
        Some(Node::Table(_) | Node::Entries(_)) => Err(is_table(tree, path)),
        None => new_key(tree, path, &keys, &value::fresh(to)).map(|splice| vec![splice]),
    }
}

fn is_bare(sign: char) -> bool {
    sign.is_ascii_alphanumeric() || matches!(sign, '-' | '_')
}

fn is_table(tree: &Tree<'_>, path: &str) -> Problem {
    tree.problem(0..0, path, "a table stands there, not a value", "write one of its keys")
}

/// Where a new key goes: into its table, or into a new one.
fn new_key(tree: &Tree<'_>, path: &str, keys: &[String], to: &str) -> Result<Splice, Problem> {
    let depth = (0..keys.len()).rev().find(|depth| tree.find(&keys[..*depth]).is_some()).unwrap_or(0);
    let (there, missing) = keys.split_at(depth);
    let no_entry = |list: &[String]| {
        let message = format!("there is no entry `{}` in `{}`", keys[list.len()], list.join("."));
        tree.problem(0..0, path, message, "add the entry first")
    };
    match tree.find(there) {
        Some(Node::Table(_)) if missing.len() > 1 && is_listed(&keys[..=depth]) => Err(no_entry(&keys[..=depth])),
        Some(Node::Table(table)) => {
            let of_its_own = missing.len() > 1
                && (depth == 0 || holds_named(there) || holds_named(&keys[..=depth]))
                && !tree.crosses_a_list(keys);
            if of_its_own {
                let (table, key) = (keys[..keys.len() - 1].join("."), &keys[keys.len() - 1]);
                return Ok(new_table(tree, there, &format!("[{table}]\n{key} = {to}\n")));
            }
            Ok(new_line(tree, there, table, &nested(missing, to)))
        }
        Some(Node::Value(Value::InlineTable(table))) => {
            let (at, [before, after]) = blocks::in_braces(table).ok_or_else(|| tree.nothing_there(path))?;
            Ok((at..at, format!("{before}{}{after}", nested(missing, to))))
        }
        Some(Node::Entries(_)) => Err(no_entry(there)),
        // The second measure of a pole that was measured one way.
        Some(Node::Value(Value::Array(parts))) if missing == ["2"] && parts.len() == 1 => {
            let last = parts.get(0).and_then(Value::span).ok_or_else(|| tree.nothing_there(path))?;
            Ok((last.end..last.end, format!(", {to}")))
        }
        Some(Node::Value(_)) | None => {
            let message = format!("`{}` is a value and has no keys", there.join("."));
            Err(tree.problem(0..0, path, message, "write the value itself"))
        }
    }
}

/// `round = "1 m"`, or `arc = { through = .. }` where the table in between is missing as well.
fn nested(missing: &[String], to: &str) -> String {
    match missing {
        [] => to.to_owned(),
        [key] => format!("{key} = {to}"),
        [key, rest @ ..] => format!("{key} = {{ {} }}", nested(rest, to)),
    }
}

/// A line of its own after the last value of a table.
pub(super) fn new_line(tree: &Tree<'_>, there: &[String], table: &toml_edit::Table, line: &str) -> Splice {
    let text = tree.text();
    if table.is_implicit() && !table.is_dotted() && !there.is_empty() {
        let first = blocks::all(text, Node::Table(table)).first().map_or(text.len(), |lines| lines.start);
        let at = blocks::with_comment(text, first);
        return (at..at, blocks::after_line(text, at, &format!("[{}]\n{line}\n\n", there.join("."))));
    }
    let dotted = there.len() - (0..there.len()).rev().take_while(|depth| is_dotted(tree, &there[..=*depth])).count();
    let prefix: String = there[dotted..].iter().map(|key| format!("{key}.")).collect();
    let header = if there.is_empty() || table.is_dotted() { None } else { table.span().map(|span| span.end) };
    let last = blocks::values_end(table).max(header);
    let at = last.map_or(0, |last| blocks::line_end(text, last));
    (at..at, blocks::after_line(text, at, &format!("{prefix}{line}\n")))
}

fn is_dotted(tree: &Tree<'_>, keys: &[String]) -> bool {
    matches!(tree.find(keys), Some(Node::Table(table)) if table.is_dotted())
}

/// Lines of a new table after all that is in the one which it belongs to, or at the end of the file.
pub(super) fn new_table(tree: &Tree<'_>, within: &[String], lines: &str) -> Splice {
    let text = tree.text();
    let last = match tree.find(within) {
        Some(node) if !within.is_empty() => blocks::all(text, node).last().map(|lines| lines.end),
        _ => None,
    };
    let at = last.map_or(text.len(), |end| blocks::with_tail(text, end));
    let gap = if text[..at].trim().is_empty() { "" } else { "\n" };
    (at..at, blocks::after_line(text, at, &format!("{gap}{lines}")))
}

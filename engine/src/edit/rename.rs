//! Gives a thing another name, and writes that name wherever the file means the thing.

use std::ops::Range;

use toml_edit::{Item, Key, Table, Value};

use super::tree::{Node, Tree, holds_named, is_listed, is_name, is_named, keys};
use super::{Splice, blocks, set, value};
use crate::problem::Problem;

pub(super) fn rename(tree: &Tree<'_>, path: &str, to: &str) -> Result<Vec<Splice>, Problem> {
    let keys = keys(path);
    let (Some(node), Some((name, parent))) = (tree.find(&keys), keys.split_last()) else {
        return Err(tree.nothing_there(path));
    };
    let refuse = |message: String, hint: &str| Err(tree.problem(0..0, path, message, hint));
    if !is_name(to) {
        return refuse(format!("\"{to}\" is no name"), "use small letters, figures and hyphens, such as south-window");
    }
    if to == name {
        return Ok(Vec::new());
    }
    if !holds_named(parent) && !is_listed(parent) {
        let hint = "rename a point, a lift, a layer, an opening or another thing that the builder named";
        return refuse("this name is the program's own".into(), hint);
    }
    if parent == ["prices"] || parent == ["rules", "tolerances"] {
        let message = "this bears the name of what it is about and has none of its own";
        return refuse(message.into(), "rename the thing itself, or write it anew under the other name");
    }
    if tree.find(&child(parent, to)).is_some() || is_of_another(tree, parent, to) {
        return refuse(format!("the name \"{to}\" is taken"), "give each its own name");
    }
    let mut renamed = Renamed { tree, parent, name, to, splices: Vec::new() };
    renamed.own(node);
    renamed.table(&mut Vec::new(), tree.root());
    let mut splices = renamed.splices;
    // A wall whose recipe is not written takes the one of that name, a trench whose filling is not written gravel.
    let unwritten = match (parent.join(".").as_str(), name.as_str()) {
        ("earth.recipes", "cob") => Some("wall.recipe"),
        ("earth.ingredients", "gravel") if tree.find(&["water", "trench"].map(str::to_owned)).is_some() => {
            Some("water.trench.of")
        }
        _ => None,
    };
    if let Some(path) = unwritten.filter(|path| tree.written(path).is_none()) {
        splices.extend(set::set(tree, path, to)?);
    }
    Ok(splices)
}

fn child(parent: &[String], name: &str) -> Vec<String> {
    [parent, &[name.to_owned()]].concat()
}

/// Whether an ingredient or a recipe of a name would be taken for another thing: both are meant by the same keys, and an
/// ingredient is bought by its name.
fn is_of_another(tree: &Tree<'_>, parent: &[String], name: &str) -> bool {
    let stuff = ["earth.ingredients", "earth.recipes"].map(keys);
    if !stuff.iter().any(|table| table == parent) {
        return false;
    }
    let mut meant = Renamed { tree, parent, name, to: "", splices: Vec::new() };
    meant.table(&mut Vec::new(), tree.root());
    !meant.splices.is_empty() || stuff.iter().any(|table| tree.find(&child(table, name)).is_some())
}

struct Renamed<'a> {
    tree: &'a Tree<'a>,
    parent: &'a [String],
    name: &'a str,
    to: &'a str,
    splices: Vec<Splice>,
}

impl Renamed<'_> {
    /// Where the thing itself bears its name.
    fn own(&mut self, node: Node<'_>) {
        match node {
            Node::Table(table) if is_listed(self.parent) => {
                self.value(table.get("name").and_then(Item::as_value));
            }
            Node::Value(Value::InlineTable(table)) if is_named(table, self.name) => self.value(table.get("name")),
            Node::Table(table) if !table.is_dotted() => {
                let depth = self.parent.len();
                for lines in blocks::all(self.tree.text(), Node::Table(table)) {
                    self.header(lines.start, depth);
                }
            }
            _ => {
                let table = match self.tree.find(self.parent) {
                    Some(Node::Table(table)) => table.key(self.name).and_then(Key::span),
                    Some(Node::Value(Value::InlineTable(table))) => table.key(self.name).and_then(Key::span),
                    _ => None,
                };
                self.key(table);
            }
        }
    }

    /// The key at a depth of the header in a line.
    fn header(&mut self, line: usize, depth: usize) {
        let text = self.tree.text();
        let end = blocks::line_end(text, line);
        let Some(open) = text[line..end].find('[') else { return };
        let start = line + open + text[line + open..end].bytes().take_while(|byte| *byte == b'[').count();
        let mut at = start;
        for (place, key) in text[start..end].split(['.', ']']).enumerate() {
            if place == depth && key.trim().trim_matches(['"', '\'']) == self.name {
                let before = key.len() - key.trim_start().len();
                self.splices.push((at + before..at + before + key.trim().len(), self.to.to_owned()));
                return;
            }
            at += key.len() + 1;
        }
    }

    fn key(&mut self, span: Option<Range<usize>>) {
        self.splices.extend(span.map(|span| (span, self.to.to_owned())));
    }

    fn value(&mut self, old: Option<&Value>) {
        let new = super::quoted(self.to);
        let splices = old.and_then(|old| value::splices(self.tree.text(), old, &new));
        self.splices.extend(splices.unwrap_or_default());
    }

    /// Where other things mean it.
    fn table(&mut self, path: &mut Vec<String>, table: &Table) {
        for (name, item) in table.iter() {
            path.push(name.to_owned());
            match item {
                Item::Value(value) => self.inside(path, table.key(name), value),
                Item::Table(inner) => {
                    if self.means_by_key(path) && !inner.is_dotted() {
                        let depth = path.len() - 1;
                        let lines = blocks::all(self.tree.text(), Node::Table(inner));
                        lines.into_iter().for_each(|lines| self.header(lines.start, depth));
                    }
                    self.table(path, inner);
                }
                Item::ArrayOfTables(entries) => {
                    for entry in entries.iter() {
                        self.table(path, entry);
                    }
                }
                Item::None => {}
            }
            path.pop();
        }
    }

    fn inside(&mut self, path: &mut Vec<String>, key: Option<&Key>, value: &Value) {
        if self.means_by_key(path) {
            self.key(key.and_then(Key::span));
        }
        match value {
            Value::String(text) if text.value() == self.name && self.means(path) => self.value(Some(value)),
            Value::Array(parts) => parts.iter().for_each(|part| self.inside(path, None, part)),
            Value::InlineTable(table) => {
                for (name, inner) in table.iter() {
                    path.push(name.to_owned());
                    self.inside(path, table.key(name), inner);
                    path.pop();
                }
            }
            _ => {}
        }
    }

    /// Whether a text at a path is the name of such a thing.
    fn means(&self, path: &[String]) -> bool {
        let path: Vec<&str> = path.iter().map(String::as_str).collect();
        let key = path.last().copied().unwrap_or("");
        if let ["tests", "gradings", grading, "hydrometer", "through"] = path[..] {
            return self.parent == ["tests", "gradings", grading, "sieves"];
        }
        let is_of = key == "of" || key.ends_with("-of");
        let is_tested =
            matches!(path[..], ["tests", "bricks" | "mixes" | "panels" | "batches" | "bars" | "erosion", _, "of"]);
        // What else is made of something is bought by the name of it and never mixed.
        let is_mixed = matches!(path[..], ["floor" | "skin" | "built-in", ..] | ["wall", "gap", _]);
        match self.parent.join(".").as_str() {
            "wall.line" => matches!(key, "run" | "to-run") || path == ["wall", "top", "from"],
            "wall.lifts" => {
                (path.starts_with(&["wall", "anchors"]) || path.starts_with(&["tests", "batches"])) && key == "lift"
            }
            "openings" => path == ["floor", "bays", "way-out"],
            "earth.recipes" => path == ["wall", "recipe"] || is_of && is_mixed || is_tested,
            "earth.ingredients" => {
                let is_recipe =
                    || self.tree.find(&child(&["earth", "recipes"].map(str::to_owned), self.name)).is_some();
                path == ["site", "topsoil-as"]
                    || matches!(path[..], ["tests", "sand-to-add", _, "soil" | "sand"])
                    || is_of && !is_tested && !(is_mixed && is_recipe())
            }
            "site.vehicles" => path.starts_with(&["prices"]) && key == "by",
            _ => false,
        }
    }

    /// Whether the last key of a path is the name of such a thing: an ingredient in a recipe, a tried mix or a panel, its price, or what was
    /// measured of tried mixes.
    fn means_by_key(&self, path: &[String]) -> bool {
        if path.last().is_none_or(|last| last != self.name) {
            return false;
        }
        let path: Vec<&str> = path.iter().map(String::as_str).collect();
        if let ["tests", "mixes", mixes, "tried", _, "found", _] = path[..] {
            return self.parent == ["tests", "mixes", mixes, "wishes"];
        }
        if self.parent != ["earth", "ingredients"] {
            return false;
        }
        match path[..] {
            ["prices", _] => true,
            ["earth", "recipes", _, measure, _] => matches!(measure, "buckets" | "dry"),
            ["tests", "mixes", _, "limits", _] | ["tests", "mixes", _, "tried", _, "buckets", _] => true,
            ["tests", "panels", _, "each", _, "buckets", _] => true,
            _ => false,
        }
    }
}

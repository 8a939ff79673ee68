//! The tree of a build file with the place of everything in its text, looked up by path.

use toml_edit::{ArrayOfTables, Document, Item, Table, TableLike, Value};

use super::{problem, value};
use crate::problem::Problem;

/// A build file read for being changed.
#[derive(Clone, Debug)]
pub struct Tree<'t> {
    text: &'t str,
    file: Document<&'t str>,
}

/// What stands at a path.
#[derive(Clone, Copy, Debug)]
pub(super) enum Node<'a> {
    /// A table with a header, or one of dotted keys.
    Table(&'a Table),
    /// Entries that each have a header in double brackets.
    Entries(&'a ArrayOfTables),
    /// A value, a list or a table in braces among them.
    Value(&'a Value),
}

/// Lists whose entries have names and headers of their own.
const LISTED: [&str; 7] =
    ["wall.line", "wall.lifts", "floor.layers", "floor.oil", "skin.inside", "skin.outside", "roof.layers"];
/// Tables of named tables.
const NAMED: [&str; 26] = [
    "openings",
    "built-in",
    "services",
    "prices",
    "earth.ingredients",
    "earth.recipes",
    "wall.anchors",
    "site.vehicles",
    "site.trees",
    "site.wells",
    "site.lines",
    "site.buried",
    "site.yard",
    "rules.tolerances",
    "tests.bricks",
    "tests.jars",
    "tests.limits",
    "tests.mixes",
    "tests.panels",
    "tests.batches",
    "tests.gradings",
    "tests.sand-to-add",
    "tests.moisture",
    "tests.bulking",
    "tests.weighings",
    "tests.feel",
];

impl<'t> Tree<'t> {
    /// Reads a text.
    ///
    /// # Errors
    /// Where it is not TOML.
    pub fn of(text: &'t str) -> Result<Tree<'t>, Problem> {
        match Document::parse(text) {
            Ok(file) => Ok(Tree { text, file }),
            Err(error) => {
                let span = error.span().unwrap_or(0..0);
                Err(problem(text, span, "", "the file cannot be read from here on", "mend this line first"))
            }
        }
    }

    /// The text it was read from.
    #[must_use]
    pub fn text(&self) -> &'t str {
        self.text
    }

    /// The value at a path, as [`super::written`].
    #[must_use]
    pub fn written(&self, path: &str) -> Option<String> {
        match self.find(&keys(path))? {
            Node::Value(found) => value::shown(self.text, found),
            Node::Table(_) | Node::Entries(_) => None,
        }
    }

    pub(super) fn root(&self) -> &Table {
        self.file.as_table()
    }

    pub(super) fn find(&self, keys: &[String]) -> Option<Node<'_>> {
        keys.iter().try_fold(Node::Table(self.root()), |node, key| node.child(key))
    }

    /// Whether a path leads through an entry that has no header of its own name.
    pub(super) fn crosses_a_list(&self, keys: &[String]) -> bool {
        (1..keys.len()).any(|depth| matches!(self.find(&keys[..depth]), Some(Node::Entries(_))))
    }
}

impl<'a> Node<'a> {
    pub(super) fn child(self, key: &str) -> Option<Node<'a>> {
        let number = || key.parse::<usize>().ok()?.checked_sub(1);
        match self {
            Node::Table(table) => of_item(table.get(key)?),
            Node::Entries(entries) => {
                let named = entries.iter().find(|entry| is_named(*entry, key));
                named.or_else(|| entries.get(number()?)).map(Node::Table)
            }
            Node::Value(Value::InlineTable(table)) => table.get(key).map(Node::Value),
            Node::Value(Value::Array(parts)) => {
                let named = parts.iter().find(|part| part.as_inline_table().is_some_and(|part| is_named(part, key)));
                let axis = || ["x", "y"].iter().position(|axis| *axis == key);
                named.or_else(|| parts.get(number().or_else(axis)?)).map(Node::Value)
            }
            Node::Value(_) => None,
        }
    }
}

pub(super) fn is_named(table: &dyn TableLike, name: &str) -> bool {
    table.get("name").and_then(Item::as_str) == Some(name)
}

fn of_item(item: &Item) -> Option<Node<'_>> {
    match item {
        Item::None => None,
        Item::Value(value) => Some(Node::Value(value)),
        Item::Table(table) => Some(Node::Table(table)),
        Item::ArrayOfTables(entries) => Some(Node::Entries(entries)),
    }
}

/// The keys of a path of the file, or of a row that shows one value of it.
pub(super) fn keys(path: &str) -> Vec<String> {
    let mut keys: Vec<String> = path.split('.').map(str::to_owned).collect();
    let of_point = keys.len() == 4 && keys[0] == "wall" && keys[1] == "line";
    let inner: &[&str] = match keys.last().map(String::as_str).filter(|_| of_point) {
        Some("x") => &["at", "x"],
        Some("y") => &["at", "y"],
        Some("through-x") => &["arc", "through", "x"],
        Some("through-y") => &["arc", "through", "y"],
        Some("leave-x") => &["curve", "leave", "x"],
        Some("leave-y") => &["curve", "leave", "y"],
        Some("arrive-x") => &["curve", "arrive", "x"],
        Some("arrive-y") => &["curve", "arrive", "y"],
        _ => return keys,
    };
    keys.pop();
    keys.extend(inner.iter().map(|key| (*key).to_owned()));
    keys
}

/// Whether a path is that of a list of named entries.
pub(super) fn is_listed(keys: &[String]) -> bool {
    LISTED.contains(&keys.join(".").as_str())
}

/// Whether a path is that of a table of named tables.
pub(super) fn holds_named(keys: &[String]) -> bool {
    let keys: Vec<&str> = keys.iter().map(String::as_str).collect();
    NAMED.contains(&keys.join(".").as_str())
        || matches!(
            keys[..],
            ["tests", "bricks" | "panels" | "batches", _, "each"]
                | ["tests", "jars", _, "readings"]
                | ["tests", "gradings", _, "sieves"]
                | ["tests", "gradings", _, "hydrometer", "readings"]
                | ["tests", "mixes", _, "wishes" | "tried"]
        )
}

/// Whether a text is a name: small letters, figures and hyphens.
pub(super) fn is_name(text: &str) -> bool {
    text.starts_with(|first: char| first.is_ascii_lowercase())
        && text.bytes().all(|byte| byte.is_ascii_lowercase() || byte.is_ascii_digit() || byte == b'-')
}

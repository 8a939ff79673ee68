//! Changes a build file where it is written: comments, order and spacing stay, byte for byte, outside of what is changed.
//!
//! The text is read with the place of every key and every value, and pieces of it are put in the place of others; it is
//! never written anew. A path names tables and entries of lists by their names, such as `wall.line.back.at` or
//! `wall.lifts.first.top`; parts of a list without names count from 1, and `x` and `y` are the two parts of a place.

mod add;
mod blocks;
mod like;
mod remove;
mod rename;
mod reorder;
mod set;
mod tree;
mod value;

pub use like::{Step, like};
pub use tree::Tree;
pub use value::quoted;

use std::ops::Range;

use crate::problem::{Problem, line_and_column};

/// One change of a build file.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Edit {
    /// Writes a value at a key, there or not yet there.
    Set {
        /// The key.
        path: String,
        /// A TOML value, or bare words such as `450 mm`, which are put in quotes; a list may be written `1 m, 2 m`.
        to: String,
    },
    /// Writes a table, or an entry of a list, that is not there yet.
    Add {
        /// Its path; the last key is the name of an entry of a list.
        path: String,
        /// What stands in it, as TOML.
        body: String,
    },
    /// Takes out a key, a table with all that is in it, or an entry of a list.
    Remove {
        /// Its path.
        path: String,
    },
    /// Gives a named table or entry another name, and writes that name wherever it is meant.
    Rename {
        /// Its path.
        path: String,
        /// The new name.
        to: String,
    },
    /// Moves an entry of a list to another place in it.
    Move {
        /// Its path.
        path: String,
        /// Place in the list, from 0.
        to: usize,
    },
}

/// The text of a build file after a change; only TOML is looked at, not what the house makes of it.
///
/// # Errors
/// One sentence when the text is not TOML, when there is nothing at the path or something already, when a name is no name
/// or is taken, and when a thing cannot be renamed.
pub fn edit(text: &str, edit: &Edit) -> Result<String, Problem> {
    edits(text, std::slice::from_ref(edit))
}

/// The text after changes, one after the other.
///
/// # Errors
/// As [`edit`], of the first that cannot be made.
pub fn edits(text: &str, edits: &[Edit]) -> Result<String, Problem> {
    made(&Tree::of(text)?, edits)
}

/// The same on a text that was read already, by values that stand apart in it; whether it can be read then is not looked at.
pub(crate) fn drawn(tree: &Tree<'_>, edits: &[Edit]) -> Result<String, Problem> {
    if apart(tree, edits) < edits.len() {
        return made(tree, edits);
    }
    spliced_by(tree, edits)
}

/// Changes of which none moves what another means.
fn spliced_by(tree: &Tree<'_>, edits: &[Edit]) -> Result<String, Problem> {
    let mut splices = Vec::new();
    for edit in edits {
        splices.extend(match edit {
            Edit::Set { path, to } => set::set(tree, path, to)?,
            Edit::Add { path, body } => add::add(tree, path, body)?,
            Edit::Remove { path } => remove::remove(tree, path)?,
            Edit::Rename { path, to } => rename::rename(tree, path, to)?,
            Edit::Move { path, to } => reorder::reorder(tree, path, *to)?,
        });
    }
    Ok(spliced(tree.text(), splices))
}

/// What is read to see that a change leaves a file is what the next one changes.
fn made(tree: &Tree<'_>, edits: &[Edit]) -> Result<String, Problem> {
    let Some(first) = edits.first() else { return Ok(tree.text().to_owned()) };
    let (now, later) = edits.split_at(apart(tree, edits).max(1));
    let text = spliced_by(tree, now)?;
    let (Edit::Set { path, .. }
    | Edit::Add { path, .. }
    | Edit::Remove { path }
    | Edit::Rename { path, .. }
    | Edit::Move { path, .. }) = first;
    let Ok(after) = Tree::of(&text) else {
        let message = "the change would leave a file that cannot be read";
        return Err(tree.problem(0..0, path, message, "write one value, in quotes when it has a unit"));
    };
    let more = (!later.is_empty()).then(|| made(&after, later));
    drop(after);
    more.unwrap_or(Ok(text))
}

/// How many changes, from the first, write values that stand apart from each other: none of them moves what another means.
fn apart(tree: &Tree<'_>, edits: &[Edit]) -> usize {
    let mut spans: Vec<Range<usize>> = Vec::new();
    let stands_apart = |edit: &&Edit| -> bool {
        let Edit::Set { path, .. } = edit else { return false };
        let keys = tree::keys(path);
        let is_name = keys.last().is_some_and(|key| key == "name");
        let Some(tree::Node::Value(value)) = tree.find(&keys).filter(|_| !is_name) else { return false };
        let Some(span) = value.span() else { return false };
        let is_clear = spans.iter().all(|other| other.end <= span.start || span.end <= other.start);
        spans.push(span);
        is_clear
    };
    edits.iter().take_while(stands_apart).count()
}

/// The value at a path as one reads it, without quotes; of a list its parts with commas between. None for a table and for what
/// is not there.
#[must_use]
pub fn written(text: &str, path: &str) -> Option<String> {
    Tree::of(text).ok()?.written(path)
}

/// A stretch of the text and what is to stand there.
type Splice = (Range<usize>, String);

fn spliced(text: &str, mut splices: Vec<Splice>) -> String {
    splices.sort_by_key(|(range, _)| range.start);
    let mut edited = String::with_capacity(text.len() + 64);
    let mut at = 0;
    for (range, piece) in &splices {
        edited.push_str(text.get(at..range.start).unwrap_or_default());
        edited.push_str(piece);
        at = at.max(range.end);
    }
    edited.push_str(text.get(at..).unwrap_or_default());
    edited
}

impl Tree<'_> {
    /// A refusal at a byte range of the text.
    fn problem(&self, span: Range<usize>, path: &str, message: impl Into<String>, hint: impl Into<String>) -> Problem {
        problem(self.text(), span, path, message, hint)
    }

    fn nothing_there(&self, path: &str) -> Problem {
        self.problem(0..0, path, "nothing is written there", "look for its name in the file")
    }
}

fn problem(text: &str, span: Range<usize>, path: &str, message: impl Into<String>, hint: impl Into<String>) -> Problem {
    let (line, column) = line_and_column(text, span.start);
    Problem { line, column, span, path: path.to_owned(), message: message.into(), hint: hint.into() }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn changes_made_at_once_are_those_made_one_after_the_other() {
        let text = "[[wall.line]]\nname = \"back\"\nat = [\"1 m\", \"2 m\"] # peg\n[[wall.line]]\nname = \"front\"\n\
                    at = [\"3 m\", \"4 m\"]\n[wall]\nheight = \"2 m\"\n";
        let set = |path: &str, to: &str| Edit::Set { path: path.to_owned(), to: to.to_owned() };
        let all = [
            set("wall.line.back.x", "11 m"),
            set("wall.line.back.y", "-2 m"),
            set("wall.line.back.at", "5 m, 6 m"),
            set("wall.line.back.x", "7 m"),
            set("wall.thickness", "45 cm"),
            set("wall.thickness", "46 cm"),
            set("wall.line.back.name", "rear"),
            set("wall.line.rear.y", "8 m"),
            set("wall.height", "2.1 m"),
        ];
        for from in 0..all.len() {
            for to in from..=all.len() {
                let one_by_one = all[from..to].iter().try_fold(text.to_owned(), |text, one| edit(&text, one));
                assert_eq!(edits(text, &all[from..to]), one_by_one, "{from}..{to}");
            }
        }
        assert_eq!(apart(&Tree::of(text).unwrap(), &all), 2);
    }
}

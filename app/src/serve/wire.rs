//! What the page and the program say to each other; the page's own types are generated from this file.

use serde::{Deserialize, Serialize};
use ts_rs::TS;

/// What the page asks: where it stands, and what to change first.
#[derive(Clone, Debug, Deserialize, TS)]
pub struct Look {
    /// The leaf that is open; empty for the way round the house.
    pub leaf: String,
    /// Room for the picture in millimetres of the screen (96 px to the inch).
    pub room_mm: [f64; 2],
    /// The revision whose rows the page has, to be sent only what differs; none for everything.
    pub since: Option<u32>,
    /// What to change; none to look only.
    pub change: Option<Change>,
    /// Whether the finger is still down: nothing is written to disk and no undo step begins.
    pub moving: bool,
    /// A name that the page gives itself when it loads, to tell two tabs apart.
    #[serde(default)]
    #[ts(optional)]
    pub page: Option<String>,
}

/// A change to the build.
#[derive(Clone, Debug, Deserialize, TS)]
#[serde(tag = "kind", rename_all = "kebab-case")]
pub enum Change {
    /// Writes a value as typed at a key of the build file, such as `openings.door.width`.
    Set { path: String, to: String },
    /// Writes several keys of one table as typed, in one step; the table need not be there yet, and what is empty is left out.
    Fill { table: String, keys: Vec<(String, String)> },
    /// Takes a key or table out.
    Remove { path: String },
    /// Adds a thing of a kind (`opening`, `door`, `lift`, `point`, `bench`, `niche`, `bottles`) near a place of the drawing.
    Add { what: String, drawing: String, at_mm: [f64; 2] },
    /// Gives a thing another name.
    Rename { path: String, to: String },
    /// Moves a thing of a list to another place.
    Move { path: String, to: u32 },
    /// Drags a handle of a drawing to a place in the drawing's own millimetres.
    Drag { drawing: String, handle: String, to_mm: [f64; 2] },
    /// Nudges a handle by steps to the right and up, by keyboard.
    Nudge { drawing: String, handle: String, steps: [i32; 2] },
    /// Puts a whole text in place, as mended by hand.
    Whole { text: String },
    /// Back by one step.
    Undo,
    /// Forward by one step.
    Redo,
    /// Units for the eye: `metric`, `us`, or empty for those of the file.
    Units { system: String },
    /// After a clash: keeps what is on the page (`page`) or takes what is on disk (`disk`).
    Settle { keep: String },
    /// Begins anew with a first shape (`ring`, `bean`, `rounded`, `free`), inner length and width as typed.
    Begin { shape: String, length: String, width: String, name: String, system: String },
}

/// What is to be shown.
#[derive(Clone, Debug, Serialize, TS)]
pub struct Frame {
    /// Grows with every change.
    pub revision: u32,
    /// The build file's name; empty before it is on disk.
    pub file: String,
    /// Name of the house.
    pub name: String,
    /// `metric` or `us`.
    pub system: String,
    /// How the text stands to the disk: `saved`, `unsaved`, `clash`, `gone`, `not-written`; with words for the last three.
    pub disk: String,
    pub disk_words: String,
    pub can_undo: bool,
    pub can_redo: bool,
    /// All rows, or those whose words changed since the revision asked for.
    pub rows: Vec<Row>,
    /// Path and value of the rows of which the value alone changed.
    pub values: Vec<(String, String)>,
    /// Paths of rows that are no more.
    pub gone: Vec<String>,
    /// Whether `rows` is everything.
    pub whole: bool,
    /// The checks of the open leaf, the most urgent first; none when unchanged since the revision asked for.
    pub checks: Option<Vec<Check>>,
    /// What is wrong with the change asked for; the last good house goes on being shown.
    pub problems: Vec<Problem>,
    /// The whole text of the file, sent when it does not read.
    pub text: Option<String>,
    /// Drawings of the open leaf; `svg` empty when unchanged.
    pub pictures: Vec<Picture>,
    /// Fields of the open leaf.
    pub fields: Vec<Field>,
    /// Paths of the few rows that the open leaf shows large.
    pub figures: Vec<String>,
    /// Tables of the build file that nothing reads yet, in words.
    pub unread: Vec<String>,
    /// What the house takes that no order counts, in sentences, on the leaf of the orders.
    pub uncounted: Vec<String>,
    /// Recipes as drawings, openings and the like: tables of the open leaf.
    pub tables: Vec<Table>,
    /// What to order, on the leaf that orders.
    pub orders: Vec<Order>,
    /// Long computations of the open leaf.
    pub studies: Vec<Study>,
    /// The revision that the last book made is of; none when none was made of this build.
    pub book: Option<u32>,
    /// Milliseconds that the engine and drawings took.
    pub took_ms: f64,
}

#[derive(Clone, Debug, PartialEq, Serialize, TS)]
pub struct Row {
    pub path: String,
    pub title: String,
    /// The value with its unit.
    pub shown: String,
    /// Where it comes from, in words.
    pub origin: String,
    pub assumed: bool,
}

#[derive(Clone, Debug, PartialEq, Serialize, TS)]
pub struct Check {
    /// `holds`, `tight`, `fails`, `on trust`, `not known`.
    pub state: String,
    pub title: String,
    pub words: String,
    /// The row that it holds a limit against; there may be none of this path.
    pub path: String,
    pub leaf: String,
    /// Where its limit comes from.
    pub rule: String,
    /// Assumed values that the state leans on: path and title; a few where the check before is of the same rule.
    pub leans_on: Vec<(String, String)>,
    /// How many more of them the first check of the rule names.
    pub leans_more: usize,
    /// Who must decide, where a licensed person must; empty otherwise.
    pub who_decides: String,
}

#[derive(Clone, Debug, PartialEq, Serialize, TS)]
pub struct Problem {
    pub path: String,
    /// Line in the text, from 1.
    pub line: u32,
    pub message: String,
    pub hint: String,
}

#[derive(Clone, Debug, PartialEq, Serialize, TS)]
pub struct Picture {
    /// Name of the drawing, as `export` has it.
    pub name: String,
    pub title: String,
    pub note: String,
    /// Its text; its unit is the millimetre of its own `viewBox`.
    pub svg: String,
    pub handles: Vec<Handle>,
    /// Labels that found no room: number and words.
    pub key: Vec<(u32, String)>,
}

/// What can be taken hold of.
#[derive(Clone, Debug, PartialEq, Serialize, TS)]
pub struct Handle {
    pub id: String,
    /// What it is, for who does not see it.
    pub title: String,
    pub at_mm: [f64; 2],
    /// `point`, `curve`, `along`, `up`, `free`: how it looks and which arrow keys move it.
    pub kind: String,
    /// The row shown while it moves.
    pub row: String,
    /// What can be removed by Delete; empty when nothing.
    pub removes: String,
}

#[derive(Clone, Debug, PartialEq, Serialize, TS)]
pub struct Field {
    /// Key in the build file.
    pub path: String,
    pub title: String,
    /// As written; empty when the file has none.
    pub written: String,
    /// What is taken where nothing is written.
    pub taken: String,
    /// Usual range, in the reader's units.
    pub usual: String,
    /// What it is for.
    pub purpose: String,
    /// Group heading.
    pub group: String,
    /// Words to choose from; empty for free text.
    pub choices: Vec<String>,
    /// The thing that its group is about, which can be taken out whole; empty where a group is about none.
    pub thing: String,
}

#[derive(Clone, Debug, PartialEq, Serialize, TS)]
pub struct Table {
    pub title: String,
    pub header: Vec<String>,
    pub rows: Vec<Vec<String>>,
}

/// A long computation.
#[derive(Clone, Debug, PartialEq, Serialize, TS)]
pub struct Study {
    /// Its name, by which `/study/NAME` begins it and `/study/NAME/stop` ends it.
    pub name: String,
    pub title: String,
    /// What it does.
    pub about: String,
    /// How far it is, from 0 to 1; none where it does not run.
    pub share: Option<f64>,
    /// Whether it was stopped before it came to an end.
    pub stopped: bool,
    /// What was found last: of this design or of an earlier one; none where nothing was.
    pub found: Option<Found>,
}

/// What a long computation found.
#[derive(Clone, Debug, PartialEq, Serialize, TS)]
pub struct Found {
    /// Whether it is for the design before the last changes.
    pub before: bool,
    /// What it comes to.
    pub words: Vec<String>,
    pub tables: Vec<Table>,
    /// What was taken, what was left out, how it was done.
    pub notes: Vec<String>,
    /// What people must know before they lean on it; empty where nothing.
    pub caution: String,
    /// What can be taken over; none where nothing is better, or it is of an earlier design.
    pub offer: Option<Offer>,
}

/// A change that the builder may accept.
#[derive(Clone, Debug, PartialEq, Serialize, TS)]
pub struct Offer {
    /// What is to be done, step by step.
    pub words: Vec<String>,
    /// What is written into the build file, where: a change of the kind `set`.
    pub path: String,
    pub to: String,
}

/// A line of what to order.
#[derive(Clone, Debug, PartialEq, Serialize, TS)]
pub struct Order {
    /// What the build calls it: `[prices.NAME]` says what it costs.
    pub name: String,
    /// What the supplier calls it, and what else he must be told.
    pub about: String,
    /// What the build takes.
    pub needed: String,
    /// What to ask for, what one costs and what all do: a dash where it is not known.
    pub order: String,
    pub price: String,
    pub cost: String,
    /// What is open beside its price, in words.
    pub open: Vec<String>,
    /// Whether it is to be paid for and its cost is not known.
    pub has_no_cost: bool,
    /// Whether the build file has a table of its price.
    pub is_written: bool,
    /// Words of what it can be sold by; with each whether one of them must be told what it holds, by an example.
    pub sold_by: Vec<(String, String)>,
}

/// Why a value is what it is.
#[derive(Clone, Debug, Serialize, TS)]
pub struct Reason {
    pub path: String,
    pub title: String,
    pub shown: String,
    pub origin: String,
    /// What was done, in words.
    pub words: String,
    pub equation: String,
    pub source: String,
    pub inputs: Vec<Row>,
    /// Rows that lean on it.
    pub leads_to: Vec<Row>,
}

/// What differs between two builds.
#[derive(Clone, Debug, Serialize, TS)]
pub struct Beside {
    /// Words for the other build.
    pub other: String,
    pub rows: Vec<Differs>,
    pub pictures: [String; 2],
}

#[derive(Clone, Debug, Serialize, TS)]
pub struct Differs {
    pub path: String,
    pub title: String,
    pub here: String,
    pub there: String,
}

/// A thing told by the event stream.
#[derive(Clone, Debug, Serialize, TS)]
#[serde(tag = "kind", rename_all = "kebab-case")]
pub enum Event {
    /// The build changed: in another tab, or on disk.
    Changed { revision: u32, by: String },
    /// A long job goes on: 0 to 1, and what it does.
    Job { name: String, share: f64, words: String },
    /// It ended: with nothing, or with what went wrong; the revision of the build that the last book is of.
    Done { name: String, fault: String, revision: Option<u32> },
    /// A study goes on: 0 to 1.
    Study { name: String, share: f64 },
    /// A study ended, or was stopped: the page looks again.
    Studied { name: String },
}

/// A drawing of the book, to be printed by itself.
#[derive(Clone, Debug, PartialEq, Serialize, TS)]
pub struct Listed {
    /// Its name, by which `/drawing/NAME.svg` gives it.
    pub name: String,
    /// What it shows.
    pub title: String,
}

/// A build file of the folder.
#[derive(Clone, Debug, Serialize, TS)]
pub struct BuildFile {
    /// Its name in the folder.
    pub file: String,
    /// Name of the house; empty where the file does not read.
    pub name: String,
}

/// Which build file of the folder is to be opened.
#[derive(Clone, Debug, Deserialize, TS)]
pub struct Open {
    /// Its name in the folder.
    pub file: String,
}

/// A kept copy of the build.
#[derive(Clone, Debug, Serialize, TS)]
pub struct Kept {
    /// Its name, by which `/beside?file=` finds it.
    pub file: String,
    /// When it was kept, in words.
    pub words: String,
}

#[cfg(test)]
mod tests;

//! A value that was given or assumed, with where it came from.

use std::fmt;

use crate::sources::Standing;

/// Where a value comes from, from the weakest to the strongest.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Origin {
    /// The builder's word for what nobody measured, or for what no word makes surer.
    Word,
    /// Our judgement.
    Judgement,
    /// From memory, or quoted by others.
    Memory,
    /// Common practice of the trade, no source.
    CommonPractice,
    /// A table, a code or a standard seen in the source.
    Table,
    /// Measured by the builder or decided by the builder.
    Given,
}

impl Origin {
    /// The origin in words for a printed page.
    #[must_use]
    pub fn in_words(self) -> &'static str {
        match self {
            Origin::Word => "the builder's word, not measured",
            Origin::Judgement => "our judgement",
            Origin::Memory => "from memory",
            Origin::CommonPractice => "common practice",
            Origin::Table => "from a table",
            Origin::Given => "given by the builder",
        }
    }
}

/// How far a value that stands so can be relied on: only what was seen, derived or supplied counts as a table.
impl From<Standing> for Origin {
    fn from(standing: Standing) -> Self {
        match standing {
            Standing::Missing | Standing::Memory | Standing::Quoted => Origin::Memory,
            Standing::CommonPractice => Origin::CommonPractice,
            Standing::Seen | Standing::Derived | Standing::Supplied => Origin::Table,
        }
    }
}

impl fmt::Display for Origin {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(self.in_words())
    }
}

/// A given or assumed value, never a computed one.
#[derive(Clone, Debug, PartialEq)]
pub struct Known<T> {
    /// The value.
    pub value: T,
    /// Where it comes from.
    pub origin: Origin,
    /// Its key in the build file.
    pub path: String,
    /// The line of the build file when it was written there, from 1.
    pub line: Option<usize>,
    /// Why this value, when it was assumed.
    pub why: &'static str,
    /// Paths of the values that an assumed one was taken from.
    pub follows: Vec<String>,
}

impl<T> Known<T> {
    /// A value written in the build file at `line`.
    #[must_use]
    pub fn given(value: T, path: impl Into<String>, line: usize) -> Self {
        Known { value, origin: Origin::Given, path: path.into(), line: Some(line), why: "", follows: Vec::new() }
    }

    /// A value that stands in for one that was not written, and why.
    #[must_use]
    pub fn assumed(value: T, path: impl Into<String>, origin: Origin, why: &'static str) -> Self {
        Known { value, origin, path: path.into(), line: None, why, follows: Vec::new() }
    }

    /// Says which other value an assumed one was taken from.
    #[must_use]
    pub fn following(mut self, path: impl Into<String>) -> Self {
        self.follows.push(path.into());
        self
    }
}

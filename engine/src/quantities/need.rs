//! What a part of the build takes from outside, as rows in every measure that it has.

use crate::row::Rows;
use crate::units::{Kind, Quantity};

/// What a part of the build takes of one thing.
#[derive(Clone, Debug, PartialEq)]
pub struct Need {
    /// What the build calls the thing.
    pub good: String,
    /// The same amount as mass, volume, area or count: paths of rows.
    pub rows: Vec<String>,
}

impl Need {
    /// A need of a thing, each path another measure of the same amount.
    pub(super) fn of<const N: usize>(good: &str, rows: [String; N]) -> Need {
        Need { good: good.to_owned(), rows: rows.to_vec() }
    }

    /// The row that measures it by a kind of quantity: path, title, value.
    #[must_use]
    pub fn by<'a>(&'a self, kind: Kind, rows: &'a Rows) -> Option<(&'a str, &'a str, Quantity)> {
        let found = self.rows.iter().filter_map(|path| rows.find(path)).find(|row| row.quantity.kind() == kind)?;
        Some((&found.path, &found.title, found.quantity))
    }
}

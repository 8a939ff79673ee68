//! How the rows of a house reach each other through what they were computed from.

use std::collections::BTreeMap;

use engine::row::Rows;
use engine::units::Quantity;

/// How a row reaches a written value.
#[derive(Clone, Copy, PartialEq, Eq)]
pub enum Reach {
    /// Not at all.
    None,
    /// Only through counts and money, which move by whole steps or not at all.
    Stepped,
    /// Smoothly: what moves the one moves the other.
    Smooth,
}

/// Whether a quantity moves by whole steps.
pub fn steps(quantity: Quantity) -> bool {
    matches!(quantity, Quantity::Count(_) | Quantity::Money(_))
}

/// The ways from what is written to what is computed from it.
pub struct Ways<'rows> {
    rows: &'rows Rows,
    /// For each row all those that name it among their inputs.
    onward: BTreeMap<&'rows str, Vec<&'rows str>>,
}

/// All rows that reach one path; a row that is not among them reaches it not at all.
pub struct Reached<'rows>(BTreeMap<&'rows str, Reach>);

impl<'rows> Ways<'rows> {
    pub fn of(rows: &'rows Rows) -> Self {
        let mut onward: BTreeMap<&str, Vec<&str>> = BTreeMap::new();
        for row in rows.iter() {
            for input in &row.reason.inputs {
                onward.entry(&input.path).or_default().push(&row.path);
            }
        }
        Self { rows, onward }
    }

    /// How each row reaches the row of a path, which may itself move by steps.
    pub fn to(&self, path: &str) -> Reached<'rows> {
        let start = self.rows.find(path).map(|row| (row.path.as_str(), Reach::Smooth));
        let mut reached = BTreeMap::new();
        let mut open: Vec<(&str, Reach)> = start.into_iter().collect();
        while let Some((path, how)) = open.pop() {
            let known = reached.get(path).copied().unwrap_or(Reach::None);
            if known == how || known == Reach::Smooth {
                continue;
            }
            reached.insert(path, how);
            for next in self.onward.get(path).into_iter().flatten() {
                let stepped = self.rows.find(next).is_some_and(|row| steps(row.quantity));
                open.push((next, if stepped { Reach::Stepped } else { how }));
            }
        }
        Reached(reached)
    }
}

impl Reached<'_> {
    pub fn how(&self, row: &str) -> Reach {
        self.0.get(row).copied().unwrap_or(Reach::None)
    }
}

//! All that a row was computed from, and how one moves another.

use std::collections::{BTreeMap, BTreeSet};

use engine::answers::Answers;
use engine::row::{Row, Rows};
use engine::units::Quantity;

/// The row of a path and all that it was computed from, through all reasons.
pub fn behind<'rows>(rows: &'rows Rows, path: &str) -> Vec<&'rows Row> {
    let mut seen: BTreeMap<&str, &Row> = BTreeMap::new();
    let mut open: Vec<&Row> = rows.find(path).into_iter().collect();
    while let Some(row) = open.pop() {
        if seen.insert(&row.path, row).is_none() {
            open.extend(row.reason.inputs.iter().filter_map(|input| rows.find(&input.path)));
        }
    }
    seen.into_values().collect()
}

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

pub fn reach(answers: &Answers, from: &Row, to: &str) -> Reach {
    if !behind(&answers.rows, &from.path).iter().any(|row| row.path == to) {
        return Reach::None;
    }
    let mut open = vec![from];
    let mut seen = BTreeSet::new();
    while let Some(row) = open.pop() {
        if row.path == to {
            return Reach::Smooth;
        }
        if seen.insert(row.path.as_str()) && !steps(row.quantity) {
            open.extend(row.reason.inputs.iter().filter_map(|input| answers.rows.find(&input.path)));
        }
    }
    Reach::Stepped
}

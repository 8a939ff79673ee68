//! Walks the rulebooks and holds each rule against what was measured. No formula of its own.

use crate::check::{Check, Rule};
use crate::house::House;
use crate::row::Rows;
use crate::rulebook::{Rulebook, SHIPPED};

/// Every check of the house, the most urgent state first, in the rulebooks' order within a state.
#[must_use]
pub fn structure(house: &House, rows: &Rows) -> Vec<Check> {
    let mut checks: Vec<Check> = rules(house).flat_map(|rule| Check::against(rule, rows)).collect();
    checks.sort_by_key(|check| check.state);
    checks
}

/// The rules by which the house is held, in the order of its rulebooks.
pub(crate) fn rules(house: &House) -> impl Iterator<Item = &'static Rule> {
    let named = |book: &&Rulebook| house.rulebooks.iter().any(|wanted| wanted == book.name);
    SHIPPED.iter().filter(named).flat_map(Rulebook::rules)
}

//! Detail drawings: the wall cut square to its line at its stem, at the first window and at the first door.

mod across;
mod opening;
mod stem;
mod window_plan;

use super::House;
use super::part::Section;
use crate::build::OpeningKind;

/// A drawing of one place of the house, larger than the drawings of the whole.
#[derive(Clone, Debug, PartialEq)]
pub struct Detail {
    /// Its name: small letters and hyphens.
    pub name: &'static str,
    /// What it is.
    pub title: String,
    /// What else has to be said below it.
    pub note: String,
    /// What is cut and seen: x and y in metres, levels from the foot of the cob.
    pub section: Section,
}

/// The details that a house has the parts for: its stem, its first window upright and in plan, its first door.
#[must_use]
pub fn details(house: &House) -> Vec<Detail> {
    let first = |kind| house.openings.iter().find(|opening| opening.kind == kind);
    let mut details = vec![stem::stem(house)];
    if let Some(window) = first(OpeningKind::Window) {
        details.push(opening::upright(house, window));
        details.extend(window_plan::window_plan(house, window));
    }
    details.extend(first(OpeningKind::Door).map(|door| opening::upright(house, door)));
    details
}

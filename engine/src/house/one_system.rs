//! Measurements of one page are written in one system of units.

use std::ops::Range;

use crate::build::{Source, Written};
use crate::units::is_us;

/// Where a value stands: its place and its key.
pub(super) type Place = (Range<usize>, String);

/// Where a value stands, where it is written.
pub(super) fn place_of<T>(written: &Option<Written<T>>) -> Option<Place> {
    written.as_ref().map(|written| (written.span.clone(), written.path.clone()))
}

/// Whether all of a page is written in one system; a fault at the first that is not.
pub(super) fn is_of_one_system(source: &Source<'_>, what: &str, places: &[Place], hint: &str) -> bool {
    let us = |(span, _): &Place| is_us(source.spelled(span));
    let Some((first, rest)) = places.split_first() else { return true };
    let Some((span, path)) = rest.iter().find(|other| us(other) != us(first)) else { return true };
    source.fault(span.clone(), path, format!("{what} are written in two systems of units"), hint);
    false
}

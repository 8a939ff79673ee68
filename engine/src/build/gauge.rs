//! `[wall.gauge]` and `[wall.bulge]`: what a lift is checked with.

use super::reader::Table;
use super::source::Written;
use crate::units::{Kind, Length};

/// `[wall.gauge]` and `[wall.bulge]`
#[derive(Clone, Debug, Default)]
pub struct Gauge {
    /// Length of the short spirit level.
    pub short: Option<Written<Length>>,
    /// Length of the long spirit level.
    pub long: Option<Written<Length>>,
    /// `wall.bulge.at`: where a bulge is looked for, above the foot of the lift.
    pub bulge_at: Option<Written<Length>>,
    /// `wall.bulge.stop`: the bulge at which the lift is stopped.
    pub bulge_stop: Option<Written<Length>>,
}

pub(super) fn gauge(wall: &mut Table<'_, '_>) -> Gauge {
    let mut both = |key: &'static str, nouns: [&'static str; 2]| {
        let Some(mut table) = wall.table(key) else { return [None, None] };
        let read = nouns.map(|noun| table.quantity(noun, Kind::Length));
        table.finish();
        read
    };
    let [short, long] = both("gauge", ["short", "long"]);
    let [bulge_at, bulge_stop] = both("bulge", ["at", "stop"]);
    Gauge { short, long, bulge_at, bulge_stop }
}

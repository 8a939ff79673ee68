//! `[tests.moisture.NAME]`, `[tests.bulking.NAME]`, `[tests.weighings.NAME]`, `[tests.feel.NAME]`: what a kitchen scale, a jar of sand, a
//! bucket and two hands find out about a pile.

use jiff::civil::Date;

use super::reader::Table;
use super::source::Written;
use crate::units::{Kind, Length, Mass};

/// The small tests of all piles.
#[derive(Clone, Debug, Default)]
pub struct SmallTests {
    /// `[tests.moisture.NAME]`
    pub moisture: Vec<Pair<Mass>>,
    /// `[tests.bulking.NAME]`
    pub bulking: Vec<Pair<Length>>,
    /// `[tests.weighings.NAME]`
    pub weighings: Vec<Pair<Mass>>,
    /// `[tests.feel.NAME]`
    pub feel: Vec<Feel>,
}

/// Two measurements of one pile: wet and dried, damp and flooded, full and empty.
#[derive(Clone, Debug)]
pub struct Pair<T> {
    /// Its name.
    pub name: Written<String>,
    /// The ingredient that was tested.
    pub of: Option<Written<String>>,
    /// The day of the test.
    pub day: Option<Written<Date>>,
    /// The greater measurement, and the lesser.
    pub found: [Option<Written<T>>; 2],
}

/// `[tests.feel.NAME]`
#[derive(Clone, Debug)]
pub struct Feel {
    /// Its name.
    pub name: Written<String>,
    /// The ingredient that was felt.
    pub of: Option<Written<String>>,
    /// The day of the test.
    pub day: Option<Written<Date>>,
    /// How long a ribbon pressed between thumb and finger grew before it broke.
    pub ribbon: Option<Written<Length>>,
    /// `drop`
    pub drop: Option<DroppedBall>,
}

/// A ball of damp earth that was let fall.
#[derive(Clone, Debug)]
pub struct DroppedBall {
    /// How thick it was.
    pub ball: Option<Written<Length>>,
    /// How high it stood afterwards.
    pub high: Option<Written<Length>>,
    /// Into how many pieces it fell.
    pub pieces: Option<Written<u64>>,
}

/// The small tests under `[tests]`.
pub(super) fn small_tests(table: &mut Table<'_, '_>) -> SmallTests {
    SmallTests {
        moisture: pairs(table, "moisture", ["wet", "dry"], (Kind::Mass, "1.1 kg")),
        bulking: pairs(table, "bulking", ["damp", "flooded"], (Kind::Length, "200 mm")),
        weighings: pairs(table, "weighings", ["full", "empty"], (Kind::Mass, "18 kg")),
        feel: table.named_tables_under("feel").into_iter().map(|(name, table)| feel(name, table)).collect(),
    }
}

fn pairs<T: TryFrom<crate::units::Quantity>>(
    table: &mut Table<'_, '_>,
    noun: &'static str,
    keys: [&'static str; 2],
    (kind, like): (Kind, &str),
) -> Vec<Pair<T>> {
    let named = table.named_tables_under(noun);
    let read = named.into_iter().map(|(name, mut table)| {
        let read = Pair {
            name,
            of: table.needed_text("of", "soil"),
            day: table.date("day"),
            found: keys.map(|key| table.needed_like(key, kind, like)),
        };
        table.finish();
        read
    });
    read.collect()
}

fn feel(name: Written<String>, mut table: Table<'_, '_>) -> Feel {
    let read = Feel {
        name,
        of: table.needed_text("of", "soil"),
        day: table.date("day"),
        ribbon: table.quantity("ribbon", Kind::Length),
        drop: table.table("drop").map(|mut drop| {
            let [ball, high] = ["ball", "high"].map(|key| drop.needed_like(key, Kind::Length, "50 mm"));
            let read = DroppedBall { ball, high, pieces: drop.needed_count("pieces", 1) };
            drop.finish();
            read
        }),
    };
    table.finish();
    read
}

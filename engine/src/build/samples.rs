//! `[tests.bars.NAME]`, `[tests.erosion.NAME]`: bars of a mix measured wet and dry, and what drips or spray wash out of a sample.

use jiff::civil::Date;

use super::reader::Table;
use super::source::Written;
use crate::units::{Days, Kind, Length};

/// `[tests.bars.NAME]`
#[derive(Clone, Debug)]
pub struct Bar {
    /// Its name.
    pub name: Written<String>,
    /// The recipe that it is of.
    pub of: Option<Written<String>>,
    /// The day on which it was dry.
    pub day: Option<Written<Date>>,
    /// Its length when the form was filled, and when it is dry, cracks closed by hand.
    pub lengths: [Option<Written<Length>>; 2],
    /// How far each length may be off.
    pub reading: Option<Written<Length>>,
}

/// What washes a sample.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Wash {
    /// Drops that fall on it.
    Drip,
    /// A spray under pressure.
    Spray,
}

impl Wash {
    /// The word for it, as the table of indices has it.
    #[must_use]
    pub fn word(self) -> &'static str {
        match self {
            Wash::Drip => "drip",
            Wash::Spray => "spray",
        }
    }
}

/// What was washed.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Washed {
    /// A brick of the mix.
    Brick,
    /// A panel of it on a wall.
    Panel,
}

/// `[tests.erosion.NAME]`
#[derive(Clone, Debug)]
pub struct Erosion {
    /// Its name.
    pub name: Written<String>,
    /// The recipe that the sample is of.
    pub of: Option<Written<String>>,
    /// What was washed.
    pub on: Option<Written<Washed>>,
    /// The day of the test.
    pub day: Option<Written<Date>>,
    /// What washed it.
    pub kind: Option<Written<Wash>>,
    /// Depth of the deepest pit.
    pub pit: Option<Written<Length>>,
    /// How long it was washed.
    pub time: Option<Written<Days>>,
    /// Whether the spray bored through it.
    pub bored_through: Option<Written<bool>>,
}

/// The bars under `[tests]`.
pub(super) fn bars(table: &mut Table<'_, '_>) -> Vec<Bar> {
    let named = table.named_tables_under("bars");
    let read = named.into_iter().map(|(name, mut table)| {
        let read = Bar {
            name,
            of: table.needed_text("of", "cob"),
            day: table.date("day"),
            lengths: [("wet", "600 mm"), ("dry", "593 mm")]
                .map(|(key, like)| table.needed_like(key, Kind::Length, like)),
            reading: table.quantity("reading", Kind::Length),
        };
        table.finish();
        read
    });
    read.collect()
}

/// What was washed, under `[tests]`.
pub(super) fn erosion(table: &mut Table<'_, '_>) -> Vec<Erosion> {
    let named = table.named_tables_under("erosion");
    let read = named.into_iter().map(|(name, mut table)| {
        let read = Erosion {
            name,
            of: table.needed_text("of", "cob"),
            on: table.choice("on", &[("brick", Washed::Brick), ("panel", Washed::Panel)]),
            day: table.date("day"),
            kind: table.needed_choice("kind", &[("drip", Wash::Drip), ("spray", Wash::Spray)]),
            pit: table.needed_like("pit", Kind::Length, "7 mm"),
            time: table.needed_like("time", Kind::Days, "60 min"),
            bored_through: table.yes_or_no("bored-through"),
        };
        table.finish();
        read
    });
    read.collect()
}

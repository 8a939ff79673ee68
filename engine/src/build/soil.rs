//! `[tests.limits.NAME]`, `[tests.gradings.NAME]`, `[tests.sand-to-add.NAME]`: what a soil's fine part takes of water, how large its grains
//! are, and the clay that is wanted.

use jiff::civil::Date;

use super::hydrometer::{Hydrometer, hydrometer};
use super::jars::SEPARATES;
use super::reader::Table;
use super::source::Written;
use crate::units::{Kind, Length, Ratio};

/// `[tests.limits.NAME]`
#[derive(Clone, Debug)]
pub struct Limits {
    /// Its name.
    pub name: Written<String>,
    /// The ingredient that was tested.
    pub of: Option<Written<String>>,
    /// The day of the test.
    pub day: Option<Written<Date>>,
    /// Moisture at which the part under 0.425 mm flows.
    pub liquid: Option<Written<Ratio>>,
    /// Moisture at which a thread of it crumbles.
    pub plastic: Option<Written<Ratio>>,
    /// Share of the dry soil that is under 0.425 mm.
    pub fine: Option<Written<Ratio>>,
    /// How far each limit may be off.
    pub error: Option<Written<Ratio>>,
}

/// `[tests.gradings.NAME]`
#[derive(Clone, Debug)]
pub struct Grading {
    /// Its name.
    pub name: Written<String>,
    /// The ingredient that was sieved.
    pub of: Option<Written<String>>,
    /// The day of the test.
    pub day: Option<Written<Date>>,
    /// How far sand, silt and clay may be off.
    pub error: Option<Written<Ratio>>,
    /// Its largest grain.
    pub largest: Option<Written<Length>>,
    /// `[tests.gradings.NAME.sieves]`
    pub sieves: Vec<Sieve>,
    /// `[tests.gradings.NAME.hydrometer]`
    pub hydrometer: Option<Hydrometer>,
    /// `shares`: sand, silt and clay as a laboratory says them, without stones.
    pub shares: Option<[Option<Written<Ratio>>; 3]>,
}

/// What passes one sieve, or is finer by a hydrometer.
#[derive(Clone, Debug)]
pub struct Sieve {
    /// Its name.
    pub name: Written<String>,
    /// Its opening, or the size of the grain.
    pub size: Option<Written<Length>>,
    /// Share of the dry mass that is finer.
    pub passing: Option<Written<Ratio>>,
}

/// `[tests.sand-to-add.NAME]`
#[derive(Clone, Debug)]
pub struct Sanding {
    /// Its name.
    pub name: Written<String>,
    /// The ingredient that has the clay.
    pub soil: Option<Written<String>>,
    /// The ingredient that is added.
    pub sand: Option<Written<String>>,
    /// Clay wanted in the dry mass of both.
    pub clay: Option<Written<Ratio>>,
    /// Clay in the dry mass of the sand, and how far that may be off, where no test says it.
    pub sand_clay: [Option<Written<Ratio>>; 2],
}

/// The limits under `[tests]`.
pub(super) fn limits(table: &mut Table<'_, '_>) -> Vec<Limits> {
    let named = table.named_tables_under("limits");
    let read = named.into_iter().map(|(name, mut table)| {
        let read = Limits {
            name,
            of: table.needed_text("of", "soil"),
            day: table.date("day"),
            liquid: table.needed_like("liquid", Kind::Ratio, "38 %"),
            plastic: table.needed_like("plastic", Kind::Ratio, "19 %"),
            fine: table.quantity("fine", Kind::Ratio),
            error: table.quantity("error", Kind::Ratio),
        };
        table.finish();
        read
    });
    read.collect()
}

/// The gradings under `[tests]`.
pub(super) fn gradings(table: &mut Table<'_, '_>) -> Vec<Grading> {
    let named = table.named_tables_under("gradings");
    named.into_iter().map(|(name, table)| grading(name, table)).collect()
}

fn grading(name: Written<String>, mut table: Table<'_, '_>) -> Grading {
    let sieves = table.named_tables_under("sieves");
    let has_sieves = table.has("sieves");
    let read = Grading {
        name,
        of: table.needed_text("of", "soil"),
        day: table.date("day"),
        error: table.quantity("error", Kind::Ratio),
        largest: if has_sieves { table.quantity("largest", Kind::Length) } else { None },
        sieves: sieves.into_iter().map(|(name, table)| sieve(name, table)).collect(),
        hydrometer: table.table("hydrometer").map(hydrometer),
        shares: table.table("shares").map(|mut shares| {
            let read = SEPARATES.map(|key| shares.needed_like(key, Kind::Ratio, "40 %"));
            shares.finish();
            read
        }),
    };
    table.finish();
    read
}

fn sieve(name: Written<String>, mut table: Table<'_, '_>) -> Sieve {
    let size = table.needed_like("size", Kind::Length, "2 mm");
    let read = Sieve { name, size, passing: table.needed_like("passing", Kind::Ratio, "62 %") };
    table.finish();
    read
}

/// What is to be added to soils, under `[tests]`.
pub(super) fn sandings(table: &mut Table<'_, '_>) -> Vec<Sanding> {
    let named = table.named_tables_under("sand-to-add");
    let read = named.into_iter().map(|(name, mut table)| {
        let read = Sanding {
            name,
            soil: table.needed_text("soil", "soil"),
            sand: table.needed_text("sand", "sand"),
            clay: table.needed_like("clay", Kind::Ratio, "18 %"),
            sand_clay: ["sand-clay", "sand-error"].map(|key| table.quantity(key, Kind::Ratio)),
        };
        table.finish();
        read
    });
    read.collect()
}

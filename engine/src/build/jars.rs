//! `[tests.jars.NAME]`: a soil shaken in a jar of water, its layers or its readings as they were made.

use jiff::civil::Date;

use super::reader::Table;
use super::source::Written;
use crate::units::{Days, Density, Kind, Length, Ratio, Temperature};

/// `[tests.jars.NAME]`
#[derive(Clone, Debug)]
pub struct Jar {
    /// Its name.
    pub name: Written<String>,
    /// The ingredient that was shaken.
    pub of: Option<Written<String>>,
    /// The day on which it was shaken.
    pub day: Option<Written<Date>>,
    /// From its bottom to the surface of the water.
    pub height: Option<Written<Length>>,
    /// How warm the water was.
    pub water: Option<Written<Temperature>>,
    /// Density of the grains.
    pub grain: Option<Written<Density>>,
    /// Whether salt or soda took the crumbs of clay apart.
    pub dispersed: Option<Written<bool>>,
    /// Share of the silt that may be clay in crumbs, where nothing took them apart.
    pub crumbs: Option<Written<Ratio>>,
    /// `layers`, once the water is clear.
    pub layers: Option<Layers>,
    /// `[tests.jars.NAME.readings]`
    pub readings: Vec<Reading>,
    /// `packing`: the least and the greatest dry mass in a settled volume of sand, silt and clay.
    pub packing: [[Option<Written<Density>>; 2]; 3],
}

/// The layers of a jar whose water is clear.
#[derive(Clone, Debug)]
pub struct Layers {
    /// Thickness of sand, silt and clay.
    pub each: [Option<Written<Length>>; 3],
    /// Height of all three together.
    pub all: Option<Written<Length>>,
}

/// How high the soil had settled after a time.
#[derive(Clone, Debug)]
pub struct Reading {
    /// Its name.
    pub name: Written<String>,
    /// Time since it was set down.
    pub after: Option<Written<Days>>,
    /// Height of what had settled.
    pub height: Option<Written<Length>>,
    /// Why it is not to be used.
    pub aside: Option<Written<String>>,
}

/// Sand, silt and clay as keys name them, from the bottom of a jar.
pub const SEPARATES: [&str; 3] = ["sand", "silt", "clay"];
/// Keys of the least and the greatest dry mass in a settled volume, by those separates.
const PACKING: [[&str; 2]; 3] = [["sand-least", "sand-most"], ["silt-least", "silt-most"], ["clay-least", "clay-most"]];

/// The jars under `[tests]`.
pub(super) fn jars(table: &mut Table<'_, '_>) -> Vec<Jar> {
    let named = table.named_tables_under("jars");
    named.into_iter().map(|(name, table)| jar(name, table)).collect()
}

fn jar(name: Written<String>, mut table: Table<'_, '_>) -> Jar {
    let dispersed = table.yes_or_no("dispersed");
    let is_dispersed = dispersed.as_ref().is_some_and(|dispersed| dispersed.value);
    let read = Jar {
        name,
        of: table.needed_text("of", "soil"),
        day: table.date("day"),
        height: table.needed_like("height", Kind::Length, "180 mm"),
        water: table.needed_like("water", Kind::Temperature, "18 °C"),
        grain: table.quantity("grain", Kind::Density),
        dispersed,
        crumbs: if is_dispersed { None } else { table.quantity("crumbs", Kind::Ratio) },
        layers: table.table("layers").map(layers),
        readings: table.named_tables_under("readings").into_iter().map(|(name, table)| reading(name, table)).collect(),
        packing: table.table("packing").map(packing).unwrap_or_default(),
    };
    table.finish();
    read
}

fn layers(mut table: Table<'_, '_>) -> Layers {
    let read = Layers {
        each: SEPARATES.map(|key| table.needed_like(key, Kind::Length, "35 mm")),
        all: table.needed_like("all", Kind::Length, "96 mm"),
    };
    table.finish();
    read
}

fn reading(name: Written<String>, mut table: Table<'_, '_>) -> Reading {
    let after = table.needed_like("after", Kind::Days, "8 hours");
    let height = table.needed_like("height", Kind::Length, "71 mm");
    let read = Reading { name, after, height, aside: table.text("aside") };
    table.finish();
    read
}

fn packing(mut table: Table<'_, '_>) -> [[Option<Written<Density>>; 2]; 3] {
    let read = PACKING.map(|keys| keys.map(|key| table.quantity(key, Kind::Density)));
    table.finish();
    read
}

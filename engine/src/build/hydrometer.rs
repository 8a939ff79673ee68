//! `[tests.gradings.NAME.hydrometer]`: the finest part of a soil in a litre of water, read with a hydrometer 152H as it settles.

use super::reader::Table;
use super::source::Written;
use crate::units::{Days, Density, Kind, Mass, Temperature};

/// `[tests.gradings.NAME.hydrometer]`
#[derive(Clone, Debug)]
pub struct Hydrometer {
    /// Dry soil in the litre.
    pub dry: Option<Written<Mass>>,
    /// What it reads in clear water with the same salt, at 20 °C.
    pub blank: Option<Written<f64>>,
    /// What the brim of water at the stem hides of its scale.
    pub meniscus: Option<Written<f64>>,
    /// How far a reading may be off.
    pub off: Option<Written<f64>>,
    /// Density of the grains.
    pub grain: Option<Written<Density>>,
    /// How warm the water was, where a reading does not say it.
    pub water: Option<Written<Temperature>>,
    /// The sieve that the soil was put through.
    pub through: Option<Written<String>>,
    /// `[tests.gradings.NAME.hydrometer.readings]`
    pub readings: Vec<HydrometerReading>,
}

/// One reading.
#[derive(Clone, Debug)]
pub struct HydrometerReading {
    /// Its name.
    pub name: Written<String>,
    /// Time since the water was still.
    pub after: Option<Written<Days>>,
    /// What the scale read.
    pub reading: Option<Written<f64>>,
    /// How warm the water was, where it is its own.
    pub water: Option<Written<Temperature>>,
}

pub(super) fn hydrometer(mut table: Table<'_, '_>) -> Hydrometer {
    let read = Hydrometer {
        dry: table.needed_like("dry", Kind::Mass, "50 g"),
        blank: table.needed_like("blank", Kind::Number, "5"),
        meniscus: table.quantity("meniscus", Kind::Number),
        off: table.quantity("off", Kind::Number),
        grain: table.quantity("grain", Kind::Density),
        water: table.needed_like("water", Kind::Temperature, "20 °C"),
        through: table.text("through"),
        readings: table.named_tables_under("readings").into_iter().map(|(name, table)| reading(name, table)).collect(),
    };
    table.finish();
    read
}

fn reading(name: Written<String>, mut table: Table<'_, '_>) -> HydrometerReading {
    let read = HydrometerReading {
        name,
        after: table.needed_like("after", Kind::Days, "40 min"),
        reading: table.needed_like("reading", Kind::Number, "23"),
        water: table.quantity("water", Kind::Temperature),
    };
    table.finish();
    read
}

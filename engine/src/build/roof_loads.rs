//! What a roof must stand and what it has to stand with: `[site.loads]`, `[roof.soil]`, `[roof.bolt]`, the wood of `[poles]`.

use super::reader::Table;
use super::source::Written;
use crate::units::{Angle, Density, Force, Kind, Length, LineLoad, Mass, Pressure, Ratio, Speed, Volume};

/// `[site.loads]`: what the building office says of the place.
#[derive(Clone, Debug, Default)]
pub struct SiteLoads {
    /// Snow on the ground.
    pub snow: Option<Written<Pressure>>,
    /// Speed of the wind by which a code counts.
    pub wind: Option<Written<Speed>>,
    /// Terrain of EN 1991-1-4.
    pub terrain: Option<Written<&'static str>>,
    /// Exposure of ASCE 7.
    pub exposure: Option<Written<&'static str>>,
    /// People on the roof for repair.
    pub imposed: Option<Written<Pressure>>,
    /// Crew and heaps while its layers are placed.
    pub placing: Option<Written<Pressure>>,
}

/// `[roof.soil]`
#[derive(Clone, Debug, Default)]
pub struct RoofSoil {
    /// The layer that is soil.
    pub layer: Option<Written<String>>,
    /// How much deeper it may lie than drawn.
    pub too_deep: Option<Written<Ratio>>,
    /// Angle of friction of wet soil on what it lies on.
    pub friction: Option<Written<Angle>>,
    /// Height of the edge board over the sheet.
    pub board: Option<Written<Length>>,
    /// Its density when soaked.
    pub soaked: Option<Written<Density>>,
    /// A bucket of it, soaked and drained: full, empty, and what it holds.
    pub bucket: Option<Bucket>,
    /// Battens across the slope.
    pub battens: Option<Battens>,
}

/// `bucket = { full, empty, holds }`
#[derive(Clone, Debug)]
pub struct Bucket {
    /// Mass with the soil.
    pub full: Option<Written<Mass>>,
    /// Mass without it.
    pub empty: Option<Written<Mass>>,
    /// What is in it.
    pub holds: Option<Written<Volume>>,
}

/// `battens = { spacing, holds }`
#[derive(Clone, Debug)]
pub struct Battens {
    /// From one to the next on the slope.
    pub spacing: Option<Written<Length>>,
    /// What each metre of one holds back.
    pub holds: Option<Written<LineLoad>>,
}

/// `[roof.bolt]`
#[derive(Clone, Debug, Default)]
pub struct RoofBolt {
    /// Its diameter.
    pub diameter: Option<Written<Length>>,
    /// Side of its square washers.
    pub washer: Option<Written<Length>>,
}

/// `[roof.tie]`: what holds an end of a rafter down.
#[derive(Clone, Debug)]
pub struct RoofTie {
    /// The pull that it holds.
    pub holds: Option<Written<Force>>,
    /// How that is known.
    pub holds_by: Option<Written<String>>,
}

/// `[roof.feet]`: the feet of poles that lie on their plate, held down by their straps alone, so that they may slide.
#[derive(Clone, Debug)]
pub struct RoofFeet {
    /// Angle of friction of a foot on its plate, no less than it is.
    pub friction: Option<Written<Angle>>,
    /// Angle of friction of the bond beam on the wall, no more than it is.
    pub under_beam: Option<Written<Angle>>,
}

/// The wood of all poles, in `[poles]`.
#[derive(Clone, Debug, Default)]
pub struct Wood {
    /// Its strength class or grade.
    pub class: Option<Written<String>>,
    /// The kind of tree.
    pub tree: Option<Written<String>>,
    /// Whether it is laid green.
    pub green: Option<Written<bool>>,
    /// The place of damp: 1 heated, 2 under a roof, 3 wet.
    pub damp: Option<Written<u64>>,
    /// `[poles.strength]`
    pub strength: Strength,
}

/// `[poles.strength]`: values of one's own instead of those of a class.
#[derive(Clone, Debug, Default)]
pub struct Strength {
    /// Strengths and stiffnesses by their keys.
    pub stresses: Vec<(&'static str, Written<Pressure>)>,
    /// Densities by their keys.
    pub densities: Vec<(&'static str, Written<Density>)>,
    /// Specific gravity, of planks by a code of allowable stresses.
    pub gravity: Option<Written<f64>>,
}

const TERRAINS: [&str; 5] = ["0", "1", "2", "3", "4"];
const EXPOSURES: [&str; 3] = ["b", "c", "d"];

pub(super) fn site(mut table: Table<'_, '_>) -> SiteLoads {
    let read = SiteLoads {
        snow: table.quantity("snow", Kind::Pressure),
        wind: table.quantity("wind", Kind::Speed),
        terrain: table.choice("terrain", &TERRAINS.map(|word| (word, word))),
        exposure: table.choice("exposure", &EXPOSURES.map(|word| (word, word))),
        imposed: table.quantity("imposed", Kind::Pressure),
        placing: table.quantity("placing", Kind::Pressure),
    };
    table.finish();
    read
}

pub(super) fn soil(mut table: Table<'_, '_>) -> RoofSoil {
    let read = RoofSoil {
        layer: table.text("layer"),
        too_deep: table.quantity("too-deep", Kind::Ratio),
        friction: table.quantity("friction", Kind::Angle),
        board: table.quantity("board", Kind::Length),
        soaked: table.quantity("soaked", Kind::Density),
        bucket: table.table("bucket").map(bucket),
        battens: table.table("battens").map(battens),
    };
    table.finish();
    read
}

fn bucket(mut table: Table<'_, '_>) -> Bucket {
    let read = Bucket {
        full: table.needed_like("full", Kind::Mass, "24 kg"),
        empty: table.needed_like("empty", Kind::Mass, "1 kg"),
        holds: table.needed_like("holds", Kind::Volume, "12 L"),
    };
    table.finish();
    read
}

fn battens(mut table: Table<'_, '_>) -> Battens {
    let read = Battens {
        spacing: table.needed_like("spacing", Kind::Length, "600 mm"),
        holds: table.needed_like("holds", Kind::LineLoad, "0.8 kN/m"),
    };
    table.finish();
    read
}

pub(super) fn tie(mut table: Table<'_, '_>) -> RoofTie {
    let read = RoofTie {
        holds: table.needed_like("holds", Kind::Force, "2 kN"),
        holds_by: table.needed_text("holds-by", "two of them pulled on site"),
    };
    table.finish();
    read
}

pub(super) fn feet(mut table: Table<'_, '_>) -> RoofFeet {
    let read = RoofFeet {
        friction: table.needed_like("friction", Kind::Angle, "22 deg"),
        under_beam: table.quantity("under-beam", Kind::Angle),
    };
    table.finish();
    read
}

pub(super) fn bolt(mut table: Table<'_, '_>) -> RoofBolt {
    let read =
        RoofBolt { diameter: table.quantity("diameter", Kind::Length), washer: table.quantity("washer", Kind::Length) };
    table.finish();
    read
}

pub(super) fn wood(poles: &mut Table<'_, '_>) -> Wood {
    Wood {
        class: poles.text("class"),
        tree: poles.text("tree"),
        green: poles.yes_or_no("green"),
        damp: poles.count("damp"),
        strength: poles.table("strength").map(strength).unwrap_or_default(),
    }
}

/// What both poles and planks are graded by.
const STRESSES: [&str; 7] = ["bending", "tension", "compression", "across", "shear", "stiffness", "shear-stiffness"];

fn strength(mut table: Table<'_, '_>) -> Strength {
    let stresses = STRESSES.into_iter().chain(["low-stiffness"]);
    let read = Strength {
        stresses: stresses.filter_map(|key| Some((key, table.quantity(key, Kind::Pressure)?))).collect(),
        densities: ["low-density", "mean-density"]
            .into_iter()
            .filter_map(|key| Some((key, table.quantity(key, Kind::Density)?)))
            .collect(),
        gravity: None,
    };
    table.finish();
    read
}

/// The same of planks on a wall, which keeps them from buckling.
pub(super) fn planks(mut table: Table<'_, '_>) -> Strength {
    let stresses = STRESSES.into_iter().filter_map(|key| Some((key, table.quantity(key, Kind::Pressure)?)));
    let stresses: Vec<_> = stresses.collect();
    let density = table.quantity("low-density", Kind::Density).map(|density| ("low-density", density));
    let gravity = table.quantity("gravity", Kind::Number);
    let read = Strength { stresses, densities: density.into_iter().collect(), gravity };
    table.finish();
    read
}

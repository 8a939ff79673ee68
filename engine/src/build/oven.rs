//! The keys of an oven: `[built-in.NAME] kind = "oven"`.

use super::reader::Table;
use super::source::Written;
use crate::units::{Angle, Density, Kind, Length, Ratio};

/// An oven that stands in the room on a footing of its own.
#[derive(Clone, Debug, Default)]
pub struct Oven {
    /// Its middle in plan.
    pub at: Option<Written<[Written<Length>; 2]>>,
    /// The direction in which its door faces.
    pub faces: Option<Written<Angle>>,
    /// Diameter of its floor within the dome.
    pub diameter: Option<Written<Length>>,
    /// Height of the dome within, above its floor.
    pub dome_height: Option<Written<Length>>,
    /// Width of the doorway.
    pub door_width: Option<Written<Length>>,
    /// Height of the doorway.
    pub door_height: Option<Written<Length>>,
    /// Thickness of the layer that keeps the heat.
    pub thermal: Option<Written<Length>>,
    /// Thickness of the layer that holds it in.
    pub insulation: Option<Written<Length>>,
    /// The recipe of the layer that keeps the heat.
    pub of: Option<Written<String>>,
    /// The recipe of the layer that holds it in.
    pub insulation_of: Option<Written<String>>,
    /// Density of the layer that keeps the heat.
    pub density: Option<Written<Density>>,
    /// Density of the layer that holds it in.
    pub insulation_density: Option<Written<Density>>,
    /// `base`
    pub base: OvenBase,
    /// `floor`
    pub floor: OvenFloor,
    /// `footing`
    pub footing: OvenFooting,
}

/// The ring of stone under an oven and what fills it.
#[derive(Clone, Debug, Default)]
pub struct OvenBase {
    /// Height above the finished floor, up to the bricks.
    pub height: Option<Written<Length>>,
    /// Diameter over the ring.
    pub diameter: Option<Written<Length>>,
    /// Thickness of the ring.
    pub ring: Option<Written<Length>>,
    /// Density of ring and fill together.
    pub density: Option<Written<Density>>,
}

/// The bricks of an oven's floor.
#[derive(Clone, Debug, Default)]
pub struct OvenFloor {
    /// What is bought.
    pub of: Option<Written<String>>,
    /// Length of a brick.
    pub length: Option<Written<Length>>,
    /// Width of a brick.
    pub width: Option<Written<Length>>,
    /// Thickness of a brick.
    pub thickness: Option<Written<Length>>,
    /// Density of a brick.
    pub density: Option<Written<Density>>,
    /// What is lost in cutting to the circle.
    pub waste: Option<Written<Ratio>>,
}

/// The footing of an oven.
#[derive(Clone, Debug, Default)]
pub struct OvenFooting {
    /// Depth below the finished floor.
    pub depth: Option<Written<Length>>,
    /// Diameter.
    pub width: Option<Written<Length>>,
    /// What fills it.
    pub of: Option<Written<String>>,
    /// Loose volume for each volume in place.
    pub loose: Option<Written<f64>>,
}

pub(super) fn oven(table: &mut Table<'_, '_>) -> Oven {
    let mut read = Oven {
        at: table.point("at"),
        faces: table.needed_like("faces", Kind::Angle, "90 deg"),
        diameter: table.needed_like("diameter", Kind::Length, "800 mm"),
        dome_height: table.quantity("dome-height", Kind::Length),
        door_width: table.quantity("door-width", Kind::Length),
        door_height: table.quantity("door-height", Kind::Length),
        thermal: table.quantity("thermal", Kind::Length),
        insulation: table.quantity("insulation", Kind::Length),
        of: table.text("of"),
        insulation_of: table.text("insulation-of"),
        density: table.quantity("density", Kind::Density),
        insulation_density: table.quantity("insulation-density", Kind::Density),
        ..Oven::default()
    };
    if let Some(mut base) = table.table("base") {
        read.base.height = base.quantity("height", Kind::Length);
        read.base.diameter = base.quantity("diameter", Kind::Length);
        read.base.ring = base.quantity("ring", Kind::Length);
        read.base.density = base.quantity("density", Kind::Density);
        base.finish();
    }
    if let Some(mut floor) = table.table("floor") {
        read.floor.of = floor.text("of");
        read.floor.length = floor.quantity("length", Kind::Length);
        read.floor.width = floor.quantity("width", Kind::Length);
        read.floor.thickness = floor.quantity("thickness", Kind::Length);
        read.floor.density = floor.quantity("density", Kind::Density);
        read.floor.waste = floor.quantity("waste", Kind::Ratio);
        floor.finish();
    }
    if let Some(mut footing) = table.table("footing") {
        read.footing.depth = footing.quantity("depth", Kind::Length);
        read.footing.width = footing.quantity("width", Kind::Length);
        read.footing.of = footing.text("of");
        read.footing.loose = footing.quantity("loose", Kind::Number);
        footing.finish();
    }
    read
}

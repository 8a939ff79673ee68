//! The tables of ground and water: levels, factors, trench, drain, fabric.

use super::reader::Table;
use super::source::Written;
use crate::units::{Kind, Length, Slope};

/// `[ground]`
#[derive(Clone, Debug, Default)]
pub struct Ground {
    /// Level of the ground outside.
    pub outside: Option<Written<Length>>,
    /// Level of the finished floor.
    pub floor: Option<Written<Length>>,
    /// Loose volume for each volume in the ground.
    pub loose: Option<Written<f64>>,
    /// Packed volume for each volume in the ground.
    pub packed: Option<Written<f64>>,
}

/// `[water]`
#[derive(Clone, Debug, Default)]
pub struct Water {
    /// `[water.trench]`
    pub trench: Option<Trench>,
    /// `[water.drain]`
    pub drain: Option<Drain>,
    /// `[water.fabric]`
    pub fabric: Option<Fabric>,
}

/// `[water.trench]`
#[derive(Clone, Debug)]
pub struct Trench {
    /// Width.
    pub width: Option<Written<Length>>,
    /// Depth below the ground outside at the high end.
    pub depth: Option<Written<Length>>,
    /// Fall of the bottom.
    pub fall: Option<Written<Slope>>,
    /// Run of the wall under which it drains.
    pub run: Option<Written<String>>,
    /// Distance along that run.
    pub along: Option<Written<Length>>,
    /// What fills it.
    pub of: Option<Written<String>>,
    /// Loose volume of the filling for each packed volume.
    pub loose: Option<Written<f64>>,
}

/// `[water.drain]`
#[derive(Clone, Debug)]
pub struct Drain {
    /// Length from the trench to daylight.
    pub length: Option<Written<Length>>,
    /// Level of the ground where it comes out.
    pub daylight: Option<Written<Length>>,
    /// Soil put back over its gravel.
    pub cover: Option<Written<Length>>,
}

/// `[water.fabric]`
#[derive(Clone, Debug)]
pub struct Fabric {
    /// How far one piece lies over the next.
    pub lap: Option<Written<Length>>,
    /// Length of a piece as it comes.
    pub piece: Option<Written<Length>>,
    /// What is bought.
    pub of: Option<Written<String>>,
}

pub(super) fn ground(mut table: Table<'_, '_>) -> Ground {
    let read = Ground {
        outside: table.quantity("outside", Kind::Length),
        floor: table.quantity("floor", Kind::Length),
        loose: table.quantity("loose", Kind::Number),
        packed: table.quantity("packed", Kind::Number),
    };
    table.finish();
    read
}

pub(super) fn water(mut table: Table<'_, '_>) -> Water {
    let trench = table.table("trench").map(|mut trench| {
        let read = Trench {
            width: trench.quantity("width", Kind::Length),
            depth: trench.needed("depth", Kind::Length),
            fall: trench.quantity("fall", Kind::Slope),
            run: trench.needed_text("run", "north"),
            along: trench.needed("along", Kind::Length),
            of: trench.text("of"),
            loose: trench.quantity("loose", Kind::Number),
        };
        trench.finish();
        read
    });
    let drain = table.table("drain").map(|mut drain| {
        let read = Drain {
            length: drain.needed("length", Kind::Length),
            daylight: drain.quantity("daylight", Kind::Length),
            cover: drain.quantity("cover", Kind::Length),
        };
        drain.finish();
        read
    });
    let fabric = table.table("fabric").map(|mut fabric| {
        let read = Fabric {
            lap: fabric.quantity("lap", Kind::Length),
            piece: fabric.quantity("piece", Kind::Length),
            of: fabric.text("of"),
        };
        fabric.finish();
        read
    });
    table.finish();
    Water { trench, drain, fabric }
}

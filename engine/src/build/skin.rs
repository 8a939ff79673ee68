//! The tables of skin and floor: coats and layers.

use super::earth::{Layer, layers};
use super::reader::Table;
use super::source::Written;
use crate::units::{Area, Days, Kind, Length, Ratio, Volume};

/// The face whose coats go round into the openings.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Face {
    /// The face of the room.
    Inside,
    /// The face of the weather.
    Outside,
}

/// `[skin]`
#[derive(Clone, Debug, Default)]
pub struct Skin {
    /// `[[skin.inside]]`, from the wall outwards.
    pub inside: Vec<Layer>,
    /// `[[skin.outside]]`, from the wall outwards.
    pub outside: Vec<Layer>,
    /// Whose coats the reveals get.
    pub reveals: Option<Written<Face>>,
    /// `[skin.slip]`
    pub slip: Option<Slip>,
    /// Plaster that falls or stays on boards, as a share of what stays on the wall.
    pub loss: Option<Written<Ratio>>,
    /// What a bin of ready plaster holds.
    pub bin: Option<Written<Volume>>,
    /// How long an edge stays wet enough to be worked into.
    pub open_time: Option<Written<Days>>,
    /// What one person covers in an hour.
    pub pace: Option<Written<Area>>,
    /// People with trowels on the wall.
    pub people: Option<Written<u64>>,
    /// How high a person plasters from the ground.
    pub reach: Option<Written<Length>>,
}

/// `[floor]`
#[derive(Clone, Debug, Default)]
pub struct Floor {
    /// `[[floor.layers]]`, from the ground up.
    pub layers: Vec<Layer>,
    /// `[floor.bays]`
    pub bays: Option<Bays>,
    /// `[[floor.oil]]`, in the order in which they are put on.
    pub oil: Vec<Oil>,
}

/// `[floor.bays]`
#[derive(Clone, Debug)]
pub struct Bays {
    /// Where the table stands.
    pub span: std::ops::Range<usize>,
    /// The widest that a bay may be.
    pub width: Option<Written<Length>>,
    /// The door by which the last person leaves.
    pub way_out: Option<Written<String>>,
    /// How many thicknesses of a layer its cracks lie apart where they lie closest.
    pub crack_spacing: Option<Written<f64>>,
}

/// One entry of `[[floor.oil]]`
#[derive(Clone, Debug)]
pub struct Oil {
    /// Its name.
    pub name: Written<String>,
    /// The area that `takes` covers.
    pub covers: Option<Written<Area>>,
    /// What that area takes, oil and thinner together.
    pub takes: Option<Written<Volume>>,
    /// Thinner in it.
    pub thinner: Option<Written<Ratio>>,
}

/// `[skin.slip]`
#[derive(Clone, Debug)]
pub struct Slip {
    /// Its recipe.
    pub of: Option<Written<String>>,
    /// How thick it is brushed on.
    pub thickness: Option<Written<Length>>,
}

pub(super) fn skin(mut table: Table<'_, '_>) -> Skin {
    let read = Skin {
        inside: layers(&mut table, "inside"),
        outside: layers(&mut table, "outside"),
        reveals: table.choice("reveals", &[("inside", Face::Inside), ("outside", Face::Outside)]),
        slip: table.table("slip").map(|mut slip| {
            let read = Slip { of: slip.needed_text("of", "slip"), thickness: slip.needed("thickness", Kind::Length) };
            slip.finish();
            read
        }),
        loss: table.quantity("loss", Kind::Ratio),
        bin: table.quantity("bin", Kind::Volume),
        open_time: table.quantity("open-time", Kind::Days),
        pace: table.quantity("pace", Kind::Area),
        people: table.count("people"),
        reach: table.quantity("reach", Kind::Length),
    };
    table.finish();
    read
}

pub(super) fn floor(mut table: Table<'_, '_>) -> Floor {
    let layers = layers(&mut table, "layers");
    let bays = table.table("bays").map(|mut bays| {
        let span = bays.span.clone();
        let read = Bays {
            span,
            width: bays.quantity("width", Kind::Length),
            way_out: bays.text("way-out"),
            crack_spacing: bays.quantity("crack-spacing", Kind::Number),
        };
        bays.finish();
        read
    });
    let oil = table.listed_tables("oil").into_iter().map(|(name, table)| oil(name, table)).collect();
    table.finish();
    Floor { layers, bays, oil }
}

fn oil(name: Written<String>, mut table: Table<'_, '_>) -> Oil {
    let read = Oil {
        name,
        covers: table.needed_like("covers", Kind::Area, "12 m2"),
        takes: table.quantity("takes", Kind::Volume),
        thinner: table.quantity("thinner", Kind::Ratio),
    };
    table.finish();
    read
}

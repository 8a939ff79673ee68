//! The tables of skin and floor: coats and layers.

use super::earth::{Layer, layers};
use super::reader::Table;
use super::source::Written;
use crate::units::{Kind, Length};

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
    };
    table.finish();
    read
}

/// `[[floor.layers]]`, from the ground up.
pub(super) fn floor(mut table: Table<'_, '_>) -> Vec<Layer> {
    let read = layers(&mut table, "layers");
    table.finish();
    read
}

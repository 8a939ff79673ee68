//! `[wall.bond-beam]` and `[wall.gap]`: the timber on the top of the wall, and what fills the gap above it.

use std::ops::Range;

use super::reader::Table;
use super::roof_loads::{self, Strength};
use super::source::Written;
use crate::units::{Density, Kind, Length, Pressure};

/// `[wall.bond-beam]`
#[derive(Clone, Debug)]
pub struct BondBeam {
    /// Width of the timber.
    pub width: Option<Written<Length>>,
    /// Height of the timber, all layers together.
    pub height: Option<Written<Length>>,
    /// Planks that lie on each other.
    pub layers: Option<Written<u64>>,
    /// The longest timber as it comes.
    pub piece: Option<Written<Length>>,
    /// Length of the lap from one piece to the next.
    pub scarf: Option<Written<Length>>,
    /// How far a straight piece may leave the curve.
    pub fit: Option<Written<Length>>,
    /// Bolts through each scarf.
    pub bolts: Option<Written<u64>>,
    /// Their diameter.
    pub bolt: Option<Written<Length>>,
    /// Side of their square washers.
    pub washer: Option<Written<Length>>,
    /// From one pair of level shims to the next.
    pub shim_spacing: Option<Written<Length>>,
    /// Modulus of elasticity of the earth beneath where it is soft.
    pub soft_earth: Option<Written<Pressure>>,
    /// The same where it is stiff.
    pub stiff_earth: Option<Written<Pressure>>,
    /// What is bought.
    pub of: Option<Written<String>>,
    /// The wood of its planks.
    pub planks: Planks,
}

/// The wood of the planks, in `[wall.bond-beam]`.
#[derive(Clone, Debug, Default)]
pub struct Planks {
    /// Their strength class or grade.
    pub class: Option<Written<String>>,
    /// The place of damp: 1 heated, 2 under a roof, 3 wet or laid green.
    pub damp: Option<Written<u64>>,
    /// What they weigh.
    pub density: Option<Written<Density>>,
    /// `[wall.bond-beam.strength]`: values of one's own instead of those of a class.
    pub strength: Strength,
}

/// `[wall.gap]`
#[derive(Clone, Debug)]
pub struct Gap {
    /// Where it stands in the file.
    pub span: Range<usize>,
    /// The recipe that fills it.
    pub of: Option<Written<String>>,
    /// The soft joint left under the deck.
    pub joint: Option<Written<Length>>,
}

pub(super) fn gap(mut table: Table<'_, '_>) -> Gap {
    let read = Gap { span: table.span.clone(), of: table.text("of"), joint: table.quantity("joint", Kind::Length) };
    table.finish();
    read
}

pub(super) fn bond_beam(mut table: Table<'_, '_>) -> BondBeam {
    let read = BondBeam {
        width: table.needed("width", Kind::Length),
        height: table.needed("height", Kind::Length),
        layers: table.count("layers"),
        piece: table.quantity("piece", Kind::Length),
        scarf: table.quantity("scarf", Kind::Length),
        fit: table.quantity("fit", Kind::Length),
        bolts: table.count("bolts"),
        bolt: table.quantity("bolt", Kind::Length),
        washer: table.quantity("washer", Kind::Length),
        shim_spacing: table.quantity("shim-spacing", Kind::Length),
        soft_earth: table.quantity("soft-earth", Kind::Pressure),
        stiff_earth: table.quantity("stiff-earth", Kind::Pressure),
        of: table.text("of"),
        planks: Planks {
            class: table.text("class"),
            damp: table.count("damp"),
            density: table.quantity("density", Kind::Density),
            strength: table.table("strength").map(roof_loads::planks).unwrap_or_default(),
        },
    };
    table.finish();
    read
}

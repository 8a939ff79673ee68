//! The tables of the roof and its poles.

use std::ops::Range;

use super::deck::{Deck, deck};
use super::pile::{Pole, pile, typical};
use super::reader::Table;
use super::roof_loads::{self, RoofBolt, RoofFeet, RoofSoil, RoofTie, Wood};
use super::source::Written;
use crate::units::{Angle, Density, Kind, Length, Mass, Ratio, Slope, SurfaceMass};

/// How the roof stands.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum RoofKind {
    /// Poles that bear each other round an eye.
    Reciprocal,
    /// Straight pole rafters that all fall one way.
    OneWay,
}

/// `[roof]`
#[derive(Clone, Debug, Default)]
pub struct Roof {
    /// How it stands.
    pub kind: Option<Written<RoofKind>>,
    /// From the outer face of the wall's top to the eave, level.
    pub overhang: Option<Written<Length>>,
    /// Radius of the circle through the crossings, of a reciprocal roof.
    pub eye: Option<Written<Length>>,
    /// What notches take off the distance between two poles where they cross.
    pub notch: Option<Written<Length>>,
    /// What a pole runs on past its last crossing, along its axis in plan.
    pub tip: Option<Written<Length>>,
    /// How poles that are measured one by one lie in the ring.
    pub ring: RingKeys,
    /// Rise for each run, of a roof that falls one way.
    pub pitch: Option<Written<Slope>>,
    /// Direction in which it falls, anticlockwise from the x axis.
    pub falls: Option<Written<Angle>>,
    /// From rafter to rafter.
    pub spacing: Option<Written<Length>>,
    /// `[roof.soil]`
    pub soil: RoofSoil,
    /// `[roof.bolt]`
    pub bolt: RoofBolt,
    /// `[roof.tie]`
    pub tie: Option<RoofTie>,
    /// `[roof.feet]`, of a reciprocal roof.
    pub feet: Option<RoofFeet>,
    /// `[[roof.layers]]`, from the poles up.
    pub layers: Vec<RoofLayer>,
    /// `[roof.deck]`
    pub deck: Deck,
    /// `[roof.secondary]`
    pub secondary: Option<Secondary>,
}

/// What bears the heads of secondary rafters.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum SecondaryKind {
    /// Trimmers from pole to pole.
    Trimmed,
    /// The next pole: they are a second ring.
    Ring,
}

/// `[roof.secondary]`: rafters between the poles of a ring, each from the plate to a trimmer or to the next pole.
#[derive(Clone, Debug)]
pub struct Secondary {
    /// Where the table stands.
    pub at_table: Range<usize>,
    /// What bears their heads.
    pub kind: Option<Written<SecondaryKind>>,
    /// Where one of a second ring lies between its two poles on the plate.
    pub across: Option<Written<Ratio>>,
    /// What one of a second ring is cut to.
    pub length: Option<Written<Length>>,
    /// How deep it is cut where it rests.
    pub notch: Option<Written<Length>>,
    /// How deep its pole is cut there.
    pub housing: Option<Written<Length>>,
    /// Diameter of a bolt through both.
    pub bolt: Option<Written<Length>>,
    /// How many in each bay.
    pub count: Option<Written<u64>>,
    /// Where the trimmers lie, or the heads, as a share of the way from the plate to the crossing.
    pub at: Option<Written<Ratio>>,
    /// Diameter of a secondary rafter.
    pub diameter: Option<Written<Length>>,
    /// Diameter of a trimmer.
    pub trimmer: Option<Written<Length>>,
    /// What they are bought as.
    pub of: Option<Written<String>>,
}

/// How poles that are measured one by one lie in the ring.
#[derive(Clone, Debug, Default)]
pub struct RingKeys {
    /// Direction of the first corner of the eye from its middle, anticlockwise from the x axis.
    pub turned: Option<Written<Angle>>,
    /// How deep a pole is let into the plate.
    pub seat: Option<Written<Length>>,
    /// What a crossing beds when the prop goes.
    pub bedding: Option<Written<Length>>,
    /// What the prop stands higher for the last pole to slip in.
    pub clearance: Option<Written<Length>>,
    /// How far the plate lies above where it should at each pole, in their order.
    pub seats: Vec<Written<Length>>,
    /// Levels of the poles that are up, each at its mark where it rests, in the order of raising.
    pub raised: Vec<Written<Length>>,
}

/// One entry of `[[roof.layers]]`
#[derive(Clone, Debug)]
pub struct RoofLayer {
    /// Its name.
    pub name: Written<String>,
    /// What is bought for it.
    pub of: Option<Written<String>>,
    /// Thickness in place.
    pub thickness: Option<Written<Length>>,
    /// Mass of a cubic metre when saturated.
    pub saturated: Option<Written<Density>>,
    /// The same when dry: what holds the roof down at the least.
    pub dry: Option<Written<Density>>,
    /// Mass on a square metre, for sheets.
    pub mass: Option<Written<SurfaceMass>>,
    /// What laps and upstands add to its area.
    pub laps: Option<Written<Ratio>>,
    /// Loose volume for each volume in place.
    pub loose: Option<Written<f64>>,
}

/// `[poles]`
#[derive(Clone, Debug, Default)]
pub struct Poles {
    /// How many, of a reciprocal roof.
    pub count: Option<Written<u64>>,
    /// Mean diameter: at the first crossing of a reciprocal roof, else half-way.
    pub diameter: Option<Written<Length>>,
    /// Density of the wood as it is lifted.
    pub density: Option<Written<Density>>,
    /// What is bought.
    pub of: Option<Written<String>>,
    /// The wood that they are of.
    pub wood: Wood,
    /// The poles that lie there.
    pub pile: Vec<Pole>,
    /// What those are taken to be like that nobody measured yet.
    pub typical: Option<Pole>,
    /// The tags of those that lie, from the first place on; "turned" behind a tag where the thin end is at the wall.
    pub laid: Option<Written<Vec<Written<String>>>>,
    /// What makes one choice of them better than another.
    pub weights: Weights,
    /// How closely diameters, plate and eye are measured.
    pub measured_to: Option<Written<Length>>,
    /// What each of those who lift them lifts alone.
    pub alone: Option<Written<Mass>>,
}

/// `[poles.weights]`: what each millimetre counts that makes one choice of poles worse than another.
#[derive(Clone, Debug, Default)]
pub struct Weights {
    /// Cut off.
    pub waste: Option<Written<f64>>,
    /// Of a notch, more or less than is wanted.
    pub notch: Option<Written<f64>>,
    /// Of bow to the side.
    pub bow: Option<Written<f64>>,
}

pub(super) fn roof(mut table: Table<'_, '_>) -> Roof {
    let kinds = [("reciprocal", RoofKind::Reciprocal), ("one-way", RoofKind::OneWay)];
    let mut roof = Roof { kind: table.needed_choice("kind", &kinds), ..Roof::default() };
    roof.overhang = table.needed("overhang", Kind::Length);
    match roof.kind.as_ref().map(|kind| kind.value) {
        Some(RoofKind::Reciprocal) => {
            roof.eye = table.needed("eye", Kind::Length);
            roof.notch = table.quantity("notch", Kind::Length);
            roof.tip = table.quantity("tip", Kind::Length);
            roof.feet = table.table("feet").map(roof_loads::feet);
            roof.ring = RingKeys {
                turned: table.quantity("turned", Kind::Angle),
                seat: table.quantity("seat", Kind::Length),
                bedding: table.quantity("bedding", Kind::Length),
                clearance: table.quantity("clearance", Kind::Length),
                seats: table.lengths("seats"),
                raised: table.lengths("raised"),
            };
        }
        Some(RoofKind::OneWay) => {
            roof.pitch = table.needed("pitch", Kind::Slope);
            roof.falls = table.needed("falls", Kind::Angle);
            roof.spacing = table.needed("spacing", Kind::Length);
            roof.ring.seat = table.quantity("seat", Kind::Length);
        }
        None => {
            let ring = ["eye", "notch", "tip", "turned", "seat", "bedding", "clearance", "seats", "raised", "feet"];
            for key in ring.into_iter().chain(["pitch", "falls", "spacing"]) {
                table.unread(key);
            }
        }
    }
    roof.soil = table.table("soil").map(roof_loads::soil).unwrap_or_default();
    roof.bolt = table.table("bolt").map(roof_loads::bolt).unwrap_or_default();
    roof.tie = table.table("tie").map(roof_loads::tie);
    roof.deck = deck(&mut table);
    roof.secondary = table.table("secondary").map(secondary);
    roof.layers = table.listed_tables("layers").into_iter().map(|(name, table)| layer(name, table)).collect();
    table.finish();
    roof
}

fn secondary(mut table: Table<'_, '_>) -> Secondary {
    let kind = table.choice("kind", &[("trimmed", SecondaryKind::Trimmed), ("ring", SecondaryKind::Ring)]);
    let is_ring = kind.as_ref().is_some_and(|kind| kind.value == SecondaryKind::Ring);
    let read = Secondary {
        at_table: table.span.clone(),
        kind,
        across: if is_ring { table.quantity("across", Kind::Ratio) } else { None },
        length: if is_ring { table.quantity("length", Kind::Length) } else { None },
        notch: if is_ring { table.quantity("notch", Kind::Length) } else { None },
        housing: if is_ring { table.quantity("housing", Kind::Length) } else { None },
        bolt: if is_ring { table.quantity("bolt", Kind::Length) } else { None },
        count: if is_ring { None } else { table.needed_count("count", 1) },
        at: table.quantity("at", Kind::Ratio),
        diameter: table.needed_like("diameter", Kind::Length, "110 mm"),
        trimmer: if is_ring { None } else { table.needed_like("trimmer", Kind::Length, "130 mm") },
        of: table.needed_text("of", "thin-pole"),
    };
    table.finish();
    read
}

fn layer(name: Written<String>, mut table: Table<'_, '_>) -> RoofLayer {
    let read = RoofLayer {
        name,
        of: table.needed_text("of", "boards"),
        thickness: table.quantity("thickness", Kind::Length),
        saturated: table.quantity("saturated", Kind::Density),
        dry: table.quantity("dry", Kind::Density),
        mass: table.quantity("mass", Kind::SurfaceMass),
        laps: table.quantity("laps", Kind::Ratio),
        loose: table.quantity("loose", Kind::Number),
    };
    table.finish();
    read
}

pub(super) fn poles(mut table: Table<'_, '_>) -> Poles {
    let read = Poles {
        count: table.count("count"),
        diameter: table.needed("diameter", Kind::Length),
        density: table.quantity("density", Kind::Density),
        of: table.text("of"),
        wood: roof_loads::wood(&mut table),
        pile: pile(&mut table),
        typical: typical(&mut table),
        laid: table.texts("laid"),
        weights: weights(&mut table),
        measured_to: table.quantity("measured-to", Kind::Length),
        alone: table.quantity("alone", Kind::Mass),
    };
    table.finish();
    read
}

fn weights(poles: &mut Table<'_, '_>) -> Weights {
    let Some(mut table) = poles.table("weights") else { return Weights::default() };
    let [waste, notch, bow] = ["waste", "notch", "bow"].map(|key| table.quantity(key, Kind::Number));
    table.finish();
    Weights { waste, notch, bow }
}

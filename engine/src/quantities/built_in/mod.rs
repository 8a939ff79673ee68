//! Rows of what is built into and onto the wall: what it takes out of the cob, what it is made of, what is plastered.

mod beam;
mod bend;
mod bodies;
mod lift;
mod mosaic;
mod niche;
mod oven;
mod service;
mod through;
mod timber;

pub(super) use lift::taken;

use super::earth::Use;
use super::need::Need;
use crate::curve::Side;
use crate::house::built_in::What;
use crate::house::{BuiltIn, House};
use crate::row::Rows;

pub(super) fn walk(house: &House, rows: &mut Rows) -> Vec<Need> {
    let mut needs = Vec::new();
    for thing in &house.built_in {
        match &thing.what {
            What::Niche(niche) => niche::niche(house, thing, niche, rows),
            What::Shelf(shelf) => needs.push(niche::shelf(house, thing, shelf, rows)),
            What::Bottles(bottles) => needs.push(through::bottles(house, thing, bottles, rows)),
            What::Vent(vent) => through::vent(house, thing, vent, rows),
            What::Bench(bench) => bodies::bench(house, thing, bench, rows),
            What::Buttress(buttress) => bodies::buttress(house, thing, buttress, rows),
            What::Relief(relief) => bodies::relief(thing, relief, rows),
            What::Service(service) => needs.extend(service::service(house, thing, service, rows)),
            What::Mosaic(mosaic) => needs.extend(mosaic::mosaic(thing, mosaic, rows)),
            // Its rows lean on those of the stone of the stem.
            What::Oven(_) => {}
        }
    }
    needs.extend(beam::bond_beam(house, rows));
    needs.extend(house.anchors.iter().map(|anchors| timber::anchors(anchors, rows)));
    needs
}

/// Ovens, and the stone under buttresses; the rows of the stem's stone come first.
pub(super) fn stone(house: &House, rows: &mut Rows) -> Vec<Need> {
    let mut needs = Vec::new();
    for thing in &house.built_in {
        needs.extend(bodies::stone(house, thing, rows));
        if let What::Oven(oven) = &thing.what {
            needs.extend(oven::oven(house, thing, oven, rows));
        }
    }
    needs
}

/// What bottle bricks are made of; the rows of the coats come first.
pub(super) fn bottles(house: &House, rows: &mut Rows) {
    for thing in &house.built_in {
        if let What::Bottles(bottles) = &thing.what {
            through::lengths(house, thing, bottles, rows);
        }
    }
}

/// What is made of a recipe.
pub(super) fn uses(house: &House) -> impl Iterator<Item = Use> {
    house.built_in.iter().flat_map(|thing| {
        let made = thing.recipes().into_iter();
        made.map(|(recipe, noun)| Use { recipe: recipe.to_owned(), volume: thing.path(noun) })
    })
}

/// Rows of what is taken off a row of the whole wall: its volume, or one of its faces.
pub(super) fn taken_paths(house: &House, noun: &str) -> Vec<String> {
    match noun {
        "volume" => {
            let cut = house.built_in.iter().map(|thing| thing.path("removed-volume"));
            cut.chain(house.anchors.iter().map(|anchors| anchors.path("removed-volume"))).collect()
        }
        "inner-area" | "outer-area" => house.built_in.iter().map(|thing| thing.path(noun)).collect(),
        _ => Vec::new(),
    }
}

/// Rows of the surfaces that are plastered with the faces given, by the row of each face.
pub(super) fn plastered(house: &House, faces: &[&str]) -> Vec<String> {
    house.built_in.iter().flat_map(|thing| coated(thing, faces)).collect()
}

/// Those of one thing.
pub(super) fn coated(thing: &BuiltIn, faces: &[&str]) -> Vec<String> {
    let (side, nouns): (Side, &[&str]) = match &thing.what {
        What::Niche(niche) => (niche.side, &["inside-area"]),
        What::Bench(bench) => (bench.side, &["front-area", "top-area", "ends-area"]),
        What::Buttress(buttress) => (buttress.side, &["front-area", "sides-area", "top-area"]),
        _ => (Side::Inner, &[]),
    };
    let face = if side == Side::Inner { "wall.inner-area" } else { "wall.outer-area" };
    nouns.iter().filter(|_| faces.contains(&face)).map(|noun| thing.path(noun)).collect()
}

/// What titles call a thing.
fn said(thing: &BuiltIn) -> String {
    thing.name.replace('-', " ")
}

/// The noun of the area that a thing takes off a face, and the word for the face.
fn face(side: Side) -> (&'static str, &'static str) {
    match side {
        Side::Inner => ("inner-area", "inner"),
        Side::Outer => ("outer-area", "outer"),
    }
}

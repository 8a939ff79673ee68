//! Rows of what is built into and onto the wall: what it takes out of the cob, what it is made of, what is plastered.

mod bend;
mod bodies;
mod lift;
mod niche;
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
        }
    }
    needs.extend(timber::bond_beam(house, rows));
    needs.extend(house.anchors.iter().map(|anchors| timber::anchors(anchors, rows)));
    needs
}

/// The stone under buttresses; the rows of the stem's stone come first.
pub(super) fn stone(house: &House, rows: &mut Rows) -> Vec<Need> {
    house.built_in.iter().filter_map(|thing| bodies::stone(house, thing, rows)).collect()
}

/// What is made of a recipe.
pub(super) fn uses(house: &House) -> impl Iterator<Item = Use> {
    let made = house.built_in.iter();
    made.filter_map(|thing| Some(Use { recipe: thing.recipe()?.to_owned(), volume: thing.path("volume") }))
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
    let is_coated =
        |side: Side| faces.contains(&if side == Side::Inner { "wall.inner-area" } else { "wall.outer-area" });
    let surfaces = house.built_in.iter().flat_map(|thing| {
        let (side, nouns): (Side, &[&str]) = match &thing.what {
            What::Niche(niche) => (niche.side, &["inside-area"]),
            What::Bench(bench) => (bench.side, &["front-area", "top-area", "ends-area"]),
            What::Buttress(buttress) => (buttress.side, &["front-area", "sides-area", "top-area"]),
            What::Shelf(_) | What::Bottles(_) | What::Vent(_) | What::Relief(_) => (Side::Inner, &[]),
        };
        nouns.iter().filter(move |_| is_coated(side)).map(|noun| thing.path(noun))
    });
    surfaces.collect()
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

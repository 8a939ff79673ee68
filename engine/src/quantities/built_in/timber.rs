//! Rows of the bond beam and of the deadmen.

use super::super::line::turned;
use super::super::need::Need;
use super::super::uneven::sizes;
use crate::house::{Anchors, House};
use crate::reason::Answer;
use crate::row::Rows;
use crate::units::{Length, Volume};
use crate::wall;

pub(super) fn bond_beam(house: &House, rows: &mut Rows) -> Option<Need> {
    let beam = house.bond_beam.as_ref()?;
    let width = rows.known("width of the bond beam", &beam.width);
    let height = rows.known("height of the bond beam", &beam.height);
    let on = &house.wall;
    let (inside, outside) = (&on.batter_inside, &on.batter_outside);
    let length = Length::m(on.line.length());
    let (wall_height, height_path) = sizes(house, rows)[1];
    let length = wall::bond_beam_length(length, inside.value, outside.value, wall_height, on.line.turning())
        .from("line length", "wall.length")
        .from("batter inside", inside.path.as_str())
        .from("batter outside", outside.path.as_str())
        .from("height", height_path);
    let length = turned(length, house, rows);
    let length = rows.add("wall.bond-beam.length", "length of the bond beam along its middle, joints left out", length);
    let volume = wall::bond_beam_volume(length, width, height)
        .from("length", "wall.bond-beam.length")
        .from("width", beam.width.path.as_str())
        .from("height", beam.height.path.as_str());
    rows.add("wall.bond-beam.volume", "timber of the bond beam", volume);
    Some(Need::of(&beam.of, ["wall.bond-beam.volume".to_owned()]))
}

pub(super) fn anchors(anchors: &Anchors, rows: &mut Rows) -> Need {
    let name = anchors.name.replace('-', " ");
    rows.known(format!("middle of the first deadman of {name} along its run"), &anchors.spot.along);
    rows.known(format!("length of a deadman of {name}"), &anchors.length);
    rows.known(format!("width of a deadman of {name}"), &anchors.width);
    rows.known(format!("height of a deadman of {name}"), &anchors.height);
    rows.known(format!("deadmen of {name}"), &anchors.count);
    if let Some(spacing) = &anchors.spacing {
        rows.known(format!("from one deadman of {name} to the next"), spacing);
    }
    rows.add(anchors.path("removed-volume"), format!("cob that the deadmen of {name} take out"), deadmen(anchors));
    Need::of(&anchors.of, [anchors.path("count"), anchors.path("removed-volume")])
}

/// What deadmen take out of the lift in which they lie.
pub(super) fn deadmen(anchors: &Anchors) -> Answer<Volume> {
    let (length, width, height) = (&anchors.length, &anchors.width, &anchors.height);
    wall::deadmen(length.value, width.value, height.value, anchors.count.value)
        .from("length", length.path.as_str())
        .from("width", width.path.as_str())
        .from("height", height.path.as_str())
        .from("count", anchors.count.path.as_str())
}

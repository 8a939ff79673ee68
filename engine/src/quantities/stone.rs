//! Rows of the stone in the stem wall.

use super::need::Need;
use crate::build::OpeningKind;
use crate::house::{House, STONES};
use crate::row::Rows;
use crate::units::{Length, Volume};
use crate::{earth, wall};

pub(super) fn walk(house: &House, rows: &mut Rows) -> Vec<Need> {
    let stone = &house.wall.stone;
    rows.known("solid stone in the stem wall, by volume", &stone.solid);
    rows.known("hearting in the stone", &stone.hearting);
    rows.known("from one through stone to the next", &stone.through);
    rows.known("density of the stone itself", &stone.density);
    let stem: Option<Volume> = rows.value("wall.stem.volume");
    let solid = wall::solid_stone(stem.unwrap_or(Volume::ZERO), stone.solid.value)
        .from("stem", "wall.stem.volume")
        .from("solid", "wall.stem.solid");
    let solid = rows.add("wall.stem.solid-volume", "solid stone in the stem wall", solid);
    let hearting = wall::hearting(solid, stone.hearting.value)
        .from("solid stone", "wall.stem.solid-volume")
        .from("share", "wall.stem.hearting");
    let hearting = rows.add("wall.stem.hearting-volume", "hearting of the stem wall, solid", hearting);
    let face = wall::face_stone(solid, hearting)
        .from("solid stone", "wall.stem.solid-volume")
        .from("hearting", "wall.stem.hearting-volume");
    let face = rows.add("wall.stem.face-volume", "face stone of the stem wall, solid", face);
    for (noun, title, volume, from) in [
        ("wall.stem.face-mass", "face stone of the stem wall", face, "wall.stem.face-volume"),
        ("wall.stem.hearting-mass", "hearting of the stem wall", hearting, "wall.stem.hearting-volume"),
    ] {
        let mass = earth::mass(volume, stone.density.value).from("volume", from).from("density", "wall.stem.density");
        rows.add(noun, format!("{title}, by mass"), mass);
    }
    through(house, rows);
    let [face, hearting] = STONES;
    vec![Need::of(face, ["wall.stem.face-mass".to_owned()]), Need::of(hearting, ["wall.stem.hearting-mass".to_owned()])]
}

/// Through stones are picked out of the face stone: they are counted, not ordered once more.
fn through(house: &House, rows: &mut Rows) {
    let doors: Vec<_> = house
        .openings
        .iter()
        .filter(|opening| opening.kind == OpeningKind::Door && opening.bottom.value < Length::ZERO)
        .collect();
    let widths = doors.iter().map(|door| door.width.value).sum();
    let mut length = wall::stem_length(Length::m(house.wall.line.length()), widths).from("line length", "wall.length");
    for door in doors {
        length = length.with(format!("width of {}", door.name), door.width.value, door.width.path.as_str());
    }
    let length = rows.add("wall.stem.length", "length of the stem wall between doors", length);
    let count = wall::through_stones(length, house.wall.stone.through.value)
        .from("stem length", "wall.stem.length")
        .from("spacing", "wall.stem.through");
    rows.add("wall.stem.through-stones", "through stones, each as long as the stem wall is wide", count);
}

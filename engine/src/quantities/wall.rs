//! Rows of the wall and its stem: volumes, faces, and what rules measure.

use std::f64::consts::TAU;

use crate::house::House;
use crate::reason::Answer;
use crate::row::Rows;
use crate::units::{Length, Quantity};
use crate::wall;

pub(super) fn known(house: &House, rows: &mut Rows) {
    let wall = &house.wall;
    rows.known("height of the wall above the foot of the cob", &wall.height);
    rows.known("batter of the inner face", &wall.batter_inside);
    rows.known("batter of the outer face", &wall.batter_outside);
    rows.known("height of the stem wall", &wall.stem_height);
    rows.known("width of the stem wall", &wall.stem_width);
    rows.known("level of the ground outside", &house.ground);
    rows.known("level of the finished floor", &house.floor_level);
}

pub(super) fn walk(house: &House, rows: &mut Rows) {
    cob(house, rows);
    stem(house, rows);
    measures(house, rows);
}

/// Takes the rows of one noun of every opening off a gross row.
fn removed(house: &House, rows: &Rows, noun: &str) -> Vec<(String, String, Quantity)> {
    let paths = house.openings.iter().map(|opening| opening.path(noun));
    paths.filter_map(|path| rows.find(&path).map(|row| (row.title.clone(), path, row.quantity))).collect()
}

fn si_sum(removed: &[(String, String, Quantity)]) -> f64 {
    removed.iter().filter_map(|(_, _, quantity)| quantity.si()).sum()
}

fn less<T>(answer: Answer<T>, removed: Vec<(String, String, Quantity)>, gross: &str) -> Answer<T> {
    answer.from("gross", gross).of_parts(removed)
}

fn cob(house: &House, rows: &mut Rows) {
    let wall = &house.wall;
    let length = Length::m(wall.line.length());
    let (thickness, height) = (wall.thickness.value, wall.height.value);
    let (inside, outside) = (wall.batter_inside.value, wall.batter_outside.value);
    let bound = |batter: &str| {
        let batter = batter.to_owned();
        move |answer: Answer<crate::units::Area>| {
            answer
                .from("line length", "wall.length")
                .from("thickness", "wall.thickness")
                .from("batter", batter.as_str())
                .from("height", "wall.height")
        }
    };
    let gross = wall::cob_gross(length, thickness, inside, outside, height, TAU)
        .from("line length", "wall.length")
        .from("thickness", "wall.thickness")
        .from("batter inside", "wall.batter.inside")
        .from("batter outside", "wall.batter.outside")
        .from("height", "wall.height");
    let gross = rows.add("wall.gross-volume", "cob in the wall before openings", gross);
    let holes = removed(house, rows, "volume");
    let net = less(wall::net_volume(gross, crate::units::Volume::m3(si_sum(&holes))), holes, "wall.gross-volume");
    rows.add("wall.volume", "cob in the wall, openings taken out", net);
    for (side, batter_path, noun, answer) in [
        ("outer", "wall.batter.outside", "outer-area", wall::outer_face_gross(length, thickness, outside, height, TAU)),
        ("inner", "wall.batter.inside", "inner-area", wall::inner_face_gross(length, thickness, inside, height, TAU)),
    ] {
        let gross_path = format!("wall.{side}-gross-area");
        let title = format!("{side} face of the cob before openings");
        let gross = rows.add(gross_path.as_str(), title, bound(batter_path)(answer));
        let holes = removed(house, rows, noun);
        let net = less(wall::net_area(gross, crate::units::Area::m2(si_sum(&holes))), holes, &gross_path);
        rows.add(format!("wall.{side}-area"), format!("{side} face of the cob, openings taken out"), net);
    }
}

fn stem(house: &House, rows: &mut Rows) {
    let wall = &house.wall;
    let length = Length::m(wall.line.length());
    let gross = wall::stem_gross(length, wall.stem_width.value, wall.stem_height.value)
        .from("line length", "wall.length")
        .from("width", "wall.stem.width")
        .from("height", "wall.stem.height");
    let gross = rows.add("wall.stem.gross-volume", "stem wall before doors", gross);
    let holes = removed(house, rows, "stem-volume");
    let net = less(wall::net_volume(gross, crate::units::Volume::m3(si_sum(&holes))), holes, "wall.stem.gross-volume");
    rows.add("wall.stem.volume", "stem wall, doors taken out", net);
}

fn measures(house: &House, rows: &mut Rows) {
    let wall = &house.wall;
    let (thickness, height) = (wall.thickness.value, wall.height.value);
    let top = wall::top_thickness(thickness, wall.batter_inside.value, wall.batter_outside.value, height)
        .from("thickness", "wall.thickness")
        .from("batter inside", "wall.batter.inside")
        .from("batter outside", "wall.batter.outside")
        .from("height", "wall.height");
    rows.add("wall.top-thickness", "thickness of the wall at its top", top);
    let third = wall::thickness_at_third(thickness, wall.batter_inside.value, wall.batter_outside.value, height)
        .from("thickness", "wall.thickness")
        .from("batter inside", "wall.batter.inside")
        .from("batter outside", "wall.batter.outside")
        .from("height", "wall.height");
    rows.add("wall.thickness-at-third", "thickness of the wall at a third of its height", third);
    let slenderness =
        wall::slenderness(height, thickness).from("height", "wall.height").from("thickness", "wall.thickness");
    rows.add("wall.slenderness", "height of the wall over its thickness", slenderness);
    let above = wall::height_above_ground(house.ground.value).from("ground outside", "ground.outside");
    rows.add("wall.base-above-ground", "foot of the cob above the ground outside", above);
    let room = wall::room_height(height, house.floor_level.value)
        .from("wall height", "wall.height")
        .from("floor", "ground.floor");
    rows.add("room.height", "from the finished floor to the top of the wall", room);
    let foot = wall::foot_above_floor(house.floor_level.value).from("floor", "ground.floor");
    rows.add("room.foot-above-floor", "foot of the cob above the finished floor", foot);
    let widths = house.openings.iter().map(|opening| opening.width.value).sum();
    let mut share = wall::openings_share(Length::m(wall.line.length()), widths).from("line length", "wall.length");
    for opening in &house.openings {
        share = share.with(format!("width of {}", opening.name), opening.width.value, opening.width.path.as_str());
    }
    rows.add("wall.openings-share", "widths of all openings against the length of the wall", share);
}

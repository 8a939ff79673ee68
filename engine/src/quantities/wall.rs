//! Rows of the wall and its stem: volumes, faces, and what rules measure.

use super::line::{bind, turned};
use super::uneven;
use crate::build::OpeningKind;
use crate::curve::{Body, Side};
use crate::house::House;
use crate::reason::Answer;
use crate::row::Rows;
use crate::units::{Area, Length, Quantity, Volume};
use crate::wall;

pub(super) fn known(house: &House, rows: &mut Rows) {
    let wall = &house.wall;
    rows.known("batter of the inner face", &wall.batter_inside);
    rows.known("batter of the outer face", &wall.batter_outside);
    rows.known("height of the stem wall", &wall.stem_height);
    rows.known("width of the stem wall", &wall.stem_width);
    rows.known("level of the ground outside", &house.ground);
    // Beside an open wall the floor counts only for a threshold that is level with it, or when it was written.
    let has_door = house.openings.iter().any(|opening| opening.kind == OpeningKind::Door);
    if wall.line.is_closed() || has_door || house.floor_level.line.is_some() {
        rows.known("level of the finished floor", &house.floor_level);
    }
}

/// The middle of the wall's top, on which a beam lies and under a cover.
pub(super) fn top(house: &House, rows: &mut Rows) {
    let wall = &house.wall;
    let (inside, outside) = (&wall.batter_inside, &wall.batter_outside);
    let (height, height_path) = uneven::sizes(house, rows)[1];
    let length = Length::m(wall.line.length());
    let length = wall::top_length(length, inside.value, outside.value, height, wall.line.turning())
        .from("line length", "wall.length")
        .from("batter inside", inside.path.as_str())
        .from("batter outside", outside.path.as_str())
        .from("height", height_path);
    let length = turned(length, house, rows);
    rows.add("wall.top-length", "length of the middle of the wall's top", length);
}

pub(super) fn walk(house: &House, body: &Body<'_>, rows: &mut Rows) {
    cob(house, body, rows);
    stem(house, rows);
    measures(house, body, rows);
}

/// Takes the rows of one noun of every opening off a gross row.
fn removed(house: &House, rows: &Rows, noun: &str) -> Vec<(String, String, Quantity)> {
    let built_in = super::built_in::taken_paths(house, noun);
    let paths = house.openings.iter().map(|opening| opening.path(noun)).chain(built_in);
    paths.filter_map(|path| rows.find(&path).map(|row| (row.title.clone(), path, row.quantity))).collect()
}

fn si_sum(removed: &[(String, String, Quantity)]) -> f64 {
    removed.iter().filter_map(|(_, _, quantity)| quantity.si()).sum()
}

fn less<T>(answer: Answer<T>, removed: Vec<(String, String, Quantity)>, gross: &str) -> Answer<T> {
    answer.from("gross", gross).of_parts(removed)
}

fn cob(house: &House, body: &Body<'_>, rows: &mut Rows) {
    let gross = gross_volume(house, body, rows);
    let gross = rows.add("wall.gross-volume", "cob in the wall before openings", gross);
    let mut holes = removed(house, rows, "volume");
    holes.extend(removed(house, rows, "lintel.volume"));
    let net = less(wall::net_volume(gross, Volume::m3(si_sum(&holes))), holes, "wall.gross-volume");
    rows.add("wall.volume", "cob in the wall, all cuts taken out", net);
    for (side, word, noun) in [(Side::Outer, "outer", "outer-area"), (Side::Inner, "inner", "inner-area")] {
        let gross_path = format!("wall.{word}-gross-area");
        let title = format!("{word} face of the cob before openings");
        let answer = gross_face(house, body, side, rows);
        let gross = rows.add(gross_path.as_str(), title, answer);
        let holes = removed(house, rows, noun);
        let net = less(wall::net_area(gross, Area::m2(si_sum(&holes))), holes, &gross_path);
        rows.add(format!("wall.{word}-area"), format!("{word} face of the cob, less cuts and what covers it"), net);
    }
}

fn gross_volume(house: &House, body: &Body<'_>, rows: &Rows) -> Answer<Volume> {
    let wall = &house.wall;
    if !wall.is_even() {
        return uneven::bind_body(wall::cob_gross_uneven(body), house, rows);
    }
    let (length, thickness, height) = (Length::m(wall.line.length()), wall.thickness.value, wall.height.value);
    let turning = wall.line.turning();
    let gross =
        wall::cob_gross(length, thickness, wall.batter_inside.value, wall.batter_outside.value, height, turning);
    turned(gross, house, rows)
        .from("line length", "wall.length")
        .from("thickness", "wall.thickness")
        .from("batter inside", "wall.batter.inside")
        .from("batter outside", "wall.batter.outside")
        .from("height", "wall.height")
}

fn gross_face(house: &House, body: &Body<'_>, side: Side, rows: &Rows) -> Answer<Area> {
    let wall = &house.wall;
    let (batter, formula, path): (_, fn(_, _, _, _, f64) -> _, _) = match side {
        Side::Outer => (wall.batter_outside.value, wall::outer_face_gross, "wall.batter.outside"),
        Side::Inner => (wall.batter_inside.value, wall::inner_face_gross, "wall.batter.inside"),
    };
    if !wall.is_even() {
        let answer = wall::face_gross_uneven(body, side);
        return bind(uneven::bind_height(uneven::bind_thickness(answer, house, rows), house, rows), rows, path);
    }
    let gross =
        formula(Length::m(wall.line.length()), wall.thickness.value, batter, wall.height.value, wall.line.turning());
    turned(gross, house, rows)
        .from("line length", "wall.length")
        .from("thickness", "wall.thickness")
        .from("batter", path)
        .from("height", "wall.height")
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

/// Binds thickness and height: of the whole wall, or what makes them at a place along the line, in metres.
fn sized<T>(answer: Answer<T>, house: &House, along: f64, rows: &Rows) -> Answer<T> {
    if house.wall.is_even() {
        let answer = answer.from("thickness", "wall.thickness");
        return answer.from("height", "wall.height").from("level", "wall.height");
    }
    let answer = answer.without("thickness").without("height").without("level");
    uneven::bind_worst(answer, house, along, rows)
}

fn measures(house: &House, body: &Body<'_>, rows: &mut Rows) {
    let wall = &house.wall;
    let (inside, outside) = (wall.batter_inside.value, wall.batter_outside.value);
    let lean = inside.in_ratio() + outside.in_ratio();
    // Where a wall is not even, the place that is worst for each measure counts.
    let worst = |measure: &dyn Fn(f64, f64) -> f64| {
        let along = body.greatest(measure);
        (along, [wall.thicknesses.at(along), wall.top.at(&wall.line, along)].map(Length::m))
    };
    let (along, [thickness, height]) = worst(&|thickness, height| lean * height - thickness);
    let top = wall::thickness_at(thickness, inside, outside, height);
    let top = sized(
        top.from("batter inside", "wall.batter.inside").from("batter outside", "wall.batter.outside"),
        house,
        along,
        rows,
    );
    rows.add("wall.top-thickness", "thickness of the wall at its top", top);
    let (along, [thickness, height]) = worst(&|thickness, height| lean * height / 3.0 - thickness);
    let third = wall::thickness_at_third(thickness, inside, outside, height);
    let third = sized(
        third.from("batter inside", "wall.batter.inside").from("batter outside", "wall.batter.outside"),
        house,
        along,
        rows,
    );
    rows.add("wall.thickness-at-third", "thickness of the wall at a third of its height", third);
    let (along, [thickness, height]) = worst(&|thickness, height| height / thickness);
    let slenderness = sized(wall::slenderness(height, thickness), house, along, rows);
    rows.add("wall.slenderness", "height of the wall over its thickness", slenderness);
    let above = wall::height_above_ground(house.ground.value).from("ground outside", "ground.outside");
    rows.add("wall.base-above-ground", "foot of the cob above the ground outside", above);
    if wall.line.is_closed() {
        room(house, rows);
    }
    let widths = house.openings.iter().map(|opening| opening.width.value).sum();
    let mut share = wall::openings_share(Length::m(wall.line.length()), widths).from("line length", "wall.length");
    for opening in &house.openings {
        share = share.with(format!("width of {}", opening.name), opening.width.value, opening.width.path.as_str());
    }
    rows.add("wall.openings-share", "widths of all openings against the length of the wall", share);
}

fn room(house: &House, rows: &mut Rows) {
    let (height, path) = match rows.value("wall.lowest") {
        Some(lowest) => (lowest, "wall.lowest"),
        None => (house.wall.height.value, "wall.height"),
    };
    let room =
        wall::room_height(height, house.floor_level.value).from("wall height", path).from("floor", "ground.floor");
    rows.add("room.height", "from the finished floor to the top of the wall", room);
    let foot = wall::foot_above_floor(house.floor_level.value).from("floor", "ground.floor");
    rows.add("room.foot-above-floor", "foot of the cob above the finished floor", foot);
}

//! Rows of the roof, a first cut: how the poles lie, areas on the slope, layers and what they weigh.

mod advice;
pub(crate) mod along;
mod beam;
mod bearing;
mod boarding;
mod crossings;
mod deck;
mod deck_boards;
mod factors;
mod feet;
mod heads;
mod hold;
mod layers;
mod loads;
mod members;
mod opening;
mod places;
mod rafter;
mod rafter_pile;
mod rafter_places;
mod rafters;
mod second;
mod secondary;
mod slide;
mod ties;
pub(crate) mod trade;

pub(super) use deck_boards::held;

use kurbo::Vec2;

use super::line::{bind, bind_piece};
use super::need::Need;
use super::uneven::sizes;
use crate::house::{Frame, House, Ring, Roof};
use crate::reason::Answer;
use crate::roof;
use crate::row::Rows;
use crate::units::{Angle, Area, Length, Quantity};
use crate::wall;

/// Every computed row of the roof says that it is a first cut.
fn add<T: Copy + Into<Quantity>>(rows: &mut Rows, path: impl Into<String>, title: &str, answer: Answer<T>) -> T {
    rows.add(path, format!("{title}, first cut"), answer)
}

pub(super) fn walk(house: &House, rows: &mut Rows) -> Vec<Need> {
    let Some(roof) = &house.roof else { return Vec::new() };
    rows.known("overhang of the roof beyond the wall's top", &roof.overhang);
    rows.known("mean diameter of the poles", &roof.diameter);
    rows.known("density of the poles as lifted", &roof.density);
    let eave = outlines(house, roof, rows);
    let (count, length) = match &roof.frame {
        Frame::Reciprocal { .. } => reciprocal(roof, eave, rows),
        Frame::OneWay { .. } => one_way(house, roof, eave, rows),
    };
    if let Some(ring) = measured(roof) {
        places::walk(house, roof, ring, rows);
        places::whole_of_poles(house, ring, rows);
    }
    if let Some(deck) = &roof.deck {
        deck::surface(deck, rows);
        deck::walk(house, (deck, roof.is_raised()), rows);
    }
    if measured(roof).is_none() {
        typical(house, roof, (count, length), rows);
    }
    let mut needs = vec![Need::of(&roof.of, [count_path(roof).to_owned()])];
    needs.extend(roof.secondary.as_ref().map(|own| secondary::walk((own, measured(roof)), roof.density.value, rows)));
    needs.extend(layers::walk(house, roof, rows));
    hold::walk(house, roof, rows);
    needs
}

/// The ring of poles that are measured one by one.
fn measured(roof: &Roof) -> Option<&Ring> {
    match &roof.frame {
        Frame::Reciprocal { ring, .. } => ring.as_deref(),
        Frame::OneWay { .. } => None,
    }
}

/// Wood, mass and height of poles that are all taken to be alike; what is measured of them was said.
fn typical(house: &House, roof: &Roof, (count, length): (u64, Length), rows: &mut Rows) {
    if rows.find("roof.poles.volume").is_none() {
        let volume = roof::pole_volume(count, roof.diameter.value, length)
            .from("count", count_path(roof))
            .from("diameter", "poles.diameter")
            .from("length", "roof.poles.cut-length");
        let volume = add(rows, "roof.poles.volume", "wood of the poles", volume);
        let mass = roof::pole_mass(volume, roof.density.value)
            .from("volume", "roof.poles.volume")
            .from("density", "poles.density");
        add(rows, "roof.poles.mass", "mass of the poles", mass);
    }
    let rise = rows.value("roof.rise").unwrap_or(Length::ZERO);
    let (top, top_path) = sizes(house, rows)[1];
    let height = roof::height_above_ground(top, house.ground.value, rise)
        .from("wall height", top_path)
        .from("ground outside", "ground.outside")
        .from("rise", "roof.rise");
    add(rows, "house.height", "height of the poles' axes above the ground outside", height);
}

fn count_path(roof: &Roof) -> &str {
    match &roof.frame {
        Frame::Reciprocal { count, .. } => &count.path,
        Frame::OneWay { .. } => "roof.poles.count",
    }
}

/// Plate line and eave: offsets and areas in plan. Hands back the area within the eave.
fn outlines(house: &House, roof: &Roof, rows: &mut Rows) -> Area {
    let wall = &house.wall;
    let (enclosed, length) = (Area::m2(wall.line.area()), Length::m(wall.line.length()));
    let [(thickness, thickness_path), (height, height_path)] = sizes(house, rows);
    let plate = wall::plate_offset(wall.batter_inside.value, wall.batter_outside.value, height)
        .from("batter inside", "wall.batter.inside")
        .from("batter outside", "wall.batter.outside")
        .from("height", height_path);
    let plate = rows.add("roof.plate-offset", "middle of the wall's top, outside its line at the foot", plate);
    let eave = wall::eave_offset(thickness, wall.batter_outside.value, height, roof.overhang.value)
        .from("thickness", thickness_path)
        .from("batter outside", "wall.batter.outside")
        .from("height", height_path)
        .from("overhang", "roof.overhang");
    let eave = rows.add("roof.eave-offset", "eave, outside the wall's line at the foot", eave);
    let within = |offset: Length, from: &str| {
        roof::eave_area(enclosed, length, offset)
            .from("enclosed area", "wall.enclosed-area")
            .from("line length", "wall.length")
            .from("offset", from)
    };
    rows.add("roof.plate-area", "area in plan within the plate line", within(plate, "roof.plate-offset"));
    rows.add("roof.eave-area", "area in plan within the eave", within(eave, "roof.eave-offset"))
}

fn length(rows: &Rows, path: &str) -> Length {
    rows.value(path).unwrap_or(Length::ZERO)
}

fn reciprocal(roof: &Roof, eave_area: Area, rows: &mut Rows) -> (u64, Length) {
    let Frame::Reciprocal { count, eye, notch, tip, .. } = &roof.frame else {
        return (0, Length::ZERO);
    };
    let count = rows.known("poles of the roof", count);
    let eye = rows.known("radius of the circle through the crossings", eye);
    let notch = rows.known("what notches take off at a crossing", notch);
    let tip = rows.known("tips left beyond the second crossing", tip);
    let bound = |answer: Answer<Length>| {
        answer
            .from("count", "poles.count")
            .from("eye radius", "roof.eye")
            .from("plan radius", "roof.plan-radius")
            .from("diameter", "poles.diameter")
            .from("notch", "roof.notch")
            .from("tip", "roof.tip")
            .from("axis distance", "roof.axis-distance")
            .from("pitch", "roof.pitch")
            .from("to first crossing", "roof.to-first-crossing")
            .from("between crossings", "roof.between-crossings")
            .from("plan length", "roof.plan-length")
            .from("crossing height", "roof.rise")
            .from("plan distance", "roof.plan-length")
            .from("overhang", "roof.support-to-eave")
    };
    let plate = rows.value("roof.plate-area").unwrap_or(Area::ZERO);
    let radius = roof::plan_radius(plate).from("enclosed area", "roof.plate-area");
    let radius = add(rows, "roof.plan-radius", "radius of the circle as large as the plate line", radius);
    let distance = bound(roof::axis_distance(roof.diameter.value, notch));
    let distance = add(rows, "roof.axis-distance", "distance of two poles' axes at their crossing", distance);
    let pitch = roof::pitch(count, eye, distance)
        .from("count", "poles.count")
        .from("eye radius", "roof.eye")
        .from("axis distance", "roof.axis-distance");
    let pitch = add(rows, "roof.pitch", "pitch of the poles", pitch);
    let between = bound(roof::between_crossings(count, eye));
    let between = add(rows, "roof.between-crossings", "from a pole's first crossing to its second, in plan", between);
    let to_first = bound(roof::to_first_crossing(count, radius, eye));
    let to_first = add(rows, "roof.to-first-crossing", "from the wall to a pole's first crossing, in plan", to_first);
    let plan = bound(roof::plan_length(to_first, between));
    let plan = add(rows, "roof.plan-length", "from the wall to a pole's second crossing, in plan", plan);
    let axis = bound(roof::axis_length(plan, pitch));
    add(rows, "roof.poles.axis-length", "pole from the wall to its second crossing", axis);
    let rise = bound(roof::crossing_height(plan, pitch));
    let rise = add(rows, "roof.rise", "rise of the poles from the wall to their second crossing", rise);
    let prop = bound(roof::prop_height(rise, roof.diameter.value, pitch));
    add(rows, "roof.prop-height", "top of the prop above the poles' axes on the wall", prop);
    let out = support_out(rows);
    let out = bound(roof::support_to_eave(count, radius, eye, out)).from("out", "roof.support-out");
    let out = add(rows, "roof.support-to-eave", "from the wall to the eave along a pole, in plan", out);
    let cut = bound(roof::pole_length(plan, out, tip, pitch));
    let cut = match measured(roof) {
        Some(_) => cut.value,
        None => add(rows, "roof.poles.cut-length", "length of a pole, eave to tip", cut),
    };
    let eye_area = roof::eye_area(count, eye).from("count", "poles.count").from("eye radius", "roof.eye");
    let eye_area = add(rows, "roof.eye-area", "area of the eye in plan", eye_area);
    let roofed =
        roof::roofed(eave_area, eye_area).from("eave area", "roof.eave-area").from("eye area", "roof.eye-area");
    let roofed = add(rows, "roof.plan-area", "roofed area in plan", roofed);
    if roof.deck.is_none() {
        sloped(roof, (roofed, "roof.plan-area"), pitch, rows);
    }
    (count, cut)
}

/// From the middle of the wall's top to the eave, square to the wall.
fn support_out(rows: &mut Rows) -> Length {
    let (eave, plate) = (length(rows, "roof.eave-offset"), length(rows, "roof.plate-offset"));
    let out = wall::between_offsets(eave, plate).from("outer", "roof.eave-offset").from("inner", "roof.plate-offset");
    rows.add("roof.support-out", "from the middle of the wall's top to the eave", out)
}

fn sloped(roof: &Roof, (plan, from): (Area, &str), pitch: Angle, rows: &mut Rows) {
    let area = roof::sloped_area(plan, pitch).from("plan area", from).from("pitch", pitch_path(rows));
    // The plane of a roof that falls one way is no first cut once its boards are laid out.
    let cut = if roof.is_decked() { "" } else { ", first cut" };
    rows.add("roof.area", format!("area of the roof on the slope{cut}"), area);
}

fn pitch_path(rows: &Rows) -> &'static str {
    if rows.find("roof.angle").is_some() { "roof.angle" } else { "roof.pitch" }
}

fn one_way(house: &House, roof: &Roof, eave_area: Area, rows: &mut Rows) -> (u64, Length) {
    let Frame::OneWay { pitch, falls, spacing, seat, rafters } = &roof.frame else {
        return (0, Length::ZERO);
    };
    let slope = rows.known("pitch of the roof", pitch);
    let falls = rows.known("direction in which the roof falls, from the x axis", falls);
    let spacing = rows.known("spacing of the rafters, at most", spacing);
    let angle =
        add(rows, "roof.angle", "pitch of the roof as an angle", roof::angle(slope).from("pitch", "roof.pitch"));
    let along = Vec2::from_angle(falls.in_rad());
    let plate = ("roof.plate-offset", "the plate line");
    let eave = ("roof.eave-offset", "the eave");
    let across = reach(house, falls, along.turn_90(), plate, ("roof.plate-across", "across the fall"), rows);
    let run = reach(house, falls, along, plate, ("roof.plate-along", "along the fall"), rows);
    let eave_across = reach(house, falls, along.turn_90(), eave, ("roof.eave-across", "across the fall"), rows);
    let eave_along = reach(house, falls, along, eave, ("roof.eave-along", "along the fall"), rows);
    let count = roof::rafter_count(across, spacing).from("across", "roof.plate-across").from("spacing", "roof.spacing");
    let count = add(rows, "roof.poles.count", "rafters", count);
    let mean = roof::mean_length(eave_area, eave_across, angle)
        .from("eave area", "roof.eave-area")
        .from("across", "roof.eave-across")
        .from("pitch", "roof.angle");
    add(rows, "roof.poles.mean-length", "mean length of the rafters, eave to eave", mean);
    let longest = roof::longest(eave_along, angle).from("along", "roof.eave-along").from("pitch", "roof.angle");
    let longest = add(rows, "roof.poles.cut-length", "length of the longest rafter, eave to eave", longest);
    let rise = roof::rise(run, slope).from("along", "roof.plate-along").from("pitch", "roof.pitch");
    let title = if roof.is_open(&house.wall, house.gap.is_some()) {
        "rise of the rafters from the low side of the wall to the high one: up to so much is open there, not counted yet"
    } else {
        "rise of the rafters from the low side of the wall to the high one"
    };
    add(rows, "roof.rise", title, rise);
    sloped(roof, (eave_area, "roof.eave-area"), angle, rows);
    let seat = rows.known("how deep a rafter is let into its plates", seat);
    rafter_places::walk(house, roof, (rafters, seat), rows);
    opening::flues(house, roof, rafters, rows);
    if let Some(boarding) = &roof.boarding {
        boarding::walk(house, boarding, rows);
    }
    (count, longest)
}

/// How far an outline at an offset of the wall's line reaches in a direction.
fn reach(
    house: &House,
    falls: Angle,
    along: Vec2,
    (offset, of): (&str, &str),
    (path_of, words): (&str, &str),
    rows: &mut Rows,
) -> Length {
    let wall = &house.wall;
    let at = length(rows, offset);
    let ([least, most], by) = wall.line.reach(at.in_m(), along);
    let mut answer = roof::reach(falls, Length::m(most - least)).from("falls", "roof.falls");
    answer = bind(answer, rows, offset);
    for piece in by {
        answer = bind_piece(answer, house, piece, rows);
    }
    add(rows, path_of, &format!("reach of {of} {words}"), answer)
}

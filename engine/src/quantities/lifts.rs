//! Rows of the lifts: how high, when begun, how much cob, openings taken out.

use std::f64::consts::TAU;

use super::openings::curvature;
use crate::curve::Strip;
use crate::house::{House, Lift, Opening, Recipe};
use crate::reason::Answer;
use crate::row::Rows;
use crate::units::{Area, Density, Length, Mass, Ratio, Volume};
use crate::{earth, wall};

pub(super) fn walk(house: &House, rows: &mut Rows) {
    let strips: Vec<(&Opening, Strip<'_>)> =
        house.openings.iter().filter_map(|opening| Some((opening, opening.strip(&house.wall)?))).collect();
    let [trim, returned] = &house.wall.trim;
    if house.cob().is_some() {
        rows.known("cob that is trimmed off, of the finished wall", trim);
        rows.known("trimmings that go back to the tarp", returned);
    }
    let mut below: Option<&Lift> = None;
    for lift in &house.wall.lifts {
        if lift.top.path != house.wall.height.path {
            rows.known(format!("level of the top of {}", lift.name), &lift.top);
        }
        rows.known(format!("start of {}, days after the first lift", lift.name), &lift.start);
        height(lift, below, rows);
        let volume = volume(house, lift, below, &strips, rows);
        bed(house, lift, &strips, rows);
        if let Some((_, cob)) = house.cob() {
            trodden(cob, lift, volume, [trim.value, returned.value], rows);
            standing(house, lift, rows);
        }
        below = Some(lift);
    }
}

fn height(lift: &Lift, below: Option<&Lift>, rows: &mut Rows) {
    let foot = below.map_or(Length::ZERO, |below| below.top.value);
    let height = wall::lift_height(lift.top.value, foot).from("top", lift.top.path.as_str());
    let height = match below {
        Some(below) => height.from("foot", below.top.path.as_str()),
        None => height.without("foot"),
    };
    rows.add(lift.path("height"), format!("height of {}", lift.name), height);
}

/// Mass and batches of a lift.
fn trodden(cob: &Recipe, lift: &Lift, volume: Volume, [trim, returned]: [Ratio; 2], rows: &mut Rows) {
    let name = &lift.name;
    let (wet, each) = (rows.value::<Density>(&cob.path("wet-density")), rows.value(&cob.path("placed-volume")));
    let (Some(wet), Some(each)) = (wet, each) else { return };
    let mass = earth::mass(volume, wet).from("volume", lift.path("volume")).from("density", cob.path("wet-density"));
    rows.add(lift.path("mass"), format!("mass of {name}, wet as placed"), mass);
    let mixed = earth::cob_to_mix(volume, trim, returned)
        .from("volume", lift.path("volume"))
        .from("trim", "wall.trim")
        .from("returned", "wall.returned");
    let mixed = rows.add(lift.path("to-mix"), format!("cob to mix for {name}"), mixed);
    let batches =
        earth::batches(mixed, each).from("volume", lift.path("to-mix")).from("batch", cob.path("placed-volume"));
    let batches = rows.add(lift.path("batches"), format!("batches for {name}"), batches);
    if let Some(loaves) = rows.value::<u64>(&cob.path("loaves")) {
        let loaves = earth::loaves_in_all(batches, loaves)
            .from("batches", lift.path("batches"))
            .from("loaves", cob.path("loaves"));
        rows.add(lift.path("loaves"), format!("loaves for {name}"), loaves);
    }
}

/// What stands on the day a lift is begun, that lift with it.
fn standing(house: &House, lift: &Lift, rows: &mut Rows) {
    let stands = house.on(lift.start.value);
    let masses: Vec<(String, String, Mass)> = rows.parts(stands.lifts.iter().map(|lift| lift.path("mass")));
    let sum = earth::standing(masses.iter().map(|(.., mass)| *mass).sum()).of_parts(masses);
    rows.add(lift.path("standing"), format!("mass of the wall when {} is laid, wet as placed", lift.name), sum);
}

/// Area of the top of a lift, openings taken out.
fn bed(house: &House, lift: &Lift, strips: &[(&Opening, Strip<'_>)], rows: &mut Rows) {
    let wall = &house.wall;
    let (thickness, inside, outside) = (wall.thickness.value, wall.batter_inside.value, wall.batter_outside.value);
    let (length, top) = (Length::m(wall.line.length()), lift.top.value);
    let gross =
        bound(wall::bed_gross(length, thickness, inside, outside, top, TAU)).from("top", lift.top.path.as_str());
    let gross = rows.add(lift.path("bed-gross-area"), format!("top of {} before openings", lift.name), gross);
    let mut taken = Vec::new();
    for (opening, strip) in strips {
        if opening.bottom.value > top || opening.head() <= top {
            continue;
        }
        let answer = bound(wall::bed_removed(opening.width.value, thickness, inside, outside, top, strip))
            .from("width", opening.path("width"))
            .from("top", lift.top.path.as_str());
        let path = lift.path(&format!("bed-less-{}", opening.name));
        let title = format!("top of {} that {} takes out", lift.name, opening.name);
        let answer = curvature(answer, house, opening, strip, rows);
        taken.push((title.clone(), path.clone(), rows.add(path, title, answer)));
    }
    let sum: Area = taken.iter().map(|(.., area)| *area).sum();
    let net = wall::net_area(gross, sum).from("gross", lift.path("bed-gross-area")).of_parts(taken);
    rows.add(lift.path("bed-area"), format!("top of {}, openings taken out", lift.name), net);
}

fn bound<T>(answer: Answer<T>) -> Answer<T> {
    answer
        .from("line length", "wall.length")
        .from("thickness", "wall.thickness")
        .from("batter inside", "wall.batter.inside")
        .from("batter outside", "wall.batter.outside")
}

fn volume(
    house: &House,
    lift: &Lift,
    below: Option<&Lift>,
    strips: &[(&Opening, Strip<'_>)],
    rows: &mut Rows,
) -> Volume {
    let wall = &house.wall;
    let (thickness, inside, outside) = (wall.thickness.value, wall.batter_inside.value, wall.batter_outside.value);
    let foot = below.map_or(Length::ZERO, |below| below.top.value);
    let length = Length::m(wall.line.length());
    let gross = bound(wall::lift_gross(length, thickness, inside, outside, foot, lift.top.value, TAU));
    let gross = gross.from("top", lift.top.path.as_str());
    let gross = match below {
        Some(below) => gross.from("foot", below.top.path.as_str()),
        None => gross.without("foot"),
    };
    let gross = rows.add(lift.path("gross-volume"), format!("cob in {} before openings", lift.name), gross);
    let mut taken = Vec::new();
    for (opening, strip) in strips {
        let answer = removed(house, lift, below, (opening, strip), rows);
        if let Some(answer) = answer {
            let path = lift.path(&format!("less-{}", opening.name));
            let title = format!("cob that {} takes out of {}", opening.name, lift.name);
            taken.push((title.clone(), path.clone(), rows.add(path, title, answer)));
        }
    }
    let sum = taken.iter().map(|(_, _, volume)| *volume).sum();
    let net = wall::net_volume(gross, sum).from("gross", lift.path("gross-volume")).of_parts(taken);
    rows.add(lift.path("volume"), format!("cob in {}, openings taken out", lift.name), net)
}

/// What an opening takes out of a lift, bound to whatever ends it below and above.
fn removed(
    house: &House,
    lift: &Lift,
    below: Option<&Lift>,
    (opening, strip): (&Opening, &Strip<'_>),
    rows: &Rows,
) -> Option<Answer<Volume>> {
    let wall = &house.wall;
    let foot = below.map_or(Length::ZERO, |below| below.top.value);
    let from = opening.bottom.value.max(foot);
    let to = opening.head().min(lift.top.value);
    if to <= from {
        return None;
    }
    let (thickness, inside, outside) = (wall.thickness.value, wall.batter_inside.value, wall.batter_outside.value);
    let answer = wall::lift_removed(opening.width.value, thickness, inside, outside, strip, from, to);
    let mut answer = bound(answer).from("width", opening.path("width"));
    let starts = opening.bottom.value > foot;
    let ends = opening.head() < lift.top.value;
    match below {
        Some(below) if !starts => answer = answer.with("foot of the lift", foot, below.top.path.as_str()),
        _ => {}
    }
    if starts || ends {
        answer = answer.with("bottom", opening.bottom.value, opening.bottom.path.as_str());
    }
    if ends {
        answer = answer.with("height", opening.height.value, opening.path("height"));
    } else {
        answer = answer.with("top of the lift", lift.top.value, lift.top.path.as_str());
    }
    Some(curvature(answer, house, opening, strip, rows))
}

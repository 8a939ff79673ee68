//! Rows of the lifts: how high, when begun, how much cob, openings taken out.

use std::f64::consts::TAU;

use super::openings::curvature;
use crate::curve::Strip;
use crate::house::{House, Lift, Opening};
use crate::reason::Answer;
use crate::row::Rows;
use crate::units::{Length, Volume};
use crate::wall;

pub(super) fn walk(house: &House, rows: &mut Rows) {
    let strips: Vec<(&Opening, Strip<'_>)> =
        house.openings.iter().filter_map(|opening| Some((opening, opening.strip(&house.wall)?))).collect();
    let mut below: Option<&Lift> = None;
    for lift in &house.wall.lifts {
        if lift.top.path != house.wall.height.path {
            rows.known(format!("level of the top of {}", lift.name), &lift.top);
        }
        rows.known(format!("start of {}, days after the first lift", lift.name), &lift.start);
        volume(house, lift, below, &strips, rows);
        below = Some(lift);
    }
}

fn bound<T>(answer: Answer<T>) -> Answer<T> {
    answer
        .from("line length", "wall.length")
        .from("thickness", "wall.thickness")
        .from("batter inside", "wall.batter.inside")
        .from("batter outside", "wall.batter.outside")
}

fn volume(house: &House, lift: &Lift, below: Option<&Lift>, strips: &[(&Opening, Strip<'_>)], rows: &mut Rows) {
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
    let net = wall::net_volume(gross, sum).from("gross", lift.path("gross-volume"));
    let net = taken
        .into_iter()
        .fold(net, |net, (title, path, volume): (String, String, Volume)| net.with(title, volume, path));
    rows.add(lift.path("volume"), format!("cob in {}, openings taken out", lift.name), net);
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

//! Rows of what a lift is checked with: batter gauges, its thickness at foot and top, the stop of the bulge gauge.

use super::uneven::bind_once;
use crate::curve::Side;
use crate::house::{House, Lift};
use crate::row::Rows;
use crate::units::{Length, Slope};
use crate::wall;

pub(super) fn walk(house: &House, rows: &mut Rows) {
    if !house.wall.lifts.is_empty() {
        batter(house, rows);
        bulge(house, rows);
    }
    let mut below: Option<&Lift> = None;
    for lift in &house.wall.lifts {
        thickness(house, lift, below, rows);
        below = Some(lift);
    }
}

fn batter(house: &House, rows: &mut Rows) {
    for (noun, level) in ["short", "long"].into_iter().zip(&house.gauge.levels) {
        let length = rows.known(format!("length of the {noun} spirit level"), level);
        for (side, word) in [(Side::Inner, "inside"), (Side::Outer, "outside")] {
            let batter = if side == Side::Inner { &house.wall.batter_inside } else { &house.wall.batter_outside };
            let off = wall::batter_gauge(batter.value, length).from("batter", batter.path.as_str());
            let off = off.from("level length", level.path.as_str());
            rows.add(format!("wall.gauge.{word}-{noun}"), format!("batter {word} on the {noun} spirit level"), off);
        }
    }
}

/// Where wet cob is watched, and when to stop: a bulge warns before a wall slumps, builders say.
fn bulge(house: &House, rows: &mut Rows) {
    rows.known("level of the bulge gauge above the foot of the lift", &house.gauge.bulge_at);
    rows.known("bulge at which the lift is stopped", &house.gauge.bulge_stop);
}

/// Thickness at the foot and the top of a lift; where the wall is not even, at each named point that the lift passes.
fn thickness(house: &House, lift: &Lift, below: Option<&Lift>, rows: &mut Rows) {
    let wall = &house.wall;
    let places: Vec<Option<usize>> =
        if wall.is_even() { vec![None] } else { (0..wall.points.len()).map(Some).collect() };
    for place in places {
        let at = place.map(|index| (index, wall.line.along_line(wall.line.named_point(index))));
        let height = at.map_or(f64::INFINITY, |(_, along)| wall.top.at(&wall.line, along));
        let ends = [("foot", below), ("top", Some(lift))];
        for (noun, bed) in ends {
            let level = bed.map_or(Length::ZERO, |bed| bed.top.value);
            // Where the top is lower than the lift, the lift is not there or does not end there.
            if level.in_m() > height + 1e-9 {
                continue;
            }
            let base = at.map_or(wall.thickness.value, |(_, along)| Length::m(wall.thicknesses.at(along)));
            let (inside, outside) = (&wall.batter_inside, &wall.batter_outside);
            let mut answer = wall::thickness_at(base, inside.value, outside.value, level)
                .from("thickness", "wall.thickness")
                .from("batter inside", inside.path.as_str())
                .from("batter outside", outside.path.as_str());
            let leans = inside.value + outside.value > Slope::ZERO;
            answer = match bed.filter(|_| leans) {
                Some(bed) => answer.from("level", bed.top.path.as_str()),
                None => answer.without("level"),
            };
            if bed.is_none() {
                answer = answer.without("batter inside").without("batter outside");
            }
            let (path, title) = match at {
                Some((index, _)) => {
                    if !wall.thicknesses.is_even() {
                        let own = wall.points[index].own[0].as_ref().unwrap_or(&wall.thickness);
                        answer.reason.inputs.retain(|input| input.path != "wall.thickness");
                        answer = bind_once(answer, rows, &own.path);
                    }
                    let name = &wall.points[index].name;
                    (
                        format!("{noun}-thickness-at.{name}"),
                        format!("thickness at the {noun} of {} at {name}", lift.name),
                    )
                }
                None => (format!("{noun}-thickness"), format!("thickness of the wall at the {noun} of {}", lift.name)),
            };
            rows.add(lift.path(&path), title, answer);
        }
    }
}

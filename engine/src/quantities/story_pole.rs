//! Rows of height: marks of the story pole, the chain of levels at each door; and what near enough means.

use super::line::bind;
use crate::build::OpeningKind;
use crate::house::{House, Mark, Opening, story_pole};
use crate::row::Rows;
use crate::set_out;
use crate::units::Length;

pub(super) fn walk(house: &House, rows: &mut Rows) {
    let set = &house.set_out;
    rows.known("level of the benchmark", &set.benchmark);
    let marks = story_pole(house);
    if let Some(lowest) = marks.first() {
        for mark in &marks {
            heights(house, mark, lowest, rows);
        }
    }
    let doors: Vec<&Opening> = house.openings.iter().filter(|opening| opening.kind == OpeningKind::Door).collect();
    if !doors.is_empty() {
        rows.known("height of a step that is built before a door, at most", &set.rise);
    }
    for door in doors {
        threshold(house, door, rows);
    }
    for near in &set.tolerances {
        rows.known(format!("near enough: {}", near.of.measures), &near.within);
    }
}

fn heights(house: &House, mark: &Mark, lowest: &Mark, rows: &mut Rows) {
    let mut above =
        set_out::mark_level(house.set_out.benchmark.value, mark.level).from("benchmark", "site.set-out.benchmark");
    for (path, _) in &mark.parts {
        above = bind(above, rows, path);
    }
    rows.add(mark.path("from-benchmark"), format!("{}: above the benchmark", mark.name), above);
    if mark.key == lowest.key {
        return;
    }
    let mut on_pole = set_out::mark_on_pole(mark.level, lowest.level);
    for (path, _) in mark.parts_above(lowest) {
        on_pole = bind(on_pole, rows, &path);
    }
    rows.add(mark.path("on-pole"), format!("{}: on the pole", mark.name), on_pole);
}

fn threshold(house: &House, door: &Opening, rows: &mut Rows) {
    let (name, stem) = (&door.name, format!("set-out.thresholds.{}", door.name));
    for (noun, what, below, below_path) in [
        ("inside", "step from the finished floor up to the threshold", house.floor_level.value, "ground.floor"),
        ("outside", "step from the ground outside up to the threshold", house.ground.value, "ground.outside"),
    ] {
        let step = set_out::threshold_step(door.bottom.value, below)
            .from("threshold", door.bottom.path.as_str())
            .from("below", below_path);
        rows.add(format!("{stem}.{noun}"), format!("{what} of {name}"), step);
    }
    let outside: Length = rows.value(&format!("{stem}.outside")).unwrap_or(Length::ZERO);
    let steps = set_out::steps(outside, house.set_out.rise.value)
        .from("step", format!("{stem}.outside"))
        .from("rise", "site.set-out.rise");
    let steps =
        rows.add(format!("{stem}.steps"), format!("rises from the ground outside to the threshold of {name}"), steps);
    if steps > 0 {
        let each = set_out::each_step(outside, steps)
            .from("step", format!("{stem}.outside"))
            .from("steps", format!("{stem}.steps"));
        rows.add(format!("{stem}.each-step"), format!("height of each step before {name}"), each);
    }
    if let Some(drip) = &door.hanging.drip {
        let depth = set_out::threshold_depth(house.wall.stem_width.value, drip.value)
            .from("stem width", "wall.stem.width")
            .from("drip", drip.path.as_str());
        rows.add(format!("{stem}.depth"), format!("depth of the threshold of {name}, to its drip"), depth);
    }
}

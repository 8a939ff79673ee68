//! Rows of the trench and the drain: depths, levels, volumes and falls.

use super::line::{bind, path};
use crate::ground;
use crate::house::{House, Point, Trench};
use crate::reason::Answer;
use crate::row::Rows;
use crate::units::Length;

pub(super) fn walk(house: &House, rows: &mut Rows) {
    if let Some(drain) = &house.drain {
        rows.known("length of the drain to daylight", &drain.length);
        if let Some(daylight) = &drain.daylight {
            rows.known("level of the ground where the drain comes out", daylight);
        }
    }
    let Some(trench) = &house.trench else { return };
    rows.known("width of the trench", &trench.width);
    rows.known("depth of the trench at its high end", &trench.depth);
    rows.known("fall of the bottom of the trench", &trench.fall);
    rows.known("outlet of the trench along its run", &trench.along);
    let length = Length::m(house.wall.line.length());
    let low = ground::low_depth(trench.depth.value, trench.fall.value, length)
        .from("depth", "water.trench.depth")
        .from("fall", "water.trench.fall")
        .from("line length", "wall.length");
    let low = rows.add("water.trench.low-depth", "depth of the trench at its outlet", low);
    let volume = ground::trench_volume(trench.width.value, trench.depth.value, trench.fall.value, length)
        .from("width", "water.trench.width")
        .from("depth", "water.trench.depth")
        .from("fall", "water.trench.fall")
        .from("line length", "wall.length");
    rows.add("water.trench.volume", "trench under the wall, as it lies in the ground", volume);
    let outlet = ground::level_below(house.ground.value, low)
        .from("level", "ground.outside")
        .from("depth", "water.trench.low-depth");
    let outlet = rows.add("water.trench.outlet-level", "level of the bottom of the trench at its outlet", outlet);
    depths(house, trench, rows);
    let Some(drain) = &house.drain else { return };
    let volume = ground::drain_volume(trench.width.value, drain.length.value, low)
        .from("width", "water.trench.width")
        .from("length", "water.drain.length")
        .from("depth", "water.trench.low-depth");
    rows.add("water.drain.volume", "trench of the drain, as it lies in the ground", volume);
    if let Some(daylight) = &drain.daylight {
        let fall = ground::drain_fall(outlet, daylight.value, drain.length.value)
            .from("outlet level", "water.trench.outlet-level")
            .from("daylight", "water.drain.daylight")
            .from("length", "water.drain.length");
        rows.add("water.drain.fall", "fall of the drain to daylight", fall);
    }
}

/// Where the named points and the outlet lie along the line, and how deep the trench is at each point.
fn depths(house: &House, trench: &Trench, rows: &mut Rows) {
    let line = &house.wall.line;
    let whole = Length::m(line.length());
    stations(house, rows);
    let outlet = ground::station(Length::m(line.along_line(trench.outlet)));
    let outlet = bind(outlet, rows, "water.trench.along");
    let points = &house.wall.points;
    let (from, next) = (&points[trench.run], &points[(trench.run + 1) % points.len()]);
    let mut outlet = of_point(outlet, from, &["station", "corner", "trim-after"], rows);
    if line.owner(trench.outlet.piece) != trench.run {
        outlet = of_point(of_point(outlet, from, &["run"], rows), next, &["trim-before", "corner"], rows);
    }
    rows.add("water.trench.station", "outlet of the trench along the wall's line", outlet);
    for (index, point) in house.wall.points.iter().enumerate() {
        let Some(station) = line.station(index, 0.0) else { continue };
        let to_outlet = trench.to_outlet(line, line.along_line(station));
        let depth = ground::depth_at(trench.depth.value, trench.fall.value, whole, to_outlet)
            .from("depth", "water.trench.depth")
            .from("fall", "water.trench.fall")
            .from("line length", "wall.length");
        let depth = bind(depth, rows, &path(point, "station"));
        let depth = bind(depth, rows, "water.trench.station");
        rows.add(path(point, "trench-depth"), format!("depth of the trench below the ground at {}", point.name), depth);
    }
}

fn stations(house: &House, rows: &mut Rows) {
    let points = &house.wall.points;
    for (index, point) in points.iter().enumerate() {
        let Some(station) = house.wall.line.station(index, 0.0) else { continue };
        let mut answer = ground::station(Length::m(house.wall.line.along_line(station)));
        if let Some(before) = index.checked_sub(1) {
            answer = of_point(answer, &points[before], &["station", "corner", "trim-after", "run"], rows);
            answer = of_point(answer, point, &["trim-before"], rows);
        }
        answer = of_point(answer, point, &["corner"], rows);
        // A line that begins without a corner begins at its first point, and there is nothing to say.
        if !answer.reason.inputs.is_empty() {
            rows.add(path(point, "station"), format!("{} along the wall's line", point.name), answer);
        }
    }
}

fn of_point<T>(answer: Answer<T>, point: &Point, nouns: &[&str], rows: &Rows) -> Answer<T> {
    nouns.iter().fold(answer, |answer, noun| bind(answer, rows, &path(point, noun)))
}

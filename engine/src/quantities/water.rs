//! Rows of the trench and the drain: depths, levels, volumes and falls.

use super::line::{bind, bind_pieces, path};
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
    let line = &house.wall.line;
    if !line.is_closed() {
        along_the_line(house, trench, rows);
    }
    let length = Length::m(line.length());
    let (width, depth, fall) = (trench.width.value, trench.depth.value, trench.fall.value);
    let (low, volume) = if line.is_closed() {
        (ground::low_depth(depth, fall, length), ground::trench_volume(width, depth, fall, length))
    } else {
        let longest = longest_way(house, trench, rows);
        let volume = ground::trench_volume_of_open(width, depth, fall, length, longest);
        (ground::low_depth_of_open(depth, fall, longest), volume)
    };
    let low = bound(low);
    let low = rows.add("water.trench.low-depth", "depth of the trench at its outlet", low);
    let volume = bound(volume).from("width", "water.trench.width");
    rows.add("water.trench.volume", "trench under the wall, as it lies in the ground", volume);
    let outlet = ground::level_below(house.ground.value, low)
        .from("level", "ground.outside")
        .from("depth", "water.trench.low-depth");
    let outlet = rows.add("water.trench.outlet-level", "level of the bottom of the trench at its outlet", outlet);
    if line.is_closed() {
        along_the_line(house, trench, rows);
    }
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

fn bound<T>(answer: Answer<T>) -> Answer<T> {
    answer
        .from("depth", "water.trench.depth")
        .from("fall", "water.trench.fall")
        .from("line length", "wall.length")
        .from("longest way", "water.trench.longest-way")
}

/// Where the named points and the outlet lie along the line: from this an open line has its high end, a closed one does not.
fn along_the_line(house: &House, trench: &Trench, rows: &mut Rows) {
    stations(house, rows);
    outlet(house, trench, rows);
}

fn stations(house: &House, rows: &mut Rows) {
    let points = &house.wall.points;
    let line = &house.wall.line;
    for (index, point) in points.iter().enumerate() {
        let mut answer = ground::station(Length::m(line.along_line(line.named_point(index))));
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

/// Where the outlet lies along the line.
fn outlet(house: &House, trench: &Trench, rows: &mut Rows) {
    let line = &house.wall.line;
    let outlet = ground::station(Length::m(line.along_line(trench.outlet)));
    let outlet = bind(outlet, rows, "water.trench.along");
    let points = &house.wall.points;
    let (from, next) = (&points[trench.run], &points[(trench.run + 1) % points.len()]);
    let mut outlet = of_point(outlet, from, &["station", "corner", "trim-after"], rows);
    if line.owner(trench.outlet.piece) != trench.run {
        outlet = of_point(of_point(outlet, from, &["run"], rows), next, &["trim-before", "corner"], rows);
    }
    rows.add("water.trench.station", "outlet of the trench along the wall's line", outlet);
}

/// Whether the high end of the trench under an open wall is its last point.
fn is_high_at_last(house: &House, trench: &Trench) -> bool {
    let line = &house.wall.line;
    trench.to_outlet(line, line.length()) > trench.to_outlet(line, 0.0)
}

/// From the high end of an open wall to the outlet, bound to the runs between them.
fn longest_way(house: &House, trench: &Trench, rows: &mut Rows) -> Length {
    let answer = ground::longest_way(trench.longest_way(&house.wall.line));
    let answer = if is_high_at_last(house, trench) {
        let answer = bind(answer, rows, "water.trench.along");
        let answer = of_point(answer, &house.wall.points[trench.run], &["run"], rows);
        bind_pieces(answer, house, trench.run + 1..house.wall.points.len(), rows)
    } else {
        bind(answer, rows, "water.trench.station")
    };
    rows.add("water.trench.longest-way", "from the high end of the trench to its outlet, along the wall's line", answer)
}

/// How deep the trench is at each named point.
fn depths(house: &House, trench: &Trench, rows: &mut Rows) {
    let line = &house.wall.line;
    let whole = Length::m(line.length());
    for (index, point) in house.wall.points.iter().enumerate() {
        let to_outlet = trench.to_outlet(line, line.along_line(line.named_point(index)));
        let depth = if line.is_closed() {
            let depth = bound(ground::depth_at(trench.depth.value, trench.fall.value, whole, to_outlet));
            bind(bind(depth, rows, &path(point, "station")), rows, "water.trench.station")
        } else {
            open_depth(house, trench, (index, to_outlet), rows)
        };
        rows.add(path(point, "trench-depth"), format!("depth of the trench below the ground at {}", point.name), depth);
    }
}

/// Between the outlet and the high end the way to the high end counts, beyond the outlet the way to the outlet.
fn open_depth(house: &House, trench: &Trench, (index, to_outlet): (usize, Length), rows: &Rows) -> Answer<Length> {
    let (line, points) = (&house.wall.line, &house.wall.points);
    let longest = trench.longest_way(line);
    let depth = bound(ground::depth_at_of_open(trench.depth.value, trench.fall.value, longest, to_outlet));
    let is_past = line.along_line(line.named_point(index)) > line.along_line(trench.outlet);
    let depth = if to_outlet == longest { depth.without("fall") } else { depth };
    match (is_past, is_high_at_last(house, trench)) {
        (true, true) => {
            let depth = of_point(depth, &points[index], &["corner", "trim-after", "run"], rows);
            bind_pieces(depth, house, index + 1..points.len(), rows)
        }
        (false, false) => bind(depth, rows, &path(&points[index], "station")),
        _ => {
            let depth = bind(depth, rows, "water.trench.longest-way");
            to_outlet_of_open(bind(depth, rows, "water.trench.along"), house, trench.run, index, rows)
        }
    }
}

/// Adds what the tape passes between the outlet in a run and a named point.
fn to_outlet_of_open<T>(answer: Answer<T>, house: &House, run: usize, index: usize, rows: &Rows) -> Answer<T> {
    let points = &house.wall.points;
    let (first, last) = (index.min(run), index.max(run));
    (first..=last).fold(answer, |answer, place| {
        let answer = if place > first { of_point(answer, &points[place], &["trim-before"], rows) } else { answer };
        let nouns: &[&str] = match (place == run, place == index) {
            (true, _) if index > run => &["run"],
            (_, true) if index > run => &["corner"],
            _ if place < last => &["corner", "trim-after", "run"],
            _ => &["corner", "trim-after"],
        };
        of_point(answer, &points[place], nouns, rows)
    })
}

fn of_point<T>(answer: Answer<T>, point: &Point, nouns: &[&str], rows: &Rows) -> Answer<T> {
    nouns.iter().fold(answer, |answer, noun| bind(answer, rows, &path(point, noun)))
}

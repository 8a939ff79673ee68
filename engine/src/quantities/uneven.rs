//! Rows of a wall whose thickness or height changes along its line, and what such rows read.

use super::line::{bind, bind_piece, bind_run, path};
use crate::curve::Body;
use crate::house::{House, TopSlope};
use crate::reason::Answer;
use crate::row::Rows;
use crate::units::Length;
use crate::wall;

/// The body of the wall, integrated between the tops of its lifts.
pub(super) fn body(house: &House) -> Body<'_> {
    let levels: Vec<f64> = house.wall.lifts.iter().map(|lift| lift.top.value.in_m()).collect();
    Body::new(house.wall.shape(), &house.wall.top, &levels)
}

/// Thickness at the foot and height, each with its row: of the whole wall where they are the same everywhere, else the means.
pub(super) fn sizes(house: &House, rows: &Rows) -> [(Length, &'static str); 2] {
    let mean = |path: &'static str, even: Length| (rows.value::<Length>(path).unwrap_or(even), path);
    let wall = &house.wall;
    let even = [(wall.thickness.value, "wall.thickness"), (wall.height.value, "wall.height")];
    [
        if wall.thicknesses.is_even() { even[0] } else { mean("wall.mean-thickness", even[0].0) },
        if wall.top.is_level() { even[1] } else { mean("wall.mean-height", even[1].0) },
    ]
}

/// What the builder wrote of thickness, height and slope along the line.
pub(super) fn known(house: &House, rows: &mut Rows) {
    let wall = &house.wall;
    for point in &wall.points {
        for (own, title) in point.own.iter().zip(["thickness of the wall at", "height of the wall at"]) {
            if let Some(own) = own {
                rows.known(format!("{title} {}", point.name), own);
            }
        }
    }
    if let Some(slope) = &wall.slope {
        rows.known("slope of the top of the wall", &slope.slope);
        rows.known("direction in which the top of the wall rises, from the x axis", &slope.rises);
    }
}

/// Thickness of the wall at its top, the mean of it where that changes along the line, with its row.
pub(super) fn top_thickness(house: &House, rows: &mut Rows) -> (Length, &'static str) {
    if house.wall.is_even() {
        let path = "wall.top-thickness";
        return (rows.value(path).unwrap_or(Length::ZERO), path);
    }
    let path = "wall.mean-top-thickness";
    if let Some(mean) = rows.value(path) {
        return (mean, path);
    }
    let (inside, outside) = (&house.wall.batter_inside, &house.wall.batter_outside);
    let [(thickness, thickness_path), (height, height_path)] = sizes(house, rows);
    let mean = wall::thickness_at(thickness, inside.value, outside.value, height)
        .from("thickness", thickness_path)
        .from("batter inside", inside.path.as_str())
        .from("batter outside", outside.path.as_str())
        .from("level", height_path);
    (rows.add(path, "mean thickness of the wall at its top", mean), path)
}

/// Means, and the highest and the lowest top.
pub(super) fn walk(house: &House, body: &Body<'_>, rows: &mut Rows) {
    let wall = &house.wall;
    if !wall.thicknesses.is_even() {
        let mean = bind_thickness(wall::mean_thickness(body), house, rows);
        rows.add("wall.mean-thickness", "mean thickness of the wall at its foot", mean);
    }
    if !wall.top.is_level() {
        let mean = bind_height(wall::mean_height(body), house, rows);
        rows.add("wall.mean-height", "mean height of the wall", mean);
        for (noun, title, sign) in
            [("wall.highest", "highest top of the wall", 1.0), ("wall.lowest", "lowest top of the wall", -1.0)]
        {
            let at = body.greatest(|_, height| sign * height);
            let level = Length::m(wall.top.at(&wall.line, at));
            let reached = bind_reached(wall::top_reached(level), house, at, rows);
            rows.add(noun, title, reached);
        }
    }
}

/// Binds what makes the thickness along the line.
pub(super) fn bind_thickness<T>(answer: Answer<T>, house: &House, rows: &Rows) -> Answer<T> {
    bind_own(answer, house, 0, "wall.thickness", rows)
}

/// Binds what makes the height along the line.
pub(super) fn bind_height<T>(mut answer: Answer<T>, house: &House, rows: &Rows) -> Answer<T> {
    if house.wall.slope.is_some() {
        answer = bind(answer, rows, "wall.top.slope");
        answer = bind(answer, rows, "wall.top.rises");
    }
    bind_own(answer, house, 1, "wall.height", rows)
}

/// Binds what makes the height at the place along the line, in metres, where the top is highest or lowest.
fn bind_reached<T>(answer: Answer<T>, house: &House, along: f64, rows: &Rows) -> Answer<T> {
    match &house.wall.slope {
        Some(slope) => bind_on_slope(answer, house, (slope, along), rows),
        None => bind_at(answer, house, &[1], along, rows),
    }
}

/// Binds what makes a top that follows a slope at a place along the line, in metres: the place, and the point from which it rises.
fn bind_on_slope<T>(answer: Answer<T>, house: &House, (slope, along): (&TopSlope, f64), rows: &Rows) -> Answer<T> {
    let told = [slope.slope.path.as_str(), slope.rises.path.as_str(), "wall.height"];
    let answer = told.iter().fold(answer, |answer, path| bind_once(answer, rows, path));
    let answer = bind_piece(answer, house, house.wall.line.at(along).piece, rows);
    let (from, way) = (&house.wall.points[slope.from], slope.rises.value.in_rad());
    // Square to the way that it rises nothing moves it.
    let parts = [("x", way.cos()), ("y", way.sin())].into_iter().filter(|(_, share)| share.abs() > 1e-9);
    parts.fold(answer, |answer, (noun, _)| bind_once(answer, rows, &path(from, noun)))
}

/// Binds what makes thickness and height at the place along the line, in metres, that is the worst for a measure.
pub(super) fn bind_worst<T>(answer: Answer<T>, house: &House, along: f64, rows: &Rows) -> Answer<T> {
    match &house.wall.slope {
        Some(slope) if house.wall.thicknesses.is_even() => {
            let answer = bind_once(answer, rows, "wall.thickness");
            return bind_on_slope(answer, house, (slope, along), rows);
        }
        Some(_) => return bind_height(bind_thickness(answer, house, rows), house, rows),
        None => {}
    }
    bind_at(answer, house, &[0, 1], along, rows)
}

/// Binds thickness (0) or height (1) at the named point nearest to a place along the line, in metres: between named points both
/// change evenly, so that without a slope one of these is the place that is greatest or least.
fn bind_at<T>(answer: Answer<T>, house: &House, which: &[usize], along: f64, rows: &Rows) -> Answer<T> {
    let wall = &house.wall;
    let away = |index: usize| {
        let away = (wall.line.along_line(wall.line.named_point(index)) - along).abs();
        if wall.line.is_closed() { away.min(wall.line.length() - away) } else { away }
    };
    let nearest = (0..wall.points.len()).min_by(|a, b| away(*a).total_cmp(&away(*b)));
    which.iter().fold(answer, |answer, &which| {
        let own = nearest.and_then(|index| wall.points[index].own[which].as_ref());
        let whole = ["wall.thickness", "wall.height"][which];
        bind(answer, rows, own.map_or(whole, |own| own.path.as_str()))
    })
}

fn bind_own<T>(answer: Answer<T>, house: &House, which: usize, whole: &str, rows: &Rows) -> Answer<T> {
    bind_line(bind_told(answer, house, which, whole, rows), house, rows)
}

/// Binds what is written of thickness (0) or height (1) along the line.
fn bind_told<T>(mut answer: Answer<T>, house: &House, which: usize, whole: &str, rows: &Rows) -> Answer<T> {
    let points = &house.wall.points;
    for point in points {
        if let Some(own) = &point.own[which] {
            answer = bind(answer, rows, &own.path);
        }
    }
    if points.iter().any(|point| point.own[which].is_none()) {
        answer = bind(answer, rows, whole);
    }
    answer
}

/// Binds all that the line is made of.
pub(super) fn bind_line<T>(answer: Answer<T>, house: &House, rows: &Rows) -> Answer<T> {
    bind_line_where(answer, house, |_| true, rows)
}

/// Binds all that the line is made of, its roundings only where a test of their place along it, in metres, says so.
fn bind_line_where<T>(mut answer: Answer<T>, house: &House, is_there: impl Fn(f64) -> bool, rows: &Rows) -> Answer<T> {
    let line = &house.wall.line;
    let corner = |run: usize| (0..line.pieces().len()).find(|&piece| line.is_corner(piece) && line.owner(piece) == run);
    for (index, point) in house.wall.points.iter().enumerate() {
        answer = bind_run(answer, house, index, rows);
        let places = |piece: usize| {
            let (from, long) = (line.start(piece), line.pieces()[piece].length());
            [0.0, 0.5, 1.0].map(|share| from + share * long)
        };
        if corner(index).is_some_and(|piece| places(piece).into_iter().any(&is_there)) {
            answer = bind_once(answer, rows, &path(point, "round"));
        }
    }
    answer
}

/// Binds an input unless it is there.
pub(super) fn bind_once<T>(answer: Answer<T>, rows: &Rows, path: &str) -> Answer<T> {
    if answer.reason.inputs.iter().any(|input| input.path == path) { answer } else { bind(answer, rows, path) }
}

/// Binds all that makes the body of the wall.
pub(super) fn bind_body<T>(answer: Answer<T>, house: &House, rows: &Rows) -> Answer<T> {
    bind_height(bind_section(answer, house, rows), house, rows)
}

/// Binds all that makes the body of the wall above a bed that lies higher than its top in places.
pub(super) fn bind_body_above<T>(answer: Answer<T>, house: &House, bed: Length, rows: &Rows) -> Answer<T> {
    let wall = &house.wall;
    let answer = bind_told(bind_told(answer, house, 0, "wall.thickness", rows), house, 1, "wall.height", rows);
    let told = ["wall.batter.inside", "wall.batter.outside", "wall.top.slope", "wall.top.rises"];
    let answer = told.iter().fold(answer, |answer, path| bind_once(answer, rows, path));
    bind_line_where(answer, house, |along| Length::m(wall.top.at(&wall.line, along)) > bed, rows)
}

/// Binds all that makes the body of the wall below its lowest top.
pub(super) fn bind_section<T>(answer: Answer<T>, house: &House, rows: &Rows) -> Answer<T> {
    let answer = bind_thickness(answer, house, rows);
    let answer = bind_once(answer, rows, "wall.batter.inside");
    bind_once(answer, rows, "wall.batter.outside")
}

/// The named points between which a stretch of the line lies, by place, with the thickness at each and its row.
fn local(house: &House, [from, to]: [f64; 2]) -> Vec<(usize, f64, &str)> {
    let (line, points) = (&house.wall.line, &house.wall.points);
    let turns = if line.is_closed() { [-1.0, 0.0, 1.0, 2.0].map(|turn| turn * line.length()) } else { [0.0; 4] };
    let places = (0..points.len()).flat_map(|index| {
        let along = line.along_line(line.named_point(index));
        turns.map(|turn| (index, along + turn))
    });
    let places: Vec<(usize, f64)> = places.collect();
    let below = places.iter().map(|place| place.1).filter(|along| *along <= from).fold(f64::NEG_INFINITY, f64::max);
    let above = places.iter().map(|place| place.1).filter(|along| *along >= to).fold(f64::INFINITY, f64::min);
    let about = places.iter().filter(|(_, along)| (below..=above).contains(along));
    let mut ends: Vec<usize> = about.map(|(index, _)| *index).collect();
    ends.sort_unstable();
    ends.dedup();
    let known = |index: usize| points[index].own[0].as_ref().unwrap_or(&house.wall.thickness);
    ends.into_iter().map(|index| (index, known(index).value.in_m(), known(index).path.as_str())).collect()
}

/// Whether the wall is as thick all along a stretch of its line, in metres.
pub(super) fn is_even(house: &House, stretch: [f64; 2]) -> bool {
    if house.wall.thicknesses.is_even() {
        return true;
    }
    let local = local(house, stretch);
    local.iter().all(|(_, thickness, _)| *thickness == local[0].1)
}

/// Whether one row says how thick it is there: where two do, they are as large by what was written, not by what it is.
pub(super) fn is_of_one_row(house: &House, stretch: [f64; 2]) -> bool {
    if house.wall.thicknesses.is_even() {
        return true;
    }
    let local = local(house, stretch);
    local.iter().all(|(.., path)| *path == local[0].2)
}

/// Binds what makes the thickness along a stretch of the line, in metres: the named points about it and, where it changes,
/// the line between.
pub(super) fn bind_local<T>(mut answer: Answer<T>, house: &House, stretch: [f64; 2], rows: &Rows) -> Answer<T> {
    answer.reason.inputs.retain(|input| input.path != "wall.thickness");
    let (line, points) = (&house.wall.line, &house.wall.points);
    let is_even = is_even(house, stretch);
    for (index, _, thickness) in local(house, stretch) {
        answer = bind_once(answer, rows, thickness);
        if is_even {
            continue;
        }
        for run in [(index + points.len() - 1) % points.len(), index] {
            answer = bind_run(answer, house, run, rows);
        }
        if line.runs().get(index).is_some_and(|run| run.corner.is_some()) {
            answer = bind_once(answer, rows, &path(&points[index], "round"));
        }
    }
    answer
}

//! Rows of the plan line: its points, runs, rounded corners, length and area.

use super::uneven;
use crate::curve::{Body, Piece, Side};
use crate::house::{House, Point};
use crate::reason::Answer;
use crate::row::Rows;
use crate::units::Length;
use crate::wall;

/// The path of a noun of a named point.
pub(super) fn path(point: &Point, noun: &str) -> String {
    format!("wall.line.{}.{noun}", point.name)
}

pub(super) fn walk(house: &House, body: &Body<'_>, rows: &mut Rows) {
    let wall = &house.wall;
    rows.known("thickness of the wall at its base", &wall.thickness);
    uneven::known(house, rows);
    rows.known("height of the wall above the foot of the cob", &wall.height);
    for (point, run) in wall.points.iter().zip(wall.line.runs()) {
        known(point, rows);
        if run.corner.is_some() || point.round.line.is_some() {
            rows.known(format!("radius of the corner at {}", point.name), &point.round);
        }
    }
    let count = wall.points.len();
    for index in 0..count {
        run(house, index, rows);
    }
    for index in 0..count {
        corner(house, index, rows);
    }
    let length = bind_pieces(wall::line_length(&wall.line), house, 0..count, rows);
    let length = rows.add("wall.length", "length of the wall on its centre line", length);
    let mut enclosed = wall::enclosed_area(&wall.line);
    for index in 0..count {
        enclosed = bind_run(enclosed, house, index, rows);
        if wall.line.runs()[index].corner.is_some() {
            enclosed = bind(enclosed, rows, &path(&wall.points[index], "round"));
        }
    }
    let enclosed = rows.add("wall.enclosed-area", "area within the centre line of the wall", enclosed);
    for (noun, title, side, sign) in [
        ("room.area", "area of the room inside the foot of the cob", Side::Inner, -1.0),
        ("wall.footprint", "area of the house over the outer face of the cob at its foot", Side::Outer, 1.0),
    ] {
        let area = if wall.thicknesses.is_even() {
            wall::area_inside(enclosed, length, wall.thickness.value, sign)
                .from("line length", "wall.length")
                .from("thickness", "wall.thickness")
        } else {
            uneven::bind_thickness(wall::area_inside_uneven(enclosed, body, side), house, rows)
        };
        rows.add(noun, title, area.from("enclosed area", "wall.enclosed-area"));
    }
    overall(house, rows);
}

fn known(point: &Point, rows: &mut Rows) {
    let name = &point.name;
    rows.known(format!("{name}, x"), &point.x);
    rows.known(format!("{name}, y"), &point.y);
    if let Some([x, y]) = &point.through {
        rows.known(format!("arc from {name} passes through, x"), x);
        rows.known(format!("arc from {name} passes through, y"), y);
    }
}

/// Adds an input that is read from a row.
pub(super) fn bind<T>(answer: Answer<T>, rows: &Rows, path: &str) -> Answer<T> {
    match rows.find(path) {
        Some(row) => answer.with(row.title.clone(), row.quantity, path),
        None => answer,
    }
}

/// Adds the coordinates that make a run.
pub(super) fn bind_run<T>(mut answer: Answer<T>, house: &House, index: usize, rows: &Rows) -> Answer<T> {
    let points = &house.wall.points;
    let (from, to) = (&points[index], &points[(index + 1) % points.len()]);
    for (point, noun) in [(from, "x"), (from, "y"), (from, "through-x"), (from, "through-y"), (to, "x"), (to, "y")] {
        let path = path(point, noun);
        if !answer.reason.inputs.iter().any(|input| input.path == path) {
            answer = bind(answer, rows, &path);
        }
    }
    answer
}

/// Adds the lengths of runs, trims and corners that make up a stretch of the line, run by run.
pub(super) fn bind_pieces<T>(
    mut answer: Answer<T>,
    house: &House,
    runs: impl Iterator<Item = usize>,
    rows: &Rows,
) -> Answer<T> {
    for index in runs {
        let point = &house.wall.points[index];
        for noun in ["trim-before", "corner", "trim-after", "run"] {
            answer = bind(answer, rows, &path(point, noun));
        }
    }
    answer
}

fn run(house: &House, index: usize, rows: &mut Rows) {
    let point = &house.wall.points[index];
    let run: &Piece = &house.wall.line.runs()[index].whole;
    let next = &house.wall.points[(index + 1) % house.wall.points.len()].name;
    let title = format!("run from {} to {next}", point.name);
    if point.through.is_none() {
        let length = bind_run(wall::straight_length(run), house, index, rows);
        rows.add(path(point, "run"), title, length);
        return;
    }
    let radius = bind_run(wall::arc_radius(run), house, index, rows);
    rows.add(path(point, "radius"), format!("radius of the arc from {} to {next}", point.name), radius);
    let length = bind_run(wall::arc_length(run), house, index, rows);
    rows.add(path(point, "run"), title, length);
}

fn corner(house: &House, index: usize, rows: &mut Rows) {
    let wall = &house.wall;
    let (count, point) = (wall.points.len(), &wall.points[index]);
    let runs = wall.line.runs();
    let before = (index + count - 1) % count;
    let Some(arc) = runs[index].corner else { return };
    let round = path(point, "round");
    let meeting =
        |answer: Answer<Length>, rows: &Rows| bind_run(bind_run(answer, house, before, rows), house, index, rows);
    let length = meeting(wall::corner_length(point.round.value, &arc).from("radius", round.as_str()), rows);
    rows.add(path(point, "corner"), format!("length of the rounded corner at {}", point.name), length);
    for (noun, side, trim) in [
        ("trim-before", "before", runs[before].whole.length() - runs[before].to),
        ("trim-after", "after", runs[index].from),
    ] {
        let trim = bind(meeting(wall::trim(Length::m(trim)), rows), rows, &round);
        rows.add(path(point, noun), format!("what the rounding takes off the run {side} {}", point.name), trim);
    }
}

fn overall(house: &House, rows: &mut Rows) {
    let wall = &house.wall;
    if !wall.thicknesses.is_even() {
        return overall_uneven(house, rows);
    }
    let half = (wall.thickness.value * 0.5).in_m();
    let (extent, by) = wall.line.extent(half);
    for (noun, title, size, sides) in [
        ("wall.overall-x", "size of the house along x over the outer faces", extent.width(), [by[0], by[2]]),
        ("wall.overall-y", "size of the house along y over the outer faces", extent.height(), [by[1], by[3]]),
    ] {
        let mut overall = wall::overall(wall.thickness.value, Length::m(size)).from("thickness", "wall.thickness");
        for piece in sides {
            let run = wall.line.owner(piece);
            overall = bind_run(overall, house, run, rows);
            if wall.line.is_corner(piece) {
                let count = wall.points.len();
                overall = bind_run(overall, house, (run + count - 1) % count, rows);
                let round = path(&wall.points[run], "round");
                if !overall.reason.inputs.iter().any(|input| input.path == round) {
                    overall = bind(overall, rows, &round);
                }
            }
        }
        rows.add(noun, title, overall);
    }
}

/// The same for a wall of changing thickness: every place on its line may be the one that reaches farthest.
fn overall_uneven(house: &House, rows: &mut Rows) {
    let shape = house.wall.shape();
    let reach = |x: f64, y: f64| {
        let way = kurbo::Vec2::new(x, y);
        shape.reach(Side::Outer, 0.0, way) + shape.reach(Side::Outer, 0.0, -way)
    };
    for (noun, title, size) in [
        ("wall.overall-x", "size of the house along x over the outer faces", reach(1.0, 0.0)),
        ("wall.overall-y", "size of the house along y over the outer faces", reach(0.0, 1.0)),
    ] {
        let overall = uneven::bind_thickness(wall::overall_uneven(Length::m(size)), house, rows);
        rows.add(noun, title, overall);
    }
}

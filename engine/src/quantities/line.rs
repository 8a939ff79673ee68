//! Rows of the plan line: its points, runs, rounded corners, length and area.

use super::uneven;
use crate::curve::{Body, Chain, Side};
use crate::house::{Curve, House, Point};
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
    rows.known("height of the wall above the foot of the cob", &wall.height);
    let (count, runs) = (wall.points.len(), wall.line.runs());
    for (index, point) in wall.points.iter().enumerate() {
        known(point, rows);
        if runs.get(index).is_some_and(|run| run.corner.is_some()) || point.round.line.is_some() {
            rows.known(format!("radius of the corner at {}", point.name), &point.round);
        }
    }
    uneven::known(house, rows);
    for index in 0..runs.len() {
        run(house, index, rows);
    }
    for index in 0..runs.len() {
        corner(house, index, rows);
    }
    let length = bind_pieces(wall::line_length(&wall.line), house, 0..count, rows);
    let length = rows.add("wall.length", "length of the wall on its centre line", length);
    if wall.line.is_closed() {
        areas(house, body, length, rows);
    } else {
        turning(house, rows);
    }
    overall(house, rows);
}

/// Areas that a line encloses which goes round.
fn areas(house: &House, body: &Body<'_>, length: Length, rows: &mut Rows) {
    let wall = &house.wall;
    let mut enclosed = wall::enclosed_area(&wall.line);
    for index in 0..wall.points.len() {
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
}

/// How far an open line turns follows from how its first run leaves and its last one arrives.
fn turning(house: &House, rows: &mut Rows) {
    let wall = &house.wall;
    let last = wall.line.runs().len() - 1;
    let mut turning = wall::turning(&wall.line);
    for (index, tangent) in [(0, ["leave-x", "leave-y"]), (last, ["arrive-x", "arrive-y"])] {
        let point = &wall.points[index];
        turning = match &point.curve {
            Some(_) => tangent.iter().fold(turning, |turning, noun| bind(turning, rows, &path(point, noun))),
            None => bind_run(turning, house, index, rows),
        };
    }
    rows.add("wall.turning", "angle by which the wall turns from end to end, positive to the left", turning);
}

/// Binds how far an open line turns; a closed one turns once round, whatever its shape.
pub(super) fn turned<T>(answer: Answer<T>, house: &House, rows: &Rows) -> Answer<T> {
    if house.wall.line.is_closed() { answer } else { bind(answer, rows, "wall.turning") }
}

fn known(point: &Point, rows: &mut Rows) {
    let name = &point.name;
    rows.known(format!("{name}, x"), &point.x);
    rows.known(format!("{name}, y"), &point.y);
    if let Some([x, y]) = &point.through {
        rows.known(format!("arc from {name} passes through, x"), x);
        rows.known(format!("arc from {name} passes through, y"), y);
    }
    if let Some(Curve { leave: [leave_x, leave_y], arrive: [arrive_x, arrive_y] }) = &point.curve {
        rows.known(format!("tangent of the curve from {name} where it leaves, x"), leave_x);
        rows.known(format!("tangent of the curve from {name} where it leaves, y"), leave_y);
        rows.known(format!("tangent of the curve from {name} where it arrives, x"), arrive_x);
        rows.known(format!("tangent of the curve from {name} where it arrives, y"), arrive_y);
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
    let arc: &[&str] = if from.through.is_some() { &["through-x", "through-y"] } else { &[] };
    let curve: &[&str] = if from.curve.is_some() { &["leave-x", "leave-y", "arrive-x", "arrive-y"] } else { &[] };
    let bends = arc.iter().chain(curve).map(|&noun| (from, noun));
    for (point, noun) in [(from, "x"), (from, "y")].into_iter().chain(bends).chain([(to, "x"), (to, "y")]) {
        let path = path(point, noun);
        if !answer.reason.inputs.iter().any(|input| input.path == path) {
            answer = bind(answer, rows, &path);
        }
    }
    answer
}

/// Adds what makes a piece of the line: its run; of a rounded corner both runs and the radius.
pub(super) fn bind_piece<T>(answer: Answer<T>, house: &House, piece: usize, rows: &Rows) -> Answer<T> {
    let (line, run) = (&house.wall.line, house.wall.line.owner(piece));
    if line.is_corner(piece) { bind_corner(answer, house, run, rows) } else { bind_run(answer, house, run, rows) }
}

/// Adds what makes the rounding at a named point: both runs and its radius.
pub(super) fn bind_corner<T>(answer: Answer<T>, house: &House, point: usize, rows: &Rows) -> Answer<T> {
    let points = &house.wall.points;
    let answer = bind_run(answer, house, (point + points.len() - 1) % points.len(), rows);
    let answer = bind_run(answer, house, point, rows);
    uneven::bind_once(answer, rows, &path(&points[point], "round"))
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
    let run: &Chain = &house.wall.line.runs()[index].whole;
    let next = &house.wall.points[(index + 1) % house.wall.points.len()].name;
    let title = format!("run from {} to {next}", point.name);
    let from_rows = |answer: Answer<Length>, rows: &Rows| bind_run(answer, house, index, rows);
    let length = if point.curve.is_some() {
        if let Some(radius) = house.wall.least_radius(index) {
            let radius = from_rows(wall::least_radius(radius), rows);
            let title = format!("least radius of the curve from {} to {next}", point.name);
            rows.add(path(point, "least-radius"), title, radius);
        }
        wall::curve_length(run)
    } else if point.through.is_some() {
        let radius = from_rows(wall::arc_radius(&run.pieces()[0]), rows);
        rows.add(path(point, "radius"), format!("radius of the arc from {} to {next}", point.name), radius);
        wall::arc_length(&run.pieces()[0])
    } else {
        wall::straight_length(&run.pieces()[0])
    };
    let length = from_rows(length, rows);
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
    let what = if wall.line.is_closed() { "house" } else { "wall" };
    for (noun, axis, size, sides) in [
        ("wall.overall-x", "x", extent.width(), [by[0], by[2]]),
        ("wall.overall-y", "y", extent.height(), [by[1], by[3]]),
    ] {
        let mut overall = wall::overall(wall.thickness.value, Length::m(size)).from("thickness", "wall.thickness");
        for piece in sides {
            overall = bind_piece(overall, house, piece, rows);
        }
        rows.add(noun, format!("size of the {what} along {axis} over the outer faces"), overall);
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

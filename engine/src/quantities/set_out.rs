//! Rows of the setting-out in plan: baseline, pegs by offsets and by two tapes, check tapes, ordinates, strings of faces.

use super::line::{bind_corner, bind_piece, bind_run, path};
use super::openings::bind_stretch;
use super::uneven::{bind_local, bind_once};
use crate::curve::Bend;
use crate::house::{House, Marks, Ordinates, Peg, Pegs, Point, most_steps, pegs, widest};
use crate::reason::Answer;
use crate::row::Rows;
use crate::set_out::{self, Baseline};
use crate::units::Length;

/// Rows of the two pegs of the baseline: x and y of each.
const PEGS: [[&str; 2]; 2] =
    [["site.set-out.from.x", "site.set-out.from.y"], ["site.set-out.to.x", "site.set-out.to.y"]];

pub(super) fn walk(house: &House, rows: &mut Rows) {
    let found = pegs(house);
    baseline(house, found.baseline, rows);
    rows.known("steps along chords and curves", &house.set_out.spacing);
    rows.known("longest radius that is swung by a string", &house.set_out.string);
    strings(house, &found, rows);
    for count in 1..=most_steps(&found) {
        let step = set_out::step(house.set_out.spacing.value, count as f64).from("spacing", "site.set-out.spacing");
        rows.add(format!("set-out.steps.{count}"), format!("{count} steps along a chord or a curve"), step);
    }
    for peg in &found.pegs {
        place(house, &found, peg, rows);
    }
    for arc in &found.ordinates {
        ordinates(house, arc, rows);
    }
    check_tapes(house, &found, rows);
}

fn baseline(house: &House, baseline: Baseline, rows: &mut Rows) {
    let set = &house.set_out;
    let titles = [["x of peg A", "y of peg A"], ["x of peg B", "y of peg B"]];
    if let Some(pegs) = &set.pegs {
        for (axes, titles) in pegs.iter().zip(titles) {
            for (axis, title) in axes.iter().zip(titles) {
                rows.known(title, axis);
            }
        }
    } else {
        rows.known("clear ground between the baseline and the trench", &set.clear);
        rows.known("how far the baseline goes beyond the house", &set.beyond);
        for (paths, titles, side) in [(PEGS[0], titles[0], -1.0), (PEGS[1], titles[1], 1.0)] {
            let x = (side, if side < 0.0 { 0 } else { 2 }, &set.beyond);
            for ((path, title), (side, reached, clear)) in paths.into_iter().zip(titles).zip([x, (-1.0, 1, &set.clear)])
            {
                let (extent, by) = house.wall.line.extent(0.0);
                let reach = Length::m([extent.x0, extent.y0, extent.x1][reached]);
                let (width, width_path) = widest(&house.wall, house.trench.as_ref());
                let clear = set_out::clear_of(width, clear.value, reach, side)
                    .from("width", width_path)
                    .from("clear", clear.path.as_str());
                let coordinate = bind_reach(clear, house, by[reached], (reach, reached % 2), rows);
                rows.add(path, title, coordinate);
            }
        }
    }
    let length = set_out::baseline_length(baseline);
    let length = match set.pegs {
        Some(_) => bind_baseline(length, rows),
        None => bind_all(length, rows, &[PEGS[0][0], PEGS[1][0]]),
    };
    rows.add("set-out.baseline", "length of the baseline, from peg A to peg B", length);
}

fn bind_all<T>(answer: Answer<T>, rows: &Rows, paths: &[&str]) -> Answer<T> {
    paths.iter().fold(answer, |answer, path| bind_once(answer, rows, path))
}

fn bind_baseline<T>(answer: Answer<T>, rows: &Rows) -> Answer<T> {
    bind_all(answer, rows, PEGS.as_flattened())
}

/// Binds what makes the farthest reach of the line along an axis, 0 for x: a named point where a straight run ends there.
fn bind_reach<T>(
    answer: Answer<T>,
    house: &House,
    piece: usize,
    (reach, axis): (Length, usize),
    rows: &Rows,
) -> Answer<T> {
    let (line, points) = (&house.wall.line, &house.wall.points);
    let run = line.owner(piece);
    let is_there = |point: &&Point| ([point.x.value, point.y.value][axis] - reach).abs() < Length::mm(1e-9);
    let end = [run, (run + 1) % points.len()].map(|index| &points[index]).into_iter().find(is_there);
    match end {
        Some(end) if line.pieces()[piece].bend == Bend::Straight => {
            bind_once(answer, rows, &path(end, ["x", "y"][axis]))
        }
        _ => bind_piece(answer, house, piece, rows),
    }
}

/// Binds what makes the place of a peg.
fn bind_peg<T>(answer: Answer<T>, house: &House, peg: &Peg, rows: &Rows) -> Answer<T> {
    let points = &house.wall.points;
    match peg.marks {
        Marks::Point(index) => {
            bind_all(answer, rows, &["x", "y"].map(|axis| path(&points[index], axis)).each_ref().map(String::as_str))
        }
        Marks::CornerBegins(index) | Marks::CornerEnds(index) | Marks::CornerCentre(index) => {
            bind_corner(answer, house, index, rows)
        }
        Marks::ArcCentre(index) => bind_run(answer, house, index, rows),
        Marks::Station(index, step) => {
            bind_once(bind_run(answer, house, index, rows), rows, &format!("set-out.steps.{step}"))
        }
        Marks::Jamb(index, _) => {
            let opening = &house.openings[index];
            let answer = bind_stretch(answer, house, opening, &opening.cut, rows);
            let mut answer = bind_once(answer, rows, &opening.width.path);
            if opening.bottom.value > Length::ZERO {
                answer = bind_all(answer, rows, &[opening.bottom.path.as_str(), "wall.batter.outside"]);
            }
            if house.wall.thicknesses.is_even() {
                return bind_once(answer, rows, "wall.thickness");
            }
            bind_local(answer, house, opening.cut.reach(&house.wall.shape()), rows)
        }
    }
}

fn place(house: &House, found: &Pegs, peg: &Peg, rows: &mut Rows) {
    let (name, baseline) = (&peg.name, found.baseline);
    for (axis, noun, title, answer) in [
        (0, "along", "along the baseline from A", set_out::along_baseline(peg.at, baseline)),
        (1, "offset", "offset from the baseline", set_out::offset_from_baseline(peg.at, baseline)),
    ] {
        // A baseline along x reads x along it and y beside it.
        let answer = match (&house.set_out.pegs, peg.marks) {
            (Some(_), _) => bind_baseline(bind_peg(answer, house, peg, rows), rows),
            (None, Marks::Point(index)) => {
                let own = path(&house.wall.points[index], ["x", "y"][axis]);
                bind_all(answer, rows, &[own.as_str(), PEGS[0][axis]])
            }
            (None, _) => bind_all(bind_peg(answer, house, peg, rows), rows, &[PEGS[0][axis]]),
        };
        rows.add(format!("{}.{noun}", peg.path), format!("{name}: {title}"), answer);
    }
    if matches!(peg.marks, Marks::Station(..)) {
        return;
    }
    for (end, noun, title) in [(0, "from-a", "tape from A"), (1, "from-b", "tape from B")] {
        let tape = set_out::tape([baseline.a, baseline.b][end], peg.at);
        let tape = bind_all(bind_peg(tape, house, peg, rows), rows, &PEGS[end]);
        rows.add(format!("{}.{noun}", peg.path), format!("{name}: {title}"), tape);
    }
}

fn ordinates(house: &House, arc: &Ordinates, rows: &mut Rows) {
    let (stem, name) = (format!("set-out.ordinates.{}", arc.name), &arc.name);
    let mut chord = bind_run(set_out::tape(arc.ends[0], arc.ends[1]), house, arc.run, rows);
    for corner in [arc.run, (arc.run + 1) % house.wall.points.len()] {
        if house.wall.line.runs().get(corner).is_some_and(|run| run.corner.is_some()) {
            chord = bind_corner(chord, house, corner, rows);
        }
    }
    let chord = rows.add(format!("{stem}.chord"), format!("chord of the arc from {name}"), chord);
    let radius_path = format!("wall.line.{name}.radius");
    let radius: Length = rows.value(&radius_path).unwrap_or(Length::ZERO);
    for step in 0..=arc.steps {
        let from_middle = house.set_out.spacing.value * step as f64;
        let ordinate = set_out::ordinate(radius, chord, from_middle)
            .from("radius", radius_path.as_str())
            .from("chord", format!("{stem}.chord"));
        let (ordinate, title) = if step == 0 {
            (ordinate.without("from middle"), format!("ordinate of the arc from {name}, at the middle of its chord"))
        } else {
            let title = format!("ordinate of the arc from {name}, {step} steps from the middle of its chord");
            (ordinate.from("from middle", format!("set-out.steps.{step}")), title)
        };
        rows.add(format!("{stem}.{step}"), title, ordinate);
    }
}

fn check_tapes(house: &House, found: &Pegs, rows: &mut Rows) {
    for check in found.checks.iter().filter(|check| check.path.starts_with("set-out.")) {
        let [from, to] = check.ends.map(|end| &found.pegs[end]);
        let tape = set_out::tape(from.at, to.at);
        let tape = bind_peg(bind_peg(tape, house, from, rows), house, to, rows);
        let title = format!("check tape from peg {} to peg {}", from.number, to.number);
        rows.add(check.path.as_str(), title, tape);
    }
}

fn strings(house: &House, found: &Pegs, rows: &mut Rows) {
    for of in &found.strings {
        let (width, width_path, title) = match *of {
            "cob" => (Some(house.wall.thickness.value), "wall.thickness", "faces of the cob at its foot"),
            "stem" => (Some(house.wall.stem_width.value), "wall.stem.width", "faces of the stem"),
            _ => (house.trench.as_ref().map(|trench| trench.width.value), "water.trench.width", "sides of the trench"),
        };
        let Some(width) = width else { continue };
        let half = set_out::half_width(width).from("width", width_path);
        rows.add(format!("set-out.strings.{of}"), format!("from the wall line to the strings of the {title}"), half);
    }
}

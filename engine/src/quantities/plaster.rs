//! Rows of the plaster's stretches between stop lines: area, people to keep the edge wet, what each takes of the lots.

use super::line::{bind, bind_run, path};
use super::uneven::bind_once;
use crate::build::Face;
use crate::curve::{Body, Side};
use crate::house::{House, Layer, Of, Plastering};
use crate::reason::Answer;
use crate::row::Rows;
use crate::units::{Area, Length};
use crate::{skin, wall};

/// A face with coats on it.
pub(super) struct Coated<'a> {
    pub(super) face: Face,
    side: Side,
    pub(super) word: &'static str,
    pub(super) bare: &'static str,
    pub(super) layers: &'a [Layer],
}

/// The faces that have coats, the inner one first.
pub(super) fn coated(house: &House) -> impl Iterator<Item = Coated<'_>> {
    let inside = Coated {
        face: Face::Inside,
        side: Side::Inner,
        word: "inside",
        bare: "wall.inner-area",
        layers: &house.skin.inside,
    };
    let outside = Coated {
        face: Face::Outside,
        side: Side::Outer,
        word: "outside",
        bare: "wall.outer-area",
        layers: &house.skin.outside,
    };
    [inside, outside].into_iter().filter(|face| !face.layers.is_empty())
}

pub(super) fn walk(house: &House, body: &Body<'_>, rows: &mut Rows) {
    let Some(plastering) = &house.skin.plastering else { return };
    let open_time = rows.known("time for which an edge of plaster stays wet", &plastering.open_time);
    let pace = rows.known("area that one person plasters in an hour", &plastering.pace);
    let people = rows.known("people with trowels on the wall", &plastering.people);
    rows.known("height that a person plasters from the ground", &plastering.reach);
    let wet = skin::wet_area(people, pace, open_time)
        .from("people", "skin.people")
        .from("pace", "skin.pace")
        .from("open time", "skin.open-time");
    rows.add("skin.wet-area", "largest area that these people close with a wet edge", wet);
    let stretches = house.wall.stretches();
    for (run, between) in stretches.iter().enumerate() {
        length(house, run, *between, rows);
    }
    for coated in coated(house) {
        bands(house, &coated, plastering, rows);
        for (run, between) in stretches.iter().enumerate() {
            stretch(house, body, &coated, (run, *between), rows);
        }
    }
}

fn named(house: &House, run: usize) -> String {
    let points = &house.wall.points;
    format!("{} to {}", points[run].name, points[(run + 1) % points.len()].name).replace('-', " ")
}

/// The runs that shape a stretch, and the roundings at its ends: those of which only a part belongs to it.
fn shaped<T>(mut answer: Answer<T>, house: &House, run: usize, turning: bool, rows: &Rows) -> Answer<T> {
    let (points, runs) = (&house.wall.points, house.wall.line.runs());
    let count = runs.len();
    let curved = |run: usize| points[run].through.is_some() || points[run].curve.is_some();
    let ends = [(run, (run + count - 1) % count), ((run + 1) % points.len(), (run + 1) % count)];
    if !turning || curved(run) {
        answer = bind_run(answer, house, run, rows);
    }
    for (point, other) in ends {
        if runs.get(point).is_none_or(|at| at.corner.is_none()) {
            continue;
        }
        answer = bind_run(bind_run(answer, house, run, rows), house, other, rows);
        // Half of what straight runs turn at a corner does not hang on its radius.
        if !turning || curved(run) || curved(other) {
            answer = bind_once(answer, rows, &path(&points[point], "round"));
        }
    }
    answer
}

fn length(house: &House, run: usize, [from, to]: [f64; 2], rows: &mut Rows) {
    let length = shaped(wall::stretch_length(Length::m(to - from)), house, run, false, rows);
    let title = format!("wall between the stop lines, {}", named(house, run));
    rows.add(path(&house.wall.points[run], "stretch"), title, length);
}

/// How many bands one above the other: from the floor inside, from the ground outside.
fn bands(house: &House, coated: &Coated<'_>, plastering: &Plastering, rows: &mut Rows) {
    let top = ["wall.highest", "wall.height"].into_iter().find(|path| rows.find(path).is_some());
    let (Some(top), ground) = (top, &house.ground) else { return };
    let Some(high) = rows.value::<Length>(top) else { return };
    let level =
        if coated.face == Face::Inside && rows.find("ground.floor").is_some() { &house.floor_level } else { ground };
    let word = coated.word;
    let height = wall::plastered_height(high, level.value).from("top", top).from("ground", level.path.as_str());
    let title = format!(
        "height to which the wall is plastered above {}",
        if word == "inside" { "the floor" } else { "the ground" }
    );
    let height = rows.add(format!("skin.{word}-height"), title, height);
    let bands = skin::bands(height, plastering.reach.value)
        .from("height", format!("skin.{word}-height"))
        .from("reach", "skin.reach");
    rows.add(format!("skin.{word}-bands"), format!("bands in which the wall is plastered {word}"), bands);
}

fn stretch(house: &House, body: &Body<'_>, coated: &Coated<'_>, (run, between): (usize, [f64; 2]), rows: &mut Rows) {
    let word = coated.word;
    let own = |noun: &str| format!("skin.{word}-stretches.{}.{noun}", house.wall.points[run].name);
    let said = format!("{word}, {}", named(house, run));
    let gross = gross(house, body, coated.side, (run, between), rows);
    let gross = rows.add(own("gross-area"), format!("face before openings {said}"), gross);
    let [taken, added] = parts(house, coated, run, rows);
    let sum = |parts: &[(String, String, Area)]| parts.iter().map(|(.., area)| *area).sum::<Area>();
    let area = skin::stretch_area(gross, sum(&taken), sum(&added)).from("gross", own("gross-area"));
    let area = rows.add(own("area"), format!("area to coat {said}"), area.of_parts(taken).of_parts(added));
    let Some(plastering) = &house.skin.plastering else { return };
    let people = skin::people_needed(area, plastering.pace.value, plastering.open_time.value)
        .from("area", own("area"))
        .from("pace", "skin.pace")
        .from("open time", "skin.open-time");
    rows.add(own("people"), format!("people who close it with a wet edge {said}"), people);
    for layer in coated.layers.iter().filter(|layer| matches!(layer.of, Of::Recipe(_))) {
        let lot = skin::stretch_lot(area, layer.thickness.value, plastering.loss.value)
            .from("area", own("area"))
            .from("thickness", layer.path("thickness"))
            .from("loss", "skin.loss");
        rows.add(
            own(&format!("lot.{}", layer.name)),
            format!("{} coat {said}, of its lot", layer.name.replace('-', " ")),
            lot,
        );
    }
}

fn gross(house: &House, body: &Body<'_>, side: Side, (run, between): (usize, [f64; 2]), rows: &Rows) -> Answer<Area> {
    let on = &house.wall;
    let stretch = path(&on.points[run], "stretch");
    let (batter, batter_path) = match side {
        Side::Outer => (on.batter_outside.value, "wall.batter.outside"),
        Side::Inner => (on.batter_inside.value, "wall.batter.inside"),
    };
    let length = Length::m(between[1] - between[0]);
    if !on.is_even() {
        let answer = wall::stretch_face_uneven(length, body, side, between).from("stretch", stretch);
        return bind(uneven(answer, house, run, rows), rows, batter_path);
    }
    let turning = on.line.turning_between(between);
    let formula: fn(_, _, _, _, f64) -> _ = match side {
        Side::Outer => wall::outer_face_gross,
        Side::Inner => wall::inner_face_gross,
    };
    let answer = formula(length, on.thickness.value, batter, on.height.value, turning)
        .from("line length", stretch)
        .from("thickness", "wall.thickness")
        .from("batter", batter_path)
        .from("height", "wall.height");
    if turning == 0.0 { answer.without("thickness") } else { shaped(answer, house, run, true, rows) }
}

/// Binds thickness and height at both ends of a stretch, between which they change evenly, and a slope over it.
fn uneven<T>(mut answer: Answer<T>, house: &House, run: usize, rows: &Rows) -> Answer<T> {
    let on = &house.wall;
    answer = shaped(answer, house, run, false, rows);
    for point in [&on.points[run], &on.points[(run + 1) % on.points.len()]] {
        for (own, whole) in point.own.iter().zip(["wall.thickness", "wall.height"]) {
            answer = bind_once(answer, rows, own.as_ref().map_or(whole, |own| own.path.as_str()));
        }
    }
    if let Some(slope) = &on.slope {
        let from = &on.points[slope.from];
        for path in [path(from, "x"), path(from, "y"), "wall.top.slope".into(), "wall.top.rises".into()] {
            answer = bind_once(answer, rows, &path);
        }
    }
    answer
}

/// What a stretch loses and gains: openings and reveals, built-in things and what of them is coated. What stands along no run
/// counts to the first.
fn parts(house: &House, coated: &Coated<'_>, run: usize, rows: &Rows) -> [Vec<(String, String, Area)>; 2] {
    let noun = if coated.side == Side::Inner { "inner-area" } else { "outer-area" };
    let openings = || house.openings.iter().filter(|opening| opening.run == run);
    let things = || house.built_in.iter().filter(|thing| thing.run().unwrap_or(0) == run);
    let taken = openings().map(|opening| opening.path(noun)).chain(things().map(|thing| thing.path(noun)));
    let reveals = openings().filter(|_| house.skin.reveals == Some(coated.face));
    let reveals = reveals.map(|opening| opening.path("reveal-area"));
    let bodies = things().flat_map(|thing| super::built_in::coated(thing, &[coated.bare]));
    [rows.parts(taken), rows.parts(reveals.chain(bodies))]
}

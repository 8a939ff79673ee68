//! Rows of the site: corners and sides of the boundary, and how far all that stands on it is from the house.

use kurbo::Point;

use super::line::bind_piece;
use super::uneven;
use crate::build::{LineKind, YardKind};
use crate::house::House;
use crate::house::site::{PlanPoint, point};
use crate::reason::Answer;
use crate::row::Rows;
use crate::solve::polygon;
use crate::units::{Area, Length};
use crate::yard;

pub(super) fn walk(house: &House, rows: &mut Rows) {
    let site = &house.site;
    if let Some((slope, down)) = &site.fall {
        rows.known("fall of the ground", slope);
        rows.known("direction in which the ground falls, from the x axis", down);
    }
    boundary(house, rows);
    outlet(house, rows);
    for tree in &site.trees {
        let stem = format!("site.trees.{}", tree.name);
        let name = tree.name.replace('-', " ");
        place(&tree.at, &name, rows);
        let crown = rows.known(format!("diameter of the crown of {name}"), &tree.crown);
        distance(house, &stem, &name, [&tree.at, &tree.at], rows);
        let eave = format!("{stem}.to-eave");
        if let Some(from_eave) = rows.value(&eave) {
            let clear =
                yard::crown_clear(from_eave, crown).from("from eave", eave).from("crown", tree.crown.path.as_str());
            rows.add(format!("{stem}.clear"), format!("from the crown of {name} to the eave"), clear);
        }
    }
    wells(house, rows);
    lines(house, rows);
    for (name, [from, to]) in &site.buried {
        let words = name.replace('-', " ");
        place(from, &format!("{words}, one end"), rows);
        place(to, &format!("{words}, other end"), rows);
        distance(house, &format!("site.buried.{name}"), &words, [from, to], rows);
    }
}

/// The coordinates of a place.
pub(super) fn place([x, y]: &PlanPoint, name: &str, rows: &mut Rows) {
    rows.known(format!("{name}, x"), x);
    rows.known(format!("{name}, y"), y);
}

/// Binds the coordinates of places.
pub(super) fn bind_places<'a, T>(
    answer: Answer<T>,
    places: impl IntoIterator<Item = &'a PlanPoint>,
    rows: &Rows,
) -> Answer<T> {
    let axes = places.into_iter().flatten();
    axes.fold(answer, |answer, axis| uneven::bind_once(answer, rows, &axis.path))
}

fn boundary(house: &House, rows: &mut Rows) {
    let site = &house.site;
    let count = site.boundary.len();
    for (index, corner) in site.boundary.iter().enumerate() {
        place(corner, &format!("corner {} of the boundary", index + 1), rows);
    }
    for index in 0..count {
        let ends = [&site.boundary[index], &site.boundary[(index + 1) % count]];
        let [from, to] = site.side(index);
        let stem = format!("site.boundary.{}", index + 1);
        let name = format!("side {} of the boundary", index + 1);
        let length = bind_places(yard::side(Length::m(from.distance(to))), ends, rows);
        rows.add(format!("{stem}.side"), format!("length of {name}"), length);
        distance(house, &stem, &name, ends, rows);
    }
    if count > 0 {
        let area = Area::m2(polygon::area(&site.corners()));
        let land = bind_places(yard::land(area), &site.boundary, rows);
        rows.add("site.area", "land within the boundary", land);
    }
}

/// Distances of a straight side, or of a place when both ends are the same, from wall and eave.
fn distance(house: &House, stem: &str, name: &str, ends: [&PlanPoint; 2], rows: &mut Rows) {
    let side = ends.map(point);
    let Some((_, nearest)) = house.nearest_to(side) else { return };
    let thickness = house.wall.thickness.value;
    let from_line = Length::m(nearest.apart);
    let answer = if house.wall.thicknesses.is_even() {
        yard::from_face(thickness, from_line).from("thickness", "wall.thickness")
    } else {
        let along = house.wall.line.along_line(house.wall.line.nearest(nearest.on));
        let there = Length::m(house.wall.thicknesses.at(along));
        uneven::bind_thickness(yard::from_face(there, from_line).without("thickness"), house, rows)
    };
    let answer = bind_piece(answer, house, nearest.piece, rows);
    let answer = bind_beside(answer, ends, (side, nearest.beside), rows);
    let to_wall = format!("{stem}.to-wall");
    let from_wall = rows.add(to_wall.as_str(), format!("from the wall's outer face to {name}"), answer);
    let offset: Option<Length> = rows.value("roof.eave-offset");
    if let (Some(offset), true) = (offset, house.wall.thicknesses.is_even()) {
        let answer = yard::from_eave(from_wall, thickness, offset)
            .from("from wall", to_wall)
            .from("thickness", "wall.thickness")
            .from("eave offset", "roof.eave-offset");
        rows.add(format!("{stem}.to-eave"), format!("from the eave to {name}"), answer);
    }
}

/// Binds the ends of a side, or only that end at which it is nearest.
fn bind_beside<T>(
    answer: Answer<T>,
    ends: [&PlanPoint; 2],
    ([from, to], beside): ([Point; 2], Point),
    rows: &Rows,
) -> Answer<T> {
    match (beside.distance(from) < 1e-9, beside.distance(to) < 1e-9) {
        (true, _) => bind_places(answer, [ends[0]], rows),
        (_, true) => bind_places(answer, [ends[1]], rows),
        _ => bind_places(answer, ends, rows),
    }
}

/// From where the drain comes to daylight to the side of the trench.
fn outlet(house: &House, rows: &mut Rows) {
    let (Some(outlet), Some(trench)) = (&house.site.outlet, &house.trench) else { return };
    place(outlet, "outlet of the drain", rows);
    let at = point(outlet);
    let Some(nearest) = house.wall.line.nearest_to([at, at]) else { return };
    let answer = yard::from_face(trench.width.value, Length::m(nearest.apart)).from("thickness", "water.trench.width");
    let answer = bind_places(bind_piece(answer, house, nearest.piece, rows), [outlet], rows);
    rows.add("site.outlet.from-footing", "from the trench under the wall to the outlet of the drain", answer);
}

fn wells(house: &House, rows: &mut Rows) {
    let site = &house.site;
    let dirty = site.yard.iter().filter(|thing| matches!(thing.kind, YardKind::WashOut | YardKind::Toilets));
    let dirty = dirty.filter_map(|thing| Some((thing.name.as_str(), thing.at.as_ref()?)));
    let sources: Vec<(&str, &PlanPoint)> = site.outlet.iter().map(|outlet| ("outlet", outlet)).chain(dirty).collect();
    for (name, _) in sources.iter().filter(|(name, _)| *name != "outlet") {
        if let Some(at) = site.yard.iter().find(|thing| thing.name == *name).and_then(|thing| thing.at.as_ref()) {
            place(at, &format!("middle of the {}", name.replace('-', " ")), rows);
        }
    }
    for (well, at) in &site.wells {
        let (stem, words) = (format!("site.wells.{well}"), well.replace('-', " "));
        place(at, &words, rows);
        distance(house, &stem, &words, [at, at], rows);
        for (name, other) in &sources {
            let apart = Length::m(point(at).distance(point(other)));
            let answer = bind_places(yard::apart(apart), [at, *other], rows);
            let title = format!("from {words} to the {}", name.replace('-', " "));
            rows.add(format!("{stem}.to-{name}"), title, answer);
        }
    }
}

fn lines(house: &House, rows: &mut Rows) {
    for line in &house.site.lines {
        let (stem, name) = (format!("site.lines.{}", line.name), line.name.replace('-', " "));
        let [from, to] = &line.ends;
        place(from, &format!("{name}, one end"), rows);
        place(to, &format!("{name}, other end"), rows);
        rows.known(format!("height of {name} above the ground"), &line.height);
        distance(house, &stem, &name, [from, to], rows);
        let to_wall = format!("{stem}.to-wall");
        if line.kind != LineKind::Power {
            continue;
        }
        let pole: Option<Length> = rows.value("roof.poles.cut-length");
        let (clear, title) = (format!("{stem}.clear"), format!("from {name} to the tip of a pole raised at the wall"));
        if let (Some(pole), Some(apart)) = (pole, rows.value(&to_wall)) {
            let answer = yard::pole_clear(apart, pole).from("from wall", to_wall).from("pole", "roof.poles.cut-length");
            rows.add(clear, title, answer);
        } else {
            rows.not_known(clear, title);
        }
    }
}

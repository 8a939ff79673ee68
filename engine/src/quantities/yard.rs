//! Rows of the yard: the ground that each thing covers, known when all orders are, and people for each toilet.

use super::site::{bind_places, place};
use crate::build::YardKind;
use crate::house::House;
use crate::house::site::{SUBSOIL, TOPSOIL, Yard, point};
use crate::reason::Answer;
use crate::row::Rows;
use crate::units::{Area, Length, Volume};
use crate::yard;

/// The rows of the yard.
pub fn yard(house: &House, rows: &mut Rows) {
    let mut covered = Vec::new();
    for thing in &house.site.yard {
        let name = thing.name.replace('-', " ");
        known(thing, &name, rows);
        let Some(ground) = ground(house, thing, rows) else { continue };
        let path = thing.path("ground");
        rows.add(path.as_str(), format!("ground that the {name} covers in the yard"), ground);
        covered.push(path);
    }
    let parts: Vec<(String, String, Area)> = rows.parts(covered);
    if !parts.is_empty() {
        let sum = yard::yard(parts.iter().map(|(.., area)| *area).sum()).of_parts(parts);
        rows.add("site.yard-area", "ground that the yard takes", sum);
    }
    persons(house, rows);
}

fn known(thing: &Yard, name: &str, rows: &mut Rows) {
    if let Some(at) = thing.at.as_ref().filter(|at| rows.find(&at[0].path).is_none()) {
        place(at, &format!("middle of the {name}"), rows);
    }
    for (index, corner) in thing.through.iter().enumerate() {
        place(corner, &format!("{name}, point {}", index + 1), rows);
    }
    let words = [
        ("side of one of the", &thing.side),
        ("room to walk round the", &thing.walk_round),
        ("width of the", &thing.width),
    ];
    for (title, length) in words {
        if let Some(length) = length {
            rows.known(format!("{title} {name}"), length);
        }
    }
    if let Some(count) = &thing.count {
        rows.known(format!("how many of the {name}"), count);
    }
}

fn ground(house: &House, thing: &Yard, rows: &mut Rows) -> Option<Answer<Area>> {
    let side = |answer: Answer<Area>| {
        let count = thing.count.as_ref().map_or(String::new(), |count| count.path.clone());
        answer.from("side", thing.path("side")).from("count", count)
    };
    match thing.kind {
        YardKind::Pile | YardKind::Bales => pile(house, thing.of.as_deref()?, rows),
        YardKind::TruckWay => {
            let points = thing.through.windows(2).map(|pair| point(&pair[0]).distance(point(&pair[1])));
            let way = yard::way(thing.width.as_ref()?.value, Length::m(points.sum()));
            Some(bind_places(way.from("width", thing.path("width")), &thing.through, rows))
        }
        YardKind::Tarps => {
            let (count, walk) = (thing.count.as_ref()?.value, thing.walk_round.as_ref()?.value);
            let tarps = yard::tarps(count, thing.side.as_ref()?.value, walk);
            Some(side(tarps).from("walk round", thing.path("walk-round")))
        }
        _ => {
            let squares =
                yard::squares(thing.count.as_ref().map_or(1, |count| count.value), thing.side.as_ref()?.value);
            let squares = side(squares);
            Some(if thing.count.is_none() { squares.without("count") } else { squares })
        }
    }
}

/// Ground under a pile: as its order says, else under a heap of what the build takes.
fn pile(house: &House, of: &str, rows: &mut Rows) -> Option<Answer<Area>> {
    let piles = house.site.piles_of(of) as f64;
    let ordered = format!("order.{of}.ground");
    if let Some(all) = rows.value::<Area>(&ordered) {
        return Some(yard::pile(all, piles).from("all", ordered));
    }
    let path = match of {
        TOPSOIL | SUBSOIL => format!("balance.{of}.heap"),
        _ => format!("order.{of}.needed"),
    };
    let all: Volume = rows.value(&path)?;
    if rows.find("site.heap").is_none() {
        rows.known("height of heaps in the yard", &house.heap);
    }
    let heap = format!("site.heaps.{of}");
    if rows.find(&heap).is_none() {
        let area = yard::heap_area(all, house.heap.value).from("volume", path).from("height", "site.heap");
        rows.add(heap.as_str(), format!("ground that {of} in a heap covers").replace('-', " "), area);
    }
    Some(yard::pile(rows.value(&heap)?, piles).from("all", heap))
}

fn persons(house: &House, rows: &mut Rows) {
    let toilets = house.site.yard.iter().filter(|thing| thing.kind == YardKind::Toilets);
    let counts: Vec<_> = toilets.filter_map(|thing| thing.count.as_ref()).collect();
    let all: f64 = counts.iter().map(|count| count.value as f64).sum();
    let people: f64 = house.crew.iter().map(|(_, count)| count.value as f64).sum();
    if all == 0.0 || people == 0.0 {
        return;
    }
    let mut answer = yard::persons_each(people / all);
    for (title, count) in &house.crew {
        answer = answer.with(*title, count.value, count.path.as_str());
    }
    for count in counts {
        answer = answer.with("toilets", count.value, count.path.as_str());
    }
    rows.add("site.toilets.persons-each", "people for each toilet", answer);
}

//! Handles of the plan: points of the line and what bends its runs, things along the wall, its thickness.

use kurbo::Point;

use super::things::things;
use super::{Held, Hold, On, Spot, Way};
use crate::house::House;
use crate::house::built_in::{Bench, What};
use crate::known::Known;
use crate::units::Length;

pub(super) fn held(house: &House) -> Vec<Held> {
    let mut all = points(house);
    let line = &house.wall.line;
    for thing in things(house) {
        let station = line.at(thing.along);
        let place = (On::Plan, station.beside(thing.offset), Way::Along);
        let held = Held::new(&thing.path, thing.title.clone(), place, thing.hold(false));
        all.push(held.axis(station.axis).removes(&thing.removes));
    }
    for thing in &house.built_in {
        if let What::Bench(bench) = &thing.what {
            all.extend(ends(house, &thing.name, &thing.stem(), bench));
        }
    }
    all.extend(thickness(house));
    all
}

fn place(pair: [&Known<Length>; 2]) -> Point {
    Point::new(pair[0].value.in_m(), pair[1].value.in_m())
}

fn pair(path: &str, origin: Point, is_backwards: bool) -> Hold {
    Hold::Pair { path: path.to_owned(), origin, is_backwards }
}

fn points(house: &House) -> Vec<Held> {
    let points = &house.wall.points;
    let is_closed = house.wall.line.is_closed();
    let can_go = points.len() > if is_closed { 3 } else { 2 };
    let mut all = Vec::new();
    for (index, point) in points.iter().enumerate() {
        let path = format!("wall.line.{}", point.name);
        let (at, key) = (place([&point.x, &point.y]), format!("{path}.at"));
        // The last point of an open wall has no run of its own.
        let run = if index < house.wall.line.runs().len() { index } else { index.saturating_sub(1) };
        let row = format!("wall.line.{}.run", points[run].name);
        let held = Held::new(
            &key,
            format!("point {}", point.name),
            (On::Plan, at, Way::Point),
            pair(&key, Point::ORIGIN, false),
        );
        all.push(held.row(&row).removes(if can_go { &path } else { "" }));
        if let Some([x, y]) = &point.through {
            let key = format!("{path}.arc.through");
            let title = format!("arc from {}", point.name);
            let hold = pair(&key, Point::ORIGIN, false);
            let held = Held::new(&key, title, (On::Plan, place([x, y]), Way::Curve), hold);
            all.push(held.row(&row).removes(&format!("{path}.arc")));
        }
        if let (Some(curve), Some(next)) = (&point.curve, points.get(index + 1).or(points.first())) {
            let end = place([&next.x, &next.y]);
            let tangents = [("leave", &curve.leave, at, false), ("arrive", &curve.arrive, end, true)];
            for (word, [x, y], origin, is_backwards) in tangents {
                let key = format!("{path}.curve.{word}");
                let tangent = place([x, y]).to_vec2();
                let on = if is_backwards { origin - tangent } else { origin + tangent };
                let title = format!("curve from {}, how it {}s", point.name, word);
                let hold = pair(&key, origin, is_backwards);
                let held = Held::new(&key, title, (On::Plan, on, Way::Curve), hold);
                all.push(held.row(&row).removes(&format!("{path}.curve")));
            }
        }
    }
    all
}

/// Both ends of a bench, on its front.
fn ends(house: &House, name: &str, stem: &str, bench: &Bench) -> Vec<Held> {
    let line = &house.wall.line;
    bench_ends(stem, bench)
        .into_iter()
        .zip(bench.stretch)
        .map(|((word, hold, path), along)| {
            let station = line.at(along);
            let place = (On::Plan, station.beside(bench.front), Way::Along);
            Held::new(&path, format!("{word} of bench {name}"), place, hold).axis(station.axis).removes(stem)
        })
        .collect()
}

/// What each end of a bench holds, with a word for it and its key.
pub(super) fn bench_ends(stem: &str, bench: &Bench) -> [(&'static str, Hold, String); 2] {
    let key = |noun: &str| format!("{stem}.{noun}");
    let own = |along: &str, run: &str, on: usize, other: Option<(String, usize)>| {
        Hold::Spot(Spot { along: key(along), run: key(run), on, other, rises: Vec::new() })
    };
    // An end that is written without its run is on the run of the beginning.
    let kept = Some((key("to-run"), bench.to_run));
    [
        ("beginning", own("from", "run", bench.run, kept), key("from")),
        ("end", own("to", "to-run", bench.to_run, None), key("to")),
    ]
}

/// The outer face, where no opening is, of a wall that is everywhere as thick.
fn thickness(house: &House) -> Option<Held> {
    let wall = &house.wall;
    if !wall.thicknesses.is_even() {
        return None;
    }
    let taken: Vec<[f64; 2]> = house.openings.iter().filter_map(|opening| opening.on_line(wall)).collect();
    let whole = wall.line.length();
    let is_free = |at: &f64| {
        let turns = [at - whole, *at, at + whole];
        !taken.iter().any(|[from, to]| turns.iter().any(|at| (from - 0.2..to + 0.2).contains(at)))
    };
    let along = (1..16).map(|part| whole * f64::from(part) / 16.0).find(is_free)?;
    let station = wall.line.at(along);
    let across = -station.axis.turn_90();
    let path = "wall.thickness";
    let hold = Hold::Width { path: path.to_owned(), middle: station.point, across };
    let at = station.beside(0.5 * wall.thickness.value.in_m());
    Some(Held::new(path, "thickness of the wall".to_owned(), (On::Plan, at, Way::Along), hold).axis(across))
}

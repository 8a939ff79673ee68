//! Handles of the wall unrolled: openings and what is built in, tops of the wall and of its lifts.

use kurbo::Point;

use super::in_plan::bench_ends;
use super::on_line::first;
use super::things::things;
use super::{Held, Hold, On, Rise, Way};
use crate::build::{OpeningForm, OpeningKind};
use crate::house::built_in::What;
use crate::house::{House, Opening};

pub(super) fn held(house: &House) -> Vec<Held> {
    let line = &house.wall.line;
    let mut all = tops(house);
    for (place, opening) in house.openings.iter().enumerate() {
        all.extend(edges(house, place, opening));
    }
    for thing in things(house) {
        let at = Point::new(line.from_first_point(thing.along), thing.level);
        let way = if thing.rises.is_some() { Way::Free } else { Way::Along };
        let held = Held::new(&thing.path, thing.title.clone(), (On::Unrolled, at, way), thing.hold(true));
        all.push(held.removes(&thing.removes));
    }
    for thing in &house.built_in {
        let along = |along: f64| line.from_first_point(along);
        match &thing.what {
            What::Bench(bench) => {
                let [foot, top] = [bench.foot.value.in_m(), bench.top().in_m()];
                for ((word, hold, path), at) in bench_ends(&thing.stem(), bench).into_iter().zip(bench.stretch) {
                    let place = (On::Unrolled, Point::new(along(at), foot.midpoint(top)), Way::Along);
                    let title = format!("{word} of bench {}", thing.name);
                    all.push(Held::new(&path, title, place, hold).removes(&thing.stem()));
                }
                let place =
                    (On::Unrolled, Point::new(along(bench.stretch[0].midpoint(bench.stretch[1])), top), Way::Up);
                let rise = Rise { path: thing.path("seat"), sign: 1.0, more: -foot };
                all.push(Held::new(
                    &rise.path.clone(),
                    format!("seat of {}", thing.name),
                    place,
                    Hold::Rise(vec![rise]),
                ));
            }
            What::Buttress(pier) => {
                let at = Point::new(along(line.along_line(pier.cut.station)), pier.top.value.in_m());
                let hold = Hold::Rise(vec![Rise::level(&pier.top.path)]);
                let title = format!("top of buttress {}", thing.name);
                all.push(Held::new(&pier.top.path, title, (On::Unrolled, at, Way::Up), hold));
            }
            _ => {}
        }
    }
    all
}

/// Sill, head and jambs of an opening.
fn edges(house: &House, place: usize, opening: &Opening) -> Vec<Held> {
    let line = &house.wall.line;
    let name = &opening.name;
    let (bottom, head) = (opening.bottom.value.in_m(), opening.head().in_m());
    let middle = line.from_first_point(line.along_line(opening.station));
    let up = |y: f64| (On::Unrolled, Point::new(middle, y), Way::Up);
    let mut all = Vec::new();
    let is_round = opening.form == OpeningForm::Round;
    if opening.kind == OpeningKind::Window {
        let path = opening.bottom.path.clone();
        let hold = if is_round {
            Hold::Rise(vec![Rise::level(&path)])
        } else {
            Hold::Foot { bottom: path.clone(), height: opening.height.path.clone(), head }
        };
        all.push(Held::new(&path, format!("sill of {name}"), up(bottom), hold));
    }
    if !is_round {
        let rise = Rise { path: opening.height.path.clone(), sign: 1.0, more: -bottom };
        all.push(Held::new(&opening.height.path, format!("head of {name}"), up(head), Hold::Rise(vec![rise])));
    }
    if let Some(ends) = opening.on_line(&house.wall) {
        for (word, is_right, end) in [("left", false, ends[0]), ("right", true, ends[1])] {
            let at = Point::new(line.from_first_point(end), bottom.midpoint(head));
            let hold = Hold::Jamb { opening: place, is_right };
            let title = format!("{word} jamb of {name}");
            let held = Held::new(&opening.path(word), title, (On::Unrolled, at, Way::Along), hold);
            all.push(held.row(&opening.width.path));
        }
    }
    all
}

/// Tops of the wall, where it is written how high it is, and of the lifts that are written.
fn tops(house: &House) -> Vec<Held> {
    let wall = &house.wall;
    let line = &wall.line;
    let x_of = |point: usize| line.from_first_point(line.along_line(line.named_point(point)));
    let mut all = Vec::new();
    if let Some((x, more)) = whole_top(house) {
        let at = Point::new(x, wall.top.at(line, first(line) + x));
        all.push(Held::new(
            "wall.height",
            "top of the wall".to_owned(),
            (On::Unrolled, at, Way::Up),
            rise_of_top(house, more),
        ));
    }
    for (index, point) in wall.points.iter().enumerate() {
        let Some(height) = &point.own[1] else { continue };
        let path = format!("wall.line.{}.height", point.name);
        let place = (On::Unrolled, Point::new(x_of(index), height.value.in_m()), Way::Up);
        let hold = Hold::Rise(vec![Rise::level(&path)]);
        all.push(Held::new(&path, format!("top of the wall at {}", point.name), place, hold));
    }
    for lift in wall.beds().filter(|lift| lift.top.line.is_some()) {
        let place = (On::Unrolled, Point::new(0.5_f64.min(0.1 * line.length()), lift.top.value.in_m()), Way::Up);
        let hold = Hold::Rise(vec![Rise::level(&lift.top.path)]);
        let held = Held::new(&lift.top.path, format!("top of lift {}", lift.name), place, hold);
        all.push(held.removes(&format!("wall.lifts.{}", lift.name)));
    }
    all
}

/// Where the height of the whole wall is seen, and what it is more than the level there, in metres.
fn whole_top(house: &House) -> Option<(f64, f64)> {
    let wall = &house.wall;
    let line = &wall.line;
    let x_of = |point: usize| line.from_first_point(line.along_line(line.named_point(point)));
    if wall.top.is_level() {
        return Some((0.25 * line.length(), 0.0));
    }
    let point = match &wall.slope {
        Some(slope) => slope.from,
        None => wall.points.iter().position(|point| point.own[1].is_none())?,
    };
    let x = x_of(point);
    Some((x, wall.height.value.in_m() - wall.top.at(line, first(line) + x)))
}

/// The height of the wall, and the top of the last lift where that is written too.
pub(super) fn rise_of_top(house: &House, more: f64) -> Hold {
    let rise = |path: &str| Rise { path: path.to_owned(), sign: 1.0, more };
    let last =
        house.wall.lifts.last().filter(|last| last.top.path.starts_with("wall.lifts.") && last.top.line.is_some());
    Hold::Rise([rise("wall.height")].into_iter().chain(last.map(|last| rise(&last.top.path))).collect())
}

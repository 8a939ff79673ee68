//! Rows of bottle bricks and vents.

use super::super::need::Need;
use super::super::uneven::bind_local;
use super::bend::{Bend, batter, once, with, with_level, with_thickness};
use super::{face, said};
use crate::curve::{Cut, Shape, Side};
use crate::house::built_in::{Bottles, Passing, Vent, VentSize};
use crate::house::{BuiltIn, House};
use crate::known::Known;
use crate::reason::Answer;
use crate::row::Rows;
use crate::units::{Length, Slope, Volume};
use crate::wall;

/// Cuts through the wall with the values that shape them.
pub(super) struct Through<'a> {
    pub(super) house: &'a House,
    pub(super) shape: &'a Shape<'a>,
    pub(super) cuts: &'a [Cut],
    /// The level of the middle of each.
    pub(super) levels: Vec<&'a Known<Length>>,
    /// Its sizes, but for a height.
    pub(super) sizes: Vec<(&'static str, &'a Known<Length>)>,
    pub(super) height: Option<&'a Known<Length>>,
    pub(super) count: Option<&'a Known<u64>>,
    pub(super) bends: Vec<Bend<'a>>,
}

impl<'a> Through<'a> {
    pub(super) fn of_bottles(house: &'a House, shape: &'a Shape<'a>, bottles: &'a Bottles) -> Through<'a> {
        let of = |place: usize| &bottles.places[if bottles.row.is_some() { 0 } else { place }];
        let spacing = bottles.row.iter().map(|row| row.spacing.path.as_str());
        let numbered = bottles.cuts.iter().enumerate();
        let bends = numbered.map(|(place, cut)| {
            let along = of(place).0.along.path.as_str();
            Bend::of_cut(house, &[shape], cut, &BOTH, std::iter::once(along).chain(spacing.clone()).collect())
        });
        Through {
            house,
            shape,
            cuts: &bottles.cuts,
            levels: (0..bottles.cuts.len()).map(|place| &of(place).1).collect(),
            sizes: vec![("diameter", &bottles.diameter)],
            height: None,
            count: bottles.row.as_ref().map(|row| &row.count),
            bends: bends.collect(),
        }
    }

    pub(super) fn of_vent(house: &'a House, shape: &'a Shape<'a>, vent: &'a Vent) -> Through<'a> {
        let (size, height) = match &vent.size {
            VentSize::Round(diameter) => (("diameter", diameter), None),
            VentSize::Rectangle(width, height) => (("width", width), Some(height)),
        };
        Through {
            house,
            shape,
            cuts: std::slice::from_ref(&vent.cut),
            levels: vec![&vent.level],
            sizes: vec![size],
            height,
            count: None,
            bends: vec![Bend::of_cut(house, &[shape], &vent.cut, &BOTH, vec![&vent.spot.along.path])],
        }
    }

    pub(super) fn of_passing(house: &'a House, shape: &'a Shape<'a>, passing: &'a Passing) -> Through<'a> {
        Through {
            house,
            shape,
            cuts: std::slice::from_ref(&passing.cut),
            levels: vec![&passing.level],
            sizes: vec![("sleeve", &passing.sleeve)],
            height: None,
            count: None,
            bends: vec![Bend::of_cut(house, &[shape], &passing.cut, &BOTH, vec![&passing.spot.along.path])],
        }
    }

    fn sized<T>(&self, answer: Answer<T>) -> Answer<T> {
        let answer = self.sizes.iter().fold(answer, |answer, (name, size)| with(answer, name, size));
        match self.count {
            Some(count) => with(answer, "count", count),
            None => answer,
        }
    }

    /// What they take out between two levels, bound to all but what ends a lift.
    pub(super) fn removed(&self, [from, to]: [f64; 2], rows: &Rows) -> Answer<Volume> {
        let wall = &self.house.wall;
        let (inside, outside) = (&wall.batter_inside, &wall.batter_outside);
        let [low, high] = [from, to].map(Length::m);
        let answer =
            wall::through_removed(wall.thickness.value, inside.value, outside.value, self.cuts, self.shape, low, high);
        let answer = answer
            .from("thickness", wall.thickness.path.as_str())
            .from("batter inside", inside.path.as_str())
            .from("batter outside", outside.path.as_str());
        let mut answer = self.sized(answer);
        let leans = inside.value + outside.value > Slope::ZERO;
        for ((cut, level), bend) in self.cuts.iter().zip(&self.levels).zip(&self.bends) {
            let [bottom, top] = [cut.form.bottom(), cut.form.top()];
            if top <= from || to <= bottom {
                continue;
            }
            let [starts, ends] = [from <= bottom, top <= to];
            // Where a lift lies wholly within it, or all of it within a lift of an upright wall, its level is all one.
            if starts != ends || (starts && leans) {
                answer = once(answer, rows, &level.path);
            }
            if let Some(height) = self.height.filter(|_| starts || ends) {
                answer = once(answer, rows, &height.path);
            }
            answer = bend.bind(answer, rows);
        }
        answer
    }

    pub(super) fn rows(&self, thing: &BuiltIn, rows: &mut Rows) {
        let name = said(thing);
        let removed = self.removed([f64::NEG_INFINITY, f64::INFINITY], rows);
        rows.add(thing.path("removed-volume"), format!("cob that {name} takes out"), removed);
        for side in BOTH {
            let (noun, word) = face(side);
            let batter = batter(self.house, side);
            let area =
                wall::through_face(batter.value, self.cuts, self.shape, side).from("batter", batter.path.as_str());
            let mut area = self.sized(area);
            if let Some(height) = self.height {
                area = with(area, "height", height);
            }
            if self.bends.iter().any(|bend| !bend.is_straight()) {
                area = with_thickness(area, self.house);
            }
            for (level, bend) in self.levels.iter().zip(&self.bends).filter(|(_, bend)| !bend.is_straight()) {
                let is_bound = area.reason.inputs.iter().any(|input| input.path == level.path);
                area = if is_bound { area } else { with_level(area, self.house, side, "level", level) };
                area = bend.bind(area, rows);
            }
            area = self.bends.iter().fold(area, |area, bend| bend.bind_face(area, rows));
            rows.add(thing.path(noun), format!("{word} face that {name} takes out"), area);
        }
    }
}

const BOTH: [Side; 2] = [Side::Inner, Side::Outer];

pub(super) fn bottles(house: &House, thing: &BuiltIn, bottles: &Bottles, rows: &mut Rows) -> Need {
    let name = said(thing);
    rows.known(format!("diameter of the bottle bricks of {name}"), &bottles.diameter);
    for (place, (spot, level)) in bottles.places.iter().enumerate() {
        let which =
            if bottles.row.is_some() { "first bottle brick".to_owned() } else { format!("bottle brick {}", place + 1) };
        rows.known(format!("middle of the {which} of {name} along its run"), &spot.along);
        rows.known(format!("level of the middle of the {which} of {name}"), level);
    }
    match &bottles.row {
        Some(row) => {
            rows.known(format!("bottle bricks of {name}"), &row.count);
            rows.known(format!("from one bottle brick of {name} to the next"), &row.spacing);
        }
        None => {
            let mut count = wall::places(bottles.cuts.len() as u64);
            for (place, (_, level)) in bottles.places.iter().enumerate() {
                count = count.with(format!("level of number {}", place + 1), level.value, level.path.as_str());
            }
            rows.add(thing.path("count"), format!("bottle bricks of {name}"), count);
        }
    }
    let shape = house.wall.shape();
    Through::of_bottles(house, &shape, bottles).rows(thing, rows);
    Need::of(&bottles.of, [thing.path("count")])
}

/// Length of each bottle brick, and bottles to collect.
pub(super) fn lengths(house: &House, thing: &BuiltIn, bottles: &Bottles, rows: &mut Rows) {
    let (name, wall) = (said(thing), &house.wall);
    let coats: Vec<_> = house.skin.inside.iter().chain(&house.skin.outside).collect();
    let plaster: Length = coats.iter().map(|coat| coat.thickness.value).sum();
    for (place, ((spot, level), cut)) in bottles.places.iter().zip(&bottles.cuts).enumerate() {
        let (shape, along) = (wall.shape(), wall.line.along_line(spot.station));
        let [inner, outer] = BOTH.map(|side| shape.offset(side, along, level.value.in_m()));
        let (inside, outside) = (&wall.batter_inside, &wall.batter_outside);
        let through = Length::m(outer - inner) + plaster;
        let (thickness, lean) = (wall.thickness.value, (inside.value, outside.value));
        let mut length = wall::bottle_length(thickness, level.value, lean.0, lean.1, through)
            .from("thickness", wall.thickness.path.as_str())
            .from("level", level.path.as_str())
            .from("batter inside", inside.path.as_str())
            .from("batter outside", outside.path.as_str());
        if !wall.thicknesses.is_even() {
            length = bind_local(length.without("thickness"), house, cut.reach(&shape), rows);
            length = once(length, rows, &spot.along.path);
        }
        if lean.0 == Slope::ZERO && lean.1 == Slope::ZERO {
            length = length.without("level");
        }
        for coat in &coats {
            length = length.with(
                format!("{} coat", coat.name.replace('-', " ")),
                coat.thickness.value,
                coat.path("thickness"),
            );
        }
        let (noun, which) = match bottles.row {
            Some(_) => ("length".to_owned(), "each bottle brick".to_owned()),
            None => (format!("at.{}.length", place + 1), format!("bottle brick {}", place + 1)),
        };
        rows.add(thing.path(&noun), format!("length of {which} of {name}"), length);
    }
    let spare = rows.known(format!("bottles of {name} that may break"), &bottles.spare);
    let count = rows.value(&thing.path("count")).unwrap_or(0);
    let collect = wall::bottles_to_collect(count, spare)
        .from("count", thing.path("count"))
        .from("spare", bottles.spare.path.as_str());
    rows.add(thing.path("collect"), format!("bottles to collect for {name}"), collect);
}

pub(super) fn vent(house: &House, thing: &BuiltIn, vent: &Vent, rows: &mut Rows) {
    let name = said(thing);
    rows.known(format!("middle of {name} along its run"), &vent.spot.along);
    rows.known(format!("level of the middle of {name}"), &vent.level);
    let clear = match &vent.size {
        VentSize::Round(diameter) => {
            let diameter = rows.known(format!("diameter of {name}"), diameter);
            wall::clear_circle(diameter).from("diameter", thing.path("diameter"))
        }
        VentSize::Rectangle(width, height) => {
            let width = rows.known(format!("width of {name}"), width);
            let height = rows.known(format!("height of {name}"), height);
            wall::clear_rectangle(width, height).from("width", thing.path("width")).from("height", thing.path("height"))
        }
    };
    rows.add(thing.path("clear-area"), format!("clear area of {name}"), clear);
    let shape = house.wall.shape();
    Through::of_vent(house, &shape, vent).rows(thing, rows);
}

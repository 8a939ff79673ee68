//! The marks of the story pole, from the bottom of the trench to the top of the wall, and the chain of levels at each door.

use super::built_in::What;
use super::{House, Opening};
use crate::build::{OpeningForm, OpeningKind};
use crate::units::Length;

/// A mark on the story pole.
#[derive(Clone, Debug, PartialEq)]
pub struct Mark {
    /// Its key among the marks.
    pub key: String,
    /// What it marks, in words.
    pub name: String,
    /// Its level, from the foot of the cob.
    pub level: Length,
    /// The rows whose sum it is, each with its sign; none where it is zero by definition.
    pub parts: Vec<(String, f64)>,
}

impl Mark {
    /// A row of it.
    #[must_use]
    pub fn path(&self, noun: &str) -> String {
        format!("set-out.pole.{}.{noun}", self.key)
    }

    /// What makes its height above another mark: parts that both have in common are left out.
    #[must_use]
    pub fn parts_above(&self, other: &Mark) -> Vec<(String, f64)> {
        let mut parts = self.parts.clone();
        for (path, sign) in &other.parts {
            match parts.iter_mut().find(|(own, _)| own == path) {
                Some((_, own)) => *own -= sign,
                None => parts.push((path.clone(), -sign)),
            }
        }
        parts.retain(|(_, sign)| *sign != 0.0);
        parts
    }
}

/// The marks from low to high.
#[must_use]
pub fn story_pole(house: &House) -> Vec<Mark> {
    let mut marks = ground(house);
    marks.extend(house.openings.iter().flat_map(opening));
    marks.extend(built_in(house));
    marks.extend(top(house));
    marks.sort_by(|a, b| a.level.in_m().total_cmp(&b.level.in_m()));
    marks
}

fn mark(key: impl Into<String>, name: impl Into<String>, level: Length, parts: &[(&str, f64)]) -> Mark {
    let parts = parts.iter().map(|(path, sign)| ((*path).to_owned(), *sign)).collect();
    Mark { key: key.into(), name: name.into(), level, parts }
}

fn ground(house: &House) -> Vec<Mark> {
    let (outside, wall) = (house.ground.value, &house.wall);
    let mut marks = vec![
        mark("ground", "ground outside", outside, &[("ground.outside", 1.0)]),
        mark("stem-top", "top of the stem, foot of the cob", Length::ZERO, &[]),
        mark(
            "stem-foot",
            "foot of the stem, top of the rubble",
            -wall.stem_height.value,
            &[("wall.stem.height", -1.0)],
        ),
    ];
    if let Some(trench) = &house.trench {
        let low = trench.depth_at(&wall.line, wall.line.along_line(trench.outlet));
        let parts = |depth| [("ground.outside", 1.0), (depth, -1.0)];
        let high = outside - trench.depth.value;
        marks.push(mark("trench-high", "bottom of the trench, high end", high, &parts("water.trench.depth")));
        let name = "bottom of the trench, outlet";
        marks.push(mark("trench-outlet", name, outside - low, &parts("water.trench.low-depth")));
    }
    if !wall.line.is_closed() {
        return marks;
    }
    let floor = ("ground.floor", 1.0);
    if house.floor.is_empty() {
        marks.push(mark("floor", "finished floor", house.floor_level.value, &[floor]));
    }
    let mut above: Vec<(String, f64)> = vec![(floor.0.to_owned(), floor.1)];
    let mut level = house.floor_level.value;
    for layer in house.floor.iter().rev() {
        let name = if above.len() == 1 { "finished floor".to_owned() } else { format!("floor, top of {}", layer.name) };
        marks.push(Mark { key: format!("floor-{}", layer.name), name, level, parts: above.clone() });
        above.push((layer.path("thickness"), -1.0));
        level = level - layer.thickness.value;
    }
    let key = "floor-foot";
    if !house.floor.is_empty() {
        marks.push(Mark { key: key.to_owned(), name: "foot of the floor".to_owned(), level, parts: above });
    }
    marks
}

fn opening(opening: &Opening) -> [Mark; 2] {
    let (name, bottom, height) = (&opening.name, opening.bottom.path.as_str(), opening.path("height"));
    let word = if opening.kind == OpeningKind::Door { "threshold" } else { "sill" };
    let head = match opening.form {
        OpeningForm::Rectangle if opening.lintel.is_some() => "underside of the lintel",
        OpeningForm::Rectangle => "head",
        OpeningForm::Arched => "crown of the arch",
        OpeningForm::Round => "top of the circle",
    };
    [
        mark(format!("{name}-{word}"), format!("{name}, {word}"), opening.bottom.value, &[(bottom, 1.0)]),
        mark(format!("{name}-head"), format!("{name}, {head}"), opening.head(), &[(bottom, 1.0), (&height, 1.0)]),
    ]
}

fn built_in(house: &House) -> Vec<Mark> {
    let of = |built: &super::BuiltIn| {
        let name = &built.name;
        match &built.what {
            What::Niche(niche) => Some(mark(
                format!("{name}-sill"),
                format!("{name}, sill"),
                niche.sill.value,
                &[(&niche.sill.path, 1.0)],
            )),
            What::Shelf(shelf) => {
                let parts = [(shelf.level.path.as_str(), 1.0)];
                Some(mark(format!("{name}-level"), format!("{name}, shelf"), shelf.level.value, &parts))
            }
            What::Bench(bench) => {
                let parts = [(bench.foot.path.as_str(), 1.0), (bench.seat.path.as_str(), 1.0)];
                Some(mark(format!("{name}-seat"), format!("{name}, seat"), bench.top(), &parts))
            }
            _ => None,
        }
    };
    let mut marks: Vec<Mark> = house.built_in.iter().filter_map(of).collect();
    for anchors in &house.anchors {
        let below = house.wall.lift(&anchors.lift).and_then(|(_, below)| below);
        let parts: Vec<(&str, f64)> = below.map(|below| (below.top.path.as_str(), 1.0)).into_iter().collect();
        let name = format!("anchors {}, laid", anchors.name);
        marks.push(mark(format!("anchors-{}", anchors.name), name, anchors.foot, &parts));
    }
    marks
}

fn top(house: &House) -> Vec<Mark> {
    let wall = &house.wall;
    let of = |lift: &super::Lift| {
        let kind = if lift.name.starts_with("lift") { "" } else { "lift " };
        let name = format!("{kind}{}, top", lift.name);
        mark(format!("lift-{}", lift.name), name, lift.top.value, &[(&lift.top.path, 1.0)])
    };
    let mut marks: Vec<Mark> = wall.beds().map(of).collect();
    let top = wall.top_level();
    marks.push(mark("wall-top", top.name.as_str(), top.at, &[(&top.path, 1.0)]));
    if let Some(beam) = house.bond_beam.as_ref().filter(|_| wall.top.is_level()) {
        let parts = [(top.path.as_str(), 1.0), (beam.height.path.as_str(), 1.0)];
        marks.push(mark("beam-top", "top of the bond beam", top.at + beam.height.value, &parts));
    }
    marks
}

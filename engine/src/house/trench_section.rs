//! The long section of the trench: its bottom as a tape lies along it, from the high end to the outlet and on along the drain.

use kurbo::{Point, Vec2};

use super::part::{Dimension, Level, Material, Meaning, Outline, Part, Place, Section};
use super::{Drain, House, Trench};
use crate::units::Length;

/// Ground drawn beyond the place where the drain comes out, in metres.
const BESIDE: f64 = 0.4;

/// The long section of the trench and its drain; `None` without a trench. x is the distance from the high end, opposite
/// the outlet, along the centre line of the wall to the outlet and on along the drain; y is up from the foot of the cob, both
/// in metres.
///
/// Both ways round are alike: one half of the wall is drawn, its openings left out; of an open wall the longer way. Beside
/// the drain the ground falls evenly to where the drain comes out; where that level is not known, the ground is dashed and
/// the drain is not drawn.
#[must_use]
pub fn trench_section(house: &House) -> Option<Section> {
    let long = Long::of(house)?;
    let mut whole = long.under_the_wall();
    let Some(drain) = &house.drain else {
        whole.dimensions.push(long.low_depth(-1.0));
        return Some(whole);
    };
    let outside = long.along_the_drain(drain);
    whole.parts.extend(outside.parts);
    whole.levels.extend(outside.levels);
    whole.levels = Level::in_order(whole.levels);
    whole.dimensions.extend(outside.dimensions);
    whole.places.extend(outside.places);
    Some(whole)
}

/// The same in rows for a narrow sheet: under the wall, then along the drain; empty without a trench.
#[must_use]
pub fn trench_rows(house: &House) -> Vec<Section> {
    match (Long::of(house), &house.drain) {
        (Some(long), Some(drain)) => vec![long.under_the_wall(), long.along_the_drain(drain)],
        _ => trench_section(house).into_iter().collect(),
    }
}

/// Levels and distances of the section, in metres.
struct Long {
    half: f64,
    ground: f64,
    foot: f64,
    high: f64,
    outlet: f64,
}

impl Long {
    fn of(house: &House) -> Option<Long> {
        let trench: &Trench = house.trench.as_ref()?;
        let line = &house.wall.line;
        let half = trench.longest_way(line).in_m();
        let outlet = line.along_line(trench.outlet);
        let high = if line.is_closed() {
            (outlet + half).rem_euclid(line.length())
        } else if outlet < half {
            line.length()
        } else {
            0.0
        };
        let bottom = |along: f64| (house.ground.value - trench.depth_at(line, along)).in_m();
        Some(Long {
            half,
            ground: house.ground.value.in_m(),
            foot: -house.wall.stem_height.value.in_m(),
            high: bottom(high),
            outlet: bottom(outlet),
        })
    }

    /// The depth at the outlet, its line to the right or, below zero, to the left.
    fn low_depth(&self, right: f64) -> Dimension {
        let ends = [(self.half, self.ground), (self.half, self.outlet)];
        between("water.trench.low-depth", ends, Vec2::new(right, 0.0))
    }

    fn under_the_wall(&self) -> Section {
        let (half, ground, foot) = (self.half, self.ground, self.foot);
        let rubble = [(0.0, self.high), (half, self.outlet), (half, foot), (0.0, foot)];
        let stem = [(0.0, foot), (half, foot), (half, 0.0), (0.0, 0.0)];
        let surface = line(&[(0.0, ground), (half, ground)], Meaning::Hidden);
        let parts = vec![
            Part::new("water.trench", "rubble trench", Material::Stone, vec![area(rubble)]),
            Part::new("wall.stem", "stem wall", Material::Stone, vec![area(stem)]),
            Part::new("ground.outside", "ground outside", Material::Ground, vec![surface]),
        ];
        let level = |path: &str, name: &str, at: f64| Level::new(path, name, Length::m(at));
        let levels = Level::in_order(vec![
            level("water.trench.outlet-level", "bottom at the outlet", self.outlet),
            level("wall.stem.height", "foot of the stem", foot),
            level("ground.outside", "ground outside", ground),
            level("wall", "foot of the cob", 0.0),
        ]);
        let depth = [(0.0, ground), (0.0, self.high)];
        let dimensions = vec![between("water.trench.depth", depth, Vec2::new(-1.0, 0.0))];
        let middle = 0.5 * half;
        let bottom = self.high.midpoint(self.outlet);
        let places = vec![
            place("wall.stem", "stem wall", middle, 0.5 * foot),
            place("water.trench", "rubble trench", middle, 0.5 * (foot + bottom)),
            place("water.trench.fall", "fall", middle, bottom),
            place("water.trench.depth", "high end", 0.0, self.high),
            place("water.trench.outlet-level", "outlet", half, self.outlet),
        ];
        Section { parts, levels, dimensions, places }
    }

    fn along_the_drain(&self, drain: &Drain) -> Section {
        let (start, end) = (self.half, self.half + drain.length.value.in_m());
        let ground = self.ground;
        let end_of_trench = line(&[(start, ground), (start, self.outlet)], Meaning::Seen);
        let (surface, dug, levels, places) = if let Some(daylight) = &drain.daylight {
            let out = daylight.value.in_m();
            let at = |share: f64| (start + share * (end - start), self.outlet + share * (out - self.outlet));
            let ((x, y), (middle_x, middle_y)) = (at(0.3), at(0.5));
            (
                line(&[(start, ground), (end, out), (end + BESIDE, out)], Meaning::Cut),
                vec![line(&[(start, self.outlet), (end, out)], Meaning::Cut), end_of_trench],
                vec![Level::new("water.drain.daylight", "daylight", daylight.value)],
                vec![place("water.drain", "drain", x, y), place("water.drain.fall", "fall", middle_x, middle_y)],
            )
        } else {
            let (x, y) = (start.midpoint(end), ground.midpoint(self.outlet));
            (
                line(&[(start, ground), (end, ground)], Meaning::Hidden),
                vec![end_of_trench],
                Vec::new(),
                vec![place("water.drain", "drain: level of daylight not known", x, y)],
            )
        };
        let parts = vec![
            Part::new("ground.outside", "ground outside", Material::Ground, vec![surface]),
            Part::new("water.drain", "drain", Material::Stone, dug),
        ];
        let low = drain.daylight.as_ref().map_or(self.outlet, |daylight| daylight.value.in_m().min(self.outlet));
        let length = between("water.drain.length", [(start, low), (end, low)], Vec2::new(0.0, -1.0));
        let dimensions = vec![self.low_depth(1.0), length];
        Section { parts, levels, dimensions, places }
    }
}

fn line(points: &[(f64, f64)], meaning: Meaning) -> Outline {
    Outline::line(points.iter().map(|&(x, y)| Point::new(x, y)).collect(), meaning)
}

fn area(points: [(f64, f64); 4]) -> Outline {
    Outline::area(points.map(|(x, y)| Point::new(x, y)).to_vec(), Meaning::Cut)
}

fn place(path: &str, name: &str, x: f64, y: f64) -> Place {
    Place::new(path, name, Point::new(x, y))
}

fn between(path: &str, ends: [(f64, f64); 2], away: Vec2) -> Dimension {
    Dimension::between(path, ends.map(|(x, y)| Point::new(x, y)), away)
}

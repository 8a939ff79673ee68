//! The band of the unrolled wall in which a lift lies, with a little of the wall above and below it.

use kurbo::Point;

use crate::house::hollow::hollow;
use crate::house::part::{Level, Material, Meaning, Outline, Part, Section};
use crate::house::unrolled::Unrolled;
use crate::house::{House, Lift};
use crate::units::Length;

/// What is shown above and below a lift, in metres.
const BESIDE: f64 = 0.2;

/// The band of a lift in two rows, parted where the unrolled wall is.
pub(super) fn bands(house: &House, wall: &Unrolled<'_>, lift: &Lift, below: Option<&Lift>) -> [Section; 2] {
    let whole = house.wall.line.length();
    let middle = wall.parting(0.5 * whole);
    [[0.0, middle], [middle, whole]].map(|stretch| band(wall, stretch, lift, below))
}

fn band(wall: &Unrolled<'_>, stretch: [f64; 2], lift: &Lift, below: Option<&Lift>) -> Section {
    let holes = wall.holes(stretch);
    let foot = below.map_or(Length::ZERO, |below| below.top.value);
    let [low, high] = [foot.in_m(), lift.top.value.in_m()];
    let body = |from: f64, to: f64, meaning: Meaning| -> Vec<Outline> {
        let top: Vec<Point> = wall.top(stretch).iter().map(|at| Point::new(at.x, at.y.clamp(from, to))).collect();
        if top.iter().all(|at| at.y <= from) {
            return Vec::new();
        }
        let mut points = vec![Point::new(stretch[0], from), Point::new(stretch[1], from)];
        points.extend(top.into_iter().rev());
        hollow(&points, &holes).into_iter().map(|points| Outline::area(points, meaning)).collect()
    };
    let beside = |path: &str, name: &str, material, outlines| Part::new(path, name, material, outlines);
    let mut parts = vec![if below.is_some() {
        beside("wall", "cob wall", Material::Cob, body(low - BESIDE, low, Meaning::Seen))
    } else {
        let corners = [(stretch[0], -BESIDE), (stretch[1], -BESIDE), (stretch[1], 0.0), (stretch[0], 0.0)];
        let stem = hollow(&corners.map(|(x, y)| Point::new(x, y)), &holes);
        let stem = stem.into_iter().map(|points| Outline::area(points, Meaning::Seen)).collect();
        beside("wall.stem", "stem wall", Material::Stone, stem)
    }];
    parts.push(beside("wall", "cob wall", Material::Cob, body(high, high + BESIDE, Meaning::Seen)));
    parts.push(beside(&format!("wall.lifts.{}", lift.name), &lift.name, Material::Cob, body(low, high, Meaning::Cut)));
    let foot_path = below.map_or("wall", |below| below.top.path.as_str());
    let levels = vec![Level::new(foot_path, "foot", foot), Level::new(&lift.top.path, "top", lift.top.value)];
    let places = wall.points(stretch, low - BESIDE);
    Section { parts, levels: Level::in_order(levels), dimensions: Vec::new(), places }
}

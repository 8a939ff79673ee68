//! The foot of the wall: trench, stem wall, the first cob, the ground outside and the floor inside.

use std::f64::consts::TAU;

use kurbo::{Point, Vec2};

use super::Detail;
use super::across::{Across, Edge, rectangle};
use crate::curve::Side;
use crate::house::part::{Dimension, Level, Material, Meaning, Outline, Part, Place, Section};
use crate::house::{House, Trench};
use crate::units::Length;

/// How much of the cob is shown, and of the ground outside and the floor inside beside the widest part, in metres.
const COB: f64 = 0.475;
const OUTSIDE: f64 = 0.2;
const INSIDE: f64 = 0.3;
/// Places along the run that are tried for the cut, the middle first.
const SHARES: [f64; 7] = [0.5, 0.35, 0.65, 0.2, 0.8, 0.1, 0.9];
/// How far inside of the trench its fabric is drawn, and the radius of the pipe, which nothing says, in metres.
const FABRIC: f64 = 0.02;
const PIPE: f64 = 0.05;
/// Corners of the pipe.
const CORNERS: u32 = 24;

/// The foot of the wall in the middle of the run under which the trench drains, else of the longest; beside the middle where
/// an opening is there.
pub(super) fn stem(house: &House) -> Detail {
    let along = place(house);
    let across = Across { house, along };
    let wall = &house.wall;
    let (half, foot) = (across.half_stem(), -wall.stem_height.value.in_m());
    let half_trench = house.trench.as_ref().map_or(0.0, |trench| 0.5 * trench.width.value.in_m());
    let widest = half.max(half_trench).max(-across.face(Side::Outer, 0.0));
    let cob_top = wall.top.at(&wall.line, along);
    let high = if cob_top <= COB { Edge::Whole(cob_top) } else { Edge::Broken(COB) };
    let bands = [[0.0, high.level()]];

    let mut parts = vec![across.ground(-widest - OUTSIDE)];
    let (floor, mut places) = across.floor(half.max(half_trench) + INSIDE);
    parts.extend(floor);
    let mut levels = vec![
        Level::new("ground.outside", "ground outside", house.ground.value),
        Level::new("wall.stem", "foot of the cob", Length::ZERO),
        Level::new("wall.stem.height", "foot of the stem", -wall.stem_height.value),
    ];
    if wall.line.is_closed() {
        levels.push(Level::new("ground.floor", "finished floor", house.floor_level.value));
    }
    let mut dimensions = vec![
        between("wall.stem.height", [(-half, foot), (-half, 0.0)], Vec2::new(-1.0, 0.0)),
        between("wall.stem.width", [(-half, 0.8 * foot), (half, 0.8 * foot)], Vec2::new(0.0, 1.0)),
    ];
    if let Some(trench) = &house.trench {
        let depth = trench.depth_at(&wall.line, along);
        let bottom = house.ground.value - depth;
        levels.push(Level::new("water.trench.depth", "trench bottom", bottom));
        let low = bottom.in_m();
        let ends = [(-half_trench, low), (half_trench, low)];
        dimensions.push(between("water.trench.width", ends, Vec2::new(0.0, -1.0)));
        let (drawn, named) = filled(house, trench, half_trench, [low, foot]);
        parts.extend(drawn);
        places.extend(named);
    }
    let middle = 0.5 * foot;
    let through = Outline::line(vec![Point::new(-half, middle), Point::new(half, middle)], Meaning::Seen);
    let body = rectangle([-half, half], [foot, 0.0], Meaning::Cut);
    parts.push(Part::new("wall.stem", "stem wall", Material::Stone, vec![body]));
    // Of one part what is seen would lie under what is cut.
    parts.push(Part::new("wall.stem.through", "through stone", Material::Stone, vec![through]));
    parts.push(Part::new("wall", "cob wall", Material::Cob, vec![across.cob(Edge::Whole(0.0), high)]));
    let at = |x: f64, y: f64| Point::new(x, y);
    places.extend([
        Place::new("wall.stem", "stem wall", at(0.0, 0.25 * foot)),
        Place::new("wall.stem.through", "through stone", at(0.0, middle)),
        Place::new("wall", "cob", at(0.0, 0.6 * high.level())),
    ]);
    for side in [Side::Outer, Side::Inner] {
        if let Some((coats, named)) = across.coats(side, &bands) {
            parts.push(coats);
            places.extend(named);
        }
    }
    // A wall that is not even has a thickness of its own here, which no row says.
    if wall.thicknesses.is_even() {
        let ends = [Side::Outer, Side::Inner].map(|side| (across.face(side, 0.0), 0.0));
        dimensions.push(between("wall.thickness", ends, Vec2::new(0.0, 1.0)));
    }
    let pipe = if house.drain.is_some() && house.trench.is_some() {
        " No size of the pipe is written: its circle shows only where it lies."
    } else {
        ""
    };
    let section = Section { parts, levels: Level::in_order(levels), dimensions, places };
    Detail {
        name: "stem-detail",
        title: "The foot of the wall, cut square to it; outside on the left".into(),
        note: format!("Cut away from openings; the cob goes on above.{pipe}"),
        section,
    }
}

/// Where along the line the wall is cut, in metres.
fn place(house: &House) -> f64 {
    let (wall, line) = (&house.wall, &house.wall.line);
    let runs = line.runs();
    let longest = || (0..runs.len()).max_by(|&a, &b| runs[a].whole.length().total_cmp(&runs[b].whole.length()));
    let run = house.trench.as_ref().map(|trench| trench.run).or_else(longest).unwrap_or(0);
    let length = runs.get(run).map_or(0.0, |run| run.whole.length());
    let places = || {
        let at = |share: f64| line.station(run, share * length).map(|station| line.along_line(station));
        SHARES.into_iter().filter_map(at)
    };
    let shape = wall.shape();
    let cuts = house.openings.iter().flat_map(|opening| opening.cuts());
    let taken: Vec<[f64; 2]> = cuts.map(|(_, _, cut)| cut.reach(&shape)).collect();
    let whole = if line.is_closed() { line.length() } else { 0.0 };
    let free = |along: &f64| {
        let inside = |at: f64| taken.iter().any(|[from, to]| (*from..=*to).contains(&at));
        ![*along - whole, *along, *along + whole].into_iter().any(inside)
    };
    places().find(free).or_else(|| places().next()).unwrap_or(0.0)
}

/// The trench's filling, its fabric, and the pipe where it drains.
fn filled(house: &House, trench: &Trench, half: f64, [low, foot]: [f64; 2]) -> (Vec<Part>, Vec<Place>) {
    let body = rectangle([-half, half], [low, foot], Meaning::Cut);
    let round = rectangle([FABRIC - half, half - FABRIC], [low + FABRIC, foot - FABRIC], Meaning::Hidden);
    let mut parts = vec![
        Part::new("water.trench", "rubble trench", Material::Gravel, vec![body]),
        Part::new("water.fabric", "fabric", Material::Sheet, vec![round]),
    ];
    let mut places = vec![
        Place::new("water.trench", &trench.of, Point::new(0.4 * half, low + 0.65 * (foot - low))),
        Place::new("water.fabric", &trench.fabric.of, Point::new(-half - 0.09, low + 0.4 * (foot - low))),
    ];
    if house.drain.is_some() && foot - low > 4.0 * PIPE {
        let middle = Point::new(0.0, low + 2.0 * PIPE);
        let turns = (0..CORNERS).map(|corner| TAU * f64::from(corner) / f64::from(CORNERS));
        let ring = turns.map(|turn| middle + PIPE * Vec2::from_angle(turn)).collect();
        let ring = Outline::area(ring, Meaning::Seen);
        parts.push(Part::new("water.drain", "drain pipe", Material::Opening, vec![ring]));
        places.push(Place::new("water.drain", "drain pipe", middle));
    }
    (parts, places)
}

fn between(path: &str, ends: [(f64, f64); 2], away: Vec2) -> Dimension {
    Dimension::between(path, ends.map(|(x, y)| Point::new(x, y)), away)
}

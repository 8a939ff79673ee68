//! The cross-section: what an upright cut through the first door and the room shows, and what is seen beyond it.

use kurbo::{Point, Vec2};

use super::House;
use super::part::{Dimension, Level, Material, Meaning, Outline, Part, Place, Section};
use crate::build::OpeningKind;
use crate::units::Length;

/// Steps in height between which a cut face is drawn straight.
const STEPS: u32 = 8;

/// The cut: an origin on it, a unit direction along it, and the direction in which one looks.
struct Cut {
    origin: Point,
    along: Vec2,
    beyond: Vec2,
}

/// Square to the wall through the middle of the first door, else of the first opening, else across the room.
fn cut(house: &House) -> Cut {
    let door = house.openings.iter().find(|opening| opening.kind == OpeningKind::Door).or(house.openings.first());
    let (origin, along) = match door {
        Some(door) => (door.station.point, door.station.axis.turn_90()),
        None => (house.wall.line.centre(), Vec2::new(1.0, 0.0)),
    };
    Cut { origin, along, beyond: along.turn_90() }
}

/// Where the cut enters and leaves the house: seen to the left of the way.
pub(super) fn cut_line(house: &House) -> [Point; 2] {
    let cut = cut(house);
    let half = (house.wall.thickness.value * 0.5).in_m();
    let places = crossings(house, half, &cut);
    let (first, last) = (places.first().copied().unwrap_or(-1.0), places.last().copied().unwrap_or(1.0));
    [cut.origin + cut.along * first, cut.origin + cut.along * last]
}

/// Where the face at an offset of the line crosses the cut, as distances along it, in order.
fn crossings(house: &House, offset: f64, cut: &Cut) -> Vec<f64> {
    let pieces = house.wall.line.pieces().iter();
    let mut places: Vec<f64> = pieces.flat_map(|piece| piece.offset(offset).crossings(cut.origin, cut.along)).collect();
    places.sort_by(f64::total_cmp);
    places
}

/// Pairs of distances between which the cut passes through a body that stands between two offsets of the line.
fn through(house: &House, inner: f64, outer: f64, cut: &Cut) -> Vec<[f64; 2]> {
    let mut places = crossings(house, outer, cut);
    places.extend(crossings(house, inner, cut));
    places.sort_by(f64::total_cmp);
    places.chunks_exact(2).map(|pair| [pair[0], pair[1]]).collect()
}

/// The cross-section of a house.
#[must_use]
pub fn section(house: &House) -> Section {
    let cut = cut(house);
    let wall = &house.wall;
    let half_stem = (wall.stem_width.value * 0.5).in_m();
    let stem = through(house, -half_stem, half_stem, &cut);
    let (low, foot) = (house.ground.value.in_m(), -wall.stem_height.value.in_m());
    let mut parts = vec![floor(house, &stem)];
    if let Some(trench) = &house.trench {
        let half = (trench.width.value * 0.5).in_m();
        let body = |span: [f64; 2]| {
            let middle = cut.origin + cut.along * (0.5 * (span[0] + span[1]));
            let depth = trench.depth_at(&wall.line, wall.line.along_line(wall.line.nearest(middle)));
            rectangle(span, low - depth.in_m(), foot)
        };
        let bodies = through(house, -half, half, &cut).into_iter().map(body).collect();
        parts.push(Part::new("water.trench", "rubble trench", Material::Stone, bodies));
    }
    let doors = cut_openings(house, &cut);
    let stones = stem.iter().map(|&span| {
        let top = door_at(&doors, span).map_or(0.0, |(bottom, _)| bottom.min(0.0));
        rectangle(span, foot, top)
    });
    parts.push(Part::new("wall.stem", "stem wall", Material::Stone, stones.collect()));
    parts.push(Part::new("wall", "cob wall", Material::Cob, cob(house, &cut, &doors)));
    let lifts = lift_lines(house, &cut, &doors);
    let (seen_wall, seen_openings) = (far_wall(house, &stem, &doors), beyond(house, &cut));
    let places = parts
        .iter()
        .filter(|part| part.material != Material::Opening)
        .filter_map(|part| {
            let last = part.outlines.last()?;
            let sum = last.points.iter().fold(Vec2::ZERO, |sum, point| sum + point.to_vec2());
            let at = (sum / last.points.len() as f64).to_point();
            Some(Place { path: part.path.clone(), name: part.name.clone(), at })
        })
        .collect();
    parts.extend(lifts);
    parts.splice(0..0, [ground(house, &cut), seen_wall].into_iter().chain(seen_openings));
    Section { levels: levels(house), dimensions: dimensions(house, &cut), parts, places }
}

fn rectangle([left, right]: [f64; 2], bottom: f64, top: f64) -> Outline {
    let points = [(left, bottom), (right, bottom), (right, top), (left, top)].map(|(x, y)| Point::new(x, y));
    Outline::area(points.to_vec(), Meaning::Cut)
}

/// Openings that the cut passes through: where, from which level to which.
fn cut_openings(house: &House, cut: &Cut) -> Vec<([f64; 2], f64, f64)> {
    let half_width = |opening: &super::Opening| (opening.width.value * 0.5).in_m();
    house
        .openings
        .iter()
        .filter_map(|opening| {
            let offset = opening.station.point - cut.origin;
            let across = -opening.station.axis.turn_90();
            let slope = across.dot(cut.along);
            if slope.abs() < 1e-6 {
                return None;
            }
            let at = offset.dot(across) / slope;
            let place = cut.origin + cut.along * at;
            let aside = (place - opening.station.point).dot(opening.station.axis).abs();
            let reach = (house.wall.thickness.value.in_m() * 0.5 / slope.abs()).max(0.05);
            (aside < half_width(opening))
                .then(|| ([at - reach, at + reach], opening.bottom.value.in_m(), opening.head().in_m()))
        })
        .collect()
}

fn door_at(doors: &[([f64; 2], f64, f64)], [left, right]: [f64; 2]) -> Option<(f64, f64)> {
    let middle = 0.5 * (left + right);
    doors.iter().find(|([from, to], _, _)| (*from..=*to).contains(&middle)).map(|&(_, bottom, head)| (bottom, head))
}

/// The cob cut through: each place in the plan, in the bands below and above an opening, face by face in steps.
fn cob(house: &House, cut: &Cut, doors: &[([f64; 2], f64, f64)]) -> Vec<Outline> {
    let faces = house.wall.faces();
    let height = house.wall.height.value.in_m();
    let at = |z: f64| through(house, faces.inner(Length::m(z)).in_m(), faces.outer(Length::m(z)).in_m(), cut);
    let base = at(0.0);
    let mut outlines = Vec::new();
    for (place, &span) in base.iter().enumerate() {
        let bands = match door_at(doors, span) {
            Some((bottom, head)) => vec![(0.0, bottom.max(0.0)), (head, height)],
            None => vec![(0.0, height)],
        };
        for (low, high) in bands.into_iter().filter(|(low, high)| high - low > 1e-9) {
            let levels = (0..=STEPS).map(|step| low + (high - low) * f64::from(step) / f64::from(STEPS));
            let rows: Vec<([f64; 2], f64)> = levels.filter_map(|z| at(z).get(place).map(|&span| (span, z))).collect();
            let left = rows.iter().map(|([left, _], z)| Point::new(*left, *z));
            let right = rows.iter().rev().map(|([_, right], z)| Point::new(*right, *z));
            outlines.push(Outline::area(left.chain(right).collect(), Meaning::Cut));
        }
    }
    outlines
}

/// The bed between one lift and the next, where the cut passes through cob.
fn lift_lines(house: &House, cut: &Cut, doors: &[([f64; 2], f64, f64)]) -> Vec<Part> {
    let faces = house.wall.faces();
    let lifts = house.wall.lifts.iter().filter(|lift| lift.top.value < house.wall.height.value);
    lifts
        .map(|lift| {
            let level = lift.top.value.in_m();
            let spans = through(house, faces.inner(lift.top.value).in_m(), faces.outer(lift.top.value).in_m(), cut);
            let solid = spans
                .into_iter()
                .filter(|&span| door_at(doors, span).is_none_or(|(bottom, head)| level <= bottom || head <= level));
            let lines = solid.map(|[left, right]| {
                Outline::line(vec![Point::new(left, level), Point::new(right, level)], Meaning::Hidden)
            });
            Part::new(&format!("wall.lifts.{}", lift.name), &lift.name, Material::Cob, lines.collect())
        })
        .collect()
}

fn floor(house: &House, stem: &[[f64; 2]]) -> Part {
    let level = house.floor_level.value.in_m();
    let lines = stem
        .windows(2)
        .step_by(2)
        .map(|pair| Outline::line(vec![Point::new(pair[0][1], level), Point::new(pair[1][0], level)], Meaning::Cut));
    Part::new("ground.floor", "finished floor", Material::Floor, lines.collect())
}

/// The ground outside, level, to either side and 0.7 m away.
fn ground(house: &House, cut: &Cut) -> Part {
    let half = (house.wall.stem_width.value * 0.5).in_m();
    let places = crossings(house, half, cut);
    let (first, last) = (places.first().copied().unwrap_or(0.0), places.last().copied().unwrap_or(0.0));
    let level = house.ground.value.in_m();
    let line = |from: f64, to: f64| Outline::line(vec![Point::new(from, level), Point::new(to, level)], Meaning::Cut);
    Part::new(
        "ground.outside",
        "ground outside",
        Material::Ground,
        vec![line(first - 0.7, first), line(last, last + 0.7)],
    )
}

/// The far wall seen inside the room, and the jambs of an opening that the cut passes through.
fn far_wall(house: &House, stem: &[[f64; 2]], doors: &[([f64; 2], f64, f64)]) -> Part {
    let (floor, top) = (house.floor_level.value.in_m(), house.wall.height.value.in_m());
    let rooms = stem.windows(2).step_by(2).map(|pair| rectangle([pair[0][1], pair[1][0]], floor, top));
    let jambs = stem.iter().filter_map(|&span| door_at(doors, span).map(|(low, high)| rectangle(span, low, high)));
    let seen = rooms.chain(jambs).map(|outline| Outline { meaning: Meaning::Seen, ..outline });
    Part::new("wall.inner-area", "far wall", Material::Cob, seen.collect())
}

/// Openings seen on the far side, inside the room.
fn beyond(house: &House, cut: &Cut) -> Vec<Part> {
    let wall = &house.wall;
    let seen = house.openings.iter().filter_map(|opening| {
        let strip = opening.strip(wall)?;
        let facing = -opening.station.axis.turn_90();
        if facing.dot(cut.beyond) < 0.2 || (opening.station.point - cut.origin).dot(cut.beyond) < 0.1 {
            return None;
        }
        let side = |level: Length| -> Option<[f64; 2]> {
            let face = strip.face(wall.faces().inner(level).in_m());
            let place = |point: Point| (point - cut.origin).dot(cut.along);
            Some([place(face.first()?.start), place(face.last()?.end)])
        };
        let (bottom, head) = (opening.bottom.value.max(house.floor_level.value), opening.head());
        let (low, high) = (side(bottom)?, side(head)?);
        let (bottom, head) = (bottom.in_m(), head.in_m());
        let points = [(low[0], bottom), (low[1], bottom), (high[1], head), (high[0], head)];
        let outline = Outline::area(points.map(|(x, y)| Point::new(x, y)).to_vec(), Meaning::Seen);
        Some(Part::new(&format!("openings.{}", opening.name), &opening.name, Material::Opening, vec![outline]))
    });
    seen.collect()
}

fn levels(house: &House) -> Vec<Level> {
    let wall = &house.wall;
    let mut levels = vec![
        Level::new("ground.outside", "ground outside", house.ground.value),
        Level::new("ground.floor", "finished floor", house.floor_level.value),
        Level::new("wall.height", "top of the wall", wall.height.value),
    ];
    if house.trench.is_some() {
        levels.push(Level::new("wall.stem.height", "foot of the stem", -wall.stem_height.value));
    }
    Level::in_order(levels)
}

fn dimensions(house: &House, cut: &Cut) -> Vec<Dimension> {
    let wall = &house.wall;
    let faces = wall.faces();
    let at = |z: Length| through(house, faces.inner(z).in_m(), faces.outer(z).in_m(), cut).last().copied();
    let top = at(wall.height.value).map(|top| {
        let ends = top.map(|along| Point::new(along, wall.height.value.in_m()));
        Dimension::between("wall.top-thickness", ends, Vec2::new(0.0, 1.0))
    });
    top.into_iter().collect()
}

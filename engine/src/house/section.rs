//! The cross-section: what an upright cut through the first door and the room shows, and what is seen beyond it.

use kurbo::{Point, Vec2};

use super::House;
use super::part::{Dimension, Level, Material, Meaning, Outline, Part, Place, Section};
use crate::build::OpeningKind;
use crate::curve::Side;

/// Steps in height between which a cut face is drawn straight.
const STEPS: u32 = 8;
/// Steps in which the curved part of an opening is drawn.
const CURVE_STEPS: u32 = 24;

/// The cut: an origin on it, a unit direction along it, and the direction in which one looks.
pub(crate) struct Cut {
    pub(crate) origin: Point,
    pub(crate) along: Vec2,
    beyond: Vec2,
}

/// Square to the wall through the middle of the first door, else of the first opening, else across the room, or through the
/// middle of an open wall.
pub(crate) fn cut(house: &House) -> Cut {
    let door = house.openings.iter().find(|opening| opening.kind == OpeningKind::Door).or(house.openings.first());
    let (origin, along) = match door {
        Some(door) => (door.station.point, door.station.axis.turn_90()),
        None if house.wall.line.is_closed() => (house.wall.line.centre(), Vec2::new(1.0, 0.0)),
        None => {
            let middle = house.wall.line.at(0.5 * house.wall.line.length());
            (middle.point, middle.axis.turn_90())
        }
    };
    Cut { origin, along, beyond: along.turn_90() }
}

mod passed;

pub(crate) use passed::tops;
use passed::{alike, outside, rooms, through_cob};
pub(super) use passed::{cut_line, through, top_at};

/// The cross-section of a house.
#[must_use]
pub fn section(house: &House) -> Section {
    let cut = cut(house);
    let wall = &house.wall;
    let half_stem = (wall.stem_width.value * 0.5).in_m();
    let stem = through(house, -half_stem, half_stem, &cut);
    let (low, foot) = (house.ground.value.in_m(), -wall.stem_height.value.in_m());
    let is_closed = wall.line.is_closed();
    let mut parts: Vec<Part> = is_closed.then(|| floor(house, &cut)).into_iter().collect();
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
    let seen_wall = is_closed.then(|| far_wall(house, &stem, &doors, &cut));
    let seen_openings = if is_closed { beyond(house, &cut) } else { Vec::new() };
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
    parts.splice(0..0, [ground(house, &cut)].into_iter().chain(seen_wall).chain(seen_openings));
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
    let at = |level: f64| through_cob(house, level, cut);
    let height = at(0.0).into_iter().map(|span| top_at(house, span, cut)).fold(0.0, f64::max);
    let mut outlines = Vec::new();
    for [foot, top] in alike(|level| at(level).len(), height, STEPS) {
        for (place, &span) in at(foot).iter().enumerate() {
            let top = top.min(top_at(house, span, cut));
            let bands = match door_at(doors, span) {
                Some((bottom, head)) => vec![(foot, bottom.min(top)), (head.max(foot), top)],
                None => vec![(foot, top)],
            };
            for (low, high) in bands.into_iter().filter(|(low, high)| high - low > 1e-9) {
                let levels = (0..=STEPS).map(|step| low + (high - low) * f64::from(step) / f64::from(STEPS));
                let rows: Vec<([f64; 2], f64)> =
                    levels.filter_map(|z| at(z).get(place).map(|&span| (span, z))).collect();
                let left = rows.iter().map(|([left, _], z)| Point::new(*left, *z));
                let right = rows.iter().rev().map(|([_, right], z)| Point::new(*right, *z));
                outlines.push(Outline::area(left.chain(right).collect(), Meaning::Cut));
            }
        }
    }
    outlines
}

/// The bed between one lift and the next, where the cut passes through cob.
fn lift_lines(house: &House, cut: &Cut, doors: &[([f64; 2], f64, f64)]) -> Vec<Part> {
    house
        .wall
        .beds()
        .map(|lift| {
            let level = lift.top.value.in_m();
            let spans = through_cob(house, level, cut);
            let solid = spans
                .into_iter()
                .filter(|&span| level < top_at(house, span, cut))
                .filter(|&span| door_at(doors, span).is_none_or(|(bottom, head)| level <= bottom || head <= level));
            let lines = solid.map(|span| flat(span, level, Meaning::Hidden));
            Part::new(&format!("wall.lifts.{}", lift.name), &lift.name, Material::Cob, lines.collect())
        })
        .collect()
}

fn floor(house: &House, cut: &Cut) -> Part {
    let level = house.floor_level.value.in_m();
    let lines = rooms(house, cut).into_iter().map(|room| flat(room, level, Meaning::Cut));
    Part::new("ground.floor", "finished floor", Material::Floor, lines.collect())
}

fn flat([from, to]: [f64; 2], level: f64, meaning: Meaning) -> Outline {
    Outline::line(vec![Point::new(from, level), Point::new(to, level)], meaning)
}

/// The ground outside, level, to either side and 0.7 m away, and between one stretch of the house or the wall and the next.
fn ground(house: &House, cut: &Cut) -> Part {
    let level = house.ground.value.in_m();
    let lines = outside(house, cut).into_iter().map(|stretch| flat(stretch, level, Meaning::Cut));
    Part::new("ground.outside", "ground outside", Material::Ground, lines.collect())
}

/// The far wall seen inside the room, and the jambs of an opening that the cut passes through.
fn far_wall(house: &House, stem: &[[f64; 2]], doors: &[([f64; 2], f64, f64)], cut: &Cut) -> Part {
    let floor = house.floor_level.value.in_m();
    let rooms: Vec<Outline> = if house.wall.top.is_level() {
        let top = house.wall.height.value.in_m();
        rooms(house, cut).into_iter().map(|room| rectangle(room, floor, top)).collect()
    } else {
        vec![far_face(house, floor, cut)]
    };
    let jambs = stem.iter().filter_map(|&span| door_at(doors, span).map(|(low, high)| rectangle(span, low, high)));
    let seen = rooms.into_iter().chain(jambs).map(|outline| Outline { meaning: Meaning::Seen, ..outline });
    Part::new("wall.inner-area", "far wall", Material::Cob, seen.collect())
}

/// The inner face beyond the cut under a top that is not level, in the order in which one walks along it.
fn far_face(house: &House, floor: f64, cut: &Cut) -> Outline {
    let (line, shape) = (&house.wall.line, house.wall.shape());
    let steps = 512_u32;
    let tops = (0..=steps).filter_map(|step| {
        let along = line.length() * f64::from(step) / f64::from(steps);
        let from_cut = shape.point(Side::Inner, along, 0.0) - cut.origin;
        (from_cut.dot(cut.beyond) > 0.0).then(|| Point::new(from_cut.dot(cut.along), house.wall.top.at(line, along)))
    });
    let mut points: Vec<Point> = tops.collect();
    points.sort_by(|a, b| a.x.total_cmp(&b.x));
    let ends = [points.last(), points.first()].map(|end| end.map_or(0.0, |end| end.x));
    points.extend(ends.map(|x| Point::new(x, floor)));
    Outline::area(points, Meaning::Seen)
}

/// Openings seen on the far side, inside the room.
fn beyond(house: &House, cut: &Cut) -> Vec<Part> {
    let wall = &house.wall;
    let seen = house.openings.iter().filter_map(|opening| {
        let shape = wall.shape();
        let facing = -opening.station.axis.turn_90();
        if facing.dot(cut.beyond) < 0.2 || (opening.station.point - cut.origin).dot(cut.beyond) < 0.1 {
            return None;
        }
        let form = opening.cut.form;
        let bottom = form.bottom().max(house.floor_level.value.in_m());
        let levels = form.levels(bottom, CURVE_STEPS);
        let ends = levels.iter().filter_map(|&level| {
            let stretch = opening.cut.stretch(&shape, Side::Inner, level)?;
            Some((stretch.map(|along| (shape.point(Side::Inner, along, level) - cut.origin).dot(cut.along)), level))
        });
        let ends: Vec<([f64; 2], f64)> = ends.collect();
        let left = ends.iter().map(|([left, _], level)| Point::new(*left, *level));
        let right = ends.iter().rev().map(|([_, right], level)| Point::new(*right, *level));
        let outline = Outline::area(left.chain(right).collect(), Meaning::Seen);
        Some(Part::new(&format!("openings.{}", opening.name), &opening.name, Material::Opening, vec![outline]))
    });
    seen.collect()
}

fn levels(house: &House) -> Vec<Level> {
    let wall = &house.wall;
    let mut levels = vec![Level::new("ground.outside", "ground outside", house.ground.value), wall.top_level()];
    if wall.line.is_closed() {
        levels.insert(1, Level::new("ground.floor", "finished floor", house.floor_level.value));
    }
    if house.trench.is_some() {
        levels.push(Level::new("wall.stem.height", "foot of the stem", -wall.stem_height.value));
    }
    Level::in_order(levels)
}

fn dimensions(house: &House, cut: &Cut) -> Vec<Dimension> {
    let wall = &house.wall;
    if !wall.is_even() {
        return Vec::new();
    }
    let height = wall.height.value.in_m();
    let spans = through_cob(house, height, cut);
    // A closed wall is cut square on the near side, an open one may be square there alone.
    let near = |a: &&[f64; 2], b: &&[f64; 2]| a[0].midpoint(a[1]).abs().total_cmp(&b[0].midpoint(b[1]).abs());
    let shown = if wall.line.is_closed() { spans.last() } else { spans.iter().min_by(near) };
    let top = shown.map(|top| {
        let ends = top.map(|along| Point::new(along, height));
        Dimension::between("wall.top-thickness", ends, Vec2::new(0.0, 1.0))
    });
    top.into_iter().collect()
}

#[cfg(test)]
mod tests;

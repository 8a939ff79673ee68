//! The plan: what a cut through wall and windows shows, with the dimensions that a builder wants.

use kurbo::{Circle, PathEl, Point, Shape as _, Vec2};

use super::built_in::drawn::in_plan;
use super::built_in::{BuiltIn, Oven, What};
use super::part::{Dimension, Material, Meaning, Measured, Outline, Part, Place, Plan};
use super::section::cut_line;
use super::{House, Opening};
use crate::build::OpeningKind;
use crate::curve::{Bend, Piece, Side};
use crate::units::Length;

/// Chord error of drawn curves, in metres.
const CHORD: f64 = 0.001;
/// The same for the many beds of lifts.
const BED_CHORD: f64 = 0.004;
/// Steps in which the places are sought where the wall is lower than a lift.
const STEPS: u32 = 240;

/// The plan of a house.
#[must_use]
pub fn parts(house: &House) -> Plan {
    let cut_at = cut_height(house);
    let mut parts = Vec::new();
    if let Some(trench) = &house.trench {
        let half = (trench.width.value * 0.5).in_m();
        parts.push(band(house, "water.trench", "rubble trench", Material::Stone, half, Meaning::Hidden));
    }
    let half = (house.wall.stem_width.value * 0.5).in_m();
    parts.push(band(house, "wall.stem", "stem wall", Material::Stone, half, Meaning::Seen));
    parts.push(wall(house, cut_at, CHORD, &[]));
    parts.extend(house.openings.iter().filter_map(|opening| hole(house, opening)));
    parts.extend(ovens(house).map(|(thing, oven)| self::oven(thing, oven)));
    let (built_in, names) = in_plan(house, cut_at.in_m());
    parts.extend(built_in);
    let north = house.north.value.in_rad();
    Plan {
        cut_at,
        parts,
        dimensions: dimensions(house, cut_at),
        places: places(house).into_iter().chain(names).collect(),
        north: Vec2::from_angle(north),
        section: cut_line(house),
    }
}

/// As high as cuts the most openings; among those the lowest, in steps of 50 mm.
fn cut_height(house: &House) -> Length {
    let cuts = |at: Length| house.openings.iter().filter(|opening| is_cut(opening, at)).count();
    let steps = (house.wall.lifts.last().map_or(house.wall.height.value, |lift| lift.top.value).in_mm() / 50.0)
        .floor()
        .clamp(2.0, 400.0) as u32;
    let heights = (1..steps).map(|step| Length::mm(50.0 * f64::from(step)));
    let mut best = house.wall.height.value * 0.5;
    for height in heights {
        if cuts(height) > cuts(best) {
            best = height;
        }
    }
    best
}

fn is_cut(opening: &Opening, at: Length) -> bool {
    opening.bottom.value < at && at < opening.head()
}

fn band(house: &House, path: &str, name: &str, material: Material, half: f64, meaning: Meaning) -> Part {
    let outlines = house.wall.line.band(-half, half, CHORD).into_iter();
    Part::new(path, name, material, outlines.map(|points| Outline::area(points, meaning)).collect())
}

/// The bed of a lift: the wall cut at a level where it is higher than another, the stem wall below it.
pub(super) fn bed(house: &House, [foot, top]: [Length; 2]) -> Vec<Part> {
    let half = (house.wall.stem_width.value * 0.5).in_m();
    let stem = band(house, "wall.stem", "stem wall", Material::Stone, half, Meaning::Hidden);
    vec![stem, wall(house, top, BED_CHORD, &lower(house, foot))]
}

/// Stretches of the line along which the wall is no higher than a level.
fn lower(house: &House, level: Length) -> Vec<[f64; 2]> {
    let wall = &house.wall;
    if wall.top.is_level() {
        return Vec::new();
    }
    let step = wall.line.length() / f64::from(STEPS);
    let mut stretches: Vec<[f64; 2]> = Vec::new();
    for place in 0..STEPS {
        let from = step * f64::from(place);
        if wall.top.at(&wall.line, from + 0.5 * step) > level.in_m() + 1e-9 {
            continue;
        }
        match stretches.last_mut() {
            Some(last) if (last[1] - from).abs() < 1e-9 => last[1] = from + step,
            _ => stretches.push([from, from + step]),
        }
    }
    stretches
}

fn wall(house: &House, at: Length, chord: f64, gone: &[[f64; 2]]) -> Part {
    let wall = &house.wall;
    let (shape, level, whole) = (wall.shape(), at.in_m(), wall.line.length());
    let face = |side, stretch| shape.polyline(side, stretch, level, chord);
    let mut cut: Vec<[[f64; 2]; 2]> = house
        .openings
        .iter()
        .filter(|opening| is_cut(opening, at))
        .filter_map(|opening| {
            let at = |side| opening.cut.stretch(&shape, side, level);
            Some([at(Side::Outer)?, at(Side::Inner)?])
        })
        .collect();
    cut.extend(gone.iter().map(|stretch| [*stretch; 2]));
    cut.sort_by(|a, b| a[1][0].total_cmp(&b[1][0]));
    let closed = |points| Outline::area(points, Meaning::Cut);
    let line = &wall.line;
    let outlines = if cut.is_empty() {
        let faces = [Side::Outer, Side::Inner].map(|side| face(side, [0.0, whole]));
        if line.is_closed() {
            faces.map(closed).to_vec()
        } else {
            let [mut points, back] = faces;
            points.extend(back.into_iter().rev());
            vec![closed(points)]
        }
    } else if !line.is_closed() {
        // The ends of the wall part it as openings do.
        cut.insert(0, [[0.0; 2]; 2]);
        cut.push([[whole; 2]; 2]);
        cut.windows(2)
            .filter(|pair| pair[1][0][0] - pair[0][0][1] > 1e-6)
            .map(|pair| {
                let mut points = face(Side::Outer, [pair[0][0][1], pair[1][0][0]]);
                points.extend(face(Side::Inner, [pair[0][1][1], pair[1][1][0]]).into_iter().rev());
                closed(points)
            })
            .collect()
    } else {
        (0..cut.len())
            .map(|index| {
                let turn = if index + 1 == cut.len() { whole } else { 0.0 };
                (cut[index], cut[(index + 1) % cut.len()], turn)
            })
            .filter(|(from, to, turn)| to[0][0] + turn - from[0][1] > 1e-6)
            .map(|(from, to, turn)| {
                let mut points = face(Side::Outer, [from[0][1], to[0][0] + turn]);
                points.extend(face(Side::Inner, [from[1][1], to[1][0] + turn]).into_iter().rev());
                closed(points)
            })
            .collect()
    };
    Part::new("wall", "cob wall", Material::Cob, outlines)
}

fn hole(house: &House, opening: &Opening) -> Option<Part> {
    let level = if opening.kind == OpeningKind::Door { 0.0 } else { opening.cut.form.widest_above(0.0) };
    let shape = house.wall.shape();
    let side = |side: Side| -> Option<Outline> {
        let stretch = opening.cut.stretch(&shape, side, level)?;
        Some(Outline::line(shape.polyline(side, stretch, level, CHORD), Meaning::Seen))
    };
    Some(Part {
        path: format!("openings.{}", opening.name),
        name: opening.name.clone(),
        material: Material::Opening,
        outlines: vec![side(Side::Outer)?, side(Side::Inner)?],
    })
}

fn ovens(house: &House) -> impl Iterator<Item = (&BuiltIn, &Oven)> {
    house.built_in.iter().filter_map(|thing| match &thing.what {
        What::Oven(oven) => Some((thing, &**oven)),
        _ => None,
    })
}

/// Rings of an oven, its doorway, and its footing below the floor.
fn oven(thing: &BuiltIn, oven: &Oven) -> Part {
    let middle = oven.middle();
    let inside = 0.5 * oven.diameter.value.in_m();
    let outside = 0.5 * oven.over_dome().in_m();
    let circle = |radius: f64, meaning| {
        let points = Circle::new(middle, radius).to_path(CHORD).elements().to_vec();
        let mut flat = Vec::new();
        kurbo::flatten(points, CHORD, |element| match element {
            PathEl::MoveTo(point) | PathEl::LineTo(point) => flat.push(point),
            _ => {}
        });
        Outline::area(flat, meaning)
    };
    let way = Vec2::from_angle(oven.faces.value.in_rad());
    let half = way.turn_90() * (0.5 * oven.door[0].value.in_m());
    let jamb = |side: Vec2| {
        let reach = |radius: f64| (radius * radius - side.hypot2()).max(0.0).sqrt();
        let ends = [inside, outside].map(|radius| middle + side + way * reach(radius));
        Outline::line(ends.to_vec(), Meaning::Seen)
    };
    let outlines = vec![
        circle(0.5 * oven.footing[1].value.in_m(), Meaning::Hidden),
        circle(0.5 * oven.base[1].value.in_m(), Meaning::Seen),
        circle(inside + oven.layers[0].value.in_m(), Meaning::Seen),
        circle(outside, Meaning::Cut),
        circle(inside, Meaning::Cut),
        jamb(half),
        jamb(-half),
    ];
    Part::new(&format!("built-in.{}", thing.name), &thing.name, Material::Cob, outlines)
}

fn dimensions(house: &House, at: Length) -> Vec<Dimension> {
    let wall = &house.wall;
    let half = (wall.thickness.value * 0.5).in_m();
    let (extent, _) = wall.line.extent(half);
    let (up, right) = (Vec2::new(0.0, 1.0), Vec2::new(1.0, 0.0));
    let between = |path: &str, from, to, away| Dimension::between(path, [from, to], away);
    let mut dimensions = vec![
        between("wall.overall-x", Point::new(extent.x0, extent.y0), Point::new(extent.x1, extent.y0), -up),
        between("wall.overall-y", Point::new(extent.x1, extent.y0), Point::new(extent.x1, extent.y1), right),
    ];
    for opening in &house.openings {
        let level = if is_cut(opening, at) { at.in_m() } else { opening.cut.form.widest_above(0.0) };
        if let Some(ends) = opening.cut.stretch(&wall.shape(), Side::Outer, level) {
            let [start, end] = ends.map(|along| wall.shape().point(Side::Outer, along, level));
            let away = -opening.station.axis.turn_90();
            dimensions.push(between(&opening.width.path, start, end, away));
        }
        let run = &wall.line.runs()[opening.run];
        let away = opening.station.axis.turn_90();
        if let [Piece { bend: Bend::Straight, start, .. }] = run.whole.pieces() {
            let (from, to) = (*start + away * half, opening.station.point + away * half);
            dimensions.push(between(&opening.along.path, from, to, away));
        }
    }
    for (point, run) in wall.points.iter().zip(wall.line.runs()) {
        let [piece] = run.whole.pieces() else { continue };
        match piece.bend {
            Bend::Straight => {
                let away = -piece.direction(0.0).turn_90();
                dimensions.push(between(
                    &format!("wall.line.{}.run", point.name),
                    piece.start + away * half,
                    piece.end + away * half,
                    away,
                ));
            }
            Bend::Arc { centre, .. } => {
                let on = piece.at(piece.length() * 0.5);
                let path = format!("wall.line.{}.radius", point.name);
                dimensions.push(Dimension { path, measured: Measured::Radius { centre, on } });
            }
        }
    }
    if let Some(piece) = wall.line.pieces().iter().max_by(|a, b| a.length().total_cmp(&b.length())) {
        let middle = piece.length() * 0.25;
        let across = -piece.direction(middle).turn_90();
        let (from, to) = (piece.at(middle) - across * half, piece.at(middle) + across * half);
        dimensions.push(between("wall.thickness", from, to, piece.direction(middle)));
    }
    dimensions
}

fn places(house: &House) -> Vec<Place> {
    let points = house.wall.points.iter().map(|point| Place {
        path: format!("wall.line.{}", point.name),
        name: point.name.clone(),
        at: Point::new(point.x.value.in_m(), point.y.value.in_m()),
    });
    let openings = house.openings.iter().map(|opening| Place {
        path: format!("openings.{}", opening.name),
        name: opening.name.clone(),
        at: opening.station.point,
    });
    let ovens = ovens(house).map(|(thing, oven)| Place {
        path: format!("built-in.{}", thing.name),
        name: thing.name.clone(),
        at: oven.middle(),
    });
    let line = &house.wall.line;
    let room = || Place { path: "room.area".into(), name: "room".into(), at: line.centre() };
    points.chain(openings).chain(ovens).chain(line.is_closed().then(room)).collect()
}

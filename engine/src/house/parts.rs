//! The plan: what a cut through wall and windows shows, with the dimensions that a builder wants.

use kurbo::{Point, Vec2};

use super::part::{Dimension, Material, Meaning, Measured, Outline, Part, Place, Plan};
use super::section::cut_line;
use super::{House, Opening};
use crate::build::OpeningKind;
use crate::curve::{Bend, Piece, Side};
use crate::units::Length;

/// Chord error of drawn curves, in metres.
const CHORD: f64 = 0.001;

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
    parts.push(wall(house, cut_at));
    parts.extend(house.openings.iter().filter_map(|opening| hole(house, opening)));
    let north = house.north.value.in_rad();
    Plan {
        cut_at,
        parts,
        dimensions: dimensions(house, cut_at),
        places: places(house),
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

fn wall(house: &House, at: Length) -> Part {
    let wall = &house.wall;
    let (shape, level, whole) = (wall.shape(), at.in_m(), wall.line.length());
    let face = |side, stretch| shape.polyline(side, stretch, level, CHORD);
    let mut cut: Vec<[[f64; 2]; 2]> = house
        .openings
        .iter()
        .filter(|opening| is_cut(opening, at))
        .filter_map(|opening| {
            let at = |side| opening.cut.stretch(&shape, side, level);
            Some([at(Side::Outer)?, at(Side::Inner)?])
        })
        .collect();
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
            .map(|pair| {
                let mut points = face(Side::Outer, [pair[0][0][1], pair[1][0][0]]);
                points.extend(face(Side::Inner, [pair[0][1][1], pair[1][1][0]]).into_iter().rev());
                closed(points)
            })
            .collect()
    } else {
        (0..cut.len())
            .map(|index| {
                let (from, to) = (cut[index], cut[(index + 1) % cut.len()]);
                let turn = if index + 1 == cut.len() { whole } else { 0.0 };
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
    let line = &house.wall.line;
    let room = || Place { path: "room.area".into(), name: "room".into(), at: line.centre() };
    points.chain(openings).chain(line.is_closed().then(room)).collect()
}

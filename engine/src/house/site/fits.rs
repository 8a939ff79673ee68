//! What the yard covers, and whether it all finds room: inside the boundary, clear of the house and of each other.

use kurbo::{Point, Vec2};

use super::{Yard, place, point, square};
use crate::build::{self, Build, Source, YardKind};
use crate::house::House;
use crate::row::Rows;
use crate::solve::polygon;
use crate::units::{Area, Length};

/// Corners of a drawn heap.
const CORNERS: u32 = 48;
/// Chord error of the eave, in metres.
const CHORD: f64 = 0.01;

impl Yard {
    /// What it covers, in metres: closed outlines, several of a way that bends. A pile needs its area.
    #[must_use]
    pub fn outlines(&self, area: Option<Area>) -> Vec<Vec<Point>> {
        let half =
            |width: &Option<crate::known::Known<Length>>| width.as_ref().map_or(0.0, |width| 0.5 * width.value.in_m());
        if self.kind == YardKind::TruckWay {
            let points: Vec<Point> = self.through.iter().map(point).collect();
            return points.windows(2).map(|pair| strip(pair[0], pair[1], half(&self.width))).collect();
        }
        let Some(middle) = self.at.as_ref().map(point) else { return Vec::new() };
        let count = self.count.as_ref().map_or(1, |count| count.value) as f64;
        let side = 2.0 * half(&self.side);
        match (self.kind, area) {
            (YardKind::Pile | YardKind::Bales, None) => Vec::new(),
            (YardKind::Pile, Some(area)) if self.width.is_none() => {
                let radius = (area.in_m2().max(0.0) / std::f64::consts::PI).sqrt();
                let turn = |corner: u32| std::f64::consts::TAU * f64::from(corner) / f64::from(CORNERS);
                vec![(0..CORNERS).map(|corner| middle + Vec2::from_angle(turn(corner)) * radius).collect()]
            }
            (YardKind::Pile | YardKind::Bales, Some(area)) => {
                let width = self.width.as_ref().map_or(square(area), |width| width.value.in_m());
                vec![rectangle(middle, width, area.in_m2() / width.max(1e-6))]
            }
            (YardKind::Tarps, _) => {
                let cell = side + 2.0 * self.walk_round.as_ref().map_or(0.0, |walk| walk.value.in_m());
                let columns = count.sqrt().ceil();
                vec![rectangle(middle, columns * cell, (count / columns).ceil() * cell)]
            }
            _ => vec![rectangle(middle, count * side, side)],
        }
    }
}

fn rectangle(middle: Point, along_x: f64, along_y: f64) -> Vec<Point> {
    [(-0.5, -0.5), (0.5, -0.5), (0.5, 0.5), (-0.5, 0.5)]
        .map(|(x, y)| middle + Vec2::new(x * along_x, y * along_y))
        .to_vec()
}

fn strip(from: Point, to: Point, half: f64) -> Vec<Point> {
    let across = (to - from).normalize().turn_90() * half;
    vec![from - across, to - across, to + across, from + across]
}

impl House {
    /// The outline of the eave, or of the wall's outer face where there is no roof, in metres.
    #[must_use]
    pub fn eave_outline(&self) -> Vec<Point> {
        let wall = &self.wall;
        let offset = self.roof.as_ref().map_or_else(
            || 0.5 * wall.thicknesses.range()[1],
            |roof| {
                let [thickness, height] = wall.means();
                crate::wall::eave_offset(thickness, wall.batter_outside.value, height, roof.overhang.value).value.in_m()
            },
        );
        wall.line.band(-offset, offset, CHORD).into_iter().next().unwrap_or_default()
    }
}

/// Refuses a yard that does not find room, and a boundary that does not hold the house; what piles cover comes from the rows.
pub fn fits(source: &Source<'_>, build: &Build, house: &House, rows: &Rows) {
    let (corners, eave) = (house.site.corners(), house.eave_outline());
    if let Some(written) = build.site.boundary.as_ref().filter(|_| !polygon::holds(&corners, &eave)) {
        let what = if house.roof.is_some() { "the house with its eaves" } else { "the house" };
        let message = format!("{what} reaches over the boundary");
        let hint = "measure the boundary from the same x and y as the wall's line, or move the house";
        source.fault(written.span.clone(), &written.path, message, hint);
    }
    place::piles_are_used(source, build, &house.bought());
    let placed: Vec<(&Yard, &build::Yard, Vec<Vec<Point>>)> = house
        .site
        .yard
        .iter()
        .filter_map(|thing| {
            let written = build.site.yard.iter().find(|written| written.name.value == thing.name)?;
            Some((thing, written, thing.outlines(rows.value(&thing.path("ground")))))
        })
        .collect();
    for (place, (thing, written, outlines)) in placed.iter().enumerate() {
        let path = format!("site.yard.{}", thing.name);
        let refuse = |message: String, hint: &str| source.fault(written.name.span.clone(), &path, message, hint);
        if outlines.is_empty() && !source.is_faulty(&path) {
            let of = thing.of.as_deref().unwrap_or_default();
            let hint = "write its price: by volume, by mass with a density, or with the ground that one covers";
            refuse(format!("nothing says how much ground the {of} covers"), hint);
        }
        let meets = |other: &[Point]| outlines.iter().any(|own| polygon::meet(own, other));
        if meets(&eave) {
            refuse(format!("`{}` lies under the eaves or in the house", thing.name), "move it away from the house");
        }
        let is_out = |outline: &Vec<Point>| !polygon::holds(&corners, outline);
        if !corners.is_empty() && thing.kind != YardKind::TruckWay && outlines.iter().any(is_out) {
            refuse(format!("`{}` reaches over the boundary", thing.name), "move it inwards, or make it smaller");
        }
        for (other, _, covers) in &placed[..place] {
            if covers.iter().any(|outline| meets(outline)) {
                refuse(format!("`{}` overlaps `{}`", thing.name, other.name), "move one of them, or make it smaller");
            }
        }
    }
}

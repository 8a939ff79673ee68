//! What the site plan shows, placed in metres: the drawing puts it on paper and computes nothing.

use kurbo::{Point, Vec2};

use super::point;
use crate::build::{LineKind, OpeningKind, YardKind};
use crate::curve::Side;
use crate::house::House;
use crate::house::part::{Dimension, Meaning, Outline};
use crate::row::Rows;

/// Chord error of drawn curves, in metres.
const CHORD: f64 = 0.005;

/// What a thing of the site plan is.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum SiteKind {
    /// The boundary of the land.
    Boundary,
    /// The edge of the ground from which topsoil is stripped.
    Strip,
    /// The outer face of the wall at its foot.
    House,
    /// The eave above.
    Eave,
    /// A door.
    Door,
    /// The drain.
    Drain,
    /// Where the drain comes to daylight.
    Outlet,
    /// The crown of a tree.
    Tree,
    /// A well.
    Well,
    /// An overhead line.
    Overhead(LineKind),
    /// A buried service.
    Buried,
    /// Something in the yard.
    Yard(YardKind),
}

/// A thing of the site plan.
#[derive(Clone, Debug, PartialEq)]
pub struct SiteThing {
    /// Its key.
    pub path: String,
    /// What it is called.
    pub name: String,
    /// What it is.
    pub kind: SiteKind,
    /// Where its name belongs.
    pub at: Point,
    /// Its outlines in metres.
    pub outlines: Vec<Outline>,
}

/// The site plan.
#[derive(Clone, Debug, PartialEq)]
pub struct SitePlan {
    /// What it shows, from the ground up.
    pub things: Vec<SiteThing>,
    /// Distances from the house to the boundary and lengths of its sides.
    pub dimensions: Vec<Dimension>,
    /// Unit direction of north.
    pub north: Vec2,
    /// Unit direction in which the ground falls.
    pub fall: Option<Vec2>,
    /// What is not written of the site, a word each.
    pub unknown: Vec<&'static str>,
}

/// The site plan of a house; what piles cover comes from the rows.
#[must_use]
pub fn site_plan(house: &House, rows: &Rows) -> SitePlan {
    let mut things = Vec::new();
    let site = &house.site;
    if !site.boundary.is_empty() {
        let corners = site.corners();
        let at = corners[0];
        things.push(thing("site.boundary", "boundary", SiteKind::Boundary, at, vec![closed(corners)]));
    }
    yard(house, rows, &mut things);
    ways(house, &mut things);
    for tree in &site.trees {
        let (at, radius) = (point(&tree.at), 0.5 * tree.crown.value.in_m());
        let turn = |corner: u32| Vec2::from_angle(std::f64::consts::TAU * f64::from(corner) / 36.0);
        let crown = (0..36).map(|corner| at + turn(corner) * radius).collect();
        things.push(thing(&format!("site.trees.{}", tree.name), &tree.name, SiteKind::Tree, at, vec![closed(crown)]));
    }
    strip(house, &mut things);
    the_house(house, &mut things);
    for (name, at) in &site.wells {
        things.push(thing(&format!("site.wells.{name}"), name, SiteKind::Well, point(at), Vec::new()));
    }
    for line in &site.lines {
        let ends = line.ends.each_ref().map(point);
        let path = format!("site.lines.{}", line.name);
        things.push(along(&path, &line.name, SiteKind::Overhead(line.kind), ends));
    }
    SitePlan {
        things,
        dimensions: dimensions(house),
        north: Vec2::from_angle(house.north.value.in_rad()),
        fall: site.fall.as_ref().map(|(_, down)| Vec2::from_angle(down.value.in_rad())),
        unknown: unknown(house),
    }
}

fn thing(path: &str, name: &str, kind: SiteKind, at: Point, outlines: Vec<Outline>) -> SiteThing {
    SiteThing { path: path.to_owned(), name: name.replace('-', " "), kind, at, outlines }
}

fn closed(points: Vec<Point>) -> Outline {
    Outline::area(points, Meaning::Seen)
}

fn along(path: &str, name: &str, kind: SiteKind, ends: [Point; 2]) -> SiteThing {
    let middle = ends[0].midpoint(ends[1]);
    thing(path, name, kind, middle, vec![Outline::line(ends.to_vec(), Meaning::Seen)])
}

fn yard(house: &House, rows: &Rows, things: &mut Vec<SiteThing>) {
    for one in &house.site.yard {
        let outlines: Vec<Outline> = one.outlines(rows.value(&one.path("ground"))).into_iter().map(closed).collect();
        let way = one.through.get(..2).map(|pair| point(&pair[0]).midpoint(point(&pair[1])));
        let Some(at) = one.at.as_ref().map(point).or(way) else { continue };
        let path = format!("site.yard.{}", one.name);
        things.push(thing(&path, &one.name, SiteKind::Yard(one.kind), at, outlines));
    }
}

fn ways(house: &House, things: &mut Vec<SiteThing>) {
    if let Some(way) = house.drain_way() {
        things.push(along("water.drain", "drain", SiteKind::Drain, way));
        if house.site.outlet.is_some() {
            things.push(thing("site.outlet", "outlet", SiteKind::Outlet, way[1], Vec::new()));
        }
    }
    for (name, ends) in &house.site.buried {
        things.push(along(&format!("site.buried.{name}"), name, SiteKind::Buried, ends.each_ref().map(point)));
    }
}

/// The strip, where its edge does not fold over a hollow.
fn strip(house: &House, things: &mut Vec<SiteThing>) {
    let (line, reach) =
        (&house.wall.line, 0.5 * house.footing_width().value.in_m() + house.site.strip.margin.value.in_m());
    if line.first_fold(reach).is_some() || line.first_crossing(reach).is_some() {
        return;
    }
    let Some(edge) = line.band(-reach, reach, CHORD).into_iter().next() else { return };
    let Some(at) = edge.iter().copied().min_by(|a, b| (a.x + a.y).total_cmp(&(b.x + b.y))) else { return };
    things.push(thing("site.strip-area", "topsoil stripped", SiteKind::Strip, at, vec![closed(edge)]));
}

fn the_house(house: &House, things: &mut Vec<SiteThing>) {
    let shape = house.wall.shape();
    let line = &house.wall.line;
    let mut face = shape.polyline(Side::Outer, [0.0, line.length()], 0.0, CHORD);
    if !line.is_closed() {
        face.extend(shape.polyline(Side::Inner, [0.0, line.length()], 0.0, CHORD).into_iter().rev());
    }
    let at = if line.is_closed() { line.centre() } else { line.at(0.5 * line.length()).point };
    things.push(thing("wall", "house", SiteKind::House, at, vec![closed(face)]));
    if house.roof.is_some() {
        things.push(thing("roof.eave-offset", "eave", SiteKind::Eave, at, vec![closed(house.eave_outline())]));
    }
    for door in house.openings.iter().filter(|opening| opening.kind == OpeningKind::Door) {
        let (middle, half) = (door.station.point, 0.5 * door.width.value.in_m());
        let out = -door.station.axis.turn_90() * (0.5 * house.wall.thickness.value.in_m());
        let ends = [middle + out - door.station.axis * half, middle + out + door.station.axis * half];
        things.push(along(&format!("openings.{}", door.name), &door.name, SiteKind::Door, ends));
    }
}

fn dimensions(house: &House) -> Vec<Dimension> {
    let site = &house.site;
    if site.boundary.is_empty() {
        let half = 0.5 * house.wall.thicknesses.range()[1];
        let (size, _) = house.wall.line.extent(half);
        let corners = [(size.x0, size.y0), (size.x1, size.y0), (size.x1, size.y1)].map(|(x, y)| Point::new(x, y));
        return vec![
            Dimension::between("wall.overall-x", [corners[0], corners[1]], Vec2::new(0.0, -1.0)),
            Dimension::between("wall.overall-y", [corners[1], corners[2]], Vec2::new(1.0, 0.0)),
        ];
    }
    let mut dimensions = Vec::new();
    for corner in 0..site.boundary.len() {
        let side = site.side(corner);
        let Some((apart, nearest)) = house.nearest_to(side) else { continue };
        let way = nearest.beside - nearest.on;
        if way.hypot() > 1e-6 {
            let from = nearest.beside - way.normalize() * apart.in_m();
            let path = format!("site.boundary.{}.to-wall", corner + 1);
            dimensions.push(Dimension::between(&path, [from, nearest.beside], way.normalize().turn_90()));
        }
    }
    let middle = site.corners().iter().fold(Vec2::ZERO, |sum, corner| sum + corner.to_vec2())
        / site.boundary.len().max(1) as f64;
    for corner in 0..site.boundary.len() {
        let side = site.side(corner);
        let across = (side[1] - side[0]).normalize().turn_90();
        let outward = (side[0].midpoint(side[1]).to_vec2() - middle).dot(across).signum();
        dimensions.push(Dimension::between(&format!("site.boundary.{}.side", corner + 1), side, across * outward));
    }
    dimensions
}

fn unknown(house: &House) -> Vec<&'static str> {
    let site = &house.site;
    [
        (site.boundary.is_empty(), "boundary"),
        (site.fall.is_none(), "fall of the ground"),
        (site.trees.is_empty(), "trees"),
        (site.wells.is_empty(), "wells"),
        (site.lines.is_empty(), "overhead lines"),
        (site.buried.is_empty(), "buried services"),
        (site.outlet.is_none() && house.drain.is_some(), "where the drain comes out in plan"),
        (site.yard.is_empty(), "yard"),
    ]
    .into_iter()
    .filter_map(|(is_open, word)| is_open.then_some(word))
    .collect()
}

//! The roof where the cross-section passes through it: its bodies cut by the plane of the section.

use kurbo::{Point, Vec2};

use super::roof;
use crate::house::part::Material;
use crate::house::{House, section_cut, section_tops};
use crate::row::Rows;
use crate::solid::slice;
use crate::units::Length;

/// Less than this between a wall's top and a rafter is packed, in metres.
const PACKED: f64 = 0.01;

/// A first cut of the roof, cut through; metres, x along the cross-section, y up from the foot of the cob.
#[derive(Clone, Debug, PartialEq)]
pub struct RoofCut {
    /// Pieces of the layers that are cut, from the poles up, each layer from left to right.
    pub layers: Vec<LayerCut>,
    /// Outlines of the poles that are cut.
    pub cut: Vec<Vec<Point>>,
    /// Axes of poles beyond the cut, the farthest first, as far as they lie beyond it.
    pub beyond: Vec<[Point; 2]>,
    /// Diameter of the poles.
    pub diameter: Length,
    /// What stays open between a wall's top and the rafters: what bears them there is not in the build.
    pub open: Vec<[Point; 2]>,
}

/// A piece of a layer that is cut.
#[derive(Clone, Debug, PartialEq)]
pub struct LayerCut {
    /// The layer's path.
    pub path: String,
    /// What it is made of, by its place among the layers.
    pub material: Material,
    /// Its underside, from left to right.
    pub under: Vec<Point>,
    /// Its top, from left to right.
    pub over: Vec<Point>,
}

/// The roof of a house in its cross-section; `None` without a roof, or where its rows do not tell enough.
#[must_use]
pub fn roof_cut(house: &House, rows: &Rows) -> Option<RoofCut> {
    let bodies = roof::fine(house, rows)?;
    let plane = section_cut(house);
    let layers = bodies.layers.iter().flat_map(|layer| {
        let pieces = slice(&layer.mesh, plane.origin, plane.along).into_iter().map(|outline| {
            let [under, over] = edges(&outline);
            LayerCut { path: layer.path.clone(), material: layer.material, under, over }
        });
        let mut pieces: Vec<LayerCut> = pieces.collect();
        pieces.sort_by(|a, b| first(&a.under).total_cmp(&first(&b.under)));
        pieces
    });
    let mut beyond: Vec<(f64, [Point; 2])> =
        bodies.poles.iter().filter_map(|pole| beyond(pole.axis, plane.origin, plane.along)).collect();
    if bodies.hides(plane.along.turn_90()) {
        beyond.clear();
    }
    beyond.sort_by(|a, b| b.0.total_cmp(&a.0));
    let beam = rows.value::<Length>("wall.bond-beam.height").map_or(0.0, Length::in_m);
    let open = section_tops(house, &plane).into_iter().filter_map(|top| {
        let foot = top + Vec2::new(0.0, beam);
        let head = bodies.under(plane.origin + plane.along * top.x)?;
        (head - foot.y > PACKED).then_some([foot, Point::new(foot.x, head)])
    });
    Some(RoofCut {
        layers: layers.collect(),
        cut: bodies.poles.iter().flat_map(|pole| slice(&pole.mesh, plane.origin, plane.along)).collect(),
        beyond: beyond.into_iter().map(|(_, axis)| axis).collect(),
        diameter: rows.value("poles.diameter")?,
        open: open.collect(),
    })
}

fn first(points: &[Point]) -> f64 {
    points.first().map_or(0.0, |point| point.x)
}

/// The lower and the upper edge of an outline that goes round counter-clockwise, both from left to right.
fn edges(outline: &[Point]) -> [Vec<Point>; 2] {
    let [left, right] =
        [-1.0, 1.0].map(|way| outline.iter().map(|p| p.x * way).fold(f64::NEG_INFINITY, f64::max) * way);
    let corner = |side: f64, up: f64| {
        let there = outline.iter().enumerate().filter(|(_, point)| (point.x - side).abs() < 1e-9);
        there.max_by(|a, b| (a.1.y * up).total_cmp(&(b.1.y * up))).map_or(0, |(place, _)| place)
    };
    let from_to = |from: usize, to: usize| -> Vec<Point> {
        let count = (to + outline.len() - from) % outline.len();
        outline.iter().cycle().skip(from).take(count + 1).copied().collect()
    };
    let under = from_to(corner(left, -1.0), corner(right, -1.0));
    let mut over = from_to(corner(right, 1.0), corner(left, 1.0));
    over.reverse();
    [under, over]
}

/// What of an axis lies beyond a plane, in the section, and how far off its middle is.
fn beyond(axis: [[f64; 3]; 2], origin: Point, along: Vec2) -> Option<(f64, [Point; 2])> {
    let placed = axis.map(|[x, y, level]| {
        let off = Point::new(x, y) - origin;
        (off.dot(along.turn_90()), Point::new(off.dot(along), level))
    });
    let [(near, from), (far, to)] = placed;
    if near <= 0.0 && far <= 0.0 {
        return None;
    }
    let cut = || from.lerp(to, near / (near - far));
    let ends = [if near < 0.0 { cut() } else { from }, if far < 0.0 { cut() } else { to }];
    Some((near.max(0.0).midpoint(far.max(0.0)), ends))
}

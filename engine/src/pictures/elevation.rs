//! The four elevations: what is seen above the ground, levels, the width of the house, names of openings.

use kurbo::{Point, Rect, Vec2};

use super::{Body, SAMPLE, Shown, View, clip};
use crate::house::part::{Dimension, Level, Material, Meaning, Outline, Part, Place, Section};
use crate::house::{self, House, Opening};
use crate::solid::{across, outline};
use crate::units::Length;
use crate::view::{Body as Faces, Sight, view};

/// Ground drawn on either side of the house, in metres.
const BESIDE: f64 = 0.4;
/// Half the thickness of what closes an opening, in metres.
const PANE: f64 = 1e-3;
/// An opening whose pane takes less of its own area on the picture is seen too much from its side to be named.
const NAMED: f64 = 0.25;

/// An elevation.
#[derive(Clone, Debug)]
pub struct Elevation {
    /// The quarter of the compass from which it is seen.
    pub name: &'static str,
    /// The row of its true bearing.
    pub bearing: String,
    /// What is seen; metres to the right and up from the foot of the cob.
    pub view: View,
    /// The ground, levels, dimensions and names, in the same metres.
    pub section: Section,
}

pub(super) fn elevations(house: &House, all: &[Body]) -> Vec<Elevation> {
    let ground = house.ground.value.in_m();
    let panes: Vec<Body> = house.openings.iter().filter_map(|opening| pane(house, opening)).collect();
    let shown: Vec<&Body> = all.iter().filter(|body| body.levels()[1] > ground).chain(&panes).collect();
    let faces: Vec<&Faces> = shown.iter().map(|body| &body.faces).collect();
    let parts: Vec<Shown> = shown.iter().map(|body| body.shown.clone()).collect();
    let elevations = house::elevations(house).into_iter();
    elevations.map(|side| elevation(house, side, &faces, &parts)).collect()
}

/// A thin pane of an opening's outline in the middle of its wall: what is behind is not drawn.
fn pane(house: &House, opening: &Opening) -> Option<Body> {
    let [inner, outer] = opening.faces(&house.wall);
    let middle = match &opening.frame {
        Some(frame) => outer - frame.set_back.value.in_m() - 0.5 * frame.depth.value.in_m(),
        None => inner.midpoint(outer),
    };
    let edge = outline(opening.cut.form, super::CHORD.in_m());
    let mesh = across(opening.station, &edge, &[], [middle - PANE, middle + PANE]).ok()?;
    Some(Body::new(&format!("openings.{}", opening.name), Material::Opening, &mesh))
}

fn elevation(house: &House, side: house::Elevation, bodies: &[&Faces], parts: &[Shown]) -> Elevation {
    let sight = Sight::from(side.direction.in_rad(), 0.0);
    let ground = house.ground.value.in_m();
    let faces = view(bodies, &sight, SAMPLE).into_iter().filter_map(|face| clip::above(face, ground)).collect();
    let view = View { parts: parts.to_vec(), faces };
    let section = section(house, &sight, &view);
    Elevation { name: side.name, bearing: side.path(), view, section }
}

fn section(house: &House, sight: &Sight, view: &View) -> Section {
    let ground = house.ground.value.in_m();
    let points = view.faces.iter().flat_map(|face| &face.points);
    let [left, right] = points
        .fold([f64::INFINITY, f64::NEG_INFINITY], |[left, right], point| [left.min(point[0]), right.max(point[0])]);
    let line = [left - BESIDE, right + BESIDE].map(|x| Point::new(x, ground)).to_vec();
    let line = Outline::line(line, Meaning::Cut);
    let seen: Vec<(&Opening, Rect)> =
        house.openings.iter().filter_map(|opening| Some((opening, named(opening, sight, view)?))).collect();
    let names = seen
        .iter()
        .map(|(opening, pane)| Place::new(&format!("openings.{}", opening.name), &opening.name, pane.center()));
    Section {
        parts: vec![Part::new("ground.outside", "ground outside", Material::Ground, vec![line])],
        levels: levels(house, &seen),
        dimensions: vec![overall(house, sight, ground)],
        places: names.collect(),
    }
}

/// Where the pane of an opening is seen, when it is seen well enough to be named.
fn named(opening: &Opening, sight: &Sight, view: &View) -> Option<Rect> {
    let out = -opening.station.axis.turn_90();
    if out.x * sight.toward[0] + out.y * sight.toward[1] < NAMED {
        return None;
    }
    let path = format!("openings.{}", opening.name);
    let own = view.faces.iter().filter(|face| {
        let part = &view.parts[face.body];
        part.material == Material::Opening && part.path == path
    });
    let (mut seen, mut area): (Option<Rect>, f64) = (None, 0.0);
    for face in own {
        for point in &face.points {
            let at = Point::new(point[0], point[1]);
            seen = Some(seen.map_or(Rect::from_points(at, at), |seen| seen.union_pt(at)));
        }
        let next = face.points.iter().cycle().skip(1);
        area += face.points.iter().zip(next).map(|(a, b)| 0.5 * (a[0] * b[1] - a[1] * b[0])).sum::<f64>();
    }
    seen.filter(|_| area > NAMED * opening.cut.form.area())
}

/// The width of the house where the cob stands on its stem.
fn overall(house: &House, sight: &Sight, ground: f64) -> Dimension {
    let half = (house.wall.thickness.value * 0.5).in_m();
    let (extent, _) = house.wall.line.extent(half);
    let ends = [[extent.x0, extent.y0, 0.0], [extent.x1, extent.y1, 0.0]].map(|corner| sight.at(corner)[0]);
    let path = if sight.right[0].abs() > 0.5 { "wall.overall-x" } else { "wall.overall-y" };
    let [left, right] = [ends[0].min(ends[1]), ends[0].max(ends[1])];
    Dimension::between(path, [left, right].map(|x| Point::new(x, ground)), Vec2::new(0.0, -1.0))
}

/// Levels of the ground, the floor, the wall, and of the sills and heads that are seen, each level once.
fn levels(house: &House, seen: &[(&Opening, Rect)]) -> Vec<Level> {
    let mut levels = vec![
        Level::new("ground.outside", "ground outside", house.ground.value),
        Level::new("wall.stem", "foot of the cob", Length::ZERO),
        house.wall.top_level(),
    ];
    if house.wall.line.is_closed() {
        levels.push(Level::new("ground.floor", "finished floor", house.floor_level.value));
    }
    for (opening, _) in seen {
        let is_new = |levels: &[Level], at: Length| levels.iter().all(|level| (level.at - at).in_m().abs() > 1e-3);
        let name = opening.name.replace('-', " ");
        for (noun, path, at) in
            [("sill", &opening.bottom.path, opening.bottom.value), ("head", &opening.height.path, opening.head())]
        {
            if is_new(&levels, at) {
                levels.push(Level::new(path, &format!("{noun} of {name}"), at));
            }
        }
    }
    Level::in_order(levels)
}

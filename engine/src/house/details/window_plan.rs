//! A window cut level at half its height: x along the wall, y inwards, so that the outside is below.

use kurbo::{Point, Vec2};

use super::Detail;
use super::across::rectangle;
use crate::curve::{Cut, Side};
use crate::house::layers::Layer;
use crate::house::part::{Dimension, Material, Meaning, Outline, Part, Place, Section};
use crate::house::{House, Opening};

/// How much of the wall is shown beside the jambs, in metres.
const BESIDE: f64 = 0.12;
/// Steps in which a face is drawn.
const STEPS: u32 = 12;

/// The frame of a window on its middle.
struct Level<'a> {
    house: &'a House,
    cut: &'a Cut,
    at: f64,
}

impl Level<'_> {
    /// A face from one distance along the line to another, moved outwards of the cob.
    fn face(&self, side: Side, [from, to]: [f64; 2], out: f64) -> Vec<Point> {
        let (shape, line, station) = (self.house.wall.shape(), &self.house.wall.line, self.cut.station);
        let at = |step: u32| {
            let along = from + (to - from) * f64::from(step) / f64::from(STEPS);
            let way = if side == Side::Outer { -1.0 } else { 1.0 };
            let place = shape.point(side, along, self.at) + line.at(along).axis.turn_90() * (way * out);
            let place = place - station.point;
            Point::new(place.dot(station.axis), place.dot(station.axis.turn_90()))
        };
        (0..=STEPS).map(at).collect()
    }

    fn coats(&self, side: Side, stretches: &[[f64; 2]]) -> Option<(Part, Vec<Place>)> {
        let (coats, path, name) = match side {
            Side::Outer => (&self.house.skin.outside, "skin.outside", "plaster outside"),
            Side::Inner => (&self.house.skin.inside, "skin.inside", "plaster inside"),
        };
        let whole: f64 = coats.iter().map(|coat: &Layer| coat.thickness.value.in_m()).sum();
        let at = *self.face(side, *stretches.last()?, 0.5 * whole).get(STEPS as usize / 2)?;
        let outline = |&stretch: &[f64; 2]| {
            let back = self.face(side, stretch, whole).into_iter().rev();
            Outline::area(self.face(side, stretch, 0.0).into_iter().chain(back).collect(), Meaning::Cut)
        };
        let part = Part::new(path, name, Material::Plaster, stretches.iter().map(outline).collect());
        (!coats.is_empty()).then(|| (part, vec![Place::new(path, "plaster", at)]))
    }
}

/// The window cut half-way up; `None` where a jamb meets no face.
pub(super) fn window_plan(house: &House, window: &Opening) -> Option<Detail> {
    let (shape, line) = (house.wall.shape(), &house.wall.line);
    let at = window.bottom.value.in_m().midpoint(window.head().in_m());
    let level = Level { house, cut: &window.cut, at };
    let [outer, inner] = [Side::Outer, Side::Inner].map(|side| window.cut.stretch(&shape, side, at));
    let (outer, inner) = (outer?, inner?);
    let mut ends = [outer[0].min(inner[0]) - BESIDE, outer[1].max(inner[1]) + BESIDE];
    if !line.is_closed() {
        ends = [ends[0].max(0.0), ends[1].min(line.length())];
    }
    let jambs = window.cut.jambs(at);
    let mut solid = Vec::new();
    for (which, jamb) in jambs.into_iter().enumerate() {
        let [deep, front] = window.cut.jamb_depths(&shape, jamb, at)?;
        let crease = Some(jamb.crease).filter(|crease| (deep..front).contains(crease));
        let depths = [front].into_iter().chain(crease).chain([deep]);
        let reveal = depths.map(|y| Point::new(jamb.at(y), -y));
        let stretch = |face: f64| [ends[which], face];
        let mut points = level.face(Side::Outer, stretch(outer[which]), 0.0);
        points.extend(reveal);
        points.extend(level.face(Side::Inner, stretch(inner[which]), 0.0).into_iter().rev());
        solid.push(Outline::area(points, Meaning::Cut));
    }
    let path = format!("openings.{}", window.name);
    let sill = [(Side::Outer, outer), (Side::Inner, inner)];
    let sill = sill.map(|(side, stretch)| Outline::line(level.face(side, stretch, 0.0), Meaning::Seen));
    let [deep, front] = window.faces(&house.wall);
    let mut parts = vec![
        Part::new(&path, &window.name, Material::Opening, sill.to_vec()),
        Part::new("wall", "cob wall", Material::Cob, solid),
    ];
    let mut places = vec![
        Place::new(&path, "outside", Point::new(0.0, -front - 0.05)),
        Place::new(&path, "inside", Point::new(0.0, -deep + 0.05)),
    ];
    let aside = |y: f64| Point::new(jambs[0].at(y) - 0.5 * BESIDE, -y);
    places.push(Place::new("wall", "cob", aside(deep.midpoint(front))));
    for (side, faces) in [(Side::Outer, outer), (Side::Inner, inner)] {
        if let Some((coats, named)) = level.coats(side, &[[ends[0], faces[0]], [faces[1], ends[1]]]) {
            parts.push(coats);
            places.extend(named);
        }
    }
    if let Some(splay) = &window.splay {
        for (jamb, known) in jambs.into_iter().zip([&splay.left, &splay.right]) {
            let y = jamb.crease.midpoint(deep);
            places.push(Place::new(&known.path, "splay", Point::new(jamb.at(y), -y)));
        }
    }
    let mut dimensions = Vec::new();
    let half = window.cut.form.half_at(at);
    if (half - window.cut.form.half()).abs() < 1e-9 {
        let ends = jambs.map(|jamb| Point::new(jamb.x, -front));
        dimensions.push(Dimension::between(&window.width.path, ends, Vec2::new(0.0, -1.0)));
    }
    frame(window, (at, front), &mut parts, &mut places, &mut dimensions);
    let words = window.name.replace('-', " ");
    Some(Detail {
        name: "window-plan-detail",
        title: format!("The {words}, cut level at half its height; outside below"),
        note: "The wall goes on to either side.".into(),
        section: Section { parts, levels: Vec::new(), dimensions, places },
    })
}

/// Frame, sash and glass at a level, the outer face at a distance outside of the line.
fn frame(
    window: &Opening,
    (at, front): (f64, f64),
    parts: &mut Vec<Part>,
    places: &mut Vec<Place>,
    dimensions: &mut Vec<Dimension>,
) {
    let Some(frame) = &window.frame else { return };
    let from = frame.set_back.value.in_m() - front;
    let span = [from, from + frame.depth.value.in_m()];
    let (half, free) = (window.cut.form.half_at(at), frame.inside.half_at(at));
    let both = |[near, far]: [f64; 2], span: [f64; 2]| {
        [[-far, -near], [near, far]].map(|width| rectangle(width, span, Meaning::Cut)).to_vec()
    };
    let path = window.path("frame");
    let mut members = both([free, half], span);
    members.push(rectangle([-free, free], span, Meaning::Seen));
    parts.push(Part::new(&path, "frame", Material::Timber, members));
    let middle = span[0].midpoint(span[1]);
    places.push(Place::new(&path, "frame", Point::new(-free, span[1])));
    if let Some(glass) = &window.hanging.glass {
        let clear = glass.half_at(at);
        if free - clear > 1e-6 {
            let quarter = 0.25 * (span[1] - span[0]);
            let sash = both([clear, free], [middle - quarter, middle + quarter]);
            parts.push(Part::new(&window.path("sash"), "sash", Material::Timber, sash));
            places.push(Place::new(&window.path("sash"), "sash", Point::new(-clear.midpoint(free), middle)));
        }
        let ends = [-clear, clear].map(|x| Point::new(x, middle));
        let path = window.path("glass-area");
        let line = Outline::line(ends.to_vec(), Meaning::Cut);
        parts.push(Part::new(&path, "glass", Material::Glass, vec![line]));
        places.push(Place::new(&path, "glass", Point::new(-0.3 * clear, middle)));
    }
    let away = Vec2::new(-1.0, 0.0);
    let point = |y: f64| Point::new(free, y);
    dimensions.push(Dimension::between(&frame.set_back.path, [point(-front), point(span[0])], away));
    dimensions.push(Dimension::between(&frame.depth.path, span.map(point), away));
    let ends = [free, half].map(|x| Point::new(x, span[1]));
    dimensions.push(Dimension::between(&frame.width.path, ends, Vec2::new(0.0, 1.0)));
}

//! What is built in, and lintels, in the plan and on the wall unrolled.

use kurbo::{Point, Vec2};

use super::{Anchors, Bench, BuiltIn, Buttress, Mosaic, Shelf, Spot, Surface, What};
use crate::curve::{Cut, Depth, Shape, Side, Station};
use crate::house::part::{Material, Meaning, Outline, Part, Place};
use crate::house::{House, Wall};

/// Chord error of drawn curves, in metres.
const CHORD: f64 = 0.001;
/// Steps in which the curved part of a niche is drawn.
const CURVE_STEPS: u32 = 16;
/// Steps in which the front of a bench is drawn.
const BENCH_STEPS: u32 = 48;

/// What the plan shows of it, cut at a level in metres: parts to be drawn in this order, and names.
pub(in crate::house) fn in_plan(house: &House, at: f64) -> (Vec<Part>, Vec<Place>) {
    let wall = &house.wall;
    let (mut parts, mut places) = (Vec::new(), Vec::new());
    for thing in &house.built_in {
        let path = thing.stem();
        let (material, outlines) = match &thing.what {
            What::Niche(niche) => (Material::Opening, hollow(wall, &niche.cut, at).into_iter().collect()),
            What::Vent(vent) => (Material::Opening, hollow(wall, &vent.cut, at).into_iter().collect()),
            What::Bottles(bottles) => {
                (Material::Opening, bottles.cuts.iter().filter_map(|cut| hollow(wall, cut, at)).collect())
            }
            What::Shelf(shelf) => (Material::Timber, vec![board(shelf, at)]),
            What::Bench(bench) => (Material::Cob, vec![seat(wall, bench, at)]),
            What::Buttress(buttress) => (Material::Cob, pier(wall, buttress, at)),
            What::Service(service) => match service.cob_cut() {
                Some(cut) => (Material::Opening, hollow(wall, cut, at).into_iter().collect()),
                None => continue,
            },
            // A relief has no place, a mosaic no depth; an oven stands in the room.
            What::Relief(_) | What::Mosaic(_) | What::Oven(_) => continue,
        };
        if let Some(middle) = outlines.first().map(middle) {
            places.push(Place::new(&path, &thing.name, middle));
        }
        parts.push(Part::new(&path, &thing.name, material, outlines));
    }
    for anchors in &house.anchors {
        let path = format!("wall.anchors.{}", anchors.name);
        let outlines: Vec<Outline> = anchors.spots.iter().map(|spot| deadman(anchors, spot)).collect();
        if let Some(first) = outlines.first() {
            places.push(Place::new(&path, &format!("deadmen {}", anchors.name), middle(first)));
        }
        parts.push(Part::new(&path, &anchors.name, Material::Timber, outlines));
    }
    for opening in &house.openings {
        let lintel = opening.lintel.as_ref().and_then(|lintel| through(wall, &lintel.cut, lintel.cut.form.bottom()));
        if let Some(points) = lintel {
            let outline = Outline::area(points, Meaning::Hidden);
            parts.push(Part::new(&opening.path("lintel"), "lintel", Material::Timber, vec![outline]));
        }
    }
    if let Some(beam) = &house.bond_beam {
        let (half, middle) = (0.5 * beam.width.value.in_m(), beam.offset.in_m());
        let bands = wall.line.band(middle - half, middle + half, CHORD).into_iter();
        let bands = bands.map(|points| Outline::area(points, Meaning::Hidden)).collect();
        parts.push(Part::new("wall.bond-beam", "bond beam", Material::Timber, bands));
    }
    (parts, places)
}

fn middle(outline: &Outline) -> Point {
    let sum = outline.points.iter().fold(Vec2::ZERO, |sum, point| sum + point.to_vec2());
    (sum / outline.points.len().max(1) as f64).to_point()
}

/// A hollow: white where it is cut, dashed where it lies above or below.
fn hollow(wall: &Wall, cut: &Cut, at: f64) -> Option<Outline> {
    let is_cut = cut.form.bottom() < at && at < cut.form.top();
    let level = if is_cut { at } else { cut.form.widest_above(f64::NEG_INFINITY) };
    let points = match cut.depth {
        Depth::Through { .. } => through(wall, cut, level)?,
        Depth::Into { side, bottom } => {
            let shape = wall.shape();
            let mut points = face(&shape, cut, side, level)?;
            points.extend([1.0, -1.0].map(|end| placed(cut.station, end * cut.form.half_at(level), bottom)));
            points
        }
    };
    Some(Outline::area(points, if is_cut { Meaning::Seen } else { Meaning::Hidden }))
}

/// The outline of a cut through both faces.
fn through(wall: &Wall, cut: &Cut, level: f64) -> Option<Vec<Point>> {
    let shape = wall.shape();
    let mut points = face(&shape, cut, Side::Outer, level)?;
    points.extend(face(&shape, cut, Side::Inner, level)?.into_iter().rev());
    Some(points)
}

fn face(shape: &Shape<'_>, cut: &Cut, side: Side, level: f64) -> Option<Vec<Point>> {
    Some(shape.polyline(side, cut.stretch(shape, side, level)?, level, CHORD))
}

/// A place in the frame of a station: along the line, and to its right.
fn placed(station: Station, along: f64, right: f64) -> Point {
    station.beside(right) + station.axis * along
}

fn board(shelf: &Shelf, at: f64) -> Outline {
    let (Depth::Into { bottom, .. } | Depth::Through { crease: bottom, .. }) = shelf.cut.depth;
    let whole = (shelf.depth.value + shelf.bedded.value).in_m();
    let front = if shelf.side == Side::Inner { bottom - whole } else { bottom + whole };
    let half = shelf.cut.form.half();
    let corners = [(-half, bottom), (half, bottom), (half, front), (-half, front)];
    let points = corners.map(|(along, right)| placed(shelf.cut.station, along, right)).to_vec();
    Outline::area(points, if shelf.cut.form.top() < at { Meaning::Seen } else { Meaning::Hidden })
}

fn seat(wall: &Wall, bench: &Bench, at: f64) -> Outline {
    let body = bench.body(wall);
    let [foot, top] = body.levels;
    let level = top.min(at);
    let back = |along: f64| if level < 0.0 { body.stem } else { wall.shape().offset(body.side, along, level) };
    let [from, to] = bench.stretch;
    let places = (0..=BENCH_STEPS).map(|step| from + (to - from) * f64::from(step) / f64::from(BENCH_STEPS));
    let at_offset = |along: f64, right: f64| {
        let whole = wall.line.length();
        let station = wall.line.at(if wall.line.is_closed() { along.rem_euclid(whole) } else { along });
        placed(station, 0.0, right)
    };
    let front = places.clone().map(|along| at_offset(along, body.front));
    let points = front.chain(places.rev().map(|along| at_offset(along, back(along)))).collect();
    let meaning = match () {
        () if top <= at => Meaning::Seen,
        () if foot < at => Meaning::Cut,
        () => Meaning::Hidden,
    };
    Outline::area(points, meaning)
}

/// A buttress: what is seen at its foot, and what is cut.
pub(super) fn pier(wall: &Wall, buttress: &Buttress, at: f64) -> Vec<Outline> {
    let body = buttress.body(wall);
    let top = body.cut.form.top();
    let outline = |level: f64, meaning: Meaning| {
        let mut points = face(&body.shape, &body.cut, body.side, level.max(0.0))?;
        let half = body.cut.form.half();
        points.extend([half, -half].map(|along| placed(body.cut.station, along, body.front_at(level))));
        Some(Outline::area(points, meaning))
    };
    let foot = outline(body.foot.max(0.0), Meaning::Seen);
    foot.into_iter().chain((at < top).then(|| outline(at, Meaning::Cut)).flatten()).collect()
}

fn deadman(anchors: &Anchors, spot: &Spot) -> Outline {
    let (half, aside) = (0.5 * anchors.length.value.in_m(), 0.5 * anchors.width.value.in_m());
    let middle = anchors.offset.in_m();
    let corners = [(-half, -aside), (half, -aside), (half, aside), (-half, aside)];
    let points = corners.map(|(along, right)| placed(spot.station, along, middle + right)).to_vec();
    Outline::area(points, Meaning::Hidden)
}

/// Something on the wall laid flat: its path, name and material, where its middle lies along the line, its outline about that
/// middle, and how it is drawn.
pub(in crate::house) struct Flat {
    pub(in crate::house) path: String,
    pub(in crate::house) name: String,
    pub(in crate::house) material: Material,
    /// Distance along the line, in metres.
    pub(in crate::house) along: f64,
    /// Metres along and levels, counter-clockwise.
    pub(in crate::house) outline: Vec<[f64; 2]>,
    pub(in crate::house) meaning: Meaning,
}

/// What is built in, as who stands outside would see it with the wall laid flat: dashed on the other face or inside.
pub(in crate::house) fn on_wall(house: &House) -> Vec<Flat> {
    let line = &house.wall.line;
    let of_cut = |path: String, name: &str, material: Material, cut: &Cut, meaning: Meaning| {
        let levels = cut.form.levels(f64::NEG_INFINITY, CURVE_STEPS);
        let right = levels.iter().map(|&level| [cut.form.half_at(level), level]);
        let left = levels.iter().rev().map(|&level| [-cut.form.half_at(level), level]);
        let outline = right.chain(left).collect();
        Flat { path, name: name.into(), material, along: line.along_line(cut.station), outline, meaning }
    };
    let rectangle = |half: f64, foot: f64, top: f64| vec![[-half, foot], [half, foot], [half, top], [-half, top]];
    let on = |side: Side| if side == Side::Outer { Meaning::Seen } else { Meaning::Hidden };
    let mut flats = Vec::new();
    for thing in &house.built_in {
        let BuiltIn { name, what } = thing;
        let path = thing.stem();
        match what {
            What::Niche(niche) => flats.push(of_cut(path, name, Material::Opening, &niche.cut, on(niche.side))),
            What::Shelf(shelf) => flats.push(of_cut(path, name, Material::Timber, &shelf.cut, on(shelf.side))),
            What::Vent(vent) => flats.push(of_cut(path, name, Material::Opening, &vent.cut, Meaning::Seen)),
            What::Bottles(bottles) => {
                let own = |cut| of_cut(path.clone(), name, Material::Opening, cut, Meaning::Seen);
                flats.extend(bottles.cuts.iter().map(own));
            }
            What::Bench(bench) => {
                let [from, to] = bench.stretch;
                let [foot, top] = bench.body(&house.wall).levels;
                let outline = rectangle(0.5 * (to - from), foot, top);
                let (along, meaning) = (from.midpoint(to), on(bench.side));
                flats.push(Flat { path, name: name.clone(), material: Material::Cob, along, outline, meaning });
            }
            What::Buttress(buttress) => {
                let body = buttress.body(&house.wall);
                let outline = rectangle(body.cut.form.half(), body.foot, body.cut.form.top());
                let (along, meaning) = (line.along_line(body.cut.station), on(buttress.side));
                flats.push(Flat { path, name: name.clone(), material: Material::Cob, along, outline, meaning });
            }
            What::Service(service) => {
                flats.extend(
                    service.drawn_cut().map(|(cut, meaning)| of_cut(path, name, Material::Opening, &cut, meaning)),
                );
            }
            What::Mosaic(Mosaic { side, surface: Surface::Rectangle(rectangle), .. }) => {
                flats.push(of_cut(path, name, Material::Stone, &rectangle.cut, on(*side)));
            }
            What::Relief(_) | What::Mosaic(_) | What::Oven(_) => {}
        }
    }
    for anchors in &house.anchors {
        let foot = anchors.foot.in_m();
        let top = foot + anchors.height.value.in_m();
        flats.extend(anchors.spots.iter().map(|spot| Flat {
            path: format!("wall.anchors.{}", anchors.name),
            name: format!("deadmen {}", anchors.name),
            material: Material::Timber,
            along: line.along_line(spot.station),
            outline: rectangle(0.5 * anchors.length.value.in_m(), foot, top),
            meaning: Meaning::Hidden,
        }));
    }
    for opening in &house.openings {
        let lintel = opening.lintel.iter();
        flats.extend(
            lintel.map(|lintel| of_cut(opening.path("lintel"), "lintel", Material::Timber, &lintel.cut, Meaning::Seen)),
        );
    }
    flats
}

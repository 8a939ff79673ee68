//! The site plan: boundary and distances, north and fall, the house under its eave, water, trees, lines, and the yard.

use engine::answers::Answers;
use engine::build::{LineKind, YardKind};
use engine::house::part::Outline;
use engine::house::site::{SiteKind, SiteThing};
use engine::polygon::{bounds, contains};
use kurbo::{Point, Rect, Vec2};

use super::area::inside;
use super::hatch;
use super::labels::Label;
use super::plan::north;
use super::sheet::{LETTERING, Margins, Sheet};
use super::{Scaled, dimension, material};
use crate::paper::{INK, LIME, MOSS, Paper, SLATE, weight};
use crate::svg::{Element, Run};

/// Lettering of the many names of a yard, in millimetres of the em.
const SMALL: f64 = 2.9;
/// How far overhead lines run on beyond what is drawn, in metres.
const BEYOND: f64 = 1.0;
/// Arrows that show how the ground falls.
const ARROWS: usize = 3;

/// The site plan at the largest true scale that fits the paper.
#[must_use]
pub fn site(answers: &Answers, paper: Paper) -> Scaled {
    let plan = &answers.site;
    let extent = extent(&plan.things);
    let margins = Margins { left: 13.0, top: 17.0, right: 13.0, bottom: 12.0 };
    let mut sheet = Sheet::new("Site plan", &[(extent, margins)], paper.room(paper.drawing_mm()), answers.system);
    material::define(&mut sheet);
    define(&mut sheet);
    for thing in &plan.things {
        draw(&mut sheet, thing, extent);
    }
    for dimension in &plan.dimensions {
        let clear = if dimension.path.ends_with(".to-wall") { 0.0 } else { 6.0 };
        dimension::draw(&mut sheet, answers, dimension, clear);
    }
    for thing in &plan.things {
        name(&mut sheet, answers, thing, extent);
    }
    if let Some(down) = plan.fall {
        falls(&mut sheet, answers, down, extent);
    }
    north(&mut sheet, plan.north);
    sheet.finished()
}

/// What is drawn, but for lines that run on beyond it.
fn extent(things: &[SiteThing]) -> Rect {
    let near = things.iter().filter(|thing| !matches!(thing.kind, SiteKind::Overhead(_)));
    bounds(near.flat_map(|thing| {
        let outlines = thing.outlines.iter().flat_map(|outline| outline.points.iter().copied());
        outlines.chain([thing.at])
    }))
}

/// Hatches that differ in black and white: dots are heaps, a grid is tarps, courses are bales, a slant is a way.
fn define(sheet: &mut Sheet) {
    let pattern = |id: &str, size: f64, marks: Vec<Element>| {
        let paper = Element::rectangle([0.0, 0.0], size, size).with("fill", LIME);
        marks.into_iter().fold(hatch::square(id, size).child(paper), Element::child)
    };
    let stroke = |from, to| Element::line(from, to).with("stroke", SLATE).with("stroke-width", weight::THIN);
    let dot = |at| Element::circle(at, 0.22).with("fill", SLATE);
    sheet.define(pattern("heap", 2.2, vec![dot([0.5, 0.5]), dot([1.6, 1.6])]));
    sheet.define(pattern("tarps", 2.4, vec![stroke([0.0, 1.2], [2.4, 1.2]), stroke([1.2, 0.0], [1.2, 2.4])]));
    sheet.define(pattern("bales", 2.0, vec![stroke([0.0, 1.0], [2.0, 1.0]), stroke([0.0, 0.5], [2.0, 0.5])]));
    sheet.define(pattern("way", 3.6, vec![stroke([0.0, 3.6], [3.6, 0.0])]));
}

/// How a thing is drawn: fill, colour and weight of its outline, dashes.
fn look(kind: SiteKind) -> (&'static str, &'static str, f64, Option<&'static str>) {
    match kind {
        SiteKind::Boundary => ("none", INK, weight::CUT, Some("7 1.4 1.2 1.4")),
        SiteKind::Strip => ("none", SLATE, weight::HIDDEN, Some("0.3 1.1")),
        SiteKind::House => ("url(#cob)", INK, weight::CUT, None),
        SiteKind::Eave => ("none", INK, weight::HIDDEN, Some("2 1.2")),
        SiteKind::Door => ("none", LIME, 1.3, None),
        SiteKind::Drain | SiteKind::Outlet => ("none", MOSS, weight::CUT, Some("3 1")),
        SiteKind::Tree | SiteKind::Well => ("none", MOSS, weight::SEEN, None),
        SiteKind::Overhead(LineKind::Power) => ("none", INK, weight::SEEN, Some("5 1 0.4 1 0.4 1")),
        SiteKind::Overhead(LineKind::Telephone) => ("none", INK, weight::HIDDEN, Some("5 1 0.4 1")),
        SiteKind::Buried => ("none", SLATE, weight::SEEN, Some("1.2 1.2")),
        SiteKind::Yard(YardKind::Pile) => ("url(#heap)", INK, weight::HIDDEN, None),
        SiteKind::Yard(YardKind::Tarps) => ("url(#tarps)", INK, weight::HIDDEN, None),
        SiteKind::Yard(YardKind::Bales) => ("url(#bales)", INK, weight::HIDDEN, None),
        SiteKind::Yard(YardKind::TruckWay) => ("url(#way)", SLATE, weight::THIN, None),
        SiteKind::Yard(_) => (LIME, INK, weight::SEEN, None),
    }
}

fn draw(sheet: &mut Sheet, thing: &SiteThing, extent: Rect) {
    let (fill, colour, width, dashes) = look(thing.kind);
    let at = sheet.at(thing.at);
    for outline in &thing.outlines {
        let Some(outline) = clipped(outline, thing.kind, extent) else { continue };
        let points = sheet.points(&outline);
        let run = if outline.closed { Run::Closed(&points) } else { Run::Open(&points) };
        let drawn = Element::path(&[run]).with("fill", if outline.closed { fill } else { "none" });
        let drawn = drawn.with("stroke", colour).with("stroke-width", width).data_path(&thing.path);
        sheet.push(match dashes {
            Some(dashes) => drawn.with("stroke-dasharray", dashes),
            None => drawn,
        });
        let cost = match thing.kind {
            SiteKind::House | SiteKind::Boundary | SiteKind::Overhead(_) => 3.0,
            SiteKind::Yard(_) => 0.6,
            _ => 1.0,
        };
        sheet.avoid(&points, outline.closed, cost);
    }
    let circle = |radius: f64| Element::circle(at, radius).with("stroke", INK).with("stroke-width", weight::SEEN);
    let marks = match thing.kind {
        SiteKind::Tree => vec![circle(0.5).with("fill", INK)],
        SiteKind::Well => vec![circle(1.7).with("fill", LIME), circle(0.6).with("fill", INK)],
        SiteKind::Outlet => vec![circle(1.0).with("fill", LIME)],
        _ => Vec::new(),
    };
    for mark in marks {
        sheet.push(mark.data_path(&thing.path));
    }
}

/// An overhead line ends a little beyond what else is drawn; nothing else is cut.
fn clipped(outline: &Outline, kind: SiteKind, extent: Rect) -> Option<Outline> {
    let (SiteKind::Overhead(_), [from, to]) = (kind, &outline.points[..]) else { return Some(outline.clone()) };
    let room = extent.inflate(BEYOND, BEYOND);
    let shares = inside([from, to].map(|at| [at.x, at.y]), [[room.x0, room.x1], [room.y0, room.y1]])?;
    Some(Outline { points: shares.map(|share| from.lerp(*to, share)).to_vec(), ..outline.clone() })
}

fn name(sheet: &mut Sheet, answers: &Answers, thing: &SiteThing, extent: Rect) {
    let row = |noun: &str| answers.rows.find(&format!("{}.{noun}", thing.path)).map(|row| row.shown(answers.system));
    let mut words = thing.name.clone();
    let mut middle = thing.at;
    match thing.kind {
        SiteKind::Boundary | SiteKind::Eave => return,
        SiteKind::Yard(YardKind::Pile | YardKind::Bales) => {
            words.extend(row("ground").map(|ground| format!("\n{ground}")));
        }
        SiteKind::Overhead(_) => {
            let Some(seen) = thing.outlines.first().and_then(|outline| clipped(outline, thing.kind, extent)) else {
                return;
            };
            middle = seen.points[0].lerp(seen.points[1], 0.3);
            words.extend(row("height").map(|height| format!("\n{height} up")));
        }
        SiteKind::Well => words = format!("well: {words}"),
        _ => {}
    }
    let at = sheet.at(middle);
    let is_area = matches!(thing.kind, SiteKind::House | SiteKind::Yard(_));
    let preferred = if is_area { vec![at] } else { Vec::new() };
    sheet.label(Label { path: thing.path.clone(), preferred, ..Label::beside(at, SMALL, &words) });
}

/// Arrows down the slope where nothing stands, the first with its number.
fn falls(sheet: &mut Sheet, answers: &Answers, down: Vec2, extent: Rect) {
    let way = sheet.direction(down);
    let way = Vec2::new(way[0], way[1]).normalize();
    let Some(row) = answers.rows.find("site.fall.slope") else { return };
    for (place, middle) in clear_places(answers, extent).into_iter().enumerate() {
        let [x, y] = sheet.at(middle);
        let (tip, foot) = (Vec2::new(x, y) + way * 4.5, Vec2::new(x, y) - way * 4.5);
        let point = |at: Vec2| [at.x, at.y];
        sheet.push(Element::line(point(foot), point(tip)).with("stroke", SLATE).with("stroke-width", weight::SEEN));
        let head = [tip, tip - way * 2.4 + way.turn_90() * 0.9, tip - way * 2.4 - way.turn_90() * 0.9].map(point);
        sheet.push(Element::polygon(&head).with("fill", SLATE).data_path("site.fall"));
        sheet.avoid(&[point(foot), point(tip)], false, 4.0);
        if place == 0 {
            let words = format!("falls {}", row.shown(answers.system));
            sheet.label(Label { path: row.path.clone(), ..Label::beside([x, y], LETTERING, &words) });
        }
    }
}

/// Places on the land far from all that is drawn and from each other.
fn clear_places(answers: &Answers, extent: Rect) -> Vec<Point> {
    let things = &answers.site.things;
    let step = extent.width().max(extent.height()) / 30.0;
    let outlines = || things.iter().flat_map(|thing| thing.outlines.iter().map(move |outline| (thing.kind, outline)));
    let mut drawn: Vec<Point> = things.iter().map(|thing| thing.at).collect();
    for (_, outline) in outlines() {
        let next = outline.points.iter().skip(1).chain(outline.points.first().filter(|_| outline.closed));
        for (from, to) in outline.points.iter().zip(next) {
            let count = (from.distance(*to) / step).ceil().max(1.0);
            drawn.extend((0..count as u32).map(|part| from.lerp(*to, f64::from(part) / count)));
        }
    }
    let is_free = |place: Point| {
        outlines()
            .filter(|(_, outline)| outline.closed)
            .all(|(kind, outline)| contains(&outline.points, place) == (kind == SiteKind::Boundary))
    };
    let (columns, rows) = ((extent.width() / step) as u32, (extent.height() / step) as u32);
    let grid = (1..columns).flat_map(|column| (1..rows).map(move |row| (column, row)));
    let mut places: Vec<(f64, Point)> = grid
        .map(|(column, row)| Point::new(extent.x0 + step * f64::from(column), extent.y0 + step * f64::from(row)))
        .filter(|place| is_free(*place))
        .map(|place| (drawn.iter().map(|point| point.distance_squared(place)).fold(f64::INFINITY, f64::min), place))
        .collect();
    places.sort_by(|a, b| b.0.total_cmp(&a.0));
    let mut chosen: Vec<Point> = Vec::new();
    for (_, place) in places {
        if chosen.len() < ARROWS && chosen.iter().all(|other| other.distance(place) > 8.0 * step) {
            chosen.push(place);
        }
    }
    chosen
}

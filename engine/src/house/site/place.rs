//! Places what is written of the site, and refuses a boundary that does not hold the house.

use std::ops::Range;

use kurbo::Point;

use super::{Line, PlanPoint, SUBSOIL, Site, TOPSOIL, Tree, Yard, ground, point};
use crate::build::{self, Build, Source, Written, YardKind};
use crate::house::place::{known, nearest, within};
use crate::house::{Drain, Trench, Wall};
use crate::known::{Known, Origin};
use crate::solve::{crossing, polygon};
use crate::units::{Length, System};

/// Farther than this from the corner of the plan nothing is drawn beside a small house.
const FAR: Range<Length> = Length::m(-500.0)..Length::m(500.0);

/// The site of a build file.
pub(in crate::house) fn place(
    source: &Source<'_>,
    build: &Build,
    wall: &Wall,
    (trench, drain): (Option<&Trench>, Option<&Drain>),
    system: System,
) -> Site {
    let written = &build.site;
    let at = |spot: &Option<Written<build::PlanPoint>>| spot_of(source, spot.as_ref(), system);
    let ends = |from: &_, to: &_| Some([at(from)?, at(to)?]);
    let boundary = boundary(source, build, system);
    let slopes = crate::units::Slope::ratio(0.0)..crate::units::Slope::ratio(1.0);
    let fall = written.fall.as_ref().and_then(|fall| {
        let slope = within(source, fall.slope.as_ref(), slopes, "a fall of ground that one builds on", system)?;
        Some((slope, known(fall.down.as_ref())?))
    });
    let crowns = Length::ZERO..Length::m(60.0);
    let heights = Length::m(1.0)..Length::m(100.0);
    let lines = written.lines.iter().filter_map(|line| {
        let height = within(source, line.height.as_ref(), heights.clone(), "the height of an overhead line", system);
        let name = line.name.value.clone();
        Some(Line { name, kind: line.kind.as_ref()?.value, ends: ends(&line.from, &line.to)?, height: height? })
    });
    let trees = written.trees.iter().filter_map(|tree| {
        let crown = within(source, tree.crown.as_ref(), crowns.clone(), "the diameter of a crown", system);
        Some(Tree { name: tree.name.value.clone(), at: at(&tree.at)?, crown: crown? })
    });
    let wells = written.wells.iter().filter_map(|well| Some((well.name.value.clone(), at(&well.at)?)));
    let buried = written.buried.iter().filter_map(|one| Some((one.name.value.clone(), ends(&one.from, &one.to)?)));
    Site {
        fall,
        strip: ground::strip(source, build, (wall, trench), system),
        outlet: outlet(source, build, (trench, drain), &boundary, system),
        trees: trees.collect(),
        wells: wells.collect(),
        lines: lines.collect(),
        buried: buried.collect(),
        yard: written.yard.iter().filter_map(|thing| yard(source, thing, system)).collect(),
        boundary,
    }
}

fn spot_of(source: &Source<'_>, spot: Option<&Written<build::PlanPoint>>, system: System) -> Option<PlanPoint> {
    let [x, y] = &spot?.value;
    let near = |axis: &Written<Length>| within(source, Some(axis), FAR, "a place near a small house", system);
    Some([near(x)?, near(y)?])
}

fn boundary(source: &Source<'_>, build: &Build, system: System) -> Vec<PlanPoint> {
    let Some(written) = &build.site.boundary else { return Vec::new() };
    let near = |axis: &Written<Length>| within(source, Some(axis), FAR, "a place near a small house", system);
    let corners: Vec<PlanPoint> = written.value.iter().filter_map(|[x, y]| Some([near(x)?, near(y)?])).collect();
    let points: Vec<Point> = corners.iter().map(point).collect();
    let refuse = |message: String, hint: &str| {
        source.fault(written.span.clone(), &written.path, message, hint);
        Vec::new()
    };
    if corners.len() < written.value.len() {
        return Vec::new();
    }
    if corners.len() < 3 {
        return refuse("a boundary has at least three corners".to_owned(), "write every corner in turn");
    }
    let same = points.iter().zip(points.iter().cycle().skip(1)).position(|(a, b)| a.distance(*b) < 1e-3);
    if let Some(place) = same {
        let message = format!("corner {} of the boundary lies on the next", place + 1);
        return refuse(message, "write each corner once; the last joins the first by itself");
    }
    if let Some((a, b)) = crossing::first_crossing(&points) {
        let message =
            format!("the boundary crosses itself: the side from corner {} and that from corner {}", a + 1, b + 1);
        return refuse(message, "write the corners in the order in which one walks them");
    }
    if polygon::area(&points) < 1.0 {
        return refuse(
            "the boundary encloses nothing".to_owned(),
            "write the corners in the order in which one walks them",
        );
    }
    corners
}

/// Where the drain comes to daylight: within its length, and on one's own land.
fn outlet(
    source: &Source<'_>,
    build: &Build,
    (trench, drain): (Option<&Trench>, Option<&Drain>),
    boundary: &[PlanPoint],
    system: System,
) -> Option<PlanPoint> {
    let written = build.site.outlet.as_ref()?;
    let outlet = spot_of(source, Some(written), system)?;
    let refuse = |message: &str, hint: &str| source.fault(written.span.clone(), &written.path, message, hint);
    let (Some(trench), Some(drain)) = (trench, drain) else {
        if !source.is_faulty("water") {
            refuse("no drain leads there", "write [water.trench] and [water.drain], or leave the outlet out");
        }
        return None;
    };
    let way = point(&outlet).distance(trench.outlet.point) - 0.5 * trench.width.value.in_m();
    if way > drain.length.value.in_m() + 1e-6 {
        refuse("the drain is too short to reach it", "write a longer water.drain.length, or move the outlet nearer");
    }
    let corners: Vec<Point> = boundary.iter().map(point).collect();
    if !corners.is_empty() && !polygon::contains(&corners, point(&outlet)) {
        refuse("the drain comes out beyond the boundary", "lead water out on your own land");
    }
    Some(outlet)
}

fn yard(source: &Source<'_>, written: &build::Yard, system: System) -> Option<Yard> {
    let (name, kind) = (written.name.value.clone(), written.kind.as_ref()?.value);
    let path = |noun: &str| format!("site.yard.{name}.{noun}");
    let lengths = |from: f64, to: f64| Length::m(from)..Length::m(to);
    let judged =
        |side: f64, noun: &str, why: &'static str| Known::assumed(Length::m(side), path(noun), Origin::Judgement, why);
    let usual = |side: f64, noun: &str, why: &'static str| {
        Known::assumed(Length::m(side), path(noun), Origin::CommonPractice, why)
    };
    let side = within(source, written.side.as_ref(), lengths(0.3, 30.0), "the side of a thing in a yard", system);
    let side = match kind {
        YardKind::Pile | YardKind::Bales | YardKind::TruckWay => None,
        YardKind::Tarps => Some(side.unwrap_or_else(|| usual(3.0, "side", "a tarp on which two or three tread"))),
        YardKind::Muster => Some(side.unwrap_or_else(|| judged(3.0, "side", "room for all to stand and be counted"))),
        YardKind::Toilets => Some(side.unwrap_or_else(|| judged(1.2, "side", "a cabin"))),
        _ => Some(side.unwrap_or_else(|| judged(1.5, "side", "room for one thing and a person before it"))),
    };
    let width = within(source, written.width.as_ref(), lengths(0.5, 30.0), "a width in a yard", system);
    let width = match kind {
        YardKind::TruckWay => {
            Some(width.unwrap_or_else(|| usual(3.5, "width", "a truck that drives straight needs 3.5 m")))
        }
        _ => width,
    };
    let walk = within(source, written.walk_round.as_ref(), lengths(0.0, 10.0), "room to walk round a tarp", system);
    let walk_round = (kind == YardKind::Tarps)
        .then(|| walk.unwrap_or_else(|| usual(1.0, "walk-round", "one carries buckets round a tarp from all sides")));
    let count = written.count.as_ref().and_then(|count| {
        if !(1..=100).contains(&count.value) {
            let message = format!("{} of them stand in no yard", count.value);
            source.fault(count.span.clone(), &count.path, message, "write a whole number from 1 to 100");
            return None;
        }
        known(Some(count))
    });
    let count = match kind {
        YardKind::Toilets => {
            Some(count.unwrap_or_else(|| Known::assumed(1, path("count"), Origin::Judgement, "one is written")))
        }
        YardKind::Tarps => Some(count?),
        _ => None,
    };
    let through: Option<Vec<PlanPoint>> = written.through.as_ref().map_or(Some(Vec::new()), |through| {
        let near = |axis: &Written<Length>| within(source, Some(axis), FAR, "a place near a small house", system);
        through.value.iter().map(|[x, y]| Some([near(x)?, near(y)?])).collect()
    });
    let (through, is_way) = (through?, kind == YardKind::TruckWay);
    let is_short = through.len() < 2 || through.windows(2).any(|pair| point(&pair[0]).distance(point(&pair[1])) < 0.01);
    if let Some(at) = written.through.as_ref().filter(|_| is_way && is_short) {
        source.fault(at.span.clone(), &at.path, "a way leads through two places at least", "write one after the other");
    }
    let at = spot_of(source, written.at.as_ref(), system);
    let of = match kind {
        YardKind::Bales => Some(written.of.as_ref().map_or_else(|| "straw".to_owned(), |of| of.value.clone())),
        _ => written.of.as_ref().map(|of| of.value.clone()),
    };
    let is_whole = if is_way { !is_short } else { at.is_some() };
    is_whole.then_some(Yard { name, kind, at, of, count, side, walk_round, width, through })
}

/// Refuses a pile of what nobody uses.
pub(super) fn piles_are_used(source: &Source<'_>, build: &Build, used: &[String]) {
    let piled = build.site.yard.iter().filter_map(|thing| thing.of.as_ref());
    for of in piled.filter(|of| !used.contains(&of.value) && ![TOPSOIL, SUBSOIL].contains(&of.value.as_str())) {
        let names = used.iter().map(String::as_str).chain([TOPSOIL, SUBSOIL]);
        let message = format!("nothing in the build uses \"{}\"", of.value);
        source.fault(of.span.clone(), &of.path, message, nearest(names, &of.value));
    }
}

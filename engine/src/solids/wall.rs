//! Bodies of the cob, lift by lift.

use super::built_in::deadmen;
use super::{Making, Named};
use crate::curve::{Along, Body, Cut, PlanLine};
use crate::house::{House, Opening};
use crate::solid::{Band, Cuboid, Fault, Mesh};

/// How near the top passes a level, and the shortest stretch, in metres.
const PASSES: f64 = 1e-6;
/// By how much openings that touch each other are drawn smaller on each side, in metres.
const APART: f64 = 5e-4;

pub(super) fn make(made: &mut Making<'_>) {
    let house = made.house;
    let wall = &house.wall;
    let levels: Vec<f64> = wall.lifts.iter().map(|lift| lift.top.value.in_m()).collect();
    let body = Body::new(wall.shape(), &wall.top, &levels);
    let cuts = cuts(house);
    let mut below = 0.0;
    for (lift, &level) in wall.lifts.iter().zip(&levels) {
        let anchors = house.anchors.iter().filter(|anchors| anchors.lift == lift.name);
        let boxes: Vec<Cuboid> = anchors.flat_map(deadmen).collect();
        let foot = Along::even(below);
        let band = Band {
            shape: body.shape,
            foot: &foot,
            top: &body.capped(level, made.chord),
            stretch: None,
            cuts: &cuts,
            boxes: &boxes,
            knots: body.knots(),
            chord: made.chord,
        };
        let mesh = match laid(&body, level, &band) {
            // A lintel may lie against the head or the jamb of the opening beside it: no body has an edge of four faces.
            Err(Fault::Tangled | Fault::CutsMeet(..)) => {
                let smaller: Vec<Cut> = cuts.iter().map(less).collect();
                laid(&body, level, &Band { cuts: &smaller, ..band })
            }
            mesh => mesh,
        };
        let named = Named {
            lift: Some(lift.name.clone()),
            day: Some(lift.start.value),
            ..Named::new(format!("lift {}", lift.name), "cob")
        };
        made.keep(format!("wall.lifts.{}", lift.name), named, &lift.path("volume"), mesh);
        below = level;
    }
}

fn laid(body: &Body<'_>, level: f64, band: &Band<'_>) -> Result<Mesh, Fault> {
    match band.mesh() {
        Err(Fault::MeetsSlope(_)) => in_stretches(body, level, band),
        mesh => mesh,
    }
}

/// A cut a hair smaller than it is.
fn less(cut: &Cut) -> Cut {
    Cut { form: cut.form.less(APART).unwrap_or(cut.form), ..*cut }
}

/// The cob in one piece, where it can be made so; otherwise lift by lift.
pub(super) fn whole(made: &mut Making<'_>) {
    let house = made.house;
    let wall = &house.wall;
    let body = Body::new(wall.shape(), &wall.top, &[]);
    let top = body.capped(wall.top_level().at.in_m(), made.chord);
    let band = Band {
        shape: body.shape,
        foot: &Along::even(0.0),
        top: &top,
        stretch: None,
        cuts: &cuts(house),
        boxes: &[],
        knots: body.knots(),
        chord: made.chord,
    };
    match band.mesh() {
        Ok(mesh) => made.keep("wall".into(), Named::new("cob wall", "cob"), "wall.volume", Ok(mesh)),
        Err(_) => make(made),
    }
}

/// All that is cut out of the cob.
fn cuts(house: &House) -> Vec<Cut> {
    let built_in = house.built_in.iter().flat_map(|thing| thing.cuts()).copied();
    house.openings.iter().map(Opening::whole_cut).chain(built_in).collect()
}

/// The same lift in stretches, each of them under the top of the wall or under the level bed above: a cut may cross the one
/// where it is level, though elsewhere the wall is lower.
fn in_stretches(body: &Body<'_>, level: f64, whole: &Band<'_>) -> Result<Mesh, Fault> {
    let line = body.shape.line;
    let at = |along: f64| body.top.at(line, along);
    let mut ends: Vec<f64> = body.knots().iter().copied().filter(|&along| (at(along) - level).abs() < PASSES).collect();
    if line.is_closed() {
        ends.extend(ends.first().map(|first| first + line.length()));
    } else {
        ends.insert(0, 0.0);
        ends.push(line.length());
    }
    let bed = Along::even(level);
    let stretches = ends.windows(2).filter(|pair| pair[1] - pair[0] > PASSES);
    stretches.map(|pair| [pair[0], pair[1]]).try_fold(Mesh::default(), |mesh, [from, to]| {
        let is_level = at(from.midpoint(to)) >= level;
        let cuts: Vec<Cut> = whole.cuts.iter().filter(|cut| lies(line, cut, [from, to])).copied().collect();
        let top = if is_level { &bed } else { whole.top };
        match (Band { stretch: Some([from, to]), top, cuts: &cuts, ..*whole }).mesh() {
            Ok(part) => Ok(mesh.with(&part)),
            Err(Fault::Nowhere) => Ok(mesh),
            Err(fault) => Err(fault),
        }
    })
}

/// Whether the middle of a cut lies on a stretch of the line.
fn lies(line: &PlanLine, cut: &Cut, [from, to]: [f64; 2]) -> bool {
    let along = line.along_line(cut.station);
    [along, along + line.length()].iter().any(|along| (from..to).contains(along))
}

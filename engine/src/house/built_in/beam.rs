//! Places the bond beam on the wall and divides it into pieces, run by run and corner by corner.

use super::site::Site;
use crate::build::{self, Written};
use crate::curve::{Bend, PlanLine};
use crate::house::place::known;
use crate::house::{Point, Wall};
use crate::known::{Known, Origin};
use crate::units::Length;
use crate::wall;

/// Most layers and most bolts that are no slip of the pen.
const MOST: u64 = 12;

/// A timber on the top of the wall, all round.
#[derive(Clone, Debug)]
pub struct BondBeam {
    /// Width.
    pub width: Known<Length>,
    /// Height, all layers together.
    pub height: Known<Length>,
    /// Planks that lie on each other.
    pub layers: Known<u64>,
    /// The longest timber as it comes.
    pub piece: Known<Length>,
    /// Length of the lap from one piece to the next.
    pub scarf: Known<Length>,
    /// How far a straight piece may leave the curve.
    pub fit: Known<Length>,
    /// Bolts through each scarf.
    pub bolts: Known<u64>,
    /// From one pair of level shims to the next.
    pub shim_spacing: Known<Length>,
    /// What is bought.
    pub of: String,
    /// How far outside of the wall line its middle lies.
    pub offset: Length,
    /// Its parts over the runs and corners of the line, in their order.
    pub stretches: Vec<Stretch>,
}

/// A part of the bond beam over one run or one corner, cut into equal pieces.
#[derive(Clone, Debug)]
pub struct Stretch {
    /// Its name: the run's, or the point's with `-corner` after it.
    pub name: String,
    /// The run that it lies on, or that its corner leads into.
    pub run: usize,
    /// How it goes.
    pub way: Lie,
    /// From where to where along the line it lies, in metres.
    pub along: [f64; 2],
    /// Pieces in one layer.
    pub pieces: u64,
}

/// How a part of the bond beam goes.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Lie {
    /// Straight on.
    Straight,
    /// Along an arc; 1 where it turns to the left, -1 where it turns to the right.
    Arc(f64),
    /// Round a corner, with the same sign.
    Corner(f64),
    /// Along a cubic curve, as tight everywhere as where it is tightest.
    Curve {
        /// The least radius of the wall line, in metres.
        least_radius: f64,
        /// Angle by which it turns, in radians, positive to the left.
        turning: f64,
    },
}

impl Stretch {
    /// The path of one of its rows.
    #[must_use]
    pub fn path(&self, noun: &str) -> String {
        format!("wall.bond-beam.runs.{}.{noun}", self.name)
    }
}

impl BondBeam {
    /// What the bolts through its scarfs are bought as.
    pub const BOLT: &'static str = "beam-bolt";
    /// What the level shims under it are bought as.
    pub const SHIM: &'static str = "beam-shim";
}

pub(super) fn place(site: &Site<'_>, written: &build::BondBeam) -> Option<BondBeam> {
    let size = |written: &Option<Written<Length>>, what: &str| site.size(written.as_ref(), what);
    let width = size(&written.width, "the width of a bond beam");
    let height = size(&written.height, "the height of a bond beam");
    let layers = count(site, &written.layers, "layers", "layers of a bond beam", 1, "a beam of one timber")?;
    let bolts = count(site, &written.bolts, "bolts", "bolts through a scarf", 2, "two keep a scarf from turning")?;
    let (width, height) = (width?, height?);
    let path = |key: &str| format!("wall.bond-beam.{key}");
    let piece = match &written.piece {
        Some(_) => size(&written.piece, "the length of a timber")?,
        None => {
            let why = "what two people lift to the top of a wall";
            Known::assumed(Length::m(3.0), path("piece"), Origin::Judgement, why)
        }
    };
    let scarf = match &written.scarf {
        Some(_) => size(&written.scarf, "the length of a scarf")?,
        None => {
            let why = "a scarf is about four times as long as the timber is high";
            let length = 4.0 * height.value / layers.value as f64;
            Known::assumed(length, path("scarf"), Origin::CommonPractice, why)
                .following(height.path.as_str())
                .following(layers.path.as_str())
        }
    };
    let fit = match &written.fit {
        Some(_) => {
            let what = "how far a piece may leave a curve";
            site.within(written.fit.as_ref(), Length::mm(1.0)..Length::mm(300.0), what)?
        }
        None => {
            let why = "plaster and the trimmed top hide so much";
            Known::assumed(Length::mm(20.0), path("fit"), Origin::Judgement, why)
        }
    };
    let shim_spacing = match &written.shim_spacing {
        Some(_) => size(&written.shim_spacing, "a distance between shims")?,
        None => {
            let why = "a beam is levelled on shims before cob is packed under it";
            Known::assumed(Length::mm(600.0), path("shim-spacing"), Origin::Judgement, why)
        }
    };
    if piece.value < 2.0 * scarf.value {
        let message = format!(
            "a timber of {} with scarfs of {} would be all scarf",
            site.shown(piece.value),
            site.shown(scarf.value)
        );
        let at = written.piece.as_ref().or(written.scarf.as_ref()).or(written.height.as_ref())?;
        let hint = "write a longer `piece`, a shorter `scarf`, or more `layers`";
        site.source.fault(at.span.clone(), &at.path, message, hint);
        return None;
    }
    let (inside, outside) = (site.wall.batter_inside.value, site.wall.batter_outside.value);
    let offset = wall::plate_offset(inside, outside, site.wall.means()[1]).value;
    let of = written.of.as_ref().map_or_else(|| "bond-beam".to_owned(), |of| of.value.clone());
    let stretches = stretches(site.wall, offset, [piece.value, scarf.value, fit.value]);
    let beam = BondBeam { width, height, layers, piece, scarf, fit, bolts, shim_spacing, of, offset, stretches };
    lies_on_the_wall(site, written, &beam).then_some(beam)
}

fn count(
    site: &Site<'_>,
    written: &Option<Written<u64>>,
    key: &str,
    what: &str,
    usual: u64,
    why: &'static str,
) -> Option<Known<u64>> {
    let Some(written) = written else {
        return Some(Known::assumed(usual, format!("wall.bond-beam.{key}"), Origin::CommonPractice, why));
    };
    if !(1..=MOST).contains(&written.value) {
        let message = format!("{} is not a number of {what}", written.value);
        let hint = format!("write a number from 1 to {MOST}");
        site.source.fault(written.span.clone(), &written.path, message, hint);
        return None;
    }
    known(Some(written))
}

/// Refuses a beam that is wider than the top of the wall, or whose straight pieces would stand out over its faces.
fn lies_on_the_wall(site: &Site<'_>, written: &build::BondBeam, beam: &BondBeam) -> bool {
    let top = site.wall.least_top_thickness();
    let Some(at) = &written.width else { return false };
    if beam.width.value > top {
        let message = format!(
            "the bond beam would be {} wide, the wall's top is {} thick",
            site.shown(beam.width.value),
            site.shown(top)
        );
        site.source.fault(at.span.clone(), &at.path, message, "make the beam narrower, or the wall thicker");
        return false;
    }
    let is_bent = beam.stretches.iter().any(|stretch| stretch.way != Lie::Straight);
    let room = 0.5 * (top - beam.width.value);
    if is_bent && beam.fit.value > room {
        let message = format!(
            "straight pieces that leave the curve by {} would stand out over the wall, which has {} beside the beam",
            site.shown(beam.fit.value),
            site.shown(room)
        );
        let at = written.fit.as_ref().unwrap_or(at);
        let hint = format!("write a `fit` of at most {}, or make the beam narrower", site.shown(room));
        site.source.fault(at.span.clone(), &at.path, message, hint);
        return false;
    }
    true
}

/// The parts of a beam over the runs and corners of the line.
fn stretches(wall: &Wall, offset: Length, [piece, scarf, fit]: [Length; 3]) -> Vec<Stretch> {
    let line = &wall.line;
    let mut found: Vec<Stretch> = Vec::new();
    for index in 0..line.pieces().len() {
        let (run, is_corner) = (line.owner(index), line.is_corner(index));
        let along = [line.start(index), line.start(index) + line.pieces()[index].length()];
        let point = &wall.points[run];
        let name = if is_corner { format!("{}-corner", point.name) } else { point.name.clone() };
        match found.last_mut() {
            // A cubic curve is laid out in many arcs.
            Some(last) if last.name == name => last.along[1] = along[1],
            _ => found.push(Stretch { way: way(wall, line, index, point), name, run, along, pieces: 1 }),
        }
    }
    for stretch in &mut found {
        let on_line = Length::m(stretch.along[1] - stretch.along[0]);
        stretch.pieces = match stretch.way {
            Lie::Straight => wall::straight_pieces(on_line, piece, scarf).value,
            way => {
                let [length, radius] = measured(way, on_line, offset, line, stretch.along[0]);
                wall::curved_pieces(length, radius, piece, scarf, fit).value
            }
        };
    }
    found
}

/// Length and radius of the middle of the beam over a bent part of the line.
fn measured(way: Lie, on_line: Length, offset: Length, line: &PlanLine, start: f64) -> [Length; 2] {
    match way {
        Lie::Straight => [on_line, Length::ZERO],
        Lie::Arc(sign) | Lie::Corner(sign) => {
            let curvature = line.pieces()[line.at(start + 0.5 * on_line.in_m()).piece].curvature().abs();
            let radius = wall::beam_radius(Length::m(1.0 / curvature), offset, sign).value;
            [on_line * (radius.in_m() * curvature), radius]
        }
        Lie::Curve { least_radius, turning } => {
            [on_line + turning * offset, wall::beam_radius(Length::m(least_radius), offset, turning.signum()).value]
        }
    }
}

fn way(wall: &Wall, line: &PlanLine, index: usize, point: &Point) -> Lie {
    let piece = &line.pieces()[index];
    let sign = piece.curvature().signum();
    let run = line.owner(index);
    match piece.bend {
        _ if line.is_corner(index) => Lie::Corner(sign),
        _ if point.curve.is_some() => {
            let of_run = (0..line.pieces().len()).filter(|&other| line.owner(other) == run && !line.is_corner(other));
            let turning = of_run.map(|other| line.pieces()[other].turning()).sum();
            let least_radius = wall.least_radius(run).map_or(f64::INFINITY, Length::in_m);
            Lie::Curve { least_radius, turning }
        }
        Bend::Arc { .. } => Lie::Arc(sign),
        Bend::Straight => Lie::Straight,
    }
}

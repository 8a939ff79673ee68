//! Places the bond beam on the wall.

use super::beam_parts::{BeamPart, Lie, Stretch, parts, stretches};
use super::site::Site;
use crate::build::{self, Written};
use crate::house::place::{known, shown};
use crate::house::roof_wood::{self, Bolt};
use crate::known::{Known, Origin};
use crate::timber;
use crate::units::{Length, Pressure};
use crate::wall::{self, Timber};

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
    /// One of them.
    pub bolt: Bolt,
    /// From one pair of level shims to the next.
    pub shim_spacing: Known<Length>,
    /// Modulus of elasticity of the earth beneath, where it is soft and where it is stiff.
    pub earth: [Known<Pressure>; 2],
    /// What is bought.
    pub of: String,
    /// How far outside of the wall line its middle lies.
    pub offset: Length,
    /// Its stretches over the runs and corners of the line, in their order.
    pub stretches: Vec<Stretch>,
    /// The parts that are divided into pieces, each over one stretch or over several that are too short.
    pub parts: Vec<BeamPart>,
}

impl BondBeam {
    /// What the bolts through its scarfs are bought as.
    pub const BOLT: &'static str = "beam-bolt";
    /// What the level shims under it are bought as.
    pub const SHIM: &'static str = "beam-shim";

    /// What bounds its pieces.
    #[must_use]
    pub fn timber(&self) -> Timber {
        Timber {
            width: self.width.value,
            piece: self.piece.value,
            scarf: self.scarf.value,
            fit: self.fit.value,
            layers: self.layers.value,
        }
    }
}

pub(super) fn place(site: &Site<'_>, written: &build::BondBeam) -> Option<BondBeam> {
    let size = |written: &Option<Written<Length>>, what: &str| site.size(written.as_ref(), what);
    let width = size(&written.width, "the width of a bond beam");
    let height = size(&written.height, "the height of a bond beam");
    let layers = count(site, &written.layers, "layers", "layers of a bond beam", 1, "a beam of one timber")?;
    let bolts = count(site, &written.bolts, "bolts", "bolts through a scarf", 2, "two keep a scarf from turning")?;
    let bolt = bolt(site, written)?;
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
    let earth = [earth(site, &written.soft_earth, "soft")?, earth(site, &written.stiff_earth, "stiff")?];
    if let Some(at) = written.soft_earth.as_ref().or(written.stiff_earth.as_ref())
        && earth[0].value > earth[1].value
    {
        let [soft, stiff] = [&earth[0], &earth[1]].map(|earth| shown(earth.value, site.system));
        let message = format!("the soft earth under the bond beam, {soft}, is stiffer than the stiff one, {stiff}");
        site.source.fault(at.span.clone(), &at.path, message, "write both, the softer as `soft-earth`");
        return None;
    }
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
    let stretches = stretches(site.wall, offset);
    let mut beam = BondBeam {
        width,
        height,
        layers,
        piece,
        scarf,
        fit,
        bolts,
        bolt,
        shim_spacing,
        earth,
        of,
        offset,
        stretches,
        parts: Vec::new(),
    };
    if !lies_on_the_wall(site, written, &beam) {
        return None;
    }
    match parts(&beam.stretches, beam.timber(), site.wall.line.is_closed()) {
        Ok(parts) => beam.parts = parts,
        Err(over) => {
            cannot_be_divided(site, written, &beam, &over);
            return None;
        }
    }
    Some(beam)
}

/// A bolt through a scarf.
fn bolt(site: &Site<'_>, written: &build::BondBeam) -> Option<Bolt> {
    let path = |key: &str| format!("wall.bond-beam.{key}");
    let usual = |size: f64, key: &str, why| Known::assumed(Length::mm(size), path(key), Origin::CommonPractice, why);
    let diameter = match &written.bolt {
        Some(_) => site.within(written.bolt.as_ref(), roof_wood::bolts(), "the diameter of a bolt")?,
        None => usual(12.0, "bolt", "planks of two inches are bolted with M12"),
    };
    let washer = match &written.washer {
        Some(_) => site.within(written.washer.as_ref(), roof_wood::washers(), "the side of a washer")?,
        None => usual(50.0, "washer", "a square plate under head and nut"),
    };
    let blamed = written.washer.as_ref().or(written.bolt.as_ref());
    let sizes = (washer.value, diameter.value);
    roof_wood::covers(site.source, (blamed, "[wall.bond-beam]"), sizes, site.system)
        .then_some(Bolt { diameter, washer })
}

/// How stiff the earth under the beam is: what is written, else what such earth may have.
fn earth(site: &Site<'_>, written: &Option<Written<Pressure>>, noun: &str) -> Option<Known<Pressure>> {
    if written.is_some() {
        let range = Pressure::mpa(1.0)..Pressure::mpa(20_000.0);
        return site.within(written.as_ref(), range, "the modulus of elasticity of an earth wall");
    }
    let (origin, why) = match noun {
        "soft" => (Origin::Judgement, "a cob wall that has not dried through"),
        _ => (Origin::Memory, "dry cob walls in tests, and stiffer ones"),
    };
    let modulus = Pressure::mpa(timber::beam::fact(&format!("earth-{noun}-mpa"))?);
    Some(Known::assumed(modulus, format!("wall.bond-beam.{noun}-earth"), origin, why))
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

/// Refuses a part that no pieces fit.
fn cannot_be_divided(site: &Site<'_>, written: &build::BondBeam, beam: &BondBeam, over: &str) {
    let timber = beam.timber();
    let message = format!(
        "no pieces of the bond beam fit over {over}: joints are at least {} apart, a piece is at most {} long with its scarf, \
         a straight one leaves the curve by at most {}",
        site.shown(timber.joints_apart()),
        site.shown(timber.piece),
        site.shown(timber.fit)
    );
    let hint = "write a shorter `scarf`, or more `layers` that are thinner, a longer `piece` or a larger `fit`; or round the \
                corner more";
    let Some(at) = written.scarf.as_ref().or(written.height.as_ref()) else { return };
    site.source.fault(at.span.clone(), &at.path, message, hint);
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

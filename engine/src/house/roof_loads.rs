//! The loads of the place and the soil of a roof with nothing missing but what only the building office can say.

use super::place::{nearest, within};
use super::roof_layers::{Layer, Weight};
use super::roof_wood::Code;
use crate::build::{self, Source, Written};
use crate::known::{Known, Origin};
use crate::loads::tables::fact;
use crate::units::{Angle, Density, Force, Length, LineLoad, Mass, Pressure, Quantity, Ratio, Speed, System, Volume};

/// Loads of the place.
#[derive(Clone, Debug)]
pub struct SiteLoads {
    /// Snow on the ground; none where nobody asked.
    pub snow: Option<Known<Pressure>>,
    /// Speed of the wind by which the code counts, and the ground over which it comes; none where nobody asked.
    pub wind: Option<(Known<Speed>, Ground)>,
    /// People for repair.
    pub imposed: Known<Pressure>,
    /// Crew and heaps while the layers are placed.
    pub placing: Known<Pressure>,
}

/// Terrain or exposure, by the word of the code.
pub type Ground = &'static str;

/// The soil on a roof.
#[derive(Clone, Debug)]
pub struct RoofSoil {
    /// Which of the layers it is.
    pub layer: usize,
    /// How much deeper it may lie than drawn.
    pub too_deep: Known<Ratio>,
    /// What it weighs soaked.
    pub soaked: Soaked,
    /// Angle of friction on what it lies on.
    pub friction: Known<Angle>,
    /// Height of the edge board over the sheet.
    pub board: Known<Length>,
    /// Battens across the slope: from one to the next, and what each metre holds back.
    pub battens: Option<(Known<Length>, Known<LineLoad>)>,
}

/// How one knows what soaked soil weighs.
#[derive(Clone, Debug)]
pub enum Soaked {
    /// Its density is written or assumed.
    Density(Known<Density>),
    /// A bucket was weighed: full, empty, and what it holds.
    Bucket(Known<Mass>, Known<Mass>, Known<Volume>),
}

fn of_a_table<T: Copy + Into<Quantity>>(name: &str, path: &str, unit: fn(f64) -> T, why: &'static str) -> Known<T> {
    let (number, origin) =
        fact(name).map_or((f64::NAN, Origin::Judgement), |fact| (fact.number, fact.citation.standing.into()));
    Known::assumed(unit(number), path, origin, why)
}

/// What holds an end of a rafter down.
#[derive(Clone, Debug)]
pub struct Tie {
    /// The pull that it holds.
    pub holds: Known<Force>,
    /// How that is known.
    pub by: String,
}

pub(super) fn tie(source: &Source<'_>, written: &build::RoofTie, system: System) -> Option<Tie> {
    let pulls = Force::n(10.0)..Force::kn(100.0);
    let holds = within(source, written.holds.as_ref(), pulls, "the pull that a tie of a rafter holds", system)?;
    if let Some(by) = written.holds_by.as_ref().filter(|by| by.value.trim().is_empty()) {
        let hint = "write who says so, such as \"two of them pulled on site\"";
        source.fault(by.span.clone(), &by.path, "this says nothing of how it is known what a tie holds", hint);
        return None;
    }
    Some(Tie { holds, by: written.holds_by.as_ref()?.value.clone() })
}

/// Feet of poles that lie on their plate, held down by their straps alone.
#[derive(Clone, Debug)]
pub struct SlidingFeet {
    /// Angle of friction of a foot on its plate.
    pub friction: Known<Angle>,
    /// Angle of friction of the bond beam on the wall.
    pub under_beam: Known<Angle>,
}

pub(super) fn feet(source: &Source<'_>, written: &build::RoofFeet, system: System) -> Option<SlidingFeet> {
    let angles = Angle::deg(1.0)..Angle::deg(60.0);
    let friction =
        within(source, written.friction.as_ref(), angles.clone(), "an angle of friction of wood on wood", system)?;
    let under_beam = match &written.under_beam {
        Some(_) => {
            within(source, written.under_beam.as_ref(), angles, "an angle of friction of a beam on a wall", system)?
        }
        None => {
            let why = "a beam packed up with cob on the rough top of a dry wall";
            let degrees = crate::timber::beam::fact("friction-under-beam-deg")?;
            Known::assumed(Angle::deg(degrees), "roof.feet.under-beam", Origin::Judgement, why)
        }
    };
    Some(SlidingFeet { friction, under_beam })
}

pub(super) fn site(source: &Source<'_>, written: &build::SiteLoads, code: Code, system: System) -> SiteLoads {
    let pressure = |written: &Option<Written<Pressure>>, most: f64, what: &str| {
        within(source, written.as_ref(), Pressure::ZERO..Pressure::kpa(most), what, system)
    };
    let speeds = Speed::m_s(5.0)..Speed::m_s(120.0);
    let wind = within(source, written.wind.as_ref(), speeds, "the speed of a wind that a code counts with", system);
    let ground = match code {
        Code::En => &written.terrain,
        Code::Asce => &written.exposure,
    };
    if let (Some(_), None) = (&wind, ground)
        && let Some(at) = &written.wind
    {
        let hint = match code {
            Code::En => "write terrain = \"0\" to \"4\" beside it, as EN 1991-1-4 has them",
            Code::Asce => "write exposure = \"b\", \"c\" or \"d\" beside it, as ASCE 7 has them",
        };
        source.fault(at.span.clone(), &at.path, "nothing says over what ground that wind comes", hint);
    }
    let [imposed, placing] = match code {
        Code::En => [
            of_a_table(
                "roof-live-en-pa",
                "site.loads.imposed",
                Pressure::pa,
                "EN 1991-1-1, a roof walked on for repair alone",
            ),
            of_a_table("placing-en-pa", "site.loads.placing", Pressure::pa, "EN 1991-1-6, people with hand tools"),
        ],
        Code::Asce => [
            of_a_table(
                "roof-live-asce-psf",
                "site.loads.imposed",
                Pressure::psf,
                "ASCE 7, a roof where nobody goes but for repair",
            ),
            of_a_table("placing-asce-psf", "site.loads.placing", Pressure::psf, "ASCE 37, light duty"),
        ],
    };
    SiteLoads {
        snow: pressure(&written.snow, 20.0, "snow on the ground"),
        wind: wind.zip(ground.as_ref().map(|ground| ground.value)),
        imposed: pressure(&written.imposed, 10.0, "the load of people on a roof").unwrap_or(imposed),
        placing: pressure(&written.placing, 10.0, "the load of a crew on a roof").unwrap_or(placing),
    }
}

/// The soil of a roof; nothing where a fault was told, `Some(None)` on a roof without layers.
pub(super) fn soil(
    source: &Source<'_>,
    written: &build::RoofSoil,
    layers: &[Layer],
    system: System,
) -> Option<Option<RoofSoil>> {
    let layer = match &written.layer {
        None => layers.len().checked_sub(1),
        Some(name) => {
            let found = layers.iter().position(|layer| layer.name == name.value);
            if found.is_none() {
                let hint = nearest(layers.iter().map(|layer| layer.name.as_str()), &name.value);
                source.fault(name.span.clone(), &name.path, format!("the roof has no layer \"{}\"", name.value), hint);
                return None;
            }
            found
        }
    };
    let Some(layer) = layer.filter(|&layer| matches!(layers[layer].weight, Weight::Thick(..))) else {
        return Some(None);
    };
    let ratio = Ratio::ZERO..Ratio::percent(200.0);
    let angles = Angle::deg(1.0)..Angle::deg(60.0);
    let boards = Length::mm(10.0)..Length::m(1.0);
    let too_deep = within(source, written.too_deep.as_ref(), ratio, "how much too deep soil may lie", system);
    let friction = within(source, written.friction.as_ref(), angles, "an angle of friction", system);
    let board = within(source, written.board.as_ref(), boards, "the height of an edge board", system);
    let spacings = Length::mm(100.0)..Length::m(5.0);
    let battens = match &written.battens {
        None => None,
        Some(battens) => Some((
            within(source, battens.spacing.as_ref(), spacings, "a spacing of battens", system)?,
            within(
                source,
                battens.holds.as_ref(),
                LineLoad::n_m(1.0)..LineLoad::kn_m(50.0),
                "what a metre of a batten holds back",
                system,
            )?,
        )),
    };
    Some(Some(RoofSoil {
        layer,
        too_deep: too_deep.unwrap_or_else(|| {
            of_a_table(
                "over-depth-ratio",
                "roof.soil.too-deep",
                Ratio::fraction,
                "soil is spread by hand, and topped up later",
            )
        }),
        soaked: soaked(source, written, system)?,
        friction: friction.unwrap_or_else(|| {
            let why = "wet soil on a smooth sheet; tilt a board with both until it slides";
            of_a_table("soil-membrane-low-deg", "roof.soil.friction", Angle::deg, why)
        }),
        board: board.unwrap_or_else(|| {
            let why =
                "an edge board that holds soil and drain layer; water stands behind it when the outlet is blocked";
            Known::assumed(Length::mm(150.0), "roof.soil.board", Origin::Judgement, why)
        }),
        battens,
    }))
}

fn soaked(source: &Source<'_>, written: &build::RoofSoil, system: System) -> Option<Soaked> {
    let densities = Density::kg_m3(300.0)..Density::kg_m3(2600.0);
    if let (Some(at), Some(_)) = (&written.soaked, &written.bucket) {
        let message = "the soaked soil is weighed in a bucket and written as a density";
        source.fault(at.span.clone(), &at.path, message, "leave one of the two out");
        return None;
    }
    let Some(bucket) = &written.bucket else {
        let density = within(source, written.soaked.as_ref(), densities, "the density of soaked soil", system);
        return Some(Soaked::Density(density.unwrap_or_else(|| {
            let why = "wet soil of a roof; soak a bucket of yours, let it drip, weigh it";
            of_a_table("soaked-soil-high-kg-m3", "roof.soil.soaked", Density::kg_m3, why)
        })));
    };
    let masses = Mass::kg(0.05)..Mass::kg(200.0);
    let full = within(source, bucket.full.as_ref(), masses.clone(), "the mass of a full bucket", system)?;
    let empty = within(source, bucket.empty.as_ref(), masses, "the mass of an empty bucket", system)?;
    let volumes = Volume::litres(1.0)..Volume::litres(100.0);
    let holds = within(source, bucket.holds.as_ref(), volumes, "what a bucket holds", system)?;
    let found = crate::roof::soaked_density(full.value, empty.value, holds.value).value;
    if !densities.contains(&found)
        && let Some(at) = &bucket.full
    {
        let message = format!("that bucket makes soaked soil of {}", super::place::shown(found, system));
        source.fault(at.span.clone(), &at.path, message, "weigh again, full and empty, and measure what it holds");
        return None;
    }
    Some(Soaked::Bucket(full, empty, holds))
}

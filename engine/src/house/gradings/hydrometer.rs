//! Readings of a hydrometer with nothing missing: what each says of the grains still afloat; readings that cannot be are refused.

use super::super::place::{nearest, shown, within};
use super::Sieve;
use crate::build::{self, Source, Written};
use crate::earth::soil::{self, Curve};
use crate::earth::tables::{self, Water, number};
use crate::known::{Known, Origin};
use crate::units::{Days, Density, Length, Mass, Ratio, System, Temperature};

/// The finest part of a soil, read as it settles in a litre of water.
#[derive(Clone, Debug)]
pub struct Hydrometer {
    /// Dry soil in the litre.
    pub dry: Known<Mass>,
    /// What it reads in clear water with the same salt, at 20 °C.
    pub blank: Known<f64>,
    /// What the brim of water at the stem hides of its scale, where it is known.
    pub meniscus: Option<Known<f64>>,
    /// How far a reading may be off.
    pub off: Known<f64>,
    /// Density of the grains.
    pub grain: Known<Density>,
    /// How warm the water was.
    pub water: Known<Temperature>,
    /// What passes the sieve that the soil was put through; none where all of it was in the water.
    pub through: Option<Known<Ratio>>,
    /// The readings, the last first: the finest grain first.
    pub readings: Vec<Reading>,
}

/// What one reading says.
#[derive(Clone, Debug)]
pub struct Reading {
    /// Its name.
    pub name: String,
    /// Time since the water was still.
    pub after: Known<Days>,
    /// What the scale read.
    pub reading: Known<f64>,
    /// How warm the water was, where it is its own.
    pub water: Option<Known<Temperature>>,
    /// The reading of soil alone.
    pub corrected: f64,
    /// The largest grain still afloat.
    pub size: Length,
    /// Share of the whole soil that is finer, as it reads.
    pub read: Ratio,
    /// The same in the curve.
    pub finer: Ratio,
    /// The row of the point beside it whose share it is taken for, where it lies on the wrong side of that by less than it may be off.
    pub beside: Option<String>,
}

impl Hydrometer {
    /// How warm the water of a reading was.
    #[must_use]
    pub fn water_of<'a>(&'a self, reading: &'a Reading) -> &'a Known<Temperature> {
        reading.water.as_ref().unwrap_or(&self.water)
    }

    /// Share of the soil that was in the water.
    #[must_use]
    pub fn share_through(&self) -> Ratio {
        self.through.as_ref().map_or(Ratio::fraction(1.0), |through| through.value)
    }
}

/// The readings of a grading; nothing where a fault was told.
pub(super) fn place(
    source: &Source<'_>,
    written: &build::Hydrometer,
    (name, sieves, error): (&Written<String>, &[Sieve], Ratio),
    system: System,
) -> Option<Hydrometer> {
    let through = match &written.through {
        None => None,
        Some(through) => Some(named(source, through, sieves)?),
    };
    let path = |noun: &str| format!("{}.hydrometer.{noun}", name.path);
    let is_coarse =
        |sieve: &Sieve| sieve.size.value >= Length::m(number("sand-m")) && sieve.passing.value < Ratio::fraction(1.0);
    if through.is_none() && sieves.iter().any(is_coarse) && !source.is_faulty(&name.path) {
        let message = "what went through a sieve was read with a hydrometer, and nothing says through which";
        source.fault(name.span.clone(), &path("through"), message, "write `through`, the name of that sieve");
    }
    let masses = Mass::g(5.0)..Mass::g(200.0);
    let dry = within(source, written.dry.as_ref(), masses, "the dry soil in a litre for a hydrometer", system);
    let blank = within(source, written.blank.as_ref(), -5.0..20.0, "what a hydrometer reads in clear water", system);
    let what = "what the brim of water hides of a hydrometer's scale";
    let meniscus = within(source, written.meniscus.as_ref(), 0.0..5.0, what, system);
    let off = within(source, written.off.as_ref(), 0.05..10.0, "how far a hydrometer's reading may be off", system);
    let densities = Density::kg_m3(2000.0)..Density::kg_m3(3500.0);
    let grain = within(source, written.grain.as_ref(), densities, "the density of grains of soil", system);
    let water = warmth(source, written.water.as_ref(), system);
    if written.readings.is_empty() && !source.is_faulty(&path("readings")) {
        let hint = "write readings = { a = { after = \"1 min\", reading = 35 } }, and more of them";
        source.fault(name.span.clone(), &path("readings"), "nothing says what the hydrometer read", hint);
    }
    let mut found = Hydrometer {
        dry: dry?,
        blank: blank?,
        meniscus,
        off: off.unwrap_or_else(|| {
            let why = "a scale of whole divisions, read in a cloud of soil";
            Known::assumed(number("hydrometer-off"), path("off"), Origin::Judgement, why)
        }),
        grain: grain.unwrap_or_else(|| {
            let why = "the density of quartz, the usual mineral of sand and silt";
            Known::assumed(Density::kg_m3(number("grain-kg-m3")), path("grain"), Origin::Memory, why)
        }),
        water: water?,
        through,
        readings: Vec::new(),
    };
    let read: Vec<Option<Reading>> =
        written.readings.iter().map(|written| reading(source, written, &found, system)).collect();
    found.readings = read.into_iter().collect::<Option<Vec<Reading>>>()?;
    found.readings.sort_by(|one, other| other.after.value.in_days().total_cmp(&one.after.value.in_days()));
    hold(&mut found, (sieves, error), &path("readings"));
    can_be(source, written, &found, system).then_some(found)
}

fn named(source: &Source<'_>, through: &Written<String>, sieves: &[Sieve]) -> Option<Known<Ratio>> {
    let found = sieves.iter().find(|sieve| sieve.name == through.value);
    if found.is_none() {
        let hint = nearest(sieves.iter().map(|sieve| sieve.name.as_str()), &through.value);
        let message = format!("there is no sieve \"{}\" in this grading", through.value);
        source.fault(through.span.clone(), &through.path, message, hint);
    }
    found.map(|sieve| sieve.passing.clone())
}

/// Water that the standard's table has.
fn warmth(source: &Source<'_>, written: Option<&Written<Temperature>>, system: System) -> Option<Known<Temperature>> {
    let what = "a warmth of water that a hydrometer's standard has";
    within(source, written, Temperature::celsius(15.0)..Temperature::celsius(30.000_1), what, system)
}

fn reading(
    source: &Source<'_>,
    written: &build::HydrometerReading,
    of: &Hydrometer,
    system: System,
) -> Option<Reading> {
    let times = Days::minutes(0.1)..Days::days(10.0);
    let after = within(source, written.after.as_ref(), times, "the time of a hydrometer's reading", system);
    let read = within(source, written.reading.as_ref(), -5.0..80.0, "what a hydrometer reads", system);
    let own = match &written.water {
        None => None,
        Some(water) => Some(warmth(source, Some(water), system)?),
    };
    let (after, read) = (after?, read?);
    let Water { viscosity, density, correction, .. } =
        tables::hydrometer_water(own.as_ref().unwrap_or(&of.water).value)?;
    let corrected = soil::corrected(read.value, of.blank.value, correction).value;
    let at_the_scale = of.meniscus.as_ref().map_or(corrected, |meniscus| read.value + meniscus.value);
    let depth = soil::depth_of_reading(at_the_scale).value;
    let constant = soil::constant(viscosity, of.grain.value, density).value;
    let finer = soil::finer_of_whole(corrected, of.grain.value, of.dry.value, of.share_through()).value;
    Some(Reading {
        name: written.name.value.clone(),
        size: soil::grain(constant, depth, after.value).value,
        read: finer,
        finer,
        beside: None,
        after,
        reading: read,
        water: own,
        corrected,
    })
}

/// How far two readings may lie apart by what each may be off, as a share of what is finer by so much of the whole soil.
pub(super) fn off(found: &Hydrometer, finer: Ratio) -> Ratio {
    let Hydrometer { off, grain, dry, .. } = found;
    soil::off_by_reading(off.value, grain.value, dry.value, found.share_through(), finer).value
}

/// Share of the whole soil that a grading's error is of: what its sieves say, else the least that it can be by what is finer.
fn under_2_mm(found: &Hydrometer, sieves: &[Sieve]) -> f64 {
    let size = Length::m(number("sand-m"));
    let points = sieves.iter().map(|sieve| soil::Sieve { size: sieve.size.value, passing: sieve.passing.value });
    let curve = Curve::through(&points.clone().collect::<Vec<_>>()).ok();
    let share = curve.and_then(|curve| curve.finer_than(size)).unwrap_or_else(|| {
        let finer = points.filter(|sieve| sieve.size <= size).map(|sieve| sieve.passing);
        let afloat = found.readings.iter().filter(|reading| reading.size <= size).map(|reading| reading.read);
        finer.chain(afloat).fold(Ratio::ZERO, Ratio::max)
    });
    share.in_fraction()
}

/// Takes a reading for the point beside it where it lies above a coarser one by less than it may be off, or above or under a sieve by less
/// than that or the grading may: `error` is of what is under 2 mm.
fn hold(found: &mut Hydrometer, (sieves, error): (&[Sieve], Ratio), path: &str) {
    let off = off(found, Ratio::fraction(1.0));
    let of_sieve = off.max(error * under_2_mm(found, sieves));
    for place in (0..found.readings.len()).rev() {
        let own = &found.readings[place];
        let point = |sieve: &Sieve| (sieve.passing.value, sieve.passing.path.clone(), of_sieve);
        let coarser = sieves.iter().filter(|sieve| sieve.size.value > own.size).map(point);
        let before = found.readings[place + 1..].iter().filter(|other| other.size > own.size);
        let before = before.map(|other| (other.finer, format!("{path}.{}.finer", other.name), off));
        let finer = sieves.iter().filter(|sieve| sieve.size.value < own.size).map(point);
        let above = coarser.chain(before).filter(|(share, ..)| own.read > *share);
        let above = above.reduce(|one, other| if other.0 < one.0 { other } else { one });
        let under = finer.filter(|(share, ..)| own.read < *share);
        let under = under.reduce(|one, other| if other.0 > one.0 { other } else { one });
        let held = above.or(under).filter(|(share, _, off)| (own.read - *share).max(*share - own.read) <= *off);
        if let Some((share, beside, _)) = held {
            found.readings[place].finer = share;
            found.readings[place].beside = Some(beside);
        }
    }
}

/// Whether readings fall as time goes on and say shares; a fault otherwise.
fn can_be(source: &Source<'_>, written: &build::Hydrometer, found: &Hydrometer, system: System) -> bool {
    let at = |reading: &Reading| {
        let own = written.readings.iter().find(|written| written.name.value == reading.name)?;
        own.reading.as_ref()
    };
    let mut is_right = true;
    let mut fault = |reading: &Reading, message: String, hint: &str| {
        is_right = false;
        if let Some(at) = at(reading) {
            source.fault(at.span.clone(), &at.path, message, hint);
        }
    };
    for reading in &found.readings {
        let alone = reading.read / found.share_through();
        if !(0.0..=1.0).contains(&alone) {
            let message = format!(
                "{} with {} in clear water says that {:.0} % of the soil is afloat",
                reading.reading.value,
                found.blank.value,
                100.0 * alone
            );
            fault(
                reading,
                message,
                "weigh the dry soil again, and read the blank in the same water with the same salt",
            );
        }
    }
    for pair in found.readings.windows(2) {
        let [late, early] = [&pair[0], &pair[1]];
        let [after, before] = [late, early].map(|reading| shown(reading.after.value, system));
        if late.after.value == early.after.value {
            fault(late, format!("two readings were made after {after}"), "write one reading for one time");
        } else if late.read - early.finer > off(found, Ratio::fraction(1.0)) {
            let [high, low] = [late, early].map(|reading| reading.corrected);
            let message = format!("corrected, {high:.2} after {after} is more than {low:.2} after {before}");
            let hint = "what has sunk does not rise again: read it anew, or write how warm the water was by then";
            fault(late, message, hint);
        }
    }
    is_right
}

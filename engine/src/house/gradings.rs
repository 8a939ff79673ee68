//! Gradings with nothing missing: sieves that make a curve, or shares that add up, and how far they may be off.

mod hydrometer;

pub use hydrometer::{Hydrometer, Reading as HydrometerReading};

use jiff::civil::Date;

use super::earth::{Earth, percent};
use super::jars::ingredient_named;
use super::place::{known, shown, within};
use crate::build::{self, Build, SEPARATES, Source, Written};
use crate::earth::soil::{Curve, CurveFault};
use crate::earth::{soil, tables::number};
use crate::known::{Known, Origin};
use crate::units::{Length, Ratio, System};

/// The sizes of the grains of an ingredient.
#[derive(Clone, Debug)]
pub struct Grading {
    /// Its name.
    pub name: String,
    /// The ingredient that was sieved.
    pub of: String,
    /// The day of the test.
    pub day: Option<Known<Date>>,
    /// How far sand, silt and clay may be off.
    pub error: Known<Ratio>,
    /// What was found.
    pub found: Found,
}

/// What a grading says.
#[derive(Clone, Debug)]
pub enum Found {
    /// What passes each sieve.
    Sieves(Box<Sieved>),
    /// Sand, silt and clay.
    Shares(Box<[Known<Ratio>; 3]>),
}

/// What passes each sieve, and what is afloat in water.
#[derive(Clone, Debug)]
pub struct Sieved {
    /// The sieves, the finest first.
    pub sieves: Vec<Sieve>,
    /// The largest grain.
    pub largest: Known<Length>,
    /// The finest part, by a hydrometer.
    pub hydrometer: Option<Hydrometer>,
}

/// A place of the curve: a sieve, or a reading of a hydrometer.
#[derive(Clone, Debug)]
pub struct GradingPoint {
    /// What it is called.
    pub name: String,
    /// Size of the grain, and its row.
    pub size: (Length, String),
    /// Share of the dry mass that is finer, and its row.
    pub passing: (Ratio, String),
}

/// What passes one sieve.
#[derive(Clone, Debug)]
pub struct Sieve {
    /// Its name.
    pub name: String,
    /// Its opening.
    pub size: Known<Length>,
    /// Share of the dry mass that is finer.
    pub passing: Known<Ratio>,
}

impl Grading {
    /// Its key.
    #[must_use]
    pub fn path(&self, noun: &str) -> String {
        format!("{}.{noun}", self.stem())
    }

    /// What all its keys begin with.
    #[must_use]
    pub fn stem(&self) -> String {
        format!("tests.gradings.{}", self.name)
    }

    /// Whether it reaches from clay to stones.
    #[must_use]
    pub fn says_clay(&self) -> bool {
        match &self.found {
            Found::Shares(_) => true,
            Found::Sieves(sieved) => {
                let points = sieved.points(&self.stem());
                let [finest, coarsest] = ["clay-m", "sand-m"].map(|fact| Length::m(number(fact)));
                let reaches = points.first().is_some_and(|point| point.size.0 <= finest);
                let all = Ratio::fraction(1.0);
                reaches && points.last().is_some_and(|last| last.size.0 >= coarsest || last.passing.0 >= all)
            }
        }
    }
}

impl Sieved {
    /// The places of its curve, the finest first, of a grading whose keys begin so.
    #[must_use]
    pub fn points(&self, stem: &str) -> Vec<GradingPoint> {
        let of_sieves = self.sieves.iter().map(|sieve| GradingPoint {
            name: sieve.name.clone(),
            size: (sieve.size.value, sieve.size.path.clone()),
            passing: (sieve.passing.value, sieve.passing.path.clone()),
        });
        let readings = self.hydrometer.iter().flat_map(|hydrometer| &hydrometer.readings);
        let of_readings = readings.map(|reading| {
            let path = |noun: &str| format!("{stem}.hydrometer.readings.{}.{noun}", reading.name);
            GradingPoint {
                name: format!("reading {}", reading.name),
                size: (reading.size, path("size")),
                passing: (reading.finer, path("finer")),
            }
        });
        let mut points: Vec<GradingPoint> = of_readings.chain(of_sieves).collect();
        points.sort_by(|one, other| one.size.0.in_m().total_cmp(&other.size.0.in_m()));
        points
    }

    /// How far two readings of its hydrometer may lie apart, as a share of what is under 2 mm; none where it has none or its curve does not
    /// reach as far.
    fn off(&self, stem: &str) -> Option<Ratio> {
        let points =
            self.points(stem).into_iter().map(|point| soil::Sieve { size: point.size.0, passing: point.passing.0 });
        let curve = Curve::through(&points.collect::<Vec<_>>()).ok()?;
        Some(hydrometer::off(self.hydrometer.as_ref()?, curve.finer_than(Length::m(number("sand-m")))?))
    }
}

/// The gradings of a build file.
pub(super) fn place(source: &Source<'_>, build: &Build, earth: Option<&Earth>, system: System) -> Vec<Grading> {
    build.gradings.iter().filter_map(|written| grading(source, written, earth, system)).collect()
}

fn grading(source: &Source<'_>, written: &build::Grading, earth: Option<&Earth>, system: System) -> Option<Grading> {
    let name = &written.name;
    let of = written.of.as_ref().and_then(|of| ingredient_named(source, of, earth));
    let what = "how far the shares of a grading may be off";
    let error = within(source, written.error.as_ref(), percent(0.0, 30.0), what, system).unwrap_or_else(|| {
        let why = "sand, silt and clay of two laboratories lie a few hundredths apart; ask yours how far its own do";
        let path = format!("{}.error", name.path);
        Known::assumed(Ratio::fraction(number("grading-error-ratio")), path, Origin::Judgement, why)
    });
    let found = match (&written.shares, written.sieves.as_slice(), &written.hydrometer) {
        (Some(_), [first, ..], _) => {
            let hint = "write `sieves` or `shares`, not both";
            source.fault(first.name.span.clone(), &first.name.path, "this grading is said twice", hint);
            None
        }
        (Some(_), [], Some(_)) => {
            let hint = "write `hydrometer` with `sieves`, or `shares` alone";
            source.fault(name.span.clone(), &name.path, "this grading is said twice", hint);
            None
        }
        (Some(shares), [], None) => shares_of(source, shares, system).map(|own| Found::Shares(Box::new(own))),
        (None, [], None) => {
            if !source.is_faulty(&name.path) {
                let hint = "write sieves = { a = { size = \"2 mm\", passing = \"62 %\" } }, two or more, or its shares";
                source.fault(name.span.clone(), &name.path, "nothing says what was found", hint);
            }
            None
        }
        (None, ..) => sieves(source, written, error.value, system),
    };
    let (of, found, name) = (of?, found?, name.value.clone());
    if let (Some(at), Found::Sieves(sieved)) = (&written.error, &found)
        && sieved.off(&written.name.path).is_some_and(|off| error.value < off)
    {
        let hint = "leave `error` out, or write no less than two readings may lie apart";
        source.fault(at.span.clone(), &at.path, "the readings of this grading may be off by more", hint);
    }
    Some(Grading { name, of, day: known(written.day.as_ref()), error, found })
}

fn shares_of(source: &Source<'_>, written: &[Option<Written<Ratio>>; 3], system: System) -> Option<[Known<Ratio>; 3]> {
    let what = "a share of sand, silt or clay";
    let [sand, silt, clay] =
        written.each_ref().map(|share| within(source, share.as_ref(), percent(0.0, 100.000_001), what, system));
    let (found, at) = ([sand?, silt?, clay?], written[2].as_ref()?);
    let sum: f64 = found.iter().map(|share| share.value.in_percent()).sum();
    if (sum - 100.0).abs() > 100.0 * number("shares-round-ratio") {
        let message = format!("{} add up to {sum:.1} %, not to 100 %", SEPARATES.join(", "));
        let hint = "write the shares of what is under 2 mm: leave the stones out, and weigh again";
        source.fault(at.span.clone(), &at.path, message, hint);
        return None;
    }
    Some(found)
}

fn sieves(source: &Source<'_>, written: &build::Grading, error: Ratio, system: System) -> Option<Found> {
    let sizes = Length::mm(0.000_1)..Length::mm(500.0);
    let read = written.sieves.iter().map(|sieve| {
        let size = within(source, sieve.size.as_ref(), sizes.clone(), "the size of a sieve or a grain", system);
        let what = "the share that passes a sieve";
        let passing = within(source, sieve.passing.as_ref(), percent(0.0, 100.000_001), what, system);
        Some(Sieve { name: sieve.name.value.clone(), size: size?, passing: passing? })
    });
    let read: Vec<Option<Sieve>> = read.collect();
    let mut sieves = read.into_iter().collect::<Option<Vec<Sieve>>>()?;
    sieves.sort_by(|one, other| one.size.value.in_m().total_cmp(&other.size.value.in_m()));
    let hydrometer = match &written.hydrometer {
        None => None,
        Some(read) => Some(hydrometer::place(source, read, (&written.name, &sieves, error), system)?),
    };
    let coarsest = sieves.last();
    let what = "the largest grain of a grading";
    let largest = within(source, written.largest.as_ref(), sizes, what, system);
    let largest = largest.or_else(|| {
        let path = format!("{}.largest", written.name.path);
        let why = "the coarsest sieve is taken for the largest grain";
        let assumed = Known::assumed(coarsest?.size.value, path, Origin::Judgement, why);
        Some(assumed.following(coarsest?.size.path.as_str()))
    });
    let Some(largest) = largest else {
        let hint = "sieve what is coarser than 0.063 mm, and write two sieves or more";
        source.fault(written.name.span.clone(), &written.name.path, "nothing says how the coarse grains are", hint);
        return None;
    };
    let sieved = Sieved { sieves, largest, hydrometer };
    let points = sieved.points(&written.name.path);
    let curve = points.iter().map(|point| soil::Sieve { size: point.size.0, passing: point.passing.0 });
    if let Err(fault) = Curve::through(&curve.collect::<Vec<_>>()) {
        refuse(source, written, &points, fault, system);
        return None;
    }
    Some(Found::Sieves(Box::new(sieved)))
}

/// Says where sieves and readings make no curve.
fn refuse(source: &Source<'_>, written: &build::Grading, points: &[GradingPoint], fault: CurveFault, system: System) {
    let place = |size: Length| points.iter().rposition(|point| point.size.0 == size);
    let (size, message, hint) = match fault {
        CurveFault::Few => {
            let first = points.first().map_or(Length::ZERO, |point| point.size.0);
            (first, "one sieve makes no curve".to_owned(), "write two or more, or the shares of sand, silt and clay")
        }
        CurveFault::Twice(size) => (size, format!("two sieves are of {}", mm(size)), "write each sieve once"),
        CurveFault::Outside(size) => (size, format!("what passes {} is no share", mm(size)), "write 0 to 100 %"),
        CurveFault::Falls(size) => {
            let at = place(size).unwrap_or(0);
            let [less, more] = [at, at.saturating_sub(1)].map(|at| shown(points[at].passing.0, system));
            let finer = mm(points[at.saturating_sub(1)].size.0);
            let message = format!("{less} is finer than {}, and {more} finer than {finer}", mm(size));
            (
                size,
                message,
                "what is finer than a small grain is finer than a larger one: a reading is wrong, look for it",
            )
        }
    };
    let Some(name) = place(size).map(|at| points[at].name.as_str()) else { return };
    let of_sieve = written.sieves.iter().find(|sieve| sieve.name.value == name);
    let of_reading = name.strip_prefix("reading ").and_then(|name| {
        written.hydrometer.as_ref()?.readings.iter().find(|reading| reading.name.value == name)?.reading.as_ref()
    });
    if let Some(at) = of_sieve.and_then(|sieve| sieve.passing.as_ref()) {
        source.fault(at.span.clone(), &at.path, message, hint);
    } else if let Some(at) = of_reading {
        source.fault(at.span.clone(), &at.path, message, hint);
    }
}

/// A size in millimetres, to three digits.
fn mm(size: Length) -> String {
    let size = size.in_mm();
    format!("{} mm", format!("{size:.2e}").parse::<f64>().unwrap_or(size))
}

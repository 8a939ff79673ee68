//! Gradings with nothing missing: sieves that make a curve, or shares that add up, and how far they may be off.

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
    /// What passes each sieve, the finest first, and the largest grain.
    Sieves(Vec<Sieve>, Known<Length>),
    /// Sand, silt and clay.
    Shares([Known<Ratio>; 3]),
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
        format!("tests.gradings.{}.{noun}", self.name)
    }

    /// Whether it reaches from clay to stones.
    #[must_use]
    pub fn says_clay(&self) -> bool {
        match &self.found {
            Found::Shares(_) => true,
            Found::Sieves(sieves, _) => {
                let [finest, coarsest] = ["clay-m", "sand-m"].map(|fact| Length::m(number(fact)));
                let reaches = sieves.first().is_some_and(|sieve| sieve.size.value <= finest);
                let all = Ratio::fraction(1.0);
                reaches && sieves.last().is_some_and(|last| last.size.value >= coarsest || last.passing.value >= all)
            }
        }
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
    let found = match (&written.shares, written.sieves.as_slice()) {
        (Some(_), [first, ..]) => {
            let hint = "write `sieves` or `shares`, not both";
            source.fault(first.name.span.clone(), &first.name.path, "this grading is said twice", hint);
            None
        }
        (Some(shares), []) => shares_of(source, shares, system).map(Found::Shares),
        (None, []) => {
            if !source.is_faulty(&name.path) {
                let hint = "write sieves = { a = { size = \"2 mm\", passing = \"62 %\" } }, two or more, or its shares";
                source.fault(name.span.clone(), &name.path, "nothing says what was found", hint);
            }
            None
        }
        (None, _) => sieves(source, written, system),
    };
    Some(Grading { name: name.value.clone(), of: of?, day: known(written.day.as_ref()), error, found: found? })
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

fn sieves(source: &Source<'_>, written: &build::Grading, system: System) -> Option<Found> {
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
    let points = sieves.iter().map(|sieve| soil::Sieve { size: sieve.size.value, passing: sieve.passing.value });
    if let Err(fault) = Curve::through(&points.collect::<Vec<_>>()) {
        refuse(source, written, &sieves, fault, system);
        return None;
    }
    let coarsest = sieves.last()?;
    let what = "the largest grain of a grading";
    let largest = within(source, written.largest.as_ref(), sizes, what, system).unwrap_or_else(|| {
        let path = format!("{}.largest", written.name.path);
        let why = "the coarsest sieve is taken for the largest grain";
        Known::assumed(coarsest.size.value, path, Origin::Judgement, why).following(coarsest.size.path.as_str())
    });
    Some(Found::Sieves(sieves, largest))
}

/// Says where sieves make no curve.
fn refuse(source: &Source<'_>, written: &build::Grading, sieves: &[Sieve], fault: CurveFault, system: System) {
    let mm = |size: Length| format!("{} mm", size.in_mm());
    let place = |size: Length| sieves.iter().rposition(|sieve| sieve.size.value == size);
    let (size, message, hint) = match fault {
        CurveFault::Few => {
            let first = sieves.first().map_or(Length::ZERO, |sieve| sieve.size.value);
            (first, "one sieve makes no curve".to_owned(), "write two or more, or the shares of sand, silt and clay")
        }
        CurveFault::Twice(size) => (size, format!("two sieves are of {}", mm(size)), "write each sieve once"),
        CurveFault::Outside(size) => (size, format!("what passes {} is no share", mm(size)), "write 0 to 100 %"),
        CurveFault::Falls(size) => {
            let at = place(size).unwrap_or(0);
            let [less, more] = [at, at.saturating_sub(1)].map(|at| shown(sieves[at].passing.value, system));
            let finer = mm(sieves[at.saturating_sub(1)].size.value);
            let message = format!("{less} is finer than {}, and {more} finer than {finer}", mm(size));
            (
                size,
                message,
                "what is finer than a small grain is finer than a larger one: a reading is wrong, look for it",
            )
        }
    };
    let name = place(size).map(|at| sieves[at].name.as_str());
    let at = written.sieves.iter().find(|sieve| Some(sieve.name.value.as_str()) == name);
    if let Some(at) = at.and_then(|sieve| sieve.passing.as_ref()) {
        source.fault(at.span.clone(), &at.path, message, hint);
    }
}

//! The log of batches with nothing missing: what each filled, how damp it was, what it took; what cannot be is refused.

use std::ops::Range;

use jiff::civil::Date;

use super::Wall;
use super::earth::{Earth, Recipe, percent, recipe_named};
use super::mix_choice::ROUNDING;
use super::mixes::are_filled_alike;
use super::place::{known, nearest, shown, within};
use crate::build::{self, Build, Source};
use crate::earth;
use crate::known::Known;
use crate::units::{Days, Mass, Ratio, System, Volume};

/// The log of batches of one recipe.
#[derive(Clone, Debug)]
pub struct Batches {
    /// Its name.
    pub name: String,
    /// The recipe that they are of.
    pub of: String,
    /// The day of the first.
    pub day: Option<Known<Date>>,
    /// Each of them, in the order of their names.
    pub each: Vec<Batch>,
}

/// One batch.
#[derive(Clone, Debug)]
pub struct Batch {
    /// Its name.
    pub name: String,
    /// Buckets of all ingredients together, where they were not those of the recipe.
    pub buckets: Option<Known<f64>>,
    /// What it filled as it was placed.
    pub placed: Option<Filled>,
    /// A handful of it, wet and dried.
    pub handful: Option<[Known<Mass>; 2]>,
    /// People at the tarp, and how long it took them.
    pub work: Option<(Known<u64>, Known<Days>)>,
}

/// What a batch filled.
#[derive(Clone, Debug)]
pub enum Filled {
    /// A volume that was measured.
    Measured(Known<Volume>),
    /// A share of a lift, by the name of that lift.
    OfLift(String, Known<Ratio>),
}

impl Batches {
    /// Their key.
    #[must_use]
    pub fn path(&self, noun: &str) -> String {
        format!("tests.batches.{}.{noun}", self.name)
    }
}

/// The logs of batches of a build file; a share of a lift is of the wall's cob.
pub(super) fn place(
    source: &Source<'_>,
    build: &Build,
    (earth, wall): (Option<&Earth>, Option<&Wall>),
    system: System,
) -> Vec<Batches> {
    let place = Place { source, build, earth, wall, system };
    let placed = build.batches.iter().filter_map(|written| place.batches(written)).collect();
    place.lifts();
    placed
}

/// Nothing that is trodden holds more water than this for its dry mass.
const MOST_WATER: f64 = 3.0;

struct Place<'a> {
    source: &'a Source<'a>,
    build: &'a Build,
    earth: Option<&'a Earth>,
    wall: Option<&'a Wall>,
    system: System,
}

impl Place<'_> {
    fn batches(&self, written: &build::Batches) -> Option<Batches> {
        let (name, source) = (&written.name, self.source);
        let of = recipe_named(source, written.of.as_ref()?, self.earth)?;
        are_filled_alike(source, self.build, written.fill.as_ref(), "these batches were measured");
        if written.each.is_empty() && !source.is_faulty(&name.path) {
            let hint = "write each of them under its name, such as each = { b01 = { placed = \"108 L\" } }";
            source.fault(name.span.clone(), &name.path, "no batch is written", hint);
        }
        let earth = self.earth?;
        let each = written.each.iter().filter_map(|own| self.batch(own, earth, &of)).collect();
        (!source.is_faulty(&name.path)).then(|| Batches {
            name: name.value.clone(),
            of,
            day: known(written.day.as_ref()),
            each,
        })
    }

    fn batch(&self, written: &build::Batch, earth: &Earth, of: &str) -> Option<Batch> {
        let (name, source, system) = (&written.name, self.source, self.system);
        let buckets = within(source, written.buckets.as_ref(), 0.5..500.0, "a number of buckets in a batch", system);
        let litres = Volume::litres(1.0)..Volume::m3(5.0);
        let placed = within(source, written.placed.as_ref(), litres, "what a batch fills as it is placed", system);
        let of_lift = self.of_lift(written, of);
        let handful = handful(source, written, system);
        let people = within(source, written.people.as_ref(), 1..100, "a number of people at one tarp", system);
        let times = Days::days(1.0 / 1440.0)..Days::days(2.0);
        let time = within(source, written.time.as_ref(), times, "how long a batch takes", system);
        if source.is_faulty(&name.path) {
            return None;
        }
        if people.is_some() != time.is_some() {
            let message = format!("of batch \"{}\" only one of `people` and `time` is written", name.value);
            let hint = "write both, such as people = 3, time = \"35 min\", or neither";
            source.fault(name.span.clone(), &name.path, message, hint);
            return None;
        }
        if placed.is_none() && of_lift.is_none() && handful.is_none() && time.is_none() {
            let message = format!("nothing was measured of batch \"{}\"", name.value);
            let hint = "write what it filled, placed = \"108 L\", or a handful = { wet = \"410 g\", dry = \"350 g\" }";
            source.fault(name.span.clone(), &name.path, message, hint);
            return None;
        }
        if let (Some(own), Some(at)) = (&placed, &written.placed) {
            let all: f64 = earth.buckets(earth.recipe(of)?).iter().sum();
            let loose = earth::loose_volume(earth.bucket(), buckets.as_ref().map_or(all, |own| own.value)).value;
            if own.value > loose * Recipe::MOST_YIELD {
                let message = format!("batch \"{}\" filled more than three times what its buckets hold", name.value);
                let hint = "`placed` is of one batch alone: measure it in a frame of boards";
                source.fault(at.span.clone(), &at.path, message, hint);
                return None;
            }
        }
        let placed = placed.map(Filled::Measured).or(of_lift);
        Some(Batch { name: name.value.clone(), buckets, placed, handful, work: people.zip(time) })
    }

    /// That batches of one lift fill no more than all of it.
    fn lifts(&self) {
        let mut filled: Vec<(&str, f64)> = Vec::new();
        for written in self.build.batches.iter().flat_map(|own| &own.each) {
            let (Some(lift), Some(share)) = (&written.lift, &written.share) else { continue };
            if self.source.is_faulty(&written.name.path) {
                continue;
            }
            let at = filled.iter().position(|(name, _)| *name == lift.value).unwrap_or(filled.len());
            if at == filled.len() {
                filled.push((&lift.value, 0.0));
            }
            let before = filled[at].1;
            filled[at].1 += share.value.in_fraction();
            let all = 1.0 + ROUNDING;
            if before <= all && filled[at].1 > all {
                let sum = shown(Ratio::fraction(filled[at].1), self.system);
                let message = format!("with this batch, what is written fills {sum} of lift \"{}\"", lift.value);
                let hint = "write each share anew: all batches of a lift fill it once";
                self.source.fault(share.span.clone(), &share.path, message, hint);
            }
        }
    }

    /// The lift that a batch was laid in, and its share of that; a fault where that cannot be.
    fn of_lift(&self, written: &build::Batch, of: &str) -> Option<Filled> {
        let fault = |at: &Range<usize>, path: &str, message: String, hint: &str| {
            self.source.fault(at.clone(), path, message, hint);
        };
        let name = &written.name;
        let (lift, share) = match (&written.lift, &written.share) {
            (None, None) => return None,
            (Some(lift), Some(share)) => (lift, share),
            _ => {
                let message = format!("of batch \"{}\" only one of `lift` and `share` is written", name.value);
                let first = self.wall.and_then(|wall| wall.lifts.first()).map_or("lift-1", |lift| lift.name.as_str());
                let hint = format!("write both, such as lift = \"{first}\", share = \"4 %\", or neither");
                fault(&name.span, &name.path, message, &hint);
                return None;
            }
        };
        if written.placed.is_some() {
            let message = format!("what batch \"{}\" filled is said twice", name.value);
            fault(&share.span, &share.path, message, "write `placed`, or `lift` and `share`, not both");
        }
        let what = "the share of one batch in a lift";
        let found = within(self.source, Some(share), percent(0.05, 100.000_001), what, self.system);
        let wall = self.wall?;
        if wall.cob.as_deref() != Some(of) {
            let message = format!("batches of \"{of}\" are not laid in lifts of the wall");
            fault(&lift.span, &lift.path, message, "write what it filled: placed = \"108 L\"");
        }
        let names = || wall.lifts.iter().map(|lift| lift.name.as_str());
        if !names().any(|name| name == lift.value) {
            let message = format!("there is no lift \"{}\"", lift.value);
            fault(&lift.span, &lift.path, message, &nearest(names(), &lift.value));
        }
        Some(Filled::OfLift(lift.value.clone(), found?))
    }
}

fn handful(source: &Source<'_>, written: &build::Batch, system: System) -> Option<[Known<Mass>; 2]> {
    let [wet, dry] = written.handful.as_ref()?;
    let mass = |own: &Option<build::Written<Mass>>| {
        within(source, own.as_ref(), Mass::g(20.0)..Mass::kg(20.0), "the mass of a handful", system)
    };
    let (found_wet, found_dry) = (mass(wet)?, mass(dry)?);
    let at = wet.as_ref()?;
    if found_wet.value < found_dry.value {
        let hint = "`wet` is what it weighed on the tarp, `dry` what it weighed when it lost no more in the oven";
        source.fault(at.span.clone(), &at.path, "this handful was lighter wet than dry", hint);
    } else if earth::moisture(found_wet.value, found_dry.value).value.in_fraction() > MOST_WATER {
        let hint = "weigh it again: `wet` and `dry` are of the same handful, its bowl taken off";
        source.fault(at.span.clone(), &at.path, "this handful held more than three times its dry mass in water", hint);
    }
    Some([found_wet, found_dry])
}

//! The log of batches with nothing missing: what each filled, how damp it was, what it took; what cannot be is refused.

use jiff::civil::Date;

use super::earth::{Earth, recipe_named};
use super::mixes::are_filled_alike;
use super::place::{known, within};
use crate::build::{self, Build, Source};
use crate::earth;
use crate::known::Known;
use crate::units::{Days, Mass, System, Volume};

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
    pub placed: Option<Known<Volume>>,
    /// A handful of it, wet and dried.
    pub handful: Option<[Known<Mass>; 2]>,
    /// People at the tarp, and how long it took them.
    pub work: Option<(Known<u64>, Known<Days>)>,
}

impl Batches {
    /// Their key.
    #[must_use]
    pub fn path(&self, noun: &str) -> String {
        format!("tests.batches.{}.{noun}", self.name)
    }
}

/// The logs of batches of a build file.
pub(super) fn place(source: &Source<'_>, build: &Build, earth: Option<&Earth>, system: System) -> Vec<Batches> {
    build.batches.iter().filter_map(|written| batches(source, build, written, earth, system)).collect()
}

fn batches(
    source: &Source<'_>,
    build: &Build,
    written: &build::Batches,
    earth: Option<&Earth>,
    system: System,
) -> Option<Batches> {
    let name = &written.name;
    let of = recipe_named(source, written.of.as_ref()?, earth)?;
    are_filled_alike(source, build, written.fill.as_ref(), "these batches were measured");
    if written.each.is_empty() && !source.is_faulty(&name.path) {
        let hint = "write each of them under its name, such as each = { b01 = { placed = \"108 L\" } }";
        source.fault(name.span.clone(), &name.path, "no batch is written", hint);
    }
    let earth = earth?;
    let recipe = earth.recipe(&of)?;
    let all: f64 = earth.buckets(recipe).iter().sum();
    let each = written.each.iter().filter_map(|own| batch(source, own, earth, all, system)).collect();
    (!source.is_faulty(&name.path)).then(|| Batches {
        name: name.value.clone(),
        of,
        day: known(written.day.as_ref()),
        each,
    })
}

fn batch(source: &Source<'_>, written: &build::Batch, earth: &Earth, all: f64, system: System) -> Option<Batch> {
    let name = &written.name;
    let buckets = within(source, written.buckets.as_ref(), 0.5..500.0, "a number of buckets in a batch", system);
    let litres = Volume::litres(1.0)..Volume::m3(5.0);
    let placed = within(source, written.placed.as_ref(), litres, "what a batch fills as it is placed", system);
    let handful = handful(source, written, system);
    let people = within(source, written.people.as_ref(), 1..100, "a number of people at one tarp", system);
    let times = Days::days(1.0 / 1440.0)..Days::days(2.0);
    let time = within(source, written.time.as_ref(), times, "how long a batch takes", system);
    if source.is_faulty(&name.path) {
        return None;
    }
    if people.is_some() != time.is_some() {
        let message = format!("of batch \"{}\" only one of `people` and `time` is written", name.value);
        source.fault(
            name.span.clone(),
            &name.path,
            message,
            "write both, such as people = 3, time = \"35 min\", or neither",
        );
        return None;
    }
    if placed.is_none() && handful.is_none() && time.is_none() {
        let message = format!("nothing was measured of batch \"{}\"", name.value);
        let hint = "write what it filled, placed = \"108 L\", or a handful = { wet = \"410 g\", dry = \"350 g\" }";
        source.fault(name.span.clone(), &name.path, message, hint);
        return None;
    }
    if let (Some(own), Some(at)) = (&placed, &written.placed) {
        let loose = earth::loose_volume(earth.bucket(), buckets.as_ref().map_or(all, |own| own.value)).value;
        if own.value > loose * MOST {
            let message = format!("batch \"{}\" filled more than three times what its buckets hold", name.value);
            source.fault(
                at.span.clone(),
                &at.path,
                message,
                "`placed` is of one batch alone: measure it in a frame of boards",
            );
            return None;
        }
    }
    Some(Batch { name: name.value.clone(), buckets, placed, handful, work: people.zip(time) })
}

/// Nothing that is trodden fills more than this of its loose volume: as with the yield of a recipe.
const MOST: f64 = 3.0;

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
    } else if earth::moisture(found_wet.value, found_dry.value).value.in_fraction() > MOST {
        let hint = "weigh it again: `wet` and `dry` are of the same handful, its bowl taken off";
        source.fault(at.span.clone(), &at.path, "this handful held more than three times its dry mass in water", hint);
    }
    Some([found_wet, found_dry])
}

//! Bars and washed samples of mixes with nothing missing; what cannot be is refused.

use jiff::civil::Date;

use super::earth::{Earth, percent, recipe_named};
use super::one_system::{is_of_one_system, place_of};
use super::place::{known, shown, within};
use crate::build::{self, Build, Source, Wash, Washed};
use crate::earth::{strength, tables::number};
use crate::known::{Known, Origin};
use crate::units::{Days, Length, Ratio, System};

/// A bar of a mix that was measured wet and dry.
#[derive(Clone, Debug)]
pub struct Bar {
    /// Its name.
    pub name: String,
    /// The recipe that it is of.
    pub of: String,
    /// The day on which it was dry.
    pub day: Option<Known<Date>>,
    /// Its length when the form was filled, and when it was dry.
    pub lengths: [Known<Length>; 2],
    /// How far each length may be off.
    pub reading: Known<Length>,
}

impl Bar {
    /// Its key.
    #[must_use]
    pub fn path(&self, noun: &str) -> String {
        format!("tests.bars.{}.{noun}", self.name)
    }
}

/// A sample that was washed.
#[derive(Clone, Debug)]
pub struct Erosion {
    /// Its name.
    pub name: String,
    /// The recipe that it is of.
    pub of: String,
    /// What was washed, where it is written.
    pub on: Option<Washed>,
    /// The day of the test.
    pub day: Option<Known<Date>>,
    /// What washed it.
    pub kind: Wash,
    /// Depth of the deepest pit.
    pub pit: Known<Length>,
    /// How long it was washed.
    pub time: Known<Days>,
    /// Whether the spray bored through it.
    pub is_bored: bool,
}

impl Erosion {
    /// Its key.
    #[must_use]
    pub fn path(&self, noun: &str) -> String {
        format!("tests.erosion.{}.{noun}", self.name)
    }
}

/// No mix that is built with shrinks by more, in percent.
pub(super) const MOST_SHRINKAGE: f64 = 15.0;

/// What the bars of a recipe shrank by, their mean; none where none was measured.
pub(super) fn by_bars(build: &Build, recipe: &str) -> Option<Ratio> {
    let of_it = build.bars.iter().filter(|bar| bar.of.as_ref().is_some_and(|of| of.value == recipe));
    let found = of_it.filter_map(|bar| {
        let [wet, dry] = bar.lengths.each_ref().map(|length| length.as_ref().map(|length| length.value));
        Some(strength::bar_by_lengths(wet?, dry?).value)
    });
    let found: Vec<Ratio> = found.collect();
    let count = found.len() as f64;
    (!found.is_empty()).then(|| found.into_iter().sum::<Ratio>() / count)
}

/// The bars of a build file.
pub(super) fn bars(source: &Source<'_>, build: &Build, earth: Option<&Earth>, system: System) -> Vec<Bar> {
    build.bars.iter().filter_map(|written| bar(source, written, earth, system)).collect()
}

fn bar(source: &Source<'_>, written: &build::Bar, earth: Option<&Earth>, system: System) -> Option<Bar> {
    let of = written.of.as_ref().and_then(|of| recipe_named(source, of, earth));
    let lengths = written
        .lengths
        .each_ref()
        .map(|length| within(source, length.as_ref(), Length::mm(50.0)..Length::m(3.0), "the length of a bar", system));
    let readings = Length::mm(0.05)..Length::mm(20.0);
    let reading = within(source, written.reading.as_ref(), readings, "how far a length may be off", system);
    let reading = reading.unwrap_or_else(|| {
        let why = "a tape is read to about a millimetre";
        Known::assumed(
            Length::m(number("bar-reading-m")),
            format!("{}.reading", written.name.path),
            Origin::Judgement,
            why,
        )
    });
    let places = written.lengths.iter().chain([&written.reading]).filter_map(place_of).collect::<Vec<_>>();
    let hint = "write them as they stand on the page, and a page in other units as a bar of another name";
    let is_one = is_of_one_system(source, "the lengths of this bar", &places, hint);
    let ([Some(wet), Some(dry)], Some(at)) = (lengths, &written.lengths[1]) else { return None };
    let [shown_wet, shown_dry] = [&wet, &dry].map(|length| shown(length.value, system));
    if dry.value > wet.value {
        let message = format!("a bar of {shown_wet} when wet is not {shown_dry} long when dry");
        source.fault(
            at.span.clone(),
            &at.path,
            message,
            "`wet` is the length of its form: close cracks, and measure it anew",
        );
        return None;
    }
    if !percent(0.0, MOST_SHRINKAGE).contains(&strength::bar_by_lengths(wet.value, dry.value).value) {
        let message = format!("no bar that is built with shrinks from {shown_wet} to {shown_dry}");
        let hint = format!("measure it anew; more than {MOST_SHRINKAGE} % is not how cob or plaster shrinks");
        source.fault(at.span.clone(), &at.path, message, hint);
        return None;
    }
    let (name, day) = (written.name.value.clone(), known(written.day.as_ref()));
    is_one.then_some(())?;
    Some(Bar { name, of: of?, day, lengths: [wet, dry], reading })
}

/// What was washed, of a build file.
pub(super) fn erosion(source: &Source<'_>, build: &Build, earth: Option<&Earth>, system: System) -> Vec<Erosion> {
    build.erosion.iter().filter_map(|written| washed(source, written, earth, system)).collect()
}

fn washed(source: &Source<'_>, written: &build::Erosion, earth: Option<&Earth>, system: System) -> Option<Erosion> {
    let of = written.of.as_ref().and_then(|of| recipe_named(source, of, earth));
    let pits = Length::ZERO..Length::mm(400.0);
    let pit = within(source, written.pit.as_ref(), pits, "the depth of a pit that water washed", system);
    let times = Days::minutes(1.0)..Days::days(2.0);
    let time = within(source, written.time.as_ref(), times, "how long a sample is washed", system);
    let bored = written.bored_through.as_ref().filter(|bored| bored.value);
    let is_drip = written.kind.as_ref().is_some_and(|kind| kind.value == Wash::Drip);
    if let Some(at) = bored.filter(|_| is_drip) {
        let hint = "leave `bored-through` out, or write kind = \"spray\" if it was one";
        source.fault(at.span.clone(), &at.path, "drips do not bore through a sample", hint);
    }
    Some(Erosion {
        name: written.name.value.clone(),
        of: of?,
        on: written.on.as_ref().map(|on| on.value),
        day: known(written.day.as_ref()),
        kind: written.kind.as_ref()?.value,
        pit: pit?,
        time: time?,
        is_bored: bored.is_some(),
    })
}

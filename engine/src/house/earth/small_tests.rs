//! Small tests of piles with nothing missing: moisture, bulking, a weighed bucket, how a soil feels; what they find where the pile itself says
//! nothing.

use std::ops::Range;

use jiff::civil::Date;

use super::super::jars::ingredient_among;
use super::super::place::{known, shown, within};
use super::{Ingredient, percent};
use crate::build::{self, Build, IngredientKind, Source, Written};
use crate::earth::{moisture, strength};
use crate::known::{Known, Origin};
use crate::units::{Length, Mass, Quantity, Ratio, System};

/// The small tests of a house.
#[derive(Clone, Debug, Default)]
pub struct SmallTests {
    /// Piles that were weighed wet and dried.
    pub moisture: Vec<Pair<Mass>>,
    /// Damp sand that was flooded in a jar.
    pub bulking: Vec<Pair<Length>>,
    /// Buckets that were weighed full and empty.
    pub weighings: Vec<Pair<Mass>>,
    /// What two hands felt.
    pub feel: Vec<Feel>,
}

/// Two measurements of one pile.
#[derive(Clone, Debug)]
pub struct Pair<T> {
    /// What all its keys begin with.
    pub stem: String,
    /// The ingredient that was tested.
    pub of: String,
    /// The day of the test.
    pub day: Option<Known<Date>>,
    /// The greater measurement, and the lesser.
    pub found: [Known<T>; 2],
}

impl<T> Pair<T> {
    /// Whether it is of the newest day on which its pile was tested so, or none of all has a day: days are not mixed.
    #[must_use]
    pub fn stands(&self, all: &[Pair<T>]) -> bool {
        let day = |pair: &Pair<T>| pair.day.as_ref().map(|day| day.value);
        day(self) == newest_day(all.iter().filter(|other| other.of == self.of).map(day))
    }
}

/// The newest day of tests; none where none of them has one.
fn newest_day(days: impl Iterator<Item = Option<Date>>) -> Option<Date> {
    days.flatten().max()
}

/// How a soil feels.
#[derive(Clone, Debug)]
pub struct Feel {
    /// What all its keys begin with.
    pub stem: String,
    /// The ingredient that was felt.
    pub of: String,
    /// The day of the test.
    pub day: Option<Known<Date>>,
    /// How long a ribbon grew before it broke.
    pub ribbon: Option<Known<Length>>,
    /// A ball that was let fall, its height afterwards, and into how many pieces it fell.
    pub drop: Option<([Known<Length>; 2], Known<u64>)>,
}

/// Why a pile is as it is where it does not say so itself.
const BY_TESTS: &str = "its tests say so";

/// How a sand bulks: as it is written, else as its jars say, else as sand does; and whether its jars say it.
pub(super) fn bulking(
    source: &Source<'_>,
    build: &Build,
    written: &build::Ingredient,
    system: System,
) -> (Known<f64>, bool) {
    let path = format!("{}.bulking", written.name.path);
    let what = "how sand bulks: loose damp volume over settled";
    let own = within(source, written.bulking.as_ref(), 1.0..1.8, what, system);
    let of = newest(&build.small_tests.bulking, &written.name.value);
    let tested = mean(of.filter_map(|pair| {
        let [damp, flooded] = pair.found.each_ref().map(|found| found.as_ref().map(|found| found.value));
        Some(strength::bulking(damp?, flooded?).value)
    }));
    let by_tests = tested.filter(|_| written.bulking.is_none());
    let why = "damp sand bulks by 20 to 40 %; flood a measured jar of yours";
    let else_ = || match by_tests {
        Some(tested) => Known::assumed(tested, path.as_str(), Origin::Given, BY_TESTS),
        None => Known::assumed(1.3, path.as_str(), Origin::Memory, why),
    };
    (own.unwrap_or_else(else_), by_tests.is_some())
}

/// How damp a pile is: as it is written, else as its tests say, else as piles are; and whether its tests say it.
pub(super) fn dampness(
    source: &Source<'_>,
    build: &Build,
    written: &build::Ingredient,
    system: System,
) -> (Known<Ratio>, bool) {
    let path = format!("{}.moisture", written.name.path);
    let what = "the moisture of a pile, of dry mass";
    let own = within(source, written.moisture.as_ref(), percent(0.0, 80.0), what, system);
    let of = newest(&build.small_tests.moisture, &written.name.value);
    let tested = mean(of.filter_map(|pair| {
        let [wet, dry] = pair.found.each_ref().map(|found| found.as_ref().map(|found| found.value));
        Some(moisture(wet?, dry?).value.in_fraction())
    }));
    let by_tests = tested.filter(|_| written.moisture.is_none());
    let why = "a pile under a sheet; weigh a bucket, dry it in an oven, weigh it again";
    let else_ = || match by_tests {
        Some(tested) => Known::assumed(Ratio::fraction(tested), path.as_str(), Origin::Given, BY_TESTS),
        None => Known::assumed(Ratio::percent(6.0), path.as_str(), Origin::Judgement, why),
    };
    (own.unwrap_or_else(else_), by_tests.is_some())
}

/// The tests of an ingredient on the newest day; all of them where none has a day.
fn newest<'a, T>(all: &'a [build::Pair<T>], ingredient: &'a str) -> impl Iterator<Item = &'a build::Pair<T>> {
    let day = |pair: &build::Pair<T>| pair.day.as_ref().map(|day| day.value);
    let is_of = move |pair: &&build::Pair<T>| pair.of.as_ref().is_some_and(|of| of.value == ingredient);
    let last = newest_day(all.iter().filter(is_of).map(day));
    all.iter().filter(move |pair| is_of(pair) && day(pair) == last)
}

fn mean(found: impl Iterator<Item = f64>) -> Option<f64> {
    let found: Vec<f64> = found.collect();
    let mean = found.iter().sum::<f64>() / found.len() as f64;
    mean.is_finite().then_some(mean)
}

/// The small tests of a build file.
pub(super) fn place(source: &Source<'_>, build: &Build, ingredients: &[Ingredient], system: System) -> SmallTests {
    let written = &build.small_tests;
    let place = Place { source, ingredients, system };
    let masses = Mass::g(1.0)..Mass::kg(200.0);
    let moisture =
        place.pairs(&written.moisture, masses.clone(), "the mass of a handful or a bucket of a pile", |[wet, dry]| {
            let found = moisture(*wet, *dry).value;
            let is_right = percent(0.0, 80.0).contains(&found);
            let [wet, dry] = [wet, dry].map(|mass| shown(*mass, system));
            let hint = "weigh it wet, dry it in an oven until it no longer loses, and weigh it again without its tin";
            (!is_right).then(|| (format!("{wet} wet and {dry} dry is a moisture that no pile has"), hint))
        });
    let heights = Length::mm(5.0)..Length::m(1.0);
    let bulking = place.pairs(&written.bulking, heights, "the height of sand in a jar", |[damp, flooded]| {
        let is_right = (1.0..1.8).contains(&strength::bulking(*damp, *flooded).value);
        let [damp, flooded] = [damp, flooded].map(|height| shown(*height, system));
        let hint = "fill a straight jar with damp sand, measure it, flood and stir it, and measure it again";
        (!is_right).then(|| (format!("sand that is {damp} high when damp and {flooded} when flooded is none"), hint))
    });
    let weighings = place.pairs(&written.weighings, masses, "the mass of a bucket", |[full, empty]| {
        let [heavy, light] = [full, empty].map(|mass| shown(*mass, system));
        let message = format!("a full bucket of {heavy} is no heavier than an empty one of {light}");
        (full <= empty).then_some((message, "weigh both again on one scale"))
    });
    for pair in &written.bulking {
        let named = |name: &str| ingredients.iter().find(|ingredient| ingredient.name == name);
        let of = pair.of.as_ref().and_then(|of| Some((of, named(&of.value)?)));
        if let Some((of, _)) = of.filter(|(_, ingredient)| ingredient.kind != IngredientKind::Sand) {
            let message = format!("\"{}\" is no sand, and only sand bulks", of.value);
            source.fault(of.span.clone(), &of.path, message, "name a pile of kind = \"sand\"");
        }
    }
    let feel = written.feel.iter().filter_map(|feel| place.feel(feel)).collect();
    SmallTests { moisture, bulking, weighings, feel }
}

struct Place<'a> {
    source: &'a Source<'a>,
    ingredients: &'a [Ingredient],
    system: System,
}

impl Place<'_> {
    fn of(&self, of: Option<&Written<String>>) -> Option<String> {
        ingredient_among(self.source, of?, self.ingredients)
    }

    /// Pairs whose values lie in a range and of which nothing is told that cannot be.
    fn pairs<T: Copy + PartialOrd + Into<Quantity>>(
        &self,
        written: &[build::Pair<T>],
        range: Range<T>,
        what: &str,
        cannot_be: impl Fn([&T; 2]) -> Option<(String, &'static str)>,
    ) -> Vec<Pair<T>> {
        let read = written.iter().filter_map(|pair| {
            let [more, less] = pair
                .found
                .each_ref()
                .map(|found| within(self.source, found.as_ref(), range.clone(), what, self.system));
            let (of, more, less) = (self.of(pair.of.as_ref()), more?, less?);
            if let (Some((message, hint)), Some(at)) = (cannot_be([&more.value, &less.value]), &pair.found[1]) {
                self.source.fault(at.span.clone(), &at.path, message, hint);
                return None;
            }
            let (stem, day) = (pair.name.path.clone(), known(pair.day.as_ref()));
            Some(Pair { stem, of: of?, day, found: [more, less] })
        });
        read.collect()
    }

    fn feel(&self, written: &build::Feel) -> Option<Feel> {
        let name = &written.name;
        let of = self.of(written.of.as_ref());
        let length = |written: Option<&Written<Length>>, most: Length, what: &str| {
            within(self.source, written, Length::ZERO..most, what, self.system)
        };
        let ribbon = length(written.ribbon.as_ref(), Length::mm(300.0), "how long a ribbon of soil holds");
        let drop = written.drop.as_ref().map(|drop| {
            let balls = Length::mm(15.0)..Length::mm(200.0);
            let ball = within(self.source, drop.ball.as_ref(), balls, "how thick a ball of earth is", self.system)?;
            let high =
                length(drop.high.as_ref(), ball.value * 1.001, "how high a ball of earth stands that was let fall")?;
            let pieces = drop.pieces.as_ref()?;
            if pieces.value == 0 {
                let hint = "a ball that stays whole is one piece";
                self.source.fault(pieces.span.clone(), &pieces.path, "a ball falls into one piece or more", hint);
                return None;
            }
            Some(([ball, high], known(Some(pieces))?))
        });
        if written.ribbon.is_none() && written.drop.is_none() && !self.source.is_faulty(&name.path) {
            let hint = "write ribbon = \"40 mm\", or drop = { ball = \"50 mm\", high = \"42 mm\", pieces = 1 }";
            self.source.fault(name.span.clone(), &name.path, "nothing says what was felt", hint);
        }
        let drop = match drop {
            None => None,
            Some(drop) => Some(drop?),
        };
        Some(Feel { stem: name.path.clone(), of: of?, day: known(written.day.as_ref()), ribbon, drop })
    }
}

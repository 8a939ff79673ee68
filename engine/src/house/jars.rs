//! Jars of soil in water with nothing missing: how warm, how high, what settled; a jar that cannot be is refused.

use jiff::civil::Date;

use super::earth::{Earth, Ingredient, percent};
use super::one_system::{is_of_one_system, place_of};
use super::place::{known, nearest, shown, within};
use crate::build::{self, Build, SEPARATES, Source, Written};
use crate::earth::soil;
use crate::earth::tables::{self, number};
use crate::known::{Known, Origin};
use crate::units::{Days, Density, Length, Ratio, System, Temperature};

/// A soil shaken in a jar.
#[derive(Clone, Debug)]
pub struct Jar {
    /// Its name.
    pub name: String,
    /// The ingredient that was shaken.
    pub of: String,
    /// The day on which it was shaken.
    pub day: Option<Known<Date>>,
    /// From its bottom to the surface of the water.
    pub height: Known<Length>,
    /// How warm the water was.
    pub water: Known<Temperature>,
    /// Density of the grains.
    pub grain: Known<Density>,
    /// Share of the silt that may be clay in crumbs; none where salt or soda took them apart.
    pub crumbs: Option<Known<Ratio>>,
    /// What settled.
    pub settled: Settled,
    /// The least and the greatest dry mass in a settled volume of sand, silt and clay.
    pub packing: [[Known<Density>; 2]; 3],
}

/// What is known of the layers of a jar.
#[derive(Clone, Debug)]
pub enum Settled {
    /// Thickness of sand, silt and clay, and the height of all three.
    Layers(Box<[Known<Length>; 3]>, Known<Length>),
    /// Readings in the order of their times, none while the jar still stands to be read; and those that are set aside.
    Read(Vec<Reading>, Vec<Reading>),
}

/// How high the soil had settled after a time.
#[derive(Clone, Debug)]
pub struct Reading {
    /// Its name.
    pub name: String,
    /// Time since the jar was set down.
    pub after: Known<Days>,
    /// Height of what had settled.
    pub height: Known<Length>,
    /// Why it is not used; none where it is.
    pub aside: Option<String>,
}

impl Jar {
    /// Its key.
    #[must_use]
    pub fn path(&self, noun: &str) -> String {
        format!("tests.jars.{}.{noun}", self.name)
    }

    /// Whether it has stood long enough for its layers to be read.
    #[must_use]
    pub fn is_read(&self) -> bool {
        match &self.settled {
            Settled::Layers(..) => true,
            Settled::Read(readings, _) => {
                let [_, silt] = self.marks();
                readings.last().is_some_and(|last| last.after.value >= silt.value)
            }
        }
    }

    /// When all grains coarser than sand's or silt's finest are down, sand first.
    #[must_use]
    pub fn marks(&self) -> [crate::reason::Answer<Days>; 2] {
        let (viscosity, density) = tables::water(self.water.value)
            .map_or((f64::NAN, Density::kg_m3(f64::NAN)), |water| (water.viscosity, water.density));
        ["silt-m", "clay-m"].map(|finest| {
            let grain = Length::m(number(finest));
            soil::fall_time(self.height.value, grain, viscosity, self.grain.value, density, number("gravity-m-s2"))
        })
    }
}

/// The ingredient that a test is of; a fault with the nearest name otherwise.
pub(super) fn ingredient_named(
    source: &Source<'_>,
    written: &Written<String>,
    earth: Option<&Earth>,
) -> Option<String> {
    ingredient_among(source, written, earth.map_or(&[], |earth| &earth.ingredients))
}

/// The same among some ingredients.
pub(super) fn ingredient_among(
    source: &Source<'_>,
    written: &Written<String>,
    ingredients: &[Ingredient],
) -> Option<String> {
    if ingredients.iter().any(|ingredient| ingredient.name == written.value) {
        return Some(written.value.clone());
    }
    let hint = nearest(ingredients.iter().map(|ingredient| ingredient.name.as_str()), &written.value);
    source.fault(written.span.clone(), &written.path, format!("there is no ingredient \"{}\"", written.value), hint);
    None
}

/// The jars of a build file.
pub(super) fn place(source: &Source<'_>, build: &Build, earth: Option<&Earth>, system: System) -> Vec<Jar> {
    build.jars.iter().filter_map(|written| jar(source, written, earth, system)).collect()
}

fn jar(source: &Source<'_>, written: &build::Jar, earth: Option<&Earth>, system: System) -> Option<Jar> {
    let name = written.name.value.clone();
    let path = |noun: &str| format!("tests.jars.{name}.{noun}");
    let of = written.of.as_ref().and_then(|of| ingredient_named(source, of, earth));
    let heights = Length::mm(40.0)..Length::m(1.0);
    let height = within(source, written.height.as_ref(), heights, "the height of the water in a jar", system);
    let water = water(source, written.water.as_ref(), system);
    let densities = Density::kg_m3(2000.0)..Density::kg_m3(3500.0);
    let grain = within(source, written.grain.as_ref(), densities, "the density of grains of soil", system);
    let grain = grain.unwrap_or_else(|| {
        let why = "that of quartz, the usual mineral of sand and silt";
        Known::assumed(Density::kg_m3(number("grain-kg-m3")), path("grain"), Origin::Memory, why)
    });
    let what = "the share of a layer of silt that may be clay in crumbs";
    let crumbs = within(source, written.crumbs.as_ref(), percent(0.0, 100.0), what, system);
    let is_dispersed = written.dispersed.as_ref().is_some_and(|dispersed| dispersed.value);
    let crumbs = (!is_dispersed).then(|| {
        crumbs.unwrap_or_else(|| {
            let why = "nothing took crumbs of clay apart, and they settle as silt; shake it again with a spoon of washing soda";
            Known::assumed(Ratio::fraction(number("jar-undispersed-ratio")), path("crumbs"), Origin::Judgement, why)
        })
    });
    let packing = packing(source, written, system);
    let settled = settled(source, written, system);
    let layers = written.layers.iter().flat_map(|layers| layers.each.iter().chain([&layers.all]));
    let readings = written.readings.iter().map(|reading| &reading.height);
    let heights: Vec<_> = [&written.height].into_iter().chain(layers).chain(readings).filter_map(place_of).collect();
    let hint = "write them as they stand on the page";
    let is_one = is_of_one_system(source, "the heights in this jar", &heights, hint);
    let (height, water) = (height?, water?);
    let mut jar = Jar {
        name: name.clone(),
        of: of?,
        day: known(written.day.as_ref()),
        height,
        water,
        grain,
        crumbs,
        settled: Settled::Read(Vec::new(), Vec::new()),
        packing: packing?,
    };
    jar.settled = settled?;
    can_be(source, written, &jar, system);
    (is_one && !source.is_faulty(&written.name.path)).then_some(jar)
}

fn water(source: &Source<'_>, written: Option<&Written<Temperature>>, system: System) -> Option<Known<Temperature>> {
    let written = written?;
    if tables::water(written.value).is_none() {
        let message = format!("how thick water of {} is stands in no table here", shown(written.value, system));
        let hint = "bring the jar to the warmth of a room, from 10 to 30 °C, before it is shaken";
        source.fault(written.span.clone(), &written.path, message, hint);
        return None;
    }
    known(Some(written))
}

fn packing(source: &Source<'_>, written: &build::Jar, system: System) -> Option<[[Known<Density>; 2]; 3]> {
    let why = "how a layer lies in a jar: sand close, clay loose for weeks; dry a layer of known height and weigh it";
    let mut places = 0..3;
    let all = written.packing.each_ref().map(|pair| {
        let separate = SEPARATES[places.next().unwrap_or(0)];
        let sides = [("low", "least", &pair[0]), ("high", "most", &pair[1])];
        let [least, most] = sides.map(|(fact, side, own)| {
            let densities = Density::kg_m3(100.0)..Density::kg_m3(2200.0);
            let own = within(source, own.as_ref(), densities, "the dry mass in a settled volume", system);
            own.unwrap_or_else(|| {
                let usual = Density::kg_m3(number(&format!("jar-{separate}-{fact}-kg-m3")));
                let path = format!("tests.jars.{}.packing.{separate}-{side}", written.name.value);
                Known::assumed(usual, path, Origin::Judgement, why)
            })
        });
        let at = pair.iter().flatten().next();
        if let Some(at) = at.filter(|_| least.value > most.value) {
            let message = format!(
                "the least dry mass of settled {separate}, {}, is more than the greatest, {}",
                shown(least.value, system),
                shown(most.value, system)
            );
            source.fault(at.span.clone(), &at.path, message, "write both, the lesser first");
        }
        [least, most]
    });
    Some(all)
}

fn settled(source: &Source<'_>, written: &build::Jar, system: System) -> Option<Settled> {
    let height = |written: &Option<Written<Length>>, what: &str| {
        within(source, written.as_ref(), Length::ZERO..Length::m(1.0), what, system)
    };
    if let (Some(_), Some(first)) = (&written.layers, written.readings.first()) {
        let hint = "write `layers` or `readings`, not both";
        source.fault(first.name.span.clone(), &first.name.path, "what settled in this jar is said twice", hint);
        return None;
    }
    if let Some(layers) = &written.layers {
        let [sand, silt, clay] = layers.each.each_ref().map(|layer| height(layer, "the height of a layer in a jar"));
        let all = height(&layers.all, "the height of all layers of a jar");
        return Some(Settled::Layers(Box::new([sand?, silt?, clay?]), all?));
    }
    let times = Days::minutes(0.05)..Days::days(60.0);
    let read = written.readings.iter().map(|reading| {
        Some(Reading {
            name: reading.name.value.clone(),
            after: within(source, reading.after.as_ref(), times.clone(), "the time of a reading of a jar", system)?,
            height: height(&reading.height, "the height to which a jar has settled")?,
            aside: reading.aside.as_ref().map(|why| why.value.clone()),
        })
    });
    let mut read = read.collect::<Option<Vec<_>>>()?;
    let bare = written.readings.iter().flat_map(|reading| &reading.aside).find(|why| why.value.trim().is_empty());
    if let Some(bare) = bare {
        let hint = "write why, such as aside = \"read by a lamp\"";
        source.fault(bare.span.clone(), &bare.path, "nothing says why this reading is set aside", hint);
        return None;
    }
    read.sort_by(|one, other| one.after.value.in_days().total_cmp(&other.after.value.in_days()));
    let (aside, used) = read.into_iter().partition(|reading| reading.aside.is_some());
    Some(Settled::Read(used, aside))
}

/// Refuses layers that do not add up or stand above the water, and readings that fall, are made twice or come too late.
fn can_be(source: &Source<'_>, written: &build::Jar, jar: &Jar, system: System) {
    let fault = |at: &Written<Length>, message: String, hint: &str| {
        source.fault(at.span.clone(), &at.path, message, hint);
    };
    let above = |at: &Written<Length>, found: Length| {
        if found > jar.height.value {
            let (found, water) = (shown(found, system), shown(jar.height.value, system));
            fault(at, format!("what settled, {found}, stands higher than the water, {water}"), "read the jar anew");
        }
    };
    match &jar.settled {
        Settled::Layers(layers, all) => {
            let Some(at) = written.layers.as_ref().and_then(|layers| layers.all.as_ref()) else { return };
            above(at, all.value);
            let sum: Length = layers.iter().map(|layer| layer.value).sum();
            if (sum - all.value).in_m().abs() > number("jar-read-m") {
                let (sum, all) = (shown(sum, system), shown(all.value, system));
                let message = format!("sand, silt and clay add up to {sum}, not to the {all} of all three");
                fault(at, message, "read the jar anew: each layer from the one below it, and all from the bottom");
            }
        }
        Settled::Read(readings, _) => {
            let at = |reading: &Reading| written.readings.iter().find(|written| written.name.value == reading.name);
            for reading in readings {
                if let Some(at) = at(reading).and_then(|at| at.height.as_ref()) {
                    above(at, reading.height.value);
                }
            }
            for pair in readings.windows(2) {
                let Some(at) = at(&pair[1]).and_then(|at| at.height.as_ref()) else { continue };
                let [before, after] = [&pair[0], &pair[1]].map(|reading| shown(reading.after.value, system));
                let [low, high] = [&pair[1], &pair[0]].map(|reading| shown(reading.height.value, system));
                if pair[0].after.value == pair[1].after.value {
                    fault(at, format!("two readings were made after {after}"), "write one reading for one time");
                } else if pair[1].height.value < pair[0].height.value {
                    let message =
                        format!("what had settled stood at {low} after {after}, lower than {high} after {before}");
                    let hint = "what lies at the bottom does not rise again: read the jar anew; once the water is clear \
                                its clay packs together, leave later readings out; one that is wrong gets aside = \"why\"";
                    fault(at, message, hint);
                }
            }
            let [sand, _] = jar.marks();
            let first = readings.first().filter(|first| first.after.value > sand.value);
            if let Some((first, at)) = first.and_then(|first| Some((first, at(first)?.height.as_ref()?))) {
                let (first, sand) = (shown(first.after.value, system), shown(sand.value, system));
                let message = format!("the first reading, after {first}, comes when all sand is down, after {sand}");
                fault(at, message, "write what you read before that, or shake the jar again and mark it then");
            }
        }
    }
}

//! A recipe with nothing missing: in buckets or in shares that add up, what it shrinks by, what has to be begun beforehand.

use std::ops::Range;

use super::super::place::{known, nearest, shown, within};
use super::super::samples::{MOST_SHRINKAGE, by_bars};
use super::{Amount, Earth, Ingredient, Recipe, percent};
use crate::build::{self, Build, Source, Written};
use crate::earth;
use crate::known::{Known, Origin};
use crate::units::{Days, Mass, Ratio, System};

/// How far shares of one mix may miss the whole: rounding on paper.
const SHARES: f64 = 0.001;

/// A recipe of a build file.
pub(super) fn place(
    source: &Source<'_>,
    build: &Build,
    written: &build::Recipe,
    ingredients: &[Ingredient],
    system: System,
) -> Option<Recipe> {
    let path = |noun: &str| format!("earth.recipes.{}.{noun}", written.name.value);
    let place = |name: &Written<String>| {
        let found = ingredients.iter().position(|ingredient| ingredient.name == name.value);
        if found.is_none() {
            let hint = nearest(ingredients.iter().map(|ingredient| ingredient.name.as_str()), &name.value);
            let message = format!("there is no ingredient \"{}\"", name.value);
            source.fault(name.span.clone(), &name.path, message, hint);
        }
        found
    };
    let mut parts = Vec::new();
    let mut whole = true;
    for (name, buckets) in &written.buckets {
        let buckets = within(source, Some(buckets), 0.01..500.0, "a number of buckets on a tarp", system);
        let found = place(name).zip(buckets);
        whole &= found.is_some();
        parts.extend(found.map(|(at, buckets)| (at, Amount::Buckets(buckets))));
    }
    for (name, share) in &written.dry {
        let share = within(source, Some(share), percent(0.01, 100.000_001), "a share of the dry mass", system);
        let found = place(name).zip(share);
        whole &= found.is_some();
        parts.extend(found.map(|(at, share)| (at, Amount::DryShare(share))));
    }
    let batch = within(source, written.batch.as_ref(), 0.5..500.0, "a number of buckets on a tarp", system);
    let straw = within(source, written.straw.as_ref(), percent(0.0, 30.0), "straw for the dry mass", system);
    let what = "the moisture of a mix, of dry mass";
    let water = within(source, written.water.as_ref(), percent(2.0, 200.0), what, system);
    let what = "the yield of a tarp, placed volume for loose volume";
    let placed_yield =
        within(source, written.placed_yield.as_ref(), percent(30.0, 100.0 * Recipe::MOST_YIELD), what, system);
    let adds_up = is_one_measure(source, written);
    let straw = straw.unwrap_or_else(|| {
        let why = if written.straw.is_none() { "no straw is written" } else { "" };
        Known::assumed(Ratio::ZERO, path("straw"), Origin::Judgement, why)
    });
    let placed_yield = placed_yield.unwrap_or_else(|| {
        let why = "loose buckets tread down to about seven tenths; measure yours over ten batches";
        Known::assumed(Ratio::percent(70.0), path("yield"), Origin::Memory, why)
    });
    let shrinkage = shrinkage(source, build, written, system);
    let lead = lead(source, written, system);
    let start = known(written.start.as_ref());
    let (name, water) = (written.name.value.clone(), water?);
    (whole && adds_up).then_some(Recipe { name, parts, batch, straw, water, placed_yield, shrinkage, lead, start })
}

/// What a mix shrinks by: as it is written, else as its bars say, else as any cob does.
fn shrinkage(source: &Source<'_>, build: &Build, written: &build::Recipe, system: System) -> Known<Ratio> {
    let path = format!("{}.shrinkage", written.name.path);
    let what = "what a bar of cob shrinks by";
    let own = within(source, written.shrinkage.as_ref(), percent(0.0, MOST_SHRINKAGE), what, system);
    let tested = by_bars(build, &written.name.value).filter(|_| written.shrinkage.is_none());
    let why = "about 1 cm in a metre, said of any cob and not of this mix; let a bar of yours dry and measure it";
    own.unwrap_or_else(|| match tested {
        Some(tested) => Known::assumed(tested, path, Origin::Given, "its bars say so"),
        None => Known::assumed(Ratio::percent(1.0), path, Origin::CommonPractice, why),
    })
}

/// What takes time before the work of a mix can start.
fn lead(source: &Source<'_>, written: &build::Recipe, system: System) -> Vec<(&'static str, Known<Days>)> {
    let spans = Days::hours(1.0)..Days::days(400.0);
    let what = "how long a mix is made ready beforehand";
    let steps = written.lead.iter();
    let read: Vec<_> = steps
        .filter_map(|(step, days)| Some((*step, within(source, Some(days), spans.clone(), what, system)?)))
        .collect();
    let is_bare = written.lead.is_empty() && !source.is_faulty(&written.name.path);
    if let Some(at) = written.start.as_ref().filter(|_| is_bare) {
        let hint = "write lead = { soak = \"3 days\", start = 2027-05-20 }, or leave `lead` out";
        source.fault(at.span.clone(), &at.path, "nothing says what takes time before this day", hint);
    }
    read
}

/// Whether a recipe is written either in buckets or in shares that add up.
fn is_one_measure(source: &Source<'_>, written: &build::Recipe) -> bool {
    let name = &written.name;
    let fault = |span: &Range<usize>, path: &str, message: String, hint: &str| {
        source.fault(span.clone(), path, message, hint);
        false
    };
    match (written.buckets.as_slice(), written.dry.as_slice(), &written.batch) {
        ([], [], _) => {
            let hint = "write buckets = { soil = 3, sand = 5 }, or dry = { soil = \"40 %\", sand = \"60 %\" }";
            // A share or a number that cannot be read was told where it stands.
            let told = source.is_faulty(&name.path);
            told || fault(&name.span, &name.path, "the recipe has no ingredients".into(), hint)
        }
        ([(first, _), ..], [_, ..], _) => {
            let message = "the recipe is written both in buckets and in shares".into();
            fault(&first.span, &first.path, message, "write `buckets` or `dry`, not both")
        }
        ([_, ..], [], Some(batch)) => {
            let message = "the buckets say already how large a batch is".into();
            fault(&batch.span, &batch.path, message, "leave `batch` out; it goes with `dry`")
        }
        ([], [(first, share), ..], batch) => {
            let sum: f64 = written.dry.iter().map(|(_, share)| share.value.in_percent()).sum();
            let mut right = true;
            if (sum - 100.0).abs() > 100.0 * SHARES {
                let message = format!("the shares add up to {:.1} %, not to 100 %", sum);
                right = fault(&share.span, &first.path, message, "write shares of the dry mass that make 100 %");
            }
            if batch.is_none() {
                let message = "nothing says how many buckets go on a tarp".into();
                right = fault(&name.span, &name.path, message, "write batch = 8, the buckets of all together");
            }
            right
        }
        _ => true,
    }
}

/// Refuses a mix that is drier than its piles, or that has no room for its grains and water.
pub(super) fn can_be(source: &Source<'_>, earth: &Earth, recipe: &Recipe, written: &build::Recipe, system: System) {
    let masses = earth.dry_masses(recipe);
    let dry: Mass = masses.iter().copied().sum();
    let moisture = |(ingredient, _): &(usize, Amount)| earth.ingredients[*ingredient].moisture.value.in_fraction();
    let pile: Mass = recipe.parts.iter().zip(&masses).map(|(part, mass)| *mass * moisture(part)).sum();
    if let Some(water) = &written.water
        && earth::water_to_add(dry, recipe.water.value, pile).value < Mass::ZERO
    {
        let message = format!(
            "the piles are wetter, at {}, than the mix is to be, at {}",
            shown(Ratio::fraction(pile / dry), system),
            shown(recipe.water.value, system)
        );
        source.fault(water.span.clone(), &water.path, message, "let the piles dry, or write the moisture you tread");
    }
    let loose = earth::loose_volume(earth.bucket(), earth.buckets(recipe).iter().sum()).value;
    let placed = earth::placed_volume(loose, recipe.placed_yield.value).value;
    let full = earth::grains_and_water(dry, recipe.water.value).value;
    if full > placed {
        let least = shown(Ratio::fraction(full / loose), system);
        let (at, hint) = match (&written.placed_yield, &written.water) {
            (Some(at), _) => (at, "check the yield, the moisture of the mix and the densities of the piles".to_owned()),
            (None, Some(at)) => (at, format!("70 % is assumed: write the `yield` you measured, {least} or more")),
            (None, None) => return,
        };
        let message = format!(
            "a batch has {} of grains and water, more than the {} that it would fill as placed",
            shown(full, system),
            shown(placed, system)
        );
        source.fault(at.span.clone(), &at.path, message, hint);
    }
}

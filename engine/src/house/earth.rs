//! Earth with nothing missing: bucket, loaf, straw, ingredients and recipes; impossible ones are refused.

mod small_tests;

pub use small_tests::{Feel, Pair, SmallTests};

use std::ops::Range;

use super::bought::{STONES, STRAW, WATER};
use super::place::{nearest, shown, within};
use super::site;
use crate::build::{self, Build, Fill, IngredientKind, SoilFrom, Source, Written};
use crate::earth;
use crate::known::{Known, Origin};
use crate::units::{Density, Mass, Ratio, System, Volume};

/// How far shares of one mix may miss the whole: rounding on paper.
const SHARES: f64 = 0.001;

/// Everything that is trodden.
#[derive(Clone, Debug)]
pub struct Earth {
    /// Volume of the bucket to its brim.
    pub brim: Known<Volume>,
    /// What the heap adds; none when buckets are struck.
    pub heap: Option<Known<Ratio>>,
    /// Mass of a loaf.
    pub loaf: Known<Mass>,
    /// Mass of a bale.
    pub bale: Known<Mass>,
    /// Mass of an armful.
    pub armful: Known<Mass>,
    /// What goes on the tarp.
    pub ingredients: Vec<Ingredient>,
    /// What comes off it.
    pub recipes: Vec<Recipe>,
    /// Small tests of the piles.
    pub small_tests: SmallTests,
}

/// One pile.
#[derive(Clone, Debug)]
pub struct Ingredient {
    /// Its name.
    pub name: String,
    /// Soil, sand or what else.
    pub kind: IngredientKind,
    /// Dry mass in a cubic metre: loose from the pile, for sand settled.
    pub density: Known<Density>,
    /// Loose damp volume over settled volume, for sand.
    pub bulking: Option<Known<f64>>,
    /// Moisture of the pile, of dry mass.
    pub moisture: Known<Ratio>,
    /// Clay in its dry mass, when it is written.
    pub clay: Option<Known<Ratio>>,
    /// Where it comes from, when it is soil.
    pub from: Option<SoilFrom>,
    /// Whether its tests say the bulking and the moisture, since it does not.
    pub is_tested: [bool; 2],
}

impl Ingredient {
    /// Its key.
    #[must_use]
    pub fn path(&self, noun: &str) -> String {
        format!("earth.ingredients.{}.{noun}", self.name)
    }

    /// The row of its dry mass in a cubic metre as it is shovelled.
    #[must_use]
    pub fn loose_density_path(&self) -> String {
        self.path(if self.bulking.is_some() { "loose-density" } else { "density" })
    }

    /// Dry mass in a cubic metre as it is shovelled.
    #[must_use]
    pub fn loose_density(&self) -> Density {
        let bulking = self.bulking.as_ref();
        bulking.map_or(self.density.value, |bulking| earth::loose_density(self.density.value, bulking.value).value)
    }
}

/// How much of an ingredient a recipe takes.
#[derive(Clone, Debug)]
pub enum Amount {
    /// So many buckets on the tarp.
    Buckets(Known<f64>),
    /// A share of the dry mass.
    DryShare(Known<Ratio>),
}

/// A mix.
#[derive(Clone, Debug)]
pub struct Recipe {
    /// Its name.
    pub name: String,
    /// Ingredients by place in the list, and how much of each.
    pub parts: Vec<(usize, Amount)>,
    /// Buckets on the tarp, when parts are shares.
    pub batch: Option<Known<f64>>,
    /// Straw for the dry mass of the rest.
    pub straw: Known<Ratio>,
    /// Moisture of the mix, of the dry mass of the rest.
    pub water: Known<Ratio>,
    /// Placed volume for each loose volume.
    pub placed_yield: Known<Ratio>,
    /// What a bar of it shrinks by as it dries, of its wet length.
    pub shrinkage: Known<Ratio>,
}

impl Recipe {
    /// Its key.
    #[must_use]
    pub fn path(&self, noun: &str) -> String {
        format!("earth.recipes.{}.{noun}", self.name)
    }
}

impl Earth {
    /// Volume of a bucket as it is filled.
    #[must_use]
    pub fn bucket(&self) -> Volume {
        let heap = self.heap.as_ref().map_or(Ratio::ZERO, |heap| heap.value);
        earth::bucket_filled(self.brim.value, heap).value
    }

    /// The row of the volume of a bucket as it is filled.
    #[must_use]
    pub fn bucket_path(&self) -> &'static str {
        if self.heap.is_some() { "earth.bucket.filled" } else { "earth.bucket.brim" }
    }

    /// For each part of a recipe, its share over its loose density, and the sum of all, in m³/kg.
    #[must_use]
    pub fn over_densities(&self, recipe: &Recipe) -> (Vec<f64>, f64) {
        let over = recipe.parts.iter().map(|(ingredient, amount)| match amount {
            Amount::Buckets(_) => 0.0,
            Amount::DryShare(share) => {
                share.value.in_fraction() / self.ingredients[*ingredient].loose_density().in_kg_m3()
            }
        });
        let over: Vec<f64> = over.collect();
        let all = over.iter().sum();
        (over, all)
    }

    /// Buckets of each part on the tarp.
    #[must_use]
    pub fn buckets(&self, recipe: &Recipe) -> Vec<f64> {
        let (over, all) = self.over_densities(recipe);
        let batch = recipe.batch.as_ref().map_or(0.0, |batch| batch.value);
        let parts = recipe.parts.iter().zip(over);
        parts
            .map(|((_, amount), over)| match amount {
                Amount::Buckets(buckets) => buckets.value,
                Amount::DryShare(_) => earth::buckets_for_share(batch, over, all).value,
            })
            .collect()
    }

    /// Dry mass of each part on the tarp.
    #[must_use]
    pub fn dry_masses(&self, recipe: &Recipe) -> Vec<Mass> {
        let bucket = self.bucket();
        let buckets = self.buckets(recipe);
        let parts = recipe.parts.iter().zip(buckets);
        parts
            .map(|((ingredient, _), buckets)| {
                earth::part_dry_mass(buckets, bucket, self.ingredients[*ingredient].loose_density()).value
            })
            .collect()
    }

    /// The recipe of that name.
    #[must_use]
    pub fn recipe(&self, name: &str) -> Option<&Recipe> {
        self.recipes.iter().find(|recipe| recipe.name == name)
    }
}

/// The earth of a build file; none when it writes no recipe.
pub(super) fn place(source: &Source<'_>, build: &Build, system: System) -> Option<Earth> {
    let written = &build.earth;
    let span = written.span.clone().filter(|_| !written.recipes.is_empty() || !written.ingredients.is_empty());
    let Some(span) = span else {
        small_tests::place(source, build, &[], system);
        return None;
    };
    let Some(bucket) = &written.bucket else {
        source.fault(
            span,
            "earth.bucket",
            "nothing says what a bucket holds",
            "write bucket = { fill = \"struck\", brim = \"15 L\" } in [earth]",
        );
        return None;
    };
    let litres = Volume::litres(1.0)..Volume::litres(300.0);
    let brim = within(source, bucket.brim.as_ref(), litres, "what a bucket holds", system);
    let heap = (bucket.fill.as_ref().map(|fill| fill.value) == Some(Fill::Heaped)).then(|| {
        within(source, bucket.heap.as_ref(), percent(0.0, 80.0), "what a heap adds to a bucket", system).unwrap_or_else(
            || {
                let why = "a heap adds about a fifth; measure yours in a box of known size";
                Known::assumed(Ratio::percent(20.0), "earth.bucket.heap", Origin::Judgement, why)
            },
        )
    });
    let mass = |written: &Option<Written<Mass>>, range: Range<f64>, what: &str| {
        within(source, written.as_ref(), Mass::kg(range.start)..Mass::kg(range.end), what, system)
    };
    let loaf = mass(&written.loaf, 0.3..30.0, "the mass of a loaf").unwrap_or_else(|| {
        let why = "a loaf that is passed from hand to hand all day";
        Known::assumed(Mass::kg(5.0), "earth.loaf", Origin::Judgement, why)
    });
    let bale = mass(&written.straw.bale, 2.0..700.0, "the mass of a bale").unwrap_or_else(|| {
        let why = "a two-string bale weighs about 20 kg; weigh three";
        Known::assumed(Mass::kg(20.0), "earth.straw.bale", Origin::Memory, why)
    });
    let armful = mass(&written.straw.armful, 0.05..8.0, "the mass of an armful of straw").unwrap_or_else(|| {
        let why = "weigh ten armfuls of your own";
        Known::assumed(Mass::kg(0.5), "earth.straw.armful", Origin::Judgement, why)
    });
    let ingredients: Vec<Ingredient> =
        written.ingredients.iter().filter_map(|written| ingredient(source, build, written, system)).collect();
    if ingredients.len() < written.ingredients.len() {
        return None;
    }
    let recipes = written.recipes.iter().filter_map(|written| recipe(source, written, &ingredients, system)).collect();
    let small_tests = small_tests::place(source, build, &ingredients, system);
    let earth = Earth { brim: brim?, heap, loaf, bale, armful, ingredients, recipes, small_tests };
    for recipe in &earth.recipes {
        if let Some(written) = written.recipes.iter().find(|written| written.name.value == recipe.name) {
            can_be(source, &earth, recipe, written, system);
        }
    }
    Some(earth)
}

pub(super) fn percent(from: f64, to: f64) -> Range<Ratio> {
    Ratio::percent(from)..Ratio::percent(to)
}

fn ingredient(source: &Source<'_>, build: &Build, written: &build::Ingredient, system: System) -> Option<Ingredient> {
    let kind = written.kind.as_ref()?.value;
    let name = written.name.value.clone();
    if STONES.into_iter().chain([STRAW, WATER]).any(|taken| taken == name) {
        let message = format!("\"{name}\" is what the build buys by itself: it cannot be an ingredient too");
        source.fault(written.name.span.clone(), &written.name.path, message, "give the pile a name of its own");
    }
    let densities = Density::kg_m3(20.0)..Density::kg_m3(2500.0);
    let density =
        within(source, written.density.as_ref(), densities, "the dry mass in a cubic metre of a pile", system);
    let bulking = (kind == IngredientKind::Sand).then(|| small_tests::bulking(source, build, written, system));
    let (moisture, is_damp) = small_tests::dampness(source, build, written, system);
    let is_tested = [bulking.as_ref().is_some_and(|(_, is_tested)| *is_tested), is_damp];
    let bulking = bulking.map(|(bulking, _)| bulking);
    let what = "clay in the dry mass of a soil";
    let clay = within(source, written.clay.as_ref(), percent(0.0, 100.000_001), what, system);
    let from = site::soil_from(source, written, build);
    Some(Ingredient { kind, density: density?, bulking, moisture, clay, from, is_tested, name })
}

fn recipe(source: &Source<'_>, written: &build::Recipe, ingredients: &[Ingredient], system: System) -> Option<Recipe> {
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
    let placed_yield = within(source, written.placed_yield.as_ref(), percent(30.0, 300.0), what, system);
    let adds_up = is_one_measure(source, written);
    let straw = straw.unwrap_or_else(|| {
        let why = if written.straw.is_none() { "no straw is written" } else { "" };
        Known::assumed(Ratio::ZERO, path("straw"), Origin::Judgement, why)
    });
    let placed_yield = placed_yield.unwrap_or_else(|| {
        let why = "loose buckets tread down to about seven tenths; measure yours over ten batches";
        Known::assumed(Ratio::percent(70.0), path("yield"), Origin::Memory, why)
    });
    let what = "what a bar of cob shrinks by";
    let shrinkage = within(source, written.shrinkage.as_ref(), percent(0.0, 15.0), what, system);
    let shrinkage = shrinkage.unwrap_or_else(|| {
        let why = "about 1 cm in a metre, said of any cob and not of this mix; let a bar of yours dry and measure it";
        Known::assumed(Ratio::percent(1.0), path("shrinkage"), Origin::CommonPractice, why)
    });
    let (name, water) = (written.name.value.clone(), water?);
    (whole && adds_up).then_some(Recipe { name, parts, batch, straw, water, placed_yield, shrinkage })
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
fn can_be(source: &Source<'_>, earth: &Earth, recipe: &Recipe, written: &build::Recipe, system: System) {
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

/// The recipe that a text names; a fault with the nearest name otherwise.
pub(super) fn recipe_named(source: &Source<'_>, written: &Written<String>, earth: Option<&Earth>) -> Option<String> {
    let recipes = earth.map_or(&[][..], |earth| &earth.recipes);
    if recipes.iter().any(|recipe| recipe.name == written.value) {
        return Some(written.value.clone());
    }
    let hint = nearest(recipes.iter().map(|recipe| recipe.name.as_str()), &written.value);
    source.fault(written.span.clone(), &written.path, format!("there is no recipe \"{}\"", written.value), hint);
    None
}

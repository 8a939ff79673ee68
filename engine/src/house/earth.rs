//! Earth with nothing missing: bucket, loaf, straw, ingredients and recipes; impossible ones are refused.

mod recipe;
mod small_tests;

pub use small_tests::{Feel, Pair, SmallTests};

use std::ops::Range;

use jiff::civil::Date;

use super::bought::{STONES, STRAW, WATER};
use super::place::{nearest, within};
use super::site;
use crate::build::{self, Build, Fill, IngredientKind, SoilFrom, Source, Written};
use crate::earth;
use crate::known::{Known, Origin};
use crate::units::{Days, Density, Mass, Ratio, System, Volume};

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
    /// What takes time before its work can start, step by step.
    pub lead: Vec<(&'static str, Known<Days>)>,
    /// The day on which its work starts, where it is written.
    pub start: Option<Known<Date>>,
}

impl Recipe {
    /// Nothing that is trodden fills more than this of its loose volume.
    pub const MOST_YIELD: f64 = 3.0;

    /// Its key.
    #[must_use]
    pub fn path(&self, noun: &str) -> String {
        format!("earth.recipes.{}.{noun}", self.name)
    }

    /// Whether its bars say what it shrinks by, since it does not itself.
    #[must_use]
    pub fn is_by_bars(&self) -> bool {
        self.shrinkage.origin == Origin::Given && self.shrinkage.line.is_none()
    }

    /// Whether a bar says what it shrinks by, written or measured; else it is taken to shrink as any cob does.
    #[must_use]
    pub fn has_bar(&self) -> bool {
        self.shrinkage.origin == Origin::Given
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
    let recipes = written
        .recipes
        .iter()
        .filter_map(|written| recipe::place(source, build, written, &ingredients, system))
        .collect();
    let small_tests = small_tests::place(source, build, &ingredients, system);
    let earth = Earth { brim: brim?, heap, loaf, bale, armful, ingredients, recipes, small_tests };
    for recipe in &earth.recipes {
        if let Some(written) = written.recipes.iter().find(|written| written.name.value == recipe.name) {
            recipe::can_be(source, &earth, recipe, written, system);
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

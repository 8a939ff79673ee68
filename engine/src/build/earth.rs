//! The tables of earth: bucket, loaf, straw, ingredients, recipes.

use jiff::civil::Date;

use super::reader::Table;
use super::source::Written;
use crate::units::{Days, Density, Kind, Length, Mass, Ratio, Volume};

/// `[earth]`
#[derive(Clone, Debug, Default)]
pub struct Earth {
    /// Where the table is written, when it is.
    pub span: Option<std::ops::Range<usize>>,
    /// `[earth.bucket]`
    pub bucket: Option<Bucket>,
    /// Mass of a loaf.
    pub loaf: Option<Written<Mass>>,
    /// `[earth.straw]`
    pub straw: Straw,
    /// `[earth.ingredients.NAME]`
    pub ingredients: Vec<Ingredient>,
    /// `[earth.recipes.NAME]`
    pub recipes: Vec<Recipe>,
}

/// How a bucket is filled.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Fill {
    /// Level with the brim.
    Struck,
    /// Heaped above it.
    Heaped,
}

/// `[earth.bucket]`
#[derive(Clone, Debug, Default)]
pub struct Bucket {
    /// How it is filled.
    pub fill: Option<Written<Fill>>,
    /// Volume to the brim.
    pub brim: Option<Written<Volume>>,
    /// What the heap adds, as a share of the brim volume.
    pub heap: Option<Written<Ratio>>,
}

/// `[earth.straw]`
#[derive(Clone, Debug, Default)]
pub struct Straw {
    /// Mass of a bale.
    pub bale: Option<Written<Mass>>,
    /// Mass of an armful.
    pub armful: Option<Written<Mass>>,
}

/// What an ingredient is.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum IngredientKind {
    /// Soil with clay in it.
    Soil,
    /// Sand; it bulks when damp.
    Sand,
    /// Anything coarser or lighter that is measured in buckets.
    Aggregate,
}

/// Where soil comes from.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum SoilFrom {
    /// A supplier.
    Bought,
    /// A pit on the site.
    Pit,
    /// What trench, drain and floor give.
    Trench,
}

/// `[earth.ingredients.NAME]`
#[derive(Clone, Debug)]
pub struct Ingredient {
    /// Its name.
    pub name: Written<String>,
    /// What it is.
    pub kind: Option<Written<IngredientKind>>,
    /// Dry mass in a cubic metre: loose from the pile, for sand settled.
    pub density: Option<Written<Density>>,
    /// Loose damp volume over settled volume, for sand.
    pub bulking: Option<Written<f64>>,
    /// Moisture of the pile, of dry mass.
    pub moisture: Option<Written<Ratio>>,
    /// Clay in its dry mass.
    pub clay: Option<Written<Ratio>>,
    /// Where it comes from, for soil.
    pub from: Option<Written<SoilFrom>>,
}

/// `[earth.recipes.NAME]`
#[derive(Clone, Debug)]
pub struct Recipe {
    /// Its name.
    pub name: Written<String>,
    /// Buckets of each ingredient.
    pub buckets: Vec<(Written<String>, Written<f64>)>,
    /// Share of each ingredient in the dry mass.
    pub dry: Vec<(Written<String>, Written<Ratio>)>,
    /// Buckets of all ingredients together on the tarp, beside `dry`.
    pub batch: Option<Written<f64>>,
    /// Straw for the dry mass of the rest.
    pub straw: Option<Written<Ratio>>,
    /// Moisture of the mix, of the dry mass of the rest.
    pub water: Option<Written<Ratio>>,
    /// Placed volume for each loose volume.
    pub placed_yield: Option<Written<Ratio>>,
    /// What a bar of it shrinks by as it dries, of its wet length.
    pub shrinkage: Option<Written<Ratio>>,
    /// What takes time before its work can start, step by step as it is written.
    pub lead: Vec<(&'static str, Written<Days>)>,
    /// The day on which its work starts.
    pub start: Option<Written<Date>>,
}

/// What is done with a mix or its parts days before it is wanted.
const LEADS: [&str; 5] = ["soak", "slake", "ferment", "sieve", "chop"];

pub(super) fn earth(mut table: Table<'_, '_>) -> Earth {
    let mut earth = Earth { span: Some(table.span.clone()), ..Earth::default() };
    earth.bucket = table.table("bucket").map(|mut bucket| {
        let fill = bucket.needed_choice("fill", &[("struck", Fill::Struck), ("heaped", Fill::Heaped)]);
        let brim = bucket.needed_like("brim", Kind::Volume, "15 L");
        let is_struck = fill.as_ref().is_some_and(|fill| fill.value == Fill::Struck);
        let heap = if is_struck { None } else { bucket.quantity("heap", Kind::Ratio) };
        bucket.finish();
        Bucket { fill, brim, heap }
    });
    earth.loaf = table.quantity("loaf", Kind::Mass);
    if let Some(mut straw) = table.table("straw") {
        earth.straw = Straw { bale: straw.quantity("bale", Kind::Mass), armful: straw.quantity("armful", Kind::Mass) };
        straw.finish();
    }
    let ingredients = table.named_tables_under("ingredients").into_iter();
    earth.ingredients = ingredients.map(|(name, table)| ingredient(name, table)).collect();
    let recipes = table.named_tables_under("recipes").into_iter();
    earth.recipes = recipes.map(|(name, table)| recipe(name, table)).collect();
    table.finish();
    earth
}

fn ingredient(name: Written<String>, mut table: Table<'_, '_>) -> Ingredient {
    let kinds =
        [("soil", IngredientKind::Soil), ("sand", IngredientKind::Sand), ("aggregate", IngredientKind::Aggregate)];
    let kind = table.needed_choice("kind", &kinds);
    let is_sand = kind.as_ref().is_some_and(|kind| kind.value == IngredientKind::Sand);
    let read = Ingredient {
        name,
        density: table.needed("density", Kind::Density),
        bulking: if is_sand { table.quantity("bulking", Kind::Number) } else { None },
        moisture: table.quantity("moisture", Kind::Ratio),
        clay: table.quantity("clay", Kind::Ratio),
        from: if kind.as_ref().is_none_or(|kind| kind.value == IngredientKind::Soil) {
            let words = [("bought", SoilFrom::Bought), ("pit", SoilFrom::Pit), ("trench", SoilFrom::Trench)];
            table.choice("from", &words)
        } else {
            None
        },
        kind,
    };
    table.finish();
    read
}

fn recipe(name: Written<String>, mut table: Table<'_, '_>) -> Recipe {
    let (mut lead, mut start) = (Vec::new(), None);
    if let Some(mut own) = table.table("lead") {
        lead = LEADS.into_iter().filter_map(|step| Some((step, own.quantity(step, Kind::Days)?))).collect();
        lead.sort_by_key(|(_, days): &(_, Written<Days>)| days.span.start);
        start = own.date("start");
        own.finish();
    }
    let read = Recipe {
        name,
        buckets: table.by_name("buckets", Kind::Number),
        dry: table.by_name("dry", Kind::Ratio),
        batch: table.quantity("batch", Kind::Number),
        straw: table.quantity("straw", Kind::Ratio),
        water: table.needed_like("water", Kind::Ratio, "18 %"),
        placed_yield: table.quantity("yield", Kind::Ratio),
        shrinkage: table.quantity("shrinkage", Kind::Ratio),
        lead,
        start,
    };
    table.finish();
    read
}

/// A layer or coat: what of, how thick.
#[derive(Clone, Debug)]
pub struct Layer {
    /// Its name.
    pub name: Written<String>,
    /// What it is made of: a recipe, or a thing that is bought.
    pub of: Option<Written<String>>,
    /// Thickness in place.
    pub thickness: Option<Written<Length>>,
    /// Loose volume for each volume in place.
    pub loose: Option<Written<f64>>,
}

/// Layers of a list.
pub(super) fn layers(table: &mut Table<'_, '_>, key: &'static str) -> Vec<Layer> {
    let listed = table.listed_tables(key).into_iter();
    listed
        .map(|(name, mut table)| {
            let read = Layer {
                name,
                of: table.needed_text("of", "gravel"),
                thickness: table.needed("thickness", Kind::Length),
                loose: table.quantity("loose", Kind::Number),
            };
            table.finish();
            read
        })
        .collect()
}

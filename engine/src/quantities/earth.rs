//! Rows of earth: what stands behind the buckets of each recipe, what a batch gives, and how many batches it takes.

use super::need::Need;
use super::{lead, samples, small_tests};
use crate::earth;
use crate::house::{Amount, Earth, House, Recipe, STRAW, WATER};
use crate::row::Rows;
use crate::units::{Mass, Ratio, Volume};

/// What is made of a recipe: the recipe, and the path of the volume to mix.
pub(super) struct Use {
    pub(super) recipe: String,
    pub(super) volume: String,
}

/// Rows of the bucket, the piles and one batch of each recipe.
pub(super) fn recipes(house: &House, rows: &mut Rows) {
    let Some(earth) = &house.earth else { return };
    let brim = rows.known("what a bucket holds to its brim", &earth.brim);
    if let Some(heap) = &earth.heap {
        let heap = rows.known("what a heap adds to a bucket", heap);
        let filled =
            earth::bucket_filled(brim, heap).from("brim", "earth.bucket.brim").from("heap", "earth.bucket.heap");
        rows.add("earth.bucket.filled", "what a heaped bucket holds", filled);
    }
    rows.known("mass of a loaf", &earth.loaf);
    rows.known("mass of a bale of straw", &earth.bale);
    rows.known("mass of an armful of straw", &earth.armful);
    for ingredient in &earth.ingredients {
        let name = &ingredient.name;
        let what = if ingredient.bulking.is_some() { "settled" } else { "loose" };
        let density = rows.known(format!("dry mass in a {what} cubic metre of {name}"), &ingredient.density);
        small_tests::pile(earth, ingredient, rows);
        if let Some(bulking) = &ingredient.bulking {
            let loose = earth::loose_density(density, bulking.value)
                .from("density", ingredient.path("density"))
                .from("bulking", ingredient.path("bulking"));
            rows.add(ingredient.path("loose-density"), format!("dry mass in a loose cubic metre of {name}"), loose);
        }
        if let Some(clay) = &ingredient.clay {
            rows.known(format!("clay in the dry mass of {name}"), clay);
        }
        let full = earth::bucket_mass(earth.bucket(), ingredient.loose_density(), ingredient.moisture.value)
            .from("bucket", earth.bucket_path())
            .from("loose density", ingredient.loose_density_path())
            .from("moisture", ingredient.path("moisture"));
        rows.add(ingredient.path("bucket-mass"), format!("mass of a full bucket of {name}"), full);
    }
    small_tests::weighings(earth, rows);
    samples::bars(house, rows);
    for recipe in &earth.recipes {
        let is_cob = house.wall.cob.as_deref() == Some(recipe.name.as_str());
        Batch { earth, recipe, is_cob }.walk(rows);
        samples::shrinkage(house, recipe, is_cob, rows);
        lead::walk(house, recipe, is_cob, rows);
    }
    samples::erosion(house, rows);
    samples::shown(house, rows);
}

/// One batch of a recipe.
struct Batch<'a> {
    earth: &'a Earth,
    recipe: &'a Recipe,
    is_cob: bool,
}

impl Batch<'_> {
    fn path(&self, noun: &str) -> String {
        self.recipe.path(noun)
    }

    fn title(&self, words: &str) -> String {
        format!("{words} a batch of {}", self.recipe.name.replace('-', " "))
    }

    fn walk(&self, rows: &mut Rows) {
        let recipe = self.recipe;
        let name = recipe.name.replace('-', " ");
        if let Some(batch) = &recipe.batch {
            rows.known(self.title("buckets in"), batch);
        }
        rows.known(format!("straw in {name}, for the dry mass of the rest"), &recipe.straw);
        rows.known(format!("moisture of {name} on the tarp, of dry mass"), &recipe.water);
        rows.known(format!("yield of {name}, placed over loose volume"), &recipe.placed_yield);
        let dry = self.parts(rows);
        self.clay(dry, rows);
        let placed = self.volumes(dry, rows);
        self.water(dry, placed, rows);
    }

    /// Buckets, dry mass and share of each ingredient; the dry mass of all.
    fn parts(&self, rows: &mut Rows) -> Mass {
        let (earth, recipe) = (self.earth, self.recipe);
        let bucket = earth.bucket();
        let (over, all) = earth.over_densities(recipe);
        let mut parts = Vec::new();
        for ((at, amount), over) in recipe.parts.iter().zip(over) {
            let ingredient = &earth.ingredients[*at];
            let name = &ingredient.name;
            let path = self.path(&format!("buckets.{name}"));
            let buckets = match amount {
                Amount::Buckets(buckets) => rows.known(self.title(&format!("buckets of {name} in")), buckets),
                Amount::DryShare(share) => {
                    rows.known(self.title(&format!("share of {name} in the dry mass of")), share);
                    let batch = recipe.batch.as_ref().map_or(0.0, |batch| batch.value);
                    let mut buckets = earth::buckets_for_share(batch, over, all).from("batch", self.path("batch"));
                    for (at, amount) in &recipe.parts {
                        let other = &earth.ingredients[*at];
                        if let Amount::DryShare(share) = amount {
                            buckets = buckets
                                .with(format!("share of {}", other.name), share.value, share.path.as_str())
                                .with(
                                    format!("loose density of {}", other.name),
                                    other.loose_density(),
                                    other.loose_density_path(),
                                );
                        }
                    }
                    rows.add(path.as_str(), self.title(&format!("buckets of {name} in")), buckets)
                }
            };
            if let Some(bulking) = &ingredient.bulking {
                let settled = earth::settled_buckets(buckets, bulking.value)
                    .from("buckets", path.as_str())
                    .from("bulking", ingredient.path("bulking"));
                let title = self.title(&format!("buckets that the {name} would fill if it did not bulk, in"));
                rows.add(self.path(&format!("settled.{name}")), title, settled);
            }
            let mass = earth::part_dry_mass(buckets, bucket, ingredient.loose_density())
                .from("buckets", path)
                .from("bucket", earth.bucket_path())
                .from("loose density", ingredient.loose_density_path());
            let path = self.path(&format!("mass.{name}"));
            let mass = rows.add(path.as_str(), self.title(&format!("dry mass of {name} in")), mass);
            parts.push((name.as_str(), path, mass));
        }
        let sum = parts.iter().map(|(.., mass)| *mass).sum();
        let mut dry = earth::batch_dry_mass(sum);
        for (name, path, mass) in &parts {
            dry = dry.with((*name).to_owned(), *mass, path.as_str());
        }
        let dry = rows.add(self.path("dry-mass"), self.title("dry mass of soil, sand and aggregate in"), dry);
        for (name, path, mass) in parts {
            let share = earth::dry_share(mass, dry).from("part", path).from("batch", self.path("dry-mass"));
            rows.add(self.path(&format!("share.{name}")), self.title(&format!("{name} by dry mass in")), share);
        }
        dry
    }

    fn clay(&self, dry: Mass, rows: &mut Rows) {
        let (earth, recipe) = (self.earth, self.recipe);
        let masses = earth.dry_masses(recipe);
        let parts = recipe.parts.iter().zip(masses).filter_map(|((at, _), mass)| {
            let ingredient = &earth.ingredients[*at];
            Some((ingredient, ingredient.clay.as_ref()?, mass))
        });
        let parts: Vec<_> = parts.collect();
        if parts.is_empty() {
            return;
        }
        let clay: Mass = parts.iter().map(|(_, clay, mass)| *mass * clay.value.in_fraction()).sum();
        let mut answer = earth::clay_share(dry, clay).from("batch", self.path("dry-mass"));
        for (ingredient, clay, mass) in parts {
            let name = &ingredient.name;
            answer = answer.with(format!("clay of {name}"), clay.value, clay.path.as_str()).with(
                format!("dry mass of {name}"),
                mass,
                self.path(&format!("mass.{name}")),
            );
        }
        let path = if self.is_cob { "wall.cob.clay".to_owned() } else { self.path("clay") };
        rows.add(path, self.title("clay in the dry mass of"), answer);
    }

    /// Loose, placed, straw and densities; the placed volume of a batch.
    fn volumes(&self, dry: Mass, rows: &mut Rows) -> Volume {
        let (earth, recipe) = (self.earth, self.recipe);
        let buckets = earth.buckets(recipe);
        let mut loose = earth::loose_volume(earth.bucket(), buckets.iter().sum()).from("bucket", earth.bucket_path());
        for ((at, _), buckets) in recipe.parts.iter().zip(buckets) {
            let name = &earth.ingredients[*at].name;
            loose = loose.with(format!("buckets of {name}"), buckets, self.path(&format!("buckets.{name}")));
        }
        let loose = rows.add(self.path("loose-volume"), self.title("loose volume of"), loose);
        let placed = earth::placed_volume(loose, recipe.placed_yield.value)
            .from("loose volume", self.path("loose-volume"))
            .from("placed yield", self.path("yield"));
        let placed = rows.add(self.path("placed-volume"), self.title("volume placed from"), placed);
        let straw = earth::straw_mass(dry, recipe.straw.value)
            .from("batch", self.path("dry-mass"))
            .from("dose", self.path("straw"));
        let straw = rows.add(self.path("straw-mass"), self.title("straw in"), straw);
        if recipe.straw.value > Ratio::ZERO {
            let armfuls = earth::armfuls(straw, earth.armful.value)
                .from("straw", self.path("straw-mass"))
                .from("armful", "earth.straw.armful");
            rows.add(self.path("armfuls"), self.title("armfuls of straw in"), armfuls);
        }
        let density = earth::placed_density(dry, straw, placed)
            .from("batch", self.path("dry-mass"))
            .from("straw", self.path("straw-mass"))
            .from("placed", self.path("placed-volume"));
        let name = recipe.name.replace('-', " ");
        rows.add(self.path("density"), format!("dry mass in a cubic metre of {name} as placed"), density);
        placed
    }

    fn water(&self, dry: Mass, placed: Volume, rows: &mut Rows) {
        let (earth, recipe) = (self.earth, self.recipe);
        let masses = earth.dry_masses(recipe);
        let moisture = |at: &usize| &earth.ingredients[*at].moisture;
        let parts = || recipe.parts.iter().zip(&masses);
        let sum = parts().map(|((at, _), mass)| *mass * moisture(at).value.in_fraction()).sum();
        let mut pile = earth::pile_water(sum);
        for ((at, _), mass) in parts() {
            let (name, moisture) = (&earth.ingredients[*at].name, moisture(at));
            pile = pile.with(format!("moisture of {name}"), moisture.value, moisture.path.as_str()).with(
                format!("dry mass of {name}"),
                *mass,
                self.path(&format!("mass.{name}")),
            );
        }
        let pile = rows.add(self.path("pile-water"), self.title("water that the piles bring into"), pile);
        let added = earth::water_to_add(dry, recipe.water.value, pile)
            .from("batch", self.path("dry-mass"))
            .from("wanted", self.path("water"))
            .from("pile water", self.path("pile-water"));
        let added = rows.add(self.path("water-mass"), self.title("water to add, by mass, to"), added);
        let volume = earth::water_volume(added).from("water", self.path("water-mass"));
        let volume = rows.add(self.path("water-volume"), self.title("water to add to"), volume);
        let buckets = earth::water_buckets(volume, earth.brim.value)
            .from("water", self.path("water-volume"))
            .from("brim", "earth.bucket.brim");
        rows.add(self.path("water-buckets"), self.title("buckets of water to add to"), buckets);
        let straw = earth::straw_mass(dry, recipe.straw.value).value;
        let wet = earth::wet_mass(dry, recipe.water.value, straw)
            .from("batch", self.path("dry-mass"))
            .from("wanted", self.path("water"))
            .from("straw", self.path("straw-mass"));
        let wet = rows.add(self.path("wet-mass"), self.title("mass, as it leaves the tarp, of"), wet);
        let density = earth::wet_density(wet, placed)
            .from("wet mass", self.path("wet-mass"))
            .from("placed", self.path("placed-volume"));
        let name = recipe.name.replace('-', " ");
        rows.add(self.path("wet-density"), format!("mass of a cubic metre of {name} as placed, wet"), density);
        if self.is_cob {
            let loaves =
                earth::loaves(wet, earth.loaf.value).from("wet mass", self.path("wet-mass")).from("loaf", "earth.loaf");
            let loaves = rows.add(self.path("loaves"), self.title("loaves of"), loaves);
            let each = earth::loaf_mass(wet, loaves)
                .from("wet mass", self.path("wet-mass"))
                .from("loaves", self.path("loaves"));
            rows.add(self.path("loaf-mass"), self.title("mass of each loaf of"), each);
        }
    }
}

/// Rows of what all uses of each recipe take; what they need from outside.
pub(super) fn uses(house: &House, uses: &[Use], rows: &mut Rows) -> Vec<Need> {
    let Some(earth) = &house.earth else { return Vec::new() };
    let mut needs = Vec::new();
    for recipe in house.recipes_used().into_iter().filter_map(|name| earth.recipe(name)) {
        let of: Vec<&str> =
            uses.iter().filter(|used| used.recipe == recipe.name).map(|used| used.volume.as_str()).collect();
        needs.extend(all_batches(earth, recipe, &of, rows));
    }
    needs
}

fn all_batches(earth: &Earth, recipe: &Recipe, volumes: &[&str], rows: &mut Rows) -> Vec<Need> {
    let name = recipe.name.replace('-', " ");
    let found: Vec<(String, String, Volume)> = rows.parts(volumes.iter().map(|path| (*path).to_owned()));
    let mixed = earth::mixed(found.iter().map(|(.., volume)| *volume).sum()).of_parts(found);
    let mixed = rows.add(recipe.path("volume"), format!("{name} to mix"), mixed);
    let Some(placed) = rows.value(&recipe.path("placed-volume")) else { return Vec::new() };
    let batches =
        earth::batches(mixed, placed).from("volume", recipe.path("volume")).from("batch", recipe.path("placed-volume"));
    let batches = rows.add(recipe.path("batches"), format!("batches of {name}"), batches);
    let whole = earth::whole_batches(batches).from("batches", recipe.path("batches"));
    rows.add(recipe.path("whole-batches"), format!("whole batches of {name}"), whole);
    let mut needs = Vec::new();
    for ((at, _), mass) in recipe.parts.iter().zip(earth.dry_masses(recipe)) {
        let ingredient = &earth.ingredients[*at];
        let part = &ingredient.name;
        let need = earth::need(batches, mass)
            .from("batches", recipe.path("batches"))
            .from("each", recipe.path(&format!("mass.{part}")));
        let path = recipe.path(&format!("need.{part}"));
        let need = rows.add(path.as_str(), format!("{part} for {name}, dry"), need);
        let loose = earth::volume(need, ingredient.loose_density())
            .from("mass", path.as_str())
            .from("density", ingredient.loose_density_path());
        let loose_path = recipe.path(&format!("loose.{part}"));
        rows.add(loose_path.as_str(), format!("{part} for {name}, loose"), loose);
        needs.push(Need::of(part, [path, loose_path]));
    }
    let dry: Mass = earth.dry_masses(recipe).into_iter().sum();
    if recipe.straw.value > Ratio::ZERO {
        let straw = earth::need(batches, earth::straw_mass(dry, recipe.straw.value).value)
            .from("batches", recipe.path("batches"))
            .from("each", recipe.path("straw-mass"));
        let path = recipe.path("need.straw");
        let straw = rows.add(path.as_str(), format!("straw for {name}"), straw);
        let bales = earth::bales(straw, earth.bale.value).from("straw", path.as_str()).from("bale", "earth.straw.bale");
        rows.add(recipe.path("bales"), format!("bales of straw for {name}"), bales);
        needs.push(Need::of(STRAW, [path]));
    }
    if let Some(each) = rows.value::<Mass>(&recipe.path("water-mass")) {
        let water =
            earth::need(batches, each).from("batches", recipe.path("batches")).from("each", recipe.path("water-mass"));
        let path = recipe.path("need.water");
        let water = rows.add(path.as_str(), format!("water for {name}, by mass"), water);
        let volume = earth::water_volume(water).from("water", path.as_str());
        let volume_path = recipe.path("water-in-all");
        rows.add(volume_path.as_str(), format!("water for {name}"), volume);
        needs.push(Need::of(WATER, [path, volume_path]));
    }
    needs
}

//! Questions of earth: what a heap weighs and holds, and what stands behind the buckets of a recipe.

use super::given::Given;
use super::{Question, Reply};
use crate::units::{Area, Density, Kind, Mass, Ratio, Volume};
use crate::{earth, skin};

pub(super) const BULK: Question = Question {
    name: "bulk",
    about: "Mass of a heap, loose and packed volumes, moisture from a bucket weighed wet and dry",
    example: r#"{"volume_m3": 0.764554857984, "density_kg_m3": 1553.7877}"#,
    answer: bulk,
};

pub(super) const BUCKET_RECIPE: Question = Question {
    name: "bucket-recipe",
    about: "What stands behind the buckets of a mix: dry shares, clay, water to add, placed volume, loaves",
    example: r#"{"bucket_m3": 0.02, "straw_ratio": 0.015, "water_ratio": 0.17, "yield_ratio": 0.7, "loaf_kg": 5,
  "parts": [{"buckets": 1, "density_kg_m3": 1300, "moisture_ratio": 0.1, "clay_ratio": 0.4},
            {"buckets": 3, "density_kg_m3": 1600, "bulking": 1.3, "moisture_ratio": 0.06}]}"#,
    answer: bucket_recipe,
};

pub(super) const FLOOR_OIL: Question = Question {
    name: "floor-oil",
    about: "Oil and thinner of a coat on an earthen floor, by what a can covers",
    example: r#"{"area_m2": 28, "covers_m2": 9.290304, "takes_m3": 0.001892705892, "thinner_ratio": 0.25}"#,
    answer: floor_oil,
};

fn floor_oil(given: &mut Given<'_>, reply: &mut Reply) {
    let area = given.number::<Area>("area_m2", Kind::Area);
    let covers = given.number::<Area>("covers_m2", Kind::Area);
    let takes = given.number::<Volume>("takes_m3", Kind::Volume);
    let share = given.maybe("thinner_ratio", Kind::Ratio).unwrap_or(Ratio::ZERO);
    let (Some(area), Some(covers), Some(takes)) = (area, covers, takes) else { return };
    if area <= Area::ZERO || covers <= Area::ZERO || takes <= Volume::ZERO {
        given.problem("areas and volume must be above zero".into());
        return;
    }
    if !(0.0..1.0).contains(&share.in_fraction()) {
        given.problem("`thinner_ratio` must be from 0 to below 1".into());
        return;
    }
    let coat = reply.put("coat", skin::oil_coat(area, covers, takes));
    reply.put("oil", skin::oil_alone(coat, share));
    reply.put("thinner", skin::thinner(coat, share));
}

fn bulk(given: &mut Given<'_>, reply: &mut Reply) {
    let volume = given.maybe::<Volume>("volume_m3", Kind::Volume);
    let buckets = given.maybe::<f64>("buckets", Kind::Number);
    let bucket = given.maybe::<Volume>("bucket_m3", Kind::Volume);
    let density = given.maybe::<Density>("density_kg_m3", Kind::Density);
    let packed = given.maybe::<Density>("packed_density_kg_m3", Kind::Density);
    let loose = given.maybe::<f64>("loose_factor", Kind::Number);
    let wet = given.maybe::<Mass>("wet_kg", Kind::Mass);
    let dry = given.maybe::<Mass>("dry_kg", Kind::Mass);
    let sizes = [volume.map(Volume::in_m3), buckets, bucket.map(Volume::in_m3), loose, wet.map(Mass::in_kg)];
    let others = [dry.map(Mass::in_kg), density.map(Density::in_kg_m3), packed.map(Density::in_kg_m3)];
    if sizes.iter().chain(&others).flatten().any(|size| *size <= 0.0) {
        given.problem("every number must be above zero".into());
        return;
    }
    let heaped =
        buckets.zip(bucket).map(|(buckets, bucket)| reply.put("loose_volume", earth::loose_volume(bucket, buckets)));
    let volume = volume.or(heaped);
    if let Some((volume, density)) = volume.zip(density) {
        reply.put("mass", earth::mass(volume, density));
    }
    if let Some((volume, factor)) = volume.zip(loose) {
        reply.put("loose", earth::loose(volume, factor));
    }
    if let Some((packed, loose)) = packed.zip(density) {
        reply.put("packing", earth::packing(packed, loose));
    }
    if let Some((wet, dry)) = wet.zip(dry) {
        reply.put("moisture", earth::moisture(wet, dry));
    }
    if reply.is_empty() {
        given.problem(
            "give `volume_m3` and `density_kg_m3`, or `buckets` and `bucket_m3`, or `wet_kg` and `dry_kg`".into(),
        );
    }
}

struct Part {
    buckets: f64,
    density: Density,
    bulking: f64,
    moisture: Ratio,
    clay: Ratio,
}

fn part(given: &mut Given<'_>) -> Option<Part> {
    let buckets = given.number::<f64>("buckets", Kind::Number);
    let density = given.number::<Density>("density_kg_m3", Kind::Density);
    let bulking = given.maybe::<f64>("bulking", Kind::Number).unwrap_or(1.0);
    let moisture = given.maybe::<Ratio>("moisture_ratio", Kind::Ratio).unwrap_or(Ratio::ZERO);
    let clay = given.maybe::<Ratio>("clay_ratio", Kind::Ratio).unwrap_or(Ratio::ZERO);
    let (buckets, density) = (buckets?, density?);
    if buckets <= 0.0 || density <= Density::ZERO || bulking < 1.0 {
        given.problem("`buckets` and `density_kg_m3` must be above zero, `bulking` at least 1".into());
        return None;
    }
    if moisture < Ratio::ZERO || clay < Ratio::ZERO || clay > Ratio::fraction(1.0) {
        given.problem("`moisture_ratio` must not be below zero, `clay_ratio` lies from 0 to 1".into());
        return None;
    }
    Some(Part { buckets, density, bulking, moisture, clay })
}

fn bucket_recipe(given: &mut Given<'_>, reply: &mut Reply) {
    let bucket = given.number::<Volume>("bucket_m3", Kind::Volume);
    let straw = given.maybe::<Ratio>("straw_ratio", Kind::Ratio).unwrap_or(Ratio::ZERO);
    let water = given.maybe::<Ratio>("water_ratio", Kind::Ratio);
    let placed_yield = given.maybe::<Ratio>("yield_ratio", Kind::Ratio);
    let loaf = given.maybe::<Mass>("loaf_kg", Kind::Mass);
    let parts = given.list("parts", part);
    let Some(bucket) = bucket else { return };
    if parts.is_empty() || bucket <= Volume::ZERO || loaf.is_some_and(|loaf| loaf <= Mass::ZERO) {
        given.problem("`parts` must not be empty, `bucket_m3` and `loaf_kg` must be above zero".into());
        return;
    }
    let (mut masses, mut clay, mut pile, mut plain, mut plain_clay) =
        (Vec::new(), Mass::ZERO, Mass::ZERO, Mass::ZERO, Mass::ZERO);
    for (place, part) in parts.iter().enumerate() {
        let loose = earth::loose_density(part.density, part.bulking);
        let mass =
            reply.put(&format!("part_{}_dry", place + 1), earth::part_dry_mass(part.buckets, bucket, loose.value));
        reply.put(&format!("part_{}_settled_buckets", place + 1), earth::settled_buckets(part.buckets, part.bulking));
        let unbulked = bucket * part.buckets * part.density;
        clay = clay + mass * part.clay.in_fraction();
        pile = pile + mass * part.moisture.in_fraction();
        plain = plain + unbulked;
        plain_clay = plain_clay + unbulked * part.clay.in_fraction();
        masses.push(mass);
    }
    let dry = reply.put("dry", earth::batch_dry_mass(masses.iter().copied().sum()));
    for (place, mass) in masses.into_iter().enumerate() {
        reply.put(&format!("part_{}_share", place + 1), earth::dry_share(mass, dry));
    }
    reply.put("clay_if_nothing_bulked", earth::clay_share(plain, plain_clay));
    let clay = reply.put("clay", earth::clay_share(dry, clay));
    reply.check("trade-practice", "wall.cob.clay", "clay in the dry mix", clay);
    let straw = reply.put("straw", earth::straw_mass(dry, straw));
    let loose = reply.put("loose_volume", earth::loose_volume(bucket, parts.iter().map(|part| part.buckets).sum()));
    let placed = placed_yield.map(|placed_yield| reply.put("placed_volume", earth::placed_volume(loose, placed_yield)));
    if let Some(placed) = placed {
        reply.put("placed_density", earth::placed_density(dry, straw, placed));
    }
    let Some(water) = water else { return };
    reply.put("pile_water", earth::pile_water(pile));
    let added = reply.put("water_to_add", earth::water_to_add(dry, water, pile));
    if added < Mass::ZERO {
        given.problem("the parts are wetter than `water_ratio`: let them dry, or write the moisture you tread".into());
        return;
    }
    if let Some(placed) = placed
        && earth::grains_and_water(dry, water).value > placed
    {
        given.problem("grains and water take more room than `yield_ratio` leaves them".into());
        return;
    }
    let wet = reply.put("wet", earth::wet_mass(dry, water, straw));
    if let Some(loaf) = loaf {
        let loaves = reply.put("loaves", earth::loaves(wet, loaf));
        reply.put("each_loaf", earth::loaf_mass(wet, loaves));
    }
}

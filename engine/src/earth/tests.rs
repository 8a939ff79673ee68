//! The room's formulas against each other, and the trap of damp sand.

use super::*;
use crate::units::{Density, Mass, Ratio, Volume};

fn near(found: f64, expected: f64, within: f64) {
    assert!((found - expected).abs() <= within, "{found} is not {expected}");
}

/// Clay in the dry mix of one bucket of soil and three of sand.
fn clay(bulking: f64) -> f64 {
    let bucket = Volume::litres(20.0);
    let soil = part_dry_mass(1.0, bucket, Density::kg_m3(1300.0)).value;
    let sand = part_dry_mass(3.0, bucket, loose_density(Density::kg_m3(1600.0), bulking).value).value;
    clay_share(soil + sand, soil * 0.4).value.in_percent()
}

#[test]
fn damp_sand_makes_a_mix_richer_in_clay_than_its_buckets_say() {
    near(clay(1.0), 8.5, 0.05);
    near(clay(1.3), 10.4, 0.05);
    near(settled_buckets(3.0, 1.3).value, 2.3, 0.05);
}

#[test]
fn shares_of_dry_mass_come_back_from_the_buckets_they_ask_for() {
    let densities = [1300.0, 1600.0 / 1.25];
    let shares = [0.3, 0.7];
    let over: Vec<f64> = shares.iter().zip(densities).map(|(share, density)| share / density).collect();
    let all: f64 = over.iter().sum();
    let buckets: Vec<f64> = over.iter().map(|over| buckets_for_share(8.0, *over, all).value).collect();
    near(buckets.iter().sum(), 8.0, 1e-12);
    let bucket = Volume::litres(15.0);
    let mass = |at: usize| part_dry_mass(buckets[at], bucket, Density::kg_m3(densities[at])).value;
    near(dry_share(mass(0), mass(0) + mass(1)).value.in_fraction(), 0.3, 1e-12);
}

#[test]
fn water_in_the_pile_and_water_added_make_the_moisture_wanted() {
    let (dry, wanted) = (Mass::kg(200.0), Ratio::percent(22.0));
    let pile = Mass::kg(14.0);
    let added = water_to_add(dry, wanted, pile).value;
    near(moisture(dry + pile + added, dry).value.in_percent(), 22.0, 1e-12);
    near(wet_mass(dry, wanted, Mass::kg(3.0)).value.in_kg(), (dry + pile + added + Mass::kg(3.0)).in_kg(), 1e-12);
}

#[test]
fn trimmings_that_all_come_back_ask_for_no_more_cob() {
    let (wall, trim) = (Volume::m3(10.0), Ratio::percent(7.0));
    near(trimmings(wall, trim).value.in_m3(), 0.7, 1e-12);
    assert_eq!(cob_to_mix(wall, trim, Ratio::percent(100.0)).value, wall);
    near(cob_to_mix(wall, trim, Ratio::percent(0.0)).value.in_m3(), 10.7, 1e-12);
}

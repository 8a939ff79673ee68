//! Earth: what a bucket holds, what a recipe is by dry mass, what a batch gives, and volumes as dug, loose and packed.

mod batch;
mod bulk;
mod recipe;

pub use batch::{
    armfuls, bales, batches, cob_to_mix, loaf_mass, loaves, need, placed_density, placed_volume, trimmings,
    water_to_add, water_volume, wet_mass, whole_batches,
};
pub use bulk::{loose, loose_for_packed, mass, moisture, packed, packing, volume, wet};
pub use recipe::{
    batch_dry_mass, bucket_filled, buckets_for_share, clay_share, dry_share, loose_density, loose_volume,
    part_dry_mass, pile_water, settled_buckets, straw_mass,
};

#[cfg(test)]
mod tests;

//! Earth: what a bucket holds, what a recipe is by dry mass, what a batch gives, and volumes as dug, loose and packed.

mod batch;
mod bulk;
mod lead;
pub mod mixture;
pub mod panel;
mod recipe;
mod settlement;
pub mod soil;
pub mod strength;
mod strip;
pub mod tables;

pub use batch::{
    armfuls, bales, batches, cob_to_mix, grains_and_water, loaf_mass, loaves, loaves_in_all, mixed, need,
    placed_density, placed_volume, raising, standing, trimmings, water_buckets, water_to_add, water_volume,
    wet_density, wet_mass, whole_batches,
};
pub use bulk::{loose, loose_for_packed, mass, moisture, packed, packing, volume, wet, wet_loose};
pub use lead::{begin_by, lead_time};
pub use recipe::{
    batch_dry_mass, bucket_filled, bucket_mass, buckets_for_share, clay_share, dry_share, loose_density, loose_volume,
    part_dry_mass, pile_water, settled_buckets, straw_mass,
};
pub use settlement::{gap_over_door, gap_over_frame, settlement, wet_built};
pub use strip::{
    batches_changed, outside, person_time, placed_in_all, placed_yield, share_of_lift, strip, strip_half, strip_middle,
    strip_reach, time_for_volume, time_in_all, yield_apart,
};

#[cfg(test)]
mod tests;

//! What samples of cob bear, shrink and take up: from a load to a strength, from samples to what can be relied on.

mod bar;
mod damp;
mod lever;
mod sample;
mod specimen;
mod washed;

pub use bar::{
    bar_at_least, bar_at_most, bar_by_lengths, bar_that_counts, is_of_code_form, mean_of_bars, shrinkage_over_bars,
};
pub use damp::{DampFault, DampLine, damp_strength, damp_strength_low, fall_with_moisture, tested_moisture};
pub use lever::{at_the_edge, certain_force, lever_force, pin_force, pin_friction, stored};
pub use sample::{
    Sample, as_proof, bar_as_proof, bricks_until, bricks_wanted, dry_bricks, least_strength, lower_bound, lower_factor,
    mean_strength, reliance, samples_of_lots, scatter, still_to_make, strange, strange_brick,
};
pub use specimen::{
    as_code_sample, broken, bulking, crushed, erosion_index, of_code_shape, shape_factor, shrinkage, slenderness,
};
pub use washed::{in_an_hour, index_of_drips, index_of_spray, worst_index};

//! What samples of cob bear, shrink and take up: from a load to a strength, from samples to what can be relied on.

mod damp;
mod lever;
mod sample;
mod specimen;

pub use damp::{DampFault, DampLine, damp_strength};
pub use lever::{at_the_edge, lever_force, pin_friction, stored};
pub use sample::{Sample, bricks_wanted, lower_bound, lower_factor, samples_of_lots, strange};
pub use specimen::{as_code_sample, broken, bulking, crushed, erosion_index, shape_factor, shrinkage};

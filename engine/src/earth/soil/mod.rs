//! What a soil is: how it settles in water, its grains, its texture, how much water makes it flow, what sand it wants.

mod grading;
mod hydrometer;
mod jar;
mod plasticity;
mod sand;
mod settling;
mod texture;

pub use grading::{
    Curve, CurveFault, Sieve, and_the_error, coefficient_of_curvature, coefficient_of_uniformity, finer_by_curve,
    fuller, grain_by_curve, less_the_error, over_densest, share_of_fine_earth,
};
pub use hydrometer::{constant, corrected, effective_depth, grain, passing};
pub use jar::{
    classes_of_band, clay_with_crumbs, greatest_of_tests, half_of_band, jars_read, jars_to_shake, layer_between,
    least_of_tests, middle_of_band, over_tested, settled_at, silt_without_crumbs, spread_of_tests, still_to_stand,
};
pub use plasticity::{
    a_line, liquidity, over_the_a_line, plasticity_class, plasticity_index, u_line, under_the_u_line, water_of_fines,
};
pub use sand::{clay_lacking, sand_buckets, sand_error, sand_to_add, sand_within};
pub use settling::{Layer, fall_time, layer_band, share_of_layers};
pub use texture::{Fractions, classes_between, classes_within, texture_class};

//! What a soil is: how it settles in water, its grains, its texture, how much water makes it flow, what sand it wants.

mod chart;
mod grading;
mod hydrometer;
mod jar;
mod plasticity;
mod plasticity_chart;
mod sand;
mod settling;
mod small;
mod texture;

pub use chart::{Boundary, ClassPlace, Shares, boundaries, class_places, clay_of_classes, outline};
pub use grading::{
    Curve, CurveFault, Sieve, and_the_error, coefficient_of_curvature, coefficient_of_uniformity, finer_by_curve,
    fuller, grain_by_curve, less_the_error, over_densest, share_of_fine_earth,
};
pub use hydrometer::{
    as_beside, constant, corrected, depth_of_reading, effective_depth, finer_of_whole, grain, grain_afloat,
    off_by_reading, passing,
};
pub use jar::{
    classes_of_band, clay_with_crumbs, greatest_of_tests, half_of_band, jars_read, jars_to_shake, layer_between,
    least_of_tests, middle_of_band, over_tested, settled_at, silt_without_crumbs, spread_of_tests, still_to_stand,
};
pub use plasticity::{
    a_line, index_off, liquidity, names_of_limits, over_the_a_line, plasticity_class, plasticity_index, u_line,
    under_the_u_line, water_of_fines,
};
pub use plasticity_chart::{ChartLines, PlasticPlace, chart_lines, classes_of_limits, outline_of_limits};
pub use sand::{clay_lacking, sand_buckets, sand_error, sand_to_add, sand_within};
pub use settling::{Layer, fall_time, layer_band, share_of_layers};
pub use small::{
    bulking_over_tested, classes_of_ribbon, clay_of_feel, clay_within_feel, density_over_weighed, flattened,
    loose_by_bucket, mean_bulking, mean_moisture,
};
pub use texture::{Fractions, classes_between, classes_within, texture_class};

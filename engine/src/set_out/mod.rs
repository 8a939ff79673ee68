//! Setting out: from a baseline of two pegs to every point of the wall, from one benchmark to every mark of height.

mod height;
mod level_loop;
mod plan;
mod traverse;

pub use height::{each_step, mark_level, mark_on_pole, steps, threshold_depth, threshold_step};
pub use level_loop::{Sights, adjusted_level, level_closing, rise};
pub use plan::{
    Baseline, along_baseline, baseline_length, clear_of, half_width, offset_from_baseline, ordinate, step, tape,
};
pub use traverse::{
    Leg, adjusted_east, adjusted_north, closing_length, closing_ratio, misclosure_east, misclosure_north, perimeter,
};

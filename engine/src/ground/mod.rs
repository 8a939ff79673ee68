//! The ground: the rubble trench under the wall, what fills it, and the way its water takes to daylight.

mod fill;
mod trench;

pub use fill::{drain_gravel, fabric, girth, pieces, put_back, rubble, spoil_left};
pub use trench::{depth_at, drain_fall, drain_volume, level_below, low_depth, station, trench_volume};

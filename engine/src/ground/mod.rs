//! The ground: the rubble trench under the wall and the way its water takes to daylight.

mod trench;

pub use trench::{depth_at, drain_fall, drain_volume, level_below, low_depth, trench_volume};

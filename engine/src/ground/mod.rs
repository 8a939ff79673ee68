//! The ground: the rubble trench under the wall, what fills it, and the way its water takes to daylight.

mod balance;
mod fill;
mod trench;

pub use balance::{
    drain_below_topsoil, drain_topsoil, dry_mass, floor_dug, floor_filled, footing_dug, footing_dug_without_a_floor,
    from_loose, heap_left, ring_area, ring_area_of_open, short, spread_round, stages, strip_area, strip_area_of_open,
    stripped, subsoil_back, surplus, topsoil_back, trench_below_topsoil,
};
pub use fill::{drain_gravel, fabric, girth, pieces, put_back, rubble, spoil_left};
pub use trench::{
    depth_at, depth_at_of_open, drain_fall, drain_volume, level_below, longest_way, low_depth, low_depth_of_open,
    station, trench_volume, trench_volume_of_open,
};

//! The skin of a pole roof: the surface between straight rafters, its shims, boards, edge, water and layers.
//!
//! Rafters stand in a closed ring or side by side. Between two neighbours the deck is ruled by straight lines from top line to top
//! line, so it is twisted where they are askew. Nothing of the house is seen here: poles and edges in, measures out.

mod bay;
mod boards;
mod drainage;
mod eave;
mod edge;
mod eye;
mod fasteners;
mod frame;
mod joints;
mod layers;
mod nesting;
mod patch;
mod plane;
mod sheets;
mod shims;
mod slope;
mod space;
mod told;
mod whole;

pub use bay::{Bay, Surface};
pub use boards::{Board, Courses, boards_wasted, course_lines, courses, round};
pub use drainage::{Catchment, Drainage, drainage, overflow_width, rain_flow_m3_s};
pub use eave::{EdgeBoard, EdgePoint, PLACES_IN_BAY, edge_boards, edge_points, tails};
pub use edge::Edge;
pub use eye::{cover_load, cover_over_load, cover_size, eye_frame, hole_area, hole_width};
pub use fasteners::{
    Held, all_fasteners, area_of_board_end, fastener_boxes, fasteners_at_end, largest_pull, pull_on_row,
    twisting_moment_n_m, uplift,
};
pub use frame::{Fault, Frame, Rafter, TopLine, ring};
pub use joints::{Row, Staggered, staggered};
pub use layers::{
    above_deck, bucket_in_place, bucket_mass, buckets_up, depth_pegs, hoisted_mass, sheet_area, upstand_area,
    volume_plumb, volume_square_to_deck,
};
pub use nesting::{Nesting, Stick, bought_length, nest, offcuts, pieces_length};
pub use patch::{Patch, Steepest};
pub use plane::Plane;
pub use sheets::{eave_length, eye_length, longest_way_up, rolls, strip_length, strips_across, strips_round};
pub use shims::{Bedding, Deck, Shim, ShimTable, Station, shim_volume, shims};
pub use slope::{
    Slope, course_count, edge_length, farthest_past_rafters, fasteners_at_rafter, fasteners_over_rafters, held_places,
    joints_in_line, lowest_of_edge, pieces_over_rafters, pull_at_rafter, unsupported_courses,
};
pub use space::Place;
pub use told::{
    board_count, bought_area, catchment, depth_if_blocked, eave_cut, fewest_lengths, largest_shim, lengths_of,
    lowest_level, lowest_place, outlet_count, shim_count, spare_upstand, standing_water,
};
pub use whole::{
    deck_area, deck_plan_area, largest_twist_on_a_metre, steepest_slope, summed_gaussian_curvature,
    summed_mean_curvature,
};

#[cfg(test)]
mod tests;

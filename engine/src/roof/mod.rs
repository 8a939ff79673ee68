//! The roof, first cut: a regular reciprocal frame in closed form, rafters that fall one way, layers and what they weigh.

pub mod beam;
pub mod deck;
mod layers;
mod living;
mod one_way;
pub mod poles;
mod reciprocal;
mod secondary;
mod slide;
pub mod standing;
mod statics;
pub mod trade;

pub use layers::{
    STANDARD_GRAVITY_M_S2, dead_load, eave_area, eye_area, height_above_ground, layer_mass, layer_volume, load_in_plan,
    mass_on_area, pole_mass, pole_volume, roofed, saturated_mass, sheet_mass, sloped_area, with_laps,
};
pub use living::{
    drain_water, fixed_layers, held_water, lapped_sheet, layer_on_area, over_deep, pond_depth, pond_on_each_metre,
    pond_reach, pond_weight, soaked_density, weight_on_slope,
};
pub use one_way::{
    along_rafter, angle, blocking_count, blocking_height, blocking_length, deepest_seat, end_as_cut, first_rafter,
    flue_opening, flue_to_beam, flue_to_rafter, heaviest, longest, low_end, mean_length, over_clearance, packing,
    rafter_choice, rafter_count, rafter_place, rafters_cut, reach, rise, seat_of_thicker, side_strip, thinnest_end,
    thinnest_over_seat, ties, trimmer_span,
};
pub use reciprocal::{
    axis_distance, axis_length, between_crossings, closes, contact_shift, crossing_height, crossing_offset,
    eye_radius_for_pitch, most_apart, notch_for_pitch, pitch, plan_length, plan_radius, pole_length, prop_height,
    support_to_eave, to_first_crossing,
};
pub use secondary::{
    end_to_end, pieces_between, second_above, second_across, second_along, second_angle, second_cut, second_friction,
    second_lean, second_length, second_level, second_lift, second_pitch, second_press, second_push, second_share,
    second_span, second_tail, secondary_cut, secondary_pitch, secondary_span, secondary_tail, secondary_total,
    strip_width, trimmer_length, wood_of_round,
};
pub use slide::{
    batten_slide_safety, downhill_pull, edge_push, edge_push_without_friction, slide_safety, water_push,
    wet_slide_safety,
};
pub use statics::{
    crossing_force_area_load, crossing_force_line_load, moment_at_first_crossing_area_load_n_m,
    moment_at_first_crossing_line_load_n_m,
};

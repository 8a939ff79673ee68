//! The wall: lengths, areas and volumes of a battered wall on a plan line, its openings, and what the trade measures.

mod bench;
mod body;
mod built_in;
mod buttress;
mod joinery;
mod measure;
mod opening;
mod plan;
mod stone;
mod uneven;

pub use bench::{Bench, bench_covers, bench_ends, bench_front, bench_top, bench_volume};
pub use body::{
    Faces, bed_gross, cob_gross, inner_face_gross, lift_gross, net_area, net_volume, outer_face_gross, stem_gross,
};
pub use built_in::{
    board_area, board_volume, bond_beam_length, bond_beam_volume, clear_circle, clear_rectangle, deadmen, niche_face,
    niche_inside, niche_removed, places, through_face, through_removed,
};
pub use buttress::{
    Buttress, buttress_covers, buttress_front, buttress_sides, buttress_stone, buttress_top, buttress_volume,
};
pub use joinery::{frame_length, frame_volume, lintel_length, lintel_volume, sill_board_depth, sill_board_volume};
pub use measure::{
    between_offsets, corner_distance, eave_offset, foot_above_floor, height_above_ground, lift_height, openings_share,
    overall, pier, plate_offset, room_height, slenderness, thickness_at_third, top_thickness,
};
pub use opening::{
    bed_removed, cob_removed, inner_face_removed, lift_removed, outer_face_removed, reveal, stem_removed,
};
pub use plan::{
    arc_length, arc_radius, area_inside, corner_length, curve_length, enclosed_area, least_radius, line_length,
    straight_length, trim, turning,
};
pub use stone::{face_stone, hearting, solid_stone, stem_bed, stem_length, through_stones};
pub use uneven::{
    area_inside_uneven, bed_gross_uneven, cob_gross_uneven, face_gross_uneven, lift_gross_uneven, mean_height,
    mean_thickness, overall_uneven, top_reached,
};

//! The wall: lengths, areas and volumes of a battered wall on a plan line, its openings, and what the trade measures.

mod beam_pieces;
mod beam_slope;
mod bench;
mod body;
mod bond_beam;
mod built_in;
mod buttress;
mod gap;
mod joinery;
mod measure;
mod mosaic;
mod opening;
mod plan;
mod service;
mod stone;
mod uneven;

pub use beam_pieces::{
    Division, Made, Middle, Timber, lengthened, measured_bevel, measured_cut, measured_pieces, measured_plank,
    measured_sagitta, measured_sawn_cut, part_length,
};
pub use beam_slope::{beam_on_slope, cut_on_slope, slope_growth, timber_in_plan};
pub use bench::{Bench, bench_covers, bench_ends, bench_front, bench_top, bench_volume};
pub use body::{
    Faces, bed_gross, cob_gross, inner_face_gross, lift_gross, net_area, net_volume, outer_face_gross, stem_gross,
};
pub use bond_beam::{
    all_cut, all_pieces, beam_arc, beam_bolts, beam_corner, beam_curve, beam_radius, beam_scarfs, beam_shims,
    beam_straight, beam_timber, beam_turn, bevel, curved_cut, curved_pieces, longest_cut, plank_width, sagitta,
    sawn_cut, straight_cut, straight_pieces,
};
pub use built_in::{
    board_area, board_volume, bond_beam_volume, clear_circle, clear_rectangle, deadmen, niche_face, niche_inside,
    niche_removed, places, through_face, through_removed,
};
pub use buttress::{
    Buttress, buttress_covers, buttress_front, buttress_sides, buttress_stone, buttress_top, buttress_volume,
};
pub use gap::{
    beside_beam, gap_at_poles, gap_height, gap_rise, gap_to_mix, gap_volume, highest_against, trimmings_left,
};
pub use joinery::{
    clear_height, clear_width, frame_anchors, frame_length, frame_volume, glass_area, lintel_length, lintel_volume,
    on_site_by, sill_board_depth, sill_board_volume, threshold_length,
};
pub use measure::{
    batter_gauge, between_offsets, corner_distance, eave_offset, foot_above_floor, height_above_ground, lift_height,
    openings_share, overall, pier, plastered_height, plate_offset, room_height, slenderness, thickness_at,
    thickness_at_third, top_length,
};
pub use mosaic::{
    bottle_length, bottles_to_collect, mosaic_area, mosaic_covers, mosaic_mass, tile_area, tile_bed, tile_grout,
};
pub use opening::{
    bed_removed, cob_removed, inner_face_removed, lift_removed, outer_face_removed, reveal, stem_removed,
};
pub use plan::{
    arc_length, arc_radius, area_inside, bearing, corner_length, curve_length, enclosed_area, least_radius,
    line_length, straight_length, stretch_length, trim, turning,
};
pub use service::{conduit_in_cob, conduit_length, cylinder, fall_through, pieces, sleeve_in_stem};
pub use stone::{face_stone, hearting, solid_stone, stem_bed, stem_length, through_stones};
pub use uneven::{
    area_inside_uneven, bed_gross_uneven, cob_gross_uneven, face_gross_uneven, lift_gross_uneven, mean_height,
    mean_thickness, overall_uneven, stretch_face_uneven, top_reached,
};

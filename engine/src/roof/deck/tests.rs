//! Laws of the deck: against closed forms, against a sum of triangles, and under mirror and scale.

use std::f64::consts::{PI, TAU};

use kurbo::Point;

use super::space::{cross, length, minus};
use super::*;
use crate::roof::{axis_distance, pitch};
use crate::units::Length;

fn m(length: f64) -> Length {
    Length::m(length)
}

#[track_caller]
fn near(found: f64, expected: f64, within: f64) {
    assert!((found - expected).abs() <= within, "{found} is not {expected}");
}

const EYE: f64 = 0.6;
const OUTER: f64 = 2.8;
const THICK: f64 = 0.16;

fn poles(count: u64) -> Vec<Rafter> {
    let pitch = pitch(count, m(EYE), axis_distance(m(THICK), m(0.02)).value).value;
    ring(count, m(OUTER), m(EYE), m(THICK), pitch)
}

fn circle(radius: f64) -> Edge {
    Edge::Circle { middle: Point::ORIGIN, radius: m(radius) }
}

fn roof(count: u64) -> Frame {
    Frame::new(&poles(count), true, circle(3.4), circle(0.75)).unwrap()
}

/// Axes as top lines, cut at their ends.
fn lines(ends: &[[[f64; 3]; 2]], closed: bool) -> Frame {
    let rafters: Vec<Rafter> =
        ends.iter().map(|&[foot, head]| Rafter { foot, head, diameters: [Length::ZERO; 2] }).collect();
    Frame::new(&rafters, closed, Edge::Ends, Edge::Ends).unwrap()
}

fn saddle() -> Frame {
    lines(&[[[0., 0., 0.], [1., 0., 0.]], [[0., 1., 0.], [1., 1., 1.]]], false)
}

/// Poles of a lean-to, all falling towards y below zero at one pitch.
fn lean_to(rise: f64) -> Vec<Rafter> {
    let pole = |number: u32| {
        let x = 0.6 * f64::from(number);
        Rafter { foot: [x, 0.0, 0.0], head: [x, 4.0, rise], diameters: [m(0.14); 2] }
    };
    (0..8).map(pole).collect()
}

fn square_eave() -> Edge {
    Edge::Outline([(-0.5, -0.6), (4.7, -0.6), (4.7, 4.4), (-0.5, 4.4)].map(|(x, y)| Point::new(x, y)).to_vec())
}

fn mirrored(rafters: &[Rafter]) -> Vec<Rafter> {
    let over = |[x, y, z]: Place| [x, -y, z];
    rafters.iter().map(|one| Rafter { foot: over(one.foot), head: over(one.head), ..*one }).collect()
}

#[test]
fn the_area_of_a_saddle_over_a_square_is_the_known_integral() {
    // ∫∫ √(1 + x² + y²) over the unit square.
    let known = 1.0 / 3.0_f64.sqrt() - PI / 18.0 + 2.0 / 3.0 * (2.0 + 3.0_f64.sqrt()).ln();
    let surface = saddle().bays()[0].surface();
    near(surface.area.in_m2(), known, 1e-13);
    near(surface.plan_area.in_m2(), 1.0, 1e-14);
    assert!(surface.twist < 0.0 && surface.error < 1e-10);
}

#[test]
fn a_flat_bay_has_the_area_of_its_rectangle_and_no_twist() {
    let frame = Frame::new(&lean_to(1.0), false, square_eave(), square_eave()).unwrap();
    let slope = 17.0_f64.sqrt() / 4.0;
    near(deck_area(&frame).value.in_m2(), 4.2 * 5.0 * slope, 1e-9);
    near(deck_plan_area(&frame).value.in_m2(), 4.2 * 5.0, 1e-9);
    near(steepest_slope(&frame).value.in_ratio(), 0.25, 1e-12);
    near(largest_twist_on_a_metre(&frame).value, 0.0, 1e-9);
}

#[test]
fn a_ring_of_radial_rafters_is_the_side_of_a_pyramid_and_of_a_cone_when_there_are_many() {
    for count in [6_u32, 200] {
        let rafter = |number: u32| {
            let turn = TAU * f64::from(number) / f64::from(count);
            [[3.0 * turn.cos(), 3.0 * turn.sin(), 0.0], [turn.cos(), turn.sin(), 0.8]]
        };
        let frame = lines(&(0..count).map(rafter).collect::<Vec<_>>(), true);
        let half = PI / f64::from(count);
        let pyramid = f64::from(count) * half.sin() * 4.0 * (2.0 * half.cos()).hypot(0.8);
        let found = deck_area(&frame).value.in_m2();
        near(found, pyramid, 1e-10);
        if count == 200 {
            near(found / (PI * 4.0 * 2.0_f64.hypot(0.8)), 1.0, 2e-4);
        }
    }
}

#[test]
fn the_integral_agrees_with_a_sum_of_triangles_whose_error_falls_fourfold() {
    let frame = roof(9);
    let bay = &frame.bays()[2];
    let triangles = |steps: u32| {
        let at = |row: u32, column: u32| {
            let (v, share) = (f64::from(column) / f64::from(steps), f64::from(row) / f64::from(steps));
            let [eave, eye] = bay.span(v);
            bay.patch.at(eave + share * (eye - eave), v)
        };
        let area = |a: Place, b: Place, c: Place| 0.5 * length(cross(minus(b, a), minus(c, a)));
        let square = |row: u32, column: u32| {
            let (a, b) = (at(row, column), at(row + 1, column));
            let (c, d) = (at(row + 1, column + 1), at(row, column + 1));
            area(a, b, c) + area(a, c, d)
        };
        (0..steps * steps).map(|number| square(number / steps, number % steps)).sum::<f64>()
    };
    let exact = bay.surface().area.in_m2();
    let errors = [triangles(40), triangles(80)].map(|sum| (sum - exact).abs());
    assert!(errors[1] / exact < 1e-4, "{errors:?} of {exact}");
    near(errors[0] / errors[1], 4.0, 0.1);
}

#[test]
fn a_layer_square_to_the_deck_is_the_room_between_two_parallel_surfaces() {
    // Divergence of a thin shell: sums of the scale of the parallel surface, layer by layer, by the midpoint rule.
    let bay_frame = saddle();
    let bay = &bay_frame.bays()[0];
    let surface = bay.surface();
    let thick = 0.3;
    let steps = 200;
    let mut volume = 0.0;
    for row in 0..steps {
        for column in 0..steps {
            let (u, v) = ((f64::from(row) + 0.5) / f64::from(steps), (f64::from(column) + 0.5) / f64::from(steps));
            // The saddle z = xy: its curvatures from the textbook form of a graph.
            let size = 1.0 + u * u + v * v;
            let (mean, gauss) = (-u * v / size.powf(1.5), -1.0 / (size * size));
            let shell = thick - mean * thick * thick + gauss * thick.powi(3) / 3.0;
            volume += size.sqrt() * shell / f64::from(steps * steps);
        }
    }
    let found = volume_square_to_deck(surface.area, surface.bend, surface.twist, Length::ZERO, m(thick)).value;
    near(found.in_m3(), volume, 1e-5);
}

#[test]
fn a_layer_on_a_pyramid_of_many_sides_is_the_shell_of_a_cone() {
    let rafter = |number: u32| {
        let turn = TAU * f64::from(number) / 240.0;
        [[3.0 * turn.cos(), 3.0 * turn.sin(), 0.0], [turn.cos(), turn.sin(), 0.8]]
    };
    let frame = lines(&(0..240).map(rafter).collect::<Vec<_>>(), true);
    // A cone of slope s from radius 3 to 1: the sum of its mean curvature is -π s (3 - 1).
    near(summed_mean_curvature(&frame).value, -PI * 0.4 * 2.0, 1e-3);
    near(summed_gaussian_curvature(&frame).value, 0.0, 1e-9);
    // A funnel has valleys instead of ridges.
    let funnel = |number: u32| rafter(number).map(|[x, y, z]| [x, y, -z]);
    let frame = lines(&(0..240).map(funnel).collect::<Vec<_>>(), true);
    near(summed_mean_curvature(&frame).value, PI * 0.4 * 2.0, 1e-3);
}

#[test]
fn a_regular_ring_has_equal_bays_and_their_plan_is_the_ring_between_the_circles() {
    for count in [5, 9, 13] {
        let frame = roof(count);
        let surfaces: Vec<Surface> = frame.bays().iter().map(Bay::surface).collect();
        for surface in &surfaces {
            near(surface.area.in_m2(), surfaces[0].area.in_m2(), 1e-9);
            near(surface.bend, surfaces[0].bend, 1e-9);
        }
        near(deck_plan_area(&frame).value.in_m2(), PI * (3.4 * 3.4 - 0.75 * 0.75), 1e-8);
    }
}

#[test]
fn many_rafters_make_the_hyperboloid_that_one_line_sweeps() {
    // A line at the distance p from the middle, of slope s, sweeps z = s √(ρ² − p²).
    let count = 160;
    let pitch = crate::units::Angle::deg(20.0);
    let frame = Frame::new(&ring(count, m(OUTER), m(EYE), m(THICK), pitch), true, circle(3.4), circle(0.75)).unwrap();
    let slope = pitch.in_rad().tan();
    let p = EYE * (PI / count as f64).cos();
    let steps = 200_000;
    let [from, to] = [0.75, 3.4];
    let ring = |step: i32| {
        let rho = from + (to - from) * (f64::from(step) + 0.5) / f64::from(steps);
        TAU * rho * (1.0 + slope * slope * rho * rho / (rho * rho - p * p)).sqrt()
    };
    let swept = (0..steps).map(ring).sum::<f64>() * (to - from) / f64::from(steps);
    near(deck_area(&frame).value.in_m2() / swept, 1.0, 1e-3);
}

#[test]
fn doubled_lengths_give_fourfold_areas_and_half_the_twist_on_a_metre() {
    let twice = |place: Place| place.map(|part| 2.0 * part);
    let large: Vec<Rafter> = poles(9)
        .into_iter()
        .map(|one| Rafter { foot: twice(one.foot), head: twice(one.head), diameters: [m(2.0 * THICK); 2] })
        .collect();
    let large = Frame::new(&large, true, circle(6.8), circle(1.5)).unwrap();
    let small = roof(9);
    near(deck_area(&large).value.in_m2(), 4.0 * deck_area(&small).value.in_m2(), 1e-7);
    near(largest_twist_on_a_metre(&large).value, 0.5 * largest_twist_on_a_metre(&small).value, 1e-12);
    near(steepest_slope(&large).value.in_ratio(), steepest_slope(&small).value.in_ratio(), 1e-9);
}

fn bedding(deck: Deck) -> Bedding {
    Bedding { deck, spacing: m(0.3), bearing: m(0.08), least: m(0.01) }
}

#[test]
fn a_mirrored_ring_has_the_mirrored_table_of_shims() {
    let mut crooked = poles(9);
    crooked[3].foot[2] += 0.03;
    crooked[5].head[2] -= 0.02;
    let frame = |rafters: &[Rafter]| Frame::new(rafters, true, circle(3.4), circle(0.75)).unwrap();
    for deck in [Deck::Ruled, Deck::FlatBays, Deck::OnePlane] {
        let one = shims(&frame(&crooked), &bedding(deck));
        let other = shims(&frame(&mirrored(&crooked)), &bedding(deck));
        for (row, mirror) in one.rafters.iter().zip(&other.rafters) {
            assert_eq!(row.len(), mirror.len());
            for (station, reflected) in row.iter().zip(mirror) {
                for side in 0..2 {
                    let (shim, image) = (station.sides[side].unwrap(), reflected.sides[1 - side].unwrap());
                    near(shim.inner.in_m(), image.inner.in_m(), 1e-9);
                    near(shim.outer.in_m(), image.outer.in_m(), 1e-9);
                    near(shim.cut.in_rad(), image.cut.in_rad(), 1e-9);
                }
            }
        }
    }
}

#[test]
fn no_shim_is_lower_than_the_least_and_one_is_just_that() {
    for deck in [Deck::Ruled, Deck::FlatBays, Deck::OnePlane] {
        for frame in [roof(9), Frame::new(&lean_to(0.7), false, square_eave(), square_eave()).unwrap()] {
            let table = shims(&frame, &bedding(deck));
            near(table.least().in_m(), 0.01, 1e-12);
            assert!(table.all().all(|shim| shim.inner.min(shim.outer) > m(0.01 - 1e-9)));
        }
    }
}

#[test]
fn a_flat_one_way_roof_has_no_shims_but_the_least() {
    let frame = Frame::new(&lean_to(0.7), false, square_eave(), square_eave()).unwrap();
    for deck in [Deck::Ruled, Deck::FlatBays, Deck::OnePlane] {
        let table = shims(&frame, &bedding(deck));
        for shim in table.all() {
            near(shim.inner.in_m(), 0.01, 1e-9);
            near(shim.outer.in_m(), 0.01, 1e-9);
            near(shim.cut.in_rad(), 0.0, 1e-9);
        }
        // Eight rafters, the outer two with one side each: 14 sides of 5 m in plan, 40 mm wide, 10 mm high.
        near(shim_volume(m(0.08), &frame, &table).value.in_m3(), 14.0 * 5.0 * 0.04 * 0.01, 1e-9);
        assert_eq!(table.rafters[0][0].sides[0].is_some(), table.rafters[7][0].sides[0].is_none());
    }
}

#[test]
fn a_low_pole_in_a_flat_row_is_packed_up_by_what_it_lacks() {
    let mut poles = lean_to(0.7);
    poles[3].foot[2] -= 0.024;
    poles[3].head[2] -= 0.024;
    let frame = Frame::new(&poles, false, square_eave(), square_eave()).unwrap();
    let table = shims(&frame, &bedding(Deck::OnePlane));
    let mean = |rafter: usize| table.rafters[rafter][4].sides.iter().flatten().next().unwrap().inner;
    near((mean(3) - 0.5 * (mean(2) + mean(4))).in_m(), 0.024, 1e-9);
}

#[test]
fn stations_stand_at_whole_spacings_from_the_support_and_at_both_cuts() {
    let table = shims(&roof(9), &bedding(Deck::Ruled));
    let along: Vec<f64> = table.rafters[0].iter().map(|station| station.along.in_m()).collect();
    for inner in &along[1..along.len() - 1] {
        near(inner / 0.3, (inner / 0.3).round(), 1e-9);
    }
    assert!(along.windows(2).all(|pair| pair[0] < pair[1] && pair[1] - pair[0] < 0.3 + 1e-9));
    assert_eq!(table.classes(m(0.005)).values().sum::<u64>(), table.all().count() as u64);
}

#[test]
fn a_bay_is_covered_by_its_boards_and_their_ends_lean_with_the_rafters() {
    let frame = roof(9);
    let bay = &frame.bays()[0];
    let cover = m(0.1);
    let laid = courses(bay, cover);
    let boards: f64 = laid.boards.iter().map(|board| (board.length * cover).in_m2()).sum();
    assert!(boards > laid.covered.in_m2() && boards < 1.3 * laid.covered.in_m2(), "{boards} for {:?}", laid.covered);
    near(laid.covered.in_m2(), bay.surface().area.in_m2(), 0.01);
    let [left, right] = laid.boards[laid.boards.len() / 2].ends.map(Option::unwrap);
    assert!(left.in_rad() > 0.0 && right.in_rad() < 0.0, "{left:?} {right:?}");
    let mirror = Frame::new(&mirrored(&poles(9)), true, circle(3.4), circle(0.75)).unwrap();
    let reflected = courses(&mirror.bays()[0], cover);
    for (board, image) in laid.boards.iter().zip(&reflected.boards) {
        near(board.length.in_m(), image.length.in_m(), 1e-9);
    }
}

#[test]
fn boards_of_a_twisted_square_are_as_long_as_their_rulings() {
    let frame = lines(&[[[0., 0., 0.1], [1., 0., -0.1]], [[0., 1., -0.1], [1., 1., 0.1]]], false);
    let laid = courses(&frame.bays()[0], Length::mm(10.0));
    near(laid.boards[0].length.in_m(), 1.0_f64.hypot(0.198), 1e-9);
    near(laid.boards[49].length.in_m(), 1.0_f64.hypot(0.002), 1e-9);
    near(laid.boards[99].length.in_m(), 1.0_f64.hypot(0.198), 1e-9);
}

#[test]
fn a_flat_rectangle_takes_boards_of_its_width_with_square_ends() {
    let frame = Frame::new(&lean_to(1.0), false, square_eave(), square_eave()).unwrap();
    let laid = courses(&frame.bays()[1], m(0.15));
    // 5 m in plan at 1 in 4 is 5.154 m: 35 courses of 150 mm.
    assert_eq!(laid.boards.len(), 35);
    for board in &laid.boards {
        near(board.length.in_m(), 0.6, 1e-9);
        near(board.ends[0].unwrap().in_rad(), 0.0, 1e-9);
    }
}

#[test]
fn every_tail_and_every_ordinate_ends_on_the_eave() {
    let frame = roof(9);
    for (top, tail) in frame.rafters().iter().zip(tails(&frame)) {
        near(top.eave[0].hypot(top.eave[1]), 3.4, 1e-9);
        near(length(minus(top.eave, top.support)), tail.in_m(), 1e-9);
    }
    let half = TAU / 9.0 / 2.0;
    for board in edge_boards(&frame) {
        near(board.string.in_m(), 2.0 * 3.4 * half.sin(), 1e-9);
        near(board.ordinates[1].in_m(), 3.4 * (1.0 - half.cos()), 1e-9);
        near(board.ordinates[0].in_m(), 3.4 * ((1.0 - 0.25 * half.sin().powi(2)).sqrt() - half.cos()), 1e-9);
        near(board.bevels[0].unwrap().in_rad(), half, 1e-9);
        near(board.rise.in_rad(), 0.0, 1e-9);
        assert!(board.curve > board.string);
    }
}

#[test]
fn the_frame_of_the_eye_is_a_regular_polygon_on_its_edge() {
    for piece in eye_frame(&roof(9)) {
        near(piece.in_m(), 2.0 * 0.75 * (PI / 9.0).sin(), 1e-9);
    }
}

#[test]
fn a_round_eave_on_straight_rafters_sinks_between_the_tails_and_a_straight_one_does_not() {
    let frame = roof(9);
    let bay = &frame.bays()[0];
    assert!(bay.at_eave(0.5)[2] < bay.at_eave(0.0)[2] - 0.05);
    let points = edge_points(&frame);
    let outlets_at_tails = drainage(&points, true, &[0, 12, 24]);
    assert!(outlets_at_tails.ponding.unwrap().1 > Length::mm(50.0));
    let row = Frame::new(&lean_to(1.0), false, square_eave(), square_eave()).unwrap();
    assert_eq!(drainage(&edge_points(&row), false, &[0]).ponding, None);
}

#[test]
fn the_catchments_share_out_the_whole_plan() {
    let frame = roof(9);
    let points = edge_points(&frame);
    assert_eq!(points.len(), 36);
    let found = drainage(&points, true, &[0, 12, 24]);
    let plan = deck_plan_area(&frame).value.in_m2();
    for catchment in &found.catchments {
        near(catchment.area.in_m2(), plan / 3.0, 1e-6);
    }
    let row = Frame::new(&lean_to(1.0), false, square_eave(), square_eave()).unwrap();
    let points = edge_points(&row);
    let whole: f64 = points.iter().map(|point| point.area.in_m2()).sum();
    near(whole, 21.0, 1e-6);
    near(points.last().unwrap().along.in_m(), 4.2, 1e-9);
}

#[test]
fn what_cannot_be_decked_is_refused() {
    let frame = |rafters: &[Rafter], eave, eye| Frame::new(rafters, true, eave, eye).err();
    assert_eq!(frame(&poles(9)[..2], circle(3.4), circle(0.75)), Some(Fault::TooFew));
    assert_eq!(frame(&poles(9), circle(3.4), circle(0.3)), Some(Fault::NoEye(0)));
    assert_eq!(frame(&poles(9), circle(0.4), circle(0.75)), Some(Fault::NoEave(0)));
    assert_eq!(frame(&poles(9), circle(3.4), circle(EYE)), Some(Fault::Folded(0)));
    let mut upright = poles(9);
    upright[4].head = [upright[4].foot[0], upright[4].foot[1], 2.0];
    assert_eq!(frame(&upright, circle(3.4), circle(0.75)), Some(Fault::Upright(4)));
    let mut crossed = poles(9);
    crossed.swap(0, 1);
    assert_eq!(frame(&crossed, circle(3.4), circle(0.75)), Some(Fault::Order(1)));
}

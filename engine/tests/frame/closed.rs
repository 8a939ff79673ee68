//! Single members and small frames against closed forms.

use std::f64::consts::PI;

use engine::frame::{Frame, LoadCase, Member, MemberLoad, Node, Section, Sense, Support};

use crate::{CONE, FAST, LOOSE, MODULI, UPRIGHT, answer, beam, by_lot, line, near};

const EVEN: Section = Section::Even { area: 0.02, about_y: 3e-5, about_z: 5e-5, twist: 4e-5 };
const YOUNG: f64 = MODULI[0];

#[test]
fn a_cantilever_sinks_by_w_l4_over_8_e_i_and_turns_by_w_l3_over_6_e_i() {
    let case = LoadCase { members: vec![line(0, [0.0, 0.0, -800.0])], ..LoadCase::default() };
    let tip = answer(&beam(3.0, EVEN, [FAST, LOOSE]), &case).movements[1];
    near(tip[2], -800.0 * 81.0 / (8.0 * YOUNG * 5e-5), 1e-13);
    near(tip[4], 800.0 * 27.0 / (6.0 * YOUNG * 5e-5), 1e-13);
}

#[test]
fn a_load_that_grows_evenly_makes_the_fixed_end_moments_of_the_handbooks() {
    // w L²/30 where it is nothing, w L²/20 where it is largest: any handbook of structures, from memory.
    let load = MemberLoad::Line { span: None, first: [0.0; 3], last: [0.0, 0.0, -600.0], sense: Sense::Global };
    let case = LoadCase { members: vec![(0, load)], ..LoadCase::default() };
    let ends = answer(&beam(4.0, EVEN, [FAST, FAST]), &case).ends[0];
    near(ends[0][5], 600.0 * 16.0 / 30.0, 1e-13);
    near(ends[1][5], -600.0 * 16.0 / 20.0, 1e-13);
}

#[test]
fn a_point_load_on_a_held_beam_makes_p_a_b2_over_l2() {
    let load = MemberLoad::Point { at: 1.0, force: [0.0, 0.0, -900.0, 0.0, 0.0, 0.0], sense: Sense::Global };
    let case = LoadCase { members: vec![(0, load)], ..LoadCase::default() };
    let ends = answer(&beam(4.0, EVEN, [FAST, FAST]), &case).ends[0];
    near(ends[0][5], 900.0 * 1.0 * 9.0 / 16.0, 1e-13);
    near(ends[1][5], -900.0 * 1.0 * 3.0 / 16.0, 1e-13);
}

#[test]
fn a_projected_load_counts_on_the_length_in_plan_and_a_global_one_on_the_length_of_the_member() {
    let mut frame = beam(4.0, EVEN, [FAST, LOOSE]);
    frame.nodes[1].at = [4.0, 0.0, 3.0];
    let carried = |sense| {
        let load = MemberLoad::Line { span: None, first: [0.0, 0.0, -700.0], last: [0.0, 0.0, -700.0], sense };
        answer(&frame, &LoadCase { members: vec![(0, load)], ..LoadCase::default() }).reactions[0][2]
    };
    near(carried(Sense::Projected), 700.0 * 4.0, 1e-13);
    near(carried(Sense::Global), 700.0 * 5.0, 1e-13);
}

/// The sum of `count` slices at the middle of each.
fn slices(count: u32, length: f64, f: impl Fn(f64) -> f64) -> f64 {
    (0..count).map(|k| f(length * (f64::from(k) + 0.5) / f64::from(count)) * length / f64::from(count)).sum()
}

#[test]
fn a_cone_under_its_own_weight_sinks_as_fine_slices_say() {
    let case =
        LoadCase { members: vec![(0, MemberLoad::Body { on_volume: [0.0, 0.0, -5000.0] })], ..LoadCase::default() };
    let length = 4.0;
    let tip = answer(&beam(length, CONE, [FAST, LOOSE]), &case).movements[1][2];
    let thick = |x: f64| 0.18 - 0.06 * x / length;
    let moment = |x: f64| slices(2000, length - x, |u| 5000.0 * PI / 4.0 * thick(x + u).powi(2) * u);
    let sunk = slices(2000, length, |x| moment(x) * (length - x) * 64.0 / (PI * YOUNG * thick(x).powi(4)));
    near(tip, -sunk, 1e-6);
}

#[test]
fn a_notch_is_the_same_as_a_short_member_in_its_place() {
    let notch = Section::Even { area: 0.008, about_y: 4e-6, about_z: 3e-6, twist: 5e-6 };
    let mut whole = beam(4.0, CONE, [FAST, LOOSE]);
    whole.members[0] = whole.members[0].clone().with_stretch(0.5, 0.55, notch);
    let nodes = [0.0, 2.0, 2.2, 4.0].map(|x| Node::held([x, 0.0, 0.0], [x == 0.0; 6]));
    let round = |first, last| Section::Round { first, last };
    let sections = [round(0.18, 0.15), notch, round(0.147, 0.12)];
    let members = (0..3).map(|k| Member::new([k, k + 1], UPRIGHT, MODULI, sections[k])).collect();
    let parts = Frame { nodes: nodes.to_vec(), members, links: Vec::new() };
    let push = [300.0, 200.0, -500.0, 40.0, 30.0, -20.0];
    let case = |node| LoadCase { nodes: vec![(node, push)], ..LoadCase::default() };
    let (one, other) = (answer(&whole, &case(1)).movements[1], answer(&parts, &case(3)).movements[3]);
    for k in 0..6 {
        near(one[k], other[k], 1e-12);
    }
    assert!(answer(&beam(4.0, CONE, [FAST, LOOSE]), &case(1)).movements[1][2] > one[2]);
}

#[test]
fn forces_and_movements_along_a_beam_are_those_of_the_handbooks() {
    let hinged = [true, true, true, true, false, false];
    let frame = beam(4.0, EVEN, [hinged, [false, true, true, false, false, false]]);
    let case = LoadCase { members: vec![line(0, [0.0, 0.0, -500.0])], ..LoadCase::default() };
    let whole = frame.factorise().unwrap();
    let answer = whole.solve(std::slice::from_ref(&case)).unwrap().remove(0);
    for place in whole.along(&case, &answer, 0, &[0.0, 1.0, 2.0, 4.0]).unwrap() {
        let x = place.at;
        let sunk = 500.0 * x * (64.0 - 8.0 * x * x + x.powi(3)) / (24.0 * YOUNG * 5e-5);
        assert!((place.forces[5] - 250.0 * x * (4.0 - x)).abs() < 1e-9);
        assert!((place.forces[1] + 500.0 * (2.0 - x)).abs() < 1e-9, "{place:?}");
        assert!((place.movements[2] + sunk).abs() < 1e-15, "{} {sunk}", place.movements[2]);
    }
}

#[test]
fn movements_at_the_far_end_of_each_member_are_those_of_its_node_where_nothing_is_released() {
    let (mut frame, case) = by_lot(7);
    frame.members.iter_mut().for_each(|member| member.released = [LOOSE; 2]);
    let whole = frame.factorise().unwrap();
    let answer = whole.solve(std::slice::from_ref(&case)).unwrap().remove(0);
    for (index, member) in frame.members.iter().enumerate() {
        let [a, b] = member.nodes.map(|node| frame.nodes[node].at);
        let length = (0..3).map(|k| (a[k] - b[k]).powi(2)).sum::<f64>().sqrt();
        let end = whole.along(&case, &answer, index, &[length]).unwrap()[0];
        for k in 0..6 {
            assert!((end.movements[k] - answer.movements[member.nodes[1]][k]).abs() < 1e-10, "member {index}");
            assert!((end.forces[k] - answer.ends[index][1][k]).abs() < 1e-6, "member {index}, {k}");
        }
    }
}

#[test]
fn a_spring_carries_its_stiffness_times_its_movement() {
    let mut frame = beam(3.0, EVEN, [FAST, LOOSE]);
    frame.nodes[1].support[2] = Support::Spring(4e5);
    let case = LoadCase { nodes: vec![(1, [0.0, 0.0, -1000.0, 0.0, 0.0, 0.0])], ..LoadCase::default() };
    let answer = answer(&frame, &case);
    let beam = 3.0 * YOUNG * 5e-5 / 27.0;
    near(answer.movements[1][2], -1000.0 / (beam + 4e5), 1e-12);
    near(answer.reactions[1][2], 1000.0 * 4e5 / (beam + 4e5), 1e-12);
}

#[test]
fn supports_that_move_as_one_body_make_no_force() {
    let (frame, _) = by_lot(3);
    let mut case = LoadCase::default();
    let (slide, turn) = ([0.01, -0.02, 0.03], [0.002, 0.001, -0.003]);
    let moved = |at: [f64; 3]| {
        [
            slide[0] + turn[1] * at[2] - turn[2] * at[1],
            slide[1] + turn[2] * at[0] - turn[0] * at[2],
            slide[2] + turn[0] * at[1] - turn[1] * at[0],
        ]
    };
    for node in 0..4 {
        let moved = moved(frame.nodes[node].at);
        case.settled.extend((0..3).flat_map(|k| [(node, k, moved[k]), (node, k + 3, turn[k])]));
    }
    let answer = answer(&frame, &case);
    for (node, own) in frame.nodes.iter().zip(&answer.movements) {
        assert!((0..3).all(|k| (own[k] - moved(node.at)[k]).abs() < 1e-10 && (own[k + 3] - turn[k]).abs() < 1e-10));
    }
    // A support that sinks by 30 mm alone makes forces of more than 100 N here.
    assert!(answer.ends.iter().flatten().flatten().all(|force| force.abs() < 1e-3), "{:?}", answer.ends);
}

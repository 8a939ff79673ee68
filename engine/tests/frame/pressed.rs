//! Second order and buckling.

use engine::frame::{Fault, Frame, LoadCase, Member, MemberLoad, Node, Section};

use crate::{CONE, FAST, LOOSE, UPRIGHT, beam, by_lot, line, near};

const UNIT: Section = Section::Even { area: 1.0, about_y: 1.0, about_z: 1.0, twist: 1.0 };
const PINNED: [bool; 6] = [true, true, true, true, false, false];
const ROLLER: [bool; 6] = [false, true, true, false, false, false];

/// A member of length 1 with E I = 1 along x.
fn unit(held: [[bool; 6]; 2]) -> Frame {
    let mut frame = beam(1.0, UNIT, held);
    (frame.members[0].young, frame.members[0].shear) = (1.0, 1.0);
    frame
}

#[test]
fn a_pulled_beam_sinks_less_by_the_factor_with_hyperbolic_functions() {
    // As for the pushed beam with u = i v: 12 (2 sech v − 2 + v²) / (5 v⁴), Timoshenko and Gere, from memory.
    let pull: f64 = 30.0;
    let v = 0.5 * pull.sqrt();
    let case = LoadCase {
        nodes: vec![(1, [pull, 0.0, 0.0, 0.0, 0.0, 0.0])],
        members: vec![line(0, [0.0, 0.0, -76.8])],
        ..LoadCase::default()
    };
    let frame = unit([PINNED, ROLLER]);
    let whole = frame.factorise().unwrap();
    let answer = whole.second_order(&case).unwrap();
    let sunk = whole.along(&case, &answer, 0, &[0.5]).unwrap()[0].movements[2];
    near(sunk, -12.0 * (2.0 / v.cosh() - 2.0 + v * v) / (5.0 * v.powi(4)), 1e-9);
}

#[test]
fn small_loads_give_the_answer_of_first_order() {
    let (frame, mut case) = by_lot(1);
    case.nodes.iter_mut().for_each(|(_, force)| *force = force.map(|part| 1e-6 * part));
    case.members.clear();
    let whole = frame.factorise().unwrap();
    let first = whole.solve(std::slice::from_ref(&case)).unwrap().remove(0);
    let second = whole.second_order(&case).unwrap();
    for (one, other) in first.movements.iter().flatten().zip(second.movements.iter().flatten()) {
        assert!((one - other).abs() <= 1e-7 * 1e-6, "{one} {other}");
    }
}

#[test]
fn second_order_forces_are_in_balance_on_the_nodes_and_grow_with_the_push() {
    for seed in 0..10 {
        let (frame, mut case) = by_lot(seed);
        case.nodes.extend((8..12).map(|node| (node, [0.0, 0.0, -6_000.0, 0.0, 0.0, 0.0])));
        let whole = frame.factorise().unwrap();
        let answer = whole.second_order(&case).unwrap();
        assert!(answer.residual < 1e-9, "{}", answer.residual);
        let first = whole.solve(std::slice::from_ref(&case)).unwrap().remove(0);
        assert!(answer.work > first.work, "{seed}");
    }
}

#[test]
fn a_column_pushed_beyond_its_critical_load_has_no_answer() {
    let push = |force: f64| LoadCase { nodes: vec![(1, [-force, 0.0, 0.01, 0.0, 0.0, 0.0])], ..LoadCase::default() };
    let frame = unit([FAST, LOOSE]);
    let whole = frame.factorise().unwrap();
    let critical = std::f64::consts::PI.powi(2) / 4.0;
    assert!(whole.second_order(&push(0.999 * critical)).is_ok());
    for beyond in [1.001, 5.0, 30.0, 200.0] {
        assert_eq!(whole.second_order(&push(beyond * critical)).unwrap_err(), Fault::Unstable, "{beyond}");
    }
}

#[test]
fn a_column_between_two_held_ends_buckles_between_them() {
    let case = LoadCase { members: vec![point(0.5, -1.0)], ..LoadCase::default() };
    let frame = unit([FAST, FAST]);
    let whole = frame.factorise().unwrap().buckling(&case).unwrap();
    let mut parts = beam(1.0, UNIT, [FAST, FAST]);
    parts.nodes = vec![parts.nodes[0], Node::free([0.5, 0.0, 0.0]), parts.nodes[1]];
    parts.members = [[0, 1], [1, 2]].map(|nodes| Member::new(nodes, UPRIGHT, [1.0, 1.0], UNIT)).to_vec();
    let half = LoadCase { nodes: vec![(1, [-1.0, 0.0, 0.0, 0.0, 0.0, 0.0])], ..LoadCase::default() };
    near(whole.factor, parts.factorise().unwrap().buckling(&half).unwrap().factor, 1e-8);
    assert!(whole.mode.iter().flatten().all(|moved| *moved == 0.0));
}

fn point(at: f64, along: f64) -> (usize, MemberLoad) {
    let force = [along, 0.0, 0.0, 0.0, 0.0, 0.0];
    (0, MemberLoad::Point { at, force, sense: engine::frame::Sense::Local })
}

#[test]
fn a_strut_released_at_both_ends_buckles_at_pi2_e_i_over_l2_though_its_nodes_are_held() {
    let mut frame = unit([FAST, [false, true, true, true, true, true]]);
    frame.members[0].released = [[false, false, false, false, true, true]; 2];
    let case = LoadCase { nodes: vec![(1, [-1.0, 0.0, 0.0, 0.0, 0.0, 0.0])], ..LoadCase::default() };
    let whole = frame.factorise().unwrap();
    let critical = std::f64::consts::PI.powi(2);
    near(whole.buckling(&case).unwrap().factor, critical, 1e-9);
    let push = |share: f64| LoadCase {
        nodes: vec![(1, [-share * critical, 0.0, 0.0, 0.0, 0.0, 0.0])],
        members: vec![line(0, [0.0, 0.0, -76.8])],
        ..LoadCase::default()
    };
    assert_eq!(whole.second_order(&push(1.01)).unwrap_err(), Fault::Unstable);
    let answer = whole.second_order(&push(0.3)).unwrap();
    let middle = whole.along(&push(0.3), &answer, 0, &[0.5]).unwrap()[0];
    near(middle.movements[2], -1.430_085_558, 1e-9);
}

#[test]
fn a_mast_buckles_under_its_own_weight_at_7_837_e_i_over_l2() {
    // 9/4 of the square of the first zero of the Bessel function of order −1/3, 1.866350858: Timoshenko and Gere, from memory.
    let mut frame = unit([FAST, LOOSE]);
    frame.nodes[1].at = [0.0, 0.0, 1.0];
    frame.members[0].reference = [1.0, 0.0, 0.0];
    let body = (0, MemberLoad::Body { on_volume: [0.0, 0.0, -1.0] });
    let case = LoadCase { members: vec![body], ..LoadCase::default() };
    let found = frame.factorise().unwrap().buckling(&case).unwrap();
    near(found.factor, 2.25 * 1.866_350_858_f64.powi(2), 1e-8);
}

#[test]
fn the_factor_is_the_load_at_which_second_order_stops_to_have_an_answer() {
    let (frame, mut case) = by_lot(6);
    case.members.clear();
    case.nodes = (8..12).map(|node| (node, [0.0, 0.0, -10_000.0, 0.0, 0.0, 0.0])).collect();
    let whole = frame.factorise().unwrap();
    let found = whole.buckling(&case).unwrap();
    assert!(found.mode.iter().flatten().any(|moved| *moved == 1.0));
    let scaled = |share: f64| LoadCase {
        nodes: case.nodes.iter().map(|(node, force)| (*node, force.map(|part| share * found.factor * part))).collect(),
        ..LoadCase::default()
    };
    assert!(whole.second_order(&scaled(0.9)).is_ok());
    assert!(whole.second_order(&scaled(1.1)).is_err());
}

#[test]
fn a_pulled_frame_does_not_buckle() {
    let case = LoadCase { nodes: vec![(1, [1.0, 0.0, 0.0, 0.0, 0.0, 0.0])], ..LoadCase::default() };
    let frame = beam(3.0, CONE, [FAST, LOOSE]);
    assert_eq!(frame.factorise().unwrap().buckling(&case).unwrap_err(), Fault::NothingBuckles);
}

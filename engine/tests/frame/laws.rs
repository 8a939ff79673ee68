//! Laws that hold for every frame.

use engine::frame::{Frame, LoadCase, Member, MemberLoad, Node, Section, Sense};

use crate::{CONE, FAST, LOOSE, MODULI, UPRIGHT, answer, beam, by_lot};

#[test]
fn forces_are_in_balance_at_every_node_to_a_billionth() {
    for seed in 0..40 {
        let (frame, case) = by_lot(seed);
        let residual = answer(&frame, &case).residual;
        assert!(residual < 1e-9, "{seed}: {residual}");
    }
}

#[test]
fn reactions_and_loads_are_in_balance_as_a_whole() {
    let (frame, case) = by_lot(11);
    let on_nodes = LoadCase { nodes: case.nodes, ..LoadCase::default() };
    let answer = answer(&frame, &on_nodes);
    let mut sums = [0.0; 6];
    let all = on_nodes.nodes.iter().copied().chain(answer.reactions.iter().copied().enumerate());
    for (node, force) in all {
        let at = frame.nodes[node].at;
        for k in 0..3 {
            let (a, b) = ((k + 1) % 3, (k + 2) % 3);
            sums[k] += force[k];
            sums[k + 3] += force[k + 3] + at[a] * force[b] - at[b] * force[a];
        }
    }
    assert!(sums.iter().all(|sum| sum.abs() < 1e-7), "{sums:?}");
}

#[test]
fn twice_one_case_and_another_together_give_twice_and_the_other_answer() {
    let ((frame, one), (_, other)) = (by_lot(5), by_lot(5));
    let other = LoadCase { members: other.members.into_iter().skip(7).collect(), ..LoadCase::default() };
    let mut sum = one.clone();
    sum.nodes.extend(one.nodes.iter().copied());
    sum.members.extend(one.members.iter().chain(&other.members).copied());
    let all = frame.factorise().unwrap().solve(&[one, other, sum]).unwrap();
    let most = all[2].ends.iter().flatten().flatten().fold(0.0_f64, |most, force| most.max(force.abs()));
    for member in 0..frame.members.len() {
        for (end, k) in (0..2).flat_map(|end| (0..6).map(move |k| (end, k))) {
            let [one, other, sum] = [0, 1, 2].map(|case| all[case].ends[member][end][k]);
            assert!((2.0 * one + other - sum).abs() < 1e-9 * most);
        }
    }
}

#[test]
fn a_stiffer_frame_gives_way_less_to_the_same_loads_on_its_nodes() {
    for seed in 0..10 {
        let (frame, case) = by_lot(seed);
        let case = LoadCase { nodes: case.nodes, ..LoadCase::default() };
        let before = answer(&frame, &case).work;
        for member in 0..frame.members.len() {
            let mut stiffer = frame.clone();
            stiffer.members[member].young *= 1.3;
            stiffer.members[member].shear *= 1.3;
            let after = answer(&stiffer, &case).work;
            assert!(after <= before * (1.0 + 1e-10), "{seed}, member {member}: {after} {before}");
        }
        let mut all = frame.clone();
        all.members.iter_mut().for_each(|member| {
            member.young *= 2.0;
            member.shear *= 2.0;
        });
        crate::near(answer(&all, &case).work, 0.5 * before, 1e-9);
    }
}

#[test]
fn a_force_here_moves_there_as_much_as_the_same_force_there_moves_here() {
    let (frame, _) = by_lot(2);
    let unit = |node, at: usize| LoadCase {
        nodes: vec![(node, std::array::from_fn(|k| f64::from(u8::from(k == at))))],
        ..LoadCase::default()
    };
    let answers = frame.factorise().unwrap().solve(&[unit(5, 2), unit(10, 4)]).unwrap();
    crate::near(answers[0].movements[10][4], answers[1].movements[5][2], 1e-9);
}

#[test]
fn a_frame_turned_in_space_gives_the_same_answer_turned() {
    let (frame, mut case) = by_lot(4);
    for (_, load) in &mut case.members {
        if let MemberLoad::Line { sense: sense @ Sense::Projected, .. } = load {
            *sense = Sense::Global;
        }
    }
    let (sine, cosine) = 0.8_f64.sin_cos();
    let turn = |v: [f64; 3]| [cosine * v[0] - sine * v[1], v[2], -(sine * v[0] + cosine * v[1])];
    let mut turned = frame.clone();
    turned.nodes.iter_mut().for_each(|node| node.at = turn(node.at));
    turned.members.iter_mut().for_each(|member| member.reference = turn(member.reference));
    let mut other = case.clone();
    for (_, force) in &mut other.nodes {
        let [along, about] = [turn([force[0], force[1], force[2]]), turn([force[3], force[4], force[5]])];
        *force = [along[0], along[1], along[2], about[0], about[1], about[2]];
    }
    for (_, load) in &mut other.members {
        match load {
            MemberLoad::Line { first, last, sense, .. } if *sense != Sense::Local => {
                (*first, *last) = (turn(*first), turn(*last));
            }
            MemberLoad::Body { on_volume } => *on_volume = turn(*on_volume),
            _ => {}
        }
    }
    let (before, after) = (answer(&frame, &case), answer(&turned, &other));
    let most = before.ends.iter().flatten().flatten().fold(0.0_f64, |most, force| most.max(force.abs()));
    for (one, other) in before.ends.iter().flatten().flatten().zip(after.ends.iter().flatten().flatten()) {
        assert!((one - other).abs() < 1e-9 * most, "{one} {other}");
    }
}

/// A leaning cone with its loads, whole or in two parts.
fn leaning(parts: bool) -> (Frame, LoadCase) {
    let at = |share: f64| [4.0 * share, 0.7 * share, 2.0 * share];
    let length = 20.49_f64.sqrt();
    let shares = if parts { vec![0.0, 0.37, 1.0] } else { vec![0.0, 1.0] };
    let held = |share: f64| if share == 0.0 { FAST } else { [false, share == 1.0, share == 1.0, false, false, false] };
    let (mut frame, mut case) = (Frame::default(), LoadCase::default());
    frame.nodes = shares.iter().map(|&share| Node::held(at(share), held(share))).collect();
    case.nodes.push((shares.len() - 1, [-20_000.0, 0.0, 0.0, 0.0, 30.0, 0.0]));
    let (first, last) = ([10.0, 100.0, -400.0], [0.0, -300.0, -900.0]);
    for (member, ends) in shares.windows(2).enumerate() {
        frame.members.push(Member::new([member, member + 1], UPRIGHT, MODULI, CONE.part(ends[0], ends[1])));
        let load = |share: f64| std::array::from_fn(|k| first[k] + share * (last[k] - first[k]));
        let spread =
            MemberLoad::Line { span: None, first: load(ends[0]), last: load(ends[1]), sense: Sense::Projected };
        case.members.push((member, spread));
        case.members.push((member, MemberLoad::Body { on_volume: [0.0, 0.0, -4000.0] }));
        if ends[1] == 1.0 {
            let force = [0.0, 500.0, -300.0, 0.0, 60.0, 0.0];
            let at = (0.8 - ends[0]) * length;
            case.members.push((member, MemberLoad::Point { at, force, sense: Sense::Global }));
        }
    }
    (frame, case)
}

#[test]
fn a_tapering_member_in_two_parts_answers_as_the_whole_does() {
    let ((whole, one), (parts, two)) = (leaning(false), leaning(true));
    let (factorised, divided) = (whole.factorise().unwrap(), parts.factorise().unwrap());
    let first = [answer(&whole, &one), factorised.second_order(&one).unwrap()];
    let then = [answer(&parts, &two), divided.second_order(&two).unwrap()];
    for (one_answer, other) in first.iter().zip(&then) {
        for k in 0..6 {
            let (one, two) = (one_answer.ends[0][0][k], other.ends[0][0][k]);
            assert!((one - two).abs() < 1e-6, "{k}: {one} {two}");
            assert!((one_answer.movements[1][k] - other.movements[2][k]).abs() < 1e-11);
        }
        let at = 0.37 * 20.49_f64.sqrt();
        let place = factorised.along(&one, one_answer, 0, &[at]).unwrap()[0];
        for k in 0..6 {
            assert!((place.movements[k] - other.movements[1][k]).abs() < 1e-11, "{k}");
            assert!((place.forces[k] - other.ends[0][1][k]).abs() < 1e-6, "{k}");
        }
    }
    assert!((first[0].movements[1][4] - first[1].movements[1][4]).abs() > 1e-5);
    crate::near(factorised.buckling(&one).unwrap().factor, divided.buckling(&two).unwrap().factor, 1e-9);
}

#[test]
fn a_cone_that_hardly_tapers_is_a_cylinder() {
    let case = LoadCase { nodes: vec![(1, [100.0, 50.0, -500.0, 20.0, 0.0, 10.0])], ..LoadCase::default() };
    let round = |last| answer(&beam(3.0, Section::Round { first: 0.15, last }, [FAST, LOOSE]), &case).movements[1];
    let (even, taper) = (round(0.15), round(0.15 * (1.0 + 1e-9)));
    (0..6).filter(|&k| even[k] != 0.0).for_each(|k| crate::near(taper[k], even[k], 1e-8));
}

//! Frames that have no answer say why.

use engine::frame::{Direction, Fault, Frame, Link, LoadCase, Member, MemberLoad, Node, Section, Sense, Support};

use crate::{CONE, FAST, LOOSE, Lot, MODULI, UPRIGHT, beam, by_lot, line};

fn mechanism(frame: &Frame) -> (usize, Direction) {
    match frame.factorise().unwrap_err() {
        Fault::Mechanism { node, direction } => (node, direction),
        other => panic!("{other}"),
    }
}

#[test]
fn a_beam_on_two_pins_without_hold_against_twist_is_free_about_its_axis() {
    let pin = [true, true, true, false, false, false];
    assert_eq!(mechanism(&beam(4.0, CONE, [pin, pin])).1, Direction::AboutX);
}

#[test]
fn a_frame_without_support_is_named() {
    let (mut frame, _) = by_lot(1);
    frame.nodes.iter_mut().for_each(|node| node.support = [Support::Free; 6]);
    let _ = mechanism(&frame);
}

#[test]
fn a_hinge_in_a_hinged_beam_is_the_node_that_moves_most() {
    let pin = [true, true, true, true, false, true];
    let node = |x: f64| Node::held([x, 0.3 * x, 0.7 * x], if x % 4.5 == 0.0 { pin } else { LOOSE });
    let mut frame = Frame { nodes: [0.0, 1.5, 3.0, 4.5].map(node).to_vec(), ..Frame::default() };
    for k in 0..3 {
        let mut member = Member::new([k, k + 1], UPRIGHT, MODULI, CONE);
        member.released[0][5] = k == 1;
        member.released[0][4] = k == 1;
        frame.members.push(member);
    }
    frame.nodes[0].support[5] = Support::Free;
    frame.nodes[3].support[5] = Support::Free;
    let (node, _) = mechanism(&frame);
    assert_eq!(node, 1);
}

#[test]
fn a_node_where_every_member_is_released_turns_freely() {
    let mut frame = beam(3.0, CONE, [FAST, LOOSE]);
    frame.members[0].released[1][5] = true;
    frame.nodes[1].support[2] = Support::Fast;
    // The local z axis lies along −y.
    assert_eq!(mechanism(&frame), (1, Direction::AboutY));
}

#[test]
fn a_node_that_nothing_holds_is_named() {
    let mut frame = beam(3.0, CONE, [FAST, LOOSE]);
    frame.nodes.push(Node::free([9.0, 9.0, 9.0]));
    assert_eq!(mechanism(&frame).0, 2);
}

#[test]
fn long_chains_of_slender_members_are_no_mechanism() {
    let thin = Section::Round { first: 0.02, last: 0.02 };
    let frame = Frame {
        nodes: (0..=200).map(|k| Node::held([0.05 * f64::from(k), 0.0, 0.0], [k == 0; 6])).collect(),
        members: (0..200).map(|k| Member::new([k, k + 1], UPRIGHT, MODULI, thin)).collect(),
        links: Vec::new(),
    };
    let case = LoadCase { nodes: vec![(200, [0.0, 0.0, -0.001, 0.0, 0.0, 0.0])], ..LoadCase::default() };
    let tip = crate::answer(&frame, &case).movements[200][2];
    let closed = -0.001 * 1000.0 * 64.0 / (3.0 * MODULI[0] * std::f64::consts::PI * 0.02_f64.powi(4));
    crate::near(tip, closed, 1e-5);
}

#[test]
fn a_member_free_at_both_ends_of_its_axis_says_that_its_load_is_not_carried() {
    let mut frame = beam(3.0, CONE, [FAST, FAST]);
    frame.members[0].released = [[true, false, false, false, false, false]; 2];
    let whole = frame.factorise().unwrap();
    let case = |load| [LoadCase { members: vec![line(0, load)], ..LoadCase::default() }];
    assert!(whole.solve(&case([0.0, 0.0, -1.0])).is_ok());
    let fault = whole.solve(&case([1.0, 0.0, -1.0])).unwrap_err();
    assert_eq!(fault, Fault::Loose { member: 0, direction: Direction::AlongX });
}

#[test]
fn what_is_not_sound_is_told_in_a_sentence() {
    let told = |change: &dyn Fn(&mut Frame)| {
        let mut frame = beam(3.0, CONE, [FAST, LOOSE]);
        change(&mut frame);
        frame.factorise().unwrap_err().to_string()
    };
    assert!(told(&|f| f.members[0].nodes[1] = 7).contains("no node 8"));
    assert!(told(&|f| f.members[0].nodes[1] = 0).contains("two ends apart"));
    assert!(told(&|f| f.members[0].reference = [2.0, 0.0, 0.0]).contains("not along it"));
    assert!(told(&|f| f.members[0].young = -1.0).contains("moduli above zero"));
    assert!(
        told(&|f| f.members[0].stretches[0].section = Section::Round { first: 0.0, last: 0.1 }).contains("section")
    );
    assert!(told(&|f| f.members[0].stretches[0].until = 0.9).contains("ending at 1"));
    assert!(told(&|f| f.nodes[1].support[0] = Support::Spring(-1.0)).contains("springs"));
    assert!(told(&|f| f.nodes[1].at[2] = f64::NAN).contains("place"));
    let skew = Link { nodes: [0, 1], contact: [0.0; 3], axes: [[1.0, 0.0, 0.0]; 3], stiffness: [1.0; 6] };
    assert!(told(&|f| f.links.push(skew)).contains("square to each other"));
}

#[test]
fn loads_that_do_not_fit_are_told() {
    let frame = beam(3.0, CONE, [FAST, LOOSE]);
    let whole = frame.factorise().unwrap();
    let told = |case: LoadCase| whole.solve(&[case]).unwrap_err();
    let on = |load| LoadCase { members: vec![(0, load)], ..LoadCase::default() };
    let point = |at| on(MemberLoad::Point { at, force: [1.0; 6], sense: Sense::Local });
    let spread = |span| on(MemberLoad::Line { span, first: [1.0; 3], last: [1.0; 3], sense: Sense::Local });
    assert_eq!(told(point(3.1)), Fault::Load { member: 0 });
    assert_eq!(told(point(f64::NAN)), Fault::Load { member: 0 });
    assert_eq!(told(spread(Some([2.0, 1.0]))), Fault::Load { member: 0 });
    assert_eq!(told(LoadCase { nodes: vec![(9, [0.0; 6])], ..LoadCase::default() }), Fault::NoNode { node: 9 });
    assert_eq!(
        told(LoadCase { members: vec![line(4, [0.0; 3])], ..LoadCase::default() }),
        Fault::NoMember { member: 4 }
    );
    let sunk = LoadCase { settled: vec![(1, 2, 0.1)], ..LoadCase::default() };
    assert!(told(sunk).to_string().contains("held fast"));
}

#[test]
fn frames_by_lot_with_supports_and_members_taken_away_never_panic() {
    let mut lot = Lot(99);
    let (mut answered, mut refused) = (0, 0);
    for seed in 0..200 {
        let (mut frame, case) = by_lot(seed);
        for node in &mut frame.nodes {
            node.support = node.support.map(|own| if lot.next() > 0.2 { Support::Free } else { own });
        }
        frame.members.retain(|_| lot.next() > -0.8);
        let case = LoadCase { nodes: case.nodes, ..LoadCase::default() };
        match frame.factorise().and_then(|whole| whole.solve(&[case])) {
            Ok(answers) => {
                answered += 1;
                assert!(answers[0].residual < 1e-6, "{seed}: {}", answers[0].residual);
            }
            Err(Fault::Mechanism { .. }) => refused += 1,
            Err(other) => panic!("{other}"),
        }
    }
    assert!(answered > 10 && refused > 10, "{answered} {refused}");
}

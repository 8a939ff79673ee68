//! Links: only chosen forces pass, and what passes is in balance.

use engine::frame::{Frame, Link, LoadCase, Member, MemberLoad, Node, Sense};

use crate::{CONE, FAST, LOOSE, MODULI, UPRIGHT, answer, near};

/// Two members that pass each other 0.15 apart, upright, crossing at right angles in plan at the end of the first and the
/// middle of the second.
fn crossing(stiffness: [f64; 6]) -> Frame {
    let points = [[0.0, 0.0, 0.15], [2.0, 0.0, 0.15], [2.0, -1.0, 0.0], [2.0, 0.0, 0.0], [2.0, 1.0, 0.0]];
    let nodes = [FAST, LOOSE, FAST, LOOSE, FAST];
    let nodes = points.iter().zip(nodes).map(|(at, held)| Node::held(*at, held)).collect();
    let member = |nodes| Member::new(nodes, UPRIGHT, MODULI, CONE);
    let members = vec![member([0, 1]), member([2, 3]), member([3, 4])];
    let link = Link::along_normal([3, 1], [points[3], points[1]], 0.5, [1.0, 0.0, 0.0], stiffness).unwrap();
    Frame { nodes, members, links: vec![link] }
}

#[test]
fn a_link_passes_no_force_where_it_has_no_stiffness() {
    let push = [300.0, 200.0, -1000.0, 10.0, 20.0, 30.0];
    let case = LoadCase { nodes: vec![(1, push)], ..LoadCase::default() };
    let touching = answer(&crossing([1e7, 0.0, 0.0, 0.0, 0.0, 0.0]), &case);
    assert!(touching.links[0][0] < -100.0, "{:?}", touching.links);
    assert!(touching.links[0][1..].iter().all(|force| *force == 0.0));
    assert!(touching.ends[1][1][5].abs() > 10.0 && touching.ends[1][1][3].abs() < 1e-9);
    let rubbing = answer(&crossing([1e7, 1e6, 1e6, 0.0, 0.0, 0.0]), &case);
    assert!(rubbing.links[0][1].abs() > 1.0 && rubbing.links[0][2].abs() > 1.0);
    let twist = rubbing.ends[1][1][3] + rubbing.ends[2][0][3];
    near(twist.abs(), 0.075 * rubbing.links[0][2].abs(), 1e-9);
}

#[test]
fn what_a_link_passes_is_in_balance_moments_with_it() {
    let frame = crossing([1e6, 2e5, 3e5, 1e4, 2e3, 0.0]);
    let case = LoadCase { nodes: vec![(1, [300.0, 200.0, -1000.0, 10.0, 20.0, 30.0])], ..LoadCase::default() };
    let answer = answer(&frame, &case);
    let mut sums = [0.0; 6];
    let all = case.nodes.iter().copied().chain(answer.reactions.iter().copied().enumerate());
    for (node, force) in all {
        let at = frame.nodes[node].at;
        for k in 0..3 {
            let (a, b) = ((k + 1) % 3, (k + 2) % 3);
            sums[k] += force[k];
            sums[k + 3] += force[k + 3] + at[a] * force[b] - at[b] * force[a];
        }
    }
    assert!(sums.iter().all(|sum| sum.abs() < 1e-9), "{sums:?}");
    assert!(answer.residual < 1e-10);
}

#[test]
fn a_stiff_link_moves_both_nodes_as_one() {
    let case = LoadCase { nodes: vec![(1, [0.0, 0.0, -1000.0, 0.0, 0.0, 0.0])], ..LoadCase::default() };
    let apart = |stiffness: f64| {
        let answer = answer(&crossing([stiffness, 0.0, 0.0, 0.0, 0.0, 0.0]), &case);
        (answer.movements[1][2] - answer.movements[3][2]).abs() / answer.movements[3][2].abs()
    };
    assert!(apart(1e11) < 1e-4 && apart(1e5) > 0.1);
}

/// `count` round members that lie on each other in turn: plan radius 2.75, crossings on a circle of 0.65, axes `apart`. Each is
/// hinged at its foot across itself, and links push upright.
fn ring(count: usize, stiffness: f64) -> (Frame, LoadCase, f64) {
    let half = std::f64::consts::PI / count as f64;
    let between = 2.0 * 0.65 * half.sin();
    let whole = (2.75_f64.powi(2) - (0.65 * half.cos()).powi(2)).sqrt() + 0.5 * between;
    let (mut frame, mut case) = (Frame::default(), LoadCase::default());
    for own in 0..count {
        let (sine, cosine) = (2.0 * half * own as f64).sin_cos();
        for (k, along) in [0.0, whole - between, whole].into_iter().enumerate() {
            let [x, y] = [whole - 0.5 * between - along, 0.65 * half.cos()];
            let at = [cosine * x - sine * y, sine * x + cosine * y, 0.3 * along];
            frame.nodes.push(Node::held(at, [k == 0; 6]));
        }
        for k in 0..2 {
            let sections = [CONE.part(0.0, 0.8), CONE.part(0.8, 1.0)];
            let mut member = Member::new([3 * own + k, 3 * own + k + 1], UPRIGHT, MODULI, sections[k]);
            member.released[0][5] = k == 0;
            let load = [0.0, 0.0, -1000.0];
            let spread = MemberLoad::Line { span: None, first: load, last: load, sense: Sense::Projected };
            case.members.push((frame.members.len(), spread));
            frame.members.push(member);
        }
    }
    for own in 0..count {
        let nodes = [3 * ((own + 1) % count) + 1, 3 * own + 2];
        let points = nodes.map(|node| frame.nodes[node].at);
        let axes = [[0.0, 0.0, 1.0], [1.0, 0.0, 0.0], [0.0, 1.0, 0.0]];
        let stiffness = [stiffness, 0.0, 0.0, 0.0, 0.0, 0.0];
        frame.links.push(Link { nodes, contact: points[0], axes, stiffness });
    }
    (frame, case, 1000.0 * whole * whole / (2.0 * between))
}

#[test]
fn members_that_lie_on_each_other_in_turn_press_as_statics_says_and_do_not_thrust() {
    for stiffness in [1e5, 1e8] {
        let (frame, case, force) = ring(9, stiffness);
        let answer = answer(&frame, &case);
        for link in &answer.links {
            near(link[0], -force, 1e-9);
        }
        for reaction in answer.reactions.iter().step_by(3) {
            assert!(reaction[0].abs() < 1e-6 && reaction[1].abs() < 1e-6, "{reaction:?}");
        }
    }
}

#[test]
fn without_one_link_the_ring_falls() {
    let (mut frame, _, _) = ring(9, 1e8);
    frame.links.remove(4);
    assert!(frame.factorise().unwrap_err().to_string().contains("moves without resistance"));
}

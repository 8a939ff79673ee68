//! Frames in space: closed forms, laws, faults.
#![allow(clippy::unwrap_used, clippy::panic, reason = "a test stops at the first surprise")]

#[path = "frame/asked.rs"]
mod asked;
#[path = "frame/closed.rs"]
mod closed;
#[path = "frame/faults.rs"]
mod faults;
#[path = "frame/laws.rs"]
mod laws;
#[path = "frame/links.rs"]
mod links;
#[path = "frame/pressed.rs"]
mod pressed;

use engine::frame::{Answer, Frame, LoadCase, Member, MemberLoad, Node, Section, Sense};

const FAST: [bool; 6] = [true; 6];
const LOOSE: [bool; 6] = [false; 6];
const UPRIGHT: [f64; 3] = [0.0, 0.0, 1.0];
const MODULI: [f64; 2] = [1.0e10, 6.0e8];
const CONE: Section = Section::Round { first: 0.18, last: 0.12 };

/// A member along x from the origin, held as given at both ends.
fn beam(length: f64, section: Section, held: [[bool; 6]; 2]) -> Frame {
    let nodes = vec![Node::held([0.0; 3], held[0]), Node::held([length, 0.0, 0.0], held[1])];
    Frame { nodes, members: vec![Member::new([0, 1], UPRIGHT, MODULI, section)], links: Vec::new() }
}

fn answer(frame: &Frame, case: &LoadCase) -> Answer {
    frame.factorise().unwrap().solve(std::slice::from_ref(case)).unwrap().remove(0)
}

fn line(member: usize, load: [f64; 3]) -> (usize, MemberLoad) {
    (member, MemberLoad::Line { span: None, first: load, last: load, sense: Sense::Global })
}

fn near(ours: f64, theirs: f64, share: f64) {
    assert!((ours - theirs).abs() <= share * theirs.abs().max(1e-300), "{ours} against {theirs}");
}

/// Numbers between −1 and 1 that look drawn by lot and are the same every time.
struct Lot(u64);

impl Lot {
    fn next(&mut self) -> f64 {
        self.0 = self.0.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
        (self.0 >> 11) as f64 / (1u64 << 52) as f64 - 1.0
    }

    fn three(&mut self) -> [f64; 3] {
        [self.next(), self.next(), self.next()]
    }
}

/// A frame in space by lot: two storeys of tapering and even members, hinges, springs, all kinds of loads.
fn by_lot(seed: u64) -> (Frame, LoadCase) {
    let mut lot = Lot(seed);
    let (mut frame, mut case) = (Frame::default(), LoadCase::default());
    for level in 0..3 {
        for (x, y) in [(0.0, 0.0), (4.0, 0.0), (4.0, 3.0), (0.0, 3.0)] {
            let off = lot.three();
            let at = [x + 0.4 * off[0], y + 0.4 * off[1], 2.8 * f64::from(level) + 0.3 * off[2]];
            frame.nodes.push(Node::held(at, [level == 0; 6]));
        }
    }
    for level in 0..3usize {
        for corner in 0..4 {
            let here = 4 * level + corner;
            let pairs =
                [(level > 0).then(|| [here - 4, here]), (level > 0).then_some([here, 4 * level + (corner + 1) % 4])];
            for nodes in pairs.into_iter().flatten() {
                let size = 0.15 + 0.04 * lot.next();
                let section = if lot.next() > 0.0 {
                    Section::Round { first: size, last: 0.15 + 0.04 * lot.next() }
                } else {
                    Section::Even {
                        area: size * size,
                        about_y: size.powi(4) / 12.0,
                        about_z: size.powi(4) / 9.0,
                        twist: size.powi(4) / 7.0,
                    }
                };
                let mut member = Member::new(nodes, [0.3, 0.9, 0.31], MODULI, section);
                member.roll = lot.next();
                if lot.next() > 0.3 {
                    member.released[0][4] = true;
                    member.released[1][5] = lot.next() > 0.0;
                }
                if lot.next() > 0.5 {
                    member = member.with_stretch(0.3, 0.42, Section::Round { first: 0.09, last: 0.1 });
                }
                load(&mut lot, frame.members.len(), &mut case);
                frame.members.push(member);
            }
        }
    }
    let push = lot.three();
    case.nodes.push((9, [900.0 * push[0], 700.0 * push[1], -2000.0, 50.0 * push[2], 0.0, 30.0]));
    (frame, case)
}

fn load(lot: &mut Lot, member: usize, case: &mut LoadCase) {
    let [first, last] = [lot.three(), lot.three()].map(|part| part.map(|own| 400.0 * own));
    let sense = [Sense::Global, Sense::Local, Sense::Projected][member % 3];
    let span = member.is_multiple_of(2).then_some([0.5, 1.9]);
    case.members.push((member, MemberLoad::Line { span, first, last, sense }));
    let force = lot.three();
    let force = [300.0 * force[0], 200.0 * force[1], 300.0 * force[2], 40.0, -20.0 * force[0], 25.0];
    case.members.push((member, MemberLoad::Point { at: 1.3, force, sense: Sense::Local }));
    case.members.push((member, MemberLoad::Body { on_volume: [0.0, 0.0, -5000.0] }));
}

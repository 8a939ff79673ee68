//! How long frames in space take, laid out, factorised, solved and their member forces found: best of many, in milliseconds.
//! `bench/frame.py` does the same frames with other means.
#![allow(clippy::disallowed_types, reason = "a stopwatch needs a clock")]

use std::time::Instant;

use engine::frame::{Fault, Frame, Link, LoadCase, Member, MemberLoad, Node, Section, Sense};

/// A storeyed frame: bays along x and y, storeys, and the size of each.
struct Storeys {
    bays: [usize; 2],
    storeys: usize,
}

const BAY: f64 = 4.0;
const STOREY: f64 = 3.0;
const MODULI: [f64; 2] = [1.1e10, 6.9e8];
const SECTION: Section = Section::Even { area: 0.04, about_y: 1.2e-4, about_z: 1.5e-4, twist: 2e-4 };

impl Storeys {
    fn node(&self, x: usize, y: usize, z: usize) -> usize {
        (z * (self.bays[1] + 1) + y) * (self.bays[0] + 1) + x
    }

    fn build(&self) -> (Frame, LoadCase) {
        let (mut frame, mut case) = (Frame::default(), LoadCase::default());
        for z in 0..=self.storeys {
            for (y, x) in (0..=self.bays[1]).flat_map(|y| (0..=self.bays[0]).map(move |x| (y, x))) {
                let at = [BAY * x as f64, BAY * y as f64, STOREY * z as f64];
                frame.nodes.push(Node::held(at, [z == 0; 6]));
                if z == 0 {
                    continue;
                }
                case.nodes.push((self.node(x, y, z), [1000.0, 500.0, 0.0, 0.0, 0.0, 0.0]));
                let here = self.node(x, y, z);
                frame.members.push(Member::new([self.node(x, y, z - 1), here], [1.0, 0.0, 0.0], MODULI, SECTION));
                let back = [(x > 0).then(|| self.node(x - 1, y, z)), (y > 0).then(|| self.node(x, y - 1, z))];
                for from in back.into_iter().flatten() {
                    let load = [0.0, 0.0, -2000.0];
                    let spread = MemberLoad::Line { span: None, first: load, last: load, sense: Sense::Global };
                    case.members.push((frame.members.len(), spread));
                    frame.members.push(Member::new([from, here], [0.0, 0.0, 1.0], MODULI, SECTION));
                }
            }
        }
        (frame, case)
    }
}

/// Nine tapering poles that lie on each other in turn, each in four members, touching at nine links.
fn ring() -> (Frame, Vec<LoadCase>) {
    const POLES: usize = 9;
    let (mut frame, mut cases) = (Frame::default(), vec![LoadCase::default(); 12]);
    for pole in 0..POLES {
        let turn = std::f64::consts::TAU * pole as f64 / POLES as f64;
        for (k, along) in [0.0, 1.2, 2.25, 2.7, 3.1].into_iter().enumerate() {
            let [x, y] = [2.75 - along, 0.65 * along / 2.7];
            let at = [x * turn.cos() - y * turn.sin(), x * turn.sin() + y * turn.cos(), 0.3 * along];
            frame.nodes.push(Node::held(at, [k == 0, k == 0, k == 0, k == 0, false, k == 0]));
            if k == 0 {
                continue;
            }
            let thick = |k: usize| 0.16 - 0.01 * k as f64;
            let section = Section::Round { first: thick(k - 1), last: thick(k) };
            for (at, case) in cases.iter_mut().enumerate() {
                let load = [0.0, 0.0, -500.0 * (1.0 + ((at * pole) % 5) as f64)];
                let spread = MemberLoad::Line { span: None, first: load, last: load, sense: Sense::Projected };
                case.members.push((frame.members.len(), spread));
                case.members.push((frame.members.len(), MemberLoad::Body { on_volume: [0.0, 0.0, -5000.0] }));
            }
            let nodes = [5 * pole + k - 1, 5 * pole + k];
            frame.members.push(Member::new(nodes, [0.0, 0.0, 1.0], MODULI, section));
        }
    }
    for pole in 0..POLES {
        let nodes = [5 * pole + 2, 5 * ((pole + 1) % POLES) + 3];
        let points = nodes.map(|node| frame.nodes[node].at);
        let stiffness = [1e8, 1e6, 1e6, 0.0, 0.0, 0.0];
        frame.links.extend(Link::along_normal(nodes, points, 0.5, [0.0, 0.0, 1.0], stiffness));
    }
    (frame, cases)
}

fn best<T>(runs: usize, work: impl Fn() -> Result<T, Fault>) -> Result<(f64, T), Fault> {
    let mut least = f64::INFINITY;
    let mut answer = work()?;
    for _ in 0..runs {
        let begun = Instant::now();
        answer = work()?;
        least = least.min(begun.elapsed().as_secs_f64() * 1e3);
    }
    Ok((least, answer))
}

fn main() -> Result<(), Fault> {
    for (bays, storeys, runs) in [([3, 3], 4, 200), ([8, 8], 9, 30)] {
        let (frame, case) = Storeys { bays, storeys }.build();
        let cases = [case];
        let (whole, answers) = best(runs, || frame.factorise()?.solve(&cases))?;
        let (factor, factorised) = best(runs, || frame.factorise())?;
        let (solve, _) = best(runs, || factorised.solve(&cases))?;
        let moved = answers[0].movements.iter().flatten().fold(0.0_f64, |most, own| most.max(own.abs()));
        println!(
            "{whole:9.3} ms  {} members: factor {factor:.3}, solve {solve:.3}; largest movement {moved:.9}, residual {:.1e}",
            frame.members.len(),
            answers[0].residual
        );
    }
    let (frame, cases) = ring();
    let (whole, answers) = best(200, || frame.factorise()?.solve(&cases))?;
    println!(
        "{whole:9.3} ms  {} members, {} links, {} load cases",
        frame.members.len(),
        frame.links.len(),
        answers.len()
    );
    let factorised = frame.factorise()?;
    let (second, _) = best(20, || factorised.second_order(&cases[0]))?;
    let (buckling, found) = best(10, || factorised.buckling(&cases[0]))?;
    println!("{second:9.3} ms  second order of one load case");
    println!("{buckling:9.3} ms  buckling, factor {:.4}", found.factor);
    Ok(())
}

//! The ring of timber as a frame in space, factorised once and answered for every load.

use super::super::STANDARD_GRAVITY_M_S2;
use super::fault::Fault;
use super::given::{Beam, Presses};
use super::stops::Stops;
use crate::solve::frame::{Answer, Fault as FrameFault, Frame, LoadCase, Member, Node, Section, Six, Support};
use crate::solve::twist;

/// The answers of a ring.
#[derive(Clone, Debug, PartialEq)]
pub struct Answers {
    pub(super) stops: Stops,
    /// Under each group of loads, load by load, with what thrusts in plan alone.
    pub(super) thrust: Vec<Vec<Found>>,
    /// What presses on each seat: group by group, load by load.
    pub(super) presses: Vec<Vec<Presses>>,
    pub(super) lifts: Result<Lifts, Fault>,
}

/// The answers to one newton that lifts each seat, and to the beam's own weight.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Lifts {
    pub seats: Vec<Found>,
    pub weight: Found,
}

/// What is found under one load.
#[derive(Clone, Debug, PartialEq)]
pub struct Found {
    /// Within each member at both of its ends, in its own axes, y up and z level: pull, forces across, twist, moments.
    pub(super) ends: Vec<[Six; 2]>,
    /// What each anchor does to the beam, up; below zero it holds it down.
    pub(super) anchors: Vec<f64>,
    /// What is left over of equilibrium, as a share of the greatest force.
    pub(super) residual: f64,
}

/// Fewer anchors hold no ring.
const LEAST: usize = 3;

impl Beam {
    /// Solves every load once. `groups` are loads that never act together, such as those of feet of two kinds: for each load
    /// what every pole does to its seat.
    ///
    /// # Errors
    /// Sizes that no timber has. What lifts is not answered where the anchors do not hold the ring; the thrust still is.
    pub fn answers(&self, groups: &[Vec<Presses>]) -> Result<Answers, Fault> {
        self.check(groups)?;
        let stops = Stops::of(self);
        let mut cases: Vec<LoadCase> = groups.iter().flatten().map(|presses| self.thrust(&stops, presses)).collect();
        let thrusts = cases.len();
        cases.push(self.weight(&stops));
        cases.extend(stops.seats.iter().map(|&stop| plumb([(stop, 1.0)])));
        let tied = if self.anchors.len() < LEAST { None } else { self.held(&stops, &cases)? };
        let holds = tied.is_some();
        let solved = match tied {
            Some(solved) => solved,
            None => self.solved(&stops, &cases[..thrusts], false).map_err(Fault::Frame)?,
        };
        let mut found = solved.iter().map(|answer| Found::of(answer, &stops));
        let mut thrust = Vec::with_capacity(groups.len());
        for group in groups {
            thrust.push(found.by_ref().take(group.len()).collect());
        }
        let lifts = match (holds, found.next()) {
            (true, Some(weight)) => Ok(Lifts { weight, seats: found.collect() }),
            _ => Err(Fault::Anchors(self.anchors.len())),
        };
        Ok(Answers { stops, thrust, presses: groups.to_vec(), lifts })
    }

    /// The answers to loads on a ring that its anchors hold; nothing where it tips up all the same.
    fn held(&self, stops: &Stops, cases: &[LoadCase]) -> Result<Option<Vec<Answer>>, Fault> {
        match self.solved(stops, cases, true) {
            Ok(solved) => Ok(Some(solved)),
            Err(FrameFault::Mechanism { .. }) => Ok(None),
            Err(fault) => Err(Fault::Frame(fault)),
        }
    }

    fn check(&self, groups: &[Vec<Presses>]) -> Result<(), Fault> {
        let sizes = [self.width.in_m(), self.height.in_m(), self.wood.young.in_pa(), self.wood.shear.in_pa()];
        if !sizes.iter().all(|size| size.is_finite() && *size > 0.0) || self.layers == 0 || self.line.len() < 3 {
            return Err(Fault::Size(
                "a width, a height, a layer, moduli above zero and a line of three corners or more",
            ));
        }
        let each = |presses: &Presses| presses.len() == self.seats.len();
        if !groups.iter().flatten().all(each) {
            return Err(Fault::Size("a force on each of its seats"));
        }
        Ok(())
    }

    /// All of its planks: area, about the upright axis, about the level one, twist.
    fn section(&self) -> Section {
        let (width, height, layers) = (self.width.in_m(), self.height.in_m(), self.layers as f64);
        let plank = height / layers;
        Section::Even {
            area: width * height,
            about_y: height * width.powi(3) / 12.0,
            about_z: layers * width * plank.powi(3) / 12.0,
            twist: layers * twist::of_rectangle(width, plank)[0],
        }
    }

    /// The answers to loads; without its anchors one stop is held in every way.
    fn solved(&self, stops: &Stops, cases: &[LoadCase], anchored: bool) -> Result<Vec<Answer>, FrameFault> {
        let mut nodes: Vec<Node> = stops.at.iter().map(|at| Node::free([at[0], at[1], 0.0])).collect();
        // The loads in plan are in balance: held so that it neither moves nor turns, the ring feels nothing of it.
        nodes[0] = Node::held(nodes[0].at, [true, true, !anchored, !anchored, !anchored, true]);
        if anchored {
            for (anchor, &stop) in self.anchors.iter().zip(&stops.anchors) {
                nodes[stop].support[2] = anchor.gives.map_or(Support::Fast, |gives| Support::Spring(gives.in_n_m()));
            }
        }
        let moduli = [self.wood.young.in_pa(), self.wood.shear.in_pa()];
        let section = self.section();
        let member = |stop: usize| Member::new([stop, stops.next(stop)], [0.0, 0.0, 1.0], moduli, section);
        let frame = Frame { members: (0..nodes.len()).map(member).collect(), nodes, links: Vec::new() };
        frame.factorise()?.solve(cases)
    }

    fn weight(&self, stops: &Stops) -> LoadCase {
        let area = (self.width * self.height).in_m2();
        let down = -self.wood.density.in_kg_m3() * STANDARD_GRAVITY_M_S2 * area;
        plumb(shares(stops, |_| true).into_iter().enumerate().map(|(stop, long)| (stop, down * long)))
    }

    /// What thrusts in plan, at the top of the beam, and the friction beneath that holds what does not balance itself: even
    /// along the line, and turning evenly about its middle. An anchor, which does nothing in plan, has no share of it.
    fn thrust(&self, stops: &Stops, presses: &Presses) -> LoadCase {
        let shares = shares(stops, |stop| !stops.is_anchor_alone[stop]);
        let whole: f64 = shares.iter().sum();
        let mean = |axis: usize| stops.at.iter().zip(&shares).map(|(at, share)| at[axis] * share).sum::<f64>() / whole;
        let middle = [mean(0), mean(1)];
        let off = |stop: usize| [stops.at[stop][0] - middle[0], stops.at[stop][1] - middle[1]];
        let (mut sum, mut turn) = ([0.0; 2], 0.0);
        let mut forces = vec![[0.0; 6]; stops.at.len()];
        let lever = 0.5 * self.height.in_m();
        for (force, &stop) in presses.iter().zip(&stops.seats) {
            let [x, y] = [force[0].in_n(), force[1].in_n()];
            let arm = off(stop);
            sum = [sum[0] + x, sum[1] + y];
            turn += arm[0] * y - arm[1] * x;
            for (own, more) in forces[stop].iter_mut().zip([x, y, 0.0, -lever * y, lever * x, 0.0]) {
                *own += more;
            }
        }
        let spread: f64 = shares.iter().enumerate().map(|(stop, share)| share * square(off(stop))).sum();
        for (stop, (force, share)) in forces.iter_mut().zip(&shares).enumerate() {
            let arm = off(stop);
            force[0] -= share * (sum[0] / whole - turn / spread * arm[1]);
            force[1] -= share * (sum[1] / whole + turn / spread * arm[0]);
        }
        LoadCase { nodes: forces.into_iter().enumerate().collect(), ..LoadCase::default() }
    }
}

fn square(arm: [f64; 2]) -> f64 {
    arm[0] * arm[0] + arm[1] * arm[1]
}

fn plumb(forces: impl IntoIterator<Item = (usize, f64)>) -> LoadCase {
    let nodes = forces.into_iter().map(|(stop, up)| (stop, [0.0, 0.0, up, 0.0, 0.0, 0.0])).collect();
    LoadCase { nodes, ..LoadCase::default() }
}

/// How much of the ring's length is each counted stop's own: half of the way to the next one that counts, on either side.
fn shares(stops: &Stops, counts: impl Fn(usize) -> bool) -> Vec<f64> {
    let counted: Vec<usize> = (0..stops.at.len()).filter(|stop| counts(*stop)).collect();
    let mut shares = vec![0.0; stops.at.len()];
    for (place, &stop) in counted.iter().enumerate() {
        let next = counted[(place + 1) % counted.len()];
        let way = (stops.along[next] - stops.along[stop]).rem_euclid(stops.length);
        shares[stop] += 0.5 * way;
        shares[next] += 0.5 * way;
    }
    shares
}

impl Found {
    fn of(answer: &Answer, stops: &Stops) -> Found {
        let ends = answer.ends.iter().map(|[first, last]| [first.map(|force| -force), *last]).collect();
        let mut counted = vec![false; stops.at.len()];
        let once = |&stop: &usize| {
            let first = !std::mem::replace(&mut counted[stop], true);
            if first { answer.reactions[stop][2] } else { 0.0 }
        };
        Found { ends, anchors: stops.anchors.iter().map(once).collect(), residual: answer.residual }
    }
}

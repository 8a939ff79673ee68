//! The bond beam as a frame, a closed ring: in plan, where thrust bends it, and upright, where what lifts hangs it from its anchors.
//!
//! It lies level and its seats are on its axis, so that neither way moves the other: each is factorised by itself.

use super::super::STANDARD_GRAVITY_M_S2;
use super::fault::Fault;
use super::given::{Beam, Presses};
use super::stops::Stops;
use crate::solve::frame::{Answer, Fault as FrameFault, Frame, LoadCase, Member, Node, Section, Support};
use crate::solve::twist;

/// The answers of a ring.
#[derive(Clone, Debug, PartialEq)]
pub struct Answers {
    /// Its corners and seats.
    pub(super) bare: Stops,
    /// Those and its anchors.
    pub(super) stops: Stops,
    /// Under each group of loads, load by load, what thrusts in plan, between corners and seats.
    pub(super) thrust: Vec<Vec<InPlan>>,
    /// Under each group, combination by combination, what each pole does to its seat, in newtons: along x, along y, up.
    pub sums: Vec<Vec<Vec<[f64; 3]>>>,
    /// The same, where something lifts: what hangs from the anchors.
    pub(super) hung: Result<Vec<Vec<Option<Hung>>>, Fault>,
}

/// Three forces within each member, at both of its ends.
pub(super) type Ends = Vec<[[f64; 3]; 2]>;

/// What is found in plan under one load.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct InPlan {
    /// Pull along, force across, moment in plan.
    pub ends: Ends,
    /// What is left over of equilibrium, as a share of the greatest force.
    pub residual: f64,
}

/// What is found upright of all that acts together.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Hung {
    /// Force across, twist, moment up and down.
    pub ends: Ends,
    /// What each anchor does to the beam, up; below zero it holds it down.
    pub anchors: Vec<f64>,
    /// What is left over of equilibrium, as a share of the greatest force.
    pub residual: f64,
}

/// Which way a ring is answered.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Way {
    Plan,
    Upright,
}

/// Fewer anchors hold no ring.
const LEAST: usize = 3;

impl Beam {
    /// Solves it once for all loads. `groups` are loads that never act together, such as those of feet of two kinds: for each load
    /// what every pole does to its seat. `combinations` say how many of each load act together, `weights` how many times the beam's
    /// own weight.
    ///
    /// # Errors
    /// Sizes that no timber has. What lifts is not answered where the anchors do not hold the ring; the thrust still is.
    pub fn answers(&self, groups: &[&[Presses]], combinations: &[Vec<f64>], weights: &[f64]) -> Result<Answers, Fault> {
        self.check(groups)?;
        let [bare, stops] = [false, true].map(|anchored| Stops::of(self, anchored));
        let cases: Vec<LoadCase> = groups.iter().copied().flatten().map(|presses| thrust(&bare, presses)).collect();
        let mut found = self
            .solved(&bare, &cases, Way::Plan)
            .map_err(Fault::Frame)?
            .into_iter()
            .map(|answer| InPlan { ends: ends(&answer, [0, 2, 4]), residual: answer.residual });
        let thrust = groups.iter().map(|group| found.by_ref().take(group.len()).collect()).collect();
        let each = |group: &&[Presses]| combinations.iter().map(|one| summed(group, one)).collect();
        let sums: Vec<Vec<Vec<[f64; 3]>>> = groups.iter().map(each).collect();
        let hung = self.hung_all(&stops, &sums, weights);
        Ok(Answers { bare, stops, thrust, sums, hung })
    }

    /// What hangs from the anchors in each combination of each group that lifts something.
    fn hung_all(
        &self,
        stops: &Stops,
        sums: &[Vec<Vec<[f64; 3]>>],
        weights: &[f64],
    ) -> Result<Vec<Vec<Option<Hung>>>, Fault> {
        let lifts = |sums: &[[f64; 3]]| sums.iter().any(|sum| sum[2] > 0.0);
        let all = sums.iter().flat_map(|group| group.iter().zip(weights));
        let cases: Vec<LoadCase> =
            all.filter(|(sums, _)| lifts(sums)).map(|(sums, weight)| self.lifting(stops, sums, *weight)).collect();
        let mut found = self.hung(stops, &cases)?.into_iter();
        let of = |sums: &Vec<[f64; 3]>| if lifts(sums) { found.next() } else { None };
        let mut of = of;
        Ok(sums.iter().map(|group| group.iter().map(&mut of).collect()).collect())
    }

    /// What hangs from the anchors under each case.
    ///
    /// # Errors
    /// Anchors that do not hold the ring, where there is something to hold.
    pub(super) fn hung(&self, stops: &Stops, cases: &[LoadCase]) -> Result<Vec<Hung>, Fault> {
        if cases.is_empty() {
            return Ok(Vec::new());
        }
        let loose = Fault::Anchors(self.anchors.len());
        if self.anchors.len() < LEAST {
            return Err(loose);
        }
        let found = self.solved(stops, cases, Way::Upright).map_err(|fault| match fault {
            FrameFault::Mechanism { .. } => loose,
            other => Fault::Frame(other),
        })?;
        Ok(found.iter().map(|answer| Hung::of(answer, stops)).collect())
    }

    fn check(&self, groups: &[&[Presses]]) -> Result<(), Fault> {
        let sizes = [self.width.in_m(), self.height.in_m(), self.wood.young.in_pa(), self.wood.shear.in_pa()];
        if !sizes.iter().all(|size| size.is_finite() && *size > 0.0) || self.layers == 0 || self.line.len() < 3 {
            return Err(Fault::Size(
                "a width, a height, a layer, moduli above zero and a line of three corners or more",
            ));
        }
        let each = |presses: &Presses| presses.len() == self.seats.len();
        if !groups.iter().copied().flatten().all(each) {
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

    fn solved(&self, stops: &Stops, cases: &[LoadCase], way: Way) -> Result<Vec<Answer>, FrameFault> {
        let held = if way == Way::Plan { IN_PLAN } else { IN_PLAN.map(|held| !held) };
        let mut nodes: Vec<Node> = stops.at.iter().map(|at| Node::held([at[0], at[1], 0.0], held)).collect();
        if way == Way::Plan {
            // The loads in plan are in balance: held so that it neither moves nor turns, the ring feels nothing of it.
            nodes[0] = Node::held(nodes[0].at, [true; 6]);
        } else {
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

    /// What every pole does to its seat, its thrust at the top of the beam, with so many times the beam's own weight.
    pub(super) fn lifting(&self, stops: &Stops, sums: &[[f64; 3]], weight: f64) -> LoadCase {
        let area = (self.width * self.height).in_m2();
        let down = -weight * self.wood.density.in_kg_m3() * STANDARD_GRAVITY_M_S2 * area;
        let lever = 0.5 * self.height.in_m();
        let mut forces: Vec<[f64; 6]> =
            shares(stops).into_iter().map(|long| [0.0, 0.0, down * long, 0.0, 0.0, 0.0]).collect();
        for (&stop, &[x, y, up]) in stops.seats.iter().zip(sums) {
            // What presses goes into the earth close to its seat.
            forces[stop][2] += up.max(0.0);
            forces[stop][3] -= lever * y;
            forces[stop][4] += lever * x;
        }
        LoadCase { nodes: forces.into_iter().enumerate().collect(), ..LoadCase::default() }
    }
}

/// What is held where a ring moves in plan alone: up, and turning about both level axes.
const IN_PLAN: [bool; 6] = [false, false, true, true, true, false];

/// What each pole does to its seat in a combination.
fn summed(group: &[Presses], factors: &[f64]) -> Vec<[f64; 3]> {
    let mut sums = vec![[0.0; 3]; group.first().map_or(0, Vec::len)];
    for (presses, factor) in group.iter().zip(factors) {
        for (sum, force) in sums.iter_mut().zip(presses) {
            *sum = std::array::from_fn(|axis| sum[axis] + factor * force[axis].in_n());
        }
    }
    sums
}

/// What thrusts in plan, and the friction beneath that holds what does not balance itself: even along the line, and turning evenly
/// about its middle.
fn thrust(stops: &Stops, presses: &Presses) -> LoadCase {
    let shares = shares(stops);
    let mean =
        |axis: usize| stops.at.iter().zip(&shares).map(|(at, share)| at[axis] * share).sum::<f64>() / stops.length;
    let middle = [mean(0), mean(1)];
    let off = |stop: usize| [stops.at[stop][0] - middle[0], stops.at[stop][1] - middle[1]];
    let (mut sum, mut turn) = ([0.0; 2], 0.0);
    let mut forces = vec![[0.0; 6]; stops.at.len()];
    for (force, &stop) in presses.iter().zip(&stops.seats) {
        let [x, y] = [force[0].in_n(), force[1].in_n()];
        let arm = off(stop);
        sum = [sum[0] + x, sum[1] + y];
        turn += arm[0] * y - arm[1] * x;
        forces[stop][0] += x;
        forces[stop][1] += y;
    }
    let spread: f64 = shares.iter().enumerate().map(|(stop, share)| share * square(off(stop))).sum();
    for (stop, (force, share)) in forces.iter_mut().zip(&shares).enumerate() {
        let arm = off(stop);
        force[0] -= share * (sum[0] / stops.length - turn / spread * arm[1]);
        force[1] -= share * (sum[1] / stops.length + turn / spread * arm[0]);
    }
    LoadCase { nodes: forces.into_iter().enumerate().collect(), ..LoadCase::default() }
}

fn square(arm: [f64; 2]) -> f64 {
    arm[0] * arm[0] + arm[1] * arm[1]
}

/// How much of the ring's length is each stop's own: half of the way to the next one on either side.
fn shares(stops: &Stops) -> Vec<f64> {
    let mut shares = vec![0.0; stops.at.len()];
    for stop in 0..shares.len() {
        let next = stops.next(stop);
        let half = 0.5 * (stops.along[next] - stops.along[stop]).rem_euclid(stops.length);
        shares[stop] += half;
        shares[next] += half;
    }
    shares
}

/// Three of the forces within each member, in its own axes, y up and z level.
fn ends(answer: &Answer, axes: [usize; 3]) -> Ends {
    let of = |[first, last]: &[[f64; 6]; 2]| [axes.map(|axis| -first[axis]), axes.map(|axis| last[axis])];
    answer.ends.iter().map(of).collect()
}

impl Hung {
    fn of(answer: &Answer, stops: &Stops) -> Hung {
        let mut counted = vec![false; stops.at.len()];
        let once = |&stop: &usize| {
            let first = !std::mem::replace(&mut counted[stop], true);
            if first { answer.reactions[stop][2] } else { 0.0 }
        };
        let anchors = stops.anchors.iter().map(once).collect();
        Hung { ends: ends(answer, [1, 3, 5]), anchors, residual: answer.residual }
    }
}

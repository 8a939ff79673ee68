//! What uses most of each part of a ring of timber, and what its anchors must hold, over all that acts together.

use super::bed::beside;
use super::fault::Fault;
use super::frame::{Answers, Found, Lifts};
use crate::solve::frame::Six;
use crate::units::{Area, Force, Length, Moment, Pressure, SectionModulus};

/// What bears of the beam.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Left {
    /// Area.
    pub area: Area,
    /// Section modulus for bending up and down.
    pub upright: SectionModulus,
    /// Section modulus for bending in plan.
    pub plan: SectionModulus,
    /// Torque over its greatest stress.
    pub twist: SectionModulus,
}

/// What the wood bears by design while a combination lasts.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Resists {
    /// Bending.
    pub bending: Pressure,
    /// Pull along the grain.
    pub tension: Pressure,
    /// Push along the grain.
    pub compression: Pressure,
    /// Shear, with cracks taken off.
    pub shear: Pressure,
    /// Shear by twist.
    pub twist: Pressure,
}

/// What acts together, and on what.
#[derive(Clone, Copy, Debug)]
pub struct Under<'a> {
    /// For each combination how many of each load, in their order.
    pub combinations: &'a [Vec<f64>],
    /// For each how many times the beam's own weight.
    pub weights: &'a [f64],
    /// What the wood bears in each.
    pub resists: &'a [Resists],
    /// Length over which the beam hands a load on to the earth.
    pub elastic: Length,
    /// How wide each pole lies on the beam, along it.
    pub spreads: &'a [Length],
    /// What bears of the beam.
    pub left: Left,
}

/// What acts within the beam at a place.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Forces {
    /// Ring force: pull along it; below zero, push.
    pub pull: Force,
    /// Force across.
    pub shear: Force,
    /// Twist.
    pub twist: Moment,
    /// Moment up and down, the greatest that may be.
    pub upright: Moment,
    /// Moment in plan.
    pub plan: Moment,
}

/// A share that is used, and what uses it.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Used {
    /// The share.
    pub share: f64,
    /// The forces there.
    pub forces: Forces,
    /// The number of the combination.
    pub combination: usize,
    /// The number of the group of loads.
    pub group: usize,
    /// Whether something lifts the beam then, so that its anchors make the forces with the rest.
    pub is_lifted: bool,
}

/// The greatest shares of a part of the beam.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Worst {
    /// Bending both ways.
    pub bending: Used,
    /// Ring force and bending.
    pub ring: Used,
    /// Ring force and bending in plan alone: what thrust makes.
    pub thrust: Used,
    /// Shear.
    pub shear: Used,
    /// Twist; zero where nothing lifts.
    pub twist: Used,
}

/// What an anchor must hold down.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Lifted {
    /// The pull.
    pub pull: Force,
    /// The number of the combination.
    pub combination: usize,
    /// The number of the group of loads.
    pub group: usize,
}

impl Default for Forces {
    fn default() -> Forces {
        let (force, moment) = (Force::ZERO, Moment::ZERO);
        Forces { pull: force, shear: force, twist: moment, upright: moment, plan: moment }
    }
}

/// What acts at one time.
struct Now<'a> {
    factors: &'a [f64],
    weight: f64,
    thrust: &'a [Found],
    /// What lifts each seat; below zero it presses.
    up: Vec<f64>,
    /// The answers to what lifts, where something does.
    lifts: Option<&'a Lifts>,
}

impl Answers {
    fn now<'a>(&'a self, group: usize, combination: usize, under: &Under<'a>) -> Now<'a> {
        let factors = under.combinations[combination].as_slice();
        let mut up = vec![0.0; self.stops.seats.len()];
        for (presses, factor) in self.presses[group].iter().zip(factors) {
            for (sum, force) in up.iter_mut().zip(presses) {
                *sum += factor * force[2].in_n();
            }
        }
        let lifts = self.lifts.as_ref().ok().filter(|_| up.iter().any(|up| *up > 0.0));
        Now { factors, weight: under.weights[combination], thrust: &self.thrust[group], up, lifts }
    }

    /// The greatest shares of each part under each group of loads; `parts` says for each side of the beam's line which part it is of.
    #[must_use]
    pub fn worst(&self, parts: &[usize], under: &Under<'_>) -> Vec<Vec<Worst>> {
        let near = self.near(under);
        (0..self.thrust.len()).map(|group| self.worst_of(group, parts, under, &near)).collect()
    }

    fn worst_of(&self, group: usize, parts: &[usize], under: &Under<'_>, near: &[Vec<[f64; 2]>]) -> Vec<Worst> {
        let count = parts.iter().max().map_or(0, |last| last + 1);
        let mut all = vec![Worst::default(); count];
        for combination in 0..under.combinations.len() {
            let now = self.now(group, combination, under);
            let beds: Vec<[f64; 2]> = near.iter().map(|near| now.bed(near)).collect();
            for (stop, &side) in self.stops.side.iter().enumerate() {
                let Some(worst) = parts.get(side).and_then(|part| all.get_mut(*part)) else { continue };
                for (end, at) in [stop, self.stops.next(stop)].into_iter().enumerate() {
                    // An anchor that holds nothing is no place of its own.
                    if now.lifts.is_none() && self.stops.is_anchor_alone[at] {
                        continue;
                    }
                    let forces = now.forces((stop, end), beds[at]);
                    let used = |share| Used { share, forces, combination, group, is_lifted: now.lifts.is_some() };
                    worst.take(&under.left, &under.resists[combination], &forces, used);
                }
            }
        }
        all
    }

    /// For each stop what one newton on each seat does to a beam on earth there.
    fn near(&self, under: &Under<'_>) -> Vec<Vec<[f64; 2]>> {
        let elastic = under.elastic.in_m();
        let of = |stop: usize, seat: usize, wide: Length| beside(self.stops.apart(stop, seat), elastic, wide.in_m());
        let near = |stop: usize| {
            let seats = self.stops.seats.iter().zip(under.spreads);
            seats.map(|(&seat, &wide)| of(stop, seat, wide)).collect()
        };
        (0..self.stops.at.len()).map(near).collect()
    }

    /// What each anchor must hold down most; none where it never holds anything.
    ///
    /// # Errors
    /// The anchors do not hold the ring.
    pub fn anchors(&self, under: &Under<'_>) -> Result<Vec<Option<Lifted>>, Fault> {
        self.lifts.as_ref().map_err(Clone::clone)?;
        let mut all: Vec<Option<Lifted>> = vec![None; self.stops.anchors.len()];
        for group in 0..self.thrust.len() {
            for combination in 0..under.combinations.len() {
                let now = self.now(group, combination, under);
                let Some(lifts) = now.lifts else { continue };
                for (anchor, most) in all.iter_mut().enumerate() {
                    let pull = Force::n(-now.sum(lifts, |found| found.anchors[anchor]));
                    if pull > most.map_or(Force::ZERO, |most| most.pull) {
                        *most = Some(Lifted { pull, combination, group });
                    }
                }
            }
        }
        Ok(all)
    }
}

impl Now<'_> {
    /// Moment and force across of what presses, near a stop.
    fn bed(&self, near: &[[f64; 2]]) -> [f64; 2] {
        let mut sum = [0.0; 2];
        for (up, near) in self.up.iter().zip(near).filter(|(up, _)| **up < 0.0) {
            sum = [sum[0] - up * near[0], sum[1] - up * near[1]];
        }
        sum.map(f64::abs)
    }

    /// A figure of thrust, of all that lifts and of the beam's own weight together.
    fn sum(&self, lifts: &Lifts, of: impl Fn(&Found) -> f64) -> f64 {
        let thrust: f64 = self.thrust.iter().zip(self.factors).map(|(found, factor)| factor * of(found)).sum();
        let lifted = lifts.seats.iter().zip(&self.up).filter(|(_, up)| **up > 0.0).map(|(found, up)| up * of(found));
        thrust + lifted.sum::<f64>() + self.weight * of(&lifts.weight)
    }

    fn forces(&self, (member, end): (usize, usize), [pressed, across]: [f64; 2]) -> Forces {
        let mut whole: Six = [0.0; 6];
        for (found, factor) in self.thrust.iter().zip(self.factors) {
            let own = &found.ends[member][end];
            for axis in [0, 2, 4] {
                whole[axis] += factor * own[axis];
            }
        }
        if let Some(lifts) = self.lifts {
            for axis in [1, 3, 5] {
                whole[axis] = self.sum(lifts, |found| found.ends[member][end][axis]);
            }
        }
        Forces {
            pull: Force::n(whole[0]),
            shear: Force::n((whole[1].abs() + across).hypot(whole[2])),
            twist: Moment::n_m(whole[3].abs()),
            upright: Moment::n_m(whole[5].abs() + pressed),
            plan: Moment::n_m(whole[4].abs()),
        }
    }
}

impl Worst {
    fn take(&mut self, left: &Left, resists: &Resists, forces: &Forces, used: impl Fn(f64) -> Used) {
        let bending = (forces.upright / left.upright + forces.plan / left.plan) / resists.bending;
        let along = if forces.pull > Force::ZERO { resists.tension } else { resists.compression };
        let pulled = forces.pull.abs() / left.area / along;
        let shares = [
            (&mut self.bending, bending),
            (&mut self.ring, bending + pulled),
            (&mut self.thrust, forces.plan / left.plan / resists.bending + pulled),
            (&mut self.shear, forces.shear * 1.5 / left.area / resists.shear),
            (&mut self.twist, forces.twist / left.twist / resists.twist),
        ];
        for (most, share) in shares {
            if share > most.share {
                *most = used(share);
            }
        }
    }
}

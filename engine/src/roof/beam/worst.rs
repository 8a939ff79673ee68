//! What uses most of each part of a bond beam, and what its anchors must hold, over all that acts together.

use super::bed::beside;
use super::fault::Fault;
use super::frame::Answers;
use super::scarfs::Scarfs;
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

/// What the beam is held against.
#[derive(Clone, Copy, Debug)]
pub struct Under<'a> {
    /// For each combination how many of each load, in their order.
    pub combinations: &'a [Vec<f64>],
    /// What the wood bears in each.
    pub resists: &'a [Resists],
    /// Length over which the beam hands a load on to the earth.
    pub elastic: Length,
    /// How wide each pole lies on the beam, along it.
    pub spreads: &'a [Length],
    /// What bears of the beam.
    pub left: Left,
    /// Its scarfs; none where what their bolts hold is not known.
    pub scarfs: Option<&'a Scarfs>,
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
    /// Shear.
    pub shear: Used,
    /// Twist; zero where nothing lifts.
    pub twist: Used,
    /// Bolts of its scarfs; zero where what they hold is not known.
    pub scarf: Used,
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

impl Worst {
    /// Of each the greater of two.
    #[must_use]
    pub fn or(self, other: Worst) -> Worst {
        let more = |one: Used, other: Used| if other.share > one.share { other } else { one };
        Worst {
            bending: more(self.bending, other.bending),
            ring: more(self.ring, other.ring),
            shear: more(self.shear, other.shear),
            twist: more(self.twist, other.twist),
            scarf: more(self.scarf, other.scarf),
        }
    }
}

impl Default for Forces {
    fn default() -> Forces {
        let (force, moment) = (Force::ZERO, Moment::ZERO);
        Forces { pull: force, shear: force, twist: moment, upright: moment, plan: moment }
    }
}

/// What one newton on a seat does to the beam near it: the seat, moment, force across.
type Near = Vec<(usize, [f64; 2])>;

/// Farther off than so many lengths over which the earth bears, nothing is left of a load but its rounding.
const FAR: f64 = 20.0;

impl Answers {
    /// The greatest shares of each part under a group of loads; `parts` says for each side of the beam's line which part it is of.
    #[must_use]
    pub fn worst(&self, group: usize, parts: &[usize], under: &Under<'_>) -> Vec<Worst> {
        let mut all = vec![Worst::default(); count(parts)];
        let (near, among) = (self.near(under), self.stops.among(&self.bare));
        for (combination, factors) in under.combinations.iter().enumerate() {
            let thrust = self.in_plan(group, factors);
            let sums = &self.sums[group][combination];
            let hung = self.hung.as_ref().ok().and_then(|hung| hung[group][combination].as_ref());
            let beds: Vec<[f64; 2]> = near.iter().map(|near| bed(near, sums)).collect();
            let shares = Shares::of(&under.left, &under.resists[combination]);
            for (stop, &side) in self.stops.side.iter().enumerate() {
                let Some(&part) = parts.get(side) else { continue };
                let Some(worst) = all.get_mut(part) else { continue };
                for (end, at) in [stop, self.stops.next(stop)].into_iter().enumerate() {
                    let is_anchor = self.stops.is_anchor_alone[at];
                    // An anchor that holds nothing is no place of its own.
                    if hung.is_none() && is_anchor {
                        continue;
                    }
                    let plan = along(&thrust[among[stop]], end, is_anchor);
                    let forces = forces(plan, hung.map(|hung| hung.ends[stop][end]), beds[at]);
                    let used = |share| Used { share, forces, combination, group, is_lifted: hung.is_some() };
                    shares.take(worst, &forces, &used);
                    let share = under.scarfs.map_or(0.0, |scarfs| scarfs.share((part, combination), &forces));
                    if share > worst.scarf.share {
                        worst.scarf = used(share);
                    }
                }
            }
        }
        all
    }

    /// The greatest share of each part that thrust in plan alone would use under a group of loads.
    #[must_use]
    pub fn thrust(&self, group: usize, parts: &[usize], under: &Under<'_>) -> Vec<Used> {
        let mut all = vec![Used::default(); count(parts)];
        for (combination, factors) in under.combinations.iter().enumerate() {
            let shares = Shares::of(&under.left, &under.resists[combination]);
            for (ends, &side) in self.in_plan(group, factors).iter().zip(&self.bare.side) {
                let Some(most) = parts.get(side).and_then(|part| all.get_mut(*part)) else { continue };
                for end in ends {
                    let forces = forces(*end, None, [0.0; 2]);
                    let share = shares.bent(&forces) + shares.pulled(&forces);
                    if share > most.share {
                        *most = Used { share, forces, combination, group, is_lifted: false };
                    }
                }
            }
        }
        all
    }

    /// What thrust in plan does in a combination, between corners and seats.
    fn in_plan(&self, group: usize, factors: &[f64]) -> Vec<[[f64; 3]; 2]> {
        let mut sum = vec![[[0.0; 3]; 2]; self.bare.at.len()];
        for (found, factor) in self.thrust[group].iter().zip(factors).filter(|(_, factor)| **factor != 0.0) {
            for (sum, one) in sum.as_flattened_mut().iter_mut().zip(found.ends.as_flattened()) {
                sum.iter_mut().zip(one).for_each(|(sum, force)| *sum += factor * force);
            }
        }
        sum
    }

    /// For each stop what one newton on each seat does to a beam on earth there.
    fn near(&self, under: &Under<'_>) -> Vec<Near> {
        let elastic = under.elastic.in_m();
        let near = |stop: usize| {
            let seats = self.stops.seats.iter().zip(under.spreads).enumerate();
            let apart = seats.map(|(seat, (&at, wide))| (seat, self.stops.apart(stop, at), wide));
            let close = apart.filter(|(_, apart, _)| *apart < FAR * elastic);
            close.map(|(seat, apart, wide)| (seat, beside(apart, elastic, wide.in_m()))).collect()
        };
        (0..self.stops.at.len()).map(near).collect()
    }

    /// Whether something lifts the ring in a combination and its anchors hold it, so that its twist then is known.
    #[must_use]
    pub fn is_held(&self, group: usize, combination: usize) -> bool {
        self.hung.as_ref().is_ok_and(|hung| hung[group][combination].is_some())
    }

    /// What each anchor must hold down most; none where it never holds anything.
    ///
    /// # Errors
    /// The anchors do not hold the ring.
    pub fn anchors(&self) -> Result<Vec<Option<Lifted>>, Fault> {
        let mut all: Vec<Option<Lifted>> = vec![None; self.stops.anchors.len()];
        for (group, of_group) in self.hung.as_ref().map_err(Clone::clone)?.iter().enumerate() {
            for (combination, hung) in of_group.iter().enumerate() {
                let Some(hung) = hung else { continue };
                for (most, up) in all.iter_mut().zip(&hung.anchors) {
                    let pull = Force::n(-up);
                    if pull > most.map_or(Force::ZERO, |most| most.pull) {
                        *most = Some(Lifted { pull, combination, group });
                    }
                }
            }
        }
        Ok(all)
    }
}

fn count(parts: &[usize]) -> usize {
    parts.iter().max().map_or(0, |last| last + 1)
}

/// Moment and force across of what presses, near a stop.
fn bed(near: &Near, sums: &[[f64; 3]]) -> [f64; 2] {
    let mut sum = [0.0; 2];
    for (seat, [moment, across]) in near {
        let up = sums[*seat][2].min(0.0);
        sum = [sum[0] - up * moment, sum[1] - up * across];
    }
    sum.map(f64::abs)
}

/// What thrust does at an end of a member. At an anchor, which does nothing in plan, the moment counts as at the nearer seats and
/// corners where it is greater.
fn along(ends: &[[f64; 3]; 2], end: usize, is_anchor: bool) -> [f64; 3] {
    let other = 1 - end;
    if is_anchor && ends[other][2].abs() > ends[end][2].abs() { ends[other] } else { ends[end] }
}

fn forces([pull, beside, plan]: [f64; 3], hung: Option<[f64; 3]>, [pressed, across]: [f64; 2]) -> Forces {
    let [sheared, twist, upright] = hung.unwrap_or_default().map(f64::abs);
    let shear = sheared + across;
    Forces {
        pull: Force::n(pull),
        shear: Force::n((shear * shear + beside * beside).sqrt()),
        twist: Moment::n_m(twist),
        upright: Moment::n_m(upright + pressed),
        plan: Moment::n_m(plan.abs()),
    }
}

/// What one newton, and one newton metre, use of the beam.
struct Shares {
    upright: f64,
    plan: f64,
    tension: f64,
    compression: f64,
    shear: f64,
    twist: f64,
}

impl Shares {
    fn of(left: &Left, resists: &Resists) -> Shares {
        let (area, bending) = (left.area.in_m2(), resists.bending.in_pa());
        Shares {
            upright: 1.0 / (left.upright.in_m3() * bending),
            plan: 1.0 / (left.plan.in_m3() * bending),
            tension: 1.0 / (area * resists.tension.in_pa()),
            compression: 1.0 / (area * resists.compression.in_pa()),
            shear: 1.5 / (area * resists.shear.in_pa()),
            twist: 1.0 / (left.twist.in_m3() * resists.twist.in_pa()),
        }
    }

    fn pulled(&self, forces: &Forces) -> f64 {
        let pull = forces.pull.in_n();
        if pull > 0.0 { pull * self.tension } else { -pull * self.compression }
    }

    fn bent(&self, forces: &Forces) -> f64 {
        forces.upright.in_n_m() * self.upright + forces.plan.in_n_m() * self.plan
    }

    fn take(&self, worst: &mut Worst, forces: &Forces, used: &impl Fn(f64) -> Used) {
        let bending = self.bent(forces);
        let shares = [
            (&mut worst.bending, bending),
            (&mut worst.ring, bending + self.pulled(forces)),
            (&mut worst.shear, forces.shear.in_n() * self.shear),
            (&mut worst.twist, forces.twist.in_n_m() * self.twist),
        ];
        for (most, share) in shares {
            if share > most.share {
                *most = used(share);
            }
        }
    }
}

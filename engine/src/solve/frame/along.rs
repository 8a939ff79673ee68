//! Forces and movements at any place along a member.

use super::answer::Answer;
use super::factorised::Factorised;
use super::fault::Fault;
use super::held::{cuts, held_forces, inside, section_at};
use super::load::{Burden, LoadCase};
use super::member::{Bar, Member};
use super::release::{Buckled, release, released_movements};
use super::small::{Six, Twelve, diagonal, into_global, turned};
use super::transfer::{Bending, Plane, Reached, Rule};
use crate::solve::quadrature::places;

/// What is found at one place of a member.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Place {
    /// Distance from the first end.
    pub at: f64,
    /// Pull N, forces across Vy and Vz, torque T, moments My and Mz: what the part beyond the place does to the part before it,
    /// in local axes, just before the place.
    pub forces: Six,
    /// The movements of the axis, in global axes.
    pub movements: Six,
}

impl Factorised<'_> {
    /// Forces and movements at places along a member, for a load case and its answer; distances count from its first end.
    ///
    /// # Errors
    /// When there is no such member, a place lies outside of it, or the loads are not sound.
    pub fn along(
        &self,
        case: &LoadCase,
        answer: &Answer,
        member: usize,
        distances: &[f64],
    ) -> Result<Vec<Place>, Fault> {
        let (bar, description, burden, ends) = self.loaded(case, answer, member)?;
        let rule = Rule::new();
        let push = answer.second_order.then_some(ends[0]);
        let bending = Bending { rule: &rule, member: description, bar, burden: &burden, push, factor: 1.0 };
        let mut start = self.bar_movements(bar, &answer.movements);
        if !bar.released.is_empty() {
            self.own_ends(&bending, &mut start)?;
        }
        let inside = |at: &f64| (0.0..=bar.length * (1.0 + 1e-12)).contains(at);
        if !distances.iter().all(inside) {
            return Err(Fault::Load { member });
        }
        Ok(distances.iter().map(|&at| place(&bending, &start, &ends, at)).collect())
    }

    /// Forces alone at places along a member, as in [`Place`]: nothing is integrated.
    ///
    /// # Errors
    /// When there is no such member, a place lies outside of it, or the loads are not sound.
    pub fn forces_along(
        &self,
        case: &LoadCase,
        answer: &Answer,
        member: usize,
        distances: &[f64],
    ) -> Result<Vec<Six>, Fault> {
        let (bar, _, burden, ends) = self.loaded(case, answer, member)?;
        if answer.second_order || !distances.iter().all(|at| (0.0..=bar.length * (1.0 + 1e-12)).contains(at)) {
            return Err(Fault::Load { member });
        }
        Ok(distances.iter().map(|&at| inside(&ends, &burden, at)).collect())
    }

    /// A member as it is made and as it was given, what lies on it, and the forces at its ends.
    fn loaded(
        &self,
        case: &LoadCase,
        answer: &Answer,
        member: usize,
    ) -> Result<(&Bar, &Member, Burden, Twelve), Fault> {
        let (Some(bar), Some(description)) = (self.bars.get(member), self.frame.members.get(member)) else {
            return Err(Fault::NoMember { member });
        };
        let mut burden = Burden::default();
        for (_, load) in case.members.iter().filter(|(own, _)| *own == member) {
            burden.add(member, load, description, bar)?;
        }
        let ends: Twelve = std::array::from_fn(|k| answer.ends[member][k / 6][k % 6]);
        Ok((bar, description, burden, ends))
    }

    /// Puts the movements of the member's own ends in place of its nodes'.
    fn own_ends(&self, bending: &Bending<'_>, movements: &mut Twelve) -> Result<(), Fault> {
        let held = held_forces(bending.member, bending.bar, bending.burden);
        if bending.push.is_none() {
            released_movements(movements, &held, &bending.bar.released);
            return Ok(());
        }
        let (mut square, held) = bending.whole(&held).ok_or(Fault::Unstable)?;
        let alone = diagonal(&bending.bar.basic.square(bending.bar.length));
        let released = release(&mut square, bending.member.released, &alone).map_err(|Buckled| Fault::Unstable)?;
        released_movements(movements, &held, &released);
        Ok(())
    }
}

fn place(bending: &Bending<'_>, start: &Twelve, ends: &Twelve, at: f64) -> Place {
    let (bar, member) = (bending.bar, bending.member);
    let mut forces = inside(ends, bending.burden, at);
    let mut movements: Six = [start[0], 0.0, 0.0, start[3], 0.0, 0.0];
    for [from, to] in cuts(member, bar.length, bending.burden).into_iter().take_while(|[from, _]| *from < at) {
        for (x, weight) in places(from, to.min(at)) {
            let (within, section) = (inside(ends, bending.burden, x), section_at(member, x / bar.length));
            movements[0] += weight * within[0] / (member.young * section.area);
            movements[3] += weight * within[3] / (member.shear * section.twist);
        }
    }
    for plane in Plane::BOTH {
        let [across, about] = plane.at();
        let sign = plane.sign();
        let reached = bending.reach(plane, at);
        let parts = [start[about], ends[about], sign * ends[across]];
        movements[across] = start[across] + sign * Reached::sum(reached.across, parts);
        movements[about] = Reached::sum(reached.turn, parts);
        forces[about] = Reached::sum(reached.moment, parts);
    }
    Place { at, forces, movements: turned(movements, |part| into_global(&bar.axes, part)) }
}

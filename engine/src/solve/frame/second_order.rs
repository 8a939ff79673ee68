//! Second order: members pushed along their axis bend more, and those pulled less.
//!
//! Exact stability functions of each member under the force along it (`transfer`), not a geometric matrix, so that no member
//! need be divided; the forces are found by iteration. Bowing of the axis, twist under a push, and the turn of links are not
//! counted.

use super::answer::{self, Answer};
use super::factorised::{Factorised, Placed, no_factor, stiffness};
use super::fault::{Direction, Fault};
use super::load::{Burden, LoadCase};
use super::member::Bar;
use super::release::{release, release_forces};
use super::small::{Square, Twelve, diagonal, times, turned_square};
use super::transfer::{Bending, Rule};

/// How often the forces along the members are found anew.
const ROUNDS: usize = 60;

/// They are at rest when they change by no more than this share of the largest.
const REST: f64 = 1e-12;

/// In a frame whose links are far stiffer than its members they never are: rounding alone changes them by more. Then they are when they
/// change by no more than this and no longer by less from round to round.
const ROUNDING: f64 = 1e-9;

/// A member's stiffness and held ends under the force along it, releases taken out, local axes.
pub(super) struct Pressed {
    pub local: Square,
    pub ends: Twelve,
}

impl Factorised<'_> {
    /// Answers a load case with the forces along the members acting on the bent frame.
    ///
    /// # Errors
    /// When a load is not sound, or the frame buckles below these loads.
    pub fn second_order(&self, case: &LoadCase) -> Result<Answer, Fault> {
        let placed = self.place(case)?;
        let first = self.solve(std::slice::from_ref(case))?;
        let mut pushes: Vec<f64> = first.iter().flat_map(|answer| &answer.ends).map(|ends| ends[0][0]).collect();
        let mut before = f64::INFINITY;
        for _ in 0..ROUNDS {
            let answer = self.pressed_answer(case, &placed, &pushes)?;
            let most = pushes.iter().fold(0.0_f64, |most, push| most.max(push.abs()));
            let mut change = 0.0_f64;
            for (push, ends) in pushes.iter_mut().zip(&answer.ends) {
                change = change.max((*push - ends[0][0]).abs());
                *push = ends[0][0];
            }
            if change <= REST * most || change <= ROUNDING * most && change >= before {
                return Ok(answer);
            }
            before = change;
        }
        Err(Fault::Restless)
    }

    fn pressed_answer(&self, case: &LoadCase, placed: &Placed, pushes: &[f64]) -> Result<Answer, Fault> {
        let pressed = self.pressed(placed, pushes, 1.0)?.ok_or(Fault::Unstable)?;
        let global = |bar: &Bar, index: usize| turned_square(&bar.axes, &pressed[index].local);
        let values = stiffness(self.frame, &self.bars, &self.equations, &self.plan, global);
        let factor = self.plan.factor(&values).map_err(|_| Fault::Unstable)?;
        let mut side = vec![0.0; self.equations.count];
        self.load_side(case, placed, Some(&pressed), &mut side);
        let loads = side.clone();
        self.plan.solve(&factor, &mut side).map_err(no_factor)?;
        let movements = self.movements(&side, &placed.settled);
        let work = side.iter().zip(&loads).map(|(moved, load)| moved * load).sum();
        let mut ends = Vec::with_capacity(self.bars.len());
        for (bar, pressed) in self.bars.iter().zip(&pressed) {
            let mut own = times(&pressed.local, &self.bar_movements(bar, &movements));
            own.iter_mut().zip(pressed.ends).for_each(|(sum, held)| *sum += held);
            ends.push(own);
        }
        let mut answer = answer::answer(self, case, movements, work, &ends);
        answer.second_order = true;
        Ok(answer)
    }

    /// Each member under `factor` times the force that pushes on its first end; nothing when one has buckled between its nodes.
    pub(super) fn pressed(&self, placed: &Placed, pushes: &[f64], factor: f64) -> Result<Option<Vec<Pressed>>, Fault> {
        let rule = Rule::new();
        let bare = Burden::default();
        let mut all = Vec::with_capacity(self.bars.len());
        for (index, (bar, member)) in self.bars.iter().zip(&self.frame.members).enumerate() {
            let loaded = placed.burdens[index].as_deref();
            let burden = loaded.map_or(&bare, |loaded| &loaded.burden);
            let push = Some(factor * pushes[index]);
            let bending = Bending { rule: &rule, member, bar, burden, push, factor };
            let held = loaded.map_or([0.0; 12], |loaded| loaded.held);
            let Some((mut local, mut ends)) = bending.whole(&held) else { return Ok(None) };
            let alone = diagonal(&bar.basic.square(bar.length));
            let Ok(released) = release(&mut local, member.released, &alone) else { return Ok(None) };
            release_forces(&mut ends, &released)
                .map_err(|at| Fault::Loose { member: index, direction: Direction::ALL[at % 6] })?;
            all.push(Pressed { local, ends });
        }
        Ok(Some(all))
    }
}

//! The lowest factor on all loads at which a frame buckles, with exact stability functions.

use super::factorised::{Factorised, Placed, no_factor, stiffness};
use super::fault::Fault;
use super::load::LoadCase;
use super::member::Bar;
use super::small::{Six, turned_square};
use crate::solve::sparse::Factor;

/// How a frame buckles.
#[derive(Clone, Debug, PartialEq)]
pub struct Buckling {
    /// The factor on all loads, first-order forces along the members growing with it.
    pub factor: f64,
    /// The movements of the nodes, the largest of them 1; all zero when a member buckles between nodes that do not move.
    pub mode: Vec<Six>,
}

/// The bracket is narrowed to this share of the factor.
const NEAR: f64 = 1e-11;

impl Factorised<'_> {
    /// Finds the lowest load factor above zero.
    ///
    /// The frame is stable while no member has buckled between held ends and the stiffness is positive definite. The factor is
    /// bracketed by halving; once near, it comes from inverse iteration on the stiffness below and its loss across the bracket.
    ///
    /// # Errors
    /// When a load is not sound or nothing is pushed.
    pub fn buckling(&self, case: &LoadCase) -> Result<Buckling, Fault> {
        let placed = self.place(case)?;
        let answers = self.solve(std::slice::from_ref(case))?;
        let pushes: Vec<f64> = answers.iter().flat_map(|answer| &answer.ends).map(|ends| ends[0][0]).collect();
        let search = Search { whole: self, placed: &placed, pushes: &pushes };
        let (mut low, mut high) = search.bracket(self.euler(&placed, &pushes))?;
        let mut mode = vec![0.0; self.equations.count];
        for _ in 0..200 {
            if high - low <= NEAR * high {
                break;
            }
            let width = high - low;
            let close = width < 0.1 * high && !mode.is_empty();
            let estimate = if close { search.estimate(low, high, &mut mode)? } else { None };
            for at in estimate.into_iter().flat_map(|at| [at * (1.0 - 0.2 * NEAR), at * (1.0 + 0.2 * NEAR)]) {
                search.narrow(at, &mut low, &mut high)?;
            }
            if high - low > 0.1 * width {
                search.narrow(0.5 * (low + high), &mut low, &mut high)?;
            }
        }
        let zero = vec![[0.0; 6]; self.frame.nodes.len()];
        let most = mode.iter().fold(0.0_f64, |most, own| if own.abs() > most.abs() { *own } else { most });
        mode.iter_mut().for_each(|own| *own /= if most == 0.0 { 1.0 } else { most });
        Ok(Buckling { factor: 0.5 * (low + high), mode: self.movements(&mode, &zero) })
    }

    /// The least factor at which a member, softest where it is softest and free to turn at both ends, would buckle alone.
    fn euler(&self, placed: &Placed, pushes: &[f64]) -> f64 {
        let mut least = f64::INFINITY;
        for (index, (bar, member)) in self.bars.iter().zip(&self.frame.members).enumerate() {
            let along = placed.burdens[index].as_deref().map_or(0.0, |loaded| loaded.burden.whole(bar.length)[0]);
            let push = pushes[index].max(pushes[index] + along);
            let ends = member.stretches.iter().flat_map(|stretch| [stretch.section.at(0.0), stretch.section.at(1.0)]);
            let softest = ends.map(|section| section.about_y.min(section.about_z)).fold(f64::INFINITY, f64::min);
            if push > 0.0 {
                least = least.min((std::f64::consts::PI / bar.length).powi(2) * member.young * softest / push);
            }
        }
        least
    }
}

struct Search<'s> {
    whole: &'s Factorised<'s>,
    placed: &'s Placed,
    pushes: &'s [f64],
}

impl Search<'_> {
    /// The stiffness under `factor` times the loads; nothing when a member has buckled between held ends.
    fn values(&self, factor: f64) -> Result<Option<Vec<f64>>, Fault> {
        let Some(pressed) = self.whole.pressed(self.placed, self.pushes, factor)? else { return Ok(None) };
        let global = |bar: &Bar, index: usize| turned_square(&bar.axes, &pressed[index].local);
        let Factorised { frame, bars, equations, plan, .. } = self.whole;
        Ok(Some(stiffness(frame, bars, equations, plan, global)))
    }

    fn factor(&self, factor: f64) -> Result<Option<Factor>, Fault> {
        Ok(self.values(factor)?.and_then(|values| self.whole.plan.factor(&values).ok()))
    }

    fn narrow(&self, at: f64, low: &mut f64, high: &mut f64) -> Result<(), Fault> {
        if at > *low && at < *high {
            *(if self.factor(at)?.is_some() { low } else { high }) = at;
        }
        Ok(())
    }

    /// A factor that is borne and one that is not. A member between held ends has its second critical load at twice its first;
    /// steps are smaller than that, so that the first is not passed unseen.
    fn bracket(&self, guess: f64) -> Result<(f64, f64), Fault> {
        if !guess.is_finite() {
            return Err(Fault::NothingBuckles);
        }
        let mut low = guess;
        while self.factor(low)?.is_none() {
            if low < 1e-12 * guess {
                return Err(Fault::Restless);
            }
            low *= 0.5;
        }
        for _ in 0..20 {
            let at = low * 1.6;
            if self.factor(at)?.is_none() {
                return Ok((low, at));
            }
            low = at;
        }
        Err(Fault::NothingBuckles)
    }

    /// Where the softest movement loses its stiffness if it is lost evenly across the bracket.
    fn estimate(&self, low: f64, high: f64, mode: &mut [f64]) -> Result<Option<f64>, Fault> {
        let plan = &self.whole.plan;
        let (Some(below), Some(above)) = (self.values(low)?, self.values(high)?) else { return Ok(None) };
        let Ok(factor) = plan.factor(&below) else { return Ok(None) };
        let lost: Vec<f64> = below.iter().zip(&above).map(|(below, above)| (below - above) / (high - low)).collect();
        if mode.iter().all(|own| *own == 0.0) {
            let diagonal = plan.columns().diagonal(&below);
            for (at, (own, stiffness)) in mode.iter_mut().zip(&diagonal).enumerate() {
                *own = (1.0 + 0.5 * (at as f64 * 2.399_963_229_728_653).sin()) / stiffness.sqrt();
            }
        }
        let mut further = f64::INFINITY;
        for _ in 0..30 {
            let mut next = plan.columns().times(&lost, mode);
            plan.solve(&factor, &mut next).map_err(no_factor)?;
            let energy = |values: &[f64]| -> f64 {
                plan.columns().times(values, &next).iter().zip(&next).map(|(a, b)| a * b).sum()
            };
            let share = energy(&below) / energy(&lost);
            let size = next.iter().fold(0.0_f64, |most, own| most.max(own.abs()));
            mode.iter_mut().zip(&next).for_each(|(own, next)| *own = next / size);
            let change = (share - further).abs();
            further = share;
            if change <= 1e-12 * low {
                break;
            }
        }
        Ok((further.is_finite() && further > 0.0).then_some(low + further))
    }
}

//! Forces between the poles of a ring of unequal poles, by the same assumptions as in a regular one: plumb forces alone, passed
//! plumb at the crossings of the axes in plan, no thrust at the supports.

use super::{Layout, Ring};
use crate::units::{Force, Length};

/// A load on one pole.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Load {
    /// How much.
    pub force: Force,
    /// In plan from the support of the pole to its middle.
    pub at: Length,
}

/// What a pole gives on.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Passed {
    /// To the pole on which it rests.
    pub crossing: Force,
    /// To its outer support.
    pub support: Force,
}

/// What each pole passes on when each has its load. Without one of its poles the ring is a mechanism: ask [`lost`].
///
/// ```text
/// Fᵢ xᵢ = Wᵢ sᵢ + F x₁ᵢ,  Vᵢ = Wᵢ + F − Fᵢ        F: what the pole above passes on, s: to the load
/// ```
/// Source: equilibrium of each pole, all round; derived for this project.
#[must_use]
pub fn passed(layout: &Layout, ring: &Ring, loads: &[Load]) -> Vec<Passed> {
    let own = |place: usize| {
        let [first, second] = ring.sets[place].plan_lengths;
        (loads[place].force * (loads[place].at / second), first / second)
    };
    // In the order of passing on, from pole to the pole below; the force is `fixed + share` times that which comes in first.
    let (mut fixed, mut share) = (Force::ZERO, 1.0);
    let mut place = 0;
    for _ in 0..ring.sets.len() {
        let (force, part) = own(place);
        (fixed, share) = (force + fixed * part, share * part);
        place = layout.below(place);
    }
    let mut comes = fixed / (1.0 - share);
    let mut all = vec![Passed { crossing: Force::ZERO, support: Force::ZERO }; ring.sets.len()];
    for _ in 0..ring.sets.len() {
        let (force, part) = own(place);
        let crossing = force + comes * part;
        all[place] = Passed { crossing, support: loads[place].force + comes - crossing };
        comes = crossing;
        place = layout.below(place);
    }
    all
}

/// What happens when one pole is lost: the pole that rested on it has no inner support, and so on round the ring. Counted from
/// zero, in the order in which they come down.
#[must_use]
pub fn lost(layout: &Layout, place: usize) -> Vec<usize> {
    super::order(layout, place).into_iter().skip(1).collect()
}

#[cfg(test)]
mod tests {
    use super::super::laws::{motley, pole, regular};
    use super::super::ring;
    use super::*;
    use crate::roof as closed;

    fn force(newtons: f64) -> Force {
        Force::n(newtons)
    }

    #[test]
    fn the_supports_carry_all_loads() {
        let layout = motley();
        let found = ring(&layout).unwrap();
        let loads: Vec<Load> = (0..9)
            .map(|at| Load { force: force(100.0 + 30.0 * f64::from(at)), at: Length::m(0.2 * f64::from(at)) })
            .collect();
        let carried: f64 = passed(&layout, &found, &loads).iter().map(|passed| passed.support.in_n()).sum();
        let loaded: f64 = loads.iter().map(|load| load.force.in_n()).sum();
        assert!((carried - loaded).abs() < 1e-9);
    }

    #[test]
    fn equal_poles_pass_on_what_the_closed_form_says() {
        let layout = regular(3.0, 0.6, &[pole(150.0, 150.0); 8]);
        let found = ring(&layout).unwrap();
        let [first, second] = found.sets[0].plan_lengths;
        let load = Load { force: force(1000.0 * second.in_m()), at: second * 0.5 };
        let told = closed::crossing_force_line_load(force(1000.0), second, second - first).value;
        for passed in passed(&layout, &found, &[load; 8]) {
            assert!((passed.crossing - told).abs().in_n() < 1e-8);
            assert!((passed.support - load.force).abs().in_n() < 1e-8);
        }
    }

    #[test]
    fn a_lost_pole_brings_all_others_down_one_after_the_other() {
        let layout = regular(3.0, 0.6, &[pole(150.0, 150.0); 5]);
        assert_eq!(lost(&layout, 2), [1, 0, 4, 3]);
    }
}

//! What is wanted of a mix, each thing from 0 to 1, and all together.

use crate::reason::formula;

formula! {
    /// How much a value is what is wanted: 0 not at all, 1 wholly.
    ///
    /// ```text
    /// most:    d = ((y − L) / (T − L))^s        0 below L, 1 above T
    /// least:   d = ((U − y) / (U − T))^s        0 above U, 1 below T
    /// target:  d = ((y − L) / (T − L))^s up to T, ((U − y) / (U − T))^s beyond
    /// ```
    /// Source: Derringer and Suich, Journal of Quality Technology 12 (1980) 214-219, as program manuals print it, seen.
    pub fn desirability(found: f64; goal: &Goal) -> f64 {
        goal.met(found)
    }
}

formula! {
    /// All wishes together: none at all where one is not met at all.
    ///
    /// ```text
    /// D = (Π dᵢ^rᵢ)^(1/Σ rᵢ)        r: how much each counts
    /// ```
    /// Source: Derringer and Suich, Journal of Quality Technology 12 (1980) 214-219; with weights as program manuals print it, seen.
    pub fn overall(; met: &[(f64, f64)]) -> f64 {
        together(met)
    }
}

/// The weighted geometric mean of pairs of a wish met and how much it counts.
pub(super) fn together(met: &[(f64, f64)]) -> f64 {
    if met.iter().any(|(met, _)| *met <= 0.0) {
        return 0.0;
    }
    let weight: f64 = met.iter().map(|(_, counts)| counts).sum();
    (met.iter().map(|(met, counts)| counts * met.ln()).sum::<f64>() / weight).exp()
}

/// Which way is better.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Want {
    /// As much as can be.
    Most,
    /// As little as can be.
    Least,
    /// A value, neither more nor less.
    Target,
}

/// A wish.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Goal {
    /// Which way is better.
    pub want: Want,
    /// Nothing is met below this; what least is wanted of has none.
    pub low: f64,
    /// All is met here.
    pub target: f64,
    /// Nothing is met above this; what most is wanted of has none.
    pub high: f64,
    /// How steeply the wish is lost: one is even.
    pub power: f64,
    /// How much it counts.
    pub counts: f64,
}

impl Goal {
    /// How much of the wish a value meets.
    #[must_use]
    pub fn met(&self, found: f64) -> f64 {
        let risen = ((found - self.low) / (self.target - self.low)).clamp(0.0, 1.0);
        let fallen = ((self.high - found) / (self.high - self.target)).clamp(0.0, 1.0);
        let share = match self.want {
            Want::Most => risen,
            Want::Least => fallen,
            Want::Target => risen.min(fallen),
        };
        if self.power == 1.0 { share } else { share.powf(self.power) }
    }

    /// How far the value may be from where all is met before nothing is, to the nearer side.
    #[must_use]
    pub fn room(&self) -> f64 {
        match self.want {
            Want::Most => self.target - self.low,
            Want::Least => self.high - self.target,
            Want::Target => (self.target - self.low).min(self.high - self.target),
        }
    }

    /// How much it meets at the worse end of an interval.
    #[must_use]
    pub fn met_at_worst(&self, found: f64, half: f64) -> f64 {
        match self.want {
            Want::Most => self.met(found - half),
            Want::Least => self.met(found + half),
            Want::Target => self.met(found - half).min(self.met(found + half)),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_least_is_the_mirror_of_the_most_and_a_target_falls_to_both_sides() {
        let goal = |want| Goal { want, low: 10.0, target: 20.0, high: 40.0, power: 2.0, counts: 1.0 };
        assert_eq!(
            [goal(Want::Most).met(15.0), goal(Want::Most).met(5.0), goal(Want::Most).met(25.0)],
            [0.25, 0.0, 1.0]
        );
        assert_eq!(
            [goal(Want::Least).met(30.0), goal(Want::Least).met(45.0), goal(Want::Least).met(5.0)],
            [0.25, 0.0, 1.0]
        );
        assert_eq!(
            [goal(Want::Target).met(15.0), goal(Want::Target).met(30.0), goal(Want::Target).met(20.0)],
            [0.25, 0.25, 1.0]
        );
        assert_eq!(goal(Want::Target).met_at_worst(20.0, 5.0), 0.25_f64.min(0.5625));
    }
}

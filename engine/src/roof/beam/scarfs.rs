//! The scarfs of a bond beam: what the bolts of one hand over from the plank that it cuts to those beside it, and which forces use
//! most of them.

use super::worst::Forces;
use crate::reason::formula;
use crate::units::{Force, Length, Moment};

formula! {
    /// Half of the way from joint to joint of a layer: over it a plank takes up what it carries, and hands it on again.
    ///
    /// ```text
    /// a = l / (2 n)        l: length of the part, n: pieces of it in one layer
    /// ```
    /// Source: joints of a layer stand over the middles of the pieces below.
    pub fn half_piece(length: Length, pieces: u64) -> Length {
        length / (2.0 * pieces as f64)
    }
}

formula! {
    /// Force along the beam that the bolts of a scarf hand over.
    ///
    /// ```text
    /// N₁ = |N| / m        m: planks that count
    /// ```
    /// Source: equilibrium. A scarf itself counts for nothing, and a whole plank carries no more than its share of what all those that
    /// count do; any such state of equilibrium is on the safe side, since bolts give before they break.
    pub fn handed_along(planks: u64; force: Force) -> Force {
        force.abs() / planks as f64
    }
}

formula! {
    /// Force by which the bolts of a scarf hand over a moment: across the beam for one in plan, along the bolts for one up and down.
    ///
    /// ```text
    /// F = 2 M / (m a)        m: planks that count, a: half of the way from joint to joint
    /// ```
    /// Source: equilibrium of a half piece, which carries nothing at its own scarf and at its middle the share of a whole plank; two
    /// half pieces meet at a scarf. Planks that press on each other need no bolt; on the safe side all counts as if they gaped.
    pub fn handed_over(half: Length, planks: u64; moment: Moment) -> Force {
        Force::n(2.0 * moment.in_n_m().abs() / (planks as f64 * half.in_m()))
    }
}

formula! {
    /// Force across each bolt of a scarf.
    ///
    /// ```text
    /// V = √(N₁² + H²) / n        N₁: along the beam, H: across it, n: bolts of the scarf
    /// ```
    /// Source: bolts that are alike take equal shares.
    pub fn across_bolt(along: Force, across: Force, bolts: u64) -> Force {
        Force::n(along.in_n().hypot(across.in_n()) / bolts as f64)
    }
}

formula! {
    /// Force along each bolt of a scarf.
    ///
    /// ```text
    /// P = F / n        F: force by which the planks would gape, n: bolts of the scarf
    /// ```
    /// Source: bolts that are alike take equal shares.
    pub fn along_bolt(lift: Force, bolts: u64) -> Force {
        lift / bolts as f64
    }
}

/// The scarfs of a beam, all alike.
#[derive(Clone, Debug, PartialEq)]
pub struct Scarfs {
    /// For each part of the beam half of the way from joint to joint of a layer.
    pub halves: Vec<Length>,
    /// Planks that count.
    pub planks: u64,
    /// What the bolts of one hold by design while each combination lasts: across them, along them.
    pub holds: Vec<[Force; 2]>,
}

impl Scarfs {
    /// Share used of the bolts of a scarf in a part of the beam: what they hold across them and along them, added up.
    pub(super) fn share(&self, (part, combination): (usize, usize), forces: &Forces) -> f64 {
        let (Some(&half), Some(&[across, along])) = (self.halves.get(part), self.holds.get(combination)) else {
            return 0.0;
        };
        let pull = handed_along(self.planks, forces.pull).value;
        let [beside, lift] = [forces.plan, forces.upright].map(|moment| handed_over(half, self.planks, moment).value);
        across_bolt(pull, beside, 1).value / across + lift / along
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_scarf_of_two_layers_by_hand() {
        // Pieces of 1 m in two layers: half a metre takes up 300 N m, which is 600 N at its end, from both sides 1200 N.
        let half = half_piece(Length::m(4.0), 4).value;
        assert!((half.in_m() - 0.5).abs() < 1e-12);
        let couple = handed_over(half, 1, Moment::n_m(-300.0)).value;
        assert!((couple.in_n() - 1200.0).abs() < 1e-9);
        let along = handed_along(2, Force::n(-1000.0)).value;
        assert!((along.in_n() - 500.0).abs() < 1e-9);
        assert!((across_bolt(along, couple, 2).value.in_n() - 650.0).abs() < 1e-9);
        assert!((along_bolt(couple, 2).value.in_n() - 600.0).abs() < 1e-9);
    }
}

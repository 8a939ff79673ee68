//! Earthquake by the equivalent lateral force of ASCE 7: how hard the ground of a place shakes, and the push at the foot.

use crate::reason::formula;
use crate::units::{Force, Length};

formula! {
    /// Acceleration to design with, in shares of gravity.
    ///
    /// ```text
    /// S_D = 2/3 F S        S: mapped, F: of the site's ground
    /// ```
    /// Source: ASCE 7-16, 11.4.4 and 11.4.5, from memory; the numbers in a stored permit document.
    pub fn design_acceleration(mapped: f64, site_factor: f64) -> f64 {
        2.0 / 3.0 * site_factor * mapped
    }
}

formula! {
    /// Period in which a building sways, in seconds.
    ///
    /// ```text
    /// T = C h^x        h in feet
    /// ```
    /// Source: ASCE 7-16 (12.8-7), from memory.
    pub fn period_s(height: Length, coefficient: f64, exponent: f64) -> f64 {
        coefficient * height.in_ft().powf(exponent)
    }
}

formula! {
    /// Share of its weight by which an earthquake pushes a building.
    ///
    /// ```text
    /// C = min(S_DS / (R/I), S_D1 / (T R/I)), not below 0.044 S_DS I and 0.01
    /// ```
    /// Source: ASCE 7-16 (12.8-2), (12.8-3) and (12.8-5), from memory; periods below the long one.
    pub fn push_share(
        short_acceleration: f64, second_acceleration: f64, period_s: f64, reduction: f64, importance: f64
    ) -> f64 {
        let softened = reduction / importance;
        let most = (short_acceleration / softened).min(second_acceleration / (period_s * softened));
        most.max(0.044 * short_acceleration * importance).max(0.01)
    }
}

formula! {
    /// Push of an earthquake at the foot of a building.
    ///
    /// ```text
    /// V = C W
    /// ```
    /// Source: ASCE 7-16 (12.8-1), from memory.
    pub fn base_push(push_share: f64, weight: Force) -> Force {
        weight * push_share
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_push_is_never_below_its_least_share() {
        let share = |short, second| push_share(short, second, 0.2, 8.0, 1.0).value;
        assert_eq!(share(0.1, 0.001), 0.01);
        assert!((share(1.0, 0.02) - 0.044).abs() < 1e-12);
        assert!((push_share(1.0, 0.6, 2.0, 1.5, 1.0).value - 0.2).abs() < 1e-12);
    }
}

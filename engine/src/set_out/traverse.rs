//! A traverse from peg to peg and back to the first: how far it misses, and Bowditch's rule that shares the error out.

use crate::reason::formula;
use crate::units::{Angle, Length};

/// One leg of a traverse.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Leg {
    /// Its length, level.
    pub length: Length,
    /// Its bearing, clockwise from north.
    pub bearing: Angle,
}

fn east(legs: &[Leg]) -> Length {
    legs.iter().map(|leg| leg.length * leg.bearing.in_rad().sin()).sum()
}

fn north(legs: &[Leg]) -> Length {
    legs.iter().map(|leg| leg.length * leg.bearing.in_rad().cos()).sum()
}

fn shared(legs: &[Leg], so_far: usize, of: fn(&[Leg]) -> Length) -> Length {
    let so_far = &legs[..so_far.min(legs.len())];
    let whole = perimeter(legs).value;
    let share = if whole > Length::ZERO { perimeter(so_far).value / whole } else { 0.0 };
    of(so_far) - of(legs) * share
}

formula! {
    /// How far east of its start a traverse ends that should end there.
    ///
    /// ```text
    /// e_E = Σ l sin β        β: bearing, clockwise from north
    /// ```
    /// Source: the definition of a bearing.
    pub fn misclosure_east(; legs: &[Leg]) -> Length {
        east(legs)
    }
}

formula! {
    /// How far north of its start a traverse ends that should end there.
    ///
    /// ```text
    /// e_N = Σ l cos β        β: bearing, clockwise from north
    /// ```
    /// Source: the definition of a bearing.
    pub fn misclosure_north(; legs: &[Leg]) -> Length {
        north(legs)
    }
}

formula! {
    /// How far a traverse ends from its start.
    ///
    /// ```text
    /// e = √(e_E² + e_N²)
    /// ```
    /// Source: Pythagoras.
    pub fn closing_length(east: Length, north: Length) -> Length {
        Length::m(east.in_m().hypot(north.in_m()))
    }
}

formula! {
    /// Length of a traverse.
    ///
    /// ```text
    /// L = Σ l
    /// ```
    /// Source: the sum of its parts.
    pub fn perimeter(; legs: &[Leg]) -> Length {
        legs.iter().map(|leg| leg.length).sum()
    }
}

formula! {
    /// How many times its closing error a traverse is long.
    ///
    /// ```text
    /// L / e
    /// ```
    /// Source: the definition of the ratio as surveyors use it, 1 in so many.
    pub fn closing_ratio(perimeter: Length, closing: Length) -> f64 {
        perimeter / closing
    }
}

formula! {
    /// Place of a peg east of the first, the closing error shared out by length.
    ///
    /// ```text
    /// E = Σ l sin β so far − e_E × length so far / L
    /// ```
    /// Source: Bowditch's rule (the compass rule), from memory of surveying texts.
    pub fn adjusted_east(; legs: &[Leg], so_far: usize) -> Length {
        shared(legs, so_far, east)
    }
}

formula! {
    /// Place of a peg north of the first, the closing error shared out by length.
    ///
    /// ```text
    /// N = Σ l cos β so far − e_N × length so far / L
    /// ```
    /// Source: Bowditch's rule (the compass rule), from memory of surveying texts.
    pub fn adjusted_north(; legs: &[Leg], so_far: usize) -> Length {
        shared(legs, so_far, north)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn an_adjusted_traverse_ends_where_it_began_and_a_true_one_is_left_alone() {
        let leg = |length: f64, bearing: f64| Leg { length: Length::m(length), bearing: Angle::deg(bearing) };
        let crooked = [leg(5.0, 90.0), leg(4.02, 0.0), leg(4.99, 270.0), leg(4.0, 180.0)];
        assert!((misclosure_east(&crooked).value.in_mm() - 10.0).abs() < 1e-9);
        assert!((misclosure_north(&crooked).value.in_mm() - 20.0).abs() < 1e-9);
        let end = [adjusted_east(&crooked, 4).value, adjusted_north(&crooked, 4).value];
        assert!(end.iter().all(|gap| gap.in_mm().abs() < 1e-9));
        let true_one = [leg(3.0, 90.0), leg(4.0, 0.0), leg(5.0, 180.0 + 3.0f64.atan2(4.0).to_degrees())];
        assert!((adjusted_north(&true_one, 2).value.in_m() - 4.0).abs() < 1e-9);
        assert!((adjusted_east(&true_one, 2).value.in_m() - 3.0).abs() < 1e-9);
    }
}

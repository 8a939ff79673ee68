//! A bond beam on a top that slopes: its pieces are longer than they are in plan.

use crate::reason::formula;
use crate::units::Length;

formula! {
    /// How many times as long as in plan the bond beam is where the top of the wall slopes, at its steepest over a part.
    ///
    /// ```text
    /// k = √(1 + t²)        t: steepest slope of the top along the beam
    /// ```
    /// Source: Pythagoras; a part that is steeper in one place than in others is nowhere longer.
    pub fn slope_growth(; steepest: f64) -> f64 {
        steepest.hypot(1.0)
    }
}

formula! {
    /// How long the longest timber is in plan where the top slopes, its scarf as it is cut.
    ///
    /// ```text
    /// p′ = s + (p − s) / k        p: longest timber, s: length of a scarf
    /// ```
    /// Source: Pythagoras.
    pub fn timber_in_plan(piece: Length, scarf: Length, growth: f64) -> Length {
        scarf + (piece - scarf) / growth
    }
}

formula! {
    /// Length to which a piece is cut where the top slopes, its scarf with it.
    ///
    /// ```text
    /// c = (c′ − s) k + s        c′: the same in plan, s: length of a scarf
    /// ```
    /// Source: Pythagoras.
    pub fn cut_on_slope(in_plan: Length, scarf: Length, growth: f64) -> Length {
        (in_plan - scarf) * growth + scarf
    }
}

formula! {
    /// Length of the bond beam all round where the top slopes.
    ///
    /// ```text
    /// L = Σ l k
    /// ```
    /// Source: the sum of its parts.
    pub fn beam_on_slope(; length: Length) -> Length {
        length
    }
}

#[cfg(test)]
mod tests {
    use super::super::{Division, Made, Middle, Timber};
    use super::*;

    #[test]
    fn a_piece_on_a_slope_is_cut_to_its_length_on_it_and_no_longer_than_the_timber() {
        // 3 in 4 makes 5 of 4: 4 m in plan are 5 m, two pieces of 2.5 m and a scarf of 0.4 m each.
        let growth = slope_growth(0.75).value;
        assert!((growth - 1.25).abs() < 1e-12);
        let cut = cut_on_slope(Length::m(2.4), Length::m(0.4), growth).value;
        assert!((cut.in_m() - 2.9).abs() < 1e-12);
        let run = Middle::Straight(Length::m(4.0));
        let of = |piece: f64| Timber {
            width: Length::m(0.2),
            piece: Length::m(piece),
            scarf: Length::m(0.4),
            fit: Length::m(0.02),
            layers: 1,
        };
        for (piece, pieces) in [(2.901, 2), (2.899, 3)] {
            assert_eq!(of(piece).on_slope(growth).division(run), Some(Division { pieces, made: Made::Straight }));
        }
        assert_eq!(of(3.0).on_slope(1.0), of(3.0));
    }
}

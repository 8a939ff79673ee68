//! A pole that tapers evenly from butt to tip: its diameter at a place, and where bending stresses it most.

use crate::reason::formula;
use crate::units::{Length, LineLoad, Moment};

formula! {
    /// Diameter of a tapered pole at a place.
    ///
    /// ```text
    /// d = d₁ + (d₂ − d₁) x / L        d₁: butt, d₂: tip, x: from the butt
    /// ```
    /// Source: even taper.
    pub fn diameter_at(butt: Length, tip: Length, length: Length, from_butt: Length) -> Length {
        butt + (tip - butt) * (from_butt / length)
    }
}

formula! {
    /// Bending moment of a pole on two supports under an even load, at a place.
    ///
    /// ```text
    /// M = w x (L − x) / 2
    /// ```
    /// Source: equilibrium of a beam on two supports.
    pub fn simple_moment(load: LineLoad, span: Length, from_support: Length) -> Moment {
        load * (span - from_support) * from_support * 0.5
    }
}

formula! {
    /// Where an even load stresses a tapered pole most that rests on its two ends: from the butt, towards the tip.
    ///
    /// It is where the stress, M over W, has no slope: a quadratic equation in closed form. An even pole: in the middle.
    ///
    /// ```text
    /// x = L d₁ / (d₂ + √(d₁² − d₁ d₂ + d₂²))        d₁: butt, d₂: tip
    /// ```
    /// Source: zero slope of w x (L − x) / d³; derived for this project.
    pub fn most_stressed_of_simple(butt: Length, tip: Length, length: Length) -> Length {
        let root = (butt * butt - butt * tip + tip * tip).in_m2().sqrt();
        length * (butt.in_m() / (tip.in_m() + root))
    }
}

formula! {
    /// Diameter at which the stress is largest in a tapered pole held at its butt and loaded at one place.
    ///
    /// Where the pole does not get as thick as that, the butt governs.
    ///
    /// ```text
    /// d = min(3/2 d₂, d₁)        d₂: diameter where the load acts, d₁: at the hold
    /// ```
    /// Source: zero slope of x / d³; derived for this project, as the theory of poles has it.
    pub fn most_stressed_of_cantilever(butt: Length, at_load: Length) -> Length {
        butt.min(at_load * 1.5)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::timber::section::round_modulus;

    /// The place of the largest of many values of `stress` over `length`.
    fn searched(length: f64, stress: impl Fn(f64) -> f64) -> f64 {
        let places = (0..=200_000).map(|index| length * f64::from(index) / 200_000.0);
        places.max_by(|one, other| stress(*one).total_cmp(&stress(*other))).unwrap()
    }

    #[test]
    fn the_place_in_closed_form_is_that_of_a_search() {
        for (butt, tip) in [(0.18, 0.12), (0.15, 0.15), (0.12, 0.18), (0.2, 0.05)] {
            let (butt, tip, span) = (Length::m(butt), Length::m(tip), Length::m(3.4));
            let stress = |x: f64| {
                let diameter = diameter_at(butt, tip, span, Length::m(x)).value;
                let moment = simple_moment(LineLoad::n_m(1.0), span, Length::m(x)).value;
                (moment / round_modulus(diameter).value).in_pa()
            };
            let found = most_stressed_of_simple(butt, tip, span).value.in_m();
            assert!((found - searched(3.4, stress)).abs() < 1e-4, "{found}");
        }
    }

    #[test]
    fn a_cantilever_is_stressed_most_where_it_is_half_as_thick_again_or_at_its_hold() {
        for (butt, tip) in [(0.20, 0.10), (0.14, 0.10), (0.15, 0.15)] {
            let thick = |x: f64| tip + (butt - tip) * x / 2.0;
            let place = searched(2.0, |x| x / thick(x).powi(3));
            let found = most_stressed_of_cantilever(Length::m(butt), Length::m(tip)).value.in_m();
            assert!((found - thick(place)).abs() < 1e-6, "{found}");
        }
    }
}

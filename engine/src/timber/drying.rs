//! What a green pole loses of its thickness as it dries.

use crate::reason::formula;
use crate::units::{Length, Ratio};

formula! {
    /// What a green pole loses of its diameter as it dries to a moisture.
    ///
    /// It shrinks half by its radius and half by its rings, evenly with the moisture that it loses below fibre saturation. Bolts go
    /// slack by it and a reciprocal roof sinks by many times as much.
    ///
    /// ```text
    /// Δd = d (s_r + s_t)/2 (w₀ − w) / w₀        s_r, s_t: to oven-dry, w: moisture of dry mass, w₀: fibre saturation
    /// ```
    /// Source: Wood Handbook, chapter 4, from memory; the mean of radius and rings is our judgement.
    pub fn lost(diameter: Length, radial: Ratio, tangential: Ratio, moisture: Ratio, saturation: Ratio) -> Length {
        let dried = ((saturation - moisture) / saturation).max(0.0);
        diameter * (0.5 * (radial + tangential).in_fraction() * dried)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_pole_shrinks_below_fibre_saturation_alone_and_all_the_way_to_oven_dry() {
        let lost = |moisture: f64| {
            let share = Ratio::fraction;
            lost(Length::mm(180.0), share(0.048), share(0.076), share(moisture), share(0.3)).value.in_mm()
        };
        assert_eq!([lost(0.6), lost(0.3)], [0.0, 0.0]);
        assert!((lost(0.0) - 180.0 * 0.062).abs() < 1e-9 && (lost(0.15) - 90.0 * 0.062).abs() < 1e-9);
    }
}

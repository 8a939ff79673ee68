//! Snow on a roof by two codes, and the rain that falls on it.

use crate::reason::formula;
use crate::units::{Angle, Length, Pressure};

formula! {
    /// Share of the ground's snow that stays on a pitched roof without guards.
    ///
    /// ```text
    /// μ = μ₀ up to α₁, then evenly down to 0 at α₂        α: pitch
    /// ```
    /// Source: EN 1991-1-3, table 5.2, from memory: 0.8, 30° and 60°.
    pub fn shape(pitch: Angle, flat: f64, full_to: Angle, none_from: Angle) -> f64 {
        flat * ((none_from - pitch) / (none_from - full_to)).clamp(0.0, 1.0)
    }
}

formula! {
    /// Snow on the roof, on each area in plan.
    ///
    /// ```text
    /// s = μ C_e C_t s_k        s_k: on the ground
    /// ```
    /// Source: EN 1991-1-3 (5.1), from memory.
    pub fn roof_snow(ground: Pressure, shape: f64, exposure: f64, thermal: f64) -> Pressure {
        ground * (shape * exposure * thermal)
    }
}

formula! {
    /// Snow on a flat roof, on each area in plan.
    ///
    /// ```text
    /// p_f = 0.7 C_e C_t I p_g        p_g: on the ground
    /// ```
    /// Source: ASCE 7-16 (7.3-1), seen in a stored page; the 0.7 comes from the table.
    pub fn flat_roof_snow(ground: Pressure, flat_share: f64, exposure: f64, thermal: f64, importance: f64) -> Pressure {
        ground * (flat_share * exposure * thermal * importance)
    }
}

formula! {
    /// Share of the flat roof's snow that stays on a rough roof of a pitch.
    ///
    /// A planted roof is rough: snow does not slide off it as off metal.
    ///
    /// ```text
    /// C_s = 1 up to α₁, then evenly down to 0 at α₂
    /// ```
    /// Source: ASCE 7-16, figure 7.4-1, from memory: 30°, 37.5° or 45° by C_t, and 70°.
    pub fn slope_factor(pitch: Angle, full_to: Angle, none_from: Angle) -> f64 {
        ((none_from - pitch) / (none_from - full_to)).clamp(0.0, 1.0)
    }
}

formula! {
    /// Snow on a pitched roof, on each area in plan.
    ///
    /// ```text
    /// p_s = C_s p_f
    /// ```
    /// Source: ASCE 7-16 (7.4-1), from memory.
    pub fn sloped_roof_snow(flat: Pressure, slope_factor: f64) -> Pressure {
        flat * slope_factor
    }
}

formula! {
    /// Least snow on a roof of low slope.
    ///
    /// ```text
    /// p_m = I min(p_g, p₀)        p₀: 20 psf
    /// ```
    /// Source: ASCE 7-16, 7.3.4, from memory.
    pub fn least_snow(ground: Pressure, importance: f64, most: Pressure) -> Pressure {
        ground.min(most) * importance
    }
}

formula! {
    /// Rain that falls on snow, where the ground has little snow and the roof little slope; else none.
    ///
    /// ```text
    /// p_r where 0 < p_g ≤ p₀ and α < W / w        p_r: 5 psf, p₀: 20 psf, W: eave to ridge, w: 50 ft for each degree
    /// ```
    /// Source: ASCE 7-16, 7.10, from memory.
    pub fn rain_on_snow(
        ground: Pressure, pitch: Angle, eave_to_ridge: Length, rain: Pressure, most_ground: Pressure, for_each_degree: Length
    ) -> Pressure {
        let little = ground > Pressure::ZERO && ground <= most_ground;
        if little && pitch.in_deg() < eave_to_ridge / for_each_degree { rain } else { Pressure::ZERO }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_steeper_roof_never_holds_more_snow() {
        let shape = |deg: f64| shape(Angle::deg(deg), 0.8, Angle::deg(30.0), Angle::deg(60.0)).value;
        assert!((0..90).all(|deg| shape(f64::from(deg)) >= shape(f64::from(deg + 1))));
        assert!((shape(30.0) - 0.8).abs() < 1e-12 && (shape(45.0) - 0.4).abs() < 1e-12 && shape(60.0) == 0.0);
    }

    #[test]
    fn rain_counts_where_snow_is_scarce_and_the_roof_nearly_flat() {
        let rain = |ground: f64, deg: f64| {
            let (five, twenty) = (Pressure::psf(5.0), Pressure::psf(20.0));
            rain_on_snow(Pressure::psf(ground), Angle::deg(deg), Length::ft(100.0), five, twenty, Length::ft(50.0))
                .value
        };
        assert_eq!(
            [rain(20.0, 1.9), rain(0.0, 1.0), rain(25.0, 1.0), rain(20.0, 18.0)].map(Pressure::in_pa),
            [Pressure::psf(5.0).in_pa(), 0.0, 0.0, 0.0]
        );
    }
}

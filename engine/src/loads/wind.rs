//! Wind on a roof by two codes: the pressure of a gust at a height, down on the roof and up under its eaves.

use crate::reason::formula;
use crate::units::{Density, Length, Pressure, Speed};

formula! {
    /// How rough ground changes the wind: the factor of its terrain.
    ///
    /// ```text
    /// k_r = 0.19 (z₀ / z₂)^0.07        z₀: roughness length, z₂: that of terrain II, 0.05 m
    /// ```
    /// Source: EN 1991-1-4 (4.5), seen in the steel industry's worked example.
    pub fn terrain_factor(roughness: Length, roughness_of_open: Length) -> f64 {
        0.19 * (roughness / roughness_of_open).powf(0.07)
    }
}

formula! {
    /// Factor of the mean wind at a height; below the least height as at it.
    ///
    /// ```text
    /// c_r = k_r ln(z / z₀)        z not below z_min
    /// ```
    /// Source: EN 1991-1-4 (4.4), seen in the steel industry's worked example.
    pub fn roughness_factor(terrain_factor: f64, height: Length, roughness: Length, least_height: Length) -> f64 {
        terrain_factor * (height.max(least_height) / roughness).ln()
    }
}

formula! {
    /// How strongly the wind gusts at a height, on level ground.
    ///
    /// ```text
    /// I_v = 1 / ln(z / z₀)        z not below z_min
    /// ```
    /// Source: EN 1991-1-4 (4.7), seen in the steel industry's worked example.
    pub fn turbulence(height: Length, roughness: Length, least_height: Length) -> f64 {
        1.0 / (height.max(least_height) / roughness).ln()
    }
}

formula! {
    /// Pressure of the mean wind at the reference height.
    ///
    /// ```text
    /// q_b = ½ ρ v²
    /// ```
    /// Source: EN 1991-1-4 (4.10), seen in the steel industry's worked example.
    pub fn basic_pressure(basic_speed: Speed, air: Density) -> Pressure {
        Pressure::pa(0.5 * air.in_kg_m3() * basic_speed.in_m_s().powi(2))
    }
}

formula! {
    /// Pressure of a gust at a height, on level ground.
    ///
    /// ```text
    /// q_p = (1 + 7 I_v) c_r² q_b
    /// ```
    /// Source: EN 1991-1-4 (4.8), seen in the steel industry's worked example; orography 1.
    pub fn gust_pressure(basic_pressure: Pressure, roughness_factor: f64, turbulence: f64) -> Pressure {
        basic_pressure * ((1.0 + 7.0 * turbulence) * roughness_factor.powi(2))
    }
}

formula! {
    /// Factor of the wind at a height; below 15 ft as at it.
    ///
    /// ```text
    /// K_z = 2.01 (max(z, 15 ft) / z_g)^(2/α)
    /// ```
    /// Source: ASCE 7-16, table 26.10-1, as stored texts quote it.
    pub fn velocity_factor(height: Length, gradient_height: Length, exponent: f64) -> f64 {
        2.01 * (height.max(Length::ft(15.0)) / gradient_height).powf(2.0 / exponent)
    }
}

formula! {
    /// Pressure of a gust at a height.
    ///
    /// ```text
    /// q_z = 0.613 K_z K_zt K_d V²        in N/m², V in m/s
    /// ```
    /// Source: ASCE 7-16 (26.10-1), seen in a worked example to a code with the same equation.
    pub fn velocity_pressure(speed: Speed, velocity_factor: f64, topography: f64, direction: f64) -> Pressure {
        Pressure::pa(0.613 * velocity_factor * topography * direction * speed.in_m_s().powi(2))
    }
}

formula! {
    /// Wind on an area square to it: above zero presses on the roof, below zero lifts it.
    ///
    /// ```text
    /// w = q (G c − c′)        G: gust factor where the code has one, c: outside, c′: from below or inside
    /// ```
    /// Source: EN 1991-1-4 (5.1), (5.2) and ASCE 7-16 (27.3-1), from memory.
    pub fn on_area(gust: Pressure, gust_factor: f64, outside: f64, from_below: f64) -> Pressure {
        gust * (gust_factor * outside - from_below)
    }
}

/// A value between those of a table, evenly; none where the table ends before it.
#[must_use]
pub fn between(at: &[u32], value: impl Fn(u32) -> f64, wanted: f64) -> Option<f64> {
    at.windows(2).find(|pair| (f64::from(pair[0])..=f64::from(pair[1])).contains(&wanted)).map(|pair| {
        let share = (wanted - f64::from(pair[0])) / f64::from(pair[1] - pair[0]);
        value(pair[0]) + (value(pair[1]) - value(pair[0])) * share
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn wind_lifts_the_eaves_more_than_the_roof_between_the_walls() {
        let gust = Pressure::pa(800.0);
        let (inside, eaves) = (on_area(gust, 1.0, -0.9, 0.2).value, on_area(gust, 1.0, -0.9, 0.8).value);
        assert!((inside.in_pa() + 880.0).abs() < 1e-9 && (eaves.in_pa() + 1360.0).abs() < 1e-9);
    }

    /// p = q G C_p − q (GC_pi) of ASCE 7-16 (27.3-1), from memory: 800 (0.85 × −0.9 − 0.18) = −756 Pa.
    #[test]
    fn the_gust_factor_is_of_the_outside_alone() {
        let up = on_area(Pressure::pa(800.0), 0.85, -0.9, 0.18).value;
        assert!((up.in_pa() + 756.0).abs() < 1e-9, "{}", up.in_pa());
    }

    #[test]
    fn between_two_pitches_the_table_is_taken_evenly_and_past_them_not_at_all() {
        let table = |deg: u32| -f64::from(deg);
        let at = |deg: f64| between(&[0, 5, 15], table, deg);
        assert_eq!(
            [at(0.0), at(10.0), at(15.0), at(15.1), at(f64::NAN)],
            [Some(0.0), Some(-10.0), Some(-15.0), None, None]
        );
    }

    #[test]
    fn the_wind_is_no_weaker_higher_up_and_as_at_the_least_height_below_it() {
        let (rough, least) = (Length::m(0.3), Length::m(5.0));
        let gust = |height: f64| {
            let height = Length::m(height);
            let factor = roughness_factor(0.215, height, rough, least).value;
            gust_pressure(Pressure::pa(400.0), factor, turbulence(height, rough, least).value).value
        };
        assert_eq!(gust(3.0), gust(5.0));
        assert!(gust(5.0) < gust(8.0));
        let at = |height: f64| velocity_factor(Length::ft(height), Length::ft(900.0), 9.5).value;
        assert!(at(10.0) == at(15.0) && at(15.0) < at(20.0));
    }
}

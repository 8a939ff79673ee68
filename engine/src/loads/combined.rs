//! What a combination of loads makes of them, on each area in plan.

use crate::reason::formula;
use crate::units::{Angle, Pressure, SurfaceMass};

formula! {
    /// Load of a combination, on each area in plan; below zero it lifts.
    ///
    /// The factors are those of the combination of the code.
    ///
    /// ```text
    /// p = γ_G G + γ_Q Q + γ_S S + γ_W W        G: what stays, Q: people and heaps, S: snow, W: wind, up below zero
    /// ```
    /// Source: EN 1990 (6.10), ASCE 7-16, 2.3.1 and 2.4.1, from memory.
    pub fn combined(
        permanent: Pressure, permanent_factor: f64, imposed: Pressure, imposed_factor: f64, snow: Pressure,
        snow_factor: f64, wind: Pressure, wind_factor: f64
    ) -> Pressure {
        permanent * permanent_factor + imposed * imposed_factor + snow * snow_factor + wind * wind_factor
    }
}

formula! {
    /// Load on each area in plan, from the load on each area of slope.
    ///
    /// ```text
    /// p = q / cos α
    /// ```
    /// Source: projection of a plane.
    pub fn in_plan(on_slope: Pressure, pitch: Angle) -> Pressure {
        on_slope / pitch.in_rad().cos()
    }
}

formula! {
    /// Load on each area in plan, from the mass on each area of slope.
    ///
    /// ```text
    /// p = m g / cos α
    /// ```
    /// Source: the definition of weight; projection of a plane.
    pub fn weight_in_plan(mass: SurfaceMass, pitch: Angle; gravity_m_s2: f64) -> Pressure {
        Pressure::pa(mass.in_kg_m2() * gravity_m_s2 / pitch.in_rad().cos())
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::loads::tables::combinations;

    #[test]
    fn no_combination_that_presses_is_lighter_without_its_snow() {
        let kpa = Pressure::kpa;
        for one in combinations().iter().filter(|one| one.wind_up == 0.0) {
            let with = |snow: f64| {
                combined(kpa(1.8), one.permanent, kpa(0.4), one.imposed, kpa(snow), one.snow, kpa(0.3), one.wind_down)
                    .value
            };
            assert!(with(1.2) >= with(0.0), "{}", one.name);
        }
    }

    #[test]
    fn the_milder_pair_of_the_european_code_is_nowhere_above_the_single_one() {
        let worst = |method: &str| {
            let own = combinations().iter().filter(|one| one.method == method && one.wind_up == 0.0);
            let load = |one: &crate::loads::tables::Combination| {
                let kpa = Pressure::kpa;
                let factors = [one.permanent, one.imposed, one.snow, one.wind_down];
                combined(kpa(1.8), factors[0], kpa(0.4), factors[1], kpa(1.2), factors[2], kpa(0.3), factors[3]).value
            };
            own.map(|one| load(one).in_kpa()).fold(0.0, f64::max)
        };
        assert!(worst("EN 6.10ab") < worst("EN 6.10"));
    }
}

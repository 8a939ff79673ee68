//! Areas under and over a roof, what its layers hold, and what they weigh when the rain has soaked them.

use crate::reason::formula;
use crate::units::{Angle, Area, Density, Length, Mass, Pressure, Ratio, SurfaceMass, Volume};

/// Acceleration of a falling body, in m/s²; standard gravity (ISO 80000-3).
pub const STANDARD_GRAVITY_M_S2: f64 = 9.806_65;

formula! {
    /// Area in plan within a line that runs at an even distance outside the middle of the wall.
    ///
    /// ```text
    /// A = A₀ + L n + π n²        n: distance outside the middle of the wall at its foot
    /// ```
    /// Source: Steiner's formula for parallel curves in the plane.
    pub fn eave_area(enclosed_area: Area, line_length: Length, offset: Length) -> Area {
        enclosed_area + line_length * offset + std::f64::consts::PI * (offset * offset)
    }
}

formula! {
    /// Area of the eye in plan, the polygon between the crossings.
    ///
    /// ```text
    /// A = n/2 r² sin(2π/n)
    /// ```
    /// Source: area of a regular polygon.
    pub fn eye_area(count: u64, eye_radius: Length) -> Area {
        let count = count as f64;
        (eye_radius * eye_radius) * (0.5 * count * (2.0 * std::f64::consts::PI / count).sin())
    }
}

formula! {
    /// Area on the slope.
    ///
    /// A first cut: one pitch everywhere.
    ///
    /// ```text
    /// S = A / cos α
    /// ```
    /// Source: projection of a plane.
    pub fn sloped_area(plan_area: Area, pitch: Angle) -> Area {
        plan_area / pitch.in_rad().cos()
    }
}

formula! {
    /// Area of a sheet with its laps and upstands.
    ///
    /// ```text
    /// S′ = S (1 + a)        a: what laps and upstands add
    /// ```
    /// Source: the definition of the share.
    pub fn with_laps(area: Area, laps: Ratio) -> Area {
        area * (1.0 + laps.in_fraction())
    }
}

formula! {
    /// Volume of a layer in place.
    ///
    /// ```text
    /// V = S d
    /// ```
    /// Source: a flat layer.
    pub fn layer_volume(area: Area, thickness: Length) -> Volume {
        area * thickness
    }
}

formula! {
    /// Mass of a layer when saturated.
    ///
    /// ```text
    /// m = V ρ
    /// ```
    /// Source: the definition of density.
    pub fn layer_mass(volume: Volume, saturated: Density) -> Mass {
        volume * saturated
    }
}

formula! {
    /// Mass of a sheet.
    ///
    /// ```text
    /// m = S μ
    /// ```
    /// Source: the definition of a mass on an area.
    pub fn sheet_mass(area: Area, mass_on_area: SurfaceMass) -> Mass {
        area * mass_on_area
    }
}

formula! {
    /// Mass of all layers when saturated.
    ///
    /// ```text
    /// m = Σ mᵢ
    /// ```
    /// Source: the sum of its parts.
    pub fn saturated_mass(; sum: Mass) -> Mass {
        sum
    }
}

formula! {
    /// Area in plan that is roofed: within the eave, without the eye.
    ///
    /// ```text
    /// A = A eave − A eye
    /// ```
    /// Source: the whole is the sum of its parts.
    pub fn roofed(eave_area: Area, eye_area: Area) -> Area {
        eave_area - eye_area
    }
}

formula! {
    /// Height of the poles' axes at their highest above the ground outside.
    ///
    /// ```text
    /// h = H − z + r        H: height of the wall, z: level of the ground, both from the foot of the cob, r: rise of the poles
    /// ```
    /// Source: the definition of a level.
    pub fn height_above_ground(wall_height: Length, ground_outside: Length, rise: Length) -> Length {
        wall_height - ground_outside + rise
    }
}

formula! {
    /// Mass on each unit of area.
    ///
    /// ```text
    /// μ = m / S
    /// ```
    /// Source: the definition of a mass on an area.
    pub fn mass_on_area(mass: Mass, area: Area) -> SurfaceMass {
        mass / area
    }
}

formula! {
    /// Load of what lies on the roof, on each area of slope.
    ///
    /// Water held by the soil counts, water that runs off does not.
    ///
    /// ```text
    /// q = m g / S
    /// ```
    /// Source: weight; that held water is dead load follows the logic of ASTM E2397.
    pub fn dead_load(mass: Mass, area: Area; gravity_m_s2: f64) -> Pressure {
        Pressure::pa(mass.in_kg() * gravity_m_s2 / area.in_m2())
    }
}

formula! {
    /// Load of what lies on the roof, on each area in plan.
    ///
    /// ```text
    /// q₀ = q / cos α        q: on each area of slope, α: pitch
    /// ```
    /// Source: the definition of the cosine.
    pub fn load_in_plan(load: Pressure, pitch: Angle) -> Pressure {
        load / pitch.in_rad().cos()
    }
}

formula! {
    /// Volume of round poles of one mean diameter.
    ///
    /// ```text
    /// V = n π d² l / 4
    /// ```
    /// Source: a cylinder; the taper of a pole is left out.
    pub fn pole_volume(count: u64, diameter: Length, length: Length) -> Volume {
        (diameter * diameter) * length * (count as f64 * std::f64::consts::PI / 4.0)
    }
}

formula! {
    /// Mass of poles.
    ///
    /// ```text
    /// m = V ρ
    /// ```
    /// Source: the definition of density.
    pub fn pole_mass(volume: Volume, density: Density) -> Mass {
        volume * density
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn an_eye_of_many_poles_is_nearly_a_circle() {
        let area = eye_area(60, Length::m(1.0)).value.in_m2();
        assert!(area < std::f64::consts::PI && area > 3.13);
        assert!((eye_area(4, Length::m(1.0)).value.in_m2() - 2.0).abs() < 1e-12);
    }
}

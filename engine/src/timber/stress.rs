//! Stresses in a member, and the share of a strength that they use, by whichever code the strength is.

use crate::reason::formula;
use crate::units::{Area, Force, Length, LineLoad, Moment, Pressure, Ratio, SecondMoment, SectionModulus};

formula! {
    /// Bending stress at the edge of a section.
    ///
    /// ```text
    /// σ = M / W        W: least section modulus of what is left of the section
    /// ```
    /// Source: bending of straight beams.
    pub fn bending_stress(moment: Moment, modulus: SectionModulus) -> Pressure {
        moment / modulus
    }
}

formula! {
    /// Largest shear stress in a round section.
    ///
    /// Cracks from drying take part of the width; the share that is left is for the code to say, 1 where it says nothing.
    ///
    /// ```text
    /// τ = 4 V / (3 k A)        k: share of the width that cracks leave
    /// ```
    /// Source: shear of a beam of round section; share of the width: EN 1995-1-1, 6.1.7(2), from memory.
    pub fn round_shear_stress(shear: Force, area: Area, uncracked: Ratio) -> Pressure {
        shear * 4.0 / 3.0 / (area * uncracked.in_fraction())
    }
}

formula! {
    /// Stress on an area: along the grain over the section, across the grain over the seat.
    ///
    /// ```text
    /// σ = F / A
    /// ```
    /// Source: the definition of a stress.
    pub fn stress(force: Force, area: Area) -> Pressure {
        force / area
    }
}

formula! {
    /// Force that an area carries at a stress.
    ///
    /// ```text
    /// F = f A
    /// ```
    /// Source: the definition of a stress.
    pub fn carried(strength: Pressure, area: Area) -> Force {
        strength * area
    }
}

formula! {
    /// Strength against bearing at an angle to the grain.
    ///
    /// ```text
    /// f = f₀ f₉₀ / (f₀ sin²θ + f₉₀ cos²θ)        θ: between force and grain
    /// ```
    /// Source: Hankinson's formula; EN 1995-1-1 (6.16) and NDS 3.10.3 use it, from memory.
    pub fn at_angle(along: Pressure, across: Pressure, angle: crate::units::Angle) -> Pressure {
        let (sin, cos) = angle.in_rad().sin_cos();
        along * (across.in_pa() / (along * sin.powi(2) + across * cos.powi(2)).in_pa())
    }
}

formula! {
    /// Share of a strength that a stress uses.
    ///
    /// ```text
    /// u = σ / f
    /// ```
    /// Source: the definition of the share.
    pub fn used(stress: Pressure, strength: Pressure) -> Ratio {
        Ratio::fraction(stress / strength)
    }
}

formula! {
    /// Share of what a joint carries that a force uses.
    ///
    /// ```text
    /// u = F / R
    /// ```
    /// Source: the definition of the share.
    pub fn used_of_force(force: Force, carried: Force) -> Ratio {
        Ratio::fraction(force / carried)
    }
}

formula! {
    /// Share used in bending and tension together.
    ///
    /// ```text
    /// u = uₜ + uₘ
    /// ```
    /// Source: EN 1995-1-1 (6.17) and NDS (3.9-1), from memory; round sections bent in one plane.
    pub fn bending_and_tension(tension_used: Ratio, bending_used: Ratio) -> Ratio {
        tension_used + bending_used
    }
}

formula! {
    /// How far a beam on two supports sags in its middle under an even load.
    ///
    /// ```text
    /// u = 5 w L⁴ / (384 E I)
    /// ```
    /// Source: deflection of a beam on two supports; shear left out.
    pub fn simple_sag(load: LineLoad, span: Length, stiffness: Pressure, second_moment: SecondMoment) -> Length {
        let bending = stiffness.in_pa() * second_moment.in_m4();
        Length::m(5.0 / 384.0 * load.in_n_m() * span.in_m().powi(4) / bending)
    }
}

formula! {
    /// Sag against the span.
    ///
    /// ```text
    /// s = u / L
    /// ```
    /// Source: the definition of the share.
    pub fn sag_of_span(sag: Length, span: Length) -> Ratio {
        Ratio::fraction(sag / span)
    }
}

formula! {
    /// How far the tip of a right-angled cantilever sinks under a force: it bends in both arms and twists the first.
    ///
    /// ```text
    /// u = P a³ / (3 E I) + P b³ / (3 E I) + P b² a / (G J),  I = π d⁴ / 64,  J = 2 I        a: held arm, b: outer arm
    /// ```
    /// Source: bending and torsion of straight round bars; derived for this project.
    pub fn angled_cantilever_sag(
        force: Force, held_arm: Length, outer_arm: Length, diameter: Length, stiffness: Pressure, shear_stiffness: Pressure
    ) -> Length {
        let inertia = super::section::round_second_moment(diameter).value.in_m4();
        let (p, a, b) = (force.in_n(), held_arm.in_m(), outer_arm.in_m());
        let bent = p * (a.powi(3) + b.powi(3)) / (3.0 * stiffness.in_pa() * inertia);
        Length::m(bent + p * b * b * a / (shear_stiffness.in_pa() * 2.0 * inertia))
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::units::Angle;

    #[test]
    fn bearing_at_an_angle_lies_between_across_and_along() {
        let at = |deg: f64| at_angle(Pressure::mpa(16.0), Pressure::mpa(2.2), Angle::deg(deg)).value.in_mpa();
        assert!((at(0.0) - 16.0).abs() < 1e-12 && (at(90.0) - 2.2).abs() < 1e-12);
        assert!((0..90).all(|deg| at(f64::from(deg)) > at(f64::from(deg + 1))));
    }

    #[test]
    fn a_round_section_is_sheared_a_third_more_than_on_average() {
        let whole = round_shear_stress(Force::kn(3.0), Area::m2(0.02), Ratio::fraction(1.0)).value;
        assert!((whole.in_kpa() - 200.0).abs() < 1e-9);
        let cracked = round_shear_stress(Force::kn(3.0), Area::m2(0.02), Ratio::fraction(0.5)).value;
        assert!((cracked.in_kpa() - 400.0).abs() < 1e-9);
    }
}

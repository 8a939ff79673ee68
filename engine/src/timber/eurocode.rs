//! Timber by EN 1995-1-1: design strengths, bearing, columns, beams that may tip, notches, creep.

use crate::reason::formula;
use crate::units::{Area, Length, Pressure, Ratio};

formula! {
    /// Strength to design with, from the characteristic one.
    ///
    /// ```text
    /// f = k f_k / γ        k: for duration of load and damp, γ: for the material
    /// ```
    /// Source: EN 1995-1-1 (2.14), as a course notebook quotes it.
    pub fn design_strength(characteristic: Pressure, modification: f64, partial: f64) -> Pressure {
        characteristic * (modification / partial)
    }
}

formula! {
    /// Force that a joint carries by design, from the characteristic one.
    ///
    /// ```text
    /// R = k R_k / γ        k: for duration of load and damp, γ: for the material
    /// ```
    /// Source: EN 1995-1-1 (2.17), from memory; with γ = 1, NDS 11.3.1.
    pub fn design_force(characteristic: crate::units::Force, modification: f64, partial: f64) -> crate::units::Force {
        characteristic * (modification / partial)
    }
}

formula! {
    /// Factor by which a rectangular beam below 150 mm deep is stronger in bending. Not for round poles.
    ///
    /// ```text
    /// k = min((150 mm / h)^0.2, 1.3), not below 1
    /// ```
    /// Source: EN 1995-1-1 (3.1), as a maker's page quotes it; density at most 700 kg/m³.
    pub fn depth_factor(depth: Length) -> f64 {
        (150.0 / depth.in_mm()).powf(0.2).clamp(1.0, 1.3)
    }
}

formula! {
    /// Length of a seat along the grain that counts: fibres beside it help.
    ///
    /// ```text
    /// l′ = l + min(c, a, l) at the one side + min(c, a′, l) at the other        c: what is added, a, a′: wood beyond the seat
    /// ```
    /// Source: EN 1995-1-1, 6.1.5(1), from memory.
    pub fn bearing_length(seat: Length, added: Length, wood_before: Length, wood_after: Length) -> Length {
        let side = |wood: Length| added.min(wood).min(seat);
        seat + side(wood_before) + side(wood_after)
    }
}

formula! {
    /// Strength against bearing across the grain.
    ///
    /// ```text
    /// f = k₉₀ f₉₀        k₉₀: 1.25 or 1.5 for softwood where wood beside the seat helps, else 1
    /// ```
    /// Source: EN 1995-1-1 (6.3), from memory.
    pub fn bearing_strength(across: Pressure, bearing_factor: f64) -> Pressure {
        across * bearing_factor
    }
}

formula! {
    /// Slenderness of a round column.
    ///
    /// ```text
    /// λ = 4 L / d        L: length over which it may buckle
    /// ```
    /// Source: length over the radius of gyration of a circle.
    pub fn round_slenderness(length: Length, diameter: Length) -> f64 {
        length / diameter * 4.0
    }
}

formula! {
    /// Share of its compressive strength that a column keeps against buckling.
    ///
    /// ```text
    /// k_c = 1 / (k + √(k² − λᵣ²)),  k = (1 + β (λᵣ − 0.3) + λᵣ²) / 2,  λᵣ = λ/π √(f / E)        1 where λᵣ ≤ 0.3
    /// ```
    /// Source: EN 1995-1-1 (6.21) to (6.29), from memory.
    pub fn column_factor(slenderness: f64, compression: Pressure, low_stiffness: Pressure, straightness: f64) -> Ratio {
        let relative = slenderness / std::f64::consts::PI * (compression / low_stiffness).sqrt();
        let k = 0.5 * (1.0 + straightness * (relative - 0.3) + relative * relative);
        let slender = 1.0 / (k + (k * k - relative * relative).sqrt());
        Ratio::fraction(if relative <= 0.3 { 1.0 } else { slender })
    }
}

formula! {
    /// Share used in compression along the grain and bending together.
    ///
    /// Where the column may buckle, the compressive strength is less by its factor and the shares add; a stocky one may square its
    /// share of compression. The shares add always here, which is never less.
    ///
    /// ```text
    /// u = σ / (k_c f) + uₘ
    /// ```
    /// Source: EN 1995-1-1 (6.23), from memory; round sections bent in one plane; (6.19) is milder.
    pub fn bending_and_compression(compression_used: Ratio, column_factor: Ratio, bending_used: Ratio) -> Ratio {
        compression_used / column_factor.in_fraction() + bending_used
    }
}

formula! {
    /// Stress at which a rectangular beam of softwood tips sideways.
    ///
    /// ```text
    /// σ = 0.78 b² E / (h l)        l: length over which it may tip
    /// ```
    /// Source: EN 1995-1-1 (6.32), from memory. A round pole does not tip.
    pub fn tipping_stress(width: Length, depth: Length, free_length: Length, low_stiffness: Pressure) -> Pressure {
        low_stiffness * (0.78 * (width / depth) * (width / free_length))
    }
}

formula! {
    /// Slenderness of a beam that may tip.
    ///
    /// ```text
    /// λ = √(f / σ)
    /// ```
    /// Source: EN 1995-1-1 (6.30), from memory.
    pub fn tipping_slenderness(bending: Pressure, tipping_stress: Pressure) -> f64 {
        (bending / tipping_stress).sqrt()
    }
}

formula! {
    /// Share of its bending strength that a beam keeps which may tip.
    ///
    /// ```text
    /// k = 1 up to λ = 0.75;  1.56 − 0.75 λ up to 1.4;  1 / λ² beyond
    /// ```
    /// Source: EN 1995-1-1 (6.34), from memory.
    pub fn tipping_factor(slenderness: f64) -> Ratio {
        Ratio::fraction(if slenderness <= 0.75 {
            1.0
        } else if slenderness <= 1.4 {
            1.56 - 0.75 * slenderness
        } else {
            1.0 / (slenderness * slenderness)
        })
    }
}

formula! {
    /// Share of its shear strength that a beam keeps with a notch on its underside at the support.
    ///
    /// The equation is of rectangular beams; for a round pole it is guidance.
    ///
    /// ```text
    /// k = kₙ (1 + 1.1 i^1.5 / √h) / (√h (√(α (1 − α)) + 0.8 (x/h) √(1/α − α²))), not above 1
    /// α = h′ / h        h′: depth left, x: from the support to the notch, i: run of its slope; h in mm
    /// ```
    /// Source: EN 1995-1-1 (6.60) to (6.62), from memory.
    pub fn notch_factor(depth: Length, depth_left: Length, from_support: Length, slope_run: f64, wood: f64) -> Ratio {
        let (left, root) = (depth_left / depth, depth.in_mm().sqrt());
        let across = (left * (1.0 - left)).sqrt() + 0.8 * (from_support / depth) * (1.0 / left - left * left).sqrt();
        Ratio::fraction((wood * (1.0 + 1.1 * slope_run.powf(1.5) / root) / (root * across)).min(1.0))
    }
}

formula! {
    /// What a beam sags in the end, creep with it.
    ///
    /// ```text
    /// u = u_G (1 + k) + u_Q (1 + ψ k)        u_G, u_Q: at once, from what stays and what comes and goes
    /// ```
    /// Source: EN 1995-1-1 (2.3) and (2.4), as a course notebook quotes them.
    pub fn final_sag(lasting: Length, passing: Length, creep: f64, lasting_share: f64) -> Length {
        lasting * (1.0 + creep) + passing * (1.0 + lasting_share * creep)
    }
}

formula! {
    /// Friction that two poles need at a crossing so as not to slide, with no peg, bolt or lashing.
    ///
    /// ```text
    /// μ = tan α / cos(π/n)        α: pitch, n: rafters
    /// ```
    /// Source: angle between the common normal of two touching poles and the plumb line; derived for this project.
    pub fn friction_needed(count: u64, pitch: crate::units::Angle) -> f64 {
        pitch.in_rad().tan() / (std::f64::consts::PI / count as f64).cos()
    }
}

formula! {
    /// Area of a seat: its length along the grain times its width.
    ///
    /// ```text
    /// A = l b
    /// ```
    /// Source: area of a rectangle.
    pub fn seat_area(length: Length, width: Length) -> Area {
        length * width
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_column_loses_nothing_up_to_a_slenderness_of_0_3_and_ever_more_beyond() {
        let factor = |slenderness| {
            column_factor(slenderness, Pressure::mpa(21.0), Pressure::mpa(7400.0), 0.2).value.in_fraction()
        };
        assert_eq!(factor(17.0), 1.0);
        assert!((1..20).all(|step| factor(20.0 + 10.0 * f64::from(step)) < factor(10.0 + 10.0 * f64::from(step))));
        // Euler's stress is the bound of a very slender column.
        let euler = std::f64::consts::PI.powi(2) * 7400.0 / (21.0 * 400.0 * 400.0);
        assert!(factor(400.0) < euler && factor(400.0) > 0.9 * euler);
    }

    #[test]
    fn the_factor_of_tipping_has_no_step() {
        for at in [0.75, 1.4] {
            let (below, above) = (tipping_factor(at - 1e-9).value, tipping_factor(at + 1e-9).value);
            assert!((below - above).abs() < Ratio::fraction(0.003), "{at}");
        }
    }

    #[test]
    fn a_beam_without_a_notch_keeps_all_its_shear_strength() {
        let factor = |left| notch_factor(Length::mm(200.0), Length::mm(left), Length::mm(50.0), 0.0, 5.0).value;
        assert_eq!(factor(200.0), Ratio::fraction(1.0));
        assert!(factor(150.0) < factor(180.0));
    }

    #[test]
    fn a_seat_at_the_end_of_a_pole_is_helped_from_one_side_alone() {
        let mm = Length::mm;
        let length = |before, after| bearing_length(mm(80.0), mm(30.0), mm(before), mm(after)).value.in_mm();
        assert!((length(0.0, 500.0) - 110.0).abs() < 1e-9);
        assert!((length(20.0, 500.0) - 130.0).abs() < 1e-9);
    }

    #[test]
    fn poles_at_18_degrees_need_more_friction_than_wood_on_wood_is_trusted_with() {
        let needed = friction_needed(13, crate::units::Angle::deg(18.0)).value;
        assert!((needed - 0.3346).abs() < 1e-4);
    }
}

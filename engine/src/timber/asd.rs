//! Timber by the National Design Specification, allowable stresses: adjusted values, beams that may tip, columns, notches.

use crate::reason::formula;
use crate::units::{Area, Force, Length, Pressure, Ratio};

formula! {
    /// Values of round poles that those of sawn lumber stand in for.
    ///
    /// ```text
    /// n = how many of the strengths and stiffnesses nobody supplied
    /// ```
    /// Source: counted.
    pub fn values_of_lumber(; count: u64) -> u64 {
        count
    }
}

formula! {
    /// Allowable stress: the reference value times all factors that hold.
    ///
    /// ```text
    /// F′ = F C_D C        C_D: for duration of load, C: all other factors in one product
    /// ```
    /// Source: NDS 4.3.1 and 6.3.1, from memory.
    pub fn adjusted(reference: Pressure, duration: f64, other: f64) -> Pressure {
        reference * (duration * other)
    }
}

formula! {
    /// Factor by which a short seat away from the end bears more across the grain.
    ///
    /// ```text
    /// C_b = (l + 3/8 in) / l
    /// ```
    /// Source: NDS (3.10-2), from memory; for seats below 6 in long and 3 in or more from the end.
    pub fn bearing_factor(seat: Length) -> f64 {
        (seat + Length::inches(0.375)) / seat
    }
}

formula! {
    /// Side of the square of the same area as a round section: as thick counts a round column.
    ///
    /// ```text
    /// a = d √π / 2
    /// ```
    /// Source: NDS 3.7.3, from memory.
    pub fn equal_square(diameter: Length) -> Length {
        diameter * (0.5 * std::f64::consts::PI.sqrt())
    }
}

formula! {
    /// Stress at which a column buckles.
    ///
    /// ```text
    /// F_cE = 0.822 E / (L / a)²
    /// ```
    /// Source: NDS 3.7.1.5, from memory.
    pub fn buckling_stress(low_stiffness: Pressure, length: Length, side: Length) -> Pressure {
        low_stiffness * 0.822 / (length / side).powi(2)
    }
}

formula! {
    /// Share of its compressive strength that a column keeps against buckling.
    ///
    /// ```text
    /// C_P = (1 + φ) / 2c − √(((1 + φ) / 2c)² − φ / c),  φ = F_cE / F*        c: 0.8 sawn, 0.85 round
    /// ```
    /// Source: NDS (3.7-1), from memory.
    pub fn column_stability(buckling_stress: Pressure, strength: Pressure, straightness: f64) -> Ratio {
        let ratio = buckling_stress / strength;
        let half = (1.0 + ratio) / (2.0 * straightness);
        Ratio::fraction(half - (half * half - ratio / straightness).sqrt())
    }
}

formula! {
    /// Share of its bending strength that a beam keeps which may tip. A round pole keeps all.
    ///
    /// ```text
    /// C_L = (1 + φ) / 1.9 − √(((1 + φ) / 1.9)² − φ / 0.95),  φ = 1.20 E b² / (l h F*)
    /// ```
    /// Source: NDS (3.3-5) and (3.3-6), from memory.
    pub fn beam_stability(
        width: Length, depth: Length, free_length: Length, low_stiffness: Pressure, strength: Pressure
    ) -> Ratio {
        let ratio = low_stiffness / strength * 1.2 * (width / free_length) * (width / depth);
        let half = (1.0 + ratio) / 1.9;
        Ratio::fraction(half - (half * half - ratio / 0.95).sqrt())
    }
}

formula! {
    /// Share used in compression and bending together: the column that bends is bent more by its load.
    ///
    /// ```text
    /// u = u_c² + u_b / (1 − σ / F_cE)        not known where σ ≥ F_cE
    /// ```
    /// Source: NDS (3.9-3), from memory; bent in one plane.
    pub fn bending_and_compression(
        compression_used: Ratio, bending_used: Ratio, stress: Pressure, buckling_stress: Pressure
    ) -> Ratio {
        let left = 1.0 - stress / buckling_stress;
        let bent = if left > 0.0 { bending_used.in_fraction() / left } else { f64::NAN };
        Ratio::fraction(compression_used.in_fraction().powi(2) + bent)
    }
}

formula! {
    /// Shear that a sawn beam carries at a notch on its tension side, at the support.
    ///
    /// ```text
    /// V = 2/3 F b h′ (h′ / h)²        h′: depth left
    /// ```
    /// Source: NDS (3.4-3), from memory.
    pub fn notched_shear(strength: Pressure, width: Length, depth: Length, depth_left: Length) -> Force {
        strength * (width * depth_left) * (2.0 / 3.0 * (depth_left / depth).powi(2))
    }
}

formula! {
    /// Shear that a round pole carries at a notch on its tension side, at the support.
    ///
    /// ```text
    /// V = 2/3 F A′ (d′ / d)²        A′, d′: area and depth left
    /// ```
    /// Source: NDS (3.4-4), from memory.
    pub fn notched_shear_of_round(strength: Pressure, area_left: Area, diameter: Length, depth_left: Length) -> Force {
        strength * area_left * (2.0 / 3.0 * (depth_left / diameter).powi(2))
    }
}

formula! {
    /// Share of its stiffness that a beam keeps with a notch, where the notch is small; not known where it is larger.
    ///
    /// ```text
    /// 1 where a ≤ h/6 and l ≤ h/3        a, l: depth and length of the notch
    /// ```
    /// Source: American Wood Council, answers on notches, after NDS 3.2.3.
    pub fn notched_stiffness(depth: Length, notch_depth: Length, notch_length: Length) -> Ratio {
        let small = notch_depth * 6.0 <= depth && notch_length * 3.0 <= depth;
        Ratio::fraction(if small { 1.0 } else { f64::NAN })
    }
}

formula! {
    /// Area of a round section from its girth.
    ///
    /// ```text
    /// A = C² / 4π
    /// ```
    /// Source: circumference and area of a circle.
    pub fn area_of_girth(girth: Length) -> Area {
        girth * girth / (4.0 * std::f64::consts::PI)
    }
}

formula! {
    /// What a beam sags in the end, creep with it.
    ///
    /// ```text
    /// u = k u_G + u_Q        k: 1.5 seasoned, 2 unseasoned or wet
    /// ```
    /// Source: NDS (3.5-1), from memory.
    pub fn final_sag(lasting: Length, passing: Length, creep: f64) -> Length {
        lasting * creep + passing
    }
}

formula! {
    /// Longest span of a rafter by bending, on two supports under an even load on its slope.
    ///
    /// ```text
    /// L = √(8 F W / w)
    /// ```
    /// Source: bending of a beam on two supports.
    pub fn span_by_bending(strength: Pressure, modulus: crate::units::SectionModulus, load: crate::units::LineLoad) -> Length {
        Length::m((8.0 * (strength * modulus).in_n_m() / load.in_n_m()).sqrt())
    }
}

formula! {
    /// Longest span of a rafter by sag, on two supports under an even load.
    ///
    /// ```text
    /// L = ∛(384 E I s / (5 w))        s: sag over span
    /// ```
    /// Source: deflection of a beam on two supports; shear left out.
    pub fn span_by_sag(
        stiffness: Pressure, second_moment: crate::units::SecondMoment, load: crate::units::LineLoad, sag_share: f64
    ) -> Length {
        let bending = stiffness.in_pa() * second_moment.in_m4();
        Length::m((384.0 * bending * sag_share / (5.0 * load.in_n_m())).cbrt())
    }
}

formula! {
    /// Longest span of a rafter.
    ///
    /// ```text
    /// L = min(L by bending, L by sag)
    /// ```
    /// Source: the stricter of two limits.
    pub fn span(by_bending: Length, by_sag: Length) -> Length {
        by_bending.min(by_sag)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_stocky_column_keeps_nearly_all_and_a_slender_one_buckles_as_euler_says() {
        let factor = |length: f64| {
            let stress = buckling_stress(Pressure::psi(580_000.0), Length::m(length), Length::m(0.1)).value;
            let kept = column_stability(stress, Pressure::psi(1350.0), 0.8).value;
            (kept.in_fraction(), stress / Pressure::psi(1350.0))
        };
        assert!(factor(0.1).0 > 0.99);
        let (kept, euler) = factor(8.0);
        assert!(kept < euler && kept > 0.95 * euler);
    }

    #[test]
    fn a_notch_that_takes_nothing_leaves_the_shear_of_the_whole_section() {
        let whole = notched_shear(Pressure::psi(180.0), Length::inches(1.5), Length::inches(6.0), Length::inches(6.0));
        assert!((whole.value.in_lbf() - 2.0 / 3.0 * 180.0 * 9.0).abs() < 1e-9);
        let area = super::super::section::round_area(Length::inches(6.0)).value;
        let round = notched_shear_of_round(Pressure::psi(180.0), area, Length::inches(6.0), Length::inches(6.0)).value;
        assert!((round.in_lbf() / (120.0 * area.in_sq_in()) - 1.0).abs() < 1e-12);
    }

    #[test]
    fn a_large_notch_is_not_said_to_leave_the_stiffness() {
        let mm = Length::mm;
        assert_eq!(notched_stiffness(mm(180.0), mm(30.0), mm(60.0)).value, Ratio::fraction(1.0));
        assert!(notched_stiffness(mm(180.0), mm(31.0), mm(60.0)).value.in_fraction().is_nan());
        assert!(notched_stiffness(mm(180.0), mm(30.0), mm(61.0)).value.in_fraction().is_nan());
    }

    #[test]
    fn a_column_loaded_past_its_buckling_stress_is_not_known() {
        let share = |stress| {
            let (some, euler) = (Ratio::fraction(0.3), Pressure::mpa(5.0));
            bending_and_compression(some, some, Pressure::mpa(stress), euler).value.in_fraction()
        };
        assert!(share(5.0).is_nan() && share(2.5) > share(1.0));
        assert!((share(0.0) - 0.39).abs() < 1e-12);
    }

    #[test]
    fn a_short_free_length_keeps_nearly_all_the_bending_strength() {
        let kept = |free: f64| {
            let (b, h) = (Length::inches(1.5), Length::inches(9.25));
            beam_stability(b, h, Length::inches(free), Pressure::psi(580_000.0), Pressure::psi(1000.0)).value
        };
        assert!(kept(12.0).in_fraction() > 0.98 && kept(200.0) < kept(60.0));
    }
}

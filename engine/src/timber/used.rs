//! The share of its strength that a member, a seat or a bolt uses, from the force on: one formula for both codes.

use crate::reason::formula;
use crate::units::{Area, Force, Length, Moment, Pressure, Ratio, SectionModulus};

formula! {
    /// Bending moment where it uses most of the pole: that of both ways together, over the modulus of the upright plane.
    ///
    /// A whole pole bends as easily every way; the edges of a cut one are taken to be stressed by both moments at once.
    ///
    /// ```text
    /// M = √(M₁² + M₂²) of a whole pole,  M₁ + M₂ W₁ / W₂ of a cut one        M₁: upright, M₂: sideways
    /// ```
    /// Source: frame in space by the stiffness method, all combinations added up from the basic loads; EN 1995-1-1, 6.1.6.
    pub fn governing_moment(; moment: Moment) -> Moment {
        moment
    }
}

formula! {
    /// Section modulus of a pole where it is used most: of the whole section, or of what notch and bolt hole leave.
    ///
    /// ```text
    /// W = π d³ / 32 of a whole pole
    /// ```
    /// Source: second moment of a circle, less a segment and a strip of it, over the farther edge.
    pub fn governing_modulus(; modulus: SectionModulus) -> SectionModulus {
        modulus
    }
}

formula! {
    /// Force across a pole where it uses most of it.
    ///
    /// ```text
    /// V = √(V₁² + V₂²)
    /// ```
    /// Source: frame in space by the stiffness method, all combinations added up from the basic loads.
    pub fn governing_shear(upright: Force, sideways: Force) -> Force {
        Force::n(upright.in_n().hypot(sideways.in_n()))
    }
}

formula! {
    /// Pull along a pole where it uses most of it, together with the moment there.
    ///
    /// ```text
    /// N = Σ γᵢ Nᵢ
    /// ```
    /// Source: frame in space by the stiffness method, all combinations added up from the basic loads.
    pub fn governing_pull(; pull: Force) -> Force {
        pull
    }
}

formula! {
    /// Push along a pole where it uses most of it, together with the moment there.
    ///
    /// ```text
    /// N = Σ γᵢ Nᵢ
    /// ```
    /// Source: frame in space by the stiffness method, all combinations added up from the basic loads.
    pub fn governing_push(; push: Force) -> Force {
        push
    }
}

formula! {
    /// Angle between two poles where one rests on the other.
    ///
    /// ```text
    /// sin φ = |t₁ × t₂|        t: along each pole
    /// ```
    /// Source: the angle between two lines in space.
    pub fn crossing_angle(; angle: crate::units::Angle) -> crate::units::Angle {
        angle
    }
}

formula! {
    /// Push from pole to pole at a crossing, along their common normal, where it uses most of the wood for the time that it lasts.
    ///
    /// ```text
    /// F = Σ γᵢ Fᵢ
    /// ```
    /// Source: frame in space by the stiffness method, all combinations added up from the basic loads.
    pub fn crossing_push(; push: Force) -> Force {
        push
    }
}

formula! {
    /// Force that the bolt of a crossing must hold across it, friction left out.
    ///
    /// ```text
    /// V = √(V₁² + V₂²)
    /// ```
    /// Source: frame in space by the stiffness method, all combinations added up from the basic loads.
    pub fn held_across(; across: Force) -> Force {
        across
    }
}

formula! {
    /// Force by which a pole is lifted off the one on which it rests.
    ///
    /// ```text
    /// P = −Σ γᵢ Fᵢ
    /// ```
    /// Source: frame in space by the stiffness method, all combinations added up from the basic loads.
    pub fn lifted_off(; lifts: Force) -> Force {
        lifts
    }
}

formula! {
    /// Friction that a crossing needs so as not to slide, with no peg, bolt or lashing.
    ///
    /// ```text
    /// μ = V / F        V: across the common normal, F: along it
    /// ```
    /// Source: frame in space by the stiffness method, all combinations added up from the basic loads.
    pub fn friction_needed(; needed: f64) -> f64 {
        needed
    }
}

formula! {
    /// Force between the foot of a pole and the wall.
    ///
    /// What holds the foot in plan is not known: thrust is on feet that are held, a wall gives less and leans for it.
    ///
    /// ```text
    /// R = Σ γᵢ Rᵢ
    /// ```
    /// Source: frame in space by the stiffness method, all combinations added up from the basic loads.
    pub fn foot_force(; force: Force) -> Force {
        force
    }
}

formula! {
    /// How far a pole sinks where it rests, when everything has crept.
    ///
    /// ```text
    /// u = Σ uᵢ (1 + k) + Σ uⱼ (1 + ψ k)        k: creep, i: what stays, j: what comes and goes, ψ: the share of it that stays
    /// ```
    /// Source: frame in space by the stiffness method; EN 1995-1-1 (2.3) and (2.4), NDS (3.5-1), from memory.
    pub fn sunk_in_the_end(; sunk: Length) -> Length {
        sunk
    }
}

formula! {
    /// How far a pole hangs off the straight line from the wall to where it rests, when everything has crept.
    ///
    /// ```text
    /// u = Σ uᵢ (1 + k) + Σ uⱼ (1 + ψ k)        k: creep, i: what stays, j: what comes and goes, ψ: the share of it that stays
    /// ```
    /// Source: frame in space by the stiffness method; EN 1995-1-1 (2.3) and (2.4), NDS (3.5-1), from memory.
    pub fn sag_in_the_end(; sag: Length) -> Length {
        sag
    }
}

formula! {
    /// Share of its bending strength that a pole uses.
    ///
    /// The factors are for how long the load lasts and for damp, and for the material; by allowable stresses the second is 1.
    ///
    /// ```text
    /// u = M γ / (W k f)        W: of what notch and hole leave, f: strength, k: for duration and damp, γ: for the material
    /// ```
    /// Source: EN 1995-1-1 (6.11) and (2.14), NDS 3.3.1, from memory.
    pub fn bending_used(moment: Moment, modulus: SectionModulus, strength: Pressure, duration: f64, partial: f64) -> Ratio {
        Ratio::fraction(moment / modulus / strength * (partial / duration))
    }
}

formula! {
    /// Share of its shear strength that a round pole uses.
    ///
    /// ```text
    /// u = 4 V γ / (3 c A k f)        c: share of the width that cracks leave, A: of what notch and hole leave
    /// ```
    /// Source: EN 1995-1-1 (6.13), 6.1.7(2) and (2.14), NDS 3.4.1, from memory; shear of a beam of round section.
    pub fn shear_used(shear: Force, area: Area, uncracked: f64, strength: Pressure, duration: f64, partial: f64) -> Ratio {
        Ratio::fraction(shear * 4.0 / 3.0 / (area * uncracked) / strength * (partial / duration))
    }
}

formula! {
    /// Share of its strength that a pole uses where it is pulled along the grain and bent.
    ///
    /// ```text
    /// u = N γ / (A k fₜ) + uₘ        uₘ: share used in bending at the same place
    /// ```
    /// Source: EN 1995-1-1 (6.17), NDS (3.9-1), from memory.
    pub fn pulled_and_bent(
        pull: Force, area: Area, strength: Pressure, bending_used: Ratio, duration: f64, partial: f64
    ) -> Ratio {
        Ratio::fraction(pull / area / strength * (partial / duration)) + bending_used
    }
}

formula! {
    /// Share of its strength that a pole uses where it is pushed along the grain and bent.
    ///
    /// ```text
    /// u = N γ / (A k_c k f_c) + uₘ        k_c: share left by buckling, uₘ: share used in bending at the same place
    /// ```
    /// Source: EN 1995-1-1 (6.23), from memory; a stocky pole may square its share of compression, which is milder.
    pub fn pushed_and_bent(
        push: Force, area: Area, kept: Ratio, strength: Pressure, bending_used: Ratio, duration: f64, partial: f64
    ) -> Ratio {
        Ratio::fraction(push / area / strength / kept.in_fraction() * (partial / duration)) + bending_used
    }
}

formula! {
    /// Share of its strength that a pole uses where it is pushed along the grain and bent, the push bending it further.
    ///
    /// ```text
    /// u = (N / (A F′))² + u_b / (1 − N / (A F_cE))        F′: allowable, buckling taken off, F_cE: stress at which it buckles
    /// ```
    /// Source: NDS (3.9-3), from memory; where the push is nearly that stress or past it, a thousandth is taken for what is left.
    pub fn pushed_and_bent_further(
        push: Force, area: Area, strength: Pressure, buckling: Pressure, bending_used: Ratio
    ) -> Ratio {
        let stress = push / area;
        Ratio::fraction((stress / strength).powi(2) + bending_used.in_fraction() / (1.0 - stress / buckling).max(0.001))
    }
}

formula! {
    /// Area over which two round poles bear on each other where each is cut flat, with the wood beside it that helps.
    ///
    /// The flats are two strips that cross; along the grain of either pole fibres beside them help, at the ends no more than lies there.
    ///
    /// ```text
    /// A = min(b₁ (b₂ / sin φ + c₁), b₂ (b₁ / sin φ + c₂))        b: width of the flat on each pole, φ: between them, c: what helps on it
    /// ```
    /// Source: overlap of two strips; EN 1995-1-1, 6.1.5(1), from memory.
    pub fn crossing_area(
        own_width: Length, other_width: Length, angle: crate::units::Angle, own_helps: Length, other_helps: Length
    ) -> Area {
        let turned = angle.in_rad().sin();
        (own_width * (other_width / turned + own_helps)).min(other_width * (own_width / turned + other_helps))
    }
}

formula! {
    /// Share of its strength across the grain that a seat uses.
    ///
    /// ```text
    /// u = F γ / (A k₉₀ k f₉₀)        k₉₀: for wood beside the seat
    /// ```
    /// Source: EN 1995-1-1 (6.3) and (2.14), NDS 3.10.2, from memory.
    pub fn seat_used(
        force: Force, area: Area, strength: Pressure, beside: f64, duration: f64, partial: f64
    ) -> Ratio {
        Ratio::fraction(force / area / strength / beside * (partial / duration))
    }
}

formula! {
    /// Share of its shear strength that a pole uses at the notch on its underside where it rests.
    ///
    /// The factor of the notch is that of rectangular beams; for a round pole it is guidance.
    ///
    /// ```text
    /// u = u_v / k_v        u_v: share without the notch's factor, k_v: share that the notch leaves
    /// ```
    /// Source: EN 1995-1-1 (6.60), from memory.
    pub fn notch_used(shear_used: Ratio, kept: Ratio) -> Ratio {
        shear_used / kept.in_fraction()
    }
}

formula! {
    /// Share of a bolt that a crossing uses: what it holds across, and what keeps the poles from lifting.
    ///
    /// ```text
    /// u = V γ / (R_v k) + max(P γ / (R_p k), P / R_t)        R: what the bolt carries across, its washers and its steel along it
    /// ```
    /// Source: both shares added, which is on the safe side; EN 1995-1-1, 8.5.1 and 8.5.2, from memory.
    pub fn bolt_used(
        across: Force, along: Force, carried_across: Force, carried_along: Force, steel: Force, duration: f64, partial: f64
    ) -> Ratio {
        let washers = along / carried_along * (partial / duration);
        Ratio::fraction(across / carried_across * (partial / duration) + washers.max(along / steel))
    }
}

formula! {
    /// How stiff two poles bear on each other where they cross: newtons on each metre by which they press into each other.
    ///
    /// The wood of both is squeezed across the grain over half its thickness.
    ///
    /// ```text
    /// K = E₉₀ A / ((d₁ + d₂) / 2),  E₉₀ = s E        s: stiffness across the grain over that along it
    /// ```
    /// Source: a column of wood between two axes; E₉₀ after EN 338, from memory.
    pub fn pressed_stiffness(stiffness: Pressure, across_share: f64, area: Area, first: Length, second: Length)
        -> crate::units::LineLoad
    {
        crate::units::LineLoad::n_m(stiffness.in_pa() * across_share * area.in_m2() / (0.5 * (first + second).in_m()))
    }
}

formula! {
    /// How many poles would do, of the size of the pile on the whole, round the same eye at the same pitch.
    ///
    /// ```text
    /// the largest number below that of the roof by which no share of a pole is above one
    /// ```
    /// Source: the whole frame solved anew for each; derived for this project.
    pub fn other_count(; count: u64) -> u64 {
        count
    }
}

formula! {
    /// What would do instead, with poles of the size of the pile on the whole at the same pitch.
    ///
    /// ```text
    /// the least step by which no share of a pole is above one
    /// ```
    /// Source: the whole frame solved anew for each step; derived for this project.
    pub fn other_length(; length: Length) -> Length {
        length
    }
}

formula! {
    /// Greatest share of its strength that any pole would use then.
    ///
    /// ```text
    /// u = max(bending, shear, pull, push)
    /// ```
    /// Source: the whole frame solved anew; derived for this project.
    pub fn other_share(; used: Ratio) -> Ratio {
        used
    }
}

#[cfg(test)]
mod tests {
    use super::super::{eurocode, section, stress};
    use super::*;

    #[test]
    fn a_share_from_the_force_is_that_of_stress_over_strength() {
        let (moment, d, f) = (Moment::n_m(6000.0), Length::mm(200.0), Pressure::mpa(24.0));
        let modulus = section::round_modulus(d).value;
        let stressed = stress::bending_stress(moment, modulus).value;
        let strength = eurocode::design_strength(f, 0.8, 1.3).value;
        let told = stress::used(stressed, strength).value;
        let own = bending_used(moment, modulus, f, 0.8, 1.3).value;
        assert!((own.in_fraction() / told.in_fraction() - 1.0).abs() < 1e-12);
        let area = section::round_area(d).value;
        let cracked = stress::round_shear_stress(Force::kn(14.0), area, Ratio::fraction(0.67)).value;
        let told = stress::used(cracked, eurocode::design_strength(Pressure::mpa(4.0), 0.8, 1.3).value).value;
        let own = shear_used(Force::kn(14.0), area, 0.67, Pressure::mpa(4.0), 0.8, 1.3).value;
        assert!((own.in_fraction() / told.in_fraction() - 1.0).abs() < 1e-12);
    }

    #[test]
    fn poles_that_cross_more_askew_bear_on_a_longer_seat() {
        let area = |deg: f64| {
            let (flat, turned) = (Length::mm(80.0), crate::units::Angle::deg(deg));
            crossing_area(flat, flat, turned, Length::ZERO, Length::ZERO).value.in_m2()
        };
        assert!((area(90.0) - 0.0064).abs() < 1e-12 && (area(30.0) - 0.0128).abs() < 1e-12);
    }

    #[test]
    fn the_narrower_flat_and_the_steel_are_what_counts() {
        let mm = Length::mm;
        let area = |own, other| {
            let right = crate::units::Angle::deg(90.0);
            crossing_area(mm(own), mm(other), right, mm(60.0), mm(60.0)).value.in_m2()
        };
        assert!((area(80.0, 40.0) - 0.04 * 0.14).abs() < 1e-12 && (area(40.0, 80.0) - 0.04 * 0.14).abs() < 1e-12);
        let lifted = |steel| {
            let none = Force::ZERO;
            bolt_used(none, Force::kn(5.8), Force::kn(8.0), Force::kn(21.4), Force::kn(steel), 0.9, 1.3).value
        };
        assert!((lifted(5.8).in_fraction() - 1.0).abs() < 1e-12 && lifted(58.0).in_fraction() < 0.4);
    }
}

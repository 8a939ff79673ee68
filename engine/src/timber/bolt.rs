//! A bolt or dowel across a joint: how hard wood bears on it, how it yields, and what it carries in one shear plane or two.
//!
//! Johansen's ways of yielding, by the letters of EN 1995-1-1 and the numerals of the National Design Specification: in one plane
//! a, b (I) the wood of one side is crushed, c (II) the bolt tilts, d, e (III) it bends once, f (IV) it bends twice; in two planes g,
//! h (I) crushed, j (III) bent once in each side member, k (IV) twice. The two codes share the mechanics: the one raises the force by
//! a factor and adds the rope, the other divides it.

use super::section::round_area;
use crate::reason::formula;
use crate::units::{Angle, Area, Density, Force, Length, Moment, Pressure, SectionModulus};

formula! {
    /// Bearing strength of wood on a bolt, along the grain.
    ///
    /// ```text
    /// f = 0.082 (1 − 0.01 d) ρ        d in mm, ρ: characteristic density in kg/m³, f in N/mm²
    /// ```
    /// Source: EN 1995-1-1 (8.32), as a stored page and Porteous and Kermani quote it.
    pub fn embedment(diameter: Length, low_density: Density) -> Pressure {
        Pressure::mpa(0.082 * (1.0 - 0.01 * diameter.in_mm()) * low_density.in_kg_m3())
    }
}

formula! {
    /// Bearing strength of wood on a bolt, at an angle to the grain.
    ///
    /// ```text
    /// f = f₀ / (k sin²θ + cos²θ),  k = k₁ + 0.015 d        k₁: 1.35 softwood, 0.90 hardwood; d in mm
    /// ```
    /// Source: EN 1995-1-1 (8.31) and (8.33), from memory.
    pub fn embedment_at_angle(along: Pressure, diameter: Length, angle: Angle, wood: f64) -> Pressure {
        let (sin, cos) = angle.in_rad().sin_cos();
        along / ((wood + 0.015 * diameter.in_mm()) * sin.powi(2) + cos.powi(2))
    }
}

formula! {
    /// Bending moment at which a round bolt yields.
    ///
    /// ```text
    /// M = 0.3 f d^2.6        d in mm, f: tensile strength of the steel in N/mm², M in N mm
    /// ```
    /// Source: EN 1995-1-1 (8.30), as stored pages quote it.
    pub fn yield_moment(diameter: Length, steel: Pressure) -> Moment {
        Moment::n_m(0.3 * steel.in_mpa() * diameter.in_mm().powf(2.6) / 1000.0)
    }
}

formula! {
    /// Bearing strength of wood on a bolt along the grain, from its specific gravity.
    ///
    /// ```text
    /// F = 11200 G        in psi
    /// ```
    /// Source: NDS table 12.3.3, from memory; bolts of 1/4 in and more.
    pub fn embedment_of_gravity(gravity: f64) -> Pressure {
        Pressure::psi(11_200.0 * gravity)
    }
}

formula! {
    /// Bearing strength of wood on a bolt across the grain, from its specific gravity.
    ///
    /// ```text
    /// F = 6100 G^1.45 / √D        D in inches, F in psi
    /// ```
    /// Source: NDS table 12.3.3, from memory; bolts of 1/4 in and more.
    pub fn embedment_of_gravity_across(gravity: f64, diameter: Length) -> Pressure {
        Pressure::psi(6_100.0 * gravity.powf(1.45) / diameter.in_inches().sqrt())
    }
}

formula! {
    /// Bending moment at which a bolt yields, from its bending yield strength.
    ///
    /// ```text
    /// M = F D³ / 6
    /// ```
    /// Source: plastic moment of a round bar, as NDS 12.3.1 uses it, from memory.
    pub fn yield_moment_of_strength(diameter: Length, bending_yield: Pressure) -> Moment {
        bending_yield * SectionModulus::m3(diameter.in_m().powi(3) / 6.0)
    }
}

formula! {
    /// Force at which the wood of one side is crushed along the whole bolt: a, b, g, I.
    ///
    /// ```text
    /// F = f t d
    /// ```
    /// Source: Johansen, 1949, in the form of EN 1995-1-1 (8.6) and NDS (12.3-1), from memory.
    pub fn crushed(embedment: Pressure, thickness: Length, diameter: Length) -> Force {
        embedment * (thickness * diameter)
    }
}

formula! {
    /// Force in each plane at which the wood between two planes is crushed: h, I of the middle member.
    ///
    /// ```text
    /// F = ½ f t d
    /// ```
    /// Source: Johansen, 1949, in the form of EN 1995-1-1 (8.7) and NDS (12.3-7), from memory.
    pub fn middle_crushed(embedment: Pressure, thickness: Length, diameter: Length) -> Force {
        embedment * (thickness * diameter) * 0.5
    }
}

formula! {
    /// Force at which a stiff bolt tilts in both sides: c, II.
    ///
    /// ```text
    /// F = f₁ t₁ d / (1 + β) · (√(β + 2β² (1 + k + k²) + β³ k²) − β (1 + k)),  β = f₂ / f₁,  k = t₂ / t₁
    /// ```
    /// Source: Johansen, 1949, in the form of EN 1995-1-1 (8.6) and NDS (12.3-3), from memory.
    pub fn tilted(
        first_embedment: Pressure, second_embedment: Pressure, first_thickness: Length, second_thickness: Length,
        diameter: Length
    ) -> Force {
        let (beta, k) = (second_embedment / first_embedment, second_thickness / first_thickness);
        let root = (beta + 2.0 * beta.powi(2) * (1.0 + k + k * k) + beta.powi(3) * k * k).sqrt();
        first_embedment * (first_thickness * diameter) * ((root - beta * (1.0 + k)) / (1.0 + beta))
    }
}

formula! {
    /// Force at which a bolt stays stiff in one side and bends in the other: d, e, j, III.
    ///
    /// ```text
    /// F = f t d / (2 + β) · (√(2β (1 + β) + 4β (2 + β) M / (f d t²)) − β),  β = f′ / f        f, t: of the stiff side, f′: of the other
    /// ```
    /// Source: Johansen, 1949, in the form of EN 1995-1-1 (8.6), (8.7) and NDS (12.3-4), (12.3-5), (12.3-9), from memory.
    pub fn bent_once(
        embedment: Pressure, other_embedment: Pressure, thickness: Length, diameter: Length, yield_moment: Moment
    ) -> Force {
        let beta = other_embedment / embedment;
        let crushed = embedment * (thickness * diameter);
        let bolt = 4.0 * beta * (2.0 + beta) * (yield_moment / (crushed * thickness));
        crushed * (((2.0 * beta * (1.0 + beta) + bolt).sqrt() - beta) / (2.0 + beta))
    }
}

formula! {
    /// Force at which a bolt bends on both sides of the plane: f, k, IV.
    ///
    /// ```text
    /// F = √(2β / (1 + β)) √(2 M f₁ d),  β = f₂ / f₁
    /// ```
    /// Source: Johansen, 1949, in the form of EN 1995-1-1 (8.6), (8.7) and NDS (12.3-6), (12.3-10), from memory.
    pub fn bent_twice(
        first_embedment: Pressure, second_embedment: Pressure, diameter: Length, yield_moment: Moment
    ) -> Force {
        let beta = second_embedment / first_embedment;
        let line = first_embedment * diameter;
        Force::n((2.0 * beta / (1.0 + beta)).sqrt() * (2.0 * yield_moment.in_n_m() * line.in_n_m()).sqrt())
    }
}

formula! {
    /// Force of a way of yielding, with what the code adds: a factor, and the rope, which is a share of the pull that head and
    /// washers can take, not above a share of the force itself.
    ///
    /// ```text
    /// R = k F + min(P / 4, s k F)        k: 1, 1.05 or 1.15, P: pull, s: 25 % for bolts
    /// ```
    /// Source: EN 1995-1-1, 8.2.2, from memory.
    pub fn with_rope(force: Force, code_factor: f64, pull: Force, most: f64) -> Force {
        let raised = force * code_factor;
        raised + (pull * 0.25).min(raised * most)
    }
}

formula! {
    /// Pull that a washer can take before the wood under it is crushed.
    ///
    /// ```text
    /// P = 3 f₉₀ A        A: of the washer, less its hole
    /// ```
    /// Source: EN 1995-1-1, 8.5.2(2), from memory.
    pub fn washer_pull(across: Pressure, washer: Area) -> Force {
        across * washer * 3.0
    }
}

formula! {
    /// Area by which a square washer presses: less the hole of its bolt.
    ///
    /// ```text
    /// A = a² − π d² / 4        a: side, d: diameter of the bolt
    /// ```
    /// Source: a square less a circle.
    pub fn washer_area(side: Length, diameter: Length) -> Area {
        side * side - round_area(diameter).value
    }
}

formula! {
    /// Pull that a washer can take by allowable stresses; it knows no duration.
    ///
    /// ```text
    /// P = f A        f: allowable pressure across the grain, A: of the washer, less its hole
    /// ```
    /// Source: NDS 3.10.2, from memory.
    pub fn washer_pull_allowed(across: Pressure, washer: Area) -> Force {
        across * washer
    }
}

formula! {
    /// Pull that a bolt may take by allowable stresses.
    ///
    /// ```text
    /// P = f π D² / 4        f: allowable tension on the shank
    /// ```
    /// Source: AISC 360, table J3.2, from memory.
    pub fn tension_allowed(diameter: Length, strength: Pressure) -> Force {
        strength * (diameter * diameter) * std::f64::consts::FRAC_PI_4
    }
}

formula! {
    /// Side of a washer, in diameters of its bolt.
    ///
    /// ```text
    /// s / d
    /// ```
    /// Source: EN 1995-1-1, 10.4.3(2), from memory.
    pub fn washer_in_bolts(side: Length, diameter: Length) -> f64 {
        side / diameter
    }
}

formula! {
    /// Pull at which a bolt breaks in its thread; over the factor of steel it is what the bolt carries.
    ///
    /// ```text
    /// F = k s (π d² / 4) f / γ        k: 0.9, s: share of the shank that the thread leaves, f: strength of the steel, γ: its factor
    /// ```
    /// Source: EN 1993-1-8, table 3.4, from memory.
    pub fn tension(diameter: Length, strength: Pressure, thread_share: f64, share: f64, steel_factor: f64) -> Force {
        strength * (diameter * diameter) * (std::f64::consts::FRAC_PI_4 * thread_share * share / steel_factor)
    }
}

formula! {
    /// What a bolt may carry in one way of yielding, by allowable stresses.
    ///
    /// ```text
    /// Z = F / (R (1 + 0.25 θ / 90°))        R: 4 crushed, 3.6 tilted, 3.2 bent; θ: largest angle to the grain
    /// ```
    /// Source: NDS table 12.3.1B, from memory; bolts of 1/4 to 1 in.
    pub fn allowed(force: Force, reduction: f64, angle: Angle) -> Force {
        force / (reduction * (1.0 + 0.25 * angle.in_deg() / 90.0))
    }
}

formula! {
    /// What a bolt carries in all its planes, by its weakest way of yielding.
    ///
    /// ```text
    /// R = n min(R of each way)        n: planes
    /// ```
    /// Source: EN 1995-1-1, 8.2.2, and NDS 12.3.1, from memory.
    pub fn in_all_planes(; carried: Force) -> Force {
        carried
    }
}

/// The way of yielding that carries least: its place in the list, and the force.
#[must_use]
pub fn least(ways: &[Force]) -> Option<(usize, Force)> {
    let all = ways.iter().copied().enumerate();
    all.min_by(|one, other| one.1.in_n().total_cmp(&other.1.in_n()))
}

#[cfg(test)]
mod tests {
    use super::*;

    const D: Length = Length::mm(12.0);

    fn near(found: Force, expected: Force) {
        assert!((found / expected - 1.0).abs() < 1e-12, "{} {}", found.in_n(), expected.in_n());
    }

    #[test]
    fn a_thick_side_lets_the_bolt_bend_and_a_thin_one_is_crushed() {
        let (wood, steel) = (embedment(D, Density::kg_m3(350.0)).value, yield_moment(D, Pressure::mpa(400.0)).value);
        let ways = |t: f64| {
            let t = Length::mm(t);
            let once = bent_once(wood, wood, t, D, steel).value;
            [crushed(wood, t, D).value, tilted(wood, wood, t, t, D).value, once, bent_twice(wood, wood, D, steel).value]
        };
        assert_eq!(least(&ways(150.0)).unwrap().0, 3);
        assert!(least(&ways(150.0)).unwrap().1 > least(&ways(20.0)).unwrap().1);
        assert_eq!(least(&[]), None);
    }

    #[test]
    fn a_bolt_that_tilts_in_equal_sides_carries_the_square_root_of_two_less_one() {
        let wood = Pressure::mpa(25.0);
        let whole = crushed(wood, Length::mm(100.0), D).value;
        near(tilted(wood, wood, Length::mm(100.0), Length::mm(100.0), D).value, whole * (2.0_f64.sqrt() - 1.0));
    }

    #[test]
    fn it_does_not_matter_which_side_is_called_the_first() {
        let (one, other) = (Pressure::mpa(25.0), Pressure::mpa(16.0));
        let (t, u) = (Length::mm(80.0), Length::mm(120.0));
        near(tilted(one, other, t, u, D).value, tilted(other, one, u, t, D).value);
        let steel = yield_moment(D, Pressure::mpa(400.0)).value;
        near(bent_twice(one, other, D, steel).value, bent_twice(other, one, D, steel).value);
    }

    #[test]
    fn a_thin_bolt_breaks_before_its_wide_washer_crushes_the_wood() {
        // M6 of class 4.6: 20.1 mm² of thread x 0.9 x 400 / 1.25 = 5.79 kN (EN 1993-1-8, table 3.4, from memory).
        let d = Length::mm(6.0);
        let steel = tension(d, Pressure::mpa(400.0), 0.711, 0.9, 1.25).value;
        assert!((steel.in_n() / 5_790.0 - 1.0).abs() < 2e-3, "{}", steel.in_n());
        let side = Length::mm(60.0);
        assert!(washer_pull(Pressure::mpa(2.0), side * side).value > steel * 3.0);
    }

    #[test]
    fn by_allowable_stresses_a_bolt_of_three_eighths_pulls_2485_pounds_and_its_two_inch_washer_2431() {
        // 22 500 psi on 0.11045 sq in; 625 psi on 4 less 0.11045 sq in, by hand.
        let d = Length::inches(0.375);
        let steel = tension_allowed(d, Pressure::psi(22_500.0)).value;
        assert!((steel.in_lbf() - 2_485.0).abs() < 0.5, "{}", steel.in_lbf());
        let washer = washer_area(Length::inches(2.0), d).value;
        let pull = washer_pull_allowed(Pressure::psi(625.0), washer).value;
        assert!((pull.in_lbf() - 2_431.0).abs() < 0.5, "{}", pull.in_lbf());
    }

    #[test]
    fn the_rope_never_adds_more_than_its_share() {
        let rope = |pull: f64| with_rope(Force::kn(8.0), 1.0, Force::kn(pull), 0.25).value;
        near(rope(4.0), Force::kn(9.0));
        near(rope(40.0), Force::kn(10.0));
    }

    /// Half-inch bolt, two members of 1.5 in, Douglas fir-larch: 480, 300 and 220 lb for both along, one across, both across the
    /// grain in the table of bolts in single shear (NDS 2018, table 12A, from memory; it rounds to 10 lb).
    #[test]
    fn a_half_inch_bolt_in_two_thin_members_carries_what_the_table_of_the_code_says() {
        let (d, t) = (Length::inches(0.5), Length::inches(1.5));
        let along = embedment_of_gravity(0.5).value;
        let across = embedment_of_gravity_across(0.5, d).value;
        let steel = yield_moment_of_strength(d, Pressure::psi(45_000.0)).value;
        let carried = |main: Pressure, side: Pressure, deg: f64| {
            let allowed = |force, reduction| allowed(force, reduction, Angle::deg(deg)).value;
            let ways = [
                allowed(crushed(main, t, d).value, 4.0),
                allowed(crushed(side, t, d).value, 4.0),
                allowed(tilted(main, side, t, t, d).value, 3.6),
                allowed(bent_once(main, side, t, d, steel).value, 3.2),
                allowed(bent_once(side, main, t, d, steel).value, 3.2),
                allowed(bent_twice(main, side, d, steel).value, 3.2),
            ];
            (least(&ways).unwrap().1.in_lbf() / 10.0).round() * 10.0
        };
        assert_eq!(
            [carried(along, along, 0.0), carried(across, along, 90.0), carried(across, across, 90.0)],
            [480.0, 300.0, 220.0]
        );
    }
}

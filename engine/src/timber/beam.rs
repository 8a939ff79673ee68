//! A timber of planks on a wall: what bears of it, and the share of its strength that a ring of it uses.

use std::sync::LazyLock;

use crate::facts::{Fact, facts};
use crate::reason::formula;
use crate::solve::twist;
use crate::units::{Area, Force, Length, Moment, Pressure, Ratio, SectionModulus};

// Constant data, read from its text once.
static FACTS: LazyLock<Result<Vec<Fact>, String>> =
    LazyLock::new(|| facts("beam.csv", include_str!("../../../data/timber/beam.csv")));

/// A number of the table of beams on walls; `None` where it has no such name.
#[must_use]
pub fn fact(name: &str) -> Option<f64> {
    FACTS.as_deref().unwrap_or_default().iter().find(|fact| fact.name == name).map(|fact| fact.number)
}

formula! {
    /// Planks of a beam that count in strength: every second layer may have its scarf at the same place.
    ///
    /// ```text
    /// m = ⌊n / 2⌋
    /// ```
    /// Source: each layer lies over the middles of the one below; a scarf itself counts for nothing, on the safe side.
    pub fn whole_planks(layers: u64) -> u64 {
        layers / 2
    }
}

formula! {
    /// Area of the planks that count.
    ///
    /// ```text
    /// A = m b h/n        m: planks that count, n: all of them
    /// ```
    /// Source: area of a rectangle.
    pub fn planks_area(width: Length, height: Length, layers: u64, planks: u64) -> Area {
        width * height * (planks as f64 / layers as f64)
    }
}

formula! {
    /// Section modulus of the planks that count, for bending up and down; each bends by itself.
    ///
    /// ```text
    /// W = m b (h/n)² / 6
    /// ```
    /// Source: second moment of a rectangle, over half its depth.
    pub fn planks_upright(width: Length, height: Length, layers: u64, planks: u64) -> SectionModulus {
        let plank = height.in_m() / layers as f64;
        SectionModulus::m3(planks as f64 * width.in_m() * plank * plank / 6.0)
    }
}

formula! {
    /// Section modulus of the planks that count, for bending in plan.
    ///
    /// ```text
    /// W = m (h/n) b² / 6
    /// ```
    /// Source: second moment of a rectangle, over half its depth.
    pub fn planks_plan(width: Length, height: Length, layers: u64, planks: u64) -> SectionModulus {
        let plank = height.in_m() / layers as f64;
        SectionModulus::m3(planks as f64 * plank * width.in_m().powi(2) / 6.0)
    }
}

formula! {
    /// Torque over its greatest stress, of the planks that count; each twists by itself.
    ///
    /// ```text
    /// W = m k t² s        t: lesser side of a plank, s: greater, k: by their ratio
    /// ```
    /// Source: Saint-Venant's series, Timoshenko and Goodier, Theory of Elasticity, article 109, from memory.
    pub fn planks_twist(width: Length, height: Length, layers: u64, planks: u64) -> SectionModulus {
        SectionModulus::m3(planks as f64 * twist::of_rectangle(width.in_m(), height.in_m() / layers as f64)[1])
    }
}

formula! {
    /// How much more shear wood bears by twist, for the shape of a plank.
    ///
    /// ```text
    /// k = 1 + 0.05 s/t, at most 1.3        s, t: greater and lesser side
    /// ```
    /// Source: EN 1995-1-1 (6.15) with A2, from memory.
    pub fn twist_shape(width: Length, plank: Length; more: f64, most: f64) -> f64 {
        (1.0 + more * (width.max(plank) / width.min(plank))).min(most)
    }
}

formula! {
    /// Moment up and down in the beam where bending uses most of it: of what presses on earth, and of what lifts between anchors.
    ///
    /// ```text
    /// M = Σ F L/4 exp(−x/L) (cos x/L − sin x/L) + |M lifted|        x: from all over each seat, L: over which the earth bears
    /// ```
    /// Source: Hetényi, Beams on Elastic Foundation, 1946, from memory; frame in space by the stiffness method.
    pub fn beam_upright(; moment: Moment) -> Moment {
        moment
    }
}

formula! {
    /// Moment in plan in the beam where bending uses most of it: the closed ring alone bears what thrusts.
    ///
    /// ```text
    /// M = Σ γᵢ Mᵢ
    /// ```
    /// Source: frame in space by the stiffness method; what does not balance itself the friction beneath holds, spread evenly.
    pub fn beam_plan(; moment: Moment) -> Moment {
        moment
    }
}

formula! {
    /// Ring force where it uses most of the beam with the moments there: pull along it; below zero, push.
    ///
    /// ```text
    /// N = Σ γᵢ Nᵢ
    /// ```
    /// Source: frame in space by the stiffness method, all combinations added up from the basic loads.
    pub fn ring_force(; force: Force) -> Force {
        force
    }
}

formula! {
    /// Ring force that the closed ring would carry if it alone held what poles thrust on feet that do not give.
    ///
    /// A ring that bends gives way, and the poles then thrust less: what wall, friction and ring each hold is not known.
    ///
    /// ```text
    /// N = Σ γᵢ Nᵢ
    /// ```
    /// Source: frame in space by the stiffness method, all combinations added up from the basic loads.
    pub fn held_ring_force(; force: Force) -> Force {
        force
    }
}

formula! {
    /// Moment in plan that the closed ring would carry if it alone held what poles thrust on feet that do not give.
    ///
    /// A ring that bends gives way, and the poles then thrust less: what wall, friction and ring each hold is not known.
    ///
    /// ```text
    /// M = Σ γᵢ Mᵢ
    /// ```
    /// Source: frame in space by the stiffness method, all combinations added up from the basic loads.
    pub fn held_ring_moment(; moment: Moment) -> Moment {
        moment
    }
}

formula! {
    /// Force across the beam where it uses most of it, of both ways together.
    ///
    /// ```text
    /// V = √(V₁² + V₂²)
    /// ```
    /// Source: Hetényi, Beams on Elastic Foundation, 1946, from memory; frame in space by the stiffness method.
    pub fn beam_shear(; shear: Force) -> Force {
        shear
    }
}

formula! {
    /// Twist of the beam between its anchors, where something lifts; what presses is borne beneath and twists it no further.
    ///
    /// ```text
    /// T = Σ γᵢ Tᵢ
    /// ```
    /// Source: frame in space by the stiffness method, all combinations added up from the basic loads.
    pub fn beam_twist(; twist: Moment) -> Moment {
        twist
    }
}

formula! {
    /// What the strap of an anchor must hold down: poles that lift, less the beam's own weight; poles that press do not help.
    ///
    /// ```text
    /// P = Σ Fᵢ ηᵢ − γ G        ηᵢ: what the anchor takes of each newton that lifts a seat, G: its share of the beam's weight
    /// ```
    /// Source: frame in space by the stiffness method, the least of what lies on the roof, from memory EN 1990 6.10, A1.2(A), ASCE 7, 2.4.1.
    pub fn anchor_pull(; pull: Force) -> Force {
        pull
    }
}

formula! {
    /// Share that is used of what an anchor or a tie holds. The weight of the cob over an anchor is in what it held when it was pulled.
    ///
    /// ```text
    /// u = P / R        P: what it must hold down, R: what it was pulled to, or is said to hold
    /// ```
    /// Source: the one force over the other.
    pub fn held_used(pull: Force, holds: Force) -> Ratio {
        Ratio::fraction(pull / holds)
    }
}

formula! {
    /// Share of its strength that the beam uses in bending, up and down and in plan at once.
    ///
    /// ```text
    /// u = (M₁/W₁ + M₂/W₂) γ / (k f)
    /// ```
    /// Source: EN 1995-1-1 (6.11) with 1 for its 0.7, which is on the safe side, and (2.14); NDS 3.9.2 without push; from memory.
    pub fn bent_both_ways(
        upright: Moment, plan: Moment, upright_modulus: SectionModulus, plan_modulus: SectionModulus, strength: Pressure,
        duration: f64, partial: f64
    ) -> Ratio {
        let stress = upright / upright_modulus + plan / plan_modulus;
        Ratio::fraction(stress / strength * (partial / duration))
    }
}

formula! {
    /// Share of its strength that the beam uses by its ring force with the moments there.
    ///
    /// ```text
    /// u = |N| γ / (A k f) + uₘ        f: along the grain for pull or for push, uₘ: share used in bending at the same place
    /// ```
    /// Source: EN 1995-1-1 (6.17); for push (6.19) is milder, and the wall keeps the beam from buckling; NDS (3.9-1); from memory.
    pub fn ring_used(force: Force, area: Area, strength: Pressure, bending_used: Ratio, duration: f64, partial: f64) -> Ratio {
        Ratio::fraction(force.abs() / area / strength * (partial / duration)) + bending_used
    }
}

formula! {
    /// Share of its shear strength that a beam of rectangular planks uses.
    ///
    /// ```text
    /// u = 3 V γ / (2 c A k f)        c: share of the width that cracks leave
    /// ```
    /// Source: EN 1995-1-1 (6.13), 6.1.7(2) and (2.14), NDS 3.4.2, from memory; shear of a beam of rectangular section.
    pub fn planks_sheared(
        shear: Force, area: Area, uncracked: f64, strength: Pressure, duration: f64, partial: f64
    ) -> Ratio {
        Ratio::fraction(shear * 1.5 / (area * uncracked) / strength * (partial / duration))
    }
}

formula! {
    /// Share of its shear strength that the beam uses by twist.
    ///
    /// ```text
    /// u = T γ / (W s k f)        s: for the shape of a plank
    /// ```
    /// Source: EN 1995-1-1 (6.14) and (2.14), from memory.
    pub fn twist_used(
        twist: Moment, modulus: SectionModulus, shape: f64, strength: Pressure, duration: f64, partial: f64
    ) -> Ratio {
        Ratio::fraction(twist / modulus / strength / shape * (partial / duration))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_second_plank_is_left_out_and_of_one_alone_nothing_counts() {
        assert_eq!([1, 2, 3, 4].map(|layers| whole_planks(layers).value), [0, 1, 1, 2]);
        let (width, height) = (Length::mm(200.0), Length::mm(120.0));
        let near = |found: f64, told: f64| assert!((found / told - 1.0).abs() < 1e-12, "{found} is not {told}");
        near(planks_area(width, height, 3, 2).value.in_m2(), 0.2 * 0.08);
        near(planks_upright(width, height, 3, 2).value.in_m3(), 2.0 * 0.2 * 0.04 * 0.04 / 6.0);
        near(planks_plan(width, height, 3, 2).value.in_m3(), 0.08 * 0.2 * 0.2 / 6.0);
        near(planks_twist(width, height, 1, 1).value.in_m3(), twist::of_rectangle(0.12, 0.2)[1]);
    }

    #[test]
    fn shares_are_stress_over_strength() {
        let near =
            |found: Ratio, told: f64| assert!((found.in_fraction() - told).abs() < 1e-12, "{found:?} is not {told}");
        let (strength, upright, plan) = (Pressure::mpa(20.0), SectionModulus::cm3(100.0), SectionModulus::cm3(400.0));
        let bent = bent_both_ways(Moment::n_m(600.0), Moment::n_m(1600.0), upright, plan, strength, 0.8, 1.25).value;
        near(bent, (6.0 + 4.0) * 1.25 / 0.8 / 20.0);
        let (force, area) = (Force::kn(-8.0), Area::cm2(40.0));
        near(ring_used(force, area, strength, bent, 0.8, 1.25).value, bent.in_fraction() + 2.0 * 1.25 / 0.8 / 20.0);
        near(planks_sheared(Force::kn(4.0), area, 0.5, Pressure::mpa(4.0), 1.0, 1.0).value, 3.0 / 4.0);
        near(twist_used(Moment::n_m(130.0), upright, 1.3, Pressure::mpa(2.0), 1.0, 1.0).value, 0.5);
    }

    #[test]
    fn the_shape_of_a_plank_counts_up_to_its_bound() {
        // EN 1995-1-1 (6.15) with A2, from memory: 1 + 0.05 h/b, at most 1.3.
        let [more, most] = ["twist-more", "twist-most"].map(|name| fact(name).unwrap());
        let shape = |width: f64, plank: f64| twist_shape(Length::mm(width), Length::mm(plank), more, most).value;
        assert!((shape(200.0, 50.0) - 1.2).abs() < 1e-12 && (shape(50.0, 200.0) - 1.2).abs() < 1e-12);
        assert_eq!(shape(400.0, 40.0), 1.3);
    }
}

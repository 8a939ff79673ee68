//! Lifting one end of a pole, and how the ring sinks, as formulas of their own.

use std::f64::consts::PI;

use crate::reason::formula;
use crate::units::{Length, Mass, Ratio, Volume};

formula! {
    /// Volume of an evenly tapered round pole.
    ///
    /// ```text
    /// V = π l / 12 (D² + D d + d²)        D: diameter at the butt, d: at the tip
    /// ```
    /// Source: frustum of a cone, elementary geometry.
    pub fn tapered_volume(butt: Length, tip: Length, length: Length) -> Volume {
        (butt * butt + butt * tip + tip * tip) * length * (PI / 12.0)
    }
}

formula! {
    /// Wood of all poles of a ring, each cut to its length.
    ///
    /// ```text
    /// V = Σ Vᵢ
    /// ```
    /// Source: the whole is the sum of its parts.
    pub fn wood_of_all(; sum: Volume) -> Volume {
        sum
    }
}

formula! {
    /// Mass of all poles of a ring, each cut to its length.
    ///
    /// ```text
    /// m = Σ mᵢ
    /// ```
    /// Source: the whole is the sum of its parts.
    pub fn mass_of_all(; sum: Mass) -> Mass {
        sum
    }
}

formula! {
    /// The longest of the poles of a ring, each cut to its length.
    ///
    /// ```text
    /// l = largest of lᵢ
    /// ```
    /// Source: the definition.
    pub fn longest_cut(; longest: Length) -> Length {
        longest
    }
}

formula! {
    /// From the butt of an evenly tapered pole to where it balances.
    ///
    /// ```text
    /// s = l (D² + 2 D d + 3 d²) / (4 (D² + D d + d²))        D: diameter at the butt, d: at the tip
    /// ```
    /// Source: centre of a frustum of a cone, elementary geometry.
    pub fn balance_point(butt: Length, tip: Length, length: Length) -> Length {
        let (thick, both, thin) = (butt * butt, butt * tip, tip * tip);
        length * ((thick + 2.0 * both + 3.0 * thin) / (4.0 * (thick + both + thin)))
    }
}

formula! {
    /// What is in the hands of those who lift one end of a pole whose other end stays on the ground or on the plate.
    ///
    /// ```text
    /// m′ = m s / l        s: from the end that stays to where the pole balances
    /// ```
    /// Source: equilibrium of a beam on two supports, any textbook of statics; a pole that lies nearly level.
    pub fn mass_at_end(mass: Mass, to_balance_point: Length, length: Length) -> Mass {
        mass * (to_balance_point / length)
    }
}

formula! {
    /// How far the tips of a reciprocal roof sink when every crossing beds deeper.
    ///
    /// ```text
    /// z = δ x / x₂        δ: bedding, plumb; x: in plan to the second crossing, x₂: between the crossings
    /// ```
    /// Source: closing condition of touching cylinders, its first order; derived for this project.
    pub fn sinking(bedding: Length, plan_length: Length, between_crossings: Length) -> Length {
        bedding * (plan_length / between_crossings)
    }
}

formula! {
    /// By what share a green pole gets thinner until it has dried to a moisture.
    ///
    /// Wood shrinks below its fibre saturation alone. The total is that from green to oven-dry, the mean of radial and
    /// tangential for a round pole.
    ///
    /// ```text
    /// S = S₀ (f − w) / f        S₀: total shrinkage, f: fibre saturation, w: moisture, of dry mass
    /// ```
    /// Source: Wood Handbook (Forest Products Laboratory), chapter 4, shrinkage in proportion to moisture, from memory.
    pub fn drying_shrinkage(total: Ratio, fibre_saturation: Ratio, moisture: Ratio) -> Ratio {
        let below = (fibre_saturation - moisture).in_fraction().max(0.0);
        Ratio::fraction(total.in_fraction() * below / fibre_saturation.in_fraction())
    }
}

/// How many people lift together, and what share of the sum of what each could lift alone they can.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Team {
    /// People.
    pub people: u64,
    /// Share.
    pub share: Ratio,
}

/// The smallest team that lifts a mass; `None` where it takes a tripod, a ramp or a rope.
#[must_use]
pub fn lifted_by(mass: Mass, each_alone: Mass, teams: &[Team]) -> Option<u64> {
    let can = |team: &&Team| each_alone * (team.people as f64 * team.share.in_fraction()) >= mass;
    teams.iter().filter(can).map(|team| team.people).min()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::units::Density;

    #[test]
    fn a_cylinder_balances_in_its_middle_and_a_cone_a_quarter_from_its_base() {
        let thick = Length::mm(200.0);
        assert_eq!(balance_point(thick, thick, Length::m(4.0)).value, Length::m(2.0));
        assert_eq!(balance_point(thick, Length::ZERO, Length::m(4.0)).value, Length::m(1.0));
        let cone = tapered_volume(thick, Length::ZERO, Length::m(4.0)).value.in_m3();
        assert!((cone - PI * 0.01 * 4.0 / 3.0).abs() < 1e-15);
    }

    #[test]
    fn the_two_ends_share_the_pole() {
        let (butt, tip, length) = (Length::mm(220.0), Length::mm(160.0), Length::m(4.0));
        let mass = tapered_volume(butt, tip, length).value * Density::kg_m3(600.0);
        let to_balance = balance_point(butt, tip, length).value;
        let at_tip = mass_at_end(mass, to_balance, length).value;
        let at_butt = mass_at_end(mass, length - to_balance, length).value;
        assert!((at_tip + at_butt - mass).in_kg().abs() < 1e-12);
        assert!(at_tip < at_butt);
    }

    #[test]
    fn two_lift_less_than_twice_what_one_lifts_and_too_much_takes_gear() {
        let share = Ratio::fraction;
        let teams = [(1, 1.0), (2, 2.0 / 3.0), (3, 0.5)].map(|(people, part)| Team { people, share: share(part) });
        let each = Mass::kg(25.0);
        assert_eq!(lifted_by(Mass::kg(25.0), each, &teams), Some(1));
        assert_eq!(lifted_by(Mass::kg(33.0), each, &teams), Some(2));
        assert_eq!(lifted_by(Mass::kg(34.0), each, &teams), Some(3));
        assert_eq!(lifted_by(Mass::kg(38.0), each, &teams), None);
    }

    #[test]
    fn wood_wetter_than_its_fibre_saturation_does_not_shrink() {
        let percent = Ratio::percent;
        assert_eq!(drying_shrinkage(percent(6.2), percent(30.0), percent(40.0)).value, Ratio::ZERO);
        assert!(
            (drying_shrinkage(percent(6.2), percent(30.0), percent(15.0)).value - percent(3.1)).in_fraction().abs()
                < 1e-15
        );
    }
}

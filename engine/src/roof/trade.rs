//! What a reciprocal roof of equal poles may be: how count, eye, pitch and notch bind each other, and where bending ends it.

use super::layers::STANDARD_GRAVITY_M_S2;
use super::reciprocal::{
    between_crossings, closes, eye_radius_for_pitch, half_turn, notch_for_pitch, plan_length, to_first_crossing,
};
use super::statics::{crossing_force_area_load, moment_at_first_crossing_line_load_n_m};
use crate::reason::formula;
use crate::solve::sign::sign_change;
use crate::units::{Angle, Density, Force, Length, LineLoad, Moment, Pressure, Ratio, SectionModulus};

formula! {
    /// Even load by which the choice of a ring is looked at.
    ///
    /// Of everything that may lie on the roof at one time the mean between the walls which, held against what the wood bears for
    /// so long, is the greatest. The poles' own weight is not in it; eaves, which relieve the first crossing, are left out.
    ///
    /// ```text
    /// p = that pₖ for which pₖ / fₖ is the greatest        f: strength while combination k lasts
    /// ```
    /// Source: EN 1990, 6.4.3.2, or ASCE/SEI 7, 2.4; from memory.
    pub fn trade_load(; load: Pressure) -> Pressure {
        load
    }
}

formula! {
    /// Weight of a pole of one thickness, on each metre of its length, with the factor of a combination.
    ///
    /// ```text
    /// w = γ ρ g π d² / 4
    /// ```
    /// Source: volume of a cylinder, elementary geometry.
    pub fn pole_weight(density: Density, diameter: Length, factor: f64) -> LineLoad {
        let area = diameter * diameter * std::f64::consts::FRAC_PI_4;
        LineLoad::n_m((density * (area * Length::m(1.0))).in_kg() * STANDARD_GRAVITY_M_S2 * factor)
    }
}

formula! {
    /// Bending moment at the first crossing of each pole of a regular ring.
    ///
    /// Equal poles on a circle of the same area as the plate line encloses: a first look before poles are measured. Uneven plans
    /// bring some poles more and others less.
    ///
    /// ```text
    /// M = F x₂ + w (x² − x₂²) / (2 cos α)        F: force at the crossing under the even load, w: weight of a pole on each metre of it
    /// ```
    /// Source: equilibrium of one rafter, all rafters alike; derived for this project.
    pub fn regular_moment(
        load: Pressure, own: LineLoad, count: u64, plan_radius: Length, eye_radius: Length, pitch: Angle
    ) -> Moment {
        let apart = between_crossings(count, eye_radius).value;
        let whole = plan_length(to_first_crossing(count, plan_radius, eye_radius).value, apart).value;
        let laid = crossing_force_area_load(load, count, plan_radius, eye_radius).value * apart;
        let own_on_each_metre = Force::n(own.in_n_m() / pitch.in_rad().cos());
        laid + Moment::n_m(moment_at_first_crossing_line_load_n_m(own_on_each_metre, whole, apart).value)
    }
}

formula! {
    /// Bending strength that the poles of a regular ring use at their first crossing.
    ///
    /// ```text
    /// M / (W f)        W: section modulus that half of the notch leaves, f: what the wood bears meanwhile
    /// ```
    /// Source: EN 1995-1-1, 6.1.6, (6.11), and NDS 2018, 3.3.1, for bending one way; from memory.
    pub fn regular_used(moment: Moment, modulus: SectionModulus, strength: Pressure) -> Ratio {
        Ratio::fraction(moment.in_n_m() / (modulus * strength).in_n_m())
    }
}

formula! {
    /// Smallest eye that a ring of so many of these poles may have at this pitch.
    ///
    /// A smaller eye wants deeper notches and bends the poles more. The greater of two: the eye at which the notch is as deep as it
    /// may be, and that at which bending uses all of the strength.
    ///
    /// ```text
    /// r = max(r of the deepest notch, r at which M = W f)
    /// ```
    /// Source: closing condition of touching cylinders and equilibrium of one rafter; derived for this project.
    pub fn least_eye(; eye: Length) -> Length {
        eye
    }
}

formula! {
    /// Largest eye that a ring of so many of these poles may have at this pitch.
    ///
    /// There the poles touch without a notch; past it they lie apart and need packing.
    ///
    /// ```text
    /// r = d √(1 + (cot(π/n) / sin α)²) / (2 cos(π/n))
    /// ```
    /// Source: closing condition of touching cylinders; derived for this project.
    pub fn largest_eye(diameter: Length, pitch: Angle; count: u64) -> Length {
        eye_radius_for_pitch(count, diameter, pitch).value
    }
}

/// What does not change while count, eye and pitch are chosen.
pub struct Trade<'a> {
    /// Of the poles where they cross.
    pub diameter: Length,
    /// Of the circle of their outer supports.
    pub plan_radius: Length,
    /// Even load in plan, with its factor.
    pub load: Pressure,
    /// Weight of a pole on each metre of its own length, with its factor.
    pub own: LineLoad,
    /// What the wood bears in bending meanwhile.
    pub strength: Pressure,
    /// The deepest notch, in both poles together.
    pub deepest: Length,
    /// Section modulus that a seat of a depth leaves of a pole.
    pub left: &'a dyn Fn(Length) -> SectionModulus,
}

/// The eyes of a ring at one pitch.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Eyes {
    /// At which the poles touch without a notch; past it they lie apart.
    pub touching: Length,
    /// At which the notch is as deep as it may be.
    pub deepest: Length,
    /// At which bending uses all of the strength; none where no eye between the two does.
    pub bends: Option<Length>,
    /// The least and the largest that work; none where none does.
    pub works: Option<[Length; 2]>,
}

impl Trade<'_> {
    /// Share of the bending strength that a ring uses. The eye must lie within the supports and the ring close.
    #[must_use]
    pub fn used(&self, count: u64, eye: Length, pitch: Angle) -> f64 {
        let notch = notch_for_pitch(count, eye, self.diameter, pitch).value;
        let moment = regular_moment(self.load, self.own, count, self.plan_radius, eye, pitch).value;
        let seat = if notch > Length::ZERO { notch * 0.5 } else { Length::ZERO };
        regular_used(moment, (self.left)(seat), self.strength).value.in_fraction()
    }

    /// The eyes at a pitch; none where the ring cannot close at it within nine tenths of the way to the supports.
    #[must_use]
    pub fn eyes(&self, count: u64, pitch: Angle) -> Option<Eyes> {
        let widest = 0.9 * self.plan_radius / half_turn(count).cos();
        let deepest = eye_radius_for_pitch(count, self.diameter - self.deepest, pitch).value;
        if count < 3 || deepest >= widest || !closes(count, deepest, self.diameter - self.deepest) {
            return None;
        }
        let touching = largest_eye(self.diameter, pitch, count).value;
        let end = if touching < widest { touching } else { widest };
        let over = |eye: f64| self.used(count, Length::m(eye), pitch) - 1.0;
        let bends = sign_change(over, deepest.in_m(), end.in_m()).map(Length::m);
        // What is no number works nowhere.
        let works = if over(end.in_m()) <= 0.0 { Some([bends.unwrap_or(deepest), end]) } else { None };
        Some(Eyes { touching, deepest, bends, works })
    }
}

#[cfg(test)]
mod tests {
    use std::f64::consts::PI;

    use super::*;

    fn round(depth: Length) -> SectionModulus {
        let left = Length::mm(200.0) - depth;
        SectionModulus::m3(PI / 32.0 * left.in_m().powi(3))
    }

    fn trade(strength_mpa: f64) -> Trade<'static> {
        Trade {
            diameter: Length::mm(200.0),
            plan_radius: Length::m(2.5),
            load: Pressure::kpa(5.5),
            own: LineLoad::n_m(200.0),
            strength: Pressure::mpa(strength_mpa),
            deepest: Length::mm(60.0),
            left: &round,
        }
    }

    #[test]
    fn at_the_edges_of_what_works_the_notch_is_none_or_bending_uses_all() {
        let (pitch, trade) = (Angle::deg(18.0), trade(12.0));
        let eyes = trade.eyes(9, pitch).unwrap();
        let [least, largest] = eyes.works.unwrap();
        assert!(notch_for_pitch(9, largest, trade.diameter, pitch).value.in_mm().abs() < 1e-9);
        assert!((trade.used(9, least, pitch) - 1.0).abs() < 1e-9);
        assert_eq!(eyes.bends, Some(least));
        assert!(trade.used(9, largest, pitch) < 1.0 && trade.used(9, least * 0.99, pitch) > 1.0);
    }

    #[test]
    fn strong_wood_is_stopped_by_the_notch_and_weak_wood_everywhere() {
        let pitch = Angle::deg(18.0);
        let strong = trade(60.0).eyes(9, pitch).unwrap();
        let [least, _] = strong.works.unwrap();
        assert!((notch_for_pitch(9, least, Length::mm(200.0), pitch).value.in_mm() - 60.0).abs() < 1e-9);
        assert_eq!(trade(2.0).eyes(9, pitch).unwrap().works, None);
        assert_eq!(trade(f64::NAN).eyes(9, pitch).unwrap().works, None);
    }

    #[test]
    fn the_moment_is_that_of_an_even_line_load_and_an_even_area_load_together() {
        let own =
            regular_moment(Pressure::ZERO, LineLoad::n_m(300.0), 8, Length::m(2.6), Length::m(0.7), Angle::deg(18.0))
                .value;
        let laid =
            regular_moment(Pressure::kpa(3.0), LineLoad::ZERO, 8, Length::m(2.6), Length::m(0.7), Angle::deg(18.0))
                .value;
        let both = regular_moment(
            Pressure::kpa(3.0),
            LineLoad::n_m(300.0),
            8,
            Length::m(2.6),
            Length::m(0.7),
            Angle::deg(18.0),
        )
        .value;
        assert!((own + laid - both).in_n_m().abs() < 1e-9 && own.in_n_m() > 100.0 && laid.in_n_m() > 100.0);
    }

    #[test]
    fn a_ring_that_cannot_close_has_no_eyes() {
        assert_eq!(trade(12.0).eyes(2, Angle::deg(18.0)), None);
        assert_eq!(trade(12.0).eyes(9, Angle::deg(2.0)), None);
    }
}

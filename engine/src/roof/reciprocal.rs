//! A regular reciprocal frame of touching round poles, all of one pitch: closed forms.
//!
//! n poles; the axes of their outer supports on a circle of radius R, their crossings in plan on a circle of radius r; D is the
//! distance of two axes where they cross. Each pole bears on the next: at its second crossing it lies on the first crossing
//! of the one ahead.

use std::f64::consts::PI;

use crate::reason::formula;
use crate::units::{Angle, Area, Force, Length, Pressure};

/// Half the angle from one pole to the next.
fn half(count: u64) -> f64 {
    PI / count as f64
}

/// Whether so many poles, so far apart at their crossings, close round an eye.
///
/// They do when `2 r cos(π/n) > D` and the sine of the pitch is below one.
#[must_use]
pub fn closes(count: u64, eye_radius: Length, axis_distance: Length) -> bool {
    count >= 3 && sine_of_pitch(count, eye_radius, axis_distance).is_some()
}

fn sine_of_pitch(count: u64, eye_radius: Length, axis_distance: Length) -> Option<f64> {
    let (cos, distance) = (half(count).cos(), axis_distance.in_m());
    let square = (2.0 * eye_radius.in_m() * cos).powi(2) - distance.powi(2);
    let sine = distance / (half(count).tan() * square.sqrt());
    (square > 0.0 && sine < 1.0).then_some(sine)
}

formula! {
    /// Radius of the circle that encloses as much as the plate line.
    ///
    /// A first cut: on a plan that is no circle every pole has a length of its own.
    ///
    /// ```text
    /// R = √(A / π)
    /// ```
    /// Source: area of a circle.
    pub fn plan_radius(enclosed_area: Area) -> Length {
        Length::m((enclosed_area.in_m2() / PI).sqrt())
    }
}

formula! {
    /// Distance of the axes of two poles where they cross.
    ///
    /// ```text
    /// D = d − notch        d: mean diameter of the two at the crossing, notch: what both notches take off together
    /// ```
    /// Source: two round poles that touch.
    pub fn axis_distance(diameter: Length, notch: Length) -> Length {
        diameter - notch
    }
}

formula! {
    /// Pitch of the poles; number, eye and distance of the axes settle it, the size of the house does not.
    ///
    /// ```text
    /// sin α = D cot(π/n) / √(4 r² cos²(π/n) − D²)
    /// ```
    /// Source: the ring closes when each pole climbs from one crossing to the next by as much as touching poles lie above
    /// each other; derived for this project, checked against a numerical solution of the contact.
    pub fn pitch(count: u64, eye_radius: Length, axis_distance: Length) -> Angle {
        Angle::rad(sine_of_pitch(count, eye_radius, axis_distance).unwrap_or(f64::NAN).asin())
    }
}

formula! {
    /// From the first crossing of a pole to its second, in plan.
    ///
    /// ```text
    /// x₂ = 2 r sin(π/n)
    /// ```
    /// Source: side of a regular polygon.
    pub fn between_crossings(count: u64, eye_radius: Length) -> Length {
        eye_radius * (2.0 * half(count).sin())
    }
}

formula! {
    /// From the outer support of a pole to its first crossing, in plan.
    ///
    /// ```text
    /// x₁ = √(R² − r² cos²(π/n)) − x₂ / 2
    /// ```
    /// Source: a chord of two concentric circles.
    pub fn to_first_crossing(count: u64, plan_radius: Length, eye_radius: Length) -> Length {
        let apothem = eye_radius.in_m() * half(count).cos();
        Length::m((plan_radius.in_m().powi(2) - apothem.powi(2)).sqrt()) - eye_radius * half(count).sin()
    }
}

formula! {
    /// From the outer support of a pole to its second crossing, in plan.
    ///
    /// ```text
    /// x = x₁ + x₂
    /// ```
    /// Source: the sum of its parts.
    pub fn plan_length(to_first_crossing: Length, between_crossings: Length) -> Length {
        to_first_crossing + between_crossings
    }
}

formula! {
    /// Length of a pole's axis from its outer support to its second crossing.
    ///
    /// ```text
    /// l = x / cos α
    /// ```
    /// Source: the definition of a pitch.
    pub fn axis_length(plan_length: Length, pitch: Angle) -> Length {
        plan_length / pitch.in_rad().cos()
    }
}

formula! {
    /// How far one axis lies above the other where two touching poles cross, straight up.
    ///
    /// ```text
    /// v = D √(1 − cos²α sin²(π/n)) / (cos α cos(π/n))
    /// ```
    /// Source: distance of two skew lines of equal pitch.
    pub fn crossing_offset(count: u64, axis_distance: Length, pitch: Angle) -> Length {
        let (cos, half) = (pitch.in_rad().cos(), half(count));
        axis_distance * ((1.0 - (cos * half.sin()).powi(2)).sqrt() / (cos * half.cos()))
    }
}

formula! {
    /// Height of a pole's axis at its second crossing above the axis at its outer support.
    ///
    /// ```text
    /// z = x tan α
    /// ```
    /// Source: the definition of a pitch.
    pub fn crossing_height(plan_length: Length, pitch: Angle) -> Length {
        plan_length * pitch.in_rad().tan()
    }
}

formula! {
    /// Height of a pole's axis at its first crossing above the axis at its outer support.
    ///
    /// ```text
    /// z = x₁ tan α
    /// ```
    /// Source: the definition of a pitch.
    pub fn first_crossing_height(to_first_crossing: Length, pitch: Angle) -> Length {
        to_first_crossing * pitch.in_rad().tan()
    }
}

formula! {
    /// How far from the crossing in plan two poles touch, along either axis: up the lower pole, down the upper.
    ///
    /// ```text
    /// a = v sin α / (2 − k)        k = cos²α (1 − cos(2π/n))
    /// ```
    /// Source: foot of the common perpendicular of two skew lines.
    pub fn contact_shift(count: u64, crossing_offset: Length, pitch: Angle) -> Length {
        let k = pitch.in_rad().cos().powi(2) * (1.0 - (2.0 * half(count)).cos());
        crossing_offset * (pitch.in_rad().sin() / (2.0 - k))
    }
}

formula! {
    /// Height of the underside of a pole at its second crossing above the axis at its outer support: the top of the prop,
    /// less what the last pole needs to slip in.
    ///
    /// ```text
    /// h = z − d / (2 cos α)
    /// ```
    /// Source: a round pole cut upright.
    pub fn prop_height(crossing_height: Length, diameter: Length, pitch: Angle) -> Length {
        crossing_height - diameter / (2.0 * pitch.in_rad().cos())
    }
}

formula! {
    /// From the outer support of a pole to the eave, in plan along the pole, which runs past the eye's centre, not over it.
    ///
    /// ```text
    /// e = √((R + o)² − r² cos²(π/n)) − √(R² − r² cos²(π/n))        o: support to eave, square to the wall
    /// ```
    /// Source: a chord of concentric circles.
    pub fn support_to_eave(count: u64, plan_radius: Length, eye_radius: Length, out: Length) -> Length {
        let apothem = eye_radius.in_m() * half(count).cos();
        let reach = |radius: Length| (radius.in_m().powi(2) - apothem.powi(2)).sqrt();
        Length::m(reach(plan_radius + out) - reach(plan_radius))
    }
}

formula! {
    /// Length to which poles are ordered: from the eave past the outer support to the tip beyond the second crossing.
    ///
    /// ```text
    /// l = (e + x + t) / cos α        e: support to eave, t: tip beyond the crossing, both in plan along the pole
    /// ```
    /// Source: the definition of a pitch.
    pub fn pole_length(support_to_eave: Length, plan_length: Length, tip: Length, pitch: Angle) -> Length {
        (support_to_eave + plan_length + tip) / pitch.in_rad().cos()
    }
}

formula! {
    /// Radius of the eye at which the poles lie at a wanted pitch.
    ///
    /// ```text
    /// r = D √(1 − cos²α sin²(π/n)) / (sin(2π/n) sin α)
    /// ```
    /// Source: the equation of the pitch, turned round.
    pub fn eye_radius_for_pitch(count: u64, axis_distance: Length, wanted_pitch: Angle) -> Length {
        axis_distance / axis_distance_over_radius(count, wanted_pitch)
    }
}

formula! {
    /// What notches must take off for a wanted pitch.
    ///
    /// ```text
    /// notch = d − r sin(2π/n) sin α / √(1 − cos²α sin²(π/n))
    /// ```
    /// Source: the equation of the pitch, turned round.
    pub fn notch_for_pitch(count: u64, eye_radius: Length, diameter: Length, wanted_pitch: Angle) -> Length {
        diameter - eye_radius * axis_distance_over_radius(count, wanted_pitch)
    }
}

fn axis_distance_over_radius(count: u64, pitch: Angle) -> f64 {
    let half = half(count);
    let cos = pitch.in_rad().cos();
    (2.0 * half).sin() * pitch.in_rad().sin() / (1.0 - (cos * half.sin()).powi(2)).sqrt()
}

formula! {
    /// Force with which each pole bears on the next, under a load along the poles, on each metre of plan.
    ///
    /// Upright forces only, handed on where the axes cross in plan; no thrust, nothing beyond the second crossing, no load on
    /// the overhang.
    ///
    /// ```text
    /// F = w x² / (2 x₂)
    /// ```
    /// Source: equilibrium of one pole in a regular frame, derived for this project, checked against a solution as a space
    /// frame.
    pub fn crossing_force_line_load(plan_length: Length, between_crossings: Length; newtons_on_a_metre: f64) -> Force {
        Force::n(newtons_on_a_metre * plan_length.in_m().powi(2) / (2.0 * between_crossings.in_m()))
    }
}

formula! {
    /// Force with which each pole bears on the next, under an even load on the ring between eye and wall.
    ///
    /// Upright forces only, handed on where the axes cross in plan; no thrust, no load on eye and overhang.
    ///
    /// ```text
    /// F = M / x₂
    /// M = p (2π/n) [qᵣ (qᵣ² − q₁²) / 2 − (qᵣ³ − q₁³) / 3]
    /// qᵣ = √(R² − r² cos²(π/n)),  q₁ = x₂ / 2
    /// ```
    /// Source: equilibrium of one pole in a regular frame, derived for this project, checked against a solution as a space
    /// frame.
    pub fn crossing_force_area_load(
        count: u64, plan_radius: Length, eye_radius: Length, between_crossings: Length, load: Pressure
    ) -> Force {
        let apothem = eye_radius.in_m() * half(count).cos();
        let outer = (plan_radius.in_m().powi(2) - apothem.powi(2)).sqrt();
        let inner = 0.5 * between_crossings.in_m();
        let moment = load.in_pa() * 2.0 * half(count)
            * (outer * (outer.powi(2) - inner.powi(2)) / 2.0 - (outer.powi(3) - inner.powi(3)) / 3.0);
        Force::n(moment / between_crossings.in_m())
    }
}

formula! {
    /// Largest bending moment of a pole, at its first crossing, under a load along the poles, in newton metres.
    ///
    /// ```text
    /// M = w (x² − x₂²) / 2
    /// ```
    /// Source: equilibrium of one pole in a regular frame, derived for this project, checked against a solution as a space
    /// frame.
    pub fn moment_at_first_crossing_n_m(
        plan_length: Length, between_crossings: Length; newtons_on_a_metre: f64
    ) -> f64 {
        newtons_on_a_metre * (plan_length.in_m().powi(2) - between_crossings.in_m().powi(2)) / 2.0
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn poles_too_thick_for_their_eye_do_not_close() {
        assert!(!closes(6, Length::m(0.10), Length::m(0.20)));
        assert!(!closes(2, Length::m(1.0), Length::m(0.2)));
        assert!(closes(9, Length::m(0.9), Length::m(0.192)));
    }

    #[test]
    fn a_notch_cut_for_a_pitch_gives_that_pitch() {
        let (count, eye, diameter, wanted) = (8, Length::m(0.6), Length::m(0.2), Angle::deg(20.0));
        let notch = notch_for_pitch(count, eye, diameter, wanted).value;
        let found = pitch(count, eye, axis_distance(diameter, notch).value).value;
        assert!((found.in_rad() - wanted.in_rad()).abs() < 1e-12);
        let eye_again = eye_radius_for_pitch(count, diameter - notch, wanted).value;
        assert!((eye_again - eye).abs() < Length::mm(1e-9));
    }

    #[test]
    fn each_pole_climbs_between_its_crossings_by_what_touching_poles_lie_apart() {
        let (count, eye, distance) = (9, Length::m(0.9), Length::m(0.19));
        let pitch = pitch(count, eye, distance).value;
        let climb = between_crossings(count, eye).value * pitch.in_rad().tan();
        assert!((climb - crossing_offset(count, distance, pitch).value).abs() < Length::mm(1e-9));
    }
}

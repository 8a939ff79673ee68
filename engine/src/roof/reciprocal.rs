//! A reciprocal roof in plan and in height: equal straight round poles, each resting on the next round an eye.
//!
//! The axes start on a circle of radius R at the outer supports and cross, in plan, on a circle of radius r, the eye. A
//! rafter carries its neighbour at its first crossing from the wall and rests on the next at its second.

use std::f64::consts::PI;

use crate::reason::formula;
use crate::units::{Angle, Area, Length};

/// Half the angle from one rafter to the next, in radians.
pub(super) fn half_turn(count: u64) -> f64 {
    PI / count as f64
}

/// √(1 − cos²α sin²(π/n)): how much nearer the axes pass for crossing askew.
fn skew(count: u64, pitch: Angle) -> f64 {
    (1.0 - (pitch.in_rad().cos() * half_turn(count).sin()).powi(2)).sqrt()
}

/// Whether `count` rafters can rest on each other round an eye of `eye_radius`, their axes `axis_distance` apart where
/// they cross. Ask it before [`pitch`].
///
/// The equation of the pitch asks for 2 r cos(π/n) > D and for a sine below 1. Both hold where r sin(2π/n) > D: at equality
/// the rafters would stand upright. False also for fewer than three rafters and for lengths not above zero.
///
/// Source: closing condition of touching cylinders; derived for this project.
#[must_use]
pub fn closes(count: u64, eye_radius: Length, axis_distance: Length) -> bool {
    count >= 3 && axis_distance > Length::ZERO && most_apart(count, eye_radius) > axis_distance
}

/// How far apart the axes of `count` rafters would have to be at their crossings to stand upright round an eye of `eye_radius`:
/// D = r sin(2π/n). Rafters close only where they are nearer.
///
/// Source: as for [`closes`].
#[must_use]
pub fn most_apart(count: u64, eye_radius: Length) -> Length {
    eye_radius * (2.0 * half_turn(count)).sin()
}

formula! {
    /// Radius of the circle on which the rafters start.
    ///
    /// It is the circle of the same area as the plate line encloses. For a plan that is not a circle this is a first cut: each
    /// rafter must then be measured out by itself.
    ///
    /// ```text
    /// R = √(A / π)
    /// ```
    /// Source: area of a circle, elementary geometry.
    pub fn plan_radius(enclosed_area: Area) -> Length {
        Length::m((enclosed_area.in_m2() / PI).sqrt())
    }
}

formula! {
    /// Distance between the axes of two rafters where they cross.
    ///
    /// The notch is its whole depth at a crossing, in both poles together.
    ///
    /// ```text
    /// D = d − notch        d: diameter of the poles where they cross
    /// ```
    /// Source: the definition of touching round poles.
    pub fn axis_distance(diameter: Length, notch: Length) -> Length {
        diameter - notch
    }
}

formula! {
    /// Pitch of the rafters of a reciprocal roof.
    ///
    /// Count, eye and poles fix it; the size of the house does not. All poles are equal and all supports level.
    ///
    /// ```text
    /// sin α = D cot(π/n) / √(4 r² cos²(π/n) − D²)        n: rafters, r: radius of the eye, D: between the axes
    /// ```
    /// Source: closing condition of touching cylinders; derived for this project.
    ///
    /// # Errors
    /// Not a number where [`closes`] says that the rafters do not close.
    pub fn pitch(count: u64, eye_radius: Length, axis_distance: Length) -> Angle {
        let across = 2.0 * eye_radius * half_turn(count).cos();
        let root = (across * across - axis_distance * axis_distance).in_m2().sqrt();
        Angle::rad((axis_distance.in_m() / (half_turn(count).tan() * root)).asin())
    }
}

formula! {
    /// Distance in plan along a rafter between its two crossings.
    ///
    /// ```text
    /// x₂ = 2 r sin(π/n)
    /// ```
    /// Source: side of a regular polygon, elementary geometry.
    pub fn between_crossings(count: u64, eye_radius: Length) -> Length {
        2.0 * eye_radius * half_turn(count).sin()
    }
}

formula! {
    /// Distance in plan along a rafter from its outer support to its first crossing.
    ///
    /// The eye must be smaller than the circle of the supports.
    ///
    /// ```text
    /// x₁ = √(R² − r² cos²(π/n)) − r sin(π/n)        R: circle of the outer supports
    /// ```
    /// Source: Pythagoras; the rafter runs along a side of a regular polygon.
    pub fn to_first_crossing(count: u64, plan_radius: Length, eye_radius: Length) -> Length {
        let from_centre = eye_radius * half_turn(count).cos();
        let half_chord = Length::m((plan_radius * plan_radius - from_centre * from_centre).in_m2().sqrt());
        half_chord - eye_radius * half_turn(count).sin()
    }
}

formula! {
    /// Length of a rafter in plan from its outer support to its second crossing.
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
    /// Length along the axis of a rafter over a length in plan.
    ///
    /// ```text
    /// l = x / cos α
    /// ```
    /// Source: the definition of the cosine.
    pub fn axis_length(plan_length: Length, pitch: Angle) -> Length {
        plan_length / pitch.in_rad().cos()
    }
}

formula! {
    /// From the outer support of a pole to the eave, in plan along the pole, which runs past the eye's centre, not over it.
    ///
    /// ```text
    /// e = √((R + o)² − r² cos²(π/n)) − √(R² − r² cos²(π/n))        o: support to eave, square to the wall
    /// ```
    /// Source: Pythagoras; the rafter runs along a side of a regular polygon.
    pub fn support_to_eave(count: u64, plan_radius: Length, eye_radius: Length, out: Length) -> Length {
        let from_centre = eye_radius.in_m() * half_turn(count).cos();
        let reach = |radius: Length| (radius.in_m().powi(2) - from_centre.powi(2)).sqrt();
        Length::m(reach(plan_radius + out) - reach(plan_radius))
    }
}

formula! {
    /// Length to cut a pole to.
    ///
    /// Overhang beyond the outer support and tip beyond the second crossing are both measured in plan along the rafter. Nothing is
    /// added for trimming.
    ///
    /// ```text
    /// l = (x + overhang + tip) / cos α
    /// ```
    /// Source: the definition of the cosine.
    pub fn pole_length(plan_length: Length, overhang: Length, tip: Length, pitch: Angle) -> Length {
        (plan_length + overhang + tip) / pitch.in_rad().cos()
    }
}

formula! {
    /// How far the axis of the upper rafter lies plumb above that of the lower where they cross in plan.
    ///
    /// It is not D / cos α, since the axes are askew.
    ///
    /// ```text
    /// v = D √(1 − cos²α sin²(π/n)) / (cos α cos(π/n))
    /// ```
    /// Source: shortest distance between two lines in space; derived for this project.
    pub fn crossing_offset(count: u64, axis_distance: Length, pitch: Angle) -> Length {
        axis_distance * (skew(count, pitch) / (pitch.in_rad().cos() * half_turn(count).cos()))
    }
}

formula! {
    /// Height of the axis of a rafter at a crossing above its axis at the outer support.
    ///
    /// ```text
    /// z = x tan α        x: in plan from the outer support, x₁ to the first crossing, x₁ + x₂ to the second
    /// ```
    /// Source: the definition of the tangent.
    pub fn crossing_height(plan_distance: Length, pitch: Angle) -> Length {
        plan_distance * pitch.in_rad().tan()
    }
}

formula! {
    /// Distance along the axis from the crossing in plan to where the poles touch.
    ///
    /// They touch farther up the lower pole and farther down the upper one. A notch belongs there, not at the crossing in plan.
    ///
    /// ```text
    /// a = v sin α / (2 − k),  k = cos²α (1 − cos(2π/n))
    /// ```
    /// Source: feet of the common perpendicular of two lines in space; derived for this project.
    pub fn contact_shift(count: u64, crossing_offset: Length, pitch: Angle) -> Length {
        let k = pitch.in_rad().cos().powi(2) * (1.0 - (2.0 * half_turn(count)).cos());
        crossing_offset * (pitch.in_rad().sin() / (2.0 - k))
    }
}

formula! {
    /// Height of the underside of a rafter at its second crossing above the axis at the outer support.
    ///
    /// The prop under the first rafter stands this high, and higher by what is needed to slip the last rafter under the first.
    ///
    /// ```text
    /// h = z − d / (2 cos α)        z: height of the axis there, d: diameter of the pole
    /// ```
    /// Source: plumb section of a round pole, elementary geometry.
    pub fn prop_height(crossing_height: Length, diameter: Length, pitch: Angle) -> Length {
        crossing_height - diameter / (2.0 * pitch.in_rad().cos())
    }
}

formula! {
    /// Radius of the eye that gives a wanted pitch.
    ///
    /// ```text
    /// r = D √(1 + (cot(π/n) / sin α)²) / (2 cos(π/n))
    /// ```
    /// Source: closing condition of touching cylinders; derived for this project.
    pub fn eye_radius_for_pitch(count: u64, axis_distance: Length, pitch: Angle) -> Length {
        let steep = 1.0 / (half_turn(count).tan() * pitch.in_rad().sin());
        axis_distance * (1.0_f64.hypot(steep) / (2.0 * half_turn(count).cos()))
    }
}

formula! {
    /// Notch at each crossing that gives a wanted pitch; below zero the poles are too thin for it.
    ///
    /// It is the whole depth at a crossing, in both poles together.
    ///
    /// ```text
    /// notch = d − r sin(2π/n) sin α / √(1 − cos²α sin²(π/n))
    /// ```
    /// Source: closing condition of touching cylinders; derived for this project.
    pub fn notch_for_pitch(count: u64, eye_radius: Length, diameter: Length, pitch: Angle) -> Length {
        let apart = (2.0 * half_turn(count)).sin() * pitch.in_rad().sin() / skew(count, pitch);
        diameter - eye_radius * apart
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[track_caller]
    fn near(found: f64, expected: f64) {
        assert!((found - expected).abs() < 1e-12, "{found} is not {expected}");
    }

    #[test]
    fn rafters_that_cannot_close_are_refused_and_have_no_pitch() {
        let (eye, thick) = (Length::m(0.1), Length::m(0.2));
        assert!(!closes(6, eye, thick));
        assert!(pitch(6, eye, thick).value.in_rad().is_nan());
        assert!(closes(6, Length::m(0.5), thick));
        assert!(!closes(2, Length::m(0.5), thick));
        assert!(!closes(6, Length::m(0.5), Length::ZERO));
        assert!(!closes(6, Length::m(-0.5), thick));
    }

    #[test]
    fn rafters_close_just_where_the_equation_of_the_pitch_has_an_answer() {
        for count in 3..30 {
            let least = eye_radius_for_pitch(count, Length::m(0.15), Angle::deg(90.0)).value;
            for (share, closing) in [(0.999_999, false), (1.000_001, true)] {
                let eye = least * share;
                assert_eq!(closes(count, eye, Length::m(0.15)), closing, "{count}");
                assert_eq!(pitch(count, eye, Length::m(0.15)).value.in_rad().is_finite(), closing, "{count}");
            }
        }
    }

    #[test]
    fn the_notch_and_the_eye_for_a_pitch_give_that_pitch() {
        for count in [3, 4, 7, 12, 25] {
            for wanted in [Angle::deg(8.0), Angle::deg(20.0), Angle::deg(45.0)] {
                let (eye, diameter) = (Length::m(0.7), Length::m(0.2));
                let notch = notch_for_pitch(count, eye, diameter, wanted).value;
                let distance = axis_distance(diameter, notch).value;
                near(pitch(count, eye, distance).value.in_rad(), wanted.in_rad());
                near(eye_radius_for_pitch(count, distance, wanted).value.in_m(), eye.in_m());
            }
        }
    }

    /// A point on the axis of the rafter whose crossings are the corners `first` and `first + 1` of the eye.
    fn on_axis(first: f64, along: f64) -> [f64; 3] {
        let (count, outer, eye, thick) = (7_u64, Length::m(3.0), Length::m(0.6), Length::m(0.16));
        let pitch = pitch(count, eye, thick).value.in_rad();
        let plan = along * pitch.cos() - to_first_crossing(count, outer, eye).value.in_m();
        let corner = |at: f64| ((2.0 * half_turn(count) * at).cos(), (2.0 * half_turn(count) * at).sin());
        let ((x1, y1), (x2, y2)) = (corner(first), corner(first + 1.0));
        let side = (x2 - x1).hypot(y2 - y1);
        let place = |from: f64, to: f64| eye.in_m() * from + plan * (to - from) / side;
        [place(x1, x2), place(y1, y2), along * pitch.sin()]
    }

    #[test]
    fn the_poles_touch_where_the_contact_shift_says_and_nowhere_overlap() {
        let (count, outer, eye, thick) = (7_u64, Length::m(3.0), Length::m(0.6), Length::m(0.16));
        let pitch = pitch(count, eye, thick).value;
        let offset = crossing_offset(count, thick, pitch).value;
        let shift = contact_shift(count, offset, pitch).value.in_m();
        let before = to_first_crossing(count, outer, eye).value;
        let whole = plan_length(before, between_crossings(count, eye).value).value;
        let upper = axis_length(whole, pitch).value.in_m() - shift;
        let lower = axis_length(before, pitch).value.in_m() + shift;
        let apart = |on_upper: f64, on_lower: f64| {
            let (one, other) = (on_axis(0.0, on_upper), on_axis(1.0, on_lower));
            (0..3).map(|axis| (one[axis] - other[axis]).powi(2)).sum::<f64>().sqrt()
        };
        near(apart(upper, lower), thick.in_m());
        for (move_upper, move_lower) in [(0.01, 0.0), (-0.01, 0.0), (0.0, 0.01), (0.0, -0.01), (0.01, 0.01)] {
            assert!(apart(upper + move_upper, lower + move_lower) > thick.in_m());
        }
    }

    #[test]
    fn the_circle_of_the_supports_has_the_area_of_the_plan() {
        near(plan_radius(Area::m2(9.0 * PI)).value.in_m(), 3.0);
    }

    #[test]
    fn overhang_and_tip_lengthen_the_pole_by_their_slope() {
        let cut = pole_length(Length::m(3.0), Length::m(0.6), Length::m(0.4), Angle::deg(60.0)).value;
        near(cut.in_m(), 8.0);
    }
}

//! Forces between the rafters of a reciprocal roof and the bending they make.
//!
//! All loads are plumb and equal on every rafter, and pass plumb at the crossing of the axes in plan; the outer supports push
//! up and not sideways; nothing loads an overhang or the eye. Then each rafter is a beam on its outer support and its second
//! crossing that carries its neighbour at its first crossing.

use std::f64::consts::TAU;

use super::reciprocal::half_turn;
use crate::reason::formula;
use crate::units::{Force, Length, Pressure};

formula! {
    /// Force from rafter to rafter at each crossing under an even load along the rafters.
    ///
    /// The load is the force on each metre of the rafter's length in plan. Plumb forces only, no thrust at the outer support, no
    /// load on overhang or eye.
    ///
    /// ```text
    /// F = w x² / (2 x₂)        x: in plan to the second crossing, x₂: between the crossings
    /// ```
    /// Source: equilibrium of one rafter, all rafters alike; derived for this project.
    pub fn crossing_force_line_load(
        load_on_each_metre: Force, plan_length: Length, between_crossings: Length
    ) -> Force {
        load_on_each_metre * (0.5 * plan_length.in_m() * (plan_length / between_crossings))
    }
}

formula! {
    /// Force from rafter to rafter at each crossing under an even load on the area in plan.
    ///
    /// The load is that on each square metre in plan, from the eye to the circle of the outer supports; each rafter takes its
    /// share at the same distance from the middle. Plumb forces only, no thrust at the outer support, no load on overhang or eye.
    ///
    /// ```text
    /// F = M / x₂
    /// M = p (2π/n) (q₂ (q₂² − q₁²) / 2 − (q₂³ − q₁³) / 3)
    /// q₁ = x₂ / 2,  q₂ = √(R² − r² cos²(π/n)),  x₂ = 2 r sin(π/n)
    /// ```
    /// Source: equilibrium of one rafter, all rafters alike; derived for this project.
    pub fn crossing_force_area_load(
        area_load: Pressure, count: u64, plan_radius: Length, eye_radius: Length
    ) -> Force {
        let half_side = eye_radius.in_m() * half_turn(count).sin();
        let from_centre = eye_radius.in_m() * half_turn(count).cos();
        let half_chord = (plan_radius.in_m().powi(2) - from_centre.powi(2)).sqrt();
        let squares = half_chord * (half_chord.powi(2) - half_side.powi(2)) / 2.0;
        let cubes = (half_chord.powi(3) - half_side.powi(3)) / 3.0;
        Force::n(area_load.in_pa() * TAU / count as f64 * (squares - cubes) / (2.0 * half_side))
    }
}

formula! {
    /// Bending moment of a rafter at its first crossing, in newton metres, under an even load along the rafters.
    ///
    /// It is the largest in the rafter. The load is the force on each metre of the rafter's length in plan. Plumb forces only, no
    /// thrust at the outer support, no load on overhang or eye.
    ///
    /// ```text
    /// M = w (x² − x₂²) / 2
    /// ```
    /// Source: equilibrium of one rafter, all rafters alike; derived for this project.
    pub fn moment_at_first_crossing_line_load_n_m(
        load_on_each_metre: Force, plan_length: Length, between_crossings: Length
    ) -> f64 {
        0.5 * load_on_each_metre.in_n() * (plan_length * plan_length - between_crossings * between_crossings).in_m2()
    }
}

formula! {
    /// Bending moment of a rafter at its first crossing, in newton metres, under an even load on the area in plan.
    ///
    /// It is the largest in the rafter; nothing loads the rafter within the eye.
    ///
    /// ```text
    /// M = F x₂        F: force at the crossing under the same load
    /// ```
    /// Source: equilibrium of one rafter, all rafters alike; derived for this project.
    pub fn moment_at_first_crossing_area_load_n_m(crossing_force: Force, between_crossings: Length) -> f64 {
        crossing_force.in_n() * between_crossings.in_m()
    }
}

//! The deck as a whole: sums over its bays.

use super::frame::Frame;
use super::space::{cross, dot, in_plan, length, unit};
use crate::reason::formula;
use crate::solve::quadrature::places;
use crate::units::{Area, Slope};

formula! {
    /// Area of the deck on its twisted surface.
    ///
    /// ```text
    /// A = Σ ∫∫ |∂P/∂u × ∂P/∂v| du dv        P: the surface ruled between two top lines, from eave to eye
    /// ```
    /// Source: area of a parametric surface, any textbook of vector calculus; by Gauss-Legendre.
    pub fn deck_area(; frame: &Frame) -> Area {
        frame.surfaces().iter().map(|surface| surface.area).sum()
    }
}

formula! {
    /// Area of the deck in plan.
    ///
    /// ```text
    /// A = Σ ∫∫ (∂P/∂u × ∂P/∂v)_z du dv
    /// ```
    /// Source: area of a parametric surface seen from above, any textbook of vector calculus; by Gauss-Legendre.
    pub fn deck_plan_area(; frame: &Frame) -> Area {
        frame.surfaces().iter().map(|surface| surface.plan_area).sum()
    }
}

formula! {
    /// The steepest slope anywhere on the deck.
    ///
    /// ```text
    /// s = largest of √(z_x² + z_y²)        z_x, z_y: how the surface rises towards x and y
    /// ```
    /// Source: the slope of a surface, any textbook of vector calculus; searched for.
    pub fn steepest_slope(; frame: &Frame) -> Slope {
        frame.steepest().iter().map(|bay| bay.slope).fold(Slope::ZERO, Slope::max)
    }
}

formula! {
    /// The largest twist of a board on each metre of it, in radians.
    ///
    /// ```text
    /// θ′ = angle between the surface's normals at the two ends of a ruling / its length
    /// ```
    /// Source: the definition of twist; the largest among 65 rulings of each bay.
    pub fn largest_twist_on_a_metre(; frame: &Frame) -> f64 {
        frame.bays().iter().map(|bay| bay.twist_on_a_metre()).fold(0.0, f64::max)
    }
}

formula! {
    /// Mean curvature of the deck summed over it, in metres; below zero where it is round like a dome.
    ///
    /// A ridge over a rafter counts as well: layers meet over it in a mitre.
    ///
    /// ```text
    /// B = Σ ∫∫ H dA − Σ ∫ tan(φ/2) dl        H: mean curvature of a bay, φ: angle of the ridge, below zero for a valley
    /// ```
    /// Source: Steiner's formula for parallel surfaces, ridges mitred; by Gauss-Legendre.
    pub fn summed_mean_curvature(; frame: &Frame) -> f64 {
        let bays: f64 = frame.surfaces().iter().map(|surface| surface.bend).sum();
        bays - (0..frame.rafters().len()).map(|rafter| ridge(frame, rafter)).sum::<f64>()
    }
}

formula! {
    /// Gaussian curvature of the deck summed over its bays; below zero where they are twisted.
    ///
    /// ```text
    /// C = Σ ∫∫ K dA        K: Gaussian curvature
    /// ```
    /// Source: Steiner's formula for parallel surfaces; by Gauss-Legendre.
    pub fn summed_gaussian_curvature(; frame: &Frame) -> f64 {
        frame.surfaces().iter().map(|surface| surface.twist).sum()
    }
}

/// ∫ tan(φ/2) dl along a rafter between its cuts.
fn ridge(frame: &Frame, rafter: usize) -> f64 {
    let [Some(left), Some(right)] = frame.sides(rafter) else { return 0.0 };
    let bays = frame.bays();
    let top = frame.rafters()[rafter];
    let way = in_plan(top.eye) - in_plan(top.eave);
    let edge = |bay: usize| if bays[bay].rafters[0] == rafter { 0.0 } else { 1.0 };
    let bent = |u: f64| {
        let [one, other] = [left, right].map(|bay| unit(bays[bay].patch.normal(u, edge(bay))));
        let [[left_x, left_y], [right_x, right_y]] = [left, right].map(|bay| bays[bay].patch.slopes(u, edge(bay)));
        let rise_away = (left_x - right_x) * -way.y + (left_y - right_y) * way.x;
        let angle = length(cross(one, other)).atan2(dot(one, other));
        if rise_away > 0.0 { -(0.5 * angle).tan() } else { (0.5 * angle).tan() }
    };
    places(0.0, 1.0).map(|(u, weight)| weight * bent(u)).sum::<f64>() * top.length().in_m()
}

//! The deck as a whole: sums over its bays.

use super::frame::Frame;
use crate::reason::formula;
use crate::units::{Area, Slope};

formula! {
    /// Area of the deck on its twisted surface.
    ///
    /// ```text
    /// A = Σ ∫∫ |∂P/∂u × ∂P/∂v| du dv        P: the surface ruled between two top lines, from eave to eye
    /// ```
    /// Source: area of a parametric surface, any textbook of vector calculus; by Gauss-Legendre.
    pub fn deck_area(; frame: &Frame) -> Area {
        frame.bays().iter().map(|bay| bay.surface().area).sum()
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
        frame.bays().iter().map(|bay| bay.surface().plan_area).sum()
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
        frame.bays().iter().map(|bay| bay.steepest().slope).fold(Slope::ZERO, Slope::max)
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

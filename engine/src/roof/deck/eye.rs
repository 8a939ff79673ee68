//! The eye: the pieces of its frame, and its cover while it is a hole through which one can fall.

use super::frame::Frame;
use super::space::{Place, length, minus};
use crate::reason::formula;
use crate::units::{Area, Force, Length, Mass};

/// The pieces of the eye's frame, straight along the top from rafter to rafter, bay by bay.
#[must_use]
pub fn eye_frame(frame: &Frame) -> Vec<Length> {
    let piece = |[one, next]: [[Place; 2]; 2]| Length::m(length(minus(next[1], one[1])));
    frame.bays().iter().map(|bay| piece(bay.patch.corners)).collect()
}

formula! {
    /// Area in plan of the hole round which the deck ends.
    ///
    /// ```text
    /// A = π r²        r: radius of the edge of the deck
    /// ```
    /// Source: area of a circle, elementary geometry.
    pub fn hole_area(edge_radius: Length) -> Area {
        std::f64::consts::PI * (edge_radius * edge_radius)
    }
}

formula! {
    /// Clear width of the hole round which the deck ends.
    ///
    /// ```text
    /// w₁ = 2 r        r: radius of the edge of the deck
    /// ```
    /// Source: elementary geometry.
    pub fn hole_width(edge_radius: Length) -> Length {
        edge_radius * 2.0
    }
}

formula! {
    /// Size of the cover across the eye.
    ///
    /// ```text
    /// w = w₁ + 2 o        w₁: clear width of the eye, o: how far the cover lies over its frame
    /// ```
    /// Source: the sum of its parts.
    pub fn cover_size(clear: Length, lap: Length) -> Length {
        clear + lap * 2.0
    }
}

formula! {
    /// Load that comes on the cover at any one time: people, tools and material.
    ///
    /// ```text
    /// F = (n m + m′) g        n: people, m: mass of each, m′: mass of tools and material
    /// ```
    /// Source: weight.
    pub fn cover_load(people: u64, mass_of_each: Mass, things: Mass, gravity_m_s2: f64) -> Force {
        Force::n((mass_of_each.in_kg() * people as f64 + things.in_kg()) * gravity_m_s2)
    }
}

formula! {
    /// What the cover carries, as so many times the load that comes on it.
    ///
    /// ```text
    /// f = R / F        R: what the cover carries, F: load that comes on it
    /// ```
    /// Source: OSHA 29 CFR 1926, from memory: 1926.502(i), covers carry at least twice that load; the limit is a rule.
    pub fn cover_over_load(carries: Force, load: Force) -> f64 {
        carries / load
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_cover_for_two_people_and_a_barrow_load_is_held_against_their_weight() {
        let load = cover_load(2, Mass::kg(90.0), Mass::kg(50.0), 9.81).value;
        assert!((load.in_n() - 2256.3).abs() < 1e-9);
        assert!((cover_over_load(Force::n(4512.6), load).value - 2.0).abs() < 1e-12);
        assert_eq!(cover_size(Length::m(1.2), Length::mm(150.0)).value, Length::m(1.5));
    }
}

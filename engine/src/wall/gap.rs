//! The gap between the top of the wall and the roof: how high it is, and the cob that fills it.

use kurbo::Vec2;

use crate::curve::PlanLine;
use crate::reason::formula;
use crate::solve::quadrature::integral;
use crate::units::{Angle, Length, Ratio, Slope, Volume};

formula! {
    /// Height of a pole's wood over the middle of the wall's top, measured upright: the deck lies on the poles.
    ///
    /// ```text
    /// h = d / cos θ
    /// ```
    /// Source: a slope cuts a cylinder upright; that the mean over the wall's thickness is the height at its middle follows from
    /// an even slope.
    pub fn gap_at_poles(diameter: Length, pitch: Angle) -> Length {
        diameter / pitch.in_rad().cos()
    }
}

formula! {
    /// How far the deck of a roof that falls one way rises over the top of the wall, in the mean all round.
    ///
    /// ```text
    /// r = Σ ∫ f dl / Σ l − least f,  f = s u − t
    /// u: place up the fall on the middle of the wall's top, s: pitch, t: how the top itself rises, on the line of the wall
    /// ```
    /// Source: mean of a height along a line; exact for straight runs, arcs by Gauss-Legendre. Where the top rises, the least is that
    /// of corners and of as many even places as rafters are held against.
    pub fn gap_rise(pitch: Slope, slope: Slope; line: &PlanLine, offset: Length, up: Vec2, rises: Vec2) -> Length {
        let offset = offset.in_m();
        let (pitch, slope) = (pitch.in_ratio(), slope.in_ratio());
        let (mut moment, mut length) = (0.0, 0.0);
        for own in line.pieces() {
            let piece = own.offset(offset);
            let along_own = own.length() / piece.length();
            let top = |along: f64| slope * own.at(along * along_own).to_vec2().dot(rises);
            moment += integral(0.0, piece.length(), |along| pitch * piece.at(along).to_vec2().dot(up) - top(along));
            length += piece.length();
        }
        let least = if slope == 0.0 {
            pitch * line.reach(offset, up).0[0]
        } else {
            -highest_against(line, offset, up * pitch, |along| slope * line.at(along).point.to_vec2().dot(rises))
        };
        Length::m(moment / length - least)
    }
}

/// How high a top stands, in metres, over a plane that rises so for each metre in plan: where it stands highest on its middle.
pub fn highest_against(line: &PlanLine, offset: f64, rise: Vec2, top: impl Fn(f64) -> f64) -> f64 {
    let corners = (0..line.pieces().len()).map(|piece| line.start(piece));
    let even = (0..PLACES).map(|place| line.length() * f64::from(place) / f64::from(PLACES));
    let against = corners.chain(even).map(|along| top(along) - line.at(along).beside(offset).to_vec2().dot(rise));
    against.fold(f64::NEG_INFINITY, f64::max)
}

/// Places along the wall at which a top that is not level is held against the rafters.
const PLACES: u32 = 512;

formula! {
    /// Mean height of what fills the gap: up to a soft joint under the deck, so that the filling carries nothing.
    ///
    /// ```text
    /// h = p + r − j        p: poles, r: mean rise of the deck, j: joint
    /// ```
    /// Source: the whole is the sum of its parts.
    pub fn gap_height(poles: Length, rise: Length, joint: Length) -> Length {
        poles + rise - joint
    }
}

formula! {
    /// Cob beside the bond beam, on both sides of it up to its top.
    ///
    /// ```text
    /// V = l (t′ − w) h
    /// ```
    /// Source: Pappus's theorem; the middle of the beam lies over the middle of the wall's top.
    pub fn beside_beam(length: Length, top_thickness: Length, width: Length, height: Length) -> Volume {
        length * (top_thickness - width) * height
    }
}

formula! {
    /// Cob in the gap between wall or beam and deck, poles taken out.
    ///
    /// ```text
    /// V = l t′ h − k n π d² t′ / (4 cos θ)
    /// k: how often a pole crosses the wall: once in a reciprocal frame, twice where it falls one way from side to side
    /// ```
    /// Source: Pappus's theorem, less cylinders that cross the wall square; poles that cross aslant take a little more.
    pub fn gap_volume(
        length: Length, top_thickness: Length, height: Length, count: u64, diameter: Length, pitch: Angle; crossings: u64
    ) -> Volume {
        let pole = diameter * diameter * top_thickness * (std::f64::consts::FRAC_PI_4 / pitch.in_rad().cos());
        length * top_thickness * height - pole * (crossings * count) as f64
    }
}

formula! {
    /// Trimmings that do not go back to the tarp: they fill the gap first.
    ///
    /// ```text
    /// V = V₀ (1 − r)        V₀: trimmings, r: share that goes back
    /// ```
    /// Source: the whole is the sum of its parts.
    pub fn trimmings_left(trimmings: Volume, returned: Ratio) -> Volume {
        trimmings * (1.0 - returned.in_fraction())
    }
}

formula! {
    /// Cob to mix for the gap, after the trimmings that are left.
    ///
    /// ```text
    /// V = V₁ + V₂ − V₃, nothing below zero        V₁: beside the beam, V₂: in the gap, V₃: trimmings left
    /// ```
    /// Source: the whole is the sum of its parts.
    pub fn gap_to_mix(beside: Volume, gap: Volume, trimmings: Volume) -> Volume {
        (beside + gap - trimmings).max(Volume::ZERO)
    }
}

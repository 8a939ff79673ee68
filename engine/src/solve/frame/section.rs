//! Cross sections along a member, and the exact integrals of their flexibility.

use std::f64::consts::PI;

/// The cross section of a stretch of a member.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Section {
    /// The same all along the stretch.
    Even {
        /// Area of the section.
        area: f64,
        /// Second moment of area for bending about the local y axis.
        about_y: f64,
        /// Second moment of area for bending about the local z axis.
        about_z: f64,
        /// Torsion constant.
        twist: f64,
    },
    /// Round and full, its diameter changing evenly from one end of the stretch to the other.
    Round {
        /// Diameter where the stretch starts.
        first: f64,
        /// Diameter where it ends.
        last: f64,
    },
}

/// What a section offers at one place.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Constants {
    /// Area.
    pub area: f64,
    /// Second moment of area about the local y axis.
    pub about_y: f64,
    /// Second moment of area about the local z axis.
    pub about_z: f64,
    /// Torsion constant.
    pub twist: f64,
}

/// Integrals along a stretch of length 1 with s from 0 to 1: of 1/A, of 1/J, and of (1−s)²/I, s(1−s)/I, s²/I.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Flexibility {
    pub stretch: f64,
    pub twist: f64,
    pub about_y: [f64; 3],
    pub about_z: [f64; 3],
}

impl Section {
    /// Whether all that must be above zero is.
    pub(super) fn is_sound(&self) -> bool {
        let sizes = match *self {
            Section::Even { area, about_y, about_z, twist } => [area, about_y, about_z, twist],
            Section::Round { first, last } => [first, last, first, last],
        };
        sizes.iter().all(|size| size.is_finite() && *size > 0.0)
    }

    /// The section at the share `s` of its stretch.
    #[must_use]
    pub fn at(&self, s: f64) -> Constants {
        match *self {
            Section::Even { area, about_y, about_z, twist } => Constants { area, about_y, about_z, twist },
            Section::Round { first, last } => {
                let square = (first + (last - first) * s).powi(2);
                let second = PI / 64.0 * square * square;
                Constants { area: PI / 4.0 * square, about_y: second, about_z: second, twist: 2.0 * second }
            }
        }
    }

    /// The part of this section between two shares of its stretch.
    #[must_use]
    pub fn part(&self, from: f64, to: f64) -> Section {
        match *self {
            Section::Even { .. } => *self,
            Section::Round { first, last } => {
                let diameter = |s: f64| first + (last - first) * s;
                Section::Round { first: diameter(from), last: diameter(to) }
            }
        }
    }

    /// The exact integrals. For a round section with the diameter d(s) = a (1−s) + b s
    ///
    /// ```text
    /// ∫ ds/d² = 1/(a b),  ∫ (1−s)² ds/d⁴ = 1/(3 a³ b),  ∫ s(1−s) ds/d⁴ = 1/(6 a² b²),  ∫ s² ds/d⁴ = 1/(3 a b³)
    /// ```
    /// from ∫ sᵖ(1−s)^q / d^(p+q+2) ds = B(p+1, q+1) / (a^(q+1) b^(p+1)), by t = b s / d.
    pub(super) fn flexibility(&self) -> Flexibility {
        match *self {
            Section::Even { area, about_y, about_z, twist } => {
                let bent = |second: f64| [1.0 / (3.0 * second), 1.0 / (6.0 * second), 1.0 / (3.0 * second)];
                Flexibility { stretch: 1.0 / area, twist: 1.0 / twist, about_y: bent(about_y), about_z: bent(about_z) }
            }
            Section::Round { first: a, last: b } => {
                let near = 64.0 / PI / (3.0 * a * a * a * b);
                let both = 64.0 / PI / (6.0 * a * a * b * b);
                let far = 64.0 / PI / (3.0 * a * b * b * b);
                Flexibility {
                    stretch: 4.0 / (PI * a * b),
                    twist: 0.5 * (near + 2.0 * both + far),
                    about_y: [near, both, far],
                    about_z: [near, both, far],
                }
            }
        }
    }

    /// Area along the stretch as a quadratic a₀ + a₁ s + a₂ s².
    pub(super) fn area_powers(&self) -> [f64; 3] {
        match *self {
            Section::Even { area, .. } => [area, 0.0, 0.0],
            Section::Round { first: a, last: b } => {
                [a * a, 2.0 * a * (b - a), (b - a) * (b - a)].map(|square| PI / 4.0 * square)
            }
        }
    }

    /// Into how many equal parts the stretch is cut so that the eight-point rule is exact to rounding in each.
    pub(super) fn parts(&self) -> usize {
        match *self {
            Section::Even { .. } => 1,
            Section::Round { first, last } => {
                let ratio: f64 = (first / last).max(last / first);
                (1..64).find(|&parts| 1.0 + (ratio - 1.0) / f64::from(parts) <= 1.25).map_or(64, |parts| parts as usize)
            }
        }
    }
}

//! The stone in a stem wall: faces, hearting, through stones.

use crate::reason::formula;
use crate::solve::whole::rounded_up;
use crate::units::{Area, Length, Ratio, Volume};

formula! {
    /// Solid stone in the stem wall; the rest is air or mortar.
    ///
    /// ```text
    /// V′ = s V        s: solid share of the wall
    /// ```
    /// Source: the definition of the share.
    pub fn solid_stone(stem: Volume, solid: Ratio) -> Volume {
        stem * solid.in_fraction()
    }
}

formula! {
    /// Hearting: small stone packed between the two faces.
    ///
    /// ```text
    /// V′ = h V        h: share of the solid stone
    /// ```
    /// Source: the definition of the share.
    pub fn hearting(solid_stone: Volume, share: Ratio) -> Volume {
        solid_stone * share.in_fraction()
    }
}

formula! {
    /// Face stone: what is not hearting.
    ///
    /// ```text
    /// V′ = V − V hearting
    /// ```
    /// Source: the whole is the sum of its parts.
    pub fn face_stone(solid_stone: Volume, hearting: Volume) -> Volume {
        solid_stone - hearting
    }
}

formula! {
    /// Length of stem wall that is left between doors.
    ///
    /// ```text
    /// l = L − Σ w
    /// ```
    /// Source: the whole is the sum of its parts, on the centre line.
    pub fn stem_length(line_length: Length; doors: Length) -> Length {
        line_length - doors
    }
}

formula! {
    /// Through stones in one row half-way up the stem wall, each as long as the wall is wide.
    ///
    /// ```text
    /// n = l / a, rounded up        a: from one to the next
    /// ```
    /// Source: one in each spacing.
    pub fn through_stones(stem_length: Length, spacing: Length) -> u64 {
        rounded_up(stem_length / spacing)
    }
}

formula! {
    /// Area of the top of the stem wall.
    ///
    /// ```text
    /// S = l w
    /// ```
    /// Source: Pappus's theorem; the middle of the stem lies on the line.
    pub fn stem_bed(stem_length: Length, width: Length) -> Area {
        stem_length * width
    }
}

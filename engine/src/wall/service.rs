//! Services in a wall: sleeves straight through it or its stem, conduits upright in it.

use crate::reason::formula;
use crate::units::{Length, Slope, Volume};

formula! {
    /// Length of a sleeve through the stem wall.
    ///
    /// ```text
    /// l = w        w: width of the stem wall
    /// ```
    /// Source: the faces of the stem wall stand upright.
    pub fn sleeve_in_stem(stem_width: Length) -> Length {
        stem_width
    }
}

formula! {
    /// How far a drain falls on its way through the wall.
    ///
    /// ```text
    /// h = s l
    /// ```
    /// Source: the definition of a slope.
    pub fn fall_through(slope: Slope, length: Length) -> Length {
        length * slope
    }
}

formula! {
    /// Room that a round sleeve or conduit takes up.
    ///
    /// It is not taken off the wall or its stone: it is smaller than what a loaf or a stone differs from the next.
    ///
    /// ```text
    /// V = π d² l / 4
    /// ```
    /// Source: volume of a cylinder.
    pub fn cylinder(diameter: Length, length: Length) -> Volume {
        diameter * diameter * length * std::f64::consts::FRAC_PI_4
    }
}

formula! {
    /// Length of a conduit upright in the wall.
    ///
    /// ```text
    /// l = z₂ − z₁
    /// ```
    /// Source: the definition of a level.
    pub fn conduit_length(to_level: Length, level: Length) -> Length {
        to_level - level
    }
}

formula! {
    /// Length of a conduit above the foot of the cob.
    ///
    /// ```text
    /// l = z₂ − max(z₁, 0)
    /// ```
    /// Source: the definition of a level.
    pub fn conduit_in_cob(to_level: Length, level: Length) -> Length {
        to_level - level.max(Length::ZERO)
    }
}

formula! {
    /// How many pieces of a service are built in.
    ///
    /// ```text
    /// n = number of places
    /// ```
    /// Source: counted in the build file.
    pub fn pieces(; count: u64) -> u64 {
        count
    }
}

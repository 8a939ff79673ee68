//! Straight pole rafters side by side, all falling one way.

use crate::reason::formula;
use crate::solve::whole::rounded_up;
use crate::units::{Angle, Area, Length, Slope};

formula! {
    /// The pitch as an angle.
    ///
    /// ```text
    /// α = atan s
    /// ```
    /// Source: the definition of a slope.
    pub fn angle(pitch: Slope) -> Angle {
        Angle::rad(pitch.in_ratio().atan())
    }
}

formula! {
    /// Reach of an outline in one direction, level.
    ///
    /// ```text
    /// l = largest − smallest coordinate in that direction
    /// ```
    /// Source: the definition of the extent.
    pub fn reach(falls: Angle; reach: Length) -> Length {
        reach
    }
}

formula! {
    /// Rafters, the outermost two over the side walls, no two farther apart than the spacing.
    ///
    /// ```text
    /// n = l / s + 1, l / s rounded up        l: reach of the plate line across the fall, s: spacing
    /// ```
    /// Source: gaps between equal rafters.
    pub fn rafter_count(across: Length, spacing: Length) -> u64 {
        rounded_up(across / spacing).max(1) + 1
    }
}

formula! {
    /// Mean length of the rafters on the slope, eave to eave.
    ///
    /// ```text
    /// l = A / (w cos α)        A: area within the eave in plan, w: its reach across the fall
    /// ```
    /// Source: the mean of all chords of an area in one direction is its area over its width.
    pub fn mean_length(eave_area: Area, across: Length, pitch: Angle) -> Length {
        eave_area / across / pitch.in_rad().cos()
    }
}

formula! {
    /// Length of the longest rafter on the slope, eave to eave: what is ordered.
    ///
    /// ```text
    /// l = reach of the eave along the fall / cos α
    /// ```
    /// Source: the definition of a pitch; no chord is longer than the reach.
    pub fn longest(along: Length, pitch: Angle) -> Length {
        along / pitch.in_rad().cos()
    }
}

formula! {
    /// Rise of the rafters from the low plate to the high one.
    ///
    /// ```text
    /// h = l s        l: reach of the plate line along the fall
    /// ```
    /// Source: the definition of a slope.
    pub fn rise(along: Length, pitch: Slope) -> Length {
        along * pitch
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_gap_wider_than_the_spacing_gets_a_rafter_more() {
        let spacing = Length::mm(600.0);
        assert_eq!(rafter_count(Length::m(3.0), spacing).value, 6);
        assert_eq!(rafter_count(Length::m(3.001), spacing).value, 7);
    }

    #[test]
    fn on_a_rectangle_the_mean_rafter_is_the_longest() {
        let (along, across) = (Length::m(4.0), Length::m(5.0));
        let pitch = angle(Slope::ratio(0.2)).value;
        let mean = mean_length(along * across, across, pitch).value;
        assert!((mean - longest(along, pitch).value).abs() < Length::mm(1e-9));
    }
}

//! A trench of even width under a wall, its bottom falling to one outlet: both ways round from the far side, or from both ends.

use crate::reason::formula;
use crate::units::{Length, Slope, Volume};

formula! {
    /// Depth of the trench at its outlet, where it is deepest.
    ///
    /// The bottom falls both ways round from the far side, so each way is half the line long.
    ///
    /// ```text
    /// d′ = d + s L / 2
    /// ```
    /// Source: the definition of a fall.
    pub fn low_depth(depth: Length, fall: Slope, line_length: Length) -> Length {
        depth + (line_length * fall) * 0.5
    }
}

formula! {
    /// Depth of the trench below the ground at a named point of the wall.
    ///
    /// ```text
    /// d(x) = d + s (L / 2 − x)        x: shorter way along the line from the point to the outlet
    /// ```
    /// Source: the definition of a fall.
    pub fn depth_at(depth: Length, fall: Slope, line_length: Length; to_outlet: Length) -> Length {
        depth + (line_length * 0.5 - to_outlet) * fall
    }
}

formula! {
    /// Distance along the wall's line, from its start, the way one walks it with the room on the left.
    ///
    /// ```text
    /// s = Σ (runs − what rounding trims from them) + Σ rounded corners, up to there
    /// ```
    /// Source: the sum of its parts.
    pub fn station(; along: Length) -> Length {
        along
    }
}

formula! {
    /// Volume dug for the trench under the wall, with upright sides.
    ///
    /// ```text
    /// V = w L (d + s L / 4)
    /// ```
    /// Source: Pappus's theorem, the middle of the trench lies on the line; the mean of an even fall is half-way.
    pub fn trench_volume(width: Length, depth: Length, fall: Slope, line_length: Length) -> Volume {
        line_length * width * (depth + (line_length * fall) * 0.25)
    }
}

formula! {
    /// Longest way along the line of an open wall to the outlet of its trench: from the farther end, the high end.
    ///
    /// ```text
    /// x₁ = the larger of s and L − s        s: the outlet along the line
    /// ```
    /// Source: the definition of the distance.
    pub fn longest_way(; way: Length) -> Length {
        way
    }
}

formula! {
    /// Depth of the trench under an open wall at its outlet, where it is deepest.
    ///
    /// The bottom falls from both ends at one slope; it is least deep at the farther end.
    ///
    /// ```text
    /// d′ = d + s x₁        x₁: longest way along the line to the outlet
    /// ```
    /// Source: the definition of a fall.
    pub fn low_depth_of_open(depth: Length, fall: Slope, longest_way: Length) -> Length {
        depth + longest_way * fall
    }
}

formula! {
    /// Depth of the trench under an open wall below the ground at a named point.
    ///
    /// ```text
    /// d(x) = d + s (x₁ − x)        x: way along the line from the point to the outlet, x₁: the longest such way
    /// ```
    /// Source: the definition of a fall. Between outlet and high end x₁ − x is the way to the high end.
    pub fn depth_at_of_open(depth: Length, fall: Slope; longest_way: Length, to_outlet: Length) -> Length {
        depth + (longest_way - to_outlet) * fall
    }
}

formula! {
    /// Volume dug for the trench under an open wall, with upright sides.
    ///
    /// ```text
    /// V = w (d L + s (x₁ L − (x₁² + (L − x₁)²) / 2))        x₁: longest way along the line to the outlet
    /// ```
    /// Source: Pappus's theorem, the middle of the trench lies on the line; the depth integrated along both ways.
    pub fn trench_volume_of_open(
        width: Length, depth: Length, fall: Slope, line_length: Length, longest_way: Length
    ) -> Volume {
        let shorter = line_length - longest_way;
        let mean_fall = longest_way * line_length - (longest_way * longest_way + shorter * shorter) * 0.5;
        width * (line_length * depth + mean_fall * fall.in_ratio())
    }
}

formula! {
    /// A level below another by a depth.
    ///
    /// ```text
    /// z′ = z − d
    /// ```
    /// Source: the definition of a level.
    pub fn level_below(level: Length, depth: Length) -> Length {
        level - depth
    }
}

formula! {
    /// Fall of the drain from the outlet of the trench to where it comes to daylight.
    ///
    /// ```text
    /// s = (z − z′) / l        z: bottom of the trench at its outlet, z′: ground where the drain comes out
    /// ```
    /// Source: the definition of a fall.
    pub fn drain_fall(outlet_level: Length, daylight: Length, length: Length) -> Slope {
        Slope::ratio((outlet_level - daylight) / length)
    }
}

formula! {
    /// Volume dug for the drain, with upright sides, under ground that runs evenly to where the drain comes out.
    ///
    /// ```text
    /// V = w l d / 2        d: depth of the trench at its outlet
    /// ```
    /// Source: a wedge; the drain is as wide as the trench.
    pub fn drain_volume(width: Length, length: Length, depth: Length) -> Volume {
        width * length * depth * 0.5
    }
}

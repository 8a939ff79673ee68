//! Heights as a story pole carries them, and the steps at a door.

use crate::reason::formula;
use crate::solve::whole::rounded_up;
use crate::units::Length;

formula! {
    /// Height of a mark above the benchmark; below it when negative.
    ///
    /// ```text
    /// h = Σ ± levels and heights − b        b: level of the benchmark
    /// ```
    /// Source: the definition of a level.
    pub fn mark_level(benchmark: Length; level: Length) -> Length {
        level - benchmark
    }
}

formula! {
    /// Height of a mark on the story pole, from the pole's foot on the lowest mark.
    ///
    /// ```text
    /// h = z − z₀        z₀: level of the lowest mark
    /// ```
    /// Source: the definition of a level.
    pub fn mark_on_pole(; level: Length, lowest: Length) -> Length {
        level - lowest
    }
}

formula! {
    /// Step at a door, up to the threshold; down when negative.
    ///
    /// ```text
    /// h = z₂ − z₁
    /// ```
    /// Source: the definition of a level.
    pub fn threshold_step(threshold: Length, below: Length) -> Length {
        threshold - below
    }
}

formula! {
    /// Steps to build before a door, each no higher than the rise that was chosen; none where the threshold is no higher
    /// than the ground.
    ///
    /// ```text
    /// n = h / r, rounded up
    /// ```
    /// Source: one in each rise.
    pub fn steps(step: Length, rise: Length) -> u64 {
        rounded_up(step / rise)
    }
}

formula! {
    /// Height of each of the steps before a door, all alike.
    ///
    /// ```text
    /// r = h / n
    /// ```
    /// Source: equal steps.
    pub fn each_step(step: Length, steps: u64) -> Length {
        step / steps.max(1) as f64
    }
}

formula! {
    /// Depth of a threshold from the inner face of the stem to its drip.
    ///
    /// ```text
    /// d = w + p        p: how far it stands out of the stem, so that water drips clear
    /// ```
    /// Source: the whole is the sum of its parts.
    pub fn threshold_depth(stem_width: Length, drip: Length) -> Length {
        stem_width + drip
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_step_is_parted_into_no_more_steps_than_it_needs() {
        let count = |mm: f64| steps(Length::mm(mm), Length::mm(180.0)).value;
        assert_eq!([0.0, 1.0, 180.0, 181.0, 360.0, -50.0].map(count), [0, 1, 1, 2, 2, 0]);
        assert_eq!(each_step(Length::mm(330.0), 2).value, Length::mm(165.0));
    }
}

//! What a log of batches says: the yield, and whether batches still are as the first ten were.

use crate::reason::formula;
use crate::units::{Days, Effort, Ratio, Volume};

formula! {
    /// What a batch filled as it was laid, from its share of a lift, before anything was sawn off.
    ///
    /// ```text
    /// V = p (V lift + V sawn off)        p: share of the lift, paced or measured along it
    /// ```
    /// Source: the definition of the share.
    pub fn share_of_lift(share: Ratio, volume: Volume, trimmings: Volume) -> Volume {
        (volume + trimmings) * share.in_fraction()
    }
}

formula! {
    /// Yield: placed volume for each loose volume of soil, sand and aggregate.
    ///
    /// ```text
    /// y = V wall / Σ V loose
    /// ```
    /// Source: the definition of the yield; nothing is lost between tarp and wall.
    pub fn placed_yield(placed: Volume, loose: Volume) -> Ratio {
        Ratio::fraction(placed / loose)
    }
}

formula! {
    /// How far a batch may lie from the mean of the first ones before something has changed.
    ///
    /// ```text
    /// a = 3 · MR √π / 2        MR: mean step from one batch to the next, whose deviation is MR √π / 2
    /// ```
    /// Source: W. A. Shewhart (1931), chart of single values, from memory; √π / 2: mean difference of two normal numbers.
    pub fn strip_half(mean_step: f64) -> f64 {
        3.0 * mean_step * std::f64::consts::PI.sqrt() * 0.5
    }
}

formula! {
    /// The middle of the strip: the mean of the first batches.
    ///
    /// ```text
    /// m = Σ x / n        x: of each of the first ten batches, or of those that there are
    /// ```
    /// Source: the definition of the mean.
    pub fn strip_middle(; middle: f64) -> Ratio {
        Ratio::fraction(middle)
    }
}

formula! {
    /// How far a later batch may lie from the mean of the first ten before something has changed.
    ///
    /// ```text
    /// a = 3 · MR √π / 2        MR: mean step from one batch to the next
    /// ```
    /// Source: W. A. Shewhart (1931), chart of single values, from memory; √π / 2: mean difference of two normal numbers.
    pub fn strip_reach(; half: f64) -> Ratio {
        Ratio::fraction(half)
    }
}

formula! {
    /// Later batches that lie outside of the strip.
    ///
    /// ```text
    /// n = Σ 1        over the later batches with |x − m| > a in yield or moisture
    /// ```
    /// Source: W. A. Shewhart (1931), chart of single values, from memory.
    pub fn outside(; count: usize) -> u64 {
        count as u64
    }
}

formula! {
    /// Later batches at which the work stops until one knows what has changed: all that lie outside.
    ///
    /// ```text
    /// s = n        n: outside of the strip
    /// ```
    /// Source: common practice of such charts, no source.
    pub fn batches_changed(outside: u64) -> f64 {
        outside as f64
    }
}

formula! {
    /// What a batch took of people's time.
    ///
    /// ```text
    /// T = p t        p: people at the tarp, t: from the first bucket to the last loaf
    /// ```
    /// Source: counting.
    pub fn person_time(people: u64, time: Days) -> Days {
        time * people as f64
    }
}

formula! {
    /// People's time for each volume of the mix as it is placed.
    ///
    /// ```text
    /// q = Σ T / Σ V        over the batches of which both are written
    /// ```
    /// Source: counting.
    pub fn time_for_volume(time: Days, placed: Volume) -> Effort {
        time / placed
    }
}

formula! {
    /// People's time for the batches together.
    ///
    /// ```text
    /// Σ T        over the batches of which both time and placed volume are written
    /// ```
    /// Source: counting.
    pub fn time_in_all(; time: Days) -> Days {
        time
    }
}

formula! {
    /// Volume placed of the batches together.
    ///
    /// ```text
    /// Σ V        over the batches of which both time and placed volume are written
    /// ```
    /// Source: counting.
    pub fn placed_in_all(; placed: Volume) -> Volume {
        placed
    }
}

formula! {
    /// By how much the yield of the log lies above that of the recipe; below it, negative.
    ///
    /// ```text
    /// Δ = m − y        m: mean of the log, y: yield of the recipe
    /// ```
    /// Source: subtraction.
    pub fn yield_apart(logged: Ratio, of_the_recipe: Ratio) -> Ratio {
        logged - of_the_recipe
    }
}

/// The middle of a strip and its half, from the first values.
#[must_use]
pub fn strip(values: &[f64]) -> Option<(f64, f64)> {
    let steps = values.len().checked_sub(1).filter(|steps| *steps > 0)?;
    let mean = values.iter().sum::<f64>() / values.len() as f64;
    let step = values.windows(2).map(|pair| (pair[1] - pair[0]).abs()).sum::<f64>() / steps as f64;
    Some((mean, strip_half(step).value))
}

#[cfg(test)]
mod tests {
    use super::strip;

    /// Source: NIST/SEMATECH e-Handbook, 6.3.2.2, flow rates of ten batches: mean 50.81, mean step 1.8778, limits 55.8041 and
    /// 45.8159, from memory; the handbook takes 1.128 for 2/√π.
    #[test]
    fn the_strip_of_ten_flow_rates_is_that_of_the_handbook() {
        let rates = [49.6, 47.6, 49.9, 51.3, 47.8, 51.2, 52.6, 52.4, 53.6, 52.1];
        let (mean, half) = strip(&rates).unwrap();
        assert!((mean - 50.81).abs() < 1e-9);
        assert!((mean + half - 55.8041).abs() < 3e-3 && (mean - half - 45.8159).abs() < 3e-3, "{half}");
        assert_eq!(strip(&[1.0]), None);
    }
}

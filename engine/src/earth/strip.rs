//! What a log of batches says: the yield, and whether batches still are as the first ten were.

use crate::reason::formula;
use crate::units::{Ratio, Volume};

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

//! A bar by its lengths wet and dry: what it shrank by, and between what that lies.

use crate::reason::formula;
use crate::units::{Length, Ratio};

formula! {
    /// Which bar a code is shown: the one that may have shrunk most.
    ///
    /// ```text
    /// number of the greatest, counted from 1
    /// ```
    /// Source: the worst of several tests counts, our judgement.
    pub fn bar_that_counts(number: u64) -> u64 {
        number
    }
}

formula! {
    /// Shrinkage of a bar on drying, by its two lengths.
    ///
    /// ```text
    /// s = (L − l) / L        L: wet, as long as its form, l: dry, cracks closed by hand first
    /// ```
    /// Source: the definition of linear shrinkage; AU103.4.1, seen.
    pub fn bar_by_lengths(wet: Length, dry: Length) -> Ratio {
        Ratio::fraction((wet - dry) / wet)
    }
}

formula! {
    /// The least that a bar shrank by: its wet length read too long, its dry length too short.
    ///
    /// ```text
    /// s = max(0, 1 − (l + e) / (L − e))        e: how far each length may be off
    /// ```
    /// Source: the definition of linear shrinkage at the ends of both bands.
    pub fn bar_at_least(wet: Length, dry: Length, reading: Length) -> Ratio {
        Ratio::fraction((1.0 - (dry + reading) / (wet - reading)).max(0.0))
    }
}

formula! {
    /// The most that a bar shrank by: its wet length read too short, its dry length too long.
    ///
    /// ```text
    /// s = 1 − (l − e) / (L + e)        e: how far each length may be off
    /// ```
    /// Source: the definition of linear shrinkage at the ends of both bands.
    pub fn bar_at_most(wet: Length, dry: Length, reading: Length) -> Ratio {
        Ratio::fraction(1.0 - (dry - reading) / (wet + reading))
    }
}

formula! {
    /// Shrinkage of a mix, the mean of its bars.
    ///
    /// ```text
    /// s = Σ sᵢ / n
    /// ```
    /// Source: the mean.
    pub fn mean_of_bars(; mean: Ratio) -> Ratio {
        mean
    }
}

formula! {
    /// Shrinkage as it is written, over the mean of what bars of the mix say. What is written goes on being computed with.
    ///
    /// ```text
    /// d = s − m        s: as written, m: mean of the bars
    /// ```
    /// Source: the difference of both.
    pub fn shrinkage_over_bars(written: Ratio; mean: Ratio) -> Ratio {
        written - mean
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_bar_as_long_as_the_code_allows_shrinks_by_its_limit_and_lies_within_its_own_band() {
        // AU103.4.1: a form of 24 in, at most 1 in.
        let [wet, dry, reading] = [24.0, 23.0, 0.04].map(Length::inches);
        let own = bar_by_lengths(wet, dry).value.in_fraction();
        assert!((own - 1.0 / 24.0).abs() < 1e-12);
        let [low, high] =
            [bar_at_least(wet, dry, reading), bar_at_most(wet, dry, reading)].map(|side| side.value.in_fraction());
        assert!(low < own && own < high);
        assert!((high - low - 2.0 * reading.in_mm() * (wet + dry).in_mm() / wet.in_mm().powi(2)).abs() < 1e-5);
        assert_eq!(bar_at_least(wet, wet, reading).value, Ratio::ZERO);
    }
}

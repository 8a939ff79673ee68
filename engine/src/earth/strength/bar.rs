//! A bar by its lengths wet and dry: what it shrank by, and between what that lies.

use crate::earth::tables::number;
use crate::reason::formula;
use crate::units::{Length, Ratio};

formula! {
    /// Which bar says what a code is shown: the one that may have shrunk most.
    ///
    /// ```text
    /// number of the greatest, counted from 1; 0: what is written is more than any
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

/// Whether a bar was as long when wet as the form of the code, or nearly: a metric form is of 600 mm.
///
/// Source: AU103.4.1, a form of 24 in, seen; that one of 600 mm stands for it is our judgement.
#[must_use]
pub fn is_of_code_form(wet: Length) -> bool {
    (wet / Length::m(number("shrinkage-form-m")) - 1.0).abs() <= number("shrinkage-form-off-ratio")
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

    #[test]
    fn a_form_of_600_mm_stands_for_one_of_24_in_and_half_a_form_does_not() {
        assert!([Length::inches(24.0), Length::mm(600.0)].into_iter().all(is_of_code_form));
        assert!(
            ![Length::mm(50.0), Length::mm(300.0), Length::mm(590.0), Length::m(1.0)].into_iter().any(is_of_code_form)
        );
    }
}

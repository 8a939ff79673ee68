//! Samples together: their mean, how they scatter, what can be relied on, which looks strange, how many it takes.

use crate::earth::tables::number;
use crate::reason::formula;
use crate::solve::chance::{is_tolerance_within, t_place, tolerance_factor};
use crate::solve::whole::rounded_up;
use crate::units::{Pressure, Ratio};

/// Strengths of samples of one mix.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Sample {
    /// How many.
    pub count: usize,
    /// Their mean.
    pub mean: Pressure,
    /// The deviation that they show; none of fewer than two.
    pub deviation: Option<Pressure>,
    /// The least of them.
    pub least: Pressure,
}

impl Sample {
    /// The samples together; none when there are none.
    #[must_use]
    pub fn of(strengths: &[Pressure]) -> Option<Sample> {
        let count = strengths.len();
        let least = strengths.iter().copied().reduce(Pressure::min)?;
        let mean = strengths.iter().copied().sum::<Pressure>() / count as f64;
        let squares: f64 = strengths.iter().map(|own| (*own - mean).in_pa().powi(2)).sum();
        let deviation = (count > 1).then(|| Pressure::pa((squares / (count - 1) as f64).sqrt()));
        Some(Sample { count, mean, deviation, least })
    }
}

formula! {
    /// Bricks of one lot that were tested dry: what a wall is held to is its strength dry.
    ///
    /// ```text
    /// n = Σ 1        over the dry bricks
    /// ```
    /// Source: counting.
    pub fn dry_bricks(; count: usize) -> u64 {
        count as u64
    }
}

formula! {
    /// Mean strength of the dry bricks.
    ///
    /// ```text
    /// m = Σ fᵢ / n        fᵢ: strength of a brick, n: how many
    /// ```
    /// Source: the definition of the mean.
    pub fn mean_strength(; mean: Pressure) -> Pressure {
        mean
    }
}

formula! {
    /// How the dry bricks scatter: the deviation that they show.
    ///
    /// ```text
    /// s = √( Σ (fᵢ − m)² / (n − 1) )        m: mean, n: how many
    /// ```
    /// Source: the deviation of a sample.
    pub fn scatter(; deviation: Pressure) -> Pressure {
        deviation
    }
}

formula! {
    /// The least of the dry bricks: what the cob appendix looks at, where there are as many as it asks for.
    ///
    /// ```text
    /// f = min fᵢ
    /// ```
    /// Source: AU106.6 and AU106.6.1, quoted: each of five samples must bear the limit.
    pub fn least_strength(; least: Pressure) -> Pressure {
        least
    }
}

formula! {
    /// How many deviations below the mean of so many bricks a strength lies that can be relied on.
    ///
    /// ```text
    /// P( t(n − 1, z √n) ≤ k √n ) = 75 %        t: about a mean shifted by z √n, z: what 95 % of normal numbers stay below
    /// ```
    /// Source: one-sided tolerance limit of a normal sample, 5 % fractile at 75 % confidence, as EN 1990 takes a characteristic strength,
    /// from memory.
    pub fn reliance(bricks: u64; factor: f64) -> f64 {
        factor
    }
}

formula! {
    /// Bricks that are still to be made before they are the sample of the cob appendix.
    ///
    /// ```text
    /// e = max(5 − n, 0)        n: dry bricks that there are
    /// ```
    /// Source: AU106.6.1, quoted: five samples.
    pub fn still_to_make(bricks: u64; asked: f64) -> u64 {
        rounded_up(asked).saturating_sub(bricks)
    }
}

formula! {
    /// The brick that lies strangely far from the others, counted in the order of their names. Look at its pieces; it is counted all
    /// the same.
    ///
    /// ```text
    /// max |fᵢ − m| / s > (n − 1)/√n √( t² / (n − 2 + t²) )        t: at a risk of 5 % in all, n − 2 degrees of freedom
    /// ```
    /// Source: Grubbs, Technometrics 11 (1969) 1-21, from memory.
    pub fn strange_brick(; place: usize) -> u64 {
        place as u64 + 1
    }
}

formula! {
    /// Strength of the wall's cob as a code takes it from the bricks that are offered as proof.
    ///
    /// ```text
    /// f = f of that lot        its least brick, or its mean, as the code says
    /// ```
    /// Source: AU106.6.1, quoted, for the least of five; 14.7.4.11 NMAC, seen in part, for the mean.
    pub fn as_proof(of_the_lot: Pressure) -> Pressure {
        of_the_lot
    }
}

formula! {
    /// Shrinkage of the wall's cob as a code takes it: that of the bar, at the upper end of what its lengths may be off, or what is
    /// written of the mix where that is more.
    ///
    /// ```text
    /// s = s of the bar, or as written
    /// ```
    /// Source: AU103.4.1, seen; that the upper end counts, and the worst, is our judgement.
    pub fn bar_as_proof(of_the_bar: Ratio) -> Ratio {
        of_the_bar
    }
}

formula! {
    /// Bricks that it takes until a wanted strength can be relied on, if all of them scatter as these do: with more bricks less is taken
    /// off the mean.
    ///
    /// ```text
    /// m − k(n) s ≥ w        the least such n; m, s: mean and deviation of these bricks, k: tolerance factor of n bricks, w: wanted
    /// ```
    /// Source: one-sided tolerance limit of a normal sample, as EN 1990 takes a characteristic strength, from memory.
    pub fn bricks_until(mean: Pressure, deviation: Pressure; count: usize) -> u64 {
        count as u64
    }
}

formula! {
    /// Strength that 95 of 100 bricks of the mix exceed, in three of four such samples of bricks.
    ///
    /// ```text
    /// f₅ = m − k s        m, s: mean and deviation of the bricks, k: tolerance factor of so many at 75 % confidence
    /// ```
    /// Source: one-sided tolerance limit of a normal sample, as EN 1990 takes a characteristic strength, from memory.
    pub fn lower_bound(mean: Pressure, deviation: Pressure, factor: f64) -> Pressure {
        mean - deviation * factor
    }
}

formula! {
    /// Samples of adobes: so many of each lot, and of a lot that is begun.
    ///
    /// ```text
    /// n = e ⌈N / L⌉        e: of each lot, L: a lot
    /// ```
    /// Source: 14.7.4.11.A NMAC, seen; that a begun lot counts whole is our reading, on the safe side.
    pub fn samples_of_lots(adobes: f64, lot: f64, each: f64) -> u64 {
        rounded_up(each) * rounded_up(adobes / lot)
    }
}

/// The tolerance factor of so many bricks, at the share and the confidence of the table; none of fewer than two.
#[must_use]
pub fn lower_factor(count: usize) -> Option<f64> {
    Some(tolerance_factor(count, number("lower-share"), number("lower-confidence"))).filter(|factor| factor.is_finite())
}

/// The brick that lies strangely far from the mean, by its place in the list; none where none does, or of fewer than three.
///
/// Equation: G = max |x − m| / s > (n − 1)/√n · √(t² / (n − 2 + t²)), t at risk/(2 n) and n − 2 degrees of freedom.
///
/// Source: Grubbs, Technometrics 11 (1969) 1-21, from memory.
#[must_use]
pub fn strange(strengths: &[Pressure]) -> Option<usize> {
    let sample = Sample::of(strengths).filter(|sample| sample.count > 2)?;
    let (n, deviation) = (sample.count as f64, sample.deviation.filter(|own| *own > Pressure::ZERO)?);
    let apart = |at: usize| (strengths[at] - sample.mean).abs() / deviation;
    let farthest = (0..sample.count).max_by(|&one, &other| apart(one).total_cmp(&apart(other)))?;
    let t = t_place(1.0 - number("outlier-risk") / (2.0 * n), sample.count - 2).powi(2);
    let limit = (n - 1.0) / n.sqrt() * (t / (n - 2.0 + t)).sqrt();
    (apart(farthest) > limit).then_some(farthest)
}

/// No more bricks than this are thought of.
const MOST_BRICKS: usize = 200;

/// The least number of bricks whose lower bound would reach a strength if they scattered as these do; none where not even
/// the greatest number would.
#[must_use]
pub fn bricks_wanted(mean: Pressure, deviation: Pressure, wanted: Pressure) -> Option<usize> {
    if deviation <= Pressure::ZERO {
        return (mean >= wanted).then_some(2);
    }
    let (share, confidence, factor) = (number("lower-share"), number("lower-confidence"), (mean - wanted) / deviation);
    let reaches = |count: usize| is_tolerance_within(count, share, confidence, factor);
    if !reaches(MOST_BRICKS) {
        return None;
    }
    let (mut low, mut high) = (1, MOST_BRICKS);
    while high - low > 1 {
        let middle = low + (high - low) / 2;
        if reaches(middle) { high = middle } else { low = middle }
    }
    Some(high)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn strengths(list: &[f64]) -> Vec<Pressure> {
        list.iter().copied().map(Pressure::kpa).collect()
    }

    #[test]
    fn a_brick_far_from_the_others_is_strange_and_scattered_bricks_are_not() {
        assert_eq!(strange(&strengths(&[810., 790., 805., 795., 420.])), Some(4));
        assert_eq!(strange(&strengths(&[810., 700., 905., 640., 760.])), None);
        assert_eq!(strange(&strengths(&[810., 810., 810.])), None);
        assert_eq!(strange(&strengths(&[810., 100.])), None);
    }

    /// Source: Grubbs' table, n = 8 at 5 % both sides: 2.126, from memory.
    #[test]
    fn the_limit_for_a_strange_one_is_that_of_the_printed_table() {
        let with = |apart: f64| {
            let mut list = vec![-1.0, 1.0, -1.0, 1.0, -1.0, 1.0, 0.0];
            list.push(apart);
            list
        };
        let grubbs = |list: &[f64]| {
            let mean = list.iter().sum::<f64>() / 8.0;
            let deviation = (list.iter().map(|x| (x - mean).powi(2)).sum::<f64>() / 7.0).sqrt();
            (list[7] - mean) / deviation
        };
        for apart in (0..80).map(|step| 2.0 + 0.05 * f64::from(step)) {
            let list = with(apart);
            let shifted: Vec<f64> = list.iter().map(|x| 500.0 + x).collect();
            let g = grubbs(&list);
            if (g - 2.126).abs() > 2e-3 {
                assert_eq!(strange(&strengths(&shifted)).is_some(), g > 2.126, "{g}");
            }
        }
    }

    #[test]
    fn the_wanted_bricks_are_the_fewest_that_reach_and_a_mean_too_low_is_never_enough() {
        let (mean, deviation, wanted) = (Pressure::kpa(800.0), Pressure::kpa(120.0), Pressure::kpa(560.0));
        let count = bricks_wanted(mean, deviation, wanted).unwrap();
        let bound = |count: usize| lower_bound(mean, deviation, lower_factor(count).unwrap()).value;
        assert!(bound(count) >= wanted && bound(count - 1) < wanted, "{count}");
        assert_eq!(bricks_wanted(mean, deviation, Pressure::kpa(610.0)), None);
    }
}

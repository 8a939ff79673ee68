//! What tried mixes say of a recipe, as reasons of rows: the surface through them, how far it may be off, the recipe in steps.

use super::fit::LackOfFit;
use crate::reason::formula;
use crate::units::{Quantity, Ratio};

formula! {
    /// Share of an ingredient in the buckets of a tried mix.
    ///
    /// ```text
    /// x = n / Σ nᵢ        n: buckets
    /// ```
    /// Source: the definition of the share.
    pub fn share(buckets: f64; all: f64) -> Ratio {
        Ratio::fraction(buckets / all)
    }
}

formula! {
    /// Steps of a bucket in a batch of the recipe.
    ///
    /// ```text
    /// N = round(Σ nᵢ / s)        n: buckets of the recipe, s: the least part of a bucket that is measured
    /// ```
    /// Source: counted out.
    pub fn steps_of_batch(step: f64; steps: u32) -> u64 {
        u64::from(steps)
    }
}

formula! {
    /// How many mixes of whole steps the limits leave, no share of an ingredient smaller or larger than was tried.
    ///
    /// ```text
    /// low ≤ n s ≤ high, Σ n = N, min x ≤ n / N ≤ max x
    /// ```
    /// Source: counted out; what was not tried is not told.
    pub fn steps_of_mixes(; mixes: usize) -> u64 {
        mixes as u64
    }
}

formula! {
    /// Tried mixes of which this was measured.
    ///
    /// ```text
    /// n = 1 + 1 + …
    /// ```
    /// Source: counted.
    pub fn measured(; runs: usize) -> u64 {
        runs as u64
    }
}

formula! {
    /// Distinct mixes among those of which this was measured; the rest are repeats.
    ///
    /// ```text
    /// two are one when no share of theirs differs by as much as a bucket can tell
    /// ```
    /// Source: counted; how near two mixes are to be one is this project's judgement.
    pub fn distinct_mixes(; distinct: usize) -> u64 {
        distinct as u64
    }
}

formula! {
    /// Terms of the surface through tried mixes: the most that they carry.
    ///
    /// A plane has a term for each ingredient, a bent surface one more for each pair, a more bent one also for each three. A term that
    /// the mixes cannot contradict is a guess: so there are as many distinct mixes as terms, and spare runs beside them.
    ///
    /// ```text
    /// y = Σ bᵢ xᵢ + Σ bᵢⱼ xᵢ xⱼ + Σ bᵢⱼₖ xᵢ xⱼ xₖ
    /// ```
    /// Source: H. Scheffé, Journal of the Royal Statistical Society B 20 (1958) 344-360, from memory; how many runs are to spare is this
    /// project's judgement.
    pub fn terms_carried(; terms: usize) -> u64 {
        terms as u64
    }
}

formula! {
    /// How far tried mixes scatter about the surface.
    ///
    /// ```text
    /// s = √(Σ (y − ŷ)² / (n − p))        n: runs, p: terms
    /// ```
    /// Source: least squares, from any book of statistics.
    pub fn scatter(; scatter: Quantity) -> Quantity {
        scatter
    }
}

formula! {
    /// What a tried mix is missed by when the surface is drawn without it: how far the surface may be off where nothing was tried.
    ///
    /// ```text
    /// e = √(Σ ((y − ŷ) / (1 − h))² / n)        h: leverage of the run
    /// ```
    /// Source: predicted residuals, D. M. Allen, Technometrics 16 (1974) 125-127, from memory.
    pub fn missed_left_out(; missed: Quantity) -> Quantity {
        missed
    }
}

formula! {
    /// Share of the scatter of all tried mixes that the surface explains, each left out before it is told; below nothing, the mean of
    /// all tells more.
    ///
    /// ```text
    /// R² = 1 − Σ ((y − ŷ) / (1 − h))² / Σ (y − mean)²
    /// ```
    /// Source: predicted residuals, D. M. Allen, Technometrics 16 (1974) 125-127, from memory.
    pub fn explained_left_out(; explained: f64) -> Ratio {
        Ratio::fraction(explained)
    }
}

formula! {
    /// The chance that a surface of this kind misses repeated mixes by so much, were it the right one: small, and it is not bent enough.
    ///
    /// ```text
    /// F = ((SSE − SSP) / (m − p)) / (SSP / (n − m))        SSP: squares of repeats about their means, m: distinct mixes
    /// ```
    /// Source: NIST/SEMATECH e-Handbook of Statistical Methods, 4.4.4.6, from memory.
    pub fn lack_of_fit(; lack: LackOfFit) -> Ratio {
        Ratio::fraction(lack.chance)
    }
}

formula! {
    /// What the surface says of the chosen recipe.
    ///
    /// ```text
    /// ŷ = Σ bᵢ xᵢ + Σ bᵢⱼ xᵢ xⱼ + …        x: shares of its buckets
    /// ```
    /// Source: H. Scheffé, Journal of the Royal Statistical Society B 20 (1958) 344-360, from memory.
    pub fn expected(; expected: Quantity) -> Quantity {
        expected
    }
}

formula! {
    /// Within how much of it one more of the same mix lies, 19 times of 20.
    ///
    /// ```text
    /// ± t s √(1 + h)        t: of Student, two-sided, h: leverage of the recipe
    /// ```
    /// Source: least squares, from any book of statistics.
    pub fn off_by(scatter: Quantity; half: Quantity) -> Quantity {
        half
    }
}

formula! {
    /// How much of all wishes together the chosen recipe is expected to meet.
    ///
    /// ```text
    /// D = (Π d)^(1/k)        d: 0 where it is useless, 1 where it is as wanted, even between; k: wishes
    /// ```
    /// Source: Derringer and Suich, Journal of Quality Technology 12 (1980) 214-219, as program manuals print it, seen.
    pub fn meets(; overall: f64) -> Ratio {
        Ratio::fraction(overall)
    }
}

formula! {
    /// Steps of a bucket in the chosen recipe: of all mixes of whole steps, the one that meets most of all wishes together.
    ///
    /// ```text
    /// n with the greatest D
    /// ```
    /// Source: counted out.
    pub fn as_chosen(; steps: u32) -> u64 {
        u64::from(steps)
    }
}

formula! {
    /// Buckets in the chosen recipe.
    ///
    /// ```text
    /// b = n s        n: steps, s: the least part of a bucket that is measured
    /// ```
    /// Source: counted out.
    pub fn buckets_chosen(steps: u64, step: f64) -> f64 {
        steps as f64 * step
    }
}

formula! {
    /// Mixes of whole steps that meet nearly as much of all wishes as the best, itself among them.
    ///
    /// ```text
    /// D ≥ 0.95 D best
    /// ```
    /// Source: counted out; what counts as nearly as good is this project's judgement.
    pub fn nearly_as_good(; mixes: usize) -> u64 {
        mixes as u64
    }
}

formula! {
    /// Within how much one more of the chosen recipe will lie when the next mix has been tried, if mixes scatter as before.
    ///
    /// ```text
    /// h′ = h − (x·c)² / (1 + c·c)        both turned into the basis of the runs
    /// ```
    /// Source: one more row of least squares, from any book of statistics.
    pub fn narrowed(scatter: Quantity; half: Quantity) -> Quantity {
        half
    }
}

formula! {
    /// Buckets to take out of the recipe, and as many of others to put in, so that it is the one that its tried mixes choose.
    ///
    /// ```text
    /// ½ Σ |b − b′|        b: buckets of the recipe, b′: of the chosen one
    /// ```
    /// Source: counted out.
    pub fn buckets_off(; buckets: f64) -> f64 {
        buckets
    }
}

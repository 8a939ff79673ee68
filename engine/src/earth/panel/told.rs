//! What test panels say, as reasons of rows.

use crate::reason::formula;
use crate::units::{Length, Ratio};

formula! {
    /// Panels that were scored.
    ///
    /// ```text
    /// n = 1 + 1 + …
    /// ```
    /// Source: counted.
    pub fn panels_scored(; panels: usize) -> u64 {
        panels as u64
    }
}

formula! {
    /// Panels with the worst score of any judge in anything: their mix is not chosen, and their scores still count.
    ///
    /// ```text
    /// n = 1 + 1 + …        of panels with a score of 4
    /// ```
    /// Source: counted; that one such score rejects a panel is this project's judgement.
    pub fn panels_rejected(; panels: usize) -> u64 {
        panels as u64
    }
}

formula! {
    /// How far two judges' scores of one panel lie apart, in the mean.
    ///
    /// ```text
    /// d = Σ |s − s′| / n        over all pairs of judges of one panel
    /// ```
    /// Source: counted out.
    pub fn judges_apart(; apart: f64) -> f64 {
        apart
    }
}

formula! {
    /// How many times the odds of a worse score are with this judge what they are with the first.
    ///
    /// It comes with the chance of every score by the mix and the judge, fitted to all scores; one is as severe as the first.
    ///
    /// ```text
    /// e^bⱼ        P(score ≤ k) = 1 / (1 + e^(b·x + bⱼ − cₖ)), x: shares of the mix, bⱼ: the judge, cₖ: cuts between scores
    /// ```
    /// Source: P. McCullagh, Journal of the Royal Statistical Society B 42 (1980) 109-142, from memory; b is held near nothing by a weak
    /// prior, our judgement.
    pub fn odds_of_judge(; severity: f64) -> f64 {
        severity.exp()
    }
}

formula! {
    /// Mixes of whole steps that lie between the panels that were tried, without those that were rejected.
    ///
    /// ```text
    /// Σ n = N, min x ≤ n / N ≤ max x        N: steps of a batch, x: share in a panel
    /// ```
    /// Source: counted out; what was not tried is not told.
    pub fn steps_between(; mixes: usize) -> u64 {
        mixes as u64
    }
}

formula! {
    /// The chance that a judge scores the chosen mix good: the mean over all judges.
    ///
    /// ```text
    /// P(score ≤ 1) = mean of 1 / (1 + e^(b·x + bⱼ − c₁))        over judges j
    /// ```
    /// Source: P. McCullagh, Journal of the Royal Statistical Society B 42 (1980) 109-142, from memory.
    pub fn by_what_scored(; chance: f64) -> Ratio {
        Ratio::fraction(chance)
    }
}

formula! {
    /// What that chance surely is, 19 times of 20. Judges of one panel see the same cracks: all its scores together count as one panel.
    ///
    /// ```text
    /// ln(p′ / (1 − p′)) = ln(p / (1 − p)) − z s / (p (1 − p))        s² = ∇pᵀ (−H)⁻¹ ∇p, H: bend of the likelihood with its prior, of J scores of a panel each 1/J
    /// ```
    /// Source: R. A. Fisher's information, from memory; that a panel counts once is this project's judgement, on the safe side.
    pub fn surely(chance: Ratio; sure: f64) -> Ratio {
        Ratio::fraction(sure)
    }
}

formula! {
    /// The chance that one judge, drawn by lot, scores the chosen mix good in all that tells mixes apart, as if that did not hang together.
    ///
    /// ```text
    /// P = P₁ P₂ …        of all that tell mixes apart
    /// ```
    /// Source: the product rule of chances.
    pub fn common_chance(; chance: f64) -> Ratio {
        Ratio::fraction(chance)
    }
}

formula! {
    /// Mixes of whole steps whose scores are nearly as likely good as those of the best, itself among them.
    ///
    /// ```text
    /// P ≥ 0.95 P best
    /// ```
    /// Source: counted out; what counts as nearly as good is this project's judgement.
    pub fn mix_nearly_as_good(; mixes: usize) -> u64 {
        mixes as u64
    }
}

formula! {
    /// What the least sure chance is expected surely to be when the next panel has been made, if all judges score it as they are expected to.
    ///
    /// ```text
    /// −H′ = −H + (1 / J) Σ ∇p ∇pᵀ / p        over scores and the J judges of the next panel
    /// ```
    /// Source: R. A. Fisher's information, from memory.
    pub fn sure_after(; sure: f64) -> Ratio {
        Ratio::fraction(sure)
    }
}

formula! {
    /// By how much the coat is to be thicker than the thinnest panel: what is thicker than was tried may crack where that did not.
    ///
    /// ```text
    /// d = t coat − t panel
    /// ```
    /// Source: counted out.
    pub fn coat_over_panel(coat: Length, panel: Length) -> Length {
        coat - panel
    }
}

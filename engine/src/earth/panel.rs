//! Test panels of plaster: what scores of several judges say of a mix.

use crate::earth::tables::number;
use crate::solve::chance::chi_square_above;
use crate::solve::ordinal::{Graded, Ordinal, likeliest};

/// One judge's score of one panel.
#[derive(Clone, Debug, PartialEq)]
pub struct Score {
    /// Shares of the panel's mix.
    pub mix: Vec<f64>,
    /// The panel.
    pub panel: usize,
    /// The judge.
    pub judge: usize,
    /// The score, 0 the best.
    pub score: usize,
}

/// What the scores say.
#[derive(Clone, Debug, PartialEq)]
pub struct Judged {
    model: Ordinal,
    scale: Vec<[f64; 2]>,
    judges: usize,
    /// Chance that scores differ so much between mixes if the mix did not matter.
    pub by_lot: f64,
    /// Mean difference of two judges' scores of the same panel; none where no two judged the same.
    pub apart: Option<f64>,
}

/// The model of scores by the shares of the mix and the judge; none where all scores are the same.
///
/// The last ingredient has no slope of its own, since shares add up to one; nor has the first judge. Shares are counted from
/// their mean in their own deviations, so that the prior is as weak for straw as for sand.
#[must_use]
pub fn judged(scores: &[Score]) -> Option<Judged> {
    let judges = scores.iter().map(|score| score.judge + 1).max()?;
    let prior = number("score-prior");
    let scale = scale(scores);
    let graded: Vec<Graded> = scores
        .iter()
        .map(|score| Graded { row: row(&score.mix, &scale, score.judge, judges), grade: score.score })
        .collect();
    let model = likeliest(&graded, prior)?;
    let mixless: Vec<Graded> =
        scores.iter().map(|score| Graded { row: judge_row(score.judge, judges), grade: score.score }).collect();
    let plain = likeliest(&mixless, prior)?;
    let by_lot = chi_square_above(2.0 * (model.log_chance - plain.log_chance), scale.len().max(1));
    Some(Judged { model, scale, judges, by_lot, apart: apart(scores) })
}

/// Mean and deviation of each share but the last.
fn scale(scores: &[Score]) -> Vec<[f64; 2]> {
    let count = scores.len() as f64;
    (0..scores[0].mix.len() - 1)
        .map(|part| {
            let mean = scores.iter().map(|score| score.mix[part]).sum::<f64>() / count;
            let squares: f64 = scores.iter().map(|score| (score.mix[part] - mean).powi(2)).sum();
            [mean, if squares > 0.0 { (squares / count).sqrt() } else { 1.0 }]
        })
        .collect()
}

fn row(mix: &[f64], scale: &[[f64; 2]], judge: usize, judges: usize) -> Vec<f64> {
    let mut row: Vec<f64> =
        mix.iter().zip(scale).map(|(share, [mean, deviation])| (share - mean) / deviation).collect();
    row.extend(judge_row(judge, judges));
    row
}

fn judge_row(judge: usize, judges: usize) -> Vec<f64> {
    (1..judges).map(|other| f64::from(u8::from(other == judge))).collect()
}

fn apart(scores: &[Score]) -> Option<f64> {
    let pairs = scores.iter().enumerate().flat_map(|(at, one)| {
        let others = scores[at + 1..].iter().filter(|other| other.panel == one.panel && other.judge != one.judge);
        others.map(|other| one.score.abs_diff(other.score) as f64)
    });
    let pairs: Vec<f64> = pairs.collect();
    (!pairs.is_empty()).then(|| pairs.iter().sum::<f64>() / pairs.len() as f64)
}

impl Judged {
    /// The chance that a judge scores a mix at most so much, the mean over all judges.
    #[must_use]
    pub fn at_most(&self, mix: &[f64], score: usize) -> f64 {
        let chances =
            (0..self.judges).map(|judge| self.model.at_most(&row(mix, &self.scale, judge, self.judges), score));
        chances.sum::<f64>() / self.judges as f64
    }

    /// How much more severe each judge is than the first, in the model's own measure.
    #[must_use]
    pub fn severity(&self) -> Vec<f64> {
        let slopes = &self.model.slopes;
        std::iter::once(0.0).chain(slopes[slopes.len() + 1 - self.judges..].iter().copied()).collect()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn score(share: f64, panel: usize, judge: usize, score: usize) -> Score {
        Score { mix: vec![share, 1.0 - share], panel, judge, score }
    }

    #[test]
    fn more_of_what_cracks_is_scored_worse_and_a_severe_judge_is_found() {
        let shares = [0.2, 0.3, 0.4, 0.5, 0.6, 0.7];
        let scores = shares.iter().enumerate().flat_map(|(panel, share)| {
            let own = (share * 5.0) as usize;
            [score(*share, panel, 0, own), score(*share, panel, 1, (own + 1).min(4))]
        });
        let scores: Vec<Score> = scores.collect();
        let judged = judged(&scores).unwrap();
        assert!(judged.at_most(&[0.2, 0.8], 1) > judged.at_most(&[0.7, 0.3], 1) + 0.3);
        assert!(judged.severity()[1] > 0.5 && judged.by_lot < 0.05);
        assert_eq!(judged.apart, Some(1.0));
    }

    #[test]
    fn scores_all_alike_say_nothing() {
        assert_eq!(judged(&[score(0.2, 0, 0, 1), score(0.6, 1, 0, 1)]), None);
    }
}

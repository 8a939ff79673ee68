//! What scores of several judges say of a mix.

use crate::earth::tables::number;
use crate::solve::chance::normal_place;
use crate::solve::draws::Chance;
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
    tried: Vec<[f64; 2]>,
    /// Mean difference of two judges' scores of the same panel; none where no two judged the same.
    pub apart: Option<f64>,
}

/// Times that the mixes are dealt anew among the panels.
const DEALS: usize = 99;

/// The model of scores by the shares of the mix and the judge; none where all scores are the same.
///
/// The last ingredient has no slope of its own, since shares add up to one; nor has the first judge. Shares are counted from
/// their mean in their own deviations, so that the prior is as weak for straw as for sand.
#[must_use]
pub fn judged(scores: &[Score]) -> Option<Judged> {
    let judges = scores.iter().map(|score| score.judge + 1).max()?;
    let mixes: Vec<&[f64]> = scores.iter().map(|score| score.mix.as_slice()).collect();
    let model = modelled(scores, &mixes, judges)?;
    let tried = (0..mixes[0].len()).map(|part| {
        let shares = mixes.iter().map(|mix| mix[part]);
        [f64::min, f64::max].map(|side| shares.clone().reduce(side).unwrap_or(f64::NAN))
    });
    Some(Judged { tried: tried.collect(), scale: scale(&mixes), apart: apart(scores), model, judges })
}

/// The model of the scores, had their panels been of these mixes.
fn modelled(scores: &[Score], mixes: &[&[f64]], judges: usize) -> Option<Ordinal> {
    let scale = scale(mixes);
    let of_panel = |panel: usize| scores.iter().filter(|score| score.panel == panel).count() as f64;
    let graded: Vec<Graded> = scores
        .iter()
        .zip(mixes)
        .map(|(score, mix)| Graded {
            row: row(mix, &scale, score.judge, judges),
            grade: score.score,
            counts: 1.0 / of_panel(score.panel),
        })
        .collect();
    likeliest(&graded, number("score-prior"))
}

/// Mean and deviation of each share but the last.
fn scale(mixes: &[&[f64]]) -> Vec<[f64; 2]> {
    let count = mixes.len() as f64;
    (0..mixes[0].len() - 1)
        .map(|part| {
            let mean = mixes.iter().map(|mix| mix[part]).sum::<f64>() / count;
            let squares: f64 = mixes.iter().map(|mix| (mix[part] - mean).powi(2)).sum();
            [mean, if squares > 1e-18 * count { (squares / count).sqrt() } else { 1.0 }]
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
    /// Chance that these scores go with the mix so well if the mix did not matter: in how large a share of deals the mixes, dealt anew
    /// among the panels, explain the scores as well as they do as they were. Whole panels are dealt: judges who look at one panel see
    /// the same cracks, and are no independent panels.
    ///
    /// Source: a test by permutation, R. A. Fisher, The Design of Experiments (1935), from memory.
    #[must_use]
    pub fn by_lot(&self, scores: &[Score]) -> f64 {
        let panels = scores.iter().map(|score| score.panel + 1).max().unwrap_or(0);
        let mut of_panels: Vec<Option<&[f64]>> = vec![None; panels];
        scores.iter().for_each(|score| of_panels[score.panel] = Some(&score.mix));
        let mut dealt: Vec<usize> = (0..panels).collect();
        let mut chance = Chance(1);
        let as_good = (0..DEALS).filter(|_| {
            chance.shuffle(&mut dealt);
            let anew: Vec<&[f64]> =
                scores.iter().map(|score| of_panels[dealt[score.panel]].unwrap_or(&score.mix)).collect();
            let own = self.model.log_chance - 1e-9;
            modelled(scores, &anew, self.judges).is_none_or(|model| model.log_chance >= own)
        });
        (1 + as_good.count()) as f64 / (1 + DEALS) as f64
    }

    /// The chance that a judge scores a mix at most so much, the mean over all judges; none where a share lies outside of
    /// those tried, or no score at or below this was given, or none above it.
    #[must_use]
    pub fn at_most(&self, mix: &[f64], score: usize) -> Option<f64> {
        if self.untried(mix).is_some() {
            return None;
        }
        let chances =
            (0..self.judges).map(|judge| self.model.at_most(&row(mix, &self.scale, judge, self.judges), score));
        Some(chances.sum::<Option<f64>>()? / self.judges as f64)
    }

    /// What that chance surely is, 19 times of 20, once so many more mixes have been made and scored by all judges as they are expected
    /// to be; none where the chance itself is not told. Judges who look at one panel see the same cracks: all scores of a panel
    /// together count as one.
    #[must_use]
    pub fn surely(&self, mix: &[f64], score: usize, next: &[&[f64]]) -> Option<f64> {
        let chance = self.at_most(mix, score)?;
        let rows = |mix: &[f64]| -> Vec<Vec<f64>> {
            (0..self.judges).map(|judge| row(mix, &self.scale, judge, self.judges)).collect()
        };
        let mut moves: Vec<f64> = Vec::new();
        for row in rows(mix) {
            let own = self.model.moves(&row, score)?;
            moves.resize(own.len(), 0.0);
            moves.iter_mut().zip(own).for_each(|(sum, own)| *sum += own / self.judges as f64);
        }
        let next: Vec<Vec<f64>> = next.iter().flat_map(|mix| rows(mix)).collect();
        let off = self.model.deviation(&moves, &next, 1.0 / self.judges as f64)? / (chance * (1.0 - chance));
        let odds = (chance / (1.0 - chance)).ln() - normal_place(number("prediction-confidence")) * off;
        Some(1.0 / (1.0 + (-odds).exp()))
    }

    /// The first part of a mix whose share lies outside of those tried.
    #[must_use]
    pub fn untried(&self, mix: &[f64]) -> Option<usize> {
        let rounding = 1e-9;
        mix.iter().zip(&self.tried).position(|(share, [low, high])| *share < low - rounding || *share > high + rounding)
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
        assert!(judged.at_most(&[0.2, 0.8], 1).unwrap() > judged.at_most(&[0.7, 0.3], 1).unwrap() + 0.3);
        assert!(judged.severity()[1] > 0.5 && judged.by_lot(&scores) < 0.05);
        assert_eq!(judged.apart, Some(1.0));
    }

    /// Four panels lie in 24 orders, and two of them, rising and falling, explain scores as well as they can be.
    #[test]
    fn judges_who_agree_on_four_panels_are_no_forty_panels() {
        let scores: Vec<Score> = (0..10)
            .flat_map(|judge| (0..4).map(move |at| (at, judge)))
            .map(|(at, judge)| score([0.2, 0.3, 0.4, 0.5][at], at, judge, at))
            .collect();
        let by_lot = judged(&scores).unwrap().by_lot(&scores);
        assert!((0.03..0.15).contains(&by_lot), "{by_lot} is not near 2 of 24");
    }

    #[test]
    fn no_chance_is_told_of_shares_or_scores_outside_of_those_tried() {
        let judged = judged(&[score(0.2, 0, 0, 1), score(0.4, 1, 0, 2), score(0.6, 2, 0, 3)]).unwrap();
        assert!(judged.at_most(&[0.6, 0.4], 1).is_some() && judged.at_most(&[0.2, 0.8], 2).is_some());
        assert_eq!([judged.at_most(&[0.3, 0.7], 0), judged.at_most(&[0.3, 0.7], 3)], [None, None]);
        assert_eq!([judged.at_most(&[0.1, 0.9], 1), judged.at_most(&[0.61, 0.39], 1)], [None, None]);
    }

    #[test]
    fn a_chance_is_surer_after_one_more_panel_and_surest_where_that_is_of_the_same_mix() {
        let shares = [0.2, 0.3, 0.4, 0.5, 0.6, 0.7];
        let scores = shares.iter().enumerate().flat_map(|(panel, share)| {
            let own = (share * 5.0) as usize;
            [score(*share, panel, 0, own), score(*share, panel, 1, (own + 1).min(4))]
        });
        let judged = judged(&scores.collect::<Vec<_>>()).unwrap();
        let here = [0.3, 0.7];
        let surely = |next: &[&[f64]]| judged.surely(&here, 1, next).unwrap();
        let [now, near, far] = [surely(&[]), surely(&[&here]), surely(&[&[0.7, 0.3]])];
        assert!(now < far && far < near && near < judged.at_most(&here, 1).unwrap(), "{now} {far} {near}");
        assert_eq!(judged.surely(&[0.1, 0.9], 1, &[]), None);
    }

    #[test]
    fn ten_judges_who_agree_make_a_chance_as_sure_as_two_do() {
        let sure = |judges: usize| {
            let all = (0..7).flat_map(|panel| (0..judges).map(move |judge| (panel, judge)));
            let all =
                all.map(|(panel, judge)| score(0.2 + 0.1 * panel as f64, panel, judge, [0, 1, 0, 2, 1, 3, 2][panel]));
            let judged = judged(&all.collect::<Vec<_>>()).unwrap();
            let here = [0.5, 0.5];
            let (chance, sure) = (judged.at_most(&here, 1).unwrap(), judged.surely(&here, 1, &[]).unwrap());
            let odds = |chance: f64| (chance / (1.0 - chance)).ln();
            odds(chance) - odds(sure)
        };
        let [two, ten] = [2, 10].map(sure);
        assert!(
            (0.8..1.25).contains(&(ten / two)),
            "the chance may be off by {ten} with ten judges, and by {two} with two"
        );
    }

    #[test]
    fn scores_all_alike_say_nothing() {
        assert_eq!(judged(&[score(0.2, 0, 0, 1), score(0.6, 1, 0, 1)]), None);
    }
}

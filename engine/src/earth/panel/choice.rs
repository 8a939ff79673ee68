//! The mix that scores choose: of all that buckets measure between those tried, the one whose every score is likeliest good.

use super::judged::Judged;
use super::scale::ASPECTS;
use crate::earth::tables::number;

/// What scores choose.
#[derive(Clone, Debug, PartialEq)]
pub struct Chosen {
    /// The best mix first, then those nearly as good, each with the chance that all its scores are good.
    pub best: Vec<(usize, f64)>,
    /// For each aspect the chance of a good score of the best mix, and what it surely is; none of one that tells no mix from another.
    pub chances: Vec<Option<[f64; 2]>>,
    /// The aspect whose chance is the least sure.
    pub governing: usize,
    /// The mix whose panel would make that surest, and what the chance would then surely be.
    pub next: (usize, f64),
}

/// Why nothing is chosen.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Unscored {
    /// Fewer panels than are wanted: found, and wanted.
    Few(usize, usize),
    /// One judge alone.
    OneJudge,
    /// Of every aspect all scores are good: nothing tells mixes apart.
    Alike,
    /// Of this aspect no score is good.
    NoneGood(usize),
    /// All mixes between those tried were rejected, or none is measured in whole steps.
    NoMix,
}

impl Unscored {
    /// In words, and what would give a choice.
    #[must_use]
    pub fn in_words(&self) -> String {
        match self {
            Unscored::Few(found, wanted) => {
                format!("{found} panels were scored and {wanted} are wanted: make {} more", wanted - found)
            }
            Unscored::OneJudge => "one judge alone scored them: let a second one score the same panels".to_owned(),
            Unscored::Alike => {
                "all scores are good and tell no mix from another: try leaner and fatter mixes".to_owned()
            }
            Unscored::NoneGood(aspect) => {
                format!("no score of {} is good: try other mixes, or fibre and water", ASPECTS[*aspect])
            }
            Unscored::NoMix => {
                "no mix of whole steps lies between those that were tried and not rejected: try more".to_owned()
            }
        }
    }
}

/// Whether a mix is that of a rejected panel, as far as buckets can tell.
#[must_use]
pub fn is_rejected(mix: &[f64], rejected: &[&[f64]]) -> bool {
    let near = number("mixes-alike-ratio");
    rejected.iter().any(|other| mix.iter().zip(*other).all(|(a, b)| (a - b).abs() < near))
}

/// What scores choose among mixes that are not rejected. `aspects` has for each aspect the model of its scores, none where all of them
/// are good. Scores of several aspects are taken as if they did not hang together.
///
/// # Errors
/// When they choose nothing.
pub fn chosen(aspects: &[Option<&Judged>], mixes: &[Vec<f64>], good: usize) -> Result<Chosen, Unscored> {
    let told: Vec<(usize, &Judged)> =
        aspects.iter().enumerate().filter_map(|(place, own)| Some((place, (*own)?))).collect();
    if told.is_empty() {
        return Err(Unscored::Alike);
    }
    let all = |mix: &[f64]| told.iter().map(|(_, own)| own.at_most(mix, good)).product::<Option<f64>>();
    let mut best: Vec<(usize, f64)> =
        mixes.iter().enumerate().filter_map(|(place, mix)| Some((place, all(mix)?))).collect();
    best.sort_by(|one, other| other.1.total_cmp(&one.1).then(one.0.cmp(&other.0)));
    let (first, most) = *best.first().ok_or(Unscored::NoMix)?;
    best.retain(|own| own.1 >= number("nearly-as-good") * most);
    let mix = &mixes[first];
    let chance = |own: &Judged| Some([own.at_most(mix, good)?, own.surely(mix, good, &[])?]);
    let chances: Vec<Option<[f64; 2]>> = aspects.iter().map(|own| chance((*own)?)).collect();
    let sure = |place: usize| chances[place].map_or(f64::INFINITY, |[_, sure]| sure);
    let least = told.iter().min_by(|one, other| sure(one.0).total_cmp(&sure(other.0)));
    let (governing, judged) = *least.ok_or(Unscored::Alike)?;
    let after = mixes.iter().enumerate().filter_map(|(place, next)| Some((place, judged.surely(mix, good, &[next])?)));
    // Of mixes that tell as much the first one is tried.
    let next = after.reduce(|best, own| if own.1 > best.1 { own } else { best }).ok_or(Unscored::NoMix)?;
    Ok(Chosen { best, chances, governing, next })
}

#[cfg(test)]
mod tests {
    use super::super::judged::{Score, judged};
    use super::*;

    /// Panels of two judges whose cracks grow with the first share and whose dust grows with the second.
    fn scores(of: impl Fn(usize) -> usize) -> Judged {
        let all = (0..7).flat_map(|panel| [0, 1].map(|judge| (panel, judge)));
        let all: Vec<Score> = all
            .map(|(panel, judge)| {
                let share = 0.2 + 0.1 * panel as f64;
                Score { mix: vec![share, 1.0 - share], panel, judge, score: (of(panel) + judge).min(4) }
            })
            .collect();
        judged(&all).unwrap()
    }

    fn mixes() -> Vec<Vec<f64>> {
        (4..=16).map(|steps| f64::from(steps) / 20.0).map(|share| vec![share, 1.0 - share]).collect()
    }

    #[test]
    fn what_cracks_when_fat_and_dusts_when_lean_is_best_between_and_the_least_sure_aspect_governs() {
        let (crack, dust) = (scores(|panel| panel / 2), scores(|panel| (6 - panel) / 2));
        let chosen = chosen(&[Some(&crack), Some(&dust), None], &mixes(), 1).unwrap();
        let best = mixes()[chosen.best[0].0][0];
        assert!((0.4..=0.6).contains(&best), "{best}");
        assert!(chosen.best.windows(2).all(|pair| pair[0].1 >= pair[1].1) && chosen.chances[2].is_none());
        let sure = [0, 1].map(|place| chosen.chances[place].unwrap()[1]);
        assert_eq!(chosen.governing, usize::from(sure[1] < sure[0]));
        assert!(chosen.next.1 > sure[chosen.governing]);
    }

    #[test]
    fn nothing_is_chosen_where_all_is_good_or_no_mix_is_left() {
        let crack = scores(|panel| panel / 2);
        assert_eq!(chosen(&[None, None], &mixes(), 1), Err(Unscored::Alike));
        assert_eq!(chosen(&[Some(&crack)], &[], 1), Err(Unscored::NoMix));
        assert_eq!(chosen(&[Some(&crack)], &[vec![0.1, 0.9]], 1), Err(Unscored::NoMix), "it was not tried");
    }

    #[test]
    fn a_mix_within_half_a_hundredth_of_a_rejected_one_is_rejected() {
        let rejected: [&[f64]; 1] = [&[0.5, 0.5]];
        assert!(is_rejected(&[0.504, 0.496], &rejected) && !is_rejected(&[0.51, 0.49], &rejected));
    }
}

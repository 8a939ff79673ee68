//! The best mix that can be measured in buckets, those nearly as good, and the one test that tells most next.

use super::design::shares;
use super::desirability::{Goal, together};
use super::fit::{Fit, Predicted};
use crate::earth::tables::number;

/// A mix and what is expected of it.
#[derive(Clone, Debug, PartialEq)]
pub struct Ranked {
    /// Its number in the list of mixes.
    pub place: usize,
    /// What each surface says of it.
    pub predicted: Vec<Predicted>,
    /// How much of each wish it meets.
    pub met: Vec<f64>,
    /// All wishes together.
    pub overall: f64,
    /// The same at the worse end of every interval.
    pub at_worst: f64,
}

/// What is chosen among mixes.
#[derive(Clone, Debug, PartialEq)]
pub struct Choice {
    /// The best first, then those nearly as good.
    pub best: Vec<Ranked>,
    /// The wish that governs: the least met by the best, or the widest where several are met alike.
    pub governing: usize,
    /// The mix whose test would narrow the governing interval most, and the half interval after it.
    pub next: (usize, f64),
}

/// Mixes of steps, ranked by how much of all wishes they meet; none where no mix meets every wish at all.
#[must_use]
pub fn ranked(counts: &[Vec<u32>], fits: &[Fit], goals: &[Goal]) -> Option<Choice> {
    let mixes: Vec<Vec<f64>> = counts.iter().map(|counts| shares(counts)).collect();
    let surfaces: Vec<Vec<Predicted>> = fits.iter().map(|fit| fit.at_all(&mixes)).collect();
    let all = (0..mixes.len()).map(|place| {
        let predicted: Vec<Predicted> = surfaces.iter().map(|surface| surface[place]).collect();
        one(place, predicted, goals)
    });
    let mut all: Vec<Ranked> = all.filter(|own| own.overall > 0.0).collect();
    all.sort_by(|one, other| other.overall.total_cmp(&one.overall).then(one.place.cmp(&other.place)));
    let best = all.first()?.clone();
    let nearly = number("nearly-as-good") * best.overall;
    all.retain(|own| own.overall >= nearly);
    let governing = governing(&best, goals)?;
    let after = fits[governing].half_after(&mixes[best.place], &mixes);
    let next = after.iter().copied().enumerate().min_by(|one, other| one.1.total_cmp(&other.1))?;
    Some(Choice { best: all, governing, next })
}

fn one(place: usize, predicted: Vec<Predicted>, goals: &[Goal]) -> Ranked {
    let met: Vec<f64> = goals.iter().zip(&predicted).map(|(goal, own)| goal.met(own.value)).collect();
    let counted =
        |met: &[f64]| together(&goals.iter().zip(met).map(|(goal, met)| (*met, goal.counts)).collect::<Vec<_>>());
    let overall = counted(&met);
    let at_worst = if overall > 0.0 {
        counted(
            &goals.iter().zip(&predicted).map(|(goal, own)| goal.met_at_worst(own.value, own.half)).collect::<Vec<_>>(),
        )
    } else {
        0.0
    };
    Ranked { place, predicted, met, overall, at_worst }
}

/// The wish whose worse end is met least; among equals the one whose interval is widest for its room.
fn governing(best: &Ranked, goals: &[Goal]) -> Option<usize> {
    let worst = |at: usize| goals[at].met_at_worst(best.predicted[at].value, best.predicted[at].half);
    let wide = |at: usize| best.predicted[at].half / goals[at].room();
    (0..goals.len()).min_by(|&one, &other| worst(one).total_cmp(&worst(other)).then(wide(other).total_cmp(&wide(one))))
}

/// In how large a share of refits each of the best mixes is the best of them, none where no refit lets any meet every wish.
#[must_use]
pub fn steady(choice: &Choice, counts: &[Vec<u32>], fits: &[Fit], goals: &[Goal], times: usize, seed: u64) -> Vec<f64> {
    let mixes: Vec<Vec<f64>> = choice.best.iter().map(|own| shares(&counts[own.place])).collect();
    let seeds = (0..fits.len() as u64).map(|response| seed.wrapping_add(response));
    let refits: Vec<Vec<f64>> = fits.iter().zip(seeds).map(|(fit, seed)| fit.refitted(&mixes, times, seed)).collect();
    let mut wins = vec![0_usize; mixes.len()];
    for time in 0..times {
        let worth = |mix: usize| {
            let met: Vec<(f64, f64)> = goals
                .iter()
                .zip(&refits)
                .map(|(goal, refit)| (goal.met(refit[time * mixes.len() + mix]), goal.counts))
                .collect();
            together(&met)
        };
        let worths = (0..mixes.len()).map(|mix| (mix, worth(mix)));
        // Where several are equally good the first of the list has it; what meets nothing has won nothing.
        let best = worths.fold((0, 0.0), |best, own| if own.1 > best.1 { own } else { best });
        if best.1 > 0.0 {
            wins[best.0] += 1;
        }
    }
    wins.into_iter().map(|own| own as f64 / times.max(1) as f64).collect()
}

#[cfg(test)]
mod tests {
    use super::super::design::{Limits, measurable};
    use super::super::desirability::Want;
    use super::super::fit::fitted;
    use super::super::terms::{Kind, Order};
    use super::*;

    fn case() -> (Vec<Vec<u32>>, Vec<Fit>, Vec<Goal>) {
        let counts = measurable(&Limits { low: vec![0, 0, 0], high: vec![8, 8, 8], whole: 8 }).unwrap();
        let mixes = super::super::design::lattice(3, 3);
        let truth = |mix: &[f64]| 4.0 * mix[0] + mix[1] + 2.0 * mix[2] + 9.0 * mix[0] * mix[1];
        let scatter = [0.05, -0.04, 0.03, -0.06, 0.02, 0.04, -0.05, 0.01, 0.03, -0.03];
        let values: Vec<f64> = mixes.iter().zip(scatter).map(|(mix, off)| truth(mix) + off).collect();
        let fit = fitted(Kind::Shares, Order::Quadratic, &mixes, &values).unwrap();
        let goal = Goal { want: Want::Most, low: 0.0, target: 10.0, high: 0.0, power: 1.0, counts: 1.0 };
        (counts, vec![fit], vec![goal])
    }

    #[test]
    fn the_best_mix_is_the_best_of_all_counted_out_and_those_nearly_as_good_follow() {
        let (counts, fits, goals) = case();
        let choice = ranked(&counts, &fits, &goals).unwrap();
        let value = |place: usize| fits[0].at(&shares(&counts[place])).value;
        let most = (0..counts.len()).map(value).fold(f64::NEG_INFINITY, f64::max);
        assert_eq!(value(choice.best[0].place), most);
        assert!(choice.best.len() > 1 && choice.best.iter().all(|own| own.overall >= 0.95 * choice.best[0].overall));
        assert!(choice.best[0].at_worst < choice.best[0].overall);
        assert!(choice.next.1 < choice.best[0].predicted[0].half);
    }

    #[test]
    fn a_wish_that_no_mix_meets_leaves_no_choice() {
        let (counts, fits, mut goals) = case();
        goals[0].low = 50.0;
        goals[0].target = 60.0;
        assert_eq!(ranked(&counts, &fits, &goals), None);
    }

    #[test]
    fn a_refit_in_which_no_mix_meets_anything_is_won_by_none() {
        let (counts, fits, mut goals) = case();
        let best = ranked(&counts, &fits, &goals).unwrap().best[0].predicted[0].value;
        goals[0].low = best - 1e-6;
        goals[0].target = best + 1.0;
        let choice = ranked(&counts, &fits, &goals).unwrap();
        let sure: f64 = steady(&choice, &counts, &fits, &goals, 2000, 3).iter().sum();
        assert!(sure > 0.2 && sure < 0.8, "half of the refits lie below what is wanted at all: {sure}");
    }

    #[test]
    fn a_wish_for_least_governs_only_when_its_interval_is_wider_for_its_room() {
        let (counts, fits, goals) = case();
        let fits = [fits[0].clone(), fits[0].clone()];
        let best = ranked(&counts, &fits[..1], &goals).unwrap().best[0].clone();
        let (value, half) = (best.predicted[0].value, best.predicted[0].half);
        let two = |least_room: f64| {
            let most = Goal { low: value - 4.0 * half, target: value - 2.0 * half, ..goals[0] };
            let target = value + 2.0 * half;
            let least = Goal { want: Want::Least, low: target, target, high: target + least_room, ..goals[0] };
            ranked(&counts, &fits, &[most, least]).unwrap().governing
        };
        assert_eq!([two(8.0 * half), two(half)], [0, 1]);
    }

    #[test]
    fn shares_of_refits_add_up_to_all_and_the_best_wins_most() {
        let (counts, fits, goals) = case();
        let choice = ranked(&counts, &fits, &goals).unwrap();
        let steady = steady(&choice, &counts, &fits, &goals, 2000, 3);
        assert!((steady.iter().sum::<f64>() - 1.0).abs() < 1e-12);
        assert!(steady.iter().all(|own| *own <= steady[0]), "{steady:?}");
    }
}

//! Which mixes to try: lattice and centroid of the whole triangle, and mixes of whole or half buckets within limits that tell
//! most.

use super::terms::Terms;
use crate::reason::formula;
use crate::solve::least_squares::dot;

formula! {
    /// Mixes of a lattice.
    ///
    /// ```text
    /// n = (q + m − 1)! / (m! (q − 1)!)        q: ingredients, m: steps from none to all
    /// ```
    /// Source: NIST/SEMATECH e-Handbook of Statistical Methods, 5.5.4.2, seen.
    pub fn lattice_count(ingredients: f64, steps: f64) -> u64 {
        let (q, m) = (ingredients as u64, steps as u64);
        (1..=m).fold(1, |count, step| count * (q + step - 1) / step)
    }
}

/// Every mix of so many ingredients whose shares are whole steps, the first ingredient pure first.
#[must_use]
pub fn lattice(ingredients: usize, steps: usize) -> Vec<Vec<f64>> {
    let limits = Limits { low: vec![0; ingredients], high: vec![steps as u32; ingredients], whole: steps as u32 };
    let found = measurable(&limits).unwrap_or_default();
    found.into_iter().map(|counts| shares(&counts)).rev().collect()
}

/// Every ingredient alone, and every equal mix of two, three and more.
#[must_use]
pub fn centroid(ingredients: usize) -> Vec<Vec<f64>> {
    let mut subsets: Vec<u32> = (1..1_u32 << ingredients).collect();
    subsets.sort_by_key(|subset| (subset.count_ones(), subset.reverse_bits()));
    let share = |subset: u32| {
        let each = 1.0 / f64::from(subset.count_ones());
        (0..ingredients).map(|one| if subset >> one & 1 == 1 { each } else { 0.0 }).collect()
    };
    subsets.into_iter().map(share).collect()
}

/// Limits of a batch in steps of a bucket.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Limits {
    /// The fewest steps of each ingredient.
    pub low: Vec<u32>,
    /// The most of each.
    pub high: Vec<u32>,
    /// Steps of all together.
    pub whole: u32,
}

/// Why no mix can be measured.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Unmeasurable {
    /// The least of all is more than the batch.
    Above,
    /// The most of all is less than the batch.
    Below,
    /// There are more mixes than are looked through.
    Many,
}

impl Unmeasurable {
    /// In words.
    #[must_use]
    pub fn in_words(self) -> &'static str {
        match self {
            Unmeasurable::Above => "no mix is within these limits: the least of all together is more than the batch",
            Unmeasurable::Below => "no mix is within these limits: the most of all together is less than the batch",
            Unmeasurable::Many => {
                "there are too many mixes within these limits: narrow them, or measure in larger steps"
            }
        }
    }
}

/// No more mixes than this are looked through.
const MOST_MIXES: usize = 20_000;

/// Every mix within the limits, in steps, in the order of its numbers.
///
/// # Errors
/// When there is none, or too many.
pub fn measurable(limits: &Limits) -> Result<Vec<Vec<u32>>, Unmeasurable> {
    if limits.low.iter().sum::<u32>() > limits.whole {
        return Err(Unmeasurable::Above);
    }
    if limits.high.iter().sum::<u32>() < limits.whole {
        return Err(Unmeasurable::Below);
    }
    let mut found = Vec::new();
    let mut counts = Vec::with_capacity(limits.low.len());
    filled(limits, &mut counts, limits.whole, &mut found);
    if found.len() > MOST_MIXES { Err(Unmeasurable::Many) } else { Ok(found) }
}

fn filled(limits: &Limits, counts: &mut Vec<u32>, left: u32, found: &mut Vec<Vec<u32>>) {
    let at = counts.len();
    if at == limits.low.len() {
        found.push(counts.clone());
        return;
    }
    let (least, most) = (limits.low[at + 1..].iter().sum::<u32>(), limits.high[at + 1..].iter().sum::<u32>());
    let low = limits.low[at].max(left.saturating_sub(most));
    for count in low..=limits.high[at].min(left.saturating_sub(least)) {
        if found.len() > MOST_MIXES {
            return;
        }
        counts.push(count);
        filled(limits, counts, left - count, found);
        counts.pop();
    }
}

/// Steps as shares of the whole.
#[must_use]
pub fn shares(counts: &[u32]) -> Vec<f64> {
    let whole: u32 = counts.iter().sum();
    counts.iter().map(|&count| f64::from(count) / f64::from(whole.max(1))).collect()
}

/// The runs, by number of the mix, that tell the terms best from each other: the greatest determinant of what they know
/// together, found by exchange, mixes already tried counted in; so many of the runs are repeats of those that carry most.
///
/// Source: V. V. Fedorov, Theory of Optimal Experiments (1972), exchange, from memory.
#[must_use]
pub fn spread_out(mixes: &[Vec<f64>], terms: &Terms, runs: usize, repeats: usize, tried: &[Vec<f64>]) -> Vec<usize> {
    let rows: Vec<Vec<f64>> = mixes.iter().map(|mix| terms.row(mix)).collect();
    let mut known = Known::new(terms.count());
    tried.iter().for_each(|mix| known.change(&terms.row(mix), 1.0));
    let mut chosen: Vec<usize> = Vec::new();
    let wanted = runs.saturating_sub(repeats).min(mixes.len());
    while chosen.len() < wanted {
        let free = (0..rows.len()).filter(|place| !chosen.contains(place));
        let gains = free.map(|place| (place, known.unknown(&rows[place], &rows[place])));
        let Some((best, _)) = gains.max_by(|one, other| one.1.total_cmp(&other.1)) else { break };
        known.change(&rows[best], 1.0);
        chosen.push(best);
    }
    exchanged(&rows, &mut known, &mut chosen);
    let mut by_weight: Vec<usize> = chosen.clone();
    by_weight.sort_by(|&one, &other| {
        known.unknown(&rows[other], &rows[other]).total_cmp(&known.unknown(&rows[one], &rows[one]))
    });
    chosen.sort_unstable();
    chosen.extend(by_weight.into_iter().cycle().take(if wanted > 0 { repeats } else { 0 }));
    chosen
}

/// No more rounds of exchange than this.
const ROUNDS: usize = 20;
/// An exchange that gains less than this share is none.
const GAIN: f64 = 1e-9;

fn exchanged(rows: &[Vec<f64>], known: &mut Known, chosen: &mut [usize]) {
    for _ in 0..ROUNDS {
        let mut is_better = false;
        for at in 0..chosen.len() {
            let own = &rows[chosen[at]];
            let out = known.unknown(own, own);
            let turned = known.turned(own);
            let gain = |place: usize| {
                let shared = dot(&turned, &rows[place]);
                (1.0 + known.unknown(&rows[place], &rows[place])) * (1.0 - out) + shared * shared
            };
            let free = (0..rows.len()).filter(|place| !chosen.contains(place)).map(|place| (place, gain(place)));
            let Some((best, gain)) = free.max_by(|one, other| one.1.total_cmp(&other.1)) else { return };
            if gain > 1.0 + GAIN {
                known.change(own, -1.0);
                known.change(&rows[best], 1.0);
                chosen[at] = best;
                is_better = true;
            }
        }
        if !is_better {
            return;
        }
    }
}

/// What runs know together: the inverse of the sum of x xᵀ.
struct Known {
    inverse: Vec<Vec<f64>>,
}

impl Known {
    /// What is known before the first run: next to nothing.
    const NOTHING: f64 = 1e-6;

    fn new(count: usize) -> Known {
        let row = |one: usize| (0..count).map(|other| if one == other { 1.0 / Self::NOTHING } else { 0.0 }).collect();
        Known { inverse: (0..count).map(row).collect() }
    }

    fn turned(&self, row: &[f64]) -> Vec<f64> {
        self.inverse.iter().map(|own| dot(own, row)).collect()
    }

    fn unknown(&self, one: &[f64], other: &[f64]) -> f64 {
        self.inverse.iter().zip(one).map(|(own, factor)| factor * dot(own, other)).sum()
    }

    /// One run more, or less.
    ///
    /// Source: J. Sherman and W. J. Morrison, Annals of Mathematical Statistics 21 (1950) 124-127, from memory.
    fn change(&mut self, row: &[f64], sign: f64) {
        let turned = self.turned(row);
        let scale = sign / (1.0 + sign * dot(&turned, row));
        for (own, part) in self.inverse.iter_mut().zip(&turned) {
            own.iter_mut().zip(&turned).for_each(|(value, other)| *value -= scale * part * other);
        }
    }
}

#[cfg(test)]
mod tests {
    use super::super::terms::{Kind, Order};
    use super::*;

    #[test]
    fn a_lattice_has_as_many_mixes_as_its_formula_says_and_each_is_whole() {
        for (ingredients, steps) in [(2, 4), (3, 2), (3, 3), (4, 3), (5, 2)] {
            let mixes = lattice(ingredients, steps);
            assert_eq!(mixes.len() as u64, lattice_count(ingredients as f64, steps as f64).value);
            assert!(mixes.iter().all(|mix| (mix.iter().sum::<f64>() - 1.0).abs() < 1e-12));
        }
        assert_eq!(lattice(3, 2)[0], [1.0, 0.0, 0.0]);
        assert_eq!(centroid(3).len(), 7);
        assert!(centroid(3).contains(&vec![0.5, 0.5, 0.0]) && centroid(3).contains(&vec![1.0 / 3.0; 3]));
    }

    #[test]
    fn limits_that_leave_no_mix_are_told_apart() {
        let limits = |low: [u32; 3], high: [u32; 3]| Limits { low: low.to_vec(), high: high.to_vec(), whole: 8 };
        assert_eq!(measurable(&limits([3, 3, 3], [8, 8, 8])), Err(Unmeasurable::Above));
        assert_eq!(measurable(&limits([0, 0, 0], [2, 2, 2])), Err(Unmeasurable::Below));
        let mixes = measurable(&limits([1, 2, 0], [4, 6, 3])).unwrap();
        assert!(mixes.iter().all(|mix| mix.iter().sum::<u32>() == 8 && mix[1] >= 2 && mix[2] <= 3));
        assert_eq!(
            mixes.len(),
            (1..=4).flat_map(|a| (0..=3).map(move |c| 8 - a - c)).filter(|b| (2..=6).contains(b)).count()
        );
    }

    /// Source: for a plane over a triangle the corners tell most, for blends of two the corners and the middles of the sides:
    /// Scheffé's lattices, known to be the best for their terms (J. Kiefer, 1961, from memory).
    #[test]
    fn the_mixes_that_tell_most_are_the_lattices() {
        let mixes: Vec<Vec<f64>> = lattice(3, 8);
        let found = |order: Order, runs: usize| {
            let chosen = spread_out(&mixes, &Terms::of(Kind::Shares, order, 3), runs, 0, &[]);
            let mut chosen: Vec<Vec<f64>> = chosen.into_iter().map(|place| mixes[place].clone()).collect();
            chosen.sort_by(|one, other| one.partial_cmp(other).unwrap());
            chosen
        };
        let sorted = |steps: usize| {
            let mut all = lattice(3, steps);
            all.sort_by(|one, other| one.partial_cmp(other).unwrap());
            all
        };
        assert_eq!(found(Order::Linear, 3), sorted(1));
        assert_eq!(found(Order::Quadratic, 6), sorted(2));
    }

    #[test]
    fn repeats_are_of_mixes_that_are_there_and_tried_mixes_are_not_asked_again() {
        let mixes = lattice(3, 4);
        let terms = Terms::of(Kind::Shares, Order::Linear, 3);
        let chosen = spread_out(&mixes, &terms, 8, 2, &[]);
        assert_eq!(chosen.len(), 8);
        assert!(chosen[6..].iter().all(|place| chosen[..6].contains(place)));
        let corner = vec![vec![1.0, 0.0, 0.0]; 3];
        let after = spread_out(&mixes, &terms, 2, 0, &corner);
        assert!(after.iter().all(|&place| mixes[place][0] < 0.5), "{after:?}");
    }
}

//! A surface through tried mixes: how well it fits, what it leaves over, what one more mix would show.

use super::terms::{Kind, Order, Terms};
use crate::earth::tables::number;
use crate::solve::chance::{f_above, t_place};
use crate::solve::draws::Chance;
use crate::solve::least_squares::{Basis, dot};

/// A fitted surface.
#[derive(Clone, Debug, PartialEq)]
pub struct Fit {
    /// Its terms.
    pub terms: Terms,
    /// Their coefficients.
    pub coefficients: Vec<f64>,
    /// How far each may be off: one deviation.
    pub deviations: Vec<f64>,
    /// Scatter of the runs about the surface.
    pub spread: f64,
    /// Runs less terms.
    pub freedom: usize,
    /// Share of the scatter about the mean that the surface explains; none where all values are equal.
    pub explained: Option<f64>,
    /// The same when each run is left out before it is predicted.
    pub explained_left_out: Option<f64>,
    /// Each run less what the surface of all others says of it.
    pub left_out: Vec<f64>,
    /// Whether the surface misses the means of repeated mixes by more than they scatter; none without repeats or spare mixes,
    /// nor where neither scatters.
    pub lack: Option<LackOfFit>,
    basis: Basis,
    residuals: Vec<f64>,
}

/// The surface's misses of repeated mixes against their own scatter.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct LackOfFit {
    /// F: variance of the misses over that of the repeats; without end where repeats agree exactly.
    pub ratio: f64,
    /// The chance of so much or more when the surface is right.
    pub chance: f64,
}

/// What a surface says of a mix.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Predicted {
    /// The middle.
    pub value: f64,
    /// Half of the interval in which one more run lies, at the confidence of the table.
    pub half: f64,
}

/// Why there is no surface.
#[derive(Clone, Debug, PartialEq)]
pub enum Unfitted {
    /// Fewer distinct mixes than terms: found, and terms.
    Mixes(usize, usize),
    /// Fewer runs than terms and spare runs: found, and wanted.
    Runs(usize, usize),
    /// The mixes do not tell this term from those before it.
    Alike(String),
    /// This run, counted from 1, stands alone for a term: the surface there is that run, whatever it scattered by.
    Alone(usize),
}

impl Unfitted {
    /// In words, and what would give a surface.
    #[must_use]
    pub fn in_words(&self) -> String {
        let more = |found: &usize, wanted: &usize, noun: &str| match wanted - found {
            1 => format!("1 more{noun}"),
            count => format!("{count} more{}", if noun.is_empty() { "" } else { " mixes" }),
        };
        match self {
            Unfitted::Mixes(found, wanted) => {
                let more = more(found, wanted, " mix");
                format!("{found} distinct mixes do not carry {wanted} terms: try {more}, or ask for a plainer fit")
            }
            Unfitted::Runs(found, wanted) => {
                let more = more(found, wanted, "");
                format!("{found} runs leave nothing over to tell scatter from truth: {wanted} are wanted, test {more}")
            }
            Unfitted::Alike(term) => {
                format!("these mixes do not tell term {term} from the others: vary it by itself")
            }
            Unfitted::Alone(run) => {
                format!(
                    "run {run} stands alone for a term, and nothing could contradict it: repeat it, or try a mix near it"
                )
            }
        }
    }
}

/// How many distinct mixes there are.
#[must_use]
pub fn distinct(kind: Kind, mixes: &[Vec<f64>]) -> usize {
    groups(kind, mixes).into_iter().max().map_or(0, |last| last + 1)
}

/// For each run the number of its mix, equal mixes alike; shares are equal when no bucket tells them apart.
#[must_use]
pub fn groups(kind: Kind, mixes: &[Vec<f64>]) -> Vec<usize> {
    let near = if kind == Kind::Shares { number("mixes-alike-ratio") } else { 1e-9 };
    let alike = |one: &[f64], other: &[f64]| one.iter().zip(other).all(|(a, b)| (a - b).abs() < near);
    let mut firsts: Vec<&Vec<f64>> = Vec::new();
    mixes
        .iter()
        .map(|mix| {
            firsts.iter().position(|first| alike(first, mix)).unwrap_or_else(|| {
                firsts.push(mix);
                firsts.len() - 1
            })
        })
        .collect()
}

/// The most bent surface that the runs can carry: as many distinct mixes as terms, and spare runs beside them.
#[must_use]
pub fn highest_order(kind: Kind, mixes: &[Vec<f64>]) -> Option<Order> {
    let count = mixes.first().map_or(0, Vec::len);
    let mut best: Option<(usize, Order)> = None;
    for order in Order::ALL {
        let terms = Terms::of(kind, order, count);
        if best.is_none_or(|(fewer, _)| terms.count() > fewer) && carries(kind, &terms, mixes).is_ok() {
            best = Some((terms.count(), order));
        }
    }
    best.map(|(_, order)| order)
}

fn carries(kind: Kind, terms: &Terms, mixes: &[Vec<f64>]) -> Result<Basis, Unfitted> {
    let (found, wanted) = (distinct(kind, mixes), terms.count());
    if found < wanted {
        return Err(Unfitted::Mixes(found, wanted));
    }
    let spare = number("spare-runs") as usize;
    if mixes.len() < wanted + spare.max(1) {
        return Err(Unfitted::Runs(mixes.len(), wanted + spare.max(1)));
    }
    let rows: Vec<Vec<f64>> = mixes.iter().map(|mix| terms.row(mix)).collect();
    let columns: Vec<Vec<f64>> = (0..wanted).map(|column| rows.iter().map(|row| row[column]).collect()).collect();
    let basis = Basis::of(&columns).map_err(|column| Unfitted::Alike(terms.names()[column].clone()))?;
    match basis.leverages().iter().position(|leverage| *leverage > 1.0 - ALONE) {
        Some(run) => Err(Unfitted::Alone(run + 1)),
        None => Ok(basis),
    }
}

/// A run whose leverage falls short of one by no more than this is all that the surface knows where it lies.
const ALONE: f64 = 1e-9;

/// The surface of an order through runs: mixes and the value of each.
///
/// # Errors
/// When the runs cannot carry it.
pub fn fitted(kind: Kind, order: Order, mixes: &[Vec<f64>], values: &[f64]) -> Result<Fit, Unfitted> {
    let terms = Terms::of(kind, order, mixes.first().map_or(0, Vec::len));
    let basis = carries(kind, &terms, mixes)?;
    let coefficients = basis.coefficients(values);
    let residuals: Vec<f64> =
        mixes.iter().zip(values).map(|(mix, value)| value - dot(&terms.row(mix), &coefficients)).collect();
    let freedom = values.len() - terms.count();
    let squares = dot(&residuals, &residuals);
    let mean = values.iter().sum::<f64>() / values.len() as f64;
    let about_mean: f64 = values.iter().map(|value| (value - mean).powi(2)).sum();
    let share_of = |squares: f64| (about_mean > rounding(values)).then(|| 1.0 - squares / about_mean);
    let spread = (squares / freedom as f64).sqrt();
    let left_out: Vec<f64> =
        residuals.iter().zip(basis.leverages()).map(|(residual, leverage)| residual / (1.0 - leverage)).collect();
    Ok(Fit {
        deviations: basis.variances().iter().map(|variance| spread * variance.sqrt()).collect(),
        explained: share_of(squares),
        explained_left_out: share_of(dot(&left_out, &left_out)),
        lack: lack_of_fit(&groups(kind, mixes), values, terms.count(), squares),
        terms,
        coefficients,
        spread,
        freedom,
        left_out,
        basis,
        residuals,
    })
}

/// Squares of misses up to this are the rounding of the values' last digits.
fn rounding(values: &[f64]) -> f64 {
    1e-24 * dot(values, values)
}

/// Equation: F = ((SSE − SSP) / (m − p)) / (SSP / (n − m)), SSP: squares of repeats about their means, m: distinct mixes.
fn lack_of_fit(groups: &[usize], values: &[f64], terms: usize, squares: f64) -> Option<LackOfFit> {
    let count = groups.iter().max()? + 1;
    let (upper, lower) = (count.checked_sub(terms)?, values.len() - count);
    let mut sums = vec![(0.0, 0.0); count];
    for (group, value) in groups.iter().zip(values) {
        sums[*group].0 += value;
        sums[*group].1 += 1.0;
    }
    let pure: f64 =
        groups.iter().zip(values).map(|(group, value)| (value - sums[*group].0 / sums[*group].1).powi(2)).sum();
    if upper == 0 || lower == 0 {
        return None;
    }
    if pure <= rounding(values) {
        return (squares > rounding(values)).then_some(LackOfFit { ratio: f64::INFINITY, chance: 0.0 });
    }
    let ratio = ((squares - pure).max(0.0) / upper as f64) / (pure / lower as f64);
    Some(LackOfFit { ratio, chance: f_above(ratio, upper, lower) })
}

impl Fit {
    /// The middle of what the surface says of a mix.
    #[must_use]
    pub fn value(&self, mix: &[f64]) -> f64 {
        dot(&self.terms.row(mix), &self.coefficients)
    }

    /// What the surface says of a mix.
    #[must_use]
    pub fn at(&self, mix: &[f64]) -> Predicted {
        let row = self.terms.row(mix);
        Predicted { value: dot(&row, &self.coefficients), half: self.half(self.basis.leverage(&row)) }
    }

    /// Equation: t √(s² (1 + h)), t: two-sided at the confidence of the table.
    fn half(&self, leverage: f64) -> f64 {
        self.students() * self.spread * (1.0 + leverage).sqrt()
    }

    /// What a run is missed by when the surface is drawn without it: the root of the mean square.
    #[must_use]
    pub fn missed_left_out(&self) -> f64 {
        (dot(&self.left_out, &self.left_out) / self.left_out.len() as f64).sqrt()
    }

    fn students(&self) -> f64 {
        t_place(0.5 + 0.5 * number("prediction-confidence"), self.freedom)
    }

    /// What the surface says of many mixes.
    #[must_use]
    pub fn at_all(&self, mixes: &[Vec<f64>]) -> Vec<Predicted> {
        let wide = self.students() * self.spread;
        mixes
            .iter()
            .map(|mix| {
                let row = self.terms.row(mix);
                let leverage = self.basis.leverage(&row);
                Predicted { value: dot(&row, &self.coefficients), half: wide * (1.0 + leverage).sqrt() }
            })
            .collect()
    }

    /// The half interval at a mix after one more run of each of other mixes, if the scatter stays.
    ///
    /// Equation: h′ = h − (x·c)² / (1 + c·c), both turned into the basis of the runs.
    #[must_use]
    pub fn half_after(&self, mix: &[f64], others: &[Vec<f64>]) -> Vec<f64> {
        let here = self.basis.turned(&self.terms.row(mix));
        let own = dot(&here, &here);
        let wide = t_place(0.5 + 0.5 * number("prediction-confidence"), self.freedom + 1) * self.spread;
        let after = others.iter().map(|other| {
            let there = self.basis.turned(&self.terms.row(other));
            let left = own - dot(&here, &there).powi(2) / (1.0 + dot(&there, &there));
            wide * (1.0 + left).sqrt()
        });
        after.collect()
    }

    /// What refits say of mixes when the misses of the runs are dealt anew, so many times: the values of one refit after
    /// those of the other.
    ///
    /// The misses are made as wide as the scatter: each is divided by √(1 − leverage).
    ///
    /// Source: B. Efron, Annals of Statistics 7 (1979) 1-26, resampled residuals, from memory.
    #[must_use]
    pub fn refitted(&self, mixes: &[Vec<f64>], times: usize, seed: u64) -> Vec<f64> {
        let (runs, count) = (self.residuals.len(), mixes.len());
        let mut weights = vec![0.0; runs * count];
        for (mix, own) in mixes.iter().enumerate() {
            for (run, weight) in self.basis.weights(&self.terms.row(own)).into_iter().enumerate() {
                weights[run * count + mix] = weight;
            }
        }
        let middle: Vec<f64> = mixes.iter().map(|mix| dot(&self.terms.row(mix), &self.coefficients)).collect();
        let leverages = self.basis.leverages();
        let misses: Vec<f64> =
            self.residuals.iter().zip(leverages).map(|(miss, own)| miss / (1.0 - own).sqrt()).collect();
        let mut chance = Chance(seed);
        let mut all = Vec::with_capacity(times * count);
        for _ in 0..times {
            let start = all.len();
            all.extend_from_slice(&middle);
            let values = &mut all[start..];
            for weights in weights.chunks_exact(2 * count) {
                let (one, other) = weights.split_at(count);
                let [a, b] = chance.pair(runs).map(|place| misses[place]);
                values.iter_mut().zip(one).zip(other).for_each(|((value, one), other)| *value += one * a + other * b);
            }
            if runs % 2 == 1 {
                let miss = misses[chance.pair(runs)[0]];
                let last = &weights[(runs - 1) * count..];
                values.iter_mut().zip(last).for_each(|(value, weight)| *value += weight * miss);
            }
        }
        all
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Three mixes of two, repeated: y = 2 a + 5 b and some scatter.
    fn runs() -> (Vec<Vec<f64>>, Vec<f64>) {
        let mixes = [1.0, 1.0, 0.5, 0.5, 0.0, 0.0, 0.25].map(|a| vec![a, 1.0 - a]).to_vec();
        (mixes, vec![2.1, 1.9, 3.7, 3.3, 5.05, 4.95, 4.25])
    }

    #[test]
    fn a_run_left_out_is_missed_by_what_a_fit_of_the_others_misses_it() {
        let (mixes, values) = runs();
        let fit = fitted(Kind::Shares, Order::Linear, &mixes, &values).unwrap();
        for out in 0..mixes.len() {
            let (mut others, mut rest) = (mixes.clone(), values.clone());
            let (mix, value) = (others.remove(out), rest.remove(out));
            let without = fitted(Kind::Shares, Order::Linear, &others, &rest).unwrap();
            assert!((fit.left_out[out] - (value - without.at(&mix).value)).abs() < 1e-12);
        }
    }

    #[test]
    fn one_more_run_narrows_the_interval_as_a_fit_with_it_says() {
        let (mut mixes, mut values) = runs();
        let fit = fitted(Kind::Shares, Order::Linear, &mixes, &values).unwrap();
        let (here, there) = (vec![0.7, 0.3], vec![0.9, 0.1]);
        let after = fit.half_after(&here, std::slice::from_ref(&there))[0];
        mixes.push(there.clone());
        values.push(fit.at(&there).value);
        let with = fitted(Kind::Shares, Order::Linear, &mixes, &values).unwrap();
        let half = with.at(&here).half * fit.spread / with.spread;
        assert!((after - half).abs() < 1e-12 && after < fit.at(&here).half);
    }

    #[test]
    fn few_mixes_cap_the_order_and_mixes_alike_give_none() {
        let (mixes, values) = runs();
        assert_eq!(highest_order(Kind::Shares, &mixes), Some(Order::Quadratic), "two have no blend of three");
        assert_eq!(highest_order(Kind::Shares, &mixes[..5]), Some(Order::Linear));
        assert_eq!(highest_order(Kind::Shares, &mixes[..4]), None);
        let three: Vec<Vec<f64>> = mixes.iter().map(|mix| vec![mix[0], 0.5 * mix[1], 0.5 * mix[1]]).collect();
        let told = fitted(Kind::Shares, Order::Linear, &three, &values);
        assert_eq!(told, Err(Unfitted::Alike("3".into())));
    }

    /// Two mixes of one ingredient beside four repeats of the other: the bend hangs on the run between them alone.
    #[test]
    fn a_run_that_stands_alone_for_a_term_caps_the_order_until_it_is_repeated() {
        let mut mixes: Vec<Vec<f64>> = [0.0, 0.0, 0.5, 1.0, 1.0, 1.0].map(|a| vec![a, 1.0 - a]).to_vec();
        let mut values = vec![1.0, 1.2, 4.0, 2.0, 2.1, 1.9];
        assert_eq!(fitted(Kind::Shares, Order::Quadratic, &mixes, &values), Err(Unfitted::Alone(3)));
        assert_eq!(highest_order(Kind::Shares, &mixes), Some(Order::Linear));
        mixes.push(vec![0.5, 0.5]);
        values.push(4.2);
        assert_eq!(highest_order(Kind::Shares, &mixes), Some(Order::Quadratic));
        assert!(fitted(Kind::Shares, Order::Quadratic, &mixes, &values).is_ok());
    }

    #[test]
    fn a_bent_truth_shows_as_lack_of_fit_of_a_plane() {
        let mixes: Vec<Vec<f64>> = [0.0, 0.0, 0.5, 0.5, 1.0, 1.0].map(|a| vec![a, 1.0 - a]).to_vec();
        let bent = fitted(Kind::Shares, Order::Linear, &mixes, &[1.0, 1.1, 5.0, 5.1, 1.0, 0.9]).unwrap();
        let plane = fitted(Kind::Shares, Order::Linear, &mixes, &[1.0, 1.3, 2.1, 1.8, 3.2, 2.9]).unwrap();
        assert!(bent.lack.unwrap().chance < 1e-4 && plane.lack.unwrap().chance > 0.1);
        let exact = fitted(Kind::Shares, Order::Linear, &mixes, &[0.1, 0.1, 5.1, 5.1, 1.0, 1.0]).unwrap();
        assert_eq!(exact.lack.unwrap().chance, 0.0, "repeats that agree exactly leave no doubt of the misses");
        let level = fitted(Kind::Shares, Order::Linear, &mixes, &[0.1, 0.1, 0.6, 0.6, 1.1, 1.1]).unwrap();
        assert_eq!(level.lack, None, "neither misses nor repeats scatter");
    }

    #[test]
    fn refits_scatter_about_the_fit_as_its_leverage_says() {
        let (mixes, values) = runs();
        let fit = fitted(Kind::Shares, Order::Linear, &mixes, &values).unwrap();
        let at = vec![vec![0.6, 0.4]];
        let all = fit.refitted(&at, 20_000, 5);
        let mean = all.iter().sum::<f64>() / 20_000.0;
        let wide = (all.iter().map(|own| (own - mean).powi(2)).sum::<f64>() / 20_000.0).sqrt();
        let expected = fit.spread * fit.basis.leverage(&at[0]).sqrt();
        assert!(
            (mean - fit.at(&at[0]).value).abs() < 0.02 && (wide / expected - 1.0).abs() < 0.15,
            "{wide} {expected}"
        );
    }
}

//! What tried mixes say together: a surface through what was found of each wish, and the recipe in steps of a bucket that they choose.

use super::mixes::{Tried, Wish};
use crate::earth::mixture::{
    self, Choice, Fit, Goal, Kind as Varied, Limits, Order, Terms, Unfitted, Unmeasurable, distinct, fitted,
    highest_order, measurable, ranked, shares,
};
use crate::known::Known;

/// What tried mixes say together.
#[derive(Clone, Debug)]
pub struct MixFound {
    /// A surface for each wish.
    pub surfaces: Vec<MixSurface>,
    /// Steps of a bucket in a batch.
    pub whole: u32,
    /// Mixes of whole steps within the limits, no share beyond those tried.
    pub counts: Vec<Vec<u32>>,
    /// What is chosen among them.
    pub choice: Result<Choice, Unchosen>,
}

/// A surface through what was found.
#[derive(Clone, Debug)]
pub struct MixSurface {
    /// The tried mixes of which it was measured, by their places.
    pub runs: Vec<usize>,
    /// How many of them are distinct.
    pub distinct: usize,
    /// The order of the surface, or the plainest where the mixes carry none.
    pub order: Order,
    /// The surface.
    pub fit: Result<Fit, Unfitted>,
    /// Why it is not more bent; none where no order is more bent.
    pub capped: Option<(Order, Unfitted)>,
}

/// Why nothing is chosen.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Unchosen {
    /// None was tried.
    NoneTried,
    /// Of a wish there is no surface yet.
    NoSurface,
    /// No mix of whole steps within the limits lies between those tried.
    Untried,
    /// None of them meets every wish at all.
    Unmet,
}

impl Unchosen {
    /// In words.
    #[must_use]
    pub fn in_words(self) -> &'static str {
        match self {
            Unchosen::NoneTried => "none was tried yet: the plan says which to make",
            Unchosen::NoSurface => "too few mixes were tried: see what each wish lacks",
            Unchosen::Untried => "no mix of whole steps within the limits lies between those that were tried: try more",
            Unchosen::Unmet => "no mix within the limits meets every wish at all: widen a wish or a limit",
        }
    }
}

impl MixFound {
    /// How much of all wishes a mix meets; none where a surface is not known.
    #[must_use]
    pub fn meets(&self, wishes: &[Wish], shares: &[f64]) -> Option<f64> {
        let met = wishes.iter().zip(&self.surfaces).map(|(wish, surface)| {
            let fit = surface.fit.as_ref().ok()?;
            Some((wish.goal().met(fit.value(shares)), 1.0))
        });
        Some(mixture::overall(&met.collect::<Option<Vec<_>>>()?).value)
    }

    /// Steps of the chosen mix.
    #[must_use]
    pub fn best(&self) -> Option<&[u32]> {
        let choice = self.choice.as_ref().ok()?;
        self.counts.get(choice.best.first()?.place).map(Vec::as_slice)
    }
}

/// An ingredient with its least and its most buckets.
pub(super) type Limited = (String, [Known<f64>; 2]);

/// What mixes say of a batch of so many steps.
///
/// # Errors
/// When no mix of whole steps is within the limits.
pub(super) fn found(
    (parts, wishes, tried): (&[Limited], &[Wish], &[Tried]),
    (whole, step): (u32, f64),
    asked: Option<Order>,
) -> Result<MixFound, Unmeasurable> {
    if tried.is_empty() {
        let choice = Err(Unchosen::NoneTried);
        return Ok(MixFound { surfaces: Vec::new(), whole, counts: Vec::new(), choice });
    }
    let mixes: Vec<Vec<f64>> = tried.iter().map(Tried::shares).collect();
    let surfaces: Vec<MixSurface> = (0..wishes.len()).map(|wish| surface(wish, tried, &mixes, asked)).collect();
    let mut counts = measurable(&limited(parts, whole, step))?;
    if counts.is_empty() {
        return Err(Unmeasurable::Below);
    }
    counts.retain(|counts| is_between(&shares(counts), &mixes));
    let choice = chosen(&surfaces, wishes, &counts);
    Ok(MixFound { surfaces, whole, counts, choice })
}

/// Limits in whole steps of a bucket: limits that are none are those of the steps within them.
pub(super) fn limited(parts: &[Limited], whole: u32, step: f64) -> Limits {
    let side = |side: usize, round: fn(f64) -> f64| -> Vec<u32> {
        parts.iter().map(|(_, limits)| round(limits[side].value / step) as u32).collect()
    };
    let low = side(0, |steps| (steps - ROUNDING).ceil());
    let high = side(1, |steps| (steps + ROUNDING).floor()).into_iter().map(|most| most.min(whole)).collect();
    Limits { low, high, whole }
}

/// Steps are whole, and shares add up, to within this.
pub(super) const ROUNDING: f64 = 1e-9;

fn is_between(shares: &[f64], mixes: &[Vec<f64>]) -> bool {
    shares.iter().enumerate().all(|(part, share)| {
        let tried = mixes.iter().map(|mix| mix[part]);
        let [least, most] = [f64::min, f64::max].map(|side| tried.clone().reduce(side).unwrap_or(f64::NAN));
        (least - ROUNDING..=most + ROUNDING).contains(share)
    })
}

fn surface(wish: usize, tried: &[Tried], all: &[Vec<f64>], asked: Option<Order>) -> MixSurface {
    let values = tried.iter().map(|own| own.found[wish].as_ref().and_then(|found| found.value.si()));
    let (runs, values): (Vec<usize>, Vec<f64>) =
        values.enumerate().filter_map(|(place, value)| Some((place, value?))).unzip();
    let mixes: Vec<Vec<f64>> = runs.iter().map(|place| all[*place].clone()).collect();
    let order = asked.or_else(|| highest_order(Varied::Shares, &mixes)).unwrap_or(Order::Linear);
    let fit = fitted(Varied::Shares, order, &mixes, &values);
    let terms = |order: Order| Terms::of(Varied::Shares, order, all[0].len()).count();
    let bent = Order::ALL.into_iter().find(|other| terms(*other) > terms(order)).filter(|_| fit.is_ok());
    let capped = bent.and_then(|bent| Some((bent, fitted(Varied::Shares, bent, &mixes, &values).err()?)));
    MixSurface { distinct: distinct(Varied::Shares, &mixes), runs, order, fit, capped }
}

fn chosen(surfaces: &[MixSurface], wishes: &[Wish], counts: &[Vec<u32>]) -> Result<Choice, Unchosen> {
    let fits: Option<Vec<Fit>> = surfaces.iter().map(|surface| surface.fit.as_ref().ok().cloned()).collect();
    let fits = fits.ok_or(Unchosen::NoSurface)?;
    if counts.is_empty() {
        return Err(Unchosen::Untried);
    }
    let goals: Vec<Goal> = wishes.iter().map(Wish::goal).collect();
    ranked(counts, &fits, &goals).ok_or(Unchosen::Unmet)
}

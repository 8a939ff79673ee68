//! What requests about mixtures share: runs, wishes, ingredients in buckets, and why there is no surface.

use super::given::Given;
use crate::earth::mixture::{Goal, Kind as Varied, Limits, Order, Want};
use crate::units::Kind;

/// A slip in a request must not keep anyone waiting.
pub(super) const MOST_RUNS: usize = 60;

/// A mix that was tried and what was found of it.
pub(super) struct Run {
    pub mix: Vec<f64>,
    pub values: Vec<f64>,
}

/// Reads the runs; of shares, buckets are taken as shares of their sum.
pub(super) fn runs(given: &mut Given<'_>, varied: Varied) -> Vec<Run> {
    let runs = given.list("runs", |one| {
        let (mut mix, mut values) = (one.series("parts"), one.series("values"));
        values.extend(one.maybe::<f64>("value", Kind::Number));
        let whole: f64 = mix.iter().sum();
        if values.is_empty() || mix.is_empty() {
            one.problem(
                "write `parts`, the buckets of each ingredient, and `value` or `values`, what was found".into(),
            );
            return None;
        }
        if varied == Varied::Shares {
            if mix.iter().any(|part| *part < 0.0) || whole <= 0.0 {
                one.problem("buckets are not below zero, and some are above".into());
                return None;
            }
            mix.iter_mut().for_each(|part| *part /= whole);
        }
        Some(Run { mix, values })
    });
    let alike = |run: &Run| run.mix.len() == runs[0].mix.len() && run.values.len() == runs[0].values.len();
    if !runs.iter().all(alike) {
        given.problem(
            "every run has as many `parts` and `values` as the first; write 0 for an ingredient that is left out"
                .into(),
        );
    }
    runs
}

/// Reads whether what is varied adds up to a whole.
pub(super) fn varied(given: &mut Given<'_>) -> Varied {
    match given.maybe_word("varied", &["shares", "free"]) {
        Some("free") => Varied::Free,
        _ => Varied::Shares,
    }
}

/// Reads an order.
pub(super) fn order(given: &mut Given<'_>) -> Option<Order> {
    let word = given.maybe_word("order", &["linear", "quadratic", "special-cubic"])?;
    Order::ALL.into_iter().find(|order| order.word() == word)
}

/// Reads a wish, and the value that it is held against where one is written.
pub(super) fn goal(given: &mut Given<'_>) -> Option<(Goal, Option<f64>)> {
    let want = given.maybe_word("want", &["most", "least", "target"]);
    let target = given.number::<f64>("target", Kind::Number);
    let mut maybe = |key| given.maybe::<f64>(key, Kind::Number);
    let (low, high) = (maybe("low"), maybe("high"));
    let (power, counts) = (maybe("power").unwrap_or(1.0), maybe("counts").unwrap_or(1.0));
    let found = maybe("found");
    let target = target?;
    let Some(want) = want else {
        given.problem("`want` is missing; write most, least or target".into());
        return None;
    };
    let (want, is_right) = match want {
        "most" => (Want::Most, low.is_some_and(|low| low < target)),
        "least" => (Want::Least, high.is_some_and(|high| target < high)),
        _ => (Want::Target, low.is_some_and(|low| low < target) && high.is_some_and(|high| target < high)),
    };
    if !is_right || power <= 0.0 || counts <= 0.0 {
        given.problem("a wish has `low` below `target`, or `target` below `high`, or both for a target; `power` and `counts` are above zero".into());
        return None;
    }
    Some((Goal { want, low: low.unwrap_or(target), target, high: high.unwrap_or(target), power, counts }, found))
}

/// Ingredients of a batch in steps of a bucket, and what a step is.
pub(super) struct Batch {
    pub names: Vec<String>,
    pub limits: Limits,
    pub step: f64,
}

/// Reads ingredients with their limits, the buckets of a batch and the step that can be measured.
pub(super) fn batch(given: &mut Given<'_>) -> Option<Batch> {
    let step = given.maybe::<f64>("step_buckets", Kind::Number).unwrap_or(0.5);
    let whole = given.number::<f64>("batch_buckets", Kind::Number);
    let mut names = Vec::new();
    let sides = given.list("ingredients", |one| {
        let name = one.text("name");
        let low = one.number::<f64>("low_buckets", Kind::Number);
        let high = one.number::<f64>("high_buckets", Kind::Number);
        names.push(name?.to_owned());
        Some([low?, high?])
    });
    let whole = whole?;
    if !given.is_fine() {
        return None;
    }
    if step <= 0.0 || whole <= 0.0 || whole > MOST_STEPS * step || !(2..=5).contains(&sides.len()) {
        given.problem(
            "two to five `ingredients`, each with its limits in buckets, and a batch of at most 60 steps".into(),
        );
        return None;
    }
    let is_step = |buckets: f64| (buckets / step - (buckets / step).round()).abs() < 1e-9;
    if sides.iter().any(|[low, high]| *low < 0.0 || high < low) {
        given.problem("`low_buckets` is not below zero and not above `high_buckets`".into());
        return None;
    }
    if !is_step(whole) || sides.iter().flatten().any(|buckets| !is_step(*buckets)) {
        given.problem(format!("limits and batch are whole steps of {step} bucket: nobody measures less"));
        return None;
    }
    let steps = |buckets: f64| (buckets / step).round() as u32;
    let limits = Limits {
        low: sides.iter().map(|[low, _]| steps(*low)).collect(),
        high: sides.iter().map(|[_, high]| steps(high.min(whole))).collect(),
        whole: steps(whole),
    };
    Some(Batch { names, limits, step })
}

/// A slip in a request must not keep anyone waiting.
const MOST_STEPS: f64 = 60.0;

impl Batch {
    /// A mix as it is called out at the tarp: "3 soil : 4.5 sand".
    pub fn called(&self, counts: &[u32]) -> String {
        let parts = self.names.iter().zip(counts).map(|(name, count)| format!("{} {name}", self.buckets(*count)));
        parts.collect::<Vec<_>>().join(" : ")
    }

    /// Buckets of so many steps.
    pub fn buckets(&self, count: u32) -> f64 {
        f64::from(count) * self.step
    }
}

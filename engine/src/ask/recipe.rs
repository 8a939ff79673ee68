//! Questions of what is wanted of a mix: how much of it is met, and the best recipe that can be measured in buckets.

use serde_json::{Value, json};

use super::given::Given;
use super::mixture_given::{Batch, MOST_RUNS, Run, batch, goal, order, runs};
use super::{Question, Reply};
use crate::earth::mixture::{
    self, Choice, Fit, Goal, Kind as Varied, Order, Ranked, fitted, highest_order, measurable, ranked, shares, steady,
};
use crate::earth::tables::number;
use crate::reason::{Reason, Words};
use crate::solve::climb::{starts, summit};

pub(super) const DESIRABILITY: Question = Question {
    name: "desirability",
    about: "How much of several wishes is met, each and together; with runs of free amounts, the amounts that meet them best",
    example: r#"{"goals": [{"want": "most", "low": 120, "target": 170, "found": 145},
  {"want": "target", "low": 400, "target": 500, "high": 600, "found": 450}]}"#,
    answer: desirability,
};

pub(super) const RECIPE: Question = Question {
    name: "recipe",
    about: "The best recipe in whole or half buckets by tried mixes and what is wanted of them, those nearly as good, how sure \
            it is, and the one test to make next",
    example: r#"{"batch_buckets": 6, "step_buckets": 0.5, "ingredients": [{"name": "soil", "low_buckets": 1, "high_buckets": 4},
  {"name": "sand", "low_buckets": 2, "high_buckets": 5}], "goals": [
  {"want": "most", "low": 300000, "target": 900000}, {"want": "least", "target": 0.01, "high": 0.045}],
  "runs": [{"parts": [1, 5], "values": [390000, 0.011]}, {"parts": [1, 5], "values": [420000, 0.009]},
  {"parts": [2, 4], "values": [650000, 0.018]}, {"parts": [2, 4], "values": [690000, 0.016]}, {"parts": [3, 3], "values": [720000, 0.027]},
  {"parts": [3, 3], "values": [760000, 0.03]}, {"parts": [4, 2], "values": [610000, 0.042]}, {"parts": [4, 2], "values": [660000, 0.045]}]}"#,
    answer: recipe,
};

/// Refits by which it is told how sure a choice is.
const REFITS: usize = 1000;
/// Recipes that are listed beside the best.
const LISTED: usize = 12;

fn desirability(given: &mut Given<'_>, reply: &mut Reply) {
    let goals = given.list("goals", goal);
    let runs = runs(given, Varied::Free);
    let wanted = order(given);
    let (low, high) = (given.series("low"), given.series("high"));
    if !given.is_fine() {
        return;
    }
    if goals.is_empty() {
        return given.problem("`goals` has no wish".into());
    }
    if runs.is_empty() {
        let mut met = Vec::new();
        for (place, (goal, found)) in goals.iter().enumerate() {
            let Some(found) = found else {
                return given
                    .problem(format!("goals {}: `found` is missing; write what was found, or `runs`", place + 1));
            };
            met.push((reply.put(&format!("met_{}", place + 1), mixture::desirability(*found, goal)), goal.counts));
        }
        reply.put("overall", mixture::overall(&met));
        return;
    }
    let goals: Vec<Goal> = goals.into_iter().map(|(goal, _)| goal).collect();
    let Some(fits) = surfaces(given, Varied::Free, wanted, &runs, goals.len()) else { return };
    let width = runs[0].mix.len();
    if low.len() != width || high.len() != width || low.iter().zip(&high).any(|(low, high)| low >= high) {
        return given.problem("`low` and `high` say how far each amount may go, `low` below `high`".into());
    }
    let met = |place: &[f64]| {
        let met = goals.iter().zip(&fits).map(|(goal, fit)| (goal.met(fit.at(place).value), goal.counts));
        mixture::overall(&met.collect::<Vec<_>>())
    };
    let (place, _) = summit(&low, &high, |place| met(place).value);
    let overall = reply.put("overall", met(&place));
    if overall <= 0.0 {
        return given
            .problem(format!("no amounts that meet every wish at all were found from {} places within these limits: widen a wish or the limits", starts(width)));
    }
    for (factor, amount) in place.iter().enumerate() {
        reply.answer.insert(format!("best_{}", factor + 1), json!(amount));
    }
    for (response, fit) in fits.iter().enumerate() {
        reply.answer.insert(format!("predicted_{}", response + 1), json!(fit.at(&place).value));
    }
}

/// A surface for each value of the runs, of the order asked for or the most bent that they carry.
fn surfaces(
    given: &mut Given<'_>,
    varied: Varied,
    wanted: Option<Order>,
    runs: &[Run],
    goals: usize,
) -> Option<Vec<Fit>> {
    let mixes: Vec<Vec<f64>> = runs.iter().map(|run| run.mix.clone()).collect();
    let values = runs.first().map_or(0, |run| run.values.len());
    if values != goals || runs.len() > MOST_RUNS || !(1..=5).contains(&mixes[0].len()) {
        given.problem(format!("there is a wish for each of `values`, at most {MOST_RUNS} runs and five parts"));
        return None;
    }
    let order = wanted.or_else(|| highest_order(varied, &mixes)).unwrap_or(Order::Linear);
    let fits = (0..values).map(|at| {
        let found: Vec<f64> = runs.iter().map(|run| run.values[at]).collect();
        fitted(varied, order, &mixes, &found)
    });
    match fits.collect::<Result<Vec<Fit>, _>>() {
        Ok(fits) => Some(fits),
        Err(fault) => {
            given.problem(fault.in_words());
            None
        }
    }
}

fn recipe(given: &mut Given<'_>, reply: &mut Reply) {
    let goals = given.list("goals", goal);
    let runs = runs(given, Varied::Shares);
    let batch = batch(given);
    let wanted = order(given);
    let Some(batch) = batch else { return };
    if !given.is_fine() {
        return;
    }
    let goals: Vec<Goal> = goals.into_iter().map(|(goal, _)| goal).collect();
    if goals.is_empty() || runs.is_empty() || runs[0].mix.len() != batch.names.len() {
        return given.problem("write `goals`, and `runs` with a part for each of `ingredients`".into());
    }
    let Some(fits) = surfaces(given, Varied::Shares, wanted, &runs, goals.len()) else { return };
    let counts = match measurable(&batch.limits) {
        Ok(counts) => counts,
        Err(fault) => return given.problem(fault.in_words().into()),
    };
    let Some(mut choice) = ranked(&counts, &fits, &goals) else {
        return given.problem("no mix within these limits meets every wish at all: widen a wish or the limits".into());
    };
    let nearly = choice.best.len();
    choice.best.truncate(LISTED);
    let sure = steady(&choice, &counts, &fits, &goals, REFITS, 1);
    chosen(reply, &batch, &counts, &choice, sure[0]);
    let listed: Vec<Value> =
        choice.best.iter().zip(&sure).map(|(own, sure)| listed(&batch, &counts[own.place], own, *sure)).collect();
    reply.answer.insert("nearly_as_good".into(), json!(listed));
    reply.answer.insert("nearly_as_good_count".into(), json!(nearly));
    let carried = runs.iter().any(|run| run.mix == shares(&counts[choice.best[0].place]));
    let mut cautions = Vec::new();
    if !carried {
        cautions.push("The best recipe has not been made itself: make one before you mix by it".to_owned());
    }
    for (response, fit) in fits.iter().enumerate() {
        if fit.explained_left_out.is_none_or(|share| share < number("explained-enough")) {
            cautions
                .push(format!("Wish {}: the runs say little of mixes that were not tried; test more", response + 1));
        }
        let told = match fit.lack {
            Some(lack) if lack.chance < number("lack-risk") => {
                "the surface misses the repeated mixes by more than they scatter"
            }
            Some(_) => continue,
            None => {
                "whether the surface is bent enough is not known: it takes repeated mixes, and more mixes than terms"
            }
        };
        cautions.push(format!("Wish {}: {told}", response + 1));
    }
    reply.answer.insert("cautions".into(), json!(cautions));
}

fn chosen(reply: &mut Reply, batch: &Batch, counts: &[Vec<u32>], choice: &Choice, sure: f64) {
    let best = &choice.best[0];
    for (place, count) in counts[best.place].iter().enumerate() {
        reply.answer.insert(format!("buckets_{}", place + 1), json!(batch.buckets(*count)));
    }
    for (place, own) in best.predicted.iter().enumerate() {
        reply.answer.insert(format!("predicted_{}", place + 1), json!(own.value));
        reply.answer.insert(format!("within_{}", place + 1), json!(own.half));
        reply.answer.insert(format!("met_{}", place + 1), json!(best.met[place]));
    }
    reply.answer.insert("recipe".into(), json!(batch.called(&counts[best.place])));
    reply.answer.insert("overall".into(), json!(best.overall));
    reply.answer.insert("overall_at_worst".into(), json!(best.at_worst));
    reply.answer.insert("best_of_listed_ratio".into(), json!(sure));
    let governing = best.predicted[choice.governing];
    let next = format!(
        "Make one more of {}: it narrows wish {}, which governs, from ± {:.3e} to ± {:.3e} at the recipe",
        batch.called(&counts[choice.next.0]),
        choice.governing + 1,
        governing.half,
        choice.next.1
    );
    reply.answer.insert("next".into(), json!(next));
    let words = Words {
        title: "The recipe of whole steps that meets most of all wishes together.".into(),
        equation: "greatest D = (Π dᵢ^rᵢ)^(1/Σ rᵢ) over every mix that can be measured".into(),
        source: "Derringer and Suich, Journal of Quality Technology 12 (1980) 214-219; counted out".into(),
        ..Words::default()
    };
    reply.reasons.push(Reason::in_words(words, Vec::new()));
}

fn listed(batch: &Batch, counts: &[u32], own: &Ranked, sure: f64) -> Value {
    json!({"recipe": batch.called(counts), "overall": own.overall, "overall_at_worst": own.at_worst, "best_of_listed_ratio": sure})
}

#[cfg(test)]
mod tests {
    use serde_json::{Value, json};

    use crate::ask::ask;

    #[test]
    fn a_recipe_is_measured_in_steps_and_says_what_to_test_next() {
        let request: Value = serde_json::from_str(super::RECIPE.example).unwrap();
        let reply = ask("recipe", &request).unwrap();
        let answer = &reply["answer"];
        let (soil, sand) = (answer["buckets_1"].as_f64().unwrap(), answer["buckets_2"].as_f64().unwrap());
        assert_eq!(soil + sand, 6.0);
        assert!(answer["next"].as_str().unwrap().starts_with("Make one more of"));
        assert!(answer["overall_at_worst"].as_f64().unwrap() < answer["overall"].as_f64().unwrap());
    }

    #[test]
    fn runs_without_repeats_leave_open_whether_the_surface_is_bent_enough() {
        let mut request: Value = serde_json::from_str(super::RECIPE.example).unwrap();
        let caution = |request: &Value| ask("recipe", request).unwrap()["answer"]["cautions"].to_string();
        assert!(!caution(&request).contains("bent enough"));
        for (place, run) in request["runs"].as_array_mut().unwrap().iter_mut().enumerate() {
            run["parts"] = json!([20 + 5 * place, 80 - 5 * place]);
        }
        assert!(caution(&request).contains("Wish 2: whether the surface is bent enough is not known"));
    }

    #[test]
    fn wishes_that_cannot_be_met_are_told() {
        let mut request: Value = serde_json::from_str(super::RECIPE.example).unwrap();
        request["goals"][0] = json!({"want": "most", "low": 5e6, "target": 6e6});
        let told = ask("recipe", &request).unwrap()["problems"].to_string();
        assert!(told.contains("no mix within these limits meets every wish"), "{told}");
        request["goals"][0] = json!({"want": "most", "low": 6e6, "target": 5e6});
        assert!(
            ask("recipe", &request).unwrap()["problems"]
                .to_string()
                .contains("goals 1: a wish has `low` below `target`")
        );
    }
}

//! Questions of mixtures: which mixes to try, and what tried mixes say of others.

use serde_json::{Value, json};

use super::given::Given;
use super::mixture_given::{MOST_RUNS, batch, order, runs, varied};
use super::{Question, Reply};
use crate::earth::mixture::{
    self, Fit, Kind as Varied, Order, Terms, centroid, distinct, fitted, highest_order, lattice, measurable, shares,
    spread_out,
};
use crate::reason::{Reason, Words};
use crate::solve::draws::Chance;

pub(super) const MIXTURE_DESIGN: Question = Question {
    name: "mixture-design",
    about: "Which mixes to try: a lattice, a centroid, or mixes of whole or half buckets within limits that tell most, in an \
            order drawn by lot",
    example: r#"{"design": "within", "batch_buckets": 6, "step_buckets": 0.5, "runs_count": 9, "repeats_count": 2,
  "order": "quadratic", "ingredients": [{"name": "soil", "low_buckets": 1, "high_buckets": 3.5},
  {"name": "sand", "low_buckets": 2, "high_buckets": 4.5}, {"name": "chopped straw", "low_buckets": 0.5, "high_buckets": 2}]}"#,
    answer: design,
};

pub(super) const MIXTURE_FIT: Question = Question {
    name: "mixture-fit",
    about: "A surface through tried mixes: its terms, how well it fits, what it misses, and what one more mix would show",
    example: r#"{"at": [2, 4], "runs": [{"parts": [1, 0], "value": 4.1}, {"parts": [1, 0], "value": 3.8}, {"parts": [1, 1], "value": 6.2},
  {"parts": [1, 1], "value": 6.6}, {"parts": [0, 1], "value": 1.1}, {"parts": [0, 1], "value": 0.8}, {"parts": [1, 3], "value": 4.2}]}"#,
    answer: fit,
};

fn design(given: &mut Given<'_>, reply: &mut Reply) {
    let kind = given.maybe_word("design", &["lattice", "centroid", "within"]).unwrap_or("within");
    if kind == "within" {
        return within(given, reply);
    }
    let ingredients = given.count("ingredients_count", 2);
    let steps = if kind == "lattice" { given.count("steps_count", 1) } else { Some(1) };
    let (Some(ingredients), Some(steps)) = (ingredients, steps) else { return };
    if ingredients > 5 || steps > 10 {
        return given.problem("a lattice has at most 5 ingredients and 10 steps".into());
    }
    let mixes = match kind {
        "lattice" => {
            reply.put("mixes", mixture::lattice_count(ingredients as f64, steps as f64));
            lattice(ingredients as usize, steps as usize)
        }
        _ => centroid(ingredients as usize),
    };
    reply.answer.insert("mixes".into(), json!(mixes));
    if reply.reasons.is_empty() {
        let title = "Every ingredient alone and every equal mix of several.".to_owned();
        let source = "Scheffé, Journal of the Royal Statistical Society B 25 (1963) 235-263, from memory".to_owned();
        reply.reasons.push(Reason::in_words(Words { title, source, ..Words::default() }, Vec::new()));
        reply.answer.insert("mixes_count".into(), json!(mixes.len()));
    }
}

fn within(given: &mut Given<'_>, reply: &mut Reply) {
    let batch = batch(given);
    let wanted = order(given).unwrap_or(Order::Quadratic);
    let count = given.count("runs_count", 2);
    let repeats = if given.has("repeats_count") { given.count("repeats_count", 0) } else { Some(0) };
    let seed = if given.has("seed") { given.count("seed", 0) } else { Some(1) };
    let (Some(batch), Some(count), Some(repeats), Some(seed)) = (batch, count, repeats, seed) else { return };
    if count > MOST_RUNS as u64 || repeats >= count {
        return given.problem(format!("at most {MOST_RUNS} runs, and fewer repeats than runs"));
    }
    let counts = match measurable(&batch.limits) {
        Ok(counts) => counts,
        Err(fault) => return given.problem(fault.in_words().into()),
    };
    let mixes: Vec<Vec<f64>> = counts.iter().map(|counts| shares(counts)).collect();
    let terms = Terms::of(Varied::Shares, wanted, batch.names.len());
    let mut chosen = spread_out(&mixes, &terms, count as usize, repeats as usize, &[]);
    Chance(seed).shuffle(&mut chosen);
    let tried: Vec<Vec<f64>> = chosen.iter().map(|&place| mixes[place].clone()).collect();
    let buckets = |place: &usize| counts[*place].iter().map(|count| batch.buckets(*count)).collect::<Vec<f64>>();
    reply.answer.insert("runs_buckets".into(), json!(chosen.iter().map(buckets).collect::<Vec<_>>()));
    reply
        .answer
        .insert("runs".into(), json!(chosen.iter().map(|&place| batch.called(&counts[place])).collect::<Vec<_>>()));
    reply.answer.insert("measurable_count".into(), json!(mixes.len()));
    reply.answer.insert("distinct_count".into(), json!(distinct(Varied::Shares, &tried)));
    let carried = highest_order(Varied::Shares, &tried);
    reply.answer.insert("carries".into(), json!(carried.map_or("nothing yet", Order::word)));
    if carried < Some(wanted) {
        let next = format!("So few runs do not carry a {} fit: add runs, or take a plainer one", wanted.word());
        reply.answer.insert("next".into(), json!(next));
    }
    let title = "The mixes within the limits that tell the terms of the fit best from each other.".to_owned();
    let equation = "det (XᵀX) is the greatest that exchange finds; X: terms of the runs".to_owned();
    let source = "Fedorov, Theory of Optimal Experiments (1972), from memory".to_owned();
    reply.reasons.push(Reason::in_words(Words { title, equation, source, ..Words::default() }, Vec::new()));
}

fn fit(given: &mut Given<'_>, reply: &mut Reply) {
    let varied = varied(given);
    let wanted = order(given);
    let mut at = given.series("at");
    let runs = runs(given, varied);
    if !given.is_fine() {
        return;
    }
    let mixes: Vec<Vec<f64>> = runs.iter().map(|run| run.mix.clone()).collect();
    let values: Vec<f64> = runs.iter().map(|run| run.values[0]).collect();
    let width = mixes.first().map_or(0, Vec::len);
    if !(1..=5).contains(&width) || mixes.len() > MOST_RUNS {
        return given.problem(format!("`runs` has one to five parts and at most {MOST_RUNS} runs"));
    }
    let whole: f64 = at.iter().sum();
    if !at.is_empty() && (at.len() != width || (varied == Varied::Shares && whole <= 0.0)) {
        return given.problem("`at` has as many parts as the runs".into());
    }
    let highest = highest_order(varied, &mixes);
    let asked = wanted.or(highest).unwrap_or(Order::Linear);
    let fit = match fitted(varied, asked, &mixes, &values) {
        Ok(fit) => fit,
        Err(fault) => return given.problem(fault.in_words()),
    };
    reply.answer.insert("order".into(), json!(asked.word()));
    reply.answer.insert("highest_order".into(), json!(highest.map_or("none", Order::word)));
    told(reply, &fit);
    if !at.is_empty() {
        if varied == Varied::Shares {
            at.iter_mut().for_each(|part| *part /= whole);
        }
        let found = fit.at(&at);
        reply.answer.insert("predicted".into(), json!(found.value));
        reply.answer.insert("predicted_low".into(), json!(found.value - found.half));
        reply.answer.insert("predicted_high".into(), json!(found.value + found.half));
    }
}

fn told(reply: &mut Reply, fit: &Fit) {
    for ((name, coefficient), deviation) in fit.terms.names().iter().zip(&fit.coefficients).zip(&fit.deviations) {
        reply.answer.insert(format!("b_{name}"), json!(coefficient));
        reply.answer.insert(format!("sd_{name}"), json!(deviation));
    }
    let mut put = |name: &str, value: Value| reply.answer.insert(name.to_owned(), value);
    put("spread", json!(fit.spread));
    put("spare_runs_count", json!(fit.freedom));
    put("explained", json!(fit.explained));
    put("explained_left_out", json!(fit.explained_left_out));
    put("left_out", json!(fit.left_out));
    let mut next = Vec::new();
    match fit.lack {
        Some(lack) => {
            put("lack_of_fit_ratio", json!(lack.ratio.is_finite().then_some(lack.ratio)));
            put("lack_of_fit_chance", json!(lack.chance));
        }
        None => next.push(
            "Whether the surface is bent enough: not known. It takes two repeated mixes that scatter, and one more mix than it has terms",
        ),
    }
    if fit.explained_left_out.is_none_or(|share| share < 0.0) {
        next.push("The surface says no more of a mix that was not tried than the mean of all does: test more before you choose by it");
    }
    put("next", json!(next));
    let words = Words {
        title: "The surface that comes nearest to all runs.".into(),
        equation: "y = Σ bᵢ xᵢ + Σ bᵢⱼ xᵢ xⱼ + Σ bᵢⱼₖ xᵢ xⱼ xₖ        least Σ (y − ŷ)²".into(),
        source: "Scheffé, Journal of the Royal Statistical Society B 20 (1958) 344-360, from memory; least squares"
            .into(),
        ..Words::default()
    };
    reply.reasons.push(Reason::in_words(words, Vec::new()));
}

#[cfg(test)]
mod tests {
    use serde_json::{Value, json};

    use crate::ask::ask;

    fn told(name: &str, request: &Value) -> String {
        ask(name, request).unwrap()["problems"].to_string()
    }

    #[test]
    fn too_few_mixes_for_an_order_are_told_with_how_many_more() {
        let run = |parts: [f64; 3], value: f64| json!({"parts": parts, "value": value});
        let runs: Vec<Value> =
            [[1., 0., 0.], [0., 1., 0.], [0., 0., 1.], [1., 1., 1.]].into_iter().map(|mix| run(mix, 2.0)).collect();
        let found = told("mixture-fit", &json!({"order": "quadratic", "runs": runs}));
        assert!(found.contains("4 distinct mixes do not carry 6 terms: try 2 more mixes"), "{found}");
        let found = told("mixture-fit", &json!({"order": "linear", "runs": runs}));
        assert!(found.contains("6 are wanted, test 2 more"), "{found}");
    }

    #[test]
    fn equal_values_are_not_explained_and_exact_repeats_that_are_missed_show_it() {
        let fit = |values: [f64; 8]| {
            let mixes = [[1, 0], [3, 1], [1, 1], [0, 1]];
            let run = |at: usize| json!({"parts": mixes[at / 2], "value": values[at]});
            let runs: Vec<Value> = (0..8).map(run).collect();
            ask("mixture-fit", &json!({"order": "linear", "runs": runs})).unwrap()["answer"].clone()
        };
        let same = fit([2.1; 8]);
        assert_eq!([&same["explained"], &same["explained_left_out"]], [&Value::Null, &Value::Null]);
        assert!(same["next"].to_string().contains("no more of a mix that was not tried"), "{same}");
        let bent = fit([1.0, 1.0, 4.0, 4.0, 5.1, 5.1, 1.0, 1.0]);
        assert_eq!([&bent["lack_of_fit_chance"], &bent["lack_of_fit_ratio"]], [&json!(0.0), &Value::Null]);
        assert!(!bent["next"].to_string().contains("bent enough"), "{bent}");
    }

    #[test]
    fn a_design_within_limits_keeps_them_and_the_same_seed_gives_the_same_order() {
        let request: Value = serde_json::from_str(super::MIXTURE_DESIGN.example).unwrap();
        let reply = ask("mixture-design", &request).unwrap();
        let runs = reply["answer"]["runs_buckets"].as_array().unwrap();
        assert_eq!(runs.len(), 9);
        for run in runs {
            let buckets: Vec<f64> = run.as_array().unwrap().iter().map(|one| one.as_f64().unwrap()).collect();
            assert!((buckets.iter().sum::<f64>() - 6.0).abs() < 1e-9 && (1.0..=3.5).contains(&buckets[0]));
        }
        assert_eq!(reply["answer"]["distinct_count"], 7);
        assert_eq!(reply, ask("mixture-design", &request).unwrap());
        let mut narrow = request.clone();
        narrow["batch_buckets"] = json!(2);
        assert!(told("mixture-design", &narrow).contains("no mix is within these limits"));
        narrow["batch_buckets"] = json!(6.2);
        assert!(told("mixture-design", &narrow).contains("whole steps of 0.5 bucket"));
    }
}

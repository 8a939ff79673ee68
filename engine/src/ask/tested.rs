//! Questions of batches as they were mixed and panels as they were judged.

use serde_json::json;

use super::given::Given;
use super::{Question, Reply};
use crate::earth;
use crate::earth::panel::{self, Score};
use crate::earth::tables::{fact, number};
use crate::reason::{Reason, Words};
use crate::units::{Kind, Mass, Ratio, Volume};

pub(super) const BATCHES: Question = Question {
    name: "batches",
    about: "What a log of batches says: yield, moisture, person-hours, and which batch is not as the first ten were",
    example: r#"{"placed_m3": 0.62, "batches": [
  {"loose_m3": 0.08, "wet_kg": 1.19, "dry_kg": 1.0, "person_hours": 1.5}, {"loose_m3": 0.08, "wet_kg": 1.2, "dry_kg": 1.0},
  {"loose_m3": 0.08, "wet_kg": 1.185, "dry_kg": 1.0}, {"loose_m3": 0.08, "wet_kg": 1.2, "dry_kg": 1.0},
  {"loose_m3": 0.08, "wet_kg": 1.195, "dry_kg": 1.0}, {"loose_m3": 0.08, "wet_kg": 1.19, "dry_kg": 1.0},
  {"loose_m3": 0.08, "wet_kg": 1.205, "dry_kg": 1.0}, {"loose_m3": 0.08, "wet_kg": 1.19, "dry_kg": 1.0},
  {"loose_m3": 0.08, "wet_kg": 1.2, "dry_kg": 1.0}, {"loose_m3": 0.08, "wet_kg": 1.195, "dry_kg": 1.0},
  {"loose_m3": 0.08, "wet_kg": 1.28, "dry_kg": 1.0}]}"#,
    answer: batches,
};

pub(super) const PANEL_SCORES: Question = Question {
    name: "panel-scores",
    about: "What judges' scores of test panels, 0 the best to 4, say of a mix: the chance of a good score, how far judges are apart",
    example: r#"{"good_count": 1, "at": [1, 3], "scores": [
  {"parts": [1, 1], "panel": "A", "judge": "first", "score_count": 4}, {"parts": [1, 1], "panel": "A", "judge": "second", "score_count": 3},
  {"parts": [1, 2], "panel": "B", "judge": "first", "score_count": 2}, {"parts": [1, 2], "panel": "B", "judge": "second", "score_count": 2},
  {"parts": [1, 3], "panel": "C", "judge": "first", "score_count": 1}, {"parts": [1, 3], "panel": "C", "judge": "second", "score_count": 0},
  {"parts": [1, 4], "panel": "D", "judge": "first", "score_count": 1}, {"parts": [1, 4], "panel": "D", "judge": "second", "score_count": 1}]}"#,
    answer: panel_scores,
};

struct Batch {
    loose: Volume,
    moisture: Option<Ratio>,
    hours: Option<f64>,
}

fn batch(given: &mut Given<'_>) -> Option<Batch> {
    let loose = given.number::<Volume>("loose_m3", Kind::Volume);
    let (wet, dry) = (given.maybe::<Mass>("wet_kg", Kind::Mass), given.maybe::<Mass>("dry_kg", Kind::Mass));
    let hours = given.maybe::<f64>("person_hours", Kind::Number);
    let loose = loose?;
    if loose <= Volume::ZERO || dry.is_some_and(|dry| dry <= Mass::ZERO) || hours.is_some_and(|hours| hours < 0.0) {
        given.problem("`loose_m3` and `dry_kg` must be above zero, `person_hours` not below it".into());
        return None;
    }
    let moisture = match (wet, dry) {
        (Some(wet), Some(dry)) if wet >= dry => Some(earth::moisture(wet, dry).value),
        (None, None) => None,
        _ => {
            given.problem("`wet_kg` and `dry_kg` are of one sample, the wet one not the lighter".into());
            return None;
        }
    };
    Some(Batch { loose, moisture, hours })
}

fn batches(given: &mut Given<'_>, reply: &mut Reply) {
    let placed = given.maybe::<Volume>("placed_m3", Kind::Volume);
    let batches = given.list("batches", batch);
    if !given.is_fine() {
        return;
    }
    if batches.is_empty() || placed.is_some_and(|placed| placed <= Volume::ZERO) {
        return given.problem("`batches` has no batch, or `placed_m3` is not above zero".into());
    }
    let loose: Volume = batches.iter().map(|batch| batch.loose).sum();
    if let Some(placed) = placed {
        let found = reply.put("yield", earth::placed_yield(placed, loose));
        if found > Ratio::fraction(1.0) {
            return given.problem("more was placed than the batches were loose: a batch is missing in the log, or heaped was taken for struck".into());
        }
    }
    let hours: Vec<(f64, Volume)> = batches.iter().filter_map(|batch| Some((batch.hours?, batch.loose))).collect();
    if !hours.is_empty() {
        let each = hours.iter().map(|own| own.0).sum::<f64>() / hours.iter().map(|own| own.1.in_m3()).sum::<f64>();
        reply.answer.insert("person_hours_for_loose_m3".into(), json!(each));
    }
    let known: Vec<(usize, f64)> =
        batches.iter().enumerate().filter_map(|(at, batch)| Some((at + 1, batch.moisture?.in_fraction()))).collect();
    let wanted = reply.fact("strip_runs", "Batches before a strip is drawn", fact("strip-runs"));
    if (known.len() as f64) < wanted {
        let next = format!(
            "Whether batches are alike: not known. Weigh a sample of {wanted} batches wet and dry; {} are there",
            known.len()
        );
        reply.answer.insert("next".into(), json!(next));
        return;
    }
    let first: Vec<f64> = known.iter().take(wanted as usize).map(|own| own.1).collect();
    let Some((mean, half)) = earth::strip(&first) else { return };
    reply.answer.insert("moisture_ratio".into(), json!(mean));
    reply.answer.insert("moisture_low_ratio".into(), json!(mean - half));
    reply.answer.insert("moisture_high_ratio".into(), json!(mean + half));
    let outside: Vec<usize> = known.iter().filter(|own| (own.1 - mean).abs() > half).map(|own| own.0).collect();
    reply.answer.insert("outside".into(), json!(outside));
    reply.answer.insert("outside_count".into(), json!(outside.len()));
}

/// The place of a word in the list of those met so far.
fn place_of(word: &str, met: &mut Vec<String>) -> usize {
    met.iter().position(|own| own == word).unwrap_or_else(|| {
        met.push(word.to_owned());
        met.len() - 1
    })
}

/// The first panel that is said to be of two mixes.
fn of_two_mixes(scores: &[Score]) -> Option<usize> {
    let differ = |one: &Score, other: &Score| one.mix.iter().zip(&other.mix).any(|(a, b)| (a - b).abs() > 1e-9);
    let mut later = scores.iter().enumerate();
    later.find_map(|(at, one)| {
        scores[..at].iter().any(|other| one.panel == other.panel && differ(one, other)).then_some(one.panel)
    })
}

fn panel_scores(given: &mut Given<'_>, reply: &mut Reply) {
    let good = given.count("good_count", 0);
    let mut at = given.series("at");
    let (mut panels, mut judges) = (Vec::new(), Vec::new());
    let worst = number("worst-score");
    let scores = given.list("scores", |one| {
        let mut mix = one.series("parts");
        let (panel, judge) = (one.text("panel"), one.text("judge"));
        let score = one.count("score_count", 0);
        let (panel, judge, score) = (panel?, judge?, score?);
        let whole: f64 = mix.iter().sum();
        if mix.len() < 2 || mix.iter().any(|part| *part < 0.0) || whole <= 0.0 || score as f64 > worst {
            one.problem(format!("`parts` has two or more buckets, and a score goes from 0 to {worst}"));
            return None;
        }
        mix.iter_mut().for_each(|part| *part /= whole);
        let (panel, judge) = (place_of(panel, &mut panels), place_of(judge, &mut judges));
        Some(Score { mix, panel, judge, score: score as usize })
    });
    let Some(good) = good else { return };
    if !given.is_fine() {
        return;
    }
    let whole: f64 = at.iter().sum();
    if scores.is_empty() || scores.iter().any(|score| score.mix.len() != scores[0].mix.len()) || scores.len() > 200 {
        return given.problem("`scores` has at most 200, all with as many `parts`".into());
    }
    if scores[0].mix.len() > 5 || judges.len() > 10 {
        return given.problem("`scores` has at most five `parts` and ten judges".into());
    }
    if let Some(panel) = of_two_mixes(&scores) {
        return given.problem(format!("panel {} is of two mixes: give each panel its own name", panels[panel]));
    }
    if at.len() != scores[0].mix.len() || whole <= 0.0 {
        return given.problem("`at` has as many parts as the panels".into());
    }
    at.iter_mut().for_each(|part| *part /= whole);
    let Some(judged) = panel::judged(&scores) else {
        return given.problem(
            "all scores are the same: they do not tell mixes apart; try mixes further from each other".into(),
        );
    };
    let spoilt: Vec<&String> = panels
        .iter()
        .enumerate()
        .filter(|(panel, _)| scores.iter().any(|score| score.panel == *panel && score.score as f64 >= worst))
        .map(|(_, name)| name)
        .collect();
    let chance = judged.at_most(&at, good as usize);
    reply.answer.insert("good_chance".into(), json!(chance));
    reply.answer.insert("by_lot_chance".into(), json!(judged.by_lot(&scores)));
    reply.answer.insert("judges_apart".into(), json!(judged.apart));
    reply.answer.insert("severity".into(), json!(judged.severity()));
    reply.answer.insert("rejected_panels".into(), json!(spoilt));
    let words = Words {
        title: "The chance of a good score by the mix and the judge.".into(),
        equation:
            "P(score ≤ k) = 1 / (1 + e^(b·x − cₖ))        c: cuts between scores, b: held near nothing by a weak prior"
                .into(),
        source: "McCullagh, Journal of the Royal Statistical Society B 42 (1980) 109-142, from memory".into(),
        ..Words::default()
    };
    reply.reasons.push(Reason::in_words(words, Vec::new()));
    let mut next: Vec<String> = Vec::new();
    if let Some(part) = judged.untried(&at) {
        next.push(format!(
            "The chance of a good score: not known. The share of part {} lies outside of those tried; make a panel of it",
            part + 1
        ));
    } else if chance.is_none() {
        next.push(format!(
            "The chance of a good score: not known. Scores were given on one side of {good} alone; try mixes further from each other"
        ));
    }
    if (panels.len() as f64) < number("fewest-panels") {
        next.push("So few panels: what is said of mixes between them is a guess with a number; make more".into());
    }
    if judged.apart.is_none() {
        next.push("No panel was scored by two judges: how far judges differ is not known".into());
    }
    reply.answer.insert("next".into(), json!(next));
}

#[cfg(test)]
mod tests {
    use serde_json::{Value, json};

    use crate::ask::ask;

    #[test]
    fn a_batch_too_wet_is_named_and_nine_batches_draw_no_strip() {
        let mut request: Value = serde_json::from_str(super::BATCHES.example).unwrap();
        assert_eq!(ask("batches", &request).unwrap()["answer"]["outside"], json!([11]));
        request["batches"].as_array_mut().unwrap().truncate(9);
        let reply = ask("batches", &request).unwrap();
        assert!(reply["answer"]["next"].as_str().unwrap().contains("not known. Weigh a sample of 10 batches"));
        request["placed_m3"] = json!(0.9);
        assert!(ask("batches", &request).unwrap()["problems"].to_string().contains("heaped was taken for struck"));
    }

    #[test]
    fn a_panel_with_the_worst_score_is_rejected_by_name() {
        let request: Value = serde_json::from_str(super::PANEL_SCORES.example).unwrap();
        let reply = ask("panel-scores", &request).unwrap();
        assert_eq!(reply["answer"]["rejected_panels"], json!(["A"]));
        assert!(reply["answer"]["good_chance"].as_f64().unwrap() > 0.5);
    }

    #[test]
    fn no_chance_is_told_of_a_mix_outside_of_those_tried_or_a_score_that_nobody_gave() {
        let request: Value = serde_json::from_str(super::PANEL_SCORES.example).unwrap();
        let told = |key: &str, value: Value| {
            let mut request = request.clone();
            request[key] = value;
            let reply = ask("panel-scores", &request).unwrap();
            assert_eq!(reply["answer"]["good_chance"], Value::Null);
            reply["answer"]["next"].to_string()
        };
        let outside = told("at", json!([1, 5]));
        assert!(outside.contains("not known. The share of part 1 lies outside"), "{outside}");
        let never = told("good_count", json!(4));
        assert!(never.contains("not known. Scores were given on one side of 4 alone"), "{never}");
        let mut twice = request.clone();
        twice["scores"][1]["parts"] = json!([1, 2]);
        assert!(ask("panel-scores", &twice).unwrap()["problems"].to_string().contains("panel A is of two mixes"));
    }
}

//! Questions about a pile of poles: which goes where in a reciprocal roof.

use serde_json::{Value, json};

use super::given::Given;
use super::poles_given::layout;
use super::{Question, Reply};
use crate::roof::poles::{self, Candidate, Unfit, Wish, choose, positions, ring, unfit};
use crate::solve::assignment::Shortage;
use crate::units::{Angle, Kind, Length};

pub(super) const ASSIGN: Question = Question {
    name: "assign",
    about: "Which pole of a pile goes where in a reciprocal roof, and which end to the wall, with a bound on what is possible",
    example: r#"{"count": 3, "plan_radius_m": 2.2, "eye_radius_m": 0.45, "length_m": 2.7, "butt_m": 0.16, "tip_m": 0.12,
  "beyond_m": 0.15, "notch_m": 0.02, "weight_waste": 0.1, "weight_notch": 1, "weight_bow": 1, "wanted_notch_m": 0.02,
  "least_diameter_m": 0.08, "most_across_m": 0.05, "pile": [
  {"length_m": 3.0, "butt_m": 0.17, "tip_m": 0.12}, {"length_m": 2.9, "butt_m": 0.15, "tip_m": 0.13, "across_m": 0.01},
  {"length_m": 3.4, "butt_m": 0.18, "tip_m": 0.12}, {"length_m": 2.0, "butt_m": 0.18, "tip_m": 0.14}]}"#,
    answer: assign,
};

fn candidate(given: &mut Given<'_>) -> Option<Candidate> {
    let length = given.number::<Length>("length_m", Kind::Length);
    let (butt, tip) = (given.number::<Length>("butt_m", Kind::Length), given.number::<Length>("tip_m", Kind::Length));
    let bow = given.maybe("bow_m", Kind::Length).unwrap_or(Length::ZERO);
    let across = given.maybe("across_m", Kind::Length).unwrap_or(Length::ZERO);
    let (length, butt, tip) = (length?, butt?, tip?);
    if [length, butt, tip].iter().any(|size| *size <= Length::ZERO) {
        given.problem("`length_m`, `butt_m` and `tip_m` must be above zero".into());
        return None;
    }
    Some(Candidate { pole: poles::Pole { length, butt, tip, bow, bow_turn: Angle::ZERO }, across })
}

fn wish(given: &mut Given<'_>) -> Option<Wish> {
    let weight = |given: &mut Given<'_>, key| given.number::<f64>(key, Kind::Number);
    let (waste, notch) = (weight(given, "weight_waste"), weight(given, "weight_notch"));
    let bow = weight(given, "weight_bow");
    let wanted = given.number::<Length>("wanted_notch_m", Kind::Length);
    let least = given.number::<Length>("least_diameter_m", Kind::Length);
    let across = given.number::<Length>("most_across_m", Kind::Length);
    if [waste, notch, bow].iter().flatten().any(|weight| *weight < 0.0) {
        given.problem("a weight must not be below zero".into());
        return None;
    }
    let (waste, notch, bow) = (waste?, notch?, bow?);
    Some(Wish { waste, notch, bow, wanted_notch: wanted?, least_diameter: least?, most_across: across? })
}

/// A slip in a request must not keep anyone waiting.
const MOST_IN_PILE: usize = 200;

fn assign(given: &mut Given<'_>, reply: &mut Reply) {
    let (layout, wish) = (layout(given), wish(given));
    let pile = given.list("pile", candidate);
    let seed = given.maybe::<f64>("seed", Kind::Number).unwrap_or(1.0);
    if pile.len() > MOST_IN_PILE {
        given.problem(format!("there are {} poles in the pile; at most {MOST_IN_PILE} are sorted", pile.len()));
    }
    let (Some(layout), Some(wish)) = (layout, wish) else { return };
    if pile.len() > MOST_IN_PILE {
        return;
    }
    let found = match ring(&layout) {
        Ok(found) => found,
        Err(fault) => return given.problem(fault.to_string()),
    };
    let positions = positions(&layout, &found);
    let choice = match choose(&positions, &pile, &wish, seed as u64) {
        Ok(choice) => choice,
        Err(shortage) => return given.problem(unfilled(&shortage)),
    };
    let cost = reply.put("cost", poles::choice_cost(&choice));
    let bound = reply.put("bound", poles::choice_bound(&choice));
    reply.answer.insert("above_bound_m".into(), json!((cost - bound).in_m()));
    reply.answer.insert("proved".into(), json!(choice.is_proved));
    for (place, placed) in choice.places.iter().enumerate() {
        let name = format!("position_{}", place + 1);
        reply.answer.insert(format!("{name}_pole"), json!(placed.pole + 1));
        reply.answer.insert(format!("{name}_thin_end_to_wall"), json!(placed.is_turned));
        reply.answer.insert(format!("{name}_waste_m"), json!(placed.waste.in_m()));
        reply.answer.insert(format!("{name}_notch_m"), json!(placed.notch.in_m()));
    }
    let reasons = positions.iter().enumerate().flat_map(|(place, position)| {
        let wish = &wish;
        pile.iter().enumerate().filter_map(move |(at, candidate)| {
            // The end that serves counts; where neither does, the reason is that of the thick end at the wall.
            let why = unfit(position, candidate, false, wish)?;
            unfit(position, candidate, true, wish)?;
            Some(json!({"position": place + 1, "pole": at + 1, "why": why_not(why)}))
        })
    });
    let reasons: Vec<Value> = reasons.collect();
    reply.answer.insert("unfit".into(), json!(reasons));
}

fn why_not(unfit: Unfit) -> String {
    match unfit {
        Unfit::Short(by) => format!("{:.0} mm too short", by.in_mm().ceil()),
        Unfit::Thin(by) => format!("{:.0} mm too thin at a crossing", by.in_mm().ceil()),
        Unfit::Bowed(by) => format!("bowed across by {:.0} mm more than allowed", by.in_mm().ceil()),
    }
}

fn unfilled(shortage: &Shortage) -> String {
    let listed = |places: &[usize]| places.iter().map(|place| (place + 1).to_string()).collect::<Vec<_>>().join(", ");
    let positions = listed(&shortage.rows);
    if shortage.columns.is_empty() {
        return format!("no pole of the pile serves position {positions}");
    }
    format!("positions {positions} cannot all be filled: only the poles {} serve there", listed(&shortage.columns))
}

#[cfg(test)]
mod tests {
    use serde_json::{Value, json};

    use crate::ask::ask;
    use crate::ask::poles_given::eight::{told, with};

    #[test]
    fn a_pile_that_is_too_small_names_positions_and_reasons() {
        let pole = |length: f64| json!({"length_m": length, "butt_m": 0.17, "tip_m": 0.12});
        let pile = |lengths: &[f64]| {
            let pile: Vec<Value> = lengths.iter().map(|length| pole(*length)).collect();
            with(
                &json!({"count": 3, "eye_radius_m": 0.5, "plan_radius_m": 2.2, "weight_waste": 1, "weight_notch": 1, "weight_bow": 1,
                "wanted_notch_m": 0, "least_diameter_m": 0.05, "most_across_m": 0.1, "pile": pile}),
            )
        };
        assert_eq!(
            told("assign", &pile(&[3.6, 3.7, 2.0])),
            ["positions 1, 2, 3 cannot all be filled: only the poles 1, 2 serve there"]
        );
        assert_eq!(told("assign", &pile(&[1.0, 1.0, 2.0])), ["no pole of the pile serves position 1"]);
        let reply = ask("assign", &pile(&[3.6, 3.7, 2.0, 3.8])).unwrap();
        assert_eq!(reply["answer"]["proved"], json!(true));
        assert_eq!(reply["answer"]["above_bound_m"], json!(0.0));
        let unfit = reply["answer"]["unfit"].as_array().unwrap();
        assert!(unfit.len() == 3 && unfit[0]["why"].as_str().unwrap().ends_with("mm too short"));
    }
}

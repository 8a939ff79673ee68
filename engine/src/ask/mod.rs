//! One question from JSON: plain numbers whose keys carry the unit, and a reply with its reasons.

mod assign;
mod bolt;
mod bricks;
mod deck;
mod deck_boards;
mod deck_frame;
mod deck_skin;
mod earth;
mod frame;
mod given;
mod grains;
mod jar;
mod loads;
mod mixture;
mod mixture_given;
mod pole;
mod poles;
mod poles_given;
mod questions;
mod recipe;
mod roof;
mod samples;
mod set_out;
mod site_loads;
mod soil;
mod split;
mod standing;
mod tested;
mod timber;
mod tree;

use serde_json::{Map, Value, json};

use crate::check::Check;
use crate::facts::Fact;
use crate::known::{Known, Origin};
use crate::reason::{Answer, Reason, Words};
use crate::row::Rows;
use crate::rulebook::SHIPPED;
use crate::sources::Citation;
use crate::units::{Quantity, System};
use given::Given;

/// A question that can be asked.
pub struct Question {
    /// Its name.
    pub name: &'static str,
    /// What it answers, one sentence.
    pub about: &'static str,
    /// A request that a proof row checks.
    pub example: &'static str,
    answer: fn(&mut Given<'_>, &mut Reply),
}

/// Every question.
#[must_use]
pub fn questions() -> &'static [Question] {
    questions::ALL
}

/// Answers one request, or each of an array of requests. A request has the question's keys; the reply is
/// `{ask, given, answer, checks, reasons, problems}`.
///
/// # Errors
/// One sentence when there is no such question, with the nearest name.
pub fn ask(name: &str, request: &Value) -> Result<Value, String> {
    let Some(question) = questions().iter().find(|question| question.name == name) else {
        let nearest = questions().iter().min_by_key(|question| strsim::damerau_levenshtein(question.name, name));
        let nearest = nearest.map_or("", |question| question.name);
        return Err(format!("there is no question \"{name}\"; did you mean \"{nearest}\"? `ask --list` shows all"));
    };
    Ok(match request {
        Value::Array(requests) => Value::Array(requests.iter().map(|request| reply(question, request)).collect()),
        request => reply(question, request),
    })
}

fn reply(question: &Question, request: &Value) -> Value {
    let mut reply = Reply::default();
    let mut problems = Vec::new();
    match request.as_object() {
        None => problems.push("a request is an object, such as {\"height_m\": 2}".to_owned()),
        Some(fields) => {
            let mut given = Given::new(fields);
            (question.answer)(&mut given, &mut reply);
            problems = given.into_problems();
        }
    }
    if !problems.is_empty() {
        reply = Reply::default();
    }
    json!({
        "ask": question.name,
        "given": request,
        "answer": reply.answer,
        "checks": reply.checks.iter().map(check_json).collect::<Vec<_>>(),
        "reasons": reply.reasons.iter().map(reason_json).collect::<Vec<_>>(),
        "problems": problems,
    })
}

/// What a question fills in.
#[derive(Default)]
struct Reply {
    answer: Map<String, Value>,
    checks: Vec<Check>,
    reasons: Vec<Reason>,
}

impl Reply {
    fn is_empty(&self) -> bool {
        self.answer.is_empty()
    }

    /// Puts a computed value under a name that gets its unit, and keeps its reason.
    fn put<T: Copy + Into<Quantity>>(&mut self, name: &str, answer: Answer<T>) -> T {
        let quantity: Quantity = answer.value.into();
        self.answer.insert(format!("{name}{}", quantity.key_suffix()), json!(quantity.si()));
        self.reasons.push(answer.reason);
        answer.value
    }

    /// Puts a value that stands in a table, with its source as the reason.
    fn read_off<T: Copy + Into<Quantity>>(&mut self, name: &str, title: &str, value: T, citation: &Citation) -> T {
        let words = Words { title: title.to_owned(), source: citation.to_string(), ..Words::default() };
        self.put(name, Answer { value, reason: Reason::in_words(words, Vec::new()) })
    }

    /// Puts a number of a table of facts; where the table does not have it, the number is not known and nothing is put.
    fn fact(&mut self, name: &str, title: &str, fact: Option<&Fact>) -> f64 {
        fact.map_or(f64::NAN, |fact| self.read_off(name, title, fact.number, &fact.citation))
    }

    /// Holds a value that follows from the request alone against every rule of a shipped rulebook that measures the row
    /// of that path.
    fn check(&mut self, rulebook: &str, path: &str, title: &str, value: impl Into<Quantity>) {
        let mut rows = Rows::default();
        rows.known(title, &Known::assumed(value.into(), path, Origin::Given, "it follows from the request"));
        let rules = SHIPPED.iter().filter(|book| book.name == rulebook).flat_map(|book| book.rules());
        let measuring = rules.filter(|rule| rule.limit.as_ref().is_some_and(|limit| limit.measures == path));
        self.checks.extend(measuring.flat_map(|rule| Check::against(rule, &rows)));
    }
}

/// What every rule of a shipped rulebook that measures the row of a path says of what was not measured.
fn not_known(rulebook: &str, path: &str) -> Vec<Check> {
    let rules = SHIPPED.iter().filter(|book| book.name == rulebook).flat_map(|book| book.rules());
    let measuring = rules.filter(|rule| rule.limit.as_ref().is_some_and(|limit| limit.measures == path));
    measuring.flat_map(|rule| Check::against(rule, &Rows::default())).collect()
}

fn check_json(check: &Check) -> Value {
    let bound = check.rule.limit.as_ref().map(|limit| limit.bound);
    json!({
        "rule": check.rule.id,
        "title": check.subject,
        "state": check.state.word(),
        "found": check.found.and_then(|found| found.si()),
        "limit": bound.and_then(|bound| bound.si()),
        "unit": bound.map(|bound| bound.unit_si()),
        "sentence": check.sentence(System::Metric),
        "source": format!("{}, {}", check.rule.citation.work, check.rule.citation.place),
        "standing": check.rule.citation.standing.word(),
    })
}

fn reason_json(reason: &Reason) -> Value {
    let inputs = reason.inputs.iter().map(|input| {
        let key = format!("{}{}", input.name().replace(' ', "_"), input.quantity.key_suffix());
        (key, json!(input.quantity.si()))
    });
    let words = reason.words();
    json!({
        "title": words.title,
        "equation": words.equation,
        "source": words.source,
        "inputs": inputs.collect::<Map<_, _>>(),
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    fn problems(name: &str, request: &Value) -> Vec<String> {
        let reply = ask(name, request).unwrap();
        reply["problems"].as_array().unwrap().iter().map(|problem| problem.as_str().unwrap().to_owned()).collect()
    }

    #[test]
    fn every_example_is_answered_without_problems() {
        for question in questions() {
            let request: Value = serde_json::from_str(question.example).unwrap();
            let reply = ask(question.name, &request).unwrap();
            assert_eq!(reply["problems"], json!([]), "{}", question.name);
            assert!(!reply["answer"].as_object().unwrap().is_empty());
            assert!(!reply["reasons"].as_array().unwrap().is_empty());
        }
    }

    #[test]
    fn a_reply_holds_what_it_found_against_the_rules_of_the_trade() {
        let wall = |height: f64| {
            json!({"line_length_m": 5, "closed": false, "thickness_m": 0.4, "height_m": height,
                   "batter_inside_slope": 0, "batter_outside_slope": 0.02})
        };
        let reply = ask("solid", &wall(2.0)).unwrap();
        let checks = reply["checks"].as_array().unwrap();
        assert_eq!(checks.len(), 2);
        assert_eq!(checks[0]["rule"], "height-to-thickness");
        assert_eq!((&checks[0]["found"], &checks[0]["limit"]), (&json!(5.0), &json!(7.0)));
        assert_eq!((&checks[0]["state"], &checks[0]["standing"]), (&json!("on trust"), &json!("quoted")));
        assert_eq!((&checks[1]["rule"], &checks[1]["unit"]), (&json!("top-thickness"), &json!("m")));
        assert_eq!(ask("solid", &wall(3.0)).unwrap()["checks"][0]["state"], "fails");
        assert_eq!(ask("solid", &wall(-3.0)).unwrap()["checks"], json!([]));
    }

    #[test]
    fn an_array_of_requests_gets_an_array_of_replies() {
        let request: Value = serde_json::from_str(questions()[0].example).unwrap();
        let reply = ask(questions()[0].name, &json!([request, {}])).unwrap();
        assert_eq!(reply.as_array().unwrap().len(), 2);
        assert_ne!(reply[1]["problems"], json!([]));
    }

    #[test]
    fn a_slip_is_named_with_what_would_be_right() {
        assert!(ask("unit", &json!({})).unwrap_err().contains("did you mean \"units\"?"));
        let told = problems("units", &json!({"text": "450 kg", "kind": "length"}));
        assert!(told[0].contains("a mass"), "{told:?}");
        let told = problems("units", &json!({"txt": "450 mm", "kind": "length"}));
        assert!(told.iter().any(|problem| problem.contains("did you mean `text`?")), "{told:?}");
        let told = problems("solid", &json!({"height_m": "2"}));
        assert!(told[0].contains("`height_m`") || told.iter().any(|problem| problem.contains("height_m")), "{told:?}");
        assert_eq!(problems("units", &json!(3)).len(), 1);
        let wall = |length: f64| {
            json!({"line_length_m": length, "closed": true, "thickness_m": 1, "height_m": 2,
                   "batter_inside_slope": 0, "batter_outside_slope": 0})
        };
        assert!(problems("solid", &wall(3.1))[0].contains("no room inside"));
        assert!(problems("solid", &wall(3.2)).is_empty());
    }
}

//! Checks with what stands on trust, what was assumed, and what is not known.

use engine::answers::Answers;
use engine::check::{Check, Comparison, State};
use engine::row::shown;
use engine::sources::Citation;
use serde_json::{Value, json};

use crate::spoken::capital;

pub(super) fn chapter(answers: &Answers) -> Value {
    let groups: Vec<Value> = [State::NotKnown, State::Fails, State::OnTrust, State::Tight, State::Holds]
        .into_iter()
        .filter_map(|state| group(answers, state))
        .collect();
    let mut assumed: Vec<[String; 4]> = answers
        .assumed
        .iter()
        .map(|(path, value, why)| [(*path).to_owned(), (*value).to_owned(), (*why).to_owned(), String::new()])
        .collect();
    assumed.extend(answers.rows.iter().filter(|row| row.is_assumed()).map(|row| {
        let words = row.reason.words();
        let why = words.title.trim_start_matches("Assumed: ").trim_end_matches('.');
        [
            row.path.clone(),
            row.shown(answers.system),
            why.to_owned(),
            row.own.map_or_else(String::new, |own| own.to_string()),
        ]
    }));
    let unread: Vec<String> =
        answers.unread.iter().map(|(table, line)| format!("[{table}] in line {line} of the build file")).collect();
    json!({"groups": groups, "assumed": assumed, "unread": unread})
}

fn group(answers: &Answers, state: State) -> Option<Value> {
    let about = match state {
        State::NotKnown => "Measure, decide or supply these; nothing is claimed until then.",
        State::Fails => "These are past their limits. Change the design, or let the person named decide.",
        State::OnTrust => "These would hold if the rule or an assumed value is true. Confirm or measure.",
        State::Tight => "These hold with less than a tenth to spare.",
        State::Holds => "These hold, with more than a tenth to spare.",
    };
    let mut first: Option<&Check> = None;
    let mut list = Vec::new();
    for check in answers.checks.iter().filter(|check| check.state == state) {
        let before = first.filter(|first| first.rule.id == check.rule.id);
        list.push(row(answers, check, before));
        first = before.or(Some(check));
    }
    (!list.is_empty()).then(|| json!({"state": state.word(), "about": about, "checks": list}))
}

/// The place in the work and how we have it; the work itself stands in the chapter on sources.
fn place(citation: &Citation) -> String {
    format!("{} ({})", capital(&citation.place), citation.standing.in_words())
}

/// A check; what one of its rule before it said of the rule and of assumed values is not said again.
fn row(answers: &Answers, check: &Check, before: Option<&Check>) -> Value {
    let limit = check.rule.limit.as_ref().map(|limit| {
        let side = match limit.comparison {
            Comparison::AtMost => "≤",
            Comparison::AtLeast => "≥",
        };
        format!("{side} {}", shown(limit.bound, answers.system))
    });
    let mut words = Vec::new();
    if check.rule.shows.is_some() && check.found.is_some() {
        words.push(format!("{}: not known.", capital(&check.rule.title)));
    }
    if check.state == State::NotKnown {
        words.push(format!("{}.", check.rule.when_unknown));
    }
    let named = before.map_or(&[][..], |before| before.leaning(true).0);
    let leaning: Vec<&str> =
        check.leaning(true).0.iter().filter(|one| !named.contains(one)).map(|(_, title)| title.as_str()).collect();
    if before.is_none() {
        words.extend(check.borrowed_in_words());
    }
    if !leaning.is_empty() {
        let besides = if named.is_empty() { "" } else { "besides " };
        words.push(format!("Leans {besides}on an assumed value: {}.", leaning.join(", ")));
    }
    if before.is_none() && !check.rule.who_decides.is_empty() {
        words.push(format!("Decides: {}.", check.rule.who_decides));
    }
    json!({
        "state": check.state.word(),
        "title": capital(&check.subject),
        "words": words.join(" "),
        "found": check.found.map_or("–".into(), |found| shown(found, answers.system)),
        "limit": limit.unwrap_or_else(|| "–".into()),
        "source": before.map_or_else(|| place(&check.rule.citation), |_| String::new()),
    })
}

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
    let mut last = "";
    let mut list = Vec::new();
    for check in answers.checks.iter().filter(|check| check.state == state) {
        list.push(row(answers, check, check.rule.id != last));
        last = &check.rule.id;
    }
    (!list.is_empty()).then(|| json!({"state": state.word(), "about": about, "checks": list}))
}

/// The place in the work and how we have it; the work itself stands in the chapter on sources.
fn place(citation: &Citation) -> String {
    format!("{} ({})", capital(&citation.place), citation.standing.in_words())
}

fn row(answers: &Answers, check: &Check, first_of_rule: bool) -> Value {
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
    words.extend(check.borrowed_in_words());
    let (named, more) = check.leaning(first_of_rule);
    if !named.is_empty() {
        let names: Vec<&str> = named.iter().map(|(_, title)| title.as_str()).collect();
        let more = if more == 0 { String::new() } else { format!(" and {more} more, all under What was assumed") };
        words.push(format!("Leans on an assumed value: {}{more}.", names.join(", ")));
    }
    if first_of_rule && !check.rule.who_decides.is_empty() {
        words.push(format!("Decides: {}.", check.rule.who_decides));
    }
    json!({
        "state": check.state.word(),
        "title": capital(&check.subject),
        "words": words.join(" "),
        "found": check.found.map_or("–".into(), |found| shown(found, answers.system)),
        "limit": limit.unwrap_or_else(|| "–".into()),
        "source": if first_of_rule { place(&check.rule.citation) } else { String::new() },
    })
}

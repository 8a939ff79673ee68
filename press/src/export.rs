//! Exports in open formats.

use engine::answers::Answers;
use engine::studies::Findings;
use engine::units::{Quantity, System};
use serde_json::{Value, json};

use crate::studies::all;

/// Every row as JSON: its key is the path and the SI unit.
#[must_use]
pub fn answers(answers: &Answers) -> Value {
    let rows = answers.rows.iter().map(|row| {
        let words = row.reason.words();
        let inputs = row.reason.inputs.iter().map(|input| json!({"name": input.name(), "path": input.path}));
        json!({
            "path": row.path,
            "key": format!("{}{}", row.path, row.quantity.key_suffix()),
            "title": row.title,
            "value": value(row.quantity),
            "unit": row.quantity.unit_si(),
            "metric": row.shown(System::Metric),
            "us": row.shown(System::Us),
            "origin": row.origin_in_words(),
            "assumed": row.is_assumed(),
            "reason": {
                "title": words.title,
                "equation": words.equation,
                "source": words.source,
                "inputs": inputs.collect::<Vec<_>>(),
            },
        })
    });
    let checks = answers.checks.iter().map(|check| {
        json!({
            "rule": check.rule.id,
            "rulebook": check.rule.rulebook,
            "path": check.path,
            "state": check.state.word(),
            "found": check.found.map(value),
            "limit": check.rule.limit.as_ref().map(|limit| value(limit.bound)),
            "borrowed": check.rule.borrowed,
            "sentence": check.sentence(answers.system),
            "leans_on": check.leans_on.iter().map(|(path, _)| path).collect::<Vec<_>>(),
            "source": check.rule.citation.to_string(),
        })
    });
    json!({
        "format": 1,
        "name": answers.about.name,
        "invented": answers.about.invented,
        "rows": rows.collect::<Vec<_>>(),
        "checks": checks.collect::<Vec<_>>(),
    })
}

/// What long computations found, in words and tables, as JSON; null where it was not computed.
#[must_use]
pub fn studies(answers: &Answers, findings: &Findings) -> Value {
    let studies = all(answers, findings).into_iter().map(|(about, told)| {
        let found = told.map(|told| {
            let tables = told.tables.iter().map(|table| json!({"title": table.title, "header": table.header, "rows": table.rows}));
            json!({"words": told.words, "offer": told.offer, "tables": tables.collect::<Vec<_>>(), "notes": told.notes, "caution": told.caution})
        });
        json!({"title": about.title, "about": about.words, "found": found})
    });
    json!({"format": 1, "name": answers.about.name, "studies": studies.collect::<Vec<_>>()})
}

/// Every row as comma-separated values: path, title, SI value and unit, and as shown.
///
/// # Errors
/// The writer's message; memory does not fail.
pub fn rows(answers: &Answers) -> Result<String, csv::Error> {
    let mut table = csv::Writer::from_writer(Vec::new());
    table.write_record(["path", "what", "value SI", "unit", "shown", "origin"])?;
    for row in answers.rows.iter() {
        let plain = match value(row.quantity) {
            Value::String(text) => text,
            other => other.to_string(),
        };
        let (unit, shown) = (row.quantity.unit_si(), row.shown(answers.system));
        table.write_record([&row.path, &row.title, &plain, unit, &shown, &row.origin_in_words()])?;
    }
    let bytes = table.into_inner().map_err(csv::IntoInnerError::into_error)?;
    Ok(String::from_utf8_lossy(&bytes).into_owned())
}

/// What the build takes from outside as comma-separated values, before loss: one line a thing and part of the build, in SI and
/// as shown.
///
/// # Errors
/// The writer's message; memory does not fail.
pub fn quantities(answers: &Answers) -> Result<String, csv::Error> {
    let mut table = csv::Writer::from_writer(Vec::new());
    table.write_record(["thing", "stuff", "part", "path", "value SI", "unit", "shown", "origin"])?;
    for order in &answers.orders {
        let needed = answers.rows.find(&order.path("needed"));
        let parts = needed.into_iter().flat_map(|row| &row.reason.inputs);
        for row in parts.filter_map(|input| answers.rows.find(&input.path)).chain(needed) {
            let plain = value(row.quantity).to_string();
            let (unit, shown, origin) = (row.quantity.unit_si(), row.shown(answers.system), row.origin_in_words());
            let stuff = order.stuff.word();
            table.write_record([&order.name, stuff, &row.title, &row.path, &plain, unit, &shown, &origin])?;
        }
    }
    let bytes = table.into_inner().map_err(csv::IntoInnerError::into_error)?;
    Ok(String::from_utf8_lossy(&bytes).into_owned())
}

fn value(quantity: Quantity) -> Value {
    match quantity {
        Quantity::Date(date) => json!(date.to_string()),
        Quantity::Money(money) => json!(money.minor),
        other => json!(other.si()),
    }
}

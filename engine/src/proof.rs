//! Published values beside ours: rows of `data/proof/*.csv`, each asked of the same questions that a builder can ask.

use std::collections::BTreeMap;
use std::fmt;

use serde_json::Value;

use crate::ask::ask;
use crate::sources::{Citation, Standing};

/// The tables of published values.
const TABLES: [(&str, &str); 14] = [
    ("roof.csv", include_str!("../../data/proof/roof.csv")),
    ("poles.csv", include_str!("../../data/proof/poles.csv")),
    ("standing.csv", include_str!("../../data/proof/standing.csv")),
    ("units.csv", include_str!("../../data/proof/units.csv")),
    ("earth.csv", include_str!("../../data/proof/earth.csv")),
    ("soil.csv", include_str!("../../data/proof/soil.csv")),
    ("strength.csv", include_str!("../../data/proof/strength.csv")),
    ("mixtures.csv", include_str!("../../data/proof/mixtures.csv")),
    ("wall.csv", include_str!("../../data/proof/wall.csv")),
    ("timber.csv", include_str!("../../data/proof/timber.csv")),
    ("loads.csv", include_str!("../../data/proof/loads.csv")),
    ("set-out.csv", include_str!("../../data/proof/set-out.csv")),
    ("deck.csv", include_str!("../../data/proof/deck.csv")),
    ("frames.csv", include_str!("../../data/proof/frames.csv")),
];

/// How near our value must come.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Tolerance {
    /// Within this much.
    Absolute(f64),
    /// Within this share of the expected value.
    Relative(f64),
    /// Within half a unit of the last digit printed.
    PrintedDigits,
    /// The same word.
    Exact,
}

/// One published value.
#[derive(Clone, Debug, PartialEq)]
pub struct ProofRow {
    /// Its name.
    pub id: String,
    /// The question that answers it.
    pub ask: String,
    /// The request.
    pub request: Value,
    /// The key of the answer, `checks.` and the name of a rule whose state is expected, or `words.` and the key of a word.
    pub key: String,
    /// The published value, as printed.
    pub expected: String,
    /// Its unit.
    pub unit: String,
    /// How near ours must come.
    pub tolerance: Tolerance,
    /// Where it is published and how we have it.
    pub citation: Citation,
}

/// What we find where a value is published.
#[derive(Clone, Debug, PartialEq)]
pub enum Found {
    /// A plain number in SI.
    Number(f64),
    /// The state of a check, or a word of the answer.
    Word(String),
}

impl fmt::Display for Found {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Found::Number(number) => number.fmt(f),
            Found::Word(word) => word.fmt(f),
        }
    }
}

/// Our value beside a published one.
#[derive(Clone, Debug, PartialEq)]
pub struct Proof {
    /// The published value.
    pub row: ProofRow,
    /// Ours, or why there is none.
    pub ours: Result<Found, String>,
    /// Whether ours comes near enough.
    pub agrees: bool,
}

/// Every published value beside ours.
///
/// # Errors
/// One sentence that names the table and line when a table is not readable.
pub fn proof() -> Result<Vec<Proof>, String> {
    let (mut all, mut replies) = (Vec::new(), Replies::new());
    for (name, text) in TABLES {
        all.extend(proven(text, &mut replies).map_err(|fault| format!("{name}: {fault}"))?);
    }
    Ok(all)
}

/// What was replied to each request: several values are often asked of one.
type Replies = BTreeMap<(String, String), Reply>;

type Reply = Result<Value, String>;

/// The rows of a table, each beside ours.
fn proven(text: &str, replies: &mut Replies) -> Result<Vec<Proof>, String> {
    let mut beside = |row: ProofRow| {
        let asked = (row.ask.clone(), row.request.to_string());
        let reply = replies.entry(asked).or_insert_with(|| ask(&row.ask, &row.request));
        prove(row, reply)
    };
    Ok(read(text)?.into_iter().map(&mut beside).collect())
}

fn read(text: &str) -> Result<Vec<ProofRow>, String> {
    let mut table = csv::Reader::from_reader(text.as_bytes());
    let mut rows = Vec::new();
    for record in table.records() {
        let record = record.map_err(|error| error.to_string())?;
        let line = record.position().map_or(0, csv::Position::line);
        let [id, ask, request, key, expected, unit, tolerance, work, place, how] =
            std::array::from_fn(|column| record.get(column).unwrap_or("").to_owned());
        let request = serde_json::from_str(&request).map_err(|error| format!("line {line}: the request: {error}"))?;
        let tolerance =
            read_tolerance(&key, &tolerance).ok_or_else(|| format!("line {line}: tolerance \"{tolerance}\""))?;
        let standing = Standing::read(&how).ok_or_else(|| format!("line {line}: how we have it: \"{how}\""))?;
        let citation = Citation { work, place, standing };
        rows.push(ProofRow { id, ask, request, key, expected, unit, tolerance, citation });
    }
    Ok(rows)
}

/// The rule whose state a key asks for; nothing where it asks for something else.
fn rule(key: &str) -> Option<&str> {
    key.strip_prefix("checks.")
}

/// The key of the word that a key asks for; nothing where it asks for something else.
fn word(key: &str) -> Option<&str> {
    key.strip_prefix("words.")
}

fn read_tolerance(key: &str, text: &str) -> Option<Tolerance> {
    match text.split_once(' ') {
        _ if rule(key).or(word(key)).is_some() => (text == "exact").then_some(Tolerance::Exact),
        None if text == "digits" => Some(Tolerance::PrintedDigits),
        Some(("abs", size)) => size.parse().ok().map(Tolerance::Absolute),
        Some(("rel", share)) => share.parse().ok().map(Tolerance::Relative),
        _ => None,
    }
}

fn prove(row: ProofRow, reply: &Reply) -> Proof {
    let ours = reply.as_ref().map_err(String::clone).and_then(|reply| {
        let problems = reply["problems"].as_array().map_or(0, Vec::len);
        match found(reply, &row.key) {
            Some(found) if problems == 0 => Ok(found),
            _ => Err(format!("no `{}` in the answer: {}", row.key, reply["problems"])),
        }
    });
    let agrees = match &ours {
        Ok(Found::Number(ours)) => {
            row.expected.parse::<f64>().is_ok_and(|expected| (ours - expected).abs() <= allowed(&row, expected))
        }
        Ok(Found::Word(ours)) => *ours == row.expected,
        Err(_) => false,
    };
    Proof { row, ours, agrees }
}

fn found(reply: &Value, key: &str) -> Option<Found> {
    if let Some(key) = word(key) {
        return reply["answer"][key].as_str().map(|word| Found::Word(word.to_owned()));
    }
    let Some(rule) = rule(key) else { return reply["answer"][key].as_f64().map(Found::Number) };
    let check = reply["checks"].as_array()?.iter().find(|check| check["rule"] == rule)?;
    check["state"].as_str().map(|state| Found::Word(state.to_owned()))
}

fn allowed(row: &ProofRow, expected: f64) -> f64 {
    match row.tolerance {
        Tolerance::Exact => 0.0,
        Tolerance::Absolute(size) => size,
        Tolerance::Relative(share) => share * expected.abs(),
        Tolerance::PrintedDigits => {
            let (mantissa, power) = row.expected.split_once(['e', 'E']).unwrap_or((&row.expected, "0"));
            let decimals = mantissa.split_once('.').map_or(0, |(_, decimals)| decimals.len());
            0.5 * 10f64.powi(power.parse::<i32>().unwrap_or(0) - i32::try_from(decimals).unwrap_or(0)) * (1.0 + 1e-9)
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_wrong_value_does_not_agree() {
        let table = "id,ask,request,key,expected,unit,tolerance,source,place,how\n\
            a,units,\"{\"\"text\"\":\"\"1 in\"\",\"\"kind\"\":\"\"length\"\"}\",length_m,0.0255,m,digits,w,p,seen\n\
            b,units,\"{\"\"text\"\":\"\"1 in\"\",\"\"kind\"\":\"\"length\"\"}\",length_m,0.025,m,digits,w,p,seen\n\
            c,units,{},length_m,0.0254,m,digits,w,p,seen\n";
        let agrees: Vec<bool> = proven(table, &mut Replies::new()).unwrap().iter().map(|proof| proof.agrees).collect();
        assert_eq!(agrees, [false, true, false]);
    }

    #[test]
    fn a_word_agrees_with_the_same_word_alone() {
        let row = |id: &str, key: &str, expected: &str| {
            let wall = "{\"\"line_length_m\"\":5,\"\"closed\"\":false,\"\"thickness_m\"\":0.4,\"\"height_m\"\":3,\
                        \"\"batter_inside_slope\"\":0,\"\"batter_outside_slope\"\":0}";
            format!("{id},solid,\"{wall}\",{key},{expected},,exact,w,p,quoted\n")
        };
        let table = ["id,ask,request,key,expected,unit,tolerance,source,place,how\n".to_owned()]
            .into_iter()
            .chain([row("a", "checks.height-to-thickness", "fails"), row("b", "checks.height-to-thickness", "holds")])
            .chain([row("c", "checks.no-such-rule", "fails")]);
        let agrees: Vec<bool> =
            proven(&table.collect::<String>(), &mut Replies::new()).unwrap().iter().map(|proof| proof.agrees).collect();
        assert_eq!(agrees, [true, false, false]);
    }

    #[test]
    fn a_number_has_no_exact_tolerance_and_a_word_no_other() {
        let row = |key: &str, tolerance: &str| {
            let head = "id,ask,request,key,expected,unit,tolerance,source,place,how";
            read(&format!("{head}\na,units,{{}},{key},1,m,{tolerance},w,p,seen\n")).is_ok()
        };
        assert!(row("length_m", "digits") && row("checks.a", "exact") && row("words.class", "exact"));
        assert!(!row("length_m", "exact") && !row("checks.a", "digits") && !row("words.class", "digits"));
    }

    #[test]
    fn a_table_with_a_slip_names_its_line() {
        let table = "id,ask,request,key,expected,unit,tolerance,source,place,how\na,units,{},k,1,m,near,w,p,seen\n";
        assert_eq!(read(table).unwrap_err(), "line 2: tolerance \"near\"");
    }
}

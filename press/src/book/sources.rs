//! Sources of rules and equations, and how our values stand beside published ones.

use std::collections::BTreeMap;

use engine::answers::Answers;
use engine::proof::{Found, Proof, proof};
use serde_json::{Value, json};

use crate::spoken::capital;

/// The end of the name of every closed form; the book counts them together, `docs/sources.md` lists them.
const GEOMETRY: &str = ", elementary geometry";

pub(super) fn chapter(answers: &Answers) -> Result<Value, String> {
    let mut rules: Vec<[String; 2]> = Vec::new();
    for check in &answers.checks {
        let citation = &check.rule.citation;
        let entry = [citation.work.clone(), citation.standing.in_words().to_owned()];
        if !rules.contains(&entry) {
            rules.push(entry);
        }
    }
    let mut equations: Vec<String> = Vec::new();
    for row in answers.rows.iter().filter(|row| row.own.is_none()) {
        let source = capital(&row.reason.words().source);
        if !equations.contains(&source) {
            equations.push(source);
        }
    }
    equations.sort();
    let equations = named(equations);
    let proofs = proof()?;
    let mut works: BTreeMap<(&str, &str), (usize, usize, f64)> = BTreeMap::new();
    for proof in &proofs {
        let citation = &proof.row.citation;
        let name = citation.work.as_str();
        let name = if name.ends_with(GEOMETRY) { "Closed forms of elementary geometry" } else { name };
        let work = works.entry((name, citation.standing.in_words())).or_default();
        work.0 += 1;
        work.1 += usize::from(proof.agrees);
        work.2 = work.2.max(difference(proof));
    }
    let works = works.into_iter().map(|((work, standing), (all, agree, worst))| {
        [
            work.to_owned(),
            standing.to_owned(),
            format!("{agree} of {all}"),
            if worst == 0.0 { "none".to_owned() } else { format!("{worst:.0e}") },
        ]
    });
    let agree = proofs.iter().filter(|proof| proof.agrees).count();
    Ok(json!({
        "rules": rules,
        "equations": equations,
        "works": works.collect::<Vec<_>>(),
        "proofs": proven(&proofs),
        "agree": agree.to_string(),
        "all": proofs.len().to_string(),
    }))
}

/// Every published value in words, work by work: place in the work where it is not that of the line above, what was asked, the value
/// as printed, ours.
fn proven(proofs: &[Proof]) -> Vec<Value> {
    let mut works: BTreeMap<(&str, &str), Vec<&Proof>> = BTreeMap::new();
    for proof in proofs {
        let citation = &proof.row.citation;
        works.entry((&citation.work, citation.standing.in_words())).or_default().push(proof);
    }
    let said = |((name, standing), mut values): ((&str, &str), Vec<&Proof>)| {
        values.sort_by_key(|proof| &proof.row.citation.place);
        let mut above = "";
        let lines = values.into_iter().map(|proof| {
            let place = proof.row.citation.place.as_str();
            let line = value(proof, if place == above { "" } else { place });
            above = place;
            line
        });
        let lines: Vec<[String; 4]> = lines.collect();
        json!({"name": name, "standing": standing, "values": lines})
    };
    works.into_iter().map(said).collect()
}

fn value(proof: &Proof, place: &str) -> [String; 4] {
    let row = &proof.row;
    let ours = match &proof.ours {
        Ok(Found::Number(number)) => digits(*number),
        Ok(Found::Word(word)) => word.clone(),
        Err(fault) => fault.clone(),
    };
    let unit = if row.unit == "-" { "" } else { &row.unit };
    [
        place.to_owned(),
        format!("{}, {}", row.ask, row.key.replace('_', " ")),
        format!("{} {unit}", row.expected).trim_end().to_owned(),
        format!("{ours}{}", if proof.agrees { "" } else { ", differs" }),
    ]
}

/// Seven digits at most, without zeros at the end.
fn digits(number: f64) -> String {
    let decimals = if number == 0.0 { 0 } else { (6 - number.abs().log10().floor() as i32).clamp(0, 12) as usize };
    let text = format!("{number:.decimals$}");
    if text.contains('.') { text.trim_end_matches('0').trim_end_matches('.').to_owned() } else { text }
}

/// What marks a source that says more than that a whole is the sum of its parts.
const NAMED: [&str; 12] = [
    "Pappus",
    "Pythagoras",
    "Steiner",
    "Green",
    "prismoidal",
    "Gauss",
    "ASTM",
    "derived for this project",
    "memory",
    "density of water",
    "circle",
    "common practice",
];

/// The sources that name a theorem, a standard, a derivation or a value; the rest, definitions and sums, in one line.
fn named(equations: Vec<String>) -> Vec<String> {
    let says = |source: &String| NAMED.iter().any(|name| source.to_lowercase().contains(&name.to_lowercase()));
    let (mut named, plain): (Vec<String>, Vec<String>) = equations.into_iter().partition(says);
    if !plain.is_empty() {
        let count = plain.len();
        named.push(format!(
            "Definitions of words and sums of parts, {count} more, each beside its figure in “export answers”."
        ));
    }
    named
}

/// Our value's distance from the published one, as a share of it; a word that agrees has none.
fn difference(proof: &Proof) -> f64 {
    match (&proof.ours, proof.row.expected.parse::<f64>()) {
        (Ok(Found::Number(ours)), Ok(expected)) if expected != 0.0 => ((ours - expected) / expected).abs(),
        (Ok(Found::Number(ours)), Ok(_)) => ours.abs(),
        (Ok(Found::Word(_)), _) if proof.agrees => 0.0,
        _ => f64::INFINITY,
    }
}

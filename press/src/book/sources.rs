//! Sources of rules and equations, and how our values stand beside published ones.

use std::collections::BTreeMap;

use engine::answers::Answers;
use engine::proof::{Found, Proof, proof};
use serde_json::{Value, json};

use super::job::capital;

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
    let equations = definitions_as_one(equations);
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
        "agree": agree.to_string(),
        "all": proofs.len().to_string(),
    }))
}

/// The sources of equations, with those that are the definition of a word gathered in one.
fn definitions_as_one(equations: Vec<String>) -> Vec<String> {
    const DEFINITION: &str = "The definition of ";
    let (definitions, mut others): (Vec<String>, Vec<String>) =
        equations.into_iter().partition(|source| source.starts_with(DEFINITION));
    let words: Vec<&str> =
        definitions.iter().map(|source| source.trim_start_matches(DEFINITION).trim_end_matches('.')).collect();
    if !words.is_empty() {
        others.push(format!("The definitions of: {}.", words.join("; ")));
    }
    others
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

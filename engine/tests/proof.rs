//! Every published value is met.
#![allow(clippy::unwrap_used, clippy::panic, reason = "a test stops at the first surprise")]

use engine::proof::proof;

#[test]
fn every_published_value_agrees_with_ours() {
    let proofs = proof().unwrap();
    assert!(proofs.len() >= 40, "only {} rows", proofs.len());
    let differing: Vec<String> = proofs
        .iter()
        .filter(|proof| !proof.agrees)
        .map(|proof| {
            format!("{} {}: published {}, ours {:?}", proof.row.id, proof.row.key, proof.row.expected, proof.ours)
        })
        .collect();
    assert!(differing.is_empty(), "{}", differing.join("\n"));
}

#[test]
fn no_two_published_values_share_a_name() {
    let mut names: Vec<String> = proof().unwrap().into_iter().map(|proof| proof.row.id).collect();
    let count = names.len();
    names.sort();
    names.dedup();
    assert_eq!(names.len(), count);
}

//! What stands in for a value that is not written can be written where it is told; units change how values are shown and none
//! of them.

use engine::edit::{Edit, edit};
use engine::known::Origin;

use super::edit::{BUILDS, answered, spelled_at, try_answered};
use super::{rows, same};

fn set(text: &str, path: &str, to: &str) -> Result<String, String> {
    let change = Edit::Set { path: path.to_owned(), to: to.to_owned() };
    edit(text, &change).map_err(|problem| problem.to_string())
}

#[test]
fn the_units_that_are_shown_change_no_value() {
    for (name, text) in BUILDS {
        let before = rows(&answered(text));
        for units in ["metric", "us"] {
            let after = rows(&answered(&set(text, "site.units", units).unwrap()));
            assert_eq!(before.len(), after.len(), "{name} in {units}");
            for (path, quantity) in &before {
                assert!(same(*quantity, after[path]), "{name}: {path} is another in {units}: {:?}", after[path]);
            }
        }
    }
}

/// Why a value that is told as assumed cannot be written alone at its own path.
fn why_not(name: &str, text: &str, path: &str) -> Option<&'static str> {
    let has_no_lifts = path.starts_with("wall.lifts.") && !text.contains("\n[[wall.lifts]]\n");
    let folds = name == "tansy-bank" && path == "site.strip-margin";
    match () {
        () if has_no_lifts => Some("where no lift is written all of them are assumed together"),
        () if folds => Some("a strip that folds over a hollow is refused only where its builder chose it"),
        () => None,
    }
}

#[test]
fn what_is_assumed_can_be_written_where_it_is_told_and_changes_nothing() {
    let mut faults = Vec::new();
    for (name, text) in BUILDS {
        let before = answered(text);
        // What is the builder's word is written, and stays assumed.
        let assumed = before.rows.iter().filter(|row| row.is_assumed() && row.own != Some(Origin::Word));
        for row in assumed.filter(|row| why_not(name, text, &row.path).is_none()) {
            let path = &row.path;
            let written = match set(text, path, &spelled_at(text, path, row.quantity)) {
                Ok(written) => written,
                Err(problem) => {
                    faults.push(format!("{name}: {problem}"));
                    continue;
                }
            };
            let Some(after) = try_answered(&written) else {
                faults.push(format!("{name}: {path} is refused"));
                continue;
            };
            match after.rows.find(path) {
                Some(own) if own.own == Some(Origin::Given) && same(own.quantity, row.quantity) => {}
                own => faults.push(format!("{name}: {path} is {:?} when it is written", own.map(|own| own.quantity))),
            }
        }
    }
    assert!(faults.is_empty(), "{}", faults.join("\n"));
}

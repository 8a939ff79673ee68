//! Every card names what goes into its lift and nothing else.
#![allow(clippy::unwrap_used, clippy::panic, reason = "a test stops at the first surprise")]

#[path = "laws/edit.rs"]
#[allow(dead_code, reason = "shared with the laws")]
mod edit;

use std::collections::{BTreeMap, BTreeSet};

use edit::{BUILDS, answered};
use engine::answers::Answers;
use engine::house::lift_cards::Share;

fn metres(answers: &Answers, path: &str) -> Option<f64> {
    answers.rows.find(path)?.quantity.si()
}

/// The ranges of height of all that the rows know, by the table of each; worked from rows alone.
fn ranges(answers: &Answers) -> BTreeMap<String, Vec<[f64; 2]>> {
    let mut ranges: BTreeMap<String, Vec<[f64; 2]>> = BTreeMap::new();
    let value = |path: String| metres(answers, &path);
    let tables: BTreeSet<String> = answers
        .rows
        .iter()
        .filter_map(|row| {
            let keys: Vec<&str> = row.path.split('.').collect();
            ["openings", "built-in", "services"].contains(&keys[0]).then(|| format!("{}.{}", keys[0], keys[1]))
        })
        .collect();
    for table in tables {
        let mut add = |path: String, low: f64, high: f64| {
            if high >= 0.0 {
                ranges.entry(path).or_default().push([low.max(0.0), high]);
            }
        };
        let at = |noun: &str| value(format!("{table}.{noun}"));
        if table.starts_with("openings.") {
            let (low, width) = (at("sill").or(at("threshold")).unwrap(), at("width").unwrap());
            let high = low + at("height").unwrap_or(width);
            add(table.clone(), low, high);
            if let Some(thick) = at("lintel.height") {
                add(format!("{table}.lintel"), high, high + thick);
            }
            if at("sill-board.thickness").is_some() {
                add(format!("{table}.sill-board"), low, low);
            }
        } else if let (Some(low), Some(high)) = (at("level"), at("to-level")) {
            add(table.clone(), low, high);
            for row in answers.rows.matching(&format!("{table}.boxes.*")) {
                let level = row.quantity.si().unwrap();
                add(row.path.clone(), level, level);
            }
        } else if let Some(seat) = at("seat") {
            let foot = metres(answers, "ground.floor").unwrap();
            if foot + seat > 0.0 {
                add(table.clone(), foot, foot + seat);
            }
        } else if let Some(sill) = at("sill") {
            add(table.clone(), sill, sill + at("height").or(at("width")).unwrap());
        } else if let Some(wide) = at("sleeve").or(at("diameter")) {
            let listed = answers.rows.iter().filter(|row| row.path.starts_with(&format!("{table}.at.")));
            let listed = listed.filter(|row| row.path.ends_with(".level")).filter_map(|row| row.quantity.si());
            for level in at("level").into_iter().chain(listed) {
                if level > 0.0 {
                    add(table.clone(), level - 0.5 * wide, level + 0.5 * wide);
                }
            }
        }
    }
    ranges
}

#[test]
fn what_reaches_into_a_lift_stands_on_its_card_and_on_no_other() {
    let mut checked = 0;
    for (name, text) in BUILDS {
        let answers = answered(text);
        for (path, own) in ranges(&answers) {
            for card in &answers.lift_cards {
                let [foot, top] = card.levels.map(|level| level.in_m());
                let reaches =
                    own.iter().any(
                        |[low, high]| {
                            if low == high { foot <= *low && *low < top } else { *low < top && foot < *high }
                        },
                    );
                let is_there = card.items.iter().any(|item| item.path == path);
                assert_eq!(is_there, reaches, "{name}: {path} on the card of {}", card.name);
                checked += 1;
            }
        }
    }
    assert!(checked > 150, "{checked} were looked at");
}

#[test]
fn every_thing_of_a_house_stands_on_a_card() {
    for (name, text) in BUILDS {
        let answers = answered(text);
        let carded = |stem: &str| {
            let inside = format!("{stem}.");
            let mut items = answers.lift_cards.iter().flat_map(|card| &card.items);
            items.any(|item| item.path == stem || item.path.starts_with(&inside))
        };
        for row in answers.rows.iter() {
            let keys: Vec<&str> = row.path.split('.').collect();
            let stem = match keys[..] {
                ["openings" | "built-in", thing, ..] => format!("{}.{thing}", keys[0]),
                ["wall", "anchors", thing, ..] => format!("wall.anchors.{thing}"),
                ["wall", "bond-beam", ..] => "wall.bond-beam".to_owned(),
                _ => continue,
            };
            // A seat that is lower than the foot of the cob stands before the stem wall.
            let is_low = metres(&answers, &format!("{stem}.seat"))
                .is_some_and(|seat| seat + metres(&answers, "ground.floor").unwrap() <= 0.0);
            // Tiles are laid on the finished wall, and an oven stands in the room.
            let is_later = ["tile-area", "ground-pressure"]
                .iter()
                .any(|noun| answers.rows.find(&format!("{stem}.{noun}")).is_some());
            assert!(carded(&stem) || is_low || is_later, "{name}: {stem} is on no card");
        }
        for service in &answers.services {
            let is_somewhere = service.is_in_the_stem || service.is_through_the_roof || !service.lifts.is_empty();
            assert!(is_somewhere, "{name}: {} goes in nowhere", service.name);
        }
    }
}

#[test]
fn a_thing_begins_once_and_ends_once_and_passes_between() {
    for (name, text) in BUILDS {
        let answers = answered(text);
        let mut shares: BTreeMap<(&str, &str), Vec<Share>> = BTreeMap::new();
        for item in answers.lift_cards.iter().flat_map(|card| &card.items) {
            shares.entry((&item.path, &item.name)).or_default().push(item.share);
        }
        for ((path, _), shares) in shares {
            let count = |wanted: Share| shares.iter().filter(|share| **share == wanted).count();
            assert_eq!(count(Share::Begins), count(Share::Ends), "{name}: {path}: {shares:?}");
            if count(Share::Passes) > 0 {
                assert_eq!((shares[0], shares[shares.len() - 1]), (Share::Begins, Share::Ends), "{name}: {path}");
            }
        }
    }
}

#[test]
fn what_the_lift_buries_is_photographed() {
    let [(_, text), ..] = BUILDS;
    let answers = answered(text);
    let items = || answers.lift_cards.iter().flat_map(|card| &card.items);
    for path in ["wall.anchors.back", "services.power", "services.power.boxes.1", "built-in.bottles", "wall.bond-beam"]
    {
        assert!(items().any(|item| item.path == path && item.is_buried), "{path}");
    }
    assert!(items().filter(|item| item.path == "openings.door").all(|item| !item.is_buried));
}

#[test]
fn the_card_of_a_bond_beam_says_that_its_hold_down_is_not_computed() {
    let answers = answered(BUILDS[0].1);
    let mut items = answers.lift_cards.iter().flat_map(|card| &card.items);
    let beam = items.find(|item| item.path == "wall.bond-beam").unwrap();
    assert!(beam.task.contains("is not computed: an engineer says"), "{}", beam.task);
}

#[test]
fn deadmen_go_into_the_lift_that_they_name_and_every_thing_has_figures_and_a_task() {
    for (name, text) in BUILDS {
        let answers = answered(text);
        for item in answers.lift_cards.iter().flat_map(|card| &card.items) {
            assert!(!item.task.is_empty(), "{name}: {}", item.path);
            let known = item.rows.iter().filter(|(_, path)| answers.rows.find(path).is_some()).count();
            assert!(known > 0, "{name}: {} has no figure", item.path);
        }
    }
    let answers = answered(BUILDS[0].1);
    let with: Vec<&str> = answers
        .lift_cards
        .iter()
        .filter(|card| card.items.iter().any(|item| item.path == "wall.anchors.back"))
        .map(|card| card.name.as_str())
        .collect();
    assert_eq!(with, ["last"]);
}

//! The rules of the house as tests: storeys, first lines, file lengths, sources listed, no addresses.
#![allow(clippy::unwrap_used, clippy::panic, reason = "a test stops at the first surprise")]
#![allow(clippy::disallowed_methods, reason = "this test reads the engine's own files")]

use std::fs;
use std::path::{Path, PathBuf};

/// Every module with its storey and its place on it: it may use lower storeys and what stands before it on its own.
const STOREYS: &[(&str, u32, u32)] = &[
    ("units", 0, 0),
    ("sources", 0, 1),
    ("problem", 1, 0),
    ("known", 1, 1),
    ("reason", 1, 2),
    ("row", 1, 3),
    ("check", 1, 4),
    ("study", 1, 5),
    ("solve", 2, 0),
    ("curve", 3, 0),
    ("solid", 3, 1),
    ("view", 3, 2),
    ("rulebook", 3, 3),
    ("tolerance", 3, 4),
    ("facts", 3, 5),
    ("earth", 4, 0),
    ("ground", 4, 1),
    ("oven", 4, 2),
    ("roof", 4, 3),
    ("set_out", 4, 4),
    ("skin", 4, 5),
    ("wall", 4, 6),
    ("yard", 4, 7),
    ("timber", 4, 8),
    ("loads", 4, 9),
    ("edit", 5, 0),
    ("build", 5, 1),
    ("house", 6, 0),
    ("quantities", 7, 0),
    ("structure", 7, 1),
    ("money", 7, 2),
    ("solids", 7, 3),
    ("pictures", 7, 4),
    ("studies", 8, 0),
    ("answers", 9, 0),
    ("ask", 9, 1),
    ("proof", 9, 2),
    ("lib", 10, 0),
];
const ROOMS: u32 = 4;

fn engine() -> PathBuf {
    PathBuf::from(env!("CARGO_MANIFEST_DIR"))
}

fn files(folder: &Path, extension: &str) -> Vec<PathBuf> {
    let mut found = Vec::new();
    for entry in fs::read_dir(folder).unwrap() {
        let path = entry.unwrap().path();
        if path.is_dir() {
            found.extend(files(&path, extension));
        } else if path.extension().is_some_and(|end| end == extension) {
            found.push(path);
        }
    }
    found.sort();
    found
}

fn module(file: &Path) -> String {
    let inside = file.strip_prefix(engine().join("src")).unwrap();
    let first = inside.components().next().unwrap().as_os_str().to_string_lossy().into_owned();
    first.trim_end_matches(".rs").to_owned()
}

fn place(name: &str) -> Option<(u32, u32)> {
    STOREYS.iter().find(|(module, ..)| *module == name).map(|&(_, storey, place)| (storey, place))
}

/// The faults of one file's imports.
fn climbs(own: &str, text: &str) -> Vec<String> {
    let mut faults = Vec::new();
    let Some(here) = place(own) else { return vec![format!("{own} has no storey")] };
    for (_, rest) in text.match_indices("crate::").map(|(at, found)| (at, &text[at + found.len()..])) {
        let used: String = rest.chars().take_while(|sign| sign.is_alphanumeric() || *sign == '_').collect();
        let Some(there) = place(&used) else { continue };
        let rooms = here.0 == ROOMS && there.0 == ROOMS;
        if used != own && (there.0 > here.0 || (there.0 == here.0 && (there.1 > here.1 || rooms))) {
            faults.push(format!("{own} uses {used}"));
        }
    }
    faults
}

#[test]
fn nothing_uses_a_higher_storey_and_no_room_another() {
    let faults: Vec<String> = files(&engine().join("src"), "rs")
        .iter()
        .flat_map(|file| climbs(&module(file), &fs::read_to_string(file).unwrap()))
        .collect();
    assert!(faults.is_empty(), "{faults:?}");
}

#[test]
fn a_climb_is_noticed() {
    assert_eq!(climbs("wall", "use crate::house::House;"), ["wall uses house"]);
    assert_eq!(climbs("wall", "use crate::ground::depth_at;"), ["wall uses ground"]);
    assert_eq!(climbs("known", "use crate::row::Row;"), ["known uses row"]);
    assert!(climbs("house", "use crate::wall::Faces; use crate::units::Length;").is_empty());
}

#[test]
fn every_file_says_its_purpose_first_and_stays_small() {
    let root = engine().join("..");
    for folder in ["engine/src", "engine/tests", "press/src", "app/src", "xtask/src"] {
        for file in files(&root.join(folder), "rs") {
            let text = fs::read_to_string(&file).unwrap();
            assert!(text.starts_with("//! "), "{} does not say what it is for", file.display());
            let lines = text.lines().count();
            assert!(lines <= 400, "{} has {lines} lines: one purpose?", file.display());
        }
    }
}

/// The works that a rulebook, a table of published values or a table of facts names.
fn works() -> Vec<String> {
    let data = engine().join("../data");
    let mut works: Vec<String> =
        engine::proof::proof().unwrap().into_iter().map(|proof| proof.row.citation.work).collect();
    for file in files(&data.join("rulebooks"), "toml") {
        let rules = engine::rulebook::read(&fs::read_to_string(file).unwrap()).unwrap();
        works.extend(rules.into_iter().map(|rule| rule.citation.work));
    }
    for file in ["timber", "loads", "lifting", "earth"].iter().flat_map(|folder| files(&data.join(folder), "csv")) {
        let mut table = csv::Reader::from_path(file).unwrap();
        let column = table.headers().unwrap().iter().position(|head| head == "work").unwrap();
        works.extend(table.records().map(|line| line.unwrap()[column].to_owned()));
    }
    works.sort();
    works.dedup();
    works
}

#[test]
fn every_work_cited_is_listed_among_the_sources() {
    let listed = fs::read_to_string(engine().join("../docs/sources.md")).unwrap();
    let missing: Vec<String> = works().into_iter().filter(|work| !listed.contains(work.as_str())).collect();
    assert!(missing.is_empty(), "docs/sources.md does not list {missing:?}");
}

#[test]
fn web_addresses_stand_among_the_sources_alone() {
    let root = engine().join("..");
    let code = files(&engine().join("src"), "rs").into_iter().chain(files(&root.join("press/src/book"), "typ"));
    for file in code.chain(files(&root.join("data"), "csv")).chain(files(&root.join("data"), "toml")) {
        let text = fs::read_to_string(&file).unwrap();
        assert!(!text.contains("://"), "{} has a web address", file.display());
    }
}

#[test]
fn the_glossary_lists_every_unit_that_is_read() {
    let words = fs::read_to_string(engine().join("../docs/words.md")).unwrap();
    let page = engine::units::spellings_page();
    let missing: Vec<&str> = page
        .lines()
        .filter(|line| line.contains("| 0.") || line.contains("| 1"))
        .filter(|line| !words.contains(line))
        .collect();
    assert!(missing.is_empty(), "docs/words.md is behind engine::units::spellings_page(): {missing:?}");
}

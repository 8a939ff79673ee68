//! Whole builds: what each shows, as text beside its build file. `LOAMWRIGHT_BLESS=1` writes the text anew.
#![allow(clippy::unwrap_used, clippy::panic, reason = "a test stops at the first surprise")]
#![allow(clippy::disallowed_methods, reason = "this test reads the builds and may write what they show")]

use std::fmt::Write;
use std::fs;
use std::path::{Path, PathBuf};

use engine::answers::{Inputs, answers};
use engine::check::State;

fn builds() -> Vec<PathBuf> {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("../builds");
    let mut files: Vec<PathBuf> = fs::read_dir(folder)
        .unwrap()
        .map(|entry| entry.unwrap().path())
        .filter(|folder| folder.file_name().is_some_and(|name| name != "refused"))
        .map(|folder| folder.join(folder.file_name().unwrap()).with_extension("loam.toml"))
        .collect();
    files.sort();
    files
}

fn shown(file: &Path) -> String {
    let bytes = fs::read(file).unwrap();
    let answers = answers(&Inputs { build: &bytes, system: None }).unwrap_or_else(|problems| {
        panic!("{}: {}", file.display(), problems.all()[0]);
    });
    let mut text = String::new();
    for row in answers.rows.iter() {
        writeln!(text, "{} = {} ({})", row.path, row.shown(answers.system), row.origin_in_words()).unwrap();
    }
    for check in &answers.checks {
        writeln!(text, "{}: {}", check.state.word(), check.sentence(answers.system)).unwrap();
    }
    text
}

#[test]
fn burdock_rise_is_held_against_the_cob_appendix_and_a_borrowed_code() {
    let build = include_bytes!("../../builds/burdock-rise/burdock-rise.loam.toml");
    let answers = answers(&Inputs { build, system: None }).unwrap_or_else(|problems| panic!("{}", problems.all()[0]));
    let said = |rule: &str| {
        let mut checks = answers.checks.iter().filter(|check| check.rule.id == rule);
        let check = checks.next().unwrap_or_else(|| panic!("nothing is said of {rule}"));
        assert!(checks.next().is_none(), "{rule} is said twice");
        (check.state, check.sentence(answers.system))
    };
    assert_eq!(
        said("walls-out-of-plane"),
        (
            State::NotKnown,
            "Walls out of plane, AU105.3: not known. Supply your adopted text of AU105.3 and its table.".to_owned()
        )
    );
    for clause in ["finishes", "wall-clauses", "bearing-and-anchors", "braced-panels", "footing", "last-sections"] {
        let (state, sentence) = said(clause);
        assert!(state == State::NotKnown && sentence.contains(": not known. Supply your adopted text"), "{sentence}");
    }
    // The clauses on strength are quoted and remembered; that on the bar was seen, and a bar was measured.
    for (test, state) in [("compression", State::OnTrust), ("rupture", State::OnTrust), ("shrinkage", State::Holds)] {
        assert_eq!(said(test).0, state, "{test}");
    }
    // What is asked of adobe is several times what cob bears.
    let (state, sentence) = said("adobe-compression");
    assert!(state == State::Fails && sentence.contains("Borrowed: written for adobe"), "{sentence}");
    for shape in ["cob-thickness", "thickness-of-top-two-thirds", "cob-above-grade", "building-height"] {
        assert_eq!(said(shape).0, State::OnTrust);
    }
    // The wall is 18 in thick and the foot 5 in above the floor: seen in the code and within it, but borrowed.
    for borrowed in ["rammed-earth-thickness", "adobe-above-floor"] {
        let (state, sentence) = said(borrowed);
        assert!(state == State::OnTrust && sentence.contains("Borrowed: written for adobe"), "{sentence}");
    }
}

#[test]
fn every_build_shows_what_it_showed() {
    let files = builds();
    assert!(files.len() >= 4);
    for file in files {
        let expected = file.with_file_name("expected.txt");
        let now = shown(&file);
        if std::env::var_os("LOAMWRIGHT_BLESS").is_some() {
            fs::write(&expected, &now).unwrap();
        }
        let before = fs::read_to_string(&expected).unwrap_or_default();
        let differing: Vec<String> = before
            .lines()
            .filter(|line| !now.lines().any(|other| other == *line))
            .map(|line| format!("- {line}"))
            .chain(
                now.lines().filter(|line| !before.lines().any(|other| other == *line)).map(|line| format!("+ {line}")),
            )
            .collect();
        assert!(before == now, "{} shows other answers:\n{}", file.display(), differing.join("\n"));
    }
}

//! Build files that must be refused: every fault in the order of the file, word for word and place for place.
//! `LOAMWRIGHT_BLESS=1` writes the words anew.
#![allow(clippy::unwrap_used, clippy::panic, reason = "a test stops at the first surprise")]
#![allow(clippy::disallowed_methods, reason = "this test reads the refused builds and may write what is said of them")]

use std::fmt::Write;
use std::fs;
use std::path::{Path, PathBuf};

use engine::answers::{Inputs, answers};
use engine::problem::Problems;

fn refused(name: &str, build: &[u8]) -> Problems {
    match answers(&Inputs { build, system: None }) {
        Ok(_) => panic!("{name} is taken, it should be refused"),
        Err(problems) => problems,
    }
}

fn said(problems: &Problems) -> String {
    problems.all().iter().fold(String::new(), |mut text, problem| {
        writeln!(text, "{problem}").unwrap();
        text
    })
}

fn files() -> Vec<PathBuf> {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("../builds/refused");
    let mut files: Vec<PathBuf> = fs::read_dir(folder).unwrap().map(|entry| entry.unwrap().path()).collect();
    files.sort();
    files
}

/// `NAME` of `NAME.loam.toml`, and of `NAME.expected`.
fn name(file: &Path) -> String {
    let name = file.file_name().unwrap().to_string_lossy();
    name.trim_end_matches(".loam.toml").trim_end_matches(".expected").to_owned()
}

#[test]
fn every_refused_build_says_what_where_and_what_would_be_right() {
    let bless = std::env::var_os("LOAMWRIGHT_BLESS").is_some();
    let builds: Vec<PathBuf> = files().into_iter().filter(|file| file.to_string_lossy().ends_with(".toml")).collect();
    assert!(builds.len() >= 75, "only {} refused builds", builds.len());
    let mut differences = String::new();
    for build in builds {
        let name = name(&build);
        let now = said(&refused(&name, &fs::read(&build).unwrap()));
        let expected = build.with_file_name(format!("{name}.expected"));
        if bless {
            fs::write(&expected, &now).unwrap();
        }
        match fs::read_to_string(&expected) {
            Ok(before) if before == now => {}
            Ok(before) => writeln!(differences, "{name}: expected\n{before}{name}: said\n{now}").unwrap(),
            Err(_) => writeln!(differences, "{name}: there is no {name}.expected; said\n{now}").unwrap(),
        }
    }
    assert!(differences.is_empty(), "{differences}");
}

#[test]
fn nothing_is_expected_of_a_build_that_is_not_there() {
    let files = files();
    let builds: Vec<String> =
        files.iter().filter(|file| file.to_string_lossy().ends_with(".loam.toml")).map(|file| name(file)).collect();
    let alone: Vec<String> = files.iter().map(|file| name(file)).filter(|name| !builds.contains(name)).collect();
    assert!(alone.is_empty(), "{alone:?}");
}

#[test]
fn every_place_lies_in_the_file_and_line_and_column_are_those_of_its_byte() {
    for file in files().into_iter().filter(|file| file.to_string_lossy().ends_with(".toml")) {
        let bytes = fs::read(&file).unwrap();
        let Ok(text) = std::str::from_utf8(&bytes) else { continue };
        for problem in refused(&name(&file), &bytes).all() {
            let mut lines = text.get(..problem.span.start).expect("the place lies between characters").split('\n');
            assert_eq!(problem.line, lines.clone().count(), "{}: {problem}", file.display());
            assert_eq!(problem.column, lines.next_back().unwrap().chars().count() + 1, "{}: {problem}", file.display());
            assert!(text.get(problem.span.clone()).is_some(), "{}: {problem}", file.display());
        }
    }
}

#[test]
fn a_file_over_one_mebibyte_is_not_read() {
    let mut text = "format = 1\n".to_owned();
    text.push_str(&"# nothing\n".repeat(1024 * 1024 / 10));
    let limit = 1024 * 1024;
    assert_eq!(
        said(&refused("a large file", text.as_bytes())),
        "the file is larger than 1 MiB, the most that a build file may be; check that this is a build file\n"
    );
    text.truncate(limit);
    assert!(!said(&refused("a file of 1 MiB", text.as_bytes())).contains("MiB"), "1 MiB itself is read");
}

#[test]
fn of_sixty_faults_fifty_are_shown_and_ten_counted() {
    let mut text = include_str!("../../builds/plain-ring/plain-ring.loam.toml").to_owned();
    for number in 1..=60 {
        write!(text, "\n[openings.light-{number}]\nkind = \"window\"\nrun = \"east\"\nalong = \"1 m\"\n").unwrap();
        text.push_str("width = \"300 mm\"\nheight = \"300\"\nsill = \"1 m\"\n");
    }
    let problems = refused("sixty faults", text.as_bytes());
    let (shown, rest) = problems.shown();
    assert_eq!((shown.len(), rest), (50, 10));
    assert_eq!(shown[0].path, "openings.light-1.height");
    assert_eq!(shown[49].path, "openings.light-50.height");
}

#[test]
fn a_lift_of_5_mm_is_taken_wherever_it_lies_and_a_thinner_one_is_not() {
    let text = include_str!("../../builds/refused/lift-as-thin-as-a-coat.loam.toml");
    let second = "name = \"first\"\ntop = \"1 m\"\n\n[[wall.lifts]]\nname = \"second\"\n";
    for (from, thin, thick) in [
        ("top = \"2 mm\"", "top = \"4.9 mm\"", "top = \"5 mm\""),
        ("name = \"first\"\ntop = \"2 mm\"", "top = \"1.0049 m\"", "top = \"1.005 m\""),
    ] {
        let with = |top: &str| {
            text.replacen(from, &if from.starts_with("top") { top.to_owned() } else { format!("{second}{top}") }, 1)
        };
        assert!(said(&refused("thin", with(thin).as_bytes())).contains("at least 5 mm"));
        let taken = answers(&Inputs { build: with(thick).as_bytes(), system: None });
        assert!(taken.is_ok(), "{}", taken.err().map(|problems| said(&problems)).unwrap_or_default());
    }
}

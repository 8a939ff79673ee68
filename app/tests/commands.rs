//! The commands as a builder calls them: what they print and how they end.
#![allow(clippy::unwrap_used, clippy::panic, reason = "a test stops at the first surprise")]

use std::io::{BufRead, BufReader, Read, Write};
use std::net::TcpStream;
use std::path::PathBuf;
use std::process::{Command, Output, Stdio};

fn root() -> PathBuf {
    PathBuf::from(env!("CARGO_MANIFEST_DIR")).join("..")
}

fn run(words: &[&str], input: &str) -> Output {
    let mut child = Command::new(env!("CARGO_BIN_EXE_loamwright"))
        .args(words)
        .current_dir(root())
        .stdin(Stdio::piped())
        .stdout(Stdio::piped())
        .stderr(Stdio::piped())
        .spawn()
        .unwrap();
    child.stdin.take().unwrap().write_all(input.as_bytes()).unwrap();
    child.wait_with_output().unwrap()
}

fn out(output: &Output) -> String {
    String::from_utf8_lossy(&output.stdout).into_owned()
}

fn err(output: &Output) -> String {
    String::from_utf8_lossy(&output.stderr).into_owned()
}

const TANSY: &str = "builds/tansy-bank/tansy-bank.loam.toml";

#[test]
fn check_prints_every_state_and_ends_well() {
    let output = run(&["check", TANSY], "");
    assert_eq!(output.status.code(), Some(0), "{}", err(&output));
    let text = out(&output);
    assert!(text.contains("Tansy Bank seed store") && text.contains("on trust") && text.contains("Assumed"), "{text}");
    let us = out(&run(&["check", TANSY, "--units", "us"], ""));
    assert!(us.contains("sq ft") && !us.contains(" m²"), "{us}");
}

#[test]
fn what_was_not_computed_is_said_and_what_was_is_kept_for_its_own_design() {
    let folder = std::env::temp_dir().join(format!("loamwright-studies-{}", std::process::id()));
    std::fs::create_dir_all(&folder).unwrap();
    let file = folder.join("tansy.loam.toml");
    let text = std::fs::read_to_string(root().join(TANSY)).unwrap();
    std::fs::write(&file, &text).unwrap();
    let file = file.display().to_string();
    let told = |text: &str| text.matches("not computed yet").count();
    assert_eq!(told(&out(&run(&["check", &file, "--short"], ""))), 2);
    let found: serde_json::Value = serde_json::from_str(&out(&run(&["export", "studies", &file], ""))).unwrap();
    assert_eq!(found["studies"].as_array().unwrap().len(), 2);
    let kept = out(&run(&["check", &file, "--short"], ""));
    assert!(told(&kept) == 0 && kept.contains("The prop carries"), "{kept}");
    std::fs::write(&file, text.replace("eye = \"900 mm\"", "eye = \"910 mm\"")).unwrap();
    assert_eq!(told(&out(&run(&["check", &file, "--short"], ""))), 2, "never a figure of another design");
    std::fs::remove_dir_all(folder).unwrap();
}

#[test]
fn a_refused_build_ends_with_one_and_shows_the_line() {
    let output = run(&["check", "builds/refused/several-faults.loam.toml"], "");
    assert_eq!(output.status.code(), Some(1));
    let text = err(&output);
    assert!(text.contains("wall.hight") && text.contains("did you mean `height`?"), "{text}");
    assert!(text.contains("nothing was computed"), "{text}");
}

#[test]
fn a_missing_file_and_a_folder_end_with_two_and_one_sentence() {
    let output = run(&["check", "nowhere.loam.toml"], "");
    assert_eq!(output.status.code(), Some(2));
    assert!(err(&output).starts_with("loamwright: nowhere.loam.toml cannot be read"), "{}", err(&output));
    let folder = run(&["check", "builds"], "");
    assert_eq!(folder.status.code(), Some(2));
    let words = "loamwright: builds is a folder: write the build file in it, such as builds/NAME.loam.toml\n";
    assert_eq!(err(&folder), words);
}

#[test]
fn every_example_of_ask_is_answered() {
    let list = out(&run(&["ask", "--list"], ""));
    let names: Vec<&str> = list.lines().filter_map(|line| line.split_whitespace().next()).collect();
    assert_eq!(
        names,
        [
            "units",
            "wall-line",
            "solid",
            "trench",
            "bulk",
            "bucket-recipe",
            "settling",
            "hydrometer",
            "texture",
            "grading",
            "plasticity",
            "sand-to-add",
            "strength",
            "lever",
            "shrinkage",
            "bulking",
            "erosion",
            "plaster-class",
            "floor-oil",
            "mixture-design",
            "mixture-fit",
            "desirability",
            "recipe",
            "batches",
            "panel-scores",
            "reciprocal",
            "roof-layers",
            "reciprocal-poles",
            "standing",
            "assign",
            "shims",
            "nesting",
            "deck-boards",
            "deck",
            "traverse",
            "level-loop",
            "frame",
            "pole",
            "tapered-pole",
            "bolt",
            "split",
            "timber-strength",
            "timber-factors",
            "column",
            "rafter-span",
            "angled-cantilever",
            "tree",
            "pole-sag",
            "crossing-friction",
            "snow",
            "wind",
            "earthquake",
            "combinations",
            "loads",
            "slide",
            "living-roof"
        ]
    );
    for name in names {
        let example = out(&run(&["ask", name, "--example"], ""));
        let output = run(&["ask", name], &example);
        assert_eq!(output.status.code(), Some(0), "{name}: {}", err(&output));
        assert!(out(&output).contains("\"problems\": []"), "{name}: {}", out(&output));
    }
    assert_eq!(run(&["ask", "solid"], "{}").status.code(), Some(1));
    assert_eq!(run(&["ask", "solid"], "{").status.code(), Some(2));
    assert!(err(&run(&["ask", "solids"], "{}")).contains("did you mean \"solid\"?"));
}

#[test]
fn export_answers_is_json_with_a_reason_for_every_row() {
    let text = out(&run(&["export", "answers", TANSY], ""));
    let answers: serde_json::Value = serde_json::from_str(&text).unwrap();
    let rows = answers["rows"].as_array().unwrap();
    assert!(rows.len() > 100);
    assert!(rows.iter().all(|row| row["reason"]["title"].as_str().is_some_and(|title| !title.is_empty())));
    assert!(rows.iter().any(|row| row["key"] == "wall.volume_m3"));
    for what in ["plan", "section", "unrolled", "trench"] {
        assert!(out(&run(&["export", what, TANSY], "")).starts_with("<svg"));
    }
}

#[test]
fn every_drawing_is_written_beside_the_build_file() {
    let folder = PathBuf::from(env!("CARGO_TARGET_TMPDIR")).join("drawn");
    let _ = std::fs::remove_dir_all(&folder);
    std::fs::create_dir_all(&folder).unwrap();
    let file = folder.join("house.loam.toml");
    let tansy = PathBuf::from(env!("CARGO_MANIFEST_DIR")).join("..").join(TANSY);
    std::fs::copy(tansy, &file).unwrap();
    let told = out(&run(&["export", "drawings", file.to_str().unwrap()], ""));
    assert!(told.lines().count() >= 4, "{told}");
    for path in told.lines() {
        assert!(std::fs::read_to_string(path).unwrap().starts_with("<svg"), "{path}");
    }
    let unknown = run(&["export", "plam", TANSY], "");
    assert_eq!(unknown.status.code(), Some(2));
    assert!(err(&unknown).contains("has no drawing called plam; it has site, "), "{}", err(&unknown));
}

#[test]
fn the_sum_of_a_thing_stands_below_its_parts() {
    let table = out(&run(&["export", "quantities", TANSY], ""));
    let mut reader = csv_lines(&table);
    assert_eq!(reader.next().unwrap()[0], "thing");
    let (mut sum, mut things) = (0.0, 0);
    for line in reader {
        let amount: f64 = line[4].parse().unwrap();
        if line[3] == format!("order.{}.needed", line[0]) {
            assert!((sum - amount).abs() <= 1e-9 * amount, "{}: {sum} and {amount}", line[0]);
            (sum, things) = (0.0, things + 1);
        } else {
            sum += amount;
        }
    }
    assert!(things > 12, "{things} things");
}

/// The cells of each line; a comma in quotes parts no cells.
fn csv_lines(table: &str) -> impl Iterator<Item = Vec<String>> {
    table.lines().map(|line| {
        let odd = line.split('"').enumerate();
        let safe: String =
            odd.map(|(index, part)| if index % 2 == 1 { part.replace(',', ";") } else { part.to_owned() }).collect();
        safe.split(',').map(str::to_owned).collect()
    })
}

#[test]
fn proof_ends_well_and_counts() {
    let output = run(&["proof"], "");
    assert_eq!(output.status.code(), Some(0));
    assert!(out(&output).contains("published values agree"));
}

#[test]
fn a_new_build_is_written_once_and_checks() {
    let folder = PathBuf::from(env!("CARGO_TARGET_TMPDIR")).join("new");
    let _ = std::fs::remove_dir_all(&folder);
    std::fs::create_dir_all(&folder).unwrap();
    let new = || {
        Command::new(env!("CARGO_BIN_EXE_loamwright"))
            .args(["new", "garden-house"])
            .current_dir(&folder)
            .output()
            .unwrap()
    };
    assert_eq!(new().status.code(), Some(0));
    let file = folder.join("garden-house.loam.toml");
    let check = run(&["check", file.to_str().unwrap()], "");
    assert_eq!(check.status.code(), Some(0), "{}", err(&check));
    let again = new();
    assert_eq!(again.status.code(), Some(2));
    assert!(err(&again).contains("is there already"), "{}", err(&again));
}

#[test]
fn a_page_that_is_interrupted_before_its_build_could_be_written_ends_with_two_and_says_where_it_is_kept() {
    let folder = std::env::temp_dir().join(format!("loamwright-interrupted-{}", std::process::id()));
    std::fs::create_dir_all(&folder).unwrap();
    let file = folder.join("house.loam.toml");
    std::fs::copy(root().join(TANSY), &file).unwrap();
    let mut child = Command::new(env!("CARGO_BIN_EXE_loamwright"))
        .args(["open", "--quiet", file.to_str().unwrap()])
        .stdout(Stdio::piped())
        .stderr(Stdio::piped())
        .spawn()
        .unwrap();
    let mut lines = BufReader::new(child.stdout.take().unwrap());
    let mut line = String::new();
    lines.read_line(&mut line).unwrap();
    let host = line.trim().rsplit('/').nth(1).unwrap().to_owned();
    // The file goes; then a value is typed.
    std::fs::remove_file(&file).unwrap();
    let look = r#"{"leaf":"walls","room_mm":[200,150],"since":null,"moving":false,
        "change":{"kind":"set","path":"wall.thickness","to":"460 mm"}}"#;
    let mut stream = TcpStream::connect(&host).unwrap();
    let head = format!(
        "POST /look HTTP/1.1\r\nhost: {host}\r\ncontent-type: application/json\r\ncontent-length: {}\r\nconnection: close\r\n\r\n",
        look.len()
    );
    stream.write_all(format!("{head}{look}").as_bytes()).unwrap();
    let mut answer = String::new();
    stream.read_to_string(&mut answer).unwrap();
    assert!(answer.contains("\"disk\":\"gone\""), "{}", answer.lines().next().unwrap_or(""));
    assert!(Command::new("kill").args(["-INT", &child.id().to_string()]).status().unwrap().success());
    let output = child.wait_with_output().unwrap();
    assert_eq!(output.status.code(), Some(2));
    let told = err(&output);
    assert!(told.contains("house.loam.toml is no longer on disk") && told.contains("is kept as"), "{told}");
    let kept = std::fs::read_dir(folder.join("house.loam/kept")).unwrap().next().unwrap().unwrap().path();
    assert!(std::fs::read_to_string(kept).unwrap().contains("thickness = \"460 mm\""));
    std::fs::remove_dir_all(&folder).unwrap();
}

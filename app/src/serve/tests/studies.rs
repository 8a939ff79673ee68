//! Long computations as the page begins, shows, stops and takes them.

use std::time::{Duration, Instant};

use axum::http::StatusCode;
use serde_json::{Value, json};

use super::{Desk, RING, TANSY};

const CHOICE: &str = "which-pole-where";
const TRIAL: &str = "raising-and-loss";

async fn study(desk: &Desk, name: &str) -> Value {
    let frame = desk.look("roof", None, Value::Null, false).await;
    let studies = frame["studies"].as_array().unwrap();
    studies.iter().find(|study| study["name"] == name).unwrap().clone()
}

/// Looks until a study does not run any more.
async fn ended(desk: &Desk, name: &str) -> Value {
    let begun = Instant::now();
    loop {
        let study = study(desk, name).await;
        if study["share"].is_null() {
            return study;
        }
        assert!(begun.elapsed() < Duration::from_secs(60), "{study}");
        tokio::time::sleep(Duration::from_millis(20)).await;
    }
}

async fn begun(desk: &Desk, name: &str) -> StatusCode {
    desk.ask("POST", &format!("/study/{name}"), Some(json!({}))).await.0
}

#[tokio::test(flavor = "multi_thread")]
async fn a_study_is_shown_for_its_own_design_and_its_choice_is_taken_in_one_step() {
    let exchanged = TANSY.replace("\"jay\", \"kink-out\"", "\"kink-out\", \"jay\"");
    assert_ne!(exchanged, TANSY);
    let desk = Desk::with(&exchanged);
    assert_eq!(study(&desk, CHOICE).await["found"], Value::Null);
    assert_eq!(begun(&desk, CHOICE).await, StatusCode::ACCEPTED);
    let found = ended(&desk, CHOICE).await["found"].clone();
    assert_eq!((&found["before"], &desk.on_disk()), (&json!(false), &exchanged));
    desk.set("roof.eye", "910 mm").await;
    let changed = study(&desk, CHOICE).await["found"].clone();
    assert_eq!((&changed["before"], &changed["offer"]), (&json!(true), &Value::Null));
    desk.look("roof", None, json!({"kind": "undo"}), false).await;
    assert_eq!(study(&desk, CHOICE).await["found"], found);
    let offer = &found["offer"];
    let laid = desk.look("roof", None, json!({"kind": "set", "path": offer["path"], "to": offer["to"]}), false).await;
    assert_eq!(laid["problems"], json!([]));
    assert_ne!(desk.on_disk(), exchanged);
    let after = ended(&desk, CHOICE).await["found"].clone();
    assert_eq!((&after["before"], &after["offer"]), (&json!(false), &Value::Null), "what is laid now is the best");
    desk.look("roof", None, json!({"kind": "undo"}), false).await;
    assert_eq!(desk.on_disk(), exchanged);
}

#[tokio::test(flavor = "multi_thread")]
async fn what_was_found_is_kept_beside_the_build_and_what_is_no_study_is_refused() {
    let desk = Desk::with(TANSY);
    assert_eq!(begun(&desk, TRIAL).await, StatusCode::ACCEPTED);
    let found = ended(&desk, TRIAL).await;
    assert_eq!(found["found"]["tables"][0]["rows"].as_array().unwrap().len(), 9);
    let kept = std::fs::read_dir(desk.folder.join("house.loam/studies")).unwrap();
    assert_eq!(kept.count(), 1);
    assert_eq!(begun(&desk, "levers").await, StatusCode::NOT_FOUND);
    assert_eq!(desk.ask("POST", &format!("/study/{TRIAL}/stop"), Some(json!({}))).await.0, StatusCode::NO_CONTENT);
    assert_eq!(study(&desk, TRIAL).await, found, "nothing ran that could be stopped");
    let plain = Desk::with(RING);
    assert_eq!(begun(&plain, TRIAL).await, StatusCode::NOT_FOUND);
    assert_eq!(plain.look("roof", None, Value::Null, false).await["studies"], json!([]));
}

#[tokio::test(flavor = "multi_thread")]
async fn a_study_that_runs_while_a_finger_moves_the_house_is_of_the_house_as_the_finger_leaves_it() {
    let desk = Desk::with(TANSY);
    // On a busy machine the study may end before the finger is up: then it is tried again, often enough to be sure.
    for eye in (905..965).step_by(3) {
        assert_eq!(begun(&desk, TRIAL).await, StatusCode::ACCEPTED);
        desk.look("book", None, json!({"kind": "set", "path": "roof.eye", "to": format!("{eye} mm")}), true).await;
        let up = desk.look("book", None, Value::Null, false).await;
        assert_eq!(up["can_undo"], true);
        if ended(&desk, TRIAL).await["found"]["before"] == false {
            return;
        }
    }
    panic!("what is found is of a house that the finger moved on");
}

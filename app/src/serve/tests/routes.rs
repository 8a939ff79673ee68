//! Who may ask, and what is answered.

use std::fs;
use std::time::Duration;

use axum::body::Body;
use axum::http::{Request, StatusCode};
use engine::answers::{Inputs, answers};
use serde_json::{Value, json};
use tower::ServiceExt;

use super::{Desk, PORT, RING, TANSY};

async fn status(desk: &Desk, host: &str, origin: Option<&str>) -> StatusCode {
    let mut request = Request::builder().uri("/text").header("host", host);
    if let Some(origin) = origin {
        request = request.header("origin", origin);
    }
    desk.router.clone().oneshot(request.body(Body::empty()).unwrap()).await.unwrap().status()
}

#[tokio::test]
async fn only_the_own_page_on_this_computer_is_answered() {
    let desk = Desk::with(RING);
    let (own, local) = (format!("127.0.0.1:{PORT}"), format!("localhost:{PORT}"));
    let origin = |host: &str| format!("{}:{}{host}", "http", "//");
    assert_eq!(status(&desk, &own, None).await, StatusCode::OK);
    assert_eq!(status(&desk, &local, Some(&origin(&local))).await, StatusCode::OK);
    let elsewhere = [
        ("loam.example", None),
        ("127.0.0.1", None),
        ("127.0.0.1:80", None),
        ("", None),
        (own.as_str(), Some(origin("loam.example"))),
        (own.as_str(), Some(origin(&local))),
        (own.as_str(), Some("null".to_owned())),
        (own.as_str(), Some(format!("https:{}{own}", "//"))),
    ];
    for (host, from) in elsewhere {
        assert_eq!(status(&desk, host, from.as_deref()).await, StatusCode::FORBIDDEN, "{host} {from:?}");
    }
}

#[tokio::test]
async fn a_request_that_is_too_large_or_no_look_is_refused() {
    let desk = Desk::with(RING);
    let (status, _) = desk.ask("POST", "/look", Some(json!({"leaf": "x".repeat(3_000_000)}))).await;
    assert_eq!(status, StatusCode::PAYLOAD_TOO_LARGE);
    let (status, _) = desk.ask("POST", "/look", Some(json!({"leaf": "walls"}))).await;
    assert_eq!(status, StatusCode::UNPROCESSABLE_ENTITY);
    let (status, words) = desk.ask("GET", "/no-such-thing", None).await;
    assert_eq!(
        (status, words.as_slice()),
        (StatusCode::NOT_FOUND, &b"There is nothing called no-such-thing here."[..])
    );
}

#[tokio::test]
async fn every_leaf_of_the_demo_house_has_what_it_shows() {
    let desk = Desk::with(TANSY);
    for (leaf, pictures, tables) in [
        ("", 1, 0),
        ("ground", 2, 2),
        ("walls", 3, 1),
        ("earth", 14, 22),
        ("skin", 3, 0),
        ("roof", 20, 5),
        ("stuff", 1, 0),
        ("book", 0, 0),
    ] {
        let frame = desk.look(leaf, None, Value::Null, false).await;
        let count = |what: &str| frame[what].as_array().unwrap().len();
        assert_eq!((count("pictures"), count("tables")), (pictures, tables), "{leaf}");
        assert!(count("fields") > 0 && count("figures") > 0, "{leaf}");
        for picture in frame["pictures"].as_array().unwrap() {
            assert_ne!(picture["title"], "", "{leaf}: {}", picture["name"]);
        }
        let again = desk.look(leaf, frame["revision"].as_u64(), Value::Null, false).await;
        assert_eq!((&again["rows"], &again["values"]), (&json!([]), &json!([])));
        assert_eq!((&again["checks"], &again["whole"]), (&Value::Null, &json!(false)));
        assert!(again["pictures"].as_array().unwrap().iter().all(|picture| picture["svg"] == ""), "{leaf}");
    }
}

#[tokio::test]
async fn the_roof_leaf_has_no_shim_table_under_a_second_ring() {
    let keys = "\n[roof.secondary]\nkind = \"ring\"\nat = \"60 %\"\ndiameter = \"130 mm\"\nof = \"larch-pole\"\n";
    for (text, wanted) in [(TANSY.to_owned(), true), (format!("{TANSY}{keys}"), false)] {
        let frame = Desk::with(&text).look("roof", None, Value::Null, false).await;
        let tables = frame["tables"].as_array().unwrap();
        assert!(tables.iter().any(|table| table["title"] == "Which pole lies where"), "{tables:?}");
        assert_eq!(tables.iter().any(|table| table["title"] == "Shims under the deck"), wanted);
    }
}

#[tokio::test]
async fn a_check_says_its_rule_what_it_leans_on_and_who_decides() {
    let desk = Desk::with(TANSY);
    let answers = answers(&Inputs { build: TANSY.as_bytes(), system: None }).unwrap();
    let mut checks = Vec::new();
    for leaf in crate::serve::leaves::all().iter().map(|leaf| leaf.name.as_str()) {
        let frame = desk.look(leaf, None, Value::Null, false).await;
        let told = frame["checks"].as_array().unwrap();
        assert!(told.iter().all(|check| check["leaf"] == leaf), "{leaf}");
        checks.extend(told.iter().cloned());
    }
    assert_eq!(checks.len(), answers.checks.len());
    let mut firsts = std::collections::BTreeSet::new();
    for told in &checks {
        let is_told = |check: &&engine::check::Check| {
            told["title"] == check.subject && told["rule"] == check.rule.citation.to_string()
        };
        let check = answers.checks.iter().find(is_told).unwrap();
        assert_eq!(told["who_decides"], check.rule.who_decides);
        let named = told["leans_on"].as_array().unwrap().len();
        let is_leaning = told["state"] == "on trust" || told["state"] == "fails";
        let all = if is_leaning { &check.leans_on[..] } else { &[] };
        assert_eq!(told["leans_on"], json!(all[..named]));
        assert_eq!(told["leans_more"], all.len() - named, "{}", check.subject);
        let is_first = firsts.insert((check.rule.id.clone(), told["state"].to_string(), told["leaf"].to_string()));
        assert!(named == all.len() || !is_first, "{}", check.subject);
    }
    let some = |what: &dyn Fn(&Value) -> bool| checks.iter().any(what);
    assert!(some(&|check| check["who_decides"] != ""));
    assert!(some(&|check| check["state"] == "on trust" && check["leans_on"] != json!([])));
}

#[tokio::test]
async fn what_nothing_reads_yet_is_told() {
    let desk = Desk::with(&format!("{RING}\n[tests]\nthumbs = 2\n"));
    let frame = desk.look("walls", None, Value::Null, false).await;
    let line = RING.lines().count() + 3;
    assert_eq!(frame["unread"], json!([format!("[tests.thumbs] in line {line} is not computed yet")]));
}

#[tokio::test]
async fn a_number_opens_to_its_reason_and_leads_on() {
    let desk = Desk::with(TANSY);
    let reason = desk.read("/reason?path=wall.slenderness").await;
    assert!(!reason["equation"].as_str().unwrap().is_empty() && !reason["source"].as_str().unwrap().is_empty());
    assert!(reason["inputs"].as_array().unwrap().iter().any(|row| row["path"] == "wall.thickness"));
    let height = desk.read("/reason?path=wall.height").await;
    assert!(height["leads_to"].as_array().unwrap().iter().any(|row| row["path"] == "wall.slenderness"));
    assert_eq!(desk.ask("GET", "/reason?path=wall.colour", None).await.0, StatusCode::NOT_FOUND);
}

#[tokio::test]
async fn what_if_tells_only_what_would_differ_and_changes_nothing() {
    let desk = Desk::with(TANSY);
    let beside = desk.read("/beside?path=wall.thickness&to=500%20mm").await;
    let differs = beside["rows"].as_array().unwrap();
    let thickness = differs.iter().find(|row| row["path"] == "wall.thickness").unwrap();
    assert_eq!((&thickness["here"], &thickness["there"]), (&json!("450 mm"), &json!("500 mm")));
    assert!(differs.iter().all(|row| row["here"] != row["there"] && row["path"] != "wall.height"));
    assert_eq!(desk.on_disk(), TANSY);
    let (status, words) = desk.ask("GET", "/beside?path=wall.thickness&to=9%20kg", None).await;
    assert_eq!(status, StatusCode::UNPROCESSABLE_ENTITY);
    assert!(String::from_utf8(words).unwrap().contains("wall.thickness"));
    assert_eq!(desk.ask("GET", "/beside?file=../house.loam.toml", None).await.0, StatusCode::UNPROCESSABLE_ENTITY);
}

#[tokio::test]
async fn a_build_stands_beside_another_of_its_folder_and_beside_a_kept_copy() {
    let desk = Desk::with(TANSY);
    fs::write(desk.folder.join("other.loam.toml"), RING).unwrap();
    assert_eq!(desk.read("/builds").await.as_array().unwrap().len(), 2);
    assert!(!desk.read("/beside?file=other.loam.toml").await["rows"].as_array().unwrap().is_empty());
    let (status, kept) = desk.ask("POST", "/keep", None).await;
    assert_eq!(status, StatusCode::OK);
    let kept: Value = serde_json::from_slice(&kept).unwrap();
    let same = desk.read(&format!("/beside?file={}", kept["file"].as_str().unwrap())).await;
    assert_eq!(same["rows"], json!([]));
    assert_eq!(desk.ask("POST", "/open", Some(json!({"file": "other.loam.toml"}))).await.0, StatusCode::NO_CONTENT);
    assert_eq!(desk.look("", None, Value::Null, false).await["file"], "other.loam.toml");
    let outside = json!({"file": "../other.loam.toml"});
    assert_eq!(desk.ask("POST", "/open", Some(outside)).await.0, StatusCode::NOT_FOUND);
}

#[tokio::test]
async fn the_model_and_drawings_for_paper_are_those_of_the_build() {
    let desk = Desk::with(RING);
    let (status, glb) = desk.ask("GET", "/house.glb", None).await;
    assert_eq!((status, &glb[..4]), (StatusCode::OK, &b"glTF"[..]));
    let request = Request::builder().uri("/house.glb").header("host", format!("127.0.0.1:{PORT}"));
    let response = desk.router.clone().oneshot(request.body(Body::empty()).unwrap()).await.unwrap();
    assert_eq!(response.headers()["left-out"], "[]", "every part of the house has a body");
    let (status, svg) = desk.ask("GET", "/drawing/plan.svg", None).await;
    assert!(status == StatusCode::OK && svg.starts_with(b"<svg"));
    assert_eq!(desk.ask("GET", "/drawing/cellar.svg", None).await.0, StatusCode::NOT_FOUND);
    assert_eq!(desk.ask("GET", "/book.pdf", None).await.0, StatusCode::NOT_FOUND);
}

#[tokio::test]
async fn of_waiting_moves_of_one_page_the_newest_wins_and_what_was_typed_is_never_skipped() {
    let desk = Desk::with(RING);
    let busy = desk.served.turns().turn().await;
    let look = |page: &str, change: Value| json!({"leaf": "walls", "room_mm": [200, 150], "since": null, "change": change, "moving": false, "page": page});
    let set = json!({"kind": "set", "path": "wall.thickness", "to": "460 mm"});
    let ask = |body: Value| desk.ask("POST", "/look", Some(body));
    let (old, typed, other) = (ask(look("a", Value::Null)), ask(look("a", set)), ask(look("b", Value::Null)));
    let newest = ask(look("a", Value::Null));
    let free = async {
        tokio::time::sleep(Duration::from_millis(200)).await;
        drop(busy);
    };
    let (old, typed, other, newest, ()) = tokio::join!(old, typed, other, newest, free);
    assert_eq!(old.0, StatusCode::CONFLICT);
    assert_eq!([typed.0, other.0, newest.0], [StatusCode::OK; 3]);
    assert_eq!(engine::edit::written(&desk.on_disk(), "wall.thickness").as_deref(), Some("460 mm"));
}

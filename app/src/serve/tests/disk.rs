//! What is on disk is never overwritten unseen, and what was typed is never lost.

use std::collections::BTreeSet;
use std::fs;
use std::os::unix::fs::PermissionsExt;
use std::time::Duration;

use axum::body::Body;
use axum::http::{Request, StatusCode};
use http_body_util::BodyExt;
use serde_json::{Value, json};
use tower::ServiceExt;

use super::{Desk, PORT, RING, shown};

#[tokio::test]
async fn a_change_is_written_with_all_else_as_it_stood_and_what_was_there_is_kept_once() {
    let desk = Desk::with(RING);
    let frame = desk.set("wall.thickness", "460 mm").await;
    assert_eq!((&frame["disk"], shown(&frame, "wall.thickness")), (&json!("saved"), Some("460 mm")));
    let written = desk.on_disk();
    assert_eq!(written.lines().count(), RING.lines().count());
    assert_eq!(written.lines().zip(RING.lines()).filter(|(new, old)| new != old).count(), 1);
    desk.set("wall.thickness", "470 mm").await;
    let kept = desk.read("/kept").await;
    assert_eq!(kept.as_array().unwrap().len(), 1);
    let copy = desk.folder.join("house.loam/kept").join(kept[0]["file"].as_str().unwrap());
    assert_eq!(fs::read_to_string(copy).unwrap(), RING);
    let left = fs::read_dir(&desk.folder).unwrap().map(|entry| entry.unwrap().file_name().into_string().unwrap());
    assert!(left.into_iter().all(|name| !name.starts_with('.')));
}

#[tokio::test]
async fn a_file_changed_elsewhere_is_taken_and_can_be_undone() {
    let desk = Desk::with(RING);
    let theirs = RING.replacen("format = 1", "format = 1\n# from elsewhere", 1);
    fs::write(desk.file(), &theirs).unwrap();
    let frame = desk.look("walls", None, Value::Null, false).await;
    assert_eq!((&frame["disk"], &frame["can_undo"]), (&json!("saved"), &json!(true)));
    assert_eq!(desk.ask("GET", "/text", None).await.1, theirs.as_bytes());
    desk.look("walls", None, json!({"kind": "undo"}), false).await;
    assert_eq!(desk.on_disk(), RING);
}

/// A desk on which a drag was going on while another program wrote the file.
async fn clash() -> (Desk, String) {
    let desk = Desk::with(RING);
    let set = json!({"kind": "set", "path": "wall.thickness", "to": "460 mm"});
    assert_eq!(desk.look("walls", None, set.clone(), true).await["disk"], "unsaved");
    let theirs = RING.replacen("format = 1", "format = 1\n# from elsewhere", 1);
    fs::write(desk.file(), &theirs).unwrap();
    let frame = desk.look("walls", None, set, false).await;
    assert_eq!(frame["disk"], "clash");
    assert!(frame["disk_words"].as_str().unwrap().contains("nothing of it was overwritten"));
    assert_eq!(desk.on_disk(), theirs);
    // A later change is not written either.
    assert_eq!(desk.set("wall.thickness", "480 mm").await["disk"], "clash");
    assert_eq!(desk.on_disk(), theirs);
    (desk, theirs)
}

#[tokio::test]
async fn a_clash_is_shown_and_settled_for_the_page_with_a_copy_of_what_the_other_wrote() {
    let (desk, theirs) = clash().await;
    let frame = desk.look("walls", None, json!({"kind": "settle", "keep": "page"}), false).await;
    assert_eq!(frame["disk"], "saved");
    assert_eq!(engine::edit::written(&desk.on_disk(), "wall.thickness").as_deref(), Some("480 mm"));
    // What stood there before this sitting first wrote is kept as well.
    assert_eq!(copies(&desk).await, BTreeSet::from([theirs, RING.to_owned()]));
}

/// The texts of the kept copies.
async fn copies(desk: &Desk) -> BTreeSet<String> {
    let kept = desk.read("/kept").await;
    let names = kept.as_array().unwrap().iter().map(|copy| copy["file"].as_str().unwrap().to_owned());
    names.map(|name| fs::read_to_string(desk.folder.join("house.loam/kept").join(name)).unwrap()).collect()
}

#[tokio::test]
async fn a_copy_kept_by_hand_does_not_stand_for_what_was_there_before_the_first_change() {
    let desk = Desk::with(RING);
    let set = json!({"kind": "set", "path": "wall.thickness", "to": "460 mm"});
    desk.look("walls", None, set, true).await;
    assert_eq!(desk.ask("POST", "/keep", None).await.0, StatusCode::OK);
    let by_hand = copies(&desk).await;
    desk.set("wall.thickness", "470 mm").await;
    let kept = copies(&desk).await;
    assert_eq!((by_hand.len(), kept.len()), (1, 2));
    assert!(kept.contains(RING) && !by_hand.contains(RING));
}

#[tokio::test]
async fn a_sitting_that_ends_under_a_finger_writes_what_stands() {
    let desk = Desk::with(RING);
    let set = json!({"kind": "set", "path": "wall.thickness", "to": "460 mm"});
    assert_eq!(desk.look("walls", None, set, true).await["disk"], "unsaved");
    assert_eq!(desk.on_disk(), RING);
    assert_eq!(desk.served.turns().turn().await.end(), Ok(()));
    assert_eq!(engine::edit::written(&desk.on_disk(), "wall.thickness").as_deref(), Some("460 mm"));
}

#[tokio::test]
async fn a_sitting_that_ends_with_a_clash_overwrites_nothing_and_keeps_what_was_on_the_page() {
    let (desk, theirs) = clash().await;
    let told = desk.served.turns().turn().await.end().unwrap_err();
    assert!(told.contains("changed by another program") && told.contains("is kept as"), "{told}");
    assert_eq!(desk.on_disk(), theirs);
    let kept = copies(&desk).await;
    let values: Vec<_> = kept.iter().map(|text| engine::edit::written(text, "wall.thickness").unwrap()).collect();
    assert_eq!(values, ["480 mm"]);
}

#[tokio::test]
async fn a_clash_is_settled_for_the_disk_and_the_page_can_go_back() {
    let (desk, theirs) = clash().await;
    let frame = desk.look("walls", None, json!({"kind": "settle", "keep": "disk"}), false).await;
    assert_eq!((&frame["disk"], desk.on_disk()), (&json!("saved"), theirs));
    let frame = desk.look("walls", None, json!({"kind": "undo"}), false).await;
    assert_eq!(shown(&frame, "wall.thickness"), Some("480 mm"));
}

#[tokio::test]
async fn a_deleted_file_is_told_and_written_anew_when_the_builder_says_so() {
    let desk = Desk::with(RING);
    fs::remove_file(desk.file()).unwrap();
    let frame = desk.set("wall.thickness", "460 mm").await;
    assert_eq!(frame["disk"], "gone");
    assert_eq!(shown(&frame, "wall.thickness"), Some("460 mm"));
    assert!(!desk.file().exists());
    let frame = desk.look("walls", None, json!({"kind": "settle", "keep": "disk"}), false).await;
    assert_eq!(frame["problems"][0]["message"], "there is nothing on disk to take");
    let frame = desk.look("walls", None, json!({"kind": "settle", "keep": "page"}), false).await;
    assert_eq!(frame["disk"], "saved");
    assert_eq!(engine::edit::written(&desk.on_disk(), "wall.thickness").as_deref(), Some("460 mm"));
}

#[tokio::test]
async fn a_file_that_may_only_be_read_is_not_written_and_the_text_stays() {
    let desk = Desk::with(RING);
    fs::set_permissions(desk.file(), fs::Permissions::from_mode(0o444)).unwrap();
    let frame = desk.set("wall.thickness", "460 mm").await;
    assert_eq!(frame["disk"], "not-written");
    assert!(frame["disk_words"].as_str().unwrap().contains("read only"));
    assert_eq!(desk.on_disk(), RING);
    fs::set_permissions(desk.file(), fs::Permissions::from_mode(0o644)).unwrap();
    assert_eq!(desk.set("wall.height", "2.2 m").await["disk"], "saved");
    assert_eq!(engine::edit::written(&desk.on_disk(), "wall.thickness").as_deref(), Some("460 mm"));
}

#[tokio::test]
async fn a_file_that_does_not_read_is_shown_and_mended_by_hand() {
    let broken = RING.replacen("[wall]", "[wall", 1);
    let desk = Desk::with(&broken);
    let frame = desk.look("walls", None, Value::Null, false).await;
    assert_eq!(frame["text"], broken);
    assert!(frame["problems"][0]["line"].as_u64().unwrap() > 1);
    assert_eq!(frame["pictures"], json!([]));
    let worse = broken.replacen("[build]", "[build", 1);
    let frame = desk.look("walls", None, json!({"kind": "whole", "text": worse}), false).await;
    assert_eq!((&frame["text"], desk.on_disk()), (&json!(worse), worse.clone()));
    let frame = desk.look("walls", None, json!({"kind": "whole", "text": RING}), false).await;
    assert_eq!((&frame["text"], &frame["problems"], desk.on_disk()), (&Value::Null, &json!([]), RING.to_owned()));
    assert!(!frame["pictures"].as_array().unwrap().is_empty());
}

#[tokio::test]
async fn a_file_that_breaks_elsewhere_leaves_the_last_house_on_the_page() {
    let desk = Desk::with(RING);
    desk.look("walls", None, Value::Null, false).await;
    let broken = RING.replacen("[wall]", "[wall", 1);
    fs::write(desk.file(), &broken).unwrap();
    let frame = desk.look("walls", None, Value::Null, false).await;
    assert_eq!(frame["text"], broken);
    assert!(!frame["problems"].as_array().unwrap().is_empty());
    assert!(!frame["pictures"][0]["svg"].as_str().unwrap().is_empty());
}

#[tokio::test]
async fn the_event_stream_tells_of_a_change_on_disk() {
    let desk = Desk::with(RING);
    let request = Request::builder().uri("/events").header("host", format!("localhost:{PORT}"));
    let response = desk.router.clone().oneshot(request.body(Body::empty()).unwrap()).await.unwrap();
    let mut body = response.into_body();
    fs::write(desk.file(), RING.replacen("format = 1", "format = 1\n# from elsewhere", 1)).unwrap();
    let heard = tokio::time::timeout(Duration::from_secs(10), body.frame()).await.unwrap().unwrap().unwrap();
    let heard = String::from_utf8(heard.into_data().unwrap().to_vec()).unwrap();
    assert!(heard.contains("\"kind\":\"changed\"") && heard.contains("\"by\":\"disk\""), "{heard}");
}

//! Changes: undone to the byte, refused in words, dragged as one step, shown as they are computed.

use std::collections::BTreeMap;
use std::fs;

use axum::http::StatusCode;
use engine::answers::{Inputs, answers};
use serde_json::{Value, json};

use super::{Desk, RING, TANSY, shown};

#[tokio::test]
async fn undo_and_redo_go_back_and_forth_to_the_byte() {
    let desk = Desk::with(TANSY);
    let mut texts = vec![TANSY.to_owned()];
    for (path, to) in [("wall.thickness", "460 mm"), ("openings.door.width", "95 cm"), ("roof.eye", "1 m")] {
        let frame = desk.set(path, to).await;
        assert_eq!(frame["problems"], json!([]), "{path}");
        texts.push(desk.on_disk());
    }
    for text in texts.iter().rev().skip(1) {
        desk.look("walls", None, json!({"kind": "undo"}), false).await;
        assert_eq!(&desk.on_disk(), text);
    }
    assert_eq!(desk.look("walls", None, Value::Null, false).await["can_undo"], false);
    for text in texts.iter().skip(1) {
        desk.look("walls", None, json!({"kind": "redo"}), false).await;
        assert_eq!(&desk.on_disk(), text);
    }
}

#[tokio::test]
async fn a_change_that_cannot_be_is_told_and_changes_nothing() {
    let desk = Desk::with(RING);
    let before = desk.look("walls", None, Value::Null, false).await;
    for (path, to) in
        [("wall.thickness", "450 kg"), ("wall.thickness", "9 m"), ("no.such.key", "1"), ("wall.line", "\"")]
    {
        let frame = desk.set(path, to).await;
        assert!(!frame["problems"].as_array().unwrap().is_empty(), "{path} = {to}");
        assert_eq!(frame["revision"], before["revision"]);
        assert_eq!(frame["pictures"].as_array().unwrap().len(), before["pictures"].as_array().unwrap().len());
        assert_eq!((desk.on_disk().as_str(), &frame["can_undo"]), (RING, &json!(false)));
    }
}

fn handle(frame: &Value) -> (String, [f64; 2]) {
    let plan = frame["pictures"].as_array().unwrap().iter().find(|picture| picture["name"] == "plan").unwrap();
    let handle = &plan["handles"][0];
    let at = [0, 1].map(|axis| handle["at_mm"][axis].as_f64().unwrap());
    (handle["id"].as_str().unwrap().to_owned(), at)
}

fn drag(id: &str, to: [f64; 2]) -> Value {
    json!({"kind": "drag", "drawing": "plan", "handle": id, "to_mm": to})
}

#[tokio::test]
async fn a_drag_is_one_step_and_is_written_when_the_finger_lifts() {
    let desk = Desk::with(TANSY);
    let first = desk.look("walls", None, Value::Null, false).await;
    let (id, [x, y]) = handle(&first);
    let mut since = first["revision"].as_u64();
    for step in 1..=5 {
        let frame = desk.look("walls", since, drag(&id, [x - f64::from(step) * 0.5, y]), true).await;
        assert_eq!(
            (&frame["problems"], &frame["disk"], &frame["whole"]),
            (&json!([]), &json!("unsaved"), &json!(false))
        );
        assert_eq!(frame["pictures"].as_array().unwrap().len(), 1, "the plan alone, while it moves");
        assert!(shown(&frame, "wall.length").is_some());
        assert!(frame.to_string().len() < 120_000, "{} bytes", frame.to_string().len());
        assert_eq!(desk.on_disk(), TANSY);
        since = frame["revision"].as_u64();
    }
    let frame = desk.look("walls", since, drag(&id, [x - 2.5, y]), false).await;
    assert_eq!((&frame["disk"], &frame["rows"], &frame["values"]), (&json!("saved"), &json!([]), &json!([])));
    assert_ne!(desk.on_disk(), TANSY);
    let frame = desk.look("walls", None, json!({"kind": "undo"}), false).await;
    assert_eq!((desk.on_disk().as_str(), &frame["can_undo"]), (TANSY, &json!(false)));
}

#[tokio::test]
async fn a_second_page_that_follows_does_not_cut_a_drag_in_pieces() {
    let desk = Desk::with(TANSY);
    let (id, [x, y]) = handle(&desk.look("walls", None, Value::Null, false).await);
    for step in 1..=3 {
        desk.look("walls", None, drag(&id, [x - f64::from(step), y]), true).await;
        let other = desk.look_as("b", "walls", None, Value::Null, false).await;
        assert_eq!((&other["disk"], desk.on_disk().as_str()), (&json!("unsaved"), TANSY));
    }
    desk.look("walls", None, drag(&id, [x - 3.0, y]), false).await;
    assert_ne!(desk.on_disk(), TANSY);
    let frame = desk.look("walls", None, json!({"kind": "undo"}), false).await;
    assert_eq!((desk.on_disk().as_str(), &frame["can_undo"]), (TANSY, &json!(false)));
}

#[tokio::test]
async fn what_a_second_page_writes_under_a_drag_loses_nothing_of_it() {
    let desk = Desk::with(TANSY);
    let (id, [x, y]) = handle(&desk.look("walls", None, Value::Null, false).await);
    desk.look("walls", None, drag(&id, [x - 2.0, y]), true).await;
    let set = json!({"kind": "set", "path": "wall.thickness", "to": "460 mm"});
    desk.look_as("b", "walls", None, set, false).await;
    let both = desk.on_disk();
    assert_eq!(engine::edit::written(&both, "wall.thickness").as_deref(), Some("460 mm"));
    assert_ne!(both, TANSY.replace("thickness = \"450 mm\"", "thickness = \"460 mm\""));
    for _ in 0..2 {
        desk.look("walls", None, json!({"kind": "undo"}), false).await;
    }
    assert_eq!(desk.on_disk(), TANSY);
}

#[tokio::test]
async fn a_drag_into_the_impossible_stops_where_it_last_could_be() {
    let desk = Desk::with(TANSY);
    let (id, [x, y]) = handle(&desk.look("walls", None, Value::Null, false).await);
    let good = desk.look("walls", None, drag(&id, [x - 1.0, y]), true).await;
    let bad = desk.look("walls", good["revision"].as_u64(), drag(&id, [x + 1e5, y]), true).await;
    assert!(!bad["problems"].as_array().unwrap().is_empty());
    let lifted = desk.look("walls", good["revision"].as_u64(), drag(&id, [x + 1e5, y]), false).await;
    assert_eq!((&lifted["disk"], &lifted["revision"]), (&json!("saved"), &good["revision"]));
    assert_ne!(desk.on_disk(), TANSY);
}

/// Numbers that look random and are the same each time (Lehmer's generator with the constants of Park and Miller 1988, from
/// memory).
struct Draws(u64);

impl Draws {
    fn share(&mut self) -> f64 {
        self.0 = self.0 * 16_807 % 2_147_483_647;
        self.0 as f64 / 2_147_483_647.0
    }
}

#[tokio::test]
async fn after_a_hundred_random_drags_every_number_shown_is_that_of_the_file() {
    let desk = Desk::with(TANSY);
    let mut draws = Draws(7);
    let mut page = BTreeMap::new();
    let take = |page: &mut BTreeMap<String, String>, frame: &Value| {
        if frame["whole"] == true {
            page.clear();
        }
        for row in frame["rows"].as_array().unwrap() {
            page.insert(row["path"].as_str().unwrap().to_owned(), row["shown"].as_str().unwrap().to_owned());
        }
        for value in frame["values"].as_array().unwrap() {
            let known = page.get_mut(value[0].as_str().unwrap()).unwrap();
            value[1].as_str().unwrap().clone_into(known);
        }
        for path in frame["gone"].as_array().unwrap() {
            page.remove(path.as_str().unwrap());
        }
    };
    let mut frame = desk.look("walls", None, Value::Null, false).await;
    take(&mut page, &frame);
    for _ in 0..100 {
        let plan =
            frame["pictures"].as_array().unwrap().iter().find(|picture| picture["name"] == "plan").unwrap().clone();
        let handles = plan["handles"].as_array().unwrap();
        let handle = &handles[(draws.share() * handles.len() as f64) as usize];
        let at = [0, 1].map(|axis| handle["at_mm"][axis].as_f64().unwrap() + (draws.share() - 0.5) * 12.0);
        let moving = draws.share() < 0.5;
        frame = desk.look("walls", frame["revision"].as_u64(), drag(handle["id"].as_str().unwrap(), at), moving).await;
        assert_eq!(frame["whole"], false, "a page that follows is sent only what differs");
        take(&mut page, &frame);
    }
    let last = desk.look("walls", frame["revision"].as_u64(), Value::Null, false).await;
    assert_eq!(last["whole"], false);
    take(&mut page, &last);
    let text = desk.on_disk();
    assert_ne!(text, TANSY);
    let exported = press::export::answers(&answers(&Inputs { build: text.as_bytes(), system: None }).unwrap());
    let rows = exported["rows"].as_array().unwrap();
    assert_eq!(rows.len(), page.len());
    for row in rows {
        let path = row["path"].as_str().unwrap();
        assert_eq!(page.get(path).map(String::as_str), row["metric"].as_str(), "{path}");
    }
}

#[tokio::test]
async fn units_change_for_the_eye_and_not_in_the_file() {
    let desk = Desk::with(RING);
    let metric = desk.look("walls", None, Value::Null, false).await;
    let frame = desk.look("walls", metric["revision"].as_u64(), json!({"kind": "units", "system": "us"}), false).await;
    assert_eq!((&frame["system"], &frame["whole"]), (&json!("us"), &json!(true)));
    assert!(
        shown(&frame, "wall.thickness").unwrap().contains("ft")
            || shown(&frame, "wall.thickness").unwrap().contains("in")
    );
    assert_eq!((desk.on_disk().as_str(), &frame["can_undo"]), (RING, &json!(false)));
    let back = desk.look("walls", None, json!({"kind": "units", "system": ""}), false).await;
    assert_eq!(back["rows"], metric["rows"]);
}

fn resident() -> u64 {
    let words = fs::read_to_string("/proc/self/statm").unwrap();
    words.split_whitespace().nth(1).unwrap().parse::<u64>().unwrap() * 4096
}

#[tokio::test]
async fn a_thousand_changes_take_no_more_memory_than_a_hundred() {
    let desk = Desk::with(RING);
    let mut after_some = 0;
    for number in 0..1000 {
        let set = json!({"kind": "set", "path": "wall.height", "to": format!("{} mm", 2000 + number % 100)});
        let frame = desk.look("book", None, set, false).await;
        assert_eq!(frame["problems"], json!([]));
        if number == 200 {
            after_some = resident();
        }
    }
    let more = resident().saturating_sub(after_some);
    assert!(more < 4_000_000, "{more} bytes more");
}

#[tokio::test]
async fn from_an_empty_folder_a_first_shape_is_seen_before_it_is_a_build() {
    let desk = Desk::with("");
    let empty = desk.look("", None, Value::Null, false).await;
    assert_eq!((&empty["file"], &empty["rows"]), (&json!(""), &json!([])));
    let begin = json!({
        "kind": "begin", "shape": "rounded", "length": "5 m", "width": "4 m", "name": "Fern Hut", "system": "metric",
    });
    let sketch = desk.look("", None, begin.clone(), true).await;
    assert_eq!((&sketch["problems"], &sketch["pictures"][0]["name"]), (&json!([]), &json!("first-shape")));
    assert!(shown(&sketch, "room.area").is_some());
    assert_eq!(fs::read_dir(&desk.folder).unwrap().count(), 0);
    let frame = desk.look("", None, begin.clone(), false).await;
    assert_eq!(
        (&frame["file"], &frame["disk"], &frame["problems"]),
        (&json!("fern-hut.loam.toml"), &json!("saved"), &json!([]))
    );
    assert_eq!(desk.read("/builds").await, json!([{"file": "fern-hut.loam.toml", "name": "Fern Hut"}]));
    let again = desk.look("", None, begin, false).await;
    assert_eq!(again["problems"][0]["path"], "build.name");
    assert_eq!((&again["file"], &again["pictures"][0]["name"]), (&json!("fern-hut.loam.toml"), &json!("first-shape")));
}

#[tokio::test]
async fn an_opening_that_is_added_has_a_lintel_as_those_of_a_first_build_have() {
    let begun = engine::build::begin("rounded", "5 m", "3.6 m", "Wren house", "metric").unwrap();
    let desk = Desk::with(&begun);
    desk.look("walls", None, Value::Null, false).await;
    let lintels = |text: &str| text.matches("lintel = { height = \"150 mm\" }").count();
    assert_eq!(lintels(&begun), 2);
    for what in ["opening", "door"] {
        let add = json!({"kind": "add", "what": what, "drawing": "unrolled", "at_mm": [60.0, 40.0]});
        let frame = desk.look("walls", None, add, false).await;
        assert_eq!(frame["problems"], json!([]), "{what}");
        assert_eq!(lintels(&desk.on_disk()), 3, "{what}");
        desk.look("walls", None, json!({"kind": "undo"}), false).await;
    }
}

#[tokio::test]
async fn each_kind_of_thing_can_be_added_by_touching_a_drawing_and_is_taken_back_in_one_step() {
    // Between deadmen all round the wall there is no room for one more door.
    let tables: Vec<&str> = TANSY.split_inclusive("\n\n").collect();
    let of_others =
        |table: &&&str| !["east", "hollow", "west"].iter().any(|run| table.contains(&format!("[wall.anchors.{run}]")));
    let roomy: String = tables.iter().filter(of_others).copied().collect();
    assert!(roomy.len() < TANSY.len());
    let desk = Desk::with(&roomy);
    desk.look("walls", None, Value::Null, false).await;
    for (what, drawing, at) in [
        ("opening", "unrolled", [60.0, 40.0]),
        ("door", "unrolled", [60.0, 40.0]),
        ("door", "plan", [60.0, 40.0]),
        ("lift", "unrolled", [60.0, 40.0]),
        ("bench", "plan", [60.0, 40.0]),
        ("niche", "unrolled", [60.0, 40.0]),
        ("bottles", "unrolled", [60.0, 40.0]),
        ("point", "plan", [60.0, 20.0]),
    ] {
        let add = json!({"kind": "add", "what": what, "drawing": drawing, "at_mm": at});
        let frame = desk.look("walls", None, add, false).await;
        assert_eq!((&frame["problems"], &frame["disk"]), (&json!([]), &json!("saved")), "{what}");
        assert_ne!(desk.on_disk(), roomy);
        desk.look("walls", None, json!({"kind": "undo"}), false).await;
        assert_eq!(desk.on_disk(), roomy);
    }
    let nothing = json!({"kind": "add", "what": "tower", "drawing": "plan", "at_mm": [60.0, 40.0]});
    assert_eq!(desk.look("walls", None, nothing, false).await["problems"].as_array().unwrap().len(), 1);
}

fn begin(length: &str, width: &str) -> Value {
    json!({"kind": "begin", "shape": "bean", "length": length, "width": width, "name": "Wren", "system": "metric"})
}

#[tokio::test]
async fn a_number_of_a_shape_that_is_no_build_yet_opens_to_its_reason() {
    let desk = Desk::with("");
    assert_eq!(desk.ask("GET", "/reason?path=room.area", None).await.0, StatusCode::NOT_FOUND);
    let frame = desk.look("", None, begin("5 m", "3.6 m"), true).await;
    let figures = frame["figures"].as_array().unwrap();
    assert!(figures.len() > 2);
    for path in figures.iter().map(|path| path.as_str().unwrap()) {
        let reason = desk.read(&format!("/reason?path={path}")).await;
        assert_eq!(reason["shown"].as_str(), shown(&frame, path), "{path}");
    }
    assert_eq!(fs::read_dir(&desk.folder).unwrap().count(), 0);
}

#[tokio::test]
async fn a_first_shape_that_cannot_be_leaves_the_last_one_on_show_and_tells_every_fault() {
    let desk = Desk::with("");
    let bare = desk.look("", None, begin("5.4", "3.6"), true).await;
    assert_eq!(bare["problems"], json!([]));
    let refused = desk.look("", None, begin("5,4 m", "three"), true).await;
    let paths: Vec<&Value> = refused["problems"].as_array().unwrap().iter().map(|fault| &fault["path"]).collect();
    assert_eq!(paths, ["length", "width"]);
    assert_eq!(refused["problems"][0]["hint"], "write 5.4 m");
    assert_eq!((&refused["pictures"], &refused["rows"]), (&bare["pictures"], &bare["rows"]));
    // A page that only looks again has it too; a build that is made of it ends it.
    assert_eq!(desk.look("", None, Value::Null, false).await["pictures"], bare["pictures"]);
    let built = desk.look("", None, begin("5.4", "3.6"), false).await;
    assert_eq!((&built["problems"], &built["file"]), (&json!([]), &json!("wren.loam.toml")));
}

#[tokio::test]
async fn every_line_of_a_new_house_is_priced_on_the_page_and_the_total_moves_at_once() {
    let desk = Desk::with("");
    desk.look("", None, begin("5 m", "3.6 m"), false).await;
    let file = desk.folder.join("wren.loam.toml");
    let first = fs::read_to_string(&file).unwrap();
    let mut frame =
        desk.look("stuff", None, json!({"kind": "set", "path": "build.currency", "to": "EUR"}), false).await;
    let open = |frame: &Value| {
        let orders = frame["orders"].as_array().unwrap().clone();
        orders.into_iter().filter(|order| order["has_no_cost"] == true).collect::<Vec<_>>()
    };
    let lines = open(&frame);
    assert!(lines.len() > 8 && shown(&frame, "order.total").is_none());
    let mut changes = 1;
    for line in lines {
        let name = line["name"].as_str().unwrap();
        let sold = line["sold_by"].as_array().unwrap();
        assert!(!sold.is_empty(), "{name}");
        for way in [sold.first(), sold.last()].into_iter().flatten() {
            let keys = json!([["sold-by", way[0]], ["price", "12"], ["holds", way[1]], ["by", ""]]);
            let fill = json!({"kind": "fill", "table": format!("prices.{name}"), "keys": keys});
            frame = desk.look("stuff", None, fill, false).await;
            assert_eq!(frame["problems"], json!([]), "{name} by {way}");
            changes += 1;
        }
        let now = frame["orders"].as_array().unwrap().iter().find(|order| order["name"] == name).unwrap();
        assert!(now["is_written"] == true && now["price"] == "12.00 EUR", "{now}");
        assert!(now["has_no_cost"] == false || now["open"][0].as_str().unwrap().contains("density"), "{now}");
    }
    assert!(shown(&frame, "order.total").unwrap().ends_with("EUR"));
    let text = fs::read_to_string(&file).unwrap();
    assert!(text.contains("[prices.straw]") && text.contains("price = \"12 EUR\""));
    let comments = |text: &str| text.lines().filter(|line| line.contains('#')).map(str::to_owned).collect::<Vec<_>>();
    assert_eq!(comments(&text), comments(&first));
    for _ in 0..changes {
        desk.look("stuff", None, json!({"kind": "undo"}), false).await;
    }
    assert_eq!(fs::read_to_string(&file).unwrap(), first);
}

#[tokio::test]
async fn a_bare_number_takes_the_unit_of_what_it_stands_for() {
    let desk = Desk::with(TANSY);
    for (path, to, written) in [
        ("wall.thickness", "460", "460 mm"),
        ("wall.height", "2.2", "2.2 m"),
        ("poles.count", "10", "10"),
        ("prices.stone.price", "91", "91 EUR"),
        ("wall.stem.through", "1.6", "1.6 m"),
    ] {
        assert_eq!(desk.set(path, to).await["problems"], json!([]), "{path}");
        assert_eq!(engine::edit::written(&desk.on_disk(), path).as_deref(), Some(written));
    }
    let desk = Desk::with(TANSY);
    assert_eq!(desk.set("wall.thickness", "1 ft 8 in").await["problems"], json!([]));
    let refused = desk.set("wall.thickness", "20").await;
    assert!(refused["problems"][0]["hint"].as_str().unwrap().contains("with a unit"), "{}", refused["problems"]);
}

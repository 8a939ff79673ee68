//! What a change of a build file leaves as it was, and what it refuses.
#![allow(clippy::unwrap_used, clippy::panic, reason = "a test stops at the first surprise")]

#[path = "laws/builds.rs"]
#[allow(dead_code, reason = "some tests take single builds, others all")]
mod builds;

#[path = "edit/renamed.rs"]
mod renamed;

use builds::{BUILDS, PLAIN_RING, TANSY_BANK};
use engine::edit::{Edit, Step, edit, like, quoted, written};
use engine::units::Length;
use toml::de::{DeTable, DeValue};

/// Every build and the one that a new folder begins with.
fn texts() -> impl Iterator<Item = &'static str> {
    BUILDS.into_iter().map(|(_, text)| text).chain([include_str!("../../app/src/command/new.loam.toml")])
}

fn changed(text: &str, change: &Edit) -> String {
    edit(text, change).unwrap_or_else(|problem| panic!("{problem}"))
}

fn set(text: &str, path: &str, to: &str) -> String {
    changed(text, &Edit::Set { path: path.into(), to: to.into() })
}

fn remove(text: &str, path: &str) -> String {
    changed(text, &Edit::Remove { path: path.into() })
}

fn add(text: &str, path: &str, body: &str) -> String {
    changed(text, &Edit::Add { path: path.into(), body: body.into() })
}

fn rename(text: &str, path: &str, to: &str) -> String {
    changed(text, &Edit::Rename { path: path.into(), to: to.into() })
}

fn refused(text: &str, change: Edit) -> String {
    edit(text, &change).unwrap_err().to_string()
}

/// Every value that is no table with its path, and every table with a path that is not the file itself.
fn paths(text: &str) -> (Vec<String>, Vec<String>) {
    let (mut values, mut tables) = (Vec::new(), Vec::new());
    let file = DeTable::parse(text).unwrap_or_else(|error| panic!("{error}: {text}"));
    for (key, value) in file.get_ref().iter() {
        walk(key.get_ref(), value.get_ref(), &mut values, &mut tables);
    }
    values.sort();
    (values, tables)
}

fn walk(path: &str, value: &DeValue<'_>, values: &mut Vec<String>, tables: &mut Vec<String>) {
    match value {
        DeValue::Table(table) => {
            tables.push(path.to_owned());
            for (key, value) in table.iter() {
                walk(&format!("{path}.{}", key.get_ref()), value.get_ref(), values, tables);
            }
        }
        DeValue::Array(parts) => {
            if parts.iter().all(|part| !part.get_ref().is_table()) {
                values.push(path.to_owned());
            }
            for (place, part) in parts.iter().enumerate() {
                let name = part.get_ref().get("name").and_then(|name| name.get_ref().as_str());
                let name = name.map_or((place + 1).to_string(), str::to_owned);
                walk(&format!("{path}.{name}"), part.get_ref(), values, tables);
            }
        }
        _ => values.push(path.to_owned()),
    }
}

/// The stretch in which two texts differ, as each has it.
fn difference<'a>(before: &'a str, after: &'a str) -> (&'a str, &'a str) {
    let same = |(a, b): &(u8, u8)| a == b;
    let head = before.bytes().zip(after.bytes()).take_while(same).count();
    let most = before.len().min(after.len()) - head;
    let tail = before.bytes().rev().zip(after.bytes().rev()).take(most).take_while(same).count();
    (&before[head..before.len() - tail], &after[head..after.len() - tail])
}

#[test]
fn every_value_of_every_build_is_written_anew_in_its_place_and_back_to_the_byte() {
    for text in texts() {
        let (values, _) = paths(text);
        assert!(values.len() > 20);
        // A name is a part of the path itself.
        for path in values.into_iter().filter(|path| path == "build.name" || !path.ends_with(".name")) {
            let old = written(text, &path).unwrap_or_else(|| panic!("{path} is not found"));
            assert!(set(text, &path, &old) == text, "{path} is set to what it is");
            let other = match old.as_str() {
                "true" => "false".to_owned(),
                list if list.contains(", ") => list.replace(", ", "7, ").replace("; ", "7; ") + "7",
                date if date.starts_with("2027") => date.replace("2027", "2037"),
                // A number has no nought before its figures.
                "0" => "7".to_owned(),
                other => format!("{other}7"),
            };
            let new = set(text, &path, &other);
            let (was, is) = difference(text, &new);
            // Each part of a list has its quotes; between the parts of a list of places the lines stay as they are.
            let quotes = 2 * old.split(", ").count();
            let is_short = !is.contains('\n') && is.len() <= other.len() + quotes;
            assert!(is_short || old.contains("; "), "{path}: {was} became {is}");
            assert_eq!(written(&new, &path).unwrap(), other, "{path}");
            assert!(set(&new, &path, &old) == text, "{path} is set back");
        }
    }
}

#[test]
fn a_new_key_stands_after_the_last_of_its_table_and_leaves_no_trace_when_it_goes() {
    for text in texts() {
        let (_, tables) = paths(text);
        for table in tables {
            let path = format!("{table}.new-key");
            let new = set(text, &path, "450 mm");
            let (was, is) = difference(text, &new);
            assert!(was.len() <= 1 && is.contains("new-key = \"450 mm\""), "{path}: {was} became {is}");
            assert_eq!(written(&new, &path).unwrap(), "450 mm");
            if !is.contains('[') {
                assert!(remove(&new, &path) == text, "{path}: {:?}", difference(text, &remove(&new, &path)));
            }
        }
    }
}

#[test]
fn values_keep_their_quotes_lists_their_lines_and_braces_their_style() {
    let text = "a = 'one'   # first\nb = [\n  \"1 m\", # x\n  \"2 m\",\n]\nc = { d = \"3 m\" }\nn = 3\nyes = true\n";
    assert_eq!(difference(text, &set(text, "a", "two")), ("one", "two"));
    assert_eq!(set(text, "a", "it's"), text.replace("'one'", "\"it's\""));
    assert_eq!(set(text, "b", "[\"1 m\", \"2.5 m\"]"), text.replace("2 m", "2.5 m"));
    assert_eq!(set(text, "b", "4 m, 5 m"), text.replace("1 m", "4 m").replace("2 m", "5 m"));
    assert_eq!(set(text, "b.y", "5' 6\""), text.replace("2 m", "5' 6\\\""));
    // What was measured one way is measured the other way too.
    assert_eq!(set("bow = [\"9 mm\"]\n", "bow.2", "4 mm"), "bow = [\"9 mm\", \"4 mm\"]\n");
    assert_eq!(set(text, "c.d", "450 mm"), text.replace("3 m", "450 mm"));
    assert_eq!(set(text, "c.e", "7"), text.replace("3 m\" }", "3 m\", e = 7 }"));
    assert_eq!(set(text, "n", "4"), text.replace("n = 3", "n = 4"));
    assert_eq!(set(text, "yes", "false"), text.replace("true", "false"));
    // A number without its unit stays text, so that the reader can say what it lacks.
    assert_eq!(set(text, "c.d", "450"), text.replace("\"3 m\"", "\"450\""));
    assert_eq!(written(text, "b").unwrap(), "1 m, 2 m");
    assert_eq!(written(text, "c"), None);
    let dotted = "[wall]\nbatter.inside = \"1:50\"\n\n[roof]\n";
    assert_eq!(
        set(dotted, "wall.batter.outside", "1:30"),
        dotted.replace("50\"\n", "50\"\nbatter.outside = \"1:30\"\n")
    );
    assert_eq!(remove(dotted, "wall.batter"), "[wall]\n\n[roof]\n");
}

#[test]
fn a_file_with_the_line_ends_of_another_system_keeps_them() {
    let text = PLAIN_RING.replace('\n', "\r\n");
    for new in [
        set(&text, "wall.trim", "8 %"),
        add(&text, "openings.pane", "kind = \"window\"\nrun = \"east\""),
        remove(&text, "openings.door"),
        set(&text, "crew.leads", "2"),
    ] {
        assert_eq!(new.matches('\n').count(), new.matches("\r\n").count());
        assert_ne!(new, text);
    }
}

#[test]
fn a_missing_table_is_written_where_one_would_look_for_it() {
    let ring = PLAIN_RING;
    let new = set(ring, "crew.placing", "0.2 m3");
    assert!(new.ends_with("\n\n[crew]\nplacing = \"0.2 m3\"\n"));
    let new = set(ring, "water.fabric.lap", "200 mm");
    assert!(new.contains("daylight = \"-1.45 m\"\n\n[water.fabric]\nlap") || new.contains("fabric = {"));
    let new = set(ring, "wall.top.slope", "1:8");
    assert!(new.contains("width = \"400 mm\" }\ntop = { slope = \"1:8\" }\n"));
    let new = set(ring, "wall.line.east.curve.leave", "[\"1 m\", \"0 m\"]");
    assert!(new.contains("\ncurve = { leave = [\"1 m\", \"0 m\"] }\n"));
    let said = refused(ring, Edit::Set { path: "wall.lifts.third.top".into(), to: "1 m".into() });
    assert!(said.contains("there is no entry `third` in `wall.lifts`"), "{said}");
}

#[test]
fn what_is_added_stands_beside_its_like_and_what_is_taken_out_takes_its_comment_along() {
    let text = TANSY_BANK;
    let window =
        "kind = \"window\"\nrun = \"back\"\nalong = \"1 m\"\nwidth = \"300 mm\"\nheight = \"300 mm\"\nsill = \"1 m\"";
    let new = add(text, "openings.small", window);
    assert!(new.contains(&format!("sill = \"1.1 m\"\n\n[openings.small]\n{window}\n\n[built-in.lamp-niche]")));
    assert!(remove(&new, "openings.small") == text);
    let new = add(text, "wall.lifts.cap", "top = \"2.1 m\"");
    assert!(new.contains("start = \"14 days\"\n\n[[wall.lifts]]\nname = \"cap\"\ntop = \"2.1 m\"\n\n[wall.bond-beam]"));
    assert!(remove(&new, "wall.lifts.cap") == text);
    let new = add(text, "site.trees.oak", "at = [\"9 m\", \"9 m\"]\ncrown = \"3 m\"");
    assert!(new.contains("\noak = { at = [\"9 m\", \"9 m\"], crown = \"3 m\" }\n\n[site.wells"));
    let new = add(text, "built-in.bottles.at.4", "run = \"west-end\"\nalong = \"1 m\"\nlevel = \"1 m\"");
    assert!(new.contains("level = \"1.44 m\" },\n    { run = \"west-end\", along = \"1 m\", level = \"1 m\" },\n]"));
    assert_eq!(written(&remove(&new, "built-in.bottles.at.4"), "built-in.bottles.at.3.level").unwrap(), "1.44 m");
    let gone = remove(text, "services.power");
    assert!(!gone.contains("comes up through the stem") && gone.contains("[services.air]"));
    // What is said above the first lift is said of all.
    let gone = remove(text, "wall.lifts.first");
    assert!(gone.contains("from the start of the first.\n[[wall.lifts]]\nname = \"sills\""));
    let said = refused(text, Edit::Add { path: "openings.door".into(), body: String::new() });
    assert!(said.contains("written already"), "{said}");
    let said = refused(text, Edit::Add { path: "openings.South Window".into(), body: String::new() });
    assert!(said.contains("is no name"), "{said}");
    let said = refused(text, Edit::Add { path: "openings.pane".into(), body: "= [".into() });
    assert!(said.contains("cannot be read"), "{said}");
    let said = refused(text, Edit::Remove { path: "openings.hatch".into() });
    assert!(said.contains("nothing is written there"), "{said}");
}

#[test]
fn every_table_that_is_taken_out_leaves_a_file_that_is_toml_with_all_other_values() {
    for text in texts() {
        let (values, tables) = paths(text);
        for table in tables {
            let gone = remove(text, &table);
            let (left, _) = paths(&gone);
            let inside = |path: &&String| !path.starts_with(&format!("{table}.")) && **path != table;
            // Parts of a list without names move up.
            if table.rsplit('.').next().unwrap().parse::<usize>().is_err() {
                assert_eq!(left, values.iter().filter(inside).cloned().collect::<Vec<_>>(), "{table}");
            }
        }
    }
}

#[test]
fn an_entry_moves_with_its_comment_and_back_to_the_byte() {
    let text = TANSY_BANK;
    let to = |text: &str, place: usize| changed(text, &Edit::Move { path: "wall.lifts.sills".into(), to: place });
    let moved = to(text, 4);
    let order: Vec<&str> =
        moved.split("[[wall.lifts]]\nname = \"").skip(1).map(|rest| rest.split('"').next().unwrap()).collect();
    assert_eq!(order, ["first", "third", "fourth", "heads", "sills", "last"]);
    assert!(moved.contains("name = \"sills\"                  # the sill of"));
    assert!(to(&moved, 1) == text);
    let said = refused(text, Edit::Move { path: "wall.lifts.sills".into(), to: 6 });
    assert!(said.contains("the list has 6 entries"), "{said}");
    let said = refused(text, Edit::Move { path: "openings.door".into(), to: 0 });
    assert!(said.contains("stands in no list"), "{said}");
}

#[test]
fn a_text_that_is_no_toml_is_refused_where_it_cannot_be_read() {
    let said = refused("a = [", Edit::Set { path: "a".into(), to: "1".into() });
    assert!(said.contains("cannot be read from here on"), "{said}");
    assert_eq!(written("a = [", "a"), None);
}

#[test]
fn a_length_is_written_in_the_unit_and_style_of_what_stood_there() {
    let metre = Length::m(2.4567);
    let inches = Length::inches(66.6);
    for (length, written, expected) in [
        (metre, "450 mm", "2460 mm"),
        (metre, "450mm", "2460mm"),
        (metre, "2 m", "2.46 m"),
        (Length::m(2.0), "2.5 m", "2.0 m"),
        (Length::m(3.0), "2 m", "3 m"),
        (Length::m(-0.004), "2 m", "0 m"),
        (-metre, "2.50 m", "-2.46 m"),
        (metre, "45 cm", "246 cm"),
        (metre, "", "2460 mm"),
        (inches, "18 in", "66 1/2 in"),
        (inches, "17.5 in", "66.5 in"),
        (inches, "5 ft 6 1/2 in", "5 ft 6 1/2 in"),
        (Length::ft(5.0), "5 ft 6 1/2 in", "5 ft"),
        (Length::inches(5.0), "5 ft 6 1/2 in", "5 in"),
        (-inches, "5'-6\"", "-5'-6 1/2\""),
        (Length::ZERO, "5 ft", "0 ft"),
        (inches, "18\"", "66 1/2\""),
    ] {
        assert_eq!(like(length, written, Step::Drag), expected, "as {written}");
        let back = Length::parse(expected).unwrap();
        assert!((back - length).abs() <= Step::Drag.length(written) * 0.5000001, "{expected}");
    }
    assert_eq!(like(metre, "450 mm", Step::Half), "2455 mm");
    assert_eq!(like(metre, "2 m", Step::Fine), "2.457 m");
    assert_eq!(like(inches, "5 ft", Step::Fine), "5 ft 6 5/8 in");
    assert_eq!(quoted("5' 6\"\\"), "\"5' 6\\\"\\\\\"");
}

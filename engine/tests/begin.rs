//! A first build of every shape stands, and its room is as large as it was asked to be.
#![allow(clippy::unwrap_used, clippy::panic, reason = "a test stops at the first surprise")]

#[path = "handles/line.rs"]
mod line;

use engine::answers::{Answers, Inputs, answers};
use engine::build::begin;
use engine::house::handles::On;
use engine::units::Length;
use kurbo::{Point, Rect};
use line::line;

const SHAPES: [&str; 4] = ["ring", "bean", "rounded", "free"];

fn answered(text: &str, what: &str) -> Answers {
    answers(&Inputs { build: text.as_bytes(), system: None })
        .unwrap_or_else(|problems| panic!("{what}: {}", problems.all()[0]))
}

/// What the line of the wall spans.
fn span(text: &str, answers: &Answers) -> Rect {
    let line = line(text, answers);
    let points: Vec<Point> = line.pieces().iter().flat_map(|piece| piece.flatten(1e-4)).collect();
    points.iter().fold(Rect::from_points(points[0], points[0]), |all, point| all.union_pt(*point))
}

#[test]
fn every_shape_stands_in_every_size_of_either_system_and_has_cob_batches_and_person_days() {
    let sizes =
        [("metric", "2.4 m", "2.4 m"), ("metric", "3 m", ""), ("metric", "4.2 m", "3 m"), ("metric", "6 m", "4 m")];
    let us = [("us", "9 ft", "9 ft"), ("us", "14 ft", "11 ft"), ("us", "20 ft", "14 ft")];
    for (system, length, width) in sizes.into_iter().chain(us) {
        for shape in SHAPES {
            let what = format!("{shape} of {length} by {width}");
            let text = begin(shape, length, width, "Wren house", system)
                .unwrap_or_else(|problems| panic!("{what}: {problems:?}"));
            assert!(!text.contains('@'), "{what} leaves a mark");
            let answers = answered(&text, &what);
            assert_eq!(answers.about.name, "Wren house");
            for row in ["wall.volume", "crew.raising", "earth.recipes.cob.batches"] {
                let found = answers.rows.find(row).and_then(|row| row.quantity.si());
                assert!(found.is_some_and(|value| value > 0.0), "{what}: no {row}");
            }
            let [long, wide] =
                [length, if width.is_empty() { length } else { width }].map(|side| Length::parse(side).unwrap().in_m());
            let thickness = answers.rows.find("wall.thickness").unwrap().quantity.si().unwrap();
            let middle = span(&text, &answers);
            for (drawn, inside) in [(middle.width(), long), (middle.height(), wide)] {
                // Each end is rounded to 10 mm or 1/2 in.
                let off = drawn - (inside + thickness);
                assert!(off.abs() < 0.015, "{what}: {off} m off");
            }
        }
    }
}

#[test]
fn whatever_size_a_first_build_takes_is_read_and_only_a_short_bean_or_a_narrow_free_line_has_no_room() {
    let metric = ["1.8 m", "2.4 m", "4.5 m", "6 m", "9 m"];
    let us = ["6 ft", "8 ft", "14 ft 9 in", "20 ft", "29 ft"];
    for (system, sizes) in [("metric", metric), ("us", us)] {
        for (length, width) in sizes.iter().flat_map(|length| sizes[..3].iter().map(move |width| (length, width))) {
            let [long, wide] = [length, width].map(|size| Length::parse(size).unwrap().in_m());
            for shape in SHAPES {
                let what = format!("{shape} of {length} by {width}");
                match begin(shape, length, width, "", system) {
                    Ok(text) => drop(answered(&text, &what)),
                    Err(problems) => {
                        assert_eq!(problems[0].message, "this shape has no room in so small a house", "{what}");
                        assert!(shape == "bean" && long < 3.0 || shape == "free" && long > 4.0 * wide, "{what}");
                    }
                }
            }
        }
    }
}

#[test]
fn a_door_and_a_window_of_a_first_build_have_lintels_and_its_words_say_that_nothing_checks_them() {
    for (system, height) in [("metric", "150 mm"), ("us", "6 in")] {
        let text = begin("rounded", "4 m", "3 m", "", system).unwrap();
        let answers = answered(&text, system);
        for opening in ["door", "window"] {
            let lintel = answers.rows.find(&format!("openings.{opening}.lintel.height")).unwrap();
            assert_eq!(lintel.quantity.si(), Some(Length::parse(height).unwrap().in_m()));
        }
        let before = |header: &str| &text[..text.find(header).unwrap()];
        let last = |text: &str| text.rsplit("\n\n").next().unwrap().replace("\n# ", " ");
        assert!(last(before("[poles]")).contains("Nothing here checks a pole"));
        assert!(last(before("[openings.door]")).contains("Nothing here checks a lintel"));
    }
}

#[test]
fn no_two_handles_of_a_first_plan_lie_on_each_other_and_corners_are_named_as_corners() {
    for (shape, size) in
        SHAPES.into_iter().flat_map(|shape| [("3 m", "2.4 m"), ("5 m", "3.6 m")].map(|size| (shape, size)))
    {
        let text = begin(shape, size.0, size.1, "", "metric").unwrap();
        let answers = answered(&text, shape);
        let whole = |id: &str| id.starts_with("wall.line.") || id.starts_with("openings.");
        let held: Vec<_> = answers
            .handles
            .iter()
            .filter(|held| held.on == On::Plan && whole(&held.id))
            .map(|held| (&held.id, held.at))
            .collect();
        for (place, (id, at)) in held.iter().enumerate() {
            for (other, beside) in &held[..place] {
                assert!(at.distance(*beside) > 0.1, "{shape}: {id} and {other}");
            }
        }
    }
    let text = begin("rounded", "5 m", "3.6 m", "", "metric").unwrap();
    for corner in ["south-west", "south-east", "north-east", "north-west"] {
        assert!(text.contains(&format!("name = \"{corner}\"")), "{corner}");
    }
}

#[test]
fn a_first_roof_says_that_what_bears_it_on_its_high_side_is_not_counted() {
    let text = begin("rounded", "5 m", "3.6 m", "", "metric").unwrap();
    let title = |answers: &Answers| answers.rows.find("roof.rise").unwrap().title.clone();
    let is_told = |answers: &Answers| answers.assumed.iter().any(|(path, ..)| *path == "roof.rise");
    let open = answered(&text, "rounded");
    assert!(title(&open).contains("not counted yet") && is_told(&open), "{}", title(&open));
    let filled = answered(&text.replace("[wall]\n", "[wall]\ngap = {}\n"), "with a gap that is filled");
    assert!(open.uncounted().next().unwrap().contains("not counted yet") && filled.uncounted().next().is_none());
    assert!(!title(&filled).contains("not counted yet") && !is_told(&filled), "{}", title(&filled));
}

#[test]
fn poles_lie_across_4_5_m_at_most() {
    let wide = |width: &str| begin("rounded", "6 m", width, "", "metric");
    assert!(wide("4.5 m").is_ok());
    let problem = &wide("4.51 m").unwrap_err()[0];
    assert_eq!(
        (problem.path.as_str(), problem.message.as_str()),
        ("width", "the poles of a first build do not lie across 4.51 m")
    );
    assert!(problem.hint.contains("our judgement"), "{}", problem.hint);
    assert_eq!(begin("ring", "6 m", "", "", "metric").unwrap_err()[0].path, "width");
}

#[test]
fn a_name_is_kept_as_it_was_typed() {
    let text = begin("ring", "3 m", "", "The \"@sill@\" house", "metric").unwrap();
    assert_eq!(answered(&text, "ring").about.name, "The \"@sill@\" house");
    let text = begin("ring", "3 m", "", " ", "metric").unwrap();
    assert_eq!(answered(&text, "ring").about.name, "My house");
}

#[test]
fn what_is_no_shape_no_size_and_no_system_is_refused_in_one_sentence() {
    for (given, said) in [
        (["cube", "3 m", "3 m", "metric"], "\"cube\" is no shape to begin with"),
        (["ring", "3 cubits", "3 m", "metric"], "\"3 cubits\": the unit \"cubits\" is not known"),
        (["ring", "3 m", "30 m", "metric"], "a room of 30 m is not one to begin with"),
        (["ring", "3 m", "3 m", "imperial"], "\"imperial\" is no system of units"),
    ] {
        let [shape, length, width, system] = given;
        let problem = &begin(shape, length, width, "", system).unwrap_err()[0];
        assert_eq!(problem.message, said);
        assert!(!problem.hint.is_empty());
    }
}

#[test]
fn a_bare_number_is_metres_or_feet_and_every_size_that_is_none_is_told_with_what_would_be_right() {
    assert_eq!(begin("bean", "5.4", "3.6", "", "metric"), begin("bean", "5.4 m", "3.6 m", "", "metric"));
    assert_eq!(begin("ring", "12", "", "", "us"), begin("ring", "12 ft", "", "", "us"));
    let problems = begin("bean", "5,4 m", "40", "", "metric").unwrap_err();
    let told: Vec<[&str; 2]> = problems.iter().map(|problem| [problem.path.as_str(), problem.hint.as_str()]).collect();
    let sizes = "write a size inside from 1.8 m to 9 m (6 ft to 29 ft)";
    assert_eq!(told, [["length", "write 5.4 m"], ["width", sizes]]);
}

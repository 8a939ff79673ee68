//! Drawings on a screen: no scale words, frames that hold still, doors that a finger can hit.
#![allow(clippy::unwrap_used, clippy::panic, reason = "a test stops at the first surprise")]

use engine::answers::{Answers, Inputs, answers, compute};
use engine::units::System;
use kurbo::Point;
use press::drawing::{
    Frame, Scaled, Standing, TARGET_MM, elevation, exploded, first_shape, first_shape_held, plan, plan_held, recipes,
    section, section_held, unrolled, unrolled_held, way, way_upright,
};
use press::paper::Paper;

const BUILDS: [(&str, &str); 5] = [
    ("tansy-bank", include_str!("../../builds/tansy-bank/tansy-bank.loam.toml")),
    ("burdock-rise", include_str!("../../builds/burdock-rise/burdock-rise.loam.toml")),
    ("plain-ring", include_str!("../../builds/plain-ring/plain-ring.loam.toml")),
    ("quince-hut", include_str!("../../builds/quince-hut/quince-hut.loam.toml")),
    ("spiral-wall", include_str!("../../builds/spiral-wall/spiral-wall.loam.toml")),
];
const STATES: [Standing<'_>; 7] = [
    ("ground", "2 checks not known", "not known"),
    ("walls", "2 fail", "fails"),
    ("earth", "136 batches", "on trust"),
    ("skin", "14 mm inside", "holds"),
    ("roof", "9.86 t when wet", "tight"),
    ("stuff", "41 things to order", "holds"),
    ("book", "93 pages", ""),
];

fn answered(text: &str) -> Answers {
    answers(&Inputs { build: text.as_bytes(), system: None }).unwrap_or_else(|problems| panic!("{}", problems.all()[0]))
}

fn screen(width_px: f64, height_px: f64) -> Paper {
    let [width_mm, height_mm] = [width_px, height_px].map(|px| px * 25.4 / 96.0);
    Paper::Screen { width_mm, height_mm }
}

type Draw = fn(&Answers, Paper) -> Scaled;
type Hold = fn(&Answers, &Frame) -> Scaled;

/// What can be drawn in a held frame.
const HELD: [(&str, Draw, Hold); 4] = [
    ("plan", plan, plan_held),
    ("section", section, section_held),
    ("unrolled", unrolled, unrolled_held),
    ("first shape", first_shape, first_shape_held),
];

#[test]
fn a_screen_has_no_words_of_scale_and_its_bar_is_true() {
    for (name, text) in BUILDS {
        let answers = answered(text);
        for (drawing, draw, _) in HELD {
            let medium = screen(820.0, 700.0);
            let scaled = draw(&answers, medium);
            let svg = scaled.svg.to_string();
            assert!(scaled.scale.is_empty() && !svg.contains("= 1 ft") && !svg.contains(">1:"), "{name}: {drawing}");
            let [width, height] = medium.size_mm();
            assert!(scaled.svg.width_mm() <= width && scaled.svg.height_mm() <= height, "{name}: {drawing}");
            let step = svg.split("<rect ").find(|rect| rect.contains("height=\"1.4\"")).unwrap();
            let step: f64 = step.split("width=\"").nth(1).unwrap().split('"').next().unwrap().parse().unwrap();
            let metre = scaled.frame.at(Point::new(1.0, 0.0), 0)[0] - scaled.frame.at(Point::ORIGIN, 0)[0];
            let steps = [0.25, 0.5, 1.0, 5.0, 0.3048, 4.0 * 0.3048, 10.0 * 0.3048];
            assert!(
                steps.iter().any(|known| (step - known * metre).abs() < 0.01),
                "{name}: {drawing}, {step} and {metre}"
            );
        }
    }
}

#[test]
fn the_first_shape_says_that_its_sizes_are_over_all_and_names_its_gaps() {
    for shape in ["ring", "bean", "rounded", "free"] {
        let answers = answered(&engine::build::begin(shape, "5 m", "3.6 m", "", "metric").unwrap());
        for medium in [screen(1440.0, 800.0), screen(390.0, 700.0)] {
            let svg = first_shape(&answers, medium).svg.to_string();
            assert_eq!(svg.matches(" over all<").count(), 2, "{shape}");
            for gap in [">door<", ">window<"] {
                assert!(svg.contains(gap), "{shape}: no {gap}");
            }
        }
    }
}

#[test]
fn parts_pulled_apart_have_numbers_and_a_key_where_names_would_take_the_width() {
    for (name, text) in BUILDS {
        let computed = compute(&Inputs { build: text.as_bytes(), system: None }).unwrap();
        let (pictures, answers) = (computed.pictures(), computed.into_answers());
        let groups = pictures.exploded.groups.len();
        let narrow = exploded(&answers, &pictures.exploded, screen(390.0, 700.0));
        assert!(narrow.key.is_empty(), "{name}: {:?}", narrow.key);
        let svg = narrow.svg.to_string();
        for number in 1..=groups {
            assert!(svg.contains(&format!(">{number}<")) && svg.contains(&format!(">{number} ")), "{name}: {number}");
        }
        let marks = || pictures.exploded.groups.iter().map(|group| narrow.frame.at(group.at, 0)[1]);
        let high = marks().fold(f64::MIN, f64::max) - marks().fold(f64::MAX, f64::min);
        assert!(high > 45.0, "{name}: a stamp of {high} mm");
    }
}

#[test]
fn words_of_levels_stand_in_one_column_beside_the_house_on_paper_and_on_a_phone_too() {
    for (name, text) in BUILDS {
        let computed = compute(&Inputs { build: text.as_bytes(), system: None }).unwrap();
        let (pictures, answers) = (computed.pictures(), computed.into_answers());
        let screens = [351.0, 390.0, 820.0].map(|wide| screen(wide, 700.0));
        for medium in screens.into_iter().chain([Paper::of(System::Metric), Paper::of(System::Us)]) {
            let sides = pictures.elevations.iter();
            let sides = sides.map(|side| (side.name, &side.section.levels, elevation(&answers, side, medium)));
            let round = (name, &answers.unrolled.levels, unrolled(&answers, medium));
            for (seen, levels, drawn) in sides.chain([round]) {
                let svg = drawn.svg.to_string();
                let begins = levels.iter().map(|level| {
                    let words = format!(" {}</text>", level.name.replace('-', " "));
                    let tag = svg.split(&words).next().unwrap().rsplit("<text").next().unwrap();
                    number(tag, "x")
                });
                let begins: Vec<f64> = begins.collect();
                let apart = begins.iter().fold(0.0_f64, |apart, x| apart.max((x - begins[0]).abs()));
                assert!(apart < 0.2, "{name}, {seen}: {begins:?}");
            }
        }
    }
}

#[test]
fn the_plan_on_a_screen_shows_who_has_room_and_on_paper_it_does_not() {
    let answers = answered(&engine::build::begin("bean", "5 m", "3.6 m", "", "metric").unwrap());
    assert!(plan(&answers, screen(1440.0, 800.0)).svg.to_string().contains("someone standing"));
    assert!(!plan(&answers, Paper::A4).svg.to_string().contains("someone standing"));
}

#[test]
fn a_house_drawn_in_its_own_frame_comes_out_the_same() {
    for (name, text) in BUILDS {
        let answers = answered(text);
        for (drawing, draw, hold) in HELD {
            for medium in [screen(1440.0, 800.0), screen(390.0, 700.0), Paper::A4] {
                let scaled = draw(&answers, medium);
                let held = hold(&answers, &scaled.frame);
                assert_eq!(scaled.svg, held.svg, "{name}: {drawing} on {medium:?}");
            }
        }
    }
}

#[test]
fn what_did_not_change_stays_where_it_was_in_a_held_frame() {
    let text = BUILDS[2].1;
    assert!(text.contains("height = \"2.0 m\"") || text.contains("height = \"2 m\""), "the ring is 2 m high");
    let taller = text.replacen("height = \"2.0 m\"", "height = \"2.4 m\"", 1).replacen(
        "height = \"2 m\"",
        "height = \"2.4 m\"",
        1,
    );
    let (before, after) = (answered(text), answered(&taller));
    let scaled = section(&before, screen(820.0, 500.0));
    let held = section_held(&after, &scaled.frame);
    let trench = |svg: String| {
        let path = svg.split("<path ").find(|path| path.contains("data-path=\"water.trench\"")).unwrap().to_owned();
        path.split('>').next().unwrap().to_owned()
    };
    assert_eq!(trench(scaled.svg.to_string()), trench(held.svg.to_string()));
    assert_ne!(trench(section(&after, screen(820.0, 500.0)).svg.to_string()), trench(scaled.svg.to_string()));
}

#[test]
fn a_place_on_the_screen_leads_back_to_the_house_in_both_rows() {
    let answers = answered(BUILDS[0].1);
    let frame = unrolled(&answers, screen(820.0, 700.0)).frame;
    assert_eq!(frame.rows(), 2);
    for (row, section) in answers.unrolled_rows.iter().enumerate() {
        for place in &section.places {
            let (found, point) = frame.house(frame.at(place.at, row));
            assert!(found == row && point.distance(place.at) < 1e-9, "{} in row {row}", place.name);
        }
    }
}

/// The numbers of an attribute of a tag.
fn number(tag: &str, attribute: &str) -> f64 {
    tag.split(&format!(" {attribute}=\"")).nth(1).unwrap().split('"').next().unwrap().parse().unwrap()
}

#[test]
fn every_door_is_a_link_with_a_title_and_its_words_and_a_finger_can_hit_it() {
    for (name, text) in BUILDS {
        let answers = answered(text);
        for (scaled, least) in [
            (way(&answers, screen(1440.0, 800.0), &STATES), 0.0),
            (way_upright(&answers, screen(390.0, 844.0), &STATES), TARGET_MM),
        ] {
            let svg = scaled.svg.to_string();
            for (leaf, words, _) in STATES {
                let open = format!("<a href=\"#{leaf}\" data-leaf=\"{leaf}\">");
                let link = svg.split(&open).nth(1).unwrap_or_else(|| panic!("{name}: no door to {leaf}"));
                let link = link.split("</a>").next().unwrap();
                let first = words.split(' ').next().unwrap();
                assert!(link.contains("<title>") && link.contains(first), "{name}: {leaf}");
                let hit = link.split("<rect ").skip(1).filter(|rect| rect.contains("pointer-events=\"all\""));
                let [width, height] = hit.fold([0.0_f64; 2], |[width, height], rect| {
                    let tag = format!(" {rect}");
                    [width.max(number(&tag, "width")), height.max(number(&tag, "height"))]
                });
                assert!(width >= least && height >= least - 0.005, "{name}: {leaf} is {width} by {height}");
            }
        }
    }
}

#[test]
fn a_leaf_that_is_not_asked_for_has_no_door() {
    let answers = answered(BUILDS[4].1);
    let svg = way(&answers, screen(1200.0, 700.0), &STATES[..2]).svg.to_string();
    assert_eq!(svg.matches("<a ").count(), 2);
    assert!(!svg.contains("#roof") && !svg.contains("#earth"));
}

#[test]
fn recipes_come_as_wide_as_the_screen_the_walls_first() {
    let answers = answered(BUILDS[0].1);
    let drawn = recipes(&answers, screen(390.0, 844.0));
    assert_eq!(drawn.first().map(|(name, _)| name.as_str()), answers.recipes.first().map(String::as_str));
    assert!(drawn.iter().all(|(_, svg)| (svg.width_mm() - 390.0 * 25.4 / 96.0).abs() < 1e-9));
}

#[test]
fn a_window_too_small_for_any_drawing_still_gets_one() {
    for (name, text) in BUILDS {
        let answers = answered(text);
        for medium in [screen(40.0, 30.0), screen(200.0, 2000.0), screen(3000.0, 120.0)] {
            let drawn = HELD.map(|(_, draw, _)| draw(&answers, medium));
            let ways = [way(&answers, medium, &STATES), way_upright(&answers, medium, &STATES)];
            for scaled in drawn.iter().chain(&ways) {
                let svg = scaled.svg.to_string();
                assert!(
                    svg.ends_with("</svg>\n") && !svg.contains("NaN") && !svg.contains("inf"),
                    "{name} on {medium:?}"
                );
            }
        }
    }
}

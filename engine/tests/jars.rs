//! Jars of soil in a build file: when to mark them, what their layers say by hand, and what two of them say together.
#![allow(clippy::unwrap_used, clippy::panic, reason = "a test stops at the first surprise")]

use engine::answers::{Answers, Inputs, answers};

const TANSY: &str = include_str!("../../builds/tansy-bank/tansy-bank.loam.toml");
const BURDOCK: &str = include_str!("../../builds/burdock-rise/burdock-rise.loam.toml");

fn answered(text: &str) -> Answers {
    answers(&Inputs { build: text.as_bytes(), system: None }).unwrap_or_else(|problems| panic!("{}", problems.all()[0]))
}

fn changed(text: &str, from: &str, to: &str) -> String {
    let new = text.replace(from, to);
    assert_ne!(new, text, "{from} is not in the build");
    new
}

fn value(answers: &Answers, path: &str) -> f64 {
    answers.rows.find(path).unwrap_or_else(|| panic!("{path} is no row")).quantity.si().unwrap()
}

fn title<'a>(answers: &'a Answers, path: &str) -> &'a str {
    &answers.rows.find(path).unwrap_or_else(|| panic!("{path} is no row")).title
}

/// A build without what stands from one header to another.
fn without(text: &str, from: &str, to: &str) -> String {
    let [from, to] = [from, to].map(|header| text.find(header).unwrap());
    format!("{}{}", &text[..from], &text[to..])
}

#[track_caller]
fn near(found: f64, expected: f64, within: f64) {
    assert!((found - expected).abs() <= within, "{found} is not {expected}");
}

/// By hand with 1.0526e-3 Pa s and 998.6 kg/m³ at 18 °C, as handbooks of physics print them, from memory: 18 · 1.0526e-3 · 0.18 /
/// (9.80665 · 1651.4 · d²) is 84.2 s for 0.05 mm and 14.62 h for 0.002 mm.
#[test]
fn a_jar_is_marked_when_its_sand_and_when_its_silt_are_down() {
    let answers = answered(TANSY);
    near(value(&answers, "tests.jars.first.mark-sand") * 86_400.0, 84.2, 0.2);
    near(value(&answers, "tests.jars.first.mark-silt") * 24.0, 14.62, 0.04);
    let warm = answered(&changed(
        TANSY,
        "water = \"18 °C\"\ndispersed = true      ",
        "water = \"28 °C\"\ndispersed = true      ",
    ));
    assert!(value(&warm, "tests.jars.first.mark-silt") < 0.85 * value(&answers, "tests.jars.first.mark-silt"));
}

/// By hand: clay 46 mm · 400 over itself and 35 · 1700 + 23 · 1500 is 0.1637; 46 · 1000 over itself and 35 · 1400 + 23 · 1100 is 0.3824,
/// and with half of the greatest silt, 23 · 1500 over itself and 35 · 1400 + 46 · 400, it is 0.5517; the least silt is halved.
#[test]
fn layers_are_shares_within_a_band_and_crumbs_of_clay_widen_it() {
    let crumbs = changed(TANSY, "dispersed = true                # a spoon of washing soda\n", "");
    let answers = answered(&crumbs);
    let of = |noun: &str| value(&answers, &format!("tests.jars.first.{noun}"));
    near(of("clay-low"), 0.163_701, 1e-6);
    near(of("as-settled.clay-high"), 0.382_377, 1e-6);
    near(of("clay-high"), 0.551_661, 1e-6);
    near(of("silt-low"), 0.193_425 / 2.0, 1e-6);
    near(of("sand-high"), 0.576_550, 1e-6);
    let row = answers.rows.find("tests.jars.first.clay-high").unwrap();
    assert_eq!(row.origin_in_words(), "computed, leans on our judgement");
    let dispersed = answered(TANSY);
    near(value(&dispersed, "tests.jars.first.clay-high"), 0.382_377, 1e-6);
    assert!(dispersed.rows.find("tests.jars.first.crumbs").is_none());
}

/// By hand: sand is down after 1.3666 min, 31 mm + 8 mm · ln 1.3666 / ln 3; silt after 14.235 h, 56 mm + 1 mm · ln (14.235 / 12) /
/// ln (20 / 12).
#[test]
fn readings_before_and_after_a_mark_say_where_a_layer_ends() {
    let answers = answered(TANSY);
    let of = |noun: &str| value(&answers, &format!("tests.jars.second.{noun}"));
    near(of("top.sand"), 0.033_274, 1e-6);
    near(of("top.silt"), 0.056_334, 1e-6);
    near(of("layers.clay"), 0.104 - 0.056_334, 1e-6);
    near(of("clay-high"), 0.398_490, 1e-6);
}

/// The demo's jar has a reading that cannot be: 46 mm after 14 hours, 56 mm after 12.
#[test]
fn a_reading_that_is_set_aside_is_told_and_moves_nothing_and_is_refused_where_it_is_not() {
    let aside = ", aside = \"lower than before, which cannot be: read by a lamp\"";
    let line = format!("dusk = {{ after = \"14 hours\", height = \"46 mm\"{aside} }}\n");
    let [with, without] = [TANSY.to_owned(), changed(TANSY, &line, "")].map(|text| answered(&text));
    for noun in ["top.sand", "top.silt", "layers.clay", "clay-low", "clay-high"] {
        let path = format!("tests.jars.second.{noun}");
        assert_eq!(value(&with, &path).to_bits(), value(&without, &path).to_bits(), "{path}");
    }
    assert!(title(&with, "tests.jars.second.readings.dusk.height").ends_with(": read by a lamp"));
    let used = changed(TANSY, aside, "");
    let refused = answers(&Inputs { build: used.as_bytes(), system: None }).unwrap_err();
    assert!(refused.all()[0].message.contains("46 mm after 14 hours, lower than 56 mm after 12 hours"));
}

#[test]
fn a_jar_that_still_settles_says_how_long_and_no_shares() {
    let text = changed(
        TANSY,
        "e = { after = \"20 hours\", height = \"57 mm\" }\nf = { after = \"4 days\", height = \"104 mm\" }\n",
        "",
    );
    let answers = answered(&text);
    near(value(&answers, "tests.jars.second.still-to-stand") * 24.0, 2.235, 0.01);
    assert!(answers.rows.find("tests.jars.second.clay-low").is_none());
    assert_eq!(value(&answers, "tests.soils.soil.jars-to-shake"), 1.0);
}

#[test]
fn two_jars_say_how_far_they_lie_apart_and_one_asks_for_a_second() {
    let two = answered(TANSY);
    assert_eq!([value(&two, "tests.soils.soil.jars"), value(&two, "tests.soils.soil.jars-to-shake")], [2.0, 0.0]);
    let middle = |jar: &str| value(&two, &format!("tests.jars.{jar}.clay-middle"));
    let apart = middle("second") - middle("first");
    near(value(&two, "tests.soils.soil.clay-spread"), apart, 1e-12);
    assert!(apart > 0.01);
    // Without the grading, which weighs what a jar shows by volume.
    let alone = answered(&without(TANSY, "[tests.gradings.laboratory]", "[tests.limits.laboratory]"));
    near(value(&alone, "tests.soils.soil.clay-low"), 0.163_701, 1e-6);
    near(value(&alone, "tests.soils.soil.clay-high"), 0.398_490, 1e-6);
    assert!(title(&two, "tests.soils.soil.jars").contains("alone never sets a mix"));
    let one = answered(BURDOCK);
    assert_eq!(value(&one, "tests.soils.clay-soil.jars-to-shake"), 1.0);
    assert!(one.rows.find("tests.soils.clay-soil.clay-spread").is_none());
}

/// By hand: 1 in, 3/4 in and 2 1/4 in have 24.2 to 50.3 % of clay, and with half of 32.8 % of silt up to 66.7 %; 38 % stands in the build
/// file.
#[test]
fn clay_as_it_is_written_stands_beside_what_the_jar_says() {
    let answers = answered(&without(BURDOCK, "[tests.gradings.college]", "[tests.moisture.bucket]"));
    near(value(&answers, "tests.soils.clay-soil.clay-low"), 0.241_611, 1e-6);
    near(value(&answers, "tests.soils.clay-soil.clay-high"), 0.667_027, 1e-6);
    near(value(&answers, "tests.soils.clay-soil.clay-over-tested"), 0.38 - 0.454_319, 1e-6);
    assert!(title(&answers, "tests.soils.clay-soil.clay-over-tested").contains("with which everything is computed"));
    let classes = title(&answers, "tests.soils.clay-soil.classes");
    assert!(classes.contains("clay loam") && !classes.contains("loamy sand"), "{classes}");
}

//! Gradings, limits and sand to add in a build file: their rows by hand, which test is believed, and what no sand brings.
#![allow(clippy::unwrap_used, clippy::panic, reason = "a test stops at the first surprise")]

mod demos;

use demos::{answered, value};
use engine::answers::{Answers, Inputs, answers};
use engine::units::System;

const TANSY: &str = include_str!("../../builds/tansy-bank/tansy-bank.loam.toml");

/// Without it the curve does not reach clay.
const LAST_READING: &str = "f = { after = \"24 hours\", reading = 20, water = \"19 °C\" }\n";

fn refused(text: &str) -> String {
    let Err(problems) = answers(&Inputs { build: text.as_bytes(), system: None }) else { panic!("it is taken") };
    problems.all()[0].to_string()
}

fn changed(from: &str, to: &str) -> String {
    demos::changed(TANSY, from, to)
}

fn title<'a>(answers: &'a Answers, path: &str) -> &'a str {
    &answers.rows.find(path).unwrap_or_else(|| panic!("{path} is no row")).title
}

#[track_caller]
fn near(found: f64, expected: f64, within: f64) {
    assert!((found - expected).abs() <= within, "{found} is not {expected}");
}

/// By hand: read 22.5 after 250 minutes at 20 °C and 20 after 24 hours at 19 °C, 5 in clear water, 50 g of 2680 kg/m³: 30.615 % are finer
/// than 3.134 µm and 25.717 % than 1.345 µm; under 0.002 mm 25.717 + 4.898 ln 1.487 / ln 2.330 = 28.015 %; under 0.05 mm, 52.483 + 3.517 ln
/// 1.0961 / ln 1.3811 = 53.483 %; under 0.425 mm, 56 + 21 log 6.746 = 73.410 %; under 2 mm, 88 %; of that 31.835 % are clay, 28.940 % silt and
/// 39.224 % sand, a clay loam; off by √2 · 0.994 / 50 = 2.811 % by its readings, and 3 % as laboratories lie apart. Of the mix that packs densest under 8 mm, half passes 2 mm.
#[test]
fn a_grading_says_sand_silt_and_clay_of_what_is_under_two_millimetres() {
    let answers = answered(TANSY);
    let of = |noun: &str| value(&answers, &format!("tests.gradings.laboratory.{noun}"));
    near(of("finer.fine"), 0.734_10, 1e-5);
    near(of("hydrometer.readings.f.size") * 1e6, 1.345, 1e-3);
    near(of("clay"), 0.318_35, 1e-5);
    near(of("silt"), 0.289_40, 1e-5);
    near(of("sand") + of("silt") + of("clay"), 1.0, 1e-12);
    near(of("error-read"), 0.028_11, 1e-5);
    near(of("clay-low"), 0.318_35 - 0.03, 1e-5);
    near(of("sieves.e.densest"), 0.5, 1e-12);
    near(of("sieves.e.densest-angular"), 0.25f64.powf(0.45), 1e-12);
    near(of("sieves.e.over-densest"), 0.38, 1e-12);
    assert!(title(&answers, "tests.soils.soil.classes").contains("(clay loam)"));
    near(value(&answers, "tests.soils.soil.clay"), 0.318_35, 1e-5);
    near(value(&answers, "tests.soils.soil.clay-over-tested"), 0.31 - 0.318_35, 1e-5);
}

#[test]
fn sieves_and_grains_are_in_millimetres_on_pages_in_feet_too() {
    let answers = answers(&Inputs { build: TANSY.as_bytes(), system: Some(System::Us) }).unwrap();
    let shown = |noun: &str| answers.rows.find(&format!("tests.gradings.laboratory.{noun}")).unwrap().shown(System::Us);
    assert_eq!([shown("sieves.d.size"), shown("largest")], ["0.63 mm", "8 mm"]);
}

#[test]
fn sieves_alone_say_no_clay_and_then_the_jars_do() {
    let sieves = changed(LAST_READING, "");
    let answers = answered(&sieves);
    assert!(answers.rows.find("tests.gradings.laboratory.clay").is_none());
    let (_, words) = answers.rows.unknown("tests.gradings.laboratory.clay").next().unwrap();
    assert!(words.contains("read a hydrometer"), "{words}");
    assert!(title(&answers, "tests.soils.soil.clay").contains("its jars"));
}

/// By hand: d10 of a sand whose sieves 0.1 and 0.4 mm pass 5 and 35 % is 0.1 · 4^(1/6) = 0.12599 mm; d30 0.1 · 4^(5/6) = 0.31748 mm; d60,
/// between 0.4 and 1.6 mm with 35 and 75 %, 0.4 · 4^(5/8) = 0.95137 mm; Cu 7.551, Cc 0.8409.
#[test]
fn the_spread_of_a_sand_is_that_of_its_tenth_three_tenths_and_six_tenths() {
    let sand = "[tests.gradings.pit]\nof = \"sand\"\nsieves = { a = { size = \"0.1 mm\", passing = \"5 %\" }, \
                b = { size = \"0.4 mm\", passing = \"35 %\" }, c = { size = \"1.6 mm\", passing = \"75 %\" }, \
                d = { size = \"4 mm\", passing = \"100 %\" } }\n\n[tests.limits.laboratory]";
    let answers = answered(&changed("[tests.limits.laboratory]", sand));
    let of = |noun: &str| value(&answers, &format!("tests.gradings.pit.{noun}"));
    near(of("d10") * 1000.0, 0.125_99, 1e-5);
    near(of("uniformity"), 7.551, 1e-3);
    near(of("curvature"), 0.8409, 1e-4);
}

/// By hand: PI 36 − 18 = 18 %; A-line 0.73 · 16 = 11.68 %; U-line 0.9 · 28 = 25.2 %: a clay of low plasticity.
#[test]
fn limits_lie_on_the_chart_and_name_the_fine_part() {
    let answers = answered(TANSY);
    let of = |noun: &str| value(&answers, &format!("tests.limits.laboratory.{noun}"));
    near(of("index"), 0.18, 1e-12);
    near(of("over-a-line"), 0.18 - 0.1168, 1e-12);
    near(of("under-u-line"), 0.252 - 0.18, 1e-12);
    assert!(title(&answers, "tests.limits.laboratory.over-a-line").contains("called CL,"));
    let told = refused(&changed("plastic = \"18 %\"", "plastic = \"9 %\""));
    assert!(told.contains("27.0 % lies above the U-line, which has 25.2 %"), "{told}");
}

/// By hand: (31.835 − 18) / (18 − 1) = 0.8138 for each mass of soil; off by √((3 / 17)² + (0.8138 · 1 / 17)²) = 0.1828; buckets by
/// 1180 and 1590 / 1.28 = 1242.2 kg/m³, 0.7731.
#[test]
fn sand_to_add_carries_what_is_not_known_of_the_clay() {
    let answers = answered(TANSY);
    let of = |noun: &str| value(&answers, &format!("tests.sand-to-add.cob.{noun}"));
    near(of("dry"), 0.8138, 1e-4);
    near(of("error"), 0.1828, 1e-4);
    near(of("low"), 0.8138 - 0.1828, 2e-4);
    near(of("buckets"), 0.7731, 1e-4);
    // A jar knows the clay far less well, and says so.
    let jars = answered(&changed(LAST_READING, ""));
    assert!(value(&jars, "tests.sand-to-add.cob.error") > 3.0 * of("error"));
}

#[test]
fn no_sand_brings_clay_that_the_soil_does_not_have() {
    let rich = answered(&changed("sand = \"sand\"\nclay = \"18 %\"", "sand = \"sand\"\nclay = \"40 %\""));
    near(value(&rich, "tests.sand-to-add.cob.lacking"), 0.4 - 0.318_35, 1e-5);
    assert!(rich.rows.find("tests.sand-to-add.cob.dry").is_none());
}

/// By hand: √2 · 1 · 0.994 / 50 = 2.8 % of what was in the water, of two readings; laboratories lie 3 % apart.
#[test]
fn a_reading_that_rises_by_less_than_it_may_be_off_is_taken_for_the_one_before_and_the_larger_error_counts() {
    let answers =
        answered(&changed("d = { after = \"60 min\", reading = 25 }", "d = { after = \"60 min\", reading = 30 }"));
    let finer = |answers: &Answers, noun: &str| {
        value(answers, &format!("tests.gradings.laboratory.hydrometer.readings.{noun}"))
    };
    assert!(finer(&answers, "d.finer-read") > finer(&answers, "c.finer"));
    near(finer(&answers, "d.finer"), finer(&answers, "c.finer"), 1e-12);
    let lower = answered(&changed(
        "c = { size = \"0.063 mm\", passing = \"56 %\" }",
        "c = { size = \"0.063 mm\", passing = \"51 %\" }",
    ));
    near(finer(&lower, "a.finer"), 0.51, 1e-12);
    let error = |text: &str| {
        let answers = answered(text);
        let own = |noun: &str| value(&answers, &format!("tests.gradings.laboratory.{noun}"));
        (own("clay-high") - own("clay"), answers.rows.find("tests.gradings.laboratory.error-read").is_some())
    };
    let (least, is_by_laboratories) = error(TANSY);
    near(least, 0.03, 1e-12);
    let (more, is_by_readings) = error(&changed("off = 1\n", "off = 2\n"));
    near(more, 2.0_f64.sqrt() * 2.0 * 0.994 / 50.0, 1e-12);
    assert!(is_by_laboratories && !is_by_readings);
}

/// By hand: 912 g wet and 800 g dry is 14 %; 160 mm damp and 125 mm flooded is 1.28; a struck bucket of 14 L with 19 kg in it is
/// 19 / (0.014 · 1.14) = 1190.5 kg/m³, of which the 1180 that are written lack 0.88 %.
#[test]
fn a_pile_that_says_nothing_is_as_its_tests_say_and_what_is_written_stays() {
    let answers = answered(TANSY);
    let of = |path: &str| value(&answers, path);
    near(of("earth.ingredients.soil.moisture"), 0.14, 1e-12);
    near(of("earth.ingredients.sand.bulking"), 1.28, 1e-12);
    near(of("tests.weighings.soil.loose-density"), 1190.476, 1e-3);
    near(of("tests.weighings.soil.over-weighed"), 1180.0 / 1190.476 - 1.0, 1e-6);
    let behind = &answers.rows.find("earth.ingredients.soil.moisture").unwrap().reason.inputs;
    assert_eq!(behind[0].path, "tests.moisture.under-the-sheet.moisture");
    // Wetter soil brings more water, and less is added.
    let wetter = answered(&changed("wet = \"912 g\"", "wet = \"928 g\""));
    assert!(value(&wetter, "earth.recipes.cob.water-mass") < of("earth.recipes.cob.water-mass"));
    // Sand that bulks less is more sand in the same buckets.
    let less = answered(&changed("damp = \"160 mm\"", "damp = \"150 mm\""));
    assert!(value(&less, "earth.recipes.cob.settled.sand") > of("earth.recipes.cob.settled.sand"));
    assert!(value(&less, "wall.cob.clay") < of("wall.cob.clay"));
    let written = answered(&changed("clay = \"31 %\"", "moisture = \"12 %\"\nclay = \"31 %\""));
    near(value(&written, "earth.ingredients.soil.moisture"), 0.12, 1e-12);
    near(value(&written, "tests.moisture.under-the-sheet.over-tested"), -0.02, 1e-12);
}

/// By hand: 912 g of 800 g is 14 %, 864 g of 800 g 8 %, 880 g of 800 g 10 %.
#[test]
fn of_several_tests_of_one_pile_the_newest_stand_and_each_is_held_against_what_is_written() {
    let test = |name: &str, day: &str, wet: u32| {
        format!("[tests.moisture.{name}]\nof = \"soil\"\n{day}wet = \"{wet} g\"\ndry = \"800 g\"\n\n")
    };
    let more =
        [test("june", "day = 2027-06-01\n", 864), test("again", "day = 2027-06-01\n", 880), test("undated", "", 900)];
    let text = changed("[tests.bulking.jam-jar]", &format!("{}[tests.bulking.jam-jar]", more.concat()));
    let answers = answered(&text);
    near(value(&answers, "earth.ingredients.soil.moisture"), 0.09, 1e-12);
    assert!(title(&answers, "tests.moisture.under-the-sheet.moisture").contains("not of the newest day: only told"));
    assert!(title(&answers, "tests.moisture.undated.moisture").contains("only told"));
    assert!(!title(&answers, "tests.moisture.june.moisture").contains("only told"));
    let text = text.replacen("clay = \"31 %\"", "moisture = \"12 %\"\nclay = \"31 %\"", 1);
    let answers = answered(&text);
    for (name, over) in [("under-the-sheet", -0.02), ("june", 0.04), ("again", 0.02), ("undated", -0.005)] {
        near(value(&answers, &format!("tests.moisture.{name}.over-tested")), over, 1e-12);
    }
}

#[test]
fn a_ribbon_names_classes_and_clay_and_a_dropped_ball_says_what_it_is() {
    let answers = answered(TANSY);
    let of = |noun: &str| value(&answers, &format!("tests.feel.bank.{noun}"));
    assert!(title(&answers, "tests.feel.bank.classes").contains("(sandy clay loam, clay loam, silty clay loam)"));
    near(of("clay-low"), 0.2, 1e-9);
    near(of("clay-high"), 0.4, 1e-9);
    near(of("clay-within"), 0.4 - 0.318_35, 1e-5);
    near(of("flattened"), 1.0 - 47.0 / 60.0, 1e-12);
    assert!(title(&answers, "tests.feel.bank.flattened").contains("near right"));
    let lean = answered(&changed("ribbon = \"42 mm\"", "ribbon = \"18 mm\""));
    assert!(value(&lean, "tests.feel.bank.clay-within") < 0.0, "a short ribbon and much clay cannot both be right");
    let dry = answered(&changed("pieces = 1", "pieces = 6"));
    assert!(title(&dry, "tests.feel.bank.flattened").contains("too dry, or too lean"));
    let unfelt = answered(&changed("ribbon = \"42 mm\"\n", ""));
    assert!(unfelt.rows.unknown("tests.feel.bank.classes").next().unwrap().1.contains("press a ribbon"));
}

#[test]
fn a_hydrometer_joins_the_sieves_and_says_where_it_lies_above_them() {
    let told =
        refused(&changed("d = { after = \"60 min\", reading = 25 }", "d = { after = \"60 min\", reading = 32 }"));
    assert!(told.contains("corrected, 27.00 after 60 min is more than 24.00 after 15 min"), "{told}");
    let told = refused(&changed(
        "c = { size = \"0.063 mm\", passing = \"56 %\" }",
        "c = { size = \"0.063 mm\", passing = \"49 %\" }",
    ));
    assert!(told.contains("49.0 % is finer than 0.063 mm, and 52.5 % finer than 0.0456 mm"), "{told}");
    // By hand: two readings of one division lie 2.47 % of the whole apart, and 2.81 % of what is under 2 mm.
    let written = |error: &str| {
        changed("[tests.gradings.laboratory]\n", &format!("[tests.gradings.laboratory]\nerror = \"{error}\"\n"))
    };
    let told = refused(&written("2.6 %"));
    assert!(told.contains("the readings of this grading may be off by more"), "{told}");
    near(value(&answered(&written("2.9 %")), "tests.gradings.laboratory.error"), 0.029, 1e-12);
    // What a laboratory says of itself holds beside a sieve as well.
    let finer = written("4 %")
        .replace("c = { size = \"0.063 mm\", passing = \"56 %\" }", "c = { size = \"0.063 mm\", passing = \"49 %\" }");
    near(value(&answered(&finer), "tests.gradings.laboratory.hydrometer.readings.a.finer"), 0.49, 1e-12);
    // It is of what is under 2 mm. By hand: 3.9 % of 88 % are 3.43 % of the whole, and 30 divisions, 52.48 %, lie 3.48 % above the sieve.
    assert!(refused(&finer.replace("error = \"4 %\"", "error = \"3.9 %\"")).contains("49.0 % is finer than 0.063 mm"));
    let told = refused(&changed("off = 1\n", "off = 1\nmeniscus = -2\n"));
    assert!(told.contains("hydrometer's scale"), "{told}");
    // A brim that hides a division lets the depth be that of the scale, and grains come out smaller.
    let size = |text: &str| value(&answered(text), "tests.gradings.laboratory.hydrometer.readings.b.size");
    assert!(size(&changed("off = 1\n", "off = 1\nmeniscus = 0.5\n")) < size(TANSY));
}

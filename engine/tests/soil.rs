//! Gradings, limits and sand to add in a build file: their rows by hand, which test is believed, and what no sand brings.
#![allow(clippy::unwrap_used, clippy::panic, reason = "a test stops at the first surprise")]

use engine::answers::{Answers, Inputs, answers};

const TANSY: &str = include_str!("../../builds/tansy-bank/tansy-bank.loam.toml");

fn answered(text: &str) -> Answers {
    answers(&Inputs { build: text.as_bytes(), system: None }).unwrap_or_else(|problems| panic!("{}", problems.all()[0]))
}

fn refused(text: &str) -> String {
    let Err(problems) = answers(&Inputs { build: text.as_bytes(), system: None }) else { panic!("it is taken") };
    problems.all()[0].to_string()
}

fn changed(from: &str, to: &str) -> String {
    let new = TANSY.replace(from, to);
    assert_ne!(new, TANSY, "{from} is not in the build");
    new
}

fn value(answers: &Answers, path: &str) -> f64 {
    answers.rows.find(path).unwrap_or_else(|| panic!("{path} is no row")).quantity.si().unwrap()
}

fn title<'a>(answers: &'a Answers, path: &str) -> &'a str {
    &answers.rows.find(path).unwrap_or_else(|| panic!("{path} is no row")).title
}

#[track_caller]
fn near(found: f64, expected: f64, within: f64) {
    assert!((found - expected).abs() <= within, "{found} is not {expected}");
}

/// By hand: under 0.002 mm, 27 + 18 ln 1.25 / ln 12.5 = 28.590 %; under 0.05 mm, 45 + 11 ln 2.5 / ln 3.15 = 53.784 %; under 0.425 mm,
/// 56 + 21 log 6.746 = 73.410 %; under 2 mm, 88 %; of that 32.49 % are clay, 28.63 % silt and 38.88 % sand, a clay loam. Of the mix
/// that packs densest under 8 mm, half passes 2 mm.
#[test]
fn a_grading_says_sand_silt_and_clay_of_what_is_under_two_millimetres() {
    let answers = answered(TANSY);
    let of = |noun: &str| value(&answers, &format!("tests.gradings.laboratory.{noun}"));
    near(of("finer.fine"), 0.734_10, 1e-5);
    near(of("clay"), 0.324_89, 1e-5);
    near(of("silt"), 0.286_29, 1e-5);
    near(of("sand") + of("silt") + of("clay"), 1.0, 1e-12);
    near(of("clay-low"), 0.299_89, 1e-5);
    near(of("sieves.e.densest"), 0.5, 1e-12);
    near(of("sieves.e.densest-angular"), 0.25f64.powf(0.45), 1e-12);
    near(of("sieves.e.over-densest"), 0.38, 1e-12);
    assert!(title(&answers, "tests.soils.soil.classes").contains("(clay loam)"));
    near(value(&answers, "tests.soils.soil.clay"), 0.324_89, 1e-5);
    near(value(&answers, "tests.soils.soil.clay-over-tested"), 0.31 - 0.324_89, 1e-5);
}

#[test]
fn sieves_alone_say_no_clay_and_then_the_jars_do() {
    let sieves =
        changed("a = { size = \"0.0016 mm\", passing = \"27 %\" }    # the finest three by a hydrometer\n", "");
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

/// By hand: (32.489 − 18) / (18 − 1) = 0.8523 for each mass of soil; off by √((2.5 / 17)² + (0.8523 · 1 / 17)²) = 0.1554; buckets by
/// 1180 and 1590 / 1.28 = 1242.2 kg/m³, 0.8096.
#[test]
fn sand_to_add_carries_what_is_not_known_of_the_clay() {
    let answers = answered(TANSY);
    let of = |noun: &str| value(&answers, &format!("tests.sand-to-add.cob.{noun}"));
    near(of("dry"), 0.8523, 1e-4);
    near(of("error"), 0.1554, 1e-4);
    near(of("low"), 0.8523 - 0.1554, 2e-4);
    near(of("buckets"), 0.8096, 1e-4);
    // A jar knows the clay far less well, and says so.
    let jars = answered(&changed(
        "a = { size = \"0.0016 mm\", passing = \"27 %\" }    # the finest three by a hydrometer\n",
        "",
    ));
    assert!(value(&jars, "tests.sand-to-add.cob.error") > 3.0 * of("error"));
}

#[test]
fn no_sand_brings_clay_that_the_soil_does_not_have() {
    let rich = answered(&changed("sand = \"sand\"\nclay = \"18 %\"", "sand = \"sand\"\nclay = \"40 %\""));
    near(value(&rich, "tests.sand-to-add.cob.lacking"), 0.4 - 0.324_89, 1e-5);
    assert!(rich.rows.find("tests.sand-to-add.cob.dry").is_none());
}

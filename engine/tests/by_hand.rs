//! The pages worked by hand say what the program says.
#![allow(clippy::unwrap_used, clippy::panic, reason = "a test stops at the first surprise")]

use engine::answers::{Inputs, answers};
use engine::units::Quantity;

/// Each page with its build and the number of its lines.
const PAGES: [(&str, &str, usize); 4] = [
    (include_str!("../../docs/batch-and-order.md"), TANSY_BANK, 31),
    (include_str!("../../docs/settlement.md"), TANSY_BANK, 9),
    (include_str!("../../docs/nine-poles.md"), NINE_POLES, 19),
    (include_str!("../../docs/jar-to-bucket.md"), TANSY_BANK, 24),
];
const NINE_POLES: &str = include_str!("../../builds/plain-ring/nine-poles.loam.toml");
const TANSY_BANK: &str = include_str!("../../builds/tansy-bank/tansy-bank.loam.toml");

const SETTING_OUT: &str = include_str!("../../docs/setting-out.md");

/// Whether a figure by hand is ours to its last digit.
fn is_ours(by_hand: &str, ours: f64) -> bool {
    let decimals = by_hand.split_once('.').map_or(0, |(_, decimals)| decimals.len());
    let digit = 10f64.powi(-i32::try_from(decimals).unwrap());
    (ours - by_hand.parse::<f64>().unwrap()).abs() <= 0.5 * digit * (1.0 + 1e-9)
}

#[test]
fn every_figure_of_the_traverse_and_the_level_loop_is_answered_to_its_last_digit() {
    let mut count = 0;
    for name in ["traverse", "level-loop"] {
        let question = engine::ask::questions().iter().find(|question| question.name == name).unwrap();
        let reply = engine::ask::ask(name, &serde_json::from_str(question.example).unwrap()).unwrap();
        let table = SETTING_OUT.split(&format!("| ask `{name}` |")).nth(1).unwrap();
        let lines = table.lines().skip(1).take_while(|line| line.starts_with('|'));
        for (key, by_hand) in lines.filter_map(|line| line.strip_prefix("| `")?.strip_suffix(" |")?.split_once("` | "))
        {
            let ours = reply["answer"][key].as_f64().unwrap_or_else(|| panic!("{name} does not answer {key}"));
            assert!(is_ours(by_hand, ours), "{name}, {key}: {by_hand} by hand, {ours} here");
            count += 1;
        }
    }
    assert_eq!(count, 20);
}

#[test]
fn every_line_of_a_page_is_a_row_to_its_last_digit() {
    for (page, build, expected) in PAGES {
        let answers = answers(&Inputs { build: build.as_bytes(), system: None })
            .unwrap_or_else(|problems| panic!("{}", problems.all()[0]));
        let lines = page.lines().filter_map(|line| line.strip_prefix("| `")?.strip_suffix(" |")?.split_once("` | "));
        let mut count = 0;
        for (path, by_hand) in lines {
            let row = answers.rows.find(path).unwrap_or_else(|| panic!("there is no {path}"));
            let ours = match row.quantity {
                Quantity::Money(money) => money.minor as f64,
                other => other.si().unwrap(),
            };
            assert!(is_ours(by_hand, ours), "{path}: {by_hand} by hand, {ours} here");
            count += 1;
        }
        assert_eq!(count, expected);
    }
}

#[test]
fn a_pole_ten_millimetres_thicker_moves_marks_prop_and_checks() {
    let build = TANSY_BANK.replace(
        "butt = [\"233 mm\", \"231 mm\"]\ntip = [\"204 mm\", \"204 mm\"]",
        "butt = [\"243 mm\", \"241 mm\"]\ntip = [\"214 mm\", \"214 mm\"]",
    );
    assert_ne!(build, TANSY_BANK);
    let [before, after] =
        [TANSY_BANK, build.as_str()].map(|text| answers(&Inputs { build: text.as_bytes(), system: None }).unwrap());
    let moved = |path: &str| {
        let [was, is] = [&before, &after].map(|answers| answers.rows.find(path).unwrap().quantity.si().unwrap());
        is - was
    };
    for place in 1..=9 {
        for noun in ["pitch", "rest", "carry", "cut-length", "rest-level", "eave-cut"] {
            let by = moved(&format!("roof.places.{place}.{noun}"));
            assert!(by.abs() > 1e-6, "place {place}, {noun}: {by}");
        }
    }
    // A thicker pole lifts the ring and all that is measured to it.
    assert!(moved("roof.raising.prop-above-floor").abs() > 1e-4);
    assert!(moved("roof.deck.shim-volume").abs() > 1e-7 && moved("roof.area").abs() > 1e-5);
    let found = |answers: &engine::answers::Answers| -> Vec<String> {
        answers.checks.iter().map(|check| check.sentence(answers.system)).collect()
    };
    let (was, is) = (found(&before), found(&after));
    let moved = was.iter().zip(&is).filter(|(was, is)| was != is).count();
    assert!(moved > 0, "no check moves");
}

//! The pages worked by hand say what the program says.
#![allow(clippy::unwrap_used, clippy::panic, reason = "a test stops at the first surprise")]

use engine::answers::{Inputs, answers};
use engine::units::Quantity;

/// Each page with the number of its lines.
const PAGES: [(&str, usize); 2] =
    [(include_str!("../../docs/batch-and-order.md"), 31), (include_str!("../../docs/settlement.md"), 9)];
const BUILD: &str = include_str!("../../builds/tansy-bank/tansy-bank.loam.toml");

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
    let answers = answers(&Inputs { build: BUILD.as_bytes(), system: None }).unwrap();
    for (page, expected) in PAGES {
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

//! The page worked by hand says what the program says.
#![allow(clippy::unwrap_used, clippy::panic, reason = "a test stops at the first surprise")]

use engine::answers::{Inputs, answers};
use engine::units::Quantity;

const PAGE: &str = include_str!("../../docs/batch-and-order.md");
const BUILD: &str = include_str!("../../builds/tansy-bank/tansy-bank.loam.toml");

#[test]
fn every_line_of_the_page_is_a_row_to_its_last_digit() {
    let answers = answers(&Inputs { build: BUILD.as_bytes(), system: None }).unwrap();
    let lines = PAGE.lines().filter_map(|line| line.strip_prefix("| `")?.strip_suffix(" |")?.split_once("` | "));
    let mut count = 0;
    for (path, by_hand) in lines {
        let row = answers.rows.find(path).unwrap_or_else(|| panic!("there is no {path}"));
        let ours = match row.quantity {
            Quantity::Money(money) => money.minor as f64,
            other => other.si().unwrap(),
        };
        let decimals = by_hand.split_once('.').map_or(0, |(_, decimals)| decimals.len());
        let digit = 10f64.powi(-i32::try_from(decimals).unwrap());
        let gap = (ours - by_hand.parse::<f64>().unwrap()).abs();
        assert!(gap <= 0.5 * digit * (1.0 + 1e-9), "{path}: {by_hand} by hand, {ours} here");
        count += 1;
    }
    assert_eq!(count, 30);
}

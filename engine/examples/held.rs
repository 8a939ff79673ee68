//! How long it takes to hold the roof of Tansy Bank: all of its answers with a code of timber and without; best of runs, in
//! milliseconds.

mod stopwatch;

use engine::answers::{Inputs, answers};
use stopwatch::best;

const TANSY_BANK: &str = include_str!("../../builds/tansy-bank/tansy-bank.loam.toml");
const RUNS: usize = 25;

fn main() {
    let bare = TANSY_BANK.replace(", \"eurocode-timber\"", "");
    for (text, name) in [(TANSY_BANK, "held by a code"), (bare.as_str(), "not held")] {
        println!(
            "{:9.3} ms  answers, roof {name}",
            best(RUNS, || answers(&Inputs { build: text.as_bytes(), system: None }).is_ok())
        );
    }
}

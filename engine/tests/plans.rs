//! Plans of mixes and logs of batches of a build file: held by hand, and what changes them.
#![allow(clippy::unwrap_used, clippy::panic, reason = "a test stops at the first surprise")]

mod demos;

use demos::{answered, changed, value};
use engine::answers::Answers;
use engine::check::State;
use engine::units::{Fineness, System};

const TANSY_BANK: &str = include_str!("../../builds/tansy-bank/tansy-bank.loam.toml");
const BURDOCK_RISE: &str = include_str!("../../builds/burdock-rise/burdock-rise.loam.toml");

fn said(answers: &Answers, path: &str) -> String {
    let row = answers.rows.find(path).unwrap_or_else(|| panic!("{path} is no row"));
    row.quantity.shown(System::Metric, Fineness::Figure)
}

fn alike(answers: &Answers, log: &str) -> (State, String) {
    let path = format!("tests.batches.{log}.changed");
    let check = answers
        .checks
        .iter()
        .find(|check| check.path.as_deref() == Some(&path) && check.rule.id == "batches-alike")
        .unwrap();
    (check.state, check.sentence(answers.system))
}

#[test]
fn mixes_that_nobody_tried_are_planned_within_their_limits_and_counted_back_from_their_day() {
    let answers = answered(TANSY_BANK);
    let plan = |noun: &str| value(&answers, &format!("tests.mixes.floor.plan.{noun}"));
    assert_eq!([plan("distinct"), plan("runs"), plan("steps")], [5.0, 7.0, 14.0]);
    let mut soil = Vec::new();
    for run in 1..=7 {
        let [own, sand] = ["soil", "sand"].map(|part| plan(&format!("run.{run}.{part}")));
        assert_eq!(own + sand, 3.5, "a trial mix is 3.5 buckets");
        assert!((0.5..=2.25).contains(&own) && own % 0.25 == 0.0, "half of the limits of a batch of seven: {own}");
        soil.push(own);
    }
    assert_eq!(soil.iter().sum::<f64>(), plan("aside.soil.buckets"));
    // Ends and middle of the span, each side of it, and two of them again.
    soil.sort_by(f64::total_cmp);
    soil.dedup();
    assert_eq!((soil.len(), soil[0], soil[4]), (5, 0.5, 2.25));
    // By hand: 900 kPa wanted, 600 of no use, 12 %: k = 300 / 108 = 2.78, between the printed 3.15 of three and 2.68 of four bricks.
    assert_eq!([plan("bricks"), plan("all.bricks"), plan("all.damp"), plan("all.bars")], [4.0, 28.0, 14.0, 7.0]);
    assert_eq!(said(&answers, "tests.mixes.floor.plan.last"), "27 March 2027");
    assert_eq!(said(&answers, "tests.mixes.floor.plan.first"), "26 March 2027");
    assert!(plan("placed") > plan("moulded"));
    assert!((plan("aside.soil.volume") - 0.014 * plan("aside.soil.buckets")).abs() < 1e-12);
}

/// The mixes of the cob as if none were tried yet.
fn untried_cob() -> String {
    let (before, rest) = TANSY_BANK.split_once("[tests.mixes.cob.tried]").unwrap();
    let (_, after) = rest.split_once("\n[").unwrap();
    format!("{before}\n[{after}")
}

#[test]
fn of_each_mix_of_the_walls_cob_as_many_bricks_are_made_as_the_code_asks_for_where_there_is_one() {
    let with = |books: &str| answered(&changed(&untried_cob(), "rulebooks = [", &format!("rulebooks = [{books}")));
    let plan = |answers: &Answers, noun: &str| value(answers, &format!("tests.mixes.cob.plan.{noun}"));
    let answers = answered(&untried_cob());
    let has_a_code = answers.checks.iter().any(|check| check.rule.id == "compression");
    let answers = if has_a_code { answers } else { with("\"cob-appendix\", ") };
    assert_eq!(plan(&answers, "bricks"), 5.0);
    assert_eq!(plan(&answers, "all.bricks"), 5.0 * plan(&answers, "runs"));
    let title = &answers.rows.find("tests.mixes.cob.plan.bricks").unwrap().title;
    assert!(title.contains("AU106.6.1: five samples"), "{title}");
    let own = answered(&changed(
        &untried_cob(),
        "[tests.mixes.cob.wishes]",
        "[tests.mixes.cob.plan]\nbricks = 8\n\n[tests.mixes.cob.wishes]",
    ));
    assert_eq!(plan(&own, "bricks"), 8.0, "what is written stays");
}

#[test]
fn a_wish_that_no_brick_bar_or_panel_shows_is_told() {
    let heavy = changed(
        TANSY_BANK,
        "[tests.mixes.floor.wishes]\n",
        "[tests.mixes.floor.wishes]\nbrushed = { want = \"at-most\", value = \"5 g\", above = \"30 g\" }\n",
    );
    let answers = answered(&heavy);
    let told: Vec<&str> = answers.rows.unknown("tests.mixes.floor.plan.*").map(|(_, title)| title).collect();
    assert!(told.len() == 1 && told[0].contains("pieces of each mix for brushed"), "{told:?}");
}

#[test]
fn another_start_is_another_order_of_the_same_mixes() {
    let runs = |start: u32| {
        let answers = answered(&changed(TANSY_BANK, "start = 7", &format!("start = {start}")));
        let own = (1..=7).map(|run| value(&answers, &format!("tests.mixes.floor.plan.run.{run}.soil")));
        own.collect::<Vec<f64>>()
    };
    let (mut one, mut other) = (runs(8), runs(9));
    assert_ne!(one, other);
    one.sort_by(f64::total_cmp);
    other.sort_by(f64::total_cmp);
    assert_eq!(one, other);
}

#[test]
fn after_trials_the_plan_is_the_one_mix_that_tells_most_next() {
    let text = changed(
        TANSY_BANK,
        "[tests.mixes.cob.tried]",
        "[tests.mixes.cob.plan]\nwanted-by = 2027-04-24\n\n[tests.mixes.cob.tried]",
    );
    let answers = answered(&text);
    let next = answers.rows.find("tests.mixes.cob.next").unwrap().title.clone();
    let [soil, sand] = ["soil", "sand"].map(|part| value(&answers, &format!("tests.mixes.cob.plan.run.1.{part}")));
    assert_eq!(value(&answers, "tests.mixes.cob.plan.runs"), 1.0);
    assert!(next.contains(&format!("{soil} soil : {sand} sand")), "{next}");
    // The cob's own bricks say how they scatter.
    let lot = |noun: &str| value(&answers, &format!("tests.bricks.trial.{noun}"));
    assert_eq!(value(&answers, "tests.mixes.cob.plan.scatter"), lot("deviation") / lot("mean"));
}

#[test]
fn a_handful_as_damp_as_no_other_is_told_and_fewer_than_ten_batches_tell_nothing() {
    let tansy = answered(TANSY_BANK);
    assert_eq!(alike(&tansy, "trial").0, State::OnTrust, "the rule is from memory");
    let burdock = answered(BURDOCK_RISE);
    let (state, sentence) = alike(&burdock, "first");
    assert_eq!(state, State::Fails, "{sentence}");
    let title = &burdock.rows.find("tests.batches.first.changed").unwrap().title;
    assert!(title.contains("b11, moisture 21.2 %") && title.contains("stop, find what changed"), "{title}");
    // No title speaks of a strip that nothing is held to: without two handfuls no later moisture is known.
    let dry = ["wet = \"418 g\", dry = \"357 g\"", "wet = \"405 g\", dry = \"347 g\""]
        .iter()
        .fold(TANSY_BANK.to_owned(), |text, own| changed(&text, &format!("handful = {{ {own} }}, "), ""));
    let dry = answered(&dry);
    for (answers, nouns) in [(&tansy, "yield and moisture"), (&dry, "yield")] {
        for noun in ["changed", "outside"] {
            let title = &answers.rows.find(&format!("tests.batches.trial.{noun}")).unwrap().title;
            assert!(title.ends_with(&format!("outside of the strip of {nouns} of the batches trial")), "{title}");
        }
    }
    let few: String = TANSY_BANK
        .lines()
        .filter(|line| !["b08", "b09", "b10", "b11", "b12"].iter().any(|name| line.starts_with(name)))
        .map(|line| format!("{line}\n"))
        .collect();
    let few = answered(&few);
    assert_eq!(alike(&few, "trial").0, State::NotKnown);
    let open: Vec<&str> = few.rows.unknown("tests.batches.trial.changed").map(|(_, title)| title).collect();
    assert!(open[0].contains("log 3 more"), "{open:?}");
    assert!(few.rows.find("tests.batches.trial.yield.reach").is_none());
}

/// By hand: 108 L of 11 buckets of 14 L; 411 g and 351 g; 3 people for 52 minutes.
#[test]
fn a_batch_says_its_yield_its_moisture_and_what_it_took() {
    let answers = answered(TANSY_BANK);
    let of = |noun: &str| value(&answers, &format!("tests.batches.trial.each.b01.{noun}"));
    assert!((of("yield") - 108.0 / 154.0).abs() < 1e-12);
    assert!((of("moisture") - (411.0 - 351.0) / 351.0).abs() < 1e-12);
    assert!((of("person-time") - 3.0 * 52.0 / 1440.0).abs() < 1e-12);
    let all = |noun: &str| value(&answers, &format!("tests.batches.trial.{noun}"));
    let first = [108.0, 106.5, 109.0, 107.0, 109.5, 106.0, 108.5, 107.5, 109.0, 106.5];
    let mean = first.iter().sum::<f64>() / 1540.0;
    assert!((all("yield.mean") - mean).abs() < 1e-12);
    // Steps 1.5, 2.5, 2, 2.5, 3.5, 2.5, 1, 1.5, 2.5: their mean by three times half the root of pi.
    assert!((all("yield.reach") - 19.5 / 9.0 / 154.0 * 3.0 * 0.886_226_925_453).abs() < 1e-9);
    assert!((all("yield.apart") - (mean - 0.7)).abs() < 1e-12);
    let more = answered(&changed(TANSY_BANK, "b12 = { placed = \"107 L\"", "b12 = { buckets = 12, placed = \"107 L\""));
    assert!((value(&more, "tests.batches.trial.each.b12.yield") - 107.0 / 168.0).abs() < 1e-12);
}

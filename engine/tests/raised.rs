//! Poles that are up and measured: what their levels make of the poles that are left.
#![allow(clippy::unwrap_used, clippy::panic, reason = "a test stops at the first surprise")]

#[path = "laws/behind.rs"]
mod behind;

use behind::{Reach, Ways};
use engine::answers::{Answers, Inputs, answers};
use engine::units::Quantity;

const TANSY_BANK: &str = include_str!("../../builds/tansy-bank/tansy-bank.loam.toml");

fn answered(text: &str) -> Answers {
    answers(&Inputs { build: text.as_bytes(), system: None }).unwrap_or_else(|problems| panic!("{}", problems.all()[0]))
}

/// The same house with its first poles up, at so many metres.
fn with_up(levels: &[f64]) -> Answers {
    let written: Vec<String> = levels.iter().map(|level| format!("\"{level:.12} m\"")).collect();
    let text = TANSY_BANK.replacen("[roof]\n", &format!("[roof]\nraised = [{}]\n", written.join(", ")), 1);
    assert_ne!(text, TANSY_BANK);
    answered(&text)
}

fn si(answers: &Answers, path: &str) -> f64 {
    answers.rows.find(path).unwrap().quantity.si().unwrap()
}

/// Levels as planned of so many poles, in the order of raising.
fn planned(answers: &Answers, count: usize) -> Vec<f64> {
    let order = &answers.ring_plan.as_ref().unwrap().order;
    order[..count].iter().map(|place| si(answers, &format!("roof.places.{}.planned-level", place + 1))).collect()
}

fn order(answers: &Answers) -> Vec<usize> {
    answers.ring_plan.as_ref().unwrap().order.iter().map(|place| place + 1).collect()
}

#[test]
fn poles_that_are_up_where_they_were_planned_leave_all_others_as_they_were() {
    let before = answered(TANSY_BANK);
    for count in [1, 4, 9] {
        let after = with_up(&planned(&before, count));
        for row in before.rows.iter().filter(|row| row.path.starts_with("roof.")) {
            let now = after.rows.find(&row.path).unwrap().quantity;
            let alike = match (row.quantity.si(), now.si()) {
                (Some(was), Some(is)) => (was - is).abs() <= 1e-6 * was.abs().max(1e-2),
                _ => row.quantity == now,
            };
            assert!(alike, "{count} up: {} was {:?}, is {now:?}", row.path, row.quantity);
        }
    }
}

#[test]
fn a_pole_that_lies_twenty_millimetres_high_lifts_those_after_it_and_moves_their_marks_and_the_slack() {
    let before = answered(TANSY_BANK);
    let mut levels = planned(&before, 3);
    levels[2] += 0.020;
    let after = with_up(&levels);
    let moved = |path: String| si(&after, &path) - si(&before, &path);
    let order = order(&before);
    assert!((si(&after, &format!("roof.places.{}.off-plan", order[2])) - 0.020).abs() < 1e-9);
    assert!(si(&after, &format!("roof.places.{}.off-plan", order[1])).abs() < 1e-9);
    for place in &order[3..] {
        for noun in ["rest", "carry", "rest-level"] {
            let by = moved(format!("roof.places.{place}.{noun}"));
            assert!(by.abs() > 1e-5, "place {place}, {noun}: {by}");
        }
        assert!(moved(format!("roof.places.{place}.planned-level")).abs() < 1e-12, "what was planned stays");
    }
    // The last pole lies higher, and so nearer to the first, which is on the prop.
    assert!(moved("roof.raising.slack".into()) < -0.001);
    assert!(moved("roof.ring.eye-level".into()) > 0.001, "a crossing that beds less lifts the eye");
    assert!(moved("roof.raising.prop-top".into()).abs() < 1e-6, "the prop stands as before");
}

#[test]
fn a_first_pole_that_lies_high_tells_of_a_higher_prop_and_more_room_and_of_no_other_ring() {
    let before = answered(TANSY_BANK);
    let mut levels = planned(&before, 1);
    levels[0] += 0.030;
    let after = with_up(&levels);
    let moved = |path: &str| si(&after, path) - si(&before, path);
    assert!(moved("roof.raising.prop-top") > 0.020);
    assert!(moved("roof.raising.slack").abs() > 0.001);
    assert!(moved("roof.ring.pitch").abs() < 1e-15);
}

#[test]
fn a_level_moves_every_row_that_it_reaches_and_no_other() {
    let plan = planned(&answered(TANSY_BANK), 3);
    let levels = [plan[0] + 0.004, plan[1] - 0.003, plan[2] + 0.002];
    for count in [1, 3] {
        let before = with_up(&levels[..count]);
        for level in 0..count {
            let mut other = levels[..count].to_vec();
            other[level] += 0.005;
            let after = with_up(&other);
            let path = format!("roof.raised.{}", level + 1);
            let reach = Ways::of(&before.rows).to(&path);
            let mut reached = 0;
            for row in before.rows.iter() {
                let now = after.rows.find(&row.path).unwrap().quantity;
                let has_moved = moved(row.quantity, now);
                match reach.how(&row.path) {
                    Reach::None => assert!(!has_moved, "{path} moves {} and is not among its reasons", row.path),
                    Reach::Stepped => {}
                    Reach::Smooth => {
                        reached += 1;
                        let is_of_a_frame =
                            row.path.starts_with("roof.members.") || row.path.starts_with("roof.loads.");
                        // What a pole is cut to past its crossing stays when poles are up.
                        let is_cut = row.path.ends_with(".bolt-end");
                        assert!(has_moved || is_of_a_frame || is_cut, "{path} does not move {}", row.path);
                    }
                }
            }
            assert!(reached > if count == 1 { 3 } else { 100 }, "{path} reaches {reached} rows");
        }
    }
}

/// By more than solving rounds away.
fn moved(was: Quantity, is: Quantity) -> bool {
    match (was.si(), is.si()) {
        (Some(was), Some(is)) => (was - is).abs() > 1e-12 * was.abs().max(is.abs()).max(1e-3),
        _ => was != is,
    }
}

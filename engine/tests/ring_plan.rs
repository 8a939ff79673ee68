//! What drawings show of a ring of measured poles: who covers whom, and the order of raising.
#![allow(clippy::unwrap_used, reason = "a test stops at the first surprise")]

use engine::answers::{Inputs, answers};

const TANSY_BANK: &str = include_str!("../../builds/tansy-bank/tansy-bank.loam.toml");

#[test]
fn every_pole_lies_under_the_one_it_carries_and_over_the_one_it_rests_on() {
    let answers = answers(&Inputs { build: TANSY_BANK.as_bytes(), system: None }).unwrap();
    let ring = answers.ring_plan.unwrap();
    for (place, pole) in ring.places.iter().enumerate() {
        assert!(pole.covered_by.contains(&pole.neighbours.carries), "{}", pole.tag);
        assert!(!pole.covered_by.contains(&pole.neighbours.rests_on), "{}", pole.tag);
        assert_eq!(ring.places[pole.neighbours.carries].neighbours.rests_on, place);
        let [from, to] = pole.axis;
        let long = (0..3).map(|axis| (to[axis] - from[axis]).powi(2)).sum::<f64>().sqrt();
        assert!((long - pole.lengths[0]).abs() < 1e-12, "{} is {long} long", pole.tag);
    }
}

#[test]
fn each_pole_is_raised_once_and_lies_on_one_that_is_up() {
    let answers = answers(&Inputs { build: TANSY_BANK.as_bytes(), system: None }).unwrap();
    let ring = answers.ring_plan.unwrap();
    for (stage, &place) in ring.order.iter().enumerate() {
        assert!(!ring.order[..stage].contains(&place));
        let below = ring.places[place].neighbours.rests_on;
        assert_eq!(stage > 0, ring.order[..stage].contains(&below), "place {place}");
    }
    assert_eq!(ring.order.len(), ring.places.len());
}

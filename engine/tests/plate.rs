//! The bond beam as the plate of rafters that fall one way: seats by hand, what keeps it from being known.
#![allow(clippy::unwrap_used, clippy::panic, reason = "a test stops at the first surprise")]

use engine::answers::{Answers, Inputs, answers};
use engine::check::State;

const BURDOCK_RISE: &str = include_str!("../../builds/burdock-rise/burdock-rise.loam.toml");

fn of(text: &str) -> Answers {
    answers(&Inputs { build: text.as_bytes(), system: None }).unwrap_or_else(|problems| panic!("{}", problems.all()[0]))
}

fn value(answers: &Answers, path: &str) -> f64 {
    answers.rows.find(path).unwrap_or_else(|| panic!("{path}")).quantity.si().unwrap()
}

/// The text with one line of it written anew.
fn with(line: &str, anew: &str) -> String {
    assert!(BURDOCK_RISE.contains(line), "{line}");
    BURDOCK_RISE.replacen(line, anew, 1)
}

#[test]
fn what_a_rafter_presses_on_its_low_seat_is_found_by_hand() {
    let found = of(BURDOCK_RISE);
    let own = |noun: &str| value(&found, &format!("roof.rafters.5.{noun}"));
    let (low, span, length) = (own("low-tail"), own("span"), own("cut-length"));
    let pitch = value(&found, "roof.angle").cos();
    // While soil is placed: what stays and the crew on all of it, even in plan, whose middle lies half way along.
    let loads = ["roof.loads.fixed", "roof.loads.soil", "site.loads.placing"].map(|path| value(&found, path));
    let strip = value(&found, "roof.rafters.2.across") * loads.iter().sum::<f64>() * length * pitch;
    // The pole, as heavy as the heaviest of them, as thin as the thinnest: the middle of a frustum of a cone.
    let [butt, tip] = ["roof.rafters.low-thinnest", "roof.rafters.high-thinnest"].map(|path| value(&found, path));
    let squares = butt * butt + butt * tip + tip * tip;
    let middle = length * 0.25 * (butt * butt + 2.0 * butt * tip + 3.0 * tip * tip) / squares;
    let longest = value(&found, "roof.poles.cut-length");
    let pole = value(&found, "roof.rafters.heaviest") * 9.80665 * length / longest;
    let press = (strip * (low + span - 0.5 * length) + pole * (low + span - middle)) / span;
    // The pressure beneath, of a load in the middle of a long beam: F / (2 L b).
    let (elastic, width) = (value(&found, "roof.beam.stiff-length"), value(&found, "wall.bond-beam.width"));
    let pressure = value(&found, "roof.beam.seats.5-low.pressure");
    assert!((pressure * 2.0 * elastic * width / press - 1.0).abs() < 1e-9, "{pressure} {press}");
}

#[test]
fn every_check_of_the_plate_is_held_and_it_neither_thrusts_nor_is_held_in_plan() {
    let found = of(BURDOCK_RISE);
    let of_beam =
        found.checks.iter().filter(|check| check.path.as_ref().is_some_and(|path| path.starts_with("roof.beam.")));
    let of_beam: Vec<State> = of_beam.map(|check| check.state).collect();
    assert!(of_beam.len() > 30, "{}", of_beam.len());
    assert!(of_beam.iter().all(|state| !matches!(state, State::NotKnown | State::Fails)), "{of_beam:?}");
    for noun in ["moment-plan", "ring-force", "held-force", "off-middle", "asd-tipping"] {
        assert!(!found.rows.iter().any(|row| row.path.starts_with("roof.beam.") && row.path.ends_with(noun)), "{noun}");
    }
    let said = |rule: &str| found.checks.iter().any(|check| check.rule.id == rule);
    assert!(!said("asd-feet") && !said("nds-bolts") && !said("nds-poles"));
    for rule in ["asd-beam-twist", "asd-scarf", "asd-scarf-room", "asd-earth-under-beam", "asd-tie"] {
        let mut of_rule = found.checks.iter().filter(|check| check.rule.id == rule).peekable();
        assert!(of_rule.peek().is_some(), "{rule}");
        assert!(of_rule.all(|check| !matches!(check.state, State::NotKnown | State::Fails)), "{rule}");
    }
}

#[test]
fn under_a_level_top_the_plate_is_not_known_and_what_would_do_is_said() {
    let raked = with("top = { slope = \"2 in 12\", rises = \"90 deg\", from = \"south\" }", "");
    let level = of(&raked.replacen("[[wall.lifts]]\nname = \"lift-5\"\ntop = \"8 ft\"\n\n", "", 1));
    let of_beam =
        level.checks.iter().filter(|check| check.path.as_ref().is_some_and(|path| path.starts_with("roof.beam.")));
    let of_beam: Vec<_> = of_beam.collect();
    assert!(!of_beam.is_empty());
    for check in of_beam {
        assert_eq!(check.state, State::NotKnown, "{}", check.subject);
        assert!(check.subject.contains("let the wall's top rise with the rafters, [wall.top]"), "{}", check.subject);
    }
}

#[test]
fn without_anchors_what_lifts_the_plate_is_not_held_and_what_presses_is_known_all_the_same() {
    let start = BURDOCK_RISE.find("[wall.anchors.south-left]").unwrap();
    let end = BURDOCK_RISE.find("[openings.door]").unwrap();
    let price = BURDOCK_RISE.find("[prices.deadman]").unwrap();
    let next = BURDOCK_RISE.find("[prices.frame-timber]").unwrap();
    let loose = [&BURDOCK_RISE[..start], &BURDOCK_RISE[end..price], &BURDOCK_RISE[next..]].concat();
    let loose = of(&loose);
    let bending = loose.rows.unknown("roof.beam.*.asd-bending").next();
    assert!(bending.is_some_and(|(_, title)| title.contains("anchors do not keep the bond beam from tipping up")));
    // What presses is known all the same.
    assert!(loose.rows.find("roof.beam.seats.5-low.pressure").is_some());
}

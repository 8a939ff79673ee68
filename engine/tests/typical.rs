//! Poles that nobody measured yet: taken to be typical ones, and never more than on trust.
#![allow(clippy::unwrap_used, clippy::panic, reason = "a test stops at the first surprise")]

use engine::answers::{Answers, Inputs, answers};
use engine::check::State;
use engine::problem::Problems;

const TANSY_BANK: &str = include_str!("../../builds/tansy-bank/tansy-bank.loam.toml");

const TYPICAL: &str = "[poles.typical]\nbutt = [\"230 mm\"]\ntip = [\"202 mm\", \"198 mm\"]\nlength = \"5.5 m\"\n\n";

/// The demo with so many of its measured poles, and with more words.
fn with(measured: usize, more: &str) -> Result<Answers, Problems> {
    let (before, pile) = TANSY_BANK.split_once("[poles.pile.").unwrap();
    let (pile, after) = pile.split_once("# Prices are invented").unwrap();
    let before: String =
        before.lines().filter(|line| !line.starts_with("laid = ")).flat_map(|line| [line, "\n"]).collect();
    let poles: String = pile.split("[poles.pile.").take(measured).map(|pole| format!("[poles.pile.{pole}")).collect();
    let text = format!("{before}{poles}{more}# Prices are invented{after}");
    answers(&Inputs { build: text.as_bytes(), system: None })
}

fn standing(measured: usize) -> Answers {
    with(measured, TYPICAL).unwrap_or_else(|problems| panic!("{}", problems.all()[0]))
}

#[test]
fn typical_poles_make_a_whole_ring_that_is_held_but_on_trust_alone() {
    let all = standing(0);
    let ring = all.ring_plan.as_ref().unwrap();
    assert!(ring.places.len() == 9 && ring.places.iter().all(|pole| !pole.is_measured));
    for noun in ["cut-length", "rest", "carry", "notch", "planned-level", "mass"] {
        assert_eq!(all.rows.matching(&format!("roof.places.*.{noun}")).count(), 9, "{noun}");
    }
    let held: Vec<_> = all
        .checks
        .iter()
        .filter(|check| check.path.as_deref().is_some_and(|path| path.starts_with("roof.members.")))
        .collect();
    assert!(held.len() >= 9);
    for check in held {
        assert!(matches!(check.state, State::OnTrust | State::Fails | State::NotKnown), "{:?}", check.path);
        let leans: Vec<&str> = check.leans_on.iter().map(|(path, _)| path.as_str()).collect();
        assert!(
            check.state == State::NotKnown || leans.contains(&"poles.typical.butt.1"),
            "{:?} leans on {leans:?}",
            check.path
        );
    }
}

#[test]
fn what_is_written_of_a_typical_pole_is_noted_once_and_counts_as_assumed() {
    let all = standing(0);
    let rows: Vec<_> = all.rows.iter().filter(|row| row.path.starts_with("poles.typical.")).collect();
    let paths: Vec<&str> = rows.iter().map(|row| row.path.as_str()).collect();
    let wanted = ["butt.1", "tip.1", "tip.2", "length", "bow.1", "bow.2"].map(|noun| format!("poles.typical.{noun}"));
    assert_eq!(paths, wanted);
    assert!(rows.iter().all(|row| row.is_assumed()));
}

#[test]
fn a_pile_that_is_half_measured_takes_as_many_typical_poles_as_lack() {
    let all = standing(6);
    let typical = all.ring_plan.as_ref().unwrap().places.iter().filter(|pole| !pole.is_measured).count();
    assert_eq!(typical, 3);
    assert!(all.rows.find("poles.pile.ash-lane.length").is_some_and(|row| !row.is_assumed()));
}

#[test]
fn a_full_pile_takes_no_typical_pole_and_says_so() {
    let problems = with(11, TYPICAL).unwrap_err();
    let told = problems.all()[0].to_string();
    assert!(told.contains("the pile has the 9 poles of the roof"), "{told}");
}

#[test]
fn a_measured_pole_is_not_called_as_a_typical_one() {
    let text = format!("[poles.pile.typical-1]\n{}{TYPICAL}", TYPICAL.split_once('\n').unwrap().1);
    let told = with(0, &text).unwrap_err().all()[0].to_string();
    assert!(told.contains("`typical-1` would be taken for a pole that nobody measured"), "{told}");
}

#[test]
fn typical_poles_that_are_too_short_are_told_where_they_are_written() {
    let told = with(0, &TYPICAL.replace("5.5 m", "2.5 m")).unwrap_err().all()[0].to_string();
    assert!(
        told.contains("poles.typical: one place of the ring wants a pole") && told.contains("the pile has 0 as long"),
        "{told}"
    );
}

#[test]
fn a_thicker_typical_pole_uses_less_of_its_strength() {
    let share = |all: &Answers| {
        let shares = all.rows.matching("roof.members.*.bending").filter_map(|row| row.quantity.si());
        shares.fold(0.0, f64::max)
    };
    let thick = TYPICAL.replace("230 mm", "250 mm").replace("202 mm", "222 mm").replace("198 mm", "218 mm");
    let [thin, thick] = [standing(0), with(0, &thick).unwrap_or_else(|problems| panic!("{}", problems.all()[0]))];
    assert!(share(&thin) > 0.0 && share(&thick) < share(&thin), "{} {}", share(&thick), share(&thin));
}

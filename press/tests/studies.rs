//! What is said of long computations: no gap but that of what is kept, and no load that was not found.
#![allow(clippy::unwrap_used, clippy::panic, reason = "a test stops at the first surprise")]

use engine::answers::{Inputs, answers};
use engine::roof::poles::{Choice, Placed};
use engine::roof::standing::{Answered, Raised, TrialFound};
use engine::studies::Studies;
use engine::units::{Force, Length, System};

fn studies() -> Studies {
    let text = include_str!("../../builds/tansy-bank/tansy-bank.loam.toml");
    answers(&Inputs { build: text.as_bytes(), system: None })
        .unwrap_or_else(|problems| panic!("{}", problems.all()[0]))
        .studies
}

#[test]
fn where_nothing_better_is_found_the_gap_is_that_of_what_lies() {
    let study = studies().choice.unwrap();
    let worse =
        Choice { places: Vec::new(), cost_mm: study.cost_mm + 30.0, bound_mm: study.cost_mm - 12.0, is_proved: false };
    let told = press::studies::choice(&study, Some(&worse), System::Metric);
    assert!(told.words[0].ends_with("and nothing better was found."), "{:?}", told.words);
    assert!(told.words[1].contains("; what lies costs 12 mm more than that at most"), "{:?}", told.words);
    let other = Placed { pole: study.lies[1].pole, is_turned: false, waste: Length::ZERO, notch: Length::ZERO };
    let better = Choice { places: vec![other], cost_mm: study.cost_mm - 5.0, ..worse };
    let told = press::studies::choice(&study, Some(&better), System::Metric);
    assert!(told.words[1].contains("; this one costs 7 mm more than that at most"), "{:?}", told.words);
}

#[test]
fn what_the_prop_carries_is_told_only_where_every_stage_has_its_load() {
    let study = studies().trial.unwrap();
    let stands = Raised { poles: 1, loose: None, loose_when_tied: None, on_prop: Some(Force::kn(3.0)) };
    let said = |last| {
        let found = TrialFound { answers: vec![Answered::Stage(Ok(stands)), Answered::Stage(last)] };
        press::studies::trial(&study, &found, System::Metric).words[1].clone()
    };
    assert!(said(Ok(stands)).starts_with("The prop carries 3.00 kN at most."), "{}", said(Ok(stands)));
    let unknown = said(Err("two poles do not meet".to_owned()));
    assert!(unknown.starts_with("What the prop carries at most is not known"), "{unknown}");
}

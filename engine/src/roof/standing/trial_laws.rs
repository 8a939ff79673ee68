//! Laws of the trial of a ring: it says what each question by itself says, however it is divided, and reads back what it kept.

use std::ops::ControlFlow;

use super::super::poles::laws::{motley, pole, regular};
use super::super::poles::{self, Layout, Pole, ring};
use super::laws::{TOUCHING, WOOD};
use super::*;
use crate::study::{Study, whole};
use crate::units::{Angle, Force, Length, Pressure};

fn trial(layout: &Layout) -> Trial {
    let under = |name: &str, area: f64| Combination {
        name: name.into(),
        weight: 1.0,
        areas: [Pressure::pa(area); 4],
        extras: Vec::new(),
    };
    Trial {
        layout: layout.clone(),
        first: 2,
        clearance: Length::mm(60.0),
        wood: WOOD,
        joints: TOUCHING,
        loading: Loading { first_half: Angle::ZERO, extras: Vec::new(), between: None },
        combinations: vec![under("with its layers", 2500.0), under("poles alone", 0.0)],
    }
}

#[test]
fn a_trial_says_what_each_question_says_by_itself() {
    let trial = trial(&motley());
    let cut = trial.layout.cut(&ring(&trial.layout).unwrap());
    let closed = ring(&cut).unwrap();
    let propped = poles::propped(&cut, &closed, 2, Length::mm(60.0)).unwrap();
    let found = whole(&trial).unwrap();
    let stages: Vec<Raised> = found
        .answers
        .iter()
        .filter_map(|answer| if let Answered::Stage(Ok(stage)) = answer { Some(*stage) } else { None })
        .collect();
    assert_eq!(stages, raising(&cut, &propped, &WOOD, &TOUCHING).unwrap());
    let stands = model(&cut, &closed, &WOOD, &TOUCHING).unwrap();
    for answer in &found.answers {
        match answer {
            Answered::Loss(pole, feet, lost) => {
                let told = stands.without(Lost::Pole(*pole), *feet, &trial.loading, &trial.combinations[0]);
                assert_eq!(lost.as_ref().ok(), told.as_ref().ok());
                assert_eq!(matches!(lost, Ok(Without::ComesDown(_))), *feet == Feet::Sliding, "{lost:?}");
            }
            Answered::Bent(at, feet, bent) => {
                let told = stands.second_order(&trial.loading, &trial.combinations[*at], *feet);
                assert_eq!(bent.as_ref().ok(), told.as_ref().ok());
            }
            _ => {}
        }
    }
    assert_eq!(found.answers.len(), 9 + 2 + 18 + 4);
}

#[test]
fn a_cut_pole_lies_where_the_whole_one_lay_and_weighs_less() {
    let layout = motley();
    let whole = ring(&layout).unwrap();
    let cut = layout.cut(&whole);
    let again = ring(&cut).unwrap();
    for (place, (rafter, set)) in cut.rafters.iter().zip(&whole.sets).enumerate() {
        let beyond = rafter.beyond.max(layout.rafters[place].pole.diameter(set.rest) * 0.5);
        let told = (set.rest + beyond).min(layout.rafters[place].pole.length);
        assert!((rafter.pole.length - told).abs() < Length::mm(1e-9));
        assert!((again.sets[place].rest - set.rest).abs() < Length::mm(3.0), "a bow is followed to second order alone");
        assert!(rafter.pole.tip >= layout.rafters[place].pole.tip.min(rafter.pole.butt));
    }
    let even = Pole { length: Length::m(4.0), bow: Length::mm(40.0), ..pole(160.0, 120.0) };
    let half = even.cut(Length::m(2.0));
    assert!((half.tip - Length::mm(140.0)).abs() < Length::mm(1e-9));
    assert!((half.bow - Length::mm(10.0)).abs() < Length::mm(1e-9));
    assert!((even.cut(Length::m(9.0)).length - even.length).abs() < Length::mm(1e-9));
}

#[test]
fn parts_of_any_size_join_to_the_same_answers_to_the_last_digit() {
    let trial = trial(&motley());
    let at_once = whole(&trial).unwrap();
    for size in [1, 4, 20] {
        let starts = (0..trial.pieces()).step_by(size);
        let ranges = starts.map(|start| start..(start + size).min(trial.pieces()));
        let parts = ranges.map(|range| trial.part(range, &mut |_| ControlFlow::Continue(())).unwrap()).collect();
        assert_eq!(trial.join(parts), at_once);
    }
    let mut looks = 0;
    let stopped = trial.part(0..trial.pieces(), &mut |_| {
        looks += 1;
        if looks == 5 { ControlFlow::Break(()) } else { ControlFlow::Continue(()) }
    });
    assert!(stopped.is_none() && looks == 5);
}

#[test]
fn what_is_kept_reads_back_to_the_last_digit() {
    let trial = trial(&motley());
    let mut found = whole(&trial).unwrap();
    found.answers[3] = Answered::Stage(Err("the ring needs a reason".into()));
    let text = Trial::kept(&found).to_string();
    assert_eq!(trial.read(&serde_json::from_str(&text).unwrap()), Some(found));
    assert_eq!(trial.read(&serde_json::json!([["stage", [1, null, null, 3.0]]])), None, "too few answers");
}

#[test]
fn the_most_on_the_prop_is_known_only_where_every_stage_has_its_load() {
    let known = |load: f64| Raised { poles: 1, loose: None, loose_when_tied: None, on_prop: Some(Force::n(load)) };
    let of = |last: Tried<Raised>| TrialFound {
        answers: vec![Answered::Stage(Ok(known(900.0))), Answered::Stage(Ok(known(400.0))), Answered::Stage(last)],
    };
    assert_eq!(of(Ok(known(700.0))).most_on_prop(), Some(Force::n(900.0)));
    assert_eq!(of(Err("the ring needs a reason".into())).most_on_prop(), None, "a failed stage may be the heaviest");
    let falls = Raised { loose_when_tied: Some(2), on_prop: None, ..known(0.0) };
    assert_eq!(of(Ok(falls)).most_on_prop(), None, "a stage that falls loads no prop that stands");
    assert_eq!(TrialFound::default().most_on_prop(), None);
}

#[test]
fn when_the_prop_of_a_stiffer_ring_goes_it_sinks_less() {
    let even = Pole { length: Length::m(3.9), ..pole(160.0, 150.0) };
    let mut soft = trial(&regular(2.6, 0.9, &[even; 9]));
    let mut stiff = soft.clone();
    (stiff.wood.young, stiff.wood.shear) = (WOOD.young * 2.0, WOOD.shear * 2.0);
    soft.combinations.clear();
    let down = |trial: &Trial| -> Vec<f64> {
        let found = whole(trial).unwrap();
        let free = found.answers.iter().filter_map(|answer| match answer {
            Answered::Lowered(_, Ok(Lowered::Free(down))) => Some(down.in_m()),
            _ => None,
        });
        free.collect()
    };
    let (soft, stiff) = (down(&soft), down(&stiff));
    assert!(soft.len() == 2 && stiff.len() == 2);
    assert!(soft.iter().zip(&stiff).all(|(soft, stiff)| soft > stiff && *stiff > 0.0), "{soft:?} {stiff:?}");
    assert!(soft[0] >= soft[1], "feet that slide let it sink no less than feet that are held");
}

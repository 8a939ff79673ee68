//! Laws of raising a ring and of its bands.

use super::laws::{motley, near, pole, regular};
use super::*;
use crate::units::{Angle, Length, Ratio};

#[test]
fn an_effect_is_the_derivative_and_the_worst_is_more_than_the_likely() {
    let layout = motley();
    let found = ring(&layout).unwrap();
    let five = Length::mm(5.0);
    let all = effects(&layout, &found, &Errors { diameter: five, plate: five, eye: five }).unwrap();
    assert_eq!(all.len(), 36);
    let small = Length::mm(0.01);
    let fine = effects(&layout, &found, &Errors { diameter: small, plate: small, eye: small }).unwrap();
    for (effect, fine) in all.iter().zip(&fine) {
        for (moved, slope) in effect.moves.tip.iter().zip(&fine.moves.tip) {
            near(*moved, *slope * 500.0, 2e-4);
        }
    }
    let bands = bands(&all);
    let largest = all.iter().map(|effect| effect.moves.tip[0].abs()).fold(Length::ZERO, Length::max);
    assert!(bands.tip[0].likely > largest && bands.tip[0].worst > bands.tip[0].likely);
    assert!(bands.tip[0].likely > Length::mm(5.0), "5 mm at a crossing are more at the tip");
    assert_eq!(rounded(Length::mm(2_853.1), five), Length::mm(2_855.0));
}

#[test]
fn an_effect_is_what_the_ring_does_when_it_is_solved_anew() {
    let layout = motley();
    let found = ring(&layout).unwrap();
    let ten = Length::mm(10.0);
    let all = effects(&layout, &found, &Errors { diameter: ten, plate: ten, eye: ten }).unwrap();
    let change = |measure: Measure, by: Length| {
        let mut off = layout.clone();
        match measure {
            Measure::Butt(place) => off.rafters[place].pole.butt = off.rafters[place].pole.butt + by,
            Measure::Tip(place) => off.rafters[place].pole.tip = off.rafters[place].pole.tip + by,
            Measure::Plate(place) => off.rafters[place].support[2] = off.rafters[place].support[2] + by,
            Measure::Eye(_) => return None,
        }
        Some(figures(&ring(&off).unwrap()))
    };
    let mut counted = 0;
    for effect in &all {
        let Some((more, less)) = change(effect.measure, ten).zip(change(effect.measure, -ten)) else { continue };
        counted += 1;
        for place in 0..9 {
            near(effect.moves.rest[place], (more.rest[place] - less.rest[place]) * 0.5, 1e-8);
            near(effect.moves.carry[place], (more.carry[place] - less.carry[place]) * 0.5, 1e-8);
            near(effect.moves.tip[place], (more.tip[place] - less.tip[place]) * 0.5, 1e-8);
        }
        near(effect.moves.eye, (more.eye - less.eye) * 0.5, 1e-8);
    }
    assert_eq!(counted, 27);
}

#[test]
fn pitches_looked_for_from_the_last_ones_are_those_of_the_ring() {
    let layout = motley();
    let alone = pitches(&layout, None).unwrap();
    let flatter: Vec<Angle> = alone.iter().map(|pitch| *pitch * 0.8).collect();
    let near = pitches(&layout, Some(&flatter)).unwrap();
    for ((set, alone), near) in ring(&layout).unwrap().sets.iter().zip(&alone).zip(&near) {
        assert!((set.pitch - *alone).in_rad().abs() < 1e-11 && (set.pitch - *near).in_rad().abs() < 1e-11);
    }
}

#[test]
fn poles_measured_where_they_were_planned_change_nothing() {
    let layout = motley();
    let found = ring(&layout).unwrap();
    let tip = |place: usize| Measured {
        place,
        along: layout.rafters[place].pole.length,
        height: found.sets[place].tip_height,
    };
    let sets = raised(&layout, &found, &[tip(2), tip(1)]).unwrap();
    for (set, planned) in sets.iter().zip(&found.sets) {
        near(set.rest, planned.rest, 1e-9);
        near(set.slack, Length::ZERO, 1e-9);
    }
    let same = ring(&as_raised(&layout, &found, &[tip(2), tip(1)]).unwrap()).unwrap();
    near(same.eye_height, found.eye_height, 1e-9);
    assert_eq!(raised(&layout, &found, &[]), Err(Fault::HeightOutOfReach(0)));
}

#[test]
fn a_first_pole_higher_than_planned_leaves_slack_for_the_last() {
    let layout = motley();
    let found = ring(&layout).unwrap();
    let prop = propped(&layout, &found, 4, Length::mm(80.0)).unwrap();
    assert_eq!(prop.order, [4, 3, 2, 1, 0, 8, 7, 6, 5]);
    near(prop.sets[4].underside, prop.top, 1e-9);
    assert!(prop.slack > Length::mm(10.0) && prop.slack < Length::mm(80.0), "{}", prop.slack.in_mm());
    for place in prop.order.iter().skip(1) {
        near(prop.sets[*place].slack, Length::ZERO, 1e-9);
        assert!(prop.sets[*place].crossing[2] > found.sets[*place].crossing[2]);
    }
    let low = propped(&layout, &found, 4, Length::mm(-20.0)).unwrap();
    assert!(low.slack < Length::ZERO);
}

#[test]
fn what_beds_deeper_on_the_way_up_lowers_the_finished_ring() {
    let layout = motley();
    let found = ring(&layout).unwrap();
    let tip = |place: usize, by: f64| Measured {
        place,
        along: layout.rafters[place].pole.length,
        height: found.sets[place].tip_height - Length::mm(by),
    };
    let deeper = as_raised(&layout, &found, &[tip(2, 0.0), tip(1, 25.0)]).unwrap();
    assert!(deeper.rafters[1].bedding > layout.rafters[1].bedding + Length::mm(5.0));
    assert!(ring(&deeper).unwrap().eye_height < found.eye_height);
}

#[test]
fn bedding_sinks_the_eye_as_the_first_order_says_and_drying_as_its_share() {
    let layout = regular(3.5, 0.75, &[pole(180.0, 180.0); 8]);
    let found = ring(&layout).unwrap();
    let [first, second] = found.sets[0].plan_lengths;
    let bed = bedded(&layout, &found, Length::mm(0.1)).unwrap();
    let sunk = found.sets[0].crossing[2] - bed.sets[0].crossing[2];
    let told = sinking(Length::mm(0.1), second, second - first).value;
    assert!((sunk / told - 1.0).abs() < 0.25, "{} {}", sunk.in_mm(), told.in_mm());
    let dry = dried(&layout, &found, Ratio::percent(3.0)).unwrap();
    let sunk = found.eye_height - dry.eye_height;
    assert!(sunk > Length::mm(30.0) && sunk < Length::mm(65.0), "{}", sunk.in_mm());
}

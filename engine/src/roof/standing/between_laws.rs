//! Laws of secondary rafters: what they take from the poles, what they lay on them, where they vanish.

use super::super::poles::laws::motley;
use super::super::poles::{Head, Leaning, Second, ring};
use super::answers::Found;
use super::laws::{TOUCHING, WOOD};
use super::*;
use crate::solve::space::{moved, size, way};
use crate::units::{Angle, Force, Length, Pressure};

const PARTS: u32 = 2000;

fn stood() -> Model {
    let mut layout = motley();
    // A bow to the side leaves the line between two places of its pole.
    layout.rafters.iter_mut().for_each(|rafter| rafter.pole.bow = Length::ZERO);
    model(&layout, &ring(&layout).unwrap(), &WOOD, &TOUCHING).unwrap()
}

fn found(between: Option<Between>) -> Vec<Found> {
    let between = between.map(Secondaries::Trimmed);
    let loading = Loading { first_half: Angle::ZERO, extras: Vec::new(), between };
    stood().answers(&loading, &[Feet::Held]).unwrap().of.remove(0).1
}

/// What all feet press upwards under one pascal on every zone.
fn on_feet(all: &[Found]) -> f64 {
    Found::together(all, &[0.0, 1.0, 1.0, 1.0, 1.0]).feet.iter().map(|foot| foot[2]).sum()
}

/// Area of the strips of a bay's secondary rafters and its moment about the plate over the way to the trimmer, by small pieces.
fn by_pieces(model: &Model, between: &Between, pole: usize) -> [f64; 2] {
    let below = model.layout.below(pole);
    let sides = [(pole, model.lies[pole].second()), (below, model.lies[below].first)];
    let on = |eaves: bool, along: f64| {
        sides.map(|(side, reach)| {
            let lie = &model.lies[side];
            let [x, y, _] = if eaves {
                moved(lie.at(lie.ends[0]), way(lie.at(lie.ends[0]), lie.at(0.0)), along)
            } else {
                moved(lie.at(0.0), way(lie.at(0.0), lie.at(reach)), along)
            };
            [x, y, 0.0]
        })
    };
    let at = |eaves: bool, along: f64, across: f64| {
        let [one, other] = on(eaves, along);
        moved(one, way(one, other), across)
    };
    let step = 1.0 / f64::from(between.count + 1);
    let (mut area, mut pressed) = (0.0, 0.0);
    for place in 1..=between.count {
        let middle = f64::from(place) * step;
        let span = size(way(at(false, 0.0, middle), at(false, between.at, middle)));
        let tail = size(way(at(true, 0.0, middle), at(true, 1.0, middle)));
        for (eaves, end) in [(false, between.at), (true, 1.0)] {
            for along in 0..PARTS {
                let along = end * (f64::from(along) + 0.5) / f64::from(PARTS);
                let lever = if eaves { -(1.0 - along) * tail / span } else { along / between.at };
                // Across the strip a bay's plan changes evenly: its middle stands for all.
                let part = end / f64::from(PARTS);
                let [ahead, back] = [along + 0.5 * part, along - 0.5 * part].map(|along| at(eaves, along, middle));
                let [left, right] = [middle - 0.5 * step, middle + 0.5 * step].map(|across| at(eaves, along, across));
                let ([x, y, _], [to_x, to_y, _]) = (way(back, ahead), way(left, right));
                let piece = (x * to_y - y * to_x).abs();
                area += piece;
                pressed += piece * lever;
            }
        }
    }
    [area, pressed]
}

#[test]
fn what_lies_on_feet_and_plate_is_the_load_on_the_whole_roof() {
    let model = stood();
    let whole = on_feet(&found(None));
    for (count, at) in [(1, 0.6), (2, 0.45), (3, 0.8)] {
        let between = Between { count, at, masses: [0.0; 2] };
        let plates: f64 = (0..9)
            .map(|pole| {
                let [area, pressed] = by_pieces(&model, &between, pole);
                area - pressed
            })
            .sum();
        let left = on_feet(&found(Some(between)));
        assert!((left + plates - whole).abs() < 1e-7 * whole, "{count}: {left} and {plates} for {whole}");
        assert!(plates > 0.15 * whole, "they take a good share from the poles' own feet");
    }
}

#[test]
fn secondary_rafters_that_hardly_leave_the_plate_change_nothing_but_the_eaves() {
    let [without, with] = [None, Some(Between { count: 1, at: 1e-3, masses: [0.0; 2] })]
        .map(|between| Found::together(&found(between), &[0.0, 1.0, 1.0, 0.0, 0.0]));
    for (one, other) in without.crossings.iter().zip(&with.crossings) {
        assert!((one[0] - other[0]).abs() < 5e-3 * one[0].abs(), "{one:?} {other:?}");
    }
}

#[test]
fn what_a_trimmer_lays_on_its_poles_turns_about_their_feet_as_the_load_did_that_they_no_longer_carry() {
    let push = |between: Option<Between>| -> f64 {
        let all = Found::together(&found(between), &[0.0, 1.0, 1.0, 0.0, 0.0]);
        all.crossings.iter().map(|crossing| crossing[0].abs()).sum()
    };
    // R l = ∫ q x dx is the moment about the plate on both sides: the crossings feel little of the exchange.
    for at in [0.3, 0.5, 0.7] {
        let [with, without] = [Some(Between { count: 1, at, masses: [0.0; 2] }), None].map(push);
        assert!((with / without - 1.0).abs() < 0.02, "{at}: {with} for {without}");
    }
}

#[test]
fn their_weight_lies_on_trimmer_and_plate_as_on_two_supports() {
    let weights = |masses: [f64; 2]| -> f64 {
        let of = found(Some(Between { count: 2, at: 0.6, masses }));
        of[0].feet.iter().map(|foot| foot[2]).sum()
    };
    let model = stood();
    let between = Between { count: 2, at: 0.6, masses: [3.0, 0.0] };
    let mut told = 0.0;
    for pole in 0..9 {
        for [eave, plate, end] in between.trimmed_on(&model.layout, &model.lies, pole).rafters {
            let [tail, span] = [size(way(eave, plate)), size(way(plate, end))];
            told += 3.0 * 9.806_65 * (span + tail) * (0.5 * (span + tail) - tail) / span;
        }
    }
    let own = weights([0.0; 2]);
    assert!((weights([3.0, 0.0]) - own - told).abs() < 1e-6 * told);
    let trimmers: f64 = (0..9)
        .map(|pole| {
            let [one, other] = between.trimmed_on(&model.layout, &model.lies, pole).trimmer;
            4.0 * 9.806_65 * size(way(one, other))
        })
        .sum();
    assert!((weights([0.0, 4.0]) - own - trimmers).abs() < 1e-6 * trimmers);
}

/// A second ring on those poles, its butts on the round plate half-way between theirs.
fn leaning() -> Vec<Leaning> {
    let model = stood();
    let (layout, count) = (&model.layout, model.lies.len());
    let half_way = |bay: usize| {
        let [one, other] = [bay, layout.below(bay)].map(|pole| layout.rafters[pole].support.map(Length::in_m));
        let [x, y, up] = moved(one, way(one, other), 0.5);
        let out = one[0].hypot(one[1]) / x.hypot(y);
        [x * out, y * out, up].map(Length::m)
    };
    let mean = |bay: usize| (layout.rafters[bay].overhang + layout.rafters[layout.below(bay)].overhang) * 0.5;
    let second = Second {
        diameter: Length::mm(120.0),
        seat: Length::mm(10.0),
        let_in: Length::ZERO,
        beyond: Length::mm(100.0),
        head: Head::Share(0.6),
        supports: (0..count).map(half_way).collect(),
        overhangs: (0..count).map(mean).collect(),
    };
    second.laid(layout, &ring(layout).unwrap()).unwrap()
}

fn second(mass: f64) -> SecondRing {
    let (model, all) = (stood(), leaning());
    let rafters = all.iter().enumerate().map(|(bay, one)| Resting::of(one, &model.layout, bay)).collect();
    SecondRing { across: 0.5, rafters, beyond: 0.1, mass, cut: [0.12, 0.0], hole: 0.0 }
}

fn with_second(own: SecondRing) -> Vec<Found> {
    let loading = Loading { first_half: Angle::ZERO, extras: Vec::new(), between: Some(Secondaries::OnPoles(own)) };
    stood().answers(&loading, &[Feet::Held]).unwrap().of.remove(0).1
}

#[test]
fn what_lies_on_feet_and_plate_under_a_second_ring_is_the_load_on_the_whole_roof() {
    let model = stood();
    let (own, all) = (second(0.0), leaning());
    // By small pieces of the bay: what lies nearer to the rafter than to either pole, and how it turns about where that lies on the
    // round plate.
    let plates: f64 = (0..9)
        .map(|pole| {
            let below = model.layout.below(pole);
            let sides = [(pole, model.lies[pole].second()), (below, model.lies[below].first)];
            let plan = |along: f64, across: f64| {
                let [one, other] = sides.map(|(side, reach)| {
                    let lie = &model.lies[side];
                    let [x, y, _] = if along < 0.0 { lie.at(-along * lie.ends[0]) } else { lie.at(along * reach) };
                    [x, y, 0.0]
                });
                moved(one, way(one, other), across)
            };
            let (foot, head) = (all[pole].axis[1], all[pole].axis[2]);
            let axis = |along: f64| own.across + (1.0 - own.across) * along.max(0.0) / all[pole].share;
            let [run, aside, _] = way(foot, head);
            let lever =
                |[x, y, _]: [f64; 3]| ((x - foot[0]) * run + (y - foot[1]) * aside) / (run * run + aside * aside);
            let (steps, strips) = (300, 60);
            let mut sum = 0.0;
            for (from, to) in [(0.0, all[pole].share), (-1.0, 0.0)] {
                let part = (to - from) / f64::from(steps);
                for step in 0..steps {
                    let along = from + part * (f64::from(step) + 0.5);
                    let (start, wide) = (0.5 * axis(along), 0.5 / f64::from(strips));
                    for strip in 0..strips {
                        let across = start + wide * (f64::from(strip) + 0.5);
                        let [ahead, back] = [0.5, -0.5].map(|half| plan(along + half * part, across));
                        let [left, right] = [0.5, -0.5].map(|half| plan(along, across + half * wide));
                        let ([x, y, _], [to_x, to_y, _]) = (way(back, ahead), way(left, right));
                        sum += (x * to_y - y * to_x).abs() * (1.0 - lever(plan(along, across)));
                    }
                }
            }
            sum
        })
        .sum();
    let (whole, left) = (on_feet(&found(None)), on_feet(&with_second(own)));
    assert!((left + plates - whole).abs() < 2e-3 * whole, "{left} and {plates} for {whole}");
    assert!(plates > 0.15 * whole);
}

#[test]
fn the_weight_of_a_second_ring_lies_on_plate_and_poles_as_on_two_supports() {
    let weights = |mass: f64| with_second(second(mass))[0].feet.iter().map(|foot| foot[2]).sum::<f64>();
    let told: f64 = leaning()
        .iter()
        .map(|one| {
            let [tail, span, _] = one.lengths.map(Length::in_m);
            3.0 * 9.806_65 * (tail + span + 0.1) * (0.5 * (span + 0.1 - tail)) / span
        })
        .sum();
    assert!((weights(3.0) - weights(0.0) - told).abs() < 1e-6 * told);
}

#[test]
fn an_axis_beside_the_poles_of_a_bay_is_where_the_rafter_lies() {
    let (model, own) = (stood(), second(0.0));
    for (bay, one) in leaning().iter().enumerate() {
        let found = own.axis(&model.layout, &model.lies, bay);
        for (found, told) in found.iter().zip(&one.axis) {
            assert!(size(way(*found, *told)) < 1e-9, "{bay}: {found:?} for {told:?}");
        }
    }
}

/// The sections of a pole just before and just after the rafter of a second ring that rests on it, under its own weight.
fn beside_its_seat(model: &Model, answers: &Answers, pole: usize) -> [Section; 2] {
    let weight = Combination { name: String::new(), weight: 1.0, areas: [Pressure::ZERO; 4], extras: Vec::new() };
    let all = answers.sections(pole, Feet::Held, &weight).unwrap();
    let seat = model.bears_at(pole).unwrap();
    let near: Vec<Section> = all.into_iter().filter(|one| (one.along - seat).in_m().abs() < 1e-9).collect();
    near.try_into().unwrap()
}

#[test]
fn each_pole_is_bent_at_a_stop_where_a_rafter_rests_by_what_that_presses() {
    let own = second(3.0);
    let between = Some(Secondaries::OnPoles(own.clone()));
    let model = stood().bearing(between.as_ref());
    let loading = Loading { first_half: Angle::ZERO, extras: Vec::new(), between };
    let answers = model.answers(&loading, &[Feet::Held]).unwrap();
    for (bay, presses) in model.presses(&own, Angle::ZERO).iter().enumerate() {
        let [before, after] = beside_its_seat(&model, &answers, model.layout.below(bay));
        let jump = |part: fn(&Section) -> Force| (part(&after) - part(&before)).in_n();
        let [along, one, other] = [jump(|at| at.pull), jump(|at| at.shear[0]), jump(|at| at.shear[1])];
        let whole = (along * along + one * one + other * other).sqrt();
        assert!((whole - presses[0].in_n()).abs() < 1e-6 * presses[0].in_n(), "{bay}: {whole} for {:?}", presses[0]);
        assert!((after.upright - before.upright).in_n_m().abs() < 1e-6 * before.upright.in_n_m().abs());
    }
}

#[test]
fn a_stop_at_the_seat_moves_nothing_and_a_housing_there_lets_the_poles_sag_further() {
    let sunk = |model: &Model, own: SecondRing| {
        let loading = Loading { first_half: Angle::ZERO, extras: Vec::new(), between: Some(Secondaries::OnPoles(own)) };
        let found = model.answers(&loading, &[Feet::Held]).unwrap().of.remove(0).1;
        Found::together(&found, &[1.0; 5]).sags.iter().map(|sags| sags[3]).sum::<f64>()
    };
    let with = |depth: f64| {
        let own = SecondRing { cut: [0.12, depth], ..second(3.0) };
        sunk(&stood().bearing(Some(&Secondaries::OnPoles(own.clone()))), own)
    };
    let (without, whole, cut) = (sunk(&stood(), second(3.0)), with(0.0), with(0.04));
    assert!((whole - without).abs() < 2e-3 * without, "{whole} for {without}");
    assert!(cut > 1.001 * whole && cut < 1.3 * whole, "{cut} for {whole}");
}

//! Laws of a ring of poles: what must follow when the whole of it is turned, mirrored, enlarged, or one pole is thicker.

use std::f64::consts::{FRAC_PI_2, TAU};

use super::*;
use crate::roof as closed;
use crate::units::{Angle, Length};

pub(in crate::roof) fn pole(butt_mm: f64, tip_mm: f64) -> Pole {
    let mm = Length::mm;
    Pole { length: Length::m(3.9), butt: mm(butt_mm), tip: mm(tip_mm), bow: Length::ZERO, bow_turn: Angle::ZERO }
}

fn laid(pole: Pole, [x, y, z]: [f64; 3], [to_x, to_y]: [f64; 2]) -> Rafter {
    let m = Length::m;
    Rafter {
        pole,
        support: [m(x), m(y), m(z)],
        rests: Rests::Axis,
        toward: [m(to_x), m(to_y)],
        overhang: Length::ZERO,
        notch: Length::ZERO,
        bedding: Length::ZERO,
        beyond: Length::mm(50.0),
    }
}

/// Poles round a regular eye, on a level ring.
pub(in crate::roof) fn regular(outer: f64, eye: f64, poles: &[Pole]) -> Layout {
    let count = poles.len();
    let corner = |at: f64| {
        let angle = TAU * at / count as f64;
        [eye * angle.cos(), eye * angle.sin()]
    };
    let run = closed::to_first_crossing(count as u64, Length::m(outer), Length::m(eye)).value.in_m();
    let rafter = |(place, &pole): (usize, &Pole)| {
        let (first, second) = (corner(place as f64), corner(place as f64 + 1.0));
        let side = (second[0] - first[0]).hypot(second[1] - first[1]);
        let back = |axis: usize| first[axis] - run * (second[axis] - first[axis]) / side;
        laid(pole, [back(0), back(1), 0.0], second)
    };
    Layout { rafters: poles.iter().enumerate().map(rafter).collect(), rests_on: RestsOn::Next }
}

/// Nine unequal bowed poles with notches, on the top of a plate out of level.
pub(in crate::roof) fn motley() -> Layout {
    let sizes = [
        (205., 160.),
        (190., 150.),
        (215., 170.),
        (200., 150.),
        (180., 155.),
        (210., 165.),
        (195., 150.),
        (220., 170.),
        (185., 150.),
    ];
    let poles: Vec<Pole> = sizes.iter().map(|&(butt, tip)| pole(butt, tip)).collect();
    let mut layout = regular(2.6, 0.9, &poles);
    for (place, rafter) in layout.rafters.iter_mut().enumerate() {
        let wave = (place as f64).sin();
        rafter.pole.bow = Length::mm(25.0 + 20.0 * wave);
        rafter.pole.bow_turn = Angle::rad(wave);
        rafter.support[2] = Length::mm(15.0 * wave);
        rafter.rests = Rests::Top(Length::mm(10.0));
        rafter.overhang = Length::mm(400.0 + 30.0 * wave);
        rafter.notch = Length::mm(20.0 + 5.0 * wave);
        rafter.bedding = Length::mm(2.0);
    }
    layout
}

#[track_caller]
pub(in crate::roof) fn near(found: Length, expected: Length, within_m: f64) {
    assert!((found - expected).abs().in_m() < within_m, "{} m is not {} m", found.in_m(), expected.in_m());
}

#[test]
fn equal_poles_on_a_level_ring_are_the_closed_form() {
    for count in 3..=24_u64 {
        for (outer, eye, thick) in [(3.0, 0.7, 0.06), (5.0, 1.2, 0.12)] {
            let layout = regular(outer, eye, &vec![pole(1000.0 * thick, 1000.0 * thick); count as usize]);
            let ring = ring(&layout).unwrap();
            let pitch = closed::pitch(count, Length::m(eye), Length::m(thick)).value;
            let offset = closed::crossing_offset(count, Length::m(thick), pitch).value;
            let shift = closed::contact_shift(count, offset, pitch).value;
            let first = closed::to_first_crossing(count, Length::m(outer), Length::m(eye)).value;
            let whole = first + closed::between_crossings(count, Length::m(eye)).value;
            for set in &ring.sets {
                assert!((set.pitch.in_rad() - pitch.in_rad()).abs() < 1e-10, "{count}");
                near(set.rest, closed::axis_length(whole, pitch).value - shift, 1e-9);
                near(set.carry, closed::axis_length(first, pitch).value + shift, 1e-9);
                near(set.crossing[2], closed::crossing_height(whole, pitch).value, 1e-9);
                near(set.axis_distance, Length::m(thick), 1e-9);
            }
        }
    }
}

#[test]
fn every_pole_touches_the_one_below_and_no_gap_is_left() {
    let layout = motley();
    let ring = ring(&layout).unwrap();
    assert_eq!(ring.faults, []);
    for (place, set) in ring.sets.iter().enumerate() {
        let below = &ring.sets[layout.below(place)];
        let apart = (0..3).map(|axis| (set.rest_at[axis] - below.carry_at[axis]).in_m().powi(2)).sum::<f64>().sqrt();
        let rafter = &layout.rafters[place];
        let touching = (set.rest_diameter + below.carry_diameter) * 0.5 - rafter.notch - rafter.bedding;
        near(Length::m(apart), touching, 1e-9);
        near(set.slack, Length::ZERO, 1e-9);
        assert!(set.rest_at[2] > below.carry_at[2]);
    }
}

fn turned(layout: &Layout, angle: f64) -> Layout {
    let (sine, cosine) = angle.sin_cos();
    let spin = |[x, y]: [Length; 2]| [x * cosine - y * sine, x * sine + y * cosine];
    let mut layout = layout.clone();
    for rafter in &mut layout.rafters {
        let [x, y, z] = rafter.support;
        let [x, y] = spin([x, y]);
        (rafter.support, rafter.toward) = ([x, y, z], spin(rafter.toward));
    }
    layout
}

#[test]
fn turning_the_plan_changes_no_mark_and_turns_the_contacts() {
    let layout = motley();
    let (one, other) = (ring(&layout).unwrap(), ring(&turned(&layout, 1.1)).unwrap());
    for (set, other) in one.sets.iter().zip(&other.sets) {
        near(set.rest, other.rest, 1e-9);
        near(set.carry, other.carry, 1e-9);
        near(set.tip_height, other.tip_height, 1e-9);
        let [x, y, _] = set.rest_at;
        near(other.rest_at[0], x * 1.1_f64.cos() - y * 1.1_f64.sin(), 1e-9);
    }
}

#[test]
fn mirroring_the_plan_and_the_hand_changes_no_mark() {
    let layout = motley();
    let mut mirrored = layout.clone();
    for rafter in &mut mirrored.rafters {
        rafter.support[0] = -rafter.support[0];
        rafter.toward[0] = -rafter.toward[0];
        rafter.pole.bow_turn = -rafter.pole.bow_turn;
    }
    mirrored.rafters.reverse();
    mirrored.rests_on = RestsOn::Before;
    let (one, other) = (ring(&layout).unwrap(), ring(&mirrored).unwrap());
    for (set, other) in one.sets.iter().zip(other.sets.iter().rev()) {
        near(set.rest, other.rest, 1e-9);
        near(set.carry, other.carry, 1e-9);
        near(set.rest_at[0], -other.rest_at[0], 1e-9);
        near(set.rest_at[1], other.rest_at[1], 1e-9);
    }
    mirrored.rests_on = RestsOn::Next;
    assert!(matches!(ring(&mirrored), Err(Fault::NotRoundTheEye(_))));
}

#[test]
fn all_lengths_doubled_double_all_lengths() {
    let layout = motley();
    let mut doubled = layout.clone();
    for rafter in &mut doubled.rafters {
        let twice = |length: Length| length * 2.0;
        let pole = rafter.pole;
        rafter.pole = Pole {
            length: twice(pole.length),
            butt: twice(pole.butt),
            tip: twice(pole.tip),
            bow: twice(pole.bow),
            ..pole
        };
        (rafter.support, rafter.toward) = (rafter.support.map(twice), rafter.toward.map(twice));
        (rafter.overhang, rafter.notch, rafter.bedding) =
            (twice(rafter.overhang), twice(rafter.notch), twice(rafter.bedding));
        rafter.rests = Rests::Top(Length::mm(20.0));
    }
    let (one, other) = (ring(&layout).unwrap(), ring(&doubled).unwrap());
    for (set, other) in one.sets.iter().zip(&other.sets) {
        assert!((set.pitch - other.pitch).abs().in_rad() < 1e-9);
        near(set.rest * 2.0, other.rest, 1e-8);
        near(set.underside * 2.0, other.underside, 1e-8);
    }
}

#[test]
fn ten_millimetres_more_on_one_pole_move_marks_and_prop() {
    let layout = motley();
    let mut thicker = layout.clone();
    thicker.rafters[3].pole.butt = layout.rafters[3].pole.butt + Length::mm(10.0);
    thicker.rafters[3].pole.tip = layout.rafters[3].pole.tip + Length::mm(10.0);
    let (one, other) = (ring(&layout).unwrap(), ring(&thicker).unwrap());
    for (place, (set, other)) in one.sets.iter().zip(&other.sets).enumerate() {
        assert!((set.rest - other.rest).abs() > Length::mm(0.01), "pole {place}");
        assert!(other.crossing[2] > set.crossing[2], "pole {place}");
    }
    let top = |layout: &Layout, ring: &Ring| propped(layout, ring, 0, Length::mm(60.0)).unwrap().top;
    assert!(top(&thicker, &other) > top(&layout, &one) + Length::mm(1.0));
}

#[test]
fn a_bow_upright_lifts_the_pole_between_its_ends_and_moves_the_marks_of_its_neighbour() {
    let straight = regular(2.6, 0.9, &[pole(200.0, 200.0); 9]);
    let mut bowed = straight.clone();
    bowed.rafters[4].pole.bow = Length::mm(40.0);
    let (one, other) = (ring(&straight).unwrap(), ring(&bowed).unwrap());
    assert!(other.sets[3].crossing[2] > one.sets[3].crossing[2], "the pole that rests on the bow");
    assert!((other.sets[4].carry - one.sets[4].carry).abs() > Length::mm(0.1));
}

#[test]
fn an_oval_eye_and_a_square_plate_make_a_ring() {
    let m = Length::m;
    let plate =
        [(-3.0, -2.5, 0.0), (3.0, -2.5, 0.05), (3.0, 2.5, 0.1), (-3.0, 2.5, 0.05)].map(|(x, y, z)| [m(x), m(y), m(z)]);
    let corners: Vec<[Length; 2]> = (0..11)
        .map(|at| TAU * f64::from(at) / 11.0)
        .map(|angle| [m(1.1 * angle.cos()), m(0.85 * angle.sin())])
        .collect();
    for rests_on in [RestsOn::Next, RestsOn::Before] {
        let found = supports(&plate, &corners, rests_on).unwrap();
        let rafters: Vec<Rafter> = found
            .iter()
            .map(|(support, toward)| Rafter {
                support: *support,
                toward: *toward,
                ..laid(pole(160.0, 130.0), [0.0; 3], [0.0; 2])
            })
            .collect();
        for rafter in &rafters {
            let on_side = (rafter.support[0].abs().in_m() - 3.0).abs() < 1e-9
                || (rafter.support[1].abs().in_m() - 2.5).abs() < 1e-9;
            assert!(on_side);
        }
        let ring = ring(&Layout { rafters, rests_on }).unwrap();
        assert!(ring.sets.iter().all(|set| set.slack.abs().in_m() < 1e-9));
        assert!(ring.eye_radius > m(0.9) && ring.eye_radius < m(1.1));
    }
    assert_eq!(supports(&plate[..1], &corners, RestsOn::Next), Err(Fault::NoPlate(0)));
}

#[test]
fn what_cannot_close_says_the_limit_and_what_is_out_of_level_says_where() {
    let thick = regular(3.0, 0.1, &[pole(200.0, 200.0); 6]);
    match ring(&thick) {
        Err(Fault::NotClosing { apart, most }) => {
            near(apart, Length::mm(200.0), 1e-12);
            near(most, Length::m(0.1 * (TAU / 6.0).sin()), 1e-12);
        }
        other => panic!("{other:?}"),
    }
    let mut tilted = regular(3.0, 0.6, &[pole(150.0, 150.0); 8]);
    tilted.rafters[2].support[2] = Length::m(2.0);
    match ring(&tilted) {
        Err(Fault::PlateOutOfReach { place, above_mean }) => assert_eq!((place, above_mean), (2, Length::m(1.75))),
        other => panic!("{other:?}"),
    }
    assert_eq!(ring(&regular(3.0, 0.6, &[pole(150.0, 150.0); 2])), Err(Fault::TooFew(2)));
}

#[test]
fn a_ring_closes_just_where_the_closed_form_does() {
    for count in [3_usize, 5, 9, 16] {
        let limit = closed::eye_radius_for_pitch(count as u64, Length::mm(150.0), Angle::rad(FRAC_PI_2)).value.in_m();
        for (share, closing) in [(0.99, false), (1.02, true)] {
            let found = ring(&regular(4.0, share * limit, &vec![pole(150.0, 150.0); count]));
            assert_eq!(found.is_ok(), closing, "{count} {found:?}");
        }
    }
}

#[test]
fn a_short_pole_is_told_its_length() {
    let mut layout = motley();
    let full = ring(&layout).unwrap();
    let wanted = full.sets[5].rest + layout.rafters[5].beyond;
    let rafter = &mut layout.rafters[5];
    let short = wanted - Length::mm(30.0);
    // The same pole, cut off: its taper is kept.
    rafter.pole.tip = rafter.pole.diameter(short);
    rafter.pole.bow = Length::ZERO;
    rafter.pole.length = short;
    let faults = ring(&layout).unwrap().faults;
    assert!(matches!(faults[..], [Fault::TooShort { place: 5, length, .. }] if length == short), "{faults:?}");
}

#[test]
fn a_pole_bowed_into_another_is_said_to_clash() {
    let mut layout = regular(3.0, 0.5, &[pole(100.0, 100.0); 7]);
    assert_eq!(ring(&layout).unwrap().faults, []);
    layout.rafters[3].pole.bow = Length::m(0.9);
    assert!(ring(&layout).unwrap().faults.iter().any(|fault| matches!(fault, Fault::Clash { .. })));
}

#[test]
fn notches_for_a_pitch_give_that_pitch() {
    let mut layout = motley();
    for rafter in &mut layout.rafters {
        rafter.pole.bow = Length::ZERO;
    }
    let notches = notches_for_pitch(&layout, Angle::deg(20.0)).unwrap();
    layout.rafters.iter_mut().zip(&notches).for_each(|(rafter, notch)| rafter.notch = *notch);
    assert!(ring(&layout).unwrap().sets.iter().all(|set| (set.pitch.in_deg() - 20.0).abs() < 1e-8));
}

#[test]
fn a_bowed_axis_leaves_the_string_from_butt_to_tip_by_its_bow_and_passes_over_its_crossing() {
    let layout = motley();
    let courses = plan::courses(&layout).unwrap();
    for (rafter, course) in layout.rafters.iter().zip(&courses) {
        let lie = lie::Lie::new(rafter, course, 0.35);
        let [butt, tip] = lie.ends.map(|end| lie.at(end));
        let middle = lie.at(0.5 * (lie.ends[0] + lie.ends[1]));
        let off = (0..3).map(|axis| (middle[axis] - 0.5 * (butt[axis] + tip[axis])).powi(2)).sum::<f64>().sqrt();
        near(Length::m(off), rafter.pole.bow, 1e-12);
        let over = lie.at(lie.second());
        near(Length::m(over[0]), rafter.support[0] + Length::m(course.second * course.direction[0]), 1e-12);
    }
}

#[test]
fn no_other_places_of_two_bowed_poles_are_nearer_than_their_contact() {
    let layout = motley();
    let courses = plan::courses(&layout).unwrap();
    let lies: Vec<lie::Lie> =
        layout.rafters.iter().zip(&courses).map(|(rafter, course)| lie::Lie::new(rafter, course, 0.35)).collect();
    for (place, upper) in lies.iter().enumerate() {
        let lower = &lies[layout.below(place)];
        let met = contact::contact(upper, lower).unwrap();
        for step in -20..=20 {
            for also in -20..=20 {
                let (one, other) =
                    (upper.at(met.upper + 0.01 * f64::from(step)), lower.at(met.lower + 0.01 * f64::from(also)));
                let apart = (0..3).map(|axis| (one[axis] - other[axis]).powi(2)).sum::<f64>().sqrt();
                assert!(apart >= met.apart.abs() - 1e-12, "{place} {step} {also}");
            }
        }
    }
}

#[test]
fn rings_of_all_sizes_up_to_three_quarters_of_what_the_eye_takes_close() {
    let mut state = 5_u64;
    let mut draw = |from: f64, to: f64| {
        state = state.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
        from + (to - from) * ((state >> 40) as f64 / (1_u64 << 24) as f64)
    };
    for trial in 0..500 {
        let count = draw(3.0, 25.0) as usize;
        let (outer, eye) = (draw(2.5, 5.0), draw(0.5, 1.4));
        let most = 750.0 * eye * (TAU / count as f64).sin();
        let thick = draw(0.2, 1.0) * most;
        let poles: Vec<Pole> = (0..count)
            .map(|_| Pole {
                bow: Length::mm(draw(0.0, 30.0)),
                bow_turn: Angle::rad(draw(-2.0, 2.0)),
                ..pole(draw(0.9, 1.0) * thick, draw(0.85, 0.95) * thick)
            })
            .collect();
        let mut layout = regular(outer, eye, &poles);
        layout.rafters.iter_mut().for_each(|rafter| rafter.support[2] = Length::mm(draw(-20.0, 20.0)));
        let found = ring(&layout);
        assert!(found.is_ok(), "{trial}: {count} poles of {thick} mm, eye {eye}: {found:?}");
    }
}

//! Laws of a ring that stands: closed forms, what must balance, what must follow when it is mirrored or stiffened.

use super::super::poles::laws::{motley, pole, regular};
use super::super::poles::{self, Layout, Pole, RestsOn, ring};
use super::answers::{Found, factors};
use super::*;
use crate::roof as closed;
use crate::units::{Angle, Density, Force, Length, LineLoad, Pressure};

pub(super) const WOOD: Wood =
    Wood { young: Pressure::mpa(10_000.0), shear: Pressure::mpa(600.0), density: Density::kg_m3(600.0) };
const PLUMB: Joints = Joints { passing: Passing::Plumb { push: LineLoad::n_m(6.826_194_176_4e9) }, upper_share: 0.5 };
pub(super) const TOUCHING: Joints =
    Joints { passing: Passing::Touching { push: LineLoad::n_m(1e8), tie: LineLoad::n_m(1e7) }, upper_share: 0.5 };

fn stood(layout: &Layout, wood: &Wood, joints: &Joints) -> Model {
    model(layout, &ring(layout).unwrap(), wood, joints).unwrap()
}

fn under(name: &str, weight: f64, areas: [f64; 4], extras: &[f64]) -> Combination {
    Combination { name: name.into(), weight, areas: areas.map(Pressure::pa), extras: extras.to_vec() }
}

fn no_extras() -> Loading {
    Loading { first_half: Angle::ZERO, extras: Vec::new(), between: None }
}

/// A load of one newton on each metre in plan of every pole, from its support to where it rests in plan.
fn along_in_plan(model: &Model) -> Loading {
    let load = |pole: usize| {
        let (lie, rafter) = (&model.lies[pole], &model.layout.rafters[pole]);
        let [x, y, _] = lie.way(0.0);
        let end = rafter.overhang + Length::m(lie.second());
        OnPole::Line { pole, span: [rafter.overhang, end], down: [LineLoad::n_m(x.hypot(y)); 2] }
    };
    let loads = (0..model.lies.len()).map(load).collect();
    Loading { first_half: Angle::ZERO, extras: vec![Extra { name: "line".into(), loads }], between: None }
}

fn found(model: &Model, feet: Feet, loading: &Loading) -> Vec<Found> {
    let mut answers = model.answers(loading, &[feet]).unwrap();
    answers.of.remove(0).1
}

fn relative(found: f64, told: f64) -> f64 {
    (found / told - 1.0).abs()
}

#[test]
fn plumb_forces_of_equal_poles_are_those_of_the_closed_forms() {
    for (count, outer, eye, thick) in [(5, 2.5, 0.5, 140.0), (9, 2.75, 0.65, 130.0), (12, 4.0, 1.0, 160.0)] {
        let long = Pole { length: Length::m(5.0), ..pole(thick, thick) };
        let model = stood(&regular(outer, eye, &vec![long; count]), &WOOD, &PLUMB);
        let answers = model.answers(&along_in_plan(&model), &[Feet::Held]).unwrap();
        let most = answers.envelope(&[under("line", 0.0, [0.0; 4], &[1000.0])]).unwrap();
        let (count, outer, eye) = (count as u64, Length::m(outer), Length::m(eye));
        let between = closed::between_crossings(count, eye).value;
        let whole = closed::plan_length(closed::to_first_crossing(count, outer, eye).value, between).value;
        let load = Force::n(1000.0);
        let push = closed::crossing_force_line_load(load, whole, between).value;
        let moment = closed::moment_at_first_crossing_line_load_n_m(load, whole, between).value;
        for place in 0..most.poles.len() {
            let own = &most.poles[place];
            assert!(relative(most.crossings[place].push.value.in_n(), push.in_n()) < 1e-8);
            assert!(relative(own.carry.moment.value.in_n_m(), moment) < 1e-8);
            assert!(
                relative(own.anywhere.moment.value.in_n_m(), moment) < 1e-8,
                "nowhere more than at the first crossing"
            );
            assert!(relative(most.feet[place].up.value.in_n(), (load * whole.in_m()).in_n()) < 1e-8);
            assert!(most.feet[place].held.value.in_n() < 1e-6 * push.in_n(), "no thrust");
        }
    }
}

#[test]
fn unequal_poles_on_an_uneven_plate_pass_on_plumb_what_statics_says() {
    let mut layout = motley();
    layout.rafters.iter_mut().for_each(|rafter| rafter.pole.bow = Length::ZERO);
    let model = stood(&layout, &WOOD, &PLUMB);
    let load =
        |at: usize| poles::Load { force: Force::n(500.0 + 90.0 * at as f64), at: Length::m(0.3 + 0.15 * at as f64) };
    let on = |(pole, rafter): (usize, &poles::Rafter)| {
        let [x, y, _] = model.lies[pole].way(0.0);
        OnPole::Point { pole, at: rafter.overhang + load(pole).at / x.hypot(y), down: load(pole).force }
    };
    let extra = Extra { name: "heaps".into(), loads: layout.rafters.iter().enumerate().map(on).collect() };
    let loading = Loading { first_half: Angle::ZERO, extras: vec![extra], between: None };
    let heaps = &found(&model, Feet::Held, &loading)[5];
    let loads: Vec<poles::Load> = (0..9).map(load).collect();
    for (place, passed) in poles::passed(&layout, &ring(&layout).unwrap(), &loads).into_iter().enumerate() {
        assert!(relative(heaps.crossings[place][0], passed.crossing.in_n()) < 1e-7);
        assert!((heaps.feet[place][2] - passed.support.in_n()).abs() < 1e-7 * passed.crossing.in_n());
    }
}

#[test]
fn five_poles_sink_as_the_same_frame_does_elsewhere() {
    // Reciprocal frame as a space frame, own reference solution: frame RF5.
    let long = Pole { length: Length::m(2.845_406_2), ..pole(140.0, 140.0) };
    let mut layout = regular(2.5, 0.5, &[long; 5]);
    layout.rafters.iter_mut().for_each(|rafter| rafter.beyond = Length::ZERO);
    let model = stood(&layout, &WOOD, &PLUMB);
    let answers = model.answers(&along_in_plan(&model), &[Feet::Held]).unwrap();
    let most = answers.envelope(&[under("line", 0.0, [0.0; 4], &[1000.0])]).unwrap();
    let sunk = most.poles[0].sag_tip.value.in_m();
    assert!((sunk - 0.044_962_449_249_308).abs() < 1e-8, "{sunk}");
    assert!(relative(most.crossings[0].push.value.in_n(), 6_484.379_930_148_568) < 1e-8);
    assert!(relative(most.poles[0].carry.moment.value.in_n_m(), 3_638.677_141_796_364) < 1e-8);
}

#[test]
fn poles_that_touch_on_sliding_feet_pass_plumb_forces_through_the_contacts() {
    let long = Pole { length: Length::m(3.2), ..pole(140.0, 140.0) };
    let model = stood(&regular(2.5, 0.5, &[long; 5]), &WOOD, &TOUCHING);
    let found = &found(&model, Feet::Sliding, &along_in_plan(&model))[5];
    let built = model.build(&model.whole(Feet::Sliding)).unwrap();
    let (lie, row) = (&model.lies[0], built.rows[0].as_ref().unwrap());
    let [x, y, _] = lie.way(0.0);
    let level = x.hypot(y);
    let foot = lie.at(0.0);
    let lever = |link: usize| {
        let at = built.frame.links[link].contact;
        ((at[0] - foot[0]) * x + (at[1] - foot[1]) * y) / level
    };
    let carried = built.rows[model.layout.above(0)].as_ref().unwrap().rests.unwrap();
    let plan = lie.second() * level;
    let plumb = 0.5 * plan * plan / (lever(row.rests.unwrap()) - lever(carried));
    let [push, one, other] = found.crossings[0];
    assert!(relative(push.hypot(one.hypot(other)), plumb) < 1e-6, "F (a₂ − a₁) = w x²/2");
    // Friction needed: the tangent of the angle between the normal and the plumb line; 0.308062961935 in the same derivation.
    assert!((one.hypot(other) / push - 0.308_062_961_935).abs() < 1e-6);
    assert!(found.feet[0][0].abs() < 1e-6 * plumb && found.feet[0][1].abs() < 1e-3 * plumb);
}

#[test]
fn the_feet_carry_the_load_and_the_bays_cover_the_roof() {
    let layout = motley();
    let model = stood(&layout, &WOOD, &TOUCHING);
    let outline = |at: &dyn Fn(&poles::Lie) -> [f64; 3]| {
        let corners: Vec<[f64; 3]> = model.lies.iter().map(at).collect();
        let next = corners.iter().cycle().skip(1);
        corners.iter().zip(next).map(|(one, other)| 0.5 * (one[0] * other[1] - one[1] * other[0])).sum::<f64>()
    };
    let [butts, plate, eye] =
        [outline(&|lie| lie.at(lie.ends[0])), outline(&|lie| lie.at(0.0)), outline(&|lie| lie.at(lie.second()))];
    for feet in Feet::BOTH {
        let found = found(&model, feet, &no_extras());
        let up = |case: usize| found[case].feet.iter().map(|foot| foot[2]).sum::<f64>();
        assert!(relative(up(1) + up(2), plate - eye) < 1e-9, "{} {}", up(1) + up(2), plate - eye);
        assert!(relative(up(3) + up(4), butts - plate) < 1e-9);
        assert!((1..5).all(|zone| up(zone) > 0.0 && up(0) + up(zone) > up(0)));
    }
}

#[test]
fn the_feet_carry_the_weight_of_whole_poles() {
    let poles: Vec<Pole> = (0..9).map(|at| pole(180.0 + 5.0 * f64::from(at), 140.0)).collect();
    let model = stood(&regular(2.6, 0.9, &poles), &WOOD, &TOUCHING);
    let own = |pole: &Pole| poles::tapered_volume(pole.butt, pole.tip, pole.length).value.in_m3();
    let weight = 600.0 * closed::STANDARD_GRAVITY_M_S2 * poles.iter().map(own).sum::<f64>();
    let up: f64 = found(&model, Feet::Held, &no_extras())[0].feet.iter().map(|foot| foot[2]).sum();
    assert!(relative(up, weight) < 1e-9, "{up} {weight}");
}

#[test]
fn a_load_on_the_eaves_relieves_the_first_crossing_and_lifts_no_less_off_the_crossings() {
    let model = stood(&motley(), &WOOD, &TOUCHING);
    let answers = model.answers(&no_extras(), &Feet::BOTH).unwrap();
    let at_carry = |areas: [f64; 4]| {
        let sections = answers.sections(2, Feet::Held, &under("one", 0.0, areas, &[])).unwrap();
        let carry = model.marks[2][1];
        sections.iter().find(|section| (section.along.in_m() - carry).abs() < 1e-9).unwrap().upright.in_n_m()
    };
    let (inside, eaves) = (at_carry([1000.0, 1000.0, 0.0, 0.0]), at_carry([0.0, 0.0, 1000.0, 1000.0]));
    assert!(inside > 0.0 && eaves < 0.0, "{inside} {eaves}");
    let both = at_carry([1000.0; 4]);
    assert!((both - inside - eaves).abs() < 1e-9 * inside);
}

#[test]
fn what_is_superposed_is_what_is_solved_at_once() {
    let model = stood(&motley(), &WOOD, &TOUCHING);
    let person = OnPole::Point { pole: 4, at: Length::m(2.0), down: Force::kn(1.0) };
    let loading = Loading {
        first_half: Angle::deg(30.0),
        extras: vec![Extra { name: "person".into(), loads: vec![person] }],
        between: None,
    };
    let combination = under("all", 1.35, [1500.0, 300.0, 200.0, -400.0], &[1.5]);
    let built = model.build(&model.whole(Feet::Sliding)).unwrap();
    let whole = built.factorise().unwrap();
    let cases = model.cases(&built, &loading).unwrap();
    let by = factors(&combination, 1);
    let superposed = Found::together(&model.found(&built, &whole, &cases).unwrap(), &by);
    let at_once = model.found(&built, &whole, &[super::cases::together(&cases, &by)]).unwrap().remove(0);
    for (one, other) in superposed.crossings.iter().flatten().zip(at_once.crossings.iter().flatten()) {
        assert!((one - other).abs() < 1e-6, "{one} {other}");
    }
    let (one, other) = (&superposed.sections[3], &at_once.sections[3]);
    assert!(one.iter().flatten().zip(other.iter().flatten()).all(|(one, other)| (one - other).abs() < 1e-6));
}

#[test]
fn stiffer_wood_sinks_less_and_notches_sink_more() {
    let sag = |model: &Model| found(model, Feet::Held, &no_extras())[1].sags.iter().map(|sag| sag[1]).sum::<f64>();
    let layout = motley();
    let stiff = Wood { young: WOOD.young * 2.0, shear: WOOD.shear * 2.0, ..WOOD };
    let soft = stood(&layout, &WOOD, &PLUMB);
    assert!(sag(&stood(&layout, &stiff, &PLUMB)) < sag(&soft));
    let mut whole = soft.clone();
    whole.layout.rafters.iter_mut().for_each(|rafter| rafter.notch = Length::ZERO);
    assert!(sag(&whole) < sag(&soft));
}

#[test]
fn a_mirrored_ring_has_mirrored_forces() {
    let layout = motley();
    let mut mirrored = layout.clone();
    for rafter in &mut mirrored.rafters {
        rafter.support[1] = -rafter.support[1];
        rafter.toward[1] = -rafter.toward[1];
        rafter.pole.bow_turn = -rafter.pole.bow_turn;
    }
    assert_eq!(mirrored.rests_on, RestsOn::Next);
    let [one, other] = [(&layout, 0.3), (&mirrored, -0.3)].map(|(layout, first_half)| {
        let loading = Loading { first_half: Angle::rad(first_half), extras: Vec::new(), between: None };
        Found::together(&found(&stood(layout, &WOOD, &TOUCHING), Feet::Held, &loading), &[1.0, 900.0, 0.0, 0.0, 400.0])
    });
    for place in 0..9 {
        let size = one.crossings[place][0];
        let [[inward, across, up], [also_inward, also_across, also_up]] = [&one, &other].map(|found| found.feet[place]);
        assert!((one.crossings[place][0] - other.crossings[place][0]).abs() < 1e-6 * size);
        assert!((inward - also_inward).abs() + (across + also_across).abs() + (up - also_up).abs() < 1e-6 * size);
    }
}

#[test]
fn a_ring_without_a_pole_or_a_crossing_comes_down_unless_its_feet_hold() {
    let model = stood(&motley(), &WOOD, &TOUCHING);
    let combination = under("weight", 1.0, [500.0; 4], &[]);
    for lost in [Lost::Pole(3), Lost::Crossing(3)] {
        let left = model.without(lost, Feet::Sliding, &no_extras(), &combination).unwrap();
        assert!(matches!(left, Without::ComesDown(_)), "{lost:?} {left:?}");
        let Without::Stands { sag, .. } = model.without(lost, Feet::Held, &no_extras(), &combination).unwrap() else {
            panic!("held feet make an arch of what is left: {lost:?}")
        };
        let answers = model.answers(&no_extras(), &[Feet::Held]).unwrap();
        let whole = answers.envelope(std::slice::from_ref(&combination)).unwrap();
        assert!(whole.poles.iter().all(|pole| sag > pole.sag_tip.value), "but one that sinks");
    }
    assert_eq!(model.without(Lost::Pole(9), Feet::Held, &no_extras(), &combination), Err(Fault::Load(9)));
}

#[test]
fn the_first_pole_lies_on_its_prop_as_on_two_supports() {
    let even = Pole { length: Length::m(3.9), ..pole(160.0, 160.0) };
    let layout = regular(2.6, 0.9, &[even; 9]);
    let closed_ring = ring(&layout).unwrap();
    let propped = poles::propped(&layout, &closed_ring, 2, Length::mm(60.0)).unwrap();
    let stages = raising(&layout, &propped, &WOOD, &TOUCHING).unwrap();
    assert_eq!(stages.len(), 9);
    let weight = 600.0 * closed::STANDARD_GRAVITY_M_S2 * std::f64::consts::PI * 0.0064 * 3.9;
    let told = weight * 0.5 * 3.9 / propped.sets[2].rest.in_m();
    let first = stages[0].on_prop.unwrap().in_n();
    assert!(relative(first, told) < 1e-9, "{first} {told}");
    assert_eq!(stages[0].loose, Some(2), "a prop that only carries lets the pole swing");
    assert!(stages.iter().all(|stage| stage.loose_when_tied.is_none()));
    assert!(stages.windows(2).all(|pair| pair[1].on_prop > pair[0].on_prop), "every pole more loads the prop more");
}

#[test]
fn twice_the_load_buckles_at_half_the_factor_and_a_pushed_ring_bends_more() {
    let model =
        stood(&regular(2.5, 0.6, &[Pole { length: Length::m(3.4), ..pole(120.0, 100.0) }; 3]), &WOOD, &TOUCHING);
    let [once, twice] = [1.0, 2.0].map(|times| {
        let combination = under("load", times, [100.0 * times; 4], &[]);
        model.second_order(&no_extras(), &combination, Feet::Held).unwrap()
    });
    let (one, two) = (once.buckling.unwrap(), twice.buckling.unwrap());
    assert!(one > 1.0 && relative(two, 0.5 * one) < 1e-6, "{one} {two}");
    assert!(twice.sag > once.sag && once.sag > 1.0, "{once:?} {twice:?}");
}

#[test]
fn what_has_no_answer_is_told_in_a_sentence() {
    let layout = motley();
    let found = ring(&layout).unwrap();
    let told = |wood: &Wood, joints: &Joints| model(&layout, &found, wood, joints).unwrap_err().to_string();
    assert!(told(&Wood { density: Density::ZERO, ..WOOD }, &TOUCHING).contains("a density above zero"));
    assert!(told(&WOOD, &Joints { upper_share: 1.5, ..TOUCHING }).contains("from 0 to 1"));
    let loose = Passing::Touching { push: LineLoad::n_m(1e8), tie: LineLoad::ZERO };
    let model = model(&layout, &found, &WOOD, &Joints { passing: loose, upper_share: 0.5 }).unwrap();
    let moves = model.answers(&no_extras(), &[Feet::Held]).unwrap_err().to_string();
    assert!(moves.contains("moves without resistance"), "{moves}");
    let beside = OnPole::Point { pole: 1, at: Length::m(9.0), down: Force::kn(1.0) };
    let loading = Loading { extras: vec![Extra { name: "person".into(), loads: vec![beside] }], ..no_extras() };
    let stood = stood(&layout, &WOOD, &TOUCHING);
    assert_eq!(stood.answers(&loading, &[Feet::Held]).unwrap_err(), Fault::Load(1));
    let answers = stood.answers(&no_extras(), &[Feet::Held]).unwrap();
    assert_eq!(answers.envelope(&[]), Err(Fault::NoCombination));
}

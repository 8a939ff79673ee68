//! Laws of a second ring: it touches where it should, all alike on a regular ring, and says why it does not fit.

use std::f64::consts::TAU;

use super::laws::{motley, near, pole, regular};
use super::second::{Head, Leaning, Misfit, Second};
use super::*;
use crate::solve::space::{dot, size, way};
use crate::units::Length;

const OUTER: f64 = 3.0;

/// One in each bay of a regular ring, half-way round the plate from pole to pole.
fn second(layout: &Layout, head: Head) -> Second {
    let count = layout.rafters.len();
    let turn = |place: usize| {
        let [x, y, _] = layout.rafters[place].support.map(Length::in_m);
        y.atan2(x)
    };
    let half_way = |bay: usize| {
        let middle = turn(bay) + 0.5 * TAU / count as f64;
        [OUTER * middle.cos(), OUTER * middle.sin(), 0.0].map(Length::m)
    };
    Second {
        diameter: Length::mm(120.0),
        seat: Length::mm(10.0),
        let_in: Length::ZERO,
        beyond: Length::mm(120.0),
        head,
        supports: (0..count).map(half_way).collect(),
        overhangs: vec![Length::mm(300.0); count],
    }
}

fn even(count: usize) -> (Layout, Ring) {
    let own = Pole { length: Length::m(4.5), ..pole(200.0, 200.0) };
    let mut layout = regular(OUTER, 1.0, &vec![own; count]);
    layout.rafters.iter_mut().for_each(|rafter| rafter.overhang = Length::mm(300.0));
    let ring = ring(&layout).unwrap();
    (layout, ring)
}

fn laid(count: usize, head: Head) -> Vec<Leaning> {
    let (layout, ring) = even(count);
    second(&layout, head).laid(&layout, &ring).unwrap()
}

#[test]
fn on_a_regular_ring_all_are_alike_and_touch_by_the_distance_of_two_skew_lines() {
    for count in 5..=12 {
        let (layout, ring) = even(count);
        let all = laid(count, Head::Share(0.5));
        for one in &all {
            near(one.lengths[1], all[0].lengths[1], 1e-9);
            near(one.along, all[0].along, 1e-9);
            near(one.above, all[0].above, 1e-9);
        }
        // By hand in plan: the pole runs along the side of the eye from its support; the rafter runs to a point half-way along
        // that, from half-way round the plate. Both rise evenly; |(p − q) · (u × w)| / |u × w| is the mean diameter.
        let one = &all[0];
        let on = &layout.rafters[one.on];
        let [x, y] = [on.support[0].in_m(), on.support[1].in_m()];
        let [to_x, to_y] = [on.toward[0].in_m() - x, on.toward[1].in_m() - y];
        let side = to_x.hypot(to_y);
        let first = ring.sets[one.on].plan_lengths[0].in_m();
        let head = [x + 0.5 * first * to_x / side, y + 0.5 * first * to_y / side];
        let middle = y.atan2(x) - 0.5 * TAU / count as f64;
        let butt = [OUTER * middle.cos(), OUTER * middle.sin()];
        let run = [head[0] - butt[0], head[1] - butt[1]];
        let far = run[0].hypot(run[1]);
        let (rise, steep) = (ring.sets[one.on].pitch.in_rad().tan(), one.pitch.in_rad().tan());
        let (u, w) = ([run[0] / far, run[1] / far, steep], [to_x / side, to_y / side, rise]);
        let start = [butt[0], butt[1], 0.060 / one.pitch.in_rad().cos() - 0.010 / one.pitch.in_rad().cos()];
        let normal = [u[1] * w[2] - u[2] * w[1], u[2] * w[0] - u[0] * w[2], u[0] * w[1] - u[1] * w[0]];
        let between = [start[0] - x, start[1] - y, start[2]];
        let dot: f64 = between.iter().zip(normal).map(|(one, other)| one * other).sum();
        let long = normal.iter().map(|part| part * part).sum::<f64>().sqrt();
        assert!((dot.abs() / long - 0.5 * (0.120 + 0.200)).abs() < 1e-9, "{count}: {}", dot.abs() / long);
    }
}

#[test]
fn one_that_is_cut_to_a_length_rests_where_one_of_that_length_rests() {
    let wanted = laid(9, Head::Share(0.55));
    for (one, other) in laid(9, Head::Cut(wanted[0].lengths[2])).iter().zip(&wanted) {
        near(one.along, other.along, 1e-8);
        near(one.lengths[2], other.lengths[2], 1e-8);
    }
}

#[test]
fn a_notch_lets_its_top_down_toward_that_of_its_pole() {
    let (layout, ring) = even(9);
    let mut own = second(&layout, Head::Share(0.5));
    let above = |own: &Second| own.laid(&layout, &ring).unwrap()[0].above.in_m();
    let whole = above(&own);
    own.let_in = Length::mm(40.0);
    let cut = whole - above(&own);
    assert!((0.115..0.150).contains(&whole), "as high as it is thick, and a little since it is steeper: {whole}");
    assert!((0.038..0.050).contains(&cut), "{cut}");
}

#[test]
fn on_unequal_poles_each_touches_its_own() {
    let mut layout = motley();
    layout.rafters.iter_mut().for_each(|rafter| rafter.support[2] = rafter.support[2] + Length::m(2.0));
    let ring = ring(&layout).unwrap();
    let mut own = second(&layout, Head::Share(0.5));
    for (bay, support) in own.supports.iter_mut().enumerate() {
        let [one, other] = [bay, layout.below(bay)].map(|place| layout.rafters[place].support);
        *support = [0, 1, 2].map(|axis: usize| (one[axis] + other[axis]) * 0.5);
    }
    let all = own.laid(&layout, &ring).unwrap();
    for one in &all {
        let at = layout.rafters[one.on].pole.diameter(one.along).in_m();
        // The common normal of two axes is square to both, and as long as their mean diameter.
        let normal = way(one.under, one.axis[2]);
        assert!((size(normal) - 0.5 * (0.120 + at)).abs() < 1e-9, "{one:?}");
        assert!(dot(normal, way(one.axis[1], one.axis[2])).abs() < 1e-9, "{one:?}");
        // Two steep round poles one over the other: their axes lie at least the mean diameter apart, plumb.
        assert!(one.above.in_m() > 0.1 && one.above.in_m() < 0.2 && at > 0.15, "{one:?}");
        assert!(one.pitch.in_rad() > 0.0 && one.angle.in_rad() > 0.2);
    }
}

#[test]
fn each_way_in_which_it_does_not_fit_is_told() {
    let (layout, ring) = even(9);
    let told = |head: Head| second(&layout, head).laid(&layout, &ring).unwrap_err();
    let short = told(Head::Cut(Length::m(0.6)));
    assert!(matches!(short, Misfit::Short { bay: 0, least } if least > Length::m(1.0)), "{short:?}");
    let long = told(Head::Cut(Length::m(6.0)));
    assert!(matches!(long, Misfit::Long { bay: 0, most } if most < Length::m(4.0)), "{long:?}");
    let Misfit::Long { most, .. } = long else { panic!("{long:?}") };
    second(&layout, Head::Cut(most)).laid(&layout, &ring).unwrap();
    assert!(matches!(told(Head::Share(0.93)), Misfit::Clash { .. }), "{:?}", told(Head::Share(0.93)));
    let changed = |change: &dyn Fn(&mut Second)| {
        let mut own = second(&layout, Head::Share(0.5));
        change(&mut own);
        own.laid(&layout, &ring).unwrap_err()
    };
    let high = changed(&|own| own.supports[0][2] = Length::m(2.0));
    assert_eq!(high, Misfit::Falls(0));
    let beside = changed(&|own| own.supports[1] = own.supports[0]);
    assert!(matches!(beside, Misfit::Meets { bay: 0, other: 1, .. }), "{beside:?}");
    let mut astray = layout.clone();
    for rafter in &mut astray.rafters {
        rafter.toward = [rafter.support[0] + Length::m(1.0), rafter.support[1]];
    }
    assert_eq!(second(&layout, Head::Share(0.5)).laid(&astray, &ring).unwrap_err(), Misfit::NoRing);
    assert!(matches!(told(Head::Share(4.0)), Misfit::BeyondTip { .. }), "{:?}", told(Head::Share(4.0)));
}

//! Laws of the bond beam as a ring: closed forms of circle and square, equilibrium, anchors, the earth beneath.

use std::f64::consts::{PI, TAU};

use super::super::STANDARD_GRAVITY_M_S2;
use super::super::standing::Wood;
use super::frame::Hung;
use super::stops::Stops;
use super::*;
use crate::solve::frame::{Frame, LoadCase, Member, Node, Section, Support};
use crate::units::{Angle, Area, Density, Force, Length, LineLoad, Pressure, SecondMoment, SectionModulus};

const WOOD: Wood = Wood { young: Pressure::mpa(10_000.0), shear: Pressure::mpa(650.0), density: Density::kg_m3(500.0) };

fn plan(x: f64, y: f64) -> [Length; 2] {
    [Length::m(x), Length::m(y)]
}

fn circle(radius: f64, corners: u32, first: f64) -> Vec<[Length; 2]> {
    let at = |corner: u32| first + TAU * f64::from(corner) / f64::from(corners);
    (0..corners).map(|corner| plan(radius * at(corner).cos(), radius * at(corner).sin())).collect()
}

fn beam(line: Vec<[Length; 2]>, seats: Vec<[Length; 2]>, anchors: Vec<[Length; 2]>) -> Beam {
    Beam {
        line,
        width: Length::mm(60.0),
        height: Length::mm(80.0),
        layers: 1,
        wood: WOOD,
        seats,
        anchors: anchors.into_iter().map(|at| Anchor { at, gives: None }).collect(),
    }
}

/// A bean with nine poles that push every way.
fn bean() -> (Beam, Presses) {
    let at = |turn: f64| {
        let radius = 2.6 + 0.5 * turn.cos() - 0.3 * (2.0 * turn).sin();
        plan(radius * turn.cos(), 0.8 * radius * turn.sin())
    };
    let round =
        |count: u32, first: f64| (0..count).map(|one| at(first + TAU * f64::from(one) / f64::from(count))).collect();
    let push =
        |seat: u32| [300.0 + 40.0 * f64::from(seat), 900.0 - 170.0 * f64::from(seat), 250.0 * f64::from(seat) - 400.0];
    let presses = (0..9).map(|seat| push(seat).map(Force::n)).collect();
    (beam(round(40, 0.0), round(9, 0.2), round(5, 0.5)), presses)
}

/// One load alone, once.
fn in_plan(beam: &Beam, presses: Presses) -> Answers {
    beam.answers(&[&[presses]], &[vec![1.0]], &[0.0]).unwrap()
}

/// Hung from its anchors by its own weight.
fn of_weight(beam: &Beam) -> Hung {
    let stops = Stops::of(beam, true);
    let weight = beam.lifting(&stops, &[], 1.0);
    beam.hung(&stops, &[weight]).unwrap().remove(0)
}

fn near(found: f64, told: f64, share: f64) {
    assert!((found - told).abs() <= share * told.abs().max(1e-6), "{found} is not {told}");
}

#[test]
fn a_circle_pushed_outwards_at_equal_places_is_the_published_ring() {
    // N = P/2 cot α and M = P R/2 (1/α − cot α) under each force, P / (2 sin α) and P R/2 (1/sin α − 1/α) half way, α = π/n:
    // Roark's Formulas for Stress and Strain, circular rings, case of equal radial forces, from memory.
    let (radius, force, count) = (6.0, 5000.0, 9_u32);
    let corners = 72 * count;
    let line = circle(radius, corners, 0.0);
    let seats: Vec<[Length; 2]> = line.iter().step_by(72).copied().collect();
    let out = seats.iter().map(|[x, y]| [*x, *y].map(|part| force * part.in_m() / radius));
    let presses = out.map(|[x, y]| [Force::n(x), Force::n(y), Force::ZERO]).collect();
    let found = in_plan(&beam(line, seats, Vec::new()), presses);
    let alpha = PI / f64::from(count);
    let at = |member: usize| found.thrust[0][0].ends[member][0];
    let (under, half) = (at(0), at(36));
    near(under[2].abs(), force * radius / 2.0 * (1.0 / alpha - 1.0 / alpha.tan()), 3e-3);
    near(half[2].abs(), force * radius / 2.0 * (1.0 / alpha.sin() - 1.0 / alpha), 3e-3);
    near(half[0], force / (2.0 * alpha.sin()), 1e-3);
    near(0.5 * (under[0] + found.thrust[0][0].ends[corners as usize - 1][1][0]), force / (2.0 * alpha.tan()), 5e-3);
    assert!(under[2] * half[2] < 0.0);
}

#[test]
fn each_side_of_a_square_pushed_outwards_is_the_beam_with_fixed_ends() {
    // P l/8 in the middle and at both ends, P/2 along each side: a beam held fast at both ends, from memory.
    let (side, force) = (4.0, 3000.0);
    let half = 0.5 * side;
    let line = vec![plan(-half, -half), plan(half, -half), plan(half, half), plan(-half, half)];
    let ways = [[0.0, -1.0], [1.0, 0.0], [0.0, 1.0], [-1.0, 0.0]];
    let seats = ways.iter().map(|way| plan(half * way[0], half * way[1])).collect();
    let presses = ways.iter().map(|way| [force * way[0], force * way[1], 0.0].map(Force::n)).collect();
    let found = in_plan(&beam(line, seats, Vec::new()), presses);
    for [first, last] in &found.thrust[0][0].ends {
        near(first[2].abs(), force * side / 8.0, 1e-9);
        near(last[2].abs(), force * side / 8.0, 1e-9);
        near(first[0], force / 2.0, 1e-9);
    }
}

#[test]
fn a_circle_hung_from_equal_anchors_is_the_published_circular_girder() {
    // Support and middle: −w R² (1 − α cot α) and w R² (α/sin α − 1), α = π/n. On 8 supports, w 10 kN/m, R 6.3 m: 20.62 and 10.39 kN m, a
    // public worked sheet, quoted. On 6 tables of circular girders have 0.089 and 0.045 times w R² 2α, from memory.
    let radius = 4.0;
    let six = PI / 3.0;
    for (count, support, middle) in
        [(6_u32, 0.089 * six, 0.045 * six), (8, 20.62 / (10.0 * 6.3 * 6.3), 10.39 / (10.0 * 6.3 * 6.3))]
    {
        let line = circle(radius, 40 * count, 0.0);
        let anchors: Vec<[Length; 2]> = line.iter().step_by(40).copied().collect();
        let ring = beam(line, Vec::new(), anchors);
        let weight = of_weight(&ring);
        let load = 500.0 * STANDARD_GRAVITY_M_S2 * 0.06 * 0.08 * radius * radius;
        let alpha = PI / f64::from(count);
        let (over, between) = (weight.ends[0][0], weight.ends[20][0]);
        near(over[2].abs(), load * (1.0 - alpha / alpha.tan()), 3e-3);
        near(between[2].abs(), load * (alpha / alpha.sin() - 1.0), 3e-3);
        near(over[2].abs() / load, support, 6e-3);
        near(between[2].abs() / load, middle, 6e-3);
        assert!(over[1].abs() < 2e-2 * over[2].abs() && between[1].abs() < 2e-2 * over[2].abs());
        for anchor in &weight.anchors {
            near(*anchor, load / radius * TAU / f64::from(count), 1e-3);
        }
    }
}

#[test]
fn a_bean_is_in_equilibrium_and_does_not_feel_where_it_is_held() {
    let (beam, presses) = bean();
    let found = in_plan(&beam, presses.clone());
    let stops = Stops::of(&beam, true);
    let lifts: Vec<LoadCase> = (0..9)
        .map(|seat| {
            beam.lifting(
                &stops,
                &std::array::from_fn::<_, 9, _>(|own| [0.0, 0.0, f64::from(u8::from(own == seat))]),
                0.0,
            )
        })
        .collect();
    let hung = beam.hung(&stops, &lifts).unwrap();
    let residuals = hung.iter().map(|one| one.residual).chain([found.thrust[0][0].residual]);
    for residual in residuals {
        assert!(residual < 1e-9, "{residual}");
    }
    for seat in &hung {
        near(seat.anchors.iter().sum(), -1.0, 1e-9);
    }
    let mut turned = beam.clone();
    turned.line.rotate_left(11);
    let again = in_plan(&turned, presses);
    let (stops, other) = (&found.bare, &again.bare);
    for (member, at) in stops.at.iter().enumerate() {
        let same = other.at.iter().position(|other| (other[0] - at[0]).hypot(other[1] - at[1]) < 1e-9).unwrap();
        let pair = [&found.thrust[0][0].ends[member][0], &again.thrust[0][0].ends[same][0]];
        for axis in 0..3 {
            assert!((pair[0][axis] - pair[1][axis]).abs() < 1e-6 * 1000.0, "{pair:?}");
        }
    }
}

#[test]
fn each_side_of_a_square_lifted_in_its_middle_between_anchors_at_its_corners_is_the_simple_beam() {
    // By symmetry no corner passes a moment on: P l/4 in the middle, P/2 across, P held at each corner, from memory.
    let (half, lift) = (2.0, 1500.0);
    let line = vec![plan(-half, -half), plan(half, -half), plan(half, half), plan(-half, half)];
    let ways = [[0.0, -1.0], [1.0, 0.0], [0.0, 1.0], [-1.0, 0.0]];
    let seats = ways.iter().map(|way| plan(half * way[0], half * way[1])).collect();
    let square = beam(line.clone(), seats, line);
    let lifted: Presses = vec![[0.0, 0.0, lift].map(Force::n); 4];
    let found = in_plan(&square, lifted);
    let hung = found.hung.as_ref().unwrap()[0][0].as_ref().unwrap();
    for [first, last] in &hung.ends {
        near(first[2].abs().max(last[2].abs()), lift * 2.0 * half / 4.0, 1e-9);
        near(first[0].abs(), lift / 2.0, 1e-9);
        assert!(first[1].abs() < 1e-6 && first[2].abs().min(last[2].abs()) < 1e-6);
    }
    for anchor in &hung.anchors {
        near(*anchor, -lift, 1e-9);
    }
    for thrust in found.thrust[0][0].ends.as_flattened() {
        assert!(thrust.iter().all(|force| *force == 0.0), "what only lifts does not thrust: {thrust:?}");
    }
}

#[test]
fn two_anchors_hold_no_ring_and_its_thrust_is_answered_all_the_same() {
    let (beam, presses) = bean();
    let lifted: Presses = presses.iter().map(|force| [force[0], force[1], Force::n(100.0)]).collect();
    let mut loose = beam.clone();
    loose.anchors.truncate(2);
    let (held, loose) = (in_plan(&beam, lifted.clone()), in_plan(&loose, lifted));
    assert_eq!(loose.hung, Err(Fault::Anchors(2)));
    let shown = loose.hung.as_ref().unwrap_err().to_string();
    assert_eq!(shown, "2 anchors do not keep the bond beam from tipping up; three or more, not in a row, would");
    assert_eq!(loose.thrust, held.thrust);
}

#[test]
fn anchors_that_hold_nothing_are_not_missed() {
    let (beam, presses) = bean();
    let pressed: Presses = presses.iter().map(|force| [force[0], force[1], Force::n(-100.0)]).collect();
    let mut loose = beam.clone();
    loose.anchors.clear();
    assert_eq!(in_plan(&loose, pressed).anchors(), Ok(Vec::new()));
}

#[test]
fn an_anchor_that_gives_takes_less_than_those_that_hold_fast() {
    let (mut beam, _) = bean();
    let fast = of_weight(&beam);
    beam.anchors[2].gives = Some(LineLoad::n_m(1000.0));
    let soft = of_weight(&beam);
    assert!(soft.anchors[2] > 0.0 && soft.anchors[2] < 0.5 * fast.anchors[2]);
}

#[test]
fn the_worst_of_a_square_is_its_bending_with_its_pull() {
    let line = vec![plan(-2.0, -2.0), plan(2.0, -2.0), plan(2.0, 2.0), plan(-2.0, 2.0)];
    let ways = [[0.0, -1.0], [1.0, 0.0], [0.0, 1.0], [-1.0, 0.0]];
    let seats = ways.iter().map(|way| plan(2.0 * way[0], 2.0 * way[1])).collect();
    let presses: Presses = ways.iter().map(|way| [1000.0 * way[0], 1000.0 * way[1], -2000.0].map(Force::n)).collect();
    let corners = line.clone();
    let ring = beam(line, seats, corners);
    let mpa = Pressure::mpa;
    let resists =
        [Resists { bending: mpa(10.0), tension: mpa(5.0), compression: mpa(8.0), shear: mpa(1.0), twist: mpa(1.0) }; 2];
    let left = Left {
        area: Area::cm2(48.0),
        upright: SectionModulus::cm3(64.0),
        plan: SectionModulus::cm3(48.0),
        twist: SectionModulus::cm3(60.0),
    };
    let (combinations, weights) = ([vec![1.0], vec![-1.0]], [1.0, 1.0]);
    let found = |count: usize| {
        ring.answers(&[std::slice::from_ref(&presses)], &combinations[..count], &weights[..count]).unwrap()
    };
    let elastic = Length::mm(200.0);
    // Two parts of two sides each; joints of a layer are 1 m apart in one and 2 m in the other.
    let halves = [0.5, 1.0].map(Length::m).to_vec();
    let scarfs = Scarfs { halves, planks: 1, holds: vec![[Force::kn(4.0), Force::kn(10.0)]; 2] };
    let under = |count: usize| Under {
        combinations: &combinations[..count],
        resists: &resists[..count],
        elastic,
        spreads: &[Length::ZERO; 4],
        left,
        scarfs: Some(&scarfs),
    };
    let worst = &found(1).worst(0, &[0, 0, 1, 1], &under(1));
    // P l/8 in plan and P L/4 up and down at a seat, P/2 along; the other seats are farther off than the earth carries over.
    let (in_plan, upright) = (1000.0 * 4.0 / 8.0, 2000.0 * 0.2 / 4.0);
    for part in worst {
        near(part.bending.share, (in_plan / 48e-6 + upright / 64e-6) / 10e6, 1e-4);
        near(part.ring.share, part.bending.share + 500.0 / 48e-4 / 5e6, 1e-4);
        near(part.shear.forces.shear.in_n(), 500.0_f64.hypot(1000.0), 1e-4);
        assert!(part.twist.share == 0.0 && !part.bending.is_lifted);
    }
    // Along it N, across it 2 M/a, and 2 M/a by which the planks would gape.
    for (part, half) in worst.iter().zip([0.5, 1.0]) {
        let across = 500.0_f64.hypot(2.0 * in_plan / half);
        near(part.scarf.share, across / 4000.0 + 2.0 * upright / half / 10_000.0, 1e-4);
    }
    assert_eq!(found(1).anchors().unwrap(), vec![None; 4]);
    // Turned over, the poles lift: each corner holds 2000 N less a quarter of the beam's weight.
    let lifted = found(2).anchors().unwrap();
    let own = 500.0 * STANDARD_GRAVITY_M_S2 * 0.06 * 0.08 * 4.0;
    for anchor in lifted {
        near(anchor.unwrap().pull.in_n(), 2000.0 - own, 1e-9);
    }
    assert!(found(2).worst(0, &[0, 0, 1, 1], &under(2))[0].twist.share > 0.0);
    for alone in found(1).thrust(0, &[0, 0, 1, 1], &under(1)) {
        near(alone.share, in_plan / 48e-6 / 10e6 + 500.0 / 48e-4 / 5e6, 1e-9);
    }
}

#[test]
fn a_beam_on_earth_bends_as_one_on_many_springs() {
    // Hetényi's closed form against the frame on springs every 20 mm: an independent way to the same figure.
    let (bed, step, count) = (4e7, 0.02, 301_usize);
    let second = 0.2 * 0.05_f64.powi(3) / 12.0;
    let section = Section::Even { area: 0.01, about_y: second, about_z: second, twist: second };
    let node = |stop: usize| {
        let mut node = Node::held([step * stop as f64, 0.0, 0.0], [stop == 0, true, false, true, false, true]);
        node.support[2] = Support::Spring(bed * step);
        node
    };
    let member = |stop: usize| Member::new([stop, stop + 1], [0.0, 0.0, 1.0], [1e10, 6e8], section);
    let frame = Frame {
        nodes: (0..count).map(node).collect(),
        members: (0..count - 1).map(member).collect(),
        links: Vec::new(),
    };
    let case = LoadCase { nodes: vec![(150, [0.0, 0.0, -1000.0, 0.0, 0.0, 0.0])], ..LoadCase::default() };
    let answer = frame.factorise().unwrap().solve(&[case]).unwrap().remove(0);
    let elastic = elastic_length(Pressure::pa(bed), Pressure::mpa(10_000.0), SecondMoment::m4(second)).value;
    near(answer.ends[149][1][5].abs(), 1000.0 * 0.25 * elastic.in_m(), 1e-2);
    for far in [5_usize, 12, 30] {
        let [moment, _] = super::bed::beside(step * far as f64, elastic.in_m(), 0.0);
        assert!(
            (answer.ends[149 - far][1][5].abs() - 1000.0 * moment.abs()).abs() < 0.01 * 1000.0 * 0.25 * elastic.in_m()
        );
    }
    let sunk = -answer.movements[150][2] * bed / 0.2;
    near(bed_pressure(Force::n(1000.0), elastic, Length::m(0.2), Length::ZERO).value.in_pa(), sunk, 1e-2);
}

#[test]
fn the_earth_is_as_stiff_as_a_worked_example_has_it() {
    // E 30 620 MPa, footing 3 m wide and 0.5 m high, earth 10 MPa, ν 0.3: 2348.118 kN/m³, a worked sheet of moduli of reaction.
    let second = SecondMoment::m4(3.0 * 0.5_f64.powi(3) / 12.0);
    let bed = bed_stiffness(Pressure::mpa(10.0), Length::m(3.0), Pressure::mpa(30620.0), second, 0.3).value;
    near(bed.in_pa() / 3.0 / 1000.0, 2348.118, 1e-3);
}

#[test]
fn pressure_off_the_middle_goes_on_evenly_where_the_edge_begins_to_gape() {
    let (force, elastic, width) = (Force::kn(20.0), Length::mm(200.0), Length::mm(240.0));
    let at = |off: f64| bed_pressure(force, elastic, width, Length::mm(off)).value.in_pa();
    near(at(40.0), at(40.001), 1e-4);
    near(at(40.0), 2.0 * at(0.0), 1e-12);
    near(at(-80.0), 4.0 * at(0.0), 1e-12);
    assert_eq!(off_middle(Force::kn(5.0), Length::mm(100.0), Force::kn(20.0)).value, Length::mm(25.0));
    // A third of the width off its middle, what presses turns the beam back half as much again as the thrust turns it over.
    let off = Length::mm(80.0);
    near(width_needed(off, crate::units::Ratio::fraction(2.0 / 3.0)).value.in_m(), width.in_m(), 1e-12);
    // A quarter of it off where a rule lets a load fall half as far as the edge.
    near(width_needed(off, crate::units::Ratio::fraction(0.5)).value.in_m(), 4.0 * off.in_m(), 1e-12);
    near(0.5 * width.in_m() / off.in_m(), 1.5, 1e-12);
    near(off_share(off, width).value.in_fraction(), 2.0 / 3.0, 1e-12);
    assert!(at(119.9) > 100.0 * at(0.0));
}

#[test]
fn a_foot_slips_at_its_friction_and_presses_off_the_middle_no_farther() {
    let (friction, height) = (Angle::rad(0.25_f64.atan()), Length::mm(120.0));
    near(off_at_slip(friction, height).value.in_mm(), 30.0, 1e-12);
    near(foot_push(friction, Force::kn(-9.0), Force::kn(20.0)).value.in_kn(), 5.0, 1e-12);
    near(foot_push(friction, Force::kn(3.0), Force::kn(20.0)).value.in_kn(), 3.0, 1e-12);
    near(slip_share(friction, Angle::rad(0.5_f64.atan())).value.in_fraction(), 0.5, 1e-12);
    // 20 kN on 280 less 60 mm by 100 and twice 120 mm: 0.2674 N/mm², 53.5 % of 0.5.
    let pressure =
        eased_pressure(Length::mm(280.0), height, Force::kn(20.0), Length::mm(100.0), Length::mm(30.0)).value;
    near(pressure.in_mpa(), 20_000.0 / (220.0 * 340.0), 1e-12);
    near(earth_used(pressure, Pressure::mpa(0.5)).value.in_fraction(), 40_000.0 / (220.0 * 340.0), 1e-12);
}

#[test]
fn a_load_over_a_width_is_the_sum_of_loads_at_one_place() {
    // Summed over 400 strips; under its middle Hetényi has M = q L²/2 exp(−c/2L) sin c/2L, from memory.
    let (elastic, wide) = (0.2, 0.12);
    for distance in [0.0_f64, 0.03, 0.06, 0.1, 0.5] {
        let strip = |strip: u32| wide * ((f64::from(strip) + 0.5) / 400.0 - 0.5);
        let told: f64 = (0..400).map(|one| super::bed::beside((distance - strip(one)).abs(), elastic, 0.0)[0]).sum();
        near(super::bed::beside(distance, elastic, wide)[0], told / 400.0, 1e-3);
        let edge = distance.max(0.06);
        let told: f64 = (0..400).map(|one| super::bed::beside((edge - strip(one)).abs(), elastic, 0.0)[1]).sum();
        near(super::bed::beside(distance, elastic, wide)[1], told / 400.0, 1e-2);
    }
    let half: f64 = 0.5 * wide / elastic;
    near(super::bed::beside(0.0, elastic, wide)[0], 0.5 * elastic * elastic / wide * (-half).exp() * half.sin(), 1e-12);
}

//! How long a ring of nine poles takes as a frame in space: all basic cases, combinations, studies; best of runs, in
//! milliseconds.
#![allow(clippy::disallowed_types, reason = "a stopwatch needs a clock")]

mod stopwatch;

use std::f64::consts::TAU;
use std::ops::ControlFlow;
use std::time::Instant;

use engine::roof::poles::{Layout, Pole, Rafter, Rests, RestsOn, propped, ring, supports};
use engine::roof::standing::{
    Combination, Extra, Feet, Joints, Loading, Lost, OnPole, Passing, Trial, Wood, model, raising,
};
use engine::study::{Study, whole};
use engine::units::{Angle, Density, Force, Length, LineLoad, Pressure};
use stopwatch::best;

const RUNS: usize = 15;
const WOOD: Wood = Wood { young: Pressure::mpa(10_000.0), shear: Pressure::mpa(600.0), density: Density::kg_m3(600.0) };
const JOINTS: Joints =
    Joints { passing: Passing::Touching { push: LineLoad::n_m(1e8), tie: LineLoad::n_m(1e7) }, upper_share: 0.5 };

fn main() {
    let Some(layout) = layout(9) else { return println!("the eye of nine does not meet the plate") };
    let Ok(found) = ring(&layout) else { return println!("the ring of nine does not close") };
    let person = OnPole::Point { pole: 4, at: Length::m(2.5), down: Force::kn(1.0) };
    let extra = Extra { name: "person".into(), loads: vec![person] };
    let loading = Loading { first_half: Angle::ZERO, extras: vec![extra], between: None };
    let Ok(stood) = model(&layout, &found, &WOOD, &JOINTS) else { return println!("nine poles are no frame") };
    for (feet, name) in [(&Feet::BOTH[1..], "held"), (&Feet::BOTH[..1], "sliding"), (&Feet::BOTH[..], "both")] {
        let answered =
            || model(&layout, &found, &WOOD, &JOINTS).is_ok_and(|model| model.answers(&loading, feet).is_ok());
        println!("{:9.3} ms  model and six basic cases, feet {name}", best(RUNS, answered));
    }
    let Ok(answers) = stood.answers(&loading, &Feet::BOTH) else { return println!("nine poles do not stand") };
    let combinations: Vec<Combination> = (0..60).map(|at| combination(f64::from(at))).collect();
    println!("{:9.3} ms  sixty combinations on both feet", best(RUNS, || answers.envelope(&combinations).is_ok()));
    let [first, ..] = combinations.as_slice() else { return };
    println!(
        "{:9.3} ms  second order and buckling",
        best(RUNS, || stood.second_order(&loading, first, Feet::Held).is_ok())
    );
    let lost = || {
        let all = (0..9).flat_map(|place| [Lost::Pole(place), Lost::Crossing(place)]);
        all.filter(|lost| stood.without(*lost, Feet::Held, &loading, first).is_ok()).count() == 18
    };
    println!("{:9.3} ms  loss of each pole and of each crossing", best(RUNS, lost));
    let Ok(propped) = propped(&layout, &found, 0, Length::mm(60.0)) else { return println!("no prop") };
    println!("{:9.3} ms  nine stages of raising", best(RUNS, || raising(&layout, &propped, &WOOD, &JOINTS).is_ok()));
    let trial = Trial {
        layout: layout.clone(),
        first: 0,
        clearance: Length::mm(60.0),
        wood: WOOD,
        joints: JOINTS,
        loading: loading.clone(),
        combinations: combinations[..2].to_vec(),
    };
    println!(
        "{:9.3} ms  the whole trial: stages, lowering, losses, second order, buckling",
        best(RUNS, || whole(&trial).is_some())
    );
    let (mut last, mut longest) = (Instant::now(), 0.0_f64);
    let _ = trial.part(0..trial.pieces(), &mut |_| {
        longest = longest.max(last.elapsed().as_secs_f64() * 1000.0);
        last = Instant::now();
        ControlFlow::Continue(())
    });
    println!("{longest:9.3} ms  between two of its calls, at most");
    if let Ok(second) = stood.second_order(&loading, first, Feet::Held) {
        println!("{second:?}");
    }
}

fn combination(at: f64) -> Combination {
    let areas = [2000.0, 1500.0 + 10.0 * at, 1800.0, 900.0 - 20.0 * at].map(Pressure::pa);
    Combination { name: format!("{at}"), weight: 1.35, areas, extras: vec![1.5] }
}

/// Unequal bowed poles with notches on a square plate out of level, round an oval eye.
fn layout(count: u32) -> Option<Layout> {
    let m = Length::m;
    let plate = [(-3.0, -2.6, 0.0), (3.0, -2.6, 0.03), (3.0, 2.6, 0.05), (-3.0, 2.6, 0.02)];
    let plate = plate.map(|(x, y, z)| [m(x), m(y), m(z)]);
    let angles = (0..count).map(|at| TAU * f64::from(at) / f64::from(count));
    let corners: Vec<[Length; 2]> = angles.map(|angle| [m(1.1 * angle.cos()), m(0.95 * angle.sin())]).collect();
    let starts = supports(&plate, &corners, RestsOn::Next).ok()?;
    let rafter = |(place, (support, toward)): (usize, ([Length; 3], [Length; 2]))| {
        let wave = (place as f64).sin();
        Rafter {
            pole: Pole {
                length: m(4.9),
                butt: Length::mm(200.0 + 15.0 * wave),
                tip: Length::mm(150.0),
                bow: Length::mm(25.0 + 10.0 * wave),
                bow_turn: Angle::rad(wave),
            },
            support,
            rests: Rests::Top(Length::mm(10.0)),
            toward,
            overhang: Length::mm(500.0),
            notch: Length::mm(20.0),
            bedding: Length::mm(2.0),
            beyond: Length::mm(50.0),
        }
    };
    Some(Layout { rafters: starts.into_iter().enumerate().map(rafter).collect(), rests_on: RestsOn::Next })
}

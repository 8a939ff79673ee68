//! How long a ring of nine unequal poles takes to solve, its bands, and the choice from a pile of twenty: best of runs, in
//! milliseconds.

mod stopwatch;

use std::f64::consts::TAU;

use engine::roof::poles::{
    Candidate, Errors, Layout, Pole, Rafter, Rests, RestsOn, Wish, bands, choose, effects, positions, ring, supports,
};
use engine::units::{Angle, Length};
use stopwatch::best;

const RUNS: usize = 15;

fn main() {
    let nine = layout(9);
    let Ok(found) = ring(&nine) else { return println!("the ring of nine does not close") };
    println!("{:9.3} ms  a ring of nine unequal bowed poles", best(RUNS, || ring(&nine).is_ok()));
    let five = Length::mm(5.0);
    let errors = Errors { diameter: five, plate: five, eye: five };
    let banded = || effects(&nine, &found, &errors).map(|effects| bands(&effects).eye.worst);
    println!("{:9.3} ms  its bands", best(RUNS, || banded().is_ok()));
    let thirteen = layout(13);
    let Ok(found) = ring(&thirteen) else { return println!("the ring of thirteen does not close") };
    let (positions, pile) = (positions(&thirteen, &found), pile(20));
    let wish = Wish {
        waste: 0.1,
        notch: 1.0,
        bow: 1.0,
        wanted_notch: Length::mm(20.0),
        least_diameter: Length::mm(90.0),
        most_across: Length::mm(60.0),
    };
    for (count, name) in
        [(13, "thirteen positions"), (9, "nine positions by thirteen's sizes"), (20, "twenty by thirteen's sizes")]
    {
        let mut places: Vec<_> = positions.iter().copied().cycle().take(count).collect();
        places.iter_mut().enumerate().for_each(|(place, position)| position.below = (place + 1) % count);
        let time = best(RUNS, || choose(&places, &pile, &wish, 1).is_ok());
        if let Ok(choice) = choose(&places, &pile, &wish, 1) {
            println!(
                "{time:9.3} ms  {name} from a pile of twenty: {:.1} mm, none below {:.1} mm",
                choice.cost_mm, choice.bound_mm
            );
        }
    }
}

/// Unequal bowed poles on a square plate out of level, round an oval eye.
fn layout(count: u32) -> Layout {
    let m = Length::m;
    let plate = [(-3.0, -2.6, 0.0), (3.0, -2.6, 0.03), (3.0, 2.6, 0.05), (-3.0, 2.6, 0.02)];
    let plate = plate.map(|(x, y, z)| [m(x), m(y), m(z)]);
    let angles = (0..count).map(|at| TAU * f64::from(at) / f64::from(count));
    let corners: Vec<[Length; 2]> = angles.map(|angle| [m(1.1 * angle.cos()), m(0.95 * angle.sin())]).collect();
    let rafter = |(place, (support, toward)): (usize, ([Length; 3], [Length; 2]))| {
        let wave = (place as f64).sin();
        Rafter {
            pole: Pole {
                length: m(4.6),
                butt: Length::mm(180.0 + 15.0 * wave),
                tip: Length::mm(145.0 - 10.0 * wave),
                bow: Length::mm(25.0 + 20.0 * wave),
                bow_turn: Angle::rad(wave),
            },
            support,
            rests: Rests::Top(Length::mm(10.0)),
            toward,
            overhang: m(0.5),
            notch: Length::mm(20.0),
            bedding: Length::ZERO,
            beyond: m(0.15),
        }
    };
    let rafters = supports(&plate, &corners, RestsOn::Next).unwrap_or_default().into_iter().enumerate().map(rafter);
    Layout { rafters: rafters.collect(), rests_on: RestsOn::Next }
}

fn pile(count: u32) -> Vec<Candidate> {
    let pole = |at: u32| {
        let (wave, other) = (f64::from(at).sin(), f64::from(7 * at).cos());
        let butt = Length::mm(190.0 + 30.0 * wave);
        let pole = Pole {
            length: Length::m(5.0 + 0.5 * other),
            butt,
            tip: butt - Length::mm(40.0 + 15.0 * other),
            bow: Length::ZERO,
            bow_turn: Angle::ZERO,
        };
        Candidate { pole, across: Length::mm(25.0 + 20.0 * wave * other) }
    };
    (0..count).map(pole).collect()
}

//! How far marks, tips and eye move when a diameter, a plate height or a pole's direction is not quite as measured.

use super::close::{Slopes, along_slopes, newton, slacks, slopes};
use super::plan::{Course, courses};
use super::ring::{at_pitches, closing};
use super::{Fault, Layout, Ring};
use crate::units::Length;

/// How far each measure may be off.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Errors {
    /// A diameter, at either end.
    pub diameter: Length,
    /// The height of a support.
    pub plate: Length,
    /// A pole beside its line in plan, where it rests.
    pub eye: Length,
}

/// A measure that may be off; poles are counted from zero.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Measure {
    /// Diameter at a butt.
    Butt(usize),
    /// Diameter at a tip.
    Tip(usize),
    /// Height of a support.
    Plate(usize),
    /// Direction of a pole.
    Eye(usize),
}

/// Figures of a ring, or by how much they move.
#[derive(Clone, Debug, PartialEq)]
pub struct Figures<T> {
    /// Mark where each pole rests.
    pub rest: Vec<T>,
    /// Mark where each pole carries.
    pub carry: Vec<T>,
    /// Height of each tip.
    pub tip: Vec<T>,
    /// Radius of the eye.
    pub eye: T,
}

/// What one measure does to every figure when it is off by its error.
#[derive(Clone, Debug, PartialEq)]
pub struct Effect {
    /// The measure.
    pub measure: Measure,
    /// Its error.
    pub error: Length,
    /// How far the figures move.
    pub moves: Figures<Length>,
}

/// How far off a figure may be.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Band {
    /// When the errors fall out by chance: the root of the sum of their squares.
    pub likely: Length,
    /// When all go the worst way at once.
    pub worst: Length,
}

/// What each error does to a ring: half the way from too little to too much.
///
/// # Errors
/// An error so large that the ring no longer closes.
pub fn effects(layout: &Layout, ring: &Ring, errors: &Errors) -> Result<Vec<Effect>, Fault> {
    let courses = courses(layout)?;
    let measures = (0..layout.rafters.len()).flat_map(|place| {
        [
            (Measure::Butt(place), errors.diameter),
            (Measure::Tip(place), errors.diameter),
            (Measure::Plate(place), errors.plate),
            (Measure::Eye(place), errors.eye),
        ]
    });
    let solved: Vec<f64> = ring.sets.iter().map(|set| set.pitch.in_rad()).collect();
    let slopes = slacks(layout, &courses, &solved).and_then(|open| slopes(layout, &courses, &solved, &open));
    measures
        .map(|(measure, error)| {
            let [more, less] = [error, -error]
                .map(|by| near(&off(layout, &courses, measure, by), (&solved, slopes.as_ref())).map(|it| figures(&it)));
            Ok(Effect { measure, error, moves: half_way(&less?, &more?) })
        })
        .collect()
}

/// A ring that is a little off from a solved one: its slopes lead there, else the whole way is gone.
fn near(layout: &Layout, (solved, slopes): (&[f64], Option<&Slopes>)) -> Result<Ring, Fault> {
    let courses = courses(layout)?;
    let led = || slopes.and_then(|slopes| along_slopes(layout, &courses, (solved, slopes)));
    let pitches = closing(layout, &courses, || led().or_else(|| newton(layout, &courses, solved)))?;
    at_pitches(layout, &courses, &pitches)
}

/// The bands of all figures.
#[must_use]
pub fn bands(effects: &[Effect]) -> Figures<Band> {
    let band = |moves: &dyn Fn(&Figures<Length>) -> Length| {
        let all = effects.iter().map(|effect| moves(&effect.moves).in_m());
        let (squares, sizes) = all.fold((0.0, 0.0), |(squares, sizes), by| (squares + by * by, sizes + by.abs()));
        Band { likely: Length::m(squares.sqrt()), worst: Length::m(sizes) }
    };
    let places = 0..effects.first().map_or(0, |effect| effect.moves.rest.len());
    Figures {
        rest: places.clone().map(|place| band(&|moves| moves.rest[place])).collect(),
        carry: places.clone().map(|place| band(&|moves| moves.carry[place])).collect(),
        tip: places.map(|place| band(&|moves| moves.tip[place])).collect(),
        eye: band(&|moves| moves.eye),
    }
}

/// The figures of a ring.
#[must_use]
pub fn figures(ring: &Ring) -> Figures<Length> {
    Figures {
        rest: ring.sets.iter().map(|set| set.rest).collect(),
        carry: ring.sets.iter().map(|set| set.carry).collect(),
        tip: ring.sets.iter().map(|set| set.tip_height).collect(),
        eye: ring.eye_radius,
    }
}

/// A mark as it is written on a pole: a whole number of steps from the butt.
#[must_use]
pub fn rounded(mark: Length, step: Length) -> Length {
    step * (mark / step).round()
}

fn off(layout: &Layout, courses: &[Course], measure: Measure, by: Length) -> Layout {
    let mut layout = layout.clone();
    match measure {
        Measure::Butt(place) => layout.rafters[place].pole.butt = layout.rafters[place].pole.butt + by,
        Measure::Tip(place) => layout.rafters[place].pole.tip = layout.rafters[place].pole.tip + by,
        Measure::Plate(place) => layout.rafters[place].support[2] = layout.rafters[place].support[2] + by,
        Measure::Eye(place) => {
            let (course, support) = (&courses[place], layout.rafters[place].support);
            let [x, y] = course.direction;
            let left = [-y, x];
            layout.rafters[place].toward = std::array::from_fn(|axis| {
                support[axis] + Length::m(course.second * course.direction[axis]) + by * left[axis]
            });
        }
    }
    layout
}

fn half_way(less: &Figures<Length>, more: &Figures<Length>) -> Figures<Length> {
    let half =
        |less: &[Length], more: &[Length]| less.iter().zip(more).map(|(less, more)| (*more - *less) * 0.5).collect();
    Figures {
        rest: half(&less.rest, &more.rest),
        carry: half(&less.carry, &more.carry),
        tip: half(&less.tip, &more.tip),
        eye: (more.eye - less.eye) * 0.5,
    }
}

//! Raising the ring: the prop, the order of the poles, what is left for the last one, what is solved again from the poles
//! that are up, and how the ring sinks when the prop goes and when green poles dry.

use super::close::slack;
use super::contact::contact;
use super::lie::Lie;
use super::plan::{Course, courses};
use super::ring::{laid, ring_near, sets_at};
use super::{Fault, Layout, Rafter, Ring, Set};
use crate::solve::sign::sign_change;
use crate::units::{Length, Ratio};

/// A height taken on a pole that is up.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Measured {
    /// The pole, from zero.
    pub place: usize,
    /// From its butt, along the pole; its length for the tip.
    pub along: Length,
    /// Height of the middle of the pole there.
    pub height: Length,
}

/// The ring on its prop, before the last pole is let down.
#[derive(Clone, Debug, PartialEq)]
pub struct Propped {
    /// Height of the top of the prop.
    pub top: Length,
    /// The poles in the order in which they are raised: the first lies on the prop, each later one on the pole before it,
    /// the last slips in under the first.
    pub order: Vec<usize>,
    /// Where each pole lies with the prop in.
    pub sets: Vec<Set>,
    /// What is open between the last pole and the first above it; below zero, what the first must still be lifted by.
    pub slack: Length,
}

/// How far a pitch is looked for from that of the finished ring, in radians.
const WITHIN: f64 = 0.5;
const STEEPEST: f64 = 1.569;

/// The ring on a prop under the second crossing of its first pole, which stands higher than in the finished ring by a
/// clearance.
///
/// # Errors
/// A clearance that no pole can be lifted by.
pub fn propped(layout: &Layout, ring: &Ring, first: usize, clearance: Length) -> Result<Propped, Fault> {
    let courses = courses(layout)?;
    if first >= courses.len() {
        return Err(Fault::HeightOutOfReach(first));
    }
    let top = ring.sets[first].underside + clearance;
    let lifted = |pitch: f64| {
        let lie = Lie::new(&layout.rafters[first], &courses[first], pitch);
        lie.underside(lie.second()) - top.in_m()
    };
    let mut fixed = vec![None; courses.len()];
    fixed[first] = Some(near(lifted, ring, first).ok_or(Fault::HeightOutOfReach(first))?);
    let sets = sets_at(layout, &courses, &on_each_other(layout, &courses, ring, &fixed)?)?;
    let order = order(layout, first);
    Ok(Propped { top, order, slack: sets[first].slack, sets })
}

/// The poles in the order of raising.
#[must_use]
pub fn order(layout: &Layout, first: usize) -> Vec<usize> {
    let mut place = first;
    let next = |_: &Rafter| {
        let here = place;
        place = layout.above(here);
        here
    };
    layout.rafters.iter().map(next).collect()
}

/// Where the poles lie when some are up and measured: those keep their measured heights, the rest lie on the pole below
/// them. The slack of a measured pole is what is open between it and the pole below.
///
/// # Errors
/// A height that its pole cannot have; no height at all.
pub fn raised(layout: &Layout, ring: &Ring, measured: &[Measured]) -> Result<Vec<Set>, Fault> {
    let courses = courses(layout)?;
    let mut fixed = vec![None; courses.len()];
    for one in measured {
        let rafter = layout.rafters.get(one.place).ok_or(Fault::HeightOutOfReach(one.place))?;
        let height = |pitch: f64| {
            let lie = Lie::new(rafter, &courses[one.place], pitch);
            lie.at((one.along - rafter.overhang).in_m())[2] - one.height.in_m()
        };
        fixed[one.place] = Some(near(height, ring, one.place).ok_or(Fault::HeightOutOfReach(one.place))?);
    }
    sets_at(layout, &courses, &on_each_other(layout, &courses, ring, &fixed)?)
}

/// The ring on its prop when the first poles of the order are up and measured: the prop stands where the first of them
/// lies on it.
///
/// # Errors
/// A height that its pole cannot have; no height at all.
pub fn propped_as_raised(layout: &Layout, ring: &Ring, measured: &[Measured]) -> Result<Propped, Fault> {
    let sets = raised(layout, ring, measured)?;
    let first = measured.first().map_or(0, |one| one.place);
    Ok(Propped { top: sets[first].underside, order: order(layout, first), slack: sets[first].slack, sets })
}

/// Height of the middle of each pole at its mark where it rests in the finished ring, as it lies in other sets.
///
/// # Errors
/// Poles that make no ring.
pub fn marked_levels(layout: &Layout, ring: &Ring, sets: &[Set]) -> Result<Vec<Length>, Fault> {
    let lies = laid(layout, sets)?;
    let marks = ring.sets.iter().zip(&layout.rafters).map(|(set, rafter)| (set.rest - rafter.overhang).in_m());
    Ok(lies.iter().zip(marks).map(|(lie, mark)| Length::m(lie.at(mark)[2])).collect())
}

/// The layout as it turned out: where two poles are up that rest on each other, they bed as they were measured to. The
/// first that is measured lies on the prop and on no pole yet.
///
/// # Errors
/// A height that its pole cannot have; no height at all.
pub fn as_raised(layout: &Layout, ring: &Ring, measured: &[Measured]) -> Result<Layout, Fault> {
    let sets = raised(layout, ring, measured)?;
    let first = measured.first().map_or(0, |one| one.place);
    let is_up = |place: usize| measured.iter().any(|one| one.place == place);
    let mut layout = layout.clone();
    for (place, set) in sets.iter().enumerate() {
        if place != first && is_up(place) && is_up(layout.below(place)) {
            layout.rafters[place].bedding = layout.rafters[place].bedding - set.slack;
        }
    }
    Ok(layout)
}

/// How far eye and tips sink when the poles bed deeper at every crossing, as they do when the prop goes: the settled ring.
///
/// # Errors
/// A ring that no longer closes.
pub fn bedded(layout: &Layout, ring: &Ring, bedding: Length) -> Result<Ring, Fault> {
    let mut layout = layout.clone();
    layout.rafters.iter_mut().for_each(|rafter| rafter.bedding = rafter.bedding + bedding);
    ring_near(&layout, ring)
}

/// The ring when every diameter has shrunk by a share: green poles, dry. A support that is a point of the axis stays.
///
/// # Errors
/// A ring that no longer closes.
pub fn dried(layout: &Layout, ring: &Ring, shrinkage: Ratio) -> Result<Ring, Fault> {
    let mut layout = layout.clone();
    let left = 1.0 - shrinkage.in_fraction();
    for rafter in &mut layout.rafters {
        (rafter.pole.butt, rafter.pole.tip) = (rafter.pole.butt * left, rafter.pole.tip * left);
    }
    ring_near(&layout, ring)
}

fn near(height: impl Fn(f64) -> f64, ring: &Ring, place: usize) -> Option<f64> {
    let pitch = ring.sets[place].pitch.in_rad();
    sign_change(height, pitch - WITHIN, (pitch + WITHIN).min(STEEPEST))
}

/// The pitches of all poles when some are fixed and each other one lies on the pole below it.
fn on_each_other(layout: &Layout, courses: &[Course], ring: &Ring, fixed: &[Option<f64>]) -> Result<Vec<f64>, Fault> {
    let first = fixed.iter().position(Option::is_some).ok_or(Fault::HeightOutOfReach(0))?;
    let mut pitches: Vec<f64> = ring.sets.iter().map(|set| set.pitch.in_rad()).collect();
    for place in order(layout, first) {
        if let Some(pitch) = fixed[place] {
            pitches[place] = pitch;
            continue;
        }
        let below = layout.below(place);
        let lower = Lie::new(&layout.rafters[below], &courses[below], pitches[below]);
        let open = |pitch: f64| {
            let upper = Lie::new(&layout.rafters[place], &courses[place], pitch);
            contact(&upper, &lower).map_or(f64::NAN, |met| slack(layout, place, &met))
        };
        pitches[place] = near(open, ring, place).ok_or(Fault::HeightOutOfReach(place))?;
    }
    Ok(pitches)
}

//! The pitches at which every pole of a ring touches the one it rests on.

use super::close::{contacts, lies, newton, slack, start, wanted, wanted_at};
use super::contact::{Contact, contact, overlap};
use super::lie::Lie;
use super::plan::{Course, courses};
use super::{Fault, Layout};
use crate::solve::space::Vector;
use crate::units::{Angle, Length};

/// Where one pole touches its neighbours, at pitches that may or may not close the ring.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Set {
    /// Pitch of the string through its support and its second crossing.
    pub pitch: Angle,
    /// From its butt to where it rests on its neighbour: the mark of that notch.
    pub rest: Length,
    /// Where its axis passes there.
    pub rest_at: [Length; 3],
    /// Its diameter there.
    pub rest_diameter: Length,
    /// From its butt to where it carries the other neighbour.
    pub carry: Length,
    /// Where its axis passes there.
    pub carry_at: [Length; 3],
    /// Its diameter there.
    pub carry_diameter: Length,
    /// Where its axis passes over the point of the plan at which the line of its neighbour crosses its own.
    pub crossing: [Length; 3],
    /// Height of its axis at its first crossing in plan.
    pub first_crossing_height: Length,
    /// Where its axis passes over its support.
    pub support: [Length; 3],
    /// In plan from its support to its first and its second crossing.
    pub plan_lengths: [Length; 2],
    /// Height of the middle of its tip.
    pub tip_height: Length,
    /// Height of its underside at its second crossing in plan: what a prop there would stand to.
    pub underside: Length,
    /// Distance of its axis from that of the pole below it.
    pub axis_distance: Length,
    /// What is open between it and the pole below, notch and bedding taken; below zero, what is still in the way.
    pub slack: Length,
}

/// Poles that rest on each other all round.
#[derive(Clone, Debug, PartialEq)]
pub struct Ring {
    /// Each pole, in the order given.
    pub sets: Vec<Set>,
    /// Mean distance of the middles of the contacts in plan from their own middle.
    pub eye_radius: Length,
    /// Mean height of the middles of the contacts.
    pub eye_height: Length,
    /// What is wrong with it: poles too short, poles that lie in each other.
    pub faults: Vec<Fault>,
}

/// Solves the ring.
///
/// One equation for each crossing: the axes lie apart by the mean of the diameters at the feet of the common perpendicular,
/// less notch and bedding. Unknown are the pitches. Each equation has two of them, so that a step of Newton's method is one
/// walk round the ring.
///
/// # Errors
/// What keeps the poles from making a ring.
pub fn ring(layout: &Layout) -> Result<Ring, Fault> {
    let courses = courses(layout)?;
    closed(layout, &courses, &start(layout, &courses))
}

/// The pitches of a ring alone, looked for from those of one that differs little, where there is one.
///
/// # Errors
/// What keeps the poles from making a ring.
pub fn pitches(layout: &Layout, near: Option<&[Angle]>) -> Result<Vec<Angle>, Fault> {
    let courses = courses(layout)?;
    let from = near.map_or_else(|| start(layout, &courses), |near| near.iter().map(|pitch| pitch.in_rad()).collect());
    let found = closing(layout, &courses, || newton(layout, &courses, &from))?;
    Ok(found.into_iter().map(Angle::rad).collect())
}

/// Solves a ring that differs little from one that is solved.
pub(super) fn ring_near(layout: &Layout, near: &Ring) -> Result<Ring, Fault> {
    let pitches: Vec<f64> = near.sets.iter().map(|set| set.pitch.in_rad()).collect();
    closed(layout, &courses(layout)?, &pitches)
}

/// The depth of notch at each crossing that gives every pole one pitch; below zero, the pad that is missing.
///
/// # Errors
/// What keeps the poles from making a ring.
pub fn notches_for_pitch(layout: &Layout, pitch: Angle) -> Result<Vec<Length>, Fault> {
    let courses = courses(layout)?;
    let lies = lies(layout, &courses, &vec![pitch.in_rad(); courses.len()]);
    (0..lies.len())
        .map(|place| {
            let met = contact(&lies[place], &lies[layout.below(place)]).ok_or(Fault::NotRoundTheEye(place))?;
            Ok(Length::m(met.touching - met.apart) - layout.rafters[place].bedding)
        })
        .collect()
}

/// The axes of poles at the pitches that they have.
pub(in crate::roof) fn laid(layout: &Layout, sets: &[Set]) -> Result<Vec<Lie>, Fault> {
    let pitches: Vec<f64> = sets.iter().map(|set| set.pitch.in_rad()).collect();
    Ok(lies(layout, &courses(layout)?, &pitches))
}

/// Each pole at a pitch of its own, whether that closes the ring or not.
pub(super) fn sets_at(layout: &Layout, courses: &[Course], pitches: &[f64]) -> Result<Vec<Set>, Fault> {
    let lies = lies(layout, courses, pitches);
    let contacts = contacts(layout, &lies)?;
    Ok((0..lies.len()).map(|place| set(layout, courses, &lies, &contacts, place, pitches[place])).collect())
}

fn closed(layout: &Layout, courses: &[Course], start: &[f64]) -> Result<Ring, Fault> {
    let pitches = closing(layout, courses, || newton(layout, courses, start))?;
    let mut ring = at_pitches(layout, courses, &pitches)?;
    ring.faults = faults(layout, &ring.sets, &lies(layout, courses, &pitches));
    Ok(ring)
}

/// The pitches that close a ring, as they are found in some way.
///
/// # Errors
/// A notch as deep as the poles are thick, a ring that does not close, a pole that would slope down to the eye.
pub(super) fn closing(
    layout: &Layout,
    courses: &[Course],
    found: impl FnOnce() -> Option<Vec<f64>>,
) -> Result<Vec<f64>, Fault> {
    if let Some(place) = (0..courses.len()).find(|&place| wanted_at(layout, courses, place) <= 0.0) {
        return Err(Fault::NotchThrough(place));
    }
    let pitches = found().ok_or_else(|| not_closing(layout, courses))?;
    match pitches.iter().position(|pitch| *pitch <= 0.0) {
        Some(place) => Err(out_of_reach(layout, Some(place))),
        None => Ok(pitches),
    }
}

/// The ring at pitches that close it; what is wrong with it is not looked for.
pub(super) fn at_pitches(layout: &Layout, courses: &[Course], pitches: &[f64]) -> Result<Ring, Fault> {
    let sets = sets_at(layout, courses, pitches)?;
    let middles: Vec<Vector> = (0..sets.len()).map(|place| middle(&sets, layout, place)).collect();
    let centre: Vector =
        std::array::from_fn(|axis| middles.iter().map(|at| at[axis]).sum::<f64>() / middles.len() as f64);
    let radii = middles.iter().map(|at| (at[0] - centre[0]).hypot(at[1] - centre[1]));
    let eye_radius = Length::m(radii.sum::<f64>() / middles.len() as f64);
    Ok(Ring { sets, eye_radius, eye_height: Length::m(centre[2]), faults: Vec::new() })
}

/// Half way between the axes where a pole rests.
fn middle(sets: &[Set], layout: &Layout, place: usize) -> Vector {
    let (upper, lower) = (sets[place].rest_at, sets[layout.below(place)].carry_at);
    std::array::from_fn(|axis| 0.5 * (upper[axis] + lower[axis]).in_m())
}

fn not_closing(layout: &Layout, courses: &[Course]) -> Fault {
    let corners: Vec<[f64; 2]> = layout
        .rafters
        .iter()
        .zip(courses)
        .map(|(rafter, course)| {
            [0, 1].map(|axis: usize| rafter.support[axis].in_m() + course.second * course.direction[axis])
        })
        .collect();
    let count = corners.len() as f64;
    let centre = [0, 1].map(|axis: usize| corners.iter().map(|at| at[axis]).sum::<f64>() / count);
    let radius = corners.iter().map(|at| (at[0] - centre[0]).hypot(at[1] - centre[1])).sum::<f64>() / count;
    let most = radius * (std::f64::consts::TAU / count).sin();
    let apart = wanted(layout, courses);
    if apart < most {
        out_of_reach(layout, None)
    } else {
        Fault::NotClosing { apart: Length::m(apart), most: Length::m(most) }
    }
}

/// The given pole, or the one whose support is farthest from the mean.
fn out_of_reach(layout: &Layout, place: Option<usize>) -> Fault {
    let heights: Vec<Length> = layout.rafters.iter().map(|rafter| rafter.support[2]).collect();
    let mean = heights.iter().fold(Length::ZERO, |sum, height| sum + *height) / heights.len() as f64;
    let from_mean = |place: usize| heights[place] - mean;
    let farthest = || {
        (0..heights.len()).max_by(|&one, &other| from_mean(one).abs().in_m().total_cmp(&from_mean(other).abs().in_m()))
    };
    let place = place.or_else(farthest).unwrap_or(0);
    Fault::PlateOutOfReach { place, above_mean: from_mean(place) }
}

fn set(layout: &Layout, courses: &[Course], lies: &[Lie], contacts: &[Contact], place: usize, pitch: f64) -> Set {
    let (rafter, lie, course) = (&layout.rafters[place], &lies[place], &courses[place]);
    let (own, carried) = (&contacts[place], &contacts[layout.above(place)]);
    let at = |along: f64| lie.at(along).map(Length::m);
    Set {
        pitch: Angle::rad(pitch),
        rest: rafter.overhang + Length::m(own.upper),
        rest_at: at(own.upper),
        rest_diameter: Length::m(lie.diameter(own.upper)),
        carry: rafter.overhang + Length::m(carried.lower),
        carry_at: at(carried.lower),
        carry_diameter: Length::m(lie.diameter(carried.lower)),
        crossing: at(lie.second()),
        first_crossing_height: at(lie.first)[2],
        support: at(0.0),
        plan_lengths: [Length::m(course.first), Length::m(course.second)],
        tip_height: at(lie.ends[1])[2],
        underside: Length::m(lie.underside(lie.second())),
        axis_distance: Length::m(own.apart),
        slack: Length::m(slack(layout, place, own)),
    }
}

/// Poles that lie less than this many metres in each other only touch.
const TOUCHING: f64 = 1e-9;

fn faults(layout: &Layout, sets: &[Set], lies: &[Lie]) -> Vec<Fault> {
    let mut faults = Vec::new();
    for (place, (rafter, set)) in layout.rafters.iter().zip(sets).enumerate() {
        let wanted = set.rest + rafter.beyond;
        if rafter.pole.length < wanted {
            faults.push(Fault::TooShort { place, length: rafter.pole.length, wanted });
        }
    }
    for one in 0..lies.len() {
        for other in one + 1..lies.len() {
            let are_neighbours = layout.below(one) == other || layout.above(one) == other;
            let overlap = if are_neighbours { 0.0 } else { overlap(&lies[one], &lies[other]) };
            if overlap > TOUCHING {
                faults.push(Fault::Clash { one, other, overlap: Length::m(overlap) });
            }
        }
    }
    faults
}

//! Newton's method round the ring: pitches at which no slack is left.

use super::contact::{Contact, contact};
use super::lie::Lie;
use super::plan::Course;
use super::{Fault, Layout};
use crate::units::Length;

/// Slack below this many metres is none: what the solver reaches, no promise of any hand.
const CLOSED: f64 = 1e-12;
const MOST_STEPS: usize = 60;
/// Step of the numeric derivative, in radians.
const STEP: f64 = 1e-7;
const STEEPEST: f64 = 1.569;
const MOST_HALVINGS: i32 = 30;

/// Half of the pitch that the mean crossing asks for: on a level ring the way to the answer then leads up only.
pub(super) fn start(layout: &Layout, courses: &[Course]) -> Vec<f64> {
    let between: f64 = courses.iter().map(|course| course.second - course.first).sum();
    let rise = wanted(layout, courses) * courses.len() as f64 / between;
    vec![0.5 * rise.atan(); courses.len()]
}

/// How far apart the axes are to lie, on the mean.
pub(super) fn wanted(layout: &Layout, courses: &[Course]) -> f64 {
    (0..courses.len()).map(|place| wanted_at(layout, courses, place)).sum::<f64>() / courses.len() as f64
}

/// How far apart the axes are to lie where a pole rests, nearly: by the diameters at the distances in plan.
pub(super) fn wanted_at(layout: &Layout, courses: &[Course], place: usize) -> f64 {
    let thick = |place: usize, plan: f64| {
        let rafter = &layout.rafters[place];
        rafter.pole.diameter(rafter.overhang + Length::m(plan)).in_m()
    };
    let (rafter, below) = (&layout.rafters[place], layout.below(place));
    let touching = 0.5 * (thick(place, courses[place].second) + thick(below, courses[below].first));
    touching - (rafter.notch + rafter.bedding).in_m()
}

/// Pitches at which no slack is left, by steps that shrink where a whole one would open the ring farther.
pub(super) fn newton(layout: &Layout, courses: &[Course], start: &[f64]) -> Option<Vec<f64>> {
    let mut pitches = start.to_vec();
    let mut open = slacks(layout, courses, &pitches)?;
    for _ in 0..MOST_STEPS {
        let step = step(layout, courses, &pitches, &open)?;
        if largest(&open) < CLOSED {
            // So near, a last step leaves nothing but rounding.
            return Some(pitches.iter().zip(&step).map(|(pitch, step)| pitch + step).collect());
        }
        let mut is_better = false;
        for halving in 0..MOST_HALVINGS {
            let share = 0.5_f64.powi(halving);
            let tried: Vec<f64> = pitches
                .iter()
                .zip(&step)
                .map(|(pitch, step)| (pitch + share * step).clamp(-STEEPEST, STEEPEST))
                .collect();
            if let Some(less) = slacks(layout, courses, &tried).filter(|tried| largest(tried) < largest(&open)) {
                (pitches, open, is_better) = (tried, less, true);
                break;
            }
        }
        if !is_better {
            break;
        }
    }
    (largest(&open) < STILL_CLOSED).then_some(pitches)
}

/// Where rounding lets the slack become no smaller, there is none below this many metres.
const STILL_CLOSED: f64 = 1e-10;

fn largest(slacks: &[f64]) -> f64 {
    slacks.iter().fold(0.0, |largest: f64, slack| largest.max(slack.abs()))
}

/// What a crossing opens when its own pole is pitched steeper, and when the one below it is: metres for a radian.
pub(super) type Slopes = Vec<[f64; 2]>;

fn step(layout: &Layout, courses: &[Course], pitches: &[f64], open: &[f64]) -> Option<Vec<f64>> {
    around(layout, &slopes(layout, courses, pitches, open)?, open)
}

/// What every crossing opens by the pitches of the two poles that meet there.
pub(super) fn slopes(layout: &Layout, courses: &[Course], pitches: &[f64], open: &[f64]) -> Option<Slopes> {
    let lies = lies(layout, courses, pitches);
    let turned = |place: usize| Lie::new(&layout.rafters[place], &courses[place], pitches[place] + STEP);
    let nudged: Vec<Lie> = (0..pitches.len()).map(turned).collect();
    let of = |place: usize| {
        let below = layout.below(place);
        let slope =
            |upper: &Lie, lower: &Lie| Some((slack(layout, place, &contact(upper, lower)?) - open[place]) / STEP);
        Some([slope(&nudged[place], &lies[below])?, slope(&lies[place], &nudged[below])?])
    };
    (0..pitches.len()).map(of).collect()
}

/// One step of Newton's method: the crossing of pole i has the pitches of i and of the one below it alone, so that each step
/// follows from the one below, and the way round the ring gives the first.
fn around(layout: &Layout, slopes: &[[f64; 2]], open: &[f64]) -> Option<Vec<f64>> {
    let count = open.len();
    // In the order of resting, each place rests on the one that follows.
    let mut order = Vec::with_capacity(count);
    let mut place = 0;
    for _ in 0..count {
        order.push(place);
        place = layout.below(place);
    }
    // The step of a place is `fixed + share` times the step of the first.
    let (mut fixed, mut share) = (0.0, 1.0);
    let mut shares = vec![(0.0, 0.0); count];
    for &place in order.iter().rev() {
        let [own, others] = slopes[place];
        (fixed, share) = ((-open[place] - others * fixed) / own, -others * share / own);
        shares[place] = (fixed, share);
    }
    let first = fixed / (1.0 - share);
    first.is_finite().then(|| shares.iter().map(|(fixed, share)| fixed + share * first).collect())
}

/// Slack below this many metres no longer moves a figure of a ring that is off by so much as its measures are.
const NEARLY_CLOSED: f64 = 1e-9;
const MOST_NEAR_STEPS: usize = 12;

/// Pitches of a ring that differs little from one whose slopes are known: the same slopes serve each step. `None` where they
/// do not lead there.
pub(super) fn along_slopes(
    layout: &Layout,
    courses: &[Course],
    (start, slopes): (&[f64], &Slopes),
) -> Option<Vec<f64>> {
    let mut pitches = start.to_vec();
    for _ in 0..MOST_NEAR_STEPS {
        let open = slacks(layout, courses, &pitches)?;
        let step = around(layout, slopes, &open)?;
        pitches.iter_mut().zip(&step).for_each(|(pitch, step)| *pitch += step);
        if largest(&open) < NEARLY_CLOSED {
            return Some(pitches);
        }
    }
    None
}

/// What is open at a crossing, in metres.
pub(super) fn slack(layout: &Layout, place: usize, contact: &Contact) -> f64 {
    let rafter = &layout.rafters[place];
    contact.apart - contact.touching + (rafter.notch + rafter.bedding).in_m()
}

pub(super) fn slacks(layout: &Layout, courses: &[Course], pitches: &[f64]) -> Option<Vec<f64>> {
    let contacts = contacts(layout, &lies(layout, courses, pitches)).ok()?;
    Some(contacts.iter().enumerate().map(|(place, contact)| slack(layout, place, contact)).collect())
}

pub(super) fn lies(layout: &Layout, courses: &[Course], pitches: &[f64]) -> Vec<Lie> {
    layout
        .rafters
        .iter()
        .zip(courses)
        .zip(pitches)
        .map(|((rafter, course), pitch)| Lie::new(rafter, course, *pitch))
        .collect()
}

pub(super) fn contacts(layout: &Layout, lies: &[Lie]) -> Result<Vec<Contact>, Fault> {
    let met = |place: usize| contact(&lies[place], &lies[layout.below(place)]).ok_or(Fault::NotRoundTheEye(place));
    (0..lies.len()).map(met).collect()
}

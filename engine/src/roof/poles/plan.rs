//! The ring in plan: where each pole meets its neighbours, and where a direction meets the plate.

use super::{Fault, Layout, RestsOn};
use crate::units::Length;

/// The line of a pole in plan, in metres from its support.
#[derive(Clone, Copy, Debug)]
pub(super) struct Course {
    /// The unit vector from the support to the eye.
    pub direction: [f64; 2],
    /// To the pole that it carries.
    pub first: f64,
    /// To the pole on which it rests.
    pub second: f64,
}

/// The lines of all poles.
///
/// # Errors
/// A pole that does not cross its neighbours in order.
pub(super) fn courses(layout: &Layout) -> Result<Vec<Course>, Fault> {
    layout.sound()?;
    let lines: Vec<Line> =
        layout.rafters.iter().map(|rafter| Line::new(plan(rafter.support), metres(rafter.toward))).collect();
    let mut all = Vec::with_capacity(lines.len());
    for (place, line) in lines.iter().enumerate() {
        let first = line.meets(&lines[layout.above(place)]).map(|(along, _)| along);
        let second = line.meets(&lines[layout.below(place)]).map(|(along, _)| along);
        match first.zip(second) {
            Some((first, second)) if first > 0.0 && second > first => {
                all.push(Course { direction: line.direction, first, second });
            }
            _ => return Err(Fault::NotRoundTheEye(place)),
        }
    }
    Ok(all)
}

/// An outer support and a point in plan toward which its pole runs.
pub type Start = ([Length; 3], [Length; 2]);

/// Where each pole that runs along a side of the eye starts on a closed plate line, whose height varies evenly from corner to
/// corner: the support and a point toward which it runs.
///
/// The corners of the eye are given in the order of the poles, anticlockwise where each rests on the next. Pole i crosses
/// the one that it carries over corner i, and rests over the corner of the pole on which it rests.
///
/// # Errors
/// A side of the eye whose line back from the eye does not meet the plate just once.
pub fn supports(plate: &[[Length; 3]], corners: &[[Length; 2]], rests_on: RestsOn) -> Result<Vec<Start>, Fault> {
    let count = corners.len();
    let mut all = Vec::with_capacity(count);
    for (place, &first) in corners.iter().enumerate() {
        let second = match rests_on {
            RestsOn::Next => corners[(place + 1) % count],
            RestsOn::Before => corners[(place + count - 1) % count],
        };
        let back = Line::new(metres(second), metres(first));
        let sides = plate.iter().zip(plate.iter().cycle().skip(1));
        let mut found = sides.filter_map(|(&from, &to)| on_side(&back, from, to));
        match (found.next(), found.next()) {
            (Some(support), None) => all.push((support, second)),
            _ => return Err(Fault::NoPlate(place)),
        }
    }
    Ok(all)
}

fn on_side(back: &Line, from: [Length; 3], to: [Length; 3]) -> Option<[Length; 3]> {
    let side = Line::new(plan(from), plan(to));
    let (along, beside) = back.meets(&side)?;
    let share = beside / side.length;
    ((0.0..1.0).contains(&share) && along > 0.0)
        .then(|| std::array::from_fn(|axis| from[axis] + (to[axis] - from[axis]) * share))
}

fn plan([x, y, _]: [Length; 3]) -> [f64; 2] {
    [x.in_m(), y.in_m()]
}

fn metres([x, y]: [Length; 2]) -> [f64; 2] {
    [x.in_m(), y.in_m()]
}

struct Line {
    from: [f64; 2],
    direction: [f64; 2],
    length: f64,
}

impl Line {
    fn new(from: [f64; 2], to: [f64; 2]) -> Line {
        let length = (to[0] - from[0]).hypot(to[1] - from[1]);
        Line { from, direction: [0, 1].map(|axis: usize| (to[axis] - from[axis]) / length), length }
    }

    /// How far along each of two lines they meet.
    fn meets(&self, other: &Line) -> Option<(f64, f64)> {
        let turn = |one: [f64; 2], other: [f64; 2]| one[0] * other[1] - one[1] * other[0];
        let between = [other.from[0] - self.from[0], other.from[1] - self.from[1]];
        let askew = turn(self.direction, other.direction);
        let [along, beside] = [other.direction, self.direction].map(|direction| turn(between, direction) / askew);
        (along.is_finite() && beside.is_finite()).then_some((along, beside))
    }
}

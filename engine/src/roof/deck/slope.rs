//! A deck in one plane on straight rafters: its courses from verge to verge, what holds them down, its edge.

use std::ops::Range;

use kurbo::{Point, Vec2};

use super::boards::reach;
use super::drainage::LEVEL;
use super::eave::{EdgePoint, PLACES_IN_BAY};
use super::joints::{Row, Staggered};
use super::space::{length, minus};
use crate::reason::formula;
use crate::solve::polygon;
use crate::solve::whole::rounded_up;
use crate::units::{self, Area, Force, Length, Pressure};

/// Straight rafters under one plane.
#[derive(Clone, Debug, PartialEq)]
pub struct Slope {
    /// Eave and verges in plan, closed: across the fall and up against it, in metres.
    pub outline: Vec<Point>,
    /// Where each rafter lies across the fall, in order.
    pub rafters: Vec<Length>,
    /// Rise for each run.
    pub pitch: units::Slope,
}

impl Slope {
    /// Along the slope for each length in plan.
    fn stretch(&self) -> f64 {
        1.0_f64.hypot(self.pitch.in_ratio())
    }

    /// What lies lowest and highest of the outline, in metres in plan.
    fn ends(&self) -> [f64; 2] {
        let up = || self.outline.iter().map(|at| at.y);
        [up().fold(f64::INFINITY, f64::min), up().fold(f64::NEG_INFINITY, f64::max)]
    }

    /// Levels in plan, in metres, between which each course lies, from the low eave up.
    #[must_use]
    pub fn strips(&self, cover: Length) -> Vec<[f64; 2]> {
        let ([low, high], step) = (self.ends(), cover.in_m() / self.stretch());
        let count = rounded_up((high - low) / step);
        (0..count).map(|course| [low + course as f64 * step, (low + (course + 1) as f64 * step).min(high)]).collect()
    }

    /// The courses from the low eave up; none where a course is parted by a hollow of the eave.
    ///
    /// A board runs from the outermost place of its course to the outermost and is cut to the edge where it lies. A rafter bears it
    /// that passes under half of its width and more.
    #[must_use]
    pub fn courses(&self, cover: Length) -> Option<Vec<Row>> {
        let outline: Vec<[f64; 3]> = self.outline.iter().map(|at| [at.x, at.y, 0.0]).collect();
        let course = |[from, to]: [f64; 2]| {
            let verges = reach(&outline, from, to)?.map(Length::m);
            let parted = [from + TOUCH, to - TOUCH].into_iter().any(|level| self.met(level).len() > 2);
            let [left, right] = self.met(0.5 * (from + to)).try_into().ok().filter(|_| !parted)?;
            let first = self.rafters.partition_point(|rafter| rafter.in_m() < left);
            let end = self.rafters.partition_point(|rafter| rafter.in_m() <= right);
            Some(Row { first, places: self.rafters[first..end.max(first)].to_vec(), verges })
        };
        self.strips(cover).into_iter().map(course).collect()
    }

    /// Where a level line crosses the outline, from left to right, in metres.
    fn met(&self, level: f64) -> Vec<f64> {
        let mut met = polygon::crossings(&self.outline, Point::new(0.0, level), Vec2::new(1.0, 0.0));
        met.sort_by(f64::total_cmp);
        met
    }

    /// Half-way from a rafter, counted from 1, to the next, across the fall.
    #[must_use]
    pub fn half_way(&self, rafter: u64) -> Option<Length> {
        let pair = self.rafters.windows(2).nth(usize::try_from(rafter).ok()?.checked_sub(1)?)?;
        Some((pair[0] + pair[1]) * 0.5)
    }

    /// The low edge from its left end to its right one, seen up the slope: at each end, at each rafter, at three places between two,
    /// and at each corner that lies lower or higher than what is beside it.
    #[must_use]
    pub fn edge_points(&self) -> Vec<EdgePoint> {
        let left = self.outline.iter().fold(f64::INFINITY, |least, at| least.min(at.x));
        let right = self.outline.iter().fold(f64::NEG_INFINITY, |most, at| most.max(at.x));
        let bays = self.rafters.windows(2).flat_map(|pair| {
            let [one, next] = [pair[0].in_m(), pair[1].in_m()];
            (0..PLACES_IN_BAY).map(move |place| one + (next - one) * place as f64 / PLACES_IN_BAY as f64)
        });
        let last = self.rafters.last().map(|last| last.in_m());
        let mut places: Vec<f64> = bays.chain(last).chain(self.turns()).chain([left, right]).collect();
        places.sort_by(f64::total_cmp);
        places.dedup_by(|one, other| (*one - *other).abs() < TOUCH);
        let halves: Vec<f64> = places.windows(2).map(|pair| 0.5 * (pair[0] + pair[1])).collect();
        let mut points: Vec<EdgePoint> = Vec::new();
        for (number, &x) in places.iter().enumerate() {
            let from = number.checked_sub(1).map_or(left, |before| halves[before]);
            let to = halves.get(number).copied().unwrap_or(right);
            let up = self.low_at(x);
            let place = [x, up, up * self.pitch.in_ratio()];
            let before = points.last();
            let along = before.map_or(Length::ZERO, |last| last.along + Length::m(length(minus(place, last.place))));
            points.push(EdgePoint { place, along, area: Area::m2(within(&self.outline, from..to)) });
        }
        points
    }

    /// Corners of the low edge at which it turns from falling to rising or back, across the fall.
    fn turns(&self) -> Vec<f64> {
        let count = self.outline.len();
        let turn = |number: usize| {
            let [before, at, next] = [count - 1, 0, 1].map(|step| self.outline[(number + step) % count]);
            let is_turn = (at.y - before.y) * (next.y - at.y) <= 0.0;
            (is_turn && at.y <= self.low_at(at.x) + TOUCH).then_some(at.x)
        };
        (0..count).filter_map(turn).collect()
    }

    /// How far up the low edge lies, so far across.
    fn low_at(&self, across: f64) -> f64 {
        let met = polygon::crossings(&self.outline, Point::new(across, 0.0), Vec2::new(0.0, 1.0));
        let corners = self.outline.iter().filter(|at| (at.x - across).abs() < TOUCH).map(|at| at.y);
        met.into_iter().chain(corners).fold(f64::INFINITY, f64::min)
    }
}

/// What counts as the same place across the fall, in metres.
const TOUCH: f64 = 1e-9;

/// Area of what of a polygon lies between two places across.
fn within(outline: &[Point], across: Range<f64>) -> f64 {
    let along = Vec2::new(1.0, 0.0);
    polygon::area(&polygon::beyond(&polygon::beyond(outline, along, across.start), -along, -across.end))
}

formula! {
    /// Courses of a deck in one plane.
    ///
    /// ```text
    /// n = l √(1 + p²) / b, rounded up        l: from the lowest place of the eave to the highest, in plan, p: pitch, b: cover of a board
    /// ```
    /// Source: elementary geometry; boards come whole.
    pub fn course_count(cover: Length; slope: &Slope) -> u64 {
        slope.strips(cover).len() as u64
    }
}

formula! {
    /// Boards of a deck whose joints lie over rafters.
    ///
    /// ```text
    /// n = Σ (1 + jᵢ)        jᵢ: joints of a course
    /// ```
    /// Source: the sum of its parts.
    pub fn pieces_over_rafters(; laid: &Staggered) -> u64 {
        laid.pieces.iter().map(|pieces| pieces.len() as u64).sum()
    }
}

formula! {
    /// Joints of boards that lie beside a joint of the course below.
    ///
    /// ```text
    /// n = Σ 1
    /// ```
    /// Source: counted; every course has as few as its rafters and the longest stock allow.
    pub fn joints_in_line(; laid: &Staggered) -> u64 {
        laid.in_line
    }
}

formula! {
    /// Courses whose boards rest on fewer than two rafters.
    ///
    /// ```text
    /// n = Σ 1        a rafter counts that passes under half of the width of a board and more
    /// ```
    /// Source: counted: a board on one support turns about it.
    pub fn unsupported_courses(; courses: &[Row]) -> u64 {
        courses.iter().filter(|course| course.places.len() < 2).count() as u64
    }
}

formula! {
    /// The first place of the low edge, from the side of the first rafter, that lies no more than a millimetre over its lowest.
    ///
    /// ```text
    /// n = place of the least z        among ends, rafters, three places between two, and corners that turn
    /// ```
    /// Source: searched for.
    pub fn lowest_of_edge(; points: &[EdgePoint]) -> u64 {
        let least = points.iter().map(|point| point.place[2]).fold(f64::INFINITY, f64::min);
        let found = points.iter().position(|point| point.place[2] <= least + LEVEL);
        found.map_or(0, |place| place as u64 + 1)
    }
}

formula! {
    /// How far a board runs on past the last rafter under it, at most; courses on fewer than two rafters are not among them.
    ///
    /// ```text
    /// o = largest of how far a verge lies from the rafter next to it
    /// ```
    /// Source: elementary geometry.
    pub fn farthest_past_rafters(; courses: &[Row]) -> Length {
        let past = courses.iter().filter(|course| course.places.len() > 1).flat_map(|course| {
            let [left, right] = course.verges;
            let first = course.places.first().map(|&rafter| rafter - left);
            first.into_iter().chain(course.places.last().map(|&rafter| right - rafter))
        });
        past.fold(Length::ZERO, Length::max)
    }
}

formula! {
    /// Pull of wind on the fasteners of a board where it lies on a rafter, at most.
    ///
    /// A board over three rafters hangs most on the middle one; one that runs on past its last rafter may hang more on that.
    ///
    /// ```text
    /// F = p b · larger of 5 a / 4 and a / 2 + o + 3 o² / (4 a)
    ///     p: uplift, b: cover of a board, a: from rafter to rafter, o: how far it runs on
    /// ```
    /// Source: reactions of beams on even supports under an even load, by the theorem of three moments; two spans that both run on hang
    /// most on their ends, 3 a / 8 + o + 3 o² / (4 a), one span with a / 2 + o + o² / (2 a).
    pub fn pull_at_rafter(uplift: Pressure, cover: Length, apart: Length, run_on: Length) -> Force {
        let within = apart * 1.25;
        let at_end = apart * 0.5 + run_on + run_on * (0.75 * (run_on / apart));
        uplift * (cover * within.max(at_end))
    }
}

formula! {
    /// Fasteners of a board where it lies on a rafter, at least two so that it does not cup.
    ///
    /// ```text
    /// n = F / R, rounded up        F: pull at a rafter, R: what one fastener holds against being pulled out
    /// ```
    /// Source: equal shares; two in each board are common practice, no source.
    pub fn fasteners_at_rafter(pull: Force, withdrawal: Force) -> u64 {
        rounded_up(pull / withdrawal).max(2)
    }
}

formula! {
    /// Places where a board lies on a rafter; two where two boards meet over it.
    ///
    /// ```text
    /// n = Σ (rᵢ + jᵢ)        rᵢ: rafters under a course, jᵢ: its joints
    /// ```
    /// Source: the sum of its parts.
    pub fn held_places(; courses: &[Row], laid: &Staggered) -> u64 {
        let rafters: usize = courses.iter().map(|course| course.places.len()).sum();
        let joints: usize = laid.joints.iter().map(Vec::len).sum();
        (rafters + joints) as u64
    }
}

formula! {
    /// Fasteners of a deck that lies in one plane.
    ///
    /// ```text
    /// n = n₁ N        n₁: of a board at a rafter, N: places where a board lies on one
    /// ```
    /// Source: the sum of equal parts.
    pub fn fasteners_over_rafters(each: u64, places: u64) -> u64 {
        each * places
    }
}

formula! {
    /// Edge boards all round a deck in one plane: low eave, verges and high eave.
    ///
    /// ```text
    /// l = Σ √(Δx² + Δy² (1 + p²))        Δx, Δy: a side of the eave across the fall and along it, in plan, p: pitch
    /// ```
    /// Source: length of a line in a sloping plane.
    pub fn edge_length(; slope: &Slope) -> Length {
        let (outline, stretch) = (&slope.outline, slope.stretch());
        let sides = outline.iter().zip(outline.iter().cycle().skip(1));
        Length::m(sides.map(|(one, next)| (next.x - one.x).hypot((next.y - one.y) * stretch)).sum())
    }
}

#[cfg(test)]
mod tests;

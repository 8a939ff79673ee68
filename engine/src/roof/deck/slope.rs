//! A deck in one plane on straight rafters: its courses from verge to verge, what holds them down, its edge.

use std::ops::Range;

use kurbo::{Point, Vec2};

use super::boards::reach;
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

    /// The courses from the low eave up. A board runs from the outermost place of its course to the outermost, over a hollow of the
    /// eave as well: it is cut to the edge where it lies.
    #[must_use]
    pub fn courses(&self, cover: Length) -> Vec<Row> {
        let outline: Vec<[f64; 3]> = self.outline.iter().map(|at| [at.x, at.y, 0.0]).collect();
        let course = |[from, to]: [f64; 2]| {
            let verges = reach(&outline, from, to)?.map(Length::m);
            let first = self.rafters.partition_point(|&rafter| rafter < verges[0]);
            let end = self.rafters.partition_point(|&rafter| rafter <= verges[1]);
            Some(Row { first, places: self.rafters[first..end.max(first)].to_vec(), verges })
        };
        self.strips(cover).into_iter().filter_map(course).collect()
    }

    /// The low edge from its left end to its right one: at each end, at each rafter, and at three places between two.
    #[must_use]
    pub fn edge_points(&self) -> Vec<EdgePoint> {
        let across = |least: f64, at: &Point| least.min(at.x);
        let left = self.outline.iter().fold(f64::INFINITY, across);
        let right = self.outline.iter().map(|at| at.x).fold(f64::NEG_INFINITY, f64::max);
        let bays = self.rafters.windows(2).flat_map(|pair| {
            let [one, next] = [pair[0].in_m(), pair[1].in_m()];
            (0..PLACES_IN_BAY).map(move |place| one + (next - one) * place as f64 / PLACES_IN_BAY as f64)
        });
        let inner = bays.chain(self.rafters.last().map(|last| last.in_m()));
        let places: Vec<f64> = [left].into_iter().chain(inner).chain([right]).collect();
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
    polygon::area(&beyond(&beyond(outline, across.start, 1.0), across.end, -1.0))
}

/// What of a polygon lies on one side of a place across: `sign` above zero keeps what is greater.
fn beyond(outline: &[Point], at: f64, sign: f64) -> Vec<Point> {
    let off = |point: &Point| sign * (point.x - at);
    let mut kept = Vec::new();
    for (one, next) in outline.iter().zip(outline.iter().cycle().skip(1)) {
        let (from, to) = (off(one), off(next));
        if from >= 0.0 {
            kept.push(*one);
        }
        if from * to < 0.0 {
            kept.push(one.lerp(*next, from / (from - to)));
        }
    }
    kept
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
    /// n = Σ 1
    /// ```
    /// Source: counted: a board on one support turns about it.
    pub fn unsupported_courses(; courses: &[Row]) -> u64 {
        courses.iter().filter(|course| course.places.len() < 2).count() as u64
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
mod tests {
    use super::*;
    use crate::roof::deck::{drainage, staggered};

    /// A slope of 3 in 4, 6 m across and 4 m up in plan, 5 m along it; rafters from 0.5 m on, 1 m apart.
    fn rectangle() -> Slope {
        let corners = [(0.0, 0.0), (6.0, 0.0), (6.0, 4.0), (0.0, 4.0)];
        let rafters = (0..6).map(|rafter| Length::m(0.5 + f64::from(rafter))).collect();
        Slope { outline: corners.map(Point::from).to_vec(), rafters, pitch: units::Slope::ratio(0.75) }
    }

    #[test]
    fn a_rectangle_is_covered_by_courses_from_verge_to_verge() {
        let slope = rectangle();
        let courses = slope.courses(Length::mm(200.0));
        assert_eq!((courses.len(), course_count(Length::mm(200.0), &slope).value), (25, 25));
        assert!(courses.iter().all(|course| course.places.len() == 6 && course.first == 0));
        assert!((edge_length(&slope).value.in_m() - 22.0).abs() < 1e-12);
        assert!((farthest_past_rafters(&courses).value.in_m() - 0.5).abs() < 1e-12);
        let laid = staggered(&courses, Length::m(4.0)).unwrap();
        let whole: Length = laid.pieces.iter().flatten().copied().sum();
        assert!((whole.in_m() - 150.0).abs() < 1e-9, "25 courses of 6 m");
        assert_eq!((pieces_over_rafters(&laid).value, joints_in_line(&laid).value), (50, 0));
        assert_eq!(held_places(&courses, &laid).value, 25 * 7);
    }

    #[test]
    fn a_board_of_a_narrow_end_lies_on_fewer_rafters_and_one_on_less_than_two_is_counted() {
        let corners = [(2.9, 0.0), (3.1, 0.0), (6.0, 4.0), (0.0, 4.0)];
        let slope = Slope { outline: corners.map(Point::from).to_vec(), ..rectangle() };
        let courses = slope.courses(Length::m(0.25));
        let under: Vec<usize> = courses.iter().map(|course| course.places.len()).collect();
        assert_eq!(under[..4], [0, 0, 2, 2]);
        assert_eq!((courses.len(), under[19], courses[2].first), (20, 6, 2));
        assert_eq!(unsupported_courses(&courses).value, 2);
        let laid = staggered(&courses, Length::m(3.0)).unwrap();
        assert!(laid.joints[2].is_empty() && laid.joints[12].iter().all(|joint| (2..4).contains(joint)));
    }

    #[test]
    fn what_drains_to_the_low_edge_is_the_whole_plan_and_a_level_eave_is_shared_by_its_outlets() {
        let slope = rectangle();
        let points = slope.edge_points();
        let whole: Area = points.iter().map(|point| point.area).sum();
        assert!((whole.in_m2() - 24.0).abs() < 1e-9);
        assert!(points.iter().all(|point| point.place[2].abs() < 1e-12));
        let found = drainage(&points, false, &[3, points.len() - 4]);
        for catchment in &found.catchments {
            assert!((catchment.area.in_m2() - 12.0).abs() < 1e-9);
        }
        assert_eq!(found.ponding, None);
    }

    #[test]
    fn water_stands_where_the_outlet_is_not_at_the_lowest_place() {
        let corners = [(0.0, 1.0), (3.0, 0.0), (6.0, 1.0), (6.0, 4.0), (0.0, 4.0)];
        let slope = Slope { outline: corners.map(Point::from).to_vec(), ..rectangle() };
        let points = slope.edge_points();
        // The outlet half-way from the first rafter to the second, 1 m across: two thirds up to the corner, by 3 in 4.
        let (_, depth) = drainage(&points, false, &[3]).ponding.unwrap();
        assert!((depth.in_m() - 0.75 * 2.0 / 3.0).abs() < 1e-9, "{}", depth.in_m());
    }

    /// Reactions of a beam over even spans of 1 m with both ends running on, under 1 N/m, by the theorem of three moments.
    fn reactions(spans: usize, past: f64) -> Vec<f64> {
        let hogging = 0.5 * past * past;
        // M(k-1) + 4 M(k) + M(k+1) = 1/2 for hogging moments above zero; Gauss-Seidel settles fast.
        let mut moments = vec![0.0; spans + 1];
        (moments[0], moments[spans]) = (hogging, hogging);
        for _ in 0..200 {
            for at in 1..spans {
                moments[at] = 0.25 * (0.5 - moments[at - 1] - moments[at + 1]);
            }
        }
        let own = |at: usize| if at == 0 || at == spans { 0.5 + past } else { 1.0 };
        let step = |at: usize, next: Option<&f64>| next.map_or(0.0, |next| moments[at] - next);
        let turned =
            |at: usize| step(at, at.checked_sub(1).map(|before| &moments[before])) + step(at, moments.get(at + 1));
        (0..=spans).map(|at| own(at) + turned(at)).collect()
    }

    #[test]
    fn no_row_of_spans_pulls_more_on_a_rafter_than_is_counted_and_one_pulls_as_much() {
        assert!((reactions(2, 0.0)[1] - 1.25).abs() < 1e-12, "a beam over three supports, any textbook");
        let counted = |past: f64| {
            let one = Length::m(1.0);
            pull_at_rafter(Pressure::pa(1.0), one, one, Length::m(past)).value.in_n()
        };
        assert!((counted(0.0) - 1.25).abs() < 1e-12);
        assert!((reactions(2, 1.5)[0] - (counted(1.5) - 0.125)).abs() < 1e-12, "two spans that both run on");
        for spans in 1..8 {
            for past in [0.0, 0.2, 0.4, 0.8, 1.0, 1.5] {
                let most = reactions(spans, past).into_iter().fold(0.0, f64::max);
                assert!(most <= counted(past) + 1e-12, "{spans} spans, {past}: {most} and {}", counted(past));
            }
        }
        assert_eq!(fasteners_at_rafter(Force::n(210.0), Force::n(100.0)).value, 3);
        assert_eq!(fasteners_at_rafter(Force::n(10.0), Force::n(100.0)).value, 2);
    }
}

//! Courses, edge and pulls of a deck in one plane, by hand.
#![allow(clippy::unwrap_used, reason = "a test stops at the first surprise")]

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
    let courses = slope.courses(Length::mm(200.0)).unwrap();
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
    let courses = slope.courses(Length::m(0.25)).unwrap();
    let under: Vec<usize> = courses.iter().map(|course| course.places.len()).collect();
    // 0.2 m in plan each; the edges pass the rafters at 2.5 and 3.5 m 0.552 m up, above the middle of the third.
    assert_eq!(under[..4], [0, 0, 0, 2]);
    assert_eq!((courses.len(), under[19], courses[3].first), (20, 6, 2));
    assert_eq!(unsupported_courses(&courses).value, 3);
    let laid = staggered(&courses, Length::m(3.5)).unwrap();
    assert!(laid.joints[3].is_empty() && laid.joints[12].iter().all(|joint| (2..4).contains(joint)));
}

#[test]
fn a_course_that_a_hollow_parts_is_not_laid() {
    let corners = [(0.0, 0.0), (2.0, 0.0), (3.0, 1.0), (4.0, 0.0), (6.0, 0.0), (6.0, 4.0), (0.0, 4.0)];
    let slope = Slope { outline: corners.map(Point::from).to_vec(), ..rectangle() };
    assert!(slope.courses(Length::m(0.25)).is_none());
}

#[test]
fn what_drains_to_the_low_edge_is_the_whole_plan_and_a_level_eave_is_shared_by_its_outlets() {
    let slope = rectangle();
    let points = slope.edge_points();
    let whole: Area = points.iter().map(|point| point.area).sum();
    assert!((whole.in_m2() - 24.0).abs() < 1e-9);
    assert!(points.iter().all(|point| point.place[2].abs() < 1e-12));
    let outlets = [1, 5].map(|rafter| {
        let middle = slope.half_way(rafter).unwrap().in_m();
        points.iter().position(|point| (point.place[0] - middle).abs() < 1e-9).unwrap()
    });
    let found = drainage(&points, false, &outlets);
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
    let at = |points: &[EdgePoint]| points.iter().position(|point| (point.place[0] - 1.0).abs() < 1e-9).unwrap();
    let (lowest, depth) = drainage(&points, false, &[at(&points)]).ponding.unwrap();
    assert!((depth.in_m() - 0.75 * 2.0 / 3.0).abs() < 1e-9, "{}", depth.in_m());
    assert_eq!((lowest as u64 + 1, points[lowest].place[0]), (lowest_of_edge(&points).value, 3.0));
    // A corner between two places is no less a place: here the lowest lies 2.9 m across.
    let askew = [(0.0, 1.0), (2.9, 0.0), (6.0, 1.0), (6.0, 4.0), (0.0, 4.0)];
    let points = Slope { outline: askew.map(Point::from).to_vec(), ..rectangle() }.edge_points();
    let (_, depth) = drainage(&points, false, &[at(&points)]).ponding.unwrap();
    assert!((depth.in_m() - 0.75 * (1.0 - 1.0 / 2.9)).abs() < 1e-9, "{}", depth.in_m());
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
    let turned = |at: usize| step(at, at.checked_sub(1).map(|before| &moments[before])) + step(at, moments.get(at + 1));
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
    let at_the_limit = [200.0, 200.1].map(|pull| fasteners_at_rafter(Force::n(pull), Force::n(100.0)).value);
    assert_eq!(at_the_limit, [2, 3]);
}

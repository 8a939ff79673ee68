//! Cuts against closed forms.
#![allow(clippy::unwrap_used, clippy::panic, reason = "a test stops at the first surprise")]

use std::f64::consts::PI;

use kurbo::Point;

use super::super::line::{Vertex, Way};
use super::*;

fn ring(radius: f64) -> PlanLine {
    let vertex = |x: f64, y: f64| Vertex { at: Point::new(x, 0.0), round: 0.5, way: Way::Through(Point::new(0.0, y)) };
    PlanLine::closed(&[vertex(radius, radius), vertex(-radius, -radius)]).unwrap()
}

fn square() -> PlanLine {
    let corners = [(0.0, 0.0), (8.0, 0.0), (8.0, 8.0), (0.0, 8.0)];
    PlanLine::closed(&corners.map(|(x, y)| Vertex { at: Point::new(x, y), round: 0.6, way: Way::Straight })).unwrap()
}

/// Area between two circles inside a strip through their middle: twice the integral of the half chords.
fn between_circles(half: f64, inner: f64, outer: f64) -> f64 {
    let half_segment = |r: f64| half * (r * r - half * half).sqrt() + r * r * (half / r).asin();
    half_segment(outer) - half_segment(inner)
}

fn close(found: f64, expected: f64) {
    assert!((found - expected).abs() < 1e-12 * expected.abs().max(1.0), "{found} is not {expected}");
}

const RECTANGLE: Form = Form::Rectangle { half: 0.45, bottom: 0.2, top: 1.1 };
const ROUND: Form = Form::Round { radius: 0.3, middle: 1.0 };
const ARCHED: Form = Form::Arched { half: 0.4, bottom: 0.1, spring: 1.2, top: 1.45 };

#[test]
fn in_a_ring_a_cut_is_the_closed_form_even_across_a_joint() {
    let (line, thickness) = (ring(2.0), Along::even(0.5));
    let shape = Shape { line: &line, thickness: &thickness, lean: [0.0; 2] };
    let length = line.runs()[0].whole.length();
    for along in [0.5 * length, 0.1, length] {
        let cut = Cut::straight(line.station(0, along).unwrap(), RECTANGLE);
        close(cut.area(&shape, 0.5), between_circles(0.45, 1.75, 2.25));
        close(cut.volume(&shape, 0.0, 9.0), 0.9 * between_circles(0.45, 1.75, 2.25));
        close(cut.face(&shape, Side::Outer, 0.0, 9.0), 0.9 * 2.0 * 2.25 * (0.45f64 / 2.25).asin());
        let depth = (2.25f64 * 2.25 - 0.2025).sqrt() - (1.75f64 * 1.75 - 0.2025).sqrt();
        close(cut.sides(&shape, 0.0, 9.0), 2.0 * 0.9 * depth);
    }
}

#[test]
fn in_a_straight_wall_a_cut_is_its_form_times_the_thickness() {
    let (line, thickness) = (square(), Along::even(0.4));
    let shape = Shape { line: &line, thickness: &thickness, lean: [0.0; 2] };
    let station = line.station(0, 4.0).unwrap();
    for form in [RECTANGLE, ROUND, ARCHED] {
        close(Cut::straight(station, form).volume(&shape, 0.0, 9.0), 0.4 * form.area());
        close(Cut::straight(station, form).face(&shape, Side::Inner, 0.0, 9.0), form.area());
    }
    close(Cut::straight(station, ROUND).sides(&shape, 0.0, 9.0), PI * 0.6 * 0.4);
    // A leaning face takes off what its middle height does: the form is symmetric about it.
    let leaning = Shape { lean: [0.0, 0.1], ..shape };
    close(Cut::straight(station, ROUND).volume(&leaning, 0.0, 9.0), ROUND.area() * (0.4 - 0.1));
}

#[test]
fn a_splay_adds_a_wedge_on_either_side() {
    let (line, thickness) = (square(), Along::even(0.5));
    let shape = Shape { line: &line, thickness: &thickness, lean: [0.0; 2] };
    let station = line.station(0, 4.0).unwrap();
    // The inner face is 0.35 m behind the crease.
    let depth = Depth::Through { crease: 0.1, splay: [0.3, 0.2] };
    let wedge = 0.5 * 0.5 * 0.35 * 0.35;
    for form in [RECTANGLE, ROUND, ARCHED] {
        let cut = Cut { station, form, depth };
        close(cut.volume(&shape, 0.0, 9.0), form.area() * (0.5 + wedge / (2.0 * form.half())));
        close(cut.face(&shape, Side::Inner, 0.0, 9.0), form.area() * (1.0 + 0.5 * 0.35 / (2.0 * form.half())));
    }
    let jambs = |splay: f64| 0.15 + 0.35 * 1.0_f64.hypot(splay);
    let rectangle = Cut { station, form: RECTANGLE, depth };
    close(rectangle.sides(&shape, 0.0, 9.0), 0.9 * (jambs(0.3) + jambs(0.2)));
}

#[test]
fn a_niche_is_its_form_times_its_depth_in_a_straight_wall_and_more_in_a_hollow_one() {
    let (line, thickness) = (square(), Along::even(0.5));
    let shape = Shape { line: &line, thickness: &thickness, lean: [0.0; 2] };
    let station = line.station(0, 4.0).unwrap();
    for (side, bottom) in [(Side::Inner, -0.25 + 0.18), (Side::Outer, 0.25 - 0.18)] {
        for form in [RECTANGLE, ROUND, ARCHED] {
            let niche = Cut { station, form, depth: Depth::Into { side, bottom } };
            close(niche.volume(&shape, 0.0, 9.0), form.area() * 0.18);
        }
    }
    let (line, thickness) = (ring(2.0), Along::even(0.5));
    let shape = Shape { line: &line, thickness: &thickness, lean: [0.0; 2] };
    let niche = Cut { station: line.at(1.0), form: RECTANGLE, depth: Depth::Into { side: Side::Inner, bottom: -0.1 } };
    // From the chord-like bottom, 1.9 m from the middle of the ring, in to the face at 1.75 m.
    let half_segment = |r: f64, half: f64| 0.5 * (half * (r * r - half * half).sqrt() + r * r * (half / r).asin());
    close(niche.area(&shape, 0.5), 2.0 * (0.45 * 1.9 - half_segment(1.75, 0.45)));
}

#[test]
fn a_wall_that_grows_thicker_gives_the_mean_thickness_to_what_stands_in_its_middle() {
    let line = square();
    let thickness = Along::between(
        &[[line.along_line(line.named_point(0)), 0.3], [line.along_line(line.named_point(1)), 0.7]],
        Some(line.length()),
    );
    let shape = Shape { line: &line, thickness: &thickness, lean: [0.0; 2] };
    let station = line.station(0, 4.0).unwrap();
    let middle = line.along_line(station);
    let cut = Cut::straight(station, RECTANGLE);
    close(cut.volume(&shape, 0.0, 9.0), RECTANGLE.area() * thickness.at(middle));
    let slope = thickness.slope(middle);
    close(cut.face(&shape, Side::Outer, 0.0, 9.0), RECTANGLE.area() * 1.0_f64.hypot(0.5 * slope));
}

#[test]
fn a_cut_wider_than_the_ring_meets_no_face() {
    let (line, thickness) = (ring(1.0), Along::even(0.5));
    let shape = Shape { line: &line, thickness: &thickness, lean: [0.0; 2] };
    let cut = |half: f64| Cut::straight(line.at(1.0), Form::Rectangle { half, bottom: 0.0, top: 1.0 });
    assert!(cut(0.8).stretch(&shape, Side::Inner, 0.5).is_none());
    assert!(cut(0.7).stretch(&shape, Side::Inner, 0.5).is_some());
    assert!(cut(0.7).touches(&shape).len() > 1);
}

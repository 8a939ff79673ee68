//! The plan line against circles, rectangles and lines that fold.

use super::*;
use std::f64::consts::PI;

fn vertex(x: f64, y: f64, way: Way) -> Vertex {
    Vertex { at: Point::new(x, y), round: 0.5, way }
}

fn ring() -> PlanLine {
    let through = |x, y| Way::Through(Point::new(x, y));
    PlanLine::closed(&[vertex(2.0, 0.0, through(0.0, 2.0)), vertex(-2.0, 0.0, through(0.0, -2.0))]).unwrap()
}

fn room(round: f64) -> Result<PlanLine, LineFault> {
    let corners = [(0.0, 0.0), (4.0, 0.0), (4.0, 3.0), (0.0, 3.0)];
    PlanLine::closed(&corners.map(|(x, y)| Vertex { at: Point::new(x, y), round, way: Way::Straight }))
}

#[test]
fn a_ring_of_two_arcs_has_the_length_and_area_of_its_circle() {
    assert!((ring().length() - 4.0 * PI).abs() < 1e-12);
    assert!((ring().area() - 4.0 * PI).abs() < 1e-12);
    assert_eq!(ring().pieces().len(), 2, "tangent arcs need no rounding");
}

#[test]
fn a_rounded_rectangle_loses_four_minus_pi_radius_squared() {
    let line = room(0.5).unwrap();
    assert!((line.area() - (12.0 - (4.0 - PI) * 0.25)).abs() < 1e-12);
    assert!((line.length() - (14.0 - 8.0 * 0.5 + PI)).abs() < 1e-12);
    assert!((line.centre() - Point::new(2.0, 1.5)).hypot() < 1e-9);
}

#[test]
fn faults_name_the_point() {
    let straight = |list: &[(f64, f64)]| {
        let points: Vec<Vertex> = list.iter().map(|&(x, y)| vertex(x, y, Way::Straight)).collect();
        PlanLine::closed(&points).unwrap_err()
    };
    assert_eq!(straight(&[(0., 0.), (4., 0.)]), LineFault::TooFew);
    assert_eq!(straight(&[(0., 0.), (4., 0.), (4., 0.), (0., 3.)]), LineFault::SamePlace(1));
    assert_eq!(straight(&[(0., 0.), (0., 3.), (4., 3.), (4., 0.)]), LineFault::Clockwise);
    assert!(matches!(straight(&[(0., 0.), (4., 4.), (4., 0.), (0., 4.)]), LineFault::Crosses(..)));
    assert!(matches!(room(1.6), Err(LineFault::RoundingsMeet(_))));
    assert!(matches!(room(3.5), Err(LineFault::NoRoomToRound(_))));
}

#[test]
fn a_station_past_the_end_of_its_run_is_none_and_one_in_a_corner_lies_on_the_rounding() {
    let line = room(0.5).unwrap();
    assert!(line.station(0, 4.01).is_none());
    let station = line.station(0, 3.9).unwrap();
    assert!(line.is_corner(station.piece));
    assert!((line.station(0, 2.0).unwrap().axis - Vec2::new(1.0, 0.0)).hypot() < 1e-12);
}

#[test]
fn an_offset_folds_where_it_passes_the_radius() {
    let line = room(0.5).unwrap();
    assert_eq!(line.first_fold(-0.49), None);
    assert_eq!(line.first_fold(-0.51), Some(0));
}

#[test]
fn the_extent_of_a_ring_is_its_diameter_with_the_wall() {
    let (extent, by) = ring().extent(0.25);
    assert!((extent.width() - 4.5).abs() < 1e-12 && (extent.height() - 4.5).abs() < 1e-12);
    assert_eq!((by[1], by[3]), (1, 0), "the lower arc reaches the bottom, the upper the top");
}

/// Two metres east, a quarter circle of radius one to the left, two metres north.
fn hook() -> PlanLine {
    let through = Way::Through(Point::new(2.0 + 0.5f64.sqrt(), 1.0 - 0.5f64.sqrt()));
    let points = [(0.0, 0.0, Way::Straight), (2.0, 0.0, through), (3.0, 1.0, Way::Straight), (3.0, 3.0, Way::Straight)];
    PlanLine::open(&points.map(|(x, y, way)| vertex(x, y, way))).unwrap()
}

#[test]
fn an_open_line_ends_at_its_last_point() {
    let line = hook();
    let length = 4.0 + 0.5 * PI;
    assert!(!line.is_closed() && line.runs().len() == 3);
    assert!((line.length() - length).abs() < 1e-12 && (line.turning() - 0.5 * PI).abs() < 1e-12);
    assert!(line.at(-1.0).point.distance(Point::ORIGIN) < 1e-12, "before its start there is no line");
    assert!(line.at(99.0).point.distance(Point::new(3.0, 3.0)) < 1e-12, "past its end there is no line");
    assert!((line.along_line(line.named_point(3)) - length).abs() < 1e-12);
    assert!(line.station(2, 2.0).is_some() && line.station(3, 0.0).is_none(), "the last point has no run");
    assert_eq!(PlanLine::open(&[vertex(0.0, 0.0, Way::Straight)]), Err(LineFault::TooFew));
}

#[test]
fn the_body_of_an_open_line_has_one_outline_with_two_square_ends() {
    let line = hook();
    let outlines = line.band(-0.2, 0.3, 1e-7);
    assert_eq!(outlines.len(), 1);
    let points = &outlines[0];
    let twice: f64 =
        (0..points.len()).map(|at| points[at].to_vec2().cross(points[(at + 1) % points.len()].to_vec2())).sum();
    // Pappus: the middle of the band lies 50 mm to the right, where the line is longer by its turning.
    let area = 0.5 * (line.length() + line.turning() * 0.05);
    assert!((0.5 * twice - area).abs() < 1e-6, "{} is not {area}", 0.5 * twice);
    let ends = line.end_faces(-0.2, 0.3);
    assert!(ends.iter().all(|end| (end.length() - 0.5).abs() < 1e-12));
    let (extent, _) = line.extent(0.2);
    let sides = [(extent.x0, 0.0), (extent.y0, -0.2), (extent.x1, 3.2), (extent.y1, 3.0)];
    assert!(sides.iter().all(|(found, wanted)| (found - wanted).abs() < 1e-12), "{extent:?}");
}

#[test]
fn an_open_line_may_turn_by_more_than_once_round_while_its_body_keeps_clear_of_itself() {
    // Half circles of falling radius, each about the middle of its ends: 2, 1.75, 1.5, 1.25 m.
    let points = [(2.0, 0.0, 2.0), (-2.0, 0.0, -1.75), (1.5, 0.0, 1.5), (-1.5, 0.0, -1.25), (1.0, 0.0, 0.0)];
    let middle = [0.0, -0.25, 0.0, -0.25, 0.0];
    let vertices: Vec<Vertex> = points
        .iter()
        .zip(middle)
        .map(|(&(x, y, through), middle)| vertex(x, y, Way::Through(Point::new(middle, through))))
        .collect();
    let line = PlanLine::open(&vertices).unwrap();
    assert!((line.turning() - 4.0 * PI).abs() < 1e-9, "{}", line.turning());
    assert_eq!(line.first_meeting(-0.24, 0.24), None);
    assert!(line.first_meeting(-0.26, 0.26).is_some(), "the windings stand 500 mm apart");
    assert_eq!(line.first_crossing(0.26), None, "each face alone does not cross itself");
    let crossing = [(0., 0.), (4., 0.), (4., 2.), (2., 2.), (2., -1.)].map(|(x, y)| vertex(x, y, Way::Straight));
    assert_eq!(PlanLine::open(&crossing), Err(LineFault::Crosses(0, 3)));
}

#[test]
fn a_run_along_a_cubic_curve_is_rounded_where_it_meets_the_next_one() {
    let bow = Way::Curve { leave: Vec2::new(-1.0, 1.2), arrive: Vec2::new(-1.0, -1.2) };
    let corners = [(0.0, 0.0), (4.0, 0.0), (4.0, 3.0), (0.0, 3.0)];
    let ways = [Way::Straight, Way::Straight, bow, Way::Straight];
    let points: Vec<Vertex> = corners.iter().zip(ways).map(|(&(x, y), way)| vertex(x, y, way)).collect();
    let line = PlanLine::closed(&points).unwrap();
    assert!(line.runs().iter().all(|run| run.corner.is_some()));
    for pair in line.pieces().windows(2) {
        assert!(pair[0].end.distance(pair[1].start) < 1e-8);
        assert!(pair[0].direction(pair[0].length()).cross(pair[1].direction(0.0)).abs() < 1e-6);
    }
    // Between the curve and its chord, by the general geometry library.
    let cubic = kurbo::CubicBez::new((4.0, 3.0), (3.0, 4.2), (1.0, 4.2), (0.0, 3.0));
    let bow =
        kurbo::ParamCurveArea::signed_area(&cubic) + 0.5 * Point::new(0.0, 3.0).to_vec2().cross(Vec2::new(4.0, 3.0));
    let unrounded = PlanLine::closed(&points.iter().map(|point| Vertex { round: 1e-4, ..*point }).collect::<Vec<_>>());
    assert!((unrounded.unwrap().area() - 12.0 - bow).abs() < 1e-5, "{bow}");
    assert!(line.area() < 12.0 + bow);
    let loops = Way::Curve { leave: Vec2::new(-9.0, 6.0), arrive: Vec2::new(-9.0, -6.0) };
    let points: Vec<Vertex> = points
        .iter()
        .map(|point| if point.way == Way::Straight { *point } else { Vertex { way: loops, ..*point } })
        .collect();
    assert_eq!(PlanLine::closed(&points), Err(LineFault::Curve(2, crate::curve::CubicFault::Loop)));
}

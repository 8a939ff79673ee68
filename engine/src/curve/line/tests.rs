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

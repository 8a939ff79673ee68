//! Cubic curves against a general geometry library: how far the arcs leave them, their length and area.

use super::*;
use kurbo::{ParamCurveArclen, ParamCurveArea, ParamCurveNearest};

fn cubic(points: [(f64, f64); 4]) -> Result<Cubic, CubicFault> {
    let [p0, p1, p2, p3] = points.map(Point::from);
    Cubic::between(p0, p1 - p0, p3 - p2, p3)
}

/// Bows, an S, a hook that turns by more than half a circle, and one nearly straight.
fn curves() -> Vec<Cubic> {
    let list = [
        [(0.0, 0.0), (1.5, 0.3), (3.2, 0.9), (3.6, 2.2)],
        [(0.0, 0.0), (1.3, 1.2), (2.6, -1.2), (4.0, 0.0)],
        [(0.0, 0.0), (2.6, 0.0), (2.6, 2.2), (0.4, 1.6)],
        [(5.0, 1.0), (4.0, 1.01), (3.0, 0.99), (1.0, 1.0)],
        [(-1.0, 2.0), (0.2, 3.5), (4.0, 5.0), (4.4, 1.0)],
        [(0.0, 0.0), (1.0, 0.0), (2.0, 0.0), (3.0, 0.0)],
    ];
    list.map(|points| cubic(points).unwrap()).to_vec()
}

#[test]
fn the_arcs_leave_the_curve_nowhere_by_more_than_a_hundredth_of_a_millimetre() {
    for (index, cubic) in curves().into_iter().enumerate() {
        let chain = cubic.laid_out();
        let steps = 4000;
        for step in 0..=steps {
            let share = f64::from(step) / f64::from(steps);
            let on_curve = cubic.curve.eval(share);
            let off = chain.at(chain.nearest(on_curve)).distance(on_curve);
            let on_arcs = chain.at(chain.length() * share);
            let back = cubic.curve.nearest(on_arcs, 1e-12).distance_sq.sqrt();
            assert!(off <= DEVIATION && back <= DEVIATION, "curve {index} at {share}: {off} and {back}");
        }
        let most = 24.0 * chain.length();
        assert!((chain.pieces().len() as f64) < most, "curve {index}: {} arcs", chain.pieces().len());
    }
}

#[test]
fn the_arcs_are_as_long_as_the_curve_and_hold_its_area() {
    for (index, cubic) in curves().into_iter().enumerate() {
        let chain = cubic.laid_out();
        let (length, exact) = (chain.length(), cubic.curve.arclen(1e-12));
        assert!((length - exact).abs() < 1e-6 * exact, "curve {index}: {length} long, the library {exact}");
        // The library's area is that of the sector seen from the origin; its chord closes both.
        let chord = 0.5 * cubic.curve.p3.to_vec2().cross(cubic.curve.p0.to_vec2());
        let exact = cubic.curve.signed_area() + chord;
        let (x, back) = (Vec2::new(1.0, 0.0), Piece::straight(chain.end(), chain.start()));
        let under = |piece: &Piece| piece.area_under(chain.start(), x);
        let area: f64 = chain.pieces().iter().map(under).sum::<f64>() + under(&back);
        assert!((area - exact).abs() < 1e-6 * length * length, "curve {index}: area {area}, the library {exact}");
    }
}

#[test]
fn each_arc_leaves_in_the_direction_in_which_the_one_before_arrives() {
    for cubic in curves() {
        let chain = cubic.laid_out();
        for pair in chain.pieces().windows(2) {
            assert!(pair[0].end.distance(pair[1].start) < 1e-12);
            let turn = pair[0].direction(pair[0].length()).cross(pair[1].direction(0.0));
            assert!(turn.abs() < 1e-6, "{turn}");
        }
        assert!(chain.direction(0.0).cross(cubic.direction(0.0)).abs() < 1e-6);
        assert!(chain.direction(chain.length()).cross(cubic.direction(1.0)).abs() < 1e-6);
    }
}

#[test]
fn the_least_radius_of_a_quarter_circle_drawn_as_a_cubic_is_nearly_its_radius() {
    let tangent = 4.0 / 3.0 * (std::f64::consts::FRAC_PI_8).tan() * 2.0;
    let quarter = cubic([(2.0, 0.0), (2.0, tangent), (tangent, 2.0), (0.0, 2.0)]).unwrap();
    assert!((quarter.least_radius() - 2.0).abs() < 0.02, "{}", quarter.least_radius());
    let pieces = quarter.laid_out();
    let least = pieces.pieces().iter().map(|piece| 1.0 / piece.curvature().abs()).fold(f64::INFINITY, f64::min);
    assert!((least - quarter.least_radius()).abs() < 0.02, "{least}");
    assert!(cubic([(0.0, 0.0), (1.0, 0.0), (2.0, 0.0), (3.0, 0.0)]).unwrap().least_radius().is_infinite());
}

#[test]
fn curves_without_a_direction_cusps_and_loops_are_told_apart() {
    assert_eq!(cubic([(0.0, 0.0), (0.0, 0.0), (2.0, 1.0), (3.0, 0.0)]), Err(CubicFault::NoTangent));
    assert_eq!(cubic([(0.0, 0.0), (1.0, 1.0), (3.0, 0.0), (3.0, 0.0)]), Err(CubicFault::NoTangent));
    assert_eq!(cubic([(0.0, 0.0), (3.0, 3.0), (0.0, 3.0), (3.0, 0.0)]), Err(CubicFault::Cusp));
    assert_eq!(cubic([(0.0, 0.0), (5.0, 0.0), (-2.0, 0.0), (3.0, 0.0)]), Err(CubicFault::Cusp));
    assert_eq!(cubic([(0.0, 0.0), (4.0, 3.0), (-1.0, 3.0), (3.0, 0.0)]), Err(CubicFault::Loop));
    assert!(cubic([(0.0, 0.0), (2.8, 3.0), (0.2, 3.0), (3.0, 0.0)]).is_ok());
}

//! The circle of given radius that touches two runs where they meet at a corner.

use kurbo::{Point, Vec2};

use super::chain::Chain;
use super::piece::{Bend, Piece};

/// Corners that turn by less than this are smooth: a millionth of a radian is a hair's breadth on a house.
const SMOOTH: f64 = 1e-6;

/// A rounded corner: where the run before ends, where the run after begins, and the arc between.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Rounding {
    /// Distance along the run before at which the arc begins, in metres.
    pub leave: f64,
    /// Distance along the run after at which the arc ends, in metres.
    pub arrive: f64,
    /// The arc.
    pub arc: Piece,
}

/// How two runs meet.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Meeting {
    /// In one direction; nothing to round.
    Smooth,
    /// At a corner, now rounded.
    Rounded(Rounding),
    /// At a corner that no circle of that radius fits.
    NoRoom,
}

/// Angle by which the line turns from the end of one run to the start of the next, in radians, positive to the left.
#[must_use]
pub fn turn(before: &Chain, after: &Chain) -> f64 {
    let (from, to) = (before.direction(before.length()), after.direction(0.0));
    from.cross(to).atan2(from.dot(to))
}

/// Rounds the corner between two runs with a radius in metres: the centre is where a piece of each, moved by the radius to
/// the inside of the corner, meet nearest to it, so that the circle touches both runs and cuts neither.
#[must_use]
pub fn round(before: &Chain, after: &Chain, radius: f64) -> Meeting {
    let turn = turn(before, after);
    if turn.abs() < SMOOTH {
        return Meeting::Smooth;
    }
    let right = -radius * turn.signum();
    let touches = |foot: Point, centre: Point| (foot.distance(centre) - radius).abs() < 1e-9 * (1.0 + radius);
    let fits = |centre: Point| -> Option<Rounding> {
        let (leave, arrive) = (before.nearest(centre), after.nearest(centre));
        let (from, to) = (before.at(leave), after.at(arrive));
        let both = touches(from, centre) && touches(to, centre);
        both.then(|| Rounding { leave, arrive, arc: Piece::short_arc(from, centre, to) })
    };
    let corner = before.end();
    let pairs = before.pieces().iter().flat_map(|a| after.pieces().iter().map(move |b| (a, b)));
    pairs
        .flat_map(|(a, b)| {
            let near = |piece: &Piece, centre: &Point| touches(piece.at(piece.nearest(*centre)), *centre);
            let centres = meetings(&a.offset(right), &b.offset(right));
            centres.into_iter().filter(move |centre| near(a, centre) && near(b, centre))
        })
        .filter_map(fits)
        .min_by(|a, b| a.arc.start.distance(corner).total_cmp(&b.arc.start.distance(corner)))
        .map_or(Meeting::NoRoom, Meeting::Rounded)
}

/// Where the unbounded lines or full circles of two pieces meet.
fn meetings(a: &Piece, b: &Piece) -> Vec<Point> {
    match (a.bend, b.bend) {
        (Bend::Straight, Bend::Straight) => {
            let (u, v) = (a.direction(0.0), b.direction(0.0));
            let across = u.cross(v);
            if across.abs() < 1e-12 { Vec::new() } else { vec![a.start + u * ((b.start - a.start).cross(v) / across)] }
        }
        (Bend::Straight, Bend::Arc { centre, .. }) => line_and_circle(a, centre, b.start.distance(centre)),
        (Bend::Arc { centre, .. }, Bend::Straight) => line_and_circle(b, centre, a.start.distance(centre)),
        (Bend::Arc { centre: p, .. }, Bend::Arc { centre: q, .. }) => {
            circles(p, a.start.distance(p), q, b.start.distance(q))
        }
    }
}

fn line_and_circle(line: &Piece, centre: Point, radius: f64) -> Vec<Point> {
    let along = line.direction(0.0);
    let middle = line.start + along * (centre - line.start).dot(along);
    pair(middle, along, radius * radius - (middle - centre).hypot2())
}

fn circles(p: Point, p_radius: f64, q: Point, q_radius: f64) -> Vec<Point> {
    let apart = q - p;
    let distance = apart.hypot();
    if distance < 1e-12 {
        return Vec::new();
    }
    let along = apart / distance;
    let reach = (distance * distance + p_radius * p_radius - q_radius * q_radius) / (2.0 * distance);
    pair(p + along * reach, along.turn_90(), p_radius * p_radius - reach * reach)
}

fn pair(middle: Point, along: Vec2, half_squared: f64) -> Vec<Point> {
    if half_squared < 0.0 {
        return Vec::new();
    }
    let half = along * half_squared.sqrt();
    vec![middle - half, middle + half]
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::f64::consts::FRAC_PI_2;

    fn rounded(before: &Piece, after: &Piece, radius: f64) -> Rounding {
        match round(&(*before).into(), &(*after).into(), radius) {
            Meeting::Rounded(rounding) => rounding,
            other => panic!("{other:?}"),
        }
    }

    #[test]
    fn a_square_corner_is_trimmed_by_its_radius() {
        let before = Piece::straight(Point::new(0.0, 0.0), Point::new(4.0, 0.0));
        let after = Piece::straight(Point::new(4.0, 0.0), Point::new(4.0, 3.0));
        let rounding = rounded(&before, &after, 0.5);
        assert!((rounding.leave - 3.5).abs() < 1e-12 && (rounding.arrive - 0.5).abs() < 1e-12);
        assert!((rounding.arc.turning() - FRAC_PI_2).abs() < 1e-12);
    }

    #[test]
    fn a_corner_between_a_line_and_an_arc_touches_both() {
        let before = Piece::straight(Point::new(0.0, 0.0), Point::new(4.0, 0.0));
        let after = Piece::arc_through(Point::new(4.0, 0.0), Point::new(3.0, 3.0), Point::new(0.0, 4.0)).unwrap();
        let Rounding { leave, arrive, arc } = rounded(&before, &after, 0.5);
        assert!((before.direction(leave) - arc.direction(0.0)).hypot() < 1e-9);
        assert!((after.direction(arrive) - arc.direction(arc.length())).hypot() < 1e-9);
    }

    #[test]
    fn a_circle_touches_the_arc_of_a_chain_that_lies_nearest_to_the_corner() {
        let before = Piece::straight(Point::new(0.0, 0.0), Point::new(4.0, 0.0));
        let whole = Piece::arc_through(Point::new(4.0, 0.0), Point::new(3.0, 3.0), Point::new(0.0, 4.0)).unwrap();
        let parts = (0..8).map(|part| f64::from(part) * whole.length() / 8.0);
        let parted = Chain::of(parts.map(|from| whole.part(from, from + whole.length() / 8.0)).collect()).unwrap();
        let (one, many) = (round(&before.into(), &whole.into(), 0.9), round(&before.into(), &parted, 0.9));
        let (Meeting::Rounded(one), Meeting::Rounded(many)) = (one, many) else { panic!("{one:?}, {many:?}") };
        assert!((one.leave - many.leave).abs() < 1e-9 && (one.arrive - many.arrive).abs() < 1e-9);
        assert!(many.arrive > whole.length() / 8.0, "the circle touches beyond the first part");
    }

    #[test]
    fn a_tangent_joint_needs_no_rounding_and_a_short_run_has_no_room() {
        let before = Chain::from(Piece::straight(Point::new(0.0, 0.0), Point::new(1.0, 0.0)));
        let on = Piece::straight(Point::new(1.0, 0.0), Point::new(2.0, 0.0)).into();
        assert_eq!(round(&before, &on, 0.5), Meeting::Smooth);
        let up = Piece::straight(Point::new(1.0, 0.0), Point::new(1.0, 3.0)).into();
        assert_eq!(round(&before, &up, 1.5), Meeting::NoRoom);
    }
}

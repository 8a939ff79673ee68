//! A cubic curve in plan, laid out as circular arcs end to end, each tangent to the next.

use kurbo::{CubicBez, ParamCurve, ParamCurveDeriv, Point, Vec2};

use super::chain::Chain;
use super::piece::{Bend, Piece};

/// The arcs leave the curve nowhere by more than this, in metres.
const DEVIATION: f64 = 1e-5;

/// Nor by more than this share of the way round its control points, so that a small curve is the large one made smaller.
const SHARE: f64 = 1e-6;

/// Tangents shorter than this, in metres, have no direction.
const SHORTEST_TANGENT: f64 = 1e-6;

/// A curve whose speed falls below this share of its tangents turns about on the spot.
const SLOWEST: f64 = 1e-3;

/// Most that the curve may turn from one end of a pair of arcs to the other, in radians.
const MOST_TURN: f64 = 1.0;

/// A pair of arcs is halved at most so many times.
const DEEPEST: u32 = 12;

/// Why a curve cannot be a run of a wall.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum CubicFault {
    /// It does not leave or arrive in any direction.
    NoTangent,
    /// It turns about on the spot.
    Cusp,
    /// It crosses itself.
    Loop,
}

/// A cubic curve from point to point. Coordinates are metres.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Cubic {
    curve: CubicBez,
}

impl Cubic {
    /// The curve from `start` to `end` whose control points are `start + leave` and `end − arrive`: it leaves in the direction
    /// of the one tangent and arrives in that of the other. All in metres.
    ///
    /// # Errors
    /// The [`CubicFault`] of a curve that has no direction somewhere, or crosses itself.
    pub fn between(start: Point, leave: Vec2, arrive: Vec2, end: Point) -> Result<Cubic, CubicFault> {
        if leave.hypot() < SHORTEST_TANGENT || arrive.hypot() < SHORTEST_TANGENT {
            return Err(CubicFault::NoTangent);
        }
        let cubic = Cubic { curve: CubicBez::new(start, start + leave, end - arrive, end) };
        let slowest = cubic.least(|share| cubic.speed(share).hypot());
        if slowest < SLOWEST * 3.0 * leave.hypot().max(arrive.hypot()) {
            return Err(CubicFault::Cusp);
        }
        if cubic.crosses_itself() {
            return Err(CubicFault::Loop);
        }
        Ok(cubic)
    }

    /// Least radius of the curve, in metres; infinite where it is straight.
    #[must_use]
    pub fn least_radius(&self) -> f64 {
        self.least(|share| {
            let (speed, bending) = (self.speed(share), self.curve.deriv().deriv().eval(share).to_vec2());
            speed.hypot().powi(3) / speed.cross(bending).abs()
        })
    }

    /// The arcs that follow the curve within a hundredth of a millimetre, tangent to it at the ends of each pair of arcs.
    #[must_use]
    pub fn laid_out(&self) -> Chain {
        let CubicBez { p0, p1, p2, p3 } = self.curve;
        let most = DEVIATION.min(SHARE * (p0.distance(p1) + p1.distance(p2) + p2.distance(p3)));
        let mut pieces = Vec::new();
        self.lay_out([0.0, 1.0], (most, 0), &mut pieces);
        Chain::of(pieces).unwrap_or_else(|| Piece::straight(p0, p3).into())
    }

    /// Change of place for each unit of the parameter, in metres.
    fn speed(&self, share: f64) -> Vec2 {
        self.curve.deriv().eval(share).to_vec2()
    }

    fn direction(&self, share: f64) -> Vec2 {
        self.speed(share).normalize()
    }

    fn lay_out(&self, [from, to]: [f64; 2], (most, depth): (f64, u32), pieces: &mut Vec<Piece>) {
        let middle = from.midpoint(to);
        let ends = [from, to].map(|share| (self.curve.eval(share), self.direction(share)));
        let between = self.direction(middle);
        let [first, second] = ends.map(|(_, direction)| direction.cross(between).atan2(direction.dot(between)).abs());
        let pair = pair(ends);
        if depth >= DEEPEST || first + second < MOST_TURN && self.deviation(&pair, [from, to]) <= most {
            pieces.extend(pair.into_iter().filter(|piece| piece.length() > 0.0));
            return;
        }
        self.lay_out([from, middle], (most, depth + 1), pieces);
        self.lay_out([middle, to], (most, depth + 1), pieces);
    }

    /// How far the curve leaves a pair of arcs between two shares of its way, in metres.
    fn deviation(&self, pair: &[Piece; 2], [from, to]: [f64; 2]) -> f64 {
        const PLACES: u32 = 16;
        let off = |place: u32| {
            let point = self.curve.eval(from + (to - from) * f64::from(place) / f64::from(PLACES));
            pair.iter().map(|piece| piece.at(piece.nearest(point)).distance(point)).fold(f64::INFINITY, f64::min)
        };
        (1..PLACES).map(off).fold(0.0, f64::max)
    }

    /// The least value of a measure along the curve: the least of many places, narrowed by thirds beside it.
    fn least(&self, measure: impl Fn(f64) -> f64) -> f64 {
        const PLACES: u32 = 256;
        let share = |place: f64| (place / f64::from(PLACES)).clamp(0.0, 1.0);
        let places = (0..=PLACES).map(f64::from);
        let best = places.min_by(|a, b| measure(share(*a)).total_cmp(&measure(share(*b)))).unwrap_or(0.0);
        let (mut low, mut high) = (share(best - 1.0), share(best + 1.0));
        for _ in 0..80 {
            let third = (high - low) / 3.0;
            if measure(low + third) < measure(high - third) {
                high -= third;
            } else {
                low += third;
            }
        }
        measure(low.midpoint(high)).min(measure(share(best)))
    }

    /// Two shares s and t of the way lead to one point where a (s² + s t + t²) + b (s + t) + c = 0, with the curve written as
    /// a t³ + b t² + c t + d: two equations for the sum and the product of s and t.
    fn crosses_itself(&self) -> bool {
        let CubicBez { p0, p1, p2, p3 } = self.curve;
        let (c, b) = (3.0 * (p1 - p0), 3.0 * ((p2 - p1) - (p1 - p0)));
        let a = (p3 - p0) - 3.0 * (p2 - p1);
        let across = a.cross(b);
        if across.abs() < 1e-12 * (a.hypot2() + b.hypot2() + c.hypot2()) {
            return false;
        }
        let sum = -a.cross(c) / across;
        let product = sum * sum + (a.dot(b) * sum + a.dot(c)) / a.hypot2();
        let apart = sum * sum - 4.0 * product;
        if apart <= 0.0 {
            return false;
        }
        let half = 0.5 * apart.sqrt();
        [0.5 * sum - half, 0.5 * sum + half].iter().all(|share| (0.0..=1.0).contains(share))
    }
}

/// The two arcs that join two places, each with its direction: they meet so that both tangents to their joint are as long.
///
/// ```text
/// v² − 2 d v·(t₁ + t₂) − 2 d² (1 − t₁·t₂) = 0        v: from the one place to the other, t₁, t₂: directions there
/// joint = ½ (p₁ + p₂ + d (t₁ − t₂))
/// ```
/// Source: elementary geometry of two tangent circles.
fn pair([(start, leave), (end, arrive)]: [(Point, Vec2); 2]) -> [Piece; 2] {
    let way = end - start;
    let (along, spread) = (way.dot(leave + arrive), 2.0 * (1.0 - leave.dot(arrive)));
    // The positive root, in the form that holds for parallel directions too.
    let tangent = way.hypot2() / (along + (along * along + spread * way.hypot2()).sqrt());
    let joint = start.midpoint(end) + (leave - arrive) * (0.5 * tangent);
    let back = leaving(end, -arrive, joint);
    let reversed = match back.bend {
        Bend::Straight => Piece::straight(joint, end),
        Bend::Arc { centre, sweep } => Piece { start: joint, end, bend: Bend::Arc { centre, sweep: -sweep } },
    };
    [leaving(start, leave, joint), reversed]
}

/// The arc that leaves a place in a direction and ends at another; straight where it hardly turns: a circle's centre farther
/// away than a million times its chord would cost more digits than it is worth.
fn leaving(start: Point, direction: Vec2, end: Point) -> Piece {
    let chord = end - start;
    let half = direction.cross(chord).atan2(direction.dot(chord));
    if half.abs() < 1e-7 {
        return Piece::straight(start, end);
    }
    let radius = chord.hypot() / (2.0 * half.sin());
    Piece { start, end, bend: Bend::Arc { centre: start + direction.turn_90() * radius, sweep: 2.0 * half } }
}

#[cfg(test)]
mod tests;

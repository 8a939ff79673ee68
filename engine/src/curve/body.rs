//! The body of a wall whose thickness or height changes along its line: integrals over it, lift by lift.

use super::along::{Along, Top};
use super::shape::{Shape, Side};
use crate::solve::quadrature::integral;
use crate::solve::sign::sign_change;

/// Places in each piece of the line at which the top is looked at for where it passes a level.
const LOOKS: u32 = 16;

/// A wall between its foot at level 0 and its top.
#[derive(Clone, Debug)]
pub struct Body<'a> {
    /// Its two faces.
    pub shape: Shape<'a>,
    /// Its top.
    pub top: &'a Top,
    /// Distances along the line between which everything about it is smooth: joints of pieces, knots of thickness and
    /// height, places where the top passes one of the levels of interest; in metres.
    breaks: Vec<f64>,
}

impl<'a> Body<'a> {
    /// A wall that is integrated between levels, in metres: what is added up from one to the next is the whole, since all
    /// sums are taken at the same places along the line.
    #[must_use]
    pub fn new(shape: Shape<'a>, top: &'a Top, levels: &[f64]) -> Body<'a> {
        let line = shape.line;
        let mut breaks: Vec<f64> = (0..line.pieces().len()).map(|piece| line.start(piece)).collect();
        breaks.push(line.length());
        let knots = shape.thickness.breaks().chain(top.heights.breaks());
        breaks.extend(knots.filter(|knot| (0.0..line.length()).contains(knot)));
        breaks.sort_by(f64::total_cmp);
        let mut crossings = Vec::new();
        for pair in breaks.windows(2) {
            let step = (pair[1] - pair[0]) / f64::from(LOOKS);
            for look in 0..LOOKS {
                let from = pair[0] + step * f64::from(look);
                for &level in levels {
                    crossings.extend(sign_change(|along| top.at(line, along) - level, from, from + step));
                }
            }
        }
        breaks.extend(crossings);
        breaks.sort_by(f64::total_cmp);
        breaks.dedup_by(|a, b| (*a - *b).abs() < 1e-12);
        Body { shape, top, breaks }
    }

    /// Distances along the line at which something about the wall changes, in metres.
    #[must_use]
    pub fn knots(&self) -> &[f64] {
        &self.breaks
    }

    /// The top, or a level where that is lower, in metres: on arcs straight between places so near to each other that it is
    /// nowhere farther off than a chord error.
    #[must_use]
    pub fn capped(&self, level: f64, chord_error: f64) -> Along {
        let line = self.shape.line;
        if self.top.is_level() {
            return Along::even(self.top.heights.at(0.0).min(level));
        }
        let mut knots = Vec::new();
        for pair in self.breaks.windows(2) {
            let curvature = line.pieces()[line.at(pair[0].midpoint(pair[1])).piece].curvature().abs();
            let rise = self.top.slope.map_or(0.0, |(rise, _)| rise.hypot());
            // Height of a flat arc of a curve whose second derivative is slope times curvature.
            let step = (8.0 * chord_error / (rise * curvature).max(1e-12)).sqrt();
            let parts = ((pair[1] - pair[0]) / step).ceil().clamp(1.0, 4096.0) as u32;
            knots.extend((0..parts).map(|part| {
                let along = pair[0] + (pair[1] - pair[0]) * f64::from(part) / f64::from(parts);
                [along, self.top.at(line, along).min(level)]
            }));
        }
        if !line.is_closed() {
            let end = line.length();
            knots.push([end, self.top.at(line, end).min(level)]);
        }
        Along::between(&knots, line.is_closed().then(|| line.length()))
    }

    /// The integral along the line, in metres, of a quantity that depends on the distance along it and its curvature.
    fn along(&self, of: impl FnMut(f64, f64) -> f64) -> f64 {
        self.between([0.0, self.shape.line.length()], of)
    }

    /// The same between two distances along the line, in metres.
    fn between(&self, [from, to]: [f64; 2], mut of: impl FnMut(f64, f64) -> f64) -> f64 {
        let line = self.shape.line;
        let smooth = self.breaks.windows(2).map(|pair| [pair[0].max(from), pair[1].min(to)]);
        smooth
            .filter(|[from, to]| to > from)
            .map(|[from, to]| {
                let curvature = line.pieces()[line.at(from.midpoint(to)).piece].curvature();
                integral(from, to, |along| of(along, curvature))
            })
            .sum()
    }

    fn offsets(&self, along: f64, level: f64) -> [f64; 2] {
        [Side::Inner, Side::Outer].map(|side| self.shape.offset(side, along, level))
    }

    /// Volume between two levels, in m³.
    ///
    /// ```text
    /// V = ∫∫ (n₂ − n₁ + ½ κ (n₂² − n₁²)) dz ds        up to the top where that is lower
    /// ```
    /// Source: volume element (1 + κ n) dn ds dz beside a curve, any textbook of differential geometry.
    #[must_use]
    pub fn volume(&self, from: f64, to: f64) -> f64 {
        self.along(|along, curvature| {
            let high = to.min(self.top.at(self.shape.line, along));
            if high <= from {
                return 0.0;
            }
            let section = |level: f64| {
                let [inner, outer] = self.offsets(along, level);
                (outer - inner) * (1.0 + 0.5 * curvature * (outer + inner))
            };
            // A parabola in the level: Simpson's rule is exact.
            (section(from) + 4.0 * section(from.midpoint(high)) + section(high)) * (high - from) / 6.0
        })
    }

    /// Plan area of the top of what stands between two levels, in m²: the upper one, or the wall's top where that is lower.
    #[must_use]
    pub fn bed(&self, from: f64, to: f64) -> f64 {
        self.along(|along, curvature| {
            let high = to.min(self.top.at(self.shape.line, along));
            if high <= from {
                return 0.0;
            }
            let [inner, outer] = self.offsets(along, high);
            (outer - inner) * (1.0 + 0.5 * curvature * (outer + inner))
        })
    }

    /// Area of a face, in m².
    ///
    /// ```text
    /// S = ∫∫ √((1 + κ n)² (1 + b²) + n′²) dz ds
    /// ```
    /// Source: area of a parametric surface, any textbook of vector calculus.
    #[must_use]
    pub fn face(&self, side: Side) -> f64 {
        self.face_between(side, [0.0, self.shape.line.length()])
    }

    /// The same between two distances along the line, in metres; past the end of a closed line it goes round again.
    #[must_use]
    pub fn face_between(&self, side: Side, [from, to]: [f64; 2]) -> f64 {
        let whole = self.shape.line.length();
        if to > whole && self.shape.line.is_closed() {
            return self.face_between(side, [from, whole]) + self.face_between(side, [0.0, to - whole]);
        }
        let lean = 1.0_f64.hypot(self.shape.lean[usize::from(side == Side::Outer)]);
        self.between([from, to], |along, curvature| {
            let high = self.top.at(self.shape.line, along);
            integral(0.0, high, |level| {
                let scale = 1.0 + curvature * self.shape.offset(side, along, level);
                (lean * scale).hypot(self.shape.widening(side, along))
            })
        })
    }

    /// Area in plan between the line and a face at level 0, in m², positive to the right.
    #[must_use]
    pub fn beside(&self, side: Side) -> f64 {
        self.along(|along, curvature| {
            let offset = self.shape.offset(side, along, 0.0);
            offset * (1.0 + 0.5 * curvature * offset)
        })
    }

    /// Means along the line of the thickness at the foot and of the height, in metres.
    #[must_use]
    pub fn means(&self) -> [f64; 2] {
        let length = self.shape.line.length();
        let thickness = self.along(|along, _| self.shape.thickness.at(along));
        [thickness / length, self.along(|along, _| self.top.at(self.shape.line, along)) / length]
    }

    /// The place along the line at which a measure of thickness and height there, in metres, is greatest.
    #[must_use]
    pub fn greatest(&self, measure: impl Fn(f64, f64) -> f64) -> f64 {
        let places = self.breaks.windows(2).flat_map(|pair| {
            let step = (pair[1] - pair[0]) / f64::from(LOOKS);
            (0..=LOOKS).map(move |look| pair[0] + step * f64::from(look))
        });
        let at = |along: &f64| measure(self.shape.thickness.at(*along), self.top.at(self.shape.line, *along));
        places.max_by(|a, b| at(a).total_cmp(&at(b))).unwrap_or(0.0)
    }
}

#[cfg(test)]
mod tests {
    use super::super::line::{PlanLine, Vertex, Way};
    use super::*;
    use kurbo::Point;

    #[test]
    fn a_ring_of_even_size_is_the_closed_form_and_lifts_are_the_whole() {
        let vertex =
            |x: f64, y: f64| Vertex { at: Point::new(x, 0.0), round: 0.5, way: Way::Through(Point::new(0.0, y)) };
        let line = PlanLine::closed(&[vertex(2.0, 2.0), vertex(-2.0, -2.0)]).unwrap();
        let thickness = Along::even(0.4);
        let level = Top { heights: Along::even(2.0), slope: None };
        let body = Body::new(Shape { line: &line, thickness: &thickness, lean: [0.0; 2] }, &level, &[]);
        let ring = std::f64::consts::PI * (2.2 * 2.2 - 1.8 * 1.8) * 2.0;
        assert!((body.volume(0.0, 9.0) - ring).abs() < 1e-12);
        assert!((body.face(Side::Outer) - 4.4 * std::f64::consts::PI * 2.0).abs() < 1e-12);
        // A plane through the middle of a ring takes off as much on one side as it leaves on the other.
        let slope = Top { heights: Along::even(2.0), slope: Some((kurbo::Vec2::new(0.2, 0.1), Point::ORIGIN)) };
        let swelling = Along::between(&[[0.0, 0.4], [5.0, 0.6]], Some(line.length()));
        let even =
            Body::new(Shape { line: &line, thickness: &thickness, lean: [0.02, 0.05] }, &slope, &[0.7, 1.8, 2.1]);
        let sum: f64 =
            [[0.0, 0.7], [0.7, 1.8], [1.8, 2.1], [2.1, 9.0]].map(|[from, to]| even.volume(from, to)).iter().sum();
        assert!((sum - even.volume(0.0, 9.0)).abs() < 1e-12);
        let upright = Body::new(Shape { line: &line, thickness: &thickness, lean: [0.0; 2] }, &slope, &[0.7]);
        assert!((upright.volume(0.0, 9.0) - ring).abs() < 1e-9, "{}", upright.volume(0.0, 9.0) - ring);
        let uneven = Body::new(Shape { line: &line, thickness: &swelling, lean: [0.0; 2] }, &level, &[]);
        assert!((uneven.volume(0.0, 9.0) - 2.0 * 0.5 * line.length()).abs() < 1e-12);
    }
}

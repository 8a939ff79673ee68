//! Places in plan as pegs, string and tapes find them: along a baseline and square to it, by two tapes, by ordinates.

use kurbo::{Point, Vec2};

use crate::reason::formula;
use crate::units::Length;

/// The string between peg A and peg B, in metres; the house stands to the left of the way from A to B.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Baseline {
    /// Peg A.
    pub a: Point,
    /// Peg B.
    pub b: Point,
}

impl Baseline {
    /// Unit direction from A to B.
    #[must_use]
    pub fn axis(self) -> Vec2 {
        (self.b - self.a).normalize()
    }

    /// Distance of a point along the baseline from A, and its offset to the left, in metres.
    #[must_use]
    pub fn reading(self, point: Point) -> [f64; 2] {
        let (axis, from_a) = (self.axis(), point - self.a);
        [axis.dot(from_a), axis.cross(from_a)]
    }

    /// The point at a distance along the baseline from A and an offset to the left, in metres.
    #[must_use]
    pub fn point(self, [along, offset]: [f64; 2]) -> Point {
        self.a + self.axis() * along + self.axis().turn_90() * offset
    }
}

formula! {
    /// Coordinate of a peg or of the baseline, clear of the trench, or of the stem where there is no trench.
    ///
    /// ```text
    /// c = c₀ ± (w / 2 + d)        c₀: how far the wall line reaches on that side, d: clear ground
    /// ```
    /// Source: the definition of the clear distance.
    pub fn clear_of(width: Length, clear: Length; reach: Length, side: f64) -> Length {
        reach + (width * 0.5 + clear) * side
    }
}

formula! {
    /// Length of the baseline.
    ///
    /// ```text
    /// l = √((x₂ − x₁)² + (y₂ − y₁)²)
    /// ```
    /// Source: Pythagoras; the definition of distance in plan coordinates.
    pub fn baseline_length(; baseline: Baseline) -> Length {
        Length::m(baseline.a.distance(baseline.b))
    }
}

formula! {
    /// Distance along the baseline from peg A to the foot of the square through a point.
    ///
    /// ```text
    /// a = (p − A) · (B − A) / |B − A|
    /// ```
    /// Source: the definition of the projection on a line.
    pub fn along_baseline(; point: Point, baseline: Baseline) -> Length {
        Length::m(baseline.reading(point)[0])
    }
}

formula! {
    /// Offset of a point from the baseline, square to it, to the left of the way from A to B.
    ///
    /// ```text
    /// o = (B − A) × (p − A) / |B − A|
    /// ```
    /// Source: the definition of the distance from a line.
    pub fn offset_from_baseline(; point: Point, baseline: Baseline) -> Length {
        Length::m(baseline.reading(point)[1])
    }
}

formula! {
    /// What a tape reads, held level from one peg to another.
    ///
    /// ```text
    /// l = √((x₂ − x₁)² + (y₂ − y₁)²)
    /// ```
    /// Source: Pythagoras; the definition of distance in plan coordinates.
    pub fn tape(; from: Point, to: Point) -> Length {
        Length::m(from.distance(to))
    }
}

formula! {
    /// Even steps along a line or a chord.
    ///
    /// ```text
    /// x = k s        k = 1, 2, 3 ..
    /// ```
    /// Source: the definition of the step.
    pub fn step(spacing: Length; count: f64) -> Length {
        spacing * count
    }
}

formula! {
    /// Ordinate of an arc: from its chord square to the arc, at a distance from the middle of the chord to either side.
    ///
    /// ```text
    /// y = √(R² − x²) − √(R² − (c / 2)²)
    /// ```
    /// Source: the equation of the circle.
    pub fn ordinate(radius: Length, chord: Length, from_middle: Length) -> Length {
        let (r, half, x) = (radius.in_m(), 0.5 * chord.in_m(), from_middle.in_m());
        Length::m((r * r - x * x).max(0.0).sqrt() - (r * r - half * half).max(0.0).sqrt())
    }
}

formula! {
    /// From the wall line to the string of a face, square to it, to either side.
    ///
    /// ```text
    /// n = w / 2
    /// ```
    /// Source: the middle of a body lies on the line.
    pub fn half_width(width: Length) -> Length {
        width * 0.5
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_point_is_found_again_from_its_reading() {
        let baseline = Baseline { a: Point::new(-4.0, -3.0), b: Point::new(5.0, -2.5) };
        for point in [Point::new(0.0, 0.0), Point::new(-3.1, 2.2), Point::new(9.0, -8.0)] {
            assert!(baseline.point(baseline.reading(point)).distance(point) < 1e-12);
        }
        assert!(baseline.reading(Point::new(0.0, 1.0))[1] > 0.0, "the house is on the left");
    }

    #[test]
    fn ordinates_of_a_half_circle_are_its_half_chords() {
        let y = |x| ordinate(Length::m(5.0), Length::m(10.0), Length::m(x)).value.in_m();
        assert!((y(0.0) - 5.0).abs() < 1e-12 && (y(3.0) - 4.0).abs() < 1e-12 && y(5.0).abs() < 1e-12);
        let flat = ordinate(Length::m(5.0), Length::m(8.0), Length::m(3.0)).value.in_m();
        assert!((flat - 1.0).abs() < 1e-12, "√(25 − 9) − √(25 − 16)");
    }
}

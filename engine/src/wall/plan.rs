//! Lengths and areas of the plan line.

use crate::curve::{Chain, Piece, PlanLine};
use crate::reason::formula;
use crate::units::{Angle, Area, Length};

formula! {
    /// Length of a straight run from its named point to the next, before corners are rounded.
    ///
    /// ```text
    /// l = √((x₂ − x₁)² + (y₂ − y₁)²)
    /// ```
    /// Source: Pythagoras; the definition of distance in plan coordinates.
    pub fn straight_length(; run: &Piece) -> Length {
        Length::m(run.length())
    }
}

formula! {
    /// Length of a curved run along its arc, from its named point to the next, before corners are rounded.
    ///
    /// The circle is the one through the two named points and the point between them.
    ///
    /// ```text
    /// l = R φ        φ: angle at the centre, in radians
    /// ```
    /// Source: the definition of the radian.
    pub fn arc_length(; run: &Piece) -> Length {
        Length::m(run.length())
    }
}

formula! {
    /// Radius of the centre line of the wall along a curved run.
    ///
    /// ```text
    /// R = a b c / (4 A)        a, b, c: sides of the triangle of the three points, A: its area
    /// ```
    /// Source: the circumscribed circle of a triangle, elementary geometry.
    pub fn arc_radius(; run: &Piece) -> Length {
        Length::m(1.0 / run.curvature().abs())
    }
}

formula! {
    /// Length of a run that follows a cubic curve, from its named point to the next, before corners are rounded.
    ///
    /// The curve is laid out as circular arcs, each tangent to the next, that leave it nowhere by more than 0.01 mm.
    ///
    /// ```text
    /// l = Σ R φ        R, φ: radius of each arc and its angle at the centre, in radians
    /// p(u) = (1 − u)³ p₀ + 3 (1 − u)² u (p₀ + leave) + 3 (1 − u) u² (p₃ − arrive) + u³ p₃,  0 ≤ u ≤ 1
    /// ```
    /// Source: the definition of the radian; the cubic curve of Bézier, any textbook of computer graphics.
    pub fn curve_length(; run: &Chain) -> Length {
        Length::m(run.length())
    }
}

formula! {
    /// Least radius of the centre line of the wall along a run that follows a cubic curve.
    ///
    /// ```text
    /// R = |p′|³ / |p′ × p″|, where that is least        p′, p″: first and second change of the place p(u) along the curve
    /// ```
    /// Source: the curvature of a plane curve, any textbook of calculus; the least value is searched for.
    pub fn least_radius(; radius: Length) -> Length {
        radius
    }
}

formula! {
    /// Bearing, clockwise from north, of the place from which an elevation is seen.
    ///
    /// Elevations are seen along the axes of the plan; each has the name of the quarter of the compass nearest to its bearing.
    ///
    /// ```text
    /// β = ν − δ        ν: direction of north, δ: direction of the viewer, both anticlockwise from the x axis of the plan
    /// ```
    /// Source: the definition of a bearing.
    pub fn bearing(north: Angle; viewer: Angle) -> Angle {
        Angle::rad((north.in_rad() - viewer.in_rad()).rem_euclid(std::f64::consts::TAU))
    }
}

formula! {
    /// Angle by which the centre line of an open wall turns from its one end to the other; positive to the left.
    ///
    /// ```text
    /// θ = Σ angles of arcs and rounded corners
    /// ```
    /// Source: the sum of its parts; all but the first and the last direction cancel, up to whole turns.
    pub fn turning(; line: &PlanLine) -> Angle {
        Angle::rad(line.turning())
    }
}

formula! {
    /// Length of the rounded corner, along the centre line of the wall.
    ///
    /// The circle touches both runs.
    ///
    /// ```text
    /// l = r θ        θ: angle by which the wall turns there, in radians
    /// ```
    /// Source: the definition of the radian.
    pub fn corner_length(radius: Length; corner: &Piece) -> Length {
        radius * corner.turning().abs()
    }
}

formula! {
    /// Distance along a run from its named point to where the rounding of that corner touches it.
    ///
    /// ```text
    /// straight runs:  d = r tan(θ / 2)        θ: angle by which the wall turns there
    /// curved runs:    d to the foot of the circle of radius r that touches both runs
    /// ```
    /// Source: tangents from a point to a circle, elementary geometry.
    pub fn trim(; distance: Length) -> Length {
        distance
    }
}

formula! {
    /// Length of the centre line of the wall, all the way round or from end to end.
    ///
    /// ```text
    /// L = Σ (runs − what rounding trims from them) + Σ rounded corners
    /// ```
    /// Source: the sum of its parts.
    pub fn line_length(; line: &PlanLine) -> Length {
        Length::m(line.length())
    }
}

formula! {
    /// Area enclosed by the centre line of the wall.
    ///
    /// ```text
    /// A = ½ ∮ (x dy − y dx)
    /// ```
    /// Source: Green's theorem, any textbook of vector calculus; exact for straight runs and arcs.
    pub fn enclosed_area(; line: &PlanLine) -> Area {
        Area::m2(line.area())
    }
}

formula! {
    /// Area enclosed by a face of the wall that runs at an even distance from the centre line.
    ///
    /// The distance counts as positive towards the outside. It holds for every closed line that does not fold at that distance.
    ///
    /// ```text
    /// A = A₀ + L n + π n²        n = + ½ thickness outside, − ½ thickness inside
    /// ```
    /// Source: Steiner's formula for parallel curves in the plane.
    pub fn area_inside(enclosed_area: Area, line_length: Length, thickness: Length; side: f64) -> Area {
        let n = 0.5 * side * thickness;
        enclosed_area + line_length * n + std::f64::consts::PI * (n * n)
    }
}

formula! {
    /// Length of the wall between two stop lines of the plaster, on its centre line.
    ///
    /// A stop line stands at a named point of the wall line, where it is rounded at the place of the rounding nearest to it.
    ///
    /// ```text
    /// l = s₂ − s₁        s: distance along the line
    /// ```
    /// Source: the definition of the distance.
    pub fn stretch_length(; length: Length) -> Length {
        length
    }
}

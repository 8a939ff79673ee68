//! Volume, faces and measures of a wall whose thickness or height changes along its line.

use crate::curve::{Body, Side};
use crate::reason::formula;
use crate::units::{Area, Length, Volume};

formula! {
    /// Volume of a wall of changing thickness or height before openings are taken out.
    ///
    /// Thickness and height go evenly from one named point of the line to the next, or the top follows a slope.
    ///
    /// ```text
    /// V = ∫ ds ∫ dz (n₂ − n₁ + ½ κ (n₂² − n₁²)), z from 0 to H(s)        κ: curvature of the line
    /// n₁ = b₁ z − t(s)/2,  n₂ = t(s)/2 − b₂ z           b₁, b₂: batters inside and outside
    /// ```
    /// Source: volume element (1 + κ n) dn ds dz beside a curve, any textbook of differential geometry; by Gauss-Legendre.
    pub fn cob_gross_uneven(; body: &Body<'_>) -> Volume {
        Volume::m3(body.volume(0.0, f64::INFINITY))
    }
}

formula! {
    /// Volume of a lift of a wall of changing thickness or height before openings are taken out.
    ///
    /// ```text
    /// V = ∫ ds ∫ dz (n₂ − n₁ + ½ κ (n₂² − n₁²)), z from the foot of the lift to its top or that of the wall, the lower one
    /// n₁ = b₁ z − t(s)/2,  n₂ = t(s)/2 − b₂ z           κ: curvature of the line, b₁, b₂: batters
    /// ```
    /// Source: volume element (1 + κ n) dn ds dz beside a curve, any textbook of differential geometry; by Gauss-Legendre.
    pub fn lift_gross_uneven(; body: &Body<'_>, from: Length, to: Length) -> Volume {
        Volume::m3(body.volume(from.in_m(), to.in_m()))
    }
}

formula! {
    /// Area of the top of a lift in plan, before openings, in a wall of changing thickness or height.
    ///
    /// ```text
    /// A = ∫ (n₂ − n₁ + ½ κ (n₂² − n₁²)) ds        n₁, n₂: faces at the top of the lift or of the wall, the lower one
    /// ```
    /// Source: area element (1 + κ n) dn ds beside a curve; by Gauss-Legendre.
    pub fn bed_gross_uneven(; body: &Body<'_>, from: Length, to: Length) -> Area {
        Area::m2(body.bed(from.in_m(), to.in_m()))
    }
}

formula! {
    /// Area of a face of a wall of changing thickness or height before openings are taken out.
    ///
    /// ```text
    /// S = ∫ ds ∫ dz √((1 + κ n)² (1 + b²) + n′²)        n: offset of the face, n′: its change along the line, b: its batter
    /// ```
    /// Source: area of a parametric surface, any textbook of vector calculus; by Gauss-Legendre.
    pub fn face_gross_uneven(; body: &Body<'_>, side: Side) -> Area {
        Area::m2(body.face(side))
    }
}

formula! {
    /// Area of a face between two stop lines, before openings, of a wall of changing thickness or height.
    ///
    /// ```text
    /// S = ∫ ds ∫ dz √((1 + κ n)² (1 + b²) + n′²)        n: offset of the face, n′: its change along the line, b: its batter
    /// ```
    /// Source: area of a parametric surface, any textbook of vector calculus; by Gauss-Legendre.
    pub fn stretch_face_uneven(stretch: Length; body: &Body<'_>, side: Side, between: [f64; 2]) -> Area {
        Area::m2(body.face_between(side, between))
    }
}

formula! {
    /// Area enclosed by a face, at its foot, of a wall of changing thickness.
    ///
    /// ```text
    /// A = A₀ + ∫ (n + ½ κ n²) ds        n: offset of the face, positive to the outside
    /// ```
    /// Source: area element (1 + κ n) dn ds beside a curve; by Gauss-Legendre.
    pub fn area_inside_uneven(enclosed_area: Area; body: &Body<'_>, side: Side) -> Area {
        enclosed_area + Area::m2(body.beside(side))
    }
}

formula! {
    /// Mean thickness of the wall at its foot.
    ///
    /// ```text
    /// ∫ t ds / L
    /// ```
    /// Source: the definition of the mean.
    pub fn mean_thickness(; body: &Body<'_>) -> Length {
        Length::m(body.means()[0])
    }
}

formula! {
    /// Mean height of the wall.
    ///
    /// ```text
    /// ∫ H ds / L
    /// ```
    /// Source: the definition of the mean.
    pub fn mean_height(; body: &Body<'_>) -> Length {
        Length::m(body.means()[1])
    }
}

formula! {
    /// The level that the top of the wall reaches or falls to, above the foot of the cob.
    ///
    /// ```text
    /// H(s) between named points: straight,  on a slope: H + slope × distance in the direction in which it rises
    /// ```
    /// Source: the definition of a slope.
    pub fn top_reached(; level: Length) -> Length {
        level
    }
}

formula! {
    /// Size of the house over the outer faces of the cob at its foot, of a wall of changing thickness.
    ///
    /// ```text
    /// l = largest coordinate − smallest coordinate of the outer face
    /// ```
    /// Source: the definition of the extent.
    pub fn overall_uneven(; extent: Length) -> Length {
        extent
    }
}

//! Volume and faces of a wall of one height whose two faces lean by even batters.

use crate::reason::formula;
use crate::units::{Area, Length, Slope, Volume};

/// Where the two faces of a wall stand at a height above its base.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Faces {
    /// Thickness at the base.
    pub thickness: Length,
    /// Lean of the inner face towards the middle of the wall, as rise of offset over height.
    pub batter_inside: Slope,
    /// Lean of the outer face towards the middle of the wall.
    pub batter_outside: Slope,
}

impl Faces {
    /// Offset of the inner face from the centre line, negative: to the inside.
    #[must_use]
    pub fn inner(&self, height: Length) -> Length {
        height * self.batter_inside - 0.5 * self.thickness
    }

    /// Offset of the outer face from the centre line, positive: to the outside.
    #[must_use]
    pub fn outer(&self, height: Length) -> Length {
        0.5 * self.thickness - height * self.batter_outside
    }
}

/// Length of the lean of a face for each unit of its height.
pub(super) fn slant(batter: Slope) -> f64 {
    1.0_f64.hypot(batter.in_ratio())
}

formula! {
    /// Volume of the wall before openings are taken out.
    ///
    /// The area of the wall in plan is taken at its base, half-way up and at its top. Because the faces lean evenly this is exact,
    /// on curves too.
    ///
    /// ```text
    /// V = H / 6 (A(0) + 4 A(H/2) + A(H))
    /// A(z) = L (n₂ − n₁) + θ/2 (n₂² − n₁²)        θ = 2π for a closed line, 0 for a straight wall
    /// n₁ = b₁ z − t/2,  n₂ = t/2 − b₂ z           b₁, b₂: batters inside and outside
    /// ```
    /// Source: prismoidal formula, and Pappus's theorem for the area of a band along a curve.
    pub fn cob_gross(
        line_length: Length, thickness: Length, batter_inside: Slope, batter_outside: Slope, height: Length;
        turning: f64
    ) -> Volume {
        let faces = Faces { thickness, batter_inside, batter_outside };
        between(line_length, faces, Length::ZERO, height, turning)
    }
}

formula! {
    /// Volume of a lift, all round the wall, before openings are taken out.
    ///
    /// ```text
    /// V = h / 6 (A(z₁) + 4 A(½ (z₁ + z₂)) + A(z₂)),  h = z₂ − z₁        z₁, z₂: foot and top of the lift
    /// A(z) = L (n₂ − n₁) + θ/2 (n₂² − n₁²)        θ = 2π for a closed line
    /// n₁ = b₁ z − t/2,  n₂ = t/2 − b₂ z           b₁, b₂: batters inside and outside
    /// ```
    /// Source: prismoidal formula, and Pappus's theorem for the area of a band along a curve.
    pub fn lift_gross(
        line_length: Length, thickness: Length, batter_inside: Slope, batter_outside: Slope, foot: Length, top: Length;
        turning: f64
    ) -> Volume {
        let faces = Faces { thickness, batter_inside, batter_outside };
        between(line_length, faces, foot, top, turning)
    }
}

/// Plan area between the two faces at a height.
fn band(line_length: Length, faces: Faces, height: Length, turning: f64) -> Area {
    let (inner, outer) = (faces.inner(height), faces.outer(height));
    line_length * (outer - inner) + 0.5 * turning * (outer * outer - inner * inner)
}

fn between(line_length: Length, faces: Faces, foot: Length, top: Length, turning: f64) -> Volume {
    let area = |z: Length| band(line_length, faces, z, turning);
    (area(foot) + 4.0 * area(0.5 * (foot + top)) + area(top)) * (top - foot) / 6.0
}

formula! {
    /// Area of the outer face of the wall before openings are taken out.
    ///
    /// ```text
    /// S = √(1 + b²) (L H + θ (t H / 2 − b H² / 2))        θ = 2π for a closed line, 0 for a straight wall
    /// ```
    /// Source: area of a leaning strip along a curve, integrated over the height; Pappus's theorem.
    pub fn outer_face_gross(line_length: Length, thickness: Length, batter: Slope, height: Length; turning: f64) -> Area {
        let moved = thickness * height * 0.5 - (height * height) * (0.5 * batter.in_ratio());
        slant(batter) * (line_length * height + turning * moved)
    }
}

formula! {
    /// Area of the inner face of the wall before openings are taken out.
    ///
    /// ```text
    /// S = √(1 + b²) (L H − θ (t H / 2 − b H² / 2))        θ = 2π for a closed line, 0 for a straight wall
    /// ```
    /// Source: area of a leaning strip along a curve, integrated over the height; Pappus's theorem.
    pub fn inner_face_gross(line_length: Length, thickness: Length, batter: Slope, height: Length; turning: f64) -> Area {
        let moved = thickness * height * 0.5 - (height * height) * (0.5 * batter.in_ratio());
        slant(batter) * (line_length * height - turning * moved)
    }
}

formula! {
    /// Volume of the stem wall before doors are taken out.
    ///
    /// It stands under the wall, its middle on the same line.
    ///
    /// ```text
    /// V = L w h
    /// ```
    /// Source: Pappus's theorem; the middle of the stem lies on the line.
    pub fn stem_gross(line_length: Length, width: Length, height: Length) -> Volume {
        line_length * width * height
    }
}

formula! {
    /// Volume that is left when openings, niches and all that is laid in it are taken out.
    ///
    /// ```text
    /// V = V₀ − Σ cuts
    /// ```
    /// Source: the whole is the sum of its parts; cuts do not overlap.
    pub fn net_volume(gross: Volume; removed: Volume) -> Volume {
        gross - removed
    }
}

formula! {
    /// Area that is left when openings, niches and what stands before it are taken off.
    ///
    /// ```text
    /// S = S₀ − Σ cuts
    /// ```
    /// Source: the whole is the sum of its parts; cuts do not overlap.
    pub fn net_area(gross: Area; removed: Area) -> Area {
        gross - removed
    }
}

formula! {
    /// Area of the top of a lift in plan, before openings: the bed for the next one, and what is covered at night.
    ///
    /// ```text
    /// A = L (n₂ − n₁) + θ/2 (n₂² − n₁²)        θ = 2π for a closed line
    /// n₁ = b₁ z − t/2,  n₂ = t/2 − b₂ z         z: level of the top, b₁, b₂: batters inside and outside
    /// ```
    /// Source: Pappus's theorem for the area of a band along a curve.
    pub fn bed_gross(
        line_length: Length, thickness: Length, batter_inside: Slope, batter_outside: Slope, top: Length; turning: f64
    ) -> Area {
        band(line_length, Faces { thickness, batter_inside, batter_outside }, top, turning)
    }
}

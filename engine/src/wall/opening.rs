//! What a rectangular opening with parallel jambs takes out of a wall of any plan.

use super::body::{Faces, slant};
use crate::curve::Strip;
use crate::reason::formula;
use crate::solve::quadrature::integral;
use crate::units::{Area, Length, Slope, Volume};

fn over_height<T>(bottom: Length, top: Length, mut at: impl FnMut(Length) -> f64, unit: impl Fn(f64) -> T) -> T {
    unit(integral(bottom.in_m(), top.in_m(), |z| at(Length::m(z))))
}

formula! {
    /// Volume of cob that an opening takes out of the wall.
    ///
    /// The jambs are upright and parallel to each other, square to the wall at the middle of the opening. Below the foot of the
    /// cob nothing counts.
    ///
    /// ```text
    /// V = ∫ a(z) dz, from the bottom to the head
    /// a(z) = ∫ (y₂ − y₁) dx, −w/2 ≤ x ≤ w/2        y₁, y₂: inner and outer face seen from the opening
    /// in a straight wall:  V = w h (t − (b₁ + b₂) z)        z: half-way up the opening
    /// ```
    /// Source: volume by parallel sections; plan sections exact for straight runs and arcs, the height by Gauss-Legendre.
    pub fn cob_removed(
        width: Length, height: Length, bottom: Length, thickness: Length, batter_inside: Slope, batter_outside: Slope;
        strip: &Strip<'_>
    ) -> Volume {
        let faces = Faces { thickness, batter_inside, batter_outside };
        let area = |z: Length| strip.area(faces.inner(z).in_m(), faces.outer(z).in_m());
        over_height(bottom.max(Length::ZERO), bottom + height, area, Volume::m3)
    }
}

formula! {
    /// Volume of cob that an opening takes out of one lift.
    ///
    /// ```text
    /// V = ∫ a(z) dz, from where both the opening and the lift have begun to where one of them ends
    /// a(z): plan area of the wall between the jambs at height z
    /// ```
    /// Source: volume by parallel sections; plan sections exact for straight runs and arcs, the height by Gauss-Legendre.
    pub fn lift_removed(
        width: Length, thickness: Length, batter_inside: Slope, batter_outside: Slope;
        strip: &Strip<'_>, from: Length, to: Length
    ) -> Volume {
        let faces = Faces { thickness, batter_inside, batter_outside };
        let area = |z: Length| strip.area(faces.inner(z).in_m(), faces.outer(z).in_m());
        over_height(from, to, area, Volume::m3)
    }
}

formula! {
    /// Area that an opening takes out of the top of a lift.
    ///
    /// ```text
    /// A = ∫ (y₂ − y₁) dx, −w/2 ≤ x ≤ w/2        y₁, y₂: inner and outer face seen from the opening, at the top of the lift
    /// ```
    /// Source: area by parallel sections, exact for straight runs and arcs.
    pub fn bed_removed(
        width: Length, thickness: Length, batter_inside: Slope, batter_outside: Slope, top: Length; strip: &Strip<'_>
    ) -> Area {
        let faces = Faces { thickness, batter_inside, batter_outside };
        Area::m2(strip.area(faces.inner(top).in_m(), faces.outer(top).in_m()))
    }
}

formula! {
    /// Area of the outer face that an opening takes out.
    ///
    /// ```text
    /// S = √(1 + b²) ∫ l(z) dz        l(z): length of the face between the jambs at height z
    /// ```
    /// Source: area of a leaning strip along a curve, integrated over the height.
    pub fn outer_face_removed(
        width: Length, height: Length, bottom: Length, thickness: Length, batter: Slope; strip: &Strip<'_>
    ) -> Area {
        let faces = Faces { thickness, batter_inside: Slope::ZERO, batter_outside: batter };
        let length = |z: Length| strip.face_length(faces.outer(z).in_m());
        slant(batter) * over_height(bottom.max(Length::ZERO), bottom + height, length, Area::m2)
    }
}

formula! {
    /// Area of the inner face that an opening takes out.
    ///
    /// ```text
    /// S = √(1 + b²) ∫ l(z) dz        l(z): length of the face between the jambs at height z
    /// ```
    /// Source: area of a leaning strip along a curve, integrated over the height.
    pub fn inner_face_removed(
        width: Length, height: Length, bottom: Length, thickness: Length, batter: Slope; strip: &Strip<'_>
    ) -> Area {
        let faces = Faces { thickness, batter_inside: batter, batter_outside: Slope::ZERO };
        let length = |z: Length| strip.face_length(faces.inner(z).in_m());
        slant(batter) * over_height(bottom.max(Length::ZERO), bottom + height, length, Area::m2)
    }
}

formula! {
    /// Area of cob to be plastered inside an opening: two jambs, the head, and the sill of a window.
    ///
    /// ```text
    /// S = ∫ (d₁ + d₂) dz + a(head) + a(sill)        d₁, d₂: depth of the jambs at height z
    /// ```
    /// Source: the sum of the sides of a box with upright jambs; a door has no sill of cob.
    pub fn reveal(
        width: Length, height: Length, bottom: Length, thickness: Length, batter_inside: Slope, batter_outside: Slope;
        strip: &Strip<'_>, has_sill: bool
    ) -> Area {
        let faces = Faces { thickness, batter_inside, batter_outside };
        let head = bottom + height;
        let depths = |z: Length| strip.side_depths(faces.inner(z).in_m(), faces.outer(z).in_m()).iter().sum();
        let level = |z: Length| Area::m2(strip.area(faces.inner(z).in_m(), faces.outer(z).in_m()));
        let jambs = over_height(bottom.max(Length::ZERO), head, depths, Area::m2);
        let sill = if has_sill { level(bottom) } else { Area::ZERO };
        jambs + level(head) + sill
    }
}

formula! {
    /// Volume of stem wall that a door takes out, from its threshold up to the foot of the cob.
    ///
    /// ```text
    /// V = a d        a: plan area of the stem between the jambs, d: depth of the threshold below the foot of the cob
    /// ```
    /// Source: volume by parallel sections; the plan section is exact for straight runs and arcs.
    pub fn stem_removed(width: Length, threshold: Length, stem_width: Length; strip: &Strip<'_>) -> Volume {
        Area::m2(strip.area(-0.5 * stem_width.in_m(), 0.5 * stem_width.in_m())) * (-threshold).max(Length::ZERO)
    }
}

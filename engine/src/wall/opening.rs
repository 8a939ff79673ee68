//! What an opening takes out of a wall of any plan.

use crate::curve::{Cut, Shape, Side};
use crate::reason::formula;
use crate::units::{Area, Length, Slope, Volume};

formula! {
    /// Volume of cob that an opening takes out of the wall.
    ///
    /// Jambs are level lines, square to the wall at the middle of the opening unless they are splayed. Below the foot of the cob
    /// nothing counts.
    ///
    /// ```text
    /// V = ∫ a(z) dz, from the bottom to the head
    /// a(z) = ∫ (y₂ − y₁) dx        y₁, y₂: inner and outer face seen from the opening, x: between the jambs at level z
    /// in a straight wall, upright jambs:  V = w h (t − (b₁ + b₂) z)        z: half-way up the opening
    /// ```
    /// Source: volume by parallel sections; plan sections exact for straight runs and arcs, the height by Gauss-Legendre.
    pub fn cob_removed(
        width: Length, height: Length, bottom: Length, thickness: Length, batter_inside: Slope, batter_outside: Slope;
        shape: &Shape<'_>, cut: &Cut
    ) -> Volume {
        Volume::m3(cut.volume(shape, bottom.in_m().max(0.0), (bottom + height).in_m()))
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
        shape: &Shape<'_>, cut: &Cut, from: Length, to: Length
    ) -> Volume {
        Volume::m3(cut.volume(shape, from.in_m(), to.in_m()))
    }
}

formula! {
    /// Area that an opening takes out of the top of a lift.
    ///
    /// ```text
    /// A = ∫ (y₂ − y₁) dx        y₁, y₂: inner and outer face at the top of the lift, x: between the jambs there
    /// ```
    /// Source: area by parallel sections, exact for straight runs and arcs.
    pub fn bed_removed(
        width: Length, thickness: Length, batter_inside: Slope, batter_outside: Slope, top: Length;
        shape: &Shape<'_>, cut: &Cut
    ) -> Area {
        Area::m2(cut.area(shape, top.in_m()))
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
        width: Length, height: Length, bottom: Length, thickness: Length, batter: Slope; shape: &Shape<'_>, cut: &Cut
    ) -> Area {
        Area::m2(cut.face(shape, Side::Outer, bottom.in_m().max(0.0), (bottom + height).in_m()))
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
        width: Length, height: Length, bottom: Length, thickness: Length, batter: Slope; shape: &Shape<'_>, cut: &Cut
    ) -> Area {
        Area::m2(cut.face(shape, Side::Inner, bottom.in_m().max(0.0), (bottom + height).in_m()))
    }
}

formula! {
    /// Area of cob to be plastered inside an opening: two jambs, the head or arch, and the sill of a window.
    ///
    /// ```text
    /// S = ∫∫ √(1 + k² + m²) dy dz + a(head) + a(sill)        k: slope of a jamb in plan, m: slope of the outline, seen
    ///                                                        along the opening, against the upright
    /// upright jambs:  S = ∫ (d₁ + d₂) dz + a(head) + a(sill)        d₁, d₂: depth of the jambs at height z
    /// ```
    /// Source: area of a surface x(y, z), any textbook of vector calculus; a door has no sill of cob.
    pub fn reveal(
        width: Length, height: Length, bottom: Length, thickness: Length, batter_inside: Slope, batter_outside: Slope;
        cut_from: (&Cut, &Shape<'_>), has_sill: bool
    ) -> Area {
        let (cut, shape) = cut_from;
        let [low, head] = [bottom.in_m(), (bottom + height).in_m()];
        let sill = if has_sill { cut.area(shape, low) } else { 0.0 };
        Area::m2(cut.sides(shape, low.max(0.0), head) + cut.area(shape, head) + sill)
    }
}

formula! {
    /// Volume of stem wall that a door takes out, from its threshold up to the foot of the cob.
    ///
    /// ```text
    /// V = a d        a: plan area of the stem between the jambs, d: depth of the threshold below the foot of the cob
    /// ```
    /// Source: volume by parallel sections; the plan section is exact for straight runs and arcs.
    pub fn stem_removed(width: Length, threshold: Length, stem_width: Length; stem: &Shape<'_>, cut: &Cut) -> Volume {
        Area::m2(cut.area(stem, 0.5 * threshold.in_m())) * (-threshold).max(Length::ZERO)
    }
}

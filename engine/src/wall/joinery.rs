//! Timber in and over an opening: frame, sill board, lintel.

use crate::curve::{Cut, Form, Shape};
use crate::reason::formula;
use crate::units::{Length, Slope, Volume};

formula! {
    /// Length of the frame's members along their outer edges; the frame of a door has no member under foot.
    ///
    /// ```text
    /// rectangle 2 (w + h),  door w + 2 h,  circle π w,  arch: jambs and sill, and 2 R asin(½ w / R)        R: radius of the arch
    /// ```
    /// Source: lengths of straight lines and of an arc, elementary geometry.
    pub fn frame_length(width: Length, height: Length; form: Form, has_foot: bool) -> Length {
        let foot = if has_foot && form.bottom() < form.spring() { 2.0 * form.half() } else { 0.0 };
        Length::m(form.girth() + foot)
    }
}

formula! {
    /// Wood of a frame.
    ///
    /// ```text
    /// V = (A − A′) d        A, A′: areas within the frame's outer and inner edge
    /// ```
    /// Source: volume of a prism.
    pub fn frame_volume(
        width: Length, height: Length, frame_width: Length, frame_depth: Length; form: Form, inside: Form
    ) -> Volume {
        Volume::m3((form.area() - inside.area()) * frame_depth.in_m())
    }
}

formula! {
    /// Depth of a sill board, from where it stands out of the outer face to the frame, or to the inner face without one.
    ///
    /// ```text
    /// d = p + s        p: how far it stands out, s: set-back of the frame, or the thickness of the wall at the sill
    /// ```
    /// Source: the whole is the sum of its parts, at the middle of the opening, half-way up.
    pub fn sill_board_depth(projects: Length, behind: Length) -> Length {
        projects + behind
    }
}

formula! {
    /// Wood of a sill board, as long as the opening is wide.
    ///
    /// ```text
    /// V = w d t
    /// ```
    /// Source: volume of a prism.
    pub fn sill_board_volume(width: Length, depth: Length, thickness: Length) -> Volume {
        width * depth * thickness
    }
}

formula! {
    /// Length of a lintel.
    ///
    /// ```text
    /// l = w + 2 b        b: how far it lies on the cob at either end
    /// ```
    /// Source: the whole is the sum of its parts.
    pub fn lintel_length(width: Length, bearing: Length) -> Length {
        width + 2.0 * bearing
    }
}

formula! {
    /// Volume of a lintel that fills the wall from face to face: it is taken out of the cob.
    ///
    /// ```text
    /// V = ∫ a(z) dz, over its height        a(z): plan area of the wall over its length at level z
    /// ```
    /// Source: volume by parallel sections; plan sections exact for straight runs and arcs, the height by Gauss-Legendre.
    pub fn lintel_volume(
        length: Length, height: Length, thickness: Length, batter_inside: Slope, batter_outside: Slope;
        shape: &Shape<'_>, cut: &Cut
    ) -> Volume {
        Volume::m3(cut.volume(shape, cut.form.bottom(), cut.form.top()))
    }
}

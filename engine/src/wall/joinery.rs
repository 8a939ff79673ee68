//! Timber in and over an opening: frame, sill board, lintel.

use crate::curve::{Cut, Form, Shape};
use crate::reason::formula;
use crate::units::{Area, Days, Length, Slope, Volume};

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

formula! {
    /// Clear width within the frame, door or sash opened wide; what hinges and the leaf itself take is not taken off.
    ///
    /// ```text
    /// w′ = w − 2 f        f: width of the frame's members
    /// ```
    /// Source: the whole is the sum of its parts.
    pub fn clear_width(width: Length, frame: Length) -> Length {
        width - 2.0 * frame
    }
}

formula! {
    /// Clear height within the frame; a door's has no member under foot.
    ///
    /// ```text
    /// h′ = h − k f        f: width of the frame's members, k: 1 for a door, 2 for a window
    /// ```
    /// Source: the whole is the sum of its parts.
    pub fn clear_height(height: Length, frame: Length; members: f64) -> Length {
        height - members * frame
    }
}

formula! {
    /// Glass that a window's frame and sash leave.
    ///
    /// ```text
    /// rectangle (w − 2 f − 2 s) (h − 2 f − 2 s); an arch or a circle, all round by f + s less        f: frame, s: sash
    /// ```
    /// Source: area within a line at an even distance, elementary geometry; glazing bars and rebates left out.
    pub fn glass_area(width: Length, height: Length, frame: Length, sash: Length; glass: Form) -> Area {
        Area::m2(glass.area())
    }
}

formula! {
    /// Length of a door's threshold board, as long as the opening is wide, and how far it reaches in is the joiner's choice.
    ///
    /// ```text
    /// l = w
    /// ```
    /// Source: a board from jamb to jamb.
    pub fn threshold_length(width: Length) -> Length {
        width
    }
}

formula! {
    /// Anchors that tie a frame to the cob at both jambs.
    ///
    /// ```text
    /// n = 2 a        a: anchors of each jamb
    /// ```
    /// Source: a frame has two jambs.
    pub fn frame_anchors(each: u64) -> u64 {
        2 * each
    }
}

formula! {
    /// Day on which the frame must be on site: when the lift is begun on which it stands. The order goes out earlier by the
    /// joiner's time.
    ///
    /// ```text
    /// t = start of the lift that holds the sill or threshold
    /// ```
    /// Source: cob is laid round a frame that stands.
    pub fn on_site_by(start: Days) -> Days {
        start
    }
}

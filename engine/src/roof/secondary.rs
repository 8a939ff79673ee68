//! Secondary rafters between the poles of a ring: their figures, each with its reason.

use crate::reason::formula;
use crate::units::{Angle, Area, Length, Volume};

formula! {
    /// Span of the longest secondary rafter: from over the plate to the axis of its trimmer.
    ///
    /// ```text
    /// P(t, v) = (1 − v) p(t) + v p′(t),  l = |P(t₁, v) − P(0, v)|
    /// p, p′: axes of the bay's two poles, t₁: where the trimmer lies, v: share of the way across the bay
    /// ```
    /// Source: a ruled surface between two poles; a line at one share of the way across it all along is straight.
    pub fn secondary_span(; span: Length) -> Length {
        span
    }
}

formula! {
    /// Overhang of the longest secondary rafter, along its axis.
    ///
    /// ```text
    /// o = |P(0, v) − P₁(v)|        P₁: half-way between the butts of the bay's two poles and the like
    /// ```
    /// Source: a ruled surface between two poles, as for its span.
    pub fn secondary_tail(; tail: Length) -> Length {
        tail
    }
}

formula! {
    /// Length to cut the longest secondary rafter to.
    ///
    /// ```text
    /// L = o + l
    /// ```
    /// Source: the definition of a sum.
    pub fn secondary_cut(tail: Length, span: Length) -> Length {
        tail + span
    }
}

formula! {
    /// Pitch of the longest secondary rafter.
    ///
    /// ```text
    /// sin β = rise / l
    /// ```
    /// Source: the definition of the sine.
    pub fn secondary_pitch(; pitch: Angle) -> Angle {
        pitch
    }
}

formula! {
    /// Width of roof that one secondary rafter carries, where it is widest: at the eave.
    ///
    /// ```text
    /// w = b / (k + 1)        b: from butt to butt of the bay's two poles, k: secondary rafters in the bay
    /// ```
    /// Source: half of the way to each neighbour.
    pub fn strip_width(; bay: Length, count: u64) -> Length {
        bay / (count as f64 + 1.0)
    }
}

formula! {
    /// Secondary rafters of the whole ring.
    ///
    /// ```text
    /// N = n k        n: bays, as many as poles, k: in each bay
    /// ```
    /// Source: the definition of a product.
    pub fn secondary_total(bays: u64, count: u64) -> u64 {
        bays * count
    }
}

formula! {
    /// Round pieces of a ring beside its poles: secondary rafters, and a trimmer in each bay.
    ///
    /// ```text
    /// N = n (k + 1)        n: bays, as many as poles, k: in each bay
    /// ```
    /// Source: the definition of a product.
    pub fn pieces_between(bays: u64, count: u64) -> u64 {
        bays * (count + 1)
    }
}

formula! {
    /// Length of the longest trimmer, from axis to axis of its two poles.
    ///
    /// ```text
    /// l = |p′(t₁) − p(t₁)|        t₁: where the trimmer lies, as a share of the way from plate to crossing
    /// ```
    /// Source: distance of two points.
    pub fn trimmer_length(; length: Length) -> Length {
        length
    }
}

formula! {
    /// All of them, end to end.
    ///
    /// ```text
    /// L = Σ l
    /// ```
    /// Source: the definition of a sum.
    pub fn end_to_end(; length: Length) -> Length {
        length
    }
}

formula! {
    /// Wood of round pieces of one diameter.
    ///
    /// ```text
    /// V = π d² / 4 L
    /// ```
    /// Source: volume of a cylinder.
    pub fn wood_of_round(diameter: Length, length: Length) -> Volume {
        Area::m2(std::f64::consts::FRAC_PI_4 * diameter.in_m().powi(2)) * length
    }
}

//! Secondary rafters between the poles of a ring: their figures, each with its reason.

use crate::reason::formula;
use crate::units::{Angle, Area, Force, Length, Ratio, Volume};

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

formula! {
    /// Where a rafter of the second ring rests, from the butt of its pole along it.
    ///
    /// ```text
    /// s = o + a        a: from the plate to the foot of the common perpendicular of the two axes, o: from the butt to the plate
    /// ```
    /// Source: two skew round poles that touch: their axes lie half the sum of their diameters apart, less what is cut.
    pub fn second_along(; along: Length) -> Length {
        along
    }
}

formula! {
    /// Level of the middle of a rafter of the second ring where it rests.
    ///
    /// ```text
    /// z = z₀ + a sin β        z₀: level of its middle over the plate, a: from there along it, β: its pitch
    /// ```
    /// Source: the definition of the sine.
    pub fn second_level(; level: Length) -> Length {
        level
    }
}

formula! {
    /// How far the top of a rafter of the second ring stands above that of its pole where they cross in plan: what boards have to pass
    /// over.
    ///
    /// ```text
    /// h = ((d₁ + d₂)/2 − k) / cos γ + d₁ / (2 cos β₁) − d₂ / (2 cos β₂)        β: pitches, γ: lean of the common normal, k: let in
    /// ```
    /// Source: distance of two skew lines, plumb; height of a cylinder over its axis.
    pub fn second_above(; above: Length) -> Length {
        above
    }
}

formula! {
    /// Angle between a rafter of the second ring and its pole.
    ///
    /// ```text
    /// tan θ = |u × w| / (u · w)        u, w: ways of the two axes where they touch
    /// ```
    /// Source: angle of two directions.
    pub fn second_angle(; angle: Angle) -> Angle {
        angle
    }
}

formula! {
    /// How far the common normal of a rafter of the second ring and its pole leans from plumb.
    ///
    /// ```text
    /// cos γ = |(u × w)_z| / |u × w|        u, w: ways of the two axes where they touch
    /// ```
    /// Source: the common perpendicular of two lines.
    pub fn second_lean(; lean: Angle) -> Angle {
        lean
    }
}

formula! {
    /// What a rafter of the second ring presses on its pole, plumb; below zero it is lifted.
    ///
    /// Its butt is taken not to push against the plate: then plumb loads are borne plumb. Its strip reaches half-way to its two poles.
    ///
    /// ```text
    /// R = ∫ q x dx / l + w (l + e)² / (2 l) − w o² / (2 l)        q: load on its strip, x: from the plate in plan, w: its weight on each
    ///                                                            metre, l: span, e: beyond its pole, o: overhang
    /// ```
    /// Source: moments about the plate.
    pub fn second_press(; press: Force) -> Force {
        press
    }
}

formula! {
    /// What of that presses the two together.
    ///
    /// ```text
    /// N = R cos γ
    /// ```
    /// Source: the part of a plumb force along a line that leans by γ.
    pub fn second_push(press: Force, lean: Angle) -> Force {
        press * lean.in_rad().cos()
    }
}

formula! {
    /// What of that would make it slide on its pole, and friction or a bolt must hold.
    ///
    /// ```text
    /// V = |R| sin γ
    /// ```
    /// Source: the part of a plumb force across a line that leans by γ.
    pub fn second_across(press: Force, lean: Angle) -> Force {
        Force::n((press * lean.in_rad().sin()).in_n().abs())
    }
}

formula! {
    /// What lifts it off its pole along the common normal.
    ///
    /// ```text
    /// P = −R cos γ
    /// ```
    /// Source: the part of a plumb force along a line that leans by γ.
    pub fn second_lift(press: Force, lean: Angle) -> Force {
        press * -lean.in_rad().cos()
    }
}

formula! {
    /// Friction at which it would not slide without a bolt.
    ///
    /// ```text
    /// μ = tan γ
    /// ```
    /// Source: a body on a slope of γ.
    pub fn second_friction(lean: Angle) -> f64 {
        lean.in_rad().tan()
    }
}

formula! {
    /// Length to cut a rafter of the second ring to.
    ///
    /// ```text
    /// L = o + l + d        o: from the eave to over the plate, l: to where it rests, d: as far beyond as it is thick
    /// ```
    /// Source: the definition of a sum.
    pub fn second_length(; length: Length) -> Length {
        length
    }
}

formula! {
    /// Where rafters of one length rest on their poles, on the mean.
    ///
    /// ```text
    /// t = Σ aᵢ/fᵢ / n        a: from the plate to where it rests, f: to where the other pole of the bay crosses, both on its pole
    /// ```
    /// Source: the definition of a mean.
    pub fn second_share(; share: Ratio) -> Ratio {
        share
    }
}

formula! {
    /// Span of the longest rafter of the second ring: from over the plate to where it rests on its pole.
    ///
    /// ```text
    /// l = |p − s|        s: its axis over the plate, p: its axis at the foot of the common perpendicular
    /// ```
    /// Source: distance of two points.
    pub fn second_span(; span: Length) -> Length {
        span
    }
}

formula! {
    /// Overhang of the longest rafter of the second ring, along it: as far as its two poles have, on the mean.
    ///
    /// ```text
    /// o = (1 − v) o₁ + v o₂        v: where it lies between them
    /// ```
    /// Source: a line from butt to butt.
    pub fn second_tail(; tail: Length) -> Length {
        tail
    }
}

formula! {
    /// Pitch of the longest rafter of the second ring.
    ///
    /// ```text
    /// (p − q) · (u × w) / |u × w| = (d₁ + d₂)/2 − k        p, q: on the axes, u, w: their ways, k: let in; solved for the pitch of u
    /// ```
    /// Source: distance of two skew lines.
    pub fn second_pitch(; pitch: Angle) -> Angle {
        pitch
    }
}

formula! {
    /// Length to cut the longest rafter of the second ring to.
    ///
    /// ```text
    /// L = o + l + d        d: it reaches as far beyond where it rests as it is thick
    /// ```
    /// Source: the definition of a sum; how far it reaches beyond is our choice.
    pub fn second_cut(tail: Length, span: Length, diameter: Length) -> Length {
        tail + span + diameter
    }
}

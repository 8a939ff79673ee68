//! The figures of a ring as they are printed, each with its reason.

use super::{Band, Choice, Propped, Ring, Set};
use crate::reason::formula;
use crate::units::{Angle, Length};

formula! {
    /// Pitch of one pole of a ring.
    ///
    /// All pitches of the ring are solved at once; a bowed pole has the pitch of the string from its support to its second
    /// crossing.
    ///
    /// ```text
    /// at each crossing: D = d / 2 + d′ / 2 − notch − bedding        D: between the axes, d, d′: diameters where they touch
    /// ```
    /// Source: contact of round poles at the feet of the common perpendicular of their axes; derived for this project.
    pub fn pole_pitch(; set: &Set) -> Angle {
        set.pitch
    }
}

formula! {
    /// Mark where a pole rests on its neighbour, from its butt along the pole.
    ///
    /// It is where the poles touch, not where they cross in plan. Dry-fit, scribe, then cut.
    ///
    /// ```text
    /// s = o + foot of the common perpendicular        o: from the butt to the support
    /// ```
    /// Source: contact of round poles at the feet of the common perpendicular of their axes; derived for this project.
    pub fn rest_mark(; set: &Set) -> Length {
        set.rest
    }
}

formula! {
    /// Mark where a pole carries its neighbour, from its butt along the pole.
    ///
    /// ```text
    /// s = o + foot of the common perpendicular        o: from the butt to the support
    /// ```
    /// Source: contact of round poles at the feet of the common perpendicular of their axes; derived for this project.
    pub fn carry_mark(; set: &Set) -> Length {
        set.carry
    }
}

formula! {
    /// Level at which the mark where a pole rests comes to lie with the prop in, before any pole is up.
    ///
    /// ```text
    /// the first pole lies on the prop, each later one on the pole before it
    /// ```
    /// Source: contact of round poles at the feet of the common perpendicular of their axes; derived for this project.
    pub fn planned_level(; level: Length) -> Length {
        level
    }
}

formula! {
    /// How much higher the mark of a pole that is up lies than it was planned to.
    ///
    /// ```text
    /// h = z − z₀        z: as measured, z₀: as planned
    /// ```
    /// Source: the definition of a difference of levels.
    pub fn off_plan(measured: Length, planned: Length) -> Length {
        measured - planned
    }
}

formula! {
    /// Height of the middle of a pole's tip.
    ///
    /// ```text
    /// z = z₀ + s sin α + bow        s: from the support to the tip
    /// ```
    /// Source: the definition of the sine.
    pub fn tip_height(; set: &Set) -> Length {
        set.tip_height
    }
}

formula! {
    /// Height of the axis of a pole over its second crossing in plan.
    ///
    /// ```text
    /// z = z₀ + x tan α        x: in plan from the support
    /// ```
    /// Source: the definition of the tangent.
    pub fn rest_height(; set: &Set) -> Length {
        set.crossing[2]
    }
}

formula! {
    /// Height of the underside of a pole at its second crossing in plan.
    ///
    /// ```text
    /// h = z − d / (2 cos α)
    /// ```
    /// Source: plumb section of a round pole, elementary geometry.
    pub fn underside_height(; set: &Set) -> Length {
        set.underside
    }
}

formula! {
    /// Radius of the eye: mean distance in plan from the middle of the contacts.
    ///
    /// ```text
    /// r = Σ |p − p̄| / n        p: middle of a contact in plan
    /// ```
    /// Source: the definition of a mean.
    pub fn eye_size(; ring: &Ring) -> Length {
        ring.eye_radius
    }
}

formula! {
    /// Height of the eye: mean height of the contacts.
    ///
    /// ```text
    /// z = Σ z / n
    /// ```
    /// Source: the definition of a mean.
    pub fn eye_level(; ring: &Ring) -> Length {
        ring.eye_height
    }
}

formula! {
    /// Height of the top of the prop under the second crossing of the first pole.
    ///
    /// ```text
    /// h = z − d / (2 cos α) + c        c: clearance to slip the last pole in under the first
    /// ```
    /// Source: plumb section of a round pole, elementary geometry.
    pub fn prop_top(; propped: &Propped) -> Length {
        propped.top
    }
}

formula! {
    /// What is open between the last pole and the first above it while the prop stands.
    ///
    /// Below zero it is what the first pole must still be lifted by, square to both.
    ///
    /// ```text
    /// slack = D − d / 2 − d′ / 2 + notch + bedding, every other pole lying on the one below it
    /// ```
    /// Source: contact of round poles at the feet of the common perpendicular of their axes; derived for this project.
    pub fn slack(; propped: &Propped) -> Length {
        propped.slack
    }
}

formula! {
    /// How far off a figure may be when each measure is off by its error, by chance.
    ///
    /// It comes from the measures alone: bow, ovals and knots that nobody measured are not in it.
    ///
    /// ```text
    /// u = √Σ (∂f/∂mᵢ eᵢ)²        mᵢ: a measure, eᵢ: its error
    /// ```
    /// Source: propagation of independent errors, JCGM 100 (GUM) 5.1.2, from memory.
    pub fn likely_error(; band: &Band) -> Length {
        band.likely
    }
}

formula! {
    /// How far off a figure may be when all measures are off the worst way at once.
    ///
    /// ```text
    /// u = Σ |∂f/∂mᵢ eᵢ|
    /// ```
    /// Source: the triangle inequality, first order.
    pub fn worst_error(; band: &Band) -> Length {
        band.worst
    }
}

formula! {
    /// What a choice of poles costs: length cut off, notches other than wanted and bow across, each by its weight.
    ///
    /// ```text
    /// k = Σ w₁ waste + w₂ |notch − wanted| + w₃ |bow across|
    /// ```
    /// Source: the weights are the builder's.
    pub fn choice_cost(; choice: &Choice) -> Length {
        Length::mm(choice.cost_mm)
    }
}

formula! {
    /// What no choice from this pile can cost less than.
    ///
    /// ```text
    /// k₀ = least Σ of each pole's own cost and its notches with the best of all neighbours; k itself where all are counted out
    /// ```
    /// Source: linear assignment with every neighbour term at its least; derived for this project.
    pub fn choice_bound(; choice: &Choice) -> Length {
        Length::mm(choice.bound_mm)
    }
}

formula! {
    /// Which pole of the pile lies in a place.
    ///
    /// Each pole of the pile is tried in each place, either end to the wall; what is cut off, what its notches differ from the
    /// one that is wanted, and its bow to the side are weighed and summed.
    ///
    /// ```text
    /// least Σ w₁ waste + w₂ |notch − wanted| + w₃ |bow across|
    /// ```
    /// Source: the weights are the builder's.
    pub fn pole_of_the_pile(number: u64) -> u64 {
        number
    }
}

formula! {
    /// A coordinate of the middle of the house.
    ///
    /// ```text
    /// x̄ = ∫ x dA / A
    /// ```
    /// Source: the definition of the centre of an area.
    pub fn middle(; at: Length) -> Length {
        at
    }
}

formula! {
    /// A coordinate of the place on the plate on which a pole rests.
    ///
    /// The pole runs along a side of the eye, back to the line of the plate.
    ///
    /// ```text
    /// p + t (p − q) on the plate line        p, q: corners of the eye
    /// ```
    /// Source: two lines that meet, elementary geometry.
    pub fn seat_in_plan(; at: Length) -> Length {
        at
    }
}

formula! {
    /// Level of the top of the plate where a pole rests.
    ///
    /// ```text
    /// z = H + b + e        H: top of the wall there, b: the timber on it, e: measured above that
    /// ```
    /// Source: the definition of a level.
    pub fn seat_level(; level: Length) -> Length {
        level
    }
}

formula! {
    /// A pole lies with its greatest bow upwards.
    ///
    /// ```text
    /// b = bow
    /// ```
    /// Source: common practice, no source: boards then lie on a crown and not in a dip.
    pub fn set_upright(bow: Length) -> Length {
        bow
    }
}

formula! {
    /// From the seat of a pole out to the eave in plan, along the pole.
    ///
    /// ```text
    /// x: where the line of the pole meets the eave
    /// ```
    /// Source: two lines that meet, elementary geometry.
    pub fn tail_in_plan(; out: Length) -> Length {
        out
    }
}

formula! {
    /// From the butt of a pole to its seat, along the pole: its tail under the eave.
    ///
    /// ```text
    /// o = x / cos α        x: in plan from the seat out to the eave, α: pitch of the pole
    /// ```
    /// Source: the definition of the cosine.
    pub fn tail(in_plan: Length, pitch: Angle) -> Length {
        in_plan / pitch.in_rad().cos()
    }
}

formula! {
    /// Notch where a pole rests on its neighbour, in both poles together.
    ///
    /// It makes up for the difference of the two poles from the mean of the pile; where they are too thin for that, none is cut.
    ///
    /// ```text
    /// notch = d / 2 + d′ / 2 − D        D: distance of the axes in a ring of mean poles
    /// ```
    /// Source: the definition of touching round poles.
    pub fn notch(; depth: Length) -> Length {
        depth
    }
}

formula! {
    /// Mean pitch of the poles of a ring.
    ///
    /// All pitches are solved at once: every pole, every seat and every notch moves all of them.
    ///
    /// ```text
    /// at each crossing: D = d / 2 + d′ / 2 − notch − bedding        D: between the axes, d, d′: diameters where they touch
    /// ```
    /// Source: contact of round poles at the feet of the common perpendicular of their axes; derived for this project.
    pub fn mean_pitch(; ring: &Ring) -> Angle {
        let sum: f64 = ring.sets.iter().map(|set| set.pitch.in_rad()).sum();
        Angle::rad(sum / ring.sets.len() as f64)
    }
}

formula! {
    /// Length to which a pole is cut.
    ///
    /// The tip is left long and trimmed when all poles lie.
    ///
    /// ```text
    /// l = s + e        s: mark where it rests, e: what it runs on beyond, along the pole
    /// ```
    /// Source: the whole is the sum of its parts.
    pub fn cut_length(rest: Length, beyond: Length) -> Length {
        rest + beyond
    }
}

formula! {
    /// How far the eye sinks when the crossings bed.
    ///
    /// ```text
    /// Δz = z − z′        z′: the ring solved again, every crossing closer by its bedding
    /// ```
    /// Source: contact of round poles at the feet of the common perpendicular of their axes; derived for this project.
    pub fn sunk(before: Length, after: Length) -> Length {
        before - after
    }
}

formula! {
    /// What each of two poles is cut where one rests on the other.
    ///
    /// ```text
    /// c = notch / 2
    /// ```
    /// Source: common practice, no source: both poles give the same.
    pub fn half_notch(notch: Length) -> Length {
        notch / 2.0
    }
}

formula! {
    /// How far a level lies above another.
    ///
    /// ```text
    /// h = z − z₀
    /// ```
    /// Source: the definition of a level.
    pub fn above(level: Length, base: Length) -> Length {
        level - base
    }
}

//! Straight pole rafters side by side, all falling one way.

use crate::reason::formula;
use crate::solve::whole::rounded_up;
use crate::units::{Angle, Area, Length, Mass, Ratio, Slope};

formula! {
    /// The pitch as an angle.
    ///
    /// ```text
    /// α = atan s
    /// ```
    /// Source: the definition of a slope.
    pub fn angle(pitch: Slope) -> Angle {
        Angle::rad(pitch.in_ratio().atan())
    }
}

formula! {
    /// Reach of an outline in one direction, level.
    ///
    /// ```text
    /// l = largest − smallest coordinate in that direction
    /// ```
    /// Source: the definition of the extent.
    pub fn reach(falls: Angle; reach: Length) -> Length {
        reach
    }
}

formula! {
    /// Rafters, the outermost two over the side walls, no two farther apart than the spacing.
    ///
    /// ```text
    /// n = l / s + 1, l / s rounded up        l: reach of the plate line across the fall, s: spacing
    /// ```
    /// Source: gaps between equal rafters.
    pub fn rafter_count(across: Length, spacing: Length) -> u64 {
        rounded_up(across / spacing).max(1) + 1
    }
}

formula! {
    /// Mean length of the rafters on the slope, eave to eave.
    ///
    /// ```text
    /// l = A / (w cos α)        A: area within the eave in plan, w: its reach across the fall
    /// ```
    /// Source: the mean of all chords of an area in one direction is its area over its width.
    pub fn mean_length(eave_area: Area, across: Length, pitch: Angle) -> Length {
        eave_area / across / pitch.in_rad().cos()
    }
}

formula! {
    /// Length of the longest rafter on the slope, eave to eave: what is ordered.
    ///
    /// ```text
    /// l = reach of the eave along the fall / cos α
    /// ```
    /// Source: the definition of a pitch; no chord is longer than the reach.
    pub fn longest(along: Length, pitch: Angle) -> Length {
        along / pitch.in_rad().cos()
    }
}

formula! {
    /// Rise of the rafters from the low plate to the high one.
    ///
    /// ```text
    /// h = l s        l: reach of the plate line along the fall
    /// ```
    /// Source: the definition of a slope.
    pub fn rise(along: Length, pitch: Slope) -> Length {
        along * pitch
    }
}

formula! {
    /// Where the first rafter lies: the least reach of the plate line across the fall, counted from the origin of the plan.
    ///
    /// ```text
    /// a = smallest coordinate across the fall
    /// ```
    /// Source: the definition of the extent.
    pub fn first_rafter(; least: Length) -> Length {
        least
    }
}

formula! {
    /// From the first rafter to this one, across the fall.
    ///
    /// ```text
    /// a = i l / (n − 1)        i: rafters before it, l: reach of the plate line across the fall
    /// ```
    /// Source: equal gaps.
    pub fn rafter_place(across: Length, count: u64; before: u64) -> Length {
        across * (before as f64 / count.saturating_sub(1).max(1) as f64)
    }
}

formula! {
    /// Where the low end of a rafter lies, counted up the slope from the origin of the plan.
    ///
    /// ```text
    /// u = coordinate against the fall where its axis crosses the eave
    /// ```
    /// Source: the crossing of two lines.
    pub fn low_end(; up: Length) -> Length {
        up
    }
}

formula! {
    /// A stretch along a rafter, of what lies in plan under it.
    ///
    /// ```text
    /// l = a / cos α        a: between the two outlines that its axis crosses, in plan
    /// ```
    /// Source: the definition of a pitch.
    pub fn along_rafter(pitch: Angle; in_plan: Length) -> Length {
        in_plan / pitch.in_rad().cos()
    }
}

formula! {
    /// How high the seat of a rafter, as cut, lies over the top of wall or beam: what must be packed or built up.
    ///
    /// ```text
    /// h = z₀ + u s − z        z₀: where no rafter lies below the top, u: way up the slope in plan, z: top of the wall there
    /// ```
    /// Source: the definition of a slope.
    pub fn packing(pitch: Slope; height: Length) -> Length {
        height
    }
}

formula! {
    /// Depth of the seat in a thicker pole, so that the tops of all lie in one plane over their seats.
    ///
    /// ```text
    /// t = t₀ + d − d₀        t₀: seat of the thinnest, d: diameter of this one there, d₀: of the thinnest
    /// ```
    /// Source: equal heights over the seat.
    pub fn seat_of_thicker(seat: Length, thinnest: Length; diameter: Length) -> Length {
        seat + diameter - thinnest
    }
}

formula! {
    /// What the choice of poles for rafters costs.
    ///
    /// ```text
    /// c = Σ (wₗ (Lᵢ − lᵢ) + w_b bᵢ)        L: length of the pole, l: of the rafter, b: bow to the side, w: what each counts
    /// ```
    /// Source: least by linear assignment, so that no other choice from the pile costs less.
    pub fn rafter_choice(; cost: Length) -> Length {
        cost
    }
}

formula! {
    /// Diameter of a pole at an end, as it is cut.
    ///
    /// ```text
    /// d(x) = D + (d − D) x / L        D: at its butt, d: at its tip, L: its length, x: where it is cut
    /// ```
    /// Source: an even taper.
    pub fn end_as_cut(; diameter: Length) -> Length {
        diameter
    }
}

formula! {
    /// The thinnest that any rafter is over its seat at this side.
    ///
    /// ```text
    /// d₀ = least of all diameters there
    /// ```
    /// Source: the definition.
    pub fn thinnest_over_seat(; diameter: Length) -> Length {
        diameter
    }
}

formula! {
    /// The thinnest that any rafter is at this end.
    ///
    /// ```text
    /// d₀ = least of all diameters there
    /// ```
    /// Source: the definition. A pole that tapers evenly from one such end to the other is nowhere thicker than any of them.
    pub fn thinnest_end(; diameter: Length) -> Length {
        diameter
    }
}

formula! {
    /// The mass of the heaviest of the rafters, cut to its length.
    ///
    /// ```text
    /// m = largest of mᵢ
    /// ```
    /// Source: the definition.
    pub fn heaviest(; mass: Mass) -> Mass {
        mass
    }
}

formula! {
    /// Side of the opening in the roof for a flue, round about it as far as its listing wants.
    ///
    /// ```text
    /// a = D + 2 c        D: diameter of the flue, c: clearance from what burns
    /// ```
    /// Source: the definition of a clearance.
    pub fn flue_opening(diameter: Length, clearance: Length) -> Length {
        diameter + clearance * 2.0
    }
}

formula! {
    /// Rafters that the opening of a flue cuts.
    ///
    /// ```text
    /// k = number of rafters with |a − a′| < (w + d) / 2        a′: of the flue, w: opening, d: thickness of the rafter there with its bow to both sides
    /// ```
    /// Source: two bands overlap where their middles are nearer than half of both widths.
    pub fn rafters_cut(opening: Length; count: u64) -> u64 {
        count
    }
}

formula! {
    /// Clear way from a flue to the side of the nearest rafter that is not cut.
    ///
    /// ```text
    /// b = |a − a′| − (D + d) / 2        D: diameter of the flue, d: of the rafter there with its bow to both sides
    /// ```
    /// Source: the definition of a distance.
    pub fn flue_to_rafter(flue: Length, diameter: Length; between: Length) -> Length {
        between - (flue + diameter) * 0.5
    }
}

formula! {
    /// What a flue keeps from the nearest rafter over the clearance that its listing wants.
    ///
    /// ```text
    /// s = b − c
    /// ```
    /// Source: the definition of a clearance.
    pub fn over_clearance(between: Length, clearance: Length) -> Length {
        between - clearance
    }
}

formula! {
    /// Length of a trimmer, from axis to axis of the rafters that carry it.
    ///
    /// ```text
    /// l = (k + 1) w / (n − 1)        k: rafters that are cut, w: reach of the plate line across the fall
    /// ```
    /// Source: equal gaps.
    pub fn trimmer_span(across: Length, count: u64, cut: u64) -> Length {
        across * ((cut + 1) as f64 / count.saturating_sub(1).max(1) as f64)
    }
}

formula! {
    /// Width of roof that an outermost rafter carries: half a bay, and all of the eave beside it.
    ///
    /// ```text
    /// s = w / (2 (n − 1)) + (w′ − w) / 2        w: reach of the plate line across the fall, w′: of the eave
    /// ```
    /// Source: half of the way to the neighbour; boards run on to the eave.
    pub fn side_strip(plate: Length, eave: Length, count: u64) -> Length {
        plate * (0.5 / count.saturating_sub(1).max(1) as f64) + (eave - plate) * 0.5
    }
}

formula! {
    /// How deep the deepest seat is, of the thickness of its pole there.
    ///
    /// ```text
    /// u = largest of t / d
    /// ```
    /// Source: the definition of a share.
    pub fn deepest_seat(seat: Length, diameter: Length) -> Ratio {
        Ratio::fraction(seat / diameter)
    }
}

formula! {
    /// Clear way from a flue to the timber on the wall.
    ///
    /// ```text
    /// b = e − (D + b₀) / 2        e: from the flue to the middle of the wall's top, D: its diameter, b₀: width of the timber
    /// ```
    /// Source: the definition of a distance.
    pub fn flue_to_beam(flue: Length, width: Length; between: Length) -> Length {
        between - (flue + width) * 0.5
    }
}

formula! {
    /// Pieces of blocking: one between every two rafters, on the low side and on the high one.
    ///
    /// ```text
    /// b = 2 (n − 1)
    /// ```
    /// Source: gaps between rafters.
    pub fn blocking_count(count: u64) -> u64 {
        2 * count.saturating_sub(1)
    }
}

formula! {
    /// Length of a piece of blocking, between two rafters.
    ///
    /// ```text
    /// l = w / (n − 1) − d        w: reach of the plate line across the fall, d: diameter of a rafter
    /// ```
    /// Source: equal gaps.
    pub fn blocking_length(across: Length, count: u64, diameter: Length) -> Length {
        across / count.saturating_sub(1).max(1) as f64 - diameter
    }
}

formula! {
    /// Height of blocking on the low side, from the top of wall or beam to the boards.
    ///
    /// ```text
    /// h = d − t        t: depth of the seat
    /// ```
    /// Source: what a seat leaves of a round pole.
    pub fn blocking_height(diameter: Length, seat: Length) -> Length {
        diameter - seat
    }
}

formula! {
    /// Ties of the rafters: one at each seat.
    ///
    /// ```text
    /// t = 2 n
    /// ```
    /// Source: two seats a rafter.
    pub fn ties(count: u64) -> u64 {
        2 * count
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_gap_wider_than_the_spacing_gets_a_rafter_more() {
        let spacing = Length::mm(600.0);
        assert_eq!(rafter_count(Length::m(3.0), spacing).value, 6);
        assert_eq!(rafter_count(Length::m(3.001), spacing).value, 7);
    }

    #[test]
    fn on_a_rectangle_the_mean_rafter_is_the_longest() {
        let (along, across) = (Length::m(4.0), Length::m(5.0));
        let pitch = angle(Slope::ratio(0.2)).value;
        let mean = mean_length(along * across, across, pitch).value;
        assert!((mean - longest(along, pitch).value).abs() < Length::mm(1e-9));
    }
}

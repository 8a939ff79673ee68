//! A bolt that pulls a timber across its grain: what splits it, by two codes, and what of a round pole stands against that.

use crate::reason::formula;
use crate::units::{Area, Force, Length, Pressure, Ratio};

formula! {
    /// Side of the square within a round pole, for equations that know rectangles alone.
    ///
    /// ```text
    /// a = d / √2
    /// ```
    /// Source: square within a circle; that a round pole splits no sooner than the square within it is our judgement.
    pub fn square_within(diameter: Length) -> Length {
        diameter * std::f64::consts::FRAC_1_SQRT_2
    }
}

formula! {
    /// Width of that square along the bolt that a flat seat leaves.
    ///
    /// ```text
    /// b = min(a, (d + a)/2 − t)        a: side of the square, t: depth of the seat
    /// ```
    /// Source: square within a circle.
    pub fn width_left(diameter: Length, side: Length, seat: Length) -> Length {
        side.min((diameter + side) * 0.5 - seat)
    }
}

formula! {
    /// Force of a bolt across the grain that splits a beam of softwood, characteristic.
    ///
    /// ```text
    /// F = 14 b √(hₑ / (1 − hₑ/h))        b: width along the bolt, h: depth, hₑ: from the bolt to the edge it pulls towards; mm, N
    /// ```
    /// Source: EN 1995-1-1 (8.4) with w = 1, from memory.
    pub fn splits(width: Length, depth: Length, edge: Length) -> Force {
        let reach = edge.in_mm() / (1.0 - edge / depth);
        Force::n(14.0 * width.in_mm() * reach.sqrt())
    }
}

formula! {
    /// Force of a bolt across the grain that a beam bears in shear beside it, by allowable stresses.
    ///
    /// ```text
    /// V = 2/3 f b hₑ (hₑ/h)², nearer to an end than 5 H;  2/3 f b hₑ farther off
    /// h: depth, H: that of the whole piece, of a round one its diameter
    /// ```
    /// Source: NDS (3.4-6) and (3.4-7), from memory.
    pub fn shear_beside_bolt(
        strength: Pressure, width: Length, depth: Length, edge: Length, end: Length, whole_depth: Length
    ) -> Force {
        let area: Area = width * edge;
        let whole = strength * area * (2.0 / 3.0);
        if end < whole_depth * 5.0 { whole * (edge / depth).powi(2) } else { whole }
    }
}

formula! {
    /// Share that is used of what keeps a pole from splitting along its grain at a bolt, all of the bolt's force taken across it.
    ///
    /// ```text
    /// u = V γ / (k F)        k: for duration and damp, γ: for the material; both 1 by allowable stresses, which have them in F
    /// ```
    /// Source: EN 1995-1-1 (8.2) and (2.17), NDS 3.4.3.3, from memory; the whole force on one side of the bolt is on the safe side.
    pub fn split_used(across: Force, carried: Force, duration: f64, partial: f64) -> Ratio {
        Ratio::fraction(across / carried * (partial / duration))
    }
}

formula! {
    /// Share that a bolt wants of the wood between it and an end or an edge.
    ///
    /// ```text
    /// u = a / a′        a: what it wants, a′: what is there
    /// ```
    /// Source: EN 1995-1-1, table 8.4, and NDS tables 12.5.1A and C, from memory.
    pub fn wood_wanted(wants: Length, has: Length) -> Ratio {
        Ratio::fraction(wants / has)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_bolt_low_in_a_beam_splits_it_sooner_than_one_high_in_it() {
        // 14 x 100 x √(150 / (1 − 0.75)) = 34 293 N and 14 x 100 x √(50 / 0.75) = 11 431 N, by hand from (8.4).
        let mm = Length::mm;
        let force = |edge: f64| splits(mm(100.0), mm(200.0), mm(edge)).value.in_n();
        assert!((force(150.0) - 34_292.9).abs() < 0.1 && (force(50.0) - 11_431.0).abs() < 0.1, "{}", force(50.0));
    }

    #[test]
    fn near_an_end_shear_beside_a_bolt_counts_by_the_square_of_its_height() {
        // 2/3 x 1.2 x 100 x 150 = 12 kN, and 9/16 of it nearer than 5 x 200 mm to an end, by hand from (3.4-6) and (3.4-7).
        let mm = Length::mm;
        let force = |end: f64| {
            let (depth, edge) = (mm(200.0), mm(150.0));
            shear_beside_bolt(Pressure::mpa(1.2), mm(100.0), depth, edge, mm(end), depth).value
        };
        assert!((force(1000.0).in_n() - 12_000.0).abs() < 1e-6 && (force(999.0).in_n() - 6_750.0).abs() < 1e-6);
    }

    #[test]
    fn of_a_round_pole_near_an_end_is_within_five_of_its_diameters_and_not_of_the_sides_of_its_square() {
        // Of 200 mm: 1000 mm, though the square within it is 141.4 mm deep; half of that is a quarter of what a beam bears.
        let mm = Length::mm;
        let (diameter, side) = (mm(200.0), square_within(mm(200.0)).value);
        let force =
            |end: f64| shear_beside_bolt(Pressure::mpa(1.2), side, side, side * 0.5, mm(end), diameter).value.in_n();
        // 2/3 x 1.2 x 141.42 x 70.71 = 8 kN.
        assert!((force(1000.0) - 8_000.0).abs() < 1e-6, "at five diameters: {}", force(1000.0));
        assert!((force(999.0) - 2_000.0).abs() < 1e-6, "just nearer: {}", force(999.0));
        assert!((force(1001.0) - 8_000.0).abs() < 1e-6 && (force(708.0) - 2_000.0).abs() < 1e-6);
    }

    #[test]
    fn a_shallow_seat_leaves_the_square_whole() {
        let mm = Length::mm;
        let side = square_within(mm(200.0)).value;
        assert!((side.in_mm() - 141.421_356).abs() < 1e-6);
        assert_eq!(width_left(mm(200.0), side, mm(20.0)).value, side);
        assert!((width_left(mm(200.0), side, mm(50.0)).value.in_mm() - 120.710_678).abs() < 1e-6);
    }
}

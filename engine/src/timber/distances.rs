//! How far a bolt must stand from the end and the edges of a piece, and from the next bolt.

use crate::reason::formula;
use crate::units::{Angle, Length, Ratio};

formula! {
    /// Distance between bolts in a row along the grain.
    ///
    /// ```text
    /// a₁ = (4 + |cos θ|) d
    /// ```
    /// Source: EN 1995-1-1, table 8.4, from memory.
    pub fn between_along(diameter: Length, angle: Angle) -> Length {
        diameter * (4.0 + angle.in_rad().cos().abs())
    }
}

formula! {
    /// Distance between rows of bolts across the grain.
    ///
    /// ```text
    /// a₂ = 4 d
    /// ```
    /// Source: EN 1995-1-1, table 8.4, from memory.
    pub fn between_across(diameter: Length) -> Length {
        diameter * 4.0
    }
}

formula! {
    /// Distance from a bolt to the end that it is pulled towards.
    ///
    /// ```text
    /// a₃ = max(7 d, 80 mm)
    /// ```
    /// Source: EN 1995-1-1, table 8.4, from memory.
    pub fn to_loaded_end(diameter: Length) -> Length {
        (diameter * 7.0).max(Length::mm(80.0))
    }
}

formula! {
    /// Distance from a bolt to the end that it is pulled away from.
    ///
    /// ```text
    /// a₃ = max((1 + 6 sin θ) d, 4 d)
    /// ```
    /// Source: EN 1995-1-1, table 8.4, from memory.
    pub fn to_free_end(diameter: Length, angle: Angle) -> Length {
        (diameter * (1.0 + 6.0 * angle.in_rad().sin().abs())).max(diameter * 4.0)
    }
}

formula! {
    /// Distance from a bolt to the edge that it is pulled towards.
    ///
    /// ```text
    /// a₄ = max((2 + 2 sin θ) d, 3 d)
    /// ```
    /// Source: EN 1995-1-1, table 8.4, from memory.
    pub fn to_loaded_edge(diameter: Length, angle: Angle) -> Length {
        (diameter * (2.0 + 2.0 * angle.in_rad().sin().abs())).max(diameter * 3.0)
    }
}

formula! {
    /// Distance from a bolt to an edge that it is pulled away from.
    ///
    /// ```text
    /// a₄ = 3 d
    /// ```
    /// Source: EN 1995-1-1, table 8.4, from memory.
    pub fn to_free_edge(diameter: Length) -> Length {
        diameter * 3.0
    }
}

formula! {
    /// Distance from a bolt to the end that it is pulled towards, for its whole allowable load in softwood.
    ///
    /// ```text
    /// e = 7 D
    /// ```
    /// Source: NDS table 12.5.1A, from memory.
    pub fn to_loaded_end_asd(diameter: Length) -> Length {
        diameter * 7.0
    }
}

formula! {
    /// Distance from a bolt to an end that it is not pulled towards, for its whole allowable load.
    ///
    /// ```text
    /// e = 4 D
    /// ```
    /// Source: NDS table 12.5.1A, from memory.
    pub fn to_free_end_asd(diameter: Length) -> Length {
        diameter * 4.0
    }
}

formula! {
    /// Distance from a bolt to the edge that it is pulled towards across the grain.
    ///
    /// ```text
    /// e = 4 D
    /// ```
    /// Source: NDS table 12.5.1C, from memory.
    pub fn to_loaded_edge_asd(diameter: Length) -> Length {
        diameter * 4.0
    }
}

formula! {
    /// Distance from a bolt to an edge that it is not pulled towards.
    ///
    /// ```text
    /// e = 1.5 D
    /// ```
    /// Source: NDS table 12.5.1C, from memory; members up to six bolts thick.
    pub fn to_free_edge_asd(diameter: Length) -> Length {
        diameter * 1.5
    }
}

formula! {
    /// Share of a scarf's length that its bolts want, in a row along it.
    ///
    /// ```text
    /// u = (2 a₃ + (n − 1) a₁) / s        a₃: to an end that is pulled, a₁: from bolt to bolt, n: bolts, s: length of the scarf
    /// ```
    /// Source: EN 1995-1-1, table 8.4, from memory: a₃ = max(7 d, 80 mm), a₁ = 5 d.
    pub fn room_along(diameter: Length, bolts: u64, scarf: Length) -> Ratio {
        let (end, next) = (to_loaded_end(diameter).value, between_along(diameter, Angle::ZERO).value);
        Ratio::fraction((end * 2.0 + next * bolts.saturating_sub(1) as f64) / scarf)
    }
}

formula! {
    /// The same by allowable stresses.
    ///
    /// ```text
    /// u = (2 · 7 D + (n − 1) 4 D) / s        n: bolts, s: length of the scarf
    /// ```
    /// Source: NDS tables 12.5.1A and 12.5.1B, from memory; softwood, whole loads.
    pub fn room_along_asd(diameter: Length, bolts: u64, scarf: Length) -> Ratio {
        let end = to_loaded_end_asd(diameter).value;
        Ratio::fraction((end * 2.0 + diameter * (4.0 * bolts.saturating_sub(1) as f64)) / scarf)
    }
}

formula! {
    /// Share of a beam's width that a row of bolts along its middle wants.
    ///
    /// ```text
    /// u = 2 a₄ / b        a₄: to an edge that is pulled, 4 d, b: width
    /// ```
    /// Source: EN 1995-1-1, table 8.4, and NDS table 12.5.1C, from memory: both have 4 d straight across the grain.
    pub fn room_across(diameter: Length, width: Length) -> Ratio {
        Ratio::fraction(to_loaded_edge_asd(diameter).value * 2.0 / width)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn an_m12_bolt_stands_84_mm_from_a_pulled_end_and_48_from_an_edge_pulled_across_the_grain() {
        let bolt = Length::mm(12.0);
        assert!((to_loaded_end(bolt).value.in_mm() - 84.0).abs() < 1e-9);
        assert!((to_loaded_end(Length::mm(10.0)).value.in_mm() - 80.0).abs() < 1e-9);
        assert!((to_loaded_edge(bolt, Angle::deg(90.0)).value.in_mm() - 48.0).abs() < 1e-9);
        assert!((to_loaded_edge(bolt, Angle::deg(0.0)).value.in_mm() - 36.0).abs() < 1e-9);
        assert!((to_free_end(bolt, Angle::deg(180.0)).value.in_mm() - 48.0).abs() < 1e-9);
    }

    #[test]
    fn two_m12_want_228_mm_of_scarf_and_two_of_half_an_inch_nine() {
        let twelve = Length::mm(12.0);
        assert!((room_along(twelve, 2, Length::mm(228.0)).value.in_fraction() - 1.0).abs() < 1e-12);
        // 80 mm to an end of an M10, and 50 mm between two.
        assert!((room_along(Length::mm(10.0), 2, Length::mm(210.0)).value.in_fraction() - 1.0).abs() < 1e-12);
        let half = Length::inches(0.5);
        assert!((room_along_asd(half, 2, Length::inches(9.0)).value.in_fraction() - 1.0).abs() < 1e-12);
        assert!((room_across(twelve, Length::mm(96.0)).value.in_fraction() - 1.0).abs() < 1e-12);
    }
}

//! Platforms on trestles from which the upper lifts are laid.

use crate::reason::formula;
use crate::solve::whole::rounded_up;
use crate::units::Length;

formula! {
    /// Top of a lift above the ground outside, on which one stands beside the wall: topsoil is stripped there before it is built.
    ///
    /// ```text
    /// h = z − (z′ − t)        z: top of the lift, z′: ground outside as it was found, t: topsoil, where it is stripped
    /// ```
    /// Source: the definition of level.
    pub fn above_ground(top: Length, ground_outside: Length, topsoil: Length) -> Length {
        top - (ground_outside - topsoil)
    }
}

formula! {
    /// Height of the platform above the ground from which a lift is finished.
    ///
    /// ```text
    /// p = h − a        h: top of the lift above the ground, a: height of work that is still easy
    /// ```
    /// Source: the definition of the height of work.
    pub fn platform_height(above_ground: Length, above: Length) -> Length {
        above_ground - above
    }
}

formula! {
    /// Length of a platform all along the outside of the wall, on its middle.
    ///
    /// ```text
    /// l = L + θ (t / 2 + g + w / 2)        θ: angle by which the line turns, 2π when it goes round; g: gap, w: width
    /// ```
    /// Source: Steiner's formula for the length of a parallel line.
    pub fn length_outside(line_length: Length, thickness: Length, gap: Length, width: Length; turning: f64) -> Length {
        line_length + (thickness * 0.5 + gap + width * 0.5) * turning
    }
}

formula! {
    /// Length of a platform all along the inside of the wall, on its middle.
    ///
    /// ```text
    /// l = L − θ (t / 2 + g + w / 2)        θ: angle by which the line turns, 2π when it goes round; g: gap, w: width
    /// ```
    /// Source: Steiner's formula for the length of a parallel line; not below 0.
    pub fn length_inside(line_length: Length, thickness: Length, gap: Length, width: Length; turning: f64) -> Length {
        (line_length - (thickness * 0.5 + gap + width * 0.5) * turning).max(Length::ZERO)
    }
}

formula! {
    /// Trestles under a platform inside and one outside, both all along.
    ///
    /// ```text
    /// n = l₁ / s + l₂ / s, each rounded up; one more for each where the wall ends
    /// ```
    /// Source: gaps between equal trestles.
    pub fn trestles(inside: Length, outside: Length, spacing: Length; at_ends: u64) -> u64 {
        [inside, outside].map(|length| rounded_up(length / spacing) + at_ends).into_iter().sum()
    }
}

formula! {
    /// Boards of a platform inside and one outside, both all along; a board that ends between trestles is cut or lapped.
    ///
    /// ```text
    /// n = (l₁ / a + l₂ / a) × w / b, each rounded up        a, b: length and width of a board, w: width of the platform
    /// ```
    /// Source: equal boards side by side and end to end.
    pub fn boards(inside: Length, outside: Length, width: Length, board_length: Length, board_width: Length) -> u64 {
        let along: u64 = [inside, outside].map(|length| rounded_up(length / board_length)).into_iter().sum();
        along * rounded_up(width / board_width)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn both_sides_of_a_ring_are_twice_its_length() {
        let [length, thickness, gap, width] = [12.0, 0.4, 0.1, 0.5].map(Length::m);
        let turning = std::f64::consts::TAU;
        let sides = length_outside(length, thickness, gap, width, turning).value
            + length_inside(length, thickness, gap, width, turning).value;
        assert!((sides - length * 2.0).abs() < Length::mm(1e-9));
    }

    #[test]
    fn a_wall_that_ends_has_a_trestle_more_on_each_side() {
        let at = |ends| trestles(Length::m(6.0), Length::m(9.1), Length::m(1.5), ends).value;
        assert_eq!((at(0), at(1)), (4 + 7, 4 + 7 + 2));
        let [inside, outside, width, long, wide] = [6.0, 9.1, 0.45, 3.0, 0.225].map(Length::m);
        assert_eq!(boards(inside, outside, width, long, wide).value, (2 + 4) * 2);
    }
}

//! What holds boards down on a twisted deck: the pull of wind, the pull of a board that wants to be flat again.

use super::boards::Board;
use crate::reason::formula;
use crate::solve::whole::rounded_up;
use crate::units::{Area, Force, Length, Pressure};

formula! {
    /// Area of deck that one end of a board holds down.
    ///
    /// ```text
    /// A = b l / 2        b: cover of the board, l: its length
    /// ```
    /// Source: half a board to each of its ends.
    pub fn area_of_board_end(cover: Length, board_length: Length) -> Area {
        cover * board_length * 0.5
    }
}

formula! {
    /// Moment, in newton metres, that keeps a board twisted.
    ///
    /// Wood gives way with time, so this is what the fasteners hold on the first day, and the most.
    ///
    /// ```text
    /// M = G b t³ (1/3 − 0.21 t/b (1 − t⁴ / (12 b⁴))) θ′        G: shear modulus, b, t: width and thickness, θ′: twist on a metre
    /// ```
    /// Source: Roark's Formulas for Stress and Strain, torsion of a solid rectangle, from memory.
    pub fn twisting_moment_n_m(
        shear_modulus: Pressure, width: Length, thickness: Length, twist_on_a_metre: f64
    ) -> f64 {
        let flat = thickness / width;
        let share = 1.0 / 3.0 - 0.21 * flat * (1.0 - flat.powi(4) / 12.0);
        shear_modulus.in_pa() * width.in_m() * thickness.in_m().powi(3) * share * twist_on_a_metre
    }
}

formula! {
    /// Pull on the row of fasteners along the one edge of a board's end that the twist lifts.
    ///
    /// ```text
    /// F = p A / 2 + M / a        p: uplift, A: area that the end holds down, M: moment of the twist, a: from row to row
    /// ```
    /// Source: equilibrium of the end of a board on two rows of fasteners; the weight on the deck is left out, on the safe side.
    pub fn pull_on_row(
        uplift: Pressure, area_of_end: Area, twisting_moment_n_m: f64, between_rows: Length
    ) -> Force {
        uplift * area_of_end * 0.5 + Force::n(twisting_moment_n_m / between_rows.in_m())
    }
}

formula! {
    /// Fasteners at one end of a board, in two rows, at least one in each.
    ///
    /// ```text
    /// n = 2 F / R, F / R rounded up        F: pull on a row, R: what one fastener holds against being pulled out
    /// ```
    /// Source: equal shares within a row.
    pub fn fasteners_at_end(pull_on_row: Force, withdrawal: Force) -> u64 {
        2 * rounded_up(pull_on_row / withdrawal).max(1)
    }
}

formula! {
    /// Boxes of fasteners.
    ///
    /// ```text
    /// n = N / N₁, rounded up        N₁: fasteners in a box
    /// ```
    /// Source: a supplier sells whole units.
    pub fn fastener_boxes(fasteners: u64, in_a_box: u64) -> u64 {
        fasteners.div_ceil(in_a_box.max(1))
    }
}

formula! {
    /// Uplift of wind on the deck.
    ///
    /// ```text
    /// p = c q        q: pressure of the gust, c: suction over the deck and push under it together
    /// ```
    /// Source: the definition of the coefficient.
    pub fn uplift(gust_pressure: Pressure, coefficient: f64) -> Pressure {
        gust_pressure * coefficient
    }
}

/// How a board is held at its ends.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Held {
    /// Uplift of wind.
    pub uplift: Pressure,
    /// Shear modulus of the board.
    pub shear: Pressure,
    /// Its width and thickness.
    pub section: [Length; 2],
    /// From one row of fasteners to the other.
    pub between_rows: Length,
}

impl Held {
    fn pull(&self, board: &Board) -> Force {
        let [width, thickness] = self.section;
        let end = area_of_board_end(width, board.length).value;
        let moment = twisting_moment_n_m(self.shear, width, thickness, board.twist_on_a_metre).value;
        pull_on_row(self.uplift, end, moment, self.between_rows).value
    }
}

formula! {
    /// The largest pull on a row of fasteners at the end of any board: wind, and the board that wants to be flat again.
    ///
    /// ```text
    /// F = largest of p b l / 4 + M / a        M = G b t³ (1/3 − 0.21 t/b (1 − t⁴ / (12 b⁴))) θ′
    /// ```
    /// Source: equilibrium of the end of a board on two rows of fasteners; the moment by Roark's Formulas for Stress and Strain, from memory.
    pub fn largest_pull(; held: &Held, boards: &[Board]) -> Force {
        boards.iter().map(|board| held.pull(board)).fold(Force::ZERO, Force::max)
    }
}

formula! {
    /// Fasteners at both ends of all boards, each end by its own pull.
    ///
    /// ```text
    /// n = Σ 2 · 2 Fᵢ / R, Fᵢ / R rounded up        Fᵢ: pull on a row of a board, R: what one fastener holds
    /// ```
    /// Source: equal shares within a row.
    pub fn all_fasteners(withdrawal: Force; held: &Held, boards: &[Board]) -> u64 {
        boards.iter().map(|board| 2 * fasteners_at_end(held.pull(board), withdrawal).value).sum()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Published share of b t³ for a rectangle: Timoshenko and Goodier, Theory of Elasticity, table of torsion of
    /// rectangular bars, from memory.
    const PUBLISHED: [(f64, f64); 5] = [(1.0, 0.1406), (2.0, 0.229), (3.0, 0.263), (5.0, 0.291), (10.0, 0.312)];

    #[test]
    fn the_moment_of_a_twisted_board_is_the_published_one_within_half_a_percent() {
        for (ratio, share) in PUBLISHED {
            let thick = Length::m(0.02);
            let found = twisting_moment_n_m(Pressure::pa(1.0), thick * ratio, thick, 1.0).value;
            let expected = share * ratio * 0.02_f64.powi(4);
            assert!((found / expected - 1.0).abs() < 5e-3, "{ratio}: {found} {expected}");
        }
    }

    #[test]
    fn wind_alone_is_shared_by_both_rows_and_twist_pulls_on_one() {
        let end = area_of_board_end(Length::mm(150.0), Length::m(1.2)).value;
        assert!((end.in_m2() - 0.09).abs() < 1e-12);
        let wind = pull_on_row(Pressure::kpa(2.0), end, 0.0, Length::m(0.1)).value;
        assert!((wind.in_n() - 90.0).abs() < 1e-9);
        let both = pull_on_row(Pressure::kpa(2.0), end, 12.0, Length::m(0.1)).value;
        assert!((both.in_n() - 210.0).abs() < 1e-9);
        let counts = [wind, both, Force::ZERO].map(|pull| fasteners_at_end(pull, Force::n(200.0)).value);
        assert_eq!(counts, [2, 4, 2]);
        assert_eq!(fastener_boxes(401, 200).value, 3);
    }
}

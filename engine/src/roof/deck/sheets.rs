//! Sheets over the deck out of rolls: strips from eave to eye, each cut to a gore, with laps and upstands.

use super::frame::Frame;
use super::space::length;
use crate::reason::formula;
use crate::solve::whole::{rounded_down, rounded_up};
use crate::units::Length;

formula! {
    /// The longest way from the eave straight up a bay to the eye.
    ///
    /// ```text
    /// l = longest of the straight lines of the surface from edge to edge
    /// ```
    /// Source: the surface is straight from rafter to rafter and from eave to eye; looked for in sixteenths of each bay.
    pub fn longest_way_up(; frame: &Frame) -> Length {
        const STEPS: u32 = 16;
        let mut longest = Length::ZERO;
        for bay in frame.bays() {
            for v in (0..=STEPS).map(|step| f64::from(step) / f64::from(STEPS)) {
                let [eave, eye] = bay.span(v);
                longest = longest.max(Length::m(length(bay.patch.up(v)) * (eye - eave)));
            }
        }
        longest
    }
}

formula! {
    /// Length of the eave along its line.
    ///
    /// ```text
    /// l = Σ lᵢ        lᵢ: from tail to tail
    /// ```
    /// Source: the sum of its parts.
    pub fn eave_length(; frame: &Frame) -> Length {
        frame.edge_lengths().iter().map(|[eave, _]| *eave).sum()
    }
}

formula! {
    /// Length of the edge of the eye: the foot of its frame.
    ///
    /// ```text
    /// l = Σ lᵢ        lᵢ: from rafter to rafter
    /// ```
    /// Source: the sum of its parts.
    pub fn eye_length(; frame: &Frame) -> Length {
        frame.edge_lengths().iter().map(|[_, eye]| *eye).sum()
    }
}

formula! {
    /// Strips of a sheet side by side round a closed eave; higher up each is cut narrower.
    ///
    /// ```text
    /// n = l / (w − o), rounded up        l: length of the eave, w: width of the roll, o: lap
    /// ```
    /// Source: each strip gains its width less a lap.
    pub fn strips_round(eave: Length, roll_width: Length, lap: Length) -> u64 {
        rounded_up(eave / (roll_width - lap))
    }
}

formula! {
    /// Strips of a sheet side by side from verge to verge.
    ///
    /// ```text
    /// n = (l − o) / (w − o), rounded up
    /// ```
    /// Source: each strip but the first gains its width less a lap.
    pub fn strips_across(eave: Length, roll_width: Length, lap: Length) -> u64 {
        rounded_up((eave - lap) / (roll_width - lap)).max(1)
    }
}

formula! {
    /// Length of each strip, upstands at eave and eye with it.
    ///
    /// ```text
    /// l = l₁ + 2 u        l₁: longest way up, u: upstand
    /// ```
    /// Source: the sum of its parts.
    pub fn strip_length(longest_way_up: Length, upstand: Length) -> Length {
        longest_way_up + upstand * 2.0
    }
}

formula! {
    /// Rolls for equal strips; no strip is pieced together.
    ///
    /// ```text
    /// n = N / (l₁ / l), rounded up, l₁ / l rounded down        N: strips, l: length of each, l₁: length of a roll, not below l
    /// ```
    /// Source: equal parts.
    pub fn rolls(strips: u64, strip_length: Length, roll_length: Length) -> u64 {
        strips.div_ceil(rounded_down(roll_length / strip_length).max(1))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn strips_gain_their_width_less_a_lap() {
        let m = Length::m;
        assert_eq!(strips_round(m(19.0), m(2.0), m(0.1)).value, 10);
        assert_eq!(strips_across(m(19.1), m(2.0), m(0.1)).value, 10);
        assert_eq!(strips_across(m(1.5), m(2.0), m(0.1)).value, 1);
        assert_eq!(strip_length(m(3.0), Length::mm(150.0)).value, m(3.3));
    }

    #[test]
    fn a_roll_is_cut_into_whole_strips_alone() {
        assert_eq!(rolls(7, Length::m(3.3), Length::m(10.0)).value, 3);
        assert_eq!(rolls(6, Length::m(3.3), Length::m(9.9)).value, 2);
    }
}

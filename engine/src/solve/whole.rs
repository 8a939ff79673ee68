//! Whole numbers from measures.

/// A number this far past a whole one is that whole one: rounding of binary fractions.
const NEARLY: f64 = 1e-9;

/// The least whole number that is not below a number; nothing below zero.
pub fn rounded_up(number: f64) -> u64 {
    (number - NEARLY).ceil().max(0.0) as u64
}

/// The greatest whole number that is not above a number; nothing below zero.
pub fn rounded_down(number: f64) -> u64 {
    (number + NEARLY).floor().max(0.0) as u64
}

#[cfg(test)]
mod tests {
    use super::{rounded_down, rounded_up};

    #[test]
    fn a_whole_number_stays_and_a_part_of_one_is_one_more() {
        assert_eq!([0.1 * 30.0, 3.0, 3.000_001, 0.2, 0.0, -1.5].map(rounded_up), [3, 3, 4, 1, 0, 0]);
    }
    #[test]
    fn a_whole_number_stays_and_a_part_of_one_more_is_dropped() {
        assert_eq!([0.1 * 30.0, 3.0, 2.999_999, 0.2, -1.5].map(rounded_down), [3, 3, 2, 0, 0]);
    }
}

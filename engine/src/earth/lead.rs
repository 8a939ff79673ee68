//! What a mix takes before its work can start: days to soak, slake, ferment, sieve and chop.

use jiff::ToSpan;
use jiff::civil::Date;

use crate::reason::formula;
use crate::solve::whole::rounded_up;
use crate::units::Days;

formula! {
    /// Time that a mix is made ready beforehand, if one step follows the other.
    ///
    /// ```text
    /// t = Σ tᵢ
    /// ```
    /// Source: the sum of its parts.
    pub fn lead_time(; sum: Days) -> Days {
        sum
    }
}

formula! {
    /// The day by which the first step is begun, so that the last one is done when the work starts.
    ///
    /// ```text
    /// begin = start − ⌈t⌉        t: all steps, in days
    /// ```
    /// Source: counted back in the calendar.
    pub fn begin_by(start: Date, lead: Days) -> Date {
        start.saturating_sub((rounded_up(lead.in_days()) as i64).days())
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use jiff::civil::date;

    #[test]
    fn a_part_of_a_day_takes_the_whole_day_before_and_months_have_their_own_lengths() {
        // Counted by hand: 2027 is no leap year, February has 28 days.
        assert_eq!(begin_by(date(2027, 3, 10), Days::days(17.0)).value, date(2027, 2, 21));
        assert_eq!(begin_by(date(2027, 3, 1), Days::days(0.5)).value, date(2027, 2, 28));
    }
}

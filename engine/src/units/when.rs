//! Dates without a clock: read from one spelling only, shown as the country writes them.

use super::{Misread, System, number::leading_digits};
use jiff::civil::Date;

const MONTHS: [&str; 12] = [
    "January",
    "February",
    "March",
    "April",
    "May",
    "June",
    "July",
    "August",
    "September",
    "October",
    "November",
    "December",
];

/// Reads year-month-day, the one order that no country reads otherwise.
pub(super) fn date(text: &str) -> Result<Date, Misread> {
    let hint = "write year, month and day as 2027-05-03";
    let refused = |why: &str| Misread::new(format!("\"{text}\" {why}"), hint);
    let part = |rest: &str, digits: usize| {
        let (found, rest) = leading_digits(rest);
        Some((found.parse::<i16>().ok().filter(|_| found.len() == digits)?, rest.to_owned()))
    };
    let parts = || {
        let (year, rest) = part(text, 4)?;
        let (month, rest) = part(rest.strip_prefix('-')?, 2)?;
        let (day, rest) = part(rest.strip_prefix('-')?, 2)?;
        rest.is_empty().then_some((year, i8::try_from(month).ok()?, i8::try_from(day).ok()?))
    };
    let (year, month, day) = parts().ok_or_else(|| refused("is not a date"))?;
    Date::new(year, month, day).map_err(|_| refused("is not a day of the calendar"))
}

/// "3 May 2027", or "May 3, 2027" in the US.
pub(super) fn shown(date: Date, system: System) -> String {
    let month = usize::try_from(date.month() - 1).ok().and_then(|at| MONTHS.get(at)).copied().unwrap_or_default();
    match system {
        System::Metric => format!("{} {month} {}", date.day(), date.year()),
        System::Us => format!("{month} {}, {}", date.day(), date.year()),
    }
}

#[cfg(test)]
#[allow(clippy::unwrap_used)]
mod tests {
    use super::*;

    #[test]
    fn a_date_is_read_in_one_order_only() {
        assert_eq!(date("2027-05-03").unwrap(), jiff::civil::date(2027, 5, 3));
        for text in ["03.05.2027", "5/3/2027", "2027-5-3", "20270503", "2027-05-03T10:00", "3 May 2027", "-2027-05-03"]
        {
            assert_eq!(date(text).unwrap_err().message, format!("\"{text}\" is not a date"));
        }
        assert_eq!(date("2027-02-29").unwrap_err().message, "\"2027-02-29\" is not a day of the calendar");
        assert_eq!(date("2028-02-29").unwrap(), jiff::civil::date(2028, 2, 29));
    }

    #[test]
    fn a_date_is_shown_as_the_country_writes_it() {
        let day = jiff::civil::date(2027, 5, 3);
        assert_eq!(shown(day, System::Metric), "3 May 2027");
        assert_eq!(shown(day, System::Us), "May 3, 2027");
    }
}

//! Shows lengths: millimetres and metres, or feet, inches and binary fractions that a tape has.

use super::shown::{Fineness, System, significant, without_zeros};

/// Below this nothing is built or measured here; a smaller length is what rounding left of zero.
const DUST: f64 = 1e-6;
const INCH: f64 = 0.0254;
/// What is smaller is the size of a grain and no mark on a tape.
const SMALL: f64 = 0.002;

/// Shows a length given in metres.
pub(super) fn shown(metres: f64, system: System, fineness: Fineness) -> String {
    let size = metres.abs();
    let text = match system {
        System::Metric => metric(size, fineness),
        System::Us => us(size, fineness),
    };
    // "-0 mm" would be a riddle.
    if metres < 0.0 && text.contains(|sign: char| matches!(sign, '1'..='9')) { format!("-{text}") } else { text }
}

fn metric(size: f64, fineness: Fineness) -> String {
    let step = match fineness {
        Fineness::Hand | Fineness::Mark => 5.0,
        Fineness::Row if is_small(size) => return small(size * 1_000.0, "mm"),
        Fineness::SetOut | Fineness::Row => 1.0,
        Fineness::Figure | Fineness::Strength => return metric_figure(size),
    };
    let mm = (size * 1_000.0 / step).round() * step;
    if mm == 0.0 {
        return finer(size, fineness, "0 mm", metric);
    }
    if mm < 1_000.0 { format!("{mm} mm") } else { format!("{:.3} m", mm / 1_000.0) }
}

fn metric_figure(size: f64) -> String {
    let (value, text) = significant(if size < DUST { 0.0 } else { size * 1_000.0 }, 3);
    if value < 1_000.0 {
        return format!("{text} mm");
    }
    format!("{} m", significant(size.max(1.0), 4).1)
}

fn us(size: f64, fineness: Fineness) -> String {
    let parts = match fineness {
        Fineness::Hand => 8.0,
        Fineness::Mark => 4.0,
        // A sixteenth of an inch is a mark on a tape all the same.
        Fineness::Row if is_small(size) && (size * 16.0 / INCH - 1.0).abs() > 1e-3 => return small(size / INCH, "in"),
        Fineness::SetOut | Fineness::Row => 16.0,
        Fineness::Figure | Fineness::Strength if size < INCH => {
            return format!("{} in", significant(if size < DUST { 0.0 } else { size / INCH }, 3).1);
        }
        Fineness::Figure | Fineness::Strength => 16.0,
    };
    let count = (size * parts / INCH).round();
    if count == 0.0 {
        return finer(size, fineness, "0 in", us);
    }
    // Rounded once, in parts of an inch: twelve inches can then never be left over beside the feet.
    let feet = (count / (12.0 * parts)).floor();
    let inches = count - feet * 12.0 * parts;
    if count < 36.0 * parts {
        return format!("{} in", in_parts(count, parts));
    }
    if inches == 0.0 { format!("{feet} ft") } else { format!("{feet} ft {} in", in_parts(inches, parts)) }
}

fn is_small(size: f64) -> bool {
    (DUST..SMALL - 1e-9).contains(&size)
}

fn small(size: f64, unit: &str) -> String {
    format!("{} {unit}", without_zeros(&significant(size, 2).1))
}

/// A length that rounds to nothing is shown finer: a 2 mm gap is not "0 mm".
fn finer(size: f64, fineness: Fineness, nothing: &str, show: fn(f64, Fineness) -> String) -> String {
    match fineness {
        _ if size < DUST => nothing.to_owned(),
        Fineness::Hand | Fineness::Mark => show(size, Fineness::SetOut),
        Fineness::SetOut | Fineness::Row | Fineness::Figure | Fineness::Strength => show(size, Fineness::Figure),
    }
}

/// "17 5/8", from a count of equal parts of an inch.
fn in_parts(count: f64, parts: f64) -> String {
    let whole = (count / parts).floor();
    let (mut above, mut below) = (count - whole * parts, parts);
    while above > 0.0 && above % 2.0 == 0.0 {
        above /= 2.0;
        below /= 2.0;
    }
    match (whole > 0.0, above > 0.0) {
        (_, false) => format!("{whole}"),
        (false, true) => format!("{above}/{below}"),
        (true, true) => format!("{whole} {above}/{below}"),
    }
}

#[cfg(test)]
mod tests {
    use super::super::{Fineness, Length, Quantity, System};

    #[track_caller]
    fn shows(length: Length, system: System, fineness: Fineness, expected: &str) {
        assert_eq!(Quantity::from(length).shown(system, fineness), expected);
    }

    #[test]
    fn metric_lengths_are_millimetres_below_a_metre_and_metres_above() {
        let shows = |mm: f64, fineness, expected: &str| shows(Length::mm(mm), System::Metric, fineness, expected);
        shows(452.0, Fineness::Hand, "450 mm");
        shows(452.0, Fineness::SetOut, "452 mm");
        shows(4716.0, Fineness::Hand, "4.715 m");
        shows(4716.0, Fineness::SetOut, "4.716 m");
        shows(999.6, Fineness::SetOut, "1.000 m");
        shows(997.0, Fineness::Hand, "995 mm");
        shows(998.0, Fineness::Hand, "1.000 m");
        shows(-452.0, Fineness::Hand, "-450 mm");
        shows(0.3456, Fineness::Figure, "0.346 mm");
        shows(456.78, Fineness::Figure, "457 mm");
        shows(999.7, Fineness::Figure, "1.000 m");
        shows(4715.4, Fineness::Figure, "4.715 m");
        shows(15_234.0, Fineness::Figure, "15.23 m");
        shows(0.63, Fineness::Row, "0.63 mm");
        shows(0.001_345, Fineness::Row, "0.0013 mm");
        shows(1.0, Fineness::Row, "1 mm");
        shows(2.0, Fineness::Row, "2 mm");
        shows(452.4, Fineness::Row, "452 mm");
    }

    #[test]
    fn us_lengths_are_inches_below_a_yard_and_feet_and_inches_above() {
        let shows =
            |inches: f64, fineness, expected: &str| shows(Length::inches(inches), System::Us, fineness, expected);
        shows(17.6, Fineness::Hand, "17 5/8 in");
        shows(17.6, Fineness::SetOut, "17 5/8 in");
        shows(1.0 / 16.0, Fineness::Row, "1/16 in");
        shows(0.0165, Fineness::Row, "0.017 in");
        shows(0.3, Fineness::Row, "5/16 in");
        shows(17.56, Fineness::SetOut, "17 9/16 in");
        shows(0.5, Fineness::Hand, "1/2 in");
        shows(35.99, Fineness::Hand, "3 ft");
        shows(36.0, Fineness::Hand, "3 ft");
        shows(12.0 * 15.0 + 5.625, Fineness::Hand, "15 ft 5 5/8 in");
        shows(12.0 * 12.0 - 0.01, Fineness::Hand, "12 ft");
        shows(12.0 * 12.0 - 0.01, Fineness::Figure, "12 ft");
        shows(12.0 * 11.0 + 11.9, Fineness::Hand, "11 ft 11 7/8 in");
        shows(12.0 * 5.0 + 0.25, Fineness::SetOut, "5 ft 1/4 in");
        shows(-66.5, Fineness::Hand, "-5 ft 6 1/2 in");
        shows(0.0123, Fineness::Figure, "0.0123 in");
    }

    #[test]
    fn a_small_length_is_shown_finer_and_never_as_nothing() {
        shows(Length::mm(2.0), System::Metric, Fineness::Hand, "2 mm");
        shows(Length::mm(0.4), System::Metric, Fineness::Hand, "0.400 mm");
        shows(Length::inches(0.0625), System::Us, Fineness::Hand, "1/8 in");
        shows(Length::inches(0.05), System::Us, Fineness::Hand, "1/16 in");
        shows(Length::inches(0.01), System::Us, Fineness::SetOut, "0.0100 in");
        shows(Length::mm(-1e-9), System::Metric, Fineness::Hand, "0 mm");
        shows(Length::mm(-1e-9), System::Us, Fineness::Figure, "0 in");
        shows(Length::ZERO, System::Metric, Fineness::Figure, "0 mm");
    }

    #[test]
    fn no_length_up_to_a_hundred_feet_is_shown_with_twelve_inches() {
        for sixteenths in 0..19_200 {
            for nudge in [-0.031, 0.0, 0.031] {
                let length = Length::inches(f64::from(sixteenths) / 16.0 + nudge);
                for fineness in [Fineness::Hand, Fineness::SetOut, Fineness::Figure] {
                    let text = Quantity::from(length).shown(System::Us, fineness);
                    assert!(!text.contains("ft 12"), "{text}");
                    assert!(!text.contains('.') || length.in_inches() < 1.0, "{text}");
                }
            }
        }
    }
}

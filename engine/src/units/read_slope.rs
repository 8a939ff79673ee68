//! Reads a slope in any of its four ways: 1:40, 2 %, 3°, and so much in so much ("3 in 12", "1/4 in per ft").

use super::{Kind, Length, Misread, Quantity, Slope, number, read};

/// Reads a slope from text whose signs are already plain.
pub(super) fn slope(text: &str) -> Result<Slope, Misread> {
    let (negative, size) = number::sign(text);
    let slope = match pair(size, text)? {
        Some(slope) => slope,
        None => Slope::try_from(angle(size, text)?)?,
    };
    Ok(if negative && slope.0 != 0.0 { -slope } else { slope })
}

/// A slope as two numbers or two lengths; nothing when it is written otherwise.
fn pair(size: &str, text: &str) -> Result<Option<Slope>, Misread> {
    if let Some((rise, run)) = size.split_once(':') {
        let (rise, run) = (alone(rise, text)?, alone(run, text)?);
        // 40:1 is nearly always 1:40 or a batter told the wrong way round.
        if rise > 3.0 * run {
            return Err(Misread::new(format!("\"{text}\" rises more than it runs"), "write rise first, such as 1:40"));
        }
        return over(rise, run, text).map(Some);
    }
    let per = size.split_once(" per ").or_else(|| {
        let at = size.rfind('/').filter(|at| size[at + 1..].trim_start().starts_with(char::is_alphabetic))?;
        Some((&size[..at], &size[at + 1..]))
    });
    if let Some((rise, run)) = per {
        let run = run.trim();
        let run = if run.starts_with(number::begins) { run.to_owned() } else { format!("1 {run}") };
        return over(Length::parse(rise)?.in_m(), Length::parse(&run)?.in_m(), text).map(Some);
    }
    match size.split_once(" in ") {
        Some((rise, run)) => over(alone(rise, text)?, alone(run, text)?, text).map(Some),
        None => Ok(None),
    }
}

/// A number with nothing after it.
fn alone(part: &str, text: &str) -> Result<f64, Misread> {
    let (number, rest) = number::read(part.trim(), text)?;
    if rest.trim().is_empty() {
        return Ok(number.value);
    }
    Err(Misread::such_as(format!("\"{text}\" has a unit on one side of its slope"), Kind::Slope))
}

fn over(rise: f64, run: f64, text: &str) -> Result<Slope, Misread> {
    let ratio = rise / run;
    if run > 0.0 && ratio.is_finite() && rise >= 0.0 {
        return Ok(Slope::ratio(ratio));
    }
    Err(Misread::such_as(format!("\"{text}\" has no run to rise over"), Kind::Slope))
}

fn angle(size: &str, text: &str) -> Result<Quantity, Misread> {
    let (number, unit) = number::read(size, text)?;
    let upright = number.value >= 90.0 && !matches!(unit.trim(), "%" | "percent");
    match read::measured(size, Kind::Slope)? {
        _ if upright => Err(Misread::such_as(format!("\"{text}\" is upright or leans over"), Kind::Slope)),
        slope => Ok(slope),
    }
}

#[cfg(test)]
#[allow(clippy::unwrap_used)]
mod tests {
    use super::*;

    #[test]
    fn a_slope_is_read_in_any_of_its_ways() {
        for (text, ratio) in [
            ("1:40", 1.0 / 40.0),
            ("1 in 40", 1.0 / 40.0),
            ("2 %", 0.02),
            ("2%", 0.02),
            ("120 %", 1.2),
            ("3 in 12", 0.25),
            ("3:12", 0.25),
            ("1/4 in per ft", 0.25 / 12.0),
            ("1/4\" per foot", 0.25 / 12.0),
            ("1/4 in/ft", 0.25 / 12.0),
            ("20 mm per m", 0.02),
            ("20 mm/m", 0.02),
            ("10 cm per 2 m", 0.05),
            ("-1:40", -1.0 / 40.0),
            ("\u{2212}2 %", -0.02),
            ("3 deg", 3_f64.to_radians().tan()),
            ("3°", 3_f64.to_radians().tan()),
            ("4 1/2 in 12", 0.375),
            ("0 %", 0.0),
        ] {
            let found = Slope::parse(text).unwrap().in_ratio();
            assert!((found - ratio).abs() < 1e-15, "{text}: {found}");
        }
    }

    #[test]
    fn a_slope_that_can_be_read_two_ways_is_refused() {
        for text in [
            "40:1",
            "1:0",
            "90 deg",
            "0.02",
            "1:40 m",
            "3 in",
            "2 % in 12",
            "1 in",
            "1:",
            "-0:0",
            "1/4 in per kg",
            "1:-40",
        ] {
            assert!(Slope::parse(text).is_err(), "{text}");
        }
        assert_eq!(Slope::parse("40:1").unwrap_err().hint, "write rise first, such as 1:40");
        assert_eq!(Slope::parse("0.02").unwrap_err().message, "\"0.02\" has no unit");
    }
}

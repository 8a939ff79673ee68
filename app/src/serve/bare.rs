//! A number typed without its unit: it takes the unit of what it stands for.

use engine::units::{self, Kind};

use super::standing::Standing;

/// What was typed, with the unit of the value that it replaces, or of what is taken where none is written, when it is a bare
/// number; a price takes the currency of the build. Where that unit is not one alone, or there is none, what was typed stays.
pub fn with_unit(text: &str, standing: Option<&Standing>, path: &str, typed: &str) -> String {
    let number = typed.trim();
    let is_bare = number.contains(|sign: char| sign.is_ascii_digit())
        && number.chars().all(|sign| sign.is_ascii_digit() || matches!(sign, '.' | ',' | '-' | '+'));
    if !is_bare {
        return typed.to_owned();
    }
    let written = engine::edit::written(text, path);
    let is_price = path.starts_with("prices.") && path.ends_with(".price");
    let taken = || {
        let standing = standing?;
        standing.answers.rows.find(path).map(|row| row.shown(standing.answers.system))
    };
    let unit = match written {
        Some(written) => unit(&written),
        None if is_price => currency(text, standing),
        None => taken().and_then(|taken| unit(&taken)),
    };
    unit.map_or_else(|| typed.to_owned(), |unit| format!("{number} {unit}"))
}

/// The currency of the build: as written, else that of a price.
fn currency(text: &str, standing: Option<&Standing>) -> Option<String> {
    let of_a_price = || {
        let price = standing?.answers.rows.matching("prices.*.price").next()?;
        unit(&price.shown(standing?.answers.system))
    };
    engine::edit::written(text, "build.currency").or_else(of_a_price)
}

/// The unit behind a number; none where there are several, as in feet and inches, and where there is none.
fn unit(value: &str) -> Option<String> {
    let is_of_number =
        |sign: char| sign.is_ascii_digit() || matches!(sign, '.' | ',' | '/' | '-' | '+' | ' ' | '\u{a0}');
    let unit = value.trim().trim_start_matches(is_of_number);
    let is_one = !unit.contains(',')
        && unit.starts_with(|sign: char| sign.is_alphabetic() || matches!(sign, '%' | '°'))
        && !unit.split_whitespace().skip(1).any(|word| word.starts_with(|sign: char| sign.is_ascii_digit()))
        && unit.len() < value.trim().len();
    // Words behind a number are a unit only where all of it reads as a quantity: a name may begin with a number.
    let is_quantity = || Kind::ALL.iter().any(|kind| units::parse(value, *kind).is_ok());
    (is_one && is_quantity()).then(|| unit.to_owned())
}

#[cfg(test)]
mod tests {
    use super::unit;

    #[test]
    fn a_unit_is_taken_only_where_it_stands_alone() {
        for (value, found) in [
            ("450 mm", Some("mm")),
            ("6 1/2 in", Some("in")),
            ("1.5m", Some("m")),
            ("1200 kg/m3", Some("kg/m3")),
            ("12.50 EUR", Some("EUR")),
            ("8 %", Some("%")),
            ("1 ft 8 in", None),
            ("1:60", None),
            ("2027-05-03", None),
            ("11", None),
            ("bale", None),
            ("2 short tons", Some("short tons")),
            ("5 US gal", Some("US gal")),
            ("7 Elm house", None),
            ("7 Elm", None),
            ("-2.45 m, -1.15 m", None),
        ] {
            assert_eq!(unit(value).as_deref(), found, "{value}");
        }
    }
}

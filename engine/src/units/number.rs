//! Reads one number as builders write it: "450", "0.45", "1.5e3", "1/2", "6 1/2", "6-1/2", "½", "6½".

use super::Misread;

/// A number read from the front of a text.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Number {
    pub(super) value: f64,
    /// No decimals and no fraction.
    pub(super) whole: bool,
}

/// The fractions that have a sign of their own.
const VULGAR: [(char, f64, f64); 15] = [
    ('½', 1.0, 2.0),
    ('¼', 1.0, 4.0),
    ('¾', 3.0, 4.0),
    ('⅛', 1.0, 8.0),
    ('⅜', 3.0, 8.0),
    ('⅝', 5.0, 8.0),
    ('⅞', 7.0, 8.0),
    ('⅓', 1.0, 3.0),
    ('⅔', 2.0, 3.0),
    ('⅕', 1.0, 5.0),
    ('⅖', 2.0, 5.0),
    ('⅗', 3.0, 5.0),
    ('⅘', 4.0, 5.0),
    ('⅙', 1.0, 6.0),
    ('⅚', 5.0, 6.0),
];

/// One spelling for each sign that keyboards and word processors write in several ways.
pub(super) fn plain_signs(text: &str) -> String {
    let one = |sign| match sign {
        '\u{2212}' | '\u{2010}' | '\u{2011}' | '\u{2013}' => '-',
        '\u{a0}' | '\u{202f}' | '\u{2009}' | '\u{2007}' | '\t' => ' ',
        '\u{2019}' | '\u{2018}' | '\u{2032}' => '\'',
        '\u{201c}' | '\u{201d}' | '\u{2033}' => '"',
        '\u{2044}' | '\u{2215}' => '/',
        '\u{ba}' | '\u{2da}' => '°',
        '²' => '2',
        '³' => '3',
        other => other,
    };
    // "5²" must not become 52, nor "m²" anything but m2.
    let mut plain = String::with_capacity(text.len());
    for sign in text.trim().chars() {
        if matches!(sign, '²' | '³') && !plain.ends_with(|before: char| before.is_ascii_alphabetic()) {
            plain.push('^');
        }
        plain.push(one(sign));
    }
    plain.replace("''", "\"")
}

/// Takes a minus or plus off the front; true when the text is negative.
pub(super) fn sign(text: &str) -> (bool, &str) {
    match text.strip_prefix('-') {
        Some(rest) => (true, rest.trim_start()),
        None => (false, text.strip_prefix('+').unwrap_or(text).trim_start()),
    }
}

/// Whether a number can begin with this.
pub(super) fn begins(sign: char) -> bool {
    sign.is_ascii_digit() || VULGAR.iter().any(|(vulgar, ..)| *vulgar == sign)
}

/// Reads a number without sign from the front of `text`; gives it and what follows.
///
/// `all` is the whole text, for the message.
pub(super) fn read<'a>(text: &'a str, all: &str) -> Result<(Number, &'a str), Misread> {
    let (digits, rest) = leading_digits(text);
    let whole = plain(digits, all)?;
    let part = |value: f64, rest: &'a str| Ok((Number { value, whole: false }, rest));
    if let Some((share, rest)) = vulgar(rest) {
        return part(whole + share, rest);
    }
    if !digits.is_empty() {
        if let Some((below, rest)) = rest.strip_prefix('/').map(leading_digits).filter(|(below, _)| !below.is_empty()) {
            return part(divided(whole, plain(below, all)?, all)?, rest);
        }
        let after = rest.strip_prefix('-').unwrap_or_else(|| rest.trim_start());
        if after.len() < rest.len() {
            if let Some((share, rest)) = vulgar(after) {
                return part(whole + share, rest);
            }
            let (above, rest) = leading_digits(after);
            let below = rest.strip_prefix('/').map(leading_digits).filter(|(below, _)| !below.is_empty());
            if let Some((below, rest)) = below.filter(|_| !above.is_empty()) {
                let share = divided(plain(above, all)?, plain(below, all)?, all)?;
                if share >= 1.0 {
                    return Err(Misread::new(
                        format!("\"{all}\" has a fraction of one or more after a whole number"),
                        "write the fraction below one, such as 6 1/2",
                    ));
                }
                return part(whole + share, rest);
            }
        }
    }
    decimal(text, digits.len(), all)
}

/// A decimal, perhaps with a power of ten. `length` is the length of the digits before the point.
fn decimal<'a>(text: &'a str, length: usize, all: &str) -> Result<(Number, &'a str), Misread> {
    let mut end = length;
    let digits_at = |at: usize| text.get(at..).map_or(0, |rest| leading_digits(rest).0.len());
    let decimals = if text[end..].starts_with('.') { digits_at(end + 1) } else { 0 };
    if decimals > 0 {
        end += 1 + decimals;
    }
    if end == 0 {
        return Err(Misread::new(
            format!("\"{all}\" has no number where one is needed"),
            "begin with digits, such as 450",
        ));
    }
    let mut rest = text[end..].chars();
    if matches!(rest.next(), Some('e' | 'E')) {
        let power = end + 1 + usize::from(matches!(rest.next(), Some('+' | '-')));
        if digits_at(power) > 0 {
            end = power + digits_at(power);
        }
    }
    let rest = &text[end..];
    if rest.starts_with(',') && digits_at(end + 1) > 0 {
        return Err(comma(&text[..end], leading_digits(&rest[1..]).0, all));
    }
    Ok((Number { value: plain(&text[..end], all)?, whole: end == length }, rest))
}

/// Why a comma is refused: one writes 2,5 for 2.5, another 1,250 for 1250.
fn comma(before: &str, after: &str, all: &str) -> Misread {
    let point = all.replacen(',', ".", 1);
    let hint = if after.len() == 3 && before.len() <= 3 && before != "0" {
        format!("write {}, or {point} if the comma was a decimal point", all.replace(',', ""))
    } else {
        format!("write {point}")
    };
    Misread::new(format!("\"{all}\" has a comma in its number"), hint)
}

/// Splits off the digits at the front.
pub(super) fn leading_digits(text: &str) -> (&str, &str) {
    text.split_at(text.find(|sign: char| !sign.is_ascii_digit()).unwrap_or(text.len()))
}

fn vulgar(text: &str) -> Option<(f64, &str)> {
    let first = text.chars().next()?;
    let (_, above, below) = VULGAR.iter().find(|(vulgar, ..)| *vulgar == first)?;
    Some((above / below, &text[first.len_utf8()..]))
}

fn divided(above: f64, below: f64, all: &str) -> Result<f64, Misread> {
    if below == 0.0 {
        return Err(Misread::new(format!("\"{all}\" divides by zero"), "write a fraction such as 1/2"));
    }
    Ok(above / below)
}

/// The value of digits, point and power; no digits are zero.
fn plain(digits: &str, all: &str) -> Result<f64, Misread> {
    let value = if digits.is_empty() { Ok(0.0) } else { digits.parse::<f64>() };
    value.ok().filter(|value| value.is_finite()).ok_or_else(|| Misread::too_large(all))
}

#[cfg(test)]
#[allow(clippy::unwrap_used)]
mod tests {
    use super::*;

    #[test]
    fn numbers_are_read_as_builders_write_them() {
        let all = [
            ("450 mm", 450.0, " mm"),
            ("450mm", 450.0, "mm"),
            ("0.45 m", 0.45, " m"),
            (".5 m", 0.5, " m"),
            ("1/2 in", 0.5, " in"),
            ("½ in", 0.5, " in"),
            ("6 1/2 in", 6.5, " in"),
            ("6-1/2\"", 6.5, "\""),
            ("6½ in", 6.5, " in"),
            ("6 ½ in", 6.5, " in"),
            ("17 5/8\"", 17.625, "\""),
            ("1.5e3 kg", 1500.0, " kg"),
            ("2E-3 m", 0.002, " m"),
            ("5 ft 6 in", 5.0, " ft 6 in"),
            ("5'-6\"", 5.0, "'-6\""),
            ("5 in.", 5.0, " in."),
            ("3 elephants", 3.0, " elephants"),
            ("3 1/x", 3.0, " 1/x"),
            ("5. m", 5.0, ". m"),
            ("7e", 7.0, "e"),
        ];
        for (text, value, rest) in all {
            let (number, found) = read(text, text).unwrap();
            assert_eq!((number.value, found), (value, rest), "{text}");
        }
        assert!(read("6 in", "").unwrap().0.whole);
        assert!(!read("6.0 in", "").unwrap().0.whole);
    }

    #[test]
    fn numbers_that_cannot_be_meant_are_refused() {
        for (text, said) in [
            ("1/0 in", "divides by zero"),
            ("6 3/2 in", "fraction of one or more"),
            ("2,5 m", "comma"),
            ("1e999 m", "too large"),
            ("nan", "no number"),
            ("", "no number"),
        ] {
            assert!(read(text, text).unwrap_err().message.contains(said), "{text}");
        }
        assert_eq!(read("2,5 m", "2,5 m").unwrap_err().hint, "write 2.5 m");
        let hint = read("1,250 mm", "1,250 mm").unwrap_err().hint;
        assert_eq!(hint, "write 1250 mm, or 1.250 mm if the comma was a decimal point");
    }

    #[test]
    fn raised_digits_belong_to_units_and_not_to_numbers() {
        assert_eq!(plain_signs(" 3 yd³ "), "3 yd3");
        assert_eq!(plain_signs("5²"), "5^2");
        assert_eq!(plain_signs("\u{2212}5′\u{a0}6″"), "-5' 6\"");
        assert_eq!(sign("- 18 in"), (true, "18 in"));
        assert_eq!(sign("+18 in"), (false, "18 in"));
    }
}

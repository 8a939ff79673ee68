//! Reads a quantity from text with its unit, and says in one sentence what is wrong with a text that it refuses.

use super::number::{self, Number};
use super::spelling::{self, Unit};
use super::{Kind, Money, Quantity, read_slope, when};
use std::fmt;

/// Why a text was refused, and how to write it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Misread {
    /// What is wrong, in one sentence without a full stop.
    pub message: String,
    /// What to write instead.
    pub hint: String,
}

impl Misread {
    pub(super) fn new(message: impl Into<String>, hint: impl Into<String>) -> Self {
        Self { message: message.into(), hint: hint.into() }
    }

    pub(super) fn no_unit(text: &str, kind: Kind) -> Self {
        let hint = format!("write {} with a unit, such as \"{}\"", kind.name(), kind.example());
        Self::new(format!("\"{text}\" has no unit"), hint)
    }

    pub(super) fn other_kind(what: &str, found: Kind, expected: Kind) -> Self {
        let hint = format!("{} was expected, such as \"{}\"", expected.name(), expected.example());
        Self::new(format!("{what} is {}", found.name()), hint)
    }

    pub(super) fn too_large(text: &str) -> Self {
        Self::new(format!("\"{text}\" is too large a number"), "check the digits")
    }

    pub(super) fn such_as(message: String, kind: Kind) -> Self {
        Self::new(message, format!("{} is written such as \"{}\"", kind.name(), kind.example()))
    }
}

impl fmt::Display for Misread {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(out, "{}; {}", self.message, self.hint)
    }
}

impl std::error::Error for Misread {}

/// Reads a quantity of the given kind from text as people write it: "450 mm", "5 ft 6 1/2 in", "5'-6½\"", "65 psf",
/// "68 °F", "1:40", "2027-05-03", "12.50 EUR". A sign holds for the whole text.
///
/// # Errors
/// [`Misread`] when a unit is missing, unknown, of another kind or has two meanings (ton, gallon), when a number is not
/// finite or has a decimal comma, and when a compound is not in falling units.
pub fn parse(text: &str, kind: Kind) -> Result<Quantity, Misread> {
    let plain = number::plain_signs(text);
    if plain.is_empty() {
        return Err(Misread::such_as("nothing is written here".into(), kind));
    }
    match kind {
        Kind::Number => bare(&plain).map(Quantity::Number),
        Kind::Count => count(&plain).map(Quantity::Count),
        Kind::Date => when::date(&plain).map(Quantity::Date),
        Kind::Money => Money::parse(&plain).map(Quantity::Money),
        Kind::Slope => read_slope::slope(&plain).map(Quantity::Slope),
        _ => measured(&plain, kind),
    }
}

/// Reads a signed number with its unit, or several in falling units.
pub(super) fn measured(text: &str, kind: Kind) -> Result<Quantity, Misread> {
    let (negative, mut rest) = number::sign(text);
    let signed = |value: f64| if negative && value != 0.0 { -value } else { value };
    let (first, after) = number::read(rest, text)?;
    let (unit, after) = unit(after, text, kind)?;
    let mut quantity = (unit.of)(signed(first.value));
    let mut total = (unit.of)(first.value).si().unwrap_or(f64::NAN);
    let mut last = (first, unit);
    rest = after;
    while !rest.is_empty() {
        let (number, after) = number::read(rest, text)?;
        let (unit, after) = self::unit(after, text, kind)?;
        total += follows(last, (number, unit), text)?;
        quantity = kind.of_si(signed(total)).ok_or_else(|| Misread::too_large(text))?;
        last = (number, unit);
        rest = after;
    }
    match quantity {
        Quantity::Temperature(value) if value.0 < 0.0 => {
            Err(Misread::such_as(format!("\"{text}\" is below absolute zero"), kind))
        }
        _ if quantity.si().is_some_and(f64::is_finite) => Ok(quantity),
        _ => Err(Misread::too_large(text)),
    }
}

/// What a further part of a compound adds in SI, if it may follow the part before it.
fn follows(before: (Number, &Unit), part: (Number, &Unit), text: &str) -> Result<f64, Misread> {
    let (big, small) = (before.1, part.1);
    let (big_word, small_word) = (big.spelled[0], small.spelled[0]);
    if big.rank == 0 || big.rank / 10 != small.rank / 10 || big.rank <= small.rank {
        let message = format!("\"{text}\" has {small_word} after {big_word}");
        return Err(Misread::new(message, "use one unit, or falling units of one system such as 5 ft 6 in"));
    }
    if !before.0.whole {
        let message = format!("\"{text}\" has a part of a {big_word} and {small_word} as well");
        return Err(Misread::new(message, format!("write whole {big_word} before {small_word}")));
    }
    let si = |of: &Unit, value: f64| (of.of)(value).si().unwrap_or(f64::NAN);
    let (added, limit) = (si(small, part.0.value), si(big, 1.0));
    // The tolerance takes 12 in for a whole foot although both are rounded in the last binary digit.
    if added >= limit * (1.0 - 1e-12) {
        let message = format!("\"{text}\" has a whole {big_word} or more in its {small_word}");
        let most = (limit / si(small, 1.0)).round();
        return Err(Misread::new(
            message,
            format!("after {big_word} write less than {most} {small_word}, or {small_word} alone"),
        ));
    }
    Ok(added)
}

/// Takes the unit off the front of `rest`, and the hyphen or space before a further number.
fn unit<'a>(rest: &'a str, text: &str, kind: Kind) -> Result<(&'static Unit, &'a str), Misread> {
    let rest = rest.trim_start();
    let (written, after) = rest.split_at(unit_length(rest));
    if written.trim().is_empty() {
        return Err(match rest.chars().next() {
            None => Misread::no_unit(text, kind),
            Some('-') => Misread::new(format!("\"{text}\" reads like a range"), "write one value"),
            Some(_) => Misread::new(
                format!("\"{text}\" has two numbers before one unit"),
                format!("write one number and one unit, such as {}", kind.example()),
            ),
        });
    }
    let plain = written.trim();
    // Most units are written as they are listed.
    let found = match spelling::find(kind, plain) {
        Some(found) => found,
        None => {
            let word = tidy(plain);
            spelling::find(kind, &word).ok_or_else(|| unknown(&word, text, kind))?
        }
    };
    let Some(joined) = after.strip_prefix('-') else {
        return Ok((found, after));
    };
    let tight = written.trim_end().len() == written.len() && !joined.starts_with(' ');
    if tight || plain == "'" {
        return Ok((found, joined.trim_start()));
    }
    Err(Misread::new(
        format!("\"{text}\" has a minus inside"),
        "put the sign in front of the whole, such as -5 ft 6 in",
    ))
}

/// Where the unit ends: at the next number or at a hyphen before one, but not at the 3 of "yd3" or the 4 of "mm4".
fn unit_length(text: &str) -> usize {
    let mut before = ' ';
    let mut signs = text.char_indices().peekable();
    while let Some((at, sign)) = signs.next() {
        let next = signs.peek().map_or(' ', |(_, next)| *next);
        let power = matches!(sign, '2'..='4')
            && (before.is_ascii_alphabetic() || before == '^')
            && !(next.is_alphanumeric() || next == '.' || number::begins(next));
        let stops = match sign {
            '-' => text[at + 1..].trim_start().starts_with(number::begins),
            '.' => next.is_ascii_digit() && !before.is_ascii_alphabetic(),
            _ => number::begins(sign) && !power,
        };
        if stops {
            return at;
        }
        before = sign;
    }
    text.len()
}

/// One spelling for "lb. per cu. ft.", "lb / cu ft" and "lb/cu ft".
fn tidy(written: &str) -> String {
    let words: Vec<&str> = written.split_whitespace().collect();
    let spaced = words.join(" ").replace(['.', '^'], "").replace(" per ", "/");
    spaced.replace(" /", "/").replace("/ ", "/").replace("° ", "°").trim().to_owned()
}

fn unknown(word: &str, text: &str, kind: Kind) -> Misread {
    let last = word.rsplit(' ').next().unwrap_or(word);
    if let Some((why, hint)) = spelling::two_meanings(word).or_else(|| spelling::two_meanings(last)) {
        return Misread::new(format!("\"{text}\": \"{word}\" {why}"), hint);
    }
    if kind == Kind::TemperatureDifference && spelling::kind_of(word) == Some(Kind::Temperature) {
        return Misread::new(
            format!("\"{text}\" is a temperature, not a difference of two"),
            "write a difference as 10 K, 10 C° or 18 F°",
        );
    }
    if let Some(found) = spelling::kind_of(word) {
        return Misread::other_kind(&format!("\"{text}\""), found, kind);
    }
    let message = format!("\"{text}\": the unit \"{word}\" is not known");
    match spelling::nearest(kind, word) {
        Some(near) => Misread::new(message, format!("did you mean \"{near}\"?")),
        None => Misread::such_as(message, kind),
    }
}

fn bare(text: &str) -> Result<f64, Misread> {
    match number::read(number::sign(text).1, text)? {
        (number, "") if number.value.is_finite() => Ok(if number::sign(text).0 { -number.value } else { number.value }),
        _ => {
            Err(Misread::new(format!("\"{text}\" is not a plain number"), "write a number without a unit, such as 6.5"))
        }
    }
}

fn count(text: &str) -> Result<u64, Misread> {
    let digits = text.strip_prefix('+').unwrap_or(text);
    if digits.is_empty() || !digits.bytes().all(|sign| sign.is_ascii_digit()) {
        return Err(Misread::new(
            format!("\"{text}\" is not a count"),
            "write a whole number without a unit, such as 12",
        ));
    }
    digits.parse().map_err(|_| Misread::too_large(text))
}

#[cfg(test)]
mod tests;

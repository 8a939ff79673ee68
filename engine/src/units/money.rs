//! Money as whole minor units of one currency, so that no cent is lost to rounding.

use super::{Misread, System, number};
use std::fmt;

/// A currency: the three capital letters of ISO 4217.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct Currency([u8; 3]);

/// Currencies without minor units. Source: ISO 4217, from memory.
const WHOLE: &[&[u8; 3]] = &[
    b"BIF", b"CLP", b"DJF", b"GNF", b"ISK", b"JPY", b"KMF", b"KRW", b"PYG", b"RWF", b"UGX", b"VND", b"VUV", b"XAF",
    b"XOF", b"XPF",
];
/// Currencies of a thousand minor units. Source: ISO 4217, from memory.
const THOUSANDTHS: &[&[u8; 3]] = &[b"BHD", b"IQD", b"JOD", b"KWD", b"LYD", b"OMR", b"TND"];

impl Currency {
    /// Reads a code such as "EUR". Whether a country uses it is not asked.
    ///
    /// # Errors
    /// [`Misread`] when it is not three capital letters.
    pub fn parse(code: &str) -> Result<Self, Misread> {
        match code.as_bytes() {
            &[a, b, c] if [a, b, c].iter().all(u8::is_ascii_uppercase) => Ok(Self([a, b, c])),
            _ => Err(Misread::new(format!("\"{code}\" is not the code of a currency"), WRITE_CODE)),
        }
    }

    /// How many decimals an amount has: 2 for most, 0 for JPY and a few more, 3 for KWD and a few more.
    #[must_use]
    pub fn minor_digits(self) -> u32 {
        if WHOLE.contains(&&self.0) {
            0
        } else if THOUSANDTHS.contains(&&self.0) {
            3
        } else {
            2
        }
    }
}

impl fmt::Display for Currency {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        self.0.iter().try_for_each(|&letter| write!(out, "{}", char::from(letter)))
    }
}

const WRITE_CODE: &str = "write the three letters of the currency, such as 12.50 USD";

/// An amount of money.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Money {
    /// Minor units: cents of EUR, yen of JPY.
    pub minor: i64,
    /// The currency.
    pub currency: Currency,
}

/// Why two amounts have no sum, or an amount no multiple.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum MoneyFault {
    /// Two currencies: a build has one.
    Currencies(Currency, Currency),
    /// More than the number can hold.
    TooLarge(Currency),
}

impl fmt::Display for MoneyFault {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Currencies(one, other) => write!(out, "{one} and {other} cannot be added; a build has one currency"),
            Self::TooLarge(currency) => write!(out, "the amount of {currency} is too large"),
        }
    }
}

impl std::error::Error for MoneyFault {}

impl Money {
    /// The sum of two amounts.
    ///
    /// # Errors
    /// [`MoneyFault`] when the currencies differ or the sum is too large.
    pub fn plus(self, other: Self) -> Result<Self, MoneyFault> {
        if self.currency != other.currency {
            return Err(MoneyFault::Currencies(self.currency, other.currency));
        }
        let minor = self.minor.checked_add(other.minor).ok_or(MoneyFault::TooLarge(self.currency))?;
        Ok(Self { minor, ..self })
    }

    /// So many times the amount.
    ///
    /// # Errors
    /// [`MoneyFault::TooLarge`] when the product is too large.
    pub fn times(self, count: u64) -> Result<Self, MoneyFault> {
        let minor = i64::try_from(count).ok().and_then(|count| self.minor.checked_mul(count));
        Ok(Self { minor: minor.ok_or(MoneyFault::TooLarge(self.currency))?, ..self })
    }

    /// Reads "12.50 EUR", "EUR 12.50", "1,250.00 USD" or "12 500 JPY".
    ///
    /// # Errors
    /// [`Misread`] without a code, with a sign such as "$", with more decimals than the currency has, and with
    /// separators that do not set off groups of three or may be a decimal comma.
    pub fn parse(text: &str) -> Result<Self, Misread> {
        let plain = number::plain_signs(text);
        let (negative, rest) = number::sign(&plain);
        let code = |at: usize| {
            let (one, other) = (rest.get(..at)?, rest.get(at..)?);
            Some((Currency::parse(one.trim()).ok()?, other.trim()))
        };
        let behind = || {
            let (amount, code) = rest.split_at(rest.trim_end_matches(|sign: char| sign.is_ascii_alphabetic()).len());
            Some((Currency::parse(code).ok()?, amount.trim()))
        };
        let Some((currency, amount)) = code(3).or_else(behind) else {
            return Err(Misread::new(format!("\"{plain}\" does not name its currency"), WRITE_CODE));
        };
        let (behind_code, amount) = number::sign(amount);
        if negative && behind_code {
            return Err(Misread::new(format!("\"{plain}\" has two signs"), "write one minus in front"));
        }
        let minor = minor(amount, currency, &plain)?;
        Ok(Self { minor: if negative || behind_code { -minor } else { minor }, currency })
    }

    /// "12.50 EUR", with groups of three set off from 10 000 by a space, in the US from 1,000 by a comma.
    #[must_use]
    pub fn shown(self, system: System) -> String {
        let per_major = 10_u64.pow(self.currency.minor_digits());
        let size = self.minor.unsigned_abs();
        let (major, rest) = ((size / per_major).to_string(), size % per_major);
        let (separator, from) = match system {
            System::Metric => (' ', 5),
            System::Us => (',', 4),
        };
        let mut out = String::from(if self.minor < 0 { "-" } else { "" });
        for (at, digit) in major.chars().enumerate() {
            if at > 0 && major.len() >= from && (major.len() - at) % 3 == 0 {
                out.push(separator);
            }
            out.push(digit);
        }
        if per_major > 1 {
            out.push_str(&format!(".{rest:0width$}", width = self.currency.minor_digits() as usize));
        }
        format!("{out} {}", self.currency)
    }
}

/// Reads an unsigned amount in minor units.
fn minor(amount: &str, currency: Currency, text: &str) -> Result<i64, Misread> {
    let refused = |why: &str, hint: String| Misread::new(format!("\"{text}\" {why}"), hint);
    let digits = currency.minor_digits() as usize;
    let (major, decimals) = match amount.split_once('.') {
        Some((major, decimals)) => (major, Some(decimals)),
        None => (amount, None),
    };
    let only_digits = |part: &str| !part.is_empty() && part.bytes().all(|sign| sign.is_ascii_digit());
    let example = || format!("write it such as {}", Money { minor: 1250, currency }.shown(System::Metric));
    let separator = if major.contains(',') { ',' } else { ' ' };
    let groups: Vec<&str> = major.split(separator).collect();
    if !groups.iter().all(|group| only_digits(group)) || decimals.is_some_and(|part| !only_digits(part)) {
        return Err(refused("is not an amount of money", example()));
    }
    if let [first, others @ ..] = groups.as_slice()
        && !others.is_empty()
    {
        let threes = others.iter().all(|group| group.len() == 3) && (1..=3).contains(&first.len()) && *first != "0";
        let decimal_comma = separator == ',' && others.len() == 1 && decimals.is_none() && (digits == 3 || !threes);
        if decimal_comma {
            return Err(refused("may have a decimal comma", format!("write {}", text.replacen(',', ".", 1))));
        }
        if !threes {
            return Err(refused("has separators that do not set off groups of three", example()));
        }
    }
    let decimals = decimals.unwrap_or_default();
    if decimals.len() > digits {
        return Err(refused(&format!("has more decimals than {currency} has"), example()));
    }
    let all = format!("{}{decimals:0<digits$}", groups.concat());
    all.parse().map_err(|_| Misread::too_large(text))
}

#[cfg(test)]
#[allow(clippy::unwrap_used)]
mod tests {
    use super::*;

    fn money(minor: i64, code: &str) -> Money {
        Money { minor, currency: Currency::parse(code).unwrap() }
    }

    #[test]
    fn an_amount_is_read_with_its_code_before_or_behind() {
        for (text, minor, code) in [
            ("12.50 EUR", 1250, "EUR"),
            ("EUR 12.50", 1250, "EUR"),
            ("12.5 EUR", 1250, "EUR"),
            ("12 EUR", 1200, "EUR"),
            ("12.50EUR", 1250, "EUR"),
            ("-3.00 USD", -300, "USD"),
            ("USD -3", -300, "USD"),
            ("\u{2212}3 USD", -300, "USD"),
            ("1,250.00 USD", 125_000, "USD"),
            ("1,250,000 USD", 125_000_000, "USD"),
            ("1,250 JPY", 1250, "JPY"),
            ("12 500 JPY", 12_500, "JPY"),
            ("12\u{2009}500.00 EUR", 1_250_000, "EUR"),
            ("1.234 KWD", 1234, "KWD"),
            ("0 EUR", 0, "EUR"),
            ("-0 EUR", 0, "EUR"),
        ] {
            assert_eq!(Money::parse(text).unwrap(), money(minor, code), "{text}");
        }
    }

    #[test]
    fn an_amount_that_can_be_misread_is_refused() {
        for (text, said) in [
            ("$12", "does not name its currency"),
            ("12.50", "does not name its currency"),
            ("12 eur", "does not name"),
            ("12.505 EUR", "more decimals than EUR has"),
            ("12.5 JPY", "more decimals than JPY has"),
            ("2,5 EUR", "decimal comma"),
            ("2,50 EUR", "decimal comma"),
            ("1,250 KWD", "decimal comma"),
            ("12,34,567 EUR", "groups of three"),
            ("1234,567.00 EUR", "groups of three"),
            ("12 50 EUR", "groups of three"),
            ("1,250 000 EUR", "not an amount"),
            ("1.250.00 EUR", "not an amount"),
            ("EUR", "not an amount"),
            ("--3 EUR", "two signs"),
            ("-EUR -3", "two signs"),
            ("1e3 EUR", "not an amount"),
            ("99999999999999999999 EUR", "too large"),
            ("", "does not name"),
            ("€ 12", "does not name"),
        ] {
            let refused = Money::parse(text).unwrap_err();
            assert!(refused.message.contains(said), "{text}: {}", refused.message);
        }
        assert_eq!(Money::parse("$12").unwrap_err().hint, "write the three letters of the currency, such as 12.50 USD");
        assert_eq!(Money::parse("2,50 EUR").unwrap_err().hint, "write 2.50 EUR");
    }

    #[test]
    fn money_adds_and_multiplies_without_losing_a_cent() {
        assert_eq!(money(10, "EUR").plus(money(20, "EUR")), Ok(money(30, "EUR")));
        assert_eq!(money(1250, "EUR").times(3), Ok(money(3750, "EUR")));
        let mixed = money(1, "EUR").plus(money(1, "USD")).unwrap_err();
        assert_eq!(mixed.to_string(), "EUR and USD cannot be added; a build has one currency");
        let large = money(i64::MAX, "EUR").plus(money(1, "EUR")).unwrap_err();
        assert_eq!(large.to_string(), "the amount of EUR is too large");
        assert!(money(i64::MAX, "EUR").times(2).is_err());
        assert!(money(1, "EUR").times(u64::MAX).is_err());
    }

    #[test]
    fn money_is_shown_with_the_decimals_of_its_currency() {
        assert_eq!(money(1250, "EUR").shown(System::Metric), "12.50 EUR");
        assert_eq!(money(-5, "USD").shown(System::Us), "-0.05 USD");
        assert_eq!(money(125_000, "USD").shown(System::Us), "1,250.00 USD");
        assert_eq!(money(125_000, "EUR").shown(System::Metric), "1250.00 EUR");
        assert_eq!(money(1_250_000, "EUR").shown(System::Metric), "12 500.00 EUR");
        assert_eq!(money(1250, "JPY").shown(System::Metric), "1250 JPY");
        assert_eq!(money(i64::MIN, "KWD").shown(System::Us), "-9,223,372,036,854,775.808 KWD");
    }
}

//! Reads a spanned TOML tree key by key and notes every fault with its place, so that all are told at once.

use std::ops::Range;

use jiff::civil::Date;
use toml::Spanned;
use toml::de::{DeTable, DeValue};

use super::source::{Source, Written};

use crate::units::{self, Currency, Kind, Quantity};

/// How a point is written.
const POINT: &str = "[\"4.2 m\", \"0 m\"]";

/// A table being read: each key asked for is known; what is left over at the end is a fault.
pub struct Table<'s, 'i> {
    pub(super) source: &'s Source<'i>,
    pub(super) table: &'s DeTable<'i>,
    /// Its key; empty for the file itself.
    pub path: String,
    /// The byte range of its header, or of the braces.
    pub span: Range<usize>,
    pub(super) asked: Vec<&'static str>,
}

impl<'s, 'i> Table<'s, 'i> {
    /// The file itself.
    #[must_use]
    pub fn root(source: &'s Source<'i>, table: &'s Spanned<DeTable<'i>>) -> Self {
        Table { source, table: table.get_ref(), path: String::new(), span: 0..0, asked: Vec::new() }
    }

    /// Whether a key is written, readable or not.
    #[must_use]
    pub fn has(&self, key: &str) -> bool {
        self.table.get(key).is_some()
    }

    pub(super) fn value(&mut self, key: &'static str) -> Option<(&'s DeValue<'i>, Range<usize>)> {
        self.asked.push(key);
        self.table.get(key).map(|value| (value.get_ref(), value.span()))
    }

    pub(super) fn key_path(&self, key: &str) -> String {
        if self.path.is_empty() { key.to_owned() } else { format!("{}.{key}", self.path) }
    }

    pub(super) fn wrong(&self, key: &str, span: Range<usize>, found: &DeValue<'_>, wanted: &str) {
        self.source.fault(
            span,
            &self.key_path(key),
            format!("{} cannot stand here", kind_of(found)),
            format!("write {wanted}"),
        );
    }

    /// Notes that a key is missing.
    pub(super) fn missing(&self, key: &str, example: &str) {
        let misspelt = self.table.keys().any(|written| is_near(key, written.get_ref()));
        if misspelt || self.source.is_broken() {
            return;
        }
        let path = self.key_path(key);
        self.source.fault(
            self.span.clone(),
            &path,
            format!("`{key}` is missing"),
            format!("write for example {key} = {example}"),
        );
    }

    pub(super) fn written<T>(&self, key: &str, span: Range<usize>, value: T) -> Written<T> {
        Written { value, path: self.key_path(key), line: self.source.line(&span), span }
    }

    /// A quantity written as text with its unit.
    pub fn quantity<T: TryFrom<Quantity>>(&mut self, key: &'static str, kind: Kind) -> Option<Written<T>> {
        let (value, span) = self.value(key)?;
        self.quantity_of(key, value, span, kind)
    }

    pub(super) fn quantity_of<T: TryFrom<Quantity>>(
        &self,
        key: &str,
        value: &DeValue<'_>,
        span: Range<usize>,
        kind: Kind,
    ) -> Option<Written<T>> {
        let text = match value {
            DeValue::String(text) => text.to_string(),
            DeValue::Integer(number) => number.to_string(),
            DeValue::Float(number) => number.to_string(),
            other => {
                self.wrong(
                    key,
                    span,
                    other,
                    &format!("{} in quotes with its unit, such as \"{}\"", kind.name(), kind.example()),
                );
                return None;
            }
        };
        match units::parse(&text, kind) {
            Ok(quantity) => T::try_from(quantity).ok().map(|value| self.written(key, span, value)),
            Err(misread) => {
                self.source.fault(span, &self.key_path(key), misread.message, misread.hint);
                None
            }
        }
    }

    /// A quantity that must be there.
    pub fn needed<T: TryFrom<Quantity>>(&mut self, key: &'static str, kind: Kind) -> Option<Written<T>> {
        self.needed_like(key, kind, kind.example())
    }

    /// A quantity that must be there, with an example of the usual size.
    pub fn needed_like<T: TryFrom<Quantity>>(
        &mut self,
        key: &'static str,
        kind: Kind,
        example: &str,
    ) -> Option<Written<T>> {
        if self.table.get(key).is_none() {
            self.asked.push(key);
            self.missing(key, &format!("\"{example}\""));
            return None;
        }
        self.quantity(key, kind)
    }

    /// Two lengths in brackets: a point in plan.
    pub fn point<T: TryFrom<Quantity>>(&mut self, key: &'static str) -> Option<Written<[Written<T>; 2]>> {
        if self.table.get(key).is_none() {
            self.asked.push(key);
            self.missing(key, POINT);
            return None;
        }
        self.maybe_point(key)
    }

    /// A point in plan, where one is written.
    pub fn maybe_point<T: TryFrom<Quantity>>(&mut self, key: &'static str) -> Option<Written<[Written<T>; 2]>> {
        let (value, span) = self.value(key)?;
        let point = self.point_of(key, value, span.clone())?;
        Some(self.written(key, span, point))
    }

    /// The two lengths of a point, whose axes become part of its path.
    pub(super) fn point_of<T: TryFrom<Quantity>>(
        &self,
        key: &str,
        value: &DeValue<'_>,
        span: Range<usize>,
    ) -> Option<[Written<T>; 2]> {
        match value {
            DeValue::Array(parts) if parts.len() == 2 => {
                let mut axes = ["x", "y"].iter().zip(parts.iter()).map(|(axis, part)| {
                    let mut read = self.quantity_of(key, part.get_ref(), part.span(), Kind::Length)?;
                    read.path = format!("{}.{axis}", self.key_path(key));
                    Some(read)
                });
                Some([axes.next().flatten()?, axes.next().flatten()?])
            }
            other => {
                self.wrong(key, span, other, &format!("a point, such as {POINT}"));
                None
            }
        }
    }

    /// Plain text.
    pub fn text(&mut self, key: &'static str) -> Option<Written<String>> {
        let (value, span) = self.value(key)?;
        match value {
            DeValue::String(text) => Some(self.written(key, span, text.clone().into_owned())),
            other => {
                self.wrong(key, span, other, "text in quotes");
                None
            }
        }
    }

    /// Plain text that must be there.
    pub fn needed_text(&mut self, key: &'static str, example: &str) -> Option<Written<String>> {
        if self.table.get(key).is_none() {
            self.asked.push(key);
            self.missing(key, &format!("\"{example}\""));
            return None;
        }
        self.text(key)
    }

    /// One of a few words that must be there.
    pub fn needed_choice<T: Copy>(&mut self, key: &'static str, words: &[(&str, T)]) -> Option<Written<T>> {
        if self.table.get(key).is_none() {
            self.asked.push(key);
            self.missing(key, &listed(words));
            return None;
        }
        self.choice(key, words)
    }

    /// One of a few words.
    pub fn choice<T: Copy>(&mut self, key: &'static str, words: &[(&str, T)]) -> Option<Written<T>> {
        let written = self.text(key)?;
        if let Some((_, value)) = words.iter().find(|(word, _)| *word == written.value) {
            return Some(Written { value: *value, path: written.path, line: written.line, span: written.span });
        }
        self.source.fault(
            written.span,
            &written.path,
            format!("\"{}\" is not a word known here", written.value),
            format!("write {}", listed(words)),
        );
        None
    }

    /// A list of texts.
    pub fn texts(&mut self, key: &'static str) -> Option<Written<Vec<Written<String>>>> {
        let (value, span) = self.value(key)?;
        let DeValue::Array(parts) = value else {
            self.wrong(key, span, value, "a list of texts in brackets");
            return None;
        };
        let mut texts = Vec::new();
        for part in parts.iter() {
            match part.get_ref() {
                DeValue::String(text) => texts.push(self.written(key, part.span(), text.clone().into_owned())),
                other => self.wrong(key, part.span(), other, "text in quotes"),
            }
        }
        Some(self.written(key, span, texts))
    }

    /// Yes or no.
    pub fn yes_or_no(&mut self, key: &'static str) -> Option<Written<bool>> {
        let (value, span) = self.value(key)?;
        match value {
            DeValue::Boolean(value) => Some(self.written(key, span, *value)),
            other => {
                self.wrong(key, span, other, "true or false, without quotes");
                None
            }
        }
    }

    /// A whole number, zero or more.
    pub fn count(&mut self, key: &'static str) -> Option<Written<u64>> {
        let (value, span) = self.value(key)?;
        if let DeValue::Integer(number) = value
            && let Ok(count) = u64::from_str_radix(number.as_str(), number.radix())
        {
            return Some(self.written(key, span, count));
        }
        self.wrong(key, span, value, "a whole number of 0 or more, such as 12");
        None
    }

    /// A whole number that must be there.
    pub fn needed_count(&mut self, key: &'static str, example: u64) -> Option<Written<u64>> {
        if self.table.get(key).is_none() {
            self.asked.push(key);
            self.missing(key, &example.to_string());
            return None;
        }
        self.count(key)
    }

    /// A three-letter currency.
    pub fn currency(&mut self, key: &'static str) -> Option<Written<Currency>> {
        let written = self.text(key)?;
        match Currency::parse(&written.value) {
            Ok(value) => Some(Written { value, path: written.path, line: written.line, span: written.span }),
            Err(misread) => {
                self.source.fault(written.span, &written.path, misread.message, misread.hint);
                None
            }
        }
    }

    /// A day, as text or as TOML's own date.
    pub fn date(&mut self, key: &'static str) -> Option<Written<Date>> {
        let (value, span) = self.value(key)?;
        match value {
            DeValue::Datetime(date) => self.date_of(key, &date.to_string(), span),
            DeValue::String(text) => self.date_of(key, text, span),
            other => {
                self.wrong(key, span, other, "a date, such as 2027-05-03");
                None
            }
        }
    }

    fn date_of(&self, key: &str, text: &str, span: Range<usize>) -> Option<Written<Date>> {
        match units::parse(text, Kind::Date).map(Date::try_from) {
            Ok(Ok(date)) => Some(self.written(key, span, date)),
            Err(misread) => {
                self.source.fault(span, &self.key_path(key), misread.message, misread.hint);
                None
            }
            Ok(Err(_)) => None,
        }
    }
}

fn listed<T>(words: &[(&str, T)]) -> String {
    let list: Vec<String> = words.iter().map(|(word, _)| format!("\"{word}\"")).collect();
    list.join(" or ")
}

/// Whether a word may be a slip of the pen for a key.
pub(super) fn is_near(key: &str, written: &str) -> bool {
    key != written && strsim::damerau_levenshtein(key, written) <= 1 + key.len() / 3
}

fn kind_of(value: &DeValue<'_>) -> &'static str {
    match value {
        DeValue::String(_) => "text",
        DeValue::Integer(_) => "a whole number",
        DeValue::Float(_) => "a number",
        DeValue::Boolean(_) => "true or false",
        DeValue::Datetime(_) => "a date",
        DeValue::Array(_) => "a list",
        DeValue::Table(_) => "a table",
    }
}

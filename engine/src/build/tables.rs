//! Reads tables within tables: named ones, listed ones, and what nobody asked for.

use std::ops::Range;

use toml::de::DeValue;

use super::reader::{Table, is_near};
use super::source::Written;
use crate::units::{self, Kind, Length, Quantity};

impl<'s, 'i> Table<'s, 'i> {
    /// A table of its own.
    pub fn table(&mut self, key: &'static str) -> Option<Table<'s, 'i>> {
        let (value, span) = self.value(key)?;
        self.table_of(key, value, span)
    }

    fn table_of(&self, key: &str, value: &'s DeValue<'i>, span: Range<usize>) -> Option<Table<'s, 'i>> {
        match value {
            DeValue::Table(table) => {
                Some(Table { source: self.source, table, path: self.key_path(key), span, asked: Vec::new() })
            }
            other => {
                self.wrong(key, span, other, &format!("a table, such as [{}]", self.key_path(key)));
                None
            }
        }
    }

    /// Every named table in this one; each name becomes part of a path.
    pub fn named_tables(&mut self) -> Vec<(Written<String>, Table<'s, 'i>)> {
        let table = self.table;
        let mut named = Vec::new();
        for (name, value) in table.iter() {
            let name_written = self.written(name.get_ref(), name.span(), name.get_ref().clone().into_owned());
            if is_name(&name_written.value) {
                if let Some(table) = self.table_of(name.get_ref(), value.get_ref(), value.span()) {
                    named.push((name_written, table));
                }
            } else {
                self.bad_name(&name_written);
            }
        }
        named
    }

    /// Every named table under a key; none where it is not written.
    pub fn named_tables_under(&mut self, key: &'static str) -> Vec<(Written<String>, Table<'s, 'i>)> {
        self.table(key).map(|mut named| named.named_tables()).unwrap_or_default()
    }

    /// Every table of a list (`[[wall.line]]`), each with its unique `name`, which becomes part of its path.
    pub fn listed_tables(&mut self, key: &'static str) -> Vec<(Written<String>, Table<'s, 'i>)> {
        let Some((value, span)) = self.value(key) else { return Vec::new() };
        let DeValue::Array(parts) = value else {
            self.wrong(key, span, value, &format!("a list of tables, such as [[{}]]", self.key_path(key)));
            return Vec::new();
        };
        let mut listed: Vec<(Written<String>, Table<'s, 'i>)> = Vec::new();
        for part in parts.iter() {
            let Some(mut table) = self.table_of(key, part.get_ref(), part.span()) else { continue };
            let Some(name) = table.needed_text("name", "south-east") else { continue };
            if !is_name(&name.value) {
                self.bad_name(&name);
            } else if let Some((first, _)) = listed.iter().find(|(other, _)| other.value == name.value) {
                self.source.fault(
                    name.span,
                    &format!("{}.{}", self.key_path(key), name.value),
                    format!("the name \"{}\" is taken by line {}", name.value, first.line),
                    "give each its own name",
                );
            } else {
                table.path = format!("{}.{}", self.key_path(key), name.value);
                listed.push((name, table));
            }
        }
        listed
    }

    /// Every table of a list without names (`at = [ { .. }, .. ]`); its place, from 1, becomes part of its path.
    pub fn numbered_tables(&mut self, key: &'static str) -> Vec<Table<'s, 'i>> {
        let Some((value, span)) = self.value(key) else { return Vec::new() };
        let DeValue::Array(parts) = value else {
            self.wrong(key, span, value, "a list of tables in braces");
            return Vec::new();
        };
        let numbered = parts.iter().enumerate();
        numbered
            .filter_map(|(place, part)| self.table_of(&format!("{key}.{}", place + 1), part.get_ref(), part.span()))
            .collect()
    }

    /// A list of points in plan; their places, from 1, become part of their paths.
    pub fn points<T: TryFrom<Quantity>>(&mut self, key: &'static str) -> Option<Written<Vec<[Written<T>; 2]>>> {
        let (value, span) = self.value(key)?;
        let DeValue::Array(parts) = value else {
            self.wrong(key, span, value, "a list of points in brackets");
            return None;
        };
        let points = parts
            .iter()
            .enumerate()
            .map(|(place, part)| self.point_of(&format!("{key}.{}", place + 1), part.get_ref(), part.span()));
        let points: Option<Vec<_>> = points.collect();
        Some(self.written(key, span, points?))
    }

    /// A list of points in plan that must be there.
    pub fn needed_points<T: TryFrom<Quantity>>(&mut self, key: &'static str) -> Option<Written<Vec<[Written<T>; 2]>>> {
        if !self.has(key) {
            self.asked.push(key);
            self.missing(key, "[[\"0 m\", \"0 m\"], [\"4.2 m\", \"0 m\"]]");
            return None;
        }
        self.points(key)
    }

    /// Quantities of one kind, each under a name of the builder's (`buckets = { soil = 3, sand = 5 }`).
    pub fn by_name<T: TryFrom<Quantity>>(
        &mut self,
        key: &'static str,
        kind: Kind,
    ) -> Vec<(Written<String>, Written<T>)> {
        let Some(table) = self.table(key) else { return Vec::new() };
        let entries = table.table.iter();
        entries
            .filter_map(|(name, value)| {
                let written = table.written(name.get_ref(), name.span(), name.get_ref().clone().into_owned());
                Some((written, table.quantity_of(name.get_ref(), value.get_ref(), value.span(), kind)?))
            })
            .collect()
    }

    /// Quantities of any of several kinds, each under a name of the builder's.
    pub fn by_name_of_any(&mut self, key: &'static str, kinds: &[Kind]) -> Vec<(Written<String>, Written<Quantity>)> {
        let Some(table) = self.table(key) else { return Vec::new() };
        let entries = table.table.iter();
        entries
            .filter_map(|(name, value)| {
                let written = table.written(name.get_ref(), name.span(), name.get_ref().clone().into_owned());
                Some((written, table.of_any(name.get_ref(), value.get_ref(), value.span(), kinds)?))
            })
            .collect()
    }

    /// A quantity of any of several kinds that must be there.
    pub fn needed_of_any(&mut self, key: &'static str, kinds: &[Kind], example: &str) -> Option<Written<Quantity>> {
        let Some((value, span)) = self.value(key) else {
            self.missing(key, &format!("\"{example}\""));
            return None;
        };
        self.of_any(key, value, span, kinds)
    }

    /// The quantity of the first kind as which a value reads; of the first of them where it reads as none.
    fn of_any(&self, key: &str, value: &DeValue<'_>, span: Range<usize>, kinds: &[Kind]) -> Option<Written<Quantity>> {
        let fits = |kind: &&Kind| matches!(value, DeValue::String(text) if units::parse(text, **kind).is_ok());
        if let DeValue::String(text) = value
            && !kinds.iter().any(|kind| fits(&kind))
        {
            let message = format!("\"{text}\" is no quantity");
            let hint = "write a number, or a number with its unit, such as \"1.2 %\", \"650 kPa\" or \"7 mm\"";
            self.source.fault(span, &self.key_path(key), message, hint);
            return None;
        }
        let kind = kinds.iter().find(fits).copied().unwrap_or(Kind::Number);
        self.quantity_of(key, value, span, kind)
    }

    /// Lengths in a list without names; the place of each, from 1, becomes part of its path.
    pub fn lengths(&mut self, key: &'static str) -> Vec<Written<Length>> {
        let Some((value, span)) = self.value(key) else { return Vec::new() };
        let DeValue::Array(parts) = value else {
            self.wrong(key, span, value, "a list of lengths, such as [\"300 mm\", \"1.1 m\"]");
            return Vec::new();
        };
        let numbered = parts.iter().enumerate();
        let read = numbered.filter_map(|(place, part)| {
            self.quantity_of(&format!("{key}.{}", place + 1), part.get_ref(), part.span(), Kind::Length)
        });
        read.collect()
    }

    fn bad_name(&self, name: &Written<String>) {
        self.source.fault(
            name.span.clone(),
            &name.path,
            format!("\"{}\" is no name", name.value),
            "use small letters, figures and hyphens, such as south-window",
        );
    }

    /// The first line of a build file, which says how to read the rest.
    pub fn format(&mut self) {
        match self.value("format") {
            Some((DeValue::Integer(number), _)) if number.as_str() == "1" => {}
            Some((_, span)) => self.source.fault(
                span,
                "format",
                "this program reads format 1",
                "write format = 1, or use the program that wrote the file",
            ),
            None => self.missing("format", "1, in the first line"),
        }
    }

    /// Notes that a table is missing, with what belongs in it.
    pub fn missing_table(&self, key: &str, inside: &str) {
        if self.table.get(key).is_none() && !self.source.is_broken() {
            self.source.fault(
                0..0,
                key,
                format!("the table [{key}] is missing"),
                format!("write [{key}] with {inside}"),
            );
        }
    }

    /// The place of a key that may be written but is not read.
    pub fn unread(&mut self, key: &'static str) -> Option<Written<String>> {
        let (_, span) = self.value(key)?;
        Some(self.written(key, span, key.to_owned()))
    }

    /// Every key that was not asked for, where that may be: something else will read it one day.
    pub fn rest(self) -> Vec<Written<String>> {
        let left = self.table.iter().filter(|(key, _)| !self.asked.contains(&key.get_ref().as_ref()));
        left.map(|(key, _)| self.written(key.get_ref(), key.span(), self.key_path(key.get_ref()))).collect()
    }

    /// Refuses every key that was not asked for, with the nearest one that was.
    pub fn finish(self) {
        if self.source.is_broken() {
            return;
        }
        for (key, _) in self.table.iter() {
            let name = key.get_ref().as_ref();
            if self.asked.contains(&name) {
                continue;
            }
            let nearest = self
                .asked
                .iter()
                .map(|known| (strsim::damerau_levenshtein(known, name), *known))
                .filter(|(_, known)| is_near(known, name))
                .min();
            let hint = match nearest {
                Some((_, known)) => format!("did you mean `{known}`?"),
                None => format!("known are {}", self.asked.join(", ")),
            };
            self.source.fault(key.span(), &self.key_path(name), format!("`{name}` is not known here"), hint);
        }
    }
}

fn is_name(text: &str) -> bool {
    text.starts_with(|first: char| first.is_ascii_lowercase())
        && text.bytes().all(|byte| byte.is_ascii_lowercase() || byte.is_ascii_digit() || byte == b'-')
}

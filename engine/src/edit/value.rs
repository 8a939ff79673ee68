//! Values as text: how one reads them, and how a new one is written in the style of the old.

use std::fmt::Write;

use toml_edit::Value;

use super::Splice;

/// A text as TOML in quotes.
#[must_use]
pub fn quoted(text: &str) -> String {
    let mut all = String::from("\"");
    for sign in text.chars() {
        match sign {
            '"' => all.push_str("\\\""),
            '\\' => all.push_str("\\\\"),
            '\n' => all.push_str("\\n"),
            '\t' => all.push_str("\\t"),
            sign if sign.is_control() => {
                // Writing to a text cannot fail.
                let _ = write!(all, "\\u{:04X}", u32::from(sign));
            }
            sign => all.push(sign),
        }
    }
    all.push('"');
    all
}

/// The value as one reads it; none for a table in braces.
pub(super) fn shown(text: &str, value: &Value) -> Option<String> {
    match value {
        Value::String(string) => Some(string.value().clone()),
        Value::Array(parts) => {
            let between = if parts.iter().any(Value::is_array) { "; " } else { ", " };
            let parts: Option<Vec<String>> = parts.iter().map(|part| shown(text, part)).collect();
            Some(parts?.join(between))
        }
        Value::InlineTable(_) => None,
        other => text.get(other.span()?).map(str::to_owned),
    }
}

/// What was typed as TOML: as it stands when it is a value, else in quotes.
pub(super) fn fresh(typed: &str) -> String {
    let typed = typed.trim();
    if parsed(typed).is_some() { typed.to_owned() } else { quoted(typed) }
}

/// A value typed as TOML.
fn parsed(typed: &str) -> Option<Value> {
    // A comment after a value would come to stand in the middle of a line.
    typed
        .parse::<Value>()
        .ok()
        .filter(|value| value.decor().suffix().and_then(|raw| raw.as_str()).unwrap_or("").trim().is_empty())
}

/// What is to be written where an old value stands; none when that is a table in braces and what was typed is none.
pub(super) fn splices(text: &str, old: &Value, typed: &str) -> Option<Vec<Splice>> {
    let typed = typed.trim();
    let span = old.span()?;
    let whole = |text: String| Some(vec![(span.clone(), text)]);
    match (old, parsed(typed)) {
        (Value::Array(parts), Some(Value::Array(new))) if parts.len() == new.len() => {
            let each = parts.iter().zip(new.iter()).map(|(part, new)| splices(text, part, &new.to_string()));
            let each: Option<Vec<Vec<Splice>>> = each.collect();
            each.map(|each| each.into_iter().flatten().collect()).or_else(|| whole(typed.to_owned()))
        }
        (Value::Array(_) | Value::String(_), Some(Value::Array(_) | Value::InlineTable(_)))
        | (Value::InlineTable(_), Some(Value::InlineTable(_))) => whole(typed.to_owned()),
        (Value::InlineTable(_), _) => None,
        (Value::Array(parts), _) => {
            let between = if parts.iter().any(Value::is_array) { ';' } else { ',' };
            let new: Vec<&str> = typed.split(between).map(str::trim).collect();
            if new.len() == parts.len() {
                let each: Option<Vec<Vec<Splice>>> =
                    parts.iter().zip(&new).map(|(part, new)| splices(text, part, new)).collect();
                return each.map(|each| each.into_iter().flatten().collect());
            }
            let new: Vec<String> = new.into_iter().filter(|part| !part.is_empty()).map(fresh_text).collect();
            whole(format!("[{}]", new.join(", ")))
        }
        (Value::String(string), new) => {
            let content = new.as_ref().and_then(Value::as_str).unwrap_or(typed);
            if content == string.value() {
                return Some(Vec::new());
            }
            let is_literal = text.get(span.clone()).is_some_and(|raw| raw.starts_with('\''));
            let fits = !content.contains(|sign: char| sign == '\'' || sign.is_control());
            whole(if is_literal && fits { format!("'{content}'") } else { quoted(content) })
        }
        _ => whole(fresh(typed)),
    }
}

/// A part of a list of texts: bare words and numbers in quotes.
fn fresh_text(typed: &str) -> String {
    match parsed(typed) {
        Some(Value::String(_)) => typed.to_owned(),
        _ => quoted(typed),
    }
}

//! Rows as the book prints them: a cell, figures below each other, a table.

use engine::answers::Answers;
use serde_json::{Value, json};

use crate::bricks::Columns;
use crate::spoken::{capital, marked, spoken};

/// A table that has its words already.
pub(super) fn columns(columns: &Columns) -> Value {
    json!({"header": columns.header, "rows": columns.rows})
}

/// What a row says, with a star when it was assumed; none where there is none.
pub(super) fn said(answers: &Answers, path: &str) -> Option<String> {
    answers.rows.find(path).map(|row| marked(answers, row))
}

/// What a row says, with a star when it was assumed; a dash where there is none.
pub(super) fn cell(answers: &Answers, path: &str) -> String {
    said(answers, path).unwrap_or_else(|| "–".to_owned())
}

/// Words and values of the rows of a stem, as far as there are such rows; each noun comes with its words.
pub(super) fn figures(answers: &Answers, stem: &str, nouns: &[(&str, &str)]) -> Vec<[String; 2]> {
    let found = nouns.iter().filter_map(|(noun, words)| {
        let value = said(answers, &format!("{stem}{noun}"))?;
        Some([capital(words), value])
    });
    found.collect()
}

/// One line a key below a stem that has any of the nouns, one column a noun that any of them has.
pub(super) fn table(answers: &Answers, stem: &str, nouns: &[(&str, &str)]) -> Value {
    let mut keys: Vec<&str> = Vec::new();
    for row in answers.rows.iter() {
        if let Some(key) = row.path.strip_prefix(stem).and_then(|rest| rest.split('.').next())
            && !keys.contains(&key)
            && nouns.iter().any(|(noun, _)| answers.rows.find(&format!("{stem}{key}.{noun}")).is_some())
        {
            keys.push(key);
        }
    }
    lines(answers, "", keys.into_iter().map(|key| (spoken(key), format!("{stem}{key}."))), nouns)
}

/// One line a name with the stem of its rows, one column a noun that any of them has; `first` stands over the names.
pub(super) fn lines(
    answers: &Answers,
    first: &str,
    names: impl IntoIterator<Item = (String, String)>,
    nouns: &[(&str, &str)],
) -> Value {
    let names: Vec<(String, String)> = names.into_iter().collect();
    let is_used = |noun: &str| names.iter().any(|(_, stem)| answers.rows.find(&format!("{stem}{noun}")).is_some());
    let used: Vec<&(&str, &str)> = nouns.iter().filter(|(noun, _)| is_used(noun)).collect();
    let rows = names.iter().map(|(name, stem)| {
        let cells = used.iter().map(|(noun, _)| cell(answers, &format!("{stem}{noun}")));
        // A name stands on one line.
        std::iter::once(name.replace(' ', "\u{a0}")).chain(cells).collect::<Vec<_>>()
    });
    let header: Vec<&str> = std::iter::once(first).chain(used.iter().map(|(_, title)| *title)).collect();
    json!({"header": header, "rows": rows.collect::<Vec<_>>()})
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used, reason = "a test stops at the first surprise")]
    use super::*;
    use engine::answers::{Inputs, answers};

    const BUILD: &str = include_str!("../../../builds/tansy-bank/tansy-bank.loam.toml");

    #[test]
    fn a_value_that_was_assumed_has_a_star_and_one_that_was_written_has_none() {
        let answers = answers(&Inputs { build: BUILD.as_bytes(), system: None }).unwrap();
        assert_eq!(cell(&answers, "wall.platform.width"), "457 mm *");
        assert_eq!(cell(&answers, "wall.thickness"), "450 mm");
        assert_eq!(cell(&answers, "wall.no-such-row"), "–");
    }

    #[test]
    fn no_chapter_prints_a_value_past_its_star() {
        let folder = std::path::Path::new(env!("CARGO_MANIFEST_DIR")).join("src/book");
        for entry in std::fs::read_dir(folder).unwrap() {
            let path = entry.unwrap().path();
            let name = path.file_name().unwrap().to_string_lossy().into_owned();
            // The list of what was assumed says so of every line.
            if path.extension().is_some_and(|end| end == "rs") && !["checks.rs", "rows.rs"].contains(&name.as_str()) {
                let text = std::fs::read_to_string(&path).unwrap();
                assert!(!text.contains(".shown(answers.system)"), "{name}");
            }
        }
    }
}

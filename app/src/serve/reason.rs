//! The reason of a row, with the rows it came from and those that lean on it.

use super::standing::{Standing, row};
use super::wire::{Reason, Row};

/// Why the row of a path is what it is; none when there is no such row.
pub fn reason(standing: &Standing, path: &str) -> Option<Reason> {
    let answers = &standing.answers;
    let system = answers.system;
    let found = answers.rows.find(path)?;
    let words = found.reason.words();
    let inputs = found.reason.inputs.iter().map(|input| match answers.rows.find(&input.path) {
        // The formula's own name for it stands before the title.
        Some(known) => Row { title: named(&input.name(), &known.title), ..row(known, system) },
        None => Row {
            path: String::new(),
            title: input.name(),
            shown: engine::row::shown(input.quantity, system),
            origin: String::new(),
            assumed: false,
        },
    });
    let leans = |other: &&engine::row::Row| other.reason.inputs.iter().any(|input| input.path == path);
    let explained = [words.title, words.explanation].join(" ");
    Some(Reason {
        path: found.path.clone(),
        title: found.title.clone(),
        shown: found.shown(system),
        origin: found.origin_in_words(),
        words: explained.trim().to_owned(),
        equation: words.equation,
        source: words.source,
        inputs: inputs.collect(),
        leads_to: answers.rows.iter().filter(leans).map(|other| row(other, system)).collect(),
    })
}

fn named(name: &str, title: &str) -> String {
    if name.is_empty() || name == title { title.to_owned() } else { format!("{name}: {title}") }
}

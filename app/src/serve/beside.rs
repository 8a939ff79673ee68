//! Two builds beside each other, with only what differs; and what if one value were another.

use std::collections::BTreeMap;
use std::sync::Arc;

use engine::edit::Edit;
use serde::Deserialize;

use super::change::written;
use super::disk::Disk;
use super::pictures;
use super::session::Session;
use super::standing::{Standing, refused};
use super::wire::{Beside, Differs, Problem, Row};

/// What is to stand beside the build: another file or a kept copy, or this build with one value changed.
#[derive(Debug, Default, Deserialize)]
pub struct Other {
    /// A build file of the folder, or a kept copy.
    file: Option<String>,
    /// A key.
    path: Option<String>,
    /// The value that it would have.
    to: Option<String>,
}

impl Session {
    /// What differs between this build and another.
    ///
    /// # Errors
    /// There is none, or it does not read.
    pub fn beside(&self, other: &Other) -> Result<Beside, Vec<Problem>> {
        let here = self.standing().ok_or_else(|| vec![refused("", "no build is open", "begin one, or open one")])?;
        let (words, text) = match (&other.file, &other.path, &other.to) {
            (Some(file), ..) => (file.clone(), self.named(file)?),
            (None, Some(path), Some(to)) => {
                let set = Edit::Set { path: path.clone(), to: to.clone() };
                (format!("{path} = {to}"), written(&self.text, &[set])?)
            }
            _ => return Err(vec![refused("", "nothing to compare with", "name a file, or a key and its value")]),
        };
        // Units of the eye are those of this build: a number must not differ for its unit alone.
        let there = Standing::of(&text, Some(here.answers.system))?;
        let both = [&*here, &there];
        let drawn = both.map(|standing| pictures::one(standing, "plan", [0.0; 2], None));
        let pictures = drawn.map(|drawn| drawn.map_or_else(String::new, |drawn| drawn.picture.svg));
        Ok(Beside { other: words, rows: differing(&here.rows, &there.rows), pictures })
    }

    /// The text of a build file of the folder, or of a kept copy.
    fn named(&self, file: &str) -> Result<String, Vec<Problem>> {
        if let Some(text) = self.disk.as_ref().and_then(|disk| disk.copy(file)) {
            return Ok(text);
        }
        if !self.builds().iter().any(|build| build.file == file) {
            let message = format!("there is no build file and no kept copy called {file}");
            return Err(vec![refused("", message, "name one that is listed")]);
        }
        let opened = Disk::open(&self.in_folder(file));
        opened.map(|(_, text)| text).map_err(|why| vec![refused("", why, "see that it can be read")])
    }
}

fn differing(here: &[Arc<Row>], there: &[Arc<Row>]) -> Vec<Differs> {
    let others: BTreeMap<&str, &Row> = there.iter().map(|row| (row.path.as_str(), row.as_ref())).collect();
    let own: BTreeMap<&str, &Row> = here.iter().map(|row| (row.path.as_str(), row.as_ref())).collect();
    let none = || "–".to_owned();
    let differs = |row: &Row, here: String, there: String| Differs {
        path: row.path.clone(),
        title: row.title.clone(),
        here,
        there,
    };
    let changed = here.iter().filter_map(|row| {
        let there = others.get(row.path.as_str()).map_or_else(none, |other| other.shown.clone());
        (there != row.shown).then(|| differs(row, row.shown.clone(), there))
    });
    let new = there.iter().filter(|row| !own.contains_key(row.path.as_str()));
    let new = new.map(|row| differs(row, none(), row.shown.clone()));
    changed.chain(new).collect()
}

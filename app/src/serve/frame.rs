//! What the page is to show: only what differs from what it has.

use std::collections::{BTreeMap, BTreeSet};
use std::sync::Arc;
use std::time::Instant;

use engine::units::System;

use super::change::Sketch;
use super::disk::{Disk, State};
use super::fields::fields;
use super::had::Had;
use super::pictures::{self, Frames};
use super::session::Session;
use super::standing::Standing;
use super::wire::{Change, Frame, Look, Picture, Problem, Row};
use super::{leaves, tables};

impl Session {
    /// Makes the change asked for and says what is to be shown.
    pub fn look(&mut self, look: &Look) -> Frame {
        let begun = Instant::now();
        self.outside(look.change.is_some());
        let (problems, sketch) = self.change(look);
        let mut frame = match sketch {
            Some(Sketch(standing)) => Frame { problems, ..self.sketched(look, &standing) },
            None => self.frame(look, problems),
        };
        frame.took_ms = begun.elapsed().as_secs_f64() * 1000.0;
        frame
    }

    /// A first shape that is no build yet: always whole.
    fn sketched(&self, look: &Look, standing: &Standing) -> Frame {
        let names = pictures::names("begin", &standing.answers);
        let drawn = names.iter().filter_map(|name| pictures::one(standing, name, look.room_mm, None));
        let pictures = drawn.map(|drawn| drawn.picture).collect();
        let mut frame = Frame { revision: 0, pictures, ..self.bare(standing.answers.system) };
        frame.name.clone_from(&standing.answers.about.name);
        (frame.rows, frame.whole) = (all(&standing.rows), true);
        frame.checks = Some(standing.checks.to_vec());
        frame.figures = leaves::figures("", &standing.answers);
        frame
    }

    /// Everything about the sitting but the house.
    fn bare(&self, system: System) -> Frame {
        let state = self.disk.as_ref().map(|disk| &disk.state);
        let [can_undo, can_redo] = self.can_step();
        Frame {
            revision: self.revision,
            file: self.disk.as_ref().map_or_else(String::new, Disk::name),
            name: String::new(),
            system: if system == System::Us { "us" } else { "metric" }.to_owned(),
            disk: word(state).to_owned(),
            disk_words: self.disk.as_ref().map_or_else(String::new, Disk::words),
            can_undo,
            can_redo,
            rows: Vec::new(),
            gone: Vec::new(),
            whole: true,
            checks: None,
            problems: Vec::new(),
            text: None,
            pictures: Vec::new(),
            fields: Vec::new(),
            figures: Vec::new(),
            tables: Vec::new(),
            orders: Vec::new(),
            unread: Vec::new(),
            studies: Vec::new(),
            uncounted: Vec::new(),
            book: None,
            took_ms: 0.0,
        }
    }

    fn frame(&mut self, look: &Look, mut problems: Vec<Problem>) -> Frame {
        let is_broken = !self.faults.is_empty();
        problems.extend(self.faults.iter().cloned());
        let text = is_broken.then(|| self.text.clone());
        let Some(standing) = self.standing() else {
            return Frame { problems, text, ..self.bare(self.system.unwrap_or(System::Metric)) };
        };
        let answers = &standing.answers;
        let page = look.page.as_deref().unwrap_or("");
        let had = look.since.and_then(|since| self.pages.had(page, since)).filter(|had| had.system == answers.system);
        let had = had.cloned();
        let (pictures, seen) = self.pictures(look, &standing, had.as_ref());
        let (rows, gone, whole) = match &had {
            Some(had) => differing(&had.rows, &standing.rows),
            None => (all(&standing.rows), Vec::new(), true),
        };
        let checks = had.as_ref().is_none_or(|had| had.checks != standing.checks).then(|| standing.checks.to_vec());
        self.pages.note(page, self.had(look, &standing, seen));
        Frame {
            name: answers.about.name.clone(),
            rows,
            gone,
            whole,
            checks,
            problems,
            text,
            pictures,
            // The page goes on showing its fields while a finger is down.
            fields: if look.moving {
                Vec::new()
            } else {
                fields(&look.leaf, &self.text, Some(&standing), answers.system)
            },
            figures: leaves::figures(&look.leaf, answers),
            unread: answers.unread.iter().map(unread).collect(),
            uncounted: if look.leaf == "stuff" { press::orders::uncounted(answers) } else { Vec::new() },
            tables: if look.moving { Vec::new() } else { tables::tables(&look.leaf, answers) },
            orders: if look.moving { Vec::new() } else { tables::orders(&look.leaf, answers) },
            ..self.bare(answers.system)
        }
    }

    /// The pictures of the open leaf, and what the page then has of them. While the finger is down only the one under it and
    /// the first are drawn.
    fn pictures(&self, look: &Look, standing: &Standing, had: Option<&Had>) -> (Vec<Picture>, Seen) {
        let leaf = (look.leaf.clone(), look.room_mm);
        let had = had.filter(|had| had.leaf == leaf);
        let mut seen = had.map_or_else(Seen::default, |had| (had.digests.clone(), had.frames.clone()));
        let names = pictures::names(&look.leaf, &standing.answers);
        let touched = match &look.change {
            Some(Change::Drag { drawing, .. } | Change::Nudge { drawing, .. }) => drawing.as_str(),
            _ => "",
        };
        let is_wanted = |(place, name): &(usize, &String)| {
            let slow = look.leaf == "roof";
            !look.moving || (*place == 0 && !slow) || *name == touched
        };
        let mut pictures = Vec::new();
        for (_, name) in names.iter().enumerate().filter(is_wanted) {
            let held = self.held.as_ref().filter(|_| look.moving);
            let held = held.and_then(|held| held.frames.get(name)).or_else(|| seen.1.get(name).filter(|_| look.moving));
            let Some(drawn) = pictures::one(standing, name, look.room_mm, held) else { continue };
            let mut picture = drawn.picture;
            // Two tabs without names of their own cannot be told apart: they are sent everything.
            if look.page.is_some() && seen.0.get(name) == Some(&drawn.digest) {
                picture.svg.clear();
            }
            seen.0.insert(name.clone(), drawn.digest);
            seen.1.extend(drawn.frame.map(|frame| (name.clone(), frame)));
            pictures.push(picture);
        }
        (pictures, seen)
    }

    fn had(&self, look: &Look, standing: &Standing, (digests, frames): Seen) -> Had {
        Had {
            revision: self.revision,
            system: standing.answers.system,
            leaf: (look.leaf.clone(), look.room_mm),
            rows: Arc::clone(&standing.rows),
            checks: Arc::clone(&standing.checks),
            digests,
            frames,
        }
    }
}

/// Digests and frames of the pictures that a page has.
type Seen = (BTreeMap<String, u64>, Frames);

fn unread((table, line): &(String, usize)) -> String {
    format!("[{table}] in line {line} is not computed yet")
}

fn word(state: Option<&State>) -> &'static str {
    match state {
        Some(State::Saved) => "saved",
        Some(State::Unsaved) | None => "unsaved",
        Some(State::Clash) => "clash",
        Some(State::Gone) => "gone",
        Some(State::NotWritten(_)) => "not-written",
    }
}

fn all(rows: &[Arc<Row>]) -> Vec<Row> {
    rows.iter().map(|row| row.as_ref().clone()).collect()
}

/// Rows that are new or changed, the paths of those that are no more, and that this is not everything.
fn differing(had: &Arc<Vec<Arc<Row>>>, has: &Arc<Vec<Arc<Row>>>) -> (Vec<Row>, Vec<String>, bool) {
    if Arc::ptr_eq(had, has) {
        return (Vec::new(), Vec::new(), false);
    }
    let is_same = |(one, other): &(&Arc<Row>, &Arc<Row>)| Arc::ptr_eq(one, other) || one == other;
    let both = || had.iter().zip(has.iter());
    // Most changes leave the same rows in the same order.
    if had.len() == has.len() && both().all(|(one, other)| Arc::ptr_eq(one, other) || one.path == other.path) {
        let changed = both().filter(|pair| !is_same(pair)).map(|(_, row)| row.as_ref().clone());
        return (changed.collect(), Vec::new(), false);
    }
    let before: BTreeMap<&str, &Arc<Row>> = had.iter().map(|row| (row.path.as_str(), row)).collect();
    let is_new = |row: &&Arc<Row>| !before.get(row.path.as_str()).is_some_and(|was| is_same(&(was, row)));
    let rows = has.iter().filter(is_new).map(|row| row.as_ref().clone()).collect();
    let after: BTreeSet<&str> = has.iter().map(|row| row.path.as_str()).collect();
    let gone = had.iter().filter(|row| !after.contains(row.path.as_str())).map(|row| row.path.clone()).collect();
    (rows, gone, false)
}

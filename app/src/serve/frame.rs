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
use super::wire::{Change, Check, Frame, Look, Picture, Problem, Row};
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
            values: Vec::new(),
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
        let whole = had.is_none();
        let Differing { rows, values, gone } = match &had {
            Some(had) => differing(&had.rows, &standing.rows),
            None => Differing { rows: all(&standing.rows), ..Differing::default() },
        };
        let checks = of_leaf(&look.leaf, &standing.checks);
        let checks = match &had {
            Some(had) if had.leaf.0 == look.leaf && of_leaf(&look.leaf, &had.checks).eq(checks.clone()) => None,
            _ => Some(checks.cloned().collect()),
        };
        self.pages.note(page, self.had(look, &standing, seen));
        Frame {
            name: answers.about.name.clone(),
            rows,
            values,
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

/// The checks of a leaf.
fn of_leaf<'all>(leaf: &'all str, checks: &'all [Check]) -> impl Iterator<Item = &'all Check> + Clone {
    checks.iter().filter(move |check| check.leaf == leaf)
}

/// How the rows of a page differ from those that it is to have.
#[derive(Default)]
struct Differing {
    /// New, or with other words.
    rows: Vec<Row>,
    /// Path and value where the value alone is another.
    values: Vec<(String, String)>,
    /// Paths of those that are no more.
    gone: Vec<String>,
}

impl Differing {
    fn note(&mut self, was: Option<&Row>, is: &Row) {
        match was {
            Some(was) if was == is => {}
            Some(was) if (&was.title, &was.origin, was.assumed) == (&is.title, &is.origin, is.assumed) => {
                self.values.push((is.path.clone(), is.shown.clone()));
            }
            _ => self.rows.push(is.clone()),
        }
    }
}

fn differing(had: &Arc<Vec<Arc<Row>>>, has: &Arc<Vec<Arc<Row>>>) -> Differing {
    let mut differing = Differing::default();
    if Arc::ptr_eq(had, has) {
        return differing;
    }
    let both = || had.iter().zip(has.iter());
    // Most changes leave the same rows in the same order.
    if had.len() == has.len() && both().all(|(one, other)| Arc::ptr_eq(one, other) || one.path == other.path) {
        for (was, is) in both().filter(|(was, is)| !Arc::ptr_eq(was, is)) {
            differing.note(Some(was), is);
        }
        return differing;
    }
    let before: BTreeMap<&str, &Arc<Row>> = had.iter().map(|row| (row.path.as_str(), row)).collect();
    for is in has.iter() {
        differing.note(before.get(is.path.as_str()).map(|was| was.as_ref()), is);
    }
    let after: BTreeSet<&str> = has.iter().map(|row| row.path.as_str()).collect();
    let gone = had.iter().filter(|row| !after.contains(row.path.as_str())).map(|row| row.path.clone());
    differing.gone = gone.collect();
    differing
}

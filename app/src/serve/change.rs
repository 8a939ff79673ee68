//! From what the page asks to a changed text.

use std::sync::Arc;

use engine::edit::{self, Edit};
use engine::units::System;
use kurbo::Point;

use super::add;
use super::bare;
use super::disk::Disk;
use super::pictures;
use super::session::Session;
use super::standing::{self, Standing, problem, refused};
use super::wire::{Change, Look, Problem};

/// A first shape that is not yet a build.
pub struct Sketch(pub Arc<Standing>);

impl Session {
    /// Makes a change; what is wrong with it, and a sketch where one was asked for.
    pub(super) fn change(&mut self, look: &Look) -> (Vec<Problem>, Option<Sketch>) {
        let page = look.page.as_deref().unwrap_or("");
        let is_elsewhere = self.is_held_elsewhere(page);
        let Some(change) = &look.change else {
            // Another page that only looks does not cut a drag in pieces.
            if !look.moving && !is_elsewhere {
                self.lift();
            }
            return (Vec::new(), self.sketch());
        };
        if is_elsewhere {
            self.lift();
        }
        let problems = match change {
            Change::Undo => {
                self.undo();
                Vec::new()
            }
            Change::Redo => {
                self.redo();
                Vec::new()
            }
            Change::Units { system } => self.units(system),
            Change::Settle { keep } => self.settle(keep),
            Change::Whole { text } => self.whole(text, page),
            Change::Begin { shape, length, width, name, system } => {
                let begun = engine::build::begin(shape, length, width, name, system);
                let problems = match begun.map_err(|faults| faults.iter().map(problem).collect()) {
                    Ok(text) => self.begun(name, text, look.moving),
                    Err(problems) => problems,
                };
                // What is refused leaves the last shape on show.
                return (problems, self.sketch.clone().map(Sketch));
            }
            _ => match self.changed(change, look) {
                Ok(text) => self.take(text, page, look.moving),
                Err(problems) => {
                    if !look.moving {
                        self.lift();
                    }
                    problems
                }
            },
        };
        (problems, None)
    }

    fn units(&mut self, system: &str) -> Vec<Problem> {
        let system = match system {
            "" => None,
            "metric" => Some(System::Metric),
            "us" => Some(System::Us),
            _ => return vec![refused("", format!("there are no units called {system}"), "say metric or us")],
        };
        if system != self.system {
            self.system = system;
            // A text that does not read leaves the last house in the units that it was shown in.
            self.stand_on(self.text.clone());
        }
        Vec::new()
    }

    /// A text mended by hand: while the present one does not read, any text may take its place.
    fn whole(&mut self, text: &str, page: &str) -> Vec<Problem> {
        if self.disk.is_none() {
            return vec![refused("", "no build is open", "begin one, or open one")];
        }
        if self.faults.is_empty() {
            return self.take(text.to_owned(), page, false);
        }
        self.replace(text.to_owned());
        self.write();
        Vec::new()
    }

    /// The first shape that is on show while no build is open.
    fn sketch(&self) -> Option<Sketch> {
        self.sketch.clone().filter(|_| self.disk.is_none()).map(Sketch)
    }

    /// A first shape is drawn, and becomes a build when it is no longer only tried.
    fn begun(&mut self, name: &str, text: String, is_tried: bool) -> Vec<Problem> {
        match Standing::of(&text, self.system) {
            Ok(standing) => self.sketch = Some(Arc::new(standing)),
            Err(problems) => return problems,
        }
        if is_tried { Vec::new() } else { self.first(name, text) }
    }

    /// The text of a first shape becomes a build of its own.
    fn first(&mut self, name: &str, text: String) -> Vec<Problem> {
        let letters = name.trim().to_lowercase();
        let plain = letters.chars().map(|letter| if letter.is_ascii_alphanumeric() { letter } else { '-' });
        let words = plain.collect::<String>();
        let words: Vec<&str> = words.split('-').filter(|word| !word.is_empty()).collect();
        let stem = if words.is_empty() { "house".to_owned() } else { words.join("-") };
        let file = self.in_folder(&format!("{stem}.loam.toml"));
        if file.exists() {
            let message = format!("there is a build file {stem}.loam.toml already");
            return vec![refused("build.name", message, "give the house another name, or open that build")];
        }
        self.begin(Disk::new(file), text);
        self.write();
        Vec::new()
    }

    /// The text as a change leaves it, from where it stood when the finger went down.
    fn changed(&mut self, change: &Change, look: &Look) -> Result<String, Vec<Problem>> {
        if self.disk.is_none() {
            return Err(vec![refused("", "no build is open", "begin one, or open one")]);
        }
        let page = look.page.as_deref().unwrap_or("");
        let base = self.hold(page).base.clone();
        let edits = match change {
            Change::Set { path, to } => vec![self.set(path, to)],
            Change::Fill { table, keys } => {
                let typed = keys.iter().filter(|(_, to)| !to.trim().is_empty());
                typed.map(|(key, to)| self.set(&format!("{table}.{key}"), to)).collect()
            }
            Change::Remove { path } => vec![Edit::Remove { path: path.clone() }],
            Change::Rename { path, to } => vec![Edit::Rename { path: path.clone(), to: to.clone() }],
            Change::Move { path, to } => vec![Edit::Move { path: path.clone(), to: *to as usize }],
            Change::Drag { drawing, handle, to_mm } => {
                let at = self.place(drawing, *to_mm, look)?;
                let on = on(drawing)?;
                let text = self.computed(page)?.dragged_text(&base, handle, on, at);
                return text.map_err(|fault| vec![problem(&fault)]);
            }
            Change::Nudge { drawing, handle, steps } => {
                let on = on(drawing)?;
                self.computed(page)?.nudged(&base, handle, on, *steps).map_err(|fault| vec![problem(&fault)])?
            }
            Change::Add { what, drawing, at_mm } => {
                let at = self.place(drawing, *at_mm, look)?;
                return add::added(&base, self.system, what, on(drawing)?, at);
            }
            _ => Vec::new(),
        };
        written(&base, &edits)
    }

    /// A value as typed; a bare number takes the unit of what it stands for.
    fn set(&self, path: &str, to: &str) -> Edit {
        Edit::Set { path: path.to_owned(), to: bare::with_unit(&self.text, self.standing.as_deref(), path, to) }
    }

    /// A place of a drawing in metres of the house.
    fn place(&mut self, drawing: &str, at_mm: [f64; 2], look: &Look) -> Result<Point, Vec<Problem>> {
        if !at_mm.iter().all(|mm| mm.is_finite()) {
            return Err(vec![refused("", "that place is nowhere", "stay on the drawing")]);
        }
        let page = look.page.as_deref().unwrap_or("");
        let last = self.pages.last(page).map(|had| had.frames.clone());
        let standing = self.standing();
        let held = self.hold(page);
        if held.frames.is_empty() {
            held.frames = last.unwrap_or_default();
        }
        if !held.frames.contains_key(drawing) {
            let drawn = || pictures::one(standing.as_ref()?, drawing, look.room_mm, None)?.frame;
            held.frames.extend(drawn().map(|frame| (drawing.to_owned(), frame)));
        }
        let frame = held.frames.get(drawing);
        let none = || vec![refused("", format!("there is no drawing called {drawing}"), "touch one that is shown")];
        frame.map(|frame| frame.house(at_mm).1).ok_or_else(none)
    }

    /// The house as it stood when the finger went down.
    fn computed(&mut self, page: &str) -> Result<&engine::answers::Computed, Vec<Problem>> {
        let system = self.system;
        let held = self.hold(page);
        if held.computed.is_none() {
            held.computed = Some(standing::computed(&held.base, system)?);
        }
        held.computed.as_ref().ok_or_else(Vec::new)
    }
}

/// A text after edits, one after the other.
pub fn written(text: &str, edits: &[Edit]) -> Result<String, Vec<Problem>> {
    edit::edits(text, edits).map_err(|fault| vec![problem(&fault)])
}

fn on(drawing: &str) -> Result<engine::house::handles::On, Vec<Problem>> {
    pictures::on(drawing)
        .ok_or_else(|| vec![refused("", format!("nothing can be moved in {drawing}"), "touch plan, wall or section")])
}

//! A sitting with one build: its text, how it came about, the last house that stood, and the disk.

use std::path::{Path, PathBuf};
use std::sync::Arc;

use engine::answers::Computed;
use engine::units::System;

use super::disk::{Disk, Found, State};
use super::had::Pages;
use super::pictures::Frames;
use super::standing::{Standing, refused};
use super::step::Step;
use super::wire::{BuildFile, Kept, Problem};
use crate::lanes::Shelf;

/// What stood when the finger went down.
#[derive(Debug)]
pub struct Held {
    /// The page whose finger it is.
    pub page: String,
    /// The text.
    pub base: String,
    /// Its house, once a handle was dragged.
    pub computed: Option<Computed>,
    /// Where the house lay on each drawing: pictures do not jump under a finger.
    pub frames: Frames,
}

/// A sitting.
#[derive(Debug)]
pub struct Session {
    folder: PathBuf,
    /// The file; none before there is one.
    pub(super) disk: Option<Disk>,
    /// The text, as last taken.
    pub(super) text: String,
    back: Vec<Step>,
    forward: Vec<Step>,
    /// Units for the eye; the file's own when none.
    pub(super) system: Option<System>,
    /// The last house that stood.
    pub(super) standing: Option<Arc<Standing>>,
    /// The first shape that is on show while no build is open.
    pub(super) sketch: Option<Arc<Standing>>,
    /// What is wrong with the text itself.
    pub(super) faults: Vec<Problem>,
    pub(super) held: Option<Held>,
    /// Grows with every change.
    pub(super) revision: u32,
    /// What each page has.
    pub(super) pages: Pages,
}

impl Session {
    /// A sitting in a folder, with no build open.
    #[must_use]
    pub fn new(folder: &Path, system: Option<System>) -> Session {
        Session {
            folder: folder.to_owned(),
            disk: None,
            text: String::new(),
            back: Vec::new(),
            forward: Vec::new(),
            system,
            standing: None,
            sketch: None,
            faults: Vec::new(),
            held: None,
            revision: 1,
            pages: Pages::default(),
        }
    }

    /// Opens a build file; what was open is closed.
    ///
    /// # Errors
    /// It cannot be read, in words.
    pub fn open(&mut self, file: &Path) -> Result<(), String> {
        let (disk, text) = Disk::open(file)?;
        self.begin(disk, text);
        Ok(())
    }

    /// Opens a build file of the folder by its name.
    ///
    /// # Errors
    /// There is none, or it cannot be read, in words.
    pub fn open_named(&mut self, file: &str) -> Result<(), String> {
        if !self.builds().iter().any(|build| build.file == file) {
            return Err(format!("there is no build file called {file} in this folder"));
        }
        self.open(&self.in_folder(file))
    }

    /// Begins with a build, its steps not yet made.
    pub(super) fn begin(&mut self, disk: Disk, text: String) {
        self.lift();
        (self.disk, self.standing, self.sketch) = (Some(disk), None, None);
        self.back.clear();
        self.forward.clear();
        self.stand_on(text);
    }

    /// The text.
    #[must_use]
    pub fn text(&self) -> &str {
        &self.text
    }

    /// Grows with every change.
    #[must_use]
    pub fn revision(&self) -> u32 {
        self.revision
    }

    /// The last house that stood.
    #[must_use]
    pub fn standing(&self) -> Option<Arc<Standing>> {
        self.standing.clone()
    }

    /// What a reason is asked of: the last house that stood, else the first shape that is on show.
    #[must_use]
    pub fn explained(&self) -> Option<Arc<Standing>> {
        self.standing.clone().or_else(|| self.sketch.clone())
    }

    /// Units for the eye; the file's own when none.
    #[must_use]
    pub fn system(&self) -> Option<System> {
        self.system
    }

    /// Where what long computations found is kept; none before there is a file.
    #[must_use]
    pub fn shelf(&self) -> Option<Shelf> {
        self.disk.as_ref().map(Disk::shelf)
    }

    /// The name of the file without its ending.
    #[must_use]
    pub fn file_stem(&self) -> String {
        let name = self.disk.as_ref().map_or_else(String::new, Disk::name);
        name.trim_end_matches(".toml").trim_end_matches(".loam").to_owned()
    }

    /// Whether there is a step back, and one forward.
    #[must_use]
    pub fn can_step(&self) -> [bool; 2] {
        [!self.back.is_empty() || self.held.is_some(), !self.forward.is_empty()]
    }

    /// Takes a text that may not read; then the last house stays.
    pub(super) fn stand_on(&mut self, text: String) {
        match Standing::after(self.standing.as_deref(), &text, self.system) {
            Ok(standing) => (self.standing, self.faults) = (Some(Arc::new(standing)), Vec::new()),
            Err(faults) => self.faults = faults,
        }
        self.text = text;
        self.revision += 1;
    }

    /// Takes a changed text when it reads; the problems when it does not.
    pub(super) fn take(&mut self, text: String, page: &str, moving: bool) -> Vec<Problem> {
        if text == self.text && self.faults.is_empty() {
            if moving {
                self.hold(page);
            } else {
                self.lift();
            }
            return Vec::new();
        }
        let standing = match Standing::after(self.standing.as_deref(), &text, self.system) {
            Ok(standing) => standing,
            Err(problems) => {
                if !moving {
                    self.lift();
                }
                return problems;
            }
        };
        self.hold(page);
        self.text = text;
        self.standing = Some(Arc::new(standing));
        self.faults.clear();
        self.revision += 1;
        if moving {
            self.unsaved()
        } else {
            self.lift()
        }
        Vec::new()
    }

    /// Remembers the text before a change of a page.
    pub(super) fn hold(&mut self, page: &str) -> &mut Held {
        let base = &self.text;
        self.held.get_or_insert_with(|| Held {
            page: page.to_owned(),
            base: base.clone(),
            computed: None,
            frames: Frames::new(),
        })
    }

    /// Whether a finger is down.
    #[must_use]
    pub fn is_held(&self) -> bool {
        self.held.is_some()
    }

    /// Whether a finger of another page is down.
    pub(super) fn is_held_elsewhere(&self, page: &str) -> bool {
        self.held.as_ref().is_some_and(|held| held.page != page)
    }

    fn unsaved(&mut self) {
        if let Some(disk) = self.disk.as_mut().filter(|disk| disk.state == State::Saved) {
            disk.state = State::Unsaved;
        }
    }

    /// The finger is up: what changed since it went down is one step, and is written.
    pub(super) fn lift(&mut self) {
        let Some(held) = self.held.take() else { return };
        let is_changed = held.base != self.text;
        if is_changed {
            self.back.push(Step::between(&held.base, &self.text));
            self.forward.clear();
        }
        if is_changed || self.disk.as_ref().is_some_and(|disk| disk.state != State::Saved) {
            self.write();
        }
    }

    /// The sitting ends: what a finger still held is one step, and is written.
    ///
    /// # Errors
    /// The disk does not have the text, in words.
    pub fn end(&mut self) -> Result<(), String> {
        self.lift();
        if self.disk.as_ref().is_some_and(|disk| disk.state != State::Saved) {
            self.write();
        }
        self.disk.as_ref().map_or(Ok(()), |disk| disk.ended(&self.text))
    }

    /// Writes the text, unless another wrote the file or took it away: then the builder settles it.
    pub(super) fn write(&mut self) {
        let text = &self.text;
        if let Some(disk) = self.disk.as_mut().filter(|disk| !matches!(disk.state, State::Clash | State::Gone)) {
            disk.write(text);
        }
    }

    /// Back by one step.
    pub(super) fn undo(&mut self) {
        self.lift();
        let Some(step) = self.back.pop() else { return };
        self.stand_on(step.undone(&self.text));
        self.forward.push(step);
        self.write();
    }

    /// Forward by one step.
    pub(super) fn redo(&mut self) {
        self.lift();
        let Some(step) = self.forward.pop() else { return };
        self.stand_on(step.done(&self.text));
        self.back.push(step);
        self.write();
    }

    /// Takes a whole text as one step, whether it reads or not.
    pub(super) fn replace(&mut self, text: String) {
        self.lift();
        if text != self.text {
            self.back.push(Step::between(&self.text, &text));
            self.forward.clear();
            self.stand_on(text);
        }
    }

    /// Follows the disk: whether anything is new. What another wrote is taken when the page has nothing of its own; a page that
    /// asks for a change has not seen it: the builder settles that.
    pub fn outside(&mut self, asks_for_change: bool) -> bool {
        if self.held.is_some() || !self.disk.as_ref().is_some_and(Disk::touched) {
            return false;
        }
        let Some(disk) = self.disk.as_mut() else { return false };
        let before = disk.state.clone();
        match disk.look() {
            Found::Other(theirs) if theirs == self.text => disk.known(&theirs),
            Found::Other(theirs) if before == State::Saved && !asks_for_change => {
                disk.known(&theirs);
                self.replace(theirs);
                return true;
            }
            Found::Other(_) => disk.state = State::Clash,
            Found::Same if before == State::Saved => {}
            Found::Same => disk.write(&self.text),
            Found::Gone => disk.state = State::Gone,
            Found::Unread(why) => disk.state = State::NotWritten(why),
        }
        disk.state != before
    }

    /// After a clash, or when the file is gone: keeps the page's text or takes the disk's.
    pub(super) fn settle(&mut self, keep: &str) -> Vec<Problem> {
        self.lift();
        let Some(disk) = self.disk.as_mut() else { return Vec::new() };
        match keep {
            "page" => disk.write_over(&self.text),
            "disk" => match disk.look() {
                Found::Other(theirs) => {
                    disk.known(&theirs);
                    self.replace(theirs);
                }
                Found::Same => disk.state = State::Saved,
                Found::Gone => {
                    return vec![refused("", "there is nothing on disk to take", "keep what is on the page")];
                }
                Found::Unread(why) => return vec![refused("", why, "keep what is on the page")],
            },
            _ => return vec![refused("", "nothing says what to keep", "say page or disk")],
        }
        Vec::new()
    }

    /// The build files of the folder.
    #[must_use]
    pub fn builds(&self) -> Vec<BuildFile> {
        let entries = std::fs::read_dir(&self.folder).into_iter().flatten().flatten();
        let mut names: Vec<String> = entries.map(|entry| entry.file_name().to_string_lossy().into_owned()).collect();
        names.retain(|name| name.ends_with(".loam.toml") && !name.starts_with('.'));
        names.sort_unstable();
        let build = |file: String| {
            let text = std::fs::read_to_string(self.folder.join(&file)).unwrap_or_default();
            BuildFile { name: engine::edit::written(&text, "build.name").unwrap_or_default(), file }
        };
        names.into_iter().map(build).collect()
    }

    /// A file of the folder.
    pub(super) fn in_folder(&self, file: &str) -> PathBuf {
        self.folder.join(file)
    }

    /// The kept copies, the newest first.
    #[must_use]
    pub fn kept(&self) -> Vec<Kept> {
        let copies = self.disk.iter().flat_map(Disk::copies);
        copies.map(|file| Kept { words: when(&file), file }).collect()
    }

    /// Keeps a copy of the text now.
    ///
    /// # Errors
    /// It cannot be written, in words.
    pub fn keep(&mut self) -> Result<Kept, String> {
        let Some(disk) = self.disk.as_ref() else { return Err("there is no build to keep a copy of".to_owned()) };
        let file = disk.keep(&self.text)?;
        Ok(Kept { words: when(&file), file })
    }
}

/// When a copy was kept, from its name: `2027-05-03-141500.loam.toml`.
fn when(file: &str) -> String {
    match (file.get(..10), file.get(11..13), file.get(13..15), file.get(15..17)) {
        (Some(date), Some(hour), Some(minute), Some(second)) => format!("{date}, {hour}:{minute}:{second}"),
        _ => file.to_owned(),
    }
}

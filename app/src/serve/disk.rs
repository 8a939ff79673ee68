//! The build file on disk: read, written whole and never over what another wrote, copies kept.

use std::fs::{self, File};
use std::io::{ErrorKind, Write};
use std::path::{Path, PathBuf};
use std::time::SystemTime;

use jiff::ZonedDateTime;

use crate::folder::beside;
use crate::lanes::Shelf;

/// How the text stands to the disk.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum State {
    /// The disk has it.
    Saved,
    /// The finger is down.
    Unsaved,
    /// Another wrote the file meanwhile.
    Clash,
    /// The file is no more.
    Gone,
    /// It could not be written, with why.
    NotWritten(String),
}

/// What was found on disk.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Found {
    /// What was read or written last.
    Same,
    /// Another text.
    Other(String),
    /// Nothing.
    Gone,
    /// It cannot be read, with why.
    Unread(String),
}

/// A build file and what it is known to hold.
#[derive(Debug)]
pub struct Disk {
    file: PathBuf,
    /// The bytes read or written last; none before there was a file.
    last: Option<Vec<u8>>,
    /// When the file was last looked at: its time and length.
    seen: Option<(SystemTime, u64)>,
    /// Whether this sitting has kept what was there before it first wrote.
    kept: bool,
    /// How the text stands to it.
    pub state: State,
}

impl Disk {
    /// A build file that is there, with its text. A link is followed, so that writing does not replace it.
    ///
    /// # Errors
    /// It cannot be read, or is no text.
    pub fn open(file: &Path) -> Result<(Disk, String), String> {
        let file = fs::canonicalize(file).map_err(|error| cannot(file, "be read", &error))?;
        let bytes = fs::read(&file).map_err(|error| cannot(&file, "be read", &error))?;
        let text = text(&file, bytes.clone())?;
        let seen = seen(&file);
        Ok((Disk { file, last: Some(bytes), seen, kept: false, state: State::Saved }, text))
    }

    /// A build file that is to be written for the first time.
    #[must_use]
    pub fn new(file: PathBuf) -> Disk {
        Disk { file, last: None, seen: None, kept: false, state: State::Unsaved }
    }

    /// Its name without its folder.
    #[must_use]
    pub fn name(&self) -> String {
        self.file.file_name().map_or_else(String::new, |name| name.to_string_lossy().into_owned())
    }

    /// Where what long computations found is kept.
    #[must_use]
    pub fn shelf(&self) -> Shelf {
        Shelf::of(&self.file)
    }

    /// Words for a state that needs some: how it stands, and what can be done.
    #[must_use]
    pub fn words(&self) -> String {
        let what_to_do = match &self.state {
            State::Saved | State::Unsaved => return String::new(),
            State::Clash => "Keep what is on the page, or take what is on disk.",
            State::Gone => "The build is safe on this page; keep it to write it anew.",
            State::NotWritten(_) => "The build is safe on this page, and is written with the next change.",
        };
        format!("{}. {what_to_do}", self.state_in_words())
    }

    /// How the text stands to the disk, without a full stop.
    fn state_in_words(&self) -> String {
        let name = self.name();
        match &self.state {
            State::Saved => format!("{name} is written"),
            State::Unsaved => format!("{name} is not written yet"),
            State::Clash => {
                format!("{name} was changed by another program since it was read here; nothing of it was overwritten")
            }
            State::Gone => format!("{name} is no longer on disk"),
            State::NotWritten(why) => why.clone(),
        }
    }

    /// The sitting ends: where the disk does not have the text, a copy of it is kept, and this says how things stand.
    ///
    /// # Errors
    /// The disk does not have the text, in words.
    pub fn ended(&self, text: &str) -> Result<(), String> {
        if self.state == State::Saved {
            return Ok(());
        }
        let stands = self.state_in_words();
        Err(match self.keep(text) {
            Ok(copy) => {
                format!("{stands}. What was on the page is kept as {}", self.kept_folder().join(copy).display())
            }
            Err(why) => format!("{stands}. What was on the page is lost: {why}"),
        })
    }

    /// Whether the file has been touched since it was last looked at.
    #[must_use]
    pub fn touched(&self) -> bool {
        seen(&self.file) != self.seen
    }

    /// What is on disk now, against what was read or written last.
    pub fn look(&mut self) -> Found {
        self.seen = seen(&self.file);
        match fs::read(&self.file) {
            Ok(bytes) if self.last.as_ref() == Some(&bytes) => Found::Same,
            Ok(bytes) => text(&self.file, bytes).map_or_else(Found::Unread, Found::Other),
            Err(error) if error.kind() == ErrorKind::NotFound => Found::Gone,
            Err(error) => Found::Unread(cannot(&self.file, "be read", &error)),
        }
    }

    /// Takes what is on disk as known.
    pub fn known(&mut self, text: &str) {
        self.last = Some(text.as_bytes().to_vec());
        self.state = State::Saved;
    }

    /// Writes a text where the disk still has what was read or written last.
    pub fn write(&mut self, text: &str) {
        let found = if self.last.is_none() && !self.file.exists() { Found::Same } else { self.look() };
        self.state = match found {
            Found::Same => self.put(text),
            Found::Other(_) => State::Clash,
            Found::Gone => State::Gone,
            Found::Unread(why) => State::NotWritten(why),
        };
    }

    /// Writes a text whatever stands there; what another wrote is kept as a copy first.
    pub fn write_over(&mut self, text: &str) {
        let found = self.look();
        if let Found::Other(theirs) = &found
            && let Err(why) = self.keep(theirs)
        {
            self.state = State::NotWritten(why);
            return;
        }
        self.state = if let Found::Unread(why) = found { State::NotWritten(why) } else { self.put(text) };
    }

    /// Copy first, then a file beside it, synced, takes its place.
    fn put(&mut self, text: &str) -> State {
        if fs::metadata(&self.file).is_ok_and(|metadata| metadata.permissions().readonly()) {
            return State::NotWritten(format!("{} may be read only: it is not written", self.name()));
        }
        if !self.kept
            && let Some(before) = self.last.as_ref().map(|bytes| String::from_utf8_lossy(bytes).into_owned())
        {
            match self.keep(&before) {
                Ok(_) => self.kept = true,
                Err(why) => return State::NotWritten(why),
            }
        }
        let beside = self.file.with_file_name(format!(".{}.{}.new", self.name(), std::process::id()));
        if let Err(error) = put(&beside, &self.file, text) {
            let _ = fs::remove_file(&beside);
            return State::NotWritten(cannot(&self.file, "be written", &error));
        }
        self.last = Some(text.as_bytes().to_vec());
        self.seen = seen(&self.file);
        State::Saved
    }

    /// Keeps a copy of a text in the build's folder.
    ///
    /// # Errors
    /// It cannot be written, in words.
    pub fn keep(&self, text: &str) -> Result<String, String> {
        let folder = self.kept_folder();
        fs::create_dir_all(&folder).map_err(|error| cannot(&folder, "be made", &error))?;
        let now = ZonedDateTime::now().strftime("%Y-%m-%d-%H%M%S").to_string();
        let names = std::iter::once(now.clone()).chain((2..1000).map(|number| format!("{now}-{number}")));
        let mut names = names.map(|name| format!("{name}.loam.toml"));
        let Some(name) = names.find(|name| !folder.join(name).exists()) else {
            return Err(format!("{} has no room for another copy of this second", folder.display()));
        };
        let file = folder.join(&name);
        fs::write(&file, text).map_err(|error| cannot(&file, "be written", &error))?;
        Ok(name)
    }

    /// The names of the kept copies, the newest first.
    #[must_use]
    pub fn copies(&self) -> Vec<String> {
        let entries = fs::read_dir(self.kept_folder()).into_iter().flatten().flatten();
        let mut names: Vec<String> = entries.map(|entry| entry.file_name().to_string_lossy().into_owned()).collect();
        names.retain(|name| name.ends_with(".loam.toml"));
        names.sort_unstable_by(|one, other| other.cmp(one));
        names
    }

    /// The text of a kept copy.
    #[must_use]
    pub fn copy(&self, name: &str) -> Option<String> {
        let known = self.copies().into_iter().find(|known| known == name)?;
        fs::read_to_string(self.kept_folder().join(known)).ok()
    }

    fn kept_folder(&self) -> PathBuf {
        beside(&self.file, "loam").join("kept")
    }
}

fn put(beside: &Path, file: &Path, text: &str) -> std::io::Result<()> {
    let mut new = File::create(beside)?;
    new.write_all(text.as_bytes())?;
    if let Ok(metadata) = fs::metadata(file) {
        new.set_permissions(metadata.permissions())?;
    }
    new.sync_all()?;
    fs::rename(beside, file)?;
    // The name is on disk only when its folder is.
    file.parent().map_or(Ok(()), |folder| File::open(folder).and_then(|folder| folder.sync_all())).or(Ok(()))
}

fn seen(file: &Path) -> Option<(SystemTime, u64)> {
    let metadata = fs::metadata(file).ok()?;
    Some((metadata.modified().ok()?, metadata.len()))
}

fn text(file: &Path, bytes: Vec<u8>) -> Result<String, String> {
    if bytes.len() > engine::build::LARGEST {
        return Err(format!("{} is larger than 1 MiB, the most that a build file may be", file.display()));
    }
    String::from_utf8(bytes)
        .map_err(|_| format!("{} is not UTF-8 text; save it as UTF-8 in your editor", file.display()))
}

fn cannot(file: &Path, what: &str, error: &std::io::Error) -> String {
    format!("{} cannot {what}: {error}", file.display())
}

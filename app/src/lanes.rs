//! Long computations on threads: one lane a kind of study, in which the newest inputs win. Parts are joined by their place, so that
//! the number of threads changes no digit; what was found is kept beside the build.

use std::fmt::Debug;
use std::fs;
use std::ops::{ControlFlow, Range};
use std::path::{Path, PathBuf};
use std::sync::atomic::{AtomicBool, AtomicUsize, Ordering};
use std::sync::{Arc, Mutex, MutexGuard, PoisonError};
use std::time::{Duration, Instant};

use engine::studies::{ChoiceStudy, Findings, Studies, TrialStudy};
use engine::study::{Digest, Progress, Study};

use crate::folder::beside;

/// How often progress is told.
const EVERY: Duration = Duration::from_millis(100);
/// So many parts for each thread: one that takes long keeps the others waiting little.
const PARTS: usize = 4;
/// So many results of a kind are kept.
const KEPT: usize = 12;
/// Part of every name under which a result is kept: another program may find another.
const VERSION: &str = env!("CARGO_PKG_VERSION");

/// A study that a lane can run.
pub trait Laned: Study<Part: Send, Found: Debug + Send + Sync> + Debug + Send + Sync + 'static {
    /// Its name in addresses and files.
    const NAME: &'static str;
    /// What it does, as it is told while it runs.
    const WORDS: &'static str;
}

impl Laned for ChoiceStudy {
    const NAME: &'static str = "which-pole-where";
    const WORDS: &'static str = "Looks for a better place for each pole";
}

impl Laned for TrialStudy {
    const NAME: &'static str = "raising-and-loss";
    const WORDS: &'static str = "Raises the ring, and takes each pole away";
}

/// The folder beside a build in which results are kept.
#[derive(Clone, Debug)]
pub struct Shelf(PathBuf);

impl Shelf {
    /// That of a build file.
    #[must_use]
    pub fn of(file: &Path) -> Shelf {
        Shelf(beside(file, "loam").join("studies"))
    }

    fn file<S: Laned>(&self, digest: Digest) -> PathBuf {
        self.0.join(format!("{}-{digest}-{VERSION}.json", S::NAME))
    }

    /// What is kept of a study with just these inputs.
    fn kept<S: Laned>(&self, study: &S) -> Option<S::Found> {
        let text = fs::read_to_string(self.file::<S>(study.digest())).ok()?;
        study.read(&serde_json::from_str(&text).ok()?)
    }

    /// Keeps what was found; a folder that cannot be written only costs the time to find it again.
    fn keep<S: Laned>(&self, study: &S, found: &S::Found) {
        let file = self.file::<S>(study.digest());
        let beside = file.with_extension(format!("{}.new", std::process::id()));
        let written = fs::create_dir_all(&self.0)
            .and_then(|()| fs::write(&beside, S::kept(found).to_string()))
            .and_then(|()| fs::rename(&beside, &file));
        if written.is_err() {
            let _ = fs::remove_file(&beside);
        }
        self.thin_out(S::NAME);
    }

    /// Takes the oldest results of a kind away.
    fn thin_out(&self, name: &str) {
        let entries = fs::read_dir(&self.0).into_iter().flatten().flatten();
        let mut all: Vec<_> = entries
            .filter(|entry| entry.file_name().to_string_lossy().starts_with(name))
            .filter_map(|entry| Some((entry.metadata().ok()?.modified().ok()?, entry.path())))
            .collect();
        all.sort();
        for (_, file) in all.iter().rev().skip(KEPT) {
            let _ = fs::remove_file(file);
        }
    }
}

/// So many threads may be used.
fn threads() -> usize {
    std::thread::available_parallelism().map_or(1, usize::from)
}

/// Runs a study on so many threads. `told` hears how much of it is done, from 0 to 1, and says whether to go on; it may be called from
/// any of them. `None` when it was told to stop.
pub fn run<S: Laned>(study: &S, threads: usize, told: &(dyn Fn(f64) -> bool + Sync)) -> Option<S::Found> {
    let pieces = study.pieces();
    let size = pieces.div_ceil(PARTS * threads.max(1)).max(1);
    let ranges: Vec<Range<usize>> = (0..pieces).step_by(size).map(|from| from..(from + size).min(pieces)).collect();
    let parts: Vec<Mutex<(f64, Option<S::Part>)>> = ranges.iter().map(|_| Mutex::new((0.0, None))).collect();
    let (next, stopped) = (AtomicUsize::new(0), AtomicBool::new(false));
    let told_at = Mutex::new(Instant::now());
    // Whether to go on; how far all are is added up when it is time to tell.
    let goes_on = || {
        if let Ok(mut at) = told_at.try_lock()
            && at.elapsed() >= EVERY
        {
            *at = Instant::now();
            let done: f64 = ranges.iter().zip(&parts).map(|(range, part)| range.len() as f64 * held(part).0).sum();
            if !told(done / pieces.max(1) as f64) {
                stopped.store(true, Ordering::Relaxed);
            }
        }
        !stopped.load(Ordering::Relaxed)
    };
    let work = || {
        while let Some((range, slot)) = {
            let at = next.fetch_add(1, Ordering::Relaxed);
            ranges.get(at).zip(parts.get(at))
        } {
            let part = study.part(range.clone(), &mut |Progress { done, of }| {
                held(slot).0 = done as f64 / of.max(1) as f64;
                if goes_on() { ControlFlow::Continue(()) } else { ControlFlow::Break(()) }
            });
            let Some(part) = part else {
                stopped.store(true, Ordering::Relaxed);
                return;
            };
            *held(slot) = (1.0, Some(part));
        }
    };
    std::thread::scope(|scope| {
        for _ in 1..threads.min(ranges.len()) {
            scope.spawn(work);
        }
        work();
    });
    let found = parts.into_iter().map(|part| part.into_inner().unwrap_or_else(PoisonError::into_inner).1);
    Some(study.join(found.collect::<Option<Vec<S::Part>>>()?))
}

fn held<T>(lock: &Mutex<T>) -> MutexGuard<'_, T> {
    lock.lock().unwrap_or_else(PoisonError::into_inner)
}

/// A lane of one kind of study.
#[derive(Debug)]
pub struct Lane<S: Laned> {
    state: Arc<Mutex<State<S>>>,
}

#[derive(Debug)]
struct State<S: Laned> {
    /// Counts the runs: what an older one brings is thrown away.
    number: u64,
    /// The inputs that run, and how far they are.
    runs: Option<(Digest, f64)>,
    /// What was found last, with its inputs.
    last: Option<Last<S>>,
    /// Inputs of which nothing is kept.
    missed: Option<Digest>,
    /// Whether the last run was stopped, or failed.
    stopped: bool,
}

/// Inputs and what was found of them.
#[derive(Debug)]
pub struct Last<S: Laned> {
    /// The inputs.
    pub study: Arc<S>,
    /// What was found.
    pub found: Arc<S::Found>,
    digest: Digest,
}

impl<S: Laned> Clone for Last<S> {
    fn clone(&self) -> Self {
        Last { study: Arc::clone(&self.study), found: Arc::clone(&self.found), digest: self.digest }
    }
}

/// What a lane tells of itself.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Heard {
    /// It is so far.
    Share(f64),
    /// It ended, whatever it came to.
    Ended,
}

/// How a lane stands to a study.
#[derive(Debug)]
pub struct Stands<S: Laned> {
    /// How far it is, where it runs.
    pub share: Option<f64>,
    /// What was found last, and whether it is of this study.
    pub last: Option<(Last<S>, bool)>,
    /// Whether the last run was stopped.
    pub stopped: bool,
}

/// Ends a run with its thread, also where that fails.
struct Ending<S: Laned, H: Fn(Heard)> {
    lane: Lane<S>,
    number: u64,
    last: Option<Last<S>>,
    heard: H,
}

impl<S: Laned, H: Fn(Heard)> Drop for Ending<S, H> {
    fn drop(&mut self) {
        if self.lane.end(self.number, self.last.take()) {
            (self.heard)(Heard::Ended);
        }
    }
}

impl<S: Laned> Default for Lane<S> {
    fn default() -> Self {
        let state = State { number: 0, runs: None, last: None, missed: None, stopped: false };
        Lane { state: Arc::new(Mutex::new(state)) }
    }
}

impl<S: Laned> Clone for Lane<S> {
    fn clone(&self) -> Self {
        Lane { state: Arc::clone(&self.state) }
    }
}

impl<S: Laned> Lane<S> {
    /// Begins a study; one with other inputs is given up, one with the same goes on.
    pub fn start(&self, study: Arc<S>, shelf: Option<Shelf>, heard: impl Fn(Heard) + Send + Sync + 'static) {
        let digest = study.digest();
        let number = {
            let mut state = held(&self.state);
            if state.runs.is_some_and(|(running, _)| running == digest) {
                return;
            }
            state.number += 1;
            (state.runs, state.stopped) = (Some((digest, 0.0)), false);
            state.number
        };
        heard(Heard::Share(0.0));
        let lane = self.clone();
        std::thread::spawn(move || {
            let mut ending = Ending { lane, number, last: None, heard };
            let goes_on = |share: f64| {
                let is_current = ending.lane.note(number, share);
                if is_current {
                    (ending.heard)(Heard::Share(share));
                }
                is_current
            };
            let kept = shelf.as_ref().and_then(|shelf| shelf.kept(study.as_ref()));
            let found = kept.or_else(|| {
                let found = run(study.as_ref(), threads(), &goes_on)?;
                if let Some(shelf) = &shelf {
                    shelf.keep(study.as_ref(), &found);
                }
                Some(found)
            });
            ending.last = found.map(|found| Last { study, found: Arc::new(found), digest });
        });
    }

    /// Notes how far a run is; whether it is still wanted.
    fn note(&self, number: u64, share: f64) -> bool {
        let mut state = held(&self.state);
        if state.number != number {
            return false;
        }
        if let Some(runs) = &mut state.runs {
            runs.1 = share;
        }
        true
    }

    /// Ends a run; whether it was still wanted.
    fn end(&self, number: u64, last: Option<Last<S>>) -> bool {
        let mut state = held(&self.state);
        if state.number != number {
            return false;
        }
        (state.runs, state.stopped) = (None, last.is_none());
        if last.is_some() {
            state.last = last;
        }
        true
    }

    /// Gives up what runs; whether anything did.
    pub fn stop(&self) -> bool {
        let mut state = held(&self.state);
        let ran = state.runs.take().is_some();
        if ran {
            state.number += 1;
            state.stopped = true;
        }
        ran
    }

    /// Gives up what runs and forgets what was found: another build is open.
    pub fn forget(&self) {
        self.stop();
        let mut state = held(&self.state);
        (state.last, state.missed, state.stopped) = (None, None, false);
    }

    /// Whether a study with other inputs runs.
    #[must_use]
    pub fn is_overtaken_by(&self, study: &S) -> bool {
        let runs = held(&self.state).runs;
        runs.is_some_and(|(digest, _)| digest != study.digest())
    }

    /// How the lane stands to a study; what is kept of it is taken up.
    #[must_use]
    pub fn stands(&self, study: &S, shelf: Option<&Shelf>) -> Stands<S>
    where
        S: Clone,
    {
        let digest = study.digest();
        let mut state = held(&self.state);
        let is_known = state.missed == Some(digest) || state.last.as_ref().is_some_and(|last| last.digest == digest);
        if !is_known {
            match shelf.and_then(|shelf| shelf.kept(study)) {
                Some(found) => {
                    state.last = Some(Last { study: Arc::new(study.clone()), found: Arc::new(found), digest });
                }
                None => state.missed = Some(digest),
            }
        }
        let last = state.last.clone().map(|last| {
            if last.digest == digest {
                // The computation is the same; what it is held against may be other.
                (Last { study: Arc::new(study.clone()), ..last }, true)
            } else {
                (last, false)
            }
        });
        Stands { share: state.runs.map(|(_, share)| share), last, stopped: state.stopped }
    }
}

/// What is kept of the studies of a build.
#[must_use]
pub fn kept(studies: &Studies, shelf: &Shelf) -> Findings {
    Findings {
        choice: studies.choice.as_ref().and_then(|study| shelf.kept(study)),
        trial: studies.trial.as_ref().and_then(|study| shelf.kept(study)),
    }
}

/// What is found of the studies of a build: what is kept, else run now. `told` hears what is done and how far it is, and says whether
/// to go on; what was given up is not in it.
#[must_use]
pub fn found(studies: &Studies, shelf: Option<&Shelf>, told: &(dyn Fn(&str, f64) -> bool + Sync)) -> Findings {
    Findings {
        choice: studies.choice.as_ref().and_then(|study| one(study, shelf, told)),
        trial: studies.trial.as_ref().and_then(|study| one(study, shelf, told)),
    }
}

fn one<S: Laned>(study: &S, shelf: Option<&Shelf>, told: &(dyn Fn(&str, f64) -> bool + Sync)) -> Option<S::Found> {
    if let Some(kept) = shelf.and_then(|shelf| shelf.kept(study)) {
        return Some(kept);
    }
    let found = run(study, threads(), &|share| told(S::WORDS, share))?;
    told(S::WORDS, 1.0);
    if let Some(shelf) = shelf {
        shelf.keep(study, &found);
    }
    Some(found)
}

#[cfg(test)]
#[path = "lanes/tests.rs"]
mod tests;

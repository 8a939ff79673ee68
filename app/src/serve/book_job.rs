//! The book as a job: made on a thread of its own, told of, and kept until the next one.

use std::sync::{Arc, Mutex, PoisonError};

use axum::body::Bytes;

use super::events::Events;
use super::standing::Standing;
use super::wire::Event;
use crate::lanes::{self, Shelf};

const NAME: &str = "book";

/// The job, and the last book that was made.
#[derive(Clone, Debug, Default)]
pub struct BookJob {
    inner: Arc<Mutex<Inner>>,
}

#[derive(Debug, Default)]
struct Inner {
    /// Counts the jobs: what an older one brings is thrown away.
    number: u64,
    running: bool,
    made: Option<Made>,
}

/// A book, and the revision of the build that it is of.
#[derive(Debug)]
struct Made {
    revision: u32,
    pdf: Bytes,
}

impl BookJob {
    /// Begins to set the book of a house as it stood at a revision; one that was being set is given up.
    pub fn start(&self, standing: Arc<Standing>, shelf: Option<Shelf>, revision: u32, events: &Events) {
        let number = self.begin();
        let (job, events) = (self.clone(), events.clone());
        tokio::task::spawn_blocking(move || {
            let step = |share: f64, words: &str| {
                if job.is_current(number) {
                    events.tell(Event::Job { name: NAME.to_owned(), share, words: words.to_owned() });
                }
                job.is_current(number)
            };
            let study = |words: &str, share: f64| step(0.05 * share, words);
            let findings = lanes::found(&standing.answers.studies, shelf.as_ref(), &study);
            if !step(0.05, "Looks at the house from all sides") {
                return;
            }
            let Some(pictures) = standing.pictures() else {
                job.end(number, revision, Err("the house cannot be drawn".to_owned()), &events);
                return;
            };
            if !step(0.2, "Draws and sets the pages") {
                return;
            }
            let set = press::book::book(&standing.answers, pictures, &findings, jiff::ZonedDateTime::now().date());
            let set = set.map(|book| book.pdf).map_err(|fault| format!("the book cannot be set: {fault}"));
            job.end(number, revision, set, &events);
        });
    }

    fn begin(&self) -> u64 {
        let mut inner = self.inner();
        inner.number += 1;
        inner.running = true;
        inner.number
    }

    /// Gives up the book that is being set: its pages are thrown away when they come.
    pub fn stop(&self, events: &Events) {
        let mut inner = self.inner();
        if std::mem::take(&mut inner.running) {
            inner.number += 1;
            events.tell(Event::Done {
                name: NAME.to_owned(),
                fault: "stopped".to_owned(),
                revision: inner.made.as_ref().map(|made| made.revision),
            });
        }
    }

    /// The last book that was made.
    #[must_use]
    pub fn pdf(&self) -> Option<Bytes> {
        self.inner().made.as_ref().map(|made| made.pdf.clone())
    }

    /// The revision of the build that the last book is of.
    #[must_use]
    pub fn revision(&self) -> Option<u32> {
        self.inner().made.as_ref().map(|made| made.revision)
    }

    /// Forgets the last book: another build is open.
    pub fn forget(&self, events: &Events) {
        self.inner().made = None;
        self.stop(events);
    }

    fn end(&self, number: u64, revision: u32, set: Result<Vec<u8>, String>, events: &Events) {
        let mut inner = self.inner();
        if inner.number != number {
            return;
        }
        inner.running = false;
        let fault = match set {
            Ok(pdf) => {
                inner.made = Some(Made { revision, pdf: pdf.into() });
                String::new()
            }
            Err(fault) => fault,
        };
        let revision = inner.made.as_ref().map(|made| made.revision);
        events.tell(Event::Done { name: NAME.to_owned(), fault, revision });
    }

    fn is_current(&self, number: u64) -> bool {
        self.inner().number == number
    }

    fn inner(&self) -> std::sync::MutexGuard<'_, Inner> {
        self.inner.lock().unwrap_or_else(PoisonError::into_inner)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_book_is_of_the_revision_it_was_begun_at_until_another_is_made() {
        let (job, events) = (BookJob::default(), Events::default());
        assert_eq!(job.revision(), None);
        let first = job.begin();
        job.end(first, 7, Ok(vec![1]), &events);
        assert_eq!((job.revision(), job.pdf()), (Some(7), Some(vec![1].into())));
        let given_up = job.begin();
        let second = job.begin();
        job.end(given_up, 8, Ok(vec![2]), &events);
        assert_eq!(job.revision(), Some(7), "a job that was given up brings nothing");
        job.end(second, 9, Err("no room".to_owned()), &events);
        assert_eq!((job.revision(), job.pdf()), (Some(7), Some(vec![1].into())), "the last one stays");
        job.forget(&events);
        assert_eq!((job.revision(), job.pdf()), (None, None));
    }
}

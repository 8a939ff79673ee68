//! The book as a job: made on a thread of its own, told of, and kept until the next one.

use std::sync::{Arc, Mutex, PoisonError};

use axum::body::Bytes;

use super::events::Events;
use super::standing::Standing;
use super::wire::Event;

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
    pdf: Option<Bytes>,
}

impl BookJob {
    /// Begins to set the book of a house; one that was being set is given up.
    pub fn start(&self, standing: Arc<Standing>, events: &Events) {
        let number = {
            let mut inner = self.inner();
            inner.number += 1;
            inner.running = true;
            inner.number
        };
        let (job, events) = (self.clone(), events.clone());
        tokio::task::spawn_blocking(move || {
            let step = |share: f64, words: &str| {
                if job.is_current(number) {
                    events.tell(Event::Job { name: NAME.to_owned(), share, words: words.to_owned() });
                }
                job.is_current(number)
            };
            if !step(0.05, "Looks at the house from all sides") {
                return;
            }
            let Some(pictures) = standing.pictures() else {
                job.end(number, Err("the house cannot be drawn".to_owned()), &events);
                return;
            };
            if !step(0.2, "Draws and sets the pages") {
                return;
            }
            let set = press::book::book(&standing.answers, pictures, jiff::ZonedDateTime::now().date());
            let set = set.map(|book| book.pdf).map_err(|fault| format!("the book cannot be set: {fault}"));
            job.end(number, set, &events);
        });
    }

    /// Gives up the book that is being set: its pages are thrown away when they come.
    pub fn stop(&self, events: &Events) {
        let mut inner = self.inner();
        if std::mem::take(&mut inner.running) {
            inner.number += 1;
            events.tell(Event::Done { name: NAME.to_owned(), fault: "stopped".to_owned() });
        }
    }

    /// The last book that was made.
    #[must_use]
    pub fn pdf(&self) -> Option<Bytes> {
        self.inner().pdf.clone()
    }

    /// Forgets the last book: another build is open.
    pub fn forget(&self, events: &Events) {
        self.stop(events);
        self.inner().pdf = None;
    }

    fn end(&self, number: u64, set: Result<Vec<u8>, String>, events: &Events) {
        let mut inner = self.inner();
        if inner.number != number {
            return;
        }
        inner.running = false;
        let fault = match set {
            Ok(pdf) => {
                inner.pdf = Some(pdf.into());
                String::new()
            }
            Err(fault) => fault,
        };
        events.tell(Event::Done { name: NAME.to_owned(), fault });
    }

    fn is_current(&self, number: u64) -> bool {
        self.inner().number == number
    }

    fn inner(&self) -> std::sync::MutexGuard<'_, Inner> {
        self.inner.lock().unwrap_or_else(PoisonError::into_inner)
    }
}

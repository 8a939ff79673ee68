//! What each page has been sent, so that only what differs is sent again.

use std::collections::{BTreeMap, VecDeque};
use std::sync::Arc;

use engine::units::System;

use super::pictures::Frames;
use super::wire::{Check, Row};

/// Tabs that are remembered.
const PAGES: usize = 8;
/// Revisions of one tab: an answer may have been lost on its way.
const REVISIONS: usize = 3;

/// What a page was sent with one frame.
#[derive(Clone, Debug)]
pub struct Had {
    /// The revision of the frame.
    pub revision: u32,
    /// Units that were shown.
    pub system: System,
    /// The leaf that was open, and the room it had.
    pub leaf: (String, [f64; 2]),
    /// The rows it then had.
    pub rows: Arc<Vec<Arc<Row>>>,
    /// The checks it then had.
    pub checks: Arc<Vec<Check>>,
    /// Digests of the pictures that it then had.
    pub digests: BTreeMap<String, u64>,
    /// Where the house lay on each.
    pub frames: Frames,
}

/// What the pages have.
#[derive(Debug, Default)]
pub struct Pages {
    pages: VecDeque<(String, VecDeque<Had>)>,
}

impl Pages {
    /// What a page had at a revision.
    #[must_use]
    pub fn had(&self, page: &str, since: u32) -> Option<&Had> {
        let (_, had) = self.pages.iter().find(|(name, _)| name == page)?;
        had.iter().find(|had| had.revision == since)
    }

    /// What a page had last.
    #[must_use]
    pub fn last(&self, page: &str) -> Option<&Had> {
        self.pages.iter().find(|(name, _)| name == page)?.1.front()
    }

    /// Notes what a page is sent; what it had long ago is forgotten.
    pub fn note(&mut self, page: &str, had: Had) {
        let place = self.pages.iter().position(|(name, _)| name == page);
        let (name, mut all) =
            place.and_then(|place| self.pages.remove(place)).unwrap_or_else(|| (page.to_owned(), VecDeque::new()));
        all.retain(|known| known.revision != had.revision);
        all.push_front(had);
        all.truncate(REVISIONS);
        self.pages.push_front((name, all));
        self.pages.truncate(PAGES);
    }
}

//! Whose turn it is: one asks the engine at a time, and of one page's moves the newest wins.

use std::collections::BTreeMap;
use std::sync::{Arc, Mutex as Plain, PoisonError};

use tokio::sync::{Mutex, OwnedMutexGuard, watch};

use super::session::Session;
use super::wire::{Change, Look};

/// The session, and the queue before it.
#[derive(Clone, Debug)]
pub struct Turns {
    session: Arc<Mutex<Session>>,
    /// How many each page has asked.
    asked: Arc<Plain<BTreeMap<String, watch::Sender<u64>>>>,
}

impl Turns {
    /// A queue before a session.
    #[must_use]
    pub fn new(session: Session) -> Turns {
        Turns { session: Arc::new(Mutex::new(session)), asked: Arc::default() }
    }

    /// Waits for the session.
    pub async fn turn(&self) -> OwnedMutexGuard<Session> {
        Arc::clone(&self.session).lock_owned().await
    }

    /// The session, when nobody has it.
    #[must_use]
    pub fn free(&self) -> Option<OwnedMutexGuard<Session>> {
        Arc::clone(&self.session).try_lock_owned().ok()
    }

    /// Waits for the session to look; none when the same page asked again meanwhile and nothing is lost by skipping this one.
    pub async fn look(&self, look: &Look) -> Option<OwnedMutexGuard<Session>> {
        let (number, mut newer) = self.note(look.page.as_deref().unwrap_or(""));
        if !is_overtaken(look) {
            return Some(self.turn().await);
        }
        let newest = newer.clone();
        tokio::select! {
            biased;
            session = self.turn() => (*newest.borrow() == number).then_some(session),
            _ = newer.wait_for(|newest| *newest > number) => None,
        }
    }

    fn note(&self, page: &str) -> (u64, watch::Receiver<u64>) {
        let mut asked = self.asked.lock().unwrap_or_else(PoisonError::into_inner);
        // A page that nobody waits for is forgotten once there are many.
        if asked.len() > 64 {
            asked.retain(|_, sender| sender.receiver_count() > 0);
        }
        let sender = asked.entry(page.to_owned()).or_insert_with(|| watch::channel(0).0);
        sender.send_modify(|count| *count += 1);
        (*sender.borrow(), sender.subscribe())
    }
}

/// Whether a newer one of the same page says all that this one does: looks without a change, and drags while the finger is
/// down. What was typed is never skipped.
fn is_overtaken(look: &Look) -> bool {
    match &look.change {
        None => true,
        Some(Change::Drag { .. } | Change::Begin { .. }) => look.moving,
        Some(_) => false,
    }
}

//! The event stream: changes from elsewhere and long jobs. The disk is watched only while a page listens.

use std::convert::Infallible;
use std::sync::Arc;
use std::sync::atomic::{AtomicBool, Ordering};
use std::time::Duration;

use axum::response::sse;
use futures_util::stream::{self, Stream};
use tokio::sync::broadcast::{self, error::RecvError};

use super::turn::Turns;
use super::wire::Event;

/// How often the disk is looked at.
const EVERY: Duration = Duration::from_millis(500);

/// Tells every page that listens.
#[derive(Clone, Debug)]
pub struct Events {
    sender: broadcast::Sender<Event>,
    watching: Arc<AtomicBool>,
}

impl Default for Events {
    fn default() -> Self {
        Events { sender: broadcast::channel(64).0, watching: Arc::default() }
    }
}

impl Events {
    /// Tells something; nobody may listen.
    pub fn tell(&self, event: Event) {
        let _ = self.sender.send(event);
    }

    /// What one page hears from now on.
    pub fn stream(&self, turns: &Turns) -> impl Stream<Item = Result<sse::Event, Infallible>> + use<> {
        let receiver = self.sender.subscribe();
        self.watch(turns.clone());
        stream::unfold((receiver, turns.clone()), |(mut receiver, turns)| async move {
            let event = match receiver.recv().await {
                Ok(event) => event,
                // Some were missed: the page looks again.
                Err(RecvError::Lagged(_)) => {
                    let revision = turns.turn().await.revision();
                    Event::Changed { revision, by: String::new() }
                }
                Err(RecvError::Closed) => return None,
            };
            let told = sse::Event::default().json_data(&event).unwrap_or_default();
            Some((Ok(told), (receiver, turns)))
        })
    }

    fn watch(&self, turns: Turns) {
        if self.watching.swap(true, Ordering::SeqCst) {
            return;
        }
        let events = self.clone();
        tokio::spawn(async move {
            loop {
                tokio::time::sleep(EVERY).await;
                if events.sender.receiver_count() == 0 {
                    events.watching.store(false, Ordering::SeqCst);
                    // One may have come between the two lines above.
                    if events.sender.receiver_count() == 0 || events.watching.swap(true, Ordering::SeqCst) {
                        return;
                    }
                }
                // Whoever has the session now looks at the disk as well.
                let Some(mut session) = turns.free() else { continue };
                let looked =
                    tokio::task::spawn_blocking(move || session.outside(false).then(|| session.revision())).await;
                if let Ok(Some(revision)) = looked {
                    events.tell(Event::Changed { revision, by: "disk".to_owned() });
                }
            }
        });
    }
}

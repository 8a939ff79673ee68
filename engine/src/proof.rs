//! Published values beside ours.

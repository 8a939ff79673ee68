//! One question from JSON.

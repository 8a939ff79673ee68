//! Bodies of earthen walls: closed, as large as the integrals say, and sound in the eyes of a general library.
#![allow(clippy::unwrap_used, clippy::panic, reason = "a test stops at the first surprise")]

#[path = "../laws/edit.rs"]
#[allow(dead_code, reason = "the builds alone are of use here")]
mod edit;
mod houses;
mod random;
mod support;
mod sweeps;
mod walls;

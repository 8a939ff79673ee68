//! Bodies of earthen walls: closed, as large as the integrals say, and sound in the eyes of a general library.
#![allow(clippy::unwrap_used, clippy::panic, reason = "a test stops at the first surprise")]

mod random;
mod support;
mod sweeps;
mod walls;

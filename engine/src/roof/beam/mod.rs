//! The bond beam as a ring: what poles do to it between its anchors and on the wall.
//!
//! What thrusts in plan is carried by the closed ring alone; the wall's friction holds evenly what does not balance itself. What
//! presses is carried by the earth beneath, close to its seat. What lifts spans from anchor to anchor.

mod bed;
mod fault;
mod frame;
mod given;
#[cfg(test)]
mod laws;
mod stops;
mod worst;

pub use bed::{bed_pressure, bed_stiffness, elastic_length, off_middle, off_share, width_needed};
pub use fault::Fault;
pub use frame::Answers;
pub use given::{Anchor, Beam, Presses};
pub use worst::{Forces, Left, Lifted, Resists, Under, Used, Worst};

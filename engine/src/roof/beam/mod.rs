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
mod scarfs;
mod stops;
mod worst;

pub use bed::{
    bed_pressure, bed_stiffness, earth_used, eased_pressure, elastic_length, foot_push, off_at_slip, off_middle,
    off_share, slip_share, width_needed,
};
pub use fault::Fault;
pub use frame::Answers;
pub use given::{Anchor, Beam, Presses};
pub use scarfs::{Scarfs, across_bolt, along_bolt, half_piece, handed_along, handed_over};
pub use worst::{Forces, Left, Lifted, Resists, Under, Used, Worst};

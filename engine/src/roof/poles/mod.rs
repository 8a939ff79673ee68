//! A ring of real poles: unequal, tapered, bowed, each resting on its neighbour, on any plate round any eye.

mod contact;
mod fault;
mod lie;
mod plan;
mod pole;
mod ring;

pub use fault::Fault;
pub use plan::supports;
pub use pole::{Hand, Layout, Pole, Rafter, Rests};
pub use ring::{Ring, Set, notches_for_pitch, ring};

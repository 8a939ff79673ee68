//! Plan curves: closed lines of straight runs and arcs with rounded corners. Coordinates are metres, angles radians.

mod line;
mod piece;
mod rounding;
mod strip;

pub use line::{LineFault, PlanLine, Run, Station, Vertex, Way};
pub use piece::{Bend, Piece};
pub use strip::Strip;

//! Plan curves: closed lines of straight runs and arcs with rounded corners. Coordinates are metres, angles radians.

mod along;
mod body;
mod cut;
mod form;
mod line;
mod piece;
mod rounding;
mod shape;

pub use along::{Along, Top};
pub use body::Body;
pub use cut::{Cut, Depth};
pub use form::Form;
pub use line::{LineFault, PlanLine, Run, Station, Vertex, Way};
pub use piece::{Bend, Piece};
pub use shape::{Jamb, Shape, Side};

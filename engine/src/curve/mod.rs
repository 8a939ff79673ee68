//! Plan curves: lines of straight runs, arcs and cubic curves with rounded corners, closed or open. Coordinates are metres,
//! angles radians.

mod along;
mod body;
mod chain;
mod cubic;
mod cut;
mod fault;
mod form;
mod line;
mod piece;
mod rounding;
mod shape;

pub use along::{Along, Top};
pub use body::Body;
pub use chain::Chain;
pub use cubic::{Cubic, CubicFault};
pub use cut::{Cut, Depth};
pub use fault::LineFault;
pub use form::Form;
pub use line::{Ends, Nearest, PlanLine, Run, Station, Vertex, Way};
pub use piece::{Bend, Piece};
pub use shape::{Jamb, Shape, Side};

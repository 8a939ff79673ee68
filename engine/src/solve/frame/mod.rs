//! Frames in space: straight members and links between nodes, loads, movements and forces.
//!
//! Bernoulli's beams, small turns. Each node has six movements: along x, y, z and about x, y, z. Member forces act in the
//! member's local axes: x from its first node to its second, z square to x and to the reference direction, y = z × x, then
//! both rolled about x. Units are the caller's: any set in which force = stiffness × length.

mod along;
mod answer;
mod buckling;
mod equations;
mod factorised;
mod fault;
mod held;
mod link;
mod load;
mod mechanism;
mod member;
mod model;
mod release;
mod second_order;
mod section;
mod small;
mod transfer;

pub use along::Place;
pub use answer::Answer;
pub use buckling::Buckling;
pub use factorised::Factorised;
pub use fault::{Direction, Fault};
pub use link::Link;
pub use load::{LoadCase, MemberLoad, Sense};
pub use member::{Member, Stretch};
pub use model::{Frame, Node, Support};
pub use section::{Constants, Section};
pub use small::{Six, Three};

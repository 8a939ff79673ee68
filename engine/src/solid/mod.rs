//! Closed meshes: bodies whose surface is made of triangles that share their corners.

mod band;
mod block;
mod clear;
mod course;
mod cuboid;
mod fault;
mod fill;
mod mesh;
mod places;
mod plug;
mod prism;
mod refine;
mod rim;
mod slice;
mod sweep;

pub use band::Band;
pub use cuboid::Cuboid;
pub use fault::Fault;
pub use mesh::Mesh;
pub use plug::{against, plug};
pub use prism::{across, frame, outline, prism};
pub use slice::slice;
pub use sweep::Sweep;

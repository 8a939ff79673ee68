//! Closed meshes: bodies whose surface is made of triangles that share their corners.

mod mesh;

pub use mesh::Mesh;

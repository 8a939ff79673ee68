//! The drawings of a house, one file each, and what they share.

pub mod area;
pub mod labels;
pub mod lettering_box;

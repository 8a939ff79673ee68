//! The drawings of a house, one file each, and what they share.

mod all;
pub mod area;
mod buckets;
mod dimension;
pub mod labels;
pub mod lettering_box;
mod material;
mod plan;
mod section;
mod sheet;

pub use all::{Drawing, all};
pub use buckets::{buckets, number as bucket_number};
pub use plan::{picture, plan};
pub use section::{section, trench_section, unrolled};

use crate::svg::Svg;

/// A drawing at a true scale.
#[derive(Clone, Debug)]
pub struct Scaled {
    /// The drawing, in millimetres of paper.
    pub svg: Svg,
    /// The scale in words, such as "1:50" or "1/4 in = 1 ft".
    pub scale: String,
    /// Labels that found no room: number and words.
    pub key: Vec<(usize, String)>,
}

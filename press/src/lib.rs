//! Answers in, bytes out: drawings as SVG, the build book as PDF. Places things on paper, computes nothing else.

pub mod batches;
pub mod book;
pub mod bricks;
pub mod drawing;
pub mod export;

pub mod fonts;
pub mod gltf;
pub mod lettering;
pub mod mixes;
pub mod orders;
pub mod panels;
pub mod paper;
pub mod plans;
pub mod samples;
pub mod soils;
mod spoken;
pub mod studies;
pub mod svg;

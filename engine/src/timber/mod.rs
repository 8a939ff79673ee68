//! Timber, round and sawn: sections, stresses, strengths by two codes, joints. Every check is a share used; limits are rules.

pub mod asd;
pub mod beam;
pub mod bolt;
pub mod crossing;
pub mod distances;
pub mod drying;
pub mod eurocode;
pub mod section;
pub mod splitting;
pub mod stress;
pub mod tables;
pub mod taper;
pub mod used;

//! The commands, one file each.

pub mod ask;
pub mod book;
pub mod check;
pub mod export;
pub mod new;
pub mod open;
pub mod order;
pub mod proof;
pub mod solids;

//! One build file in; every quantity, check and placed part out.
//!
//! ```text
//! text ─► build (as written) ─► house (nothing missing, placed) ─► quantities ─► structure ─► answers
//! ```
//!
//! Storeys, from the ground up; a module uses lower ones, and those of its own storey that stand before it:
//! 0 [`units`] [`sources`] · 1 [`problem`] [`known`] [`reason`] [`row`] [`check`] [`study`] · 2 `solve` · 3 [`curve`]
//! [`solid`] [`view`] [`rulebook`] [`tolerance`] [`facts`] · 4 the rooms [`earth`] [`ground`] [`loads`] [`oven`] [`roof`] [`set_out`] [`skin`]
//! [`timber`] [`wall`] [`yard`] · 5 [`build`] · 6 [`house`] · 7 the walks [`quantities`] [`structure`] [`money`] [`solids`] [`pictures`] · 8 [`studies`] · 9 [`answers`]
//! [`ask`] [`proof`]. `tests/tidy.rs` holds them to it.
//!
//! The engine has no disk, clock, network, environment or threads: all it knows comes in by [`answers::Inputs`].

pub mod units;

pub mod sources;

pub mod problem;

pub mod known;

pub mod reason;

pub mod row;

pub mod check;

pub mod study;

mod solve;
pub use solve::{frame, polygon};

pub mod curve;

pub mod solid;

pub mod view;

pub mod facts;
pub mod rulebook;
pub mod tolerance;

pub mod earth;
pub mod ground;
pub mod loads;
pub mod oven;
pub mod roof;
pub mod set_out;
pub mod skin;
pub mod timber;
pub mod wall;
pub mod yard;

pub mod edit;

pub mod build;

pub mod house;

pub mod money;
pub mod pictures;
pub mod quantities;
pub mod solids;
pub mod structure;

pub mod studies;

pub mod answers;
pub mod ask;
pub mod proof;

//! The bond beam on a wall, and what acts on it.

use super::super::standing::Wood;
use crate::units::{Force, Length, LineLoad};

/// A closed timber on the top of a wall.
#[derive(Clone, Debug, PartialEq)]
pub struct Beam {
    /// Its middle in plan, corner by corner all the way round; it lies level.
    pub line: Vec<[Length; 2]>,
    /// Its width.
    pub width: Length,
    /// Its height, all layers together.
    pub height: Length,
    /// Planks that lie on each other, each of which bends by itself.
    pub layers: u64,
    /// What it is of.
    pub wood: Wood,
    /// Where a pole lies on it; each counts at the nearest place of the line.
    pub seats: Vec<[Length; 2]>,
    /// Where it is tied down.
    pub anchors: Vec<Anchor>,
}

/// A place where the beam is tied down; it holds plumb alone.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Anchor {
    /// Where, in plan.
    pub at: [Length; 2],
    /// Newtons on each metre by which it gives; none for one that holds fast.
    pub gives: Option<LineLoad>,
}

/// What each pole does to the beam under one load, at its top: along x, along y, up.
pub type Presses = Vec<[Force; 3]>;

//! What a ring of poles is asked to stand under: its wood, its joints, its feet, its loads.

use super::Secondaries;
use crate::units::{Angle, Density, Force, Length, LineLoad, Pressure};

/// The wood of all poles.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Wood {
    /// Modulus of elasticity along the grain.
    pub young: Pressure,
    /// Shear modulus, for twist.
    pub shear: Pressure,
    /// Density as it hangs in the roof.
    pub density: Density,
}

/// How a pole passes its load on to the one it rests on.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Passing {
    /// Where they touch, beside both axes: a push along the common normal, and what a bolt or a lashing holds besides. Both
    /// stiffnesses are newtons on each metre by which the joint gives. The joint also pulls along the normal, with the
    /// stiffness of the push: whether a tie is there to do it is for the caller to check. It is a hinge about every axis.
    Touching {
        /// Along the normal.
        push: LineLoad,
        /// Across it; zero for a pole that merely lies there, which is a mechanism wherever nothing else guides it.
        tie: LineLoad,
    },
    /// Plumb alone, where the axes cross in plan, each pole guided by its foot in its own upright plane: what the closed
    /// forms of the roof take for granted.
    Plumb {
        /// Newtons on each metre by which the joint gives.
        push: LineLoad,
    },
}

/// Crossings and notches.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Joints {
    /// How loads pass.
    pub passing: Passing,
    /// How much of the depth of each notch is cut into the upper pole, at its rest; the lower one loses the remainder where it
    /// carries. From 0 to 1.
    pub upper_share: f64,
}

/// How the foot of every pole is held on the wall. Each is fast plumb, and keeps its pole from rolling about itself.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Feet {
    /// Free along the pole, held across it: the least that keeps the ring from turning round its eye.
    Sliding,
    /// Held in plan both ways.
    Held,
}

impl Feet {
    /// Both: between them lies what a wall does.
    pub const BOTH: [Feet; 2] = [Feet::Sliding, Feet::Held];
}

/// A plumb load on one pole, down above zero. Places count along the pole from its butt.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum OnPole {
    /// At one place.
    Point {
        /// The pole.
        pole: usize,
        /// Where.
        at: Length,
        /// How much.
        down: Force,
    },
    /// Along a stretch, changing evenly.
    Line {
        /// The pole.
        pole: usize,
        /// From where to where.
        span: [Length; 2],
        /// On each metre of the pole, where it starts and where it ends.
        down: [LineLoad; 2],
    },
}

/// Loads that come together: a person, a secondary rafter on its primaries.
#[derive(Clone, Debug, PartialEq)]
pub struct Extra {
    /// Their name.
    pub name: String,
    /// The loads.
    pub loads: Vec<OnPole>,
}

/// What a ring is loaded with besides its own weight: a load on the area in plan of four zones, and extra loads.
#[derive(Clone, Debug, PartialEq)]
pub struct Loading {
    /// Toward which side, from the middle of the eye, the half lies that is loaded first; anticlockwise from x.
    pub first_half: Angle,
    /// Extra loads.
    pub extras: Vec<Extra>,
    /// Secondary rafters that take from the poles what lies between them, and lay it on them where their trimmers or their heads are.
    pub between: Option<Secondaries>,
}

/// What acts at one time: a combination of a code with a pattern.
#[derive(Clone, Debug, PartialEq)]
pub struct Combination {
    /// Its name.
    pub name: String,
    /// How much of the poles' own weight.
    pub weight: f64,
    /// On the area in plan: inside first half, inside second half, eaves first half, eaves second half; below zero it lifts.
    pub areas: [Pressure; 4],
    /// How much of each extra load; those left out do not act.
    pub extras: Vec<f64>,
}

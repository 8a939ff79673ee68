//! What keeps poles from making a ring, in one sentence each; poles are counted from one.

use std::fmt;

use crate::units::Length;

/// Why poles do not make a ring, or what is wrong with the ring that they make.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Fault {
    /// Fewer than three poles.
    TooFew(usize),
    /// A pole without a size.
    NoSize(usize),
    /// A pole that does not cross its neighbours one after the other, beyond its support.
    NotRoundTheEye(usize),
    /// A direction that does not meet the plate, or meets it elsewhere than once before the eye.
    NoPlate(usize),
    /// A notch that is deeper than the poles are thick.
    NotchThrough(usize),
    /// Axes too far apart for the eye.
    NotClosing {
        /// How far apart the axes would have to be, on the mean.
        apart: Length,
        /// How far apart they can be.
        most: Length,
    },
    /// A support that is too high or too low for its pole to rise to the eye with the rest.
    PlateOutOfReach {
        /// The pole.
        place: usize,
        /// Its support above the mean of all.
        above_mean: Length,
    },
    /// A height that a pole cannot have at that place.
    HeightOutOfReach(usize),
    /// A pole that does not reach where it rests, and as far beyond as it should.
    TooShort {
        /// The pole.
        place: usize,
        /// Its length.
        length: Length,
        /// The length it needs.
        wanted: Length,
    },
    /// Two poles that are no neighbours and would lie in each other.
    Clash {
        /// The one.
        one: usize,
        /// The other.
        other: usize,
        /// How deep.
        overlap: Length,
    },
}

impl fmt::Display for Fault {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match *self {
            Fault::TooFew(count) => write!(f, "{count} poles make no ring; it takes three"),
            Fault::NoSize(place) => write!(
                f,
                "pole {}: length and diameters must be above zero, its bow less than its length, its overhang within it",
                place + 1
            ),
            Fault::NotRoundTheEye(place) => write!(
                f,
                "pole {} does not meet first the pole that it carries and then the one it rests on; turn its direction, \
                 or let the poles rest the other way round",
                place + 1
            ),
            Fault::NoPlate(place) => write!(f, "the direction of pole {} does not meet the plate once", place + 1),
            Fault::NotchThrough(place) => {
                write!(f, "pole {}: the notch where it rests is deeper than the poles are thick", place + 1)
            }
            Fault::NotClosing { apart, most } => write!(
                f,
                "the poles do not close round this eye: their axes would lie {:.0} mm apart, and must lie less than \
                 r sin(2π/n) = {:.0} mm apart; widen the eye, cut deeper or take thinner poles",
                apart.in_mm(),
                most.in_mm()
            ),
            Fault::PlateOutOfReach { place, above_mean } => write!(
                f,
                "the plate is out of level beyond reach: the support of pole {} lies {:.0} mm {} the mean",
                place + 1,
                above_mean.abs().in_mm(),
                if above_mean < Length::ZERO { "below" } else { "above" }
            ),
            Fault::HeightOutOfReach(place) => {
                write!(f, "pole {} cannot have that height there; measure again", place + 1)
            }
            Fault::TooShort { place, length, wanted } => {
                write!(f, "pole {} is {:.2} m long and needs {:.2} m", place + 1, length.in_m(), wanted.in_m())
            }
            Fault::Clash { one, other, overlap } => {
                write!(f, "poles {} and {} would lie {:.0} mm in each other", one + 1, other + 1, overlap.in_mm())
            }
        }
    }
}

//! Why a ring of poles has no forces, in one sentence each; poles are counted from one.

use std::fmt;

use super::super::poles;
use crate::solve::frame;

/// What keeps a ring from being answered.
#[derive(Clone, Debug, PartialEq)]
pub enum Fault {
    /// The poles make no ring, or one is too short for it.
    Ring(poles::Fault),
    /// A size or a stiffness that nothing has.
    Size(&'static str),
    /// A load beside its pole, or on a pole that is not there.
    Load(usize),
    /// A combination without a name for each thing asked of it.
    NoCombination,
    /// The ring moves without resistance, most of all at this pole.
    Mechanism {
        /// The pole.
        pole: usize,
        /// Which way.
        direction: frame::Direction,
    },
    /// The equations have no answer.
    Frame(frame::Fault),
}

impl From<poles::Fault> for Fault {
    fn from(fault: poles::Fault) -> Fault {
        Fault::Ring(fault)
    }
}

impl fmt::Display for Fault {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Fault::Ring(fault) => fault.fmt(f),
            Fault::Size(needs) => write!(f, "the ring needs {needs}"),
            Fault::Load(pole) => write!(f, "a load on pole {} must lie between its butt and its tip", pole + 1),
            Fault::NoCombination => write!(f, "without a combination of loads there are no forces"),
            Fault::Mechanism { pole, direction } => write!(
                f,
                "the ring moves without resistance: pole {} is free {}; tie its crossings or hold its foot",
                pole + 1,
                direction.in_words()
            ),
            Fault::Frame(fault) => fault.fmt(f),
        }
    }
}

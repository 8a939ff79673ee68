//! Why a bond beam is not answered, in one sentence each.

use std::fmt;

use crate::solve::frame;

/// What keeps the ring from being answered.
#[derive(Clone, Debug, PartialEq)]
pub enum Fault {
    /// A size or a line that nothing has.
    Size(&'static str),
    /// Fewer than three anchors, or all of them in a row: nothing keeps the ring from tipping up.
    Anchors(usize),
    /// The equations have no answer.
    Frame(frame::Fault),
}

impl fmt::Display for Fault {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Fault::Size(needs) => write!(f, "the bond beam needs {needs}"),
            Fault::Anchors(count) => write!(
                f,
                "{count} anchors do not keep the bond beam from tipping up; three or more, not in a row, would"
            ),
            Fault::Frame(fault) => fault.fmt(f),
        }
    }
}

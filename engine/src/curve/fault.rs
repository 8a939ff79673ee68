//! Why points do not make a plan line.

use super::cubic::CubicFault;

/// Why points do not make a line. Numbers are places in the list of points.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum LineFault {
    /// Two points with curved runs, or three, are the least of a closed line; two of an open one.
    TooFew,
    /// A point lies on the next one.
    SamePlace(usize),
    /// The three points of an arc lie on one straight line.
    FlatArc(usize),
    /// The curve from this point cannot be a run.
    Curve(usize, CubicFault),
    /// No circle of its radius fits the corner at this point.
    NoRoomToRound(usize),
    /// The roundings at both ends of the run from this point are longer than the run.
    RoundingsMeet(usize),
    /// Two runs cross or touch.
    Crosses(usize, usize),
    /// The line goes round with the room on the right.
    Clockwise,
}

impl LineFault {
    /// The fault in words; points are counted from 1.
    #[must_use]
    pub fn in_words(self) -> String {
        match self {
            LineFault::TooFew => "there are too few of them to go round a room".into(),
            LineFault::SamePlace(at) => format!("point {} lies on the next one", at + 1),
            LineFault::FlatArc(at) => format!("the arc from point {} passes through a point on its chord", at + 1),
            LineFault::Curve(at, CubicFault::NoTangent) => format!("the curve from point {} has no tangent", at + 1),
            LineFault::Curve(at, CubicFault::Cusp) => {
                format!("the curve from point {} turns about on the spot", at + 1)
            }
            LineFault::Curve(at, CubicFault::Loop) => format!("the curve from point {} crosses itself", at + 1),
            LineFault::NoRoomToRound(at) => format!("the rounding at point {} does not fit", at + 1),
            LineFault::RoundingsMeet(at) => format!("the roundings at both ends of the run from point {} meet", at + 1),
            LineFault::Crosses(a, b) => format!("the runs from points {} and {} cross", a + 1, b + 1),
            LineFault::Clockwise => "they go round with the room on the right".into(),
        }
    }
}

//! How much cob is left round a cut, found by going over its form in a grid.

use crate::curve::{Cut, Depth, Shape, Side, Station};

/// Steps of the grid up and across: faces are arcs and planes, so little escapes it.
const STEPS: u32 = 16;

/// What is left round a cut into one face, at its least, in metres.
pub(super) struct Cover {
    /// From the back of the cut to the other face.
    pub(super) behind: f64,
    /// From the face to the back of the cut; below zero where the back stands out of the face.
    pub(super) before: f64,
}

/// The least and the greatest y of a face in the frame of a station, in metres, between the jambs of a cut; `None` where a
/// jamb never meets it.
pub(super) fn reach(shape: &Shape<'_>, cut: &Cut, side: Side) -> Option<[f64; 2]> {
    let share = |step: u32| f64::from(step) / f64::from(STEPS);
    let (bottom, top) = (cut.form.bottom(), cut.form.top());
    let mut found = [f64::INFINITY, f64::NEG_INFINITY];
    for up in 0..=STEPS {
        let level = bottom + (top - bottom) * share(up);
        let [from, to] = cut.stretch(shape, side, level)?;
        for across in 0..=STEPS {
            let y = depth(shape, cut.station, side, from + (to - from) * share(across), level);
            found = [found[0].min(y), found[1].max(y)];
        }
    }
    Some(found)
}

/// How far outside of the line a face stands in the frame of a station, in metres.
fn depth(shape: &Shape<'_>, station: Station, side: Side, along: f64, level: f64) -> f64 {
    (shape.point(side, along, level) - station.point).dot(-station.axis.turn_90())
}

/// What is left round a cut into one face; `None` where a side of it never meets a face.
pub(super) fn cover(shape: &Shape<'_>, cut: &Cut) -> Option<Cover> {
    let (inner, outer) = (reach(shape, cut, Side::Inner)?, reach(shape, cut, Side::Outer)?);
    Some(match cut.depth {
        Depth::Into { side: Side::Inner, bottom } => Cover { behind: outer[0] - bottom, before: bottom - inner[1] },
        Depth::Into { side: Side::Outer, bottom } => Cover { behind: bottom - inner[1], before: outer[0] - bottom },
        Depth::Through { .. } => Cover { behind: 0.0, before: outer[0] - inner[1] },
    })
}

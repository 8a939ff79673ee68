//! What a lift is checked with, with nothing missing: spirit levels for the batter, the gauge of a bulge.

use super::place::within;
use crate::build::{self, Source, Written};
use crate::known::{Known, Origin};
use crate::units::{Length, System};

/// What a lift is checked with.
#[derive(Clone, Debug)]
pub struct Gauge {
    /// Lengths of the short and the long spirit level.
    pub levels: [Known<Length>; 2],
    /// Where wet cob is watched, above the foot of the lift.
    pub bulge_at: Known<Length>,
    /// The bulge at which the lift is stopped.
    pub bulge_stop: Known<Length>,
}

/// What a lift of a build file is checked with.
pub(super) fn place(source: &Source<'_>, written: &build::Gauge, system: System) -> Gauge {
    let length = |written: &Option<Written<Length>>, [from, to]: [f64; 2], what: &str, or: Known<Length>| {
        within(source, written.as_ref(), Length::mm(from)..Length::mm(to), what, system).unwrap_or(or)
    };
    let level = |written: &Option<Written<Length>>, usual: f64, path: &'static str| {
        let why = "the two spirit levels that most builders have";
        let usual = Known::assumed(Length::mm(usual), path, Origin::CommonPractice, why);
        length(written, [100.0, 4000.0], "the length of a spirit level", usual)
    };
    let why = "a string or caliper this far above the foot of the lift shows a bulge first";
    let at = Known::assumed(Length::mm(100.0), "wall.bulge.at", Origin::Judgement, why);
    let why = "more than a hand's unevenness; a bulge that is seen stops the work sooner";
    let stop = Known::assumed(Length::mm(10.0), "wall.bulge.stop", Origin::Judgement, why);
    Gauge {
        levels: [level(&written.short, 600.0, "wall.gauge.short"), level(&written.long, 1200.0, "wall.gauge.long")],
        bulge_at: length(&written.bulge_at, [0.0, 1000.0], "a level of a bulge gauge over the foot of a lift", at),
        bulge_stop: length(&written.bulge_stop, [1.0, 60.0], "a bulge at which a lift is stopped", stop),
    }
}

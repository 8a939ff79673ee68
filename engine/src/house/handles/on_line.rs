//! From a place on the rounded line to a run and a distance along it, as the build file says it.

use crate::curve::PlanLine;

/// Halvings of a stretch of a run that a rounding cut off.
const HALVINGS: u32 = 40;

/// The run, by place in the list of points, and the distance along it that stand for a distance along the line, in metres.
pub(super) fn on_a_run(line: &PlanLine, along: f64) -> (usize, f64) {
    let station = line.at(along);
    let owner = line.owner(station.piece);
    if !line.is_corner(station.piece) {
        return (owner, line.runs()[owner].whole.nearest(station.point));
    }
    // The first half of a rounding stands for the end of the run before, the second for the beginning of its own.
    let half = 0.5 * line.pieces()[station.piece].length();
    let (run, mut stretch) = if station.along < half {
        let before = (owner + line.runs().len() - 1) % line.runs().len();
        (before, [line.runs()[before].to, line.runs()[before].whole.length()])
    } else {
        (owner, [0.0, line.runs()[owner].from])
    };
    let whole = line.length();
    let start = line.start(station.piece);
    for _ in 0..HALVINGS {
        let middle = stretch[0].midpoint(stretch[1]);
        let Some(found) = line.station(run, middle) else { break };
        let turns = (line.along_line(found) - start) - station.along;
        let is_before = (turns + 0.5 * whole).rem_euclid(whole) - 0.5 * whole < 0.0;
        stretch[usize::from(!is_before)] = middle;
    }
    (run, stretch[0].midpoint(stretch[1]))
}

/// Distance of the first named point along the line, in metres.
pub(super) fn first(line: &PlanLine) -> f64 {
    line.along_line(line.named_point(0))
}

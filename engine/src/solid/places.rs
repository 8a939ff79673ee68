//! Where along a line a body has points, so that neighbours have the same.

use crate::curve::PlanLine;

/// Lengths shorter than this, in metres, are not kept apart.
pub const SNAP: f64 = 2e-4;

/// Distances along the whole line, from its start up to, not including, its end, in metres: the joints of its pieces, the
/// knots, and between them so many that a face as far from the line as `reach` stays within a chord error, all in metres.
///
/// ```text
/// step = R √(8 e / (R + reach))        R: radius of the line, e: chord error
/// ```
/// Source: height of a flat circular segment, elementary geometry.
pub fn places(line: &PlanLine, knots: &[f64], reach: f64, chord: f64) -> Vec<f64> {
    let length = line.length();
    let mut turned: Vec<f64> = knots.iter().map(|knot| knot.rem_euclid(length)).collect();
    turned.sort_by(f64::total_cmp);
    let mut places = Vec::new();
    for (index, piece) in line.pieces().iter().enumerate() {
        let (start, end) = (line.start(index), line.start(index + 1));
        let step = match piece.curvature().abs() {
            0.0 => f64::INFINITY,
            bend => (8.0 * chord / (1.0 / bend + reach)).sqrt().min(0.4) / bend,
        };
        let mut from = start;
        let inside = turned.iter().copied().filter(|knot| start + SNAP < *knot && *knot < end - SNAP);
        for to in inside.chain([end]) {
            if to - from < SNAP && to != end {
                continue;
            }
            let parts = ((to - from) / step).ceil().clamp(1.0, 65536.0);
            let mut part = 0.0;
            while part < parts {
                places.push(from + (to - from) * part / parts);
                part += 1.0;
            }
            from = to;
        }
    }
    places
}

/// The same places on a stretch of the line, and its ends; in metres, past the length of a closed line where it lies across
/// its start.
pub fn stretched(places: &[f64], length: f64, [from, to]: [f64; 2]) -> Vec<f64> {
    let mut within = vec![from];
    let mut turn = (from / length).floor() * length;
    while turn < to {
        within.extend(places.iter().map(|place| place + turn).filter(|at| from + SNAP < *at && *at < to - SNAP));
        turn += length;
    }
    within.push(to);
    within
}

/// Adds a place where none is near.
pub fn insert(places: &mut Vec<f64>, at: f64) {
    let next = places.partition_point(|place| *place < at);
    let is_near = |place: Option<&f64>| place.is_some_and(|place| (place - at).abs() < SNAP);
    if !is_near(places.get(next)) && !is_near(next.checked_sub(1).and_then(|before| places.get(before))) {
        places.insert(next, at);
    }
}

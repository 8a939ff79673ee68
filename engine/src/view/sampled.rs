//! Which faces are seen at all: of each sample of the picture, the face nearest to the viewer.

use super::Facing;

/// Samples across the picture, at most.
const MOST: f64 = 1200.0;

/// The faces that are nearest at some sample, samples `step` metres apart.
pub(super) fn seen(faces: Vec<Facing>, step: f64) -> Vec<Facing> {
    let (mut low, mut high) = ([f64::INFINITY; 2], [f64::NEG_INFINITY; 2]);
    for (point, _) in faces.iter().flat_map(|face| &face.corners) {
        for axis in 0..2 {
            (low[axis], high[axis]) = (low[axis].min(point[axis]), high[axis].max(point[axis]));
        }
    }
    let size = [high[0] - low[0], high[1] - low[1]];
    if !(size[0].is_finite() && size[1].is_finite()) {
        return faces;
    }
    let step = step.max(size[0] / MOST).max(size[1] / MOST);
    let count = size.map(|side| (side / step) as usize + 1);
    let mut nearest = vec![(f32::NEG_INFINITY, u32::MAX); count[0] * count[1]];
    for (index, face) in faces.iter().enumerate() {
        let [right, up, toward] = face.normal;
        let origin = face.corners[0].0;
        let vertical = face.corners.iter().map(|(point, _)| point[1]);
        let (bottom, top) = vertical.fold((f64::INFINITY, f64::NEG_INFINITY), |(a, b), y| (a.min(y), b.max(y)));
        let rows = samples([bottom, top], low[1], step, count[1]);
        for row in rows {
            let y = low[1] + (row as f64 + 0.5) * step;
            let Some(span) = span(face, y) else { continue };
            let depth = |x: f64| origin[2] - (right * (x - origin[0]) + up * (y - origin[1])) / toward;
            for column in samples(span, low[0], step, count[0]) {
                let depth = depth(low[0] + (column as f64 + 0.5) * step) as f32;
                let sample = &mut nearest[row * count[0] + column];
                if depth >= sample.0 {
                    *sample = (depth, index as u32);
                }
            }
        }
    }
    let mut is_seen = vec![false; faces.len()];
    for (_, face) in nearest {
        if let Some(seen) = is_seen.get_mut(face as usize) {
            *seen = true;
        }
    }
    faces.into_iter().zip(is_seen).filter_map(|(face, seen)| seen.then_some(face)).collect()
}

/// The samples whose middles lie within a span.
fn samples([from, to]: [f64; 2], low: f64, step: f64, count: usize) -> std::ops::Range<usize> {
    let place = |at: f64| (((at - low) / step + 0.5).floor().max(0.0) as usize).min(count);
    place(from)..place(to)
}

/// From where to where a face lies at a height of the picture.
fn span(face: &Facing, y: f64) -> Option<[f64; 2]> {
    let (mut left, mut right) = (f64::INFINITY, f64::NEG_INFINITY);
    let count = face.corners.len();
    for place in 0..count {
        let (a, b) = (face.corners[place].0, face.corners[(place + 1) % count].0);
        if (a[1] <= y) != (b[1] <= y) {
            let x = a[0] + (b[0] - a[0]) * (y - a[1]) / (b[1] - a[1]);
            (left, right) = (left.min(x), right.max(x));
        }
    }
    (left < right).then_some([left, right])
}

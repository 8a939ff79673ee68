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
    let per_metre = 1.0 / step;
    let count = size.map(|side| (side / step) as usize + 1);
    let mut depths = vec![f32::NEG_INFINITY; count[0] * count[1]];
    let mut nearest = vec![u32::MAX; depths.len()];
    for (face, index) in faces.iter().zip(0_u32..) {
        let [right, up, toward] = face.normal;
        let origin = face.corners[0].0;
        let vertical = face.corners.iter().map(|(point, _)| point[1]);
        let (bottom, top) = vertical.fold((f64::INFINITY, f64::NEG_INFINITY), |(a, b), y| (a.min(y), b.max(y)));
        let [along, across] = [-right / toward, -up / toward];
        let per_column = (along * step) as f32;
        for row in samples([bottom, top], low[1], per_metre, count[1]) {
            let y = low[1] + (row as f64 + 0.5) * step;
            let Some(span) = span(face, y) else { continue };
            let columns = samples(span, low[0], per_metre, count[0]);
            if columns.is_empty() {
                continue;
            }
            let x = low[0] + (columns.start as f64 + 0.5) * step;
            let first = (origin[2] + along * (x - origin[0]) + across * (y - origin[1])) as f32;
            let own = row * count[0] + columns.start..row * count[0] + columns.end;
            let (Some(depths), Some(nearest)) = (depths.get_mut(own.clone()), nearest.get_mut(own)) else { continue };
            for ((column, depth), nearest) in (0_i32..).zip(depths).zip(nearest) {
                let here = first + per_column * column as f32;
                let is_nearer = here >= *depth;
                *depth = if is_nearer { here } else { *depth };
                *nearest = if is_nearer { index } else { *nearest };
            }
        }
    }
    let mut is_seen = vec![false; faces.len()];
    for face in nearest {
        if let Some(seen) = is_seen.get_mut(face as usize) {
            *seen = true;
        }
    }
    faces.into_iter().zip(is_seen).filter_map(|(face, seen)| seen.then_some(face)).collect()
}

/// The samples whose middles lie within a span.
fn samples([from, to]: [f64; 2], low: f64, per_metre: f64, count: usize) -> std::ops::Range<usize> {
    let place = |at: f64| (((at - low) * per_metre + 0.5).max(0.0) as usize).min(count);
    place(from)..place(to)
}

/// From where to where a face lies at a height of the picture.
fn span(face: &Facing, y: f64) -> Option<[f64; 2]> {
    let (mut left, mut right) = (f64::INFINITY, f64::NEG_INFINITY);
    let mut before = face.corners.last()?.0;
    for (corner, _) in &face.corners {
        let (a, b) = (std::mem::replace(&mut before, *corner), *corner);
        if (a[1] <= y) != (b[1] <= y) {
            let x = a[0] + (b[0] - a[0]) * (y - a[1]) / (b[1] - a[1]);
            (left, right) = (left.min(x), right.max(x));
        }
    }
    (left < right).then_some([left, right])
}

//! Faces from back to front: a tree of the faces' own planes that splits what a plane passes through.

use super::{Corner, Facing, dot, less};

/// How far a corner may lie from a plane and still lie in it, in metres.
const ON: f64 = 1e-4;
/// Planes tried at each branch of the tree.
const TRIED: usize = 6;
/// Faces that a plane is tried on, about so many.
const ASKED: usize = 64;
/// A face split counts as so many faces on the heavier side.
const FOR_SPLIT: usize = 30;

/// What is still to be done, the last of them next.
enum Task {
    Order(Vec<Facing>),
    Draw(Vec<Facing>),
}

/// Faces that look towards the viewer, from back to front.
///
/// What lies behind the plane of a face that looks towards the viewer never hides it, and what lies before it is never hidden
/// by it. Source: the tree of planes, any textbook of computer graphics.
pub(super) fn ordered(faces: Vec<Facing>) -> Vec<Facing> {
    let mut drawn = Vec::with_capacity(faces.len());
    let mut tasks = vec![Task::Order(faces)];
    while let Some(task) = tasks.pop() {
        match task {
            Task::Draw(faces) => drawn.extend(faces),
            Task::Order(mut faces) if faces.len() < 2 => drawn.append(&mut faces),
            Task::Order(faces) => {
                let [behind, within, before] = parted(faces);
                tasks.push(Task::Order(before));
                tasks.push(Task::Draw(within));
                tasks.push(Task::Order(behind));
            }
        }
    }
    drawn
}

/// The plane of a face: a point of it and its normal.
type Plane = ([f64; 3], [f64; 3]);

fn plane(face: &Facing) -> Plane {
    (face.corners[0].0, face.normal)
}

fn parted(faces: Vec<Facing>) -> [Vec<Facing>; 3] {
    let step = faces.len().div_ceil(TRIED);
    let best = (0..faces.len()).step_by(step).min_by_key(|&index| cost(&faces, &plane(&faces[index]))).unwrap_or(0);
    let plane = plane(&faces[best]);
    let mut parts = [Vec::new(), Vec::new(), Vec::new()];
    for (index, face) in faces.into_iter().enumerate() {
        match sides(&face, &plane) {
            // The face of the plane itself lies in it, whatever its corners say.
            _ if index == best => parts[1].push(face),
            [false, false] => parts[1].push(face),
            [true, false] => parts[0].push(face),
            [false, true] => parts[2].push(face),
            [true, true] => {
                let [behind, before] = split(&face, &plane);
                parts[0].extend(behind);
                parts[2].extend(before);
            }
        }
    }
    parts
}

fn cost(faces: &[Facing], plane: &Plane) -> usize {
    let (mut counts, mut splits) = ([0_usize; 2], 0);
    for face in faces.iter().step_by(faces.len().div_ceil(ASKED)) {
        let [behind, before] = sides(face, plane);
        counts[0] += usize::from(behind);
        counts[1] += usize::from(before);
        splits += usize::from(behind && before);
    }
    splits * FOR_SPLIT + counts[0].max(counts[1])
}

/// Whether a face reaches behind a plane, and before it.
fn sides(face: &Facing, (origin, normal): &Plane) -> [bool; 2] {
    let mut sides = [false; 2];
    for (corner, _) in &face.corners {
        let height = dot(less(*corner, *origin), *normal);
        sides[0] |= height < -ON;
        sides[1] |= height > ON;
    }
    sides
}

/// What of a face lies behind a plane, and what before it; the new edges are not drawn.
fn split(face: &Facing, (origin, normal): &Plane) -> [Option<Facing>; 2] {
    let heights: Vec<f64> = face.corners.iter().map(|(corner, _)| dot(less(*corner, *origin), *normal)).collect();
    [-1.0, 1.0].map(|side| {
        let mut kept: Vec<Corner> = Vec::new();
        let count = heights.len();
        for place in 0..count {
            let next = (place + 1) % count;
            let (here, there) = (heights[place] * side, heights[next] * side);
            let (corner, is_drawn) = face.corners[place];
            if here >= 0.0 {
                kept.push((corner, is_drawn && (here > 0.0 || there > 0.0)));
            }
            if (here > 0.0 && there < 0.0) || (here < 0.0 && there > 0.0) {
                let share = here / (here - there);
                let end = face.corners[next].0;
                let at = [0, 1, 2].map(|axis| corner[axis] + (end[axis] - corner[axis]) * share);
                kept.push((at, is_drawn && here < 0.0));
            }
        }
        (kept.len() > 2).then(|| Facing { corners: kept, ..face.clone() })
    })
}

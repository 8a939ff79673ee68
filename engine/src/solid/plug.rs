//! What fills a cut from face to face, or stands before one face: a lintel, the glass of a bottle brick, a buttress.

use super::fault::Fault;
use super::fill::fill;
use super::mesh::Mesh;
use super::places::places;
use super::rim::{Rim, SIDES, Spot};
use crate::curve::{Cut, Shape, Side};

/// Corners nearer to each other than this are one, in metres.
const SAME: f64 = 1e-9;

/// The body that fills a straight cut between the two faces of a wall, no chord farther from a curve than `chord` metres.
///
/// # Errors
/// [`Fault::NoMeeting`] where a side never meets a face; [`Fault::Tangled`] where an outline crosses itself.
pub fn plug(shape: &Shape<'_>, cut: &Cut, chord: f64) -> Result<Mesh, Fault> {
    let spots = spots(shape, cut, chord)?;
    let place = |face: usize, spot: &Spot| {
        let point = shape.point(SIDES[face], spot.along[face], spot.at[1]);
        [point.x, point.y, spot.at[1]]
    };
    let flat = |face: usize, spot: &Spot| [spot.along[face], spot.at[1]];
    between(&spots, place, flat, [0, 1])
}

/// The body that stands before one face of a wall within a straight cut's outline, up to a flat front: the front lies outside
/// of the line, in the frame of the cut, by so much at the foot of the outline and so much at its top; all in metres.
///
/// # Errors
/// As [`plug`].
pub fn against(shape: &Shape<'_>, cut: &Cut, side: Side, front: [f64; 2], chord: f64) -> Result<Mesh, Fault> {
    let spots = spots(shape, cut, chord)?;
    let back = SIDES.iter().position(|face| *face == side).unwrap_or(0);
    let [low, high] = [cut.form.bottom(), cut.form.top()];
    let right = -cut.station.axis.turn_90();
    let place = |face: usize, spot: &Spot| {
        let [x, level] = spot.at;
        // The front lies beyond the face that it stands before, the face takes the place of the opposite one.
        let point = if face == back {
            cut.station.point
                + cut.station.axis * x
                + right * (front[0] + (front[1] - front[0]) * (level - low) / (high - low))
        } else {
            shape.point(side, spot.along[back], level)
        };
        [point.x, point.y, level]
    };
    let flat = |face: usize, spot: &Spot| {
        if face == back { spot.at } else { [spot.along[back], spot.at[1]] }
    };
    between(&spots, place, flat, [back; 2])
}

/// The outline of a cut with a point wherever it crosses an upright line of a face.
fn spots(shape: &Shape<'_>, cut: &Cut, chord: f64) -> Result<Vec<Spot>, Fault> {
    let mut rim = Rim::within(shape, (0, cut), [None; 2], chord)?.ok_or(Fault::Nowhere)?;
    let length = shape.line.length();
    let once = places(shape.line, &[], 0.5 * shape.thickness.range()[1], chord);
    let round: Vec<f64> = [-length, 0.0, length].iter().flat_map(|turn| once.iter().map(move |at| at + turn)).collect();
    rim.refine(shape, &round)?;
    Ok(rim.chains.into_iter().flat_map(|chain| chain.spots).collect())
}

/// The body between two sheets over one outline, the first towards the inside: where each has a point, and where that lies
/// when the sheet is laid flat; and the face whose upright lines part each sheet.
fn between(
    spots: &[Spot],
    place: impl Fn(usize, &Spot) -> [f64; 3],
    flat: impl Fn(usize, &Spot) -> [f64; 2],
    parted: [usize; 2],
) -> Result<Mesh, Fault> {
    let mut mesh = Mesh::default();
    let corners: Vec<[u32; 2]> = spots
        .iter()
        .map(|spot| {
            let [inner, outer] = [0, 1].map(|face| place(face, spot));
            let apart = (0..3).any(|axis| (inner[axis] - outer[axis]).abs() > SAME);
            let first = mesh.point(inner);
            [first, if apart { mesh.point(outer) } else { first }]
        })
        .collect();
    let count = spots.len();
    let sides: Vec<[usize; 2]> = (0..count).map(|at| [at, (at + 1) % count]).collect();
    for face in [0, 1] {
        let laid: Vec<[f64; 2]> = spots.iter().map(|spot| flat(face, spot)).collect();
        let mut lines: Vec<[usize; 2]> = Vec::new();
        let line = |spot: &Spot| spot.lines[parted[face]];
        for (at, spot) in spots.iter().enumerate().filter(|(_, spot)| line(spot).is_some()) {
            lines.extend(spots[..at].iter().position(|other| line(other) == line(spot)).map(|other| [other, at]));
        }
        for [a, b, c] in fill(&laid, &sides, &lines)? {
            let [a, b, c] = [a, b, c].map(|at| corners[at][face]);
            mesh.triangle(if face == 1 { [a, b, c] } else { [a, c, b] });
        }
    }
    for [from, to] in sides {
        mesh.quad([corners[from][1], corners[from][0], corners[to][0], corners[to][1]]);
    }
    Ok(mesh)
}

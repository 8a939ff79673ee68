//! What fills a cut from face to face: a lintel, the glass of a bottle brick.

use super::fault::Fault;
use super::fill::fill;
use super::mesh::Mesh;
use super::places::places;
use super::rim::{Rim, SIDES, Spot};
use crate::curve::{Cut, Shape};

/// The body that fills a straight cut between the two faces of a wall, no chord farther from a curve than `chord` metres.
///
/// # Errors
/// [`Fault::NoMeeting`] where a side never meets a face; [`Fault::Tangled`] where an outline crosses itself.
pub fn plug(shape: &Shape<'_>, cut: &Cut, chord: f64) -> Result<Mesh, Fault> {
    let mut rim = Rim::within(shape, (0, cut), [None; 2], chord)?.ok_or(Fault::Nowhere)?;
    let length = shape.line.length();
    let once = places(shape.line, &[], 0.5 * shape.thickness.range()[1], chord);
    let round: Vec<f64> = [-length, 0.0, length].iter().flat_map(|turn| once.iter().map(move |at| at + turn)).collect();
    rim.refine(shape, &round)?;
    let mut mesh = Mesh::default();
    let spots: Vec<Spot> = rim.chains.into_iter().flat_map(|chain| chain.spots).collect();
    let corners: Vec<[u32; 2]> = spots
        .iter()
        .map(|spot| {
            [0, 1].map(|face| {
                let point = shape.point(SIDES[face], spot.along[face], spot.at[1]);
                mesh.point([point.x, point.y, spot.at[1]])
            })
        })
        .collect();
    let count = spots.len();
    let sides: Vec<[usize; 2]> = (0..count).map(|at| [at, (at + 1) % count]).collect();
    for face in [0, 1] {
        let flat: Vec<[f64; 2]> = spots.iter().map(|spot| [spot.along[face], spot.at[1]]).collect();
        let mut lines: Vec<[usize; 2]> = Vec::new();
        for (at, spot) in spots.iter().enumerate().filter(|(_, spot)| spot.lines[face].is_some()) {
            let other = spots[..at].iter().position(|other| other.lines[face] == spot.lines[face]);
            lines.extend(other.map(|other| [other, at]));
        }
        for [a, b, c] in fill(&flat, &sides, &lines)? {
            let [a, b, c] = [a, b, c].map(|at| corners[at][face]);
            mesh.triangle(if face == 1 { [a, b, c] } else { [a, c, b] });
        }
    }
    for [from, to] in sides {
        mesh.quad([corners[from][1], corners[from][0], corners[to][0], corners[to][1]]);
    }
    Ok(mesh)
}

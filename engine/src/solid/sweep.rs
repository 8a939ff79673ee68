//! A profile led along the line: bench, bond beam, plinth, filling of a trench.

use super::fault::Fault;
use super::fill::fill;
use super::mesh::Mesh;
use super::places::{insert, places, stretched};
use crate::curve::PlanLine;
use crate::solve::quadrature::integral;

/// A closed profile led along a line, which it may change on its way.
#[derive(Clone, Copy)]
pub struct Sweep<'a> {
    /// The line.
    pub line: &'a PlanLine,
    /// From where to where along it, in metres, with flat ends; all round it when `None`.
    pub stretch: Option<[f64; 2]>,
    /// The profile at a distance along the line, walked either way round: offset to the right and level, in metres; everywhere
    /// the same number of points.
    pub profile: &'a dyn Fn(f64) -> Vec<[f64; 2]>,
    /// Distances along the line at which the profile begins to change otherwise, in metres.
    pub knots: &'a [f64],
}

impl Sweep<'_> {
    /// Its surface, no farther from the true one than a chord error, in metres.
    ///
    /// # Errors
    /// [`Fault::ProfilePoints`], [`Fault::Folds`] where the profile reaches past the middle of a bend, [`Fault::Tangled`]
    /// when the profile crosses itself at an end.
    pub fn mesh(&self, chord: f64) -> Result<Mesh, Fault> {
        let is_ring = self.is_ring();
        let along = self.untwisted(self.places(chord), chord);
        let mut mesh = Mesh::default();
        let mut rings: Vec<Vec<u32>> = Vec::new();
        let mut turn = 0.0;
        for (index, &at) in along.iter().enumerate() {
            if is_ring && index == along.len() - 1 {
                rings.push(rings[0].clone());
                continue;
            }
            let profile = (self.profile)(at);
            if profile.len() < 3 || rings.first().is_some_and(|first| first.len() != profile.len()) {
                return Err(Fault::ProfilePoints);
            }
            self.folds(&along, index, &profile)?;
            let twice = 2.0 * moments(&profile)[0];
            if twice.abs() > f64::abs(turn) {
                turn = twice;
            }
            let station = self.line.at(at);
            let right = -station.axis.turn_90();
            let point = |&[aside, level]: &[f64; 2]| {
                let point = station.point + right * aside;
                mesh.point([point.x, point.y, level])
            };
            rings.push(profile.iter().map(point).collect());
        }
        if turn < 0.0 {
            rings.iter_mut().for_each(|ring| ring.reverse());
        }
        for (column, pair) in rings.windows(2).enumerate() {
            let count = pair[0].len();
            for corner in 0..count {
                let next = (corner + 1) % count;
                let patch = [pair[0][next], pair[0][corner], pair[1][corner], pair[1][next]];
                // Of a twisted patch one diagonal holds as much too much as the other holds too little.
                let [a, b, c, d] = patch;
                mesh.quad(if column % 2 == 0 { patch } else { [b, c, d, a] });
            }
        }
        if !is_ring {
            let last = rings.len() - 1;
            for end in [0, last] {
                let mut profile = (self.profile)(along[end]);
                if turn < 0.0 {
                    profile.reverse();
                }
                let sides: Vec<[usize; 2]> = (0..profile.len()).map(|at| [at, (at + 1) % profile.len()]).collect();
                for corners in fill(&profile, &sides, &[])? {
                    let [a, b, c] = corners.map(|corner| rings[end][corner]);
                    mesh.triangle(if end == 0 { [a, b, c] } else { [c, b, a] });
                }
            }
        }
        Ok(mesh.tidied())
    }

    /// Volume, in m³.
    ///
    /// ```text
    /// V = ∫ ∫∫ (1 + κ n) dn dz ds        n: offset to the right, κ: curvature of the line
    /// ```
    /// Source: volume element of a tube about a plane curve, any textbook of differential geometry. Exact where the profile
    /// changes evenly between the knots.
    #[must_use]
    pub fn volume(&self) -> f64 {
        let along = self.places(f64::INFINITY);
        let part = |pair: &[f64]| {
            let bend = self.bend(0.5 * (pair[0] + pair[1])).1;
            integral(pair[0], pair[1], |at| {
                let [area, moment] = moments(&(self.profile)(at));
                area.signum() * (area + bend * moment)
            })
        };
        along.windows(2).map(part).sum()
    }

    fn is_ring(&self) -> bool {
        self.stretch.is_none() && self.line.is_closed()
    }

    fn places(&self, chord: f64) -> Vec<f64> {
        let length = self.line.length();
        let start = self.stretch.map_or(0.0, |stretch| stretch[0]);
        let reach = (self.profile)(start).iter().map(|point| point[0]).fold(0.0, f64::max);
        let mut whole = places(self.line, &[], reach, chord);
        for knot in self.knots {
            insert(&mut whole, knot.rem_euclid(length));
        }
        if self.is_ring() {
            whole.push(whole[0] + length);
            whole
        } else {
            stretched(&whole, length, self.stretch.unwrap_or([0.0, length]))
        }
    }

    /// The same places and, where a side of the profile turns on its way, an even number of parts between them so that its
    /// triangles keep within the chord error.
    fn untwisted(&self, along: Vec<f64>, chord: f64) -> Vec<f64> {
        let mut all = vec![along[0]];
        for pair in along.windows(2) {
            let [from, to] = [(self.profile)(pair[0]), (self.profile)(pair[1])];
            let side = |of: &[[f64; 2]], at: usize| {
                of.get(at).map_or([0.0; 2], |a| [0, 1].map(|part| of[(at + 1) % of.len()][part] - a[part]))
            };
            let twist = |at: usize| {
                let (a, b) = (side(&from, at), side(&to, at));
                let longer = a[0].hypot(a[1]).max(b[0].hypot(b[1])).max(1e-9);
                (a[0] * b[1] - a[1] * b[0]).abs() / longer
            };
            let most = (0..from.len()).map(twist).fold(0.0, f64::max);
            // A patch lies a quarter of its twist off its diagonal.
            let parts = if most < 1e-9 { 1 } else { 2 * (most / (8.0 * chord)).ceil().clamp(1.0, 4096.0) as usize };
            all.extend((1..=parts).map(|part| pair[0] + (pair[1] - pair[0]) * part as f64 / parts as f64));
        }
        all
    }

    /// The piece at a distance along the line, and its curvature in 1/m.
    fn bend(&self, at: f64) -> (usize, f64) {
        let piece = self.line.at(at).piece;
        (piece, self.line.pieces()[piece].curvature())
    }

    fn folds(&self, along: &[f64], index: usize, profile: &[[f64; 2]]) -> Result<(), Fault> {
        let neighbours = [index.checked_sub(1), Some(index + 1)].into_iter().flatten();
        for other in neighbours.filter_map(|other| along.get(other)) {
            let (piece, bend) = self.bend(0.5 * (along[index] + other));
            if profile.iter().any(|point| 1.0 + bend * point[0] < 1e-6) {
                return Err(Fault::Folds(piece));
            }
        }
        Ok(())
    }
}

/// ∫ dn dz and ∫ n dn dz over a profile, positive where it is walked counter-clockwise.
fn moments(profile: &[[f64; 2]]) -> [f64; 2] {
    let (mut area, mut moment) = (0.0, 0.0);
    for (index, a) in profile.iter().enumerate() {
        let b = profile[(index + 1) % profile.len()];
        let cross = a[0] * b[1] - a[1] * b[0];
        area += 0.5 * cross;
        moment += cross * (a[0] + b[0]) / 6.0;
    }
    [area, moment]
}

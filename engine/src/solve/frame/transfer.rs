//! How a member bends in one of its planes when the force along it counts: exact also where the section changes.
//!
//! In the plane of x and y, with the movement v, the turn θ, the moment M, and the force R across the straight axis:
//!
//! ```text
//! v' = θ,   θ' = M/EI,   M = M₀ + ∫ N θ dx
//! ```
//! where M₀ is the moment that statics gives on the straight axis and N the pull along it. The integral equations are solved
//! by repeated insertion on the places of the eight-point rule, stretch by stretch, to rounding: stability functions of a
//! member of any section. The plane of x and z is the same with v = −w.

use crate::solve::quadrature::places;

use super::held::{cuts, inside, section_at};
use super::load::Burden;
use super::member::{Bar, Member};
use super::small::{Square, Twelve};

/// One of the two planes of bending.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Plane {
    /// Bending about z.
    AboutZ,
    /// Bending about y.
    AboutY,
}

impl Plane {
    pub const BOTH: [Plane; 2] = [Plane::AboutZ, Plane::AboutY];

    /// Movement across, turn.
    pub fn at(self) -> [usize; 2] {
        match self {
            Plane::AboutZ => [1, 5],
            Plane::AboutY => [2, 4],
        }
    }

    /// Which way a movement across counts.
    pub fn sign(self) -> f64 {
        match self {
            Plane::AboutZ => 1.0,
            Plane::AboutY => -1.0,
        }
    }
}

/// Four solutions side by side: for a unit turn, a unit moment and a unit force across at the first end, and for the loads.
type Four = [f64; 4];

/// What the four solutions have come to at a place: movement, turn, moment.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub(super) struct Reached {
    pub across: Four,
    pub turn: Four,
    pub moment: Four,
    bent: Four,
}

impl Reached {
    /// One solution made up of the four.
    pub fn sum(solutions: Four, parts: [f64; 3]) -> f64 {
        solutions[0] * parts[0] + solutions[1] * parts[1] + solutions[2] * parts[2] + solutions[3]
    }
}

/// The places of the rule on −1..1, and for each the weights of the integral from −1 to it.
pub(super) struct Rule {
    at: [(f64, f64); 8],
    up_to: [[f64; 8]; 8],
}

impl Rule {
    /// From Legendre's polynomials: ∫ Pₖ = (Pₖ₊₁ − Pₖ₋₁)/(2k+1), and the k-th weight of a value is (2k+1)/2 Pₖ.
    pub fn new() -> Rule {
        let mut at = [(0.0, 0.0); 8];
        for (own, place) in at.iter_mut().zip(places(-1.0, 1.0)) {
            *own = place;
        }
        let legendre = at.map(|(x, _)| legendre(x));
        let up_to = std::array::from_fn(|i| {
            std::array::from_fn(|j| {
                let first = 0.5 * (at[i].0 + 1.0);
                let rest = (1..8).map(|k| 0.5 * legendre[j][k] * (legendre[i][k + 1] - legendre[i][k - 1]));
                at[j].1 * (first + rest.sum::<f64>())
            })
        });
        Rule { at, up_to }
    }
}

fn legendre(x: f64) -> [f64; 9] {
    let mut all = [1.0, x, 0.0, 0.0, 0.0, 0.0, 0.0, 0.0, 0.0];
    for k in 1..8 {
        let order = k as f64;
        all[k + 1] = ((2.0 * order + 1.0) * x * all[k] - order * all[k - 1]) / (order + 1.0);
    }
    all
}

/// A member with its loads and the force that pushes on its first end along its axis; without it the turn of that force is
/// left out.
pub(super) struct Bending<'m> {
    pub rule: &'m Rule,
    pub member: &'m Member,
    pub bar: &'m Bar,
    pub burden: &'m Burden,
    pub push: Option<f64>,
    /// By how much the loads along the axis are multiplied.
    pub factor: f64,
}

impl Bending<'_> {
    /// Follows the four solutions from the first end to `x`.
    pub fn reach(&self, plane: Plane, x: f64) -> Reached {
        let mut reached = Reached { turn: [1.0, 0.0, 0.0, 0.0], ..Reached::default() };
        for [from, to] in cuts(self.member, self.bar.length, self.burden) {
            if from >= x {
                break;
            }
            let to = to.min(x);
            let stiffness = self.stiffness(plane, 0.5 * (from + to));
            let waves = (to - from) * (self.pull(0.5 * (from + to)).abs() / stiffness).sqrt();
            let parts = (waves.ceil() as usize).clamp(1, 64);
            let at = |part: usize| from + (to - from) * part as f64 / parts as f64;
            for part in 0..parts {
                self.step(plane, [at(part), at(part + 1)], &mut reached);
            }
        }
        let straight = self.straight(plane, x);
        reached.moment = std::array::from_fn(|k| straight[k] + reached.bent[k]);
        reached
    }

    fn step(&self, plane: Plane, [from, to]: [f64; 2], reached: &mut Reached) {
        let (middle, half) = (0.5 * (from + to), 0.5 * (to - from));
        let xs = self.rule.at.map(|(at, _)| middle + half * at);
        let straight = xs.map(|x| self.straight(plane, x));
        let soft = xs.map(|x| half / self.stiffness(plane, x));
        let pull = xs.map(|x| half * self.pull(x));
        let mut turns = [reached.turn; 8];
        let mut moments = straight;
        for _ in 0..40 {
            for (i, own) in moments.iter_mut().enumerate() {
                for k in 0..4 {
                    let bent: f64 = (0..8).map(|j| self.rule.up_to[i][j] * pull[j] * turns[j][k]).sum();
                    own[k] = straight[i][k] + reached.bent[k] + bent;
                }
            }
            let mut change: f64 = 0.0;
            for (i, own) in turns.iter_mut().enumerate() {
                for k in 0..4 {
                    let turned: f64 = (0..8).map(|j| self.rule.up_to[i][j] * soft[j] * moments[j][k]).sum();
                    let turn = reached.turn[k] + turned;
                    change = change.max((turn - own[k]).abs() - 1e-16 * turn.abs());
                    own[k] = turn;
                }
            }
            if self.push.is_none() || change <= 0.0 {
                break;
            }
        }
        for (j, &(_, weight)) in self.rule.at.iter().enumerate() {
            for k in 0..4 {
                reached.across[k] += half * weight * turns[j][k];
                reached.turn[k] += weight * soft[j] * moments[j][k];
                reached.bent[k] += weight * pull[j] * turns[j][k];
            }
        }
    }

    /// The moment on the straight axis of the four solutions.
    fn straight(&self, plane: Plane, x: f64) -> Four {
        let loads = inside(&[0.0; 12], self.burden, x);
        [0.0, -1.0, x, loads[plane.at()[1]]]
    }

    fn stiffness(&self, plane: Plane, x: f64) -> f64 {
        let section = section_at(self.member, x / self.bar.length);
        self.member.young * if plane == Plane::AboutZ { section.about_z } else { section.about_y }
    }

    /// The pull along the axis.
    pub fn pull(&self, x: f64) -> f64 {
        self.push.map_or(0.0, |push| -(push + self.factor * self.burden.before(x)[0]))
    }

    /// Stiffness of the bar and the forces at its held ends; nothing when the member between held ends has buckled.
    pub fn whole(&self, held: &Twelve) -> Option<(Square, Twelve)> {
        let mut all = self.bar.basic.square(self.bar.length);
        let mut ends = *held;
        for plane in Plane::BOTH {
            let [across, about] = plane.at();
            let places = [across, about, across + 6, about + 6];
            let signs = [plane.sign(), 1.0, plane.sign(), 1.0];
            let reached = self.reach(plane, self.bar.length);
            let load = plane.sign() * self.burden.whole(self.bar.length)[across];
            let columns = [[1.0, 0.0, 0.0, 0.0], [0.0, 1.0, 0.0, 0.0], [0.0, 0.0, 1.0, 0.0], [0.0, 0.0, 0.0, 1.0]];
            for (column, movements) in columns.iter().enumerate() {
                let forces = end_forces(&reached, *movements, 0.0, 0.0)?;
                for (row, force) in forces.iter().enumerate() {
                    all[places[row]][places[column]] = signs[row] * signs[column] * force;
                }
            }
            for (row, force) in end_forces(&reached, [0.0; 4], load, 1.0)?.iter().enumerate() {
                ends[places[row]] = signs[row] * force;
            }
        }
        Some((all, ends))
    }
}

/// Force across and moment at the first and the second end for movements and turns of both; `loaded` is 1 with the loads, whose
/// force across is `load`, and 0 without.
fn end_forces(reached: &Reached, [from, turn, to, last]: [f64; 4], load: f64, loaded: f64) -> Option<[f64; 4]> {
    let (v, t, m) = (reached.across, reached.turn, reached.moment);
    let away = to - from - v[0] * turn - loaded * v[3];
    let turned = last - t[0] * turn - loaded * t[3];
    let whole = v[1] * t[2] - v[2] * t[1];
    if whole.partial_cmp(&0.0) != Some(std::cmp::Ordering::Less) {
        return None;
    }
    let moment = (away * t[2] - v[2] * turned) / whole;
    let force = (v[1] * turned - away * t[1]) / whole;
    let end = m[0] * turn + m[1] * moment + m[2] * force + loaded * m[3];
    Some([force, moment, -force - load, end])
}

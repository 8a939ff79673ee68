//! The surface between two straight top lines: ruled by straight lines between equal shares of both, so twisted.
//!
//! ```text
//! P(u, v) = (1 − v) ((1 − u) a₀ + u a₁) + v ((1 − u) b₀ + u b₁)
//! ```
//! u goes from the eave to the eye, v from one rafter (a) to the next (b). At an even v it is straight as well.

use super::space::{Place, between, cross, dot, in_plan, length, minus, unit};
use crate::units::{Angle, Length, Slope};

/// Four corners: of each rafter its top at eave and eye.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Patch {
    /// The corners.
    pub corners: [[Place; 2]; 2],
}

/// Where on the deck it is steepest, and how steep.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Steepest {
    /// Rise over run there.
    pub slope: Slope,
    /// The place.
    pub place: Place,
}

impl Patch {
    pub(super) fn at(&self, u: f64, v: f64) -> Place {
        let [a, b] = self.corners.map(|[eave, eye]| between(eave, eye, u));
        between(a, b, v)
    }

    /// Change for each unit of u; it does not depend on u.
    pub(super) fn up(&self, v: f64) -> Place {
        let [a, b] = self.corners.map(|[eave, eye]| minus(eye, eave));
        between(a, b, v)
    }

    /// Change for each unit of v; it does not depend on v.
    pub(super) fn across(&self, u: f64) -> Place {
        let [a, b] = self.corners.map(|[eave, eye]| between(eave, eye, u));
        minus(b, a)
    }

    fn twist(&self) -> Place {
        let [a, b] = self.corners.map(|[eave, eye]| minus(eye, eave));
        minus(b, a)
    }

    /// Square to the surface, upwards; as long as the area of a unit of u by a unit of v.
    pub(super) fn normal(&self, u: f64, v: f64) -> Place {
        let normal = cross(self.up(v), self.across(u));
        if normal[2] < 0.0 { normal.map(|part| -part) } else { normal }
    }

    /// Whether the next rafter stands to the left of the way in; nothing where the surface doubles back in plan. Its scale in
    /// plan is even along u and v, so corners tell.
    pub(super) fn next_is_left(&self) -> Option<bool> {
        let scale = |u: f64, v: f64| cross(self.up(v), self.across(u))[2];
        let all = [scale(0.0, 0.0), scale(1.0, 0.0), scale(0.0, 1.0), scale(1.0, 1.0)];
        let least = 1e-9 * all.iter().map(|one| one.abs()).fold(0.0, f64::max);
        let (left, right) = (all.iter().all(|&one| one > least), all.iter().all(|&one| one < -least));
        (left || right).then_some(left)
    }

    /// Mean and Gaussian curvature times the area of a unit of u by a unit of v, the normal upwards.
    pub(super) fn bends(&self, u: f64, v: f64) -> [f64; 2] {
        let (up, across, normal) = (self.up(v), self.across(u), self.normal(u, v));
        let size = length(normal);
        let mixed = dot(self.twist(), normal) / size;
        [-dot(up, across) * mixed / size, -mixed * mixed / size]
    }

    /// Slope of the surface in plan, towards x and y.
    pub(super) fn slopes(&self, u: f64, v: f64) -> [f64; 2] {
        let normal = self.normal(u, v);
        [-normal[0] / normal[2], -normal[1] / normal[2]]
    }

    /// How far a board along the ruling at u is twisted from end to end: the angle between the surface's normals there.
    pub(super) fn twist_at(&self, u: f64) -> Angle {
        let [one, other] = [0.0, 1.0].map(|v| unit(self.normal(u, v)));
        Angle::rad(length(cross(one, other)).atan2(dot(one, other)))
    }

    /// Length of the ruling at u.
    pub(super) fn width_at(&self, u: f64) -> Length {
        Length::m(length(self.across(u)))
    }

    /// Where it is steepest: searched over a grid from edge to edge, then nearer and nearer round the best place.
    pub(super) fn steepest(&self, span: impl Fn(f64) -> [f64; 2]) -> Steepest {
        let steep = |share: f64, v: f64, [from, to]: [f64; 2]| {
            let u = from + share * (to - from);
            let [x, y] = self.slopes(u, v);
            (x.hypot(y), u, v)
        };
        let (mut best, mut step) = ((0.5, 0.5), 0.5 / GRID);
        let mut most = steep(0.5, 0.5, span(0.5));
        let mut look = |share: f64, v: f64, ends: [f64; 2], best: &mut (f64, f64)| {
            let found = steep(share, v, ends);
            if found.0 > most.0 {
                most = found;
                *best = (share, v);
            }
        };
        let places = GRID as u32;
        for column in 0..=places {
            let v = f64::from(column) / GRID;
            let ends = span(v);
            for row in 0..=places {
                look(f64::from(row) / GRID, v, ends, &mut best);
            }
        }
        while step > 1e-9 {
            for (du, dv) in [(1.0, 0.0), (-1.0, 0.0), (0.0, 1.0), (0.0, -1.0)] {
                let [share, v] = [best.0 + du * step, best.1 + dv * step].map(|own: f64| own.clamp(0.0, 1.0));
                look(share, v, span(v), &mut best);
            }
            step *= 0.5;
        }
        Steepest { slope: Slope::ratio(most.0), place: self.at(most.1, most.2) }
    }

    /// A place in plan within the patch as u at an even v: start and way of that straight line.
    pub(super) fn line_at(&self, v: f64) -> (kurbo::Point, kurbo::Vec2) {
        let start = in_plan(self.at(0.0, v));
        (start, in_plan(self.at(1.0, v)) - start)
    }
}

/// Steps of the grid each way.
const GRID: f64 = 12.0;

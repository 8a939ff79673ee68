//! A bay: the deck between two neighbouring rafters, from eave to eye, measured on the twisted surface itself.

use super::edge::Edge;
use super::patch::{Patch, Steepest};
use super::space::{Place, length, minus};
use crate::solve::quadrature::places;
use crate::units::{Angle, Area, Length};

/// The deck between a rafter and the next.
#[derive(Clone, Debug, PartialEq)]
pub struct Bay<'f> {
    /// The two rafters, by their place in the ring or row.
    pub rafters: [usize; 2],
    /// The surface between their top lines.
    pub patch: Patch,
    pub(super) eave: &'f Edge,
    pub(super) eye: &'f Edge,
}

/// What a stretch of the surface measures.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Surface {
    /// Area on the surface.
    pub area: Area,
    /// Area in plan.
    pub plan_area: Area,
    /// Mean curvature summed over the surface, in metres, the normal upwards: below zero where it is round like a dome.
    pub bend: f64,
    /// Gaussian curvature summed over the surface, a pure number: below zero where it is twisted.
    pub twist: f64,
    /// How much the area still changed when the steps were last halved, as a share of it.
    pub error: f64,
}

/// Strips into which a bay is cut first, and at most, for the integrals. Up the bay, where nothing kinks, halves are enough.
const STRIPS: u32 = 1;
const MOST_STRIPS: u32 = 8;
/// The change of area, as a share, below which strips are not halved any more.
const SETTLED: f64 = 1e-10;

impl Bay<'_> {
    /// u at the eave and at the eye on the straight line of the surface at an even v. The frame has found both edges on both
    /// rafters; between them an edge that is not found is the string.
    pub(super) fn span(&self, v: f64) -> [f64; 2] {
        let (start, way) = self.patch.line_at(v);
        let at = |edge: &Edge, wanted: f64| edge.nearest(start, way, wanted).unwrap_or(wanted);
        [at(self.eave, 0.0), at(self.eye, 1.0)]
    }

    /// The surface from one share of the way between the rafters to another, by Gauss integration; strips are halved until the
    /// area settles.
    #[must_use]
    pub fn surface_between(&self, from: f64, to: f64) -> Surface {
        let mut last = self.summed(from, to, STRIPS);
        let mut strips = STRIPS;
        loop {
            strips *= 2;
            let next = self.summed(from, to, strips);
            let error = ((next.area - last.area) / next.area).abs();
            if error < SETTLED || strips >= MOST_STRIPS {
                return Surface { error, ..next };
            }
            last = next;
        }
    }

    /// Area in plan from one share of the way between the rafters to another: up the bay its scale changes evenly.
    #[must_use]
    pub fn plan_between(&self, from: f64, to: f64) -> Area {
        let half = 0.5 * (from + to);
        let strip = |(v, weight): (f64, f64)| {
            let [eave, eye] = self.span(v);
            weight * (eye - eave) * self.patch.normal(0.5 * (eave + eye), v)[2]
        };
        Area::m2(places(from, half).chain(places(half, to)).map(strip).sum())
    }

    /// The whole surface.
    #[must_use]
    pub fn surface(&self) -> Surface {
        self.surface_between(0.0, 1.0)
    }

    fn summed(&self, from: f64, to: f64, strips: u32) -> Surface {
        let mut sums = [0.0; 4];
        let at = |strip: u32| from + (to - from) * f64::from(strip) / f64::from(strips);
        for (v, weight_v) in (0..strips).flat_map(|strip| places(at(strip), at(strip + 1))) {
            let [eave, eye] = self.span(v);
            let parts = strips.min(2);
            let level = |part: u32| eave + (eye - eave) * f64::from(part) / f64::from(parts);
            for (u, weight_u) in (0..parts).flat_map(|part| places(level(part), level(part + 1))) {
                let (normal, [bend, twist]) = (self.patch.normal(u, v), self.patch.bends(u, v));
                for (sum, part) in sums.iter_mut().zip([length(normal), normal[2], bend, twist]) {
                    *sum += weight_v * weight_u * part;
                }
            }
        }
        let [area, plan_area, bend, twist] = sums;
        Surface { area: Area::m2(area), plan_area: Area::m2(plan_area), bend, twist, error: f64::INFINITY }
    }

    /// Twist of a board from end to end at the eave string and at the eye string.
    #[must_use]
    pub fn twist(&self) -> [Angle; 2] {
        [0.0, 1.0].map(|u| self.patch.twist_at(u))
    }

    /// The largest twist of a board on each metre of it, in radians on a metre; among boards at even steps up the bay.
    #[must_use]
    pub fn twist_on_a_metre(&self) -> f64 {
        const STEPS: u32 = 64;
        let at = |step: u32| {
            let u = f64::from(step) / f64::from(STEPS);
            self.patch.twist_at(u).in_rad() / self.patch.width_at(u).in_m()
        };
        (0..=STEPS).map(at).fold(0.0, f64::max)
    }

    /// Where the deck is steepest.
    pub(super) fn steepest(&self) -> Steepest {
        self.patch.steepest(|v| self.span(v))
    }

    /// The place on the eave at a share of the way to the next rafter.
    #[must_use]
    pub fn at_eave(&self, share: f64) -> Place {
        self.patch.at(self.span(share)[0], share)
    }

    /// The place on the edge of the eye at a share of the way to the next rafter.
    #[must_use]
    pub fn at_eye(&self, share: f64) -> Place {
        self.patch.at(self.span(share)[1], share)
    }

    /// Length of its eave and of its edge of the eye along the surface: chords of 64 even steps, a hair less than the curve.
    pub(super) fn edge_lengths(&self) -> [Length; 2] {
        const STEPS: u32 = 64;
        let ends = |step: u32| {
            let share = f64::from(step) / f64::from(STEPS);
            self.span(share).map(|u| self.patch.at(u, share))
        };
        let mut sums = [0.0; 2];
        let mut last = ends(0);
        for next in (1..=STEPS).map(ends) {
            for ((sum, from), to) in sums.iter_mut().zip(last).zip(next) {
                *sum += length(minus(to, from));
            }
            last = next;
        }
        sums.map(Length::m)
    }
}

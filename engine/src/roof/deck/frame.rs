//! Rafters with their top lines, in a closed ring or side by side, cut at eave and eye.

use std::f64::consts::PI;

use kurbo::Point;

use super::bay::{Bay, Surface};
use super::edge::Edge;
use super::patch::{Patch, Steepest};
use super::space::{Place, between, dot, in_plan, length, minus, plus, unit};
use crate::roof::{between_crossings, crossing_height, plan_length, to_first_crossing};
use crate::units::{Angle, Length};

/// A straight round pole: its axis from the outer support upwards.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Rafter {
    /// Its axis at the outer support.
    pub foot: Place,
    /// Its axis at the inner, or high, end.
    pub head: Place,
    /// Its diameter at the two; zero where the axis itself is the top line.
    pub diameters: [Length; 2],
}

impl Rafter {
    /// Its top line, over the foot and over the head: in the plumb plane of the axis, square to it.
    fn top(&self) -> Option<[Place; 2]> {
        let along = unit(minus(self.head, self.foot));
        let up = plus([0.0, 0.0, 1.0], along, -along[2]);
        let up = (length(up) > UPRIGHT).then(|| unit(up))?;
        let [foot, head] = self.diameters.map(|diameter| 0.5 * diameter.in_m());
        Some([plus(self.foot, up, foot), plus(self.head, up, head)])
    }
}

/// The cosine of a pitch below which a pole counts as upright: it has no top line.
const UPRIGHT: f64 = 1e-6;

/// What cannot be decked.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Fault {
    /// Fewer rafters than a ring, or a row, needs.
    TooFew,
    /// This rafter is upright or has no length; from 0.
    Upright(usize),
    /// This rafter does not meet the eave.
    NoEave(usize),
    /// This rafter does not meet the edge of the eye.
    NoEye(usize),
    /// The bay after this rafter is folded: its rafters meet or cross in plan before the edge of the eye.
    Folded(usize),
    /// The rafter after this one stands on its other side than the one after the first: they are not in order.
    Order(usize),
}

impl Fault {
    /// The fault in one sentence.
    #[must_use]
    pub fn in_words(self) -> String {
        match self {
            Fault::TooFew => "a ring has at least three rafters, a row at least two".into(),
            Fault::Upright(rafter) => {
                format!("rafter {} is upright or has no length, so it has no top line", rafter + 1)
            }
            Fault::NoEave(rafter) => format!("rafter {} does not meet the eave line", rafter + 1),
            Fault::NoEye(rafter) => format!("rafter {} does not meet the edge of the eye", rafter + 1),
            Fault::Folded(rafter) => format!(
                "the bay after rafter {} is folded: its rafters meet or cross in plan within it; set the edge of the eye farther out",
                rafter + 1
            ),
            Fault::Order(rafter) => {
                format!(
                    "the rafter after rafter {} does not stand next in the ring or row; write them in order",
                    rafter + 1
                )
            }
        }
    }
}

/// A rafter's top line between its cuts.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct TopLine {
    /// Over the outer support.
    pub support: Place,
    /// Where it is cut at the eave.
    pub eave: Place,
    /// Where the deck ends at the eye, or at the high edge.
    pub eye: Place,
}

impl TopLine {
    /// Along the top from over the outer support to a place on it: above zero inwards, below it on the overhang.
    #[must_use]
    pub fn along(&self, place: Place) -> Length {
        let way = unit(minus(self.eye, self.eave));
        Length::m(dot(minus(place, self.support), way))
    }

    /// From cut to cut.
    #[must_use]
    pub fn length(&self) -> Length {
        Length::m(length(minus(self.eye, self.eave)))
    }

    pub(super) fn at(&self, share: f64) -> Place {
        between(self.eave, self.eye, share)
    }
}

/// Rafters and the lines at which their deck ends. Rafters stand in order round the ring, either way, or along the row.
#[derive(Clone, Debug, PartialEq)]
pub struct Frame {
    rafters: Vec<TopLine>,
    closed: bool,
    /// Of each bay, what it has of the eave and of the edge of the eye.
    cuts: Vec<[Edge; 2]>,
    surfaces: Vec<Surface>,
    edges: Vec<[Length; 2]>,
    steepest: Vec<Steepest>,
}

/// How near to an end of a rafter, as a share of it, an edge at the other end may cross.
const NEAR: f64 = 0.01;

impl Frame {
    /// Cuts rafters at eave and eye. One outline round the whole of a one-way roof is both of its edges.
    ///
    /// # Errors
    /// The [`Fault`] that keeps them from being decked.
    pub fn new(rafters: &[Rafter], closed: bool, eave: Edge, eye: Edge) -> Result<Frame, Fault> {
        if rafters.len() < if closed { 3 } else { 2 } {
            return Err(Fault::TooFew);
        }
        let mut tops = Vec::new();
        for (number, rafter) in rafters.iter().enumerate() {
            let [foot, head] = rafter.top().ok_or(Fault::Upright(number))?;
            let (from, way) = (in_plan(foot), in_plan(head) - in_plan(foot));
            let inner = match &eye {
                Edge::Ends => Some(1.0),
                edge => edge.crossings(from, way).into_iter().filter(|&t| t > NEAR).min_by(f64::total_cmp),
            };
            let inner = inner.ok_or(Fault::NoEye(number))?;
            let outer = match &eave {
                Edge::Ends => Some(0.0),
                edge => edge.crossings(from, way).into_iter().filter(|&t| t < inner - NEAR).max_by(f64::total_cmp),
            };
            let outer = outer.ok_or(Fault::NoEave(number))?;
            tops.push(TopLine { support: foot, eave: between(foot, head, outer), eye: between(foot, head, inner) });
        }
        let count = tops.len();
        let cut = |from: usize| {
            let [one, next] = [&tops[from], &tops[(from + 1) % count]];
            [eave.between([in_plan(one.eave), in_plan(next.eave)]), eye.between([in_plan(one.eye), in_plan(next.eye)])]
        };
        let cuts = (0..if closed { count } else { count - 1 }).map(cut).collect();
        let mut frame =
            Frame { rafters: tops, closed, cuts, surfaces: Vec::new(), edges: Vec::new(), steepest: Vec::new() };
        frame.in_order()?;
        frame.surfaces = frame.bays().iter().map(Bay::surface).collect();
        frame.edges = frame.bays().iter().map(Bay::edge_lengths).collect();
        frame.steepest = frame.bays().iter().map(Bay::steepest).collect();
        Ok(frame)
    }

    fn in_order(&self) -> Result<(), Fault> {
        let mut first = None;
        for (number, bay) in self.bays().iter().enumerate() {
            let left = bay.patch.next_is_left().ok_or(Fault::Folded(number))?;
            if *first.get_or_insert(left) != left {
                return Err(Fault::Order(number));
            }
        }
        Ok(())
    }

    /// Where the rafters' tops run.
    #[must_use]
    pub fn rafters(&self) -> &[TopLine] {
        &self.rafters
    }

    /// What the surface of each bay measures.
    #[must_use]
    pub fn surfaces(&self) -> &[Surface] {
        &self.surfaces
    }

    /// Length of the eave and of the edge of the eye of each bay, along the surface.
    #[must_use]
    pub fn edge_lengths(&self) -> &[[Length; 2]] {
        &self.edges
    }

    /// Where each bay is steepest.
    #[must_use]
    pub fn steepest(&self) -> &[Steepest] {
        &self.steepest
    }

    /// Whether they stand in a ring.
    #[must_use]
    pub fn is_closed(&self) -> bool {
        self.closed
    }

    /// The bays, each from a rafter to the next.
    #[must_use]
    pub fn bays(&self) -> Vec<Bay<'_>> {
        let bays = self.cuts.iter().enumerate().map(|(from, [eave, eye])| {
            let to = (from + 1) % self.rafters.len();
            let patch = patch(&self.rafters[from], &self.rafters[to]);
            Bay { rafters: [from, to], patch, eave, eye }
        });
        bays.collect()
    }

    /// The bays on the left and on the right of a rafter, seen from its foot, by their place in [`Frame::bays`].
    #[must_use]
    pub fn sides(&self, rafter: usize) -> [Option<usize>; 2] {
        let (count, bays) = (self.rafters.len(), self.bays().len());
        let after = (rafter < bays).then_some(rafter);
        let before = if self.closed { Some((rafter + count - 1) % count) } else { rafter.checked_sub(1) };
        let next_is_left = patch(&self.rafters[0], &self.rafters[1]).next_is_left() == Some(true);
        if next_is_left { [after, before] } else { [before, after] }
    }
}

fn patch(one: &TopLine, next: &TopLine) -> Patch {
    Patch { corners: [[one.eave, one.eye], [next.eave, next.eye]] }
}

/// The axes of a regular reciprocal roof: the outer supports on a circle about the middle, level; the eye to the left of the
/// way in. Each runs to its second crossing.
#[must_use]
pub fn ring(count: u64, plan_radius: Length, eye_radius: Length, diameter: Length, pitch: Angle) -> Vec<Rafter> {
    let before = to_first_crossing(count, plan_radius, eye_radius).value;
    let whole = plan_length(before, between_crossings(count, eye_radius).value).value;
    let rise = crossing_height(whole, pitch).value.in_m();
    let corner = |number: u64| Point::ORIGIN + eye_radius.in_m() * kurbo::Vec2::from_angle(turn(number, count));
    let rafter = |number: u64| {
        let (first, second) = (corner(number), corner(number + 1));
        let way = (second - first).normalize();
        let foot = first - before.in_m() * way;
        Rafter { foot: [foot.x, foot.y, 0.0], head: [second.x, second.y, rise], diameters: [diameter; 2] }
    };
    (0..count).map(rafter).collect()
}

fn turn(number: u64, count: u64) -> f64 {
    2.0 * PI * number as f64 / count as f64
}

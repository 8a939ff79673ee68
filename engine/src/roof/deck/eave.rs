//! The eave: where each rafter is cut so that the edge follows its line, and the boards along it.

use super::bay::Bay;
use super::frame::Frame;
use super::space::{Place, dot, in_plan, length, minus};
use crate::units::{Angle, Area, Length};

/// The edge board between two neighbouring tails.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct EdgeBoard {
    /// Straight from tail to tail, along the top.
    pub string: Length,
    /// Along the curve of the eave, for a board that is bent to it.
    pub curve: Length,
    /// From the string, in plan and square to it, out to the eave at a quarter, half and three quarters of the way.
    pub ordinates: [Length; 3],
    /// Its fall from the level, above zero where it rises to the next rafter.
    pub rise: Angle,
    /// The bevel of its two ends in plan, half of the turn to the neighbour; none at the end of a row.
    pub bevels: [Option<Angle>; 2],
}

/// A place on the eave and the deck whose water comes to it straight down the bay.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct EdgePoint {
    /// The place, on the deck's edge.
    pub place: Place,
    /// Along the eave from the first rafter's tail, in chords from place to place.
    pub along: Length,
    /// In plan, what drains to it.
    pub area: Area,
}

/// Along the top of each rafter from over its outer support outwards to the cut.
#[must_use]
pub fn tails(frame: &Frame) -> Vec<Length> {
    frame.rafters().iter().map(|top| -top.along(top.eave)).collect()
}

/// The edge boards, bay by bay.
#[must_use]
pub fn edge_boards(frame: &Frame) -> Vec<EdgeBoard> {
    let bays = frame.bays();
    let ways: Vec<kurbo::Vec2> = bays.iter().map(|bay| string(bay).1).collect();
    let bevel =
        |one: usize, next: usize| Angle::rad(0.5 * ways[one].cross(ways[next]).atan2(ways[one].dot(ways[next])).abs());
    let count = bays.len();
    let board = |(number, bay): (usize, &Bay<'_>)| {
        let [from, to] = bay.patch.corners.map(|[eave, _]| eave);
        let straight = minus(to, from);
        let neighbours = [number.checked_sub(1), Some(number + 1).filter(|&next| next < count)];
        let round = [(number + count - 1) % count, (number + 1) % count];
        let bevels = [0, 1]
            .map(|end| neighbours[end].or(frame.is_closed().then_some(round[end])).map(|other| bevel(number, other)));
        EdgeBoard {
            string: Length::m(length(straight)),
            curve: frame.edge_lengths()[number][0],
            ordinates: [0.25, 0.5, 0.75].map(|share| ordinate(bay, share)),
            rise: Angle::rad(straight[2].atan2(straight[0].hypot(straight[1]))),
            bevels,
        }
    };
    bays.iter().enumerate().map(board).collect()
}

fn string(bay: &Bay<'_>) -> (kurbo::Point, kurbo::Vec2) {
    let [from, to] = bay.patch.corners.map(|[eave, _]| in_plan(eave));
    (from, to - from)
}

fn ordinate(bay: &Bay<'_>, share: f64) -> Length {
    let (from, way) = string(bay);
    let square = kurbo::Vec2::new(-way.y, way.x).normalize();
    let inwards = in_plan(bay.patch.corners[0][1]) - from;
    let out = if square.dot(inwards) > 0.0 { -square } else { square };
    Length::m(bay.eave.nearest(from + share * way, out, 0.0).unwrap_or(0.0))
}

/// Places on the eave of a bay, its first tail among them.
pub const PLACES_IN_BAY: usize = 4;

/// Places along the eave: each tail and three between it and the next, and the last tail of a row.
#[must_use]
pub fn edge_points(frame: &Frame) -> Vec<EdgePoint> {
    let bays = frame.bays();
    let places = PLACES_IN_BAY as u32;
    let area = |bay: &Bay<'_>, from: f64, to: f64| bay.plan_between(from, to);
    let mut points: Vec<EdgePoint> = Vec::new();
    let mut carried = Area::ZERO;
    for bay in &bays {
        for place in 0..places {
            let [before, at, after] = [-0.5, 0.0, 0.5].map(|half| (f64::from(place) + half) / f64::from(places));
            let own = area(bay, before.max(0.0), after) + carried;
            carried = Area::ZERO;
            points.push(EdgePoint { place: bay.at_eave(at), along: Length::ZERO, area: own });
        }
        carried = area(bay, 1.0 - 0.5 / f64::from(places), 1.0);
    }
    if frame.is_closed() {
        points[0].area = points[0].area + carried;
    } else if let Some(bay) = bays.last() {
        points.push(EdgePoint { place: bay.at_eave(1.0), along: Length::ZERO, area: carried });
    }
    for next in 1..points.len() {
        let step = minus(points[next].place, points[next - 1].place);
        points[next].along = points[next - 1].along + Length::m(dot(step, step).sqrt());
    }
    points
}

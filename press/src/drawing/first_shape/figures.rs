//! People and things seen from above at true size: usual measures, our judgement.

use kurbo::{Point, Vec2};

use super::way;
use crate::drawing::hand::{Hand, areas, rounded, strokes, ticks};
use crate::drawing::hatch::mixed;
use crate::paper::{CLAY, INK, LIME, MOSS, SLATE, STRAW, weight};
use crate::svg::Element;

/// What the room is judged by.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Figure {
    Standing,
    Lying,
    Bench,
    Barrow,
}

impl Figure {
    /// Half of its length and half of its width, in metres.
    pub(super) fn half(self) -> [f64; 2] {
        match self {
            Figure::Standing => [0.3, 0.24],
            Figure::Lying => [0.9, 0.32],
            Figure::Bench => [0.6, 0.19],
            Figure::Barrow => [0.74, 0.33],
        }
    }

    fn words(self) -> &'static str {
        match self {
            Figure::Standing => "someone standing",
            Figure::Lying => "someone lying, 1.75 m tall",
            Figure::Bench => "a bench, 1.2 m long",
            Figure::Barrow => "a barrow, 1.45 m long",
        }
    }
}

/// A figure at a place, turned by an angle in radians.
#[derive(Clone, Debug)]
pub(super) struct Placed {
    pub(super) figure: Figure,
    pub(super) at: Point,
    pub(super) turn: f64,
}

impl Placed {
    fn point(&self, [along, across]: [f64; 2]) -> Point {
        let way = way(self.turn);
        self.at + way * along + way.turn_90() * across
    }

    /// The corners of what it covers.
    pub(super) fn corners(&self) -> [Point; 4] {
        let [long, wide] = self.figure.half();
        [[-long, -wide], [long, -wide], [long, wide], [-long, wide]].map(|place| self.point(place))
    }

    /// Points spread over what it covers, its edge with them.
    pub(super) fn samples(&self) -> Vec<Point> {
        let [long, wide] = self.figure.half();
        let across = [-1.0, 0.0, 1.0];
        let along = [-1.0, -0.5, 0.0, 0.5, 1.0];
        along.iter().flat_map(|a| across.iter().map(move |b| self.point([a * long, b * wide]))).collect()
    }

    /// Whether two cover the same ground, or nearly.
    pub(super) fn overlaps(&self, other: &Placed) -> bool {
        let over = |one: &Placed, other: &Placed| {
            let [long, wide] = one.figure.half();
            let way = way(one.turn);
            other.samples().into_iter().any(|point| {
                let off: Vec2 = point - one.at;
                off.dot(way).abs() < long + 0.1 && off.dot(way.turn_90()).abs() < wide + 0.1
            })
        };
        over(self, other) || over(other, self)
    }

    /// The figure about a place on the sheet, so many millimetres for each metre.
    pub(super) fn drawn(&self, [x, y]: [f64; 2], metre: f64) -> Element {
        let way = way(self.turn);
        let across = way.turn_90();
        let at = |along: f64, aside: f64| {
            let off = way * along + across * aside;
            [x + off.x * metre, y - off.y * metre]
        };
        let pen = Pen { at: &at, metre };
        let parts = match self.figure {
            Figure::Standing => pen.standing(),
            Figure::Lying => pen.lying(),
            Figure::Bench => pen.bench(),
            Figure::Barrow => pen.barrow(),
        };
        Element::named("g").child(Element::named("title").words(self.figure.words())).child(Element::group(parts))
    }
}

/// Draws in metres of the figure's own ground.
struct Pen<'a> {
    at: &'a dyn Fn(f64, f64) -> [f64; 2],
    metre: f64,
}

impl Pen<'_> {
    fn all<const COUNT: usize>(&self, places: [(f64, f64); COUNT]) -> Vec<[f64; 2]> {
        places.map(|(along, aside)| (self.at)(along, aside)).to_vec()
    }

    fn soft<const COUNT: usize>(&self, places: [(f64, f64); COUNT], fill: &str) -> Element {
        areas(&[rounded(&self.all(places))], fill, weight::SEEN)
    }

    fn head(&self, along: f64) -> Vec<Element> {
        let at = (self.at)(along, 0.0);
        let head = Element::circle(at, 0.105 * self.metre).with("fill", mixed(STRAW, LIME, 0.35)).with("stroke", INK);
        let hair =
            [(along + 0.1, -0.06), (along + 0.12, 0.03), (along + 0.05, 0.1), (along - 0.06, 0.09), (along + 0.0, 0.0)];
        vec![head.with("stroke-width", weight::SEEN), self.soft(hair, &mixed(INK, CLAY, 0.6)).with("stroke", "none")]
    }

    /// Shoulders, arms and feet of who looks along the way.
    fn standing(&self) -> Vec<Element> {
        let foot = |side: f64| [(0.02, side * 0.06), (0.02, side * 0.14), (0.24, side * 0.15), (0.25, side * 0.07)];
        let arm = |side: f64| {
            [(-0.08, side * 0.2), (0.0, side * 0.26), (0.2, side * 0.24), (0.22, side * 0.15), (0.05, side * 0.17)]
        };
        let (cloth, boots) = (mixed(MOSS, LIME, 0.5), mixed(INK, LIME, 0.55));
        let body = [
            (-0.13, -0.12),
            (-0.1, -0.24),
            (0.05, -0.24),
            (0.11, -0.1),
            (0.11, 0.1),
            (0.05, 0.24),
            (-0.1, 0.24),
            (-0.13, 0.12),
        ];
        let mut parts = vec![self.soft(foot(1.0), &boots), self.soft(foot(-1.0), &boots)];
        parts.extend([self.soft(arm(1.0), &cloth), self.soft(arm(-1.0), &cloth), self.soft(body, &cloth)]);
        parts.extend(self.head(0.0));
        parts
    }

    /// Someone on the back, head along the way.
    fn lying(&self) -> Vec<Element> {
        let leg = |side: f64| {
            [
                (-0.86, side * 0.07),
                (-0.88, side * 0.17),
                (-0.45, side * 0.2),
                (0.02, side * 0.19),
                (0.04, side * 0.01),
                (-0.45, side * 0.06),
            ]
        };
        let arm = |side: f64| {
            [
                (0.5, side * 0.18),
                (0.47, side * 0.27),
                (0.2, side * 0.31),
                (-0.12, side * 0.29),
                (-0.13, side * 0.23),
                (0.2, side * 0.23),
            ]
        };
        let (cloth, legs) = (mixed(CLAY, LIME, 0.5), mixed(SLATE, LIME, 0.4));
        let body = [
            (-0.06, -0.18),
            (0.2, -0.18),
            (0.5, -0.23),
            (0.57, -0.1),
            (0.6, 0.0),
            (0.57, 0.1),
            (0.5, 0.23),
            (0.2, 0.18),
            (-0.06, 0.18),
        ];
        let mut parts = vec![self.soft(leg(1.0), &legs), self.soft(leg(-1.0), &legs)];
        parts.extend([self.soft(arm(1.0), &cloth), self.soft(arm(-1.0), &cloth), self.soft(body, &cloth)]);
        parts.extend(self.head(0.71));
        parts
    }

    fn bench(&self) -> Vec<Element> {
        let mut hand = Hand::from(9);
        let seat = hand.outline(&self.all([(-0.6, -0.18), (0.6, -0.18), (0.6, 0.18), (-0.6, 0.18)]), 0.1);
        let joints = [-0.06, 0.06].map(|aside| hand.line(&self.all([(-0.6, aside), (0.6, aside)]), 0.1));
        let ends = [-0.48, 0.48].map(|along| self.all([(along, -0.15), (along, 0.15)]));
        vec![
            areas(&[seat], &mixed(STRAW, LIME, 0.4), weight::SEEN),
            strokes(&joints).with("stroke", INK).with("stroke-width", weight::THIN),
            strokes(&ends).with("stroke", SLATE).with("stroke-width", weight::THIN).with("stroke-dasharray", "0.8 0.6"),
        ]
    }

    fn barrow(&self) -> Vec<Element> {
        let mut hand = Hand::from(15);
        let handles = [-1.0, 1.0].map(|side| hand.line(&self.all([(-0.73, side * 0.29), (0.62, side * 0.09)]), 0.1));
        let wheel = self.soft([(0.42, -0.05), (0.42, 0.05), (0.74, 0.06), (0.74, -0.06)], &mixed(INK, LIME, 0.55));
        let tray = [(-0.32, -0.26), (-0.32, 0.26), (0.1, 0.32), (0.46, 0.24), (0.46, -0.24), (0.1, -0.32)];
        let load = [(-0.2, -0.16), (-0.2, 0.16), (0.1, 0.22), (0.34, 0.15), (0.34, -0.15), (0.1, -0.22)];
        let load = rounded(&self.all(load));
        let flecks = ticks(&hand.flecks(&load, 40.0, 1.3)).with("stroke", STRAW).with("stroke-width", weight::THIN);
        vec![
            strokes(&handles).with("stroke", INK).with("stroke-width", 0.9),
            strokes(&handles).with("stroke", STRAW).with("stroke-width", 0.5),
            wheel,
            self.soft(tray, &mixed(SLATE, LIME, 0.25)),
            areas(&[load], &mixed(CLAY, LIME, 0.45), weight::THIN),
            flecks,
        ]
    }
}

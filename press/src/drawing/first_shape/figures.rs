//! People and things seen from above at true size: usual measures, our judgement.

use engine::house::{Figure, Placed};

use crate::drawing::hand::{Hand, areas, rounded, strokes, ticks};
use crate::drawing::hatch::mixed;
use crate::paper::{CLAY, INK, LIME, MOSS, SLATE, STRAW, weight};
use crate::svg::Element;

/// A figure about a place on the sheet, so many millimetres for each metre.
pub(in crate::drawing) fn drawn(placed: &Placed, [x, y]: [f64; 2], metre: f64) -> Element {
    let across = placed.way.turn_90();
    let at = |along: f64, aside: f64| {
        let off = placed.way * along + across * aside;
        [x + off.x * metre, y - off.y * metre]
    };
    let pen = Pen { at: &at, metre };
    let (words, parts) = match placed.figure {
        Figure::Standing => ("someone standing", pen.standing()),
        Figure::Lying => ("someone lying, 1.75 m tall", pen.lying()),
        Figure::Bench => ("a bench, 1.2 m long", pen.bench()),
        Figure::Barrow => ("a barrow, 1.45 m long", pen.barrow()),
    };
    Element::named("g").child(Element::named("title").words(words)).child(Element::group(parts))
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

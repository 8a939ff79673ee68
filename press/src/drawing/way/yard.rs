//! The yard of the way round the house: a heap and a tarp of mix, stones and straw, a book on a bench.

use kurbo::Vec2;

use crate::drawing::hand::{Hand, areas, rounded, strokes, ticks, wash};
use crate::drawing::hatch::{self, mixed};
use crate::paper::{CLAY, INK, LIME, MOSS, SLATE, STRAW, weight};
use crate::svg::Element;

/// A place in the yard: where the middle of a thing stands on the ground, and millimetres for each metre.
#[derive(Clone, Copy)]
pub(super) struct Spot {
    pub(super) foot: [f64; 2],
    pub(super) metre: f64,
}

impl Spot {
    /// So many metres to the right and up.
    fn at(self, right: f64, up: f64) -> [f64; 2] {
        [self.foot[0] + right * self.metre, self.foot[1] - up * self.metre]
    }

    fn all<const COUNT: usize>(self, places: [(f64, f64); COUNT]) -> Vec<[f64; 2]> {
        places.map(|(right, up)| self.at(right, up)).to_vec()
    }
}

/// A thing of the yard: what is drawn, and how far it reaches from its middle and up, in metres.
pub(super) struct Thing {
    pub(super) half: f64,
    pub(super) high: f64,
    pub(super) draw: fn(Spot) -> Vec<Element>,
}

/// What stands for a leaf of the yard; none for other leaves.
pub(super) fn thing(leaf: &str) -> Option<Thing> {
    match leaf {
        "earth" => Some(Thing { half: 1.45, high: 1.1, draw: earth }),
        "stuff" => Some(Thing { half: 1.35, high: 0.9, draw: stuff }),
        "book" => Some(Thing { half: 0.75, high: 0.75, draw: book }),
        _ => None,
    }
}

/// A heap of clay soil with a spade in it, a tarp with mix on it, a bucket.
fn earth(spot: Spot) -> Vec<Element> {
    let mut hand = Hand::from(7);
    let mut drawn = Vec::new();
    let shaft = spot.all([(-0.38, 0.45), (-0.16, 1.06)]);
    drawn.push(strokes(&[hand.line(&shaft, 0.1)]).with("stroke", INK).with("stroke-width", 0.8));
    drawn.push(strokes(&[shaft]).with("stroke", STRAW).with("stroke-width", 0.45));
    drawn.push(strokes(&[spot.all([(-0.24, 1.09), (-0.08, 1.03)])]).with("stroke", INK).with("stroke-width", 0.8));
    let heap = [
        (-1.4, 0.0),
        (-1.25, 0.14),
        (-1.1, 0.33),
        (-0.95, 0.46),
        (-0.82, 0.63),
        (-0.68, 0.7),
        (-0.55, 0.66),
        (-0.42, 0.53),
        (-0.3, 0.44),
        (-0.16, 0.25),
        (-0.02, 0.1),
        (0.08, 0.0),
    ];
    let heap = hand.outline(&spot.all(heap), 0.35);
    drawn.push(areas(std::slice::from_ref(&heap), &hatch::earth(0.5), weight::SEEN));
    drawn.push(ticks(&hand.flecks(&heap, 14.0, 0.5)).with("stroke", mixed(INK, CLAY, 0.4)).with("stroke-width", 0.3));
    drawn.push(
        strokes(&folds(spot, [(-0.72, 0.62), (-1.18, 0.05)], &mut hand))
            .with("stroke", CLAY)
            .with("stroke-width", weight::THIN),
    );
    let tarp = [
        (0.12, 0.05),
        (0.3, 0.015),
        (0.75, 0.03),
        (1.2, 0.015),
        (1.38, 0.09),
        (1.44, 0.07),
        (1.36, -0.02),
        (0.75, -0.045),
        (0.24, -0.03),
    ];
    let tarp = hand.outline(&spot.all(tarp), 0.1);
    drawn.push(areas(&[tarp], &mixed(SLATE, LIME, 0.4), weight::SEEN));
    let mix =
        [(0.34, 0.02), (0.42, 0.16), (0.56, 0.26), (0.72, 0.3), (0.9, 0.27), (1.04, 0.2), (1.14, 0.1), (1.2, 0.02)];
    let mix = hand.outline(&spot.all(mix), 0.3);
    drawn.push(areas(std::slice::from_ref(&mix), &hatch::earth(0.62), weight::SEEN));
    drawn.push(ticks(&hand.flecks(&mix, 70.0, 1.7)).with("stroke", STRAW).with("stroke-width", 0.3));
    drawn.extend(bucket(spot, 0.16));
    drawn
}

/// Strokes down the side of a heap.
fn folds(spot: Spot, [top, foot]: [(f64, f64); 2], hand: &mut Hand) -> Vec<Vec<[f64; 2]>> {
    (0..5)
        .map(|fold| {
            let aside = f64::from(fold) * 0.16;
            let from = spot.at(top.0 + aside * 0.4, top.1 - 0.12 - 0.03 * f64::from(fold));
            let to = spot.at(foot.0 + aside * 1.6 + 0.12, foot.1 + 0.06);
            hand.line(&[from, to], 0.3)
        })
        .collect()
}

fn bucket(spot: Spot, at: f64) -> Vec<Element> {
    let body = spot.all([(at - 0.14, 0.28), (at - 0.1, -0.02), (at + 0.1, -0.02), (at + 0.14, 0.28)]);
    let rim = spot.all([(at - 0.15, 0.29), (at + 0.15, 0.29)]);
    let handle = spot.all([(at - 0.14, 0.28), (at - 0.09, 0.38), (at, 0.41), (at + 0.09, 0.38), (at + 0.14, 0.28)]);
    vec![
        strokes(&[handle]).with("stroke", INK).with("stroke-width", weight::HIDDEN),
        areas(&[body], &mixed(SLATE, LIME, 0.14), weight::SEEN),
        strokes(&[rim]).with("stroke", INK).with("stroke-width", 0.5),
    ]
}

/// A pile of stones, and bales of straw beside it.
fn stuff(spot: Spot) -> Vec<Element> {
    let mut hand = Hand::from(29);
    let mut drawn = Vec::new();
    // From the top down: a lower stone lies before the one that it bears.
    for (up, from, to) in [(0.62, -0.86, -0.42), (0.42, -1.05, -0.2), (0.22, -1.2, -0.05), (0.02, -1.33, 0.06)] {
        let mut left = from + hand.between(0.0, 0.05);
        let mut stones = Vec::new();
        while left < to - 0.12 {
            let wide = hand.between(0.2, 0.38).min(to - left);
            let high = hand.between(0.17, 0.23);
            let middle = spot.at(left + 0.5 * wide, up + 0.5 * high);
            stones.push(hand.stone(middle, [0.54 * wide, 0.54 * high].map(|half| half * spot.metre)));
            left += wide;
        }
        drawn.push(areas(&stones, &mixed(SLATE, LIME, 0.1 + 0.14 * (0.62 - up)), weight::SEEN));
    }
    for (left, low) in [(0.2, 0.0), (0.42, 0.39)] {
        drawn.extend(bale(spot, left, low, &mut hand));
    }
    drawn
}

fn bale(spot: Spot, left: f64, low: f64, hand: &mut Hand) -> Vec<Element> {
    let (wide, high) = (0.92, 0.38);
    let corners = spot.all([(left, low), (left + wide, low), (left + wide, low + high), (left, low + high)]);
    let outline = hand.outline(&corners, 0.3);
    let mut drawn = vec![areas(std::slice::from_ref(&outline), &mixed(STRAW, LIME, 0.4), weight::SEEN)];
    let straws: Vec<[[f64; 2]; 2]> = hand
        .flecks(&outline, 40.0, 2.6)
        .into_iter()
        .map(|[from, to]| [from, [to[0], from[1] + (to[1] - from[1]) * 0.35]])
        .collect();
    drawn.push(ticks(&straws).with("stroke", mixed(INK, STRAW, 0.4)).with("stroke-width", 0.16));
    let strings = [0.28, 0.72]
        .map(|share| hand.line(&spot.all([(left + wide * share, low), (left + wide * share, low + high)]), 0.15));
    drawn.push(strokes(&strings).with("stroke", INK).with("stroke-width", weight::HIDDEN));
    drawn
}

/// An open book on a bench.
fn book(spot: Spot) -> Vec<Element> {
    let mut hand = Hand::from(13);
    let legs = [-0.5, 0.5].map(|x: f64| {
        let lean = 0.05 * x.signum();
        hand.outline(&spot.all([(x - 0.05, 0.4), (x + 0.05, 0.4), (x + 0.05 + lean, 0.0), (x - 0.05 + lean, 0.0)]), 0.1)
    });
    let seat = hand.outline(&spot.all([(-0.72, 0.4), (0.72, 0.4), (0.72, 0.47), (-0.72, 0.47)]), 0.15);
    let mut drawn = vec![
        areas(&legs, &mixed(STRAW, LIME, 0.5), weight::SEEN),
        areas(&[seat], &mixed(STRAW, LIME, 0.38), weight::SEEN),
        strokes(&[hand.line(&spot.all([(-0.66, 0.44), (0.5, 0.435)]), 0.1)])
            .with("stroke", INK)
            .with("stroke-width", 0.13),
    ];
    let cover = spot.all([(-0.4, 0.49), (0.0, 0.475), (0.4, 0.49), (0.4, 0.52), (-0.4, 0.52)]);
    drawn.push(areas(&[cover], &mixed(CLAY, LIME, 0.75), weight::SEEN));
    for side in [-1.0, 1.0] {
        let page = [
            (0.0, 0.5),
            (0.0, 0.66),
            (0.1, 0.715),
            (0.24, 0.71),
            (0.38, 0.66),
            (0.385, 0.52),
            (0.2, 0.56),
            (0.07, 0.545),
        ];
        let page = spot.all(page.map(|(right, up)| (side * right, up)));
        drawn.push(wash(&page, LIME));
        drawn.push(areas(&[page], LIME, weight::SEEN));
        let lines: Vec<Vec<[f64; 2]>> = (0..3)
            .map(|line| {
                let down = 0.035 * f64::from(line);
                spot.all([(side * 0.06, 0.655 - down), (side * 0.18, 0.672 - down), (side * 0.32, 0.645 - down)])
            })
            .collect();
        drawn.push(strokes(&lines).with("stroke", SLATE).with("stroke-width", weight::THIN));
    }
    drawn
}

/// The sun and a few clouds between two sides, clear of a middle height.
pub(super) fn sky([left, right]: [f64; 2], [top, bottom]: [f64; 2]) -> Vec<Element> {
    let mut hand = Hand::from(31);
    let high = bottom - top;
    let mut drawn = hills([left, right], bottom, high, &mut hand);
    let sun = [left + (right - left) * 0.9, top + (high * 0.2).clamp(7.0, 16.0)];
    let disc = Element::circle(sun, 4.6).with("fill", mixed(STRAW, LIME, 0.35));
    drawn.push(disc.with("stroke", mixed(STRAW, INK, 0.7)).with("stroke-width", weight::THIN));
    for (across, down, long) in [(0.05, 0.12, 20.0), (0.56, 0.1, 26.0), (0.74, 0.26, 17.0)] {
        let at = Vec2::new(left + (right - left) * across, top + high * down + 3.0);
        let wave = |up: f64, from: f64, to: f64, hand: &mut Hand| {
            hand.line(&[[at.x + long * from, at.y - up], [at.x + long * to, at.y - up]], 0.7)
        };
        let lines =
            [wave(0.0, 0.0, 1.0, &mut hand), wave(1.7, 0.22, 0.78, &mut hand), wave(-1.6, 0.35, 1.15, &mut hand)];
        drawn.push(strokes(&lines).with("stroke", mixed(SLATE, LIME, 0.4)).with("stroke-width", weight::HIDDEN));
    }
    let birds: Vec<Vec<[f64; 2]>> = [(0.64, 0.36, 2.1), (0.655, 0.31, 1.6), (0.62, 0.31, 1.3)]
        .map(|(across, down, wing)| {
            let [x, y] = [left + (right - left) * across, top + high * down];
            rounded_open([
                [x - wing, y - wing * 0.5],
                [x - wing * 0.4, y - wing * 0.6],
                [x, y],
                [x + wing * 0.4, y - wing * 0.6],
                [x + wing, y - wing * 0.4],
            ])
        })
        .to_vec();
    drawn.push(strokes(&birds).with("stroke", SLATE).with("stroke-width", weight::HIDDEN));
    drawn
}

/// Far hills with a hedge on them, pale.
pub(super) fn hills([left, right]: [f64; 2], foot: f64, high: f64, hand: &mut Hand) -> Vec<Element> {
    let ridge = |share: f64, tall: f64, turn: f64| {
        let wave = (share * 5.1 + turn).sin() + 0.5 * (share * 11.3 + 2.0 * turn).sin();
        [left + (right - left) * share, foot - high * tall * (1.0 + 0.32 * wave)]
    };
    let mut drawn = Vec::new();
    for (tall, turn, share) in [(0.21, 0.4, 0.07), (0.14, 2.6, 0.12)] {
        let crest: Vec<[f64; 2]> = (0..=48).map(|step| ridge(f64::from(step) / 48.0, tall, turn)).collect();
        let mut outline = crest.clone();
        outline.extend([[right, foot], [left, foot]]);
        drawn.push(wash(&outline, &mixed(MOSS, LIME, share)));
        drawn.push(
            strokes(&[hand.line(&crest, 0.15)])
                .with("stroke", mixed(MOSS, LIME, 0.4))
                .with("stroke-width", weight::THIN),
        );
    }
    for (share, size) in [(0.435, 4.2), (0.47, 3.1), (0.845, 3.6), (0.985, 4.4)] {
        let [x, y] = ridge(share, 0.14, 2.6);
        let trunk = hand.line(&[[x, y + 0.6], [x + 0.2, y - size * 1.3]], 0.1);
        let pale = mixed(MOSS, LIME, 0.55);
        drawn.push(strokes(&[trunk]).with("stroke", pale.clone()).with("stroke-width", weight::SEEN));
        let crown: Vec<Vec<[f64; 2]>> = [(-0.5, 1.2, 0.6), (0.55, 1.3, 0.55), (0.0, 1.85, 0.75)]
            .map(|(across, up, part)| hand.stone([x + size * across, y - size * up], [size * part, size * part * 0.85]))
            .to_vec();
        drawn.extend(crown.iter().map(|part| wash(part, &mixed(MOSS, LIME, 0.2))));
        drawn.push(strokes(&crown).with("stroke", pale).with("stroke-width", 0.12));
    }
    drawn
}

/// The same line with its corners cut, its ends kept.
fn rounded_open(points: [[f64; 2]; 5]) -> Vec<[f64; 2]> {
    let there_and_back: Vec<[f64; 2]> = points.iter().chain(points[1..4].iter().rev()).copied().collect();
    let cut = rounded(&there_and_back);
    cut[2..cut.len() / 2].to_vec()
}

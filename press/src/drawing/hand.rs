//! A hand's line: it wavers a little, stones are no two alike, straw lies as it fell; the same from the same seed each time.

use engine::polygon;
use kurbo::Point;

use super::area::Area;
use crate::paper::INK;
use crate::svg::{Element, Run};

/// From one point of a drawn line to the next, in millimetres.
const STEP: f64 = 1.6;
/// From one turn of the hand to the next, in millimetres.
const WAVE: f64 = 7.0;
/// Places tried for each stone or fleck that is wanted.
const TRIES: usize = 14;

/// A hand that draws.
pub(super) struct Hand(u64);

impl Hand {
    /// A hand that draws alike from the same seed.
    pub(super) fn from(seed: u64) -> Hand {
        Hand(seed.wrapping_mul(0x9e37_79b9_7f4a_7c15))
    }

    /// A number between two.
    pub(super) fn between(&mut self, low: f64, high: f64) -> f64 {
        self.0 = self.0.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
        low + (high - low) * ((self.0 >> 33) as f64 / f64::from(1_u32 << 31))
    }

    /// A line through points that wavers by so many millimetres at most; it keeps its ends.
    pub(super) fn line(&mut self, points: &[[f64; 2]], waver: f64) -> Vec<[f64; 2]> {
        let mut drawn: Vec<[f64; 2]> = Vec::new();
        for pair in points.windows(2) {
            let [from, to] = [pair[0], pair[1]];
            let way = [to[0] - from[0], to[1] - from[1]];
            let length = way[0].hypot(way[1]);
            if length < 1e-6 {
                continue;
            }
            let across = [-way[1] / length, way[0] / length];
            let count = (length / STEP).ceil().max(1.0) as u32;
            let mut turns: Vec<f64> =
                (0..=(length / WAVE).ceil() as u32 + 1).map(|_| self.between(-waver, waver)).collect();
            turns[0] = 0.0;
            for step in 0..=count {
                let share = f64::from(step) / f64::from(count);
                let place = share * length / WAVE;
                let [low, high] = [turns[place as usize], turns[(place as usize + 1).min(turns.len() - 1)]];
                let part = place.fract();
                let smooth = part * part * (3.0 - 2.0 * part);
                // The hand is steady where a line begins and ends.
                let off = (low + (high - low) * smooth) * (1.0 - (2.0 * share - 1.0).powi(6));
                let at = [from[0] + way[0] * share + across[0] * off, from[1] + way[1] * share + across[1] * off];
                if step > 0 || drawn.is_empty() {
                    drawn.push(at);
                }
            }
        }
        drawn
    }

    /// The outline of an area, wavering like a line.
    pub(super) fn outline(&mut self, corners: &[[f64; 2]], waver: f64) -> Vec<[f64; 2]> {
        let round: Vec<[f64; 2]> = corners.iter().chain(corners.first()).copied().collect();
        self.line(&round, waver)
    }

    /// A stone about a centre: half its width and half its height, in millimetres.
    pub(super) fn stone(&mut self, centre: [f64; 2], half: [f64; 2]) -> Vec<[f64; 2]> {
        let sides = 6;
        let start = self.between(0.0, 1.0);
        let corners: Vec<[f64; 2]> = (0..sides)
            .map(|side| {
                let turn = (f64::from(side) + start) * std::f64::consts::TAU / f64::from(sides);
                let reach = self.between(0.82, 1.12);
                [centre[0] + half[0] * reach * turn.cos(), centre[1] + half[1] * reach * turn.sin()]
            })
            .collect();
        rounded(&corners)
    }

    /// Stones that fill an area without touching, their radii between two, in millimetres.
    pub(super) fn stones(&mut self, area: &[[f64; 2]], [small, large]: [f64; 2]) -> Vec<Vec<[f64; 2]>> {
        let ([least, most], outline) = (corners(area), points(area));
        let wanted = ((most[0] - least[0]) * (most[1] - least[1]) / (large * large * 1.8)).min(500.0) as usize;
        let mut placed: Vec<([f64; 2], f64)> = Vec::new();
        for attempt in 0..wanted * TRIES {
            // Large ones lie first, small ones in the gaps.
            let share = 1.0 - attempt as f64 / (wanted * TRIES) as f64;
            let radius = small + (large - small) * share * self.between(0.7, 1.0);
            let at = [self.between(least[0], most[0]), self.between(least[1], most[1])];
            let is_inside = (0..8).all(|side| {
                let turn = f64::from(side) * std::f64::consts::FRAC_PI_4;
                let rim = Point::new(at[0] + radius * 0.95 * turn.cos(), at[1] + radius * 0.95 * turn.sin());
                polygon::contains(&outline, rim)
            });
            let is_clear =
                || placed.iter().all(|([x, y], other)| (x - at[0]).hypot(y - at[1]) > (radius + other) * 1.02 + 0.12);
            if is_inside && is_clear() {
                placed.push((at, radius));
            }
        }
        placed.into_iter().map(|(at, radius)| self.stone(at, [radius, radius * 0.86])).collect()
    }

    /// Short strokes strewn over an area: so many on a square centimetre, so long, in millimetres.
    pub(super) fn flecks(&mut self, area: &[[f64; 2]], density: f64, length: f64) -> Vec<[[f64; 2]; 2]> {
        let ([least, most], outline) = (corners(area), points(area));
        let count = ((most[0] - least[0]) * (most[1] - least[1]) * density / 100.0).min(900.0) as usize;
        let mut found = Vec::new();
        for _ in 0..count {
            let at = [self.between(least[0], most[0]), self.between(least[1], most[1])];
            let turn = self.between(-1.1, 1.1);
            let long = length * self.between(0.5, 1.0);
            let end = [at[0] + long * turn.cos(), at[1] + long * turn.sin()];
            if [at, end].iter().all(|&[x, y]| polygon::contains(&outline, Point::new(x, y))) {
                found.push([at, end]);
            }
        }
        found
    }

    /// Blades of grass along a line, so high in millimetres, about so far apart.
    pub(super) fn grass(&mut self, line: &[[f64; 2]], high: f64, apart: f64) -> Element {
        let mut blades: Vec<Vec<[f64; 2]>> = Vec::new();
        for pair in line.windows(2) {
            let [from, to] = [pair[0], pair[1]];
            let length = (to[0] - from[0]).hypot(to[1] - from[1]);
            let mut at = self.between(0.0, apart);
            while at < length {
                let share = at / length;
                let foot = [from[0] + (to[0] - from[0]) * share, from[1] + (to[1] - from[1]) * share];
                for _ in 0..3 {
                    let (lean, tall) = (self.between(-0.55, 0.55) * high, self.between(0.45, 1.0) * high);
                    let start = foot[0] + self.between(-0.5, 0.5);
                    let middle = [start + lean * 0.3, foot[1] - tall * 0.6];
                    blades.push(vec![[start, foot[1]], middle, [start + lean, foot[1] - tall]]);
                }
                at += apart * self.between(0.55, 1.6);
            }
        }
        strokes(&blades)
    }
}

/// Open lines as one element, neither coloured nor weighted yet.
pub(super) fn strokes(lines: &[Vec<[f64; 2]>]) -> Element {
    let runs: Vec<Run<'_>> = lines.iter().map(|line| Run::Open(line)).collect();
    Element::path(&runs).with("stroke-linecap", "round").with("stroke-linejoin", "round")
}

/// Straight strokes as one element, neither coloured nor weighted yet.
pub(super) fn ticks(lines: &[[[f64; 2]; 2]]) -> Element {
    let runs: Vec<Run<'_>> = lines.iter().map(|line| Run::Open(line)).collect();
    Element::path(&runs).with("stroke-linecap", "round")
}

/// Areas as one element with a fill and a line of a width in millimetres round each.
pub(super) fn areas(outlines: &[Vec<[f64; 2]>], fill: &str, width: f64) -> Element {
    let runs: Vec<Run<'_>> = outlines.iter().map(|outline| Run::Closed(outline)).collect();
    let drawn = Element::path(&runs).with("fill", fill.to_owned()).with("stroke", INK).with("stroke-width", width);
    drawn.with("stroke-linejoin", "round")
}

/// An area without a line round it.
pub(super) fn wash(outline: &[[f64; 2]], fill: &str) -> Element {
    Element::polygon(outline).with("fill", fill.to_owned())
}

/// The corners cut off twice (Chaikin's rule).
pub(super) fn rounded(corners: &[[f64; 2]]) -> Vec<[f64; 2]> {
    let once = |points: &[[f64; 2]]| -> Vec<[f64; 2]> {
        let next = points.iter().cycle().skip(1);
        let between = |a: &[f64; 2], b: &[f64; 2], share: f64| [0, 1].map(|axis| a[axis] + (b[axis] - a[axis]) * share);
        points.iter().zip(next).flat_map(|(a, b)| [between(a, b, 0.25), between(a, b, 0.75)]).collect()
    };
    once(&once(corners))
}

/// Whether a point lies inside a closed outline.
pub(super) fn contains(outline: &[[f64; 2]], at: [f64; 2]) -> bool {
    polygon::contains(&points(outline), Point::from((at[0], at[1])))
}

/// The least and the greatest corner of the upright box round points.
pub(super) fn corners(outline: &[[f64; 2]]) -> [[f64; 2]; 2] {
    let Area { left, top, right, bottom } = Area::round(outline);
    [[left, top], [right, bottom]]
}

fn points(outline: &[[f64; 2]]) -> Vec<Point> {
    outline.iter().map(|&[x, y]| Point::new(x, y)).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn stones_lie_inside_their_area_and_come_out_alike_each_time() {
        let area = [[0.0, 0.0], [30.0, 0.0], [30.0, 20.0], [0.0, 20.0]];
        let stones = Hand::from(3).stones(&area, [0.6, 1.6]);
        assert!(stones.len() > 40, "{} stones", stones.len());
        assert!(stones.iter().flatten().all(|at| contains(&area, *at)));
        assert_eq!(stones, Hand::from(3).stones(&area, [0.6, 1.6]));
    }

    #[test]
    fn a_wavering_line_keeps_its_ends_and_strays_no_farther_than_it_may() {
        let line = Hand::from(1).line(&[[0.0, 0.0], [60.0, 0.0]], 0.3);
        assert_eq!((line.first(), line.last()), (Some(&[0.0, 0.0]), Some(&[60.0, 0.0])));
        assert!(line.iter().all(|[_, y]| y.abs() <= 0.3) && line.iter().any(|[_, y]| y.abs() > 0.05));
    }
}

//! The texture triangle with each jar and each grading: what its band covers is hatched, lines are where classes meet by their own bounds.

use engine::earth::soil::{Shares, boundaries, class_places};
use engine::pictures::SoilPoint;

use super::Scaled;
use super::area::Area;
use super::bricks::LETTERS;
use super::labels::{Label, Obstacle};
use super::lettered::Lettered;
use crate::lettering;
use crate::paper::{INK, LIME, Paper, SLATE, weight};
use crate::svg::Element;

/// Left, right, above and below the room of the triangle, in millimetres.
const ROUND: [f64; 4] = [16.0, 16.0, 8.0, 11.0];
/// Height of an equilateral triangle for its side.
const TALL: f64 = 0.866_025_403_784_438_6;
/// No triangle has a longer side, in millimetres.
const LONGEST: f64 = 98.0;
/// Letters of the classes, in millimetres.
const CLASSES: f64 = 2.2;
/// From line to line of a hatch, in millimetres.
const HATCH: f64 = 1.7;
/// Radius of a test's mark, in millimetres.
const MARK: f64 = 1.1;

/// The triangle; none where no test says sand, silt and clay.
#[must_use]
pub fn texture(tests: &[SoilPoint], paper: Paper) -> Option<Scaled> {
    if tests.is_empty() {
        return None;
    }
    let [widest, highest] = paper.drawing_mm();
    let room = (widest - ROUND[0] - ROUND[1]).min((highest - ROUND[2] - ROUND[3]).max(60.0) / TALL);
    let side = room.min(LONGEST);
    let size = [side + ROUND[0] + ROUND[1], ROUND[2] + TALL * side + ROUND[3]];
    let area = Area { left: ROUND[0], top: ROUND[2], right: ROUND[0] + side, bottom: ROUND[2] + TALL * side };
    let sheet = Lettered::new(size, LETTERS, "Sand, silt and clay by the tests of the soil");
    let mut drawn = Drawn { area, sheet, obstacles: Vec::new(), labels: Vec::new() };
    drawn.classes();
    for (at, test) in tests.iter().enumerate() {
        drawn.band(at, test);
    }
    for test in tests {
        drawn.mark(test);
    }
    Some(drawn.sheet.placed(Area::round(&[[0.0, 0.0], size]), &drawn.obstacles, &drawn.labels))
}

struct Drawn {
    area: Area,
    sheet: Lettered,
    obstacles: Vec<Obstacle>,
    labels: Vec<Label>,
}

impl Drawn {
    /// A place in the triangle: clay at the top, sand on the left, silt on the right.
    fn place(&self, [_, silt, clay]: Shares) -> [f64; 2] {
        let side = self.area.width();
        [self.area.left + side * (silt + 0.5 * clay) / 100.0, self.area.bottom - side * TALL * clay / 100.0]
    }

    fn line(&mut self, ends: [[f64; 2]; 2], wide: f64, colour: &'static str) {
        self.sheet.push(Element::line(ends[0], ends[1]).with("stroke", colour).with("stroke-width", wide));
    }

    fn classes(&mut self) {
        for boundary in boundaries() {
            let ends = boundary.ends.map(|end| self.place(end));
            self.line(ends, weight::THIN, SLATE);
            self.obstacles.push(Obstacle::Segment(ends[0], ends[1], 1.0));
        }
        let corners = [[0.0, 0.0, 100.0], [100.0, 0.0, 0.0], [0.0, 100.0, 0.0]].map(|corner| self.place(corner));
        let rim = Element::polygon(&corners).with("fill", "none").with("stroke", INK);
        self.sheet.push(rim.with("stroke-width", weight::SEEN));
        for class in class_places() {
            let at = self.place(class.middle);
            let words: Vec<&str> = class.name.rsplitn(2, ' ').collect();
            let words: Vec<&str> = words.into_iter().rev().collect();
            self.labels.push(Label { preferred: vec![at], ..Label::beside(at, CLASSES, &words.join("\n")) });
        }
        for fifth in 1..5 {
            self.percents(20.0 * f64::from(fifth));
        }
        for (corner, words, [right, down]) in [
            (corners[0], "all clay", [0.0, -3.5]),
            (corners[1], "all sand", [-4.0, 7.0]),
            (corners[2], "all silt", [4.0, 7.0]),
        ] {
            self.beside(corner, [corner[0] + right, corner[1] + down], words);
        }
    }

    /// Shares of clay on the left side, of sand below, of silt on the right, each with a short line the way it is read.
    fn percents(&mut self, share: f64) {
        let rest = 100.0 - share;
        let words = format!("{share:.0} %");
        let wide = 0.5 * lettering::width(&words, LETTERS) + 1.6;
        let sides: [(Shares, Shares, [f64; 2]); 3] = [
            ([rest, 0.0, share], [rest - 2.0, 2.0, share], [-wide, 0.0]),
            ([share, rest, 0.0], [share, rest - 2.0, 2.0], [0.0, 3.2]),
            ([0.0, share, rest], [2.0, share, rest - 2.0], [wide, 0.0]),
        ];
        for (from, to, [right, down]) in sides {
            let ends = [from, to].map(|end| self.place(end));
            self.line(ends, weight::THIN, INK);
            let [x, y] = ends[0];
            self.beside([x, y], [x + right, y + down], &words);
        }
    }

    /// Words of a point whose middle stands best at another.
    fn beside(&mut self, at: [f64; 2], middle: [f64; 2], words: &str) {
        self.labels.push(Label { preferred: vec![middle], ..Label::beside(at, LETTERS, words) });
    }

    /// What the band of a test covers: hatched, a jar's outline broken.
    fn band(&mut self, at: usize, test: &SoilPoint) {
        let corners: Vec<[f64; 2]> = test.outline.iter().map(|corner| self.place(*corner)).collect();
        let turn = [1.0, -1.0][at % 2];
        let lines = hatched(&corners, [turn * 0.5, TALL], HATCH * (1.0 + 0.5 * (at / 2) as f64));
        let lines = lines.into_iter().map(|[from, to]| Element::line(from, to)).collect();
        self.sheet
            .push(Element::group(lines).with("stroke", SLATE).with("stroke-width", 0.12).data_path(&test.paths[0]));
        let ends = corners.iter().zip(corners.iter().cycle().skip(1));
        self.obstacles.extend(ends.map(|(from, to)| Obstacle::Segment(*from, *to, 3.0)));
        let rim = Element::polygon(&corners).with("fill", "none").with("stroke", INK).data_path(&test.paths[2]);
        self.sheet.push(if test.is_grading {
            rim.with("stroke-width", weight::SEEN)
        } else {
            rim.with("stroke-width", weight::THIN).with("stroke-dasharray", "1.6 1")
        });
    }

    /// A grading is a disc, a jar a ring.
    fn mark(&mut self, test: &SoilPoint) {
        let at = self.place(test.middle);
        let fill = if test.is_grading { INK } else { LIME };
        let mark = Element::circle(at, MARK).with("fill", fill).with("stroke", INK);
        self.sheet.push(mark.with("stroke-width", weight::SEEN).data_path(&test.paths[1]));
        self.obstacles.push(Obstacle::Area(Area::about(at, 3.4, 3.4), 5.0));
        // Beside the band: a grading on its right, a jar on its left.
        let round = Area::round(&test.outline.iter().map(|corner| self.place(*corner)).collect::<Vec<_>>());
        let away = 0.5 * lettering::width(&test.words, LETTERS) + 1.5;
        let x = if test.is_grading { round.right + away } else { round.left - away };
        let preferred = vec![[x, at[1]]];
        let path = test.paths[2].clone();
        self.labels.push(Label { path, preferred, ..Label::beside(at, LETTERS, &test.words) });
    }
}

/// Lines across a convex polygon, so far apart, along a direction of length one.
pub(super) fn hatched(corners: &[[f64; 2]], [right, down]: [f64; 2], apart: f64) -> Vec<[[f64; 2]; 2]> {
    let across = |[x, y]: [f64; 2]| y * right - x * down;
    let sides = || corners.iter().zip(corners.iter().cycle().skip(1));
    let [low, high] = [f64::min, f64::max].map(|side| corners.iter().map(|at| across(*at)).reduce(side).unwrap_or(0.0));
    let count = ((high - low) / apart).floor().max(0.0) as u32;
    let lines = (0..=count).filter_map(|place| {
        let level = low + (f64::from(place) + 0.5) * apart;
        let mut ends = sides().filter_map(|(from, to)| {
            let [own, next] = [across(*from), across(*to)];
            let share = (level - own) / (next - own);
            ((own < level) != (next < level)).then(|| [0, 1].map(|axis| from[axis] + share * (to[axis] - from[axis])))
        });
        Some([ends.next()?, ends.next()?])
    });
    lines.collect()
}

#[cfg(test)]
mod tests {
    use super::hatched;

    #[test]
    fn a_hatch_runs_from_side_to_side_and_no_farther() {
        let square = [[0.0, 0.0], [10.0, 0.0], [10.0, 10.0], [0.0, 10.0]];
        let lines = hatched(&square, [1.0, 0.0], 2.0);
        assert_eq!(lines.len(), 5);
        assert!(lines.iter().all(|[from, to]| ((from[0] - to[0]).abs() - 10.0).abs() < 1e-9));
    }
}

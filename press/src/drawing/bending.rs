//! Bending along the pole that is used most: the greatest moments both ways over its length, and how it sags.

use engine::answers::Answers;
use engine::quantities::Along;
use kurbo::Rect;

use super::area::Area;
use super::frame::{Frame, Margins};
use super::{Scaled, hatch};
use crate::lettering;
use crate::paper::{INK, LIME, Paper, SLATE, STRAW, weight};
use crate::spoken::spoken;
use crate::svg::{Element, Svg};

/// Letters, in millimetres.
const LETTERS: f64 = 2.8;
/// Left and right of the pole, in millimetres.
const SIDES: f64 = 16.0;
/// Height of the strip of the moments and of that of the sag, in millimetres.
const STRIPS: [f64; 2] = [46.0, 24.0];
/// How far the deepest sag is drawn, in millimetres.
const DEEP: f64 = 12.0;

/// The pole along its length; none where the ring or its loads are not known.
#[must_use]
pub fn bending(answers: &Answers, along: Option<&Along>, paper: Paper) -> Option<Scaled> {
    let along = along?;
    let width = paper.drawing_mm()[0];
    let size = [width, STRIPS[0] + STRIPS[1] + 12.0];
    let title = format!("Bending and sag of {}", spoken(&along.tag));
    let mut drawn = Drawn { svg: Svg::sheet(size[0], size[1], &title), boxes: Vec::new(), along, width };
    drawn.moments(answers);
    drawn.sag(answers);
    let whole = (Rect::new(0.0, 0.0, size[0], size[1]), Margins { left: 0.0, top: 0.0, right: 0.0, bottom: 0.0 });
    Some(Scaled {
        svg: drawn.svg,
        scale: String::new(),
        key: Vec::new(),
        boxes: drawn.boxes,
        room: Area::round(&[[0.0, 0.0], size]),
        frame: Frame { size_mm: size, times_smaller: 1.0, words: "", rows: vec![whole] },
    })
}

struct Drawn<'a> {
    svg: Svg,
    boxes: Vec<Area>,
    along: &'a Along,
    width: f64,
}

impl Drawn<'_> {
    fn x(&self, along: f64) -> f64 {
        SIDES + (self.width - 2.0 * SIDES) * along / self.along.marks[3]
    }

    /// Words centred about a place, kept on the sheet.
    fn words(&mut self, [x, y]: [f64; 2], words: &str, path: Option<&str>) {
        let extent = lettering::extent(words, LETTERS);
        let left = (x - 0.5 * extent.width).clamp(0.5, self.width - extent.width - 0.5);
        let area = Area { left, top: y - extent.ascent, right: left + extent.width, bottom: y + extent.descent };
        self.boxes.push(area);
        let text = Element::text([left, y], LETTERS, words).with("fill", INK);
        self.svg.push(path.map_or(text.clone(), |path| text.data_path(path)));
    }

    fn line(&mut self, points: &[[f64; 2]], (wide, dashes): (f64, &'static str), path: &str) {
        let line = Element::polyline(points).with("fill", "none").with("stroke", INK).with("stroke-width", wide);
        let line = line.data_path(path);
        self.svg.push(if dashes.is_empty() { line } else { line.with("stroke-dasharray", dashes) });
    }

    fn moments(&mut self, answers: &Answers) {
        let moments = &self.along.moments;
        let (least, most) =
            moments.iter().fold((0.0_f64, 0.0_f64), |(least, most), own| (least.min(own[1]), most.max(own[2])));
        let axis = 8.0 + (STRIPS[0] - 16.0) * most / (most - least).max(1e-9);
        let y = |moment: f64| axis - (STRIPS[0] - 16.0) * moment / (most - least).max(1e-9);
        let above = moments.iter().map(|own| [self.x(own[0]), y(own[2])]);
        let below = moments.iter().rev().map(|own| [self.x(own[0]), y(own[1])]);
        let outline: Vec<[f64; 2]> = above.chain(below).collect();
        let area = Element::polygon(&outline).with("fill", hatch::mixed(STRAW, LIME, 0.35)).with("stroke", INK);
        let path = format!("roof.members.{}.moment", self.along.place);
        self.svg.push(area.with("stroke-width", weight::THIN).data_path(&path));
        let ends = [0.0, self.along.marks[3]].map(|along| [self.x(along), axis]);
        let place = format!("roof.places.{}", self.along.place);
        self.line(&ends, (weight::CUT, ""), &format!("{place}.cut-length"));
        let carry = self.along.marks[1];
        let peak = moments.iter().max_by(|one, other| (one[2] - one[1]).total_cmp(&(other[2] - other[1])));
        let Some(peak) = peak else { return };
        let says = answers.rows.find(&path).map(|row| row.shown(answers.system)).unwrap_or_default();
        let at = if peak[2] > -peak[1] { y(peak[2]) - 2.0 } else { y(peak[1]) + 4.4 };
        self.words([self.x(carry), at], &format!("{says} at most"), Some(&path));
        let from = STRIPS[0] + 2.0;
        let marks = [("wall", "tail"), ("carries", "carry"), ("rests", "rest")];
        for (mark, (words, noun)) in self.along.marks.into_iter().zip(marks) {
            let (x, path) = (self.x(mark), format!("{place}.{noun}"));
            self.line(&[[x, axis], [x, from + STRIPS[1]]], (weight::THIN, "1 1"), &path);
            let lower = if noun == "rest" { 4.0 } else { 0.0 };
            self.words([x, from + STRIPS[1] + 4.0 + lower], words, Some(&path));
        }
        self.words([SIDES, 4.0], "bending", None);
    }

    fn sag(&mut self, answers: &Answers) {
        let [foot, _, rest, end] = self.along.marks;
        let level = STRIPS[0] + 8.0;
        let value = |noun: &str| {
            let row = answers.rows.find(&format!("roof.members.{}.{noun}", self.along.place))?;
            Some((row.path.clone(), row.shown(answers.system), row.quantity.si()?))
        };
        let (Some((sinks, says, sunk)), Some((sagged, _, sags))) = (value("sinks"), value("sags")) else { return };
        let deepest = sunk.abs().max(sags.abs()).max(1e-9);
        let steps = 40_u32;
        let curve = (0..=steps).map(|step| {
            let along = end * f64::from(step) / f64::from(steps);
            let share = (along - foot) / (rest - foot);
            let between = if (0.0..=1.0).contains(&share) { 4.0 * share * (1.0 - share) * sags } else { 0.0 };
            [self.x(along), level + DEEP * (share * sunk + between) / deepest]
        });
        let curve: Vec<[f64; 2]> = curve.collect();
        let ends = [0.0, end].map(|along| [self.x(along), level]);
        self.line(&ends, (weight::THIN, "2 1.2"), &sinks);
        self.line(&curve, (weight::CUT, ""), &sagged);
        let slate = Element::circle([self.x(foot), level], 0.8).with("fill", SLATE);
        self.svg.push(slate);
        let at = [self.x(0.5 * (rest + end)), level - 2.0];
        self.words(at, &format!("sinks {says}"), Some(&sinks));
        self.words([SIDES, level + 6.0], "sag in the end", None);
    }
}

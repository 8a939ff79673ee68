//! A sheet at a true scale: from metres of the house to millimetres of paper, scale bar, labels and their obstacles.

use engine::answers::Answers;
use engine::house::handles::On;
use engine::house::part::{Outline, Part};
use engine::polygon::bounds;
use engine::units::System;
use kurbo::{Point, Rect, Vec2};

use super::Scaled;
use super::area::Area;
use super::frame::Frame;
pub(super) use super::frame::{Margins, Row};
use super::labels::{Label, Obstacle, place};
use crate::lettering;
use crate::paper::{INK, Room, SLATE, Scales, weight};
use crate::svg::{Element, Svg};

/// Height of all lettering on drawings, in millimetres of the em.
pub(super) const LETTERING: f64 = 3.3;

/// Space for the scale bar below a drawing, in millimetres.
const STRIP: f64 = 14.0;

/// What is said of a picture that is drawn to no one scale.
const NO_SCALE: &str = "not to one scale";

/// A screen narrower than this, in millimetres, shows what stands elsewhere on the leaf as well only there.
pub(super) const SMALL: f64 = 120.0;

/// What a handle takes on a screen, in millimetres, and what lettering over it costs.
const HANDLE: f64 = 4.2;
const ON_HANDLE: f64 = 6.0;

/// Scales that a builder's rule has, by how many times smaller than life, with their words.
const METRIC: &[(f64, &str)] = &[
    (5.0, "1:5"),
    (10.0, "1:10"),
    (20.0, "1:20"),
    (25.0, "1:25"),
    (50.0, "1:50"),
    (75.0, "1:75"),
    (100.0, "1:100"),
    (200.0, "1:200"),
    (250.0, "1:250"),
    (500.0, "1:500"),
    (1000.0, "1:1000"),
];
const US: &[(f64, &str)] = &[
    (8.0, "1 1/2 in = 1 ft"),
    (12.0, "1 in = 1 ft"),
    (16.0, "3/4 in = 1 ft"),
    (24.0, "1/2 in = 1 ft"),
    (32.0, "3/8 in = 1 ft"),
    (48.0, "1/4 in = 1 ft"),
    (64.0, "3/16 in = 1 ft"),
    (96.0, "1/8 in = 1 ft"),
    (192.0, "1/16 in = 1 ft"),
    (240.0, "1 in = 20 ft"),
    (360.0, "1 in = 30 ft"),
    (384.0, "1/32 in = 1 ft"),
    (768.0, "1/64 in = 1 ft"),
];

/// From one scale of a screen to the next, fine enough to use the room and coarse enough to stay while a house grows a little.
const SCREEN_STEP: f64 = 1.08;
/// So many steps reach from 1:5 beyond 1:1000.
const SCREEN_STEPS: i32 = 70;

/// The largest scale of a screen that fits, as how many times smaller than life.
fn screen_scale(fits: impl Fn(f64) -> bool) -> f64 {
    let scale = |step: i32| METRIC[0].0 * SCREEN_STEP.powi(step);
    (0..SCREEN_STEPS).map(scale).find(|scale| fits(*scale)).unwrap_or(scale(SCREEN_STEPS))
}

/// The smallest upright box round parts, in metres.
pub(super) fn extent(parts: &[Part]) -> Rect {
    bounds(parts.iter().flat_map(|part| &part.outlines).flat_map(|outline| outline.points.iter().copied()))
}

/// A sheet being drawn.
pub(super) struct Sheet {
    svg: Svg,
    frame: Frame,
    /// Whether the frame is that of an earlier drawing, which this one may outgrow.
    is_held: bool,
    /// The row that is being drawn.
    row: usize,
    system: System,
    obstacles: Vec<Obstacle>,
    labels: Vec<Label>,
}

impl Sheet {
    /// The smallest sheet that shows rows at the largest scale that fits a room (millimetres), the first row being drawn.
    pub(super) fn new(title: &str, rows: &[Row], room: Room, system: System) -> Sheet {
        let size = |scale: f64| {
            let sides = |(extent, margins): &Row| {
                let width = extent.width() * 1000.0 / scale + margins.left + margins.right;
                [width, extent.height() * 1000.0 / scale + margins.top + margins.bottom]
            };
            let together = |sheet: [f64; 2], row: [f64; 2]| [sheet[0].max(row[0]), sheet[1] + row[1]];
            rows.iter().map(sides).fold([0.0, STRIP], together)
        };
        let [width, height] = room.size_mm;
        let fits = |scale: f64| {
            let size = size(scale);
            size[0] <= width && size[1] <= height
        };
        let (times_smaller, words) = match room.scales {
            Scales::OfAScreen => (screen_scale(fits), ""),
            Scales::OfARule => {
                let scales = if system == System::Us { US } else { METRIC };
                scales.iter().find(|scale| fits(scale.0)).copied().unwrap_or(scales[scales.len() - 1])
            }
        };
        let size = size(times_smaller);
        let size_mm = [size[0].min(width), size[1].min(height)];
        Sheet::of(title, Frame { size_mm, times_smaller, words, rows: rows.to_vec() }, system)
    }

    /// A sheet for a picture that has no one scale, as large as the room on paper allows.
    pub(super) fn unscaled(title: &str, row: Row, [width, height]: [f64; 2], system: System) -> Sheet {
        let (extent, margins) = row;
        let free = [width - margins.left - margins.right, height - margins.top - margins.bottom];
        let times_smaller = (extent.width() / free[0]).max(extent.height() / free[1]) * 1000.0;
        let size = [
            extent.width() * 1000.0 / times_smaller + margins.left + margins.right,
            extent.height() * 1000.0 / times_smaller + margins.top + margins.bottom,
        ];
        let size_mm = [size[0].min(width), size[1].min(height)];
        Sheet::of(title, Frame { size_mm, times_smaller, words: NO_SCALE, rows: vec![row] }, system)
    }

    /// A sheet in the frame of an earlier drawing, so that nothing of it moves but what changed.
    pub(super) fn held(title: &str, frame: &Frame, system: System) -> Sheet {
        Sheet { is_held: true, ..Sheet::of(title, frame.clone(), system) }
    }

    fn of(title: &str, frame: Frame, system: System) -> Sheet {
        let [width, height] = frame.size_mm;
        let svg = Svg::sheet(width, height, title);
        Sheet { svg, frame, is_held: false, row: 0, system, obstacles: Vec::new(), labels: Vec::new() }
    }

    /// Whether it is drawn for a screen and not for paper.
    pub(super) fn is_on_screen(&self) -> bool {
        self.frame.words.is_empty()
    }

    /// Whether it is drawn for a screen that is too narrow for all that can be said.
    pub(super) fn is_small(&self) -> bool {
        self.is_on_screen() && self.frame.size_mm[0] < SMALL
    }

    /// Width and height of the sheet in millimetres.
    pub(super) fn size_mm(&self) -> [f64; 2] {
        self.frame.size_mm
    }

    /// How many times smaller than life the sheet shows the house.
    pub(super) fn times_smaller(&self) -> f64 {
        self.frame.times_smaller
    }

    /// Where what stands beside a part begins, in metres: at the part's own right end, in a held frame at the row's.
    pub(super) fn right_of(&self, part: Rect) -> f64 {
        if self.is_held { self.frame.rows[self.row].0.x1 } else { part.x1 }
    }

    /// Turns to another row, counted from 0.
    pub(super) fn turn_to(&mut self, row: usize) {
        self.row = row;
    }

    /// A point of the house on paper, in the row that is being drawn.
    pub(super) fn at(&self, point: Point) -> [f64; 2] {
        self.frame.at(point, self.row)
    }

    /// Metres of the house in millimetres of paper.
    pub(super) fn paper(&self, metres: f64) -> f64 {
        self.frame.paper(metres)
    }

    /// A direction of the house on paper.
    pub(super) fn direction(&self, direction: Vec2) -> [f64; 2] {
        [direction.x, -direction.y]
    }

    /// Puts an element on the sheet.
    pub(super) fn push(&mut self, element: Element) {
        self.svg.push(element);
    }

    /// Adds what elements name by its `id`.
    pub(super) fn define(&mut self, element: Element) {
        self.svg.define(element);
    }

    /// The points of an outline on paper.
    pub(super) fn points(&self, outline: &Outline) -> Vec<[f64; 2]> {
        outline.points.iter().map(|&point| self.at(point)).collect()
    }

    /// Keeps labels off a line of this many points.
    pub(super) fn avoid(&mut self, points: &[[f64; 2]], closed: bool, cost: f64) {
        let pairs = points.windows(2).map(|pair| (pair[0], pair[1]));
        let last = if closed { points.last().copied().zip(points.first().copied()) } else { None };
        self.obstacles.extend(pairs.chain(last).map(|(from, to)| Obstacle::Segment(from, to, cost)));
    }

    /// Keeps labels off what a finger takes hold of on a screen, of the row that is being drawn.
    pub(super) fn avoid_handles(&mut self, answers: &Answers, on: On) {
        if !self.is_on_screen() {
            return;
        }
        let (row, _) = self.frame.rows[self.row];
        let is_here = |at: Point| self.frame.rows.len() == 1 || (row.x0..=row.x1).contains(&at.x);
        let handles = answers.handles.iter().filter(|handle| handle.on == on && is_here(handle.at));
        let held: Vec<_> = handles.map(|handle| Area::about(self.at(handle.at), HANDLE, HANDLE)).collect();
        self.obstacles.extend(held.into_iter().map(|area| Obstacle::Area(area, ON_HANDLE)));
    }

    /// Asks for a label.
    pub(super) fn label(&mut self, label: Label) {
        self.labels.push(label);
    }

    /// Height of the strip for the scale bar; none where nothing has a scale.
    fn strip(&self) -> f64 {
        if self.frame.words == NO_SCALE { 0.0 } else { STRIP }
    }

    /// Between which levels a line of words has room on the sheet, from above to below.
    pub(super) fn lines_between(&self) -> [f64; 2] {
        [LETTERING, self.frame.size_mm[1] - self.strip() - LETTERING]
    }

    /// Closes the sheet without scale bar and labels.
    pub(super) fn bare(self) -> Svg {
        self.svg
    }

    /// Draws scale bar and labels, and closes the sheet.
    pub(super) fn finished(mut self) -> Scaled {
        let (width, height) = (self.svg.width_mm(), self.svg.height_mm());
        let strip = self.strip();
        if strip > 0.0 {
            self.scale_bar(height - strip * 0.5);
        }
        let room = Area { left: 0.0, top: 0.0, right: width, bottom: height - strip };
        let placement = place(room, &self.obstacles, &self.labels);
        self.svg.push(placement.drawn(&self.labels));
        let key = placement.key.iter().filter_map(|entry| Some((entry.number, self.labels.get(entry.label)?)));
        let key = key.map(|(number, label)| (number, label.text.replace('\n', ", "))).collect();
        let marks = placement.key.iter().filter_map(|entry| entry.mark.as_ref());
        let boxes = placement.places.iter().flatten().chain(marks).map(|placed| placed.area).collect();
        Scaled { svg: self.svg, scale: self.frame.words.to_owned(), key, boxes, room, frame: self.frame }
    }

    fn scale_bar(&mut self, level: f64) {
        let (step, unit, count) = match self.system {
            System::Metric if self.frame.times_smaller <= 10.0 => (0.25, "m", 4),
            System::Metric if self.frame.times_smaller <= 25.0 => (0.5, "m", 4),
            System::Metric if self.frame.times_smaller < 150.0 => (1.0, "m", 4),
            System::Metric => (5.0, "m", 2),
            System::Us if self.frame.times_smaller <= 24.0 => (0.3048, "ft", 4),
            System::Us if self.frame.times_smaller < 150.0 => (4.0 * 0.3048, "ft", 3),
            System::Us => (10.0 * 0.3048, "ft", 3),
        };
        let per_step = if self.system == System::Metric { step } else { step / 0.3048 };
        let left = 4.0;
        let length = self.paper(step);
        // A narrow sheet has fewer steps, and room for the words of the scale beside them.
        let free = self.svg.width_mm() - left - 14.0 - lettering::width(self.frame.words, 2.8);
        let count = count.min((free / length).floor().max(1.0) as u32);
        for index in 0..count {
            let fill = if index % 2 == 0 { INK } else { "none" };
            let corner = [left + length * f64::from(index), level];
            let bar = Element::rectangle(corner, length, 1.4).with("fill", fill);
            self.push(bar.with("stroke", INK).with("stroke-width", weight::THIN));
        }
        for index in 0..=count {
            let number = per_step * f64::from(index);
            let words = if index == count { format!("{number} {unit}") } else { number.to_string() };
            let at = [left + length * f64::from(index) - lettering::width(&number.to_string(), 2.8) * 0.5, level - 1.2];
            self.push(Element::text(at, 2.8, &words).with("fill", INK));
        }
        let at = [left + length * f64::from(count) + 12.0, level + 1.6];
        if !self.frame.words.is_empty() {
            self.push(Element::text(at, 2.8, self.frame.words).with("fill", SLATE));
        }
    }
}

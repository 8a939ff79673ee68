//! A sheet at a true scale: from metres of the house to millimetres of paper, scale bar, labels and their obstacles.

use engine::house::part::{Outline, Part};
use engine::units::System;
use kurbo::{Point, Rect, Vec2};

use super::Scaled;
use super::area::Area;
use super::labels::{Label, Obstacle, place};
use crate::lettering;
use crate::paper::{INK, SLATE, weight};
use crate::svg::{Element, Svg};

/// Height of all lettering on drawings, in millimetres of the em.
pub(super) const LETTERING: f64 = 3.3;

/// Space for the scale bar below a drawing, in millimetres.
const STRIP: f64 = 14.0;

/// What is said of a picture that is drawn to no one scale.
const NO_SCALE: &str = "not to one scale";

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

/// Blank paper round the drawn part, in millimetres.
#[derive(Clone, Copy)]
pub(super) struct Margins {
    pub(super) left: f64,
    pub(super) top: f64,
    pub(super) right: f64,
    pub(super) bottom: f64,
}

/// The smallest upright box round parts, in metres.
pub(super) fn extent(parts: &[Part]) -> Rect {
    let points = parts.iter().flat_map(|part| &part.outlines).flat_map(|outline| &outline.points);
    let none = Rect::new(f64::INFINITY, f64::INFINITY, f64::NEG_INFINITY, f64::NEG_INFINITY);
    points.fold(none, |extent, &point| {
        Rect::new(extent.x0.min(point.x), extent.y0.min(point.y), extent.x1.max(point.x), extent.y1.max(point.y))
    })
}

/// A drawn part in metres with its margins; several stand below each other on one sheet.
pub(super) type Row = (Rect, Margins);

/// A sheet being drawn.
pub(super) struct Sheet {
    svg: Svg,
    scale: (f64, &'static str),
    rows: Vec<Row>,
    /// The row that is being drawn.
    row: usize,
    system: System,
    obstacles: Vec<Obstacle>,
    labels: Vec<Label>,
}

impl Sheet {
    /// The smallest sheet that shows rows at the largest scale that fits a room on paper (millimetres), the first row being
    /// drawn.
    pub(super) fn new(title: &str, rows: &[Row], room: [f64; 2], system: System) -> Sheet {
        let scales = if system == System::Us { US } else { METRIC };
        let size = |scale: f64| {
            let sides = |(extent, margins): &Row| {
                let width = extent.width() * 1000.0 / scale + margins.left + margins.right;
                [width, extent.height() * 1000.0 / scale + margins.top + margins.bottom]
            };
            let together = |sheet: [f64; 2], row: [f64; 2]| [sheet[0].max(row[0]), sheet[1] + row[1]];
            rows.iter().map(sides).fold([0.0, STRIP], together)
        };
        let fits = |scale: &&(f64, &str)| {
            let [width, height] = size(scale.0);
            width <= room[0] && height <= room[1]
        };
        let scale = scales.iter().find(fits).copied().unwrap_or(scales[scales.len() - 1]);
        let [width, height] = size(scale.0);
        let svg = Svg::sheet(width.min(room[0]), height.min(room[1]), title);
        Sheet { svg, scale, rows: rows.to_vec(), row: 0, system, obstacles: Vec::new(), labels: Vec::new() }
    }

    /// A sheet for a picture that has no one scale, as large as the room on paper allows.
    pub(super) fn unscaled(title: &str, row: Row, [width, height]: [f64; 2], system: System) -> Sheet {
        let (extent, margins) = row;
        let free = [width - margins.left - margins.right, height - margins.top - margins.bottom];
        let times = (extent.width() / free[0]).max(extent.height() / free[1]) * 1000.0;
        let size = [
            extent.width() * 1000.0 / times + margins.left + margins.right,
            extent.height() * 1000.0 / times + margins.top + margins.bottom,
        ];
        let svg = Svg::sheet(size[0].min(width), size[1].min(height), title);
        let scale = (times, NO_SCALE);
        Sheet { svg, scale, rows: vec![row], row: 0, system, obstacles: Vec::new(), labels: Vec::new() }
    }

    /// How many times smaller than life the sheet shows the house.
    pub(super) fn times_smaller(&self) -> f64 {
        self.scale.0
    }

    /// Turns to another row, counted from 0.
    pub(super) fn turn_to(&mut self, row: usize) {
        self.row = row;
    }

    /// A point of the house on paper, in the row that is being drawn.
    pub(super) fn at(&self, point: Point) -> [f64; 2] {
        let height = |(extent, margins): &Row| self.paper(extent.height()) + margins.top + margins.bottom;
        let above: f64 = self.rows[..self.row].iter().map(height).sum();
        let (extent, margins) = self.rows[self.row];
        let x = margins.left + self.paper(point.x - extent.x0);
        [x, above + margins.top + self.paper(extent.y1 - point.y)]
    }

    /// Metres of the house in millimetres of paper.
    pub(super) fn paper(&self, metres: f64) -> f64 {
        metres * 1000.0 / self.scale.0
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

    /// Asks for a label.
    pub(super) fn label(&mut self, label: Label) {
        self.labels.push(label);
    }

    /// Closes the sheet without scale bar and labels.
    pub(super) fn bare(self) -> Svg {
        self.svg
    }

    /// Draws scale bar and labels, and closes the sheet.
    pub(super) fn finished(mut self) -> Scaled {
        let (width, height) = (self.svg.width_mm(), self.svg.height_mm());
        let strip = if self.scale.1 == NO_SCALE { 0.0 } else { STRIP };
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
        Scaled { svg: self.svg, scale: self.scale.1.to_owned(), key, boxes, room }
    }

    fn scale_bar(&mut self, level: f64) {
        let (step, unit, count) = match self.system {
            System::Metric if self.scale.0 <= 10.0 => (0.25, "m", 4),
            System::Metric if self.scale.0 <= 25.0 => (0.5, "m", 4),
            System::Metric if self.scale.0 < 150.0 => (1.0, "m", 4),
            System::Metric => (5.0, "m", 2),
            System::Us if self.scale.0 <= 24.0 => (0.3048, "ft", 4),
            System::Us if self.scale.0 < 150.0 => (4.0 * 0.3048, "ft", 3),
            System::Us => (10.0 * 0.3048, "ft", 3),
        };
        let per_step = if self.system == System::Metric { step } else { step / 0.3048 };
        let left = 4.0;
        let length = self.paper(step);
        // A narrow sheet has fewer steps, and room for the words of the scale beside them.
        let free = self.svg.width_mm() - left - 14.0 - lettering::width(self.scale.1, 2.8);
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
        self.push(Element::text(at, 2.8, self.scale.1).with("fill", SLATE));
    }
}

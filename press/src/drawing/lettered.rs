//! A picture without a scale, such as a chart, with the boxes of its words.

use kurbo::Rect;

use super::Scaled;
use super::area::Area;
use super::frame::{Frame, Margins};
use super::labels::{Label, Obstacle, place};
use crate::lettering;
use crate::paper::INK;
use crate::svg::{Element, Svg};

/// The picture and what is written on it, all letters of one size.
pub(super) struct Lettered {
    svg: Svg,
    size_mm: [f64; 2],
    letters: f64,
    /// Where words stand; no two overlap.
    pub(super) boxes: Vec<Area>,
    /// Labels that found no room: number and words.
    pub(super) key: Vec<(usize, String)>,
}

impl Lettered {
    pub(super) fn new(size_mm: [f64; 2], letters: f64, title: &str) -> Lettered {
        let svg = Svg::sheet(size_mm[0], size_mm[1], title);
        Lettered { svg, size_mm, letters, boxes: Vec::new(), key: Vec::new() }
    }

    pub(super) fn push(&mut self, element: Element) {
        self.svg.push(element);
    }

    /// Words that begin at a place on their line; they show the row of the path, if any.
    pub(super) fn words(&mut self, [x, y]: [f64; 2], words: &str, path: &str) {
        let extent = lettering::extent(words, self.letters);
        self.boxes.push(Area { left: x, top: y - extent.ascent, right: x + extent.width, bottom: y + extent.descent });
        let text = Element::text([x, y], self.letters, words).with("fill", INK);
        self.push(if path.is_empty() { text } else { text.data_path(path) });
    }

    /// The whole picture with labels that find their places in a room of it.
    pub(super) fn placed(mut self, room: Area, obstacles: &[Obstacle], labels: &[Label]) -> Scaled {
        let placed = place(room, obstacles, labels);
        self.push(placed.drawn(labels));
        self.boxes.extend(placed.places.iter().flatten().map(|place| place.area));
        self.boxes.extend(placed.key.iter().filter_map(|entry| Some(entry.mark.as_ref()?.area)));
        let words = |label: usize| labels[label].text.replace('\n', " ");
        self.key = placed.key.iter().map(|entry| (entry.number, words(entry.label))).collect();
        self.scaled()
    }

    pub(super) fn scaled(self) -> Scaled {
        let [width, height] = self.size_mm;
        let whole = (Rect::new(0.0, 0.0, width, height), Margins { left: 0.0, top: 0.0, right: 0.0, bottom: 0.0 });
        Scaled {
            svg: self.svg,
            scale: String::new(),
            key: self.key,
            boxes: self.boxes,
            room: Area::round(&[[0.0, 0.0], self.size_mm]),
            frame: Frame { size_mm: self.size_mm, times_smaller: 1.0, words: "", rows: vec![whole] },
        }
    }
}

//! The box that a label's words fill, and the words set into it.

use super::area::Area;
use crate::lettering::extent;
use crate::svg::Element;

/// Which way words run.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Turn {
    /// From left to right.
    Level,
    /// From bottom to top, read from the right: dimension text of upright lines.
    Upright,
}

/// Distance of baselines, in text sizes.
const LINE: f64 = 1.2;
/// Room kept free round the words, in text sizes.
const PADDING: f64 = 0.15;

/// Measured lines of words, before they have a place.
pub(super) struct LetteringBox<'a> {
    lines: Vec<(&'a str, f64)>,
    size_mm: f64,
    turn: Turn,
    ascent: f64,
    /// Along the lines, and across them, without padding.
    span: [f64; 2],
}

impl<'a> LetteringBox<'a> {
    /// Measures `text`, one line for each line break, at `size_mm`.
    pub(super) fn of(text: &'a str, size_mm: f64, turn: Turn) -> LetteringBox<'a> {
        let extents: Vec<_> = text.lines().map(|line| (line, extent(line, size_mm))).collect();
        let ascent = extents.first().map_or(0.0, |(_, first)| first.ascent);
        let descent = extents.last().map_or(0.0, |(_, last)| last.descent);
        let gaps = extents.len().saturating_sub(1) as f64;
        LetteringBox {
            span: [
                extents.iter().map(|(_, line)| line.width).fold(0.0, f64::max),
                ascent + descent + gaps * LINE * size_mm,
            ],
            lines: extents.into_iter().map(|(line, extent)| (line, extent.width)).collect(),
            size_mm,
            turn,
            ascent,
        }
    }

    /// Width and height on the sheet with padding, in millimetres.
    pub(super) fn padded(&self) -> [f64; 2] {
        let [along, across] = self.span.map(|side| side + 2.0 * PADDING * self.size_mm);
        match self.turn {
            Turn::Level => [along, across],
            Turn::Upright => [across, along],
        }
    }

    /// The words, each line centred in the box that was given to them.
    pub(super) fn drawn(&self, area: Area) -> Vec<Element> {
        let [x, y] = area.centre();
        let [_, across] = self.span;
        let line = |(count, (words, width)): (usize, &(&str, f64))| {
            let down = self.ascent + count as f64 * LINE * self.size_mm - across / 2.0;
            match self.turn {
                Turn::Level => Element::text([x - width / 2.0, y + down], self.size_mm, words),
                Turn::Upright => {
                    let start = [x + down, y + width / 2.0];
                    Element::text(start, self.size_mm, words).turned(-90.0, start)
                }
            }
        };
        self.lines.iter().enumerate().map(line).collect()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn turning_swaps_width_and_height() {
        let level = LetteringBox::of("1,250", 3.0, Turn::Level).padded();
        let upright = LetteringBox::of("1,250", 3.0, Turn::Upright).padded();
        assert_eq!(level, [upright[1], upright[0]]);
        assert!(level[0] > level[1]);
    }

    #[test]
    fn a_second_line_adds_one_line_and_keeps_the_widest() {
        let one = LetteringBox::of("south window", 3.0, Turn::Level).padded();
        let two = LetteringBox::of("south window\n900", 3.0, Turn::Level).padded();
        assert!((two[0] - one[0]).abs() < 1e-12);
        assert!((two[1] - one[1] - 3.6).abs() < 1e-12);
    }
}

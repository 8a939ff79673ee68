//! What every drawing and page shares: sheets and screens, the few colours, line weights by meaning.

use engine::units::System;

/// What a drawing is made for: a sheet of paper held upright, or room on a screen.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Paper {
    /// 210 × 297 mm.
    A4,
    /// US Letter, 215.9 × 279.4 mm.
    Letter,
    /// Room on a screen, 96 px to the inch; all of it is for the drawing.
    Screen {
        /// Width in millimetres.
        width_mm: f64,
        /// Height in millimetres.
        height_mm: f64,
    },
}

/// Room for one drawing, and the scales that it may have there.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Room {
    /// Width and height in millimetres.
    pub size_mm: [f64; 2],
    /// Which scales it may have.
    pub scales: Scales,
}

/// Which scales a drawing may have.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Scales {
    /// Those of a builder's rule, said in words.
    OfARule,
    /// Finer steps without words: nobody lays a rule on a screen.
    OfAScreen,
}

impl Paper {
    /// The sheet that readers of a unit system have at hand.
    #[must_use]
    pub fn of(system: System) -> Paper {
        match system {
            System::Metric => Paper::A4,
            System::Us => Paper::Letter,
        }
    }

    /// Width and height in millimetres.
    #[must_use]
    pub fn size_mm(self) -> [f64; 2] {
        match self {
            Paper::A4 => [210.0, 297.0],
            Paper::Letter => [215.9, 279.4],
            Paper::Screen { width_mm, height_mm } => [width_mm, height_mm],
        }
    }

    /// The largest drawing in millimetres that still fits: on paper between the book's margins with a heading and a caption.
    #[must_use]
    pub fn drawing_mm(self) -> [f64; 2] {
        let [width, height] = self.size_mm();
        match self {
            Paper::Screen { .. } => [width, height],
            Paper::A4 | Paper::Letter => [width - 46.0, height - 87.0],
        }
    }

    /// The room for a drawing of a size in millimetres.
    #[must_use]
    pub fn room(self, size_mm: [f64; 2]) -> Room {
        let scales = match self {
            Paper::Screen { .. } => Scales::OfAScreen,
            Paper::A4 | Paper::Letter => Scales::OfARule,
        };
        Room { size_mm, scales }
    }

    /// The word by which the book's data name it.
    #[must_use]
    pub fn name(self) -> &'static str {
        match self {
            Paper::A4 => "a4",
            Paper::Letter => "us-letter",
            Paper::Screen { .. } => "screen",
        }
    }
}

/// Lines and lettering; nearly black.
pub const INK: &str = "#2b2620";
/// Second lines: dimensions, leaders, notes.
pub const SLATE: &str = "#55606a";
/// Earth: fills of walls, the accent of headings.
pub const CLAY: &str = "#a0522d";
/// Straw and timber.
pub const STRAW: &str = "#c9a24b";
/// Living things and water kept away: roof plants, drains.
pub const MOSS: &str = "#5f7040";
/// The paper itself, lime white.
pub const LIME: &str = "#fbf9f3";

/// Line weights in millimetres on paper, by what the line means.
pub mod weight {
    /// What the drawing cuts through.
    pub const CUT: f64 = 0.7;
    /// Outlines of what is seen.
    pub const SEEN: f64 = 0.35;
    /// What lies hidden or above; drawn dashed.
    pub const HIDDEN: f64 = 0.25;
    /// Dimensions, leaders, hatching.
    pub const THIN: f64 = 0.18;
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_drawing_fits_its_sheet() {
        for paper in [Paper::A4, Paper::Letter] {
            let (sheet, drawing) = (paper.size_mm(), paper.drawing_mm());
            assert!(drawing[0] < sheet[0] && drawing[1] < sheet[1]);
        }
    }
}

//! What every drawing and page shares: sheet sizes, the few colours, line weights by meaning.

use engine::units::System;

/// A sheet of paper held upright.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Paper {
    /// 210 × 297 mm.
    A4,
    /// US Letter, 215.9 × 279.4 mm.
    Letter,
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
        }
    }

    /// The largest drawing in millimetres that still fits between the book's margins with a heading and a caption.
    #[must_use]
    pub fn drawing_mm(self) -> [f64; 2] {
        let [width, height] = self.size_mm();
        [width - 46.0, height - 87.0]
    }

    /// The word by which the book's data name it.
    #[must_use]
    pub fn name(self) -> &'static str {
        match self {
            Paper::A4 => "a4",
            Paper::Letter => "us-letter",
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

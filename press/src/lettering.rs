//! How wide and tall a run of text will be on paper, so that boxes of labels are known before anything is drawn.
//!
//! Widths are sums of advance widths, without kerning: real text comes out the same or a hair narrower.

use std::sync::LazyLock;

use crate::fonts::Face;

/// How far a run of text reaches from its starting point on the baseline, in millimetres.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Extent {
    /// Along the baseline.
    pub width: f64,
    /// Above the baseline.
    pub ascent: f64,
    /// Below the baseline, as a positive number.
    pub descent: f64,
}

impl Extent {
    /// From the lowest to the highest point, in millimetres.
    #[must_use]
    pub fn height(self) -> f64 {
        self.ascent + self.descent
    }
}

/// The width in millimetres of `text` in the text face at `size_mm` (the height of the em).
///
/// A sign that no shipped face has takes the room of its "missing" box.
#[must_use]
pub fn width(text: &str, size_mm: f64) -> f64 {
    width_in(Face::Text, text, size_mm)
}

/// The width in millimetres of `text` in `face` at `size_mm` (the height of the em).
#[must_use]
pub fn width_in(face: Face, text: &str, size_mm: f64) -> f64 {
    let found = |sign| Glyph::of(face, sign).map_or(0.0, |glyph| glyph.advance());
    let advance = |sign: char| match face {
        Face::Text => ADVANCES.get(sign as usize).copied().unwrap_or_else(|| found(sign)),
        _ => found(sign),
    };
    size_mm * text.chars().map(advance).sum::<f64>()
}

/// The width, ascent and descent in millimetres of one line of `text` in the text face at `size_mm`.
///
/// Ascent and descent never shrink below those of `l` and `p`, so that lines of one size are boxes of one height; a
/// tall sign such as an integral makes its own line taller.
#[must_use]
pub fn extent(text: &str, size_mm: f64) -> Extent {
    let (mut ascent, mut descent): (f64, f64) = (0.0, 0.0);
    for (bottom, top) in text.chars().chain(['l', 'p']).filter_map(reach) {
        ascent = ascent.max(top);
        descent = descent.max(-bottom);
    }
    Extent { width: width(text, size_mm), ascent: ascent * size_mm, descent: descent * size_mm }
}

/// How far each sign of ASCII moves the pen in the text face.
static ADVANCES: LazyLock<[f64; 128]> = LazyLock::new(|| {
    std::array::from_fn(|code| Glyph::of(Face::Text, char::from(code as u8)).map_or(0.0, |glyph| glyph.advance()))
});

/// How far each sign of ASCII reaches below and above its line: found once, since the outline has to be read for it.
static REACHES: LazyLock<[Option<(f64, f64)>; 128]> =
    LazyLock::new(|| std::array::from_fn(|code| outlined(char::from(code as u8))));

fn reach(sign: char) -> Option<(f64, f64)> {
    REACHES.get(sign as usize).copied().unwrap_or_else(|| outlined(sign))
}

fn outlined(sign: char) -> Option<(f64, f64)> {
    Glyph::of(Face::Text, sign)?.reach()
}

/// The height in millimetres of capital letters of the text face at `size_mm`.
#[must_use]
pub fn capitals(size_mm: f64) -> f64 {
    Glyph::of(Face::Text, 'H').and_then(|glyph| glyph.reach()).map_or(0.0, |(_, top)| top * size_mm)
}

/// The text cut into the longest runs that one face can set: the text face, or the face that lends it signs.
///
/// Drawings name the face of each run, because a viewer left to itself would set the whole line in some other face.
#[must_use]
pub fn runs(text: &str) -> Vec<(Face, &str)> {
    let is_plain = |byte: u8| (b' '..0x7F).contains(&byte) && !Face::Text.leaves(char::from(byte));
    if !text.is_empty() && text.bytes().all(is_plain) {
        return vec![(Face::Text, text)];
    }
    let face_of = |sign: char| match Glyph::of(Face::Text, sign) {
        Some(glyph) if glyph.lent => Face::Text.lender(),
        _ => Face::Text,
    };
    let mut found: Vec<(Face, &str)> = Vec::new();
    let mut start = 0;
    for (place, sign) in text.char_indices() {
        let end = place + sign.len_utf8();
        match found.last_mut() {
            Some((face, run)) if *face == face_of(sign) => *run = &text[start..end],
            _ => {
                start = place;
                found.push((face_of(sign), &text[start..end]));
            }
        }
    }
    found
}

/// One sign in the face that really sets it; measures are shares of the em.
struct Glyph {
    font: &'static ttf_parser::Face<'static>,
    index: ttf_parser::GlyphId,
    lent: bool,
}

impl Glyph {
    fn of(face: Face, sign: char) -> Option<Glyph> {
        let (own, lender) = (parsed(face)?, parsed(face.lender())?);
        let found = |font: &'static ttf_parser::Face, lent| {
            let index = font.glyph_index(sign)?;
            Some(Glyph { font, index, lent })
        };
        let kept = found(own, false).filter(|_| !face.leaves(sign));
        let missing = Glyph { font: own, index: ttf_parser::GlyphId(0), lent: false };
        Some(kept.or(found(lender, true)).unwrap_or(missing))
    }

    fn share(&self, units: i32) -> f64 {
        f64::from(units) / f64::from(self.font.units_per_em())
    }

    fn advance(&self) -> f64 {
        self.share(i32::from(self.font.glyph_hor_advance(self.index).unwrap_or(0)))
    }

    /// Lowest and highest point; a blank has neither.
    fn reach(&self) -> Option<(f64, f64)> {
        let bounds = self.font.glyph_bounding_box(self.index)?;
        Some((self.share(i32::from(bounds.y_min)), self.share(i32::from(bounds.y_max))))
    }
}

/// The face's tables; `None` only if a shipped file were damaged, which a test rules out.
fn parsed(face: Face) -> Option<&'static ttf_parser::Face<'static>> {
    static PARSED: LazyLock<Vec<Option<ttf_parser::Face<'static>>>> =
        LazyLock::new(|| Face::ALL.iter().map(|face| ttf_parser::Face::parse(face.bytes(), 0).ok()).collect());
    Face::ALL.iter().zip(PARSED.iter()).find(|(listed, _)| **listed == face).and_then(|(_, font)| font.as_ref())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_shipped_face_can_be_read() {
        for face in Face::ALL {
            assert!(parsed(face).is_some(), "{face:?}");
        }
    }

    #[test]
    fn a_width_is_the_sum_of_the_advances() {
        // Read from the face's own table, in thousandths of the em.
        let advances = [("C", 616.0), ("o", 550.0), ("b", 555.0)];
        for (letter, advance) in advances {
            assert!((width(letter, 1000.0) - advance).abs() < 1e-9, "{letter}");
        }
        let sum: f64 = advances.iter().map(|(_, advance)| advance).sum();
        assert!((width("Cob", 3.5) - 3.5 * sum / 1000.0).abs() < 1e-12);
    }

    #[test]
    fn a_sign_the_text_face_lacks_is_measured_in_the_lending_face() {
        assert!((width("≤", 2048.0) - 1716.0).abs() < 1e-9);
    }

    #[test]
    fn a_line_is_cut_where_the_face_changes() {
        assert_eq!(
            runs("span ≤≥ 6 m ×"),
            [(Face::Text, "span "), (Face::Signs, "≤≥"), (Face::Text, " 6 m "), (Face::Signs, "×")]
        );
        assert_eq!(runs(""), []);
    }

    #[test]
    fn lines_of_one_size_are_boxes_of_one_height() {
        let (low, high) = (extent("nose", 4.0), extent("lip, HIp", 4.0));
        assert!((low.height() - high.height()).abs() < 1e-12);
        assert!(low.ascent > 0.6 * 4.0 && low.ascent < 0.8 * 4.0);
        assert!(low.descent > 0.15 * 4.0 && low.descent < 0.3 * 4.0);
        assert!(extent("∫", 4.0).height() > low.height());
    }

    #[test]
    fn capitals_are_seven_tenths_of_the_size() {
        assert!((capitals(10.0) - 7.0).abs() < 0.02);
    }
}

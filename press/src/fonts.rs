//! The typefaces shipped with the program, so that paper and screen look the same on every machine.

/// Which shipped face a run of text is set in.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Face {
    /// Cabin Regular: running text, numbers, words in drawings.
    Text,
    /// Cabin Bold.
    TextBold,
    /// Cabin Italic.
    TextItalic,
    /// Vollkorn Regular: large display text.
    Display,
    /// Vollkorn SemiBold: titles.
    DisplayStrong,
    /// DejaVu Sans Mono: equations.
    Equation,
    /// DejaVu Sans: signs the text face lacks (≤ ≥ π κ ∫ √ ′ ″ Σ → and the like).
    Signs,
}

impl Face {
    /// Every shipped face; text faces stand before the one that lends them signs.
    pub const ALL: [Face; 7] =
        [Face::Text, Face::TextBold, Face::TextItalic, Face::Display, Face::DisplayStrong, Face::Equation, Face::Signs];

    /// The font file, as its makers released it (OpenType or TrueType).
    #[must_use]
    pub fn bytes(self) -> &'static [u8] {
        match self {
            Face::Text => include_bytes!("fonts/Cabin-Regular.otf"),
            Face::TextBold => include_bytes!("fonts/Cabin-Bold.otf"),
            Face::TextItalic => include_bytes!("fonts/Cabin-Italic.otf"),
            Face::Display => include_bytes!("fonts/Vollkorn-Regular.ttf"),
            Face::DisplayStrong => include_bytes!("fonts/Vollkorn-SemiBold.ttf"),
            Face::Equation => include_bytes!("fonts/DejaVuSansMono.ttf"),
            Face::Signs => include_bytes!("fonts/DejaVuSans.ttf"),
        }
    }

    /// The family name by which drawings and the book ask for the face.
    #[must_use]
    pub fn family(self) -> &'static str {
        match self {
            Face::Text | Face::TextBold | Face::TextItalic => "Cabin",
            Face::Display | Face::DisplayStrong => "Vollkorn",
            Face::Equation => "DejaVu Sans Mono",
            Face::Signs => "DejaVu Sans",
        }
    }

    /// Whether the face leaves this sign to its lender although it has it: Cabin's × is too small to read on site.
    #[must_use]
    pub fn leaves(self, sign: char) -> bool {
        self.family() == "Cabin" && sign == '×'
    }

    /// The face that lends a sign which this face lacks; a face that lends falls back to itself.
    #[must_use]
    pub fn lender(self) -> Face {
        Face::Signs
    }
}

/// The licence texts of the shipped faces, each with the families it covers.
pub const LICENCES: [(&str, &str); 3] = [
    ("Cabin", include_str!("fonts/LICENSE-Cabin.txt")),
    ("Vollkorn", include_str!("fonts/LICENSE-Vollkorn.txt")),
    ("DejaVu Sans, DejaVu Sans Mono", include_str!("fonts/LICENSE-DejaVu.txt")),
];

#[cfg(test)]
mod tests {
    use super::*;

    const SIGNS: &str = "²³°×≤≥πκ∫√–—·½µ±Σ→′″−";

    fn lacking(face: Face) -> String {
        let parsed = ttf_parser::Face::parse(face.bytes(), 0).unwrap();
        SIGNS.chars().filter(|sign| parsed.glyph_index(*sign).is_none()).collect()
    }

    #[test]
    fn the_text_faces_borrow_exactly_these_signs() {
        for face in [Face::Text, Face::TextBold, Face::TextItalic] {
            assert_eq!(lacking(face), "≤≥πκ∫√Σ→′″−", "{face:?}");
        }
    }

    #[test]
    fn the_other_faces_have_every_sign() {
        for face in [Face::Display, Face::DisplayStrong, Face::Equation, Face::Signs] {
            assert_eq!(lacking(face), "", "{face:?}");
        }
    }

    #[test]
    fn every_family_comes_with_its_licence() {
        for face in Face::ALL {
            assert!(LICENCES.iter().any(|(families, _)| families.contains(face.family())));
        }
    }
}

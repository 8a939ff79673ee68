//! How a fact reached us: the work, the place in it, and whether anyone here has seen it there.

/// How we have a fact, from the weakest to the strongest.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Standing {
    /// Written down from memory; check before use.
    Memory,
    /// A third party says what the work says.
    Quoted,
    /// Common practice of the trade, no source.
    CommonPractice,
    /// Seen in the work itself, or in a stored copy of it.
    Seen,
    /// Follows from the definition of the terms; anybody can derive it again.
    Derived,
    /// The builder supplied the text.
    Supplied,
}

impl Standing {
    const WORDS: [(&'static str, Standing); 6] = [
        ("memory", Standing::Memory),
        ("quoted", Standing::Quoted),
        ("common practice", Standing::CommonPractice),
        ("seen", Standing::Seen),
        ("derived", Standing::Derived),
        ("supplied", Standing::Supplied),
    ];

    /// The standing written in a data table, or `None` when the word is not one of ours.
    #[must_use]
    pub fn read(text: &str) -> Option<Standing> {
        Self::WORDS.iter().find(|(word, _)| *word == text).map(|(_, standing)| *standing)
    }

    /// The word a data table uses for this standing.
    #[must_use]
    pub fn word(self) -> &'static str {
        Self::WORDS.iter().find(|(_, standing)| *standing == self).map_or("memory", |(word, _)| word)
    }

    /// The standing in words for a printed page.
    #[must_use]
    pub fn in_words(self) -> &'static str {
        match self {
            Standing::Memory => "from memory",
            Standing::Quoted => "as quoted by others",
            Standing::CommonPractice => "common practice, no source",
            Standing::Seen => "seen in the source",
            Standing::Derived => "derived from the definition",
            Standing::Supplied => "supplied by the builder",
        }
    }
}

/// A work, the place in it, and how we have it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Citation {
    /// Title, year and publisher, as `docs/sources.md` lists it.
    pub work: String,
    /// Clause, table or page.
    pub place: String,
    /// How we have it.
    pub standing: Standing,
}

impl std::fmt::Display for Citation {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        write!(f, "{}", self.work)?;
        if !self.place.is_empty() {
            write!(f, ", {}", self.place)?;
        }
        write!(f, " ({})", self.standing.in_words())
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_standing_reads_back_from_its_own_word() {
        for (word, standing) in Standing::WORDS {
            assert_eq!(Standing::read(word), Some(standing));
            assert_eq!(standing.word(), word);
        }
        assert_eq!(Standing::read("sure"), None);
    }
}

//! How a fact reached us: the work, the place in it, and whether anyone here has seen it there.

/// How we have a fact, from the weakest to the strongest.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Standing {
    /// The work has such a clause; its text we do not have.
    Missing,
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
    /// The standings that a data table can write for a value; a clause without its text has none to write.
    const WRITTEN: [Standing; 6] = [
        Standing::Memory,
        Standing::Quoted,
        Standing::CommonPractice,
        Standing::Seen,
        Standing::Derived,
        Standing::Supplied,
    ];

    /// The standing written in a data table, or `None` when the word is not one of ours.
    #[must_use]
    pub fn read(text: &str) -> Option<Standing> {
        Self::WRITTEN.into_iter().find(|standing| standing.word() == text)
    }

    /// The word for this standing.
    #[must_use]
    pub fn word(self) -> &'static str {
        match self {
            Standing::Missing => "missing",
            Standing::Memory => "memory",
            Standing::Quoted => "quoted",
            Standing::CommonPractice => "common practice",
            Standing::Seen => "seen",
            Standing::Derived => "derived",
            Standing::Supplied => "supplied",
        }
    }

    /// The standing in words for a printed page.
    #[must_use]
    pub fn in_words(self) -> &'static str {
        match self {
            Standing::Missing => "text missing",
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
        for standing in Standing::WRITTEN {
            assert_eq!(Standing::read(standing.word()), Some(standing));
        }
        assert_eq!(Standing::read("sure"), None);
        assert_eq!(Standing::read("missing"), None);
    }
}

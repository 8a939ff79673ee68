//! What drips and spray wash out of a sample, as indices.

use crate::reason::formula;
use crate::units::{Days, Length};

formula! {
    /// What a spray that bored through sooner would wash out in an hour.
    ///
    /// ```text
    /// d = p / t        p: depth of the pit, t: hours under the spray
    /// ```
    /// Source: NZS 4298:1998, appendix D, depth in an hour, from memory.
    pub fn in_an_hour(pit: Length, time: Days) -> Length {
        pit / time.in_hours()
    }
}

formula! {
    /// Index of a spray test: the greater, the more is washed out.
    ///
    /// ```text
    /// n        by what is washed out in an hour; what was washed for longer counts as deep as it is, which is no less
    /// ```
    /// Source: NZS 4298:1998, appendix D, from memory.
    pub fn index_of_spray(in_an_hour: Length; index: f64) -> u64 {
        index as u64
    }
}

formula! {
    /// Index of a drip test: the greater, the more is washed out.
    ///
    /// ```text
    /// n        by the depth of the pit that 100 ml drip into it
    /// ```
    /// Source: NZS 4298:1998, appendix E, from memory.
    pub fn index_of_drips(pit: Length; index: f64) -> u64 {
        index as u64
    }
}

formula! {
    /// What a code is shown of how the wall's cob washes out: the worst of its tests.
    ///
    /// ```text
    /// n = max nᵢ
    /// ```
    /// Source: NZS 4298:1998, appendices D and E, from memory; that the worst counts is our judgement.
    pub fn worst_index(index: u64) -> u64 {
        index
    }
}

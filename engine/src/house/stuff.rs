//! What kind of stuff a bought thing is, for whoever receives it at the gate.

use super::bought::{STONES, STRAW};
use super::layers::Of;
use super::{House, WATER};
use crate::build::IngredientKind;

/// What kind of stuff a bought thing is.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Stuff {
    /// Clay soil.
    Soil,
    /// Sand.
    Sand,
    /// What is coarser or lighter, by the bucket.
    Aggregate,
    /// Bales.
    Straw,
    /// Walling stone and its hearting.
    Stone,
    /// Rubble, gravel.
    Gravel,
    /// Round poles.
    Poles,
    /// Sawn timber of the wall.
    Timber,
    /// From a tap, a tank or a stream.
    Water,
    /// Anything else.
    Other,
}

impl Stuff {
    /// One word.
    #[must_use]
    pub fn word(self) -> &'static str {
        match self {
            Stuff::Soil => "soil",
            Stuff::Sand => "sand",
            Stuff::Aggregate => "aggregate",
            Stuff::Straw => "straw",
            Stuff::Stone => "stone",
            Stuff::Gravel => "gravel",
            Stuff::Poles => "poles",
            Stuff::Timber => "timber",
            Stuff::Water => "water",
            Stuff::Other => "other",
        }
    }
}

impl House {
    /// What kind of stuff a thing is, by what the house uses it for.
    #[must_use]
    pub fn stuff(&self, name: &str) -> Stuff {
        let pile = self.earth.iter().flat_map(|earth| &earth.ingredients).find(|pile| pile.name == name);
        let layer = self.floor.iter().any(|layer| matches!(&layer.of, Of::Good(good, _) if good == name));
        match pile.map(|pile| pile.kind) {
            Some(IngredientKind::Soil) => Stuff::Soil,
            Some(IngredientKind::Sand) => Stuff::Sand,
            Some(IngredientKind::Aggregate) => Stuff::Aggregate,
            None if name == STRAW => Stuff::Straw,
            None if name == WATER => Stuff::Water,
            None if STONES.contains(&name) => Stuff::Stone,
            None if layer || self.trench.as_ref().is_some_and(|trench| trench.of == name) => Stuff::Gravel,
            None if self.roof.as_ref().is_some_and(|roof| roof.of == name) => Stuff::Poles,
            None if self.timber().any(|timber| timber == name) => Stuff::Timber,
            None => Stuff::Other,
        }
    }
}

//! Names of all that the build takes from outside.

use super::built_in::What;
use super::layers::Of;
use super::{BondBeam, COVER_SHEET, Earth, FittedFrame, House, Ingredient, PLATFORM_BOARD, Recipe, SANDBAG, TRESTLE};
use crate::build::SoilFrom;
use crate::units::Ratio;

/// The stones of a stem wall as they are bought.
pub const STONES: [&str; 2] = ["stone", "hearting"];
/// What is baled.
pub const STRAW: &str = "straw";
/// What comes from a tap, a tank or a stream.
pub const WATER: &str = "water";

/// What the floor is oiled with.
pub const OIL: &str = "oil";
/// What thins it.
pub const THINNER: &str = "thinner";

impl House {
    /// Every recipe that something is made of, each once, the wall's first.
    #[must_use]
    pub fn recipes_used(&self) -> Vec<&str> {
        let layers = self.floor.iter().chain(&self.skin.inside).chain(&self.skin.outside).chain(&self.skin.slip);
        let of = layers.filter_map(|layer| match &layer.of {
            Of::Recipe(recipe) => Some(recipe.as_str()),
            Of::Good(..) => None,
        });
        let built_in = self.built_in.iter().flat_map(|thing| thing.recipes()).map(|(recipe, _)| recipe);
        let gap = self.gap.iter().filter_map(|gap| gap.of.as_deref());
        let mut used: Vec<&str> = Vec::new();
        for name in self.wall.cob.as_deref().into_iter().chain(built_in).chain(of).chain(gap) {
            if !used.contains(&name) {
                used.push(name);
            }
        }
        used
    }

    /// The recipe of the wall's cob, with the earth that it is made of.
    #[must_use]
    pub fn cob(&self) -> Option<(&Earth, &Recipe)> {
        let earth = self.earth.as_ref()?;
        Some((earth, earth.recipe(self.wall.cob.as_deref()?)?))
    }

    /// Sawn timber that is bought for the wall: measured as it is built in, never loose.
    pub fn timber(&self) -> impl Iterator<Item = &str> {
        let boards = self.built_in.iter().filter_map(|thing| match &thing.what {
            What::Shelf(shelf) => Some(shelf.of.as_str()),
            _ => None,
        });
        let beams = self.bond_beam.iter().map(|beam| beam.of.as_str());
        boards.chain(beams).chain(self.anchors.iter().map(|anchors| anchors.of.as_str()))
    }

    /// What covers the wall and what one stands on: bought where it has a price, since most of it is borrowed.
    fn sheltering(&self) -> Vec<&'static str> {
        let names = [COVER_SHEET, TRESTLE, PLATFORM_BOARD].into_iter();
        let names = names.chain(self.cover.gust.is_some().then_some(SANDBAG));
        names.filter(|name| self.goods.iter().any(|good| good.name == *name)).collect()
    }

    /// Whether a thing comes out of the ground of the site.
    #[must_use]
    pub fn is_dug(&self, name: &str) -> bool {
        let mut piles = self.earth.iter().flat_map(|earth| &earth.ingredients);
        let is_pile =
            |pile: &Ingredient| pile.name == name && matches!(pile.from, Some(SoilFrom::Pit | SoilFrom::Trench));
        self.site.strip.topsoil_as.as_deref() == Some(name) || piles.any(is_pile)
    }

    /// Every thing that is bought, each once.
    #[must_use]
    pub fn bought(&self) -> Vec<String> {
        let mut names: Vec<&str> = STONES.to_vec();
        names.extend(self.trench.iter().flat_map(|trench| [trench.of.as_str(), trench.fabric.of.as_str()]));
        if let Some(earth) = &self.earth {
            for recipe in self.recipes_used().into_iter().filter_map(|name| earth.recipe(name)) {
                names.extend(recipe.parts.iter().map(|(ingredient, _)| earth.ingredients[*ingredient].name.as_str()));
                names.extend((recipe.straw.value > Ratio::ZERO).then_some(STRAW));
                names.push(WATER);
            }
        }
        names.extend(self.floor.iter().filter_map(|layer| match &layer.of {
            Of::Good(good, _) => Some(good.as_str()),
            Of::Recipe(_) => None,
        }));
        names.extend((!self.oil.is_empty()).then_some(OIL));
        names.extend(self.oil.iter().any(|oil| oil.thinner.value > Ratio::ZERO).then_some(THINNER));
        for opening in &self.openings {
            names.extend(opening.frame.iter().flat_map(|frame| [frame.of.as_str(), FittedFrame::ANCHOR]));
            names.extend(opening.sill_board.as_ref().map(|board| board.of.as_str()));
            names.extend(opening.lintel.as_ref().map(|lintel| lintel.of.as_str()));
        }
        if let Some(roof) = &self.roof {
            names.push(&roof.of);
            names.extend(roof.layers.iter().map(|layer| layer.of.as_str()));
            names.extend(roof.secondary.as_ref().map(|secondary| secondary.of.as_str()));
        }
        names.extend(self.built_in.iter().flat_map(|thing| thing.goods()));
        names.extend(self.timber());
        if self.bond_beam.is_some() {
            names.extend([BondBeam::BOLT, BondBeam::SHIM]);
        }
        names.extend(self.sheltering());
        let mut bought: Vec<String> = Vec::new();
        for name in names {
            if !bought.iter().any(|other| other == name) {
                bought.push(name.to_owned());
            }
        }
        bought
    }
}

//! The topsoil that is stripped and put back, and where the soil of the mixes comes from.

use crate::build::{self, Build, IngredientKind, SoilFrom, Source};
use crate::house::layers::unknown_good;
use crate::house::place::within;
use crate::house::{Trench, Wall};
use crate::known::{Known, Origin};
use crate::units::{Length, System};

/// What a heap of topsoil is called in the yard.
pub const TOPSOIL: &str = "topsoil";
/// What a heap of earth from trench, drain, floor and pit is called in the yard.
pub const SUBSOIL: &str = "subsoil";

/// The topsoil.
#[derive(Clone, Debug)]
pub struct Strip {
    /// Thickness that is stripped.
    pub topsoil: Known<Length>,
    /// How far beyond the stem wall.
    pub margin: Known<Length>,
    /// Thickness put back round the house.
    pub spread: Known<Length>,
    /// What it stands in for on the roof.
    pub topsoil_as: Option<String>,
}

/// The topsoil of a build file; one that reaches below the trench is refused.
pub(super) fn strip(
    source: &Source<'_>,
    build: &Build,
    (wall, trench): (&Wall, Option<&Trench>),
    system: System,
) -> Strip {
    let written = &build.site;
    let depths = Length::ZERO..Length::m(1.0);
    let topsoil = within(source, written.topsoil.as_ref(), depths.clone(), "a thickness of topsoil", system);
    if let (Some(topsoil), Some(trench), Some(at)) = (&topsoil, trench, &written.topsoil)
        && topsoil.value > trench.depth.value
    {
        let message = "the topsoil reaches below the bottom of the trench";
        let hint = "write a thickness of topsoil less than water.trench.depth";
        source.fault(at.span.clone(), &at.path, message, hint);
    }
    let topsoil = topsoil.unwrap_or_else(|| {
        let usual = Length::mm(150.0);
        match trench.filter(|trench| trench.depth.value < usual) {
            Some(trench) => {
                let why = "no deeper than the trench";
                Known::assumed(trench.depth.value, "site.topsoil", Origin::Judgement, why)
                    .following(trench.depth.path.as_str())
            }
            None => {
                let why = "topsoil is stripped to 150 mm where nobody has dug a hole to look";
                Known::assumed(usual, "site.topsoil", Origin::CommonPractice, why)
            }
        }
    });
    let margins = Length::ZERO..Length::m(10.0);
    let margin = within(source, written.strip_margin.as_ref(), margins, "a margin round a house", system);
    let margin = margin.unwrap_or_else(|| {
        let why = "room to stand and work beside the stem wall";
        Known::assumed(Length::m(1.0), "site.strip-margin", Origin::Judgement, why)
    });
    if let Some(piece) = wall.line.first_fold((wall.stem_width.value * 0.5 + margin.value).in_m()).filter(|_| {
        // What folds over a hollow is measured twice over: the strip is refused only where its builder chose it.
        written.strip_margin.is_some()
    }) {
        let name = &wall.points[wall.line.owner(piece)].name;
        let at = written.strip_margin.as_ref().map_or(0..0, |at| at.span.clone());
        let message = format!("the strip folds over the hollow at `{name}`");
        source.fault(at, "site.strip-margin", message, "make the margin smaller");
    }
    let spread = within(source, written.spread.as_ref(), depths, "a thickness of topsoil", system);
    let spread = spread.unwrap_or_else(|| {
        let why = "topsoil is put back as thick as it was";
        Known::assumed(topsoil.value, "site.spread", Origin::CommonPractice, why).following("site.topsoil")
    });
    Strip { topsoil, margin, spread, topsoil_as: on_the_roof(source, build) }
}

/// What the topsoil stands in for: a thing that the roof has, and that is not bought too.
fn on_the_roof(source: &Source<'_>, build: &Build) -> Option<String> {
    let written = build.site.topsoil_as.as_ref()?;
    let roof = build.roof.iter().flat_map(|roof| &roof.layers);
    let layers: Vec<String> = roof
        .filter(|layer| layer.thickness.is_some())
        .filter_map(|layer| Some(layer.of.as_ref()?.value.clone()))
        .collect();
    if !layers.contains(&written.value) {
        unknown_good(source, written, &layers);
    }
    if build.prices.iter().any(|price| price.name.value == written.value) {
        let message = format!("`{}` is bought, and topsoil stands in for it too", written.value);
        source.fault(written.span.clone(), &written.path, message, "leave its price out, or leave this line out");
    }
    Some(written.value.clone())
}

/// Where a soil comes from: as written, else from a supplier. What is dug on the site has no price.
pub(in crate::house) fn soil_from(source: &Source<'_>, written: &build::Ingredient, build: &Build) -> Option<SoilFrom> {
    if written.kind.as_ref()?.value != IngredientKind::Soil {
        return None;
    }
    let Some(from) = &written.from else { return Some(SoilFrom::Bought) };
    let is_priced = build.prices.iter().any(|price| price.name.value == written.name.value);
    if is_priced && from.value != SoilFrom::Bought {
        let message = format!("`{}` is dug on the site and has a price too", written.name.value);
        let hint = "write from = \"bought\", or leave its price out";
        source.fault(from.span.clone(), &from.path, message, hint);
    }
    Some(from.value)
}

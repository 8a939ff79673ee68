//! Fills by material: a tint and marks that differ in black and white, and the same darker where the light does not fall.

use engine::house::part::Material;

use crate::paper::{CLAY, INK, LIME, MOSS, SLATE, STRAW, weight};
use crate::svg::Element;

/// How a material fills an area.
struct Hatch {
    /// By which patterns name it.
    id: &'static str,
    colour: &'static str,
    /// Share of the colour in the tint that is neither light nor dark.
    share: f64,
    /// Side of the square that repeats, in millimetres.
    size: f64,
}

fn hatch(material: Material) -> Hatch {
    let (id, colour, share, size) = match material {
        Material::Cob => ("cob", CLAY, 0.2, 5.0),
        Material::Stone => ("stone", SLATE, 0.1, 3.0),
        Material::Gravel => ("gravel", SLATE, 0.12, 3.6),
        Material::Earth | Material::Floor => ("earth", CLAY, 0.12, 2.4),
        Material::Plaster => ("plaster", STRAW, 0.12, 1.2),
        Material::Timber => ("timber", STRAW, 0.45, 2.0),
        Material::Insulation => ("insulation", STRAW, 0.15, 2.4),
        Material::Sheet => ("sheet", SLATE, 0.75, 4.0),
        Material::Soil => ("soil", MOSS, 0.4, 3.0),
        Material::Glass | Material::Opening => ("opening", SLATE, 0.25, 4.0),
        Material::Ground => ("ground", LIME, 0.0, 4.0),
    };
    Hatch { id, colour, share, size }
}

/// What repeats in the square of a material.
fn figure(material: Material) -> Vec<Element> {
    let fleck = |from, to| Element::line(from, to).with("stroke", CLAY).with("stroke-width", 0.25);
    let stroke = |from, to| Element::line(from, to).with("stroke", SLATE).with("stroke-width", weight::THIN);
    let ring = |at, radius| {
        Element::circle(at, radius).with("stroke", SLATE).with("stroke-width", weight::THIN).with("fill", LIME)
    };
    let dot = |at| Element::circle(at, 0.14).with("fill", INK);
    match material {
        Material::Cob => {
            vec![fleck([0.7, 1.1], [2.0, 0.6]), fleck([3.4, 2.0], [4.2, 2.9]), fleck([1.2, 3.9], [2.4, 4.1])]
        }
        Material::Stone => vec![stroke([0.0, 3.0], [3.0, 0.0])],
        Material::Gravel => {
            vec![ring([0.9, 0.9], 0.6), ring([2.5, 1.4], 0.45), ring([1.5, 2.5], 0.5), ring([3.0, 3.0], 0.6)]
        }
        Material::Earth | Material::Floor => vec![dot([0.6, 0.6]), dot([1.8, 1.7])],
        Material::Plaster => vec![dot([0.5, 0.6])],
        Material::Timber => vec![stroke([0.0, 0.6], [2.0, 0.6]), stroke([0.0, 1.6], [2.0, 1.6])],
        Material::Insulation => vec![stroke([0.0, 0.0], [2.4, 2.4]), stroke([2.4, 0.0], [0.0, 2.4])],
        Material::Soil => {
            vec![stroke([0.6, 2.0], [0.9, 0.9]), stroke([2.0, 2.8], [1.8, 1.6]), stroke([2.4, 1.0], [2.7, 0.2])]
        }
        Material::Sheet | Material::Glass | Material::Opening | Material::Ground => Vec::new(),
    }
}

/// How much of the light falls on a surface.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub(super) enum Light {
    /// All of it.
    Full,
    /// As it falls on a cut, or on a face that looks at the viewer.
    Even,
    /// Little.
    Little,
}

impl Light {
    fn word(self) -> &'static str {
        match self {
            Light::Full => "-light",
            Light::Even => "",
            Light::Little => "-dark",
        }
    }

    fn share(self) -> f64 {
        match self {
            Light::Full => 0.5,
            Light::Even => 1.0,
            Light::Little => 1.7,
        }
    }
}

/// The name of a fill.
pub(super) fn name(material: Material, light: Light) -> String {
    format!("{}{}", hatch(material).id, light.word())
}

/// The tint of a fill, without its marks.
pub(super) fn tint(material: Material, light: Light) -> String {
    let hatch = hatch(material);
    mixed(hatch.colour, LIME, (hatch.share * light.share()).min(0.9))
}

/// The pattern of a fill, which paints all that is under it.
pub(super) fn pattern(material: Material) -> Element {
    let hatch = hatch(material);
    let whole = Element::rectangle([0.0, 0.0], hatch.size, hatch.size).with("fill", tint(material, Light::Even));
    figure(material).into_iter().fold(square(&name(material, Light::Even), hatch.size).child(whole), Element::child)
}

/// The pattern of the marks alone, for what is tinted already; where there is little light, with lines across.
pub(super) fn marks(material: Material, light: Light) -> Element {
    let hatch = hatch(material);
    let shadow = Element::line([0.0, 0.0], [hatch.size, hatch.size]).with("stroke", SLATE).with("stroke-width", 0.1);
    let marks = figure(material).into_iter().chain((light == Light::Little).then_some(shadow));
    marks.fold(square(&name(material, light), hatch.size), Element::child)
}

/// An empty square that repeats, its side in millimetres.
pub(super) fn square(id: &str, size: f64) -> Element {
    let pattern = Element::named("pattern").with("id", id.to_owned()).with("width", size).with("height", size);
    pattern.with("patternUnits", "userSpaceOnUse")
}

/// Earth as the eye sees it, paler the smaller the share: clay with straw in it.
pub(super) fn earth(share: f64) -> String {
    mixed(&mixed(CLAY, STRAW, 0.55), LIME, share)
}

/// So much of one colour in the other, both as six digits of base sixteen behind a sign.
pub(super) fn mixed(colour: &str, ground: &str, share: f64) -> String {
    let part = |text: &str, place: usize| {
        let digits = text.get(1 + 2 * place..3 + 2 * place).unwrap_or("0");
        f64::from(u8::from_str_radix(digits, 16).unwrap_or(0))
    };
    let parts = [0, 1, 2].map(|place| part(colour, place) * share + part(ground, place) * (1.0 - share));
    let [red, green, blue] = parts.map(|part| part.round() as u8);
    format!("#{red:02x}{green:02x}{blue:02x}")
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_colour_mixed_with_itself_stays_and_half_is_between() {
        assert_eq!(mixed(CLAY, CLAY, 0.3), CLAY);
        assert_eq!(mixed("#000000", "#ffffff", 0.5), "#808080");
    }

    #[test]
    fn every_material_has_its_own_fill() {
        use Material::{Cob, Earth, Gravel, Insulation, Opening, Plaster, Sheet, Soil, Stone, Timber};
        let all = [Cob, Stone, Gravel, Earth, Plaster, Timber, Insulation, Sheet, Soil, Opening];
        let mut names: Vec<String> = all.iter().map(|material| name(*material, Light::Even)).collect();
        names.sort();
        names.dedup();
        assert_eq!(names.len(), all.len());
    }
}

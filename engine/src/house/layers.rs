//! Floor layers, coats and slip with nothing missing.

use super::earth::{Earth, recipe_named};
use super::place::{nearest, within};
use super::plaster::{self, Plastering};
use crate::build::{self, Build, Face, Source, Written};
use crate::known::{Known, Origin};
use crate::units::{Length, Ratio, System};

/// A layer in place.
#[derive(Clone, Debug)]
pub struct Layer {
    /// Its name.
    pub name: String,
    /// Its key, up to the noun.
    pub stem: String,
    /// What it is made of.
    pub of: Of,
    /// Its thickness.
    pub thickness: Known<Length>,
}

/// What a layer is made of.
#[derive(Clone, Debug)]
pub enum Of {
    /// A mix of the build file.
    Recipe(String),
    /// A thing that is bought, and its loose volume for each volume in place.
    Good(String, Known<f64>),
}

impl Layer {
    /// Its key.
    #[must_use]
    pub fn path(&self, noun: &str) -> String {
        format!("{}.{noun}", self.stem)
    }
}

/// Coats and slip.
#[derive(Clone, Debug, Default)]
pub struct Skin {
    /// Coats of the inner face, from the wall.
    pub inside: Vec<Layer>,
    /// Coats of the outer face, from the wall.
    pub outside: Vec<Layer>,
    /// Whose coats the reveals get.
    pub reveals: Option<Face>,
    /// What is brushed on the stem and under the first coat.
    pub slip: Option<Layer>,
    /// How it is put on; none where nothing is coated.
    pub plastering: Option<Plastering>,
}

/// The floor's layers, from the ground up.
pub(super) fn floor(source: &Source<'_>, build: &Build, earth: Option<&Earth>, system: System) -> Vec<Layer> {
    layers(source, &build.floor.layers, "floor.layers", earth, system)
}

/// The skin of the wall.
pub(super) fn skin(
    source: &Source<'_>,
    build: &Build,
    earth: Option<&Earth>,
    assumed: &mut Vec<(&'static str, &'static str, &'static str)>,
    system: System,
) -> Skin {
    let written = &build.skin;
    let inside = layers(source, &written.inside, "skin.inside", earth, system);
    let outside = layers(source, &written.outside, "skin.outside", earth, system);
    let slip = written.slip.as_ref().and_then(|slip| {
        let of = recipe_named(source, slip.of.as_ref()?, earth);
        let thickness = thickness(source, slip.thickness.as_ref(), system);
        Some(Layer { name: "slip".into(), stem: "skin.slip".into(), of: Of::Recipe(of?), thickness: thickness? })
    });
    let reveals = written.reveals.as_ref().map(|face| face.value);
    let is_coated = !inside.is_empty() || !outside.is_empty();
    if is_coated && reveals.is_none() {
        assumed.push(("skin.reveals", "inside", "reveals are plastered with the room"));
    }
    let plastering = plaster::plastering(source, written, is_coated, system);
    Skin { inside, outside, reveals: reveals.or(is_coated.then_some(Face::Inside)), slip, plastering }
}

fn thickness(source: &Source<'_>, written: Option<&Written<Length>>, system: System) -> Option<Known<Length>> {
    within(source, written, Length::mm(0.2)..Length::m(1.5), "the thickness of a layer", system)
}

fn layers(
    source: &Source<'_>,
    written: &[build::Layer],
    stem: &str,
    earth: Option<&Earth>,
    system: System,
) -> Vec<Layer> {
    let placed = written.iter().filter_map(|layer| {
        let stem = format!("{stem}.{}", layer.name.value);
        let thickness = thickness(source, layer.thickness.as_ref(), system);
        let of = of(source, layer, &stem, earth, system);
        Some(Layer { name: layer.name.value.clone(), of: of?, stem, thickness: thickness? })
    });
    placed.collect()
}

fn of(source: &Source<'_>, layer: &build::Layer, stem: &str, earth: Option<&Earth>, system: System) -> Option<Of> {
    let of = layer.of.as_ref()?;
    if earth.is_some_and(|earth| earth.recipe(&of.value).is_some()) {
        if let Some(loose) = &layer.loose {
            let message = format!("\"{}\" is a recipe, whose yield says how it packs", of.value);
            source.fault(loose.span.clone(), &loose.path, message, "leave `loose` out");
        }
        return Some(Of::Recipe(of.value.clone()));
    }
    Some(Of::Good(of.value.clone(), loose(source, layer.loose.as_ref(), stem, system)))
}

/// Loose volume for each volume in place; where it is not written, that of gravel or earth is assumed.
pub(super) fn loose(source: &Source<'_>, written: Option<&Written<f64>>, stem: &str, system: System) -> Known<f64> {
    within(source, written, 0.8..2.5, "a loose volume for each volume in place", system).unwrap_or_else(|| {
        let why = "loose stone and earth pack by about an eighth; boards and sheets do not: write 1";
        Known::assumed(1.15, format!("{stem}.loose"), Origin::Memory, why)
    })
}

/// The recipe of the wall's cob: as written, else the one called `cob`.
pub(super) fn cob(
    source: &Source<'_>,
    build: &Build,
    earth: Option<&Earth>,
    assumed: &mut Vec<(&'static str, &'static str, &'static str)>,
) -> Option<String> {
    if let Some(written) = &build.wall.recipe {
        return recipe_named(source, written, earth);
    }
    let cob = earth?.recipe("cob")?;
    assumed.push(("wall.recipe", "cob", "the recipe of that name"));
    Some(cob.name.clone())
}

/// What is sawn off the wall, and what of it goes back to the tarp.
pub(super) fn trim(source: &Source<'_>, build: &Build, system: System) -> [Known<Ratio>; 2] {
    let written = &build.wall;
    let range = |to: f64| Ratio::ZERO..Ratio::percent(to);
    let trim = within(source, written.trim.as_ref(), range(40.0), "what is trimmed off a wall", system);
    let returned = within(source, written.returned.as_ref(), range(100.000_001), "a share of the trimmings", system);
    [
        trim.unwrap_or_else(|| {
            let why = "a sawn face loses 5 to 10 % of what was laid; weigh a day's trimmings";
            Known::assumed(Ratio::percent(7.0), "wall.trim", Origin::Memory, why)
        }),
        returned.unwrap_or_else(|| {
            let why = "most trimmings are wetted and trodden again";
            Known::assumed(Ratio::percent(80.0), "wall.returned", Origin::Judgement, why)
        }),
    ]
}

/// Names of things that are bought, for hints.
pub(super) fn unknown_good(source: &Source<'_>, written: &Written<String>, needed: &[String]) {
    let hint = match nearest(needed.iter().map(String::as_str), &written.value) {
        hint if needed.is_empty() => hint,
        hint => format!("{hint}; or write `count` when the build does not count it"),
    };
    let message = format!("nothing in the build needs \"{}\"", written.value);
    source.fault(written.span.clone(), &written.path, message, hint);
}

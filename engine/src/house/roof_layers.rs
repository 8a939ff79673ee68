//! The layers of a roof from the poles up, with nothing missing.

use super::layers;
use super::place::within;
use crate::build::{self, Source};
use crate::known::Known;
use crate::units::{Density, Length, Ratio, SurfaceMass, System};

/// A layer of the roof.
#[derive(Clone, Debug)]
pub struct Layer {
    /// Its name.
    pub name: String,
    /// What is bought for it.
    pub of: String,
    /// What it weighs when saturated.
    pub weight: Weight,
    /// How dense it is when dry, where that is written.
    pub dry: Option<Known<Density>>,
    /// What laps and upstands add to its area; none for what is poured.
    pub laps: Option<Known<Ratio>>,
}

/// What a layer weighs when saturated.
#[derive(Clone, Debug)]
pub enum Weight {
    /// So thick, so dense, and its loose volume for each volume in place.
    Thick(Known<Length>, Known<Density>, Known<f64>),
    /// So much on each area.
    Sheet(Known<SurfaceMass>),
}

impl Layer {
    /// Its key.
    #[must_use]
    pub fn path(&self, noun: &str) -> String {
        format!("roof.layers.{}.{noun}", self.name)
    }
}

pub(super) fn layer(source: &Source<'_>, written: &build::RoofLayer, system: System) -> Option<Layer> {
    let name = written.name.value.clone();
    let stem = format!("roof.layers.{name}");
    let thicknesses = Length::mm(0.2)..Length::m(1.5);
    let thickness = within(source, written.thickness.as_ref(), thicknesses, "the thickness of a layer", system);
    let densities = Density::kg_m3(5.0)..Density::kg_m3(3000.0);
    let dry = within(source, written.dry.as_ref(), densities.clone(), "the density of a dry layer", system);
    let saturated = within(source, written.saturated.as_ref(), densities, "the density of a saturated layer", system);
    let masses = SurfaceMass::kg_m2(0.01)..SurfaceMass::kg_m2(500.0);
    let mass = within(source, written.mass.as_ref(), masses, "the mass of a sheet on an area", system);
    let what = "what laps and upstands add";
    let laps = within(source, written.laps.as_ref(), Ratio::ZERO..Ratio::percent(100.0), what, system);
    let weight = match (&written.thickness, &written.saturated, &written.mass) {
        (Some(_), Some(_), None) => {
            let loose = layers::loose(source, written.loose.as_ref(), &stem, system);
            Weight::Thick(thickness?, saturated?, loose)
        }
        (None, None, Some(_)) => Weight::Sheet(mass?),
        _ => {
            // A value that cannot be read was told where it stands.
            if !source.is_faulty(&stem) {
                source.fault(
                    written.name.span.clone(),
                    &stem,
                    "nothing says, or two things say, what this layer weighs",
                    "write its thickness and its density when saturated, or the mass of a sheet",
                );
            }
            return None;
        }
    };
    if !is_lighter_dry(source, written) {
        return None;
    }
    Some(Layer { name, of: written.of.as_ref()?.value.clone(), weight, dry, laps })
}

/// Whether a layer is no denser dry than saturated, and has a thickness to be so dense on.
fn is_lighter_dry(source: &Source<'_>, written: &build::RoofLayer) -> bool {
    let Some(dry) = &written.dry else { return true };
    let (message, hint) = match &written.saturated {
        Some(saturated) if dry.value <= saturated.value => return true,
        Some(_) => ("this layer would be denser dry than saturated", "write the smaller of the two as dry"),
        None => ("a sheet has no density when dry", "leave it out: its mass on an area is all that is needed"),
    };
    source.fault(dry.span.clone(), &dry.path, message, hint);
    false
}

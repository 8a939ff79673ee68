//! Pictures of the whole house: four elevations and the parts pulled apart in the order of building. Plain data.

mod bricks;
mod clip;
mod elevation;
mod exploded;
mod mixes;
mod panels;
mod plasticity;
mod roof;
mod roof_cut;
mod soils;
mod stage;
mod trade;

pub use bricks::{BrickLot, Fall, TestedBrick, brick_lots};
pub use elevation::Elevation;
pub use exploded::{Exploded, Group};
pub use mixes::{Contour, MixPicture, StepRecipe, TriedMix};
pub use panels::{PanelPicture, ScoredPanel};
pub use plasticity::{PlasticSoil, PlasticityPicture};
pub use roof_cut::{LayerCut, RoofCut, roof_cut};
pub use soils::{CurvePlace, GradingPicture, SoilPoint};
pub use stage::Stage;
pub use trade::{Choice, Panel, SoilStays};

use crate::house::House;
use crate::house::part::Material;
use crate::quantities::{Along, along};
use crate::row::Rows;
use crate::solid::Mesh;
use crate::solids::{Solid, finished};
use crate::units::Length;
use crate::view;

/// How far a chord of a picture may lie from its curve.
const CHORD: Length = Length::mm(12.0);

/// What is smaller on an elevation may be left out, in metres.
const SAMPLE: f64 = 0.018;

/// The same where the parts are pulled apart, which is drawn much smaller.
const SMALL_SAMPLE: f64 = 0.03;

/// The pictures of a house.
#[derive(Clone, Debug)]
pub struct Pictures {
    /// The elevations from north, east, south and west.
    pub elevations: Vec<Elevation>,
    /// The parts pulled apart.
    pub exploded: Exploded,
    /// Which rings of equal poles work, where the roof is one.
    pub choice: Option<Choice>,
    /// How that pole of the ring is bent whose strength is used most.
    pub bent: Option<Along>,
    /// Tried mixes that choose a recipe of two or three ingredients.
    pub mixes: Vec<MixPicture>,
    /// Test panels whose cracks were scored.
    pub panels: Vec<PanelPicture>,
    /// Tests of soils that say sand, silt and clay.
    pub soils: Vec<SoilPoint>,
    /// Gradings that have a curve.
    pub gradings: Vec<GradingPicture>,
    /// The plasticity chart, where limits are tested.
    pub plasticity: Option<PlasticityPicture>,
}

/// What one sees, from back to front.
#[derive(Clone, Debug, Default)]
pub struct View {
    /// The parts that the faces name by their place.
    pub parts: Vec<Shown>,
    /// The faces, the first farthest away.
    pub faces: Vec<view::Face>,
}

/// A part of a picture.
#[derive(Clone, Debug, PartialEq)]
pub struct Shown {
    /// Its path.
    pub path: String,
    /// What it is made of.
    pub material: Material,
}

/// A body of a picture.
struct Body {
    shown: Shown,
    faces: view::Body,
}

impl Body {
    fn new(path: &str, material: Material, mesh: &Mesh) -> Body {
        Body { shown: Shown { path: path.into(), material }, faces: view::Body::of(mesh) }
    }

    fn of(solid: &Solid) -> Body {
        let material = match solid.material {
            "stone" => Material::Stone,
            "gravel" => Material::Gravel,
            "earth" => Material::Earth,
            "timber" => Material::Timber,
            "glass" => Material::Glass,
            _ => Material::Cob,
        };
        Body::new(&solid.path, material, &solid.mesh)
    }

    /// The same so many metres higher.
    fn raised(self, by: f64) -> Body {
        Body { faces: self.faces.raised(by), ..self }
    }

    /// Lowest and highest level, in metres.
    fn levels(&self) -> [f64; 2] {
        let levels = self.faces.points().map(|point| point[2]);
        levels.fold([f64::INFINITY, f64::NEG_INFINITY], |[low, high], level| [low.min(level), high.max(level)])
    }
}

/// The bodies of the roof as a first cut, for looking at; none where there is no roof, or its rows do not tell enough.
#[must_use]
pub fn roof_bodies(house: &House, rows: &Rows) -> Vec<Solid> {
    roof::solids(house, rows)
}

/// The pictures of a house with its rows.
#[must_use]
pub fn pictures(house: &House, rows: &Rows) -> Pictures {
    let bodies: Vec<Body> = finished(house, rows, CHORD).bodies.iter().map(Body::of).collect();
    let elevations = elevation::elevations(house, &bodies);
    let (choice, bent) = (trade::choice(house, rows), along::along(house, rows));
    let exploded = exploded::exploded(house, rows, bodies);
    let (mixes, panels) = (mixes::mixes(house), panels::panels(house));
    let (soils, gradings) = (soils::points(house, rows), soils::gradings(house, rows));
    let plasticity = plasticity::plasticity(house);
    Pictures { elevations, exploded, choice, bent, mixes, panels, soils, gradings, plasticity }
}

//! Simple bodies of the roof for a picture: a first cut, as its rows are; measured poles where they lie, layers on their tops.

mod columns;
mod deck;
mod pole;
mod ring;
mod slope;

use kurbo::{Point, Vec2};

use self::deck::OnPoles;
pub(super) use self::pole::Pole;
use self::ring::Ring;
use self::slope::Slope;
use crate::house::part::Material;
use crate::house::{Frame, House, Roof, RoofLayer as Layer, Weight};
use crate::row::Rows;
use crate::solid::Mesh;
use crate::solids::Solid;
use crate::units::{Angle, Length, Volume};

/// Thickness at which a sheet is drawn, in metres.
const SHEET: f64 = 0.01;

/// The path of all poles together.
pub(super) const POLES: &str = "roof.poles";

/// How finely curved bodies are made.
#[derive(Clone, Copy)]
pub(super) struct Fineness {
    /// How far a chord of the eave may lie from its curve, in metres.
    pub(super) chord: f64,
    /// Flat steps from the eave up to an eye.
    pub(super) steps: u32,
    /// Flat strips from one measured pole to the next.
    pub(super) strips: u32,
}

/// Bodies for looking at from all sides, and for cutting through.
const FINE: Fineness = Fineness { chord: 0.005, steps: 5, strips: 8 };

/// The roof of a picture: its poles, and its layers from below.
pub(super) struct Bodies {
    pub(super) poles: Vec<Pole>,
    pub(super) layers: Vec<LayerBody>,
    shape: Shape,
}

/// A layer of the roof.
pub(super) struct LayerBody {
    pub(super) path: String,
    pub(super) material: Material,
    pub(super) mesh: Mesh,
    /// Its thickness, plumb, in metres.
    pub(super) thick: f64,
}

/// What the layers lie on.
enum Shape {
    Ring(Ring, Option<OnPoles>),
    Slope(Slope),
}

impl Shape {
    fn poles(&self) -> Vec<Pole> {
        match self {
            Shape::Ring(ring, _) => ring.poles(),
            Shape::Slope(slope) => slope.poles(),
        }
    }

    fn layer(&self, levels: [f64; 2]) -> Option<Mesh> {
        match self {
            Shape::Ring(_, Some(deck)) => Some(deck.layer(levels)),
            Shape::Ring(ring, None) => ring.layer(levels),
            Shape::Slope(slope) => slope.layer(levels),
        }
    }
}

impl Bodies {
    /// Level of the undersides of straight rafters over a place in plan; poles round an eye rest where they are fitted.
    pub(super) fn under(&self, place: Point) -> Option<f64> {
        match &self.shape {
            Shape::Ring(..) => None,
            Shape::Slope(slope) => Some(slope.under(place)),
        }
    }

    /// Whether the layers hide what lies in a direction, since all of it lies higher.
    pub(super) fn hides(&self, way: Vec2) -> bool {
        matches!(&self.shape, Shape::Slope(slope) if slope.rise(way) > 1e-9) && !self.layers.is_empty()
    }
}

/// The roof where it will lie: a first cut, and measured poles in their places. A layer has the volume of its row, a measured
/// pole that of its own, any other its share of the row of all; no row says how much a sheet holds.
pub(super) fn solids(house: &House, rows: &Rows) -> Vec<Solid> {
    let Some(bodies) = fine(house, rows) else { return Vec::new() };
    let solid = |path: &str, material: &'static str, volume: Option<Volume>, mesh: Mesh| Solid {
        path: path.to_owned(),
        name: path.rsplit('.').next().unwrap_or(path).replace('-', " "),
        material,
        lift: None,
        day: None,
        volume,
        mesh,
    };
    let share = rows.value::<Volume>("roof.poles.volume").map(|all| all / bodies.poles.len() as f64);
    let poles = bodies.poles.into_iter().map(|pole| {
        let own = pole.row.map_or(share, |row| rows.value(&row));
        solid(POLES, "timber", own, pole.mesh)
    });
    let layers = bodies.layers.into_iter().map(|LayerBody { path, material, mesh, .. }| {
        let material = match material {
            Material::Timber => "timber",
            Material::Soil => "soil",
            Material::Gravel => "gravel",
            Material::Sheet => "sheet",
            _ => "insulation",
        };
        solid(&path, material, rows.value(&format!("{path}.volume")), mesh)
    });
    poles.chain(layers).collect()
}

/// The bodies of a roof, finely made; `None` where its rows do not tell enough.
pub(super) fn fine(house: &House, rows: &Rows) -> Option<Bodies> {
    bodies(house, rows, FINE)
}

/// The bodies of a roof, its poles on the bond beam; `None` where its rows do not tell enough.
pub(super) fn bodies(house: &House, rows: &Rows, fineness: Fineness) -> Option<Bodies> {
    let roof = house.roof.as_ref()?;
    let length = |path: &str| rows.value::<Length>(path).map(Length::in_m);
    let eave = house.wall.line.outline(length("roof.eave-offset")?, fineness.chord);
    let beam = length("wall.bond-beam.height").unwrap_or(0.0);
    let (shape, pitch) = match &roof.frame {
        Frame::Reciprocal { .. } => {
            let level = house.wall.top_level().at.in_m() + beam;
            let deck = roof.deck.as_ref().map(|deck| OnPoles::of(deck, fineness));
            (Shape::Ring(Ring::of(house, rows, eave, level, fineness)?, deck), "roof.pitch")
        }
        Frame::OneWay { .. } => (Shape::Slope(Slope::of(house, rows, eave, beam)?), "roof.angle"),
    };
    let steep = 1.0 / rows.value::<Angle>(pitch)?.in_rad().cos();
    let plumb = |layer: &Layer, thickness: Length| match &shape {
        Shape::Ring(_, Some(deck)) => {
            rows.value::<Volume>(&layer.path("volume")).map_or(0.0, Volume::in_m3) / deck.plan_area
        }
        _ => thickness.in_m() * steep,
    };
    let layers = layers(roof, &shape, &plumb);
    Some(Bodies { poles: shape.poles(), layers, shape })
}

/// The layers from below; `plumb` is how thick one lies, plumb, that is so thick square to the slope.
fn layers(roof: &Roof, shape: &Shape, plumb: &dyn Fn(&Layer, Length) -> f64) -> Vec<LayerBody> {
    let sheet = roof.layers.iter().position(|layer| matches!(layer.weight, Weight::Sheet(_)));
    let last = roof.layers.len().saturating_sub(1);
    let mut level = 0.0;
    let drawn = roof.layers.iter().enumerate().filter_map(|(place, layer)| {
        let is_over_sheet = sheet.is_some_and(|sheet| sheet < place);
        let (material, thick) = match &layer.weight {
            Weight::Sheet(_) => (Material::Sheet, SHEET),
            Weight::Thick(thickness, ..) => {
                let material = match place {
                    _ if is_over_sheet && place == last => Material::Soil,
                    _ if is_over_sheet => Material::Gravel,
                    0 => Material::Timber,
                    _ => Material::Insulation,
                };
                (material, plumb(layer, thickness.value))
            }
        };
        let foot = level;
        level += thick;
        let mesh = shape.layer([foot, level])?;
        Some(LayerBody { path: format!("roof.layers.{}", layer.name), material, mesh, thick })
    });
    drawn.collect()
}

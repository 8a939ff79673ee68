//! The house pulled apart upwards in the order of building, seen from above beside its door.

use kurbo::Point;

use super::roof::Fineness;
use super::stage::NARROW;
use super::{Body, CHORD, SMALL_SAMPLE, Stage, View, roof};
use crate::build::OpeningKind;
use crate::house::part::Material;
use crate::house::{House, Weight};
use crate::row::Rows;
use crate::view::{self, Sight};

/// How far above the level one looks down from, in radians.
const ABOVE: f64 = 0.5;
/// How far beside the door one stands, in radians.
const ASIDE: f64 = 0.65;

/// The roof of so small a picture.
const COARSE: Fineness = Fineness { chord: CHORD.in_m(), steps: 2, strips: 3 };

/// Built-in things named one by one, at most.
const MOST_NAMED: usize = 3;

/// The parts of the house pulled apart.
#[derive(Clone, Debug)]
pub struct Exploded {
    /// What is seen, in metres of the picture; not along one true scale, since one looks down on it.
    pub view: View,
    /// What is named, from below to above.
    pub groups: Vec<Group>,
    /// Whether a roof is shown, which is a first cut.
    pub has_roof: bool,
}

/// Parts that stay together.
#[derive(Clone, Debug, PartialEq)]
pub struct Group {
    /// The row that says how thick, high or many they are; of their parts where there is none.
    pub path: String,
    /// What they are.
    pub name: String,
    /// Their place on the picture, farthest to the right.
    pub at: Point,
}

/// Bodies of a group, and the free height above it.
struct Layer {
    path: String,
    name: String,
    bodies: Vec<Body>,
    /// The height it takes, in metres: a roof's layers lie in each other.
    height: Option<f64>,
    above: f64,
}

pub(super) fn exploded(house: &House, rows: &Rows, bodies_of: Vec<Body>) -> Exploded {
    let mut layers = layers(house, bodies_of);
    let roof = roof::bodies(house, rows, COARSE);
    let has_roof = roof.is_some();
    if let (Some(roof), Some(placed)) = (roof, &house.roof) {
        let poles = Layer {
            path: "poles.diameter".into(),
            name: "poles".into(),
            bodies: roof.poles.iter().map(|pole| Body::new(roof::POLES, Material::Timber, &pole.mesh)).collect(),
            height: None,
            above: Stage::Poles.free_above(),
        };
        layers.push(poles);
        for (body, layer) in roof.layers.into_iter().zip(&placed.layers) {
            let noun = if matches!(layer.weight, Weight::Sheet(_)) { "mass" } else { "thickness" };
            layers.push(Layer {
                path: layer.path(noun),
                name: layer.name.clone(),
                bodies: vec![Body::new(&body.path, body.material, &body.mesh)],
                height: Some(body.thick),
                above: NARROW,
            });
        }
    }
    drawn(house, layers, has_roof)
}

/// The groups below the roof, from below.
fn layers(house: &House, mut all: Vec<Body>) -> Vec<Layer> {
    let mut layers = Vec::new();
    let built_in = built_in_words(house, &all);
    let mut take = |path: &str, name: &str, above: f64, belongs: &dyn Fn(&str) -> bool| {
        let bodies: Vec<Body> = all.extract_if(.., |body| belongs(&body.shown.path)).collect();
        if !bodies.is_empty() {
            layers.push(Layer { path: path.into(), name: name.into(), bodies, height: None, above });
        }
    };
    for (stage, path, name) in [
        (Stage::Rubble, "water.trench.depth", "rubble in the trench"),
        (Stage::Stem, "wall.stem.height", "stem wall"),
        (Stage::Floor, "", ""),
        (Stage::Wall, "wall.height", "cob wall"),
        (Stage::BuiltIn, "built-in", built_in.as_str()),
        (Stage::Lintels, "openings", "lintels"),
        (Stage::Deadmen, "wall.anchors", "deadmen"),
        (Stage::BondBeam, "wall.bond-beam.height", "bond beam"),
    ] {
        if stage == Stage::Floor {
            for layer in &house.floor {
                let own = format!("floor.layers.{}", layer.name);
                let name = format!("{} of the floor", layer.name);
                take(&format!("{own}.thickness"), &name, stage.free_above(), &|path| path == own);
            }
        } else {
            take(path, name, stage.free_above(), &|path| Stage::of(path) == stage);
        }
    }
    layers
}

/// What is built in and has a body, by name; too many are not named one by one.
fn built_in_words(house: &House, all: &[Body]) -> String {
    let has_body = |stem: &str| all.iter().any(|body| body.shown.path == stem);
    let things = house.built_in.iter().filter(|thing| has_body(&thing.stem()));
    let names: Vec<&str> = things.map(|thing| thing.name.as_str()).collect();
    if names.len() > MOST_NAMED { "what is built in".to_owned() } else { names.join(", ") }
}

fn drawn(house: &House, layers: Vec<Layer>, has_roof: bool) -> Exploded {
    let door = house.openings.iter().find(|opening| opening.kind == OpeningKind::Door).or(house.openings.first());
    let facing = door.map_or(0.0, |door| (-door.station.axis.turn_90()).atan2());
    let sight = Sight::from(facing + ASIDE, ABOVE);
    let (mut placed, mut groups) = (Vec::new(), Vec::new());
    let mut level = 0.0;
    for Layer { path, name, bodies, height, above } in layers {
        let levels = bodies.iter().map(Body::levels);
        let [low, high] =
            levels.fold([f64::INFINITY, f64::NEG_INFINITY], |all, own| [all[0].min(own[0]), all[1].max(own[1])]);
        let by = level - low;
        let raised: Vec<Body> = bodies.into_iter().map(|body| body.raised(by)).collect();
        let points = raised.iter().flat_map(|body| body.faces.points()).map(|point| sight.at(point));
        let at =
            points.fold(
                Point::new(f64::NEG_INFINITY, 0.0),
                |far, [right, up, _]| {
                    if right > far.x { Point::new(right, up) } else { far }
                },
            );
        groups.push(Group { path, name, at });
        placed.extend(raised);
        level += height.unwrap_or(high - low) + above;
    }
    let bodies: Vec<&view::Body> = placed.iter().map(|body| &body.faces).collect();
    let faces = view::view(&bodies, &sight, SMALL_SAMPLE);
    let parts = placed.into_iter().map(|body| body.shown).collect();
    Exploded { view: View { parts, faces }, groups, has_roof }
}

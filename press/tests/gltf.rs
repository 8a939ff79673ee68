//! The model of a house as an independent reader sees it.
#![allow(clippy::unwrap_used, clippy::panic, reason = "a test stops at the first surprise")]

use engine::answers::{Answers, Inputs, answers, compute};
use engine::solids::Solids;
use engine::units::Length;
use gltf::Gltf;
use serde_json::Value;

const BUILDS: [&str; 4] = [
    include_str!("../../builds/tansy-bank/tansy-bank.loam.toml"),
    include_str!("../../builds/burdock-rise/burdock-rise.loam.toml"),
    include_str!("../../builds/plain-ring/plain-ring.loam.toml"),
    include_str!("../../builds/quince-hut/quince-hut.loam.toml"),
];

fn made(text: &str) -> (Answers, Solids) {
    let inputs = Inputs { build: text.as_bytes(), system: None };
    (answers(&inputs).unwrap(), compute(&inputs).unwrap().bodies(Length::mm(1.0)))
}

/// Volume of a closed mesh with y up, in m³.
fn volume(primitive: &gltf::Primitive<'_>, binary: &[u8]) -> f64 {
    let reader = primitive.reader(|_| Some(binary));
    let points: Vec<[f64; 3]> = reader.read_positions().unwrap().map(|point| point.map(f64::from)).collect();
    let places: Vec<u32> = reader.read_indices().unwrap().into_u32().collect();
    let six = |corners: &[u32]| {
        let [a, b, c] = [0, 1, 2].map(|corner| points[corners[corner] as usize]);
        a[0] * (b[1] * c[2] - b[2] * c[1]) + a[1] * (b[2] * c[0] - b[0] * c[2]) + a[2] * (b[0] * c[1] - b[1] * c[0])
    };
    places.chunks_exact(3).map(six).sum::<f64>() / 6.0
}

#[test]
fn an_independent_reader_finds_every_part_in_metres_as_large_as_its_row() {
    for text in BUILDS {
        let (answers, solids) = made(text);
        let file = press::gltf::glb(&answers.about.name, &solids.bodies);
        let Gltf { document, blob } = Gltf::from_slice(&file).unwrap();
        let binary = blob.unwrap();
        let nodes: Vec<_> = document.default_scene().unwrap().nodes().collect();
        assert_eq!(nodes.len(), solids.bodies.len());
        for (node, body) in nodes.iter().zip(&solids.bodies) {
            assert_eq!(node.name(), Some(body.path.as_str()));
            let primitive = node.mesh().unwrap().primitives().next().unwrap();
            assert_eq!(primitive.material().name(), Some(body.material));
            let (found, row) = (volume(&primitive, &binary), body.volume.unwrap().in_m3());
            assert!((found - row).abs() < 1e-3 * row, "{}: {found} read, {row} said", body.path);
            let bounds = primitive.bounding_box();
            let levels = body.mesh.points.iter().map(|point| point[2]);
            let top = levels.fold(f64::NEG_INFINITY, f64::max);
            assert!((f64::from(bounds.max[1]) - top).abs() < 1e-6, "{}: y goes up", body.path);
            let extras: Value = serde_json::from_str(node.extras().as_ref().unwrap().get()).unwrap();
            assert_eq!(extras["lift"].as_str(), body.lift.as_deref());
            assert_eq!(extras["day"].as_f64(), body.day.map(|day| day.in_days()));
        }
        let lifts = nodes.iter().filter(|node| node.name().unwrap().starts_with("wall.lifts."));
        let cob: f64 = lifts.map(|node| volume(&node.mesh().unwrap().primitives().next().unwrap(), &binary)).sum();
        let wall = answers.rows.find("wall.volume").unwrap().quantity.si().unwrap();
        assert!((cob - wall).abs() < 1e-3 * wall, "the lifts hold {cob}, the wall {wall}");
    }
}

#[test]
fn the_same_house_makes_the_same_bytes() {
    let (answers, solids) = made(BUILDS[2]);
    let name = &answers.about.name;
    assert_eq!(press::gltf::glb(name, &solids.bodies), press::gltf::glb(name, &made(BUILDS[2]).1.bodies));
}

//! The bodies of a house as one binary glTF 2.0 file: named parts in metres, y up.
//!
//! Source of the format: glTF 2.0 specification (ISO/IEC 12113:2022), sections on GLB, accessors and meshes.

use engine::pictures::Stage;
use engine::solids::Solid;
use serde_json::{Value, json};

/// `glTF`, little-endian.
const MAGIC: u32 = 0x4654_6C67;
const JSON_CHUNK: u32 = 0x4E4F_534A;
const BINARY_CHUNK: u32 = 0x004E_4942;
/// A view that holds corners, and one that holds places in the list of corners.
const ARRAY_BUFFER: u32 = 34962;
const ELEMENT_ARRAY_BUFFER: u32 = 34963;
const FLOAT: u32 = 5126;
const UNSIGNED_INT: u32 = 5125;

/// What parts are made of, in linear colour without gloss, roughly as the eye sees it: our judgement.
const COLOURS: [(&str, [f64; 4]); 10] = [
    ("cob", [0.45, 0.27, 0.15, 1.0]),
    ("stone", [0.30, 0.31, 0.31, 1.0]),
    ("gravel", [0.42, 0.40, 0.36, 1.0]),
    ("earth", [0.34, 0.22, 0.14, 1.0]),
    ("timber", [0.52, 0.36, 0.19, 1.0]),
    ("glass", [0.35, 0.50, 0.45, 1.0]),
    ("insulation", [0.62, 0.52, 0.30, 1.0]),
    ("sheet", [0.12, 0.13, 0.14, 1.0]),
    ("soil", [0.16, 0.22, 0.09, 1.0]),
    ("other", [0.50, 0.50, 0.50, 1.0]),
];

/// The file: one node a body, named by its path; title and material, lift, day and volume in m³ where a row says
/// them, and the stage of building as extras: its rank, the free height above it when pulled apart, whether it covers the room.
///
/// A corner at (x, y, z) of the house, z up, becomes (x, z, −y).
#[must_use]
pub fn glb(name: &str, solids: &[Solid]) -> Vec<u8> {
    let mut binary: Vec<u8> = Vec::new();
    let (mut views, mut accessors, mut meshes, mut nodes) = (Vec::new(), Vec::new(), Vec::new(), Vec::new());
    for solid in solids {
        let corners: Vec<[f32; 3]> =
            solid.mesh.points.iter().map(|&[x, y, z]| [x as f32, z as f32, -y as f32]).collect();
        let (low, high) = extent(&corners);
        let (first_view, first_accessor) = (views.len(), accessors.len());
        views.push(view(&mut binary, corners.iter().flatten().map(|value| value.to_le_bytes()), ARRAY_BUFFER));
        let places = solid.mesh.triangles.iter().flatten();
        views.push(view(&mut binary, places.map(|place| place.to_le_bytes()), ELEMENT_ARRAY_BUFFER));
        accessors.push(json!({
            "bufferView": first_view, "componentType": FLOAT, "count": corners.len(), "type": "VEC3",
            "min": low, "max": high,
        }));
        accessors.push(json!({
            "bufferView": first_view + 1, "componentType": UNSIGNED_INT,
            "count": 3 * solid.mesh.triangles.len(), "type": "SCALAR",
        }));
        let material = COLOURS.iter().position(|(word, _)| *word == solid.material).unwrap_or(COLOURS.len() - 1);
        nodes.push(json!({ "name": solid.path, "mesh": meshes.len(), "extras": extras(solid) }));
        meshes.push(json!({
            "name": solid.path,
            "primitives": [{
                "attributes": { "POSITION": first_accessor }, "indices": first_accessor + 1, "material": material,
            }],
        }));
    }
    let materials = COLOURS.iter().map(|(word, colour)| {
        json!({
            "name": word,
            "pbrMetallicRoughness": { "baseColorFactor": colour, "metallicFactor": 0.0, "roughnessFactor": 1.0 },
        })
    });
    let file = json!({
        "asset": { "version": "2.0", "generator": "Loamwright" },
        "scene": 0,
        "scenes": [{ "name": name, "nodes": (0..nodes.len()).collect::<Vec<_>>() }],
        "nodes": nodes,
        "meshes": meshes,
        "materials": materials.collect::<Vec<_>>(),
        "accessors": accessors,
        "bufferViews": views,
        "buffers": [{ "byteLength": binary.len() }],
    });
    container(file.to_string().into_bytes(), binary)
}

fn extras(solid: &Solid) -> Value {
    let mut extras = json!({ "title": solid.name, "material": solid.material });
    let stage = Stage::of(&solid.path);
    extras["rank"] = json!(stage.rank());
    extras["free_above_m"] = json!(stage.free_above());
    extras["over_the_room"] = json!(stage.is_over_the_room());
    if let Some(volume) = solid.volume {
        extras["volume_m3"] = json!(volume.in_m3());
    }
    if let Some(lift) = &solid.lift {
        extras["lift"] = json!(lift);
    }
    if let Some(day) = solid.day {
        extras["day"] = json!(day.in_days());
    }
    extras
}

fn extent(corners: &[[f32; 3]]) -> ([f32; 3], [f32; 3]) {
    let start = ([f32::INFINITY; 3], [f32::NEG_INFINITY; 3]);
    corners.iter().fold(start, |(mut low, mut high), corner| {
        for axis in 0..3 {
            low[axis] = low[axis].min(corner[axis]);
            high[axis] = high[axis].max(corner[axis]);
        }
        (low, high)
    })
}

/// Appends values of four bytes and says where they lie.
fn view(binary: &mut Vec<u8>, values: impl Iterator<Item = [u8; 4]>, target: u32) -> Value {
    let offset = binary.len();
    values.for_each(|value| binary.extend(value));
    json!({ "buffer": 0, "byteOffset": offset, "byteLength": binary.len() - offset, "target": target })
}

fn container(mut text: Vec<u8>, binary: Vec<u8>) -> Vec<u8> {
    text.resize(text.len().next_multiple_of(4), b' ');
    let chunks = [(JSON_CHUNK, &text), (BINARY_CHUNK, &binary)];
    let whole = 12 + chunks.iter().map(|(_, bytes)| 8 + bytes.len()).sum::<usize>();
    let mut file = Vec::with_capacity(whole);
    for word in [MAGIC, 2, whole as u32] {
        file.extend(word.to_le_bytes());
    }
    for (kind, bytes) in chunks {
        file.extend((bytes.len() as u32).to_le_bytes());
        file.extend(kind.to_le_bytes());
        file.extend(bytes);
    }
    file
}

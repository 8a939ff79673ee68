//! Simple bodies of the roof for a picture: a first cut, as its rows are.

use kurbo::{Point, Vec2};

use super::CHORD;
use crate::house::part::Material;
use crate::house::{Frame, House, Roof, Weight};
use crate::row::Rows;
use crate::solid::{Mesh, prism};
use crate::solids::Solid;
use crate::units::{Angle, Length, Volume};

/// Sides of a pole.
const SIDES: u32 = 12;
/// Thickness at which a sheet is drawn, in metres.
const SHEET: f64 = 0.01;

/// The path of all poles together.
pub(super) const POLES: &str = "roof.poles";

/// The roof of a picture: its poles, and its layers from below.
pub(super) struct Bodies {
    pub(super) poles: Vec<Mesh>,
    pub(super) layers: Vec<LayerBody>,
}

/// A layer of the roof.
pub(super) struct LayerBody {
    pub(super) path: String,
    pub(super) material: Material,
    pub(super) mesh: Mesh,
    /// Its thickness in metres.
    pub(super) thick: f64,
}

/// The roof where it will lie, its poles on the bond beam: a first cut, no pole is placed yet.
pub(super) fn solids(house: &House, rows: &Rows) -> Vec<Solid> {
    let beam = rows.value::<Length>("wall.bond-beam.height").map_or(0.0, Length::in_m);
    let level = house.wall.top_level().at.in_m() + beam;
    let (Some(roof), Some(bodies)) = (&house.roof, bodies(house, rows, level)) else { return Vec::new() };
    let solid = |path: &str, material: &'static str, mesh: Mesh| Solid {
        path: path.to_owned(),
        name: path.rsplit('.').next().unwrap_or(path).replace('-', " "),
        material,
        lift: None,
        day: None,
        volume: Volume::m3(mesh.volume()),
        mesh,
    };
    let mut solids: Vec<Solid> = bodies.poles.into_iter().map(|mesh| solid(POLES, "timber", mesh)).collect();
    let mut under = roof.diameter.value.in_m();
    for LayerBody { path, material, mut mesh, thick } in bodies.layers {
        for point in &mut mesh.points {
            point[2] += under;
        }
        under += thick;
        let material = match material {
            Material::Timber => "timber",
            Material::Soil => "soil",
            Material::Gravel => "gravel",
            Material::Sheet => "sheet",
            _ => "insulation",
        };
        solids.push(solid(&path, material, mesh));
    }
    solids
}

/// The bodies of a roof whose poles lie on a level, in metres; `None` where its rows do not tell enough.
pub(super) fn bodies(house: &House, rows: &Rows, level: f64) -> Option<Bodies> {
    let roof = house.roof.as_ref()?;
    let length = |path: &str| rows.value::<Length>(path).map(Length::in_m);
    let outline = house.wall.line.outline(length("roof.eave-offset")?, CHORD.in_m());
    match &roof.frame {
        Frame::Reciprocal { count, eye, tip, .. } => {
            let pitch = rows.value::<Angle>("roof.pitch")?.in_rad();
            let poles = Ring {
                centre: house.wall.line.centre(),
                count: count.value,
                eye: eye.value.in_m(),
                radius: length("roof.plan-radius")?,
                ends: [-length("roof.support-to-eave")?, length("roof.plan-length")? + tip.value.in_m()],
                pitch,
                level,
                pole: 0.5 * roof.diameter.value.in_m(),
            };
            let cone = |thick: f64| poles.cone(&outline, thick);
            Some(Bodies { poles: poles.poles(), layers: layers(roof, cone) })
        }
        Frame::OneWay { pitch, falls, .. } => {
            let count = rows.value::<u64>("roof.poles.count")?;
            let fall = Vec2::from_angle(falls.value.in_rad());
            let slope = Slope { outline: &outline, fall, pitch: pitch.value.in_ratio(), level };
            let poles = slope.poles(count, 0.5 * roof.diameter.value.in_m());
            Some(Bodies { poles, layers: layers(roof, |thick| slope.slab(thick)) })
        }
    }
}

fn layers(roof: &Roof, shape: impl Fn(f64) -> Option<Mesh>) -> Vec<LayerBody> {
    let sheet = roof.layers.iter().position(|layer| matches!(layer.weight, Weight::Sheet(_)));
    let last = roof.layers.len().saturating_sub(1);
    let drawn = roof.layers.iter().enumerate().filter_map(|(place, layer)| {
        let (material, thick) = match &layer.weight {
            Weight::Sheet(_) => (Material::Sheet, SHEET),
            Weight::Thick(thickness, ..) => {
                let material = match place {
                    _ if place == last => Material::Soil,
                    0 => Material::Timber,
                    _ if sheet.is_some_and(|sheet| sheet < place) => Material::Gravel,
                    _ => Material::Insulation,
                };
                (material, thickness.value.in_m())
            }
        };
        Some(LayerBody { path: format!("roof.layers.{}", layer.name), material, mesh: shape(thick)?, thick })
    });
    drawn.collect()
}

/// A straight round pole between the ends of its axis.
fn pole(from: [f64; 3], to: [f64; 3], radius: f64) -> Mesh {
    let way = [0, 1, 2].map(|axis| to[axis] - from[axis]);
    let flat = Vec2::new(way[0], way[1]);
    let length = (flat.hypot2() + way[2] * way[2]).sqrt();
    let (aside, rise) = (flat.normalize().turn_90(), way[2] / length);
    // Square to the axis: level to the left, and upwards.
    let up = [-rise * flat.x / flat.hypot(), -rise * flat.y / flat.hypot(), flat.hypot() / length];
    let ring = |end: [f64; 3]| {
        (0..SIDES).map(move |side| {
            let angle = std::f64::consts::TAU * f64::from(side) / f64::from(SIDES);
            let (out, high) = (radius * angle.cos(), radius * angle.sin());
            [end[0] + aside.x * out + up[0] * high, end[1] + aside.y * out + up[1] * high, end[2] + up[2] * high]
        })
    };
    let points = ring(from).chain(ring(to)).collect();
    let mut triangles = Vec::new();
    for side in 0..SIDES {
        let next = (side + 1) % SIDES;
        // The left of the axis, then up, turns clockwise for who looks along it.
        triangles.extend([[side, side + SIDES, next], [next, side + SIDES, next + SIDES]]);
        if side > 1 {
            triangles.extend([[0, side - 1, side], [SIDES, SIDES + side, SIDES + side - 1]]);
        }
    }
    outward(Mesh { points, triangles })
}

/// The mesh turned so that it holds something.
fn outward(mut mesh: Mesh) -> Mesh {
    if mesh.volume() < 0.0 {
        for corners in &mut mesh.triangles {
            corners.swap(1, 2);
        }
    }
    mesh
}

/// Poles that rest on each other round an eye.
struct Ring {
    centre: Point,
    count: u64,
    eye: f64,
    radius: f64,
    /// Places along a pole in plan, from its support.
    ends: [f64; 2],
    pitch: f64,
    level: f64,
    pole: f64,
}

impl Ring {
    fn poles(&self) -> Vec<Mesh> {
        let turn = std::f64::consts::TAU / self.count as f64;
        // The axis passes the centre at this distance.
        let aside = self.eye * (0.5 * turn).cos();
        let lean = (aside / self.radius).clamp(-1.0, 1.0).asin();
        let body = |place: u64| {
            let out = Vec2::from_angle(turn * place as f64);
            let way = Vec2::from_angle(turn * place as f64 + std::f64::consts::PI - lean);
            let at = |along: f64| {
                let point = self.centre + out * self.radius + way * along;
                [point.x, point.y, self.level + self.pole + along * self.pitch.tan()]
            };
            pole(at(self.ends[0]), at(self.ends[1]), self.pole)
        };
        (0..self.count).map(body).collect()
    }

    /// A layer from the eave up to the eye.
    fn cone(&self, eave: &[Point], thick: f64) -> Option<Mesh> {
        let mean = eave.iter().map(|point| (*point - self.centre).hypot()).sum::<f64>() / eave.len() as f64;
        let share = self.eye / mean;
        let rise = (mean - self.eye) * self.pitch.tan();
        let count = eave.len() as u32;
        let ring = |share: f64, level: f64| {
            eave.iter().map(move |point| {
                let at = self.centre + (*point - self.centre) * share;
                [at.x, at.y, level]
            })
        };
        let low = self.level;
        let points = ring(1.0, low).chain(ring(share, low + rise)).chain(ring(share, low + rise + thick));
        let points: Vec<[f64; 3]> = points.chain(ring(1.0, low + thick)).collect();
        let mut mesh = Mesh { points, triangles: Vec::new() };
        for place in 0..count {
            let next = (place + 1) % count;
            for band in 0..4 {
                let (this, other) = (band * count, (band + 1) % 4 * count);
                mesh.triangles.push([this + place, this + next, other + next]);
                mesh.triangles.push([this + place, other + next, other + place]);
            }
        }
        (share < 1.0).then(|| outward(mesh))
    }
}

/// Rafters that all fall one way.
struct Slope<'a> {
    outline: &'a [Point],
    fall: Vec2,
    pitch: f64,
    level: f64,
}

impl Slope<'_> {
    /// Least and greatest reach of the eave in a direction.
    fn reach(&self, way: Vec2) -> [f64; 2] {
        let reaches = self.outline.iter().map(|point| point.to_vec2().dot(way));
        reaches.fold([f64::INFINITY, f64::NEG_INFINITY], |[low, high], reach| [low.min(reach), high.max(reach)])
    }

    fn height(&self, fallen: f64) -> f64 {
        self.level + (self.reach(self.fall)[1] - fallen) * self.pitch
    }

    fn poles(&self, count: u64, radius: f64) -> Vec<Mesh> {
        let (along, across) = (self.reach(self.fall), self.reach(self.fall.turn_90()));
        let body = |place: u64| {
            let share = (place as f64 + 0.5) / count as f64;
            let aside = self.fall.turn_90() * (across[0] + (across[1] - across[0]) * share);
            let at = |fallen: f64| {
                let point = self.fall * fallen + aside;
                [point.x, point.y, self.height(fallen) + radius]
            };
            pole(at(along[1]), at(along[0]), radius)
        };
        (0..count).map(body).collect()
    }

    fn slab(&self, thick: f64) -> Option<Mesh> {
        let mut mesh = prism(self.outline, [0.0, thick]).ok()?;
        for point in &mut mesh.points {
            point[2] += self.height(Vec2::new(point[0], point[1]).dot(self.fall));
        }
        Some(mesh)
    }
}

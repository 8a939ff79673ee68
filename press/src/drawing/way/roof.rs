//! The roof in the cross-section: its poles, its layers and where it ends, from the rows of the roof.

use engine::answers::Answers;
use engine::units::{Angle, Density, Length, Slope};
use kurbo::{Point, Vec2};

/// How a layer is drawn, by how dense it is and where it lies.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Look {
    /// Boards.
    Boards,
    /// What keeps warm.
    Light,
    /// Gravel and the like.
    Loose,
    /// Soil with plants: the uppermost where it is heavy.
    Living,
    /// Too thin to be drawn as an area.
    Sheet,
}

/// A roof cut through: metres, x along the section, y up from the foot of the cob.
pub(super) struct Roof {
    /// Top of the poles from eave to eave or to the eye, one line for each side.
    pub(super) lines: Vec<Vec<Point>>,
    /// Layers from the poles up, each with its thickness.
    pub(super) layers: Vec<(Look, f64)>,
    /// Axes of poles seen along, the farthest first.
    pub(super) poles: Vec<[Point; 2]>,
    /// Middles of poles that are cut across.
    pub(super) ends: Vec<Point>,
    pub(super) diameter: f64,
    /// Whether the two lines end at an eye.
    pub(super) has_eye: bool,
    /// What stays open between the top of a wall and the poles: what bears them there is not in the build.
    pub(super) gaps: Vec<[Point; 2]>,
}

/// Denser than this is laid loose, lighter than `LIGHT` keeps warm, in kilograms on a cubic metre: for the drawing alone.
const DENSE: f64 = 1100.0;
const LIGHT: f64 = 320.0;
/// Points along a side of the roof.
const STEPS: u32 = 28;

impl Roof {
    /// The roof over walls whose tops are these, as middles in metres from left to right; none where the build has none.
    pub(super) fn of(answers: &Answers, tops: [Point; 2]) -> Option<Roof> {
        let metres = |path: &str| answers.rows.value::<Length>(path).map(Length::in_m);
        let diameter = metres("poles.diameter")?;
        let beam = metres("wall.bond-beam.height").unwrap_or(0.0);
        let tops = tops.map(|top| Point::new(top.x, top.y + beam));
        let layers = layers(answers);
        let shape = match answers.rows.value::<Angle>("roof.pitch") {
            Some(pitch) => reciprocal(&metres, tops, pitch.in_rad().tan(), diameter, count(answers))?,
            None => one_way(answers, &metres, tops, diameter)?,
        };
        Some(Roof { layers, ..shape })
    }

    /// How thick the layers are together, in metres.
    pub(super) fn thickness(&self) -> f64 {
        self.layers.iter().map(|(_, thickness)| thickness).sum()
    }

    /// Leaves out what lies to the left of a place, but for a little.
    pub(super) fn from(&mut self, left: f64) {
        let beside = left - 0.3;
        for line in &mut self.lines {
            line.retain(|point| point.x > beside);
        }
        self.lines.retain(|line| line.len() > 1);
        self.poles.retain(|pole| pole.iter().any(|end| end.x > left));
        self.ends.retain(|end| end.x > beside);
    }

    /// Everything that is drawn, as points.
    pub(super) fn points(&self) -> impl Iterator<Item = Point> {
        let over = self.thickness();
        let lines = self.lines.iter().flatten().flat_map(move |point| [*point, *point + Vec2::new(0.0, over)]);
        lines.chain(self.poles.iter().flatten().copied())
    }
}

fn count(answers: &Answers) -> u32 {
    let written = answers.rows.find("poles.count").and_then(|row| row.quantity.si());
    written.map_or(9, |count| count.round().clamp(3.0, 60.0) as u32)
}

/// The layers from the poles up.
fn layers(answers: &Answers) -> Vec<(Look, f64)> {
    let stem = |path: &str| path.rsplit_once('.').map(|(stem, _)| stem.to_owned());
    let areas = answers.rows.matching("roof.layers.*.area").filter_map(|row| stem(&row.path));
    let mut found: Vec<(Look, f64)> = areas
        .map(|stem| {
            let thickness = answers.rows.value::<Length>(&format!("{stem}.thickness"));
            let density = answers.rows.value::<Density>(&format!("{stem}.saturated")).map(Density::in_kg_m3);
            match (thickness, density) {
                (Some(thickness), Some(density)) if density > DENSE => (Look::Loose, thickness.in_m()),
                (Some(thickness), Some(density)) if density < LIGHT => (Look::Light, thickness.in_m()),
                (Some(thickness), _) => (Look::Boards, thickness.in_m()),
                (None, _) => (Look::Sheet, 0.0),
            }
        })
        .collect();
    if let Some((look @ Look::Loose, _)) = found.last_mut() {
        *look = Look::Living;
    }
    found
}

/// Poles that bear each other round an eye, seen beyond a cut through the middle, stretched to the walls that are cut.
fn reciprocal(
    metres: &impl Fn(&str) -> Option<f64>,
    [left, right]: [Point; 2],
    rise: f64,
    diameter: f64,
    count: u32,
) -> Option<Roof> {
    let (radius, eye) = (metres("roof.plan-radius")?, metres("roof.eye")?);
    let reach = metres("roof.plan-length")? + metres("roof.tip").unwrap_or(0.0);
    let out = metres("roof.support-to-eave").or_else(|| metres("roof.overhang"))?;
    let (middle, stretch) = (left.midpoint(right), 0.5 * (right.x - left.x) / radius);
    let axis = left.y.max(right.y) + 0.5 * diameter;
    let to_tangent = (radius * radius - eye * eye).sqrt();
    let mut poles: Vec<(f64, [Point; 2])> = (0..count)
        .map(|pole| {
            let turn = (f64::from(pole) + 0.3) * std::f64::consts::TAU / f64::from(count);
            let support = Vec2::new(turn.cos(), turn.sin()) * radius;
            let inward = -support / radius;
            let aside = eye / radius;
            let along = inward * (1.0 - aside * aside).sqrt() + inward.turn_90() * aside;
            let at = |distance: f64| {
                let plan = support + along * distance;
                Point::new(middle.x + plan.x * stretch, axis + distance * rise)
            };
            (support.y, [at(-out), at(reach)])
        })
        .filter(|(depth, _)| *depth > -0.25 * radius)
        .collect();
    poles.sort_by(|a, b| b.0.total_cmp(&a.0));
    let profile = |share: f64| {
        let (inner, outer) = (eye * 1.12, radius + out);
        let from_middle = outer + (inner - outer) * share;
        let up = (to_tangent - (from_middle * from_middle - eye * eye).sqrt()) * rise;
        (from_middle * stretch, axis + 0.5 * diameter + up)
    };
    let side = |sign: f64| -> Vec<Point> {
        let steps = (0..=STEPS).map(|step| profile(f64::from(step) / f64::from(STEPS)));
        steps.map(|(aside, level)| Point::new(middle.x + sign * aside, level)).collect()
    };
    let poles = poles.into_iter().map(|(_, ends)| ends).collect();
    Some(Roof {
        lines: vec![side(-1.0), side(1.0)],
        layers: Vec::new(),
        poles,
        ends: Vec::new(),
        diameter,
        has_eye: true,
        gaps: Vec::new(),
    })
}

/// Straight rafters that all fall one way, seen along or cut across, as the section lies to the fall.
fn one_way(
    answers: &Answers,
    metres: &impl Fn(&str) -> Option<f64>,
    [left, right]: [Point; 2],
    diameter: f64,
) -> Option<Roof> {
    let pitch = answers.rows.value::<Slope>("roof.pitch")?.in_ratio();
    let falls = answers.rows.value::<Angle>("roof.falls")?.in_rad();
    let [from, to] = answers.plan.section;
    let slope = -pitch * (to - from).normalize().dot(Vec2::new(falls.cos(), falls.sin()));
    let half_wall = 0.5 * metres("wall.top-thickness").unwrap_or(0.3);
    let out = metres("roof.overhang")? + half_wall;
    let at_left = (left.y).max(right.y - slope * (right.x - left.x));
    let under = |x: f64| at_left + slope * (x - left.x);
    let ends = [left.x - out, right.x + out];
    let places = (0..=STEPS).map(|step| ends[0] + (ends[1] - ends[0]) * f64::from(step) / f64::from(STEPS));
    let line: Vec<Point> = places.map(|x| Point::new(x, under(x) + diameter)).collect();
    let (mut poles, mut cut) = (Vec::new(), Vec::new());
    if slope.abs() > 0.3 * pitch {
        poles.push(ends.map(|x| Point::new(x, under(x) + 0.5 * diameter)));
    } else {
        let spacing = metres("roof.spacing").unwrap_or(0.6).max(0.1);
        let count = ((ends[1] - ends[0] - diameter) / spacing).ceil().max(1.0) as u32;
        cut = (0..=count)
            .map(|pole| {
                let share = f64::from(pole) / f64::from(count);
                let x = ends[0] + 0.5 * diameter + (ends[1] - ends[0] - diameter) * share;
                Point::new(x, under(x) + 0.5 * diameter)
            })
            .collect();
    }
    let gaps = [left, right].map(|top| [top, Point::new(top.x, under(top.x))]);
    let gaps = gaps.into_iter().filter(|[low, high]| high.y - low.y > 0.5 * diameter).collect();
    Some(Roof { lines: vec![line], layers: Vec::new(), poles, ends: cut, diameter, has_eye: false, gaps })
}

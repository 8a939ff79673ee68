//! Poles that rest on each other round an eye, and the layers on them.

use kurbo::{Point, Vec2};

use super::pole::Pole;
use super::{Fineness, columns};
use crate::house::{Frame, House, Ring as Placed, ring_axis};
use crate::row::Rows;
use crate::solid::Mesh;
use crate::units::{Angle, Length};

/// Poles round an eye; lengths in metres. The tops of poles turned round the eye sweep the surface that the layers lie on.
pub(super) struct Ring {
    centre: Point,
    eave: Vec<Point>,
    count: u64,
    eye: f64,
    /// Radius of the circle of the outer supports.
    radius: f64,
    /// From an outer support to the place of the axis nearest to the centre, in plan, and from there to the centre.
    half_chord: f64,
    aside: f64,
    /// Places of the ends along a pole, in plan from its support.
    ends: [f64; 2],
    /// Rise for each run along a pole.
    rise: f64,
    /// Half of a pole's depth, square to it and plumb.
    half: f64,
    half_plumb: f64,
    /// Level on which the poles rest.
    level: f64,
    steps: u32,
    /// The poles where they are measured one by one.
    measured: Vec<Pole>,
}

impl Ring {
    /// The poles of the rows on a level; `None` where they do not tell enough.
    pub(super) fn of(house: &House, rows: &Rows, eave: Vec<Point>, level: f64, fineness: Fineness) -> Option<Ring> {
        let length = |path: &str| rows.value::<Length>(path).map(Length::in_m);
        let (to_first, between) = (length("roof.to-first-crossing")?, length("roof.between-crossings")?);
        let (radius, half_chord) = (length("roof.plan-radius")?, to_first + 0.5 * between);
        let pitch = rows.value::<Angle>("roof.pitch")?.in_rad();
        let half = 0.5 * length("poles.diameter")?;
        Some(Ring {
            centre: house.wall.line.centre(),
            eave,
            count: rows.value::<u64>("poles.count")?,
            eye: length("roof.eye")?,
            radius,
            half_chord,
            aside: (radius * radius - half_chord * half_chord).max(0.0).sqrt(),
            ends: [-length("roof.support-to-eave")?, length("roof.plan-length")? + length("roof.tip")?],
            rise: pitch.tan(),
            half,
            half_plumb: half / pitch.cos(),
            level,
            steps: fineness.steps,
            measured: measured(house),
        })
    }

    fn turn(&self) -> f64 {
        std::f64::consts::TAU / self.count as f64
    }

    /// Direction of a pole's outer support from the centre, and of the pole from there.
    fn ways(&self, place: u64) -> [Vec2; 2] {
        let out = self.turn() * place as f64;
        let lean = (self.aside / self.radius).clamp(-1.0, 1.0).asin();
        [Vec2::from_angle(out), Vec2::from_angle(out + std::f64::consts::PI - lean)]
    }

    pub(super) fn poles(&self) -> Vec<Pole> {
        if !self.measured.is_empty() {
            return self.measured.clone();
        }
        let body = |place: u64| {
            let [out, way] = self.ways(place);
            let at = |along: f64| {
                let point = self.centre + out * self.radius + way * along;
                [point.x, point.y, self.level + self.half_plumb + along * self.rise]
            };
            Pole::new(self.ends.map(at), self.half)
        };
        (0..self.count).map(body).collect()
    }

    /// How far along a pole one is at a distance from the centre, in plan from its support.
    fn along(&self, from_centre: f64) -> f64 {
        self.half_chord - (from_centre * from_centre - self.aside * self.aside).max(0.0).sqrt()
    }

    /// From the centre to the polygon through the crossings, in a direction.
    fn rim(&self, way: Vec2) -> f64 {
        let [out, along] = self.ways(0);
        let nearest = out * self.radius + along * self.half_chord;
        let off = (way.atan2() - nearest.atan2()).rem_euclid(self.turn());
        self.aside / (off.min(self.turn() - off)).cos()
    }

    /// A layer from the eave up to the eye: how high its underside and its top lie above the tops of the poles, plumb. `None`
    /// where the eave comes into the eye, or is not seen from the centre all round.
    pub(super) fn layer(&self, levels: [f64; 2]) -> Option<Mesh> {
        let out: Vec<Vec2> = self.eave.iter().map(|point| *point - self.centre).collect();
        let turns = out.iter().zip(out.iter().cycle().skip(1)).map(|(a, b)| a.cross(*b));
        let is_seen = turns.clone().all(|turn| turn > 0.0) || turns.clone().all(|turn| turn < 0.0);
        if !is_seen || out.iter().any(|way| way.hypot() <= self.eye) {
            return None;
        }
        let ends: Vec<(Vec2, [f64; 2])> = out
            .iter()
            .map(|way| (way.normalize(), [way.hypot(), self.rim(*way)].map(|from_centre| self.along(from_centre))))
            .collect();
        let columns: Vec<Vec<[f64; 3]>> = ends
            .iter()
            .map(|(way, [eave, rim])| {
                let at = |step: u32| {
                    let along = eave + (rim - eave) * (f64::from(step) / f64::from(self.steps));
                    let at = self.centre + *way * (self.half_chord - along).hypot(self.aside);
                    [at.x, at.y, self.level + 2.0 * self.half_plumb + along * self.rise]
                };
                (0..=self.steps).map(at).collect()
            })
            .collect();
        Some(columns::body(&columns, levels))
    }
}

/// The measured poles of a ring, each as it is solved, from its butt to where it is cut.
fn measured(house: &House) -> Vec<Pole> {
    let ring = match house.roof.as_ref().map(|roof| &roof.frame) {
        Some(Frame::Reciprocal { ring: Some(ring), .. }) => ring,
        _ => return Vec::new(),
    };
    let body = |(place, set)| {
        let rafter = &ring.layout.rafters[place];
        let axis = ring_axis(ring, place, set);
        let cut = set.rest + rafter.beyond;
        let radii = [rafter.pole.butt, rafter.pole.diameter(cut)].map(|diameter| 0.5 * diameter.in_m());
        Pole { row: Some(Placed::path(place, "wood")), ..Pole::tapered(axis, radii) }
    };
    ring.solved.sets.iter().enumerate().map(body).collect()
}

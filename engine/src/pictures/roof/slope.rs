//! Rafters that all fall one way, and the layers on them.

use kurbo::{Point, Vec2};

use super::pole::Pole;
use crate::house::rafter_plan::PlacedRafter;
use crate::house::{Frame, House, rafter_plan};
use crate::row::Rows;
use crate::solid::{Mesh, prism};
use crate::units::{Angle, Length, Slope as Pitch};

/// Rafters on the walls; lengths in metres.
pub(super) struct Slope {
    eave: Vec<Point>,
    /// Unit direction in which they fall.
    fall: Vec2,
    /// Rise for each run.
    pitch: f64,
    /// Level of their undersides where the reach along the fall is zero.
    base: f64,
    /// Least and greatest reach of the eave along the fall, and of the plate line across it.
    along: [f64; 2],
    across: [f64; 2],
    count: u64,
    half: f64,
    half_plumb: f64,
    /// Rafters that somebody measured.
    measured: Vec<PlacedRafter>,
}

impl Slope {
    /// The rafters of the rows on a wall with so much timber on its top; `None` where they do not tell enough.
    pub(super) fn of(house: &House, rows: &Rows, eave: Vec<Point>, beam: f64) -> Option<Slope> {
        let length = |path: &str| rows.value::<Length>(path).map(Length::in_m);
        let (wall, plate) = (&house.wall, length("roof.plate-offset")?);
        let fall = Vec2::from_angle(rows.value::<Angle>("roof.falls")?.in_rad());
        let pitch = rows.value::<Pitch>("roof.pitch")?.in_ratio();
        let half = 0.5 * length("poles.diameter")?;
        let Frame::OneWay { rafters, .. } = &house.roof.as_ref()?.frame else { return None };
        Some(Slope {
            eave,
            fall,
            pitch,
            base: rafters.base.in_m() + beam,
            along: wall.line.reach(length("roof.eave-offset")?, fall).0,
            across: wall.line.reach(plate, fall.turn_90()).0,
            count: rows.value::<u64>("roof.poles.count")?,
            half,
            measured: rafter_plan(house)
                .map_or_else(Vec::new, |plan| plan.places.into_iter().filter(|rafter| rafter.tag.is_some()).collect()),
            half_plumb: half / rows.value::<Angle>("roof.angle")?.in_rad().cos(),
        })
    }

    /// Level of the undersides of the rafters over a place in plan.
    pub(super) fn under(&self, place: Point) -> f64 {
        self.base - place.to_vec2().dot(self.fall) * self.pitch
    }

    /// How steeply the rafters rise in a direction: rise for each run, below zero where they fall.
    pub(super) fn rise(&self, way: Vec2) -> f64 {
        -self.pitch * way.dot(self.fall)
    }

    /// The rafters: measured ones as they are cut, others as they are ordered, the outermost two over the side walls.
    pub(super) fn poles(&self) -> Vec<Pole> {
        if !self.measured.is_empty() {
            return self.measured.iter().map(|rafter| self.measured(rafter)).collect();
        }
        let gaps = self.count.saturating_sub(1).max(1) as f64;
        let body = |place: u64| {
            let [low, high] = self.across;
            let aside = self.fall.turn_90() * (low + (high - low) * place as f64 / gaps);
            let at = |fallen: f64| {
                let point = (self.fall * fallen + aside).to_point();
                [point.x, point.y, self.under(point) + self.half_plumb]
            };
            Pole::new([at(self.along[1]), at(self.along[0])], self.half)
        };
        (0..self.count).map(body).collect()
    }

    /// A measured rafter: its top lies in the plane of all tops.
    fn measured(&self, rafter: &PlacedRafter) -> Pole {
        let steep = self.half_plumb / self.half;
        let ends = [0, 1].map(|end| {
            let (point, radius) = (rafter.axis[end], 0.5 * rafter.diameters[end]);
            [point.x, point.y, self.under(point) + 2.0 * self.half_plumb - radius * steep]
        });
        let row = Some(format!("{}.wood", rafter.stem));
        Pole { row, ..Pole::tapered(ends, rafter.diameters.map(|diameter| 0.5 * diameter)) }
    }

    /// A layer within the eave: how high its underside and its top lie above the tops of the rafters, plumb.
    pub(super) fn layer(&self, levels: [f64; 2]) -> Option<Mesh> {
        let mut mesh = prism(&self.eave, levels).ok()?;
        for point in &mut mesh.points {
            point[2] += self.under(Point::new(point[0], point[1])) + 2.0 * self.half_plumb;
        }
        Some(mesh)
    }
}

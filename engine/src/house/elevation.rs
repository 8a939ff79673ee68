//! The four sides from which the house is looked at, each named after a quarter of the compass.

use super::House;
use crate::units::Angle;

/// A side from which the house is looked at, along an axis of the plan.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Elevation {
    /// The quarter of the compass in which the viewer stands.
    pub name: &'static str,
    /// Direction of the viewer in the plan, anticlockwise from the x axis.
    pub direction: Angle,
}

impl Elevation {
    /// The path of its bearing.
    #[must_use]
    pub fn path(&self) -> String {
        format!("elevations.{}.bearing", self.name)
    }
}

/// The sides of a house: from north, east, south and west, as near as the axes of the plan come to it.
#[must_use]
pub fn elevations(house: &House) -> [Elevation; 4] {
    let turns = (house.north.value.in_deg() / 90.0).round();
    let names = ["north", "east", "south", "west"];
    let quarters = [0.0, 1.0, 2.0, 3.0].map(|quarter| Angle::deg(((turns - quarter) * 90.0).rem_euclid(360.0)));
    [0, 1, 2, 3].map(|place| Elevation { name: names[place], direction: quarters[place] })
}

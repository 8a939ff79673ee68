//! The rubble trench under the wall, its fabric, and the drain to daylight.

use crate::curve::{PlanLine, Station};
use crate::ground;
use crate::known::Known;
use crate::units::{Length, Slope};

/// The rubble trench under the wall.
#[derive(Clone, Debug)]
pub struct Trench {
    /// Width.
    pub width: Known<Length>,
    /// Depth below the ground outside where it is least.
    pub depth: Known<Length>,
    /// Fall of its bottom.
    pub fall: Known<Slope>,
    /// Run under which it drains.
    pub run: usize,
    /// Distance along that run.
    pub along: Known<Length>,
    /// The outlet on the line.
    pub outlet: Station,
    /// What fills it.
    pub of: String,
    /// Loose volume of the filling for each packed volume.
    pub loose: Known<f64>,
    /// The fabric round it.
    pub fabric: Fabric,
}

/// The fabric round the rubble of trench and drain.
#[derive(Clone, Debug)]
pub struct Fabric {
    /// How far one piece lies over the next.
    pub lap: Known<Length>,
    /// Length of a piece as it comes.
    pub piece: Known<Length>,
    /// What is bought.
    pub of: String,
}

impl Trench {
    /// Depth below the ground outside at a distance along the line, in metres.
    #[must_use]
    pub fn depth_at(&self, line: &PlanLine, along: f64) -> Length {
        let (whole, to_outlet) = (Length::m(line.length()), self.to_outlet(line, along));
        if line.is_closed() {
            return ground::depth_at(self.depth.value, self.fall.value, whole, to_outlet).value;
        }
        ground::depth_at_of_open(self.depth.value, self.fall.value, self.longest_way(line), to_outlet).value
    }

    /// The way along the line to the outlet, from a distance along it, in metres: the shorter one round a closed line.
    #[must_use]
    pub fn to_outlet(&self, line: &PlanLine, along: f64) -> Length {
        let apart = (line.along_line(self.outlet) - along).abs();
        Length::m(if line.is_closed() { apart.min(line.length() - apart) } else { apart })
    }

    /// The longest way along the line to the outlet: half-way round a closed line, from the farther end of an open one.
    #[must_use]
    pub fn longest_way(&self, line: &PlanLine) -> Length {
        if line.is_closed() {
            return Length::m(0.5 * line.length());
        }
        self.to_outlet(line, 0.0).max(self.to_outlet(line, line.length()))
    }
}

/// The drain to daylight.
#[derive(Clone, Debug)]
pub struct Drain {
    /// Its length.
    pub length: Known<Length>,
    /// Level of the ground where it comes out, when it was measured.
    pub daylight: Option<Known<Length>>,
    /// Soil put back over its gravel.
    pub cover: Known<Length>,
}

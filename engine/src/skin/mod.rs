//! Skin: coats on faces and layers in floors.

mod floor;
mod lot;

pub use floor::{
    bay_area, bay_count, bay_length, bay_width, crack_in_one, crack_spread, cracks, oil_alone, oil_coat, thinner,
};
pub use lot::{bands, bins, lot, people_needed, stretch_area, stretch_lot, wet_area};

use crate::reason::formula;
use crate::units::{Area, Length, Volume};

formula! {
    /// Area that a coat covers.
    ///
    /// ```text
    /// S = Σ Sᵢ
    /// ```
    /// Source: the sum of its parts.
    pub fn covered(; sum: Area) -> Area {
        sum
    }
}

formula! {
    /// Volume of an even coat or layer.
    ///
    /// ```text
    /// V = S d
    /// ```
    /// Source: a flat layer; the bend of a wall adds half the coat's thickness over the wall's radius, here left out.
    pub fn coat(area: Area, thickness: Length) -> Volume {
        area * thickness
    }
}

formula! {
    /// Thickness of all layers together.
    ///
    /// ```text
    /// d = Σ dᵢ
    /// ```
    /// Source: the sum of its parts.
    pub fn depth(; sum: Length) -> Length {
        sum
    }
}

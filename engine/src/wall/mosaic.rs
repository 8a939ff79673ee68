//! A mosaic on a face of the wall: tiles, bed, grout and what they weigh.

use crate::reason::formula;
use crate::units::{Area, Density, Length, Mass, Ratio, Volume};

formula! {
    /// Area of a rectangular mosaic, laid flat.
    ///
    /// ```text
    /// A = w h
    /// ```
    /// Source: area of a rectangle.
    pub fn mosaic_area(width: Length, height: Length) -> Area {
        width * height
    }
}

formula! {
    /// Area of the face that a mosaic covers: no plaster goes there.
    ///
    /// ```text
    /// S = A
    /// ```
    /// Source: the mosaic lies on the face; the bend of a wall between its edges is left out.
    pub fn mosaic_covers(area: Area) -> Area {
        area
    }
}

formula! {
    /// Area of the tiles themselves.
    ///
    /// ```text
    /// A′ = A (1 − j)        j: share of joints
    /// ```
    /// Source: the whole is the sum of its parts.
    pub fn tile_area(area: Area, joints: Ratio) -> Area {
        area * (1.0 - joints.in_fraction())
    }
}

formula! {
    /// Volume of the bed under the tiles.
    ///
    /// ```text
    /// V = A b
    /// ```
    /// Source: a flat layer.
    pub fn tile_bed(area: Area, bedding: Length) -> Volume {
        area * bedding
    }
}

formula! {
    /// Volume of the grout in the joints, as deep as the tiles are thick.
    ///
    /// ```text
    /// V = A j t        j: share of joints
    /// ```
    /// Source: a flat layer with holes.
    pub fn tile_grout(area: Area, joints: Ratio, tile: Length) -> Volume {
        area * joints.in_fraction() * tile
    }
}

formula! {
    /// Mass that a mosaic hangs on the face of the wall.
    ///
    /// ```text
    /// m = A (t + b) ρ
    /// ```
    /// Source: the definition of density.
    pub fn mosaic_mass(area: Area, tile: Length, bedding: Length, density: Density) -> Mass {
        area * (tile + bedding) * density
    }
}

formula! {
    /// Length of a bottle brick: through the wall at its level and through all coats on both faces, so that both bottoms
    /// stand in the plaster.
    ///
    /// ```text
    /// l = t(z) + Σ d        t(z): thickness of the wall at the level of its middle, d: thickness of a coat
    /// ```
    /// Source: the whole is the sum of its parts.
    pub fn bottle_length(
        thickness: Length, level: Length, batter_inside: crate::units::Slope, batter_outside: crate::units::Slope;
        through: Length
    ) -> Length {
        through
    }
}

formula! {
    /// Bottles to collect: two for each brick, and some to break.
    ///
    /// ```text
    /// n = 2 k (1 + s), rounded up        s: share that may break
    /// ```
    /// Source: two halves to a brick.
    pub fn bottles_to_collect(count: u64, spare: Ratio) -> u64 {
        crate::solve::whole::rounded_up(2.0 * count as f64 * (1.0 + spare.in_fraction()))
    }
}

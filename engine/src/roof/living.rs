//! What a living roof weighs: dry, soaked as the builder's own bucket says, laid too deep, and with its outlet blocked.

use super::layers::STANDARD_GRAVITY_M_S2;
use crate::reason::formula;
use crate::units::{Angle, Density, Length, LineLoad, Mass, Pressure, Ratio, SurfaceMass, Volume};

formula! {
    /// Density of soaked soil, from a bucket of it: filled as it will lie, soaked, drained until it drips no more, weighed.
    ///
    /// ```text
    /// ρ = (m − m₀) / V        m₀: the empty bucket, V: what is in it
    /// ```
    /// Source: the definition of density.
    pub fn soaked_density(full: Mass, empty: Mass, volume: Volume) -> Density {
        (full - empty) / volume
    }
}

formula! {
    /// Depth of a layer that was laid too deep.
    ///
    /// ```text
    /// d′ = d (1 + a)        a: share laid too deep
    /// ```
    /// Source: the definition of the share.
    pub fn over_deep(thickness: Length, too_deep: Ratio) -> Length {
        thickness * (1.0 + too_deep.in_fraction())
    }
}

formula! {
    /// Mass of a layer on each area of slope.
    ///
    /// ```text
    /// m = ρ d
    /// ```
    /// Source: the definition of density.
    pub fn layer_on_area(density: Density, thickness: Length) -> SurfaceMass {
        density * thickness
    }
}

formula! {
    /// Mass of a sheet on each area of slope, with its laps.
    ///
    /// ```text
    /// m′ = m (1 + l)        l: share that laps add
    /// ```
    /// Source: the definition of the share.
    pub fn lapped_sheet(mass: SurfaceMass, laps: Ratio) -> SurfaceMass {
        mass * (1.0 + laps.in_fraction())
    }
}

formula! {
    /// Mass of all layers but the soil, on each area of slope.
    ///
    /// ```text
    /// m = Σ mᵢ
    /// ```
    /// Source: the sum of the parts.
    pub fn fixed_layers(; sum: SurfaceMass) -> SurfaceMass {
        sum
    }
}

formula! {
    /// Water that a layer holds when soaked, on each area of slope.
    ///
    /// ```text
    /// m = (ρ − ρ₀) d        ρ: soaked, ρ₀: dry
    /// ```
    /// Source: the mass that soaking adds.
    pub fn held_water(soaked: Density, dry: Density, thickness: Length) -> SurfaceMass {
        (soaked - dry) * thickness
    }
}

formula! {
    /// Water in a drain layer that is full, on each area of slope: it comes and goes.
    ///
    /// ```text
    /// m = ρ n d        n: share of room between its stones
    /// ```
    /// Source: the definition of the share; that it is live load follows the logic of ASTM E2397.
    pub fn drain_water(water: Density, room: Ratio, thickness: Length) -> SurfaceMass {
        water * thickness * room.in_fraction()
    }
}

formula! {
    /// Weight on each area of slope.
    ///
    /// ```text
    /// q = m g
    /// ```
    /// Source: the definition of weight.
    pub fn weight_on_slope(mass: SurfaceMass) -> Pressure {
        Pressure::pa(mass.in_kg_m2() * STANDARD_GRAVITY_M_S2)
    }
}

formula! {
    /// How deep water ponds behind the edge of a roof when the outlet is blocked, until it runs over.
    ///
    /// ```text
    /// h = max(b, u)        b: height of the edge board, u: upstand of the sheet there, zero where none is written
    /// ```
    /// Source: water stands as high as the highest thing that keeps it.
    pub fn pond_depth(; board: Length, upstand: Length) -> Length {
        board.max(upstand)
    }
}

formula! {
    /// How far water ponds up the slope in plan behind an edge board when the outlet is blocked.
    ///
    /// ```text
    /// x = h / tan β        h: depth at the edge board, β: pitch
    /// ```
    /// Source: a level surface over a plane, elementary geometry.
    pub fn pond_reach(depth: Length, pitch: Angle) -> Length {
        depth / pitch.in_rad().tan()
    }
}

formula! {
    /// Mass of water ponded behind each metre of edge board when the outlet is blocked, in kilograms.
    ///
    /// Soil in the wedge takes some of that room, so this is the most it can be.
    ///
    /// ```text
    /// m = ρ h² / (2 tan β)        h: depth at the edge board, β: pitch
    /// ```
    /// Source: a wedge of water with a level surface over a plane, elementary geometry.
    pub fn pond_on_each_metre(depth: Length, pitch: Angle, water: Density) -> f64 {
        water.in_kg_m3() * depth.in_m().powi(2) / (2.0 * pitch.in_rad().tan())
    }
}

formula! {
    /// Weight of water ponded behind each metre of edge board when the outlet is blocked.
    ///
    /// ```text
    /// w = m g
    /// ```
    /// Source: the definition of weight.
    pub fn pond_weight(mass_on_each_metre_kg: f64) -> LineLoad {
        LineLoad::n_m(mass_on_each_metre_kg * STANDARD_GRAVITY_M_S2)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_board_of_150_mm_at_18_degrees_ponds_35_kilograms_on_each_metre() {
        let mass = pond_on_each_metre(Length::mm(150.0), Angle::deg(18.0), Density::kg_m3(1000.0)).value;
        assert!((mass - 34.6).abs() < 0.05, "{mass}");
        let reach = pond_reach(Length::mm(150.0), Angle::deg(18.0)).value;
        assert!((mass - 1000.0 * 0.5 * 0.15 * reach.in_m()).abs() < 1e-9);
    }

    #[test]
    fn what_soaking_adds_is_the_difference_of_soaked_and_dry() {
        let (soaked, dry, deep) = (Density::kg_m3(2000.0), Density::kg_m3(1500.0), Length::m(0.12));
        let water = held_water(soaked, dry, deep).value;
        let difference = layer_on_area(soaked, deep).value - layer_on_area(dry, deep).value;
        assert!((water - difference).abs() < SurfaceMass::kg_m2(1e-9));
    }

    #[test]
    fn a_bucket_of_twenty_litres_that_gains_forty_kilograms_holds_two_kilograms_a_litre() {
        let density = soaked_density(Mass::kg(41.0), Mass::kg(1.0), Volume::litres(20.0)).value;
        assert!((density.in_kg_m3() - 2000.0).abs() < 1e-9);
    }
}

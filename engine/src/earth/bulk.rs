//! One heap of earth, three volumes: as it lies in the ground, loose, and packed; and its mass, wet and dry.

use crate::reason::formula;
use crate::units::{Density, Mass, Ratio, Volume};

formula! {
    /// Loose volume of what was dug: what is heaped, barrowed and carted.
    ///
    /// ```text
    /// V′ = V f        f: loose volume for each volume in the ground
    /// ```
    /// Source: the definition of the factor.
    pub fn loose(in_the_ground: Volume, loose_factor: f64) -> Volume {
        in_the_ground * loose_factor
    }
}

formula! {
    /// Volume of what was dug when it is put back and packed.
    ///
    /// ```text
    /// V′ = V f        f: packed volume for each volume in the ground
    /// ```
    /// Source: the definition of the factor.
    pub fn packed(in_the_ground: Volume, packed_factor: f64) -> Volume {
        in_the_ground * packed_factor
    }
}

formula! {
    /// Loose volume to bring for a volume that will be packed in place.
    ///
    /// ```text
    /// V′ = V f        f: loose volume for each packed volume
    /// ```
    /// Source: the definition of the factor.
    pub fn loose_for_packed(packed_volume: Volume, loose_factor: f64) -> Volume {
        packed_volume * loose_factor
    }
}

formula! {
    /// Mass of a volume.
    ///
    /// ```text
    /// m = V ρ
    /// ```
    /// Source: the definition of density.
    pub fn mass(volume: Volume, density: Density) -> Mass {
        volume * density
    }
}

formula! {
    /// Volume of a mass.
    ///
    /// ```text
    /// V = m / ρ
    /// ```
    /// Source: the definition of density.
    pub fn volume(mass: Mass, density: Density) -> Volume {
        mass / density
    }
}

formula! {
    /// How much denser a heap lies packed than loose.
    ///
    /// ```text
    /// f = ρ packed / ρ loose
    /// ```
    /// Source: the same mass in both volumes.
    pub fn packing(packed_density: Density, loose_density: Density) -> f64 {
        packed_density / loose_density
    }
}

formula! {
    /// Moisture, of dry mass.
    ///
    /// ```text
    /// w = (m wet − m dry) / m dry
    /// ```
    /// Source: the definition of water content in soil testing; a share of wet mass is a smaller number.
    pub fn moisture(wet_mass: Mass, dry_mass: Mass) -> Ratio {
        Ratio::fraction((wet_mass - dry_mass) / dry_mass)
    }
}

formula! {
    /// Mass of a loose cubic metre with its moisture.
    ///
    /// ```text
    /// ρ wet = ρ (1 + w)        w: moisture, of dry mass
    /// ```
    /// Source: the definition of water content in soil testing.
    pub fn wet_loose(loose_density: Density, moisture: Ratio) -> Density {
        loose_density * (1.0 + moisture.in_fraction())
    }
}

formula! {
    /// Mass as it is weighed, with its moisture.
    ///
    /// ```text
    /// m wet = m dry (1 + w)        w: moisture, of dry mass
    /// ```
    /// Source: the definition of water content in soil testing.
    pub fn wet(dry_mass: Mass, moisture: Ratio) -> Mass {
        dry_mass * (1.0 + moisture.in_fraction())
    }
}

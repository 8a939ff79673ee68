//! How much sand a soil wants, and how far that can be trusted.

use crate::reason::formula;
use crate::units::{Density, Ratio};

formula! {
    /// Dry mass of sand for each dry mass of soil, so that the mix has the clay that is wanted.
    ///
    /// ```text
    /// x = (c soil − c) / (c − c sand)        c: clay wanted in the mix
    /// ```
    /// Source: the mean of soil and sand, weighed by mass.
    pub fn sand_to_add(soil_clay: Ratio, sand_clay: Ratio, wanted_clay: Ratio) -> f64 {
        (soil_clay - wanted_clay) / (wanted_clay - sand_clay)
    }
}

formula! {
    /// How far the sand may be off, by what is not known of the clay in soil and sand.
    ///
    /// ```text
    /// u² = (u soil / (c − c sand))² + (x u sand / (c − c sand))²
    /// ```
    /// Source: errors carried through to the first order.
    pub fn sand_error(sand: f64, soil_error: Ratio, sand_error: Ratio, wanted_clay: Ratio, sand_clay: Ratio) -> f64 {
        let room = wanted_clay - sand_clay;
        (soil_error / room).hypot(sand * (sand_error / room))
    }
}

formula! {
    /// Sand for each bucket of soil, both as they are shovelled.
    ///
    /// ```text
    /// n = x ρ soil / ρ sand        ρ: dry mass in a loose cubic metre
    /// ```
    /// Source: equal buckets, each of its own density.
    pub fn sand_buckets(sand: f64, soil_density: Density, sand_density: Density) -> f64 {
        sand * (soil_density / sand_density)
    }
}

formula! {
    /// Clay that a soil lacks: sand makes a mix leaner and never richer.
    ///
    /// ```text
    /// e = c − c soil        c: clay wanted in the mix
    /// ```
    /// Source: the difference of both.
    pub fn clay_lacking(wanted_clay: Ratio, soil_clay: Ratio) -> Ratio {
        wanted_clay - soil_clay
    }
}

formula! {
    /// Sand to add, less or more what it may be off.
    ///
    /// ```text
    /// x₁ = max(x − u, 0), x₂ = x + u
    /// ```
    /// Source: the definition of the error.
    pub fn sand_within(sand: f64, error: f64; side: f64) -> f64 {
        (sand + side * error).max(0.0)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_mix_has_the_clay_that_was_wanted_and_the_error_is_that_of_small_changes() {
        let share = Ratio::fraction;
        let sand = |soil: f64, clay: f64| sand_to_add(share(soil), share(clay), share(0.18)).value;
        let x = sand(0.42, 0.02);
        assert!(((0.42 + 0.02 * x) / (1.0 + x) - 0.18).abs() < 1e-12);
        let (by_soil, by_sand) = (sand(0.4201, 0.02) - x, sand(0.42, 0.0201) - x);
        let error = sand_error(x, share(1e-4), share(1e-4), share(0.18), share(0.02)).value;
        assert!((error / by_soil.hypot(by_sand) - 1.0).abs() < 2e-3);
    }
}

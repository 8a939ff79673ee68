//! Grains that sink in a jar of water: how long they take, and what the layers say of the soil.

use crate::reason::{Answer, formula};
use crate::units::{Days, Density, Length, Ratio};

formula! {
    /// Time that a round grain takes to sink through still water.
    ///
    /// What has not sunk by then is finer. Twice as fine takes four times as long; warm water lets it sink faster. Grains that crowd
    /// each other, as in a jar thick with soil, take longer.
    ///
    /// ```text
    /// t = 18 μ h / (g (ρs − ρw) d²)        μ: viscosity of the water, Pa s, h: way down, d: grain
    /// ```
    /// Source: Stokes, Transactions of the Cambridge Philosophical Society 9 (1851), as soil testing uses it, from memory.
    pub fn fall_time(
        way_down: Length, grain: Length, viscosity: f64, grain_density: Density, water_density: Density, gravity: f64
    ) -> Days {
        let lighter = grain_density.in_kg_m3() - water_density.in_kg_m3();
        Days::minutes(18.0 * viscosity * way_down.in_m() / (gravity * lighter * grain.in_m().powi(2)) / 60.0)
    }
}

formula! {
    /// Share of a layer of a jar in the dry mass of the soil.
    ///
    /// A jar shows volumes, and clay lies loose: half of the height may be a fifth of the mass.
    ///
    /// ```text
    /// s = h ρ / Σ (hᵢ ρᵢ)        h: height of a layer, ρ: dry mass in its settled volume
    /// ```
    /// Source: the definition of density, in a jar of even width.
    pub fn share_of_layers(height: Length, density: Density; others: f64) -> Ratio {
        let own = height.in_m() * density.in_kg_m3();
        Ratio::fraction(own / (own + others))
    }
}

/// A layer of a jar: its height, and how densely it may lie.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Layer {
    /// Its height.
    pub height: Length,
    /// The least and the greatest dry mass in its settled volume.
    pub density: [Density; 2],
}

/// The least and the greatest share of one layer in the dry mass: it at its loosest with all others at their densest, and
/// the other way round.
#[must_use]
pub fn layer_band(layers: &[Layer], of: usize) -> [Answer<Ratio>; 2] {
    [0, 1].map(|side| {
        let mass = |index: usize| {
            let density = layers[index].density[if index == of { side } else { 1 - side }];
            layers[index].height.in_m() * density.in_kg_m3()
        };
        let others = (0..layers.len()).filter(|&index| index != of).map(mass).sum();
        share_of_layers(layers[of].height, layers[of].density[side], others)
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn twice_as_fine_takes_four_times_as_long_and_twice_the_height_twice() {
        let time = |height: f64, grain: f64| {
            let (grains, water) = (Density::kg_m3(2650.0), Density::kg_m3(998.2));
            fall_time(Length::m(height), Length::m(grain), 1.0016e-3, grains, water, 9.80665).value.in_hours()
        };
        assert!((time(0.1, 2e-6) / time(0.1, 4e-6) - 4.0).abs() < 1e-12);
        assert!((time(0.1, 2e-6) / time(0.1, 2e-5) - 100.0).abs() < 1e-10);
        assert!((time(0.2, 2e-6) / time(0.1, 2e-6) - 2.0).abs() < 1e-12);
    }

    #[test]
    fn the_band_of_a_layer_holds_every_share_that_its_densities_allow() {
        let layer = |height: f64, low: f64, high: f64| Layer {
            height: Length::m(height),
            density: [Density::kg_m3(low), Density::kg_m3(high)],
        };
        let layers = [layer(0.05, 1400.0, 1700.0), layer(0.02, 1100.0, 1500.0), layer(0.03, 400.0, 1000.0)];
        let [low, high] = layer_band(&layers, 2).map(|share| share.value.in_fraction());
        assert!(
            (low - 12.0 / (12.0 + 85.0 + 30.0)).abs() < 1e-12 && (high - 30.0 / (30.0 + 70.0 + 22.0)).abs() < 1e-12
        );
    }
}

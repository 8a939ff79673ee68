//! How far a bolted crossing of two round poles gives way under its load.

use std::sync::LazyLock;

use crate::facts::{Fact, facts};
use crate::reason::formula;
use crate::units::{Density, Length, LineLoad, Pressure};

// Constant data, read from its text once.
static FACTS: LazyLock<Result<Vec<Fact>, String>> =
    LazyLock::new(|| facts("crossings.csv", include_str!("../../../data/timber/crossings.csv")));

fn fact(name: &str) -> Option<f64> {
    FACTS.as_deref().unwrap_or_default().iter().find(|fact| fact.name == name).map(|fact| fact.number)
}

/// The bolt that is taken where none is written.
#[must_use]
pub fn usual_bolt() -> Option<Length> {
    fact("bolt-mm").map(Length::mm)
}

/// The divisor by which density and bolt make its stiffness; `None` where the table has no such fact.
#[must_use]
pub fn slip_divisor() -> Option<f64> {
    fact("slip-divisor")
}

/// How much a bolted crossing resists: along the common normal and across it; `None` where the table has no such facts.
#[must_use]
pub fn crossing(young: Pressure, density: Density, diameter: Length, bolt: Length) -> Option<[LineLoad; 2]> {
    let push = crossing_push(young, diameter, fact("across-share")?).value;
    Some([push, bolt_slip(density, bolt, slip_divisor()?).value])
}

formula! {
    /// Push that presses two crossing poles nearer by one metre.
    ///
    /// Each pole is taken as a block as long, as wide and as high as half of its diameter, pressed across the grain; the two
    /// lie one upon the other.
    ///
    /// ```text
    /// k = E₉₀ (d/2)² / (d/2) / 2 = s E d / 4        E₉₀ = s E, s: across the grain over along it, d: mean diameter
    /// ```
    /// Source: a compressed block, elementary; its size is our judgement, right in its order of magnitude alone.
    pub fn crossing_push(young: Pressure, diameter: Length; across_share: f64) -> LineLoad {
        young * diameter * (0.25 * across_share)
    }
}

formula! {
    /// Force that moves a bolted joint across its bolt by one metre, as it would at its first small slip.
    ///
    /// ```text
    /// K = ρ^1.5 d / 23 in N/mm        ρ: mean density in kg/m³, d: bolt in mm
    /// ```
    /// Source: EN 1995-1-1:2004, Table 7.1, bolts and dowels (from memory); the clearance of the hole comes besides.
    pub fn bolt_slip(density: Density, bolt: Length; divisor: f64) -> LineLoad {
        LineLoad::n_m(1000.0 * density.in_kg_m3().powf(1.5) * bolt.in_mm() / divisor)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_bolt_of_12_mm_in_wood_of_420_kg_slips_by_4_5_kilonewtons_on_each_millimetre() {
        // 420^1.5 x 12 / 23 = 4491 N/mm, worked by hand from the equation of Table 7.1 (from memory).
        let slip = bolt_slip(Density::kg_m3(420.0), Length::mm(12.0), 23.0).value;
        assert!((slip.in_n_m() / 1000.0 - 4491.0).abs() < 1.0, "{}", slip.in_n_m());
    }

    #[test]
    fn the_table_has_what_a_crossing_needs() {
        let bolt = usual_bolt().unwrap();
        let [push, tie] = crossing(Pressure::mpa(7000.0), Density::kg_m3(350.0), Length::mm(200.0), bolt).unwrap();
        assert!((push.in_n_m() - 7e9 / 30.0 * 0.05).abs() < 10.0, "{}", push.in_n_m());
        assert!(tie > LineLoad::ZERO && tie < push);
    }
}

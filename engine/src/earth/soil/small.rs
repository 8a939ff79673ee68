//! What small tests say of a pile: its moisture, how its sand bulks, what a loose bucket of it holds, how it feels in the hand.

use crate::reason::formula;
use crate::units::{Density, Length, Mass, Ratio, Volume};

formula! {
    /// Moisture of a pile, the mean of what was weighed of it, of dry mass.
    ///
    /// ```text
    /// w = Σ wᵢ / n
    /// ```
    /// Source: the mean.
    pub fn mean_moisture(; mean: Ratio) -> Ratio {
        mean
    }
}

formula! {
    /// Bulking of a sand, the mean of its jars.
    ///
    /// ```text
    /// B = Σ Bᵢ / n
    /// ```
    /// Source: the mean.
    pub fn mean_bulking(; mean: f64) -> f64 {
        mean
    }
}

formula! {
    /// Bulking as it is written, over what its jars say.
    ///
    /// ```text
    /// e = B / B′ − 1        B: written, B′: by the jars
    /// ```
    /// Source: the definition of a relative error.
    pub fn bulking_over_tested(written: f64, tested: f64) -> Ratio {
        Ratio::fraction(written / tested - 1.0)
    }
}

formula! {
    /// Dry mass in a loose cubic metre, by a full bucket.
    ///
    /// ```text
    /// ρ = (m full − m empty) / (V (1 + w))        V: the bucket as it is filled, w: moisture, of dry mass
    /// ```
    /// Source: the definitions of density and of water content.
    pub fn loose_by_bucket(full: Mass, empty: Mass, bucket: Volume, moisture: Ratio) -> Density {
        Density::kg_m3((full - empty).in_kg() / (bucket.in_m3() * (1.0 + moisture.in_fraction())))
    }
}

formula! {
    /// Loose density that is computed with, over that of a weighed bucket.
    ///
    /// ```text
    /// e = ρ / ρ′ − 1        ρ: computed with, ρ′: by the bucket
    /// ```
    /// Source: the definition of a relative error.
    pub fn density_over_weighed(computed: Density, weighed: Density) -> Ratio {
        Ratio::fraction(computed / weighed - 1.0)
    }
}

formula! {
    /// Classes of texture that a ribbon of this length allows.
    ///
    /// ```text
    /// n        the longer the ribbon that holds, the more clay
    /// ```
    /// Source: Thien, Journal of Agronomic Education 8 (1979), from memory; below 5 mm it is no ribbon, our judgement.
    pub fn classes_of_ribbon(ribbon: Length; count: usize) -> u64 {
        count as u64
    }
}

formula! {
    /// The least or the greatest clay of some classes of texture.
    ///
    /// ```text
    /// c₁ = min c, c₂ = max c        over all soils of the classes
    /// ```
    /// Source: USDA Soil Survey Manual, chapter 3, texture triangle, quoted.
    pub fn clay_of_feel(classes: u64; clay: Ratio) -> Ratio {
        clay
    }
}

formula! {
    /// How far the clay by other tests lies within what the feel allows; below zero, both cannot be right.
    ///
    /// ```text
    /// r = min(c − c₁, c₂ − c)        c₁, c₂: the least and the greatest clay that the feel allows, the nearer one
    /// ```
    /// Source: the difference to the nearer end.
    pub fn clay_within_feel(tested: Ratio, nearer: Ratio; is_low: bool) -> Ratio {
        if is_low { tested - nearer } else { nearer - tested }
    }
}

formula! {
    /// How flat a ball of damp earth is that was let fall.
    ///
    /// ```text
    /// f = 1 − h / d        d: the ball, h: its height afterwards
    /// ```
    /// Source: the definition of a strain; builders look at it and do not measure it: common practice, no source.
    pub fn flattened(ball: Length, high: Length) -> Ratio {
        Ratio::fraction(1.0 - high / ball)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::earth::{bucket_mass, moisture};

    #[test]
    fn a_bucket_that_was_weighed_gives_back_the_density_that_it_was_filled_with() {
        let (litres, density) = (Volume::litres(14.0), Density::kg_m3(1180.0));
        let wet = moisture(Mass::kg(1.14), Mass::kg(1.0)).value;
        let full = bucket_mass(litres, density, wet).value + Mass::kg(0.9);
        let found = loose_by_bucket(full, Mass::kg(0.9), litres, wet).value;
        assert!((found.in_kg_m3() - 1180.0).abs() < 1e-9, "{}", found.in_kg_m3());
        assert!(density_over_weighed(density, found).value.in_fraction().abs() < 1e-12);
    }

    #[test]
    fn a_ball_that_keeps_its_height_is_not_flat_and_clay_outside_of_the_feel_is_below_zero() {
        assert_eq!(flattened(Length::mm(60.0), Length::mm(60.0)).value, Ratio::ZERO);
        assert!((flattened(Length::mm(60.0), Length::mm(45.0)).value.in_fraction() - 0.25).abs() < 1e-12);
        let share = Ratio::percent;
        assert!(clay_within_feel(share(18.0), share(20.0), true).value < Ratio::ZERO);
        assert!(clay_within_feel(share(38.0), share(40.0), false).value > Ratio::ZERO);
    }
}

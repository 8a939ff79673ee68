//! What a batch on the tarp gives: placed volume, water, loaves; and how many batches a volume asks for.

use super::bulk;
use crate::reason::formula;
use crate::solve::whole::rounded_up;
use crate::units::{Density, Mass, Ratio, Volume};

formula! {
    /// Volume that a batch gives, placed.
    ///
    /// ```text
    /// V′ = y V        y: placed volume for each loose volume of soil, sand and aggregate
    /// ```
    /// Source: the definition of the yield; measured from a log of batches and the wall that they made.
    pub fn placed_volume(loose_volume: Volume, placed_yield: Ratio) -> Volume {
        loose_volume * placed_yield.in_fraction()
    }
}

formula! {
    /// Volume of the grains and the water of a batch: no placed mix is smaller, for nothing presses the air out wholly.
    ///
    /// ```text
    /// V = m dry / ρs + w m dry / ρw        ρs = 2650 kg/m³, ρw = 1000 kg/m³
    /// ```
    /// Source: density of quartz, the usual mineral of sand and silt, from memory; density of water.
    pub fn grains_and_water(batch: Mass, wanted: Ratio) -> Volume {
        batch / Density::kg_m3(2650.0) + batch * wanted.in_fraction() / Density::kg_m3(1000.0)
    }
}

formula! {
    /// Dry mass of a cubic metre as placed.
    ///
    /// ```text
    /// ρ = (m dry + m straw) / V′
    /// ```
    /// Source: the definition of density; nothing is lost from the tarp.
    pub fn placed_density(batch: Mass, straw: Mass, placed: Volume) -> Density {
        (batch + straw) / placed
    }
}

formula! {
    /// Mass of a cubic metre as placed, wet.
    ///
    /// ```text
    /// ρ = m / V′
    /// ```
    /// Source: the definition of density; nothing is lost from the tarp.
    pub fn wet_density(wet_mass: Mass, placed: Volume) -> Density {
        wet_mass / placed
    }
}

formula! {
    /// Volume of a mix that is trodden for all that is made of it.
    ///
    /// ```text
    /// V = Σ Vᵢ
    /// ```
    /// Source: the sum of its parts.
    pub fn mixed(; sum: Volume) -> Volume {
        sum
    }
}

formula! {
    /// Cob that stands, wet as placed, when a lift is laid.
    ///
    /// ```text
    /// m = Σ mᵢ        the lifts begun by that day
    /// ```
    /// Source: the sum of its parts; drying makes it less.
    pub fn standing(; sum: Mass) -> Mass {
        sum
    }
}

formula! {
    /// Days that one person would need to place the cob; two people need half as many.
    ///
    /// ```text
    /// n = V (1 + t) / p        t: sawn off again, of the finished wall; p: what one person places in a day
    /// ```
    /// Source: an even pace; mixing, carrying and days of rest are not in it.
    pub fn raising(volume: Volume, trim: Ratio, pace: Volume) -> f64 {
        volume.in_m3() * (1.0 + trim.in_fraction()) / pace.in_m3()
    }
}

formula! {
    /// Water to add to a batch.
    ///
    /// ```text
    /// m = w m dry − m pile        w: moisture wanted, of the dry mass of soil, sand and aggregate
    /// ```
    /// Source: the definition of water content in soil testing; what the piles bring is taken off.
    pub fn water_to_add(batch: Mass, wanted: Ratio, pile_water: Mass) -> Mass {
        batch * wanted.in_fraction() - pile_water
    }
}

formula! {
    /// Water as a volume.
    ///
    /// ```text
    /// V = m / ρ        ρ = 1000 kg/m³
    /// ```
    /// Source: density of water, to the half per cent between 0 and 30 °C.
    pub fn water_volume(water: Mass) -> Volume {
        bulk::volume(water, Density::kg_m3(1000.0)).value
    }
}

formula! {
    /// Water in buckets filled to the brim.
    ///
    /// ```text
    /// n = V / V brim
    /// ```
    /// Source: a bucket of water is never heaped.
    pub fn water_buckets(water: Volume, brim: Volume) -> f64 {
        water / brim
    }
}

formula! {
    /// Mass of a batch as it leaves the tarp.
    ///
    /// ```text
    /// m = m dry (1 + w) + m straw        w: moisture, of the dry mass of soil, sand and aggregate
    /// ```
    /// Source: the sum of its parts.
    pub fn wet_mass(batch: Mass, wanted: Ratio, straw: Mass) -> Mass {
        batch * (1.0 + wanted.in_fraction()) + straw
    }
}

formula! {
    /// Loaves that a batch makes.
    ///
    /// ```text
    /// n = m / m loaf, to the nearest whole number
    /// ```
    /// Source: equal loaves.
    pub fn loaves(wet_mass: Mass, loaf: Mass) -> u64 {
        (wet_mass / loaf).round().max(1.0) as u64
    }
}

formula! {
    /// Loaves of so many batches.
    ///
    /// ```text
    /// n = n batches n loaves
    /// ```
    /// Source: equal batches.
    pub fn loaves_in_all(batches: f64, loaves: u64) -> u64 {
        rounded_up(batches * loaves as f64)
    }
}

formula! {
    /// Mass of each loaf when a batch is shared out evenly.
    ///
    /// ```text
    /// m = m batch / n
    /// ```
    /// Source: equal loaves.
    pub fn loaf_mass(wet_mass: Mass, loaves: u64) -> Mass {
        wet_mass / loaves as f64
    }
}

formula! {
    /// Batches that a volume asks for.
    ///
    /// ```text
    /// n = V / V batch
    /// ```
    /// Source: equal batches.
    pub fn batches(volume: Volume, batch: Volume) -> f64 {
        volume / batch
    }
}

formula! {
    /// Batches to tread: a part of one is a batch too.
    ///
    /// ```text
    /// n, rounded up
    /// ```
    /// Source: a tarp is mixed whole.
    pub fn whole_batches(batches: f64) -> u64 {
        rounded_up(batches)
    }
}

formula! {
    /// What so many batches take of something.
    ///
    /// ```text
    /// m = n m batch
    /// ```
    /// Source: equal batches.
    pub fn need(batches: f64, each: Mass) -> Mass {
        each * batches
    }
}

formula! {
    /// Straw in armfuls.
    ///
    /// ```text
    /// n = m / m armful
    /// ```
    /// Source: weigh ten armfuls of your own; arms differ.
    pub fn armfuls(straw: Mass, armful: Mass) -> f64 {
        straw / armful
    }
}

formula! {
    /// Straw in bales.
    ///
    /// ```text
    /// n = m / m bale
    /// ```
    /// Source: weigh three bales of your own; bales differ.
    pub fn bales(straw: Mass, bale: Mass) -> f64 {
        straw / bale
    }
}

formula! {
    /// Cob that is sawn off when the faces are trimmed.
    ///
    /// ```text
    /// V′ = t V        t: share of the finished wall
    /// ```
    /// Source: the definition of the share.
    pub fn trimmings(volume: Volume, trim: Ratio) -> Volume {
        volume * trim.in_fraction()
    }
}

formula! {
    /// Cob to mix for a finished volume: what is trimmed off and does not go back to the tarp is mixed once more.
    ///
    /// ```text
    /// V′ = V (1 + t (1 − r))        t: trimmed off, of the finished volume, r: share of it that goes back to the tarp
    /// ```
    /// Source: what leaves the wall either comes back or is lost.
    pub fn cob_to_mix(volume: Volume, trim: Ratio, returned: Ratio) -> Volume {
        volume * (1.0 + trim.in_fraction() * (1.0 - returned.in_fraction()))
    }
}

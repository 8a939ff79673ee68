//! What stands behind buckets: dry masses, shares, clay.

use crate::reason::formula;
use crate::units::{Density, Mass, Ratio, Volume};

formula! {
    /// Volume of a bucket as it is filled.
    ///
    /// A struck bucket is level with its brim; a heaped one holds more.
    ///
    /// ```text
    /// V = V brim (1 + h)        h: share that the heap adds
    /// ```
    /// Source: the definition of the heap.
    pub fn bucket_filled(brim: Volume, heap: Ratio) -> Volume {
        brim * (1.0 + heap.in_fraction())
    }
}

formula! {
    /// Dry mass of an ingredient in a loose cubic metre, as it comes from the pile.
    ///
    /// Damp sand lies looser than dry or drowned sand: the same mass fills more buckets.
    ///
    /// ```text
    /// ρ′ = ρ / B        ρ: dry mass in a settled cubic metre, B: loose damp volume over settled volume
    /// ```
    /// Source: the definition of bulking; the settled volume is found by flooding a measured jar of the damp sand.
    pub fn loose_density(density: Density, bulking: f64) -> Density {
        density / bulking
    }
}

formula! {
    /// Dry mass of one ingredient in a batch.
    ///
    /// ```text
    /// m = n V ρ        n: buckets, V: bucket as filled, ρ: dry mass in a loose cubic metre
    /// ```
    /// Source: the definition of density.
    pub fn part_dry_mass(buckets: f64, bucket: Volume, loose_density: Density) -> Mass {
        bucket * buckets * loose_density
    }
}

formula! {
    /// What a full bucket of an ingredient weighs, without the bucket.
    ///
    /// ```text
    /// m = V ρ (1 + w)        ρ: dry mass in a loose cubic metre, w: moisture, of dry mass
    /// ```
    /// Source: the definitions of density and of water content.
    pub fn bucket_mass(bucket: Volume, loose_density: Density, moisture: Ratio) -> Mass {
        bucket * loose_density * (1.0 + moisture.in_fraction())
    }
}

formula! {
    /// How many buckets the sand would fill if it did not bulk.
    ///
    /// ```text
    /// n′ = n / B
    /// ```
    /// Source: the definition of bulking.
    pub fn settled_buckets(buckets: f64, bulking: f64) -> f64 {
        buckets / bulking
    }
}

formula! {
    /// Buckets of one ingredient on the tarp, from its share of the dry mass.
    ///
    /// ```text
    /// n = N (s / ρ) / Σ (sᵢ / ρᵢ)        N: buckets of a batch, s: share of the dry mass, ρ: dry mass in a loose cubic metre
    /// ```
    /// Source: equal buckets, each of its own density.
    pub fn buckets_for_share(batch: f64; over_density: f64, all_over_density: f64) -> f64 {
        batch * over_density / all_over_density
    }
}

formula! {
    /// Dry mass of soil, sand and aggregate in a batch.
    ///
    /// ```text
    /// m = Σ mᵢ
    /// ```
    /// Source: the sum of its parts.
    pub fn batch_dry_mass(; sum: Mass) -> Mass {
        sum
    }
}

formula! {
    /// Share of an ingredient in the dry mass of soil, sand and aggregate.
    ///
    /// ```text
    /// s = m / Σ mᵢ
    /// ```
    /// Source: the definition of the share.
    pub fn dry_share(part: Mass, batch: Mass) -> Ratio {
        Ratio::fraction(part / batch)
    }
}

formula! {
    /// Clay in the dry mix.
    ///
    /// An ingredient whose clay is not written counts as free of clay.
    ///
    /// ```text
    /// c = Σ cᵢ mᵢ / Σ mᵢ        c: clay in the dry mass of an ingredient
    /// ```
    /// Source: the mean of the ingredients, weighed by mass.
    pub fn clay_share(batch: Mass; clay: Mass) -> Ratio {
        Ratio::fraction(clay / batch)
    }
}

formula! {
    /// Loose volume of soil, sand and aggregate in a batch; straw fills no bucket of its own.
    ///
    /// ```text
    /// V = V bucket Σ nᵢ
    /// ```
    /// Source: the sum of its parts.
    pub fn loose_volume(bucket: Volume; buckets: f64) -> Volume {
        bucket * buckets
    }
}

formula! {
    /// Straw in a batch.
    ///
    /// ```text
    /// m = d m dry        d: straw for the dry mass of soil, sand and aggregate
    /// ```
    /// Source: the definition of the dose.
    pub fn straw_mass(batch: Mass, dose: Ratio) -> Mass {
        batch * dose.in_fraction()
    }
}

formula! {
    /// Water that the piles bring into a batch.
    ///
    /// ```text
    /// m = Σ wᵢ mᵢ        w: moisture of a pile, of dry mass
    /// ```
    /// Source: the definition of water content in soil testing.
    pub fn pile_water(; sum: Mass) -> Mass {
        sum
    }
}

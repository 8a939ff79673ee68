//! Layers on the twisted surface: what each holds, what a sheet over it covers.

use crate::reason::formula;
use crate::units::{Area, Density, Length, Mass, Volume};

formula! {
    /// Volume of a layer whose thickness is measured square to the deck, its edges cut square to it.
    ///
    /// A deck that is round like a dome holds more in an upper layer than in a lower one; a twisted one a hair less.
    ///
    /// ```text
    /// V = A (t₂ − t₁) − B (t₂² − t₁²) + C (t₂³ − t₁³) / 3        t₁, t₂: from the deck to the underside and to the top
    /// A: area of the deck, B: its mean curvature summed over it, C: its Gaussian curvature summed over it
    /// ```
    /// Source: Steiner's formula for parallel surfaces.
    pub fn volume_square_to_deck(
        area: Area, summed_mean_curvature: f64, summed_gaussian_curvature: f64, underside: Length, thickness: Length
    ) -> Volume {
        let [from, to] = [underside.in_m(), (underside + thickness).in_m()];
        let powers = |power: i32| to.powi(power) - from.powi(power);
        Volume::m3(
            area.in_m2() * powers(1) - summed_mean_curvature * powers(2) + summed_gaussian_curvature * powers(3) / 3.0,
        )
    }
}

formula! {
    /// Volume of a layer whose thickness is measured plumb.
    ///
    /// ```text
    /// V = A d        A: area in plan, d: plumb thickness
    /// ```
    /// Source: Cavalieri's principle; the edges are plumb.
    pub fn volume_plumb(plan_area: Area, thickness: Length) -> Volume {
        plan_area * thickness
    }
}

formula! {
    /// Area of a sheet that lies so far above the deck, measured square to it; laps and upstands are not in it.
    ///
    /// ```text
    /// A′ = A − 2 B t + C t²        B, C: mean and Gaussian curvature of the deck summed over it
    /// ```
    /// Source: Steiner's formula for parallel surfaces.
    pub fn sheet_area(
        area: Area, summed_mean_curvature: f64, summed_gaussian_curvature: f64, above_deck: Length
    ) -> Area {
        let t = above_deck.in_m();
        Area::m2(area.in_m2() - 2.0 * summed_mean_curvature * t + summed_gaussian_curvature * t * t)
    }
}

formula! {
    /// Upstands of a sheet at eave and eye.
    ///
    /// ```text
    /// A = u (l₁ + l₂)        u: height of the upstand, l₁, l₂: length of the two edges
    /// ```
    /// Source: strips of even width.
    pub fn upstand_area(upstand: Length, eave: Length, eye: Length) -> Area {
        upstand * (eave + eye)
    }
}

formula! {
    /// Pegs that show the depth of a layer while it is laid.
    ///
    /// ```text
    /// n = A / s², rounded up        s: from peg to peg both ways
    /// ```
    /// Source: one in each square.
    pub fn depth_pegs(area: Area, spacing: Length) -> u64 {
        crate::solve::whole::rounded_up(area / (spacing * spacing))
    }
}

formula! {
    /// Buckets that are hoisted for a layer.
    ///
    /// The volume is that in place: what a bucket holds loose settles, so the bucket counts by what it yields in place.
    ///
    /// ```text
    /// n = V / V₁, rounded up        V₁: what one bucket yields in place
    /// ```
    /// Source: equal buckets.
    pub fn buckets_up(volume: Volume, bucket: Volume) -> u64 {
        crate::solve::whole::rounded_up(volume / bucket)
    }
}

formula! {
    /// How far a layer lies above the deck, measured square to it.
    ///
    /// ```text
    /// t = Σ tᵢ        tᵢ: thicknesses of the layers under it; the deck's own board is the first
    /// ```
    /// Source: the sum of its parts.
    pub fn above_deck(; below: Length) -> Length {
        below
    }
}

formula! {
    /// What one bucket yields in place.
    ///
    /// ```text
    /// V₁ = V / k        V: what the bucket holds loose, k: loose volume for each volume in place
    /// ```
    /// Source: the definition of the factor.
    pub fn bucket_in_place(bucket: Volume, loose_factor: f64) -> Volume {
        bucket / loose_factor
    }
}

formula! {
    /// Mass of one bucket of a layer when soaked: as heavy as it can come up.
    ///
    /// ```text
    /// m = V₁ ρ        V₁: what one bucket yields in place, ρ: density when saturated
    /// ```
    /// Source: the definition of density.
    pub fn bucket_mass(in_place: Volume, saturated: Density) -> Mass {
        in_place * saturated
    }
}

formula! {
    /// Mass of what is hoisted in buckets, soaked: the most that it can be.
    ///
    /// ```text
    /// m = Σ mᵢ
    /// ```
    /// Source: the sum of its parts.
    pub fn hoisted_mass(; sum: Mass) -> Mass {
        sum
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::f64::consts::PI;

    #[test]
    fn a_layer_on_a_half_ball_is_the_shell_between_two_half_balls() {
        let (radius, under, thick) = (2.0_f64, Length::m(0.1), Length::m(0.25));
        let area = 2.0 * PI * radius * radius;
        let found = volume_square_to_deck(Area::m2(area), -area / radius, area / radius.powi(2), under, thick).value;
        assert!((found.in_m3() - 2.0 * PI / 3.0 * (2.35_f64.powi(3) - 2.1_f64.powi(3))).abs() < 1e-12);
        let sheet = sheet_area(Area::m2(area), -area / radius, area / radius.powi(2), under).value;
        assert!((sheet.in_m2() - 2.0 * PI * 2.1 * 2.1).abs() < 1e-12);
    }

    #[test]
    fn pegs_and_buckets_are_whole() {
        assert_eq!(depth_pegs(Area::m2(39.0), Length::m(1.0)).value, 39);
        assert_eq!(depth_pegs(Area::m2(39.1), Length::m(2.0)).value, 10);
        // 39 m² by 120 mm in buckets of 17 L: the 250 to 300 buckets that a crew expects.
        let volume = volume_plumb(Area::m2(39.0), Length::mm(120.0)).value;
        assert_eq!(buckets_up(volume, Volume::litres(17.0)).value, 276);
    }
}

//! One sample: the stress it broke at, its shape allowed for; how a bar shrank, sand bulked, a face washed.

use crate::earth::tables::{erosion_steps, sample_shapes};
use crate::reason::formula;
use crate::units::{Force, Length, Pressure, Ratio};

formula! {
    /// Stress at which a sample was crushed.
    ///
    /// ```text
    /// f = F / (b d)        b, d: sides of the face that is pressed
    /// ```
    /// Source: the definition of stress.
    pub fn crushed(load: Force, width: Length, depth: Length) -> Pressure {
        load / (width * depth)
    }
}

formula! {
    /// Modulus of rupture: stress at which a sample over two rollers broke.
    ///
    /// ```text
    /// f = 3 P L / (2 b t²)        L: from roller to roller, b: width, t: height as it lay
    /// ```
    /// Source: 14.7.4.11.D NMAC, seen; bending of a rectangular section under a load at its middle.
    pub fn broken(load: Force, span: Length, width: Length, height: Length) -> Pressure {
        Pressure::pa(1.5 * load.in_n() * span.in_m() / (width.in_m() * height.in_m().powi(2)))
    }
}

formula! {
    /// How tall a sample stands for its width.
    ///
    /// ```text
    /// h / b        h: height, b: the lesser side of the face that is pressed
    /// ```
    /// Source: the definition of an aspect ratio.
    pub fn slenderness(height: Length, lesser_side: Length) -> f64 {
        height / lesser_side
    }
}

formula! {
    /// Strength of a brick as a sample of the code's shape would have it.
    ///
    /// ```text
    /// f′ = k f        k: for its shape, 1 for a brick as tall for its width as that sample, or taller
    /// ```
    /// Source: factors of aspect ratio for compressed earth blocks, from memory, where no laboratory's is written; that cob follows them is
    /// our judgement, and no factor is known for its size.
    pub fn of_code_shape(strength: Pressure, shape: f64) -> Pressure {
        strength * shape
    }
}

formula! {
    /// What a sample of the code's shape would have borne, never more than this one bore.
    ///
    /// The plates of a press hold a squat sample together, so that it bears more than a tall one of the same cob. A tall sample
    /// is taken as it broke: factors of other blocks, from memory, raise no strength.
    ///
    /// ```text
    /// f′ = f min(k / k′, 1)        k: factor of the sample's height over its least width, k′: of the code's sample
    /// ```
    /// Source: factors of aspect ratio for compressed earth blocks, from memory; that cob follows them is our judgement, and no
    /// factor is known for its size.
    pub fn as_code_sample(strength: Pressure, own_factor: f64, code_factor: f64) -> Pressure {
        strength * (own_factor / code_factor).min(1.0)
    }
}

formula! {
    /// Shrinkage of a bar on drying.
    ///
    /// ```text
    /// s = g / L        g: gaps at both ends, cracks closed by hand first, L: length of the form
    /// ```
    /// Source: AU103.4.1, seen; the definition of strain.
    pub fn shrinkage(gap: Length, form: Length) -> Ratio {
        Ratio::fraction(gap / form)
    }
}

formula! {
    /// Bulking of damp sand.
    ///
    /// ```text
    /// B = h / h′        h: height of the damp sand in a straight jar, h′: when it is flooded and stirred
    /// ```
    /// Source: the definition of bulking; sand under water lies as it does dry.
    pub fn bulking(damp: Length, flooded: Length) -> f64 {
        damp / flooded
    }
}

/// The strength of a slender sample over that of one of this height over least width; none outside of the table.
#[must_use]
pub fn shape_factor(slenderness: f64) -> Option<f64> {
    let pair = sample_shapes()
        .windows(2)
        .find(|pair| pair[0].slenderness <= slenderness && slenderness <= pair[1].slenderness)?;
    let share = (slenderness - pair[0].slenderness) / (pair[1].slenderness - pair[0].slenderness);
    Some(pair[0].factor + share * (pair[1].factor - pair[0].factor))
}

/// What is less than a step by less than this share of it is on the step: rounding of binary fractions.
const ROUNDING: f64 = 1e-9;

/// The index of a spray or drip test, from what was washed out in the unit of the table; none below zero.
///
/// Source: NZS 4298:1998, appendices D and E, from memory: the steps of the table.
#[must_use]
pub fn erosion_index(test: &str, washed: f64) -> Option<f64> {
    let is_reached = |from: f64| washed >= from * (1.0 - ROUNDING);
    let mut steps = erosion_steps().iter().filter(|step| step.test == test && is_reached(step.from));
    steps.next_back().map(|step| step.index)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_tall_sample_needs_less_correction_than_a_squat_one_and_none_is_guessed() {
        assert_eq!([shape_factor(1.0), shape_factor(3.0), shape_factor(5.0)], [Some(0.7), Some(0.85), Some(1.0)]);
        assert!((shape_factor(2.0).unwrap() - 0.775).abs() < 1e-12);
        assert_eq!([shape_factor(0.2), shape_factor(6.0)], [None, None]);
        let strength = as_code_sample(Pressure::kpa(500.0), 0.7, 0.775).value;
        assert!(strength < Pressure::kpa(500.0), "a cube bears more than the code's sample");
        assert_eq!(
            as_code_sample(Pressure::kpa(400.0), 1.0, 0.775).value,
            Pressure::kpa(400.0),
            "a tall one is not raised"
        );
    }

    #[test]
    fn a_deeper_pit_never_has_a_lower_index() {
        assert_eq!(erosion_index("drip", -1.0), None);
        let indices: Vec<f64> =
            [0.0, 4.9, 5.0, 9.9, 10.0, 15.0, 40.0].map(|pit| erosion_index("drip", pit).unwrap()).to_vec();
        assert_eq!(indices, [2.0, 2.0, 3.0, 3.0, 4.0, 5.0, 5.0]);
        assert_eq!(erosion_index("spray", 119.999_999_999_999_97), Some(5.0), "120 mm in an hour, rounded");
        assert_eq!(erosion_index("spray", 119.999), Some(4.0));
    }
}

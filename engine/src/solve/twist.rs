//! Twist of a full rectangular section.

use std::f64::consts::PI;

/// Terms of the series; the last is below the rounding of the first.
const TERMS: u32 = 40;

/// From here on tanh is one and one over cosh nothing, to the last digit beside the first term.
const FLAT: f64 = 40.0;

/// How much a rectangle resists twist: its torsion constant, and torque over the greatest stress, for sides in any order.
///
/// ```text
/// J = h b³/3 (1 − 192 b/(π⁵ h) Σ tanh(n π h/2b)/n⁵),  W = J / (b (1 − 8/π² Σ 1/(n² cosh(n π h/2b))))        n: 1, 3, 5 ..; b <= h
/// ```
/// Saint-Venant's series: Timoshenko and Goodier, Theory of Elasticity, third edition, article 109, from memory.
#[must_use]
pub fn of_rectangle(one: f64, other: f64) -> [f64; 2] {
    let (wide, deep) = (one.min(other), one.max(other));
    let (mut sunk, mut steep) = (0.0, 0.0);
    for term in 0..TERMS {
        let n = f64::from(2 * term + 1);
        let turned = n * PI * deep / (2.0 * wide);
        if turned < FLAT {
            sunk += turned.tanh() / n.powi(5);
            steep += 1.0 / (n * n * turned.cosh());
        } else {
            sunk += 1.0 / n.powi(5);
        }
    }
    let constant = deep * wide.powi(3) / 3.0 * (1.0 - 192.0 * wide / (PI.powi(5) * deep) * sunk);
    [constant, constant / (wide * (1.0 - 8.0 / (PI * PI) * steep))]
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_rectangle_twists_as_the_published_table_has_it() {
        // Timoshenko and Goodier, Theory of Elasticity, article 109, table of k₁ and k₂ for h/b, from memory.
        for (ratio, constant, modulus) in [
            (1.0, 0.1406, 0.208),
            (1.5, 0.196, 0.231),
            (2.0, 0.229, 0.246),
            (3.0, 0.263, 0.267),
            (4.0, 0.281, 0.282),
            (10.0, 0.312, 0.312),
        ] {
            let [own, most] = of_rectangle(ratio, 1.0);
            assert!((own / ratio - constant).abs() < 6e-4, "{ratio}: {}", own / ratio);
            assert!((most / ratio - modulus).abs() < 6e-4, "{ratio}: {}", most / ratio);
            assert_eq!(of_rectangle(1.0, ratio), [own, most]);
        }
    }
}

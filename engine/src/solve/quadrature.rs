//! Integrals of smooth functions.

/// Abscissae and weights of the eight-point Gauss-Legendre rule on -1..1, positive half.
///
/// Source: Abramowitz and Stegun, Handbook of Mathematical Functions (1964), table 25.4, n = 8 (from memory; the test
/// proves them by the polynomials they must integrate).
const HALF: [(f64, f64); 4] = [
    (0.183_434_642_495_649_8, 0.362_683_783_378_362),
    (0.525_532_409_916_329, 0.313_706_645_877_887_3),
    (0.796_666_477_413_626_7, 0.222_381_034_453_374_5),
    (0.960_289_856_497_536_3, 0.101_228_536_290_376_26),
];

/// The integral of `f` from `from` to `to`: exact for polynomials up to degree 15.
pub fn integral(from: f64, to: f64, mut f: impl FnMut(f64) -> f64) -> f64 {
    let (middle, half) = (0.5 * (from + to), 0.5 * (to - from));
    half * HALF.iter().map(|&(x, weight)| weight * (f(middle - half * x) + f(middle + half * x))).sum::<f64>()
}

/// Places and weights of the rule between `from` and `to`.
pub fn places(from: f64, to: f64) -> impl Iterator<Item = (f64, f64)> {
    let (middle, half) = (0.5 * (from + to), 0.5 * (to - from));
    HALF.into_iter()
        .flat_map(move |(x, weight)| [(middle - half * x, half * weight), (middle + half * x, half * weight)])
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn powers_up_to_fifteen_are_exact_and_the_sixteenth_is_not() {
        for power in 0..16 {
            let error = integral(0.0, 1.0, |x| x.powi(power)) * f64::from(power + 1) - 1.0;
            assert!(error.abs() < 1e-14, "power {power}: {error}");
        }
        assert!((integral(0.0, 1.0, |x| x.powi(16)) * 17.0 - 1.0).abs() > 1e-12);
    }
}

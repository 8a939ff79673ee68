//! Chances: the normal, t and F distributions, t about a shifted mean, and the one-sided tolerance factor.
//!
//! The only caller of the library that has the distributions.

use statrs::distribution::{ContinuousCDF, FisherSnedecor, Normal, StudentsT};
use statrs::function::gamma::ln_gamma;

use super::quadrature::places;

/// Chance that a standard normal number lies below a place.
#[must_use]
pub fn normal_below(place: f64) -> f64 {
    Normal::standard().cdf(place)
}

/// Place below which a standard normal number lies with a chance.
#[must_use]
pub fn normal_place(chance: f64) -> f64 {
    Normal::standard().inverse_cdf(chance)
}

/// Place below which t of so many degrees of freedom lies with a chance; not a number without degrees of freedom.
#[must_use]
pub fn t_place(chance: f64, freedom: usize) -> f64 {
    StudentsT::new(0.0, 1.0, freedom as f64).map_or(f64::NAN, |t| t.inverse_cdf(chance))
}

/// Chance that F of so many degrees of freedom lies above a place; not a number without degrees of freedom.
#[must_use]
pub fn f_above(place: f64, upper: usize, lower: usize) -> f64 {
    FisherSnedecor::new(upper as f64, lower as f64).map_or(f64::NAN, |f| f.sf(place))
}

/// Places and weights of the spread √(χ²/ν) that a sample shows of a spread of one: with them the chance of t about a
/// shifted mean, (Z + shift) / √(χ²/ν).
struct Spread(Vec<(f64, f64)>);

impl Spread {
    /// Panels of the integral over the spread; with eight places in each, twelve digits from one degree of freedom up.
    const PANELS: usize = 24;
    /// So many of its own deviations the spread is followed to both sides.
    const REACH: f64 = 9.0;

    /// Equation: density of s is 2 (ν/2)^(ν/2) s^(ν−1) e^(−ν s²/2) / Γ(ν/2).
    fn new(freedom: usize) -> Spread {
        let nu = freedom as f64;
        let reach = Self::REACH / (2.0 * nu).sqrt();
        let (from, to) = ((1.0 - reach).max(0.0), 1.0 + reach);
        let scale = std::f64::consts::LN_2 + 0.5 * nu * (0.5 * nu).ln() - ln_gamma(0.5 * nu);
        let panel = (to - from) / Self::PANELS as f64;
        let all = (0..Self::PANELS).flat_map(|index| {
            let start = from + panel * index as f64;
            places(start, start + panel)
        });
        Spread(all.map(|(s, weight)| (s, weight * (scale + (nu - 1.0) * s.ln() - 0.5 * nu * s * s).exp())).collect())
    }

    /// The chance below a place, and how fast it grows with the place.
    fn below(&self, place: f64, shift: f64) -> (f64, f64) {
        let root = (0.5 * std::f64::consts::FRAC_1_PI).sqrt();
        self.0.iter().fold((0.0, 0.0), |(chance, growth), &(s, weight)| {
            let z = place * s - shift;
            (chance + weight * normal_below(z), growth + weight * s * root * (-0.5 * z * z).exp())
        })
    }
}

/// How many sample deviations below the mean of a normal sample the place lies that a share of all exceeds, with a
/// confidence: the one-sided tolerance factor. Not a number for fewer than two.
///
/// Equation: P(t(ν = n − 1, shift = z √n) ≤ k √n) = confidence, z: normal place of the share.
#[must_use]
pub fn tolerance_factor(count: usize, share: f64, confidence: f64) -> f64 {
    if count < 2 || !(share > 0.0 && share < 1.0) || !(confidence > 0.0 && confidence < 1.0) {
        return f64::NAN;
    }
    let (spread, root) = (Spread::new(count - 1), (count as f64).sqrt());
    let shift = normal_place(share) * root;
    let (mut low, mut high) = (shift.min(0.0) - 1.0, shift.max(1.0) + 1.0);
    while spread.below(high, shift).0 < confidence {
        high *= 2.0;
    }
    while spread.below(low, shift).0 > confidence {
        low *= 2.0;
    }
    let mut place = shift.clamp(low, high);
    for _ in 0..60 {
        let (chance, growth) = spread.below(place, shift);
        if chance < confidence {
            low = place
        } else {
            high = place
        }
        let step = (confidence - chance) / growth;
        let next = place + step;
        place = if next > low && next < high { next } else { 0.5 * (low + high) };
        if step.abs() <= 1e-12 * place.abs().max(1.0) {
            break;
        }
    }
    place / root
}

/// Whether the tolerance factor of a sample is no larger than a given one: one integral in place of a search.
#[must_use]
pub fn is_tolerance_within(count: usize, share: f64, confidence: f64, factor: f64) -> bool {
    let root = (count as f64).sqrt();
    count > 1 && Spread::new(count - 1).below(factor * root, normal_place(share) * root).0 >= confidence
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_factor_is_within_another_when_it_is_no_larger() {
        for count in [2, 3, 5, 9, 40, 200] {
            let own = tolerance_factor(count, 0.95, 0.75);
            assert!(is_tolerance_within(count, 0.95, 0.75, own * (1.0 + 1e-6)), "{count}");
            assert!(!is_tolerance_within(count, 0.95, 0.75, own * (1.0 - 1e-6)), "{count}");
        }
        assert!(!is_tolerance_within(1, 0.95, 0.75, 100.0) && is_tolerance_within(2, 0.95, 0.75, f64::INFINITY));
    }

    #[track_caller]
    fn near(found: f64, expected: f64, within: f64) {
        assert!((found - expected).abs() <= within * expected.abs().max(1e-300), "{found:e} is not {expected:e}");
    }

    /// Incomplete beta function of an independent library.
    #[test]
    fn tails_agree_with_the_incomplete_beta_function_of_another_library() {
        for freedom in [1_usize, 2, 3, 5, 9, 14, 40, 120] {
            let nu = freedom as f64;
            for place in [0.1, 0.7, 1.5, 2.6, 4.0] {
                let t = 0.5 * puruspe::betai(0.5 * nu, 0.5, nu / (nu + place * place));
                near(t_place(1.0 - t, freedom), place, 1e-8);
                for lower in [1_usize, 3, 8, 30] {
                    let of = lower as f64;
                    let f = puruspe::betai(0.5 * of, 0.5 * nu, of / (of + nu * place));
                    near(f_above(place, freedom, lower), f, 1e-9);
                }
            }
        }
        for place in [-3.0, -1.0, -0.2, 0.0, 0.5, 2.0] {
            near(normal_below(place), 0.5 * puruspe::erfc(-place / std::f64::consts::SQRT_2), 1e-10);
            // the library's inverse is good to eleven digits
            near(normal_place(normal_below(place)) + 9.0, place + 9.0, 1e-11);
        }
    }

    #[test]
    fn t_about_no_shift_is_t() {
        for freedom in [1, 2, 4, 9, 29, 200] {
            for chance in [0.03, 0.4, 0.5, 0.8, 0.97] {
                near(Spread::new(freedom).below(t_place(chance, freedom), 0.0).0, chance, 1e-9);
            }
        }
    }

    /// Values of an independent library's noncentral t.
    #[test]
    fn t_about_a_shifted_mean_agrees_with_another_library() {
        for (place, freedom, shift, expected) in SHIFTED {
            near(Spread::new(freedom).below(place, shift).0, expected, 1e-9);
        }
    }

    /// Source: ISO 16269-6, one-sided factors at 75 % and 95 % confidence, from memory, three decimals, the
    /// last one rounded up in some.
    #[test]
    fn tolerance_factors_are_those_of_the_printed_tables() {
        let printed =
            [(3, 3.152), (4, 2.681), (5, 2.464), (6, 2.336), (8, 2.189), (10, 2.104), (20, 1.933), (30, 1.869)];
        for (count, expected) in printed {
            assert!((tolerance_factor(count, 0.95, 0.75) - expected).abs() < 1.1e-3, "{count}");
        }
        for (count, expected) in [(3, 7.656), (5, 4.203), (10, 2.911), (20, 2.396)] {
            assert!((tolerance_factor(count, 0.95, 0.95) - expected).abs() < 1.1e-3, "{count}");
        }
        assert!(tolerance_factor(1, 0.95, 0.75).is_nan());
        near(tolerance_factor(4000, 0.95, 0.5), normal_place(0.95), 1e-3);
    }

    const SHIFTED: [(f64, usize, f64, f64); 8] = [
        (1.0, 1, 0.5, 0.592747736440029),
        (3.0, 2, 2.0, 0.629385659718441),
        (6.0, 4, 3.678, 0.800112703666016),
        (2.0, 4, 3.678, 0.0706689356155651),
        (8.0, 9, 5.2, 0.89204364175434),
        (4.0, 9, 5.2, 0.168545796022797),
        (9.3, 29, 9.0, 0.551576414773385),
        (-1.0, 6, 0.7, 0.0549462601977992),
    ];
}

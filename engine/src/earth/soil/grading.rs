//! The sizes of grains: a curve of what passes each sieve, what it says, and what packs densest.

use crate::reason::formula;
use crate::units::{Length, Ratio};

formula! {
    /// What passes a sieve in the mix that packs densest.
    ///
    /// ```text
    /// P = (d / D)ⁿ        d: sieve, D: largest grain, n: 0.5, a little less for angular grains
    /// ```
    /// Source: Fuller and Thompson, Transactions ASCE 59 (1907), from memory.
    pub fn fuller(sieve: Length, largest_grain: Length, power: f64) -> Ratio {
        Ratio::fraction((sieve / largest_grain).min(1.0).powf(power))
    }
}

formula! {
    /// How wide the curve is spread.
    ///
    /// ```text
    /// Cu = d60 / d10        d10, d60: what a tenth and six tenths of the mass are finer than
    /// ```
    /// Source: ASTM D2487, from memory.
    pub fn coefficient_of_uniformity(d60: Length, d10: Length) -> f64 {
        d60 / d10
    }
}

formula! {
    /// Whether a size is missing in the curve: between 1 and 3 none is.
    ///
    /// ```text
    /// Cc = d30² / (d10 d60)
    /// ```
    /// Source: ASTM D2487, from memory.
    pub fn coefficient_of_curvature(d30: Length, d10: Length, d60: Length) -> f64 {
        (d30 / d10) * (d30 / d60)
    }
}

formula! {
    /// What is finer than a size that lies between two sieves.
    ///
    /// ```text
    /// P = P₁ + (P₂ − P₁) ln(d / d₁) / ln(d₂ / d₁)        P₁, P₂: what passes the sieves d₁ and d₂ beside it
    /// ```
    /// Source: the straight line on a grading chart, whose sizes stand by their logarithm.
    pub fn finer_by_curve(; finer: Ratio) -> Ratio {
        finer
    }
}

formula! {
    /// Grain that a share of the mass is finer than.
    ///
    /// ```text
    /// d = d₁ (d₂ / d₁)^((P − P₁) / (P₂ − P₁))        P₁, P₂: what passes the sieves d₁ and d₂ beside it
    /// ```
    /// Source: the straight line on a grading chart, whose sizes stand by their logarithm.
    pub fn grain_by_curve(; grain: Length) -> Length {
        grain
    }
}

formula! {
    /// Share of sand, silt or clay in what is under 2 mm.
    ///
    /// ```text
    /// s = (P₂ − P₁) / P        P₁, P₂: finer than its finest and its coarsest grain, P: finer than 2 mm
    /// ```
    /// Source: USDA Soil Survey Manual, chapter 3, quoted: separates are of the earth without stones.
    pub fn share_of_fine_earth(above: Ratio, below: Ratio, whole: Ratio) -> Ratio {
        Ratio::fraction((above - below) / whole)
    }
}

formula! {
    /// Least share that a grading allows.
    ///
    /// ```text
    /// a = max(s − u, 0)        u: how far it may be off
    /// ```
    /// Source: the definition of the error.
    pub fn less_the_error(share: Ratio, error: Ratio) -> Ratio {
        (share - error).max(Ratio::ZERO)
    }
}

formula! {
    /// Greatest share that a grading allows.
    ///
    /// ```text
    /// b = min(s + u, 1)        u: how far it may be off
    /// ```
    /// Source: the definition of the error.
    pub fn and_the_error(share: Ratio, error: Ratio) -> Ratio {
        (share + error).min(Ratio::fraction(1.0))
    }
}

formula! {
    /// What passes a sieve beyond what would pass of the mix that packs densest; below zero, grains of that size and finer are wanting.
    ///
    /// ```text
    /// e = P − P densest
    /// ```
    /// Source: the difference of both.
    pub fn over_densest(passing: Ratio, densest: Ratio) -> Ratio {
        passing - densest
    }
}

/// What passes one sieve.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Sieve {
    /// Its opening, or the grain that a hydrometer speaks of.
    pub size: Length,
    /// Share of the dry mass that is finer.
    pub passing: Ratio,
}

/// A grading curve, the finest first.
#[derive(Clone, Debug, PartialEq)]
pub struct Curve(Vec<Sieve>);

/// Why sieves make no curve.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum CurveFault {
    /// Fewer than two.
    Few,
    /// Two are of this size.
    Twice(Length),
    /// Less passes the sieve of this size than a finer one.
    Falls(Length),
    /// A share outside of 0 to 1, or a size that is not above zero.
    Outside(Length),
}

impl Curve {
    /// The curve through sieves in any order.
    ///
    /// # Errors
    /// The first sieve that cannot be.
    pub fn through(sieves: &[Sieve]) -> Result<Curve, CurveFault> {
        let mut sieves = sieves.to_vec();
        if sieves.len() < 2 {
            return Err(CurveFault::Few);
        }
        let within = |passing: Ratio| passing >= Ratio::ZERO && passing <= Ratio::fraction(1.0);
        if let Some(sieve) = sieves.iter().find(|sieve| sieve.size <= Length::ZERO || !within(sieve.passing)) {
            return Err(CurveFault::Outside(sieve.size));
        }
        sieves.sort_by(|one, other| one.size.in_m().total_cmp(&other.size.in_m()));
        for pair in sieves.windows(2) {
            if pair[0].size == pair[1].size {
                return Err(CurveFault::Twice(pair[0].size));
            }
            if pair[1].passing < pair[0].passing {
                return Err(CurveFault::Falls(pair[1].size));
            }
        }
        Ok(Curve(sieves))
    }

    /// The sieves, the finest first.
    #[must_use]
    pub fn sieves(&self) -> &[Sieve] {
        &self.0
    }

    /// What is finer than a size, on a straight line between two sieves against the logarithm of the size; none outside
    /// of the sieves, but all beyond one that all passes.
    #[must_use]
    pub fn finer_than(&self, size: Length) -> Option<Ratio> {
        let last = self.0.last()?;
        if size >= last.size && last.passing >= Ratio::fraction(1.0) {
            return Some(Ratio::fraction(1.0));
        }
        let pair = self.0.windows(2).find(|pair| pair[0].size <= size && size <= pair[1].size)?;
        let share = (size / pair[0].size).ln() / (pair[1].size / pair[0].size).ln();
        Some(pair[0].passing + (pair[1].passing - pair[0].passing) * share)
    }

    /// The size that a share of the mass is finer than; none outside of the sieves.
    #[must_use]
    pub fn size_at(&self, share: Ratio) -> Option<Length> {
        let pair = self.0.windows(2).find(|pair| pair[0].passing <= share && share <= pair[1].passing)?;
        let step = pair[1].passing - pair[0].passing;
        let part = if step > Ratio::ZERO { (share - pair[0].passing) / step } else { 0.0 };
        Some(pair[0].size * (pair[1].size / pair[0].size).powf(part))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn sieve(mm: f64, passing: f64) -> Sieve {
        Sieve { size: Length::mm(mm), passing: Ratio::fraction(passing) }
    }

    #[test]
    fn a_curve_is_read_between_its_sieves_alone() {
        let curve = Curve::through(&[sieve(2.0, 0.9), sieve(0.02, 0.1), sieve(0.2, 0.5)]).unwrap();
        assert!((curve.finer_than(Length::mm(0.02 * 10f64.sqrt())).unwrap().in_fraction() - 0.3).abs() < 1e-12);
        assert_eq!(curve.finer_than(Length::mm(0.002)), None);
        assert_eq!(curve.finer_than(Length::mm(4.0)), None);
        assert!((curve.size_at(Ratio::fraction(0.3)).unwrap().in_mm() - 0.02 * 10f64.sqrt()).abs() < 1e-12);
        assert_eq!(curve.size_at(Ratio::fraction(0.05)), None);
        let whole = Curve::through(&[sieve(2.0, 1.0), sieve(0.02, 0.1)]).unwrap();
        assert_eq!(whole.finer_than(Length::mm(4.0)), Some(Ratio::fraction(1.0)));
    }

    #[test]
    fn sieves_that_cannot_be_make_no_curve() {
        assert_eq!(Curve::through(&[sieve(1.0, 0.5)]), Err(CurveFault::Few));
        assert_eq!(Curve::through(&[sieve(1.0, 0.5), sieve(1.0, 0.6)]), Err(CurveFault::Twice(Length::mm(1.0))));
        assert_eq!(Curve::through(&[sieve(1.0, 0.5), sieve(2.0, 0.4)]), Err(CurveFault::Falls(Length::mm(2.0))));
        assert_eq!(Curve::through(&[sieve(1.0, 0.5), sieve(2.0, 1.4)]), Err(CurveFault::Outside(Length::mm(2.0))));
    }
}

//! What the layers of jars say of a soil: heights read off, crumbs of clay allowed for, one jar beside another.

use crate::reason::formula;
use crate::units::{Days, Length, Ratio};

formula! {
    /// Height to which a jar had settled at a time between two readings.
    ///
    /// ```text
    /// h = h₁ + (h₂ − h₁) ln(t / t₁) / ln(t₂ / t₁)        h₁, h₂: read after t₁ and t₂
    /// ```
    /// Source: a straight line against the logarithm of time, as a grading curve is read between two sieves; our judgement.
    pub fn settled_at(time: Days, before: Length, after: Length, time_before: Days, time_after: Days) -> Length {
        let share = (time / time_before).ln() / (time_after / time_before).ln();
        before + (after - before) * if share.is_finite() { share } else { 0.0 }
    }
}

formula! {
    /// Thickness of a layer of a jar.
    ///
    /// ```text
    /// h = h₂ − h₁        h₁, h₂: where it begins and ends above the bottom
    /// ```
    /// Source: the definition of the layer.
    pub fn layer_between(lower: Length, upper: Length) -> Length {
        upper - lower
    }
}

formula! {
    /// Time that a jar still stands before its silt is down and its layers can be read.
    ///
    /// ```text
    /// t = t₂ − t₁        t₁: the last reading, t₂: when the finest silt is down
    /// ```
    /// Source: the difference of two times.
    pub fn still_to_stand(silt_down: Days, last_reading: Days) -> Days {
        silt_down - last_reading
    }
}

formula! {
    /// Least share of silt, when a part of its layer may be clay in crumbs.
    ///
    /// ```text
    /// s′ = s (1 − k)        k: share of the layer that may be crumbs
    /// ```
    /// Source: the definition of the share; how large k may be is our judgement.
    pub fn silt_without_crumbs(silt: Ratio, crumbs: Ratio) -> Ratio {
        silt * (1.0 - crumbs.in_fraction())
    }
}

formula! {
    /// Greatest share of clay, when a part of the layer of silt may be clay in crumbs.
    ///
    /// ```text
    /// c′ = min(c + k s, 1)        k: share of the layer of silt that may be crumbs, s: silt
    /// ```
    /// Source: the sum of both; how large k may be is our judgement.
    pub fn clay_with_crumbs(clay: Ratio, silt: Ratio, crumbs: Ratio) -> Ratio {
        (clay + silt * crumbs.in_fraction()).min(Ratio::fraction(1.0))
    }
}

formula! {
    /// Middle of a band.
    ///
    /// ```text
    /// m = (a + b) / 2        a, b: its ends
    /// ```
    /// Source: the definition of the middle; nothing says that it is likelier than the rest of the band.
    pub fn middle_of_band(low: Ratio, high: Ratio) -> Ratio {
        (low + high) / 2.0
    }
}

formula! {
    /// Half of a band: how far its middle may be off.
    ///
    /// ```text
    /// u = (b − a) / 2        a, b: its ends
    /// ```
    /// Source: the definition of the half.
    pub fn half_of_band(low: Ratio, high: Ratio) -> Ratio {
        (high - low) / 2.0
    }
}

formula! {
    /// Jars of one soil whose layers are read. A jar shows volumes and alone never sets a mix: make a bar and a brick of it.
    ///
    /// ```text
    /// n = Σ 1        over the jars
    /// ```
    /// Source: counting.
    pub fn jars_read(; count: usize) -> u64 {
        count as u64
    }
}

formula! {
    /// Jars that are still to be shaken: one jar alone cannot say how far it may be off.
    ///
    /// ```text
    /// e = max(2 − n, 0)        n: jars that are read
    /// ```
    /// Source: two tests show a scatter, one shows none; that two are enough is our judgement.
    pub fn jars_to_shake(jars: u64; wanted: f64) -> u64 {
        (wanted.max(0.0) as u64).saturating_sub(jars)
    }
}

formula! {
    /// Least share that any test of this soil allows.
    ///
    /// ```text
    /// a = min aᵢ        aᵢ: least share by one test
    /// ```
    /// Source: the band that holds the bands of all tests.
    pub fn least_of_tests(of_the_test: Ratio) -> Ratio {
        of_the_test
    }
}

formula! {
    /// Greatest share that any test of this soil allows.
    ///
    /// ```text
    /// b = max bᵢ        bᵢ: greatest share by one test
    /// ```
    /// Source: the band that holds the bands of all tests.
    pub fn greatest_of_tests(of_the_test: Ratio) -> Ratio {
        of_the_test
    }
}

formula! {
    /// How far tests of one soil lie apart.
    ///
    /// ```text
    /// r = max mᵢ − min mᵢ        mᵢ: middle of the band of one test
    /// ```
    /// Source: the definition of the range.
    pub fn spread_of_tests(greatest: Ratio, least: Ratio) -> Ratio {
        greatest - least
    }
}

formula! {
    /// Classes of texture that the soil may be of by its tests, of the twelve that there are.
    ///
    /// ```text
    /// n = Σ 1        over the classes in which a point of the band of sand, silt and clay lies
    /// ```
    /// Source: USDA Soil Survey Manual, chapter 3, the triangle, quoted; the band is walked in steps of a twentieth.
    pub fn classes_of_band(; count: usize) -> u64 {
        count as u64
    }
}

formula! {
    /// What the build file says of the clay in a soil, over what its tests say.
    ///
    /// Everything is computed with what the build file says, until it is written otherwise.
    ///
    /// ```text
    /// d = c − m        c: clay as it is written, m: middle of what the tests say
    /// ```
    /// Source: the difference of both.
    pub fn over_tested(written: Ratio, tested: Ratio) -> Ratio {
        written - tested
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_jar_between_two_readings_is_read_against_the_logarithm_of_time() {
        let at = |minutes: f64| {
            let mm = Length::mm;
            settled_at(Days::minutes(minutes), mm(30.0), mm(50.0), Days::minutes(1.0), Days::minutes(100.0)).value
        };
        assert!((at(10.0).in_mm() - 40.0).abs() < 1e-9 && at(1.0) == Length::mm(30.0));
        let once = settled_at(Days::ZERO, Length::mm(30.0), Length::mm(30.0), Days::ZERO, Days::ZERO).value;
        assert_eq!(once, Length::mm(30.0));
    }

    #[test]
    fn clay_with_crumbs_is_never_more_than_all() {
        let share = Ratio::fraction;
        assert_eq!(clay_with_crumbs(share(0.8), share(0.5), share(0.5)).value, share(1.0));
        assert_eq!([jars_to_shake(1, 2.0).value, jars_to_shake(3, 2.0).value], [1, 0]);
    }
}

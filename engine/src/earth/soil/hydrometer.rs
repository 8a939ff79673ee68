//! What a hydrometer of the type 152H reads of a soil in water: how fine the grains still afloat are, and how many.

use crate::earth::tables::number;
use crate::reason::{Answer, formula};
use crate::units::{Days, Density, Length, Mass, Ratio};

formula! {
    /// A reading, with that of clear water with the same salt taken off and the warmth of the water allowed for.
    ///
    /// ```text
    /// R = r − b + c        r: reading, b: in clear water with the salt at 20 °C, c: correction of the table for the temperature
    /// ```
    /// Source: a program of soil analysis that carries the tables of ASTM D422-63(2007), seen; its correction counts from 20 °C, so
    /// the blank must be of there. The standard itself takes off what clear water with the salt reads at the warmth of the test,
    /// from memory.
    pub fn corrected(reading: f64, blank: f64, correction: f64) -> f64 {
        reading - blank + correction
    }
}

formula! {
    /// Depth that a hydrometer's reading speaks of.
    ///
    /// ```text
    /// L = l − f R + ½ (b − v / A)        l: to the bulb's top at 0, f: each division, b: bulb, v: its volume, A: cylinder
    /// ```
    /// Source: ASTM D422-63(2007), table 2, quoted. It is entered with the corrected reading, as that program does, seen; the
    /// standard's table is headed by the reading itself, from memory, with which grains come out a little smaller.
    pub fn effective_depth(reading: f64, to_bulb: Length, division: Length, bulb: Length; displaced: Length) -> Length {
        to_bulb - division * reading + (bulb - displaced) * 0.5
    }
}

formula! {
    /// Constant of the size of grains.
    ///
    /// ```text
    /// K = √(30 η / (980 (G − Gw)))        η: viscosity, poise, G, Gw: density of grains and water, g/cm³; mm by √(cm / min)
    /// ```
    /// Source: ASTM D422-63(2007), note to table 3, quoted.
    pub fn constant(viscosity: f64, grain_density: Density, water_density: Density) -> f64 {
        let lighter = (grain_density.in_kg_m3() - water_density.in_kg_m3()) / 1000.0;
        (30.0 * viscosity * 10.0 / (980.0 * lighter)).sqrt()
    }
}

formula! {
    /// Largest grain still afloat at the depth that the reading speaks of.
    ///
    /// ```text
    /// d = K √(L / T)        d in mm, L in cm, T in minutes
    /// ```
    /// Source: ASTM D422-63(2007), from Stokes, quoted.
    pub fn grain(constant: f64, depth: Length, time: Days) -> Length {
        Length::mm(constant * (depth.in_cm() / time.in_minutes()).sqrt())
    }
}

formula! {
    /// Share of the dry soil that is finer.
    ///
    /// ```text
    /// P = R a / W        a = 1.53 − 0.2 G, G: density of the grains, g/cm³, W: dry soil, g in a litre
    /// ```
    /// Source: ASTM D422-63(2007); the line for a as a program has it that carries the standard's tables, quoted.
    pub fn passing(reading: f64, grain_density: Density, dry_in_litre: Mass) -> Ratio {
        let a = 1.53 - 0.2 * grain_density.in_kg_m3() / 1000.0;
        Ratio::fraction(reading * a / dry_in_litre.in_g())
    }
}

formula! {
    /// Largest grain still afloat at a reading: what was larger has sunk past the bulb.
    ///
    /// ```text
    /// d = K √(L / T)        L = l − f R + ½ (b − v / A), K = √(30 η / (980 (G − Gw))); d in mm, L in cm, T in minutes
    /// ```
    /// Source: ASTM D422-63(2007), from Stokes, quoted. L is entered with the corrected reading, as a program does that carries the
    /// standard's tables; where it is said what the brim of water at the stem hides, with the reading itself and that, as the standard's
    /// table is headed, from memory.
    pub fn grain_afloat(time: Days, grain_density: Density; size: Length) -> Length {
        size
    }
}

formula! {
    /// Share of the whole soil that is finer than the grain of a reading.
    ///
    /// ```text
    /// P = s R a / W        s: share that went through the sieve, a = 1.53 − 0.2 G, G: density of the grains, g/cm³, W: dry soil, g in a litre
    /// ```
    /// Source: ASTM D422-63(2007); the line for a as a program has it that carries the standard's tables, quoted.
    pub fn finer_of_whole(reading: f64, grain_density: Density, dry_in_litre: Mass, share_through: Ratio) -> Ratio {
        share_through * passing(reading, grain_density, dry_in_litre).value.in_fraction()
    }
}

formula! {
    /// Share that is finer than the grain of a reading which lies above a coarser point of the curve, or under a finer one, by less than it
    /// may be off: that point's.
    ///
    /// ```text
    /// P = P beside
    /// ```
    /// Source: what is finer than a small grain is finer than a larger one; readings are held to it within their error.
    pub fn as_beside(beside: Ratio) -> Ratio {
        beside
    }
}

formula! {
    /// How far a share under 2 mm may be off by what the scale was read: both the reading and that in clear water.
    ///
    /// ```text
    /// u = √2 f a s / (W P)        f: divisions that a reading may be off, s: share that went through the sieve, P: finer than 2 mm
    /// ```
    /// Source: errors carried through to the first order, those of both readings independent.
    pub fn off_by_reading(
        off: f64,
        grain_density: Density,
        dry_in_litre: Mass,
        share_through: Ratio,
        finer_than_stones: Ratio,
    ) -> Ratio {
        let one = finer_of_whole(off, grain_density, dry_in_litre, share_through).value;
        Ratio::fraction(std::f64::consts::SQRT_2 * (one / finer_than_stones))
    }
}

/// Depth that a reading of a 152H speaks of, in the standard's cylinder.
#[must_use]
pub fn depth_of_reading(reading: f64) -> Answer<Length> {
    let displaced = Length::cm(number("hydrometer-bulb-cm3") / number("hydrometer-cylinder-cm2"));
    let [bulb, to_bulb, division] =
        ["hydrometer-bulb-cm", "hydrometer-length-cm", "hydrometer-fall-cm"].map(|name| Length::cm(number(name)));
    effective_depth(reading, to_bulb, division, bulb, displaced)
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Source: the worked example of a program of soil analysis that carries the tables of ASTM D422: read 39 after 0.66 min at 23 °C with
    /// 50 g in a litre and 2 in clear water, 75.4 % are finer than 0.0516 mm.
    #[test]
    fn a_published_reading_has_its_grain_and_its_share() {
        let corrected = corrected(39.0, 2.0, 0.7).value;
        let grains = Density::kg_m3(2650.0);
        let size = grain(0.013_17, depth_of_reading(corrected).value, Days::minutes(0.66)).value;
        assert!((size.in_mm() - 0.051_55).abs() < 3e-4, "{}", size.in_mm());
        let whole = Ratio::fraction(1.0);
        let share = finer_of_whole(corrected, grains, Mass::g(50.0), whole).value;
        assert!((share.in_fraction() - 0.754).abs() < 1e-3, "{}", share.in_fraction());
        let half = finer_of_whole(corrected, grains, Mass::g(50.0), Ratio::fraction(0.5)).value;
        assert!((half.in_fraction() / share.in_fraction() - 0.5).abs() < 1e-12);
    }

    #[test]
    fn what_a_share_may_be_off_is_that_of_two_readings_that_are_each_off() {
        let (grains, dry, part) = (Density::kg_m3(2650.0), Mass::g(50.0), Ratio::fraction(0.8));
        let at = |reading: f64| finer_of_whole(reading, grains, dry, part).value.in_fraction() / 0.8;
        let by_hand = (at(21.0) - at(20.0)).hypot(at(20.0) - at(19.0));
        let off = off_by_reading(1.0, grains, dry, part, part).value.in_fraction();
        assert!((off - by_hand).abs() < 1e-12, "{off} is not {by_hand}");
    }
}

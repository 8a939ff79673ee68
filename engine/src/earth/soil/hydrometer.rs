//! What a hydrometer of the type 152H reads of a soil in water: how fine the grains still afloat are, and how many.

use crate::reason::formula;
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

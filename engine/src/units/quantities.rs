//! The quantities of the trade, each with the units that people use for it.
//!
//! Exact by definition: 1 yd = 0.9144 m and 1 lb = 0.453 592 37 kg (international yard and pound, 1959), 1 US gal =
//! 231 in³, 1 imp gal = 4.546 09 L, standard gravity 9.806 65 m/s² (so 1 lbf = 4.448 221 615 260 5 N), 1 short ton =
//! 2000 lb. Source: NIST Special Publication 811 (2008), Appendix B, and NIST Handbook 44, Appendix C.

use super::define::quantity;
use std::f64::consts::PI;

quantity! {
    /// A length; metres inside.
    Length {
        /// From metres.
        m / in_m = 1.0, 1.0;
        /// From centimetres.
        cm / in_cm = 1.0, 100.0;
        /// From millimetres.
        mm / in_mm = 1.0, 1_000.0;
        /// From inches of 25.4 mm.
        inches / in_inches = 127.0, 5_000.0;
        /// From feet of 12 in.
        ft / in_ft = 381.0, 1_250.0;
        /// From yards of 3 ft.
        yd / in_yd = 1_143.0, 1_250.0;
    }
}

quantity! {
    /// An area; square metres inside.
    Area {
        /// From square metres.
        m2 / in_m2 = 1.0, 1.0;
        /// From square centimetres.
        cm2 / in_cm2 = 1.0, 10_000.0;
        /// From square inches.
        sq_in / in_sq_in = 64_516.0, 1e8;
        /// From square feet.
        sq_ft / in_sq_ft = 9_290_304.0, 1e8;
        /// From square yards.
        sq_yd / in_sq_yd = 83_612_736.0, 1e8;
    }
}

quantity! {
    /// A volume; cubic metres inside. It does not say whether loose, struck or placed: the name of the value does.
    Volume {
        /// From cubic metres.
        m3 / in_m3 = 1.0, 1.0;
        /// From litres.
        litres / in_litres = 1.0, 1_000.0;
        /// From cubic feet.
        cu_ft / in_cu_ft = 28_316_846_592.0, 1e12;
        /// From cubic yards of 27 cu ft.
        cu_yd / in_cu_yd = 764_554_857_984.0, 1e12;
        /// From US gallons of 231 cubic inches.
        us_gal / in_us_gal = 3_785_411_784.0, 1e12;
        /// From imperial gallons of 4.546 09 L.
        imp_gal / in_imp_gal = 454_609.0, 1e8;
    }
}

quantity! {
    /// A mass; kilograms inside. Wet or dry: the name of the value says it.
    Mass {
        /// From kilograms.
        kg / in_kg = 1.0, 1.0;
        /// From grams.
        g / in_g = 1.0, 1_000.0;
        /// From tonnes of 1000 kg.
        t / in_t = 1_000.0, 1.0;
        /// From pounds.
        lb / in_lb = 45_359_237.0, 1e8;
        /// From short tons of 2000 lb.
        short_tons / in_short_tons = 90_718_474.0, 1e5;
    }
}

quantity! {
    /// A density; kilograms in a cubic metre inside. Wet or dry: the name of the value says it.
    Density {
        /// From kilograms in a cubic metre.
        kg_m3 / in_kg_m3 = 1.0, 1.0;
        /// From pounds in a cubic foot.
        lb_ft3 / in_lb_ft3 = 453_592_370_000.0, 28_316_846_592.0;
        /// From pounds in a cubic yard.
        lb_yd3 / in_lb_yd3 = 453_592_370_000.0, 764_554_857_984.0;
    }
}

quantity! {
    /// A mass on each unit of area; kilograms on a square metre inside.
    SurfaceMass {
        /// From kilograms on a square metre.
        kg_m2 / in_kg_m2 = 1.0, 1.0;
        /// From pounds on a square foot.
        lb_ft2 / in_lb_ft2 = 45_359_237.0, 9_290_304.0;
    }
}

quantity! {
    /// People's time for each volume of what they make; days in a cubic metre inside.
    Effort {
        /// From hours in a cubic metre.
        h_m3 / in_h_m3 = 1.0, 24.0;
        /// From hours in a cubic yard.
        h_yd3 / in_h_yd3 = 1e12, 18_349_316_591_616.0;
    }
}

quantity! {
    /// A pressure or stress; pascals inside.
    Pressure {
        /// From pascals.
        pa / in_pa = 1.0, 1.0;
        /// From kilopascals (kN/m²).
        kpa / in_kpa = 1_000.0, 1.0;
        /// From megapascals (N/mm²).
        mpa / in_mpa = 1e6, 1.0;
        /// From pounds-force on a square foot.
        psf / in_psf = 44_482_216_152_605.0, 929_030_400_000.0;
        /// From pounds-force on a square inch (144 psf).
        psi / in_psi = 44_482_216_152_605.0, 6_451_600_000.0;
    }
}

quantity! {
    /// A force; newtons inside.
    Force {
        /// From newtons.
        n / in_n = 1.0, 1.0;
        /// From kilonewtons.
        kn / in_kn = 1_000.0, 1.0;
        /// From pounds-force.
        lbf / in_lbf = 44_482_216_152_605.0, 1e13;
        /// From kilograms-force: the weight of a kilogram at standard gravity, as on the gauge of a jack.
        kgf / in_kgf = 980_665.0, 1e5;
    }
}

quantity! {
    /// A force on each unit of length; newtons on a metre inside.
    LineLoad {
        /// From newtons on a metre.
        n_m / in_n_m = 1.0, 1.0;
        /// From kilonewtons on a metre.
        kn_m / in_kn_m = 1_000.0, 1.0;
        /// From pounds-force on a foot.
        plf / in_plf = 44_482_216_152_605.0, 3_048_000_000_000.0;
    }
}

quantity! {
    /// A moment that bends or twists; newton metres inside.
    Moment {
        /// From newton metres.
        n_m / in_n_m = 1.0, 1.0;
        /// From kilonewton metres.
        kn_m / in_kn_m = 1_000.0, 1.0;
        /// From pound-force feet.
        lbf_ft / in_lbf_ft = 135_581_794_833_140.04, 1e14;
        /// From pound-force inches.
        lbf_in / in_lbf_in = 11_298_482_902_761.67, 1e14;
    }
}

quantity! {
    /// A section modulus, by which the edge of a section bears bending; cubic metres inside.
    SectionModulus {
        /// From cubic metres.
        m3 / in_m3 = 1.0, 1.0;
        /// From cubic centimetres.
        cm3 / in_cm3 = 1.0, 1e6;
        /// From cubic inches.
        in3 / in_in3 = 16_387_064.0, 1e12;
    }
}

quantity! {
    /// A second moment of area, by which a section resists bending; metres to the fourth power inside.
    SecondMoment {
        /// From metres to the fourth power.
        m4 / in_m4 = 1.0, 1.0;
        /// From millimetres to the fourth power.
        mm4 / in_mm4 = 1.0, 1e12;
        /// From inches to the fourth power.
        in4 / in_in4 = 4_162_314_256.0, 1e16;
    }
}

quantity! {
    /// A speed; metres in a second inside.
    Speed {
        /// From metres in a second.
        m_s / in_m_s = 1.0, 1.0;
        /// From kilometres in an hour.
        km_h / in_km_h = 5.0, 18.0;
        /// From miles of 1760 yd in an hour.
        mph / in_mph = 1_397.0, 3_125.0;
        /// From feet in a second.
        ft_s / in_ft_s = 381.0, 1_250.0;
    }
}

quantity! {
    /// A step between two temperatures; kelvins inside. 10 K is 18 F°, not 50 °F.
    TemperatureDifference {
        /// From kelvins, which are Celsius degrees of difference.
        kelvin / in_kelvin = 1.0, 1.0;
        /// From Fahrenheit degrees of difference.
        fahrenheit_degrees / in_fahrenheit_degrees = 5.0, 9.0;
    }
}

quantity! {
    /// A plane angle; radians inside.
    Angle {
        /// From radians.
        rad / in_rad = 1.0, 1.0;
        /// From degrees.
        deg / in_deg = PI, 180.0;
    }
}

quantity! {
    /// A slope: rise over run, a plain ratio inside. 1:40, 2.5 % and 1.43° are the same slope.
    Slope {
        /// From rise divided by run.
        ratio / in_ratio = 1.0, 1.0;
        /// From percent: rise for a hundred of run.
        percent / in_percent = 1.0, 100.0;
        /// From inches of rise for twelve inches of run, as roofs are named in the US.
        in_twelve / rise_in_twelve = 1.0, 12.0;
    }
}

impl Slope {
    /// From degrees above the level.
    #[must_use]
    pub fn degrees(value: f64) -> Self {
        Self(value.to_radians().tan())
    }

    /// Degrees above the level.
    #[must_use]
    pub fn in_degrees(self) -> f64 {
        self.0.atan().to_degrees()
    }
}

quantity! {
    /// A share of a whole; the plain ratio inside, shown as percent.
    Ratio {
        /// From the plain ratio: 0.02 is 2 %.
        fraction / in_fraction = 1.0, 1.0;
        /// From percent.
        percent / in_percent = 1.0, 100.0;
    }
}

impl From<f64> for Ratio {
    fn from(fraction: f64) -> Self {
        Self(fraction)
    }
}

quantity! {
    /// A span of time in days of 24 hours; days inside, since no answer is finer than an hour.
    Days {
        /// From days.
        #[allow(clippy::self_named_constructors)]
        days / in_days = 1.0, 1.0;
        /// From weeks of seven days.
        weeks / in_weeks = 7.0, 1.0;
        /// From hours.
        hours / in_hours = 1.0, 24.0;
        /// From minutes.
        minutes / in_minutes = 1.0, 1_440.0;
    }
}

#[cfg(test)]
mod tests;

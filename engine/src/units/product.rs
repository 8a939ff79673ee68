//! Which quantities may be multiplied and divided with each other, and what comes out.

use super::{
    Area, Days, Density, Effort, Force, Length, LineLoad, Mass, Moment, Pressure, SecondMoment, SectionModulus, Slope,
    SurfaceMass, Volume,
};
use std::ops::{Div, Mul};

/// `one * other = whole`, with the other order and both divisions.
macro_rules! product {
    ($($one:ident * $other:ident = $whole:ident;)+) => {$(
        impl Mul<$other> for $one {
            type Output = $whole;
            fn mul(self, other: $other) -> $whole {
                $whole(self.0 * other.0)
            }
        }

        impl Mul<$one> for $other {
            type Output = $whole;
            fn mul(self, one: $one) -> $whole {
                $whole(self.0 * one.0)
            }
        }

        impl Div<$one> for $whole {
            type Output = $other;
            fn div(self, one: $one) -> $other {
                $other(self.0 / one.0)
            }
        }

        impl Div<$other> for $whole {
            type Output = $one;
            fn div(self, other: $other) -> $one {
                $one(self.0 / other.0)
            }
        }
    )+};
}

product! {
    Area * Length = Volume;
    Volume * Density = Mass;
    Pressure * Area = Force;
    SurfaceMass * Area = Mass;
    Density * Length = SurfaceMass;
    Effort * Volume = Days;
    Pressure * Length = LineLoad;
    LineLoad * Length = Force;
    Force * Length = Moment;
    Pressure * SectionModulus = Moment;
    SectionModulus * Length = SecondMoment;
}

impl Mul for Length {
    type Output = Area;
    fn mul(self, other: Self) -> Area {
        Area(self.0 * other.0)
    }
}

impl Div<Length> for Area {
    type Output = Length;
    fn div(self, other: Length) -> Length {
        Length(self.0 / other.0)
    }
}

impl Mul<Slope> for Length {
    type Output = Length;
    fn mul(self, slope: Slope) -> Length {
        Length(self.0 * slope.0)
    }
}

impl Mul<Length> for Slope {
    type Output = Length;
    fn mul(self, run: Length) -> Length {
        Length(self.0 * run.0)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn lengths_make_areas_and_areas_make_volumes() {
        let floor = Length::m(4.0) * Length::m(3.0);
        assert_eq!(floor, Area::m2(12.0));
        assert_eq!(floor / Length::m(4.0), Length::m(3.0));
        let fill = floor * Length::mm(500.0);
        assert_eq!(fill, Volume::m3(6.0));
        assert_eq!(Length::mm(500.0) * floor, fill);
        assert_eq!(fill / Length::mm(500.0), floor);
        assert_eq!(fill / floor, Length::mm(500.0));
    }

    #[test]
    fn a_volume_and_a_density_make_a_mass() {
        let mass = Volume::m3(2.0) * Density::kg_m3(1650.0);
        assert_eq!(mass, Mass::kg(3300.0));
        assert_eq!(Density::kg_m3(1650.0) * Volume::m3(2.0), mass);
        assert_eq!(mass / Volume::m3(2.0), Density::kg_m3(1650.0));
        assert_eq!(mass / Density::kg_m3(1650.0), Volume::m3(2.0));
    }

    #[test]
    fn a_pressure_on_an_area_makes_a_force() {
        let load = Pressure::kpa(1.5) * Area::m2(2.0);
        assert_eq!(load, Force::kn(3.0));
        assert_eq!(load.in_kn(), 3.0);
        assert_eq!(Area::m2(2.0) * Pressure::kpa(1.5), load);
        assert_eq!(load / Area::m2(2.0), Pressure::kpa(1.5));
        assert_eq!(load / Pressure::kpa(1.5), Area::m2(2.0));
        assert_eq!(Force::n(9.80665).in_kgf(), 1.0);
    }

    #[test]
    fn a_force_at_a_distance_makes_a_moment_and_a_stress_on_a_section_resists_it() {
        let load = Pressure::kpa(2.0) * Length::m(0.5);
        assert_eq!(load, LineLoad::kn_m(1.0));
        assert_eq!(load * Length::m(4.0) * Length::m(0.5), Moment::kn_m(2.0));
        assert_eq!(Moment::kn_m(2.0) / SectionModulus::m3(0.001), Pressure::mpa(2.0));
        assert_eq!(SecondMoment::m4(8.0) / Length::m(2.0), SectionModulus::m3(4.0));
    }

    #[test]
    fn a_run_at_a_slope_falls_by_a_length() {
        assert_eq!(Length::m(10.0) * Slope::percent(2.0), Length::mm(200.0));
        assert_eq!(Slope::in_twelve(3.0) * Length::ft(12.0), Length::ft(3.0));
    }
}

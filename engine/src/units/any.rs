//! Any quantity at all, for rows, JSON and the build file: one enum over the types, and what kind each is.

use super::{
    Angle, Area, Days, Density, Effort, Force, Length, LineLoad, Mass, Misread, Moment, Money, Pressure, Ratio,
    SecondMoment, SectionModulus, Slope, Speed, SurfaceMass, Temperature, TemperatureDifference, Volume,
};
use jiff::civil::Date;

/// One line a kind: the type, its name with its article, an example, the SI unit, and what a JSON key ends with.
macro_rules! kinds {
    (
        measured { $($kind:ident: $name:literal, $example:literal, $unit:literal, $suffix:literal;)+ }
        other { $($other:ident($inside:ty): $other_name:literal, $other_example:literal, $other_suffix:literal;)+ }
    ) => {
        /// What kind of thing a [`Quantity`] is.
        #[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
        pub enum Kind {
            $(#[doc = $name] $kind,)+
            $(#[doc = $other_name] $other,)+
        }

        /// Any quantity that a build file can hold or an answer can be.
        #[derive(Clone, Copy, Debug, PartialEq)]
        pub enum Quantity {
            $(#[doc = $name] $kind($kind),)+
            $(#[doc = $other_name] $other($inside),)+
        }

        impl Kind {
            /// Every kind, in the order of the documentation.
            pub const ALL: &[Kind] = &[$(Kind::$kind,)+ $(Kind::$other,)+];

            /// Its name with its article, such as "a length".
            #[must_use]
            pub const fn name(self) -> &'static str {
                match self {
                    $(Kind::$kind => $name,)+
                    $(Kind::$other => $other_name,)+
                }
            }

            /// A text that reads as this kind, such as "450 mm".
            #[must_use]
            pub const fn example(self) -> &'static str {
                match self {
                    $(Kind::$kind => $example,)+
                    $(Kind::$other => $other_example,)+
                }
            }

            /// The unit of [`Quantity::si`]; empty for what has none. Spans of time are in days ("d").
            #[must_use]
            pub const fn unit_si(self) -> &'static str {
                match self {
                    $(Kind::$kind => $unit,)+
                    $(Kind::$other => "",)+
                }
            }

            /// What a JSON key of this kind ends with, such as "_m".
            #[must_use]
            pub const fn key_suffix(self) -> &'static str {
                match self {
                    $(Kind::$kind => $suffix,)+
                    $(Kind::$other => $other_suffix,)+
                }
            }

            /// The quantity whose plain SI number this is; nothing for counts, dates and money, and for what is not
            /// finite.
            #[must_use]
            pub fn of_si(self, value: f64) -> Option<Quantity> {
                if !value.is_finite() {
                    return None;
                }
                match self {
                    $(Kind::$kind => Some(Quantity::$kind($kind(value))),)+
                    Kind::Number => Some(Quantity::Number(value)),
                    Kind::Count | Kind::Date | Kind::Money => None,
                }
            }
        }

        impl Quantity {
            /// What kind it is.
            #[must_use]
            pub const fn kind(&self) -> Kind {
                match self {
                    $(Quantity::$kind(_) => Kind::$kind,)+
                    $(Quantity::$other(_) => Kind::$other,)+
                }
            }

            /// The plain number in the unit of [`Kind::unit_si`]; nothing for dates and money.
            #[must_use]
            pub const fn si(&self) -> Option<f64> {
                match self {
                    $(Quantity::$kind(value) => Some(value.0),)+
                    Quantity::Number(number) => Some(*number),
                    Quantity::Count(count) => Some(*count as f64),
                    Quantity::Date(_) | Quantity::Money(_) => None,
                }
            }
        }

        $(kinds!(@convert $kind, $kind);)+
        $(kinds!(@convert $other, $inside);)+
    };
    (@convert $kind:ident, $inside:ty) => {
        impl From<$inside> for Quantity {
            fn from(value: $inside) -> Self {
                Quantity::$kind(value)
            }
        }

        impl TryFrom<Quantity> for $inside {
            type Error = Misread;
            fn try_from(quantity: Quantity) -> Result<Self, Misread> {
                match quantity {
                    Quantity::$kind(value) => Ok(value),
                    other => Err(Misread::other_kind("this", other.kind(), Kind::$kind)),
                }
            }
        }
    };
}

kinds! {
    measured {
        Length: "a length", "450 mm", "m", "_m";
        Area: "an area", "16 m2", "m2", "_m2";
        Volume: "a volume", "3 m3", "m3", "_m3";
        Mass: "a mass", "14 t", "kg", "_kg";
        Density: "a density", "1650 kg/m3", "kg/m3", "_kg_m3";
        SurfaceMass: "a mass on an area", "20 kg/m2", "kg/m2", "_kg_m2";
        Effort: "a time for a volume", "20 h/m3", "d/m3", "_d_m3";
        Pressure: "a pressure", "75 kPa", "Pa", "_pa";
        Force: "a force", "4 kN", "N", "_n";
        LineLoad: "a load on a length", "2 kN/m", "N/m", "_n_m";
        Moment: "a moment", "2 kN m", "N m", "_n_m";
        SectionModulus: "a section modulus", "740 cm3", "m3", "_m3";
        SecondMoment: "a second moment of area", "20000000 mm4", "m4", "_m4";
        Speed: "a speed", "24 m/s", "m/s", "_m_s";
        Temperature: "a temperature", "20 °C", "K", "_k";
        TemperatureDifference: "a temperature difference", "10 K", "K", "_k";
        Angle: "an angle", "18 deg", "rad", "_rad";
        Ratio: "a share", "2 %", "", "_ratio";
        Slope: "a slope", "1:40", "", "_slope";
        Days: "a span of time", "9 days", "d", "_days";
    }
    other {
        Number(f64): "a number", "6.5", "";
        Count(u64): "a count", "12", "_count";
        Date(Date): "a date", "2027-05-03", "_date";
        Money(Money): "an amount of money", "12.50 EUR", "_minor";
    }
}

impl Kind {
    /// The kind that a rule or a table names, such as "length" or "temperature-difference".
    #[must_use]
    pub fn named(word: &str) -> Option<Self> {
        let plain = word.replace('-', "");
        let fits = |kind: &Self| word == word.to_lowercase() && format!("{kind:?}").eq_ignore_ascii_case(&plain);
        Self::ALL.iter().copied().find(fits)
    }
}

impl Quantity {
    /// The unit of [`Quantity::si`], such as "m3".
    #[must_use]
    pub const fn unit_si(&self) -> &'static str {
        self.kind().unit_si()
    }

    /// How far it is from another of its kind, without the sign; nothing where a difference of two is another kind or has
    /// no number.
    #[must_use]
    pub fn gap_to(&self, other: Quantity) -> Option<Quantity> {
        let gap = (self.si()? - other.si()?).abs();
        match (self.kind(), other.kind()) {
            (Kind::Temperature, Kind::Temperature) => Kind::TemperatureDifference.of_si(gap),
            (a, b) if a == b => a.of_si(gap),
            _ => None,
        }
    }

    /// What a JSON key that holds it ends with, such as "_m3".
    #[must_use]
    pub const fn key_suffix(&self) -> &'static str {
        self.kind().key_suffix()
    }
}

#[cfg(test)]
#[allow(clippy::unwrap_used)]
mod tests {
    use super::*;

    #[test]
    fn a_gap_is_of_the_same_kind_but_for_temperatures() {
        let length = |mm| Quantity::from(Length::mm(mm));
        assert_eq!(
            length(1000.0)
                .gap_to(length(1060.0))
                .map(|gap| gap.shown(super::super::System::Metric, super::super::Fineness::SetOut)),
            Some("60 mm".into())
        );
        assert_eq!(length(1.0).gap_to(Quantity::from(1.0)), None);
        let warm = Quantity::from(Temperature::celsius(20.0));
        let gap = warm.gap_to(Quantity::from(Temperature::celsius(15.0))).unwrap();
        assert_eq!(gap.kind(), Kind::TemperatureDifference);
    }

    #[test]
    fn a_quantity_knows_its_kind_its_si_number_and_its_key() {
        let volume = Quantity::from(Volume::litres(20.0));
        assert_eq!(volume.kind(), Kind::Volume);
        assert_eq!(volume.si(), Some(0.02));
        assert_eq!((volume.unit_si(), volume.key_suffix()), ("m3", "_m3"));
        assert_eq!(Quantity::from(3_u64).si(), Some(3.0));
        assert_eq!(Quantity::from(6.5).si(), Some(6.5));
        assert_eq!(Quantity::from(jiff::civil::date(2027, 5, 3)).si(), None);
        assert_eq!(Quantity::from(Temperature::celsius(0.0)).si(), Some(273.15));
    }

    #[test]
    fn every_kind_is_read_from_its_own_example() {
        for &kind in Kind::ALL {
            assert_eq!(super::super::parse(kind.example(), kind).unwrap().kind(), kind);
        }
    }

    #[test]
    fn a_plain_number_comes_back_as_the_kind_that_its_key_names() {
        assert_eq!(Kind::Mass.of_si(5.0), Some(Quantity::Mass(Mass::kg(5.0))));
        assert_eq!(Kind::Mass.of_si(f64::NAN), None);
        assert_eq!(Kind::Date.of_si(5.0), None);
    }

    #[test]
    fn a_kind_is_found_by_its_plain_word() {
        assert_eq!(Kind::named("length"), Some(Kind::Length));
        assert_eq!(Kind::named("temperature-difference"), Some(Kind::TemperatureDifference));
        assert_eq!(Kind::named("Length"), None);
        assert_eq!(Kind::named("stone"), None);
    }

    #[test]
    fn a_mass_is_not_taken_for_a_length() {
        let refused = Length::try_from(Quantity::from(Mass::kg(450.0))).unwrap_err();
        assert_eq!(refused.message, "this is a mass");
        assert_eq!(refused.hint, "a length was expected, such as \"450 mm\"");
    }
}

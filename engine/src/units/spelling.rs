//! Every spelling of every unit that is read, and the spellings that are refused because they mean two things.

use super::shown::{significant, without_zeros};
use super::{
    Angle, Area, Days, Density, Effort, Force, Kind, Length, LineLoad, Mass, Moment, Pressure, Quantity, Ratio,
    SecondMoment, SectionModulus, Slope, Speed, SurfaceMass, Temperature, TemperatureDifference, Volume,
};
use std::fmt::Write;

/// One unit: how it is spelled, what a number of it is, and its place in compounds such as "5 ft 6 in".
pub(super) struct Unit {
    /// Spellings, the one to show first; without dots, single spaces, "per" written "/".
    pub(super) spelled: &'static [&'static str],
    /// The quantity of so many of it.
    pub(super) of: fn(f64) -> Quantity,
    /// Tens: the family whose units may follow each other; ones: the order in it. 0 stands alone.
    pub(super) rank: u8,
}

macro_rules! units {
    ($($kind:ident: $make:ident, $rank:literal, [$($spelled:literal),+];)+) => {
        &[$(Unit { spelled: &[$($spelled),+], of: |value| Quantity::$kind($kind::$make(value)), rank: $rank }),+]
    };
}

const LENGTH: &[Unit] = units! {
    Length: mm, 21, ["mm", "millimetre", "millimetres", "millimeter", "millimeters"];
    Length: cm, 22, ["cm", "centimetre", "centimetres", "centimeter", "centimeters"];
    Length: m, 23, ["m", "metre", "metres", "meter", "meters"];
    Length: inches, 11, ["in", "\"", "inch", "inches"];
    Length: ft, 12, ["ft", "'", "foot", "feet"];
    Length: yd, 13, ["yd", "yds", "yard", "yards"];
};
const AREA: &[Unit] = units! {
    Area: m2, 0, ["m2", "sq m", "square metre", "square metres", "square meter", "square meters"];
    Area: cm2, 0, ["cm2", "sq cm", "square centimetres", "square centimeters"];
    Area: sq_in, 0, ["sq in", "in2", "square inch", "square inches"];
    Area: sq_ft, 0, ["sq ft", "ft2", "sqft", "sf", "square foot", "square feet"];
    Area: sq_yd, 0, ["sq yd", "yd2", "sy", "square yard", "square yards"];
};
const VOLUME: &[Unit] = units! {
    Volume: m3, 0, ["m3", "cu m", "cubic metre", "cubic metres", "cubic meter", "cubic meters"];
    Volume: litres, 0, ["L", "l", "litre", "litres", "liter", "liters"];
    Volume: cu_ft, 0, ["cu ft", "ft3", "cf", "cubic foot", "cubic feet"];
    Volume: cu_yd, 0, ["cu yd", "yd3", "cy", "cubic yard", "cubic yards"];
    Volume: us_gal, 0, ["US gal", "US gallon", "US gallons"];
    Volume: imp_gal, 0, ["imp gal", "imperial gallon", "imperial gallons", "UK gal", "UK gallon", "UK gallons"];
};
const MASS: &[Unit] = units! {
    Mass: kg, 0, ["kg", "kilogram", "kilograms", "kilo", "kilos"];
    Mass: g, 0, ["g", "gram", "grams"];
    Mass: t, 0, ["t", "tonne", "tonnes", "metric ton", "metric tons"];
    Mass: lb, 0, ["lb", "lbs", "pound", "pounds"];
    Mass: short_tons, 0, ["short tons", "short ton", "US tons", "US ton"];
};
const DENSITY: &[Unit] = units! {
    Density: kg_m3, 0, ["kg/m3", "kg/cu m", "kilograms/cubic metre", "kilograms/cubic meter"];
    Density: lb_ft3, 0, ["lb/cu ft", "lb/ft3", "pcf", "lbs/cu ft", "lbs/ft3", "pounds/cubic foot"];
    Density: lb_yd3, 0, ["lb/cu yd", "lb/yd3", "lbs/cu yd", "lbs/yd3", "pounds/cubic yard"];
};
const SURFACE_MASS: &[Unit] = units! {
    SurfaceMass: kg_m2, 0, ["kg/m2", "kg/sq m", "kilograms/square metre", "kilograms/square meter"];
    SurfaceMass: lb_ft2, 0, ["lb/sq ft", "lb/ft2", "lbs/sq ft", "lbs/ft2", "pounds/square foot"];
};
const EFFORT: &[Unit] = units! {
    Effort: h_m3, 0, ["h/m3", "hours/m3", "hours/cubic metre", "hours/cubic meter"];
    Effort: h_yd3, 0, ["h/cu yd", "h/yd3", "hours/yd3", "hours/cu yd", "hours/cubic yard"];
};
const PRESSURE: &[Unit] = units! {
    Pressure: pa, 0, ["Pa", "N/m2", "pascal", "pascals"];
    Pressure: kpa, 0, ["kPa", "kN/m2", "kilopascal", "kilopascals"];
    Pressure: mpa, 0, ["MPa", "N/mm2", "megapascal", "megapascals"];
    Pressure: psf, 0, ["psf", "lbf/ft2", "lbf/sq ft", "lb/ft2", "lb/sq ft", "pounds/square foot"];
    Pressure: psi, 0, ["psi", "lbf/in2", "lbf/sq in", "lb/in2", "lb/sq in", "pounds/square inch"];
};
const FORCE: &[Unit] = units! {
    Force: n, 0, ["N", "newton", "newtons"];
    Force: kn, 0, ["kN", "kilonewton", "kilonewtons"];
    Force: lbf, 0, ["lbf", "pound-force", "pounds-force", "pound force", "pounds force"];
    Force: kgf, 0, ["kgf", "kilogram-force", "kilogram force"];
};
const LINE_LOAD: &[Unit] = units! {
    LineLoad: n_m, 0, ["N/m", "newtons/metre", "newtons/meter"];
    LineLoad: kn_m, 0, ["kN/m", "kilonewtons/metre", "kilonewtons/meter"];
    LineLoad: plf, 0, ["plf", "lbf/ft", "lb/ft", "pounds/foot"];
};
const MOMENT: &[Unit] = units! {
    Moment: n_m, 0, ["N m", "Nm", "newton metre", "newton metres", "newton meter", "newton meters"];
    Moment: kn_m, 0, ["kN m", "kNm", "kilonewton metre", "kilonewton metres", "kilonewton meters"];
    Moment: lbf_ft, 0, ["lbf ft", "lb ft", "ft lb", "pound-force feet"];
    Moment: lbf_in, 0, ["lbf in", "lb in", "in lb", "pound-force inches"];
};
const SECTION_MODULUS: &[Unit] = units! {
    SectionModulus: m3, 0, ["m3"];
    SectionModulus: cm3, 0, ["cm3"];
    SectionModulus: in3, 0, ["in3", "cu in"];
};
const SECOND_MOMENT: &[Unit] = units! {
    SecondMoment: m4, 0, ["m4"];
    SecondMoment: mm4, 0, ["mm4"];
    SecondMoment: in4, 0, ["in4"];
};
const SPEED: &[Unit] = units! {
    Speed: m_s, 0, ["m/s", "metres/second", "meters/second"];
    Speed: km_h, 0, ["km/h", "kph", "kilometres/hour", "kilometers/hour"];
    Speed: mph, 0, ["mph", "mi/h", "miles/hour"];
    Speed: ft_s, 0, ["ft/s", "feet/second"];
};
const TEMPERATURE: &[Unit] = units! {
    Temperature: celsius, 0, ["°C", "C", "degC", "deg C", "Celsius", "degrees Celsius"];
    Temperature: fahrenheit, 0, ["°F", "F", "degF", "deg F", "Fahrenheit", "degrees Fahrenheit"];
    Temperature: kelvin, 0, ["K", "kelvin", "kelvins"];
};
const TEMPERATURE_DIFFERENCE: &[Unit] = units! {
    TemperatureDifference: kelvin, 0, ["K", "C°", "kelvin", "kelvins", "Celsius degrees"];
    TemperatureDifference: fahrenheit_degrees, 0, ["F°", "Fahrenheit degrees"];
};
const ANGLE: &[Unit] = units! {
    Angle: deg, 0, ["°", "deg", "degree", "degrees"];
    Angle: rad, 0, ["rad", "radian", "radians"];
};
const SLOPE: &[Unit] = units! {
    Slope: percent, 0, ["%", "percent"];
    Slope: degrees, 0, ["°", "deg", "degree", "degrees"];
};
const RATIO: &[Unit] = units! {
    Ratio: percent, 0, ["%", "percent"];
};
const DAYS: &[Unit] = units! {
    Days: days, 33, ["days", "day", "d"];
    Days: weeks, 34, ["weeks", "week", "wk", "wks"];
    Days: hours, 32, ["hours", "hour", "h", "hr", "hrs"];
    Days: minutes, 31, ["min", "minute", "minutes"];
};

/// Spellings that mean two things: the word, why it is refused, and what to write.
const TWO_MEANINGS: &[(&str, &str, &str)] = &[
    ("ton", "may be 1000 kg or 2000 lb", TON),
    ("tons", "may be 1000 kg or 2000 lb", TON),
    ("T", "may be 1000 kg or 2000 lb", TON),
    ("tn", "may be 1000 kg or 2000 lb", TON),
    ("long ton", "is a ton of 2240 lb, which is not read", TON),
    ("long tons", "is a ton of 2240 lb, which is not read", TON),
    ("gal", "may be 3.785 L or 4.546 L", GALLON),
    ("gallon", "may be 3.785 L or 4.546 L", GALLON),
    ("gallons", "may be 3.785 L or 4.546 L", GALLON),
    ("bar", "is not read, since it is also a steel bar", "write kPa: 1 bar is 100 kPa"),
];
const TON: &str = "write t for the tonne of 1000 kg, or short ton for 2000 lb";
const GALLON: &str = "write US gal or imp gal";

/// The units of a kind; none for counts, dates and money.
pub(super) const fn units(kind: Kind) -> &'static [Unit] {
    match kind {
        Kind::Length => LENGTH,
        Kind::Area => AREA,
        Kind::Volume => VOLUME,
        Kind::Mass => MASS,
        Kind::Density => DENSITY,
        Kind::SurfaceMass => SURFACE_MASS,
        Kind::Effort => EFFORT,
        Kind::Pressure => PRESSURE,
        Kind::Force => FORCE,
        Kind::LineLoad => LINE_LOAD,
        Kind::Moment => MOMENT,
        Kind::SectionModulus => SECTION_MODULUS,
        Kind::SecondMoment => SECOND_MOMENT,
        Kind::Speed => SPEED,
        Kind::Temperature => TEMPERATURE,
        Kind::TemperatureDifference => TEMPERATURE_DIFFERENCE,
        Kind::Angle => ANGLE,
        Kind::Slope => SLOPE,
        Kind::Ratio => RATIO,
        Kind::Days => DAYS,
        Kind::Number | Kind::Count | Kind::Date | Kind::Money => &[],
    }
}

/// The unit so spelled. Capitals count first ("MPa"); where nothing fits, any capitals do ("KG"), but for spellings with
/// two meanings: "2 T" is no tonne.
pub(super) fn find(kind: Kind, word: &str) -> Option<&'static Unit> {
    let fits = |same: fn(&str, &str) -> bool| {
        units(kind).iter().find(|unit| unit.spelled.iter().any(|spelled| same(spelled, word)))
    };
    fits(|one, other| one == other).or_else(|| fits(str::eq_ignore_ascii_case).filter(|_| two_meanings(word).is_none()))
}

/// The kind whose unit is so spelled.
pub(super) fn kind_of(word: &str) -> Option<Kind> {
    Kind::ALL.iter().copied().find(|&kind| find(kind, word).is_some())
}

/// Why a spelling with two meanings is refused, and what to write instead.
pub(super) fn two_meanings(word: &str) -> Option<(&'static str, &'static str)> {
    let same = |one: &str| one == word || (word.len() > 1 && one.eq_ignore_ascii_case(word));
    TWO_MEANINGS.iter().find(|(one, ..)| same(one)).map(|&(_, why, hint)| (why, hint))
}

/// The known spelling nearest to a wrong one, if one is near enough to be what was meant.
pub(super) fn nearest(kind: Kind, word: &str) -> Option<&'static str> {
    let allowed = if word.chars().count() <= 4 { 1 } else { 2 };
    units(kind)
        .iter()
        .flat_map(|unit| unit.spelled)
        .map(|spelled| (strsim::osa_distance(&spelled.to_lowercase(), &word.to_lowercase()), *spelled))
        .filter(|&(distance, _)| distance <= allowed && distance < word.chars().count())
        .min_by_key(|&(distance, _)| distance)
        .map(|(_, spelled)| spelled)
}

/// Whether a length, a mass or a force, in the quotes in which it stands, is written in a US unit.
#[must_use]
pub fn is_us(written: &str) -> bool {
    const US: [&str; 7] = ["in", "ft", "yd", "yds", "lb", "lbs", "lbf"];
    const BEGUN: [&str; 7] = ["inch", "foot", "feet", "yard", "pound", "short", "US"];
    let inside =
        ['"', '\''].iter().find_map(|quote| written.strip_prefix(*quote)?.strip_suffix(*quote)).unwrap_or(written);
    let mut words = inside.split(|sign: char| !sign.is_alphabetic()).filter(|word| !word.is_empty());
    words.any(|word| US.contains(&word) || BEGUN.iter().any(|begun| word.starts_with(begun)))
        || inside.contains(['\'', '"', '′', '″', '’', '”'])
}

/// Every spelling that is read for a kind, with the size of one of that unit in SI (of one degree, for temperatures).
///
/// The number is for documentation: reading uses the exact whole numbers of the quantity's own constructor.
#[must_use]
pub fn spellings(kind: Kind) -> Vec<(&'static str, f64)> {
    let one = |unit: &Unit| match ((unit.of)(1.0).si(), (unit.of)(0.0).si()) {
        (Some(one), Some(nothing)) => one - nothing,
        _ => f64::NAN,
    };
    units(kind).iter().flat_map(|unit| unit.spelled.iter().map(move |spelled| (*spelled, one(unit)))).collect()
}

/// Every spelling of every kind as a Markdown table, for the documentation.
#[must_use]
pub fn spellings_page() -> String {
    let mut page = String::from("| kind | such as | spellings | one of it in SI |\n|---|---|---|---|\n");
    for &kind in Kind::ALL {
        let mut row = |spelled: &str, size: &str| {
            // Writing to a String cannot fail.
            let _ = writeln!(page, "| {} | {} | {spelled} | {size} |", kind.name(), kind.example());
        };
        if units(kind).is_empty() {
            row("", "");
        }
        let known = spellings(kind);
        for unit in units(kind) {
            let size = known.iter().find(|(spelled, _)| Some(spelled) == unit.spelled.first()).map_or(0.0, |one| one.1);
            let size = significant(size, 12).1;
            row(&unit.spelled.join(", "), format!("{} {}", without_zeros(&size), kind.unit_si()).trim());
        }
    }
    page
}

#[cfg(test)]
#[allow(clippy::unwrap_used)]
mod tests {
    use super::*;

    #[test]
    fn every_length_mass_and_force_is_known_as_us_or_metric_by_its_unit() {
        for kind in [Kind::Length, Kind::Mass, Kind::Force] {
            for (spelled, one) in spellings(kind) {
                // Metric units are powers of ten of those of SI, but for the weight of a kilogram.
                let digits = one.log10();
                let is_metric =
                    (digits - digits.round()).abs() < 1e-9 || spelled.starts_with("kilogram") || spelled == "kgf";
                assert_eq!(is_us(&format!("\"3 {spelled}\"")), !is_metric, "{spelled}");
            }
        }
        assert!(is_us("\"5 ft 6 1/2 in\"") && is_us("\"5\\\"\"") && !is_us("'300 mm'") && !is_us("300"));
    }

    #[test]
    fn no_spelling_of_a_kind_stands_for_two_of_its_units() {
        for &kind in Kind::ALL {
            let mut all: Vec<_> = spellings(kind).into_iter().map(|(spelled, _)| spelled).collect();
            let count = all.len();
            all.sort_unstable();
            all.dedup();
            assert_eq!(all.len(), count, "{kind:?}");
            assert!(all.iter().all(|spelled| two_meanings(spelled).is_none()), "{kind:?}");
        }
    }

    #[test]
    fn every_spelling_is_read_as_its_size() {
        for &kind in Kind::ALL {
            for (spelled, size) in spellings(kind) {
                let read = |count: f64| super::super::parse(&format!("{count} {spelled}"), kind).unwrap().si().unwrap();
                assert!((read(1.0) - read(0.0) - size).abs() < 1e-12, "{spelled}");
            }
        }
    }

    #[test]
    fn the_nearest_spelling_is_near() {
        assert_eq!(nearest(Kind::Length, "mmm"), Some("mm"));
        assert_eq!(nearest(Kind::Mass, "killograms"), Some("kilograms"));
        assert_eq!(nearest(Kind::Length, "furlong"), None);
        assert_eq!(nearest(Kind::Length, "x"), None);
    }

    #[test]
    fn the_page_of_spellings_names_every_kind() {
        let page = spellings_page();
        assert!(Kind::ALL.iter().all(|kind| page.contains(kind.name())));
        assert!(page.contains("| a length | 450 mm | in, \", inch, inches | 0.0254 m |"));
    }

    #[test]
    fn the_other_kinds_are_read_in_both_systems() {
        for (text, kind, si) in [
            ("16 m²", Kind::Area, 16.0),
            ("16 m2", Kind::Area, 16.0),
            ("140 sq ft", Kind::Area, 140.0 * 0.09290304),
            ("140 sq. ft.", Kind::Area, 140.0 * 0.09290304),
            ("140 square feet", Kind::Area, 140.0 * 0.09290304),
            ("140ft2", Kind::Area, 140.0 * 0.09290304),
            ("140 ft^2", Kind::Area, 140.0 * 0.09290304),
            ("3 cu yd", Kind::Volume, 3.0 * 0.764554857984),
            ("3 yd3", Kind::Volume, 3.0 * 0.764554857984),
            ("3 yd³", Kind::Volume, 3.0 * 0.764554857984),
            ("3yd3", Kind::Volume, 3.0 * 0.764554857984),
            ("3 cubic yards", Kind::Volume, 3.0 * 0.764554857984),
            ("20 L", Kind::Volume, 0.02),
            ("20 litres", Kind::Volume, 0.02),
            ("5 US gal", Kind::Volume, 0.01892705892),
            ("5 us gal", Kind::Volume, 0.01892705892),
            ("5 imp gal", Kind::Volume, 0.02273045),
            ("14 t", Kind::Mass, 14_000.0),
            ("14 tonnes", Kind::Mass, 14_000.0),
            ("2 short tons", Kind::Mass, 1814.36948),
            ("1.5e3 kg", Kind::Mass, 1500.0),
            ("50 lbs", Kind::Mass, 22.6796185),
            ("1650 kg/m³", Kind::Density, 1650.0),
            ("1650 kg per m3", Kind::Density, 1650.0),
            ("27 lb/yd3", Kind::Density, 453.59237 / 28.316846592),
            ("1 lb per cu. ft.", Kind::Density, 453.59237 / 28.316846592),
            ("1 lb / cu ft", Kind::Density, 453.59237 / 28.316846592),
            ("65 psf", Kind::Pressure, 65.0 * 4.4482216152605 / 0.09290304),
            ("300 PSI", Kind::Pressure, 300.0 * 4.4482216152605 / 0.00064516),
            ("1.5 N/mm²", Kind::Pressure, 1.5e6),
            ("2 mpa", Kind::Pressure, 2e6),
            ("1.5 kN/m2", Kind::Pressure, 1500.0),
            ("40 lbf", Kind::Force, 177.92886461042),
            ("100 kgf", Kind::Force, 980.665),
            ("4 kN", Kind::Force, 4000.0),
            ("20 C", Kind::Temperature, 293.15),
            ("20 °C", Kind::Temperature, 293.15),
            ("20° C", Kind::Temperature, 293.15),
            ("-5 °C", Kind::Temperature, 268.15),
            ("68 F", Kind::Temperature, 293.15),
            ("68°F", Kind::Temperature, 293.15),
            ("68 ºF", Kind::Temperature, 293.15),
            ("10 K", Kind::TemperatureDifference, 10.0),
            ("10 C°", Kind::TemperatureDifference, 10.0),
            ("18 F°", Kind::TemperatureDifference, 10.0),
            ("180 deg", Kind::Angle, std::f64::consts::PI),
            ("180°", Kind::Angle, std::f64::consts::PI),
            ("2 %", Kind::Ratio, 0.02),
            ("2%", Kind::Ratio, 0.02),
            ("9 days", Kind::Days, 9.0),
            ("1 week 2 days", Kind::Days, 9.0),
            ("36 h", Kind::Days, 1.5),
            ("90 min", Kind::Days, 0.0625),
            ("12", Kind::Count, 12.0),
        ] {
            let found = super::super::parse(text, kind).unwrap().si().unwrap();
            assert!((found - si).abs() <= 4e-16 * si.abs(), "{text} is {found} and not {si}");
        }
    }
}

//! What the reader takes, what it refuses and in which words.
#![allow(clippy::unwrap_used, clippy::panic)]

use super::super::*;

#[track_caller]
fn reads(text: &str, kind: Kind, si: f64) {
    let found = parse(text, kind).unwrap_or_else(|refused| panic!("{text}: {refused}")).si().unwrap();
    assert!((found - si).abs() <= 4e-16 * si.abs(), "{text} is {found} and not {si}");
}

#[track_caller]
fn refuses(text: &str, kind: Kind, message: &str, hint: &str) {
    let refused = parse(text, kind).unwrap_err();
    assert_eq!((refused.message.as_str(), refused.hint.as_str()), (message, hint), "{text}");
}

#[test]
fn lengths_are_read_as_builders_write_them() {
    for (text, metres) in [
        ("450 mm", 0.45),
        ("450mm", 0.45),
        ("450\u{a0}mm", 0.45),
        ("450\u{202f}mm", 0.45),
        ("450 MM", 0.45),
        ("0.45 m", 0.45),
        ("45 cm", 0.45),
        ("1 m 20 cm", 1.2),
        ("1 m 5 mm", 1.005),
        ("18 in", 0.4572),
        ("18 in.", 0.4572),
        ("18\"", 0.4572),
        ("18''", 0.4572),
        ("18″", 0.4572),
        ("18 Inches", 0.4572),
        ("6 1/2 in", 0.1651),
        ("6-1/2\"", 0.1651),
        ("1/2 in", 0.0127),
        ("½ in", 0.0127),
        ("1⁄2 in", 0.0127),
        ("6 ft", 1.8288),
        ("2 yd", 1.8288),
        ("-450 mm", -0.45),
        ("- 18 in", -0.4572),
        ("\u{2212}450 mm", -0.45),
        ("+450 mm", 0.45),
        ("1.5e3 mm", 1.5),
        ("6 m", 6.0),
        ("0 mm", 0.0),
        ("-0 mm", 0.0),
    ] {
        reads(text, Kind::Length, metres);
    }
}

#[test]
fn feet_and_inches_are_one_length_and_share_one_sign() {
    for text in [
        "5 ft 6 1/2 in",
        "5' 6 1/2\"",
        "5'-6 1/2\"",
        "5' - 6 1/2\"",
        "5'-6-1/2\"",
        "5'6½\"",
        "5 ft 6½ in",
        "5ft6½in",
        "5 feet 6.5 inches",
        "5 ft. 6 1/2 in.",
        "5ft-6.5in",
        "66 1/2 in",
        "1 yd 2 ft 6.5 in",
        "5’ 6 1/2”",
    ] {
        reads(text, Kind::Length, 1.6891);
        reads(&format!("-{text}"), Kind::Length, -1.6891);
        reads(&format!("\u{2212} {text}"), Kind::Length, -1.6891);
    }
}

#[test]
fn a_missing_an_unknown_and_a_wrong_unit_are_told_apart() {
    refuses("450", Kind::Length, "\"450\" has no unit", "write a length with a unit, such as \"450 mm\"");
    refuses("5' 6", Kind::Length, "\"5' 6\" has no unit", "write a length with a unit, such as \"450 mm\"");
    refuses("450 kg", Kind::Length, "\"450 kg\" is a mass", "a length was expected, such as \"450 mm\"");
    refuses("5 min", Kind::Length, "\"5 min\" is a span of time", "a length was expected, such as \"450 mm\"");
    refuses("3 yd", Kind::Volume, "\"3 yd\" is a length", "a volume was expected, such as \"3 m3\"");
    refuses("40 lb", Kind::Force, "\"40 lb\" is a mass", "a force was expected, such as \"4 kN\"");
    refuses("65 psf", Kind::Mass, "\"65 psf\" is a pressure", "a mass was expected, such as \"14 t\"");
    refuses("2 %", Kind::Length, "\"2 %\" is a share", "a length was expected, such as \"450 mm\"");
    refuses("450 mmm", Kind::Length, "\"450 mmm\": the unit \"mmm\" is not known", "did you mean \"mm\"?");
    refuses("45 ibs", Kind::Mass, "\"45 ibs\": the unit \"ibs\" is not known", "did you mean \"lbs\"?");
    let hint = "a length is written such as \"450 mm\"";
    refuses("3 furlongs", Kind::Length, "\"3 furlongs\": the unit \"furlongs\" is not known", hint);
    refuses("", Kind::Length, "nothing is written here", hint);
    refuses("  ", Kind::Money, "nothing is written here", "an amount of money is written such as \"12.50 EUR\"");
}

#[test]
fn tons_and_gallons_must_say_which() {
    for word in ["ton", "tons", "Tons", "T", "TON"] {
        let message = format!("\"2 {word}\": \"{word}\" may be 1000 kg or 2000 lb");
        let hint = "write t for the tonne of 1000 kg, or short ton for 2000 lb";
        refuses(&format!("2 {word}"), Kind::Mass, &message, hint);
    }
    for word in ["gal", "gallons"] {
        let message = format!("\"5 {word}\": \"{word}\" may be 3.785 L or 4.546 L");
        refuses(&format!("5 {word}"), Kind::Volume, &message, "write US gal or imp gal");
    }
    let hint = "a pressure was expected, such as \"75 kPa\"";
    assert!(parse("5 lg ton", Kind::Mass).unwrap_err().hint.starts_with("write t for the tonne"));
    refuses("35 kg/m2", Kind::Pressure, "\"35 kg/m2\" is a mass on an area", hint);
}

#[test]
fn a_temperature_and_a_difference_of_two_are_not_confused() {
    let hint = "write a difference as 10 K, 10 C° or 18 F°";
    for text in ["10 °C", "18 F", "10 C", "18 °F"] {
        let message = format!("\"{text}\" is a temperature, not a difference of two");
        refuses(text, Kind::TemperatureDifference, &message, hint);
    }
    let hint = "a temperature was expected, such as \"20 °C\"";
    refuses("18 F°", Kind::Temperature, "\"18 F°\" is a temperature difference", hint);
    let hint = "a temperature is written such as \"20 °C\"";
    refuses("-300 °C", Kind::Temperature, "\"-300 °C\" is below absolute zero", hint);
}

#[test]
fn numbers_that_are_not_finite_or_not_plain_are_refused() {
    let hint = "begin with digits, such as 450";
    for text in ["nan mm", "inf m", "-inf m", "mm", "--5 mm", "∞ m"] {
        refuses(text, Kind::Length, &format!("\"{text}\" has no number where one is needed"), hint);
    }
    for (text, kind) in [("1e999 m", Kind::Length), ("1e308 t", Kind::Mass), ("-1e309 m", Kind::Length)] {
        refuses(text, kind, &format!("\"{text}\" is too large a number"), "check the digits");
    }
    refuses("2,5 m", Kind::Length, "\"2,5 m\" has a comma in its number", "write 2.5 m");
    let hint = "write 1250 mm, or 1.250 mm if the comma was a decimal point";
    refuses("1,250 mm", Kind::Length, "\"1,250 mm\" has a comma in its number", hint);
    let message = "\"1 250 mm\" has two numbers before one unit";
    refuses("1 250 mm", Kind::Length, message, "write one number and one unit, such as 450 mm");
    refuses("3-4 m", Kind::Length, "\"3-4 m\" reads like a range", "write one value");
    refuses("3–4 m", Kind::Length, "\"3-4 m\" reads like a range", "write one value");
    refuses("1/0 in", Kind::Length, "\"1/0 in\" divides by zero", "write a fraction such as 1/2");
}

#[test]
fn compounds_fall_in_one_system_and_carry_nothing_over() {
    let falling = "use one unit, or falling units of one system such as 5 ft 6 in";
    for (text, message) in [
        ("6 in 5 ft", "\"6 in 5 ft\" has ft after in"),
        ("5 ft 6 ft", "\"5 ft 6 ft\" has ft after ft"),
        ("1 m 6 in", "\"1 m 6 in\" has in after m"),
        ("5 ft 20 mm", "\"5 ft 20 mm\" has mm after ft"),
    ] {
        refuses(text, Kind::Length, message, falling);
    }
    refuses("20 °C 5 °C", Kind::Temperature, "\"20 °C 5 °C\" has °C after °C", falling);
    let hint = "after ft write less than 12 in, or in alone";
    refuses("5 ft 12 in", Kind::Length, "\"5 ft 12 in\" has a whole ft or more in its in", hint);
    refuses("5' 13\"", Kind::Length, "\"5' 13\"\" has a whole ft or more in its in", hint);
    let hint = "after m write less than 100 cm, or cm alone";
    refuses("1 m 120 cm", Kind::Length, "\"1 m 120 cm\" has a whole m or more in its cm", hint);
    let hint = "write whole ft before in";
    refuses("5.5 ft 6 in", Kind::Length, "\"5.5 ft 6 in\" has a part of a ft and in as well", hint);
    let hint = "put the sign in front of the whole, such as -5 ft 6 in";
    refuses("5 ft -6 in", Kind::Length, "\"5 ft -6 in\" has a minus inside", hint);
    refuses("5 ft - 6 in", Kind::Length, "\"5 ft - 6 in\" has a minus inside", hint);
    assert!(parse("5 kg 20 g", Kind::Mass).is_err());
}

#[test]
fn counts_are_whole_and_bare() {
    for text in ["-1", "3.5", "12 pcs", "1,000", "twelve", "1e3"] {
        let hint = "write a whole number without a unit, such as 12";
        refuses(text, Kind::Count, &format!("\"{text}\" is not a count"), hint);
    }
    assert!(parse("99999999999999999999", Kind::Count).is_err());
    assert_eq!(parse("2027-05-03", Kind::Date), Ok(jiff::civil::date(2027, 5, 3).into()));
}

#[test]
fn a_refusal_is_one_clear_sentence_and_a_hint() {
    let refused = Length::parse("450 kg").unwrap_err();
    assert_eq!(refused.to_string(), "\"450 kg\" is a mass; a length was expected, such as \"450 mm\"");
    assert_eq!(Temperature::parse("68 F").unwrap(), Temperature::fahrenheit(68.0));
    assert_eq!(Length::parse("457.2 mm").unwrap(), Length::mm(457.2));
}

#[test]
fn no_text_makes_the_reader_fall_over() {
    let pieces = [
        "5",
        "1/2",
        "½",
        ".",
        ",",
        "-",
        "'",
        "\"",
        " ",
        "ft",
        "in",
        "m2",
        "³",
        "°",
        "C",
        "e",
        "E9",
        "%",
        ":",
        "per",
        "/",
        "EUR",
        "0",
        "€",
        "2027-05-03",
        "\u{2212}",
        "^",
    ];
    let mut draw = 7_u64;
    for _ in 0..6_000 {
        let mut text = String::new();
        for _ in 0..7 {
            draw = draw.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
            text.push_str(pieces[(draw >> 33) as usize % pieces.len()]);
        }
        for &kind in Kind::ALL {
            if let Ok(quantity) = parse(&text, kind) {
                assert_eq!(quantity.kind(), kind);
                assert!(quantity.si().is_none_or(f64::is_finite), "{text}");
            }
        }
    }
}

//! What is shown, and that it reads back as what it was.
#![allow(clippy::unwrap_used, clippy::panic)]

use super::super::*;

#[track_caller]
fn shows(quantity: impl Into<Quantity>, metric: &str, us: &str) {
    let quantity = quantity.into();
    assert_eq!(quantity.shown(System::Metric, Fineness::Figure), metric);
    assert_eq!(quantity.shown(System::Us, Fineness::Figure), us);
}

#[test]
fn every_kind_is_shown_in_both_systems_with_honest_digits() {
    shows(Area::m2(16.0), "16.0 m²", "172 sq ft");
    shows(Volume::litres(25.0), "25.0 L", "6.60 US gal");
    shows(Volume::litres(60.0), "60.0 L", "2.12 cu ft");
    shows(Volume::m3(4.2), "4.20 m³", "5.49 cu yd");
    shows(Mass::kg(450.0), "450 kg", "992 lb");
    shows(Mass::kg(14_000.0), "14.0 t", "15.4 short tons");
    shows(Density::kg_m3(1650.0), "1650 kg/m³", "103 lb/cu ft");
    shows(SurfaceMass::kg_m2(20.0), "20.0 kg/m²", "4.10 lb/sq ft");
    shows(Effort::h_m3(20.0), "20.0 h/m³", "15.3 h/cu yd");
    shows(Pressure::kpa(1.5), "1.50 kPa", "31.3 psf");
    shows(Pressure::mpa(2.0), "2.00 MPa", "290 psi");
    shows(Force::kn(4.0), "4.00 kN", "899 lbf");
    shows(LineLoad::kn_m(2.0), "2.00 kN/m", "137 plf");
    shows(Moment::kn_m(2.0), "2.00 kN m", "1480 lbf ft");
    shows(SectionModulus::cm3(738.62), "739 cm³", "45.1 cu in");
    shows(SecondMoment::mm4(24_850_488.76), "24900000 mm4", "59.7 in4");
    shows(Temperature::celsius(20.0), "20.0 °C", "68.0 °F");
    shows(TemperatureDifference::kelvin(10.0), "10 K", "18 F°");
    shows(Angle::deg(18.0), "18.0°", "18.0°");
    shows(Slope::ratio(1.0 / 40.0), "1:40", "1:40");
    shows(Slope::in_twelve(4.5), "20.6°", "4.5 in 12");
    shows(Ratio::percent(2.0), "2.0 %", "2.0 %");
    shows(Days::days(9.0), "9 days", "9 days");
    shows(Days::hours(12.0), "12 hours", "12 hours");
    shows(Days::days(1.0), "1 day", "1 day");
    shows(12_u64, "12", "12");
    shows(jiff::civil::date(2027, 5, 3), "3 May 2027", "May 3, 2027");
    shows(Money::parse("1250 EUR").unwrap(), "1250.00 EUR", "1,250.00 EUR");
}

#[test]
fn rounding_up_changes_the_unit_rather_than_showing_a_thousand_of_the_small_one() {
    shows(Volume::litres(99.96), "0.100 m³", "3.53 cu ft");
    shows(Mass::kg(999.6), "1.00 t", "1.10 short tons");
    shows(Mass::lb(1999.6), "907 kg", "1.00 short tons");
    shows(Pressure::kpa(999.7), "1.00 MPa", "145 psi");
    shows(Pressure::psi(9.99), "68.9 kPa", "9.99 psi");
    shows(Volume::cu_ft(26.99), "0.764 m³", "1.00 cu yd");
    shows(Days::hours(23.9), "23.9 hours", "23.9 hours");
    shows(Days::hours(23.99), "1 day", "1 day");
}

#[test]
fn hands_are_told_less_and_setting_out_more() {
    let shown = |quantity: Quantity, fineness| quantity.shown(System::Metric, fineness);
    assert_eq!(shown(Temperature::celsius(-0.3).into(), Fineness::Hand), "0 °C");
    assert_eq!(shown(Temperature::celsius(19.6).into(), Fineness::Hand), "20 °C");
    assert_eq!(shown(Mass::kg(71.236).into(), Fineness::Hand), "71.2 kg");
    assert_eq!(shown(Mass::kg(71.236).into(), Fineness::SetOut), "71.24 kg");
    assert_eq!(shown(Angle::deg(-0.01).into(), Fineness::Hand), "0.0°");
}

#[test]
fn nothing_is_shown_as_minus_nothing_and_nothing_not_finite_as_a_number() {
    for &kind in Kind::ALL {
        for (value, system) in [(-0.0, System::Metric), (-1e-12, System::Us), (-1e-12, System::Metric)] {
            // A millionth of a millionth of the others is nothing; of metres to the fourth power it is a whole mm⁴, and of cubic
            // metres a millionth of a cm³.
            let shown_in = match kind {
                Kind::SecondMoment => 1e-12,
                Kind::SectionModulus => 1e-6,
                _ => 1.0,
            };
            let value = value * shown_in;
            if let Some(quantity) = kind.of_si(value).filter(|_| kind != Kind::Temperature) {
                let text = quantity.shown(system, Fineness::Figure);
                assert!(!text.contains('-'), "{kind:?}: {text}");
            }
        }
    }
    shows(Length::m(f64::NAN), "not known", "not known");
    shows(Mass::kg(f64::INFINITY), "not known", "not known");
}

/// A small congruential generator: the tests are the same on every run.
struct Draw(u64);

impl Draw {
    fn unit(&mut self) -> f64 {
        self.0 = self.0.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
        (self.0 >> 11) as f64 / (1_u64 << 53) as f64
    }
}

/// How far what is shown may lie from what it was, in SI.
fn rounding(kind: Kind, si: f64, fineness: Fineness) -> f64 {
    let inch = 0.0254;
    match (kind, fineness) {
        (Kind::Length, Fineness::Hand) => 0.0025,
        (Kind::Length, Fineness::SetOut) => inch / 32.0,
        (Kind::Length, Fineness::Figure) => (inch / 32.0).max(0.0005 * si.abs()),
        (Kind::Temperature, Fineness::Hand) => 0.5001,
        (Kind::Temperature, _) => 0.0501,
        (Kind::Angle, _) => 0.0501_f64.to_radians(),
        (Kind::Ratio, _) => 0.000501_f64.max(0.005 * si.abs()),
        (Kind::Slope, _) => 0.0051 * (si.abs() + si * si + 0.2),
        _ => 0.00501 * si.abs(),
    }
}

#[test]
fn what_is_shown_reads_back_as_what_it_was_within_the_rounding() {
    let mut draw = Draw(2027);
    for &kind in Kind::ALL {
        for _ in 0..3_000 {
            let size = 10_f64.powf(draw.unit() * 6.0 - 3.0) * if draw.unit() < 0.3 { -1.0 } else { 1.0 };
            let si = match kind {
                Kind::Temperature => 250.0 + draw.unit() * 100.0,
                Kind::Slope => size.abs().min(3.0).copysign(size),
                Kind::Angle => size.abs().min(6.0).copysign(size),
                Kind::Pressure => size * 1_000.0,
                _ => size,
            };
            let Some(quantity) = kind.of_si(si) else { continue };
            for system in [System::Metric, System::Us] {
                for fineness in [Fineness::Hand, Fineness::SetOut, Fineness::Figure] {
                    let text = quantity.shown(system, fineness);
                    let back = parse(&text, kind).unwrap_or_else(|refused| panic!("{text}: {refused}")).si().unwrap();
                    let allowed = rounding(kind, si, fineness) * (1.0 + 1e-9);
                    assert!((back - si).abs() <= allowed, "{kind:?} {si} shown {text} reads {back}");
                }
            }
        }
    }
}

#[test]
fn counts_and_money_read_back_exactly() {
    let mut draw = Draw(5);
    for _ in 0..3_000 {
        let minor = ((draw.unit() - 0.5) * 1e9) as i64;
        for code in ["EUR", "JPY", "KWD"] {
            let money = Money { minor, currency: Currency::parse(code).unwrap() };
            for system in [System::Metric, System::Us] {
                assert_eq!(Money::parse(&money.shown(system)), Ok(money));
            }
        }
        let count = Quantity::from(minor.unsigned_abs());
        assert_eq!(parse(&count.shown(System::Us, Fineness::Hand), Kind::Count), Ok(count));
    }
}

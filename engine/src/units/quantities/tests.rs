//! Units by their published sizes, and sums of quantities.

use super::*;

#[track_caller]
fn near(found: f64, expected: f64) {
    assert!((found - expected).abs() <= 1e-15 * expected.abs(), "{found} is not {expected}");
}

#[test]
fn a_yard_is_exactly_0_9144_metres_and_a_pound_0_45359237_kilograms() {
    assert_eq!(Length::yd(1.0).in_m(), 0.9144);
    assert_eq!(Length::ft(1.0).in_m(), 0.3048);
    assert_eq!(Length::inches(1.0).in_mm(), 25.4);
    assert_eq!(Length::inches(36.0), Length::yd(1.0));
    assert_eq!(Mass::lb(1.0).in_kg(), 0.45359237);
    assert_eq!(Mass::short_tons(1.0).in_kg(), 907.18474);
    assert_eq!(Mass::short_tons(1.0).in_lb(), 2000.0);
    assert_eq!(Mass::t(14.0).in_kg(), 14_000.0);
    assert_eq!(Mass::g(250.0).in_kg(), 0.25);
    assert_eq!(Length::cm(45.0), Length::mm(450.0));
}

#[test]
fn areas_and_volumes_are_products_of_the_exact_foot() {
    near(Area::sq_ft(1.0).in_m2(), 0.3048 * 0.3048);
    near(Area::sq_yd(1.0).in_sq_ft(), 9.0);
    near(Area::sq_in(144.0).in_sq_ft(), 1.0);
    near(Area::cm2(6.4516).in_sq_in(), 1.0);
    assert_eq!(Volume::cu_ft(1.0).in_m3(), 0.028316846592);
    assert_eq!(Volume::cu_yd(1.0).in_cu_ft(), 27.0);
}

#[test]
fn five_us_gallons_are_not_five_imperial_gallons() {
    near(Volume::us_gal(1.0).in_litres(), 3.785411784);
    near(Volume::us_gal(1.0).in_m3(), 231.0 * 0.0254 * 0.0254 * 0.0254);
    near(Volume::imp_gal(1.0).in_litres(), 4.54609);
    near(Volume::imp_gal(5.0).in_us_gal(), 5.0 * 4.54609 / 3.785411784);
    near(Volume::us_gal(5.0).in_imp_gal(), 5.0 * 3.785411784 / 4.54609);
}

#[test]
fn pounds_on_a_square_foot_and_on_a_square_inch_rest_on_standard_gravity() {
    near(Force::lbf(1.0).in_n(), 0.45359237 * 9.80665);
    assert_eq!(Force::kgf(100.0).in_n(), 980.665);
    assert!((Pressure::psf(1.0).in_pa() - 47.880258980).abs() < 5e-10);
    assert!((Pressure::psi(1.0).in_pa() - 6894.757293).abs() < 5e-7);
    near(Pressure::psi(1.0).in_psf(), 144.0);
    near(Pressure::psf(144.0).in_psi(), 1.0);
    assert_eq!(Pressure::mpa(1.0), Pressure::kpa(1000.0));
    assert_eq!(Pressure::mpa(2.5).in_mpa(), 2.5);
    assert_eq!(Pressure::pa(1500.0).in_kpa(), 1.5);
}

#[test]
fn a_pound_force_foot_is_1_356_newton_metres_and_a_pound_force_on_a_foot_14_59_newtons_on_a_metre() {
    near(Moment::lbf_ft(1.0).in_n_m(), 4.448_221_615_260_5 * 0.3048);
    near(Moment::lbf_in(12.0).in_lbf_ft(), 1.0);
    near(LineLoad::plf(1.0).in_n_m(), 4.448_221_615_260_5 / 0.3048);
    near(SectionModulus::in3(1.0).in_cm3(), 2.54_f64.powi(3));
    near(SecondMoment::in4(1.0).in_mm4(), 25.4_f64.powi(4));
    assert_eq!(Moment::kn_m(1.5), Moment::n_m(1500.0));
    assert_eq!(LineLoad::kn_m(1.5).in_n_m(), 1500.0);
}

#[test]
fn a_pound_in_a_cubic_foot_is_16_02_kilograms_in_a_cubic_metre() {
    assert!((Density::lb_ft3(1.0).in_kg_m3() - 16.01846337).abs() < 5e-9);
    near(Density::lb_yd3(27.0).in_lb_ft3(), 1.0);
    near(Density::kg_m3(1.0).in_lb_yd3(), 1.0 / Density::lb_yd3(1.0).in_kg_m3());
}

#[test]
fn a_mile_in_an_hour_is_1760_yards_in_3600_seconds() {
    near(Speed::mph(1.0).in_m_s(), 1760.0 * 0.9144 / 3600.0);
    near(Speed::km_h(36.0).in_m_s(), 10.0);
    near(Speed::ft_s(1.0).in_m_s(), 0.3048);
    near(Speed::m_s(0.44704).in_mph(), 1.0);
}

#[test]
fn one_slope_has_four_names() {
    let fall = Slope::ratio(0.25);
    assert_eq!(fall, Slope::percent(25.0));
    assert_eq!(fall, Slope::in_twelve(3.0));
    assert_eq!(fall.rise_in_twelve(), 3.0);
    assert_eq!(fall.in_percent(), 25.0);
    assert_eq!(fall.in_ratio(), 0.25);
    assert!((Slope::degrees(45.0).in_ratio() - 1.0).abs() < 1e-15);
    assert!((Slope::ratio(1.0).in_degrees() - 45.0).abs() < 1e-12);
    near(Angle::deg(180.0).in_rad(), PI);
    near(Angle::rad(PI).in_deg(), 180.0);
}

#[test]
fn spans_and_shares_keep_their_plain_number() {
    assert_eq!(Days::weeks(6.0).in_days(), 42.0);
    assert_eq!(Days::hours(36.0).in_days(), 1.5);
    assert_eq!(Days::minutes(90.0).in_hours(), 1.5);
    assert_eq!(Days::days(21.0).in_weeks(), 3.0);
    assert_eq!(Days::hours(1.0).in_minutes(), 60.0);
    assert_eq!(Ratio::percent(2.0), Ratio::from(0.02));
    assert_eq!(Ratio::fraction(0.5).in_percent(), 50.0);
    assert_eq!(Ratio::percent(50.0).in_fraction(), 0.5);
    assert_eq!(TemperatureDifference::fahrenheit_degrees(18.0).in_kelvin(), 10.0);
    assert_eq!(TemperatureDifference::kelvin(10.0).in_fahrenheit_degrees(), 18.0);
}

#[test]
fn quantities_add_up_and_scale_like_numbers() {
    let wall = [Length::m(3.0), Length::m(4.0), Length::ZERO].into_iter().sum::<Length>();
    assert_eq!(wall, Length::m(7.0));
    assert_eq!(wall - Length::m(2.0), Length::m(5.0));
    assert_eq!(-wall, Length::m(-7.0));
    assert_eq!((-wall).abs(), wall);
    assert_eq!(wall * 2.0, 2.0 * wall);
    assert_eq!(wall / 2.0, Length::m(3.5));
    assert_eq!(wall / Length::m(3.5), 2.0);
    assert_eq!(wall.min(Length::m(1.0)), Length::m(1.0));
    assert_eq!(wall.max(Length::m(1.0)), wall);
    assert!(Length::mm(450.0) < Length::inches(18.0));
}

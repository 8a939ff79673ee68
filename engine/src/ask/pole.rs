//! Questions of a round pole: its section with seat and hole, stresses, strengths by two codes and the shares that are used.

use std::f64::consts::FRAC_PI_2;

use super::given::Given;
use super::timber::{ASD_DURATIONS, design_factors, place_and_duration, sawn_class, strength_class, uncracked};
use super::{Question, Reply};
use crate::timber::tables::{self, SawnClass, StrengthClass};
use crate::timber::{asd, eurocode, section, stress, taper};
use crate::units::{Angle, Area, Force, Kind, Length, LineLoad, Moment, Pressure, Ratio, SectionModulus};

pub(super) const POLE: Question = Question {
    name: "pole",
    about: "A round pole with a flat seat and a bolt hole: section, stresses, and shares of strength used by two codes",
    example: r#"{"diameter_m": 0.18, "seat_depth_m": 0.02, "hole_m": 0.018, "moment_n_m": 3000, "shear_n": 6000,
  "compression_n": 2000, "buckling_length_m": 3, "bearing_n": 8000, "seat_length_m": 0.11,
  "class": "C16", "service": 2, "duration": "medium", "sawn_class": "DF-L No.3", "asd_duration": "snow", "asd_share": 0.7}"#,
    answer: pole,
};

pub(super) const TAPERED_POLE: Question = Question {
    name: "tapered-pole",
    about: "Where bending stresses a tapered pole most: on two supports under an even load, or held at its butt",
    example: r#"{"butt_m": 0.18, "tip_m": 0.12, "length_m": 3.4, "line_load_n_m": 1000}"#,
    answer: tapered_pole,
};

/// What is left of a pole where it is cut.
struct Cut {
    diameter: Length,
    area: Area,
    modulus: SectionModulus,
    seat_width: Length,
    depth_left: Length,
}

/// What acts there. None is below zero.
struct Loads {
    moment: Moment,
    shear: Force,
    compression: Force,
    tension: Force,
    bearing: Force,
    seat_length: Option<Length>,
    /// Wood along the grain before and after the seat.
    beside_seat: [Length; 2],
    /// From the support to the seat, where the seat is a notch on the underside.
    notch: Option<Length>,
    angle: Angle,
    buckling_length: Option<Length>,
}

/// Stresses that follow from both.
struct Stresses {
    bending: Pressure,
    shear: Pressure,
    compression: Pressure,
    tension: Pressure,
    bearing: Option<Pressure>,
}

fn cut(given: &mut Given<'_>, reply: &mut Reply) -> Option<Cut> {
    let diameter = given.number::<Length>("diameter_m", Kind::Length)?;
    let seat = given.maybe::<Length>("seat_depth_m", Kind::Length).unwrap_or(Length::ZERO);
    let hole = given.maybe::<Length>("hole_m", Kind::Length).unwrap_or(Length::ZERO);
    let half = diameter * 0.5;
    if diameter <= Length::ZERO || seat < Length::ZERO || seat >= half || hole < Length::ZERO || hole >= half {
        given.problem(
            "`diameter_m` must be above zero, `seat_depth_m` and `hole_m` from zero to below half of it".into(),
        );
        return None;
    }
    reply.put("round_area", section::round_area(diameter));
    reply.put("round_modulus", section::round_modulus(diameter));
    reply.put("round_second_moment", section::round_second_moment(diameter));
    reply.put("sawn_width", section::sawn_width(diameter));
    reply.put("sawn_depth", section::sawn_depth(diameter));
    reply.put("sawn_share", section::sawn_share(diameter));
    let area = reply.put("area", section::net_area(diameter, seat, hole));
    reply.put("centroid", section::net_centroid(diameter, seat, hole));
    reply.put("second_moment", section::net_second_moment(diameter, seat, hole));
    reply.put("second_moment_sideways", section::net_second_moment_sideways(diameter, seat, hole));
    let modulus = reply.put("modulus", section::net_modulus(diameter, seat, hole));
    reply.put("modulus_sideways", section::net_modulus_sideways(diameter, seat, hole));
    let seat_width = reply.put("seat_width", section::seat_width(diameter, seat));
    Some(Cut { diameter, area, modulus, seat_width, depth_left: diameter - seat })
}

fn loads(given: &mut Given<'_>) -> Option<Loads> {
    let moment = given.maybe::<Moment>("moment_n_m", Kind::Moment).unwrap_or(Moment::ZERO);
    let mut force = |key| given.maybe::<Force>(key, Kind::Force).unwrap_or(Force::ZERO);
    let (shear, compression, tension) = (force("shear_n"), force("compression_n"), force("tension_n"));
    let bearing = force("bearing_n");
    let seat_length = given.maybe::<Length>("seat_length_m", Kind::Length);
    let mut beside = |key| given.maybe::<Length>(key, Kind::Length).unwrap_or(Length::ZERO);
    let beside_seat = [beside("wood_before_m"), beside("wood_after_m")];
    let notch = given.maybe::<Length>("notch_from_support_m", Kind::Length);
    let angle = given.maybe::<Angle>("angle_rad", Kind::Angle).unwrap_or(Angle::rad(FRAC_PI_2));
    let buckling_length = given.maybe::<Length>("buckling_length_m", Kind::Length);
    let signs = [moment.in_n_m(), shear.in_n(), compression.in_n(), tension.in_n(), bearing.in_n(), angle.in_rad()];
    let lengths = [seat_length, buckling_length];
    let besides = beside_seat.into_iter().chain(notch).any(|length| length < Length::ZERO);
    if besides || signs.iter().any(|size| *size < 0.0) || lengths.iter().flatten().any(|length| *length <= Length::ZERO)
    {
        given.problem("loads and `angle_rad` must not be below zero, lengths above it".into());
        return None;
    }
    if compression > Force::ZERO && buckling_length.is_none() {
        given.problem("`compression_n` needs `buckling_length_m`, the length over which the pole may buckle".into());
        return None;
    }
    if bearing > Force::ZERO && seat_length.is_none() {
        given.problem("`bearing_n` needs `seat_length_m`, the seat along the grain".into());
        return None;
    }
    Some(Loads {
        moment,
        shear,
        compression,
        tension,
        bearing,
        seat_length,
        beside_seat,
        notch,
        angle,
        buckling_length,
    })
}

/// The stresses; `share` of the loads, `uncracked` of the width in shear, on a seat of that length along the grain.
fn stresses(
    reply: &mut Reply,
    code: &str,
    cut: &Cut,
    loads: &Loads,
    (share, uncracked, seat_length): (f64, Ratio, Option<Length>),
) -> Stresses {
    let mut put = |name: &str, answer| reply.put(&format!("{code}_{name}"), answer);
    let bending = put("bending_stress", stress::bending_stress(loads.moment * share, cut.modulus));
    let shear = put("shear_stress", stress::round_shear_stress(loads.shear * share, cut.area, uncracked));
    let compression = put("compression_stress", stress::stress(loads.compression * share, cut.area));
    let tension = put("tension_stress", stress::stress(loads.tension * share, cut.area));
    let bearing = seat_length.filter(|_| cut.seat_width > Length::ZERO).map(|length| {
        let area = eurocode::seat_area(length, cut.seat_width).value;
        put("bearing_stress", stress::stress(loads.bearing * share, area))
    });
    Stresses { bending, shear, compression, tension, bearing }
}

/// The length of the seat that counts by EN 1995-1-1.
fn counted_seat(reply: &mut Reply, loads: &Loads) -> Option<Length> {
    let [before, after] = loads.beside_seat;
    let seat = loads.seat_length?;
    let added = tables::factor("contact-more-m");
    let added = Length::m(reply.fact("seat_added", "Length that fibres beside the seat add, each side, m", added));
    Some(reply.put("ec_bearing_length", eurocode::bearing_length(seat, added, before, after)))
}

/// Share of shear strength used at a notch; guidance for a round pole, as its equation is of rectangles.
fn notched(reply: &mut Reply, cut: &Cut, loads: &Loads, shear: Pressure, strength: Pressure) {
    let Some(from_support) = loads.notch else { return };
    let wood = reply.fact("kn", "Factor of the wood at a notch", tables::factor("kn"));
    let factor = eurocode::notch_factor(cut.diameter, cut.depth_left, from_support, 0.0, wood);
    let kept = reply.put("ec_notch_factor", factor);
    reply.put("ec_notch_used", stress::used(shear, strength * kept.in_fraction()));
}

fn by_eurocode(given: &mut Given<'_>, reply: &mut Reply, class: &StrengthClass, cut: &Cut, loads: &Loads) {
    let Some((service, duration)) = place_and_duration(given) else { return };
    let (kmod, partial) = design_factors(reply, service, duration);
    let uncracked = uncracked(reply);
    let seat = counted_seat(reply, loads);
    let stresses = stresses(reply, "ec", cut, loads, (1.0, uncracked, seat));
    let mut design = |name: &str, strength| {
        reply.put(&format!("ec_{name}_strength"), eurocode::design_strength(strength, kmod, partial))
    };
    let bending = design("bending", class.bending);
    let (shear, tension) = (design("shear", class.shear), design("tension", class.tension));
    let (compression, across) = (design("compression", class.compression), design("across", class.across));
    let bent = reply.put("ec_bending_used", stress::used(stresses.bending, bending));
    reply.put("ec_shear_used", stress::used(stresses.shear, shear));
    notched(reply, cut, loads, stresses.shear, shear);
    let pulled = stress::used(stresses.tension, tension).value;
    reply.put("ec_tension_used", stress::bending_and_tension(pulled, bent));
    let pressed = stress::used(stresses.compression, compression).value;
    if let Some(length) = loads.buckling_length {
        let slender = reply.put("ec_slenderness", eurocode::round_slenderness(length, cut.diameter));
        let beta = reply.fact("straightness", "Factor for crookedness", tables::factor("beta-c"));
        let factor = eurocode::column_factor(slender, class.compression, class.low_stiffness, beta);
        let factor = reply.put("ec_column_factor", factor);
        reply.put("ec_compression_used", eurocode::bending_and_compression(pressed, factor, bent));
    }
    if let Some(bearing) = stresses.bearing {
        let helped = tables::factor("kc90-none");
        let helped = reply.fact("kc90", "Factor for wood beside the seat, none in a round pole", helped);
        let across = eurocode::bearing_strength(across, helped).value;
        let strength = reply.put("ec_bearing_strength", stress::at_angle(compression, across, loads.angle));
        reply.put("ec_bearing_used", stress::used(bearing, strength));
    }
}

fn by_allowable_stress(given: &mut Given<'_>, reply: &mut Reply, class: &SawnClass, cut: &Cut, loads: &Loads) {
    let duration = given.maybe_word("asd_duration", &ASD_DURATIONS);
    let share = given.maybe::<f64>("asd_share", Kind::Number).unwrap_or(1.0);
    let Some(duration) = duration else {
        given.problem(format!("`asd_duration` must be one of: {}", ASD_DURATIONS.join(", ")));
        return;
    };
    if share <= 0.0 {
        given.problem("`asd_share` must be above zero".into());
        return;
    }
    let factor = tables::factor(&format!("cd-{duration}"));
    let factor = reply.fact("duration_factor", "Factor for duration of load", factor);
    let stresses = stresses(reply, "asd", cut, loads, (share, Ratio::fraction(1.0), loads.seat_length));
    let mut allowed =
        |name: &str, strength| reply.put(&format!("asd_{name}_strength"), asd::adjusted(strength, factor, 1.0));
    let bending = allowed("bending", class.bending);
    let (shear, tension) = (allowed("shear", class.shear), allowed("tension", class.tension));
    let compression = allowed("compression", class.compression);
    let bent = reply.put("asd_bending_used", stress::used(stresses.bending, bending));
    reply.put("asd_shear_used", stress::used(stresses.shear, shear));
    if loads.notch.is_some() {
        let carried = asd::notched_shear_of_round(shear, cut.area, cut.diameter, cut.depth_left);
        let carried = reply.put("asd_notched_shear", carried);
        reply.put("asd_notch_used", stress::used_of_force(loads.shear * share, carried));
    }
    let pulled = stress::used(stresses.tension, tension).value;
    reply.put("asd_tension_used", stress::bending_and_tension(pulled, bent));
    if let Some(length) = loads.buckling_length {
        let side = asd::equal_square(cut.diameter).value;
        let buckling = reply.put("asd_buckling_stress", asd::buckling_stress(class.low_stiffness, length, side));
        let round = reply.fact("column_c", "Factor for crookedness of round columns", tables::factor("c-round"));
        let kept = reply.put("asd_column_stability", asd::column_stability(buckling, compression, round));
        let pressed = stress::used(stresses.compression, compression * kept.in_fraction()).value;
        let both = asd::bending_and_compression(pressed, bent, stresses.compression, buckling);
        reply.put("asd_compression_used", both);
    }
    if let Some(bearing) = stresses.bearing {
        let strength = reply.put("asd_bearing_strength", stress::at_angle(compression, class.across, loads.angle));
        reply.put("asd_bearing_used", stress::used(bearing, strength));
    }
}

fn pole(given: &mut Given<'_>, reply: &mut Reply) {
    let cut = cut(given, reply);
    let loads = loads(given);
    let (class, sawn) = (strength_class(given), sawn_class(given));
    let (Some(cut), Some(loads)) = (cut, loads) else { return };
    if let Some(class) = class {
        by_eurocode(given, reply, class, &cut, &loads);
    }
    if let Some(sawn) = sawn {
        by_allowable_stress(given, reply, sawn, &cut, &loads);
    }
}

fn tapered_pole(given: &mut Given<'_>, reply: &mut Reply) {
    let butt = given.number::<Length>("butt_m", Kind::Length);
    let tip = given.number::<Length>("tip_m", Kind::Length);
    let length = given.number::<Length>("length_m", Kind::Length);
    let load = given.maybe::<LineLoad>("line_load_n_m", Kind::LineLoad);
    let (Some(butt), Some(tip), Some(length)) = (butt, tip, length) else { return };
    if [butt, tip, length].iter().any(|length| *length <= Length::ZERO)
        || load.is_some_and(|load| load < LineLoad::ZERO)
    {
        given.problem("lengths must be above zero and the load not below it".into());
        return;
    }
    reply.put("most_stressed_of_cantilever", taper::most_stressed_of_cantilever(butt, tip));
    let place = reply.put("most_stressed_of_simple", taper::most_stressed_of_simple(butt, tip, length));
    let diameter = reply.put("diameter_there", taper::diameter_at(butt, tip, length, place));
    let Some(load) = load else { return };
    let moment = reply.put("moment_there", taper::simple_moment(load, length, place));
    let modulus = reply.put("modulus_there", section::round_modulus(diameter));
    reply.put("bending_stress_there", stress::bending_stress(moment, modulus));
}

#[cfg(test)]
mod tests {
    use serde_json::{Value, json};

    use crate::ask::ask;

    fn pole(changes: &Value) -> Value {
        let mut pole = json!({"diameter_m": 0.18, "moment_n_m": 3000, "shear_n": 6000, "class": "C16", "service": 2,
            "duration": "medium", "sawn_class": "DF-L No.3", "asd_duration": "snow"});
        for (key, value) in changes.as_object().unwrap() {
            pole[key] = value.clone();
        }
        ask("pole", &pole).unwrap()
    }

    #[test]
    fn a_seat_and_a_hole_use_more_of_the_strength_and_twice_the_load_twice_as_much() {
        let used = |changes: &Value| pole(changes)["answer"]["ec_bending_used_ratio"].as_f64().unwrap();
        let whole = used(&json!({}));
        // 3 kN m on π 180³ / 32 mm³ is 5.240 N/mm²; 16 · 0.8 / 1.3 is 9.846 N/mm².
        assert!((whole - 5.2396 / 9.8462).abs() < 1e-4, "{whole}");
        assert!(used(&json!({"seat_depth_m": 0.02})) > whole);
        assert!(used(&json!({"seat_depth_m": 0.02, "hole_m": 0.018})) > used(&json!({"seat_depth_m": 0.02})));
        assert!((used(&json!({"moment_n_m": 6000})) - 2.0 * whole).abs() < 1e-12);
    }

    #[test]
    fn an_axial_load_adds_to_the_share_that_bending_uses() {
        let answer = pole(&json!({"compression_n": 2000, "buckling_length_m": 3}))["answer"].clone();
        for code in ["ec", "asd"] {
            let share = |what: &str| answer[format!("{code}_{what}_used_ratio")].as_f64().unwrap();
            assert!(share("compression") > share("bending"), "{code}");
            assert!((share("tension") - share("bending")).abs() < 1e-12, "{code}");
        }
    }

    #[test]
    fn a_notch_at_the_support_costs_more_shear_than_the_wood_it_takes_by_either_code() {
        let cut = json!({"seat_depth_m": 0.03, "notch_from_support_m": 0.05});
        let answer = pole(&cut)["answer"].clone();
        for code in ["ec", "asd"] {
            let share = |what: &str| answer[format!("{code}_{what}_used_ratio")].as_f64().unwrap();
            assert!(share("notch") > share("shear"), "{code}");
        }
    }

    #[test]
    fn wood_beside_the_seat_helps_to_bear() {
        let used = |beside: f64| {
            let seat = json!({"seat_depth_m": 0.02, "bearing_n": 8000, "seat_length_m": 0.11, "wood_before_m": beside});
            pole(&seat)["answer"]["ec_bearing_used_ratio"].as_f64().unwrap()
        };
        assert!((used(0.0) / used(0.2) - 140.0 / 110.0).abs() < 1e-12);
    }

    #[test]
    fn a_wrong_pole_is_told_in_one_sentence() {
        for (changes, said) in [
            (json!({"diameter_m": 0}), "above zero"),
            (json!({"seat_depth_m": 0.09}), "below half"),
            (json!({"class": "C15"}), "\"C15\" is not a class; known: C14, C16"),
            (json!({"service": 4}), "1 dry and heated"),
            (json!({"duration": "snow"}), "write one of: permanent, long"),
            (json!({"compression_n": 1}), "needs `buckling_length_m`"),
            (json!({"bearing_n": 1}), "needs `seat_length_m`"),
            (json!({"moment_n_m": -1}), "must not be below zero"),
            (json!({"asd_share": 0}), "`asd_share` must be above zero"),
        ] {
            let told = pole(&changes)["problems"].clone();
            assert!(told[0].as_str().unwrap().contains(said), "{changes}: {told}");
        }
    }
}

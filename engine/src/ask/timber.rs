//! Questions of timber: what a class is worth, factors of beams, columns, and how far a rafter spans.

use super::given::Given;
use super::{Question, Reply};
use crate::timber::tables::{self, SawnClass, StrengthClass};
use crate::timber::{asd, eurocode, section, stress};
use crate::units::{Area, Force, Kind, Length, Pressure, Ratio, SectionModulus};

pub(super) const TIMBER_STRENGTH: Question = Question {
    name: "timber-strength",
    about: "What a strength class of EN 338 is worth, in a place of that damp under a load of that duration",
    example: r#"{"class": "C16", "service": 2, "duration": "medium"}"#,
    answer: timber_strength,
};

pub(super) const TIMBER_FACTORS: Question = Question {
    name: "timber-factors",
    about: "Factors of a beam by two codes: small depth, tipping, notch at the support, short seat",
    example: r#"{"depth_m": 0.2, "width_m": 0.05, "free_length_m": 3.6, "class": "C24"}"#,
    answer: timber_factors,
};

pub(super) const COLUMN: Question = Question {
    name: "column",
    about: "What a round column keeps of its strength against buckling, or a pile carries by its girth",
    example: r#"{"diameter_m": 0.12, "length_m": 2.4, "class": "C24"}"#,
    answer: column,
};

pub(super) const RAFTER_SPAN: Question = Question {
    name: "rafter-span",
    about: "How far a sawn rafter spans by allowable stresses: by bending and by its sag under what comes and goes",
    example: r#"{"sawn_class": "DF-L No.2", "width_m": 0.0381, "depth_m": 0.18415, "spacing_m": 0.3048,
  "lasting_pa": 478.80258980336, "passing_pa": 957.60517960672, "size_factor": 1.2, "sag_share": 0.00416666666666667}"#,
    answer: rafter_span,
};

pub(super) const ANGLED_CANTILEVER: Question = Question {
    name: "angled-cantilever",
    about: "How far the tip of a round bar sinks that is held at one end and turns a right angle",
    example: r#"{"force_n": 1000, "held_arm_m": 2, "outer_arm_m": 1.5, "diameter_m": 0.15,
  "stiffness_pa": 1e10, "shear_stiffness_pa": 6e8}"#,
    answer: angled_cantilever,
};

/// Words for the duration of a load that EN 1995-1-1 has.
pub(super) const DURATIONS: [&str; 5] = ["permanent", "long", "medium", "short", "instantaneous"];
/// Words for the duration of a load that the NDS has.
pub(super) const ASD_DURATIONS: [&str; 5] = ["permanent", "long", "snow", "roof-live", "wind"];

/// The class of EN 338 that a request names; none where it names none, a problem where there is no such class.
pub(super) fn strength_class(given: &mut Given<'_>) -> Option<&'static StrengthClass> {
    let name = given.maybe_text("class")?;
    let found = tables::strength_classes().iter().find(|class| class.name == name);
    if found.is_none() {
        let known: Vec<&str> = tables::strength_classes().iter().map(|class| class.name.as_str()).collect();
        given.problem(format!("\"{name}\" is not a class; known: {}", known.join(", ")));
    }
    found
}

/// The same of sawn grades.
pub(super) fn sawn_class(given: &mut Given<'_>) -> Option<&'static SawnClass> {
    let name = given.maybe_text("sawn_class")?;
    let found = tables::sawn_classes().iter().find(|class| class.name == name);
    if found.is_none() {
        let known: Vec<&str> = tables::sawn_classes().iter().map(|class| class.name.as_str()).collect();
        given.problem(format!("\"{name}\" is not a grade; known: {}", known.join(", ")));
    }
    found
}

/// Damp of the place as EN 1995-1-1 numbers it, and the word of the duration.
pub(super) fn place_and_duration(given: &mut Given<'_>) -> Option<(u64, &'static str)> {
    let service = given.count("service", 1);
    let duration = given.maybe_word("duration", &DURATIONS);
    if duration.is_none() {
        given.problem(format!("`duration` must be one of: {}", DURATIONS.join(", ")));
    }
    if service.is_some_and(|service| service > 3) {
        given.problem("`service` is 1 dry and heated, 2 under a roof, 3 wet".into());
        return None;
    }
    Some((service?, duration?))
}

/// Factors of duration and material, put into the reply.
pub(super) fn design_factors(reply: &mut Reply, service: u64, duration: &str) -> (f64, f64) {
    let kmod = tables::factor(&format!("kmod-{service}-{duration}"));
    let kmod = reply.fact("kmod", "Factor for duration of load and damp", kmod);
    (kmod, reply.fact("gamma_m", "Partial factor of the material", tables::factor("gamma-m")))
}

fn timber_strength(given: &mut Given<'_>, reply: &mut Reply) {
    let class = strength_class(given);
    let Some((service, duration)) = place_and_duration(given) else { return };
    let (kmod, partial) = design_factors(reply, service, duration);
    reply.fact("kdef", "Factor for creep", tables::factor(&format!("kdef-{service}")));
    let Some(class) = class else { return };
    for (name, title, value) in [
        ("bending", "Bending strength, characteristic", class.bending),
        ("tension", "Tensile strength along the grain, characteristic", class.tension),
        ("compression", "Compressive strength along the grain, characteristic", class.compression),
        ("across", "Compressive strength across the grain, characteristic", class.across),
        ("shear", "Shear strength, characteristic", class.shear),
    ] {
        reply.read_off(name, title, value, &class.citation);
        reply.put(&format!("design_{name}"), eurocode::design_strength(value, kmod, partial));
    }
    reply.read_off("stiffness", "Modulus of elasticity, mean", class.stiffness, &class.citation);
    reply.read_off("low_stiffness", "Modulus of elasticity, low", class.low_stiffness, &class.citation);
    reply.read_off("shear_stiffness", "Shear modulus, mean", class.shear_stiffness, &class.citation);
    reply.read_off("low_density", "Density, low", class.low_density, &class.citation);
    reply.read_off("mean_density", "Density, mean", class.mean_density, &class.citation);
    reply.answer.insert("edition_of_2016".into(), class.later_edition.clone().into());
}

fn timber_factors(given: &mut Given<'_>, reply: &mut Reply) {
    let mut length = |key| given.maybe::<Length>(key, Kind::Length);
    let (depth, width, free) = (length("depth_m"), length("width_m"), length("free_length_m"));
    let (left, from_support, seat) = (length("depth_left_m"), length("from_support_m"), length("seat_m"));
    let (notch_depth, notch_length) = (length("notch_depth_m"), length("notch_length_m"));
    let slope_run = given.maybe::<f64>("slope_run", Kind::Number).unwrap_or(0.0);
    let strength = given.maybe::<Pressure>("shear_strength_pa", Kind::Pressure);
    let class = strength_class(given);
    let sawn = sawn_class(given);
    let lengths = [depth, width, free, left, seat, notch_depth, notch_length];
    if lengths.iter().flatten().any(|length| *length <= Length::ZERO) {
        given.problem("every length must be above zero".into());
        return;
    }
    if left.zip(depth).is_some_and(|(left, depth)| left > depth) || slope_run < 0.0 {
        given.problem("`depth_left_m` must not be above `depth_m`, and `slope_run` not below zero".into());
        return;
    }
    if let Some(depth) = depth {
        reply.put("depth_factor", eurocode::depth_factor(depth));
    }
    if let (Some(depth), Some(width), Some(free), Some(class)) = (depth, width, free, class) {
        let tipping = reply.put("tipping_stress", eurocode::tipping_stress(width, depth, free, class.low_stiffness));
        let slender = reply.put("tipping_slenderness", eurocode::tipping_slenderness(class.bending, tipping));
        reply.put("tipping_factor", eurocode::tipping_factor(slender));
    }
    if let (Some(depth), Some(width), Some(free), Some(sawn)) = (depth, width, free, sawn) {
        reply.put("beam_stability", asd::beam_stability(width, depth, free, sawn.low_stiffness, sawn.bending));
    }
    if let (Some(depth), Some(left), Some(from_support)) = (depth, left, from_support) {
        let wood = reply.fact("kn", "Factor of the wood at a notch", tables::factor("kn"));
        reply.put("notch_factor", eurocode::notch_factor(depth, left, from_support, slope_run, wood));
    }
    if let (Some(depth), Some(left), Some(width), Some(strength)) = (depth, left, width, strength) {
        reply.put("notched_shear", asd::notched_shear(strength, width, depth, left));
    }
    if let (Some(depth), Some(notch_depth), Some(notch_length)) = (depth, notch_depth, notch_length) {
        reply.put("notched_stiffness", asd::notched_stiffness(depth, notch_depth, notch_length));
    }
    if let Some(seat) = seat {
        reply.put("bearing_factor", asd::bearing_factor(seat));
    }
    if reply.is_empty() {
        given.problem("give `depth_m`, or `seat_m`".into());
    }
}

fn column(given: &mut Given<'_>, reply: &mut Reply) {
    let diameter = given.maybe::<Length>("diameter_m", Kind::Length);
    let length = given.maybe::<Length>("length_m", Kind::Length);
    let girth = given.maybe::<Length>("girth_m", Kind::Length);
    let reference = given.maybe::<Pressure>("reference_pa", Kind::Pressure);
    let duration = given.maybe_word("asd_duration", &ASD_DURATIONS);
    let class = strength_class(given);
    if [diameter, length, girth].iter().flatten().any(|length| *length <= Length::ZERO) {
        given.problem("every length must be above zero".into());
        return;
    }
    if let (Some(diameter), Some(length), Some(class)) = (diameter, length, class) {
        let slender = reply.put("slenderness", eurocode::round_slenderness(length, diameter));
        let beta = reply.fact("straightness", "Factor for crookedness", tables::factor("beta-c"));
        reply.put("column_factor", eurocode::column_factor(slender, class.compression, class.low_stiffness, beta));
    }
    if let (Some(girth), Some(reference), Some(duration)) = (girth, reference, duration) {
        let factor = tables::factor(&format!("cd-{duration}"));
        let factor = reply.fact("duration_factor", "Factor for duration of load", factor);
        let area: Area = reply.put("area", asd::area_of_girth(girth));
        let allowed: Pressure = reply.put("allowed", asd::adjusted(reference, factor, 1.0));
        reply.put("carried", stress::carried(allowed, area));
    }
    if reply.is_empty() {
        given.problem(
            "give `diameter_m`, `length_m` and `class`, or `girth_m`, `reference_pa` and `asd_duration`".into(),
        );
    }
}

fn rafter_span(given: &mut Given<'_>, reply: &mut Reply) {
    let class = sawn_class(given);
    let width = given.number::<Length>("width_m", Kind::Length);
    let depth = given.number::<Length>("depth_m", Kind::Length);
    let spacing = given.number::<Length>("spacing_m", Kind::Length);
    let lasting = given.number::<Pressure>("lasting_pa", Kind::Pressure);
    let passing = given.number::<Pressure>("passing_pa", Kind::Pressure);
    let size = given.number::<f64>("size_factor", Kind::Number);
    let sag = given.number::<f64>("sag_share", Kind::Number);
    let sizes = [width, depth, spacing].map(|length| length.map(Length::in_m));
    let others = [passing.map(Pressure::in_pa), size, sag];
    if sizes.iter().chain(&others).flatten().any(|size| *size <= 0.0)
        || lasting.is_some_and(|load| load < Pressure::ZERO)
    {
        given.problem("every number must be above zero, `lasting_pa` not below it".into());
        return;
    }
    let (Some(width), Some(depth), Some(spacing), Some(size)) = (width, depth, spacing, size) else { return };
    let (Some(lasting), Some(passing), Some(sag)) = (lasting, passing, sag) else { return };
    let Some(class) = class else {
        given.problem("`sawn_class` is missing; write a grade such as \"DF-L No.2\"".into());
        return;
    };
    let duration = reply.fact("duration_factor", "Factor for duration of load", tables::factor("cd-roof-live"));
    let shared = reply.fact("repetitive_factor", "Factor for members side by side", tables::factor("cr"));
    let strength = reply.put("allowed_bending", asd::adjusted(class.bending, duration, size * shared));
    let modulus: SectionModulus = reply.put("modulus", section::rectangle_modulus(width, depth));
    let inertia = reply.put("second_moment", section::rectangle_second_moment(width, depth));
    let bending = reply.put("span_by_bending", asd::span_by_bending(strength, modulus, (lasting + passing) * spacing));
    let sagging = reply.put("span_by_sag", asd::span_by_sag(class.stiffness, inertia, passing * spacing, sag));
    reply.put("span", asd::span(bending, sagging));
}

fn angled_cantilever(given: &mut Given<'_>, reply: &mut Reply) {
    let force = given.number::<Force>("force_n", Kind::Force);
    let held = given.number::<Length>("held_arm_m", Kind::Length);
    let outer = given.number::<Length>("outer_arm_m", Kind::Length);
    let diameter = given.number::<Length>("diameter_m", Kind::Length);
    let stiffness = given.number::<Pressure>("stiffness_pa", Kind::Pressure);
    let shear = given.number::<Pressure>("shear_stiffness_pa", Kind::Pressure);
    let (Some(force), Some(held), Some(outer), Some(diameter)) = (force, held, outer, diameter) else { return };
    let (Some(stiffness), Some(shear)) = (stiffness, shear) else { return };
    if diameter <= Length::ZERO || stiffness <= Pressure::ZERO || shear <= Pressure::ZERO {
        given.problem("`diameter_m`, `stiffness_pa` and `shear_stiffness_pa` must be above zero".into());
        return;
    }
    reply.put("sag", stress::angled_cantilever_sag(force, held, outer, diameter, stiffness, shear));
}

/// The share of the width that cracks leave in shear by EN 1995-1-1, put into the reply.
pub(super) fn uncracked(reply: &mut Reply) -> Ratio {
    Ratio::fraction(reply.fact("kcr", "Share of the width that cracks leave", tables::factor("kcr")))
}

//! The question about a ring of poles as it stands: forces, sags and thrusts under loads, as a frame in space.

use serde_json::json;

use super::frame::STIFFNESS_METHOD;
use super::given::Given;
use super::poles_given::layout;
use super::{Question, Reply};
use crate::reason::{Reason, Words};
use crate::roof::poles::{self, Layout, Ring, ring};
use crate::roof::standing::{
    self, Combination, Envelope, Extra, Fault, Feet, Joints, Loading, Lost, Model, OnPole, Passing, Without, Wood,
};
use crate::units::{Angle, Density, Force, Kind, Length, LineLoad, Pressure, Ratio};

pub(super) const STANDING: Question = Question {
    name: "standing",
    about: "Moments, crossing forces, thrusts and sags of a ring of poles under loads, without a pole, and while it is raised",
    example: r#"{"plan_radius_m": 2.5, "eye_radius_m": 0.5, "count": 5, "length_m": 2.8454062, "butt_m": 0.14, "tip_m": 0.14,
  "young_pa": 1e10, "shear_pa": 6e8, "density_kg_m3": 600, "passing": "plumb", "push_n_m": 6.8261941764e9, "line_load_n_m": 1000}"#,
    answer: standing_ring,
};

/// What a request says besides the ring.
struct Asked {
    wood: Option<Wood>,
    joints: Option<Joints>,
    feet: &'static [Feet],
    weight: f64,
    areas: [Pressure; 4],
    first_half: Angle,
    line: Option<LineLoad>,
    point: Option<(usize, Length, Force)>,
    second_order: bool,
    lost: Option<Lost>,
    raised: Option<(usize, Length)>,
}

fn standing_ring(given: &mut Given<'_>, reply: &mut Reply) {
    let layout = layout(given);
    let asked = asked(given);
    if !given.is_fine() {
        return;
    }
    let (Some(layout), Some(wood), Some(joints)) = (layout, asked.wood, asked.joints) else { return };
    if let Err(fault) = tell(&layout, &wood, &joints, &asked, reply) {
        given.problem(fault.to_string());
    }
}

fn asked(given: &mut Given<'_>) -> Asked {
    let (young, shear) = (given.number("young_pa", Kind::Pressure), given.number("shear_pa", Kind::Pressure));
    let density = given.number::<Density>("density_kg_m3", Kind::Density);
    let wood = young.zip(shear).zip(density).map(|((young, shear), density)| Wood { young, shear, density });
    let feet = match given.maybe_word("feet", &["held", "sliding"]) {
        Some("held") => &[Feet::Held],
        Some(_) => &[Feet::Sliding],
        None => Feet::BOTH.as_slice(),
    };
    let joints = joints(given);
    let plumb = joints.is_some_and(|joints| matches!(joints.passing, Passing::Plumb { .. }));
    let pressure = |given: &mut Given<'_>, key| given.maybe::<Pressure>(key, Kind::Pressure);
    let all = pressure(given, "area_load_pa").unwrap_or(Pressure::ZERO);
    let zones = ["inside_first_pa", "inside_second_pa", "eaves_first_pa", "eaves_second_pa"];
    let areas = zones.map(|key| pressure(given, key).unwrap_or(all));
    Asked {
        wood,
        joints,
        feet: if plumb { &[Feet::Held] } else { feet },
        weight: given.maybe::<Ratio>("weight_ratio", Kind::Ratio).map_or(0.0, Ratio::in_fraction),
        areas,
        first_half: given.maybe("first_half_rad", Kind::Angle).unwrap_or(Angle::ZERO),
        line: given.maybe("line_load_n_m", Kind::LineLoad),
        point: point(given),
        second_order: given.wanted("second_order"),
        lost: lost(given),
        raised: pole(given, "first")
            .map(|first| (first, given.maybe::<Length>("clearance_m", Kind::Length).unwrap_or(Length::ZERO))),
    }
}

fn joints(given: &mut Given<'_>) -> Option<Joints> {
    let plumb = given.maybe_word("passing", &["touching", "plumb"]) == Some("plumb");
    let push = given.number::<LineLoad>("push_n_m", Kind::LineLoad);
    let passing = if plumb {
        Passing::Plumb { push: push? }
    } else {
        let tie = given.number::<LineLoad>("tie_n_m", Kind::LineLoad);
        Passing::Touching { push: push?, tie: tie? }
    };
    let share = given.maybe::<Ratio>("upper_share_ratio", Kind::Ratio);
    Some(Joints { passing, upper_share: share.map_or(0.5, Ratio::in_fraction) })
}

fn pole(given: &mut Given<'_>, key: &'static str) -> Option<usize> {
    given.has(key).then(|| given.count(key, 1)).flatten().map(|pole| pole as usize - 1)
}

fn point(given: &mut Given<'_>) -> Option<(usize, Length, Force)> {
    let on = pole(given, "point_pole");
    let at = given.maybe::<Length>("point_at_m", Kind::Length);
    let down = given.maybe::<Force>("point_n", Kind::Force);
    match (on, at, down) {
        (Some(on), Some(at), Some(down)) => Some((on, at, down)),
        (None, None, None) => None,
        _ => {
            given.problem("write `point_pole`, `point_at_m` and `point_n` together".into());
            None
        }
    }
}

fn lost(given: &mut Given<'_>) -> Option<Lost> {
    let (one, crossing) = (pole(given, "lost_pole"), pole(given, "lost_crossing"));
    one.map(Lost::Pole).or(crossing.map(Lost::Crossing))
}

fn tell(layout: &Layout, wood: &Wood, joints: &Joints, asked: &Asked, reply: &mut Reply) -> Result<(), Fault> {
    let found = ring(layout)?;
    let model = standing::model(layout, &found, wood, joints)?;
    let (loading, extras) = loading(layout, &found, asked);
    let combination = Combination { name: "as asked".into(), weight: asked.weight, areas: asked.areas, extras };
    let answers = model.answers(&loading, asked.feet)?;
    put_envelope(reply, &answers.envelope(std::slice::from_ref(&combination))?);
    if asked.second_order {
        put_second_order(reply, &model, &loading, &combination, asked.feet)?;
    }
    if let Some(lost) = asked.lost {
        for &feet in asked.feet {
            let left = model.without(lost, feet, &loading, &combination)?;
            reply.answer.insert(format!("{}_comes_down", word(feet)), json!(matches!(left, Without::ComesDown(_))));
        }
    }
    if let Some((first, clearance)) = asked.raised {
        let propped = poles::propped(layout, &found, first, clearance)?;
        for stage in standing::raising(layout, &propped, wood, joints)? {
            let name = format!("stage_{}", stage.poles);
            reply.answer.insert(format!("{name}_stands"), json!(stage.loose.is_none()));
            reply.answer.insert(format!("{name}_stands_tied"), json!(stage.loose_when_tied.is_none()));
            reply.answer.insert(format!("{name}_on_prop_n"), json!(stage.on_prop.map(Force::in_n)));
        }
    }
    let words = Words {
        title: "Every pole is a row of tapered members between support, crossings and ends; poles pass forces where they touch, \
                and the answers to the basic loads are added up."
            .into(),
        equation: "K u = P,  S = Σ γᵢ Sᵢ".into(),
        source: STIFFNESS_METHOD.into(),
        ..Words::default()
    };
    reply.reasons.push(Reason::in_words(words, Vec::new()));
    Ok(())
}

fn loading(layout: &Layout, found: &Ring, asked: &Asked) -> (Loading, Vec<f64>) {
    let mut extras = Vec::new();
    if let Some(load) = asked.line {
        let on = |(pole, (set, rafter)): (usize, (&poles::Set, &poles::Rafter))| {
            let level = set.pitch.in_rad().cos();
            let end = rafter.overhang + set.plan_lengths[1] / level;
            OnPole::Line { pole, span: [rafter.overhang, end], down: [load * level; 2] }
        };
        let loads = found.sets.iter().zip(&layout.rafters).enumerate().map(on).collect();
        extras.push(Extra { name: "line load".into(), loads });
    }
    if let Some((pole, at, down)) = asked.point {
        extras.push(Extra { name: "point load".into(), loads: vec![OnPole::Point { pole, at, down }] });
    }
    let factors = vec![1.0; extras.len()];
    (Loading { first_half: asked.first_half, extras, between: None }, factors)
}

fn put_envelope(reply: &mut Reply, most: &Envelope) {
    let mut up = 0.0;
    for (place, ((own, crossing), foot)) in most.poles.iter().zip(&most.crossings).zip(&most.feet).enumerate() {
        let mut put = |key: &str, value: f64| reply.answer.insert(format!("pole_{}_{key}", place + 1), json!(value));
        put("moment_n_m", own.anywhere.moment.value.in_n_m());
        put("moment_at_m", own.anywhere.moment.at.in_m());
        put("moment_upright_n_m", own.upright.value.in_n_m());
        put("moment_sideways_n_m", own.sideways.value.in_n_m());
        put("shear_n", own.anywhere.shear.value.in_n());
        put("pull_n", own.anywhere.pull.value.in_n());
        put("push_n", own.anywhere.push.value.in_n());
        for (name, here) in [("support", &own.support), ("carry", &own.carry), ("rest", &own.rest)] {
            put(&format!("{name}_moment_n_m"), here.moment.value.in_n_m());
            put(&format!("{name}_shear_n"), here.shear.value.in_n());
            put(&format!("{name}_push_n"), here.push.value.in_n());
        }
        put("sag_middle_m", own.sag_middle.value.in_m());
        put("sag_tip_m", own.sag_tip.value.in_m());
        put("crossing_push_n", crossing.push.value.in_n());
        put("crossing_least_n", crossing.least.value.in_n());
        put("crossing_shear_n", crossing.shear.value.in_n());
        put("foot_up_n", foot.up.value.in_n());
        put("foot_least_n", foot.least.value.in_n());
        put("foot_outward_n", foot.outward.value.in_n());
        put("foot_held_n", foot.held.value.in_n());
        if let Some(sliding) = foot.sliding {
            put("foot_sliding_n", sliding.value.in_n());
        }
        if crossing.friction.value.is_finite() {
            put("friction_needed", crossing.friction.value);
        }
        up += foot.up.value.in_n();
    }
    reply.answer.insert("feet_up_n".into(), json!(up));
}

fn word(feet: Feet) -> &'static str {
    match feet {
        Feet::Held => "held",
        Feet::Sliding => "sliding",
    }
}

fn put_second_order(
    reply: &mut Reply,
    model: &Model,
    loading: &Loading,
    combination: &Combination,
    feet: &[Feet],
) -> Result<(), Fault> {
    for &one in feet {
        let found = model.second_order(loading, combination, one)?;
        let name = word(one);
        reply.answer.insert(format!("{name}_moment_amplification"), json!(found.moment));
        reply.answer.insert(format!("{name}_sag_amplification"), json!(found.sag));
        reply.answer.insert(format!("{name}_buckling_factor"), json!(found.buckling));
    }
    Ok(())
}

#[cfg(test)]
mod tests {
    use serde_json::{Value, json};

    use crate::ask::ask;

    #[test]
    fn a_wrong_request_is_told_in_one_sentence() {
        let ring = json!({"count": 9, "plan_radius_m": 2.75, "eye_radius_m": 0.65, "length_m": 3.4, "butt_m": 0.13,
            "tip_m": 0.13, "young_pa": 1e10, "shear_pa": 6e8, "density_kg_m3": 600, "push_n_m": 1e8, "tie_n_m": 1e7});
        for (key, value, said) in [
            ("tie_n_m", json!(0), "tie its crossings or hold its foot"),
            ("young_pa", json!(0), "moduli and a density above zero"),
            ("passing", json!("up"), "write one of: touching, plumb"),
            ("point_n", json!(1000), "together"),
            ("lost_pole", json!(0), "1 or more"),
            ("lost_pole", json!(10), "a load on pole 10"),
            ("length_m", json!(2), "pole 1 is 2.00 m long and needs"),
        ] {
            let mut request = ring.clone();
            request[key] = value;
            let reply = ask("standing", &request).unwrap();
            let told: Vec<&str> = reply["problems"].as_array().unwrap().iter().filter_map(Value::as_str).collect();
            assert!(told.iter().any(|told| told.contains(said)), "{key}: {told:?}");
        }
    }
}

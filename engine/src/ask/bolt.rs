//! The question of a bolt: how the joint yields, what it carries by two codes, and where the bolt must stand.

use super::given::Given;
use super::timber::{ASD_DURATIONS, design_factors, place_and_duration, strength_class};
use super::{Question, Reply};
use crate::timber::{bolt, distances, eurocode, stress, tables};
use crate::units::{Angle, Area, Density, Force, Kind, Length, Moment, Pressure};

pub(super) const BOLT: Question = Question {
    name: "bolt",
    about: "A bolt or dowel through two or three timbers: ways of yielding, what it carries by two codes, distances",
    example: r#"{"diameter_m": 0.012, "planes": 1, "first_thickness_m": 0.1, "second_thickness_m": 0.1,
  "low_density_kg_m3": 350, "steel_pa": 4e8}"#,
    answer: bolt,
};

const FASTENERS: [&str; 2] = ["bolt", "dowel"];

/// A bolt and what it goes through: of three timbers, the first is each outer one and the second the middle one.
struct Joint {
    diameter: Length,
    planes: u64,
    thickness: [Length; 2],
    angle: [Angle; 2],
}

fn joint(given: &mut Given<'_>) -> Option<Joint> {
    let diameter = given.number::<Length>("diameter_m", Kind::Length);
    let planes = given.count("planes", 1);
    let first = given.number::<Length>("first_thickness_m", Kind::Length);
    let second = given.number::<Length>("second_thickness_m", Kind::Length);
    let mut angle = |key| given.maybe::<Angle>(key, Kind::Angle).unwrap_or(Angle::ZERO);
    let angle = [angle("first_angle_rad"), angle("second_angle_rad")];
    let (diameter, thickness, planes) = (diameter?, [first?, second?], planes?);
    if diameter <= Length::ZERO || diameter > Length::mm(30.0) || thickness.iter().any(|side| *side <= Length::ZERO) {
        given.problem("`diameter_m` must be above zero and at most 0.03, thicknesses above zero".into());
        return None;
    }
    if planes > 2 {
        given.problem("`planes` is 1 for two timbers or 2 for three".into());
        return None;
    }
    Some(Joint { diameter, planes, thickness, angle })
}

/// Puts every way of yielding and returns what the weakest carries in each plane.
fn weakest(reply: &mut Reply, ways: &[(&str, crate::reason::Answer<Force>)], key: &str) -> Force {
    let forces: Vec<Force> = ways.iter().map(|(name, way)| reply.put(name, way.clone())).collect();
    let Some((place, force)) = bolt::least(&forces) else { return Force::n(f64::NAN) };
    let letter = ways[place].0.rsplit('_').next().unwrap_or_default();
    reply.answer.insert(key.to_owned(), letter.into());
    force
}

/// What each plane carries by EN 1995-1-1, characteristic.
fn by_eurocode(reply: &mut Reply, joint: &Joint, wood: [Pressure; 2], steel: Moment, rope: (Force, f64)) -> Force {
    let once = reply.fact("johansen_once", "Factor where the bolt bends once", tables::factor("johansen-once"));
    let twice = reply.fact("johansen_twice", "Factor where the bolt bends twice", tables::factor("johansen-twice"));
    let ([one, other], [first, second], d) = (wood, joint.thickness, joint.diameter);
    let (pull, most) = rope;
    let roped = |force, factor| bolt::with_rope(force, factor, pull, most);
    let first_stiff = bolt::bent_once(one, other, first, d, steel).value;
    let second_stiff = bolt::bent_once(other, one, second, d, steel).value;
    let twice_bent = roped(bolt::bent_twice(one, other, d, steel).value, twice);
    let ways = if joint.planes == 1 {
        vec![
            ("way_a", bolt::crushed(one, first, d)),
            ("way_b", bolt::crushed(other, second, d)),
            ("way_c", roped(bolt::tilted(one, other, first, second, d).value, 1.0)),
            ("way_d", roped(first_stiff, once)),
            ("way_e", roped(second_stiff, once)),
            ("way_f", twice_bent),
        ]
    } else {
        vec![
            ("way_g", bolt::crushed(one, first, d)),
            ("way_h", bolt::middle_crushed(other, second, d)),
            ("way_j", roped(first_stiff, once)),
            ("way_k", twice_bent),
        ]
    };
    weakest(reply, &ways, "weakest_way")
}

/// What each plane may carry by the NDS.
fn by_allowable_stress(reply: &mut Reply, joint: &Joint, wood: [Pressure; 2], steel: Moment) -> Force {
    let crushing = reply.fact("rd_crushed", "Divisor where wood is crushed", tables::factor("rd-crushed"));
    let tilting = reply.fact("rd_tilted", "Divisor where the bolt tilts", tables::factor("rd-tilted"));
    let bending = reply.fact("rd_bent", "Divisor where the bolt bends", tables::factor("rd-bent"));
    let ([one, other], [first, second], d) = (wood, joint.thickness, joint.diameter);
    let angle = if joint.angle[0] > joint.angle[1] { joint.angle[0] } else { joint.angle[1] };
    let allowed = |force, divisor| bolt::allowed(force, divisor, angle);
    let first_stiff = allowed(bolt::bent_once(one, other, first, d, steel).value, bending);
    let twice = allowed(bolt::bent_twice(one, other, d, steel).value, bending);
    let crushed = allowed(bolt::crushed(one, first, d).value, crushing);
    let ways = if joint.planes == 1 {
        vec![
            ("asd_way_1s", crushed),
            ("asd_way_1m", allowed(bolt::crushed(other, second, d).value, crushing)),
            ("asd_way_2", allowed(bolt::tilted(one, other, first, second, d).value, tilting)),
            ("asd_way_3s", first_stiff),
            ("asd_way_3m", allowed(bolt::bent_once(other, one, second, d, steel).value, bending)),
            ("asd_way_4", twice),
        ]
    } else {
        vec![
            ("asd_way_1s", crushed),
            ("asd_way_1m", allowed(bolt::middle_crushed(other, second, d).value, crushing)),
            ("asd_way_3s", first_stiff),
            ("asd_way_4", twice),
        ]
    };
    weakest(reply, &ways, "asd_weakest_way")
}

fn stand_off(reply: &mut Reply, joint: &Joint) {
    let (d, angle) = (joint.diameter, joint.angle[0]);
    reply.put("between_along", distances::between_along(d, angle));
    reply.put("between_across", distances::between_across(d));
    reply.put("to_loaded_end", distances::to_loaded_end(d));
    reply.put("to_free_end", distances::to_free_end(d, angle));
    reply.put("to_loaded_edge", distances::to_loaded_edge(d, angle));
    reply.put("to_free_edge", distances::to_free_edge(d));
}

fn stand_off_asd(reply: &mut Reply, joint: &Joint) {
    reply.put("asd_to_loaded_end", distances::to_loaded_end_asd(joint.diameter));
    reply.put("asd_to_free_end", distances::to_free_end_asd(joint.diameter));
    reply.put("asd_to_loaded_edge", distances::to_loaded_edge_asd(joint.diameter));
    reply.put("asd_to_free_edge", distances::to_free_edge_asd(joint.diameter));
}

fn bolt(given: &mut Given<'_>, reply: &mut Reply) {
    let joint = joint(given);
    let class = strength_class(given);
    let density = given.maybe::<Density>("low_density_kg_m3", Kind::Density).or(class.map(|class| class.low_density));
    let steel = given.maybe::<Pressure>("steel_pa", Kind::Pressure);
    let gravity = given.maybe::<f64>("gravity", Kind::Number);
    let bending_yield = given.maybe::<Pressure>("bending_yield_pa", Kind::Pressure);
    let pull = given.maybe::<Force>("pull_n", Kind::Force).unwrap_or(Force::ZERO);
    let washer = given.maybe::<Area>("washer_m2", Kind::Area);
    let force = given.maybe::<Force>("force_n", Kind::Force);
    let fastener = given.maybe_word("fastener", &FASTENERS).unwrap_or("bolt");
    let sizes =
        [density.map(Density::in_kg_m3), steel.map(Pressure::in_pa), gravity, bending_yield.map(Pressure::in_pa)];
    if sizes.iter().flatten().any(|size| *size <= 0.0) || pull < Force::ZERO || force.is_some_and(|f| f < Force::ZERO) {
        given.problem("strengths, density and `gravity` must be above zero, forces not below it".into());
        return;
    }
    let Some(joint) = joint else { return };
    let pull = match (washer, class) {
        (None, _) => pull,
        (Some(washer), Some(class)) if washer > Area::ZERO => {
            reply.put("washer_pull", bolt::washer_pull(class.across, washer))
        }
        _ => {
            given.problem("`washer_m2` must be above zero and needs `class`".into());
            return;
        }
    };
    if let Some(density) = density {
        let steel = steel.unwrap_or_else(|| {
            Pressure::pa(reply.fact("steel", "Tensile strength of the steel", tables::factor("bolt-tension-pa")))
        });
        let along = reply.put("embedment", bolt::embedment(joint.diameter, density));
        let softwood = class.is_none_or(tables::StrengthClass::is_softwood);
        let kind = tables::factor(if softwood { "embedment-softwood" } else { "embedment-hardwood" });
        let kind = reply.fact("embedment_k", "Factor for the angle to the grain", kind);
        let mut at = |name, angle| reply.put(name, bolt::embedment_at_angle(along, joint.diameter, angle, kind));
        let wood = [at("first_embedment", joint.angle[0]), at("second_embedment", joint.angle[1])];
        let yields = reply.put("yield_moment", bolt::yield_moment(joint.diameter, steel));
        let most = tables::factor(&format!("rope-share-{fastener}"));
        let most = reply.fact("rope_most", "Most that the rope may add", most);
        let carried = by_eurocode(reply, &joint, wood, yields, (pull, most));
        design(given, reply, carried * joint.planes as f64, force);
        stand_off(reply, &joint);
    }
    if let Some(gravity) = gravity {
        let steel = bending_yield.unwrap_or_else(|| {
            Pressure::pa(reply.fact("bending_yield", "Bending yield of the bolt", tables::factor("bolt-yield-pa")))
        });
        let along = reply.put("asd_embedment", bolt::embedment_of_gravity(gravity));
        let across = reply.put("asd_embedment_across", bolt::embedment_of_gravity_across(gravity, joint.diameter));
        let mut at = |name, angle| reply.put(name, stress::at_angle(along, across, angle));
        let wood = [at("asd_first_embedment", joint.angle[0]), at("asd_second_embedment", joint.angle[1])];
        let yields = reply.put("asd_yield_moment", bolt::yield_moment_of_strength(joint.diameter, steel));
        let carried = by_allowable_stress(reply, &joint, wood, yields) * joint.planes as f64;
        allow(given, reply, carried, force);
        stand_off_asd(reply, &joint);
    }
    if density.is_none() && gravity.is_none() {
        given.problem("give `class` or `low_density_kg_m3` for the one code, `gravity` for the other, or both".into());
    }
}

/// What the bolt carries by design, where the request says in which place and for how long.
fn design(given: &mut Given<'_>, reply: &mut Reply, carried: Force, force: Option<Force>) {
    let carried = reply.put("carried", bolt::in_all_planes(carried));
    if given.maybe_text("duration").is_none() {
        return;
    }
    let Some((service, duration)) = place_and_duration(given) else { return };
    let (kmod, partial) = design_factors(reply, service, duration);
    let carried = reply.put("design_carried", eurocode::design_force(carried, kmod, partial));
    if let Some(force) = force {
        reply.put("used", stress::used_of_force(force, carried));
    }
}

/// The same by allowable loads.
fn allow(given: &mut Given<'_>, reply: &mut Reply, carried: Force, force: Option<Force>) {
    let carried = reply.put("asd_carried", bolt::in_all_planes(carried));
    let Some(duration) = given.maybe_word("asd_duration", &ASD_DURATIONS) else { return };
    let factor = tables::factor(&format!("cd-{duration}"));
    let factor = reply.fact("duration_factor", "Factor for duration of load", factor);
    let carried = reply.put("asd_allowed", eurocode::design_force(carried, factor, 1.0));
    if let Some(force) = force {
        reply.put("asd_used", stress::used_of_force(force, carried));
    }
}

#[cfg(test)]
mod tests {
    use serde_json::{Value, json};

    use crate::ask::ask;

    fn bolt(changes: &Value) -> Value {
        let mut bolt = json!({"diameter_m": 0.012, "planes": 1, "first_thickness_m": 0.1, "second_thickness_m": 0.1,
            "class": "C16"});
        for (key, value) in changes.as_object().unwrap() {
            bolt[key] = value.clone();
        }
        ask("bolt", &bolt).unwrap()
    }

    #[test]
    fn the_weakest_way_is_what_the_joint_carries_and_two_planes_carry_it_twice() {
        let one = bolt(&json!({}))["answer"].clone();
        let ways = ["a", "b", "c", "d", "e", "f"].map(|way| one[format!("way_{way}_n")].as_f64().unwrap());
        assert_eq!(one["carried_n"].as_f64().unwrap(), ways.into_iter().fold(f64::INFINITY, f64::min));
        assert_eq!(one["weakest_way"], "f");
        let two = bolt(&json!({"planes": 2}))["answer"].clone();
        assert_eq!(two["carried_n"].as_f64().unwrap(), 2.0 * two["way_k_n"].as_f64().unwrap());
    }

    #[test]
    fn what_a_joint_is_asked_to_carry_is_said_as_a_share_by_each_code() {
        let asked = json!({"service": 2, "duration": "short", "force_n": 2000, "gravity": 0.5, "asd_duration": "wind"});
        let answer = bolt(&asked)["answer"].clone();
        let number = |key: &str| answer[key].as_f64().unwrap();
        assert!((number("used_ratio") - 2000.0 / number("design_carried_n")).abs() < 1e-12);
        assert!((number("design_carried_n") - number("carried_n") * 0.9 / 1.3).abs() < 1e-9);
        assert!((number("asd_allowed_n") - number("asd_carried_n") * 1.6).abs() < 1e-9);
    }

    #[test]
    fn a_wrong_joint_is_told_in_one_sentence() {
        for (changes, said) in [
            (json!({"planes": 3}), "2 for three"),
            (json!({"diameter_m": 0.05}), "at most 0.03"),
            (json!({"first_thickness_m": 0}), "thicknesses above zero"),
            (json!({"steel_pa": 0}), "must be above zero"),
            (json!({"fastener": "nail"}), "write one of: bolt, dowel"),
            (json!({"duration": "short"}), "`service` is missing"),
        ] {
            let told = bolt(&changes)["problems"].clone();
            assert!(told[0].as_str().unwrap().contains(said), "{changes}: {told}");
        }
    }
}

//! Questions of a pole as it grew and dries: its tree, what it loses by drying, what it sags, whether it slides off its neighbour.

use super::given::Given;
use super::timber::strength_class;
use super::{Question, Reply};
use crate::timber::{asd, drying, eurocode, section, stress, tables};
use crate::units::{Angle, Kind, Length, LineLoad, Ratio};

pub(super) const TREE: Question = Question {
    name: "tree",
    about: "What a pole of a kind of tree may be taken for, ungraded, what it weighs, and how much thinner it gets drying",
    example: r#"{"species": "douglas-fir", "diameter_m": 0.18, "moisture_ratio": 0.15}"#,
    answer: tree,
};

pub(super) const POLE_SAG: Question = Question {
    name: "pole-sag",
    about: "How far a round pole on two supports sags at once and in the end, by two codes",
    example: r#"{"diameter_m": 0.18, "span_m": 3, "lasting_n_m": 2000, "passing_n_m": 800, "class": "C16", "service": 2}"#,
    answer: pole_sag,
};

pub(super) const CROSSING_FRICTION: Question = Question {
    name: "crossing-friction",
    about: "Friction that the poles of a reciprocal roof need at a crossing where nothing ties them",
    example: r#"{"count": 13, "pitch_rad": 0.3141592653589793}"#,
    answer: crossing_friction,
};

fn tree(given: &mut Given<'_>, reply: &mut Reply) {
    let name = given.text("species");
    let diameter = given.maybe::<Length>("diameter_m", Kind::Length);
    let moisture = given.maybe::<Ratio>("moisture_ratio", Kind::Ratio);
    let Some(name) = name else { return };
    let Some(tree) = tables::species().iter().find(|tree| tree.name == name) else {
        let known: Vec<&str> = tables::species().iter().map(|tree| tree.name.as_str()).collect();
        given.problem(format!("\"{name}\" is not in the table; known: {}", known.join(", ")));
        return;
    };
    if diameter.is_some_and(|thick| thick <= Length::ZERO) || moisture.is_some_and(|moisture| moisture < Ratio::ZERO) {
        given.problem("`diameter_m` must be above zero, `moisture_ratio` not below it".into());
        return;
    }
    for (key, class) in [("class", &tree.class), ("sawn_class", &tree.sawn_class)] {
        let class = class.clone().unwrap_or_else(|| "not known: have the poles graded".to_owned());
        reply.answer.insert(key.into(), class.into());
    }
    reply.answer.insert("class_why".into(), tree.class_why.clone().into());
    let densities = crate::sources::Citation { standing: tree.density_standing, ..tree.citation.clone() };
    reply.read_off("green", "Density as felled", tree.green, &densities);
    reply.read_off("dry", "Density air-dry", tree.dry, &densities);
    let radial = reply.read_off("radial", "Shrinkage along the radius, green to oven-dry", tree.radial, &tree.citation);
    let title = "Shrinkage along the rings, green to oven-dry";
    let tangential = reply.read_off("tangential", title, tree.tangential, &tree.citation);
    if let (Some(diameter), Some(moisture)) = (diameter, moisture) {
        let saturated = tables::factor("fibre-saturation");
        let saturated = reply.fact("fibre_saturation", "Moisture below which wood shrinks, of dry mass", saturated);
        let lost = drying::lost(diameter, radial, tangential, moisture, Ratio::fraction(saturated));
        reply.put("lost", lost);
    }
}

fn pole_sag(given: &mut Given<'_>, reply: &mut Reply) {
    let diameter = given.number::<Length>("diameter_m", Kind::Length);
    let span = given.number::<Length>("span_m", Kind::Length);
    let lasting = given.number::<LineLoad>("lasting_n_m", Kind::LineLoad);
    let passing = given.number::<LineLoad>("passing_n_m", Kind::LineLoad);
    let service = given.count("service", 1);
    let class = strength_class(given);
    let (Some(diameter), Some(span), Some(lasting), Some(passing)) = (diameter, span, lasting, passing) else { return };
    let (Some(class), Some(service @ 1..=3)) = (class, service) else {
        given.problem("`class` must be one of EN 338, `service` 1 dry and heated, 2 under a roof, 3 wet".into());
        return;
    };
    if diameter <= Length::ZERO || span <= Length::ZERO || lasting < LineLoad::ZERO || passing < LineLoad::ZERO {
        given.problem("lengths must be above zero, loads not below it".into());
        return;
    }
    let inertia = reply.put("second_moment", section::round_second_moment(diameter));
    let lasting = reply.put("lasting_sag", stress::simple_sag(lasting, span, class.stiffness, inertia));
    let passing = reply.put("passing_sag", stress::simple_sag(passing, span, class.stiffness, inertia));
    let creep = reply.fact("kdef", "Factor for creep", tables::factor(&format!("kdef-{service}")));
    let share = reply.fact("psi2", "Share of the load that stays of what comes and goes", tables::factor("psi2-roof"));
    let sag = reply.put("sag", eurocode::final_sag(lasting, passing, creep, share));
    reply.put("sag_of_span", stress::sag_of_span(sag, span));
    let creep = tables::factor(if service == 1 { "kcr-creep-dry" } else { "kcr-creep-wet" });
    let creep = reply.fact("asd_creep", "Factor for creep, American code", creep);
    let sag = reply.put("asd_sag", asd::final_sag(lasting, passing, creep));
    reply.put("asd_sag_of_span", stress::sag_of_span(sag, span));
}

fn crossing_friction(given: &mut Given<'_>, reply: &mut Reply) {
    let count = given.count("count", 3);
    let pitch = given.number::<Angle>("pitch_rad", Kind::Angle);
    let (Some(count), Some(pitch)) = (count, pitch) else { return };
    if pitch <= Angle::ZERO || pitch >= Angle::deg(90.0) {
        given.problem("`pitch_rad` must lie between level and upright, above 0 and below 1.57".into());
        return;
    }
    reply.put("friction_needed", eurocode::friction_needed(count, pitch));
}

#[cfg(test)]
mod tests {
    use serde_json::json;

    use crate::ask::ask;

    #[test]
    fn a_hardwood_that_nobody_graded_has_no_class() {
        let answer = ask("tree", &json!({"species": "white-oak"})).unwrap()["answer"].clone();
        assert_eq!(answer["class"], "not known: have the poles graded");
        let told = ask("tree", &json!({"species": "oak"})).unwrap()["problems"][0].clone();
        assert!(told.as_str().unwrap().contains("known: douglas-fir, red-pine"), "{told}");
    }

    #[test]
    fn a_pole_that_only_carries_what_passes_does_not_creep() {
        let ask = |lasting: f64| {
            let pole = json!({"diameter_m": 0.18, "span_m": 3, "lasting_n_m": lasting, "passing_n_m": 800,
                "class": "C16", "service": 2});
            ask("pole-sag", &pole).unwrap()["answer"].clone()
        };
        assert_eq!(ask(0.0)["sag_m"], ask(0.0)["passing_sag_m"]);
        let number = |key: &str| ask(1000.0)[key].as_f64().unwrap();
        assert!((number("sag_m") - 1.8 * number("lasting_sag_m") - number("passing_sag_m")).abs() < 1e-15);
        assert!((number("asd_sag_m") - 2.0 * number("lasting_sag_m") - number("passing_sag_m")).abs() < 1e-15);
    }
}

//! The questions about a roof: a reciprocal frame of round poles, and the layers that lie on it.

use std::f64::consts::FRAC_PI_2;

use serde_json::json;

use super::given::Given;
use super::{Question, Reply};
use crate::roof;
use crate::units::{Angle, Area, Density, Force, Kind, Length, Mass, Pressure, SurfaceMass};

pub(super) const RECIPROCAL: Question = Question {
    name: "reciprocal",
    about: "Pitch, lengths, heights and forces of a reciprocal roof of equal round poles",
    example: r#"{"count": 9, "plan_radius_m": 2.75, "eye_radius_m": 0.65, "diameter_m": 0.13,
  "line_load_n_m": 1000}"#,
    answer: reciprocal,
};

pub(super) const LAYERS: Question = Question {
    name: "roof-layers",
    about: "Mass and dead load of the layers of a roof, on one square metre or on an area",
    example: r#"{"gravity_m_s2": 9.81, "layers": [
  {"thickness_m": 0.1, "density_kg_m3": 1500}, {"mass_on_area_kg_m2": 20},
  {"mass_on_area_kg_m2": 2}, {"thickness_m": 0.025, "density_kg_m3": 450}]}"#,
    answer: layers,
};

/// The poles where they cross: how far apart their axes are, and their diameter where it was given.
struct Poles {
    axis_distance: Length,
    diameter: Option<Length>,
}

fn poles(given: &mut Given<'_>, reply: &mut Reply) -> Option<Poles> {
    let apart = given.maybe::<Length>("axis_distance_m", Kind::Length);
    let diameter = given.maybe::<Length>("diameter_m", Kind::Length);
    let notch = given.maybe::<Length>("notch_m", Kind::Length);
    let fault = match (apart, diameter, notch) {
        (Some(axis_distance), None, None) if axis_distance > Length::ZERO => {
            return Some(Poles { axis_distance, diameter });
        }
        (None, Some(thick), notch) => {
            let notch = notch.unwrap_or(Length::ZERO);
            if notch >= Length::ZERO && notch < thick {
                let axis_distance = reply.put("axis_distance", roof::axis_distance(thick, notch));
                return Some(Poles { axis_distance, diameter });
            }
            "`diameter_m` must be above zero, and `notch_m` not below zero and less than `diameter_m`"
        }
        (Some(_), None, None) => "`axis_distance_m` must be above zero",
        _ => "write either `axis_distance_m` alone, or `diameter_m` with or without `notch_m`",
    };
    given.problem(fault.into());
    None
}

/// The loads that a question names; none of them lifts.
fn loads(given: &mut Given<'_>) -> (Option<Force>, Option<Pressure>) {
    let line = given.maybe::<f64>("line_load_n_m", Kind::Number).map(Force::n);
    let area = given.maybe::<Pressure>("area_load_pa", Kind::Pressure);
    if line.is_some_and(|load| load < Force::ZERO) || area.is_some_and(|load| load < Pressure::ZERO) {
        given.problem("`line_load_n_m` and `area_load_pa` press down and must not be below zero".into());
    }
    (line, area)
}

fn reciprocal(given: &mut Given<'_>, reply: &mut Reply) {
    let count = given.count("count", 3);
    let outer = given.number::<Length>("plan_radius_m", Kind::Length);
    let eye = given.number::<Length>("eye_radius_m", Kind::Length);
    let poles = poles(given, reply);
    let overhang = given.maybe("overhang_m", Kind::Length).unwrap_or(Length::ZERO);
    let tip = given.maybe("tip_m", Kind::Length).unwrap_or(Length::ZERO);
    let (line_load, area_load) = loads(given);
    let wanted = given.maybe::<Angle>("wanted_pitch_rad", Kind::Angle);
    if overhang < Length::ZERO || tip < Length::ZERO {
        given.problem("`overhang_m` and `tip_m` must not be below zero".into());
    }
    if wanted.is_some_and(|pitch| pitch.in_rad() <= 0.0 || pitch.in_rad() >= FRAC_PI_2) {
        given.problem("`wanted_pitch_rad` must lie between level and upright, above 0 and below 1.57".into());
    }
    let (Some(count), Some(outer), Some(eye), Some(poles)) = (count, outer, eye, poles) else { return };
    if eye <= Length::ZERO || eye >= outer {
        given.problem("`eye_radius_m` must be above zero and less than `plan_radius_m`".into());
        return;
    }
    if !roof::closes(count, eye, poles.axis_distance) {
        let least = roof::eye_radius_for_pitch(count, poles.axis_distance, Angle::rad(FRAC_PI_2)).value;
        given.problem(format!(
            "{count} rafters with their axes {} m apart do not close round this eye; `eye_radius_m` must be above {:.3}",
            poles.axis_distance.in_m(),
            least.in_m()
        ));
        return;
    }
    let pitch = reply.put("pitch", roof::pitch(count, eye, poles.axis_distance));
    reply.answer.insert("pitch_deg".into(), json!(pitch.in_deg()));
    let first = reply.put("to_first_crossing", roof::to_first_crossing(count, outer, eye));
    let between = reply.put("between_crossings", roof::between_crossings(count, eye));
    let whole = reply.put("plan_length", roof::plan_length(first, between));
    reply.put("axis_length", roof::axis_length(whole, pitch));
    reply.put("axis_length_to_first_crossing", roof::axis_length(first, pitch));
    reply.put("pole_length", roof::pole_length(whole, overhang, tip, pitch));
    let offset = reply.put("crossing_offset", roof::crossing_offset(count, poles.axis_distance, pitch));
    reply.put("contact_shift", roof::contact_shift(count, offset, pitch));
    reply.put("first_crossing_height", roof::crossing_height(first, pitch));
    let height = reply.put("second_crossing_height", roof::crossing_height(whole, pitch));
    if let Some(diameter) = poles.diameter {
        reply.put("prop_height", roof::prop_height(height, diameter, pitch));
    }
    reply.put("eye_area", roof::eye_area(count, eye));
    if let Some(load) = line_load {
        reply.put("crossing_force_line_load", roof::crossing_force_line_load(load, whole, between));
        let moment = roof::moment_at_first_crossing_line_load_n_m(load, whole, between);
        reply.put("moment_at_first_crossing_line_load_n_m", moment);
    }
    if let Some(load) = area_load {
        let force = reply.put("crossing_force_area_load", roof::crossing_force_area_load(load, count, outer, eye));
        let moment = roof::moment_at_first_crossing_area_load_n_m(force, between);
        reply.put("moment_at_first_crossing_area_load_n_m", moment);
    }
    let Some(wanted) = wanted else { return };
    reply.put("eye_radius_for_wanted_pitch", roof::eye_radius_for_pitch(count, poles.axis_distance, wanted));
    if let Some(diameter) = poles.diameter {
        reply.put("notch_for_wanted_pitch", roof::notch_for_pitch(count, eye, diameter, wanted));
    }
}

/// A layer: so thick of a density, or known by its mass on an area.
enum Layer {
    Thick(Length, Density),
    Sheet(SurfaceMass),
}

fn layer(given: &mut Given<'_>) -> Option<Layer> {
    let thickness = given.maybe::<Length>("thickness_m", Kind::Length);
    let density = given.maybe::<Density>("density_kg_m3", Kind::Density);
    let sheet = given.maybe::<SurfaceMass>("mass_on_area_kg_m2", Kind::SurfaceMass);
    match (thickness, density, sheet) {
        (Some(thickness), Some(density), None) if thickness > Length::ZERO && density > Density::ZERO => {
            return Some(Layer::Thick(thickness, density));
        }
        (None, None, Some(mass)) if mass > SurfaceMass::ZERO => return Some(Layer::Sheet(mass)),
        (Some(_), Some(_), None) => given.problem("`thickness_m` and `density_kg_m3` must be above zero".into()),
        (None, None, Some(_)) => given.problem("`mass_on_area_kg_m2` must be above zero".into()),
        _ => given.problem("write `thickness_m` and `density_kg_m3`, or `mass_on_area_kg_m2` alone".into()),
    }
    None
}

fn layers(given: &mut Given<'_>, reply: &mut Reply) {
    let area = given.maybe("area_m2", Kind::Area).unwrap_or(Area::m2(1.0));
    let gravity = given.maybe::<f64>("gravity_m_s2", Kind::Number).unwrap_or(roof::STANDARD_GRAVITY_M_S2);
    let layers = given.list("layers", layer);
    if area <= Area::ZERO || gravity <= 0.0 {
        given.problem("`area_m2` and `gravity_m_s2` must be above zero".into());
        return;
    }
    if layers.is_empty() {
        given.problem("`layers` has no layer; write a list of objects in brackets".into());
        return;
    }
    let mut masses: Vec<Mass> = Vec::new();
    for (number, layer) in layers.iter().enumerate().map(|(index, layer)| (index + 1, layer)) {
        let mass = match *layer {
            Layer::Thick(thickness, density) => {
                let volume = reply.put(&format!("layer_{number}_volume"), roof::layer_volume(area, thickness));
                roof::layer_mass(volume, density)
            }
            Layer::Sheet(mass_on_area) => roof::sheet_mass(area, mass_on_area),
        };
        masses.push(reply.put(&format!("layer_{number}_mass"), mass));
    }
    let mass = reply.put("mass", roof::saturated_mass(masses.into_iter().sum()));
    reply.put("mass_on_area", roof::mass_on_area(mass, area));
    reply.put("dead_load", roof::dead_load(mass, area, gravity));
}

#[cfg(test)]
mod tests {
    use serde_json::{Value, json};

    use crate::ask::ask;

    fn told(name: &str, request: &Value) -> Vec<String> {
        let reply = ask(name, request).unwrap();
        reply["problems"].as_array().unwrap().iter().map(|problem| problem.as_str().unwrap().to_owned()).collect()
    }

    fn frame(changes: &Value) -> Value {
        let mut frame = json!({"count": 6, "plan_radius_m": 3, "eye_radius_m": 0.5, "axis_distance_m": 0.15});
        for (key, value) in changes.as_object().unwrap() {
            frame[key] = value.clone();
        }
        frame
    }

    #[test]
    fn a_frame_that_does_not_close_is_told_the_eye_that_would() {
        let told = told("reciprocal", &frame(&json!({"eye_radius_m": 0.1, "axis_distance_m": 0.2})));
        assert_eq!(
            told,
            ["6 rafters with their axes 0.2 m apart do not close round this eye; `eye_radius_m` must be above 0.231"]
        );
    }

    #[test]
    fn a_wrong_frame_is_told_in_one_sentence() {
        for (changes, said) in [
            (json!({"count": 2}), "write a whole number, 3 or more"),
            (json!({"count": 6.5}), "write a whole number, 3 or more"),
            (json!({"eye_radius_m": 3}), "less than `plan_radius_m`"),
            (json!({"eye_radius_m": 0}), "above zero and less than"),
            (json!({"axis_distance_m": 0}), "`axis_distance_m` must be above zero"),
            (json!({"notch_m": 0.01}), "`axis_distance_m` alone"),
            (json!({"diameter_m": 0.15}), "`axis_distance_m` alone"),
            (json!({"line_load_n_m": -1}), "must not be below zero"),
            (json!({"area_load_pa": -1}), "must not be below zero"),
            (json!({"line_load_n_m": "1 kN"}), "write a plain number"),
            (json!({"tip_m": -0.1}), "must not be below zero"),
            (json!({"wanted_pitch_rad": 1.6}), "between level and upright"),
        ] {
            let told = told("reciprocal", &frame(&changes));
            assert!(told.len() == 1 && told[0].contains(said), "{changes}: {told:?}");
        }
        let mut notched = json!({"count": 6, "plan_radius_m": 3, "eye_radius_m": 0.5, "diameter_m": 0.15});
        assert!(told("reciprocal", &notched).is_empty());
        notched["notch_m"] = json!(0.15);
        assert!(told("reciprocal", &notched)[0].contains("less than `diameter_m`"));
    }

    #[test]
    fn a_frame_without_a_diameter_has_no_underside() {
        let reply = ask("reciprocal", &frame(&json!({"wanted_pitch_rad": 0.3}))).unwrap();
        assert!(reply["answer"]["eye_radius_for_wanted_pitch_m"].is_number());
        assert_eq!(reply["answer"]["prop_height_m"], Value::Null);
        assert_eq!(reply["answer"]["notch_for_wanted_pitch_m"], Value::Null);
    }

    #[test]
    fn the_load_of_layers_does_not_depend_on_the_area() {
        let load = |area: f64| {
            let layers = json!([{"thickness_m": 0.1, "density_kg_m3": 1500}]);
            ask("roof-layers", &json!({"area_m2": area, "layers": layers})).unwrap()["answer"].clone()
        };
        assert_eq!(load(1.0)["dead_load_pa"], load(4.0)["dead_load_pa"]);
        assert_eq!(load(4.0)["layer_1_volume_m3"], json!(0.4));
        assert_eq!(load(4.0)["mass_kg"], json!(600.0));
        assert_eq!(load(4.0)["mass_on_area_kg_m2"], json!(150.0));
    }

    #[test]
    fn a_wrong_layer_is_told_with_its_place() {
        for (layers, said) in [
            (json!([]), "`layers` has no layer"),
            (json!([{"mass_on_area_kg_m2": 2}, {"thickness_m": 0.1}]), "layers 2: write `thickness_m` and"),
            (json!([{"mass_on_area_kg_m2": 0}]), "layers 1: `mass_on_area_kg_m2` must be above zero"),
        ] {
            let told = told("roof-layers", &json!({"layers": layers}));
            assert!(told[0].contains(said), "{layers}: {told:?}");
        }
        let heavy = json!({"gravity_m_s2": 0, "layers": [{"mass_on_area_kg_m2": 2}]});
        assert!(told("roof-layers", &heavy)[0].contains("above zero"));
    }
}

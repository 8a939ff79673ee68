//! Questions of soil on a roof: whether it slides, what it pushes on the edge, what it weighs soaked and ponded.

use super::given::Given;
use super::{Question, Reply};
use crate::loads::tables::fact;
use crate::roof;
use crate::units::{Angle, Density, Kind, Length, LineLoad, Mass, Pressure, Ratio, Volume};

pub(super) const SLIDE: Question = Question {
    name: "slide",
    about: "Whether soil slides down its sheet, with water in it and with battens, and what it pushes on the edge board",
    example: r#"{"pitch_rad": 0.3141592653589793, "friction_rad": 0.3839724354387525, "weight_pa": 2400,
  "slope_length_m": 3.2, "wanted": 1.5, "under_water_ratio": 0.3, "soil_kg_m3": 2000}"#,
    answer: slide,
};

pub(super) const LIVING_ROOF: Question = Question {
    name: "living-roof",
    about: "A layer of soil dry, soaked as your bucket says and laid too deep, its drain layer full, its outlet blocked",
    example: r#"{"thickness_m": 0.12, "dry_kg_m3": 1400, "bucket_full_kg": 41, "bucket_empty_kg": 1, "bucket_m3": 0.02,
  "board_m": 0.15, "pitch_rad": 0.3141592653589793}"#,
    answer: living_roof,
};

fn slide(given: &mut Given<'_>, reply: &mut Reply) {
    let pitch = given.number::<Angle>("pitch_rad", Kind::Angle);
    let friction = given.maybe::<Angle>("friction_rad", Kind::Angle);
    let weight = given.maybe::<Pressure>("weight_pa", Kind::Pressure);
    let slope = given.maybe::<Length>("slope_length_m", Kind::Length);
    let wanted = given.maybe::<f64>("wanted", Kind::Number);
    let under_water = given.maybe::<Ratio>("under_water_ratio", Kind::Ratio);
    let soil = given.maybe::<Density>("soil_kg_m3", Kind::Density);
    let battens = given.maybe::<LineLoad>("batten_holds_n_m", Kind::LineLoad);
    let spacing = given.maybe::<Length>("batten_spacing_m", Kind::Length);
    let board = given.maybe::<Length>("board_m", Kind::Length);
    let Some(pitch) = pitch else { return };
    let angles = [Some(pitch), friction];
    if angles.iter().flatten().any(|angle| *angle <= Angle::ZERO || *angle >= Angle::deg(90.0)) {
        given.problem("`pitch_rad` and `friction_rad` must lie above 0 and below upright".into());
        return;
    }
    let sizes = [weight.map(Pressure::in_pa), slope.map(Length::in_m), wanted, soil.map(Density::in_kg_m3)];
    let others = [battens.map(LineLoad::in_n_m), spacing.map(Length::in_m), board.map(Length::in_m)];
    if sizes.iter().chain(&others).flatten().any(|size| *size <= 0.0) {
        given.problem("every number must be above zero".into());
        return;
    }
    if under_water.is_some_and(|share| share < Ratio::ZERO || share > Ratio::fraction(1.0)) {
        given.problem("`under_water_ratio` is a share of the depth, from 0 to 1".into());
        return;
    }
    let friction = friction.unwrap_or_else(|| {
        let least = fact("soil-membrane-low-deg");
        Angle::deg(reply.fact("friction_deg", "Friction of wet soil on a smooth sheet, the low end, degrees", least))
    });
    let mut safety = reply.put("safety", roof::slide_safety(friction, pitch));
    if let (Some(share), Some(soil)) = (under_water, soil) {
        let water = water(reply);
        safety = reply.put("wet_safety", roof::wet_slide_safety(friction, pitch, share, water, soil));
    }
    if let (Some(battens), Some(spacing), Some(weight)) = (battens, spacing, weight) {
        let with = roof::batten_slide_safety(safety, battens, spacing, weight, pitch);
        reply.put("batten_safety", with);
    }
    if let Some(weight) = weight {
        reply.put("pull", roof::downhill_pull(weight, pitch));
    }
    if let (Some(weight), Some(slope)) = (weight, slope) {
        reply.put("edge_push_without_friction", roof::edge_push_without_friction(weight, slope, pitch));
        if let Some(wanted) = wanted {
            reply.put("edge_push", roof::edge_push(weight, slope, pitch, safety, wanted));
        }
    }
    if let Some(board) = board {
        let water = water(reply);
        reply.put("water_push", roof::water_push(board, water));
    }
}

fn water(reply: &mut Reply) -> Density {
    Density::kg_m3(reply.fact("water", "Density of water, kg/m3", fact("water-kg-m3")))
}

/// The soaked density by the builder's bucket, else the heavier of what is taken on trust.
fn soaked(given: &mut Given<'_>, reply: &mut Reply) -> Option<Density> {
    let full = given.maybe::<Mass>("bucket_full_kg", Kind::Mass);
    let empty = given.maybe::<Mass>("bucket_empty_kg", Kind::Mass);
    let volume = given.maybe::<Volume>("bucket_m3", Kind::Volume);
    match (full, empty, volume) {
        (Some(full), Some(empty), Some(volume)) if full > empty && empty >= Mass::ZERO && volume > Volume::ZERO => {
            Some(reply.put("soaked", roof::soaked_density(full, empty, volume)))
        }
        (None, None, None) => {
            let title = "Density of wet soil until a soaked bucket is weighed";
            let (low, high) = (fact("soaked-soil-low-kg-m3")?, fact("soaked-soil-high-kg-m3")?);
            reply.read_off("soaked_low", title, Density::kg_m3(low.number), &low.citation);
            Some(reply.read_off("soaked", title, Density::kg_m3(high.number), &high.citation))
        }
        _ => {
            given.problem(
                "write `bucket_full_kg`, `bucket_empty_kg` and `bucket_m3`, the full one heavier, or none of them"
                    .into(),
            );
            None
        }
    }
}

fn living_roof(given: &mut Given<'_>, reply: &mut Reply) {
    let thickness = given.number::<Length>("thickness_m", Kind::Length);
    let dry = given.maybe::<Density>("dry_kg_m3", Kind::Density);
    let drain = given.maybe::<Length>("drain_m", Kind::Length);
    let room = given.maybe::<Ratio>("drain_room_ratio", Kind::Ratio);
    let board = given.maybe::<Length>("board_m", Kind::Length);
    let pitch = given.maybe::<Angle>("pitch_rad", Kind::Angle);
    let soaked = soaked(given, reply);
    let lengths = [thickness, drain, board].map(|length| length.map(Length::in_m));
    let others = [dry.map(Density::in_kg_m3), room.map(Ratio::in_fraction), pitch.map(Angle::in_rad)];
    if lengths.iter().chain(&others).flatten().any(|size| *size <= 0.0) {
        given.problem("every number must be above zero".into());
        return;
    }
    let (Some(thickness), Some(soaked)) = (thickness, soaked) else { return };
    let mass = reply.put("soaked_on_area", roof::layer_on_area(soaked, thickness));
    reply.put("soaked_load", roof::weight_on_slope(mass));
    let title = "Share that soil may be laid too deep";
    let Some(share) = fact("over-depth-ratio") else { return };
    let too_deep = reply.read_off("too_deep", title, Ratio::fraction(share.number), &share.citation);
    let deep = reply.put("over_deep", roof::over_deep(thickness, too_deep));
    let mass = reply.put("over_deep_on_area", roof::layer_on_area(soaked, deep));
    reply.put("over_deep_load", roof::weight_on_slope(mass));
    if let Some(dry) = dry {
        reply.put("dry_on_area", roof::layer_on_area(dry, thickness));
        reply.put("held_water", roof::held_water(soaked, dry, thickness));
    }
    if let (Some(drain), Some(room)) = (drain, room) {
        let water = water(reply);
        reply.put("drain_water", roof::drain_water(water, room, drain));
    }
    if let (Some(board), Some(pitch)) = (board, pitch) {
        let water = water(reply);
        reply.put("pond_reach", roof::pond_reach(board, pitch));
        let mass = reply.put("pond_on_each_metre_kg", roof::pond_on_each_metre(board, pitch, water));
        reply.put("pond_weight", roof::pond_weight(mass));
    }
}

#[cfg(test)]
mod tests {
    use serde_json::{Value, json};

    use crate::ask::ask;

    fn told(name: &str, request: &Value) -> String {
        ask(name, request).unwrap()["problems"][0].as_str().unwrap_or_default().to_owned()
    }

    #[test]
    fn soil_without_a_measured_friction_is_taken_to_slide_easily() {
        let answer = ask("slide", &json!({"pitch_rad": 0.3141592653589793})).unwrap()["answer"].clone();
        assert_eq!(answer["friction_deg"], json!(18.0));
        assert!((answer["safety"].as_f64().unwrap() - 1.0).abs() < 1e-12);
    }

    #[test]
    fn soil_without_a_weighed_bucket_is_taken_as_the_heavier_and_laid_a_quarter_too_deep() {
        let answer = ask("living-roof", &json!({"thickness_m": 0.1})).unwrap()["answer"].clone();
        assert_eq!((&answer["soaked_low_kg_m3"], &answer["soaked_kg_m3"]), (&json!(1900.0), &json!(2100.0)));
        assert!((answer["over_deep_on_area_kg_m2"].as_f64().unwrap() - 262.5).abs() < 1e-9);
    }

    #[test]
    fn wrong_soil_is_told_in_one_sentence() {
        assert!(told("slide", &json!({"pitch_rad": 0})).contains("above 0"));
        assert!(told("slide", &json!({"pitch_rad": 0.3, "weight_pa": 0})).contains("above zero"));
        assert!(told("slide", &json!({"pitch_rad": 0.3, "under_water_ratio": 2})).contains("from 0 to 1"));
        assert!(told("living-roof", &json!({"thickness_m": 0.1, "bucket_m3": 0.02})).contains("or none of them"));
        assert!(told("living-roof", &json!({"thickness_m": 0})).contains("above zero"));
    }
}

//! The question about the skin of a deck: cuts at the eave, water, layers, sheets.

use serde_json::json;

use super::deck::surface;
use super::deck_frame::frame;
use super::given::Given;
use super::{Question, Reply};
use crate::roof::deck::{self, EdgeBoard, EdgePoint, Frame};
use crate::roof::{STANDARD_GRAVITY_M_S2, layer_mass};
use crate::units::{Angle, Area, Density, Kind, Length, Mass, Speed, Volume};

pub(super) const SKIN: Question = Question {
    name: "deck",
    about: "Eave cuts, edge boards, outlets and rain, layers on the twisted surface and sheets of a pole roof",
    example: r#"{"measured": "plumb", "closed": false, "layers": [{"thickness_m": 0.1, "density_kg_m3": 1500}],
  "outlets": [{"rafter": 1}], "rain_m_s": 0.00003, "rafters": [
  {"foot_x_m": 0, "foot_y_m": 0, "foot_z_m": 0, "head_x_m": 0, "head_y_m": 4, "head_z_m": 3},
  {"foot_x_m": 2, "foot_y_m": 0, "foot_z_m": 0.1, "head_x_m": 2, "head_y_m": 4, "head_z_m": 3.1}]}"#,
    answer: skin,
};

fn skin(given: &mut Given<'_>, reply: &mut Reply) {
    let plumb = measured(given);
    let layers = given.list("layers", layer);
    let outlets = given.list("outlets", outlet);
    let rain = given.maybe::<Speed>("rain_m_s", Kind::Speed);
    let depth = given.maybe::<Length>("overflow_depth_m", Kind::Length);
    let bulk =
        Bulk { bucket: given.maybe("bucket_m3", Kind::Volume), pegs: given.maybe("peg_spacing_m", Kind::Length) };
    let sheet = sheet(given);
    let frame = frame(given);
    let positive = [depth, bulk.pegs].iter().flatten().all(|&length| length > Length::ZERO)
        && bulk.bucket.is_none_or(|bucket| bucket > Volume::ZERO)
        && rain.is_none_or(|rain| rain > Speed::ZERO);
    if !positive {
        given.problem("`rain_m_s`, `overflow_depth_m`, `bucket_m3` and `peg_spacing_m` must be above zero".into());
    }
    let (Some(plumb), Some(frame), true) = (plumb, frame, given.is_fine()) else { return };
    if outlets.iter().any(|&place| place >= deck::PLACES_IN_BAY * frame.bays().len() + usize::from(!frame.is_closed()))
    {
        given.problem("an outlet stands at a `rafter`, or beyond one, that is not there".into());
        return;
    }
    surface(reply, &frame);
    eave(reply, &frame);
    water(reply, &frame, &outlets, rain, depth);
    laid(reply, &frame, plumb, &layers, &bulk);
    if let Some(sheet) = sheet {
        sheets(given, reply, &frame, &sheet);
    }
}

/// An outlet by its place along the eave: at a rafter's tail, or quarters of the way on to the next.
fn outlet(given: &mut Given<'_>) -> Option<usize> {
    let rafter = given.count("rafter", 1);
    let quarters = given.maybe::<f64>("quarters", Kind::Number).unwrap_or(0.0);
    if ![0.0, 1.0, 2.0, 3.0].contains(&quarters) {
        given.problem("`quarters` of the way to the next rafter are 0, 1, 2 or 3".into());
        return None;
    }
    let before = usize::try_from(rafter?.min(u64::from(u16::MAX)) - 1).ok()?;
    Some(before * deck::PLACES_IN_BAY + quarters as usize)
}

/// Whether thicknesses are measured plumb.
fn measured(given: &mut Given<'_>) -> Option<bool> {
    match given.text("measured")? {
        "plumb" => Some(true),
        "square" => Some(false),
        other => {
            given.problem(format!("`measured` is \"{other}\"; write \"plumb\", or \"square\" to the deck"));
            None
        }
    }
}

fn layer(given: &mut Given<'_>) -> Option<(Length, Option<Density>)> {
    let thickness = given.number::<Length>("thickness_m", Kind::Length);
    let density = given.maybe::<Density>("density_kg_m3", Kind::Density);
    let thickness = thickness?;
    if thickness <= Length::ZERO || density.is_some_and(|density| density <= Density::ZERO) {
        given.problem("`thickness_m` and `density_kg_m3` must be above zero".into());
        return None;
    }
    Some((thickness, density))
}

fn eave(reply: &mut Reply, frame: &Frame) {
    reply.put("eave_length", deck::eave_length(frame));
    reply.put("eye_length", deck::eye_length(frame));
    let tails: Vec<f64> = deck::tails(frame).into_iter().map(Length::in_m).collect();
    let rad = |angle: Option<Angle>| angle.map(|angle| angle.in_rad());
    let board = |board: &EdgeBoard| {
        json!({
            "string_m": board.string.in_m(), "curve_m": board.curve.in_m(), "rise_rad": board.rise.in_rad(),
            "ordinates_m": board.ordinates.map(Length::in_m), "from_bevel_rad": rad(board.bevels[0]), "to_bevel_rad": rad(board.bevels[1]),
        })
    };
    let boards = deck::edge_boards(frame);
    let out = boards.iter().flat_map(|board| board.ordinates).fold(Length::ZERO, |most, one| most.max(one.abs()));
    reply.answer.insert("largest_ordinate_m".into(), json!(out.in_m()));
    reply.answer.insert("tails_m".into(), json!(tails));
    let pieces: Vec<f64> = deck::eye_frame(frame).into_iter().map(Length::in_m).collect();
    reply.answer.insert("eye_frame_m".into(), json!(pieces));
    reply.answer.insert("edge_boards".into(), boards.iter().map(board).collect());
}

fn water(reply: &mut Reply, frame: &Frame, outlets: &[usize], rain: Option<Speed>, depth: Option<Length>) {
    let points = deck::edge_points(frame);
    let level = |point: &EdgePoint| point.place[2];
    let Some(lowest) = points.iter().min_by(|a, b| level(a).total_cmp(&level(b))) else { return };
    for (key, value) in [("lowest_z_m", lowest.place[2]), ("lowest_along_m", lowest.along.in_m())] {
        reply.answer.insert(key.into(), json!(value));
    }
    let edge = points.iter().map(|point| json!({"along_m": point.along.in_m(), "z_m": level(point)}));
    reply.answer.insert("edge".into(), edge.collect());
    if outlets.is_empty() {
        return;
    }
    let found = deck::drainage(&points, frame.is_closed(), outlets);
    let most = found.catchments.iter().map(|one| one.area).fold(Area::ZERO, Area::max);
    reply.answer.insert("largest_catchment_m2".into(), json!(most.in_m2()));
    let ponding =
        found.ponding.map(|(place, deep)| json!({"along_m": points[place].along.in_m(), "depth_m": deep.in_m()}));
    reply.answer.insert("ponding".into(), json!(ponding));
    let outlet = |one: &deck::Catchment| {
        let along = points[one.outlet].along.in_m();
        json!({"along_m": along, "area_m2": one.area.in_m2(), "depth_if_blocked_m": one.depth_if_blocked.map(Length::in_m)})
    };
    reply.answer.insert("outlets".into(), found.catchments.iter().map(outlet).collect());
    if let Some(rain) = rain {
        let flow = reply.put("largest_rain_flow_m3_s", deck::rain_flow_m3_s(rain, most));
        if let Some(depth) = depth {
            reply.put("overflow_width", deck::overflow_width(flow, depth, STANDARD_GRAVITY_M_S2));
        }
    }
}

/// How loose layers are measured and carried.
struct Bulk {
    bucket: Option<Volume>,
    pegs: Option<Length>,
}

fn laid(reply: &mut Reply, frame: &Frame, plumb: bool, layers: &[(Length, Option<Density>)], bulk: &Bulk) {
    let (area, plan) = (deck::deck_area(frame).value, deck::deck_plan_area(frame).value);
    let [bend, twist] = [deck::summed_mean_curvature(frame), deck::summed_gaussian_curvature(frame)];
    let (bend, twist) = match plumb {
        true => (bend.value, twist.value),
        false => (reply.put("summed_mean_curvature_m", bend), reply.put("summed_gaussian_curvature", twist)),
    };
    let mut under = Length::ZERO;
    let mut mass = Mass::ZERO;
    for (number, &(thickness, density)) in layers.iter().enumerate() {
        let name = |what: &str| format!("layer_{}_{what}", number + 1);
        let volume = match plumb {
            true => deck::volume_plumb(plan, thickness),
            false => deck::volume_square_to_deck(area, bend, twist, under, thickness),
        };
        let volume = reply.put(&name("volume"), volume);
        under = under + thickness;
        if !plumb {
            reply.put(&name("top_area"), deck::sheet_area(area, bend, twist, under));
        }
        if let Some(density) = density {
            mass = mass + reply.put(&name("mass"), layer_mass(volume, density));
        }
        if let Some(bucket) = bulk.bucket {
            reply.put(&name("buckets"), deck::buckets_up(volume, bucket));
        }
    }
    if layers.iter().any(|layer| layer.1.is_some()) {
        reply.answer.insert("mass_kg".into(), json!(mass.in_kg()));
    }
    if let Some(spacing) = bulk.pegs {
        reply.put("depth_pegs", deck::depth_pegs(area, spacing));
    }
}

/// A sheet out of rolls.
struct Sheet {
    width: Length,
    roll: Length,
    lap: Length,
    upstand: Length,
}

fn sheet(given: &mut Given<'_>) -> Option<Sheet> {
    let width = given.maybe::<Length>("roll_width_m", Kind::Length);
    let roll = given.maybe::<Length>("roll_length_m", Kind::Length);
    let lap = given.maybe::<Length>("lap_m", Kind::Length);
    let upstand = given.maybe::<Length>("upstand_m", Kind::Length);
    match (width, roll, lap, upstand) {
        (None, None, None, None) => None,
        (Some(width), Some(roll), Some(lap), Some(upstand))
            if lap >= Length::ZERO && width > lap && upstand >= Length::ZERO && roll > Length::ZERO =>
        {
            Some(Sheet { width, roll, lap, upstand })
        }
        _ => {
            given.problem(
                "a sheet needs `roll_width_m` above `lap_m`, `roll_length_m`, `lap_m` and `upstand_m`, none below zero"
                    .into(),
            );
            None
        }
    }
}

fn sheets(given: &mut Given<'_>, reply: &mut Reply, frame: &Frame, sheet: &Sheet) {
    let (eave, eye) = (deck::eave_length(frame).value, deck::eye_length(frame).value);
    let up = reply.put("longest_way_up", deck::longest_way_up(frame));
    reply.put("upstand_area", deck::upstand_area(sheet.upstand, eave, eye));
    let strips = match frame.is_closed() {
        true => deck::strips_round(eave, sheet.width, sheet.lap),
        false => deck::strips_across(eave, sheet.width, sheet.lap),
    };
    let count = reply.put("strips", strips);
    let strip = reply.put("strip_length", deck::strip_length(up, sheet.upstand));
    if strip > sheet.roll {
        given.problem(format!("a strip of {:.2} m is longer than a roll", strip.in_m()));
        return;
    }
    reply.put("rolls", deck::rolls(count, strip, sheet.roll));
}

#[cfg(test)]
mod tests {
    use serde_json::{Value, json};

    use crate::ask::ask;

    fn ring(changes: &Value) -> Value {
        let mut ring = json!({"measured": "square", "count": 9, "plan_radius_m": 2.8, "eye_radius_m": 0.6, "diameter_m": 0.14,
            "eave_beyond_m": 0.6, "eye_edge_radius_m": 0.8});
        for (key, value) in changes.as_object().unwrap() {
            ring[key] = value.clone();
        }
        ask("deck", &ring).unwrap()
    }

    #[test]
    fn layers_lie_on_each_other_and_a_higher_one_on_a_dome_is_larger() {
        let layer = json!({"thickness_m": 0.1});
        let answer = ring(&json!({"layers": [layer, layer]}))["answer"].clone();
        assert!(answer["layer_1_volume_m3"].as_f64() < answer["layer_2_volume_m3"].as_f64());
        assert!(answer["area_m2"].as_f64() < answer["layer_1_top_area_m2"].as_f64());
        assert_eq!(answer["mass_kg"], Value::Null);
    }

    #[test]
    fn water_stands_behind_outlets_at_tails_and_runs_off_half_way_between_them() {
        let at = |quarters: u32| {
            let outlets: Vec<Value> = (1..=9).map(|rafter| json!({"rafter": rafter, "quarters": quarters})).collect();
            ring(&json!({"outlets": outlets}))["answer"].clone()
        };
        assert!(at(0)["ponding"]["depth_m"].as_f64().unwrap() > 0.05);
        assert_eq!(at(2)["ponding"], Value::Null);
        assert!(at(2)["outlets"][0]["depth_if_blocked_m"].as_f64().unwrap() > 0.05);
    }

    #[test]
    fn a_sheet_is_cut_into_strips_with_an_upstand_at_either_end() {
        let sheet = json!({"roll_width_m": 2, "roll_length_m": 15, "lap_m": 0.1, "upstand_m": 0.15});
        let answer = ring(&sheet)["answer"].clone();
        let up = answer["longest_way_up_m"].as_f64().unwrap();
        assert!((answer["strip_length_m"].as_f64().unwrap() - up - 0.3).abs() < 1e-12);
        assert_eq!((&answer["strips_count"], &answer["rolls_count"]), (&json!(12.0), &json!(3.0)));
    }

    #[test]
    fn a_wrong_skin_is_told_in_one_sentence() {
        for (changes, said) in [
            (json!({"measured": "along"}), "write \"plumb\""),
            (json!({"outlets": [{"rafter": 10}]}), "that is not there"),
            (json!({"outlets": [{"rafter": 1, "quarters": 1.5}]}), "are 0, 1, 2 or 3"),
            (json!({"layers": [{"thickness_m": 0}]}), "layers 1: `thickness_m`"),
            (json!({"lap_m": 0.1}), "a sheet needs"),
            (json!({"rain_m_s": 0}), "must be above zero"),
            (json!({"roll_width_m": 2, "roll_length_m": 2, "lap_m": 0.1, "upstand_m": 0.15}), "longer than a roll"),
        ] {
            let reply = ring(&changes);
            let told = reply["problems"].as_array().unwrap();
            assert!(told.len() == 1 && told[0].as_str().unwrap().contains(said), "{changes}: {told:?}");
        }
    }
}

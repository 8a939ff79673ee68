//! The questions about the skin of a pole roof: shims, boards, edge and water, layers.

use serde_json::{Value, json};

use super::deck_frame::{are_few, frame};
use super::given::Given;
use super::{Question, Reply};
use crate::roof::deck::{self, Bedding, Deck, Frame, Shim, ShimTable};
use crate::units::{Kind, Length};

pub(super) const SHIMS: Question = Question {
    name: "shims",
    about: "Bays, twist and shim table of a deck on straight round poles, in a ring or side by side",
    example: r#"{"deck": "flat", "spacing_m": 0.5, "bearing_m": 0, "least_m": 0.01, "closed": false, "rafters": [
  {"foot_x_m": 0, "foot_y_m": 0, "foot_z_m": 0, "head_x_m": 1, "head_y_m": 0, "head_z_m": 0},
  {"foot_x_m": 0, "foot_y_m": 1, "foot_z_m": 0, "head_x_m": 1, "head_y_m": 1, "head_z_m": 1}]}"#,
    answer: shims,
};

pub(super) const NESTING: Question = Question {
    name: "nesting",
    about: "Which boards are cut out of which lengths of stock, and how far that is from the fewest there can be",
    example: r#"{"kerf_m": 0.003, "stock": [{"length_m": 3}], "pieces": [
  {"length_m": 2, "count": 2}, {"length_m": 1, "count": 2}]}"#,
    answer: nesting,
};

fn bedding(given: &mut Given<'_>) -> Option<Bedding> {
    let word = given.text("deck");
    let spacing = given.number::<Length>("spacing_m", Kind::Length);
    let bearing = given.number::<Length>("bearing_m", Kind::Length);
    let least = given.number::<Length>("least_m", Kind::Length);
    let (word, spacing, bearing, least) = (word?, spacing?, bearing?, least?);
    let deck = match word {
        "ruled" => Deck::Ruled,
        "flat" => Deck::FlatBays,
        "plane" => Deck::OnePlane,
        other => {
            given.problem(format!(
                "`deck` is \"{other}\"; write \"ruled\", \"flat\" for each bay, or \"plane\" for the whole"
            ));
            return None;
        }
    };
    if spacing < Length::mm(10.0) || bearing < Length::ZERO || least < Length::ZERO {
        given.problem("`spacing_m` must be 0.01 or more, `bearing_m` and `least_m` not below zero".into());
        return None;
    }
    Some(Bedding { deck, spacing, bearing, least })
}

fn shims(given: &mut Given<'_>, reply: &mut Reply) {
    let bedding = bedding(given);
    let step = given.maybe::<Length>("class_m", Kind::Length);
    let frame = frame(given);
    if step.is_some_and(|step| step < Length::mm(1.0)) {
        given.problem("`class_m` must be 0.001 or more".into());
    }
    let (Some(bedding), Some(frame), true) = (bedding, frame, given.is_fine()) else { return };
    if !are_few(given, &frame, bedding.spacing, "stations") {
        return;
    }
    surface(reply, &frame);
    let table = deck::shims(&frame, &bedding);
    reply.put("volume", deck::shim_volume(bedding.bearing, &frame, &table));
    let number = |name: &str, value: Value, reply: &mut Reply| reply.answer.insert(name.into(), value);
    number("largest_m", json!(table.largest().in_m()), reply);
    number("lowest_m", json!(table.least().in_m()), reply);
    number("shims_count", json!(table.all().count()), reply);
    number("raised_m", json!(table.raised.iter().map(|raised| raised.in_m()).collect::<Vec<_>>()), reply);
    number("rafters", rows(&table), reply);
    if let Some(step) = step {
        let class = |(class, count): (u64, u64)| json!({"to_m": step.in_m() * class as f64, "count": count});
        number("classes", table.classes(step).into_iter().map(class).collect(), reply);
    }
}

/// What the surface measures, over all and bay by bay.
pub(super) fn surface(reply: &mut Reply, frame: &Frame) {
    reply.put("area", deck::deck_area(frame));
    reply.put("plan_area", deck::deck_plan_area(frame));
    reply.put("steepest", deck::steepest_slope(frame));
    reply.put("largest_twist_rad_m", deck::largest_twist_on_a_metre(frame));
    let bays = frame.bays();
    let bay = bays.iter().zip(frame.surfaces()).zip(frame.steepest()).map(|((bay, surface), steepest)| {
        let [eave, eye] = bay.twist();
        json!({
            "area_m2": surface.area.in_m2(), "plan_area_m2": surface.plan_area.in_m2(), "area_error_ratio": surface.error,
            "twist_at_eave_rad": eave.in_rad(), "twist_at_eye_rad": eye.in_rad(), "twist_rad_m": bay.twist_on_a_metre(),
            "steepest_slope": steepest.slope.in_ratio(),
            "steepest_x_m": steepest.place[0], "steepest_y_m": steepest.place[1],
        })
    });
    reply.answer.insert("bays".into(), bay.collect());
}

fn rows(table: &ShimTable) -> Value {
    let shim =
        |shim: &Shim| json!({"inner_m": shim.inner.in_m(), "outer_m": shim.outer.in_m(), "cut_rad": shim.cut.in_rad()});
    let station = |station: &deck::Station| {
        let [left, right] = station.sides.map(|side| side.as_ref().map(shim));
        json!({"along_m": station.along.in_m(), "left": left, "right": right})
    };
    table.rafters.iter().map(|stations| stations.iter().map(station).collect::<Value>()).collect()
}

/// So many pieces are asked of at most: the answer comes at once.
const MOST: usize = 5000;

fn piece(given: &mut Given<'_>) -> Option<Vec<Length>> {
    let length = given.number::<Length>("length_m", Kind::Length);
    let count = given.count("count", 1);
    let (length, count) = (length?, count?);
    if length <= Length::ZERO || count > MOST as u64 {
        given.problem(format!("`length_m` must be above zero and `count` at most {MOST}"));
        return None;
    }
    Some(vec![length; count as usize])
}

/// Lengths of stock that must be there.
pub(super) fn stock(given: &mut Given<'_>) -> Vec<Length> {
    let stock = given.list("stock", |given| given.number::<Length>("length_m", Kind::Length));
    if stock.is_empty() || stock.iter().any(|&length| length <= Length::ZERO) {
        given.problem("`stock` is a list of lengths above zero, such as [{\"length_m\": 4}]".into());
    }
    stock
}

/// Cuts pieces out of stock and tells the plan; gives the length that is bought.
pub(super) fn nested(
    given: &mut Given<'_>,
    reply: &mut Reply,
    pieces: &[Length],
    stock: &[Length],
    kerf: Length,
) -> Option<Length> {
    let plan = match deck::nest(pieces, stock, kerf) {
        Ok(plan) => plan,
        Err(place) => {
            let length = pieces.get(place).map_or(0.0, |piece| piece.in_m());
            given.problem(format!("a piece of {length:.3} m is longer than all `stock`"));
            return None;
        }
    };
    reply.put("pieces_length", deck::pieces_length(&plan));
    let bought = reply.put("bought_length", deck::bought_length(&plan));
    reply.put("waste", deck::offcuts(plan.used, plan.bought));
    for (name, count) in
        [("lengths_count", plan.sticks.len() as u64), ("fewest_count", plan.fewest), ("gap_count", plan.gap())]
    {
        reply.answer.insert(name.into(), json!(count));
    }
    let stick = |stick: &deck::Stick| {
        let cut: Vec<f64> = stick.pieces.iter().map(|&piece| pieces[piece].in_m()).collect();
        json!({"stock_m": stick.stock.in_m(), "pieces_m": cut})
    };
    reply.answer.insert("lengths".into(), plan.sticks.iter().map(stick).collect());
    Some(bought)
}

fn nesting(given: &mut Given<'_>, reply: &mut Reply) {
    let kerf = given.number::<Length>("kerf_m", Kind::Length);
    let stock = stock(given);
    let pieces: Vec<Length> = given.list("pieces", piece).into_iter().flatten().take(MOST + 1).collect();
    if pieces.len() > MOST {
        given.problem(format!("more than {MOST} pieces are not answered here"));
    }
    if pieces.is_empty() || kerf.is_some_and(|kerf| kerf < Length::ZERO) {
        given.problem("`pieces` is a list with at least one, and `kerf_m` is not below zero".into());
    }
    let (Some(kerf), true) = (kerf, given.is_fine()) else { return };
    nested(given, reply, &pieces, &stock, kerf);
}

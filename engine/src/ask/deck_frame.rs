//! The rafters of a deck as a question writes them: a regular ring by its measures, or pole by pole.

use kurbo::Point;

use super::given::Given;
use crate::roof;
use crate::roof::deck::{Edge, Frame, Place, Rafter, TopLine, ring};
use crate::units::{Kind, Length};

/// So many rafters are asked of at most: the answer comes at once.
const MOST: usize = 240;

/// The frame of a request: `rafters` one by one, or a regular ring.
pub(super) fn frame(given: &mut Given<'_>) -> Option<Frame> {
    let written = given.has("rafters");
    let rafters = given.list("rafters", rafter);
    let (rafters, closed, eave, eye) = if written { one_by_one(given, rafters)? } else { regular(given)? };
    if !given.is_fine() {
        return None;
    }
    if rafters.len() > MOST {
        given.problem(format!("{} rafters are more than the {MOST} that are answered here", rafters.len()));
        return None;
    }
    match Frame::new(&rafters, closed, eave, eye) {
        Ok(frame) if frame.rafters().iter().all(|top| is_near(top.eave) && is_near(top.eye)) => return Some(frame),
        Ok(_) => {
            given.problem(format!("a rafter ends farther than {FAR} m from the origin, which is not answered here"))
        }
        Err(fault) => given.problem(fault.in_words()),
    }
    None
}

/// So far from the origin a rafter may end, in metres.
const FAR: f64 = 100.0;

fn is_near(place: Place) -> bool {
    place.iter().all(|part| part.abs() <= FAR)
}

/// Whether so many things of a size along all rafters or up all bays are not too many; else it is told.
pub(super) fn are_few(given: &mut Given<'_>, frame: &Frame, size: Length, what: &str) -> bool {
    const MOST_THINGS: f64 = 5000.0;
    let all: Length = frame.rafters().iter().map(TopLine::length).sum();
    let few = all / size <= MOST_THINGS;
    if !few {
        given.problem(format!("more than {MOST_THINGS} {what} are not answered here"));
    }
    few
}

/// So many points an outline may have.
const MOST_POINTS: usize = 500;

type Poles = (Vec<Rafter>, bool, Edge, Edge);

fn regular(given: &mut Given<'_>) -> Option<Poles> {
    let count = given.count("count", 3);
    let outer = given.number::<Length>("plan_radius_m", Kind::Length);
    let eye = given.number::<Length>("eye_radius_m", Kind::Length);
    let diameter = given.number::<Length>("diameter_m", Kind::Length);
    let notch = given.maybe("notch_m", Kind::Length).unwrap_or(Length::ZERO);
    let beyond = given.maybe("eave_beyond_m", Kind::Length).unwrap_or(Length::ZERO);
    let hole = given.number::<Length>("eye_edge_radius_m", Kind::Length);
    let (count, outer, eye, diameter, hole) = (count?, outer?, eye?, diameter?, hole?);
    let apart = roof::axis_distance(diameter, notch).value;
    let fault = if eye <= Length::ZERO || hole <= eye || outer <= hole || beyond < Length::ZERO {
        "`eye_radius_m`, `eye_edge_radius_m` and `plan_radius_m` must grow from above zero, and `eave_beyond_m` not be below it"
    } else if notch < Length::ZERO || !roof::closes(count, eye, apart) {
        "these rafters do not close round the eye; ask `reciprocal` for an eye that they close round"
    } else if count > MOST as u64 {
        "`count` is more than is answered here"
    } else {
        let rafters = ring(count, outer, eye, diameter, roof::pitch(count, eye, apart).value);
        let circle = |radius| Edge::Circle { middle: Point::ORIGIN, radius };
        return Some((rafters, true, circle(outer + beyond), circle(hole)));
    };
    given.problem(fault.into());
    None
}

fn one_by_one(given: &mut Given<'_>, rafters: Vec<Rafter>) -> Option<Poles> {
    let closed = given.yes_or_no("closed");
    let eave = edge(given, "eave", "eave_radius_m");
    let eye = edge(given, "eye", "eye_edge_radius_m");
    Some((rafters, closed?, eave?, eye?))
}

/// A circle about the origin, an outline by its points, or the ends of the rafters.
fn edge(given: &mut Given<'_>, points: &'static str, radius: &'static str) -> Option<Edge> {
    let outline = given.list(points, point);
    let radius = given.maybe::<Length>(radius, Kind::Length);
    match (outline.len(), radius) {
        (0, None) => Some(Edge::Ends),
        (0, Some(radius)) if radius > Length::ZERO => Some(Edge::Circle { middle: Point::ORIGIN, radius }),
        (3..=MOST_POINTS, None) => Some(Edge::Outline(outline)),
        _ => {
            given.problem(format!(
                "`{points}` is an outline of three to {MOST_POINTS} points, or is left out for a circle or for ends"
            ));
            None
        }
    }
}

fn point(given: &mut Given<'_>) -> Option<Point> {
    let (x, y) = (given.number::<Length>("x_m", Kind::Length), given.number::<Length>("y_m", Kind::Length));
    Some(Point::new(x?.in_m(), y?.in_m()))
}

fn rafter(given: &mut Given<'_>) -> Option<Rafter> {
    let mut place = |keys: [&'static str; 3]| -> Option<Place> {
        let [x, y, z] = keys.map(|key| given.number::<Length>(key, Kind::Length));
        Some([x?.in_m(), y?.in_m(), z?.in_m()])
    };
    let foot = place(["foot_x_m", "foot_y_m", "foot_z_m"]);
    let head = place(["head_x_m", "head_y_m", "head_z_m"]);
    let thick = ["foot_diameter_m", "head_diameter_m"].map(|key| given.maybe::<Length>(key, Kind::Length));
    let diameters = thick.map(|diameter| diameter.unwrap_or(Length::ZERO));
    if diameters.iter().any(|&diameter| diameter < Length::ZERO) {
        given.problem("`foot_diameter_m` and `head_diameter_m` must not be below zero".into());
        return None;
    }
    Some(Rafter { foot: foot?, head: head?, diameters })
}

#[cfg(test)]
mod tests {
    use serde_json::{Value, json};

    use crate::ask::ask;

    fn told(changes: &Value) -> Vec<String> {
        let mut ring = json!({"deck": "flat", "spacing_m": 0.5, "bearing_m": 0.08, "least_m": 0.01, "count": 9, "plan_radius_m": 2.8,
            "eye_radius_m": 0.6, "diameter_m": 0.14, "eave_beyond_m": 0.6, "eye_edge_radius_m": 0.8});
        for (key, value) in changes.as_object().unwrap() {
            ring[key] = value.clone();
        }
        let reply = ask("shims", &ring).unwrap();
        reply["problems"].as_array().unwrap().iter().map(|problem| problem.as_str().unwrap().to_owned()).collect()
    }

    #[test]
    fn a_wrong_ring_is_told_in_one_sentence() {
        assert_eq!(told(&json!({})), Vec::<String>::new());
        for (changes, said) in [
            (json!({"eye_edge_radius_m": 0.6}), "must grow from above zero"),
            (json!({"eye_edge_radius_m": 2.8}), "must grow from above zero"),
            (json!({"diameter_m": 0.6}), "do not close round the eye"),
            (json!({"notch_m": -0.1}), "do not close round the eye"),
            (json!({"deck": "round"}), "write \"ruled\", \"flat\""),
            (json!({"spacing_m": 0}), "`spacing_m` must be 0.01 or more"),
            (json!({"class_m": 0}), "`class_m` must be 0.001"),
        ] {
            let told = told(&changes);
            assert!(told.len() == 1 && told[0].contains(said), "{changes}: {told:?}");
        }
    }

    #[test]
    fn poles_written_one_by_one_in_a_wrong_order_are_told_which() {
        let pole = |turn: f64| {
            json!({"foot_x_m": 3.0 * turn.cos(), "foot_y_m": 3.0 * turn.sin(), "foot_z_m": 0, "head_x_m": turn.cos(),
                "head_y_m": turn.sin(), "head_z_m": 0.8, "foot_diameter_m": 0.15, "head_diameter_m": 0.1})
        };
        let request = |turns: &[f64]| {
            let poles: Vec<Value> = turns.iter().copied().map(pole).collect();
            json!({"deck": "ruled", "spacing_m": 0.5, "bearing_m": 0.08, "least_m": 0.01, "closed": true, "rafters": poles,
                "eave_radius_m": 3.5, "eye_edge_radius_m": 1.1})
        };
        let problems = |turns: &[f64]| ask("shims", &request(turns)).unwrap()["problems"].clone();
        assert_eq!(problems(&[0.0, 1.3, 2.6, 3.9, 5.2]), json!([]));
        let said = problems(&[0.0, 1.3, 3.9, 2.6, 5.2])[0].as_str().unwrap().to_owned();
        assert_eq!(said, "the rafter after rafter 3 does not stand next in the ring or row; write them in order");
    }
}

//! A ring of poles as a request says it: sizes for all, and what is otherwise with each.

use std::f64::consts::TAU;

use super::given::Given;
use crate::roof;
use crate::roof::poles::{Layout, Pole, Rafter, Rests, RestsOn, Start, supports};
use crate::units::{Angle, Kind, Length};

/// What a request says of one pole, or of all.
#[derive(Default)]
struct Sizes {
    length: Option<Length>,
    butt: Option<Length>,
    tip: Option<Length>,
    bow: Option<Length>,
    bow_turn: Option<Angle>,
    overhang: Option<Length>,
    notch: Option<Length>,
    bedding: Option<Length>,
    beyond: Option<Length>,
    seat: Option<Length>,
    height: Option<Length>,
    place: Option<Line>,
}

/// More poles than any ring has: a slip in a request must not keep anyone waiting.
const MOST: usize = 60;

/// A support in plan and a point toward which a pole runs.
type Line = ([Length; 2], [Length; 2]);

fn sizes(given: &mut Given<'_>) -> Sizes {
    let length = |given: &mut Given<'_>, key| given.maybe::<Length>(key, Kind::Length);
    Sizes {
        length: length(given, "length_m"),
        butt: length(given, "butt_m"),
        tip: length(given, "tip_m"),
        bow: length(given, "bow_m"),
        bow_turn: given.maybe("bow_turn_rad", Kind::Angle),
        overhang: length(given, "overhang_m"),
        notch: length(given, "notch_m"),
        bedding: length(given, "bedding_m"),
        beyond: length(given, "beyond_m"),
        seat: length(given, "seat_m"),
        height: length(given, "z_m"),
        place: None,
    }
}

fn one_of_them(given: &mut Given<'_>) -> Option<Sizes> {
    let keys = ["x_m", "y_m", "toward_x_m", "toward_y_m"];
    let found = keys.map(|key| given.maybe::<Length>(key, Kind::Length));
    let mut sizes = sizes(given);
    match found {
        [Some(x), Some(y), Some(to_x), Some(to_y)] => sizes.place = Some(([x, y], [to_x, to_y])),
        [None, None, None, None] => {}
        _ => given.problem("write `x_m`, `y_m`, `toward_x_m` and `toward_y_m` together".into()),
    }
    Some(sizes)
}

fn point(given: &mut Given<'_>) -> Option<[Length; 2]> {
    let (x, y) = (given.number("x_m", Kind::Length), given.number("y_m", Kind::Length));
    Some([x?, y?])
}

fn plate_point(given: &mut Given<'_>) -> Option<[Length; 3]> {
    let [x, y] = point(given)?;
    Some([x, y, given.maybe("z_m", Kind::Length).unwrap_or(Length::ZERO)])
}

/// The ring that a request describes: round a regular eye on a circle (`plan_radius_m`, `eye_radius_m`), through the corners of
/// an `eye` onto a `plate`, or each pole from its own support toward its own point.
pub(super) fn layout(given: &mut Given<'_>) -> Option<Layout> {
    let all = sizes(given);
    let radii = [given.maybe::<Length>("plan_radius_m", Kind::Length), given.maybe("eye_radius_m", Kind::Length)];
    let (eye, plate) = (given.list("eye", point), given.list("plate", plate_point));
    let rests_on = rests_on(given);
    let mut each = given.list("rafters", one_of_them);
    if each.is_empty() {
        let count = given.count("count", 3)?;
        each = (0..count.min(MOST as u64 + 1)).map(|_| Sizes::default()).collect();
    } else {
        let count = given.maybe::<f64>("count", Kind::Number);
        if count.is_some_and(|count| count != each.len() as f64) {
            given.problem(format!("`count` is not the number of `rafters`, which are {}", each.len()));
        }
    }
    if each.len() > MOST {
        given.problem(format!("there are {} poles; at most {MOST} are solved", each.len()));
        return None;
    }
    let rests_on = rests_on?;
    let lines = lines(given, &each, radii, (&eye, &plate), rests_on)?;
    let rafters: Option<Vec<Rafter>> = each.iter().zip(lines).map(|(own, line)| rafter(own, &all, line)).collect();
    if rafters.is_none() {
        given.problem("each pole needs `length_m`, `butt_m` and `tip_m`, its own or one for all".into());
    }
    Some(Layout { rafters: rafters?, rests_on })
}

fn rests_on(given: &mut Given<'_>) -> Option<RestsOn> {
    match given.maybe_text("rests_on") {
        None | Some("next") => Some(RestsOn::Next),
        Some("before") => Some(RestsOn::Before),
        Some(other) => {
            given.problem(format!("`rests_on` is \"{other}\"; write \"next\" or \"before\""));
            None
        }
    }
}

fn lines(
    given: &mut Given<'_>,
    each: &[Sizes],
    radii: [Option<Length>; 2],
    (eye, plate): (&[[Length; 2]], &[[Length; 3]]),
    rests_on: RestsOn,
) -> Option<Vec<Start>> {
    let own: Option<Vec<Start>> =
        each.iter().map(|own| own.place.map(|([x, y], toward)| ([x, y, Length::ZERO], toward))).collect();
    if let Some(own) = own {
        return Some(own);
    }
    match radii {
        [Some(outer), Some(eye)] if eye > Length::ZERO && eye < outer => return Some(regular(each.len(), outer, eye, rests_on)),
        [None, None] if eye.len() == each.len() => match supports(plate, eye, rests_on) {
            Ok(found) => return Some(found),
            Err(fault) => given.problem(fault.to_string()),
        },
        _ => given.problem(
            "write `plan_radius_m` and a smaller `eye_radius_m` above zero, or a `plate` and an `eye` with a corner for each \
             pole, or for each of the `rafters` where it starts and toward what"
                .into(),
        ),
    }
    None
}

fn regular(count: usize, outer: Length, eye: Length, rests_on: RestsOn) -> Vec<Start> {
    let corner = |at: usize| {
        let angle = TAU * at as f64 / count as f64;
        [eye * angle.cos(), eye * angle.sin()]
    };
    let run =
        roof::to_first_crossing(count as u64, outer, eye).value / roof::between_crossings(count as u64, eye).value;
    let line = |place: usize| {
        let next = match rests_on {
            RestsOn::Next => place + 1,
            RestsOn::Before => place + count - 1,
        };
        let (first, second) = (corner(place), corner(next));
        let back = |axis: usize| first[axis] - (second[axis] - first[axis]) * run;
        ([back(0), back(1), Length::ZERO], second)
    };
    (0..count).map(line).collect()
}

fn rafter(own: &Sizes, all: &Sizes, (support, toward): Start) -> Option<Rafter> {
    let or_none = |own: Option<Length>, all: Option<Length>| own.or(all).unwrap_or(Length::ZERO);
    let height = or_none(own.height, all.height);
    Some(Rafter {
        pole: Pole {
            length: own.length.or(all.length)?,
            butt: own.butt.or(all.butt)?,
            tip: own.tip.or(all.tip)?,
            bow: or_none(own.bow, all.bow),
            bow_turn: own.bow_turn.or(all.bow_turn).unwrap_or(Angle::ZERO),
        },
        support: [support[0], support[1], support[2] + height],
        rests: own.seat.or(all.seat).map_or(Rests::Axis, Rests::Top),
        toward,
        overhang: or_none(own.overhang, all.overhang),
        notch: or_none(own.notch, all.notch),
        bedding: or_none(own.bedding, all.bedding),
        beyond: or_none(own.beyond, all.beyond),
    })
}

/// A ring of eight poles to ask about in tests.
#[cfg(test)]
pub(super) mod eight {
    use serde_json::{Value, json};

    use crate::ask::ask;

    /// The ring with some of its keys otherwise.
    pub(in crate::ask) fn with(changes: &Value) -> Value {
        let mut ring = json!({"count": 8, "plan_radius_m": 3, "eye_radius_m": 0.6, "length_m": 3.6, "butt_m": 0.16, "tip_m": 0.12});
        for (key, value) in changes.as_object().unwrap() {
            ring[key] = value.clone();
        }
        ring
    }

    /// The problems of a request.
    pub(in crate::ask) fn told(name: &str, request: &Value) -> Vec<String> {
        let reply = ask(name, request).unwrap();
        reply["problems"].as_array().unwrap().iter().map(|problem| problem.as_str().unwrap().to_owned()).collect()
    }
}

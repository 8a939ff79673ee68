//! The questions, each a few lines from a request to the rooms that answer it.

use std::f64::consts::TAU;

use kurbo::Point;
use serde_json::json;

use super::given::Given;
use super::{Question, Reply};
use crate::curve::{Along, Cut, Form, PlanLine, Shape, Side, Vertex, Way};
use crate::reason::{Reason, Words};
use crate::units::{self, Area, Fineness, Kind, Length, Quantity, Slope, System, Volume};
use crate::{ground, wall};

pub(super) const ALL: &[Question] = &[
    Question {
        name: "units",
        about: "Reads a quantity as people write it and says it in SI, metric and US",
        example: r#"{"text": "5 ft 6 1/2 in", "kind": "length"}"#,
        answer: units,
    },
    Question {
        name: "wall-line",
        about: "Length, areas and size of a closed wall line of straight runs and arcs with rounded corners",
        example: r#"{"thickness_m": 0.4, "points": [
  {"x_m": 2, "y_m": 0, "round_m": 0.4, "through_x_m": 0, "through_y_m": 2},
  {"x_m": -2, "y_m": 0, "round_m": 0.4, "through_x_m": 0, "through_y_m": -2}]}"#,
        answer: wall_line,
    },
    Question {
        name: "solid",
        about: "Volume and faces of a battered wall, closed or straight, with rectangular openings",
        example: r#"{"line_length_m": 5, "closed": false, "thickness_m": 0.4, "height_m": 2,
  "batter_inside_slope": 0, "batter_outside_slope": 0.05,
  "openings": [{"width_m": 1, "height_m": 0.8, "sill_m": 0.6}]}"#,
        answer: solid,
    },
    Question {
        name: "trench",
        about: "Depth, volume and levels of a rubble trench that falls both ways to one outlet, and of its drain",
        example: r#"{"line_length_m": 12.566370614359172, "width_m": 0.5, "depth_m": 0.8, "fall_slope": 0.01,
  "ground_m": -0.45, "drain_length_m": 8, "daylight_m": -1.45}"#,
        answer: trench,
    },
    super::earth::BULK,
    super::earth::BUCKET_RECIPE,
    super::jar::SETTLING,
    super::jar::HYDROMETER,
    super::grains::TEXTURE,
    super::grains::GRADING,
    super::grains::PLASTICITY,
    super::grains::SAND_TO_ADD,
    super::bricks::STRENGTH,
    super::bricks::LEVER,
    super::samples::SHRINKAGE,
    super::samples::BULKING,
    super::samples::EROSION,
    super::samples::PLASTER,
    super::earth::FLOOR_OIL,
    super::mixture::MIXTURE_DESIGN,
    super::mixture::MIXTURE_FIT,
    super::recipe::DESIRABILITY,
    super::recipe::RECIPE,
    super::tested::BATCHES,
    super::tested::PANEL_SCORES,
    super::roof::RECIPROCAL,
    super::roof::LAYERS,
    super::poles::RECIPROCAL_POLES,
    super::standing::STANDING,
    super::assign::ASSIGN,
    super::deck::SHIMS,
    super::deck::NESTING,
    super::deck_boards::BOARDS,
    super::deck_skin::SKIN,
    super::set_out::TRAVERSE,
    super::set_out::LEVEL_LOOP,
    super::frame::FRAME,
    super::pole::POLE,
    super::pole::TAPERED_POLE,
    super::bolt::BOLT,
    super::split::SPLIT,
    super::timber::TIMBER_STRENGTH,
    super::timber::TIMBER_FACTORS,
    super::timber::COLUMN,
    super::timber::RAFTER_SPAN,
    super::timber::ANGLED_CANTILEVER,
    super::tree::TREE,
    super::tree::POLE_SAG,
    super::tree::CROSSING_FRICTION,
    super::site_loads::SNOW,
    super::site_loads::WIND,
    super::site_loads::EARTHQUAKE,
    super::loads::COMBINATIONS,
    super::loads::LOADS,
    super::soil::SLIDE,
    super::soil::LIVING_ROOF,
];

fn units(given: &mut Given<'_>, reply: &mut Reply) {
    let (text, word) = (given.text("text"), given.text("kind"));
    let (Some(text), Some(word)) = (text, word) else { return };
    let Some(kind) = Kind::named(word) else {
        let known: Vec<String> = Kind::ALL.iter().map(|kind| format!("{kind:?}").to_lowercase()).collect();
        given.problem(format!("\"{word}\" is not a kind of quantity; known: {}", known.join(", ")));
        return;
    };
    match units::parse(text, kind) {
        Err(misread) => given.problem(misread.to_string()),
        Ok(quantity) => {
            let key = format!("{}{}", word.replace('-', "_"), quantity.key_suffix());
            let value = match quantity {
                Quantity::Money(money) => json!(money.minor),
                Quantity::Date(date) => json!(date.to_string()),
                measured => json!(measured.si()),
            };
            reply.answer.insert(key, value);
            for (key, system) in [("metric", System::Metric), ("us", System::Us)] {
                reply.answer.insert(key.into(), json!(quantity.shown(system, Fineness::SetOut)));
            }
            let words = Words {
                title: "The quantity as written, times the size of its unit.".into(),
                equation: "value in SI = number × unit in SI".into(),
                source: "Each unit's definition; docs/words.md lists them".into(),
                ..Words::default()
            };
            reply.reasons.push(Reason::in_words(words, Vec::new()));
        }
    }
}

fn vertex(given: &mut Given<'_>) -> Option<Vertex> {
    let (x, y) = (given.number::<Length>("x_m", Kind::Length), given.number::<Length>("y_m", Kind::Length));
    let round = given.number::<Length>("round_m", Kind::Length);
    let through: [Option<Length>; 2] =
        [given.maybe("through_x_m", Kind::Length), given.maybe("through_y_m", Kind::Length)];
    let way = match through {
        [Some(x), Some(y)] => Way::Through(Point::new(x.in_m(), y.in_m())),
        [None, None] => Way::Straight,
        _ => {
            given.problem("an arc needs both `through_x_m` and `through_y_m`".into());
            return None;
        }
    };
    Some(Vertex { at: Point::new(x?.in_m(), y?.in_m()), round: round?.in_m(), way })
}

fn wall_line(given: &mut Given<'_>, reply: &mut Reply) {
    let thickness: Option<Length> = given.number("thickness_m", Kind::Length);
    let points = given.list("points", vertex);
    let Some(thickness) = thickness else { return };
    let line = match PlanLine::closed(&points) {
        Ok(line) => line,
        Err(fault) => {
            given.problem(format!("these points do not make a wall line: {}", fault.in_words()));
            return;
        }
    };
    let half = (thickness * 0.5).in_m();
    let broken = |offset: f64| line.first_fold(offset).is_some() || line.first_crossing(offset).is_some();
    if thickness <= Length::ZERO || broken(-half) || broken(half) {
        given.problem("a wall of this `thickness_m` folds or crosses itself on this line".into());
        return;
    }
    let length = reply.put("length", wall::line_length(&line));
    let enclosed = reply.put("enclosed_area", wall::enclosed_area(&line));
    reply.put("room_area", wall::area_inside(enclosed, length, thickness, -1.0));
    reply.put("footprint", wall::area_inside(enclosed, length, thickness, 1.0));
    let (extent, _) = line.extent(half);
    reply.put("overall_x", wall::overall(thickness, Length::m(extent.width())));
    reply.put("overall_y", wall::overall(thickness, Length::m(extent.height())));
}

/// An opening and the radius of the wall's centre line where it stands; none where it is straight.
struct Hole {
    width: Length,
    height: Length,
    sill: Length,
    radius: Option<Length>,
}

fn hole(given: &mut Given<'_>) -> Option<Hole> {
    let width = given.number("width_m", Kind::Length);
    let height = given.number("height_m", Kind::Length);
    let sill = given.number("sill_m", Kind::Length);
    let radius = given.maybe("radius_m", Kind::Length);
    Some(Hole { width: width?, height: height?, sill: sill?, radius })
}

/// A line with the bend of the wall where the opening stands, long enough for it, and the run and place of its middle.
fn line_of(hole: &Hole) -> Option<(PlanLine, f64)> {
    const ROUND: f64 = 1.5;
    let vertex = |x: f64, y: f64, way| Vertex { at: Point::new(x, y), round: ROUND, way };
    match hole.radius.map(Length::in_m) {
        Some(radius) if radius > 0.0 => {
            let through = |y| Way::Through(Point::new(0.0, y));
            let line = [vertex(radius, 0.0, through(radius)), vertex(-radius, 0.0, through(-radius))];
            Some((PlanLine::closed(&line).ok()?, 0.25 * TAU * radius))
        }
        Some(_) => None,
        None => {
            let side = 2.0 * hole.width.in_m() + 4.0 * ROUND;
            let corners = [(0.0, 0.0), (side, 0.0), (side, side), (0.0, side)];
            Some((PlanLine::closed(&corners.map(|(x, y)| vertex(x, y, Way::Straight))).ok()?, 0.5 * side))
        }
    }
}

fn solid(given: &mut Given<'_>, reply: &mut Reply) {
    let length = given.number::<Length>("line_length_m", Kind::Length);
    let closed = given.yes_or_no("closed");
    let thickness = given.number::<Length>("thickness_m", Kind::Length);
    let height = given.number::<Length>("height_m", Kind::Length);
    let inside = given.number::<Slope>("batter_inside_slope", Kind::Slope);
    let outside = given.number::<Slope>("batter_outside_slope", Kind::Slope);
    let holes = given.list("openings", hole);
    let (Some(length), Some(closed), Some(thickness), Some(height), Some(inside), Some(outside)) =
        (length, closed, thickness, height, inside, outside)
    else {
        return;
    };
    if [length, thickness, height].iter().any(|size| *size <= Length::ZERO) {
        given.problem("`line_length_m`, `thickness_m` and `height_m` must be above zero".into());
        return;
    }
    let turning = if closed { TAU } else { 0.0 };
    if length.in_m() <= 0.5 * turning * thickness.in_m() {
        given.problem("a closed line of this `line_length_m` leaves no room inside the wall".into());
        return;
    }
    let top = reply.put("top_thickness", wall::thickness_at(thickness, inside, outside, height));
    if top <= Length::ZERO {
        given.problem("the two faces meet below the top".into());
        return;
    }
    let slenderness = reply.put("slenderness", wall::slenderness(height, thickness));
    reply.check("trade-practice", "wall.slenderness", "height of the wall over its thickness", slenderness);
    reply.check("trade-practice", "wall.top-thickness", "thickness of the wall at its top", top);
    let gross = reply.put("gross_volume", wall::cob_gross(length, thickness, inside, outside, height, turning));
    let outer = reply.put("outer_gross_area", wall::outer_face_gross(length, thickness, outside, height, turning));
    let inner = reply.put("inner_gross_area", wall::inner_face_gross(length, thickness, inside, height, turning));
    let (mut volume, mut outer_hole, mut inner_hole) = (Volume::ZERO, Area::ZERO, Area::ZERO);
    for (index, hole) in holes.iter().enumerate() {
        let fits = hole.width > Length::ZERO && hole.height > Length::ZERO && hole.sill >= Length::ZERO;
        let half = (thickness * 0.5).in_m();
        let line = if fits && hole.sill + hole.height < height { line_of(hole) } else { None };
        let even = Along::even(thickness.in_m());
        let lean = [inside.in_ratio(), outside.in_ratio()];
        let fitted = line.as_ref().and_then(|(line, along)| {
            let whole = [-half, half].iter().all(|&offset| line.first_fold(offset).is_none());
            let [bottom, top] = [hole.sill.in_m(), (hole.sill + hole.height).in_m()];
            let form = Form::Rectangle { half: 0.5 * hole.width.in_m(), bottom, top };
            let cut = Cut::straight(line.station(0, *along)?, form);
            let shape = Shape { line, thickness: &even, lean };
            let meets = |side| cut.stretch(&shape, side, 0.0).is_some();
            (whole && meets(Side::Inner) && meets(Side::Outer)).then_some((shape, cut))
        });
        let Some((shape, cut)) = fitted else {
            given.problem(format!("opening {} does not fit in the wall", index + 1));
            return;
        };
        let (w, h, s) = (hole.width, hole.height, hole.sill);
        let removed = wall::cob_removed(w, h, s, thickness, inside, outside, &shape, &cut);
        volume = volume + removed.value;
        reply.reasons.push(removed.reason);
        outer_hole = outer_hole + wall::outer_face_removed(w, h, s, thickness, outside, &shape, &cut).value;
        inner_hole = inner_hole + wall::inner_face_removed(w, h, s, thickness, inside, &shape, &cut).value;
    }
    reply.put("volume", wall::net_volume(gross, volume));
    reply.put("outer_area", wall::net_area(outer, outer_hole));
    reply.put("inner_area", wall::net_area(inner, inner_hole));
}

fn trench(given: &mut Given<'_>, reply: &mut Reply) {
    let line_length = given.number::<Length>("line_length_m", Kind::Length);
    let width = given.number::<Length>("width_m", Kind::Length);
    let depth = given.number::<Length>("depth_m", Kind::Length);
    let fall = given.number::<Slope>("fall_slope", Kind::Slope);
    let level = given.number::<Length>("ground_m", Kind::Length);
    let drain = given.maybe::<Length>("drain_length_m", Kind::Length);
    let daylight = given.maybe::<Length>("daylight_m", Kind::Length);
    let (Some(line_length), Some(width), Some(depth), Some(fall), Some(level)) =
        (line_length, width, depth, fall, level)
    else {
        return;
    };
    if [line_length, width, depth].iter().chain(&drain).any(|size| *size <= Length::ZERO) || fall < Slope::ZERO {
        given.problem("lengths and `depth_m` must be above zero, `fall_slope` not below it".into());
        return;
    }
    let low = reply.put("low_depth", ground::low_depth(depth, fall, line_length));
    reply.put("volume", ground::trench_volume(width, depth, fall, line_length));
    let outlet = reply.put("outlet_level", ground::level_below(level, low));
    let Some(drain) = drain else { return };
    reply.put("drain_volume", ground::drain_volume(width, drain, low));
    if let Some(daylight) = daylight {
        let fall = reply.put("drain_fall", ground::drain_fall(outlet, daylight, drain));
        if fall <= Slope::ZERO {
            given.problem("the drain would run uphill: `daylight_m` is not below the outlet".into());
        }
    }
}

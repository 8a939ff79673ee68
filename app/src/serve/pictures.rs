//! The drawings of a leaf, sized for the screen, with what can be taken hold of in each.

use std::collections::BTreeMap;
use std::hash::{DefaultHasher, Hash, Hasher};

use engine::answers::Answers;
use engine::house::handles::{self, On, Way};
use engine::units::System;
use kurbo::Point;
use press::drawing::{self, Frame, Scaled, Words};
use press::paper::Paper;

use super::leaves;
use super::standing::Standing;
use super::wire::{Handle, Picture};

/// A screen narrower than this, in millimetres, is held upright.
const UPRIGHT_BELOW: f64 = 140.0;

/// Frames of drawings by name: where the house lies on each.
pub type Frames = BTreeMap<String, Frame>;

/// A drawing for the page, where the house lies on it, and a digest of its text.
pub struct Drawn {
    /// The drawing.
    pub picture: Picture,
    /// Where the house lies on it, where it is drawn to a scale.
    pub frame: Option<Frame>,
    /// A digest of its text.
    pub digest: u64,
}

/// Names of the drawings of a leaf, the first being the one that is shown large.
pub fn names(leaf: &str, answers: &Answers) -> Vec<String> {
    let fixed: &[&str] = match leaf {
        "" => &["way"],
        "begin" => &["first-shape"],
        "ground" => &["trench", "site"],
        "walls" => &["plan", "unrolled", "section"],
        "roof" => &["exploded"],
        "stuff" => &["site"],
        _ => &[],
    };
    let mut names: Vec<String> = fixed.iter().map(|name| (*name).to_owned()).collect();
    match leaf {
        "skin" => {
            names.extend(answers.surfaces.faces.iter().map(|face| format!("plaster-lots-{}", face.side)));
            names.push("floor-bays".to_owned());
        }
        "earth" => {
            names.extend(answers.recipes.iter().map(|recipe| format!("recipe-{recipe}")));
            names.extend(press::soils::drawn(answers));
            names.extend(press::mixes::drawn(answers).into_iter().map(|name| format!("mixes-{name}")));
            names.extend(press::panels::drawn(answers).into_iter().map(|name| format!("panels-{name}")));
            names.extend(press::batches::logged(answers).into_iter().map(|name| format!("batches-{name}")));
            for lot in &answers.bricks {
                names.push(format!("bricks-{}", lot.name));
                names.extend(lot.fall.as_ref().map(|_| format!("damp-bricks-{}", lot.name)));
            }
        }
        "roof" => {
            if let Some(ring) = &answers.ring_plan {
                names.splice(0..0, ["roof-plan", "raising", "raising-stages", "deck-plan"].map(str::to_owned));
                let measured = ring.places.iter().filter(|pole| pole.is_measured);
                names.extend(measured.map(|pole| format!("pole-{}", pole.tag)));
            }
            if answers.rafter_plan.is_some() {
                names.insert(0, "rafter-plan".to_owned());
            }
            if answers.boarding.is_some() {
                names.push("boarding-plan".to_owned());
            }
            if answers.rows.find("roof.trade.used").is_some() {
                names.push("trade".to_owned());
            }
            if answers.rows.matching("roof.members.*.moment").next().is_some() {
                names.push("bending".to_owned());
            }
            names.extend(["north", "east", "south", "west"].map(|side| format!("elevation-{side}")));
        }
        _ => {}
    }
    names
}

/// A drawing by name, in the frame of an earlier one where one is held; none when the house lacks what it shows.
pub fn one(standing: &Standing, name: &str, room_mm: [f64; 2], held: Option<&Frame>) -> Option<Drawn> {
    let answers = &standing.answers;
    let medium = medium([room_mm[0].max(least_width(name)), room_mm[1]], answers.system);
    if let Some(recipe) = name.strip_prefix("recipe-") {
        let (_, svg) = drawing::recipes(answers, medium).into_iter().find(|(known, _)| known == recipe)?;
        return Some(drawn(name, standing, svg.to_string(), None));
    }
    let scaled = match held {
        Some(frame) => in_frame(answers, name, frame).or_else(|| scaled(standing, name, medium))?,
        None => scaled(standing, name, medium)?,
    };
    let mut drawn = drawn(name, standing, scaled.svg.to_string(), Some(scaled.frame));
    drawn.picture.key =
        scaled.key.into_iter().map(|(number, words)| (u32::try_from(number).unwrap_or(0), words)).collect();
    Some(drawn)
}

fn drawn(name: &str, standing: &Standing, svg: String, frame: Option<Frame>) -> Drawn {
    let answers = &standing.answers;
    let mut digest = DefaultHasher::new();
    svg.hash(&mut digest);
    let on = on(name);
    let of_this = answers.handles.iter().filter(|handle| Some(handle.on) == on);
    let handles = frame.iter().flat_map(|frame| of_this.clone().map(|handle| placed(handle, answers, frame)));
    let Words { title, note } = words(name, standing);
    let picture = Picture { name: name.to_owned(), title, note, svg, handles: handles.collect(), key: Vec::new() };
    Drawn { picture, frame, digest: digest.finish() }
}

/// What a drawing needs to be read, in millimetres: on a narrower screen it is pushed from side to side.
fn least_width(name: &str) -> f64 {
    let is_long = ["unrolled", "trench", "site", "section", "raising-stages", "roof-plan", "deck-plan"].contains(&name)
        || ["plaster-lots-", "pole-"].iter().any(|start| name.starts_with(start));
    if is_long { 165.0 } else { 0.0 }
}

/// The screen's room; a page of paper where none is said.
fn medium([width_mm, height_mm]: [f64; 2], system: System) -> Paper {
    let is_room = |side: f64| (40.0..=2000.0).contains(&side);
    if is_room(width_mm) && is_room(height_mm) { Paper::Screen { width_mm, height_mm } } else { Paper::of(system) }
}

fn in_frame(answers: &Answers, name: &str, frame: &Frame) -> Option<Scaled> {
    match name {
        "plan" => Some(drawing::plan_held(answers, frame)),
        "unrolled" => Some(drawing::unrolled_held(answers, frame)),
        "section" => Some(drawing::section_held(answers, frame)),
        "first-shape" => Some(drawing::first_shape_held(answers, frame)),
        _ => None,
    }
}

fn scaled(standing: &Standing, name: &str, medium: Paper) -> Option<Scaled> {
    let answers = &standing.answers;
    match name {
        "way" => Some(way(standing, medium)),
        "section" => Some(drawing::section(answers, medium)),
        "plan" => Some(drawing::plan(answers, medium)),
        "first-shape" => Some(drawing::first_shape(answers, medium)),
        "unrolled" => Some(drawing::unrolled(answers, medium)),
        "trench" => drawing::trench_section(answers, medium),
        "site" => Some(drawing::site(answers, medium)),
        "floor-bays" => drawing::floor_bays(answers, medium),
        "roof-plan" => drawing::roof_plan(answers, medium),
        "rafter-plan" => drawing::rafter_plan(answers, medium),
        "trade" => drawing::trade(answers, standing.pictures()?.choice.as_ref(), medium),
        "bending" => drawing::bending(answers, standing.pictures()?.bent.as_ref(), medium),
        "deck-plan" => drawing::deck_plan(answers, medium),
        "boarding-plan" => drawing::boarding_plan(answers, medium),
        "raising" => drawing::raising(answers, medium),
        "raising-stages" => drawing::raising_stages(answers, medium),
        other if other.starts_with("pole-") => {
            let tag = other.strip_prefix("pole-")?;
            let pole = answers.ring_plan.as_ref()?.places.iter().find(|pole| pole.tag == tag)?;
            Some(drawing::pole_card(answers, pole, medium))
        }
        "plasticity" => drawing::plasticity(standing.pictures()?.plasticity.as_ref(), medium),
        "texture" => drawing::texture(&standing.pictures()?.soils, medium),
        other if other.starts_with("grading-") => {
            let all = &standing.pictures()?.gradings;
            Some(drawing::grading(all.iter().find(|own| other.strip_prefix("grading-") == Some(&own.name))?, medium))
        }
        other if other.starts_with("mixes-") => {
            let all = &standing.pictures()?.mixes;
            Some(drawing::mixes(all.iter().find(|own| other.strip_prefix("mixes-") == Some(&own.name))?, medium))
        }
        other if other.starts_with("panels-") => {
            let all = &standing.pictures()?.panels;
            Some(drawing::panels(all.iter().find(|own| other.strip_prefix("panels-") == Some(&own.name))?, medium))
        }
        other if other.starts_with("batches-") => drawing::batches(answers, other.strip_prefix("batches-")?, medium),
        other if other.starts_with("bricks-") || other.starts_with("damp-bricks-") => bricks(answers, other, medium),
        "exploded" => Some(drawing::exploded(answers, &standing.pictures()?.exploded, medium)),
        other => match (other.strip_prefix("plaster-lots-"), other.strip_prefix("elevation-")) {
            (Some(side), _) => {
                let face = answers.surfaces.faces.iter().find(|face| face.side == side)?;
                Some(drawing::plaster_lots(answers, face, medium))
            }
            (_, Some(side)) => {
                let seen = standing.pictures()?.elevations.iter().find(|one| one.name == side)?;
                Some(drawing::elevation(answers, seen, medium))
            }
            _ => None,
        },
    }
}

/// What the bricks of a lot bore, and how that falls with moisture.
fn bricks(answers: &Answers, name: &str, medium: Paper) -> Option<Scaled> {
    let lot = |name: &str| answers.bricks.iter().find(|lot| lot.name == name);
    match name.strip_prefix("damp-bricks-") {
        Some(name) => drawing::damp_bricks(answers, lot(name)?, medium),
        None => Some(drawing::bricks(answers, lot(name.strip_prefix("bricks-")?)?, medium)),
    }
}

/// The way round the house, upright where the screen is narrow.
fn way(standing: &Standing, medium: Paper) -> Scaled {
    let doors = leaves::doors(standing);
    let states: Vec<(&str, &str, &str)> =
        doors.iter().map(|door| (door.leaf.as_str(), door.words.as_str(), door.state)).collect();
    let [width, _] = medium.drawing_mm();
    if width < UPRIGHT_BELOW {
        drawing::way_upright(&standing.answers, medium, &states)
    } else {
        drawing::way(&standing.answers, medium, &states)
    }
}

/// The coordinates that a drawing shows, where something in it can be taken hold of.
pub fn on(name: &str) -> Option<On> {
    match name {
        "plan" | "first-shape" => Some(On::Plan),
        "unrolled" => Some(On::Unrolled),
        "section" => Some(On::Section),
        _ => None,
    }
}

fn placed(handle: &handles::Handle, answers: &Answers, frame: &Frame) -> Handle {
    let kind = match handle.way {
        Way::Point => "point",
        Way::Curve => "curve",
        Way::Along => "along",
        Way::Up => "up",
        Way::Free => "free",
    };
    Handle {
        id: handle.id.clone(),
        title: handle.title.clone(),
        at_mm: frame.at(handle.at, row_of(handle.at, handle.on, answers, frame)),
        kind: kind.to_owned(),
        row: handle.row.clone(),
        removes: handle.removes.clone(),
    }
}

/// The row of a drawing in which a point lies: the unrolled wall may stand in two.
fn row_of(at: Point, on: On, answers: &Answers, frame: &Frame) -> usize {
    if on != On::Unrolled || frame.rows() < 2 {
        return 0;
    }
    let [first, _] = &answers.unrolled_rows;
    let points = first.parts.iter().flat_map(|part| &part.outlines).flat_map(|outline| &outline.points);
    let end = points.map(|point| point.x).fold(f64::NEG_INFINITY, f64::max);
    usize::from(at.x > end)
}

/// The words of a drawing: those of paper, and of what only the page draws its own.
fn words(name: &str, standing: &Standing) -> Words {
    let only = |title: &str| Words { title: title.to_owned(), note: String::new() };
    match (name, name.strip_prefix("recipe-")) {
        ("way", _) => only("The way round the house"),
        ("first-shape", _) => only("The first shape"),
        (_, Some(recipe)) => only(&format!("One tarp of {}", recipe.replace('-', " "))),
        _ => drawing::words(name, &standing.answers, || standing.pictures()).unwrap_or_default(),
    }
}

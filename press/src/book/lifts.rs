//! The lifts: their table, what the wall sinks by, the batter gauge, services, and a card for each.

use engine::answers::Answers;
use engine::house::lift_cards::{Item, ItemKind, LiftCard, ServicePlace, Share};
use serde_json::{Value, json};

use super::rows::{figures, said, table};
use crate::spoken::{self, capital, marked, spoken};

const LIFTS: [(&str, &str); 9] = [
    ("top", "top"),
    ("start", "day"),
    ("volume", "cob"),
    ("trimmings", "sawn off"),
    ("bed-area", "top, area"),
    ("mass", "mass, wet"),
    ("standing", "wall stands at"),
    ("batches", "batches"),
    ("loaves", "loaves"),
];
const SETTLEMENT: [(&str, &str); 5] = [
    ("top", "top, dry"),
    ("wet-top", "built wet to"),
    ("settlement", "its top sinks by"),
    ("step", "the lift alone by"),
    ("height", "height"),
];
const SERVICES: [(&str, &str); 9] = [
    ("along", "along the run"),
    ("level", "level"),
    ("to-level", "to level"),
    ("diameter", "diameter"),
    ("sleeve", "sleeve"),
    ("sleeve-length", "sleeve, length"),
    ("length", "conduit"),
    ("fall-through", "falls by"),
    ("slack", "slack"),
];
/// Figures of a card: noun and words.
const FIGURES: [(&str, &str); 10] = [
    ("height", "Height"),
    ("volume", "Cob"),
    ("batches", "Batches"),
    ("loaves", "Loaves"),
    ("bed-area", "Bed, area"),
    ("trimmings", "Sawn off"),
    ("top", "Its top, dry"),
    ("wet-top", "Build it to, wet"),
    ("foot-thickness", "Thick at its foot"),
    ("top-thickness", "Thick at its top"),
];

pub(super) fn chapter(answers: &Answers) -> Value {
    let named = |paths: &[&str]| -> Vec<[String; 2]> {
        let found = paths.iter().filter_map(|path| answers.rows.find(path));
        found.map(|row| [capital(&row.title), marked(answers, row)]).collect()
    };
    let gaps = answers.rows.matching("openings.*.gap").chain(answers.rows.matching("services.*.slack"));
    let mut sinks: Vec<[String; 2]> = gaps.map(|row| [capital(&row.title), marked(answers, row)]).collect();
    sinks.extend(named(&["wall.wet-height", "wall.settlement"]));
    let shrinkage = answers.rows.matching("earth.recipes.*.shrinkage").next();
    let gauge = ["short", "long"].map(|noun| {
        ["", "inside-", "outside-"].map(|side| said(answers, &format!("wall.gauge.{side}{noun}")).unwrap_or_default())
    });
    json!({
        "table": table(answers, "wall.lifts.", &LIFTS),
        "settlement": if shrinkage.is_some() { table(answers, "wall.lifts.", &SETTLEMENT) } else { Value::Null },
        "shrinkage": shrinkage.map_or_else(String::new, |row| {
            format!("{}: {}, {}.", capital(&row.title), marked(answers, row), row.origin_in_words())
        }),
        "sinks": sinks,
        "gauge": gauge,
        "services": table(answers, "services.", &SERVICES),
        "places": answers.services.iter().map(place).collect::<Vec<_>>(),
        "cards": answers.lift_cards.iter().map(|card| self::card(answers, card)).collect::<Vec<_>>(),
    })
}

/// Where a service goes in, one sentence.
fn place(service: &ServicePlace) -> [String; 2] {
    let mut parts = Vec::new();
    if !service.run.is_empty() {
        parts.push(format!("on the run from {}", spoken(&service.run)));
    }
    if service.is_through_the_roof {
        parts.push("through the roof".to_owned());
    }
    if service.is_in_the_stem {
        parts.push("in the stem wall, before the first lift".to_owned());
    }
    if !service.lifts.is_empty() {
        let lifts: Vec<String> = service.lifts.iter().map(|lift| spoken(lift)).collect();
        parts.push(format!("in the lifts {}", lifts.join(", ")));
    }
    let clearance = if service.lacks_clearance { "; its clearance is not known: read its listing" } else { "" };
    [format!("{} ({})", spoken(&service.name), service.kind), format!("{}{clearance}", parts.join("; "))]
}

fn card(answers: &Answers, card: &LiftCard) -> Value {
    let places: Vec<String> = ["foot", "top"].iter().filter_map(|end| by_place(answers, card, end)).collect();
    let find = |path: &str| said(answers, path).unwrap_or_default();
    json!({
        "name": card.name,
        "title": capital(&spoken::lift(&card.name)),
        "figures": figures(answers, &format!("{}.", card.path), &FIGURES),
        "places": places,
        "items": card.items.iter().enumerate().map(|(place, item)| self::item(answers, place + 1, item)).collect::<Vec<_>>(),
        "photo": card.items.iter().any(|item| item.is_buried),
        "stop": format!(
            "Stop: a string or caliper {} above the foot of this lift. When it has moved out by {}, or a bulge is seen, stop \
             and leave it until the thumb says firm. Bulging warns before a slump; the thumb decides, not the day.",
            find("wall.bulge.at"),
            find("wall.bulge.stop")
        ),
        "joint": joint(card),
        "plan": format!("/lift-{}.svg", card.name),
        "band": format!("/lift-{}-band.svg", card.name),
    })
}

/// Thickness at each named point of a wall that is not even.
fn by_place(answers: &Answers, card: &LiftCard, end: &str) -> Option<String> {
    let stem = format!("{}.{end}-thickness-at.", card.path);
    let pattern = format!("{stem}*");
    let found = answers.rows.matching(&pattern).filter_map(|row| {
        let name = row.path.strip_prefix(&stem)?;
        Some(format!("{} {}", spoken(name), marked(answers, row)))
    });
    let found: Vec<String> = found.collect();
    (!found.is_empty()).then(|| format!("Thickness at its {end}: {}.", found.join(", ")))
}

fn joint(card: &LiftCard) -> String {
    let below = if card.is_first {
        "Before it: brush slip on the damp stem wall."
    } else {
        "Before it: wet the bed below, open its holes, knead the first loaves in."
    };
    let above = match &card.next {
        Some(next) => format!(
            "Its top, for {}: leave it rough, holes for key a hand deep, humped in the middle; keep it wet or covered.",
            spoken::lift(next)
        ),
        None => "Its top is the top of the wall: level it to the story pole, cover it at once.".to_owned(),
    };
    format!("{below} {above}")
}

/// One line of the checklist.
fn item(answers: &Answers, number: usize, item: &Item) -> Value {
    let name = spoken(&item.name);
    let kind = match item.kind {
        ItemKind::Opening => "",
        ItemKind::Sill => "sill board of ",
        ItemKind::Lintel => "lintel of ",
        ItemKind::Anchor => "anchors ",
        ItemKind::BondBeam => "",
        ItemKind::Niche => "niche ",
        ItemKind::Shelf => "shelf ",
        ItemKind::BenchTies => "ties of ",
        ItemKind::ButtressTies => "buttress ",
        ItemKind::Bottles => "bottle bricks ",
        ItemKind::Vent => "vent ",
        ItemKind::ReliefTies => "relief ",
        ItemKind::Sleeve => "sleeve of ",
        ItemKind::FlueRing => "flue ring of ",
        ItemKind::Conduit => "conduit ",
        ItemKind::ConduitBox => "box of ",
    };
    let repeats = kind.split_whitespace().any(|word| name.contains(word));
    let what = if repeats && !kind.ends_with("of ") { name } else { format!("{kind}{name}") };
    let share = match item.share {
        Share::Whole => "",
        Share::Begins => ", begins",
        Share::Passes => ", goes through",
        Share::Ends => ", ends",
    };
    let mut figures: Vec<String> = Vec::new();
    if !item.run.is_empty() {
        figures.push(format!("run {}", spoken(&item.run)));
    }
    // What only goes through was set out in a lift below.
    if item.share != Share::Passes {
        let rows = item.rows.iter().filter_map(|(word, path)| Some((word, answers.rows.find(path)?)));
        figures.extend(rows.map(|(word, row)| format!("{word} {}", marked(answers, row))));
    }
    json!({
        "number": number.to_string(),
        "what": capital(&format!("{what}{share}")),
        "figures": figures.join(", "),
        "task": item.task,
        "photo": item.is_buried,
    })
}

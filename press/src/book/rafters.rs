//! Straight rafters that fall one way: which pole lies where, its seats, what is packed up, blocking, flues, and how they go up.

use engine::answers::Answers;
use engine::house::RafterPlan;
use engine::house::rafter_plan::PlacedRafter;
use serde_json::{Value, json};

use super::rows::{cell, figures, lines, said};
use crate::spoken::{capital, spoken};

/// Where each lies and what it is cut to.
const PLACES: [(&str, &str); 7] = [
    ("across", "from the first"),
    ("cut-length", "cut to"),
    ("low-tail", "low tail"),
    ("span", "on its seats"),
    ("high-tail", "high tail"),
    ("low-packing", "under it, low"),
    ("high-packing", "under it, high"),
];

/// The pole of each place.
const POLES: [(&str, &str); 8] = [
    ("pole", "in the pile"),
    ("low", "low end"),
    ("high", "high end"),
    ("low-seat", "low seat"),
    ("high-seat", "high seat"),
    ("wood", "wood"),
    ("mass", "mass"),
    ("lift", "in the hands"),
];

const ALL: [(&str, &str); 15] = [
    ("rafters.first", "First rafter, across the fall from the origin of the plan"),
    ("rafters.low-thinnest", "Thinnest of them at the low ends"),
    ("rafters.high-thinnest", "At the high ends"),
    ("rafters.low-at-seat", "Thinnest over the low seats"),
    ("rafters.high-at-seat", "Over the high seats"),
    ("rafters.heaviest", "Heaviest"),
    ("rafters.side-strip", "Roof that an outermost rafter carries"),
    ("rafters.deepest-seat", "Deepest seat, of its thickness there"),
    ("blocking.count", "Pieces of blocking, over both plates"),
    ("blocking.length", "Each so long, between two rafters"),
    ("blocking.height", "So high on the low side, up to the boards"),
    ("ties.count", "Ties, one at each seat"),
    ("raising.lift-of-2", "Two people lift"),
    ("raising.lift-of-3", "Three"),
    ("seat", "Depth of a seat in the thinnest"),
];

const FLUE: [(&str, &str); 10] = [
    ("opening", "Side of the opening"),
    ("cuts", "Rafters that it cuts"),
    ("to-rafter", "From the flue to the nearest rafter"),
    ("to-beam", "To the bond beam"),
    ("spare", "Of the lesser, over its clearance"),
    ("trimmer-span", "Trimmers, from axis to axis of the rafters that carry them"),
    ("below", "Lower trimmer, from the low end along the rafter beside"),
    ("above", "Upper trimmer, the same"),
    ("clearance", "Clearance by its listing"),
    ("diameter", "Diameter"),
];

/// The chapter; null where the roof does not fall one way.
pub(super) fn chapter(answers: &Answers) -> Value {
    let Some(plan) = &answers.rafter_plan else { return Value::Null };
    json!({
        "words": words(answers, plan),
        "places": by_place(answers, plan, &PLACES),
        "poles": by_place(answers, plan, &POLES),
        "figures": figures(answers, "roof.", &ALL),
        "flues": plan.openings.iter().map(|opening| flue(answers, &opening.stem)).collect::<Vec<_>>(),
        "hands": hands(plan),
        "steps": STEPS,
        "holds": HOLDS,
    })
}

fn words(answers: &Answers, plan: &RafterPlan) -> String {
    let pitch = cell(answers, "roof.angle");
    let lie = format!(
        "{} rafters side by side, {pitch} steep, {} from middle to middle at most.",
        plan.places.len(),
        cell(answers, "roof.spacing")
    );
    let unmeasured = plan.places.iter().filter(|rafter| !rafter.is_measured).count();
    if plan.places.iter().all(|rafter| rafter.tag.is_none()) {
        format!(
            "{lie} Nobody measured their poles yet: have none cut by this chapter before each is measured and written under poles.pile."
        )
    } else if unmeasured > 0 {
        format!(
            "{lie} {unmeasured} of them nobody measured: they are taken to be typical ones. Have no pole cut before each is measured."
        )
    } else {
        lie
    }
}

fn named(place: usize, rafter: &PlacedRafter) -> String {
    let way = if rafter.is_turned { ", thin end low" } else { "" };
    match &rafter.tag {
        Some(tag) => format!("{} {}{way}", place + 1, spoken(tag)),
        None => (place + 1).to_string(),
    }
}

fn by_place(answers: &Answers, plan: &RafterPlan, nouns: &[(&str, &str)]) -> Value {
    let places = plan.places.iter().enumerate();
    lines(answers, "rafter", places.map(|(place, rafter)| (named(place, rafter), format!("{}.", rafter.stem))), nouns)
}

fn flue(answers: &Answers, stem: &str) -> Value {
    let name = capital(&spoken(stem.rsplit('.').next().unwrap_or_default()));
    let joint = said(answers, &format!("{stem}.trimmer-span")).is_some();
    json!({ "name": name, "figures": figures(answers, &format!("{stem}."), &FLUE), "is_trimmed": joint })
}

/// Who lifts the thin end of which rafter.
fn hands(plan: &RafterPlan) -> String {
    let measured = plan.places.iter().enumerate().filter(|(_, rafter)| rafter.tag.is_some());
    let by_tackle: Vec<String> =
        measured.filter(|(_, rafter)| rafter.people.is_none()).map(|(place, _)| (place + 1).to_string()).collect();
    if by_tackle.is_empty() {
        String::new()
    } else {
        format!(
            "Too heavy at the thin end for the largest team: {}. These go up by tripod, ramp or rope, one end at a time.",
            by_tackle.join(", ")
        )
    }
}

/// How they go up: common practice, no source.
const STEPS: [&str; 5] = [
    "Mark every place on both plates from one end, not from rafter to rafter. Stretch a string over the tops of the first and the last.",
    "Cut the seats so that all tops touch the string: a thicker pole is let in deeper. Bow up, the thick end where the table has it.",
    "One end goes up and rests, then the other; tie both seats before the next is lifted.",
    "Packing and what carries the high side stand first. Then blocking between the rafters, nailed to each, so that none rolls.",
    "The opening for a flue is framed before boards; nothing that burns comes nearer than its listing says.",
];

const HOLDS: [&str; 5] = [
    "!Before the first lift: an engineer has confirmed poles, seats, ties, and what carries the high side",
    "!Plates bolted, level and marked: signed by the lead",
    "Nobody beneath a pole while it moves or before both ends are tied",
    "Nobody stands on a rafter before its blocking is in",
    "!Trimmers and rafters beside a flue confirmed; clearance measured after the flue stands",
];

//! Rows of secondary rafters, and of their trimmers where they have any: how many and how long, what governs them, what they lay on the
//! poles.

use super::super::line::bind;
use super::super::need::Need;
use super::factors::{Factors, pressed_by};
use super::loads::Loaded;
use super::rafter::{Named, Rafter};
use super::rafters::{ponded, wood as wood_in_place};
use super::second;
use crate::house::{Borne, Held, Ring, Secondary};
use crate::reason::Answer;
use crate::roof::poles::Pole;
use crate::roof::standing::{Combination, Extra, OnPole, Straight};
use crate::roof::{self, pole_mass};
use crate::row::Rows;
use crate::timber::used;
use crate::units::{Angle, Density, Force, Length, Quantity};

const SECONDARY: Named<'static> = Named {
    stem: "roof.members.secondary",
    words: "longest secondary rafter",
    seats: ["the plate", "its trimmer"],
    from: "its low end",
    frame: &SHAPE,
    heavy: None,
    span: "roof.secondary.span",
    thick: &["roof.secondary.diameter"],
    seat: "roof.seat",
};
const TRIMMER: Named<'static> = Named {
    stem: "roof.members.trimmer",
    words: "longest trimmer",
    seats: ["one of its poles", "the other of its poles"],
    from: "its end",
    frame: &UNDER,
    heavy: None,
    span: "roof.secondary.trimmer-length",
    thick: &["roof.secondary.trimmer"],
    seat: "roof.seat",
};
const SHAPE: [&str; 6] = [
    "roof.secondary.span",
    "roof.secondary.cut-length",
    "roof.secondary.pitch",
    "roof.secondary.strip",
    "roof.secondary.diameter",
    "roof.secondary.length",
];
const UNDER: [&str; 8] = [
    SHAPE[0],
    SHAPE[1],
    SHAPE[2],
    SHAPE[3],
    SHAPE[4],
    "roof.secondary.trimmer-length",
    "roof.secondary.trimmer",
    "roof.secondary.count",
];
const SECOND: Named<'static> =
    Named { words: "longest rafter of the second ring", seats: ["the plate", "its pole"], ..SECONDARY };
/// The same, where it is cut deeper on its pole than on the plate.
const NOTCHED: Named<'static> = Named { seat: "roof.secondary.notch", ..SECOND };
/// Rows on which what a ring carries leans where it has secondary rafters.
pub(super) const ON_POLES: [&str; 8] = [
    "roof.secondary.count",
    "roof.secondary.across",
    "roof.secondary.at",
    "roof.secondary.share",
    "roof.secondary.diameter",
    "roof.secondary.trimmer",
    "roof.secondary.notch",
    "roof.secondary.housing",
];

/// Notes how they lie, and what of them is bought.
pub(super) fn walk((secondary, ring): (&Secondary, Option<&Ring>), density: Density, rows: &mut Rows) -> Need {
    let bays: u64 = rows.value("poles.count").unwrap_or(0);
    let bay = secondary.widest_bay();
    let words = "roof that one secondary rafter carries, where it is widest";
    match &secondary.borne {
        Borne::Trimmed { count, at, trimmer, .. } => {
            rows.known("secondary rafters in each bay", count);
            rows.known("where their trimmers lie, on the way from the plate to the crossing", at);
            rows.known("diameter of a secondary rafter", &secondary.diameter);
            rows.known("diameter of a trimmer", trimmer);
            shape(secondary, rows);
            let strip = bind(roof::strip_width(bay, count.value), rows, "roof.ring.pitch");
            row("strip", words, strip.from("count", path("count")), rows);
            let total = roof::secondary_total(bays, count.value).from("bays", "poles.count");
            row("total", "secondary rafters of the roof", total.from("count", path("count")), rows);
            let pieces = roof::pieces_between(bays, count.value).from("bays", "poles.count");
            row("pieces", "secondary rafters and trimmers of the roof", pieces.from("count", path("count")), rows);
            let longest = trimmed(roof::trimmer_length(secondary.longest_trimmer()), rows);
            row("trimmer-length", "longest trimmer, from axis to axis", longest, rows);
            let [rafters, trimmers] = secondary.end_to_end();
            let all = in_bay(lying(roof::end_to_end(rafters), rows), rows);
            wood("rafters", "secondary rafters", (all, "diameter"), density, rows);
            wood("trimmers", "trimmers", (trimmed(roof::end_to_end(trimmers), rows), "trimmer"), density, rows);
            Need::of(&secondary.of, [path("pieces")])
        }
        Borne::OnPoles(own) => {
            if let Some(ring) = ring {
                second::walk(secondary, (own, ring), rows);
            }
            // One in each bay: half of it is its own.
            let strip = bind(roof::strip_width(bay, 1), rows, "roof.ring.pitch").without("count");
            row("strip", words, strip, rows);
            let total = roof::secondary_total(bays, 1).from("bays", "poles.count").without("count");
            row("total", "rafters of the second ring", total, rows);
            let all = second::end_to_end(own, secondary.end_to_end()[0], rows);
            wood("rafters", "rafters of the second ring", (all, "diameter"), density, rows);
            Need::of(&secondary.of, [path("total")])
        }
    }
}

/// Span, tail, pitch and length of the longest that lies on a trimmer.
fn shape(secondary: &Secondary, rows: &mut Rows) {
    if let Some((tail, span, pitch)) = secondary.longest() {
        row(
            "span",
            "longest secondary rafter, from over the plate to its trimmer",
            lying(roof::secondary_span(span), rows),
            rows,
        );
        let tail = in_bay(roof::secondary_tail(tail), rows);
        row("tail", "longest secondary rafter, from the eave to over the plate", tail, rows);
        row("pitch", "pitch of the longest secondary rafter", lying(roof::secondary_pitch(pitch), rows), rows);
    }
    if let (Some(tail), Some(span)) = (rows.value(&path("tail")), rows.value(&path("span"))) {
        let cut = roof::secondary_cut(tail, span).from("tail", path("tail")).from("span", path("span"));
        row("cut-length", "longest secondary rafter, length to cut to", cut, rows);
    }
}

pub(super) fn path(noun: &str) -> String {
    format!("roof.secondary.{noun}")
}

pub(super) fn row<T: Copy + Into<Quantity>>(noun: &str, title: &str, answer: Answer<T>, rows: &mut Rows) -> T {
    rows.add(path(noun), title, answer)
}

/// What lies between the plate and the trimmers.
fn lying<T>(answer: Answer<T>, rows: &Rows) -> Answer<T> {
    bind(in_bay(answer, rows), rows, "roof.secondary.at")
}

/// What lies at a share of the way across a bay.
fn in_bay<T>(answer: Answer<T>, rows: &Rows) -> Answer<T> {
    if answer.reason.inputs.iter().any(|input| input.path == "roof.ring.pitch") {
        return answer;
    }
    bind(bind(answer, rows, "roof.ring.pitch"), rows, "roof.secondary.count")
}

fn trimmed<T>(answer: Answer<T>, rows: &Rows) -> Answer<T> {
    bind(bind(answer, rows, "roof.ring.pitch"), rows, "roof.secondary.at")
}

fn wood(noun: &str, words: &str, (length, diameter): (Answer<Length>, &str), density: Density, rows: &mut Rows) {
    let [all, volume, mass] = ["length", "wood", "mass"].map(|one| format!("{noun}-{one}"));
    let length = row(&all, &format!("{words} of the roof, end to end"), length, rows);
    let thick = rows.value(&path(diameter)).unwrap_or(Length::ZERO);
    let wood = roof::wood_of_round(thick, length).from("diameter", path(diameter)).from("length", path(&all));
    let wood = row(&volume, &format!("wood of the {words}"), wood, rows);
    let weighed = pole_mass(wood, density).from("volume", path(&volume)).from("density", "poles.density");
    row(&mass, &format!("mass of the {words}"), weighed, rows);
}

/// What governs the longest of each, and what they lay on plate and poles; not known where the loads are not.
pub(super) fn held(
    (secondary, ring): (&Secondary, &Ring),
    held: &Held,
    (loaded, density): (Option<&Loaded>, Density),
    rows: &mut Rows,
) {
    let on_trimmer = matches!(secondary.borne, Borne::Trimmed { .. });
    let joint = if on_trimmer {
        "what holds a secondary rafter to its trimmer, and a trimmer to its poles: an engineer decides"
    } else {
        "what holds the butt of a rafter of the second ring to the plate: an engineer decides"
    };
    rows.not_known(format!("roof.crossings.secondary.{}", Factors::of(held).noun("bolt")), joint);
    let rafter = loaded.and_then(|loaded| rafter((secondary, ring), held, (loaded, density), rows));
    let trimmer = rafter.as_ref().and_then(|rafter| trimmer(secondary, rafter, rows));
    let Some(rafter) = rafter.as_ref().filter(|_| trimmer.is_some() || !on_trimmer) else {
        let factors = Factors::of(held);
        for named in if on_trimmer { &[&SECONDARY, &TRIMMER][..] } else { &[&SECOND][..] } {
            for noun in super::members::NOUNS {
                let title = format!("{}: {}", named.words, super::members::words(noun));
                rows.not_known(format!("{}.{}", named.stem, factors.noun(noun)), title);
            }
        }
        return;
    };
    for one in [Some(rafter), trimmer.as_ref()].into_iter().flatten() {
        one.strength(rows);
        one.sags(rows);
    }
    let (combinations, lifting) = (&rafter.strength.combinations, rafter.lifting());
    let head = if on_trimmer { (1, "on-trimmer", "its trimmer") } else { (1, "on-pole", "its pole") };
    for (seat, noun, onto) in [(0, "on-plate", "the plate"), head] {
        if let Some(most) = rafter.answers.pressed(seat, combinations, &[]) {
            let press = rafter.forced(used::foot_force(most.value), (&rafter.strength, most.combination), rows);
            let governs = rafter.at(&rafter.strength, most.combination);
            row(noun, &format!("what a secondary rafter presses on {onto} at most, under {governs}"), press, rows);
        }
        if let Some(least) = rafter.answers.lifted(seat, &lifting.combinations) {
            let lifts = rafter.forced(used::foot_force(least.value), (&lifting, least.combination), rows);
            let governs = rafter.at(&lifting, least.combination);
            let title = format!("what lifts a secondary rafter off {onto}, and its tie must hold, under {governs}");
            row(&format!("{noun}-lifts"), &title, lifts, rows);
        }
    }
}

/// The longest secondary rafter, carrying the widest strip.
fn rafter<'a>(
    (secondary, ring): (&Secondary, &Ring),
    held: &'a Held,
    (loaded, density): (&Loaded, Density),
    rows: &Rows,
) -> Option<Rafter<'a>> {
    let (tail, span, pitch) = secondary.longest()?;
    let strip: Length = rows.value(&path("strip"))?;
    let pole = round(tail + span, secondary.diameter.value);
    let beam = Straight { pole, supports: vec![tail, tail + span], pitch, spacing: strip };
    let factors = Factors::of(held);
    let extras: Vec<Extra> = loaded.pond.map(|pond| ponded(&beam, pond)).into_iter().collect();
    let count = extras.len();
    let wood = wood_in_place(held, &factors, density);
    let answers = beam.answers(&wood, &extras).ok()?;
    let (strength, sag) = (factors.strength(&loaded.loads, count), factors.sag(&loaded.loads, count));
    let (named, seat, bolt) = match &secondary.borne {
        Borne::Trimmed { .. } => (&SECONDARY, ring.seat.value, None),
        Borne::OnPoles(own) if own.notch.value > ring.seat.value => (&NOTCHED, own.notch.value, own.bolt.as_ref()),
        Borne::OnPoles(own) => (&SECOND, ring.seat.value, own.bolt.as_ref()),
    };
    let bored = (bolt.map_or(Length::ZERO, |bolt| bolt.value), "roof.secondary.bolt");
    let (pond, loads) = (loaded.pond, loaded.loads);
    Some(Rafter { named, held, beam, wood, light: wood, pond, loads, answers, factors, strength, sag, seat, bored })
}

/// The longest trimmer under what as many of the longest secondary rafters press on it. Nothing is cut at its ends.
fn trimmer<'a>(secondary: &Secondary, rafter: &'a Rafter<'a>, rows: &Rows) -> Option<Rafter<'a>> {
    let Borne::Trimmed { count, trimmer, .. } = &secondary.borne else { return None };
    let length: Length = rows.value(&path("trimmer-length"))?;
    let pole = round(length, trimmer.value);
    let count = count.value;
    let at = |place: u64| length * ((place + 1) as f64 / (count + 1) as f64);
    let loads = (0..count).map(|place| OnPole::Point { pole: 0, at: at(place), down: Force::n(1.0) }).collect();
    let extras = [Extra { name: "secondary rafters".into(), loads }];
    let spacing = rafter.beam.spacing;
    let beam = Straight { pole, supports: vec![Length::ZERO, length], pitch: Angle::ZERO, spacing };
    let answers = beam.answers(&rafter.wood, &extras).ok()?;
    let lasts = [&rafter.strength, &rafter.sag].map(|lasts| lasts.with(|own| pressed_by(own, press(rafter, own))));
    Some(Rafter { seat: Length::ZERO, bored: (Length::ZERO, ""), ..rafter.like(&TRIMMER, (&beam, &answers), lasts) })
}

/// What a secondary rafter presses on its trimmer in a combination, in newtons.
fn press(rafter: &Rafter<'_>, own: &Combination) -> f64 {
    rafter.answers.pressed(1, std::slice::from_ref(own), &[]).map_or(0.0, |at| at.value.in_n())
}

fn round(length: Length, diameter: Length) -> Pole {
    Pole { length, butt: diameter, tip: diameter, bow: Length::ZERO, bow_turn: Angle::ZERO }
}

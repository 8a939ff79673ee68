//! Rows of a second ring: where each rafter lies on the plate and on the pole that carries its head.

use super::super::line::bind;
use super::members;
use super::secondary::{path, row};
use crate::house::second_ring::{Placed, SecondRing};
use crate::house::{Ring, Secondary};
use crate::reason::Answer;
use crate::roof;
use crate::row::Rows;
use crate::units::{Length, Ratio};

/// Rows that place a rafter; those that a build has not are not bound.
const PLACES: [&str; 8] = [
    "roof.ring.pitch",
    "roof.secondary.across",
    "roof.secondary.at",
    "roof.secondary.length",
    "roof.secondary.diameter",
    "roof.secondary.notch",
    "roof.seat",
    "roof.secondary.housing",
];

/// Rows that its tail follows from, and what a written length leaves for its span.
const TAIL: [&str; 2] = [PLACES[0], PLACES[1]];
const LEFT: [&str; 4] = [PLACES[0], PLACES[1], PLACES[3], PLACES[4]];

pub(super) fn walk(secondary: &Secondary, (own, ring): (&SecondRing, &Ring), rows: &mut Rows) {
    rows.known("where a rafter of the second ring lies between its two poles, along the plate", &own.across);
    match &own.head {
        Placed::At(at) => {
            rows.known("where it rests on its pole, on the way from the plate to where the next one crosses", at);
        }
        Placed::Length(length) => {
            rows.known("length that each rafter of the second ring is cut to", length);
        }
    }
    rows.known("diameter of a rafter of the second ring", &secondary.diameter);
    rows.known("how deep it is cut where it rests", &own.notch);
    rows.known("how deep its pole is cut there", &own.housing);
    if let Some(bolt) = &own.bolt {
        rows.known("diameter of the bolt through both there", bolt);
    }
    for bay in 0..own.rafters.len() {
        in_bay((own, ring), bay, rows);
    }
    if matches!(own.head, Placed::Length(_)) {
        let mean = own.rafters.iter().map(|one| one.share).sum::<f64>() / own.rafters.len() as f64;
        let share = placed(roof::second_share(Ratio::fraction(mean)), rows);
        row("share", "where the second ring rests on its poles, on the way to the crossing, on the mean", share, rows);
    }
    if let Some((tail, span, pitch)) = secondary.longest() {
        let span = match own.head {
            Placed::At(_) => placed(roof::second_span(span), rows),
            // What is left of its length.
            Placed::Length(_) => by(&LEFT, roof::second_span(span), rows),
        };
        row("span", "longest rafter of the second ring, from over the plate to its pole", span, rows);
        row("tail", "the same, from the eave to over the plate", by(&TAIL, roof::second_tail(tail), rows), rows);
        row("pitch", "pitch of the longest rafter of the second ring", placed(roof::second_pitch(pitch), rows), rows);
    }
    if let (Placed::At(_), Some(tail), Some(span), Some(thick)) =
        (&own.head, rows.value(&path("tail")), rows.value(&path("span")), rows.value(&path("diameter")))
    {
        let cut = roof::second_cut(tail, span, thick);
        let cut = ["tail", "span", "diameter"].iter().fold(cut, |cut, noun| cut.from(noun, path(noun)));
        row("cut-length", "longest rafter of the second ring, length to cut to", cut, rows);
    }
}

/// Where the rafter of a bay lies.
fn in_bay((own, ring): (&SecondRing, &Ring), bay: usize, rows: &mut Rows) {
    let one = &own.rafters[bay];
    let (next, tag) = (ring.layout.below(bay) + 1, members::tag(ring, one.on));
    let on = format!("rafter between places {} and {next}", bay + 1);
    let mut put = |noun: &str, words: String, answer: Answer<Length>| {
        let answer = placed(answer, rows);
        row(&format!("{}.{noun}", bay + 1), &format!("{on}: {words}"), answer, rows);
    };
    put("along", format!("from the butt of {tag} to where it rests on it"), roof::second_along(one.along));
    put("above", format!("its top stands above that of {tag} there"), roof::second_above(one.above));
    if matches!(own.head, Placed::At(_)) {
        put("cut", "length to cut to".to_owned(), roof::second_length(one.lengths[2]));
    }
    let level = placed(roof::second_level(Length::m(one.axis[2][2])), rows);
    let seats = [bay, one.on].map(|place| Ring::path(place, "seat-level"));
    let level = seats.iter().fold(level, |level, path| bind(level, rows, path));
    row(&format!("{}.level", bay + 1), &format!("{on}: level of its middle where it rests"), level, rows);
    for (noun, words, answer) in [
        ("angle", format!("angle between it and {tag}"), roof::second_angle(one.angle)),
        ("lean", "how far the line through both leans from plumb there".to_owned(), roof::second_lean(one.lean)),
    ] {
        row(&format!("{}.{noun}", bay + 1), &format!("{on}: {words}"), placed(answer, rows), rows);
    }
}

/// The row of the rafter of a bay.
pub(super) fn place(bay: usize, noun: &str) -> String {
    path(&format!("{}.{noun}", bay + 1))
}

/// Adds what makes the section of a pole where it carries a rafter.
pub(super) fn housed<T>(answer: Answer<T>, rows: &Rows) -> Answer<T> {
    bind(placed(answer, rows), rows, "roof.secondary.bolt")
}

/// All of them, end to end.
pub(super) fn end_to_end(own: &SecondRing, length: Length, rows: &Rows) -> Answer<Length> {
    let all = roof::end_to_end(length);
    match own.head {
        Placed::At(_) => placed(all, rows),
        Placed::Length(_) => by(&["poles.count", "roof.secondary.length"], all, rows),
    }
}

/// Adds what places a rafter.
pub(super) fn placed<T>(answer: Answer<T>, rows: &Rows) -> Answer<T> {
    by(&PLACES, answer, rows)
}

fn by<T>(paths: &[&str], answer: Answer<T>, rows: &Rows) -> Answer<T> {
    paths.iter().fold(answer, |answer, path| bind(answer, rows, path))
}

//! The bond beam as the plate of straight rafters that fall one way: what each does to its two seats. A simple rafter on level seats
//! does not thrust.

use super::super::factors::Lasts;
use super::super::rafter::Rafter;
use super::on_beam::{Group, OnBeam, Seat};
use super::{unknown, walk};
use crate::house::{Code, House, Rafters, RoofOpening, roof_openings};
use crate::roof::beam::Presses;
use crate::roof::standing::Feet;
use crate::roof::standing::Straight;
use crate::row::Rows;
use crate::timber::section;
use crate::units::{Force, Length};

/// What a rafter of a plate is called at its ends.
const ENDS: [&str; 2] = ["low", "high"];

/// The beam under rafters of which the longest is known; `packed` says what none of them rests on.
pub(in super::super) fn plate(
    house: &House,
    rafters: &Rafters,
    (longest, packed): (&Rafter<'_>, Option<&str>),
    rows: &mut Rows,
) {
    let factors = &longest.factors;
    let not_known = |why: &str, rows: &mut Rows| unknown::all(house, factors, why, rows);
    if let Some(packed) = packed {
        return not_known(packed, rows);
    }
    if let Some(why) = cut(house) {
        return not_known(&why, rows);
    }
    let lifting = longest.lifting();
    match OnBeam::plate(rafters, (longest, &lifting), rows) {
        Some(on) => walk(house, &on, rows),
        None => not_known("its rafters make no beam", rows),
    }
}

/// Why what each rafter does is not known where one is cut for a flue.
fn cut(house: &House) -> Option<String> {
    let said = |opening: &RoofOpening<'_>| opening.thing.name.replace('-', " ");
    roof_openings(house).iter().find_map(|opening| match &opening.framed {
        None => Some(format!("how wide the opening for {} is, its listing says", said(opening))),
        Some(framed) if !framed.cut.is_empty() => Some(format!(
            "the opening for {} cuts a rafter: what its trimmers hand to those beside it is not shared out here",
            said(opening)
        )),
        Some(_) => None,
    })
}

/// What one rafter does to its two seats under each load, with no more weight than it is thick, and its weight alone.
struct Laid {
    beam: Straight,
    on_seats: Vec<[Force; 2]>,
    frame: Vec<String>,
}

impl<'a> OnBeam<'a> {
    /// Straight rafters, each on two seats; none where they make no beam.
    fn plate(rafters: &Rafters, (longest, lifting): (&'a Rafter<'a>, &'a Lasts), rows: &Rows) -> Option<OnBeam<'a>> {
        let laid: Vec<Laid> =
            (0..rafters.places.len()).map(|place| laid(rafters, place, longest, rows)).collect::<Option<_>>()?;
        let loads = laid.first()?.on_seats.len();
        let presses = |load: usize, heavier: f64| -> Presses {
            let times = if load == 0 { heavier } else { 1.0 };
            laid.iter().flat_map(|own| own.on_seats[load]).map(|up| [Force::ZERO, Force::ZERO, up * -times]).collect()
        };
        let frame = |more: Option<&str>| {
            std::iter::once("roof.angle")
                .chain(longest.named.thick.iter().copied())
                .chain(more)
                .map(str::to_owned)
                .collect()
        };
        let group = |heavier: f64, more: Option<&str>, words: &'static str| Group {
            feet: Feet::Sliding,
            loads: (0..loads).map(|load| presses(load, heavier)).collect(),
            frame: frame(more),
            words,
        };
        // As heavy as the heaviest pole, and no heavier than the thinnest: what lifts finds the least weight.
        let heavier = longest.wood.density / longest.light.density;
        let groups = match longest.named.heavy {
            Some(heavy) => vec![group(heavier, Some(heavy), ""), group(1.0, None, "")],
            None => vec![group(heavier, None, "")],
        };
        let seats = laid.iter().enumerate().flat_map(|(place, own)| {
            ENDS.iter().enumerate().map(move |(end, name)| seat(rafters, (place, own), (end, name), longest))
        });
        let flats = laid.iter().flat_map(|own| {
            [0, 1].map(|end| {
                let diameter = own.beam.pole.diameter(own.beam.supports[end]);
                section::seat_width(diameter, longest.seat).value
            })
        });
        Some(OnBeam {
            held: longest.held,
            factors: &longest.factors,
            strength: &longest.strength,
            lifting,
            groups,
            shares: lifting.combinations.iter().map(|one| longest.answers.shares(one)).collect(),
            seats: seats.collect(),
            flats: flats.collect(),
        })
    }
}

fn laid(rafters: &Rafters, place: usize, longest: &Rafter<'_>, rows: &Rows) -> Option<Laid> {
    let nouns = ["low-tail", "span", "cut-length"].map(|noun| Rafters::path(place, noun));
    let [low, span, length] = nouns.each_ref().map(|path| rows.value::<Length>(path));
    let strip = if place == 0 || place + 1 == rafters.places.len() {
        "roof.rafters.side-strip".to_owned()
    } else {
        Rafters::path(1, "across")
    };
    let pole = crate::roof::poles::Pole { length: length?, ..longest.beam.pole };
    let (low, spacing) = (low?, rows.value(&strip)?);
    let beam = Straight { pole, supports: vec![low, low + span?], pitch: longest.beam.pitch, spacing };
    let extras: Vec<_> = longest.pond.map(|pond| super::super::rafters::ponded(&beam, pond)).into_iter().collect();
    let on_seats = beam.answers(&longest.light, &extras).ok()?.on_seats();
    Some(Laid { beam, on_seats, frame: nouns.into_iter().chain([strip]).collect() })
}

fn seat(rafters: &Rafters, (place, own): (usize, &Laid), (end, name): (usize, &str), longest: &Rafter<'_>) -> Seat {
    let one = &rafters.places[place];
    let at = rafters.point(one.bears_at, one.seats[end]);
    let tails = [own.beam.supports[0], own.beam.pole.length - own.beam.supports[1]];
    let is_tapered = longest.beam.pole.butt != longest.beam.pole.tip;
    let tail = (longest.factors.code == Code::En).then(|| Rafters::path(place, &format!("{name}-tail")));
    let thick = longest.named.thick.iter().map(|path| (*path).to_owned());
    // A pole that tapers is as thick at its low seat as the low tail and its whole length say; at the high one the span counts too.
    let nouns: &[usize] = match (is_tapered, end) {
        (false, _) => &[],
        (true, 0) => &[0, 2],
        (true, _) => &[0, 1, 2],
    };
    let along = nouns.iter().filter_map(|&noun| own.frame.get(noun).cloned());
    Seat {
        name: format!("{}-{name}", place + 1),
        at: [at.x, at.y].map(Length::m),
        beyond: tails[end] * longest.beam.pitch.in_rad().cos(),
        on: format!("{name} seat of rafter {}", place + 1),
        shape: std::iter::once("roof.seat".to_owned()).chain(thick).chain(along).chain(tail).collect(),
        frame: own.frame.clone(),
    }
}

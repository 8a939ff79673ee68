//! What keeps the poles of a pile from making the ring of a house, in one sentence each.

use super::Wall;
use super::pile::PilePole;
use super::place::shown;
use super::ring::Ring;
use crate::build::{self, Source};
use crate::curve::Side;
use crate::roof::poles::{self, Laid, Position};
use crate::units::{Length, System};

/// What is wrong, and what would be right.
pub(super) type Refused = (String, String);

/// A fault of the ring; where its own sentence does not say what would be right, a hint does.
pub(super) fn refused(fault: poles::Fault, hint: &str) -> Refused {
    let sentence = fault.to_string();
    match sentence.split_once("; ") {
        Some((message, own)) => (message.to_owned(), own.to_owned()),
        None => (sentence, hint.to_owned()),
    }
}

/// Places that find no pole: one that lies already and does not reach, or too few in the pile that would.
pub(super) fn short(pile: &[PilePole], laid: &[Laid], rows: &[usize], positions: &[Position]) -> Refused {
    let said = |length: Length| shown(length, System::Metric);
    if let [place] = rows
        && let Some(own) = laid.get(*place)
    {
        let (pole, wanted) = (&pile[own.pole], positions[*place].length);
        if pole.length.value < wanted {
            let message = format!(
                "`{}` is {} long, and place {} wants {}",
                pole.tag,
                said(pole.length.value),
                place + 1,
                said(wanted)
            );
            return (message, "lay a longer pole there, or make overhang and tip shorter".to_owned());
        }
    }
    let least = rows.iter().map(|&row| positions[row].length).fold(Length::m(f64::INFINITY), Length::min);
    let reaching = pile.iter().filter(|pole| pole.length.value >= least).count();
    let count = rows.len();
    let places = if count == 1 {
        "one place of the ring wants a pole".to_owned()
    } else {
        format!("{count} places of the ring want poles")
    };
    let message = format!("{places} of {} and more, and the pile has {reaching} as long", said(least));
    (message, "measure longer poles, or make overhang and tip shorter".to_owned())
}

/// Refuses a pole whose thin end is no thicker than the notch that is wanted in it and its neighbour.
pub(super) fn notch_leaves_something(
    source: &Source<'_>,
    written: &build::Poles,
    pile: &[PilePole],
    notch: Length,
    system: System,
) -> bool {
    let mut is_whole = true;
    for (pole, written) in pile.iter().zip(&written.pile) {
        let thin = pole.candidate().pole.tip;
        if thin <= notch {
            let message = format!(
                "`{}` is {} thick at its tip, and a notch takes {}: nothing is left",
                pole.tag,
                shown(thin, system),
                shown(notch, system)
            );
            let path = format!("poles.pile.{}", pole.tag);
            source.fault(written.tag.span.clone(), &path, message, "leave it out of the pile, or notch less");
            is_whole = false;
        }
    }
    is_whole
}

/// Refuses a ring whose prop would stand in the wall or outside of it.
pub(super) fn prop_is_in_the_room(source: &Source<'_>, roof: &build::Roof, wall: &Wall, ring: &Ring) -> bool {
    let prop = ring.prop();
    let station = wall.line.nearest(prop);
    let away = (prop - station.point).dot(station.axis.turn_90());
    let face = wall.shape().offset(Side::Inner, wall.line.along_line(station), 0.0);
    let clear = away + face;
    if clear > 0.0 {
        return true;
    }
    if let Some(eye) = &roof.eye {
        let message = format!(
            "the prop would stand outside of the room, {} beyond the inner face of the wall",
            shown(Length::m(-clear), System::Metric)
        );
        source.fault(eye.span.clone(), &eye.path, message, "make the eye smaller, or turn it with roof.turned");
    }
    false
}

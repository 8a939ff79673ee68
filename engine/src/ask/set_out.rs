//! Questions of the surveyor: a traverse round the pegs, a loop of levels.

use super::given::Given;
use super::{Question, Reply};
use crate::set_out::{self, Leg, Sights};
use crate::units::{Kind, Length};

/// A closing error below this is none: no ratio can be told from it.
const NOTHING: Length = Length::mm(0.001);

pub(super) const TRAVERSE: Question = Question {
    name: "traverse",
    about: "Closing error of a traverse round pegs and back, and their places adjusted by Bowditch's rule",
    example: r#"{"legs": [
  {"length_m": 6.0, "bearing_rad": 1.5707963267948966}, {"length_m": 4.003, "bearing_rad": 0},
  {"length_m": 5.998, "bearing_rad": 4.71238898038469}, {"length_m": 3.999, "bearing_rad": 3.141592653589793}]}"#,
    answer: traverse,
};

pub(super) const LEVEL_LOOP: Question = Question {
    name: "level-loop",
    about: "Rises and falls, closing error and adjusted levels of a loop of levels back to its benchmark",
    example: r#"{"start_m": 0, "sights": [
  {"back_m": 1.42, "fore_m": 1.05}, {"back_m": 1.318, "fore_m": 1.627}, {"back_m": 0.98, "fore_m": 1.044}]}"#,
    answer: level_loop,
};

fn leg(given: &mut Given<'_>) -> Option<Leg> {
    let (length, bearing) = (given.number("length_m", Kind::Length), given.number("bearing_rad", Kind::Angle));
    let length: Length = length?;
    if length <= Length::ZERO {
        given.problem("a leg needs a `length_m` above zero".into());
        return None;
    }
    Some(Leg { length, bearing: bearing? })
}

fn traverse(given: &mut Given<'_>, reply: &mut Reply) {
    let legs = given.list("legs", leg);
    if legs.len() < 3 {
        given.problem("a traverse that comes back has at least three `legs`".into());
        return;
    }
    let perimeter = reply.put("perimeter", set_out::perimeter(&legs));
    let east = reply.put("misclosure_east", set_out::misclosure_east(&legs));
    let north = reply.put("misclosure_north", set_out::misclosure_north(&legs));
    let closing = reply.put("closing", set_out::closing_length(east, north));
    if closing > NOTHING {
        reply.put("closing_ratio", set_out::closing_ratio(perimeter, closing));
    }
    for peg in 1..=legs.len() {
        reply.put(&format!("east_{peg}"), set_out::adjusted_east(&legs, peg));
        reply.put(&format!("north_{peg}"), set_out::adjusted_north(&legs, peg));
    }
}

fn sights(given: &mut Given<'_>) -> Option<Sights> {
    let (back, fore) = (given.number("back_m", Kind::Length), given.number("fore_m", Kind::Length));
    Some(Sights { back: back?, fore: fore? })
}

fn level_loop(given: &mut Given<'_>, reply: &mut Reply) {
    let start: Option<Length> = given.number("start_m", Kind::Length);
    let sights = given.list("sights", sights);
    if sights.len() < 2 {
        given.problem("a loop of levels has at least two `sights`: out and back".into());
    }
    let Some(start) = start else { return };
    for (place, one) in sights.iter().enumerate() {
        reply.put(&format!("rise_{}", place + 1), set_out::rise(one.back, one.fore));
    }
    reply.put("closing", set_out::level_closing(&sights));
    for so_far in 1..=sights.len() {
        reply.put(&format!("level_{so_far}"), set_out::adjusted_level(start, &sights, so_far));
    }
}

//! How wide an opening is, and where its middle lies, when its jambs are to stand at given places of the line.

use crate::curve::{Cut, Form, PlanLine};

/// Halvings of a width: a metre is parted to less than a hundredth of a millimetre.
const HALVINGS: u32 = 20;
/// Each round leaves a part of the miss, the smaller the less the line bends within the opening.
const ROUNDS: u32 = 30;
/// A miss that no longer counts, in metres.
const NEAR: f64 = 1e-7;

/// The width, in metres and not below the least, of an opening with one jamb at a place of the line and the other so far ahead
/// of it along the line, or back from it where that is negative. Where no line square to the middle leads there, as past a sharp
/// corner, the other jamb lies as far that way as one does.
pub(super) fn width(line: &PlanLine, jamb: f64, reach: f64, least: f64) -> f64 {
    // The way across is never longer than the line is.
    let (mut narrow, mut wide) = (least, reach.abs().max(least));
    for _ in 0..HALVINGS {
        let width = narrow.midpoint(wide);
        let middle = middle(line, jamb, width.copysign(reach));
        match middle.and_then(|middle| reached(line, middle, width)) {
            Some([back, ahead]) if back + ahead <= reach.abs() => narrow = width,
            _ => wide = width,
        }
    }
    narrow.midpoint(wide)
}

/// Where along the line, in metres, the middle of an opening lies that has one jamb at a place of the line and the other ahead
/// of it, or back from it where its width is negative; none where the line bends too much for it.
pub(super) fn middle(line: &PlanLine, jamb: f64, width: f64) -> Option<f64> {
    let mut middle = jamb + 0.5 * width;
    for _ in 0..ROUNDS {
        let [back, ahead] = reached(line, middle, width.abs())?;
        let miss = jamb - if width > 0.0 { middle - back } else { middle + ahead };
        if miss.abs() < NEAR {
            return Some(middle);
        }
        middle += miss;
    }
    None
}

/// How far along the line the jambs lie behind and ahead of the middle of an opening of a width, in metres.
fn reached(line: &PlanLine, middle: f64, width: f64) -> Option<[f64; 2]> {
    let form = Form::Rectangle { half: 0.5 * width, bottom: 0.0, top: 1.0 };
    let station = line.at(middle);
    let [from, to] = Cut::straight(station, form).on_line(line, 0.0)?;
    let back = line.along_line(station) - from;
    let back = if line.is_closed() { back.rem_euclid(line.length()) } else { back };
    Some([back, to - from - back])
}

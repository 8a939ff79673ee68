//! What cannot be said of a bond beam and of the roof's anchors, and why.

use super::super::factors::Factors;
use super::super::members;
use super::path;
use crate::house::{Code, Frame, House};
use crate::row::Rows;

/// What stands where snow or wind is not known, or the ring makes no frame.
const NO_LOADS: &str = "its loads are not known, or its poles make no frame";

/// Nothing of the beam, since snow or wind is not known, or the poles make no frame.
pub(in super::super) fn not_known(house: &House, factors: &Factors, rows: &mut Rows) {
    all(house, factors, NO_LOADS, rows);
}

/// Nothing of a beam under a ring that nobody measured pole by pole.
pub(in super::super) fn unmeasured(house: &House, factors: &Factors, rows: &mut Rows) {
    all(house, factors, "nobody measured its poles one by one: write [poles.pile] or [poles.typical]", rows);
}

/// Nothing of the beam and of its anchors.
pub(super) fn all(house: &House, factors: &Factors, why: &str, rows: &mut Rows) {
    parts(house, factors, why, rows);
    feet(house, factors, why, rows);
    anchors(house, factors, why, rows);
}

fn parts(house: &House, factors: &Factors, why: &str, rows: &mut Rows) {
    if house.bond_beam.is_none() || !house.wall.line.is_closed() {
        return;
    }
    let twist = (factors.code == Code::En).then_some(("each.twist", "shear strength used by twist"));
    let of_part = [
        ("each.bending", members::words("bending")),
        ("each.shear", members::words("shear")),
        ("seats.each.bearing", "bearing strength used under each pole"),
    ];
    // Rafters that fall one way do not thrust.
    let thrusts = house.roof.as_ref().is_some_and(|roof| matches!(roof.frame, Frame::Reciprocal { .. }));
    let of_thrust = [
        ("each.ring", "strength used by ring force and bending"),
        ("seats.each.tipping", "how far off its middle each pole's load falls"),
    ];
    let of_thrust = of_thrust.into_iter().filter(|_| thrusts);
    for (place, words) in of_part.into_iter().chain(of_thrust).chain(twist) {
        let (stem, noun) = place.rsplit_once('.').unwrap_or(("each", place));
        rows.not_known(path(&format!("{stem}.{}", factors.noun(noun))), format!("bond beam: {words} ({why})"));
    }
}

/// Nothing of what each anchor must hold down.
pub(super) fn anchors(house: &House, factors: &Factors, why: &str, rows: &mut Rows) {
    let row = |name: &str| path(&format!("anchors.{name}.{}", factors.noun("used")));
    for anchors in &house.anchors {
        let name = anchors.name.replace('-', " ");
        rows.not_known(row(&anchors.name), format!("anchors of {name}: share used of what each holds ({why})"));
    }
    if house.anchors.is_empty() {
        let title = "what ties the roof down: share used of what each anchor holds (no [wall.anchors] are written)";
        rows.not_known(row("each"), title);
    }
}

/// Nothing of the anchors of a roof that no bond beam lies under.
pub(super) fn without_beam(house: &House, factors: &Factors, rows: &mut Rows) {
    feet(house, factors, "no bond beam hands on to the wall what they push", rows);
    anchors(house, factors, "without a bond beam nothing shares out among them what lifts", rows);
}

/// Nothing of what holds the feet of the poles of a ring.
fn feet(house: &House, factors: &Factors, why: &str, rows: &mut Rows) {
    if house.roof.as_ref().is_some_and(|roof| matches!(roof.frame, Frame::Reciprocal { .. })) {
        let title = format!("what holds the feet of the poles against thrust ({why})");
        rows.not_known(format!("roof.feet.{}", factors.noun("slips")), title);
    }
}

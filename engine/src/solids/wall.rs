//! Bodies of the cob, lift by lift.

use super::{Making, Named};
use crate::curve::{Along, Body, Cut};
use crate::solid::{Band, Cuboid};

pub(super) fn make(made: &mut Making<'_>) {
    let house = made.house;
    let wall = &house.wall;
    let levels: Vec<f64> = wall.lifts.iter().map(|lift| lift.top.value.in_m()).collect();
    let body = Body::new(wall.shape(), &wall.top, &levels);
    let cuts: Vec<Cut> = house.cuts();
    let knots = body.knots();
    let mut foot = Along::even(0.0);
    let mut below = 0.0;
    for (place, lift) in wall.lifts.iter().enumerate() {
        let is_last = place + 1 == wall.lifts.len();
        let level = if is_last { f64::INFINITY } else { levels[place] };
        let top = body.capped(level, made.chord);
        let boxes: Vec<Cuboid> = house.boxes(&lift.name);
        let shape = body.shape;
        let at_foot = if is_last && below > 0.0 { Along::even(below) } else { foot.clone() };
        let band = Band {
            shape,
            foot: &at_foot,
            top: &top,
            stretch: None,
            cuts: &cuts,
            boxes: &boxes,
            knots: &knots,
            chord: made.chord,
        };
        let named = Named {
            lift: Some(lift.name.clone()),
            day: Some(lift.start.value),
            ..Named::new(format!("lift {}", lift.name), "cob")
        };
        made.keep(lift.path("body"), named, &lift.path("volume"), band.mesh());
        below = levels[place];
        foot = Along::even(below);
    }
}

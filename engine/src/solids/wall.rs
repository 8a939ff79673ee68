//! Bodies of the cob, lift by lift.

use super::built_in::deadmen;
use super::{Making, Named};
use crate::curve::{Along, Body, Cut};
use crate::house::Opening;
use crate::solid::{Band, Cuboid};

pub(super) fn make(made: &mut Making<'_>) {
    let house = made.house;
    let wall = &house.wall;
    let levels: Vec<f64> = wall.lifts.iter().map(|lift| lift.top.value.in_m()).collect();
    let body = Body::new(wall.shape(), &wall.top, &levels);
    let built_in = house.built_in.iter().flat_map(|thing| thing.cuts()).copied();
    let cuts: Vec<Cut> = house.openings.iter().map(Opening::whole_cut).chain(built_in).collect();
    let mut below = 0.0;
    for (lift, &level) in wall.lifts.iter().zip(&levels) {
        let anchors = house.anchors.iter().filter(|anchors| anchors.lift == lift.name);
        let boxes: Vec<Cuboid> = anchors.flat_map(deadmen).collect();
        let band = Band {
            shape: body.shape,
            foot: &Along::even(below),
            top: &body.capped(level, made.chord),
            stretch: None,
            cuts: &cuts,
            boxes: &boxes,
            knots: body.knots(),
            chord: made.chord,
        };
        let named = Named {
            lift: Some(lift.name.clone()),
            day: Some(lift.start.value),
            ..Named::new(format!("lift {}", lift.name), "cob")
        };
        made.keep(format!("wall.lifts.{}", lift.name), named, &lift.path("volume"), band.mesh());
        below = level;
    }
}

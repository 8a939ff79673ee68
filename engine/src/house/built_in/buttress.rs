//! Places buttresses: leaning piers of cob against a face, on a foot of stone.

use super::Spot;
use super::cover::reach;
use super::site::{Site, side};
use crate::build;
use crate::curve::{Cut, Depth, Form, Side};
use crate::house::Wall;
use crate::house::openings::least_top;
use crate::known::{Known, Origin};
use crate::units::Length;
use crate::wall;

/// A leaning pier of cob against one face.
#[derive(Clone, Debug)]
pub struct Buttress {
    /// Where its middle is.
    pub spot: Spot,
    /// The face.
    pub side: Side,
    /// Length along the wall.
    pub length: Known<Length>,
    /// Depth at the foot of the cob, from the face at its middle.
    pub depth: Known<Length>,
    /// Depth at its top.
    pub depth_at_top: Known<Length>,
    /// Level of its top.
    pub top: Known<Length>,
    /// Level of what it stands on: the ground outside, or the finished floor.
    pub foot: Known<Length>,
    /// Its recipe.
    pub of: Option<String>,
    /// The rectangle of the face that it covers.
    pub cut: Cut,
    /// How far outside of the line, at its middle, its front stands at the foot of the cob and at its top, in metres.
    pub front: [f64; 2],
}

impl Buttress {
    /// It as it stands against a wall and its stem.
    #[must_use]
    pub fn body<'a>(&self, wall: &'a Wall) -> wall::Buttress<'a> {
        wall::Buttress {
            shape: wall.shape(),
            stem: wall.stem_shape(),
            side: self.side,
            cut: self.cut,
            front: self.front,
            foot: self.foot.value.in_m(),
        }
    }
}

pub(super) fn place(site: &Site<'_>, written: &build::BuiltIn) -> Option<Buttress> {
    let keys = &written.keys;
    let length = site.size(keys.length.as_ref(), "the length of a buttress");
    let depth = site.size(keys.depth.as_ref(), "the depth of a buttress");
    let depths = Length::ZERO..Length::m(12.0);
    let depth_at_top = match &keys.depth_at_top {
        Some(_) => site.within(keys.depth_at_top.as_ref(), depths, "the depth of a buttress at its top"),
        None => {
            let path = format!("built-in.{}.depth-at-top", written.name.value);
            let why = "its front runs out into the face at its top";
            Some(Known::assumed(Length::ZERO, path, Origin::Judgement, why))
        }
    };
    let top = site.size(keys.top.as_ref(), "the level of the top of a buttress");
    let of = site.recipe(keys.of.as_ref())?;
    let (spot, length, depth, depth_at_top, top) = (site.spot(&keys.spot)?, length?, depth?, depth_at_top?, top?);
    let side = side(keys.side.as_ref(), Side::Outer);
    let (ground, floor) = site.levels;
    let foot = if side == Side::Inner { floor } else { ground }.clone();
    let out = if side == Side::Inner { -1.0 } else { 1.0 };
    let along = site.shape.line.along_line(spot.station);
    let front = [(0.0, depth.value), (top.value.in_m(), depth_at_top.value)]
        .map(|(level, depth)| site.shape.offset(side, along, level) + out * depth.in_m());
    let form = Form::Rectangle { half: 0.5 * length.value.in_m(), bottom: 0.0, top: top.value.in_m() };
    let cut = Cut { station: spot.station, form, depth: Depth::Into { side, bottom: front[0] } };
    let highest = least_top(site.wall, &Cut::straight(spot.station, form));
    if top.value >= highest {
        let message = format!(
            "the buttress would end at {}, the wall's top is at {}",
            site.shown(top.value),
            site.shown(highest)
        );
        site.refuse(keys.top.as_ref(), &written.name, message, "end it below the top of the wall");
        return None;
    }
    let buttress = Buttress { spot, side, length, depth, depth_at_top, top, foot, of, cut, front };
    stands_out(site, written, &buttress).then_some(buttress)
}

/// Refuses a buttress whose sides never meet a face, or whose front is buried where the face bends round it.
fn stands_out(site: &Site<'_>, written: &build::BuiltIn, buttress: &Buttress) -> bool {
    let slice = |level: f64| {
        let form = Form::Rectangle { half: buttress.cut.form.half(), bottom: level, top: level };
        Cut { form, ..buttress.cut }
    };
    let side = buttress.side;
    let top = buttress.top.value.in_m();
    let foot = if buttress.foot.value < Length::ZERO { &site.stem } else { &site.shape };
    let faces = [
        (reach(foot, &slice(0.0), side), 0),
        (reach(&site.shape, &slice(0.0), side), 0),
        (reach(&site.shape, &slice(top), side), 1),
    ];
    let mut out = f64::INFINITY;
    for (face, front) in faces {
        let Some([low, high]) = face else {
            let message = "the wall turns away from this buttress: a side of it would never meet the face";
            let hint = "make it shorter, or put it where the wall is straighter";
            site.refuse(written.keys.length.as_ref(), &written.name, message, hint);
            return false;
        };
        let front = buttress.front[front];
        out = out.min(if side == Side::Inner { low - front } else { front - high });
    }
    // A front that runs out into a straight face just touches it.
    if out < -1e-9 {
        let message = format!("a part of the front of the buttress would lie {} in the wall", site.shown_m(-out));
        let hint = "make it deeper or shorter, or put it where the wall is straighter";
        site.refuse(written.keys.depth.as_ref(), &written.name, message, hint);
        return false;
    }
    true
}

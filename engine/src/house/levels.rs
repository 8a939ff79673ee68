//! Places levels, trench and drain, and refuses water that would run uphill.

use std::ops::Range;

use super::line;
use super::openings::on_the_wall;
use super::place::{STEM_HEIGHT, known, shown, within};
use super::{Drain, Trench, Wall};
use crate::build::{Build, Source, Written};
use crate::ground;
use crate::known::{Known, Origin};
use crate::units::{Length, Slope, System};

/// Levels farther up or down than this are slips of the pen.
const NEAR: Range<Length> = Length::m(-10.0)..Length::m(10.0);

/// Falls steeper than this are no trench's.
const STEEPEST: f64 = 0.5;

/// Levels of the ground outside and of the finished floor.
pub(super) fn levels(
    source: &Source<'_>,
    build: &Build,
    wall: Option<&Wall>,
    system: System,
) -> (Known<Length>, Known<Length>) {
    let level = |written: Option<&Written<Length>>, what: &str| within(source, written, NEAR, what, system);
    let stem = wall.map_or(STEM_HEIGHT, |wall| wall.stem_height.value);
    let outside =
        level(build.ground.outside.as_ref(), "a level of the ground beside a small house").unwrap_or_else(|| {
            let why = "the stem wall stands 150 mm in the ground";
            Known::assumed(Length::mm(150.0) - stem, "ground.outside", Origin::Judgement, why)
                .following("wall.stem.height")
        });
    let floor = level(build.ground.floor.as_ref(), "a level of the floor of a small house").unwrap_or_else(|| {
        let why = "the floor lies 150 mm below the foot of the cob, safe from spilt water";
        Known::assumed(Length::mm(-150.0), "ground.floor", Origin::Judgement, why)
    });
    (outside, floor)
}

/// The trench and the drain.
pub(super) fn water(
    source: &Source<'_>,
    build: &Build,
    wall: &Wall,
    outside: &Known<Length>,
    system: System,
) -> (Option<Trench>, Option<Drain>) {
    let trench = trench(source, build, wall, outside, system);
    let drain = drain(source, build, wall, outside, trench.as_ref(), system);
    (trench, drain)
}

fn trench(source: &Source<'_>, build: &Build, wall: &Wall, outside: &Known<Length>, system: System) -> Option<Trench> {
    let written = build.water.trench.as_ref()?;
    let width = within(source, written.width.as_ref(), Length::mm(100.0)..Length::m(3.0), "a trench's width", system)
        .unwrap_or_else(|| {
            Known::assumed(
                wall.stem_width.value,
                "water.trench.width",
                Origin::CommonPractice,
                "as wide as the stem wall",
            )
            .following("wall.stem.width")
        });
    let depth = within(source, written.depth.as_ref(), Length::mm(100.0)..Length::m(4.0), "a trench's depth", system);
    if let Some(fall) = written.fall.as_ref().filter(|fall| fall.value < Slope::ZERO) {
        source.fault(
            fall.span.clone(),
            &fall.path,
            "the bottom of the trench would run uphill to its outlet",
            "write how far it falls towards the outlet, such as \"1:50\"",
        );
    }
    if let Some(fall) = written.fall.as_ref().filter(|fall| fall.value > Slope::ratio(STEEPEST)) {
        source.fault(
            fall.span.clone(),
            &fall.path,
            "a trench does not fall by more than 1 in 2",
            "write how far it falls towards the outlet, such as \"1:50\"",
        );
    }
    let fall = known(written.fall.as_ref()).unwrap_or_else(|| {
        Known::assumed(
            Slope::ratio(0.02),
            "water.trench.fall",
            Origin::CommonPractice,
            "1 in 50 drains and is easy to level",
        )
    });
    let (run, outlet) = on_the_wall(source, written.run.as_ref(), written.along.as_ref(), wall, system)?;
    if !line::faces_are_whole(source, build, (&wall.points, &wall.line), ("trench", width.value), system) {
        return None;
    }
    let depth = depth?;
    let (bottom, foot) = (outside.value - depth.value, -wall.stem_height.value);
    if bottom >= foot {
        let at = written.depth.as_ref()?;
        source.fault(
            at.span.clone(),
            &at.path,
            format!(
                "the bottom of the trench, at {}, is not below the foot of the stem wall, at {}",
                shown(bottom, system),
                shown(foot, system)
            ),
            "dig deeper, or make the stem wall lower",
        );
        return None;
    }
    Some(Trench { width, depth, fall, run, along: known(written.along.as_ref())?, outlet })
}

fn drain(
    source: &Source<'_>,
    build: &Build,
    wall: &Wall,
    outside: &Known<Length>,
    trench: Option<&Trench>,
    system: System,
) -> Option<Drain> {
    let written = build.water.drain.as_ref()?;
    let length =
        within(source, written.length.as_ref(), Length::mm(100.0)..Length::m(200.0), "a drain's length", system)?;
    let what = "a level at which a drain comes to daylight";
    let daylight = within(source, written.daylight.as_ref(), Length::m(-100.0)..Length::m(10.0), what, system);
    if let (Some(trench), Some(at)) = (trench, &written.daylight) {
        let line_length = Length::m(wall.line.length());
        let low = ground::low_depth(trench.depth.value, trench.fall.value, line_length).value;
        let outlet = outside.value - low;
        if at.value >= outlet {
            source.fault(
                at.span.clone(),
                &at.path,
                format!(
                    "the drain would run uphill: the trench's outlet is at {}, the ground at {}",
                    shown(outlet, system),
                    shown(at.value, system)
                ),
                "bring the drain out farther down the slope, or dig the trench less deep",
            );
            return None;
        }
    }
    Some(Drain { length, daylight })
}

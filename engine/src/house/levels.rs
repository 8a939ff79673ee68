//! Places levels, trench and drain, and refuses water that would run uphill.

use std::ops::Range;

use super::line;
use super::openings::on_the_wall;
use super::place::{STEM_HEIGHT, known, shown, within};
use super::{Drain, Fabric, Trench, Wall};
use crate::build::{Build, Source, Written};
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
    if let (Some(at), Some(wall)) = (&build.ground.outside, wall) {
        let top = wall.least_top([0.0, wall.line.length()]);
        if at.value >= top {
            let message = format!(
                "the ground would lie at {}, the wall's top is at {}",
                shown(at.value, system),
                shown(top, system)
            );
            let hint = "write its level from the foot of the cob: below it, with a minus";
            source.fault(at.span.clone(), &at.path, message, hint);
        }
    }
    let floor = level(build.ground.floor.as_ref(), "a level of the floor of a small house").unwrap_or_else(|| {
        if wall.is_some_and(|wall| !wall.line.is_closed()) {
            let why = "a wall that does not go round has no floor; one walks on the ground";
            return Known::assumed(outside.value, "ground.floor", Origin::CommonPractice, why)
                .following("ground.outside");
        }
        let why = "the floor lies 150 mm below the foot of the cob, safe from spilt water";
        Known::assumed(Length::mm(-150.0), "ground.floor", Origin::Judgement, why)
    });
    (outside, floor)
}

/// Loose and packed volume for each volume in the ground.
pub(super) fn spoil(source: &Source<'_>, build: &Build, system: System) -> [Known<f64>; 2] {
    let what = "a loose volume for each volume in the ground";
    let loose = within(source, build.ground.loose.as_ref(), 1.0..2.0, what, system);
    let what = "a packed volume for each volume in the ground";
    let packed = within(source, build.ground.packed.as_ref(), 0.5..1.5, what, system);
    [
        loose.unwrap_or_else(|| {
            let why = "dug earth swells by about a quarter; measure a pit and its heap";
            Known::assumed(1.25, "ground.loose", Origin::Memory, why)
        }),
        packed.unwrap_or_else(|| {
            let why = "earth packed in layers takes a tenth less room than it did in the ground";
            Known::assumed(0.9, "ground.packed", Origin::Memory, why)
        }),
    ]
}

fn fabric(source: &Source<'_>, build: &Build, system: System) -> Fabric {
    let written = build.water.fabric.as_ref();
    let lap = written.and_then(|fabric| fabric.lap.as_ref());
    let piece = written.and_then(|fabric| fabric.piece.as_ref());
    let of = written.and_then(|fabric| fabric.of.as_ref());
    let lap = within(source, lap, Length::mm(50.0)..Length::m(1.5), "how far fabric laps", system);
    let piece = within(source, piece, Length::m(2.0)..Length::m(500.0), "the length of a piece of fabric", system);
    Fabric {
        lap: lap.unwrap_or_else(|| {
            let why = "one piece lies 300 mm over the next";
            Known::assumed(Length::mm(300.0), "water.fabric.lap", Origin::CommonPractice, why)
        }),
        piece: piece.unwrap_or_else(|| {
            let why = "a piece that two people can carry and lay";
            Known::assumed(Length::m(10.0), "water.fabric.piece", Origin::Judgement, why)
        }),
        of: of.map_or_else(|| "fabric".to_owned(), |of| of.value.clone()),
    }
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
    let loose = within(source, written.loose.as_ref(), 1.0..1.6, "a loose volume for each packed volume", system);
    Some(Trench {
        width,
        depth,
        fall,
        run,
        along: known(written.along.as_ref())?,
        outlet,
        of: written.of.as_ref().map_or_else(|| "gravel".to_owned(), |of| of.value.clone()),
        loose: loose.unwrap_or_else(|| {
            let why = "loose gravel packs by about an eighth in layers of 150 mm";
            Known::assumed(1.15, "water.trench.loose", Origin::Memory, why)
        }),
        fabric: fabric(source, build, system),
    })
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
        let outlet = outside.value - trench.depth_at(&wall.line, wall.line.along_line(trench.outlet));
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
    let covers = Length::ZERO..Length::m(1.5);
    let cover = within(source, written.cover.as_ref(), covers, "soil over the gravel of a drain", system);
    let cover = cover.unwrap_or_else(|| {
        let why = "soil and turf over the gravel";
        Known::assumed(Length::mm(150.0), "water.drain.cover", Origin::CommonPractice, why)
    });
    Some(Drain { length, daylight, cover })
}

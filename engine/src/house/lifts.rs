//! Places the lifts: as written, else by rule of thumb.

use super::Lift;
use super::place::{known, shown};
use crate::build::{self, Build, Source};
use crate::known::{Known, Origin};
use crate::units::{Days, Length, System};

/// No lift is laid thinner; what rounding takes of it is none.
const LEAST: Length = Length::mm(5.0 - 1e-6);

/// The highest lift that the rule of thumb makes, in millimetres; common practice.
const HIGHEST: f64 = 450.0;
/// Days from the start of one lift to the start of the next; common practice.
const APART: f64 = 2.0;
/// A rest thinner than this share of a lift is raised with the lift below.
const THIN: f64 = 0.1;

pub(super) fn place(
    source: &Source<'_>,
    build: &Build,
    thickness: &Known<Length>,
    height: &Known<Length>,
    system: System,
) -> Vec<Lift> {
    if build.wall.lifts.is_empty() {
        return by_thumb(thickness, height);
    }
    let last = build.wall.lifts.len() - 1;
    let mut below = (Length::ZERO, Days::ZERO);
    let mut lifts = Vec::new();
    for (place, written) in build.wall.lifts.iter().enumerate() {
        let is_last = place == last;
        let Some(top) = known(written.top.as_ref()).or_else(|| is_last.then(|| height.clone())) else {
            source.fault(
                written.name.span.clone(),
                &format!("wall.lifts.{}", written.name.value),
                "nothing says how high this lift ends",
                "write its `top`; only the last lift may leave it out",
            );
            continue;
        };
        let name = written.name.value.clone();
        let before = u32::try_from(place).unwrap_or(u32::MAX);
        let start = known(written.start.as_ref()).unwrap_or_else(|| two_days_apart(before, &name));
        let lift = Lift { top, start, name };
        rises(source, written, &lift, below, (is_last, height.value), system);
        below = (lift.top.value, lift.start.value);
        lifts.push(lift);
    }
    lifts
}

/// As high as the wall is thick at its foot, at most 450 mm, begun two days apart.
fn by_thumb(thickness: &Known<Length>, height: &Known<Length>) -> Vec<Lift> {
    let highest = Length::mm(HIGHEST);
    let step = thickness.value.min(highest);
    let count = (height.value / step - THIN).ceil().clamp(1.0, 400.0) as u32;
    (1..=count)
        .map(|number| {
            let name = format!("lift-{number}");
            let path = format!("wall.lifts.{name}.top");
            let why = "lifts as high as the wall is thick, at most 450 mm";
            let top = if number == count {
                height.clone()
            } else {
                let top = Known::assumed(step * f64::from(number), path, Origin::CommonPractice, why);
                if thickness.value < highest { top.following("wall.thickness") } else { top }
            };
            Lift { top, start: two_days_apart(number - 1, &name), name }
        })
        .collect()
}

fn two_days_apart(before: u32, name: &str) -> Known<Days> {
    let why = "lifts begin two days apart";
    Known::assumed(
        Days::days(APART) * f64::from(before),
        format!("wall.lifts.{name}.start"),
        Origin::CommonPractice,
        why,
    )
}

fn rises(
    source: &Source<'_>,
    written: &build::Lift,
    lift: &Lift,
    (below, before): (Length, Days),
    (is_last, top): (bool, Length),
    system: System,
) {
    let (span, key) = match &written.top {
        Some(at) => (at.span.clone(), at.path.clone()),
        None => (written.name.span.clone(), format!("wall.lifts.{}", lift.name)),
    };
    let said = |length: Length| shown(length, system);
    if lift.top.value <= below {
        let message =
            format!("the lift would end at {}, not above the one below, at {}", said(lift.top.value), said(below));
        source.fault(span, &key, message, "write the lifts from the foot of the wall to its top");
    } else if lift.top.value - below < LEAST {
        let message = format!("the lift would be {} high", said(lift.top.value - below));
        source.fault(
            span,
            &key,
            message,
            "make it at least 5 mm (1/4 in) high, or leave it out: its cob goes into the one below",
        );
    } else if lift.top.value > top {
        let message =
            format!("the lift would end at {}, above the top of the wall at {}", said(lift.top.value), said(top));
        source.fault(span, &key, message, "make the lift lower, or the wall higher");
    } else if is_last && lift.top.value < top {
        let message = format!("the last lift ends at {}, the wall at {}", said(lift.top.value), said(top));
        source.fault(span, &key, message, "leave the last lift's `top` out, or add a lift");
    }
    if let Some(start) = written.start.as_ref().filter(|start| start.value < before) {
        source.fault(
            start.span.clone(),
            &start.path,
            "the lift would begin before the one below it",
            "write a later day; days count from the start of the first lift",
        );
    }
}

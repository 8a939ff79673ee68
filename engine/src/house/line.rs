//! Places the wall line and proves that its faces are whole.

use std::ops::Range;

use super::place::{shown, within};
use super::{Point, profile};
use crate::build::{self, Build, Source, Written};
use crate::curve::{LineFault, PlanLine, Vertex, Way};
use crate::known::{Known, Origin};
use crate::units::{Length, System};

/// Farther than this from the corner of the plan no small house reaches.
const FAR: f64 = 200.0;

pub(super) fn place(
    source: &Source<'_>,
    build: &Build,
    thickness: Option<&Known<Length>>,
    system: System,
) -> Option<(Vec<Point>, PlanLine)> {
    let written = &build.wall.line;
    if written.is_empty() && thickness.is_none() {
        return None;
    }
    let points: Vec<Point> = written.iter().filter_map(|point| self::point(source, point, thickness, system)).collect();
    // Without a point that could not be read the line is not the one that the builder drew.
    if points.len() < written.len() || source.is_faulty("wall.line") {
        return None;
    }
    let vertices: Vec<Vertex> = points.iter().map(vertex).collect();
    match PlanLine::closed(&vertices) {
        Ok(line) => Some((points, line)),
        Err(fault) => {
            let (span, path, message, hint) = told(fault, build, &points, system);
            source.fault(span, &path, message, hint);
            None
        }
    }
}

fn point(
    source: &Source<'_>,
    written: &build::Point,
    thickness: Option<&Known<Length>>,
    system: System,
) -> Option<Point> {
    let axis = |value: &Written<Length>| {
        within(source, Some(value), Length::m(-FAR)..Length::m(FAR), "a place in the plan of a small house", system)
    };
    let pair = |at: &Written<[Written<Length>; 2]>| {
        let [x, y] = &at.value;
        match (axis(x), axis(y)) {
            (Some(x), Some(y)) => Some([x, y]),
            _ => None,
        }
    };
    let at = written.at.as_ref().and_then(pair);
    let through = written.through.as_ref().and_then(pair);
    let round = match &written.round {
        Some(round) => {
            within(source, Some(round), Length::mm(1.0)..Length::m(20.0), "a radius for a corner of a wall", system)
        }
        None => thickness.map(|thickness| {
            let path = format!("wall.line.{}.round", written.name.value);
            let why = "a corner is rounded by the thickness of the wall";
            Known::assumed(thickness.value, path, Origin::CommonPractice, why).following("wall.thickness")
        }),
    };
    let named = |mut known: Known<Length>, key: &str| {
        known.path = format!("wall.line.{}.{key}", written.name.value);
        known
    };
    let [x, y] = at?;
    if written.is_arc && through.is_none() {
        return None;
    }
    Some(Point {
        name: written.name.value.clone(),
        x: named(x, "x"),
        y: named(y, "y"),
        through: through.map(|[x, y]| [named(x, "through-x"), named(y, "through-y")]),
        round: round?,
        own: [
            profile::own(source, written.thickness.as_ref(), profile::THICKNESS, system),
            profile::own(source, written.height.as_ref(), profile::HEIGHT, system),
        ],
    })
}

fn vertex(point: &Point) -> Vertex {
    let place = |x: &Known<Length>, y: &Known<Length>| kurbo::Point::new(x.value.in_m(), y.value.in_m());
    Vertex {
        at: place(&point.x, &point.y),
        round: point.round.value.in_m(),
        way: point.through.as_ref().map_or(Way::Straight, |[x, y]| Way::Through(place(x, y))),
    }
}

fn told(fault: LineFault, build: &Build, points: &[Point], system: System) -> (Range<usize>, String, String, String) {
    let name = |index: usize| points[index % points.len()].name.as_str();
    let at = |index: usize| {
        let point = &build.wall.line[index];
        (point.name.span.clone(), format!("wall.line.{}", point.name.value))
    };
    let line = &build.wall.line;
    match fault {
        LineFault::TooFew => (
            build.wall.span.clone(),
            "wall.line".into(),
            "the wall line has too few points to go round a room".into(),
            "write at least three [[wall.line]] points, or two joined by arcs".into(),
        ),
        LineFault::SamePlace(index) => {
            let (span, path) = at(index);
            let message = format!("`{}` and `{}` are at the same place", name(index), name(index + 1));
            (span, path, message, "move one, or leave it out".into())
        }
        LineFault::FlatArc(index) => {
            let (span, path) = written_at(&line[index], line[index].through.as_ref());
            let message = format!(
                "the arc from `{}` to `{}` passes through a point on their straight line",
                name(index),
                name(index + 1)
            );
            (span, path, message, "move that point sideways, or leave the arc out for a straight run".into())
        }
        LineFault::NoRoomToRound(index) => {
            let (span, path) = written_at(&line[index], line[index].round.as_ref());
            let radius = shown(points[index].round.value, system);
            let message =
                format!("a rounding of {radius} does not fit between the runs that meet at `{}`", name(index));
            (span, path, message, "write a smaller `round`, or make the runs longer".into())
        }
        LineFault::RoundingsMeet(index) => {
            let (span, path) = at(index);
            let message = format!(
                "the roundings at `{}` and `{}` together are longer than the run between them",
                name(index),
                name(index + 1)
            );
            (span, path, message, "write a smaller `round` at one of them, or make the run longer".into())
        }
        LineFault::Crosses(a, b) => {
            let (span, path) = at(b);
            let message =
                format!("the wall line crosses itself: the runs from `{}` and from `{}` meet", name(a), name(b));
            (span, path, message, "put the points in the order in which you walk round the room".into())
        }
        LineFault::Clockwise => {
            let (span, path) = (at(0).0, "wall.line".into());
            let message = "the wall line goes round with the room on the right".to_owned();
            (span, path, message, "walk with the room on your left: write the points in the opposite order".into())
        }
    }
}

/// Where a point's rounding or arc is written, or its name where it is not.
fn written_at<T>(point: &build::Point, written: Option<&Written<T>>) -> (Range<usize>, String) {
    let name = (point.name.span.clone(), format!("wall.line.{}", point.name.value));
    written.map_or(name, |written| (written.span.clone(), written.path.clone()))
}

/// Whether both faces of a body of this width along the line run round without folding or crossing.
pub(super) fn faces_are_whole(
    source: &Source<'_>,
    build: &Build,
    (points, line): (&[Point], &PlanLine),
    (body, width): (&str, Length),
    system: System,
) -> bool {
    let mut whole = true;
    for (face, side) in [("inner", -0.5), ("outer", 0.5)] {
        let offset = (width * side).in_m();
        let fold = line.first_fold(offset);
        let crossing = if fold.is_none() { line.first_crossing(offset) } else { None };
        let ((span, path), message, hint) = if let Some(piece) = fold {
            let radius = shown(Length::m(1.0 / line.pieces()[piece].curvature().abs()), system);
            let half = shown(width * 0.5, system);
            let run = line.owner(piece);
            let point = &build.wall.line[run];
            let (at, place, wider) = if line.is_corner(piece) {
                (written_at(point, point.round.as_ref()), "corner at", "a larger `round`")
            } else {
                (written_at(point, point.through.as_ref()), "arc from", "a wider arc")
            };
            let message = format!(
                "the {face} face of the {body} folds: the {place} `{}` has a radius of {radius}, half the {body} is {half}",
                points[run].name
            );
            (at, message, format!("write {wider}, or make the {body} narrower"))
        } else if let Some((a, b)) = crossing {
            let (first, second) = (&points[a].name, &points[b].name);
            let message =
                format!("the {face} face of the {body} crosses itself between the runs from `{first}` and `{second}`");
            let hint = format!("move these runs apart, or make the {body} narrower");
            (written_at::<Length>(&build.wall.line[b], None), message, hint)
        } else {
            continue;
        };
        source.fault(span, &path, message, hint);
        whole = false;
    }
    whole
}

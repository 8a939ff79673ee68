//! Places the wall line and proves that its faces are whole.

use std::ops::Range;

use super::place::{shown, within};
use super::{Wall, profile};
use crate::build::{self, Build, Source, Written};
use crate::curve::{Cubic, CubicFault, Ends, LineFault, PlanLine, Vertex, Way};
use crate::known::{Known, Origin};
use crate::units::{Length, System};

/// A named point of the wall line.
#[derive(Clone, Debug)]
pub struct Point {
    /// Its name.
    pub name: String,
    /// x.
    pub x: Known<Length>,
    /// y.
    pub y: Known<Length>,
    /// The point that the run to the next point passes through.
    pub through: Option<[Known<Length>; 2]>,
    /// The cubic curve to the next point.
    pub curve: Option<Curve>,
    /// Radius of its rounded corner.
    pub round: Known<Length>,
    /// Thickness and height of the wall here, where the builder wrote one.
    pub own: [Option<Known<Length>>; 2],
}

/// Tangents of a cubic curve in the direction of travel.
#[derive(Clone, Debug)]
pub struct Curve {
    /// At the point that it leaves: x and y.
    pub leave: [Known<Length>; 2],
    /// At the next point: x and y.
    pub arrive: [Known<Length>; 2],
}

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
    let ends = build.wall.ends.as_ref().map_or(Ends::Closed, |ends| ends.value);
    if ends == Ends::Open && !ends_are_free(source, written) {
        return None;
    }
    let vertices: Vec<Vertex> = points.iter().map(vertex).collect();
    let line = match ends {
        Ends::Closed => PlanLine::closed(&vertices),
        Ends::Open => PlanLine::open(&vertices),
    };
    match line {
        Ok(line) => Some((points, line)),
        Err(fault) => {
            let (span, path, message, hint) = told(fault, build, &points, (ends, system));
            source.fault(span, &path, message, hint);
            None
        }
    }
}

/// Whether nothing is asked of the ends of an open wall that only a run or a corner can have.
fn ends_are_free(source: &Source<'_>, line: &[build::Point]) -> bool {
    let mut free = true;
    let mut refuse = |span: &Range<usize>, path: &str, message: String, hint: &str| {
        source.fault(span.clone(), path, message, hint);
        free = false;
    };
    if let [first, .., last] = line {
        for point in [first, last] {
            if let Some(round) = &point.round {
                let message = format!("`{}` is an end of the wall, not a corner", point.name.value);
                refuse(&round.span, &round.path, message, "leave `round` out: the ends are square to the line");
            }
        }
        let spans =
            [("arc", last.arc.as_ref().map(|arc| &arc.span)), ("curve", last.curve.as_ref().map(|curve| &curve.span))];
        for (key, span) in spans {
            let Some(span) = span else { continue };
            let path = format!("wall.line.{}.{key}", last.name.value);
            let message = format!("`{}` ends the wall: no run leaves it", last.name.value);
            refuse(span, &path, message, &format!("leave `{key}` out, or write another point after this one"));
        }
    }
    free
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
    let tangent = |value: &Written<Length>| {
        within(source, Some(value), Length::m(-FAR)..Length::m(FAR), "a tangent of a wall's curve", system)
    };
    let both = |x: Option<Known<Length>>, y: Option<Known<Length>>| Some([x?, y?]);
    let pair = |at: &Written<[Written<Length>; 2]>| both(axis(&at.value[0]), axis(&at.value[1]));
    let tangents = |at: &Written<[Written<Length>; 2]>| both(tangent(&at.value[0]), tangent(&at.value[1]));
    let at = written.at.as_ref().and_then(pair);
    let through = written.arc.as_ref().and_then(|arc| arc.through.as_ref().and_then(pair));
    let curve = written.curve.as_ref().and_then(|curve| {
        let ends = [curve.leave.as_ref().and_then(tangents), curve.arrive.as_ref().and_then(tangents)];
        let [Some(leave), Some(arrive)] = ends else { return None };
        Some([leave, arrive])
    });
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
    if let (Some(_), Some(curve)) = (&written.arc, &written.curve) {
        source.fault(
            curve.span.clone(),
            &format!("wall.line.{}.curve", written.name.value),
            format!("the run from `{}` cannot follow an arc and a curve", written.name.value),
            "leave `arc` or `curve` out",
        );
        return None;
    }
    if written.arc.is_some() && through.is_none() || written.curve.is_some() && curve.is_none() {
        return None;
    }
    Some(Point {
        name: written.name.value.clone(),
        x: named(x, "x"),
        y: named(y, "y"),
        through: through.map(|[x, y]| [named(x, "through-x"), named(y, "through-y")]),
        curve: curve.map(|[[leave_x, leave_y], [arrive_x, arrive_y]]| Curve {
            leave: [named(leave_x, "leave-x"), named(leave_y, "leave-y")],
            arrive: [named(arrive_x, "arrive-x"), named(arrive_y, "arrive-y")],
        }),
        round: round?,
        own: [
            profile::own(source, written.thickness.as_ref(), profile::THICKNESS, system),
            profile::own(source, written.height.as_ref(), profile::HEIGHT, system),
        ],
    })
}

fn vertex(point: &Point) -> Vertex {
    let place = |x: &Known<Length>, y: &Known<Length>| kurbo::Point::new(x.value.in_m(), y.value.in_m());
    let tangent = |[x, y]: &[Known<Length>; 2]| place(x, y).to_vec2();
    let way = match (&point.through, &point.curve) {
        (Some([x, y]), _) => Way::Through(place(x, y)),
        (None, Some(Curve { leave, arrive })) => Way::Curve { leave: tangent(leave), arrive: tangent(arrive) },
        (None, None) => Way::Straight,
    };
    Vertex { at: place(&point.x, &point.y), round: point.round.value.in_m(), way }
}

impl Wall {
    /// Least radius of the curve that leaves a named point; none where the run there follows none, or a straight one.
    #[must_use]
    pub fn least_radius(&self, point: usize) -> Option<Length> {
        least_radius(&self.points, point)
    }
}

fn least_radius(points: &[Point], index: usize) -> Option<Length> {
    let (from, to) = (vertex(points.get(index)?), vertex(points.get(index + 1).or(points.first())?));
    let Way::Curve { leave, arrive } = from.way else { return None };
    let radius = Cubic::between(from.at, leave, arrive, to.at).ok()?.least_radius();
    radius.is_finite().then(|| Length::m(radius))
}

fn told(
    fault: LineFault,
    build: &Build,
    points: &[Point],
    (ends, system): (Ends, System),
) -> (Range<usize>, String, String, String) {
    let name = |index: usize| points[index % points.len()].name.as_str();
    let at = |index: usize| {
        let point = &build.wall.line[index];
        (point.name.span.clone(), format!("wall.line.{}", point.name.value))
    };
    let line = &build.wall.line;
    match fault {
        LineFault::TooFew if ends == Ends::Open => (
            build.wall.span.clone(),
            "wall.line".into(),
            "an open wall has no two points to go between".into(),
            "write at least two [[wall.line]] points".into(),
        ),
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
            let through = line[index].arc.as_ref().and_then(|arc| arc.through.as_ref());
            let (span, path) = written_at(&line[index], through);
            let message = format!(
                "the arc from `{}` to `{}` passes through a point on their straight line",
                name(index),
                name(index + 1)
            );
            (span, path, message, "move that point sideways, or leave the arc out for a straight run".into())
        }
        LineFault::Curve(index, fault) => {
            let (span, path) = curve_at(&line[index], fault);
            let curve = format!("the curve from `{}` to `{}`", name(index), name(index + 1));
            let (message, hint) = match fault {
                CubicFault::NoTangent => (
                    format!("a tangent of no length gives {curve} no direction"),
                    "write how far it would go straight on, and where to, such as [\"1 m\", \"0 m\"]",
                ),
                CubicFault::Cusp => (format!("{curve} turns about on the spot"), "make its tangents shorter"),
                CubicFault::Loop => (
                    format!("{curve} crosses itself"),
                    "make its tangents shorter, or point them less towards each other",
                ),
            };
            (span, path, message, hint.into())
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
            let walk = if ends == Ends::Closed { "round the room" } else { "along the wall" };
            (span, path, message, format!("put the points in the order in which you walk {walk}"))
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

/// Where the curve from a point is written, or the tangent that has no length.
fn curve_at(point: &build::Point, fault: CubicFault) -> (Range<usize>, String) {
    let Some(curve) = &point.curve else { return written_at::<Length>(point, None) };
    let is_nothing =
        |tangent: &&Written<[Written<Length>; 2]>| tangent.value.iter().all(|axis| axis.value.in_m().abs() < 1e-6);
    let tangent = [&curve.leave, &curve.arrive].into_iter().flatten().find(is_nothing);
    match tangent {
        Some(tangent) if fault == CubicFault::NoTangent => (tangent.span.clone(), tangent.path.clone()),
        _ => (curve.span.clone(), format!("wall.line.{}.curve", point.name.value)),
    }
}

/// Whether both faces of a body of this width along the line run on without folding or crossing.
pub(super) fn faces_are_whole(
    source: &Source<'_>,
    build: &Build,
    (points, line): (&[Point], &PlanLine),
    (body, width): (&str, Length),
    system: System,
) -> bool {
    let half = (width * 0.5).in_m();
    let mut whole = true;
    for (face, offset) in [("inner", -half), ("outer", half)] {
        let fold = line.first_fold(offset);
        let crossing = if fold.is_none() && line.is_closed() { line.first_crossing(offset) } else { None };
        if let Some(piece) = fold {
            folds(source, build, (points, line), (face, piece), (body, width), system);
        } else if let Some((a, b)) = crossing {
            let (first, second) = (&points[a].name, &points[b].name);
            let message =
                format!("the {face} face of the {body} crosses itself between the runs from `{first}` and `{second}`");
            let hint = format!("move these runs apart, or make the {body} narrower");
            let (span, path) = written_at::<Length>(&build.wall.line[b], None);
            source.fault(span, &path, message, hint);
        } else {
            continue;
        }
        whole = false;
    }
    if whole
        && !line.is_closed()
        && let Some((a, b)) = line.first_meeting(-half, half)
    {
        let (first, second) = (&points[a].name, &points[b].name);
        let (span, path) = written_at::<Length>(&build.wall.line[b], None);
        let message = if a == b {
            format!("the faces of the {body} cross: the run from `{first}` comes too near to itself")
        } else {
            format!("the faces of the {body} cross: the runs from `{first}` and `{second}` come too near to each other")
        };
        source.fault(span, &path, message, format!("leave more room between them, or make the {body} narrower"));
        whole = false;
    }
    whole
}

/// Says which corner, arc or curve is too tight for a face.
fn folds(
    source: &Source<'_>,
    build: &Build,
    (points, line): (&[Point], &PlanLine),
    (face, piece): (&str, usize),
    (body, width): (&str, Length),
    system: System,
) {
    let run = line.owner(piece);
    let of_piece = Length::m(1.0 / line.pieces()[piece].curvature().abs());
    let of_curve = if line.is_corner(piece) { None } else { least_radius(points, run) };
    let (radius, half) = (shown(of_curve.unwrap_or(of_piece), system), shown(width * 0.5, system));
    let point = &build.wall.line[run];
    let ((span, path), place, wider) = if line.is_corner(piece) {
        (written_at(point, point.round.as_ref()), "corner at", "a larger `round`")
    } else if let Some(curve) = &point.curve {
        ((curve.span.clone(), format!("wall.line.{}.curve", point.name.value)), "curve from", "a wider curve")
    } else {
        let through = point.arc.as_ref().and_then(|arc| arc.through.as_ref());
        (written_at(point, through), "arc from", "a wider arc")
    };
    let message = format!(
        "the {face} face of the {body} folds: the {place} `{}` has a radius of {radius}, half the {body} is {half}",
        points[run].name
    );
    source.fault(span, &path, message, format!("write {wider}, or make the {body} narrower"));
}

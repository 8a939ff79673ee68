//! Places the openings and refuses those that leave the wall or meet each other.

use super::opening::Hanging;
use super::place::{known, shown, within};
use super::{Opening, Wall, fittings, hanging};
use crate::build::{self, Build, OpeningForm, OpeningKind, Source, Written};
use crate::curve::{Cut, Form, Side, Station};
use crate::known::{Known, Origin};
use crate::units::{Length, System};

/// Levels of two openings at which they are held against each other, where they might meet.
const LEVELS: u32 = 33;
/// The same for two with upright jambs.
const UPRIGHT: u32 = 5;

/// Offsets of the faces that an opening must pass: the widest of wall and stem, inside and outside, in metres.
pub fn offsets(wall: &Wall) -> [f64; 2] {
    let [_, widest] = wall.thicknesses.range();
    let half = 0.5 * widest.max(wall.stem_width.value.in_m());
    [-half, half]
}

pub(super) fn place(
    source: &Source<'_>,
    build: &Build,
    wall: &Wall,
    floor: &Known<Length>,
    system: System,
) -> Vec<Opening> {
    let mut placed: Vec<(Opening, [f64; 2])> = Vec::new();
    let whole = wall.line.length();
    for written in &build.openings {
        let Some(opening) = opening(source, written, wall, floor, system) else { continue };
        let Some(at) = stretch(&opening, wall) else { continue };
        if let Some((other, _)) = placed.iter().find(|(other, bt)| meet(wall, (&opening, at), (other, *bt), whole)) {
            source.fault(
                written.name.span.clone(),
                &format!("openings.{}", written.name.value),
                format!("the opening `{}` overlaps `{}`", opening.name, other.name),
                "move one of them, or make it smaller",
            );
        }
        placed.push((opening, at));
    }
    placed.into_iter().map(|(opening, _)| opening).collect()
}

fn opening(
    source: &Source<'_>,
    written: &build::Opening,
    wall: &Wall,
    floor: &Known<Length>,
    system: System,
) -> Option<Opening> {
    let name = written.name.value.clone();
    let path = format!("openings.{name}");
    let length = |value| within(source, value, Length::mm(20.0)..Length::m(12.0), "a size for an opening", system);
    let (width, height) = (length(written.width.as_ref()), length(written.height.as_ref()));
    let (run, station) = on_the_wall(source, written.run.as_ref(), written.along.as_ref(), wall, system)?;
    let (width, kind) = (width?, written.kind.as_ref()?.value);
    let form = written.form.as_ref().map_or(OpeningForm::Rectangle, |form| form.value);
    if let (OpeningForm::Round, OpeningKind::Door, Some(at)) = (form, kind, &written.form) {
        let message = "a round door has no threshold to walk over".to_owned();
        source.fault(at.span.clone(), &at.path, message, "write form = \"arched\", or leave it out for a rectangle");
        return None;
    }
    let height = if form == OpeningForm::Round {
        Known::assumed(width.value, format!("{path}.height"), Origin::Given, "a circle is as high as it is wide")
            .following(width.path.as_str())
    } else {
        height?
    };
    let bottom = match kind {
        OpeningKind::Window => known(written.sill.as_ref())?,
        OpeningKind::Door => known(written.threshold.as_ref()).unwrap_or_else(|| {
            let why = "a threshold is level with the finished floor";
            Known::assumed(floor.value, format!("{path}.threshold"), Origin::CommonPractice, why)
                .following("ground.floor")
        }),
    };
    let rise = if form == OpeningForm::Arched { Some(rise(source, written, &width, &height, system)?) } else { None };
    let seen = outline(form, [&width, &height, &bottom].map(|known| known.value.in_m()), rise.as_ref());
    let cut = Cut::straight(station, seen);
    let along = known(written.along.as_ref())?;
    let mut opening = Opening {
        name,
        kind,
        form,
        run,
        along,
        width,
        height,
        bottom,
        rise,
        station,
        cut,
        splay: None,
        frame: None,
        sill_board: None,
        lintel: None,
        hanging: Hanging::default(),
    };
    if !stands_in_the_wall(source, written, &opening, wall, system) {
        return None;
    }
    fittings::fit(source, written, &mut opening, wall, system)?;
    opening.hanging = hanging::place(source, &written.hanging, &opening, system)?;
    meets_both_faces(source, written, &opening, wall).then_some(opening)
}

/// How far an arch rises over its springing.
fn rise(
    source: &Source<'_>,
    written: &build::Opening,
    width: &Known<Length>,
    height: &Known<Length>,
    system: System,
) -> Option<Known<Length>> {
    let half = width.value * 0.5;
    let Some(at) = &written.rise else {
        let path = format!("openings.{}.rise", written.name.value);
        if half >= height.value {
            let message = format!("half a circle over {} is higher than the opening", shown(width.value, system));
            let hint = "make the opening higher, or write a smaller `rise`";
            source.fault(written.name.span.clone(), &path, message, hint);
            return None;
        }
        let why = "an arch is half a circle";
        return Some(Known::assumed(half, path, Origin::CommonPractice, why).following(width.path.as_str()));
    };
    let most = half.min(height.value);
    if at.value < Length::mm(10.0) || at.value > half || at.value >= height.value {
        let message = format!("an arch over {} cannot rise by {}", shown(width.value, system), shown(at.value, system));
        let hint = format!(
            "write a rise from {} to {}: half the width, less than the height",
            shown(Length::mm(10.0), system),
            shown(most, system)
        );
        source.fault(at.span.clone(), &at.path, message, hint);
        return None;
    }
    known(Some(at))
}

fn outline(form: OpeningForm, [width, height, bottom]: [f64; 3], rise: Option<&Known<Length>>) -> Form {
    let (half, top) = (0.5 * width, bottom + height);
    match (form, rise) {
        (OpeningForm::Round, _) => Form::Round { radius: half, middle: bottom + half },
        (OpeningForm::Arched, Some(rise)) => Form::Arched { half, bottom, spring: top - rise.value.in_m(), top },
        _ => Form::Rectangle { half, bottom, top },
    }
}

fn stands_in_the_wall(
    source: &Source<'_>,
    written: &build::Opening,
    opening: &Opening,
    wall: &Wall,
    system: System,
) -> bool {
    let fault = |key: &str, message: String, hint: String| {
        let at = match key {
            "sill" => written.sill.as_ref(),
            "threshold" => written.threshold.as_ref(),
            _ => written.height.as_ref(),
        };
        let (span, path) = at.map_or_else(
            || (written.name.span.clone(), format!("openings.{}", opening.name)),
            |at| (at.span.clone(), at.path.clone()),
        );
        source.fault(span, &path, message, hint);
    };
    let (bottom, head, top) = (opening.bottom.value, opening.head(), least_top(wall, &opening.cut));
    let mut stands = true;
    if head >= top {
        let message = format!(
            "the opening's head would be at {}, the wall's top {}is at {}",
            shown(head, system),
            if wall.top.is_level() { "" } else { "over it " },
            shown(top, system)
        );
        fault("height", message, "make it lower, or the wall higher".into());
        stands = false;
    }
    match opening.kind {
        OpeningKind::Window if bottom < Length::ZERO => {
            let message = format!("the sill would be {} below the foot of the cob", shown(-bottom, system));
            fault("sill", message, "write a sill of 0 mm or more; only a door cuts the stem wall".into());
            stands = false;
        }
        OpeningKind::Door if bottom < -wall.stem_height.value => {
            let message = format!(
                "the threshold at {} lies below the foot of the stem wall at {}",
                shown(bottom, system),
                shown(-wall.stem_height.value, system)
            );
            fault("threshold", message, "raise the threshold, or make the stem wall higher".into());
            stands = false;
        }
        _ => {}
    }
    stands
}

/// The lowest top of the wall over a cut; the wall's own height where it never meets the faces.
pub(super) fn least_top(wall: &Wall, cut: &Cut) -> Length {
    let shape = wall.shape();
    let level = cut.form.widest_above(0.0);
    let reach = [Side::Inner, Side::Outer].map(|side| cut.stretch(&shape, side, level));
    let [Some(inner), Some(outer)] = reach else { return wall.height.value };
    wall.least_top([inner[0].min(outer[0]), inner[1].max(outer[1])])
}

fn meets_both_faces(source: &Source<'_>, written: &build::Opening, opening: &Opening, wall: &Wall) -> bool {
    let (shape, stem) = (wall.shape(), wall.stem_shape());
    let form = opening.cut.form;
    let middle = form.bottom().max(0.0).midpoint(form.top());
    let meets = |side: Side| {
        let on_cob = [form.bottom().max(0.0), middle, form.spring().max(0.0)];
        let on_stem = opening.cut.stretch(&stem, side, 0.0).is_some() || form.bottom() > 0.0;
        on_stem && on_cob.into_iter().all(|level| opening.cut.stretch(&shape, side, level).is_some())
    };
    if meets(Side::Inner) && meets(Side::Outer) {
        return true;
    }
    let (span, path) = written.width.as_ref().map_or_else(
        || (written.name.span.clone(), format!("openings.{}", opening.name)),
        |at| (at.span.clone(), at.path.clone()),
    );
    let (message, hint) = if leaves_the_end(opening, wall) {
        ("the opening leaves the end of the wall", "make the opening narrower, or move it away from the end")
    } else {
        let hint = "make the opening narrower, or put it where the wall is straighter";
        ("the wall turns away from this opening: a jamb would never meet the face", hint)
    };
    source.fault(span, &path, message, hint);
    false
}

/// Whether an end of an open wall lies nearer to the middle of an opening than its jamb, at a face.
fn leaves_the_end(opening: &Opening, wall: &Wall) -> bool {
    let (line, station) = (&wall.line, opening.station);
    let (half, along) = (0.5 * opening.width.value.in_m(), line.along_line(station));
    !line.is_closed()
        && [(0.0, -1.0), (line.length(), 1.0)].into_iter().any(|(at, ahead)| {
            let end = line.at(at);
            let place = |offset: f64| (end.beside(offset) - station.point).dot(station.axis) * ahead;
            (at - along) * ahead < 2.0 * half && offsets(wall).into_iter().any(|offset| place(offset) < half)
        })
}

/// The run and the place on it that a build file names; a fault where there is none.
pub(super) fn on_the_wall(
    source: &Source<'_>,
    run: Option<&Written<String>>,
    along: Option<&Written<Length>>,
    wall: &Wall,
    system: System,
) -> Option<(usize, Station)> {
    let run = run_named(source, run, wall)?;
    let along = along?;
    let station = wall.line.station(run, along.value.in_m());
    if station.is_none() {
        let whole = shown(Length::m(wall.line.runs()[run].whole.length()), system);
        let (place, name) = (shown(along.value, system), &wall.points[run].name);
        source.fault(
            along.span.clone(),
            &along.path,
            format!("{place} is off the wall: the run from `{name}` is {whole} long"),
            format!("write a distance from 0 to {whole}"),
        );
    }
    Some((run, station?))
}

/// The place in the list of points of the run that a text names; a fault with the nearest name otherwise.
fn run_named(source: &Source<'_>, written: Option<&Written<String>>, wall: &Wall) -> Option<usize> {
    let written = written?;
    let found = wall.points.iter().position(|point| point.name == written.value);
    if found.is_some_and(|found| found >= wall.line.runs().len()) {
        source.fault(
            written.span.clone(),
            &written.path,
            format!("`{}` ends the wall: no run leaves it", written.value),
            format!("write the run that leads there, \"{}\"", wall.points[wall.line.runs().len() - 1].name),
        );
        return None;
    }
    if found.is_none() {
        let nearest =
            wall.points.iter().min_by_key(|point| strsim::damerau_levenshtein(&point.name, &written.value))?;
        source.fault(
            written.span.clone(),
            &written.path,
            format!("there is no run \"{}\" in the wall line", written.value),
            format!("a run bears the name of the point that it leaves; nearest is \"{}\"", nearest.name),
        );
    }
    found
}

/// From where to where an opening and its lintel stand along the line, at either face.
fn stretch(opening: &Opening, wall: &Wall) -> Option<[f64; 2]> {
    let (shape, stem) = (wall.shape(), wall.stem_shape());
    let mut whole: Option<[f64; 2]> = None;
    for (_, _, cut) in opening.cuts() {
        for shape in [&shape, &stem] {
            for side in [Side::Inner, Side::Outer] {
                let level = cut.form.widest_above(0.0);
                let Some([from, to]) = cut.stretch(shape, side, level) else { continue };
                whole = Some(whole.map_or([from, to], |[low, high]| [low.min(from), high.max(to)]));
            }
        }
    }
    whole
}

/// Whether two openings take out the same cob.
fn meet(wall: &Wall, (a, at): (&Opening, [f64; 2]), (b, bt): (&Opening, [f64; 2]), whole: f64) -> bool {
    let turns = [-whole, 0.0, whole];
    if !turns.into_iter().any(|turn| at[0] < bt[1] + turn && bt[0] + turn < at[1]) {
        return false;
    }
    let cuts = a.cuts().into_iter().flat_map(|(.., cut)| b.cuts().into_iter().map(move |(.., other)| (cut, other)));
    cuts.into_iter().any(|(a, b)| cuts_meet(wall, a, b, whole))
}

/// Whether two cuts take out the same cob or stone at any of the levels that they share.
pub(super) fn cuts_meet(wall: &Wall, a: &Cut, b: &Cut, whole: f64) -> bool {
    let [low, high] = [a.form.bottom().max(b.form.bottom()), a.form.top().min(b.form.top())];
    if high <= low {
        return false;
    }
    let (cob, stem) = (wall.shape(), wall.stem_shape());
    let is_upright = a.form.circle().is_none() && b.form.circle().is_none();
    let count = if is_upright { UPRIGHT } else { LEVELS };
    let steps = f64::from(count - 1);
    (0..count).map(|step| low + (high - low) * f64::from(step) / steps).any(|level| {
        let shape = if level < 0.0 { &stem } else { &cob };
        [Side::Inner, Side::Outer].into_iter().any(|side| {
            let (Some(at), Some(bt)) = (a.stretch(shape, side, level), b.stretch(shape, side, level)) else {
                return false;
            };
            [-whole, 0.0, whole].into_iter().any(|turn| at[0] < bt[1] + turn && bt[0] + turn < at[1])
        })
    })
}

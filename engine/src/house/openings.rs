//! Places the openings and refuses those that leave the wall or meet each other.

use super::place::{known, shown, within};
use super::{Opening, Wall};
use crate::build::{self, Build, OpeningKind, Source, Written};
use crate::curve::Station;
use crate::known::{Known, Origin};
use crate::units::{Length, System};

/// Offsets of the faces that an opening must pass: the widest of wall and stem, inside and outside, in metres.
pub fn offsets(wall: &Wall) -> [f64; 2] {
    let half = (wall.thickness.value.max(wall.stem_width.value) * 0.5).in_m();
    [-half, half]
}

pub(super) fn place(
    source: &Source<'_>,
    build: &Build,
    wall: &Wall,
    floor: &Known<Length>,
    system: System,
) -> Vec<Opening> {
    let mut placed: Vec<(Opening, Stretches)> = Vec::new();
    let whole = wall.line.length();
    for written in &build.openings {
        let Some(opening) = opening(source, written, wall, floor, system) else { continue };
        let Some(at) = stretches(&opening, wall) else { continue };
        if let Some((other, _)) = placed.iter().find(|(other, bt)| meet((&opening, &at), (other, bt), whole)) {
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
    let (width, height, kind) = (width?, height?, written.kind.as_ref()?.value);
    let bottom = match kind {
        OpeningKind::Window => known(written.sill.as_ref())?,
        OpeningKind::Door => known(written.threshold.as_ref()).unwrap_or_else(|| {
            let why = "a threshold is level with the finished floor";
            Known::assumed(floor.value, format!("{path}.threshold"), Origin::CommonPractice, why)
                .following("ground.floor")
        }),
    };
    let opening = Opening { name, kind, run, along: known(written.along.as_ref())?, width, height, bottom, station };
    stands_in_the_wall(source, written, &opening, wall, system).then_some(opening)
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
            "width" => written.width.as_ref(),
            _ => written.height.as_ref(),
        };
        let (span, path) = at.map_or_else(
            || (written.name.span.clone(), format!("openings.{}", opening.name)),
            |at| (at.span.clone(), at.path.clone()),
        );
        source.fault(span, &path, message, hint);
    };
    let (bottom, head, top) = (opening.bottom.value, opening.head(), wall.height.value);
    let mut stands = true;
    if head >= top {
        let message = format!(
            "the opening's head would be at {}, the wall's top is at {}",
            shown(head, system),
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
    if opening.strip(wall).is_none() {
        let message = "the wall turns away from this opening: a jamb would never meet the face".to_owned();
        fault("width", message, "make the opening narrower, or put it where the wall is straighter".into());
        stands = false;
    }
    stands
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

/// Where an opening stands: from where to where along the line at each face and in the middle, in metres.
type Stretches = [[f64; 2]; 3];

fn stretches(opening: &Opening, wall: &Wall) -> Option<Stretches> {
    let strip = opening.strip(wall)?;
    let [inner, outer] = offsets(wall);
    Some([inner, 0.0, outer].map(|offset| strip.along_line(offset)))
}

/// Whether two openings take out the same cob: their heights overlap, and their strips do at any face.
fn meet((a, at): (&Opening, &Stretches), (b, bt): (&Opening, &Stretches), whole: f64) -> bool {
    if a.head() <= b.bottom.value || b.head() <= a.bottom.value {
        return false;
    }
    at.iter().zip(bt).any(|([a_start, a_end], [b_start, b_end])| {
        [-whole, 0.0, whole].into_iter().any(|turn| *a_start < b_end + turn && b_start + turn < *a_end)
    })
}

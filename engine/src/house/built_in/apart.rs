//! Refuses an oven whose footing is dug into stem or trench, or that stands in a bench, a buttress or another oven.

use kurbo::Point;

use super::{BuiltIn, Oven, What, bench, drawn};
use crate::build::{Build, Source};
use crate::curve::Side;
use crate::house::place::shown;
use crate::house::{Trench, Wall};
use crate::solve::polygon;
use crate::units::{Length, System};

/// What lies beside an oven: its name in words, from the oven's middle to it, and how much of that the oven takes; in metres.
type Beside = (String, f64, f64);

pub(in crate::house) fn ovens_are_clear(
    source: &Source<'_>,
    build: &Build,
    (wall, built_in, trench): (&Wall, &[BuiltIn], Option<&Trench>),
    system: System,
) {
    for (place, thing) in built_in.iter().enumerate() {
        let What::Oven(oven) = &thing.what else { continue };
        let written = build.built_in.iter().find(|written| written.name.value == thing.name);
        let Some(at) = written.and_then(|written| written.keys.oven.at.as_ref()) else { continue };
        let mut beside = under(wall, trench, oven);
        beside.extend(built_in.iter().enumerate().filter_map(|(other, thing)| match &thing.what {
            What::Oven(_) if other >= place => None,
            _ => on_the_ground(wall, oven, thing),
        }));
        // Footings that just touch are clear: binary fractions round by less.
        let Some((what, room, reach)) = beside.into_iter().find(|(_, room, reach)| *room < reach - 1e-9) else {
            continue;
        };
        let [room, wide] = [room.max(0.0), 2.0 * reach].map(|metres| shown(Length::m(metres), system));
        let message =
            format!("the oven and its footing take {wide} of the ground, there is {room} from its middle to {what}");
        source.fault(at.span.clone(), &at.path, message, "move it, or make its footing smaller");
    }
}

/// The wall's own footing: what the stem and its trench leave of the ground for the footing of an oven.
fn under(wall: &Wall, trench: Option<&Trench>, oven: &Oven) -> Vec<Beside> {
    let [to_line, _] = oven.to_wall.map(Length::in_m);
    let along = wall.line.along_line(wall.line.nearest(oven.middle()));
    let stem = -wall.stem_shape().offset(Side::Inner, along, 0.0);
    let reach = 0.5 * oven.footing[1].value.in_m();
    let trench = trench.map(|trench| ("the trench", 0.5 * trench.width.value.in_m()));
    let both = [("the stem wall", stem)].into_iter().chain(trench);
    both.map(|(what, half)| (what.to_owned(), to_line - half, reach)).collect()
}

/// What stands on the ground of the room beside an oven.
fn on_the_ground(wall: &Wall, oven: &Oven, thing: &BuiltIn) -> Option<Beside> {
    let (middle, name) = (oven.middle(), &thing.name);
    let (what, room) = match &thing.what {
        What::Oven(other) => (
            format!("the oven `{name}` and its footing"),
            middle.distance(other.middle()) - 0.5 * other.ground().in_m(),
        ),
        What::Bench(bench) if bench.side == Side::Inner => {
            (format!("the bench `{name}`"), away(&bench::outline(wall, bench), middle))
        }
        What::Buttress(buttress) if buttress.side == Side::Inner => {
            let foot = drawn::pier(wall, buttress, f64::INFINITY).into_iter().next()?;
            (format!("the buttress `{name}`"), away(&foot.points, middle))
        }
        _ => return None,
    };
    Some((what, room, 0.5 * oven.ground().in_m()))
}

/// From a point to a closed outline, in metres; none where it lies within.
fn away(outline: &[Point], point: Point) -> f64 {
    if polygon::contains(outline, point) {
        return 0.0;
    }
    let sides = outline.iter().zip(outline.iter().cycle().skip(1));
    let apart = |(&from, &to)| polygon::nearest_on([from, to], point).distance(point);
    sides.map(apart).fold(f64::INFINITY, f64::min)
}

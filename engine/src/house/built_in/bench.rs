//! Places benches and refuses those that fold, meet an opening or have no room.

use kurbo::Point;

use super::patch::overlap;
use super::site::{Site, side};
use super::{BuiltIn, What};
use crate::build::{self, OpeningKind, Written};
use crate::curve::Side;
use crate::house::Wall;
use crate::house::openings::{offsets, on_the_wall};
use crate::house::place::known;
use crate::known::{Known, Origin};
use crate::solve::crossing;
use crate::units::Length;
use crate::wall;

/// Chord error of the outlines that are tested for crossing, in metres.
const TEST_CHORD: f64 = 0.005;

/// How far in front of the wall the outline of a bench is taken to begin, in metres: its back touches the wall, and chords of
/// a hollow face lie before it by their error.
const CLEAR: f64 = 2.0 * TEST_CHORD;

/// A seat of cob along one face.
#[derive(Clone, Debug)]
pub struct Bench {
    /// The run it begins on.
    pub run: usize,
    /// Where it begins on that run.
    pub from: Known<Length>,
    /// The run it ends on.
    pub to_run: usize,
    /// Where it ends on that run.
    pub to: Known<Length>,
    /// The face.
    pub side: Side,
    /// Depth of the seat, from the face of the wall.
    pub depth: Known<Length>,
    /// Height of the seat above what it stands on.
    pub seat: Known<Length>,
    /// Level of what it stands on: the finished floor, or the ground outside.
    pub foot: Known<Length>,
    /// Its recipe.
    pub of: Option<String>,
    /// From where to where along the line, in metres; the second past the line's length where it lies across its start.
    pub stretch: [f64; 2],
    /// Offset of its front to the right of the line, in metres.
    pub front: f64,
}

impl Bench {
    /// Level of its seat.
    #[must_use]
    pub fn top(&self) -> Length {
        self.foot.value + self.seat.value
    }

    /// It as it stands against a wall.
    #[must_use]
    pub fn body<'a>(&self, wall: &'a Wall) -> wall::Bench<'a> {
        let half = 0.5 * wall.stem_width.value.in_m();
        wall::Bench {
            shape: wall.shape(),
            side: self.side,
            stretch: self.stretch,
            front: self.front,
            stem: if self.side == Side::Inner { -half } else { half },
            levels: [self.foot.value.in_m(), self.top().in_m()],
        }
    }
}

pub(super) fn place(site: &Site<'_>, written: &build::BuiltIn, placed: &[BuiltIn]) -> Option<Bench> {
    let keys = &written.keys;
    let depth = site.within(keys.depth.as_ref(), Length::mm(100.0)..Length::m(3.0), "the depth of a bench");
    let seats = Length::mm(100.0)..Length::m(2.0);
    let seat = match &keys.seat {
        Some(_) => site.within(keys.seat.as_ref(), seats, "the height of a seat"),
        None => {
            let why = "a seat that most people sit well on";
            let path = format!("built-in.{}.seat", written.name.value);
            Some(Known::assumed(Length::mm(430.0), path, Origin::CommonPractice, why))
        }
    };
    let on = |run: Option<&Written<String>>, along| on_the_wall(site.source, run, along, site.wall, site.system);
    let from = on(keys.spot.run.as_ref(), keys.from.as_ref());
    let to = on(keys.to_run.as_ref().or(keys.spot.run.as_ref()), keys.to.as_ref());
    let of = site.recipe(keys.of.as_ref())?;
    let ((run, start), (to_run, end)) = (from?, to?);
    let (depth, seat) = (depth?, seat?);
    let side = side(keys.side.as_ref(), Side::Inner);
    let (ground, floor) = site.levels;
    let foot = if side == Side::Inner { floor } else { ground }.clone();
    let line = &site.wall.line;
    let (from, to) = (known(keys.from.as_ref())?, known(keys.to.as_ref())?);
    if run == to_run && to.value <= from.value {
        let message = format!(
            "the bench would end at {}, where it begins or before, at {}",
            site.shown(to.value),
            site.shown(from.value)
        );
        site.refuse(keys.to.as_ref(), &written.name, message, "write `to` farther along the run than `from`");
        return None;
    }
    let [start, end] = [start, end].map(|station| line.along_line(station));
    let stretch = [start, if end <= start { end + line.length() } else { end }];
    if !site.wall.is_even_between(stretch) {
        let message = "the wall behind the bench grows thicker along it, so that the bench has no one depth".to_owned();
        let hint = "put it where the wall is everywhere as thick";
        site.refuse(keys.from.as_ref(), &written.name, message, hint);
        return None;
    }
    let out = if side == Side::Inner { -1.0 } else { 1.0 };
    let level = (foot.value + seat.value).in_m();
    let stem = 0.5 * site.wall.stem_width.value.in_m();
    let face = if level < 0.0 { out * stem } else { site.shape.offset(side, start, level) };
    let front = face + out * depth.value.in_m();
    let bench = Bench { run, from, to_run, to, side, depth, seat, foot, of, stretch, front };
    let stands = stands_out(site, written, &bench) && is_whole(site, written, &bench, placed);
    (stands && is_clear_of_openings(site, written, &bench)).then_some(bench)
}

/// Whether the front stands in front of all that is behind it, and the seat below the top of the wall.
fn stands_out(site: &Site<'_>, written: &build::BuiltIn, bench: &Bench) -> bool {
    let (top, height) = (bench.top(), site.wall.least_top(bench.stretch));
    if top >= height {
        let message = format!("the seat would be at {}, the wall's top is at {}", site.shown(top), site.shown(height));
        site.refuse(written.keys.seat.as_ref(), &written.name, message, "make the seat lower, or the wall higher");
        return false;
    }
    let foot = bench.foot.value.in_m();
    let along = bench.stretch[0];
    let behind = [
        (foot < 0.0).then_some(0.5 * site.wall.stem_width.value.in_m()),
        (top > Length::ZERO).then_some(site.shape.offset(bench.side, along, foot.max(0.0)).abs()),
    ];
    let farthest = behind.into_iter().flatten().fold(0.0, f64::max);
    let out = bench.front.abs() - farthest;
    let stands = out > 2.0 * CLEAR;
    if !stands {
        let message = if out > 0.0 {
            format!("the front of the bench would stand only {} before the foot of the wall", site.shown_m(out))
        } else {
            format!("the front of the bench would lie {} behind the foot of the wall", site.shown_m(-out))
        };
        site.refuse(written.keys.depth.as_ref(), &written.name, message, "make the bench deeper");
    }
    stands
}

/// Its outline in plan from one end over its front to the other, a little in front of the wall; in metres.
pub(super) fn outline(wall: &Wall, bench: &Bench) -> Vec<Point> {
    let [inner, outer] = offsets(wall);
    let back = if bench.side == Side::Inner { inner - CLEAR } else { outer + CLEAR };
    let at = |along: f64, offset: f64| wall.line.at(along).beside(offset);
    let [from, to] = bench.stretch;
    let mut points = vec![at(from, back)];
    wall.shape().over_pieces(bench.stretch, |piece, [from, to], _| {
        let front = wall.line.pieces()[piece].part(from, to).offset(bench.front);
        points.extend(front.flatten(TEST_CHORD));
        0.0
    });
    points.extend([at(to, bench.front), at(to, back)]);
    points
}

/// Refuses a front that folds, crosses itself, meets the wall again or meets another bench.
fn is_whole(site: &Site<'_>, written: &build::BuiltIn, bench: &Bench, placed: &[BuiltIn]) -> bool {
    let wall = site.wall;
    let line = &wall.line;
    let depth = written.keys.depth.as_ref();
    let mut folded = None;
    site.shape.over_pieces(bench.stretch, |piece, _, _| {
        let scale = 1.0 + line.pieces()[piece].curvature() * bench.front;
        if scale < 1e-6 && folded.is_none() {
            folded = Some(piece);
        }
        0.0
    });
    if let Some(piece) = folded {
        let radius = site.shown_m(1.0 / line.pieces()[piece].curvature().abs());
        let (place, name) =
            (if line.is_corner(piece) { "corner at" } else { "arc from" }, &wall.points[line.owner(piece)].name);
        let message = format!(
            "the front of the bench folds: the {place} `{name}` has a radius of {radius}, the front lies {} inside of it",
            site.shown_m(bench.front.abs())
        );
        site.refuse(depth, &written.name, message, "make the bench less deep, or end it before that place");
        return false;
    }
    let own = outline(wall, bench);
    let face = line.outline(if bench.side == Side::Inner { offsets(wall)[0] } else { offsets(wall)[1] }, TEST_CHORD);
    let mut round = face.clone();
    round.extend(face.first().copied());
    if crossing::chains_cross(&own[1..own.len() - 1], &own) {
        let message = "the front of the bench crosses itself: there is no room between its two parts";
        site.refuse(depth, &written.name, message, "make the bench less deep or shorter");
        return false;
    }
    if crossing::chains_cross(&own, &round) {
        let message = "the bench meets the wall on the other side: there is no room for it";
        site.refuse(depth, &written.name, message, "make the bench less deep or shorter");
        return false;
    }
    let others = placed.iter().filter_map(|thing| match &thing.what {
        What::Bench(other) if other.side == bench.side => Some((&thing.name, other)),
        _ => None,
    });
    for (name, other) in others {
        if crossing::chains_cross(&own, &outline(wall, other)) {
            let message = format!("the bench meets the bench `{name}`: there is no room between them");
            site.refuse(depth, &written.name, message, "make one of them less deep or shorter");
            return false;
        }
    }
    true
}

/// Refuses a bench in a door, and a seat that is higher than the sill of a window above it.
fn is_clear_of_openings(site: &Site<'_>, written: &build::BuiltIn, bench: &Bench) -> bool {
    let whole = site.wall.line.length();
    for opening in site.openings {
        let cut = &opening.cut;
        let (low, high) = (bench.foot.value.max(opening.bottom.value), bench.top().min(opening.head()));
        if low >= high {
            continue;
        }
        let widest = cut.form.widest_above(low.in_m()).min(high.in_m());
        let Some(at) = cut.stretch(&site.shape, bench.side, widest) else { continue };
        if !overlap(bench.stretch, at, whole) {
            continue;
        }
        let name = &opening.name;
        if opening.kind == OpeningKind::Door {
            let message = format!("the bench would stand in the door `{name}`");
            site.refuse(written.keys.from.as_ref(), &written.name, message, "end it at the jamb of the door");
        } else {
            let message = format!(
                "the seat, at {}, would stand before the window `{name}`, whose sill is at {}",
                site.shown(bench.top()),
                site.shown(opening.bottom.value)
            );
            let hint = "make the seat lower, or the sill higher, or end the bench beside the window";
            site.refuse(written.keys.seat.as_ref(), &written.name, message, hint);
        }
        return false;
    }
    true
}

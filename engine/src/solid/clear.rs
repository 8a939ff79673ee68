//! Whether what is taken out of a wall keeps clear of the faces and of each other.

use kurbo::Point;

use super::cuboid::Cuboid;
use super::fault::Fault;
use super::places::SNAP;
use super::rim::Rim;
use crate::curve::{Along, Cut, Depth, Form, Jamb, Shape, Side};

/// How much of the wall must stay round a niche or a box, in metres, beside the chord error.
const COVER: f64 = 1e-3;

/// The section of the cut at a level, in plan.
fn section(rim: &Rim<'_>, shape: &Shape<'_>, level: f64) -> Option<Vec<Point>> {
    let Cut { station, form, depth } = rim.cut;
    let right = -station.axis.turn_90();
    let half = form.half_at(level.clamp(form.bottom(), form.top()));
    // From the outer face to the inner one at the jamb behind, along it, and back at the jamb ahead.
    let (mut inner_face, mut outer_face) = (Vec::new(), Vec::new());
    for share in [-1.0, -0.75, -0.5, -0.25, 0.0, 0.25, 0.5, 0.75, 1.0] {
        let jamb = rim.jamb([share * half, level]);
        let at = |y: f64| station.point + station.axis * jamb.at(y) + right * y;
        let [inner, outer] = rim.cut.jamb_depths(shape, jamb, level)?;
        let [low, high] = match *depth {
            Depth::Through { .. } => [inner, outer],
            Depth::Into { side: Side::Inner, bottom } => [inner, bottom],
            Depth::Into { side: Side::Outer, bottom } => [bottom, outer],
        };
        let crease = at(jamb.crease.clamp(low.min(high), high.max(low)));
        if share == -1.0 {
            inner_face.push(crease);
        }
        inner_face.push(at(low));
        if share == 1.0 {
            inner_face.push(crease);
        }
        outer_face.push(at(high));
    }
    inner_face.extend(outer_face.into_iter().rev());
    Some(inner_face)
}

/// Whether two outlines in plan cross or one holds the other.
fn overlap(a: &[Point], b: &[Point]) -> bool {
    let sides = |of: &[Point]| -> Vec<[Point; 2]> {
        (0..of.len()).map(|index| [of[index], of[(index + 1) % of.len()]]).collect()
    };
    let turn = |p: Point, q: Point, r: Point| (q - p).cross(r - p);
    let (round_a, round_b) = (sides(a), sides(b));
    let cross = |[a, b]: &[Point; 2], [c, d]: &[Point; 2]| {
        turn(*a, *b, *c) * turn(*a, *b, *d) < 0.0 && turn(*c, *d, *a) * turn(*c, *d, *b) < 0.0
    };
    let holds = |round: &[[Point; 2]], point: Point| {
        let crossed = |[from, to]: &&[Point; 2]| {
            (from.y > point.y) != (to.y > point.y)
                && point.x < from.x + (to.x - from.x) * (point.y - from.y) / (to.y - from.y)
        };
        round.iter().filter(crossed).count() % 2 == 1
    };
    round_a.iter().any(|side| round_b.iter().any(|other| cross(side, other)))
        || a.iter().any(|&point| holds(&round_b, point))
        || b.iter().any(|&point| holds(&round_a, point))
        || holds(&round_a, middle(b))
        || holds(&round_b, middle(a))
}

fn middle(of: &[Point]) -> Point {
    let sum = of.iter().fold(kurbo::Vec2::ZERO, |sum, point| sum + point.to_vec2());
    (sum / of.len() as f64).to_point()
}

/// Levels at which two things between the same beds are held against each other; none where no level is common.
fn common([a_low, a_high]: [f64; 2], [b_low, b_high]: [f64; 2], widest: &[f64]) -> Vec<f64> {
    let (low, high) = (a_low.max(b_low), a_high.min(b_high));
    if low > high {
        return Vec::new();
    }
    let mut levels = vec![low, 0.5 * (low + high), high];
    levels.extend(widest.iter().map(|level| level.clamp(low, high)));
    levels
}

fn widest(form: &Form) -> f64 {
    match *form {
        Form::Round { middle, .. } => middle,
        _ => form.spring(),
    }
}

/// No two cuts of a lift overlap. Each comes with its stretch of the line.
pub fn cuts_apart(shape: &Shape<'_>, rims: &[(Rim<'_>, [f64; 2])]) -> Result<(), Fault> {
    for (index, (rim, range)) in rims.iter().enumerate() {
        for (other, beside) in &rims[..index] {
            if range[0] > beside[1] + SNAP || beside[0] > range[1] + SNAP {
                continue;
            }
            for level in common(rim.levels, other.levels, &[widest(&rim.cut.form), widest(&other.cut.form)]) {
                let (Some(a), Some(b)) = (section(rim, shape, level), section(other, shape, level)) else { continue };
                if overlap(&a, &b) {
                    return Err(Fault::CutsMeet(other.number, rim.number));
                }
            }
        }
    }
    Ok(())
}

/// A box keeps clear of a cut.
pub fn box_apart(shape: &Shape<'_>, (number, held): (usize, &Cuboid), rim: &Rim<'_>) -> Result<(), Fault> {
    let corners = Cuboid { half: held.half.map(|half| half + COVER), ..*held }.corners();
    let levels = common([held.levels[0] - COVER, held.levels[1] + COVER], rim.levels, &[widest(&rim.cut.form)]);
    let meets = |level: f64| section(rim, shape, level).is_none_or(|section| overlap(&corners, &section));
    if levels.into_iter().any(meets) { Err(Fault::BoxMeetsCut(number, rim.number)) } else { Ok(()) }
}

/// Two boxes keep clear of each other.
pub fn boxes_apart((a, first): (usize, &Cuboid), (b, second): (usize, &Cuboid)) -> Result<(), Fault> {
    let wider = Cuboid { half: first.half.map(|half| half + COVER), ..*first };
    let levels = common([first.levels[0] - COVER, first.levels[1] + COVER], second.levels, &[]);
    if !levels.is_empty() && overlap(&wider.corners(), &second.corners()) {
        return Err(Fault::BoxesMeet(a, b));
    }
    Ok(())
}

/// A niche's bottom stays between its own face and the opposite one.
pub fn niche_fits(shape: &Shape<'_>, rim: &Rim<'_>, chord: f64) -> Result<(), Fault> {
    let Depth::Into { side, bottom } = rim.cut.depth else { return Ok(()) };
    let cover = COVER + 2.0 * chord;
    for share in [0.0, 0.5, 1.0] {
        let level = rim.levels[0] + (rim.levels[1] - rim.levels[0]) * share;
        for part in [-1.0, -0.5, 0.0, 0.5, 1.0] {
            let jamb = Jamb { x: part * rim.cut.form.half(), crease: 0.0, splay: 0.0 };
            let [inner, outer] = rim.cut.jamb_depths(shape, jamb, level).ok_or(Fault::NoMeeting(rim.number))?;
            let [own, far] = match side {
                Side::Inner => [bottom - inner, outer - bottom],
                Side::Outer => [outer - bottom, bottom - inner],
            };
            if own < COVER || far < cover {
                return Err(Fault::NicheDepth(rim.number));
            }
        }
    }
    Ok(())
}

/// A box laid in a wall: drawn onto a level bed that it all but touches.
pub struct Held {
    /// Its place in the list.
    pub number: usize,
    /// The box.
    pub held: Cuboid,
    /// Whether it lies on the foot and reaches up to the top.
    pub on_bed: [bool; 2],
    /// Its stretch of the line, in metres.
    pub range: [f64; 2],
}

impl Held {
    /// A box wholly inside a wall between its foot and its top.
    pub fn within(
        shape: &Shape<'_>,
        (number, given): (usize, &Cuboid),
        beds: [&Along; 2],
        chord: f64,
    ) -> Result<Held, Fault> {
        let mut held = *given;
        let mut on_bed = [false; 2];
        for bed in 0..2 {
            let level = beds[bed].at(0.0);
            if beds[bed].is_even() && (held.levels[bed] - level).abs() < SNAP {
                held.levels[bed] = level;
                on_bed[bed] = true;
            }
        }
        let length = shape.line.length();
        let home = shape.line.along_line(shape.line.nearest(held.middle));
        let corners = held.corners();
        let cover = COVER + chord;
        let mut range = [home, home];
        for corner in 0..4 {
            for share in [0.0, 0.125, 0.25, 0.375, 0.5, 0.625, 0.75, 0.875] {
                let point = corners[corner].lerp(corners[(corner + 1) % 4], share);
                let station = shape.line.nearest(point);
                let aside = (point - station.point).dot(-station.axis.turn_90());
                let along = shape.line.along_line(station);
                let near = along + ((home - along) / length).round() * length;
                range = [range[0].min(near), range[1].max(near)];
                let fits = held.levels.iter().all(|&level| {
                    shape.offset(Side::Inner, along, level) + cover < aside
                        && aside < shape.offset(Side::Outer, along, level) - cover
                });
                let below = on_bed[0] || held.levels[0] > beds[0].at(along) + SNAP;
                let above = on_bed[1] || held.levels[1] < beds[1].at(along) - SNAP;
                if !(fits && below && above && held.levels[0] < held.levels[1]) {
                    return Err(Fault::BoxLeaves(number));
                }
            }
        }
        Ok(Held { number, held, on_bed, range })
    }
}

//! A window or a door cut upright through its middle: what lies below, in and over it.

use kurbo::{Point, Vec2};

use super::Detail;
use super::across::{Across, Edge, rectangle};
use crate::build::OpeningKind;
use crate::curve::Side;
use crate::house::part::{Dimension, Level, Material, Meaning, Outline, Part, Place, Section};
use crate::house::{House, Opening};
use crate::units::Length;

/// How much of the cob is shown over an opening and below a window, and the least that a break line leaves out, in metres.
const ABOVE: f64 = 0.4;
const BELOW: f64 = 0.3;
const LEFT_OUT: f64 = 0.15;
/// Ground outside and floor inside of a door, in metres beside the stem wall.
const OUTSIDE: f64 = 0.5;
const INSIDE: f64 = 0.7;

/// What is collected of a cut through an opening.
#[derive(Default)]
struct Drawn {
    parts: Vec<Part>,
    levels: Vec<Level>,
    dimensions: Vec<Dimension>,
    places: Vec<Place>,
}

/// The cut through the middle of an opening, the outside on the left.
pub(super) fn upright(house: &House, opening: &Opening) -> Detail {
    let wall = &house.wall;
    let across = Across { house, along: wall.line.along_line(opening.station) };
    let (bottom, head) = (opening.bottom.value.in_m(), opening.head().in_m());
    let is_door = opening.kind == OpeningKind::Door;
    let over = opening.lintel.as_ref().map_or(head, |lintel| lintel.cut.form.top());
    let top = wall.top.at(&wall.line, across.along);
    let high = if top - over < ABOVE + LEFT_OUT { Edge::Whole(top) } else { Edge::Broken(over + ABOVE) };
    let from = bottom.max(0.0);
    let low = if from < BELOW + LEFT_OUT { Edge::Whole(0.0) } else { Edge::Broken(from - BELOW) };

    let mut drawn = Drawn::default();
    if is_door {
        foot(&across, bottom, &mut drawn);
    }
    let mut solid = vec![(Edge::Whole(over), high)];
    if from - low.level() > 1e-6 {
        solid.insert(0, (low, Edge::Whole(from)));
    }
    let corner = |side, level| Point::new(across.face(side, level), level);
    let hole = [(Side::Outer, bottom), (Side::Outer, head), (Side::Inner, head), (Side::Inner, bottom)];
    let hole = Outline::area(hole.map(|(side, level)| corner(side, level)).to_vec(), Meaning::Seen);
    let path = format!("openings.{}", opening.name);
    drawn.parts.push(Part::new(&path, &opening.name, Material::Opening, vec![hole]));
    let cob = solid.iter().map(|&(low, high)| across.cob(low, high)).collect();
    drawn.parts.push(Part::new("wall", "cob wall", Material::Cob, cob));
    let bands: Vec<[f64; 2]> = solid.iter().map(|(low, high)| [low.level(), high.level()]).collect();
    for side in [Side::Outer, Side::Inner] {
        if let Some((coats, named)) = across.coats(side, &bands) {
            drawn.parts.push(coats);
            drawn.places.extend(named);
        }
    }
    let middle = across.face(Side::Outer, over).midpoint(across.face(Side::Inner, over));
    drawn.places.push(Place::new("wall", "cob", Point::new(middle, over.midpoint(high.level()))));
    fitted(&across, opening, &mut drawn);
    levels(&across, opening, high, &mut drawn);
    let eye = bottom + 0.6 * (head - bottom);
    let sides = [("outside", Side::Outer, -0.12), ("inside", Side::Inner, 0.12)];
    let sides = sides.map(|(name, side, aside)| Place::new(&path, name, corner(side, eye) + Vec2::new(aside, 0.0)));
    drawn.places.extend(sides);
    let ends = [corner(Side::Outer, bottom), corner(Side::Outer, head)];
    drawn.dimensions.push(Dimension::between(&opening.height.path, ends, Vec2::new(-1.0, 0.0)));

    let words = opening.name.replace('-', " ");
    let sash = if opening.hanging.glass.is_some() { " How thick glass and sash are is not written." } else { "" };
    Detail {
        name: if is_door { "door-detail" } else { "window-detail" },
        title: format!("The {words}, cut upright through its middle; outside on the left"),
        note: format!("Levels are heights above the foot of the cob.{sash}"),
        section: Section {
            parts: drawn.parts,
            levels: Level::in_order(drawn.levels),
            dimensions: drawn.dimensions,
            places: drawn.places,
        },
    }
}

/// Stem wall, ground and floor at a door.
fn foot(across: &Across<'_>, bottom: f64, drawn: &mut Drawn) {
    let half = across.half_stem();
    let foot = -across.house.wall.stem_height.value.in_m();
    let (floor, named) = across.floor(half + INSIDE);
    drawn.parts.push(across.ground(-half - OUTSIDE));
    drawn.parts.extend(floor);
    drawn.places.extend(named);
    let body = rectangle([-half, half], [foot, bottom.min(0.0)], Meaning::Cut);
    drawn.parts.push(Part::new("wall.stem", "stem wall", Material::Stone, vec![body]));
    let middle = Point::new(0.0, foot.midpoint(bottom.min(0.0)));
    drawn.places.push(Place::new("wall.stem", "stem wall", middle));
    drawn.levels.push(Level::new("ground.outside", "ground outside", across.house.ground.value));
    if across.house.wall.line.is_closed() {
        drawn.levels.push(Level::new("ground.floor", "finished floor", across.house.floor_level.value));
    }
}

/// Frame, glass, sill board and lintel.
fn fitted(across: &Across<'_>, opening: &Opening, drawn: &mut Drawn) {
    let (bottom, head) = (opening.bottom.value.in_m(), opening.head().in_m());
    let outer = -opening.faces(&across.house.wall)[1];
    let mut timber = |path: String, name: &str, span: [f64; 2], heights: [f64; 2]| {
        let body = rectangle(span, heights, Meaning::Cut);
        let middle = Point::new(span[0].midpoint(span[1]), heights[0].midpoint(heights[1]));
        drawn.places.push(Place::new(&path, name, middle));
        drawn.parts.push(Part::new(&path, name, Material::Timber, vec![body]));
    };
    if let Some(lintel) = &opening.lintel {
        let (low, high) = (lintel.cut.form.bottom(), lintel.cut.form.top());
        let span = [Side::Outer, Side::Inner].map(|side| across.face(side, low));
        timber(opening.path("lintel"), "lintel", span, [low, high]);
    }
    if let Some(board) = &opening.sill_board {
        let inner = across.face(Side::Inner, bottom);
        let end = opening.frame.as_ref().map_or(inner, |frame| outer + frame.set_back.value.in_m());
        let span = [outer - board.projects.value.in_m(), end];
        timber(opening.path("sill-board"), "sill board", span, [bottom, bottom + board.thickness.value.in_m()]);
    }
    let Some(frame) = &opening.frame else { return };
    let front = outer + frame.set_back.value.in_m();
    let span = [front, front + frame.depth.value.in_m()];
    let (low, high) = (frame.inside.bottom(), frame.inside.top());
    let mut members = vec![rectangle(span, [low, high], Meaning::Seen), rectangle(span, [high, head], Meaning::Cut)];
    let is_window = opening.kind == OpeningKind::Window;
    if is_window {
        members.push(rectangle(span, [bottom, low], Meaning::Cut));
    }
    let path = opening.path("frame");
    drawn.parts.push(Part::new(&path, "frame", Material::Timber, members));
    drawn.places.push(Place::new(&path, "frame", Point::new(span[1], low + 0.7 * (high - low))));
    drawn.places.push(Place::new(&opening.path("gap"), "gap over the frame", Point::new(span[1], head)));
    let middle = span[0].midpoint(span[1]);
    if let Some(glass) = &opening.hanging.glass {
        let (from, to) = (glass.bottom(), glass.top());
        let quarter = 0.25 * (span[1] - span[0]);
        let sash = [middle - quarter, middle + quarter];
        if from - low > 1e-6 {
            let members = [[low, from], [to, high]].map(|heights| rectangle(sash, heights, Meaning::Cut));
            drawn.parts.push(Part::new(&opening.path("sash"), "sash", Material::Timber, members.to_vec()));
            drawn.places.push(Place::new(&opening.path("sash"), "sash", Point::new(middle, low.midpoint(from))));
        }
        let line = Outline::line(vec![Point::new(middle, from), Point::new(middle, to)], Meaning::Cut);
        let path = opening.path("glass-area");
        drawn.parts.push(Part::new(&path, "glass", Material::Glass, vec![line]));
        drawn.places.push(Place::new(&path, "glass", Point::new(middle, from + 0.4 * (to - from))));
    }
    let (left, up) = (Point::new(outer, high), Vec2::new(0.0, -1.0));
    let ends = span.map(|x| Point::new(x, high));
    drawn.dimensions.push(Dimension::between(&frame.set_back.path, [left, ends[0]], up));
    drawn.dimensions.push(Dimension::between(&frame.depth.path, ends, up));
    let member = if is_window { [bottom, low] } else { [high, head] };
    let ends = member.map(|level| Point::new(span[1], level));
    drawn.dimensions.push(Dimension::between(&frame.width.path, ends, Vec2::new(1.0, 0.0)));
}

fn levels(across: &Across<'_>, opening: &Opening, high: Edge, drawn: &mut Drawn) {
    let sill = if opening.kind == OpeningKind::Door { "threshold" } else { "sill" };
    let levels = &mut drawn.levels;
    levels.push(Level::new(&opening.bottom.path, sill, opening.bottom.value));
    levels.push(Level::new(&opening.height.path, "head", opening.head()));
    if let Some(lintel) = &opening.lintel {
        levels.push(Level::new(&lintel.height.path, "top of the lintel", Length::m(lintel.cut.form.top())));
    }
    if let Edge::Whole(top) = high {
        let path = across.house.wall.top_level().path;
        levels.push(Level::new(&path, "top of the wall", Length::m(top)));
    }
}

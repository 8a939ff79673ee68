//! The first shape: the wall line as pegs and a string on the ground, with people and things at true size to judge the room by.

mod figures;

use engine::answers::Answers;
use engine::house::part::{Material, Part};
use engine::units::Length;
use kurbo::{Point, Rect, Vec2};

use super::frame::Frame;
use super::hand::{Hand, areas, strokes, wash};
use super::hatch::{earth, mixed};
use super::labels::Label;
use super::plan::north;
use super::sheet::{LETTERING, Margins, Sheet, extent};
use super::{Scaled, dimension};
use crate::paper::{CLAY, INK, LIME, Paper, SLATE, STRAW, weight};
use crate::svg::Element;
use figures::{Figure, Placed};

const TITLE: &str = "The first shape: pegs, a string, and who has room in it";
/// Side of a peg, in millimetres.
const PEG: f64 = 2.4;
/// Points of the wall line that are enough to judge the room by.
const ENOUGH: usize = 72;
/// Places across the room at which a figure is tried, and the angles tried there.
const PLACES: u32 = 22;
const TURNS: u32 = 8;
/// What stays free in front of an opening, in metres.
const DOORWAY: f64 = 0.6;

/// The wall line as pegs and string at the largest scale that fits, with the people, the bench and the barrow that find room.
#[must_use]
pub fn first_shape(answers: &Answers, medium: Paper) -> Scaled {
    let margins = Margins { left: 9.0, top: 16.0, right: 17.0, bottom: 18.0 };
    let row = (extent(&walls(answers)), margins);
    drawn(answers, Sheet::new(TITLE, &[row], medium.room(medium.drawing_mm()), answers.system))
}

/// The first shape in the frame of an earlier one.
#[must_use]
pub fn first_shape_held(answers: &Answers, frame: &Frame) -> Scaled {
    drawn(answers, Sheet::held(TITLE, frame, answers.system))
}

fn walls(answers: &Answers) -> Vec<Part> {
    let is_wall = |part: &&Part| part.path == "wall" || part.path == "wall.stem";
    answers.plan.parts.iter().filter(is_wall).cloned().collect()
}

fn drawn(answers: &Answers, mut sheet: Sheet) -> Scaled {
    let [width, height] = sheet.size_mm();
    sheet.push(Element::rectangle([0.0, 0.0], width, height).with("fill", LIME));
    let mut hand = Hand::from(3);
    wall(&mut sheet, answers, &mut hand);
    openings(&mut sheet, answers, &mut hand);
    let mut free = None;
    if answers.pegs.line.closed {
        let room = Room::of(answers);
        let furnished = room.furnished();
        free = Some(sheet.at(room.freest(&furnished)));
        for placed in furnished {
            let outline: Vec<[f64; 2]> = placed.corners().iter().map(|corner| sheet.at(*corner)).collect();
            sheet.avoid(&outline, true, 5.0);
            let metre = sheet.paper(1.0);
            sheet.push(placed.drawn(sheet.at(placed.at), metre));
        }
    }
    string(&mut sheet, answers, &mut hand);
    for one in &answers.plan.dimensions {
        if one.path.contains(".overall-") {
            dimension::draw(&mut sheet, answers, one, 8.0);
        }
    }
    names(&mut sheet, answers, free);
    north(&mut sheet, answers.plan.north);
    sheet.finished()
}

/// The wall as it will stand, pale, with its faces as broken lines.
fn wall(sheet: &mut Sheet, answers: &Answers, hand: &mut Hand) {
    for part in walls(answers).iter().filter(|part| part.path == "wall") {
        let outlines: Vec<Vec<[f64; 2]>> = part.outlines.iter().map(|outline| sheet.points(outline)).collect();
        let fill = areas(&outlines, &earth(0.22), 0.0).with("stroke", "none");
        sheet.push(fill.data_path(&part.path));
        for outline in &outlines {
            let faces =
                strokes(&[hand.outline(outline, 0.08)]).with("stroke", SLATE).with("stroke-width", weight::HIDDEN);
            sheet.push(faces.with("stroke-dasharray", "2 1.2"));
            let step = (outline.len() / 60).max(1);
            let spaced: Vec<[f64; 2]> = outline.iter().step_by(step).copied().collect();
            sheet.avoid(&spaced, true, 1.0);
        }
    }
}

fn is_gap(part: &Part) -> bool {
    part.material == Material::Opening && part.path.starts_with("openings.")
}

/// Doors and windows as gaps in the pale wall.
fn openings(sheet: &mut Sheet, answers: &Answers, hand: &mut Hand) {
    for part in answers.plan.parts.iter().filter(|part| is_gap(part)) {
        for outline in part.outlines.iter().filter(|outline| outline.closed) {
            let points = sheet.points(outline);
            sheet.push(wash(&points, LIME));
            let line = strokes(&[hand.outline(&points, 0.06)]).with("stroke", SLATE).with("stroke-width", weight::THIN);
            sheet.push(line.data_path(&part.path));
        }
    }
}

/// The string round the pegs, and the pegs as one sees them from above.
fn string(sheet: &mut Sheet, answers: &Answers, hand: &mut Hand) {
    let mut line: Vec<[f64; 2]> = sheet.points(&answers.pegs.line);
    if answers.pegs.line.closed {
        line.extend(line.first().copied());
    }
    let drawn = |width: f64, colour: String| {
        strokes(std::slice::from_ref(&line)).with("stroke", colour).with("stroke-width", width)
    };
    sheet.push(drawn(0.75, INK.to_owned()).data_path("wall.line"));
    sheet.push(drawn(0.42, mixed(STRAW, LIME, 0.85)));
    sheet.push(drawn(0.42, CLAY.to_owned()).with("stroke-dasharray", "0.5 0.9"));
    for peg in answers.pegs.pegs.iter().filter(|peg| peg.marks.is_on_the_line()) {
        let [x, y] = sheet.at(peg.at);
        let turn = hand.between(-0.5, 0.5);
        let corner = |quarter: u32, reach: f64| {
            let turn = turn + std::f64::consts::FRAC_PI_2 * (f64::from(quarter) + 0.5);
            [x + reach * turn.cos(), y + reach * turn.sin()]
        };
        let is_named = matches!(peg.marks, engine::house::Marks::Point(_));
        let reach = if is_named { PEG * 0.7 } else { PEG * 0.42 };
        let head: Vec<[f64; 2]> = (0..4).map(|quarter| corner(quarter, reach)).collect();
        sheet.push(areas(&[head], &mixed(STRAW, LIME, 0.6), weight::SEEN).data_path(&peg.path));
        if is_named {
            sheet.push(Element::circle([x, y], 0.45).with("fill", INK));
        }
    }
}

/// Names of the pegs that the build file names, and the area of the room.
fn names(sheet: &mut Sheet, answers: &Answers, free: Option<[f64; 2]>) {
    for place in answers.plan.places.iter().filter(|place| place.path.starts_with("wall.line.")) {
        let words = place.name.replace('-', " ");
        sheet.label(Label { path: place.path.clone(), ..Label::beside(sheet.at(place.at), LETTERING, &words) });
    }
    if let (Some(at), Some(row)) = (free, answers.rows.find("room.area")) {
        let words = format!("room\n{}", row.shown(answers.system));
        let label = Label::beside(at, LETTERING, &words);
        sheet.label(Label { path: row.path.clone(), preferred: vec![at], ..label });
    }
}

/// The ground between the walls, to find room in.
struct Room {
    line: Vec<Point>,
    half_wall: f64,
    extent: Rect,
    doors: Vec<Point>,
}

impl Room {
    fn of(answers: &Answers) -> Room {
        let points = &answers.pegs.line.points;
        let line: Vec<Point> = points.iter().step_by((points.len() / ENOUGH).max(1)).copied().collect();
        let half = |path: &str| answers.rows.value::<Length>(path).map(|length| 0.5 * length.in_m());
        let start = line.first().copied().unwrap_or_default();
        let openings = answers.plan.places.iter().filter(|place| {
            answers.rows.find(&format!("{}.sill", place.path)).is_none() && place.path.starts_with("openings.")
        });
        Room {
            half_wall: half("wall.thickness").into_iter().chain(half("wall.stem.width")).fold(0.2, f64::max),
            extent: line.iter().fold(Rect::from_points(start, start), |extent, point| extent.union_pt(*point)),
            doors: openings.map(|place| place.at).collect(),
            line,
        }
    }

    /// From a point to the face of the wall, in metres; below zero in the wall or beyond it.
    fn clear(&self, point: Point) -> f64 {
        let before = self.line.last().into_iter().chain(&self.line);
        let (mut nearest, mut is_inside) = (f64::INFINITY, false);
        for (a, b) in before.zip(&self.line) {
            let (way, off) = (*b - *a, point - *a);
            let share = (off.dot(way) / way.hypot2().max(1e-12)).clamp(0.0, 1.0);
            nearest = nearest.min((off - way * share).hypot());
            if (a.y > point.y) != (b.y > point.y) && point.x < a.x + (point.y - a.y) / (b.y - a.y) * (b.x - a.x) {
                is_inside = !is_inside;
            }
        }
        if is_inside { nearest - self.half_wall } else { -nearest }
    }

    /// Places at which something is tried, with their distance to the wall.
    fn places(&self) -> Vec<(Point, f64)> {
        let grid = (1..PLACES).flat_map(|column| (1..PLACES).map(move |row| [column, row]));
        let at = |[column, row]: [u32; 2]| {
            let share = [column, row].map(|place| f64::from(place) / f64::from(PLACES));
            Point::new(
                self.extent.x0 + self.extent.width() * share[0],
                self.extent.y0 + self.extent.height() * share[1],
            )
        };
        grid.map(at).map(|at| (at, self.clear(at))).filter(|(_, clear)| *clear > 0.0).collect()
    }

    /// The place farthest from the wall and from who and what is there.
    fn freest(&self, furnished: &[Placed]) -> Point {
        let beside = |at: Point| {
            let points = furnished.iter().flat_map(|placed| placed.samples());
            points.map(|point| point.distance(at)).fold(f64::INFINITY, f64::min)
        };
        let places = self.places().into_iter().map(|(at, clear)| (at, clear.min(beside(at))));
        places.max_by(|a, b| a.1.total_cmp(&b.1)).map_or(self.extent.center(), |(at, _)| at)
    }

    /// Who and what finds room: the bench along the wall, the others where there is most.
    fn furnished(&self) -> Vec<Placed> {
        let places = self.places();
        let mut found: Vec<Placed> = Vec::new();
        for figure in [Figure::Bench, Figure::Lying, Figure::Barrow, Figure::Standing] {
            let mut best: Option<(f64, Placed)> = None;
            for (at, clear) in places.iter().filter(|(_, clear)| *clear > figure.half()[1]) {
                for turn in 0..TURNS {
                    let placed =
                        Placed { figure, at: *at, turn: std::f64::consts::PI * f64::from(turn) / f64::from(TURNS) };
                    let worth = match figure {
                        Figure::Bench => -clear,
                        _ => self.apart(&placed, &found).min(*clear),
                    };
                    let is_better = best.as_ref().is_none_or(|(most, _)| worth > *most + 1e-9);
                    if is_better && self.holds(&placed) && found.iter().all(|other| !other.overlaps(&placed)) {
                        best = Some((worth, placed));
                    }
                }
            }
            found.extend(best.map(|(_, placed)| placed));
        }
        found
    }

    /// How far a figure stands from others and from doors, in metres.
    fn apart(&self, placed: &Placed, others: &[Placed]) -> f64 {
        let points = others.iter().map(|other| other.at).chain(self.doors.iter().copied());
        points.map(|point| point.distance(placed.at) * 0.5).fold(f64::INFINITY, f64::min)
    }

    fn holds(&self, placed: &Placed) -> bool {
        let is_free = |point: Point| {
            self.clear(point) > 0.04 && self.doors.iter().all(|door| (*door - point).hypot() > DOORWAY + self.half_wall)
        };
        placed.samples().into_iter().all(is_free)
    }
}

/// A direction from an angle in radians.
fn way(turn: f64) -> Vec2 {
    Vec2::from_angle(turn)
}

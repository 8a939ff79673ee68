//! The first shape: the wall line as pegs and a string on the ground, with people and things at true size to judge the room by.

pub(super) mod figures;

use engine::answers::Answers;
use engine::house::part::{Material, Part, Place};

use super::frame::Frame;
use super::hand::{Hand, areas, strokes, wash};
use super::hatch::{earth, mixed};
use super::labels::Label;
use super::plan::north;
use super::sheet::{LETTERING, Margins, Sheet, extent};
use super::{Scaled, dimension};
use crate::paper::{CLAY, INK, LIME, Paper, SLATE, STRAW, weight};
use crate::spoken::spoken;
use crate::svg::Element;

const TITLE: &str = "The first shape: pegs, a string, and who has room in it";
/// Side of a peg, in millimetres.
const PEG: f64 = 2.4;

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
    for placed in &answers.furnishing.placed {
        let outline: Vec<[f64; 2]> = placed.corners().iter().map(|corner| sheet.at(*corner)).collect();
        sheet.avoid(&outline, true, 5.0);
        let metre = sheet.paper(1.0);
        sheet.push(figures::drawn(placed, sheet.at(placed.at), metre));
    }
    string(&mut sheet, answers, &mut hand);
    for one in &answers.plan.dimensions {
        if one.path.contains(".overall-") {
            // What the builder typed is the room inside.
            dimension::said(&mut sheet, answers, one, (8.0, " over all"));
        }
    }
    names(&mut sheet, answers);
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

fn is_opening(place: &Place) -> bool {
    place.path.starts_with("openings.") && place.path.matches('.').count() == 1
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

/// Names of the pegs and the gaps that the build file names, and the area of the room.
fn names(sheet: &mut Sheet, answers: &Answers) {
    for place in answers.plan.places.iter().filter(|place| place.path.starts_with("wall.line.") || is_opening(place)) {
        let words = spoken(&place.name);
        sheet.label(Label { path: place.path.clone(), ..Label::beside(sheet.at(place.at), LETTERING, &words) });
    }
    if let (Some(free), Some(row)) = (answers.furnishing.free, answers.rows.find("room.area")) {
        let at = sheet.at(free);
        let words = format!("room\n{}", row.shown(answers.system));
        let label = Label::beside(at, LETTERING, &words);
        sheet.label(Label { path: row.path.clone(), preferred: vec![at], ..label });
    }
}

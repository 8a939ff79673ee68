//! The house pulled apart in the order of building, each part named with what its row says of it.

use engine::answers::Answers;
use engine::pictures::{Exploded, Group};
use kurbo::Rect;

use super::labels::Label;
use super::section::spread;
use super::sheet::{LETTERING, Margins, Sheet};
use super::{Scaled, faces};
use crate::lettering;
use crate::paper::{INK, Paper, SLATE, weight};
use crate::spoken::spoken;
use crate::svg::{Element, Svg};

/// From the picture to the names, in millimetres.
const BESIDE: f64 = 9.0;
/// Width of the lines of the picture, which is small for all it shows, in millimetres.
const LINES: f64 = 0.2;
/// Room for a number beside the picture, in millimetres.
const NUMBER: f64 = 5.0;
/// Lines between the picture and its key, in which the lowest number stands.
const GAP: f64 = 2.0;
/// From one line of the key below a narrow picture to the next, in millimetres.
const LINE: f64 = LETTERING * 1.5;
const TITLE: &str = "The house pulled apart in the order of building, from the trench up";

/// The picture without words, for a cover.
#[must_use]
pub fn cover(answers: &Answers, exploded: &Exploded, paper: Paper) -> Svg {
    let margins = Margins { left: 3.0, top: 3.0, right: 3.0, bottom: 3.0 };
    let mut sheet = Sheet::unscaled(TITLE, (seen(exploded), margins), paper.drawing_mm(), answers.system);
    faces::draw(&mut sheet, &exploded.view, LINES);
    sheet.bare()
}

/// The picture with a name for each part, as large as the paper allows; where the names would take half of its width, it has
/// numbers, and the names stand below it.
#[must_use]
pub fn exploded(answers: &Answers, exploded: &Exploded, paper: Paper) -> Scaled {
    let extent = seen(exploded);
    let names: Vec<String> = exploded.groups.iter().map(|group| words(answers, group)).collect();
    let widest = names.iter().map(|words| lettering::width(words, LETTERING)).fold(0.0, f64::max);
    let is_narrow = 2.0 * (BESIDE + 4.0 + widest) > paper.drawing_mm()[0];
    let bottom = if is_narrow { LINE * (names.len() as f64 + GAP) } else { 0.0 };
    // A picture that is high for its width leaves the sheet narrower than the key.
    let picture = (paper.drawing_mm()[1] - bottom - 6.0) * extent.width() / extent.height();
    let right = if is_narrow { NUMBER.max(widest + NUMBER - picture - BESIDE) } else { widest };
    let margins = Margins { left: 3.0, top: 3.0, right: BESIDE + 4.0 + right, bottom: 3.0 + bottom };
    let mut sheet = Sheet::unscaled(TITLE, (extent, margins), paper.drawing_mm(), answers.system);
    faces::draw(&mut sheet, &exploded.view, LINES);
    let marks: Vec<[f64; 2]> = exploded.groups.iter().map(|group| sheet.at(group.at)).collect();
    let heights: Vec<f64> = marks.iter().map(|mark| mark[1]).collect();
    let column = sheet.at(extent.origin() + kurbo::Vec2::new(extent.width(), 0.0))[0] + BESIDE;
    let levels = spread(&heights, sheet.lines_between());
    for (place, (group, level)) in exploded.groups.iter().zip(levels).enumerate() {
        let (mark, number) = (marks[place], (place + 1).to_string());
        let words = if is_narrow { &number } else { &names[place] };
        let leader = [mark, [column - 3.0, level], [column - 1.0, level]];
        sheet.push(Element::polyline(&leader).with("stroke", SLATE).with("stroke-width", weight::THIN));
        sheet.push(Element::circle(mark, 0.5).with("fill", INK));
        let middle = column + lettering::width(words, LETTERING) * 0.5;
        let label = Label::beside([column - 1.0, level], LETTERING, words);
        sheet.label(Label { path: group.path.clone(), preferred: vec![[middle, level]], ..label });
    }
    if is_narrow {
        key(&mut sheet, &names);
    }
    sheet.finished()
}

/// The names of the parts with their numbers, below the picture.
fn key(sheet: &mut Sheet, names: &[String]) {
    let [_, height] = sheet.size_mm();
    for (place, name) in names.iter().enumerate() {
        let words = format!("{} {name}", place + 1);
        let at =
            [3.0 + lettering::width(&words, LETTERING) * 0.5, height - LINE * ((names.len() - place) as f64 - 0.4)];
        sheet.label(Label { preferred: vec![at], ..Label::beside(at, LETTERING, &words) });
    }
}

fn seen(exploded: &Exploded) -> Rect {
    faces::extent(&exploded.view).unwrap_or(Rect::new(0.0, 0.0, 1.0, 1.0))
}

/// What is written at a group: its name and what its row says.
fn words(answers: &Answers, group: &Group) -> String {
    let name = spoken(&group.name);
    let Some(row) = answers.rows.find(&group.path) else { return name };
    let shown = row.shown(answers.system);
    match group.path.rsplit('.').next() {
        Some("height") => format!("{name}, {shown} high"),
        Some("depth") => format!("{name}, {shown} deep where least"),
        Some("diameter") => format!("{name}, {shown} thick"),
        _ => format!("{name}, {shown}"),
    }
}

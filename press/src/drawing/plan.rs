//! The plan with its dimensions: the wall cut through, stem and trench below, names, north, and where the section is cut.

use engine::answers::Answers;
use engine::house::handles::On;
use engine::house::part::{Dimension, Measured, Place, Plan};
use kurbo::Vec2;

use super::first_shape::figures;
use super::frame::Frame;
use super::labels::Label;
use super::sheet::{LETTERING, Margins, Sheet, extent};
use super::{Scaled, dimension, material};
use crate::paper::{INK, Paper, SLATE, weight};
use crate::spoken::spoken;
use crate::svg::Element;

const TITLE: &str = "Plan of the house";
/// How much is seen of who and what finds room, under what is measured.
const FAINT: f64 = 0.35;

/// How the paths of places begin that are named on the smallest screen as well.
const NAMED: [&str; 3] = ["room.", "openings.", "wall.line."];

/// The plan at the largest true scale that fits the paper.
#[must_use]
pub fn plan(answers: &Answers, paper: Paper) -> Scaled {
    let plan = &answers.plan;
    let margins = if has_runs(plan) {
        Margins { left: 17.0, top: 17.0, right: 22.0, bottom: 24.0 }
    } else {
        Margins { left: 9.0, top: 16.0, right: 16.0, bottom: 19.0 }
    };
    let row = (extent(&plan.parts), margins);
    drawn(answers, Sheet::new(TITLE, &[row], paper.room(paper.drawing_mm()), answers.system))
}

/// The plan in the frame of an earlier one.
#[must_use]
pub fn plan_held(answers: &Answers, frame: &Frame) -> Scaled {
    drawn(answers, Sheet::held(TITLE, frame, answers.system))
}

fn has_runs(plan: &Plan) -> bool {
    plan.dimensions.iter().any(|dimension| dimension.path.ends_with(".run"))
}

fn drawn(answers: &Answers, mut sheet: Sheet) -> Scaled {
    let plan = &answers.plan;
    let has_runs = has_runs(plan);
    material::define(&mut sheet);
    for part in &plan.parts {
        material::draw(&mut sheet, part);
    }
    if sheet.is_on_screen() {
        let metre = sheet.paper(1.0);
        let figures = answers.furnishing.placed.iter().map(|placed| figures::drawn(placed, sheet.at(placed.at), metre));
        let figures = Element::group(figures.collect());
        sheet.push(figures.with("opacity", FAINT));
    }
    sheet.avoid_handles(answers, On::Plan);
    section_marks(&mut sheet, plan);
    // Radii stand in the fields of the points, and what is built in is named on the wall unrolled.
    let is_shown = |dimension: &&Dimension| !sheet.is_small() || !matches!(dimension.measured, Measured::Radius { .. });
    let dimensions: Vec<&Dimension> = plan.dimensions.iter().filter(is_shown).collect();
    let is_named = |place: &&Place| !sheet.is_small() || NAMED.iter().any(|start| place.path.starts_with(start));
    let places: Vec<&Place> = plan.places.iter().filter(is_named).collect();
    for dimension in dimensions {
        let clear = clearance(dimension, has_runs);
        dimension::draw(&mut sheet, answers, dimension, clear);
    }
    for place in places {
        name(&mut sheet, answers, place);
    }
    north(&mut sheet, plan.north);
    sheet.finished()
}

/// How far a dimension line stands off: openings nearest, then runs, then the whole house.
fn clearance(dimension: &Dimension, has_runs: bool) -> f64 {
    match dimension.path.rsplit('.').next() {
        Some("overall-x" | "overall-y") => {
            if has_runs {
                19.0
            } else {
                15.0
            }
        }
        Some("run") => 12.5,
        Some("thickness") => 0.0,
        _ => 6.0,
    }
}

fn name(sheet: &mut Sheet, answers: &Answers, place: &Place) {
    let at = sheet.at(place.at);
    let path = place.path.clone();
    if place.path.starts_with("wall.line.") {
        for [x, y] in [[1.2, 0.0], [0.0, 1.2]] {
            let cross = Element::line([at[0] - x, at[1] - y], [at[0] + x, at[1] + y]);
            sheet.push(cross.with("stroke", INK).with("stroke-width", weight::THIN).data_path(&path));
        }
    }
    let words = spoken(&place.name);
    let words = match answers.rows.find(&place.path) {
        Some(row) => format!("{words}\n{}", row.shown(answers.system)),
        None => words,
    };
    let preferred = if place.path == "room.area" { vec![at] } else { Vec::new() };
    sheet.label(Label { path, preferred, ..Label::beside(at, LETTERING, &words) });
}

/// The line of the cross-section at both ends, with arrows in the direction in which it is seen.
fn section_marks(sheet: &mut Sheet, plan: &Plan) {
    let [from, to] = plan.section.map(|point| sheet.at(point));
    let along = Vec2::new(to[0] - from[0], to[1] - from[1]).normalize();
    // Seen to the left of the way in the house is to the right on paper, where y runs down; turned once more it is left.
    let seen = -along.turn_90();
    for (end, inward) in [(from, along), (to, -along)] {
        let face = Vec2::new(end[0], end[1]);
        let (inner, end) = (face - inward * 7.5, face - inward * 12.0);
        let tip = end + seen * 4.0;
        let point = |at: Vec2| [at.x, at.y];
        sheet.push(Element::line(point(end), point(inner)).with("stroke", INK).with("stroke-width", weight::CUT));
        sheet.push(Element::line(point(end), point(tip)).with("stroke", INK).with("stroke-width", weight::SEEN));
        let head = [tip, tip - seen * 2.0 + along, tip - seen * 2.0 - along].map(point);
        sheet.push(Element::polygon(&head).with("fill", INK));
        sheet.avoid(&[point(end), point(inner)], false, 3.0);
        sheet.avoid(&[point(end), point(tip)], false, 8.0);
        let at = point(tip + seen * 2.4);
        sheet.label(Label { preferred: vec![at], ..Label::beside(at, LETTERING, "A") });
    }
}

/// An arrow to the north in the upper left corner of the sheet.
pub(super) fn north(sheet: &mut Sheet, direction: Vec2) {
    let up = sheet.direction(direction);
    let (up, half) = (Vec2::new(up[0], up[1]), 6.0);
    let centre = Vec2::new(10.0, 10.0);
    let point = |at: Vec2| [at.x, at.y];
    let (tip, foot) = (centre + up * half, centre - up * half);
    let side = up.turn_90() * 1.6;
    sheet.push(Element::line(point(foot), point(tip)).with("stroke", INK).with("stroke-width", weight::SEEN));
    let head = [tip, tip - up * 4.5 + side, tip - up * 4.5].map(point);
    sheet.push(Element::polygon(&head).with("fill", INK).data_path("site.north"));
    sheet.avoid(&[point(foot), point(tip)], false, 5.0);
    let at = tip + up * 2.2;
    sheet.push(Element::text([at.x - 1.1, at.y + 1.1], LETTERING, "N").with("fill", SLATE));
}

//! The boards on straight rafters in plan: courses, joints over the rafters, downspouts.

use engine::answers::Answers;
use engine::house::boarding_plan::{BoardingPlan, CoursePlan};
use kurbo::{Rect, Vec2};

use super::deck_plan::{disc, downspout};
use super::plan::north;
use super::sheet::{Margins, Sheet};
use super::{Scaled, hatch};
use crate::paper::{CLAY, INK, LIME, Paper, SLATE, STRAW, weight};
use crate::svg::Element;

/// Share of straw in the tint of the boards.
const TINT: f64 = 0.14;
/// From the low end of a rafter to the disc with its number, in millimetres.
const BESIDE: f64 = 3.4;
/// From a downspout to the middle of its words, past those discs, in millimetres.
const BELOW: f64 = 11.0;

/// The plan of the boards at the largest true scale that fits the paper; none where no boards are laid on straight rafters.
#[must_use]
pub fn boarding_plan(answers: &Answers, paper: Paper) -> Option<Scaled> {
    let plan = answers.boarding.as_ref()?;
    let way = plan.rafters.first().map_or(Vec2::ZERO, |[low, high]| (*low - *high).normalize());
    // Words stand below the low edge, whichever side of the paper that is.
    let room_for = |side: f64| 16.0 + 14.0 * side.max(0.0);
    let [left, right, top, bottom] = [-way.x, way.x, way.y, -way.y].map(room_for);
    let margins = Margins { left, top, right, bottom };
    let room = paper.room(paper.drawing_mm());
    let mut sheet = Sheet::new("Plan of the boards", &[(bounds(plan), margins)], room, answers.system);
    let eave: Vec<[f64; 2]> = plan.eave.iter().map(|&point| sheet.at(point)).collect();
    let drawn = Element::polygon(&eave).with("fill", hatch::mixed(STRAW, LIME, TINT)).with("stroke", INK);
    sheet.push(drawn.with("stroke-width", weight::SEEN).data_path("roof.deck.edge-length"));
    for axis in &plan.rafters {
        let [low, high] = axis.map(|at| sheet.at(at));
        let line = Element::line(low, high).with("stroke", CLAY).with("stroke-dasharray", "5 1.2 1 1.2");
        sheet.push(line.with("stroke-width", weight::HIDDEN).data_path("roof.poles.count"));
    }
    for course in &plan.courses {
        draw(&mut sheet, course);
    }
    let fall = fall(&sheet, plan);
    let below = |at: [f64; 2], far: f64| [at[0] + fall.x * far, at[1] + fall.y * far];
    for (place, axis) in plan.rafters.iter().enumerate() {
        let low = sheet.at(axis[0]);
        disc(&mut sheet, below(low, BESIDE), place + 1, "roof.poles.count");
    }
    for (name, at) in &plan.downspouts {
        downspout(&mut sheet, answers, (name, *at), |at| Some(below(at, BELOW)));
    }
    north(&mut sheet, answers.plan.north);
    Some(sheet.finished())
}

fn bounds(plan: &BoardingPlan) -> Rect {
    let first = plan.eave.first().copied().unwrap_or_default();
    plan.eave.iter().fold(Rect::from_points(first, first), |round, &point| round.union_pt(point))
}

/// The direction of the fall on paper.
fn fall(sheet: &Sheet, plan: &BoardingPlan) -> Vec2 {
    let way = plan.rafters.first().map(|axis| axis.map(|at| sheet.at(at)));
    way.map_or(Vec2::ZERO, |[low, high]| Vec2::new(low[0] - high[0], low[1] - high[1]).normalize())
}

/// The lower edge of a course, thin, and the joints of its boards, heavy.
fn draw(sheet: &mut Sheet, course: &CoursePlan) {
    for ends in &course.edge {
        let [from, to] = ends.map(|at| sheet.at(at));
        sheet.push(Element::line(from, to).with("stroke", SLATE).with("stroke-width", weight::THIN));
    }
    for ends in &course.meets {
        let [from, to] = ends.map(|at| sheet.at(at));
        let joint = Element::line(from, to).with("stroke", INK).with("stroke-width", weight::CUT);
        sheet.push(joint.data_path("roof.deck.boards"));
    }
}

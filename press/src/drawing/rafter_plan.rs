//! The plan of straight rafters: tags, plate, eave, seats, openings for flues and their trimmers.

use engine::answers::Answers;
use engine::house::RafterPlan;
use engine::house::rafter_plan::{OpeningPlan, PlacedRafter};
use kurbo::{Point, Rect, Vec2};

use super::dimension::marked;
use super::labels::Label;
use super::plan::north;
use super::poles::outline;
use super::roof_plan::{TINT, is_small, line, round, seat};
use super::sheet::{LETTERING, Margins, Sheet, extent};
use super::{Scaled, hatch, material};
use crate::lettering;
use crate::paper::{INK, LIME, Paper, STRAW, weight};
use crate::spoken::spoken;
use crate::svg::Element;

/// From the low end of a rafter to its words, in millimetres.
const BESIDE: f64 = 1.8;

/// The plan of the rafters at the largest true scale that fits the paper; none where the roof does not fall one way.
#[must_use]
pub fn rafter_plan(answers: &Answers, paper: Paper) -> Option<Scaled> {
    let plan = answers.rafter_plan.as_ref()?;
    let side = if is_small(paper) { 6.0 } else { 27.0 };
    let margins = Margins { left: side, top: 18.0, right: side, bottom: 18.0 };
    let mut sheet =
        Sheet::new("Plan of the rafters", &[(bounds(plan), margins)], paper.room(paper.drawing_mm()), answers.system);
    material::define(&mut sheet);
    for part in &plan.parts {
        material::draw(&mut sheet, part);
    }
    line(&mut sheet, &plan.plate, "roof.plate-offset", "5 1 1 1");
    for piece in plan.openings.iter().flat_map(|opening| &opening.trimmers) {
        round(&mut sheet, piece);
    }
    for rafter in &plan.places {
        pole(&mut sheet, rafter);
    }
    for opening in &plan.openings {
        flue(&mut sheet, answers, opening);
    }
    for (place, rafter) in plan.places.iter().enumerate() {
        name(&mut sheet, answers, place, rafter);
    }
    north(&mut sheet, answers.plan.north);
    Some(sheet.finished())
}

/// The box round eave and rafters, in metres.
fn bounds(plan: &RafterPlan) -> Rect {
    let ends = plan.places.iter().flat_map(|rafter| rafter.axis);
    ends.fold(extent(&plan.parts), |round, end| round.union_pt(end))
}

/// What openings leave of a rafter, and its seats.
fn pole(sheet: &mut Sheet, rafter: &PlacedRafter) {
    let [low, high] = rafter.axis;
    let [thick, thin] = rafter.diameters;
    for &[from, to] in &rafter.left {
        let (ends, at) = ([from, to].map(|share| low.lerp(high, share)), |share: f64| thick + (thin - thick) * share);
        let corners = outline(ends, [at(from), at(to)]).map(|corner| sheet.at(corner));
        let drawn = Element::polygon(&corners).with("fill", hatch::mixed(STRAW, LIME, TINT)).with("stroke", INK);
        sheet.push(drawn.with("stroke-width", weight::SEEN).data_path(&rafter.stem));
        for side in 0..4 {
            sheet.avoid(&[corners[side], corners[(side + 1) % 4]], false, 1.5);
        }
    }
    // One that lies along its wall has no seats of its own.
    let along = way(sheet, rafter);
    for at in rafter.seats.iter().filter(|_| !rafter.is_on_side) {
        seat(sheet, *at, along, &rafter.stem);
    }
}

/// The direction of a rafter on paper, up the slope.
fn way(sheet: &Sheet, rafter: &PlacedRafter) -> Vec2 {
    let [from, to] = rafter.axis.map(|end| sheet.at(end));
    Vec2::new(to[0] - from[0], to[1] - from[1]).normalize()
}

/// Its number, and its tag where it has one, at its low end.
fn name(sheet: &mut Sheet, answers: &Answers, place: usize, rafter: &PlacedRafter) {
    let path = format!("{}.cut-length", rafter.stem);
    let words = match &rafter.tag {
        Some(tag) if !sheet.is_small() => format!("{}\n{}", place + 1, spoken(tag).replace(' ', "\n")),
        None if place == 0 && !sheet.is_small() => format!("1\n{}", marked(answers, &path).unwrap_or_default()),
        _ => (place + 1).to_string(),
    };
    let [x, y] = sheet.at(rafter.axis[0]);
    let out = -way(sheet, rafter);
    let wide = words.lines().map(|line| lettering::width(line, LETTERING)).fold(0.0, f64::max);
    let high = words.lines().count() as f64 * LETTERING * 0.65;
    let reach = BESIDE + out.x.abs() * wide * 0.5 + out.y.abs() * high;
    let at = [x + out.x * reach, y + out.y * reach];
    sheet.label(Label { preferred: vec![at], path, ..Label::beside([x, y], LETTERING, &words) });
}

/// The opening, dashed, the flue in it, and its name.
fn flue(sheet: &mut Sheet, answers: &Answers, opening: &OpeningPlan) {
    let path = format!("{}.opening", opening.stem);
    if !opening.corners.is_empty() {
        let corners: Vec<[f64; 2]> = opening.corners.iter().map(|&corner| sheet.at(corner)).collect();
        let drawn =
            Element::polygon(&corners).with("fill", "none").with("stroke", INK).with("stroke-dasharray", "2 1.2");
        sheet.push(drawn.with("stroke-width", weight::HIDDEN).data_path(&path));
        sheet.avoid(&corners, true, 2.0);
    }
    let middle = sheet.at(opening.flue.center());
    let radius = (sheet.at(Point::new(opening.flue.x1, opening.flue.y0))[0] - middle[0]).abs();
    let circle =
        Element::circle(middle, radius).with("fill", LIME).with("stroke", INK).with("stroke-width", weight::CUT);
    sheet.push(circle.data_path(&opening.stem));
    let name = spoken(opening.stem.rsplit('.').next().unwrap_or_default());
    let words = match marked(answers, &path) {
        Some(side) => format!("{name}, opening {side} square"),
        None => format!("{name}, opening not known"),
    };
    sheet.label(Label { path, ..Label::beside(middle, LETTERING, &words) });
}

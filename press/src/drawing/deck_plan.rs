//! The deck in plan: bays with their courses of boards, the poles' top lines with the stations of the shim table, downspouts.

use engine::answers::Answers;
use engine::house::{DeckBay, DeckPlan};
use kurbo::{Point, Rect, Vec2};

use super::labels::Label;
use super::plan::north;
use super::sheet::{LETTERING, Margins, Sheet};
use super::{Scaled, hatch};
use crate::lettering;
use crate::paper::{CLAY, INK, LIME, Paper, SLATE, STRAW, weight};
use crate::spoken::spoken;
use crate::svg::Element;

/// Shares of straw in the tints of two neighbouring bays.
const TINTS: [f64; 2] = [0.1, 0.24];
/// Half the width of the mark of a station, in millimetres.
const STATION: f64 = 1.3;
/// Radius of the disc with a pole's number, and of the mark of a downspout, in millimetres.
const DISC: f64 = 2.1;

/// The plan of the deck at the largest true scale that fits the paper; none where no pole is measured.
#[must_use]
pub fn deck_plan(answers: &Answers, paper: Paper) -> Option<Scaled> {
    let plan = &answers.deck.as_ref()?.plan;
    let margins = Margins { left: 16.0, top: 12.0, right: 16.0, bottom: 12.0 };
    let room = paper.room(paper.drawing_mm());
    let mut sheet = Sheet::new("Plan of the deck", &[(bounds(plan), margins)], room, answers.system);
    // Boards that a second ring lifts off the poles are not counted.
    let counted = answers.rows.find("roof.deck.boards").map(|row| row.path.as_str());
    let path = counted.unwrap_or("roof.deck.edge");
    for (place, bay) in plan.bays.iter().enumerate() {
        draw(&mut sheet, bay, (TINTS[place % 2], path));
    }
    for (place, (top, stations)) in plan.tops.iter().zip(&plan.stations).enumerate() {
        let shim = format!("roof.places.{}.shim", place + 1);
        let path = answers.rows.find(&shim).map_or("roof.deck.edge", |_| shim.as_str());
        pole(&mut sheet, *top, stations, (place + 1, path));
    }
    for (place, bay) in plan.bays.iter().enumerate() {
        let [from, to] = bay.middle.map(|at| sheet.at(at));
        let at = [0, 1].map(|axis| from[axis] + 0.4 * (to[axis] - from[axis]));
        let next = (place + 1) % plan.bays.len() + 1;
        let boards = counted.map_or_else(String::new, |_| format!("\n{} boards", bay.boards));
        let words = format!("{} to {next}{boards}", place + 1);
        let label = Label::beside(at, LETTERING, &words);
        sheet.label(Label { path: path.to_owned(), preferred: vec![at], ..label });
    }
    for (name, at) in &plan.downspouts {
        downspout(&mut sheet, answers, (name, *at), |_| None);
    }
    north(&mut sheet, answers.plan.north);
    Some(sheet.finished())
}

fn bounds(plan: &DeckPlan) -> Rect {
    let mut points = plan.bays.iter().flat_map(|bay| &bay.outline).copied();
    let first = points.next().unwrap_or_default();
    points.fold(Rect::from_points(first, first), |round, point| round.union_pt(point))
}

fn draw(sheet: &mut Sheet, bay: &DeckBay, (tint, path): (f64, &str)) {
    let outline: Vec<[f64; 2]> = bay.outline.iter().map(|&point| sheet.at(point)).collect();
    let drawn = Element::polygon(&outline).with("fill", hatch::mixed(STRAW, LIME, tint)).with("stroke", INK);
    sheet.push(drawn.with("stroke-width", weight::SEEN).data_path(path));
    for ends in &bay.courses {
        let [from, to] = ends.map(|at| sheet.at(at));
        sheet.push(Element::line(from, to).with("stroke", SLATE).with("stroke-width", weight::THIN));
    }
}

/// The top line of a pole, a short mark across it at each station, and its number at the eave.
fn pole(sheet: &mut Sheet, top: [Point; 2], stations: &[Point], (number, path): (usize, &str)) {
    let [eave, eye] = top.map(|at| sheet.at(at));
    let line = Element::line(eave, eye).with("stroke", INK).with("stroke-width", weight::CUT);
    sheet.push(line.data_path(path));
    sheet.avoid(&[eave, eye], false, 3.0);
    let way = Vec2::new(eye[0] - eave[0], eye[1] - eave[1]).normalize();
    let aside = way.turn_90() * STATION;
    for station in stations {
        let [x, y] = sheet.at(*station);
        let ends = [[x - aside.x, y - aside.y], [x + aside.x, y + aside.y]];
        sheet.push(Element::line(ends[0], ends[1]).with("stroke", CLAY).with("stroke-width", weight::SEEN));
    }
    disc(sheet, [eave[0] - way.x * 3.4, eave[1] - way.y * 3.4], number, path);
}

/// The number of a pole in its disc.
pub(super) fn disc(sheet: &mut Sheet, at: [f64; 2], number: usize, path: &str) {
    let disc = Element::circle(at, DISC).with("fill", LIME).with("stroke", INK).with("stroke-width", weight::THIN);
    sheet.push(disc.data_path(path));
    let words = number.to_string();
    let foot = [at[0] - lettering::width(&words, LETTERING) * 0.5, at[1] + lettering::capitals(LETTERING) * 0.5];
    sheet.push(Element::text(foot, LETTERING, &words).with("fill", INK));
    let corners = [[-DISC, -DISC], [DISC, -DISC], [DISC, DISC], [-DISC, DISC]];
    sheet.avoid(&corners.map(|[x, y]| [at[0] + x, at[1] + y]), true, 8.0);
}

/// A downspout with its words, at the wanted place on paper where there is one.
pub(super) fn downspout(
    sheet: &mut Sheet,
    answers: &Answers,
    (name, at): (&str, Point),
    wanted: impl Fn([f64; 2]) -> Option<[f64; 2]>,
) {
    let path = format!("roof.deck.downspouts.{name}.catchment");
    let at = sheet.at(at);
    let mark = Element::circle(at, DISC * 0.7).with("fill", SLATE).with("stroke", INK);
    sheet.push(mark.with("stroke-width", weight::THIN).data_path(&path));
    let area = answers.rows.find(&path).map(|row| row.shown(answers.system)).unwrap_or_default();
    let words = format!("{}\ndrains {area}", spoken(name));
    let beside = Label::beside(at, LETTERING, &words);
    let preferred = wanted(at).map_or_else(|| beside.preferred.clone(), |at| vec![at]);
    sheet.label(Label { path, preferred, ..beside });
}

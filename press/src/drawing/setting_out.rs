//! The setting-out plan: baseline, pegs with their offsets, radii from centre pegs, check tapes.

use engine::answers::Answers;
use engine::house::{Marks, Peg};
use engine::polygon::bounds;
use kurbo::{Point, Rect};

use super::Scaled;
use super::labels::Label;
use super::sheet::{LETTERING, Margins, Sheet};
use crate::paper::{INK, LIME, Paper, SLATE, weight};
use crate::svg::{Element, Run};

/// Radius of a peg on paper, in millimetres.
const PEG: f64 = 0.8;

/// The setting-out plan at the largest true scale that fits the paper.
#[must_use]
pub fn setting_out(answers: &Answers, paper: Paper) -> Scaled {
    let margins = Margins { left: 9.0, top: 9.0, right: 9.0, bottom: 9.0 };
    let row = (extent(answers), margins);
    let mut sheet = Sheet::new("Setting-out plan", &[row], paper.room(paper.drawing_mm()), answers.system);
    wall(&mut sheet, answers);
    check_tapes(&mut sheet, answers);
    let shown: Vec<&Peg> = answers.pegs.pegs.iter().filter(|peg| is_shown(answers, peg)).collect();
    for peg in &shown {
        offset(&mut sheet, answers, peg);
        radii(&mut sheet, answers, peg);
    }
    baseline(&mut sheet, answers);
    for peg in &shown {
        peg_mark(&mut sheet, peg);
    }
    sheet.finished()
}

/// A centre that is hard to reach stands off the sheet: ordinates take its place.
fn is_shown(answers: &Answers, peg: &Peg) -> bool {
    !matches!(peg.marks, Marks::ArcCentre(run) if answers.pegs.ordinates.iter().any(|arc| arc.run == run))
}

fn extent(answers: &Answers) -> Rect {
    let pegs = answers.pegs.pegs.iter().filter(|peg| is_shown(answers, peg)).map(|peg| peg.at);
    let bodies = answers.plan.parts.iter().flat_map(|part| &part.outlines).flat_map(|outline| &outline.points);
    bounds(pegs.chain(bodies.copied()).chain([answers.pegs.baseline.a, answers.pegs.baseline.b]))
}

/// The wall line, and the sides of trench and stem that strings mark.
fn wall(sheet: &mut Sheet, answers: &Answers) {
    for part in answers.plan.parts.iter().filter(|part| part.path == "wall.stem" || part.path == "water.trench") {
        for outline in &part.outlines {
            let points = sheet.points(outline);
            let dashes = if part.path == "wall.stem" { "none" } else { "1.6 1" };
            let drawn = Element::path(&[Run::Closed(&points)]).with("stroke", SLATE);
            sheet.push(drawn.with("stroke-width", weight::THIN).with("stroke-dasharray", dashes).data_path(&part.path));
        }
    }
    let line = &answers.pegs.line;
    let points = sheet.points(line);
    let run = if line.closed { Run::Closed(&points) } else { Run::Open(&points) };
    let drawn = Element::path(&[run]).with("stroke", INK).with("stroke-width", weight::SEEN);
    sheet.push(drawn.data_path("wall.line"));
    let step = (points.len() / 60).max(1);
    let spaced: Vec<[f64; 2]> = points.iter().step_by(step).copied().collect();
    sheet.avoid(&spaced, line.closed, 2.0);
}

fn thin(sheet: &mut Sheet, [from, to]: [Point; 2], dashes: &'static str, path: &str, cost: f64) {
    let [from, to] = [from, to].map(|point| sheet.at(point));
    let line = Element::line(from, to).with("stroke", SLATE).with("stroke-width", weight::THIN);
    sheet.push(line.with("stroke-dasharray", dashes).data_path(path));
    sheet.avoid(&[from, to], false, cost);
}

fn check_tapes(sheet: &mut Sheet, answers: &Answers) {
    for check in &answers.pegs.checks {
        let [Some(from), Some(to)] = check.ends.map(|end| answers.pegs.pegs.get(end)) else { continue };
        if from.marks.is_on_the_line() {
            thin(sheet, [from.at, to.at], "2.4 1.2", &check.path, 0.6);
        }
    }
}

/// From the baseline square to the peg, with the sign of a right angle at its foot.
fn offset(sheet: &mut Sheet, answers: &Answers, peg: &Peg) {
    let baseline = answers.pegs.baseline;
    let [along, _] = baseline.reading(peg.at);
    let foot = baseline.point([along, 0.0]);
    thin(sheet, [foot, peg.at], "none", &format!("{}.offset", peg.path), 0.6);
    let side = 1.3 / sheet.paper(1.0);
    let corner = [[along + side, 0.0], [along + side, side], [along, side]];
    let corner: Vec<[f64; 2]> = corner.iter().map(|&reading| sheet.at(baseline.point(reading))).collect();
    sheet.push(Element::polyline(&corner).with("stroke", SLATE).with("stroke-width", weight::THIN));
}

/// From a centre to both ends of its arc.
fn radii(sheet: &mut Sheet, answers: &Answers, peg: &Peg) {
    let ends: Vec<Point> = match peg.marks {
        Marks::CornerCentre(index) => {
            let is_end =
                |other: &&Peg| matches!(other.marks, Marks::CornerBegins(at) | Marks::CornerEnds(at) if at == index);
            answers.pegs.pegs.iter().filter(is_end).map(|other| other.at).collect()
        }
        Marks::ArcCentre(_) => {
            let tied = answers.pegs.checks.iter().filter(|check| answers.pegs.pegs.get(check.ends[0]) == Some(peg));
            tied.filter_map(|check| answers.pegs.pegs.get(check.ends[1])).map(|other| other.at).collect()
        }
        _ => return,
    };
    for end in ends {
        thin(sheet, [peg.at, end], "3 0.9 0.5 0.9", &peg.path, 0.6);
    }
}

fn baseline(sheet: &mut Sheet, answers: &Answers) {
    let baseline = answers.pegs.baseline;
    let ends = [baseline.a, baseline.b].map(|end| sheet.at(end));
    let line = Element::line(ends[0], ends[1]).with("stroke", INK).with("stroke-width", weight::CUT);
    sheet.push(line.data_path("set-out.baseline"));
    sheet.avoid(&ends, false, 6.0);
    for (end, (word, path)) in ends.into_iter().zip([("A", "site.set-out.from"), ("B", "site.set-out.to")]) {
        sheet.push(Element::circle(end, 1.5 * PEG).with("fill", INK).data_path(path));
        sheet.label(Label { path: path.to_owned(), ..Label::beside(end, LETTERING * 1.3, word) });
    }
    if let Some(row) = answers.rows.find("set-out.baseline") {
        let middle = [ends[0][0].midpoint(ends[1][0]), ends[0][1].midpoint(ends[1][1])];
        let below = [middle[0], middle[1] + LETTERING];
        let label = Label::beside(middle, LETTERING, &row.shown(answers.system));
        sheet.label(Label { preferred: vec![below], path: row.path.clone(), ..label });
    }
}

fn peg_mark(sheet: &mut Sheet, peg: &Peg) {
    let at = sheet.at(peg.at);
    let fill = if peg.marks.is_on_the_line() { INK } else { LIME };
    let mark = Element::circle(at, PEG).with("fill", fill).with("stroke", INK).with("stroke-width", weight::HIDDEN);
    sheet.push(mark.data_path(&peg.path));
    sheet.label(Label { path: peg.path.clone(), ..Label::beside(at, LETTERING * 0.85, &peg.number.to_string()) });
}

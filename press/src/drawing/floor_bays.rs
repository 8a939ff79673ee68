//! The floor's bays in plan: their order, the way of work in each, and the way out through the door.

use engine::answers::Answers;
use engine::house::part::Part;
use kurbo::{Point, Rect, Vec2};

use super::labels::Label;
use super::sheet::{LETTERING, Margins, Sheet, extent};
use super::{Scaled, hatch, material};
use crate::paper::{CLAY, INK, LIME, Paper, SLATE, weight};
use crate::svg::Element;

/// From the middle of a bay to its arrow, in millimetres.
const BESIDE: f64 = 15.0;
/// Share of slate in the tint of every second bay.
const TINT: f64 = 0.15;

/// The bays at the largest true scale that fits the paper; none without a floor or a door.
#[must_use]
pub fn floor_bays(answers: &Answers, paper: Paper) -> Option<Scaled> {
    let bays = answers.surfaces.bays.as_ref()?;
    let is_shown = |part: &&Part| part.path == "wall" || part.path.starts_with("openings.");
    let parts: Vec<Part> = answers.plan.parts.iter().filter(is_shown).cloned().collect();
    let margins = Margins { left: 8.0, top: 14.0, right: 8.0, bottom: 14.0 };
    let title = "Bays of the floor";
    let [inside, outside] = bays.way_out;
    let shown = extent(&parts).union(Rect::from_points(inside, outside));
    let mut sheet = Sheet::new(title, &[(shown, margins)], paper.room(paper.drawing_mm()), answers.system);
    material::define(&mut sheet);
    for part in &parts {
        material::draw(&mut sheet, part);
    }
    for (place, bay) in bays.bays.iter().enumerate() {
        let points = sheet.points(&bay.outline);
        let outline = Element::polygon(&points).with("stroke", INK).with("stroke-width", weight::SEEN);
        let fill = if place % 2 == 0 { "none".to_owned() } else { hatch::mixed(SLATE, LIME, TINT) };
        sheet.push(outline.with("fill", fill).data_path(&bay.stem));
        if let Some([from, to]) = bay.arrow {
            let [from, to] = [sheet.at(from), sheet.at(to)];
            let way = Vec2::new(to[0] - from[0], to[1] - from[1]).normalize();
            let aside = way.turn_90() * BESIDE;
            let moved = |at: [f64; 2]| Point::new(at[0] + aside.x, at[1] + aside.y);
            arrow(&mut sheet, [moved(from), moved(to)], weight::SEEN, INK);
        }
        let middle = sheet.at(bay.middle);
        let area = answers.rows.find(&format!("{}.area", bay.stem)).map(|row| row.shown(answers.system));
        let words = format!("{}\n{}", place + 1, area.unwrap_or_default());
        let label = Label::beside(middle, LETTERING * 1.15, &words);
        sheet.label(Label { path: bay.stem.clone(), preferred: vec![middle], ..label });
    }
    let [from, to] = bays.way_out.map(|at| sheet.at(at)).map(|[x, y]| Point::new(x, y));
    arrow(&mut sheet, [from, to], weight::CUT, CLAY);
    let way = (to - from).normalize();
    let at = to + way * 4.0;
    let label = Label::beside([at.x, at.y], LETTERING, "way out");
    sheet.label(Label { path: format!("openings.{}", bays.door), preferred: vec![[at.x, at.y]], ..label });
    Some(sheet.finished())
}

fn arrow(sheet: &mut Sheet, [from, to]: [Point; 2], width: f64, colour: &'static str) {
    let way = (to - from).normalize();
    let side = way.turn_90() * 1.4;
    let point = |at: Point| [at.x, at.y];
    let neck = to - way * 3.6;
    sheet.push(Element::line(point(from), point(neck)).with("stroke", colour).with("stroke-width", width));
    let head = [to, neck + side, neck - side].map(point);
    sheet.push(Element::polygon(&head).with("fill", colour));
    sheet.avoid(&[point(from), point(to)], false, 4.0);
}

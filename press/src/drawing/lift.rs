//! The drawings of a lift's card: the plan of its bed and its band of the unrolled wall, with what goes in by number.

use engine::answers::Answers;
use engine::house::lift_cards::LiftCard;
use engine::house::part::{Material, Part};
use kurbo::Point;

use super::labels::Label;
use super::sheet::{LETTERING, Margins, Sheet, extent};
use super::{Scaled, material, section};
use crate::paper::{CLAY, INK, Paper, weight};
use crate::spoken::{self, spoken};
use crate::svg::Element;

/// The largest plan of a bed on a card, in millimetres.
const BED_ROOM: [f64; 2] = [100.0, 84.0];
/// The height left on a card for the band of a lift, in millimetres.
const BAND_HEIGHT: f64 = 62.0;
/// What the edges of a card take off the width of a drawing, in millimetres.
const CARD_EDGES: f64 = 13.0;
/// Radius of the dot at the place of a thing, in millimetres.
const DOT: f64 = 0.8;

/// The plan of the bed of a lift, with numbers and names of what goes in.
#[must_use]
pub fn bed(answers: &Answers, card: &LiftCard) -> Scaled {
    let margins = Margins { left: 15.0, top: 7.0, right: 15.0, bottom: 7.0 };
    let row = (extent(&card.bed), margins);
    let title = format!("Plan of the bed of {}", spoken::lift(&card.name));
    let mut sheet = Sheet::new(&title, &[row], Paper::of(answers.system).room(BED_ROOM), answers.system);
    material::define(&mut sheet);
    for part in &card.bed {
        material::draw(&mut sheet, part);
    }
    for item in card.items.iter().filter(|item| !item.outlines.is_empty()) {
        let own = Part::new(&item.path, &item.name, Material::Opening, item.outlines.clone());
        material::draw(&mut sheet, &own);
    }
    for place in answers.plan.places.iter().filter(|place| place.path.starts_with("wall.line.")) {
        let at = sheet.at(place.at);
        for [x, y] in [[1.2, 0.0], [0.0, 1.2]] {
            let cross = Element::line([at[0] - x, at[1] - y], [at[0] + x, at[1] + y]);
            sheet.push(cross.with("stroke", INK).with("stroke-width", weight::THIN).data_path(&place.path));
        }
        let words = spoken(&place.name);
        sheet.label(Label { path: place.path.clone(), ..Label::beside(at, LETTERING, &words) });
    }
    for (number, item) in card.items.iter().enumerate() {
        for (place, mark) in item.marks.iter().enumerate() {
            let at = dot(&mut sheet, *mark, &item.path);
            if place == 0 {
                let words = format!("{} {}", number + 1, spoken(&item.name));
                sheet.label(Label { path: item.path.clone(), ..Label::beside(at, LETTERING, &words) });
            }
        }
    }
    sheet.finished()
}

/// The band of a lift in the unrolled wall, in two rows, with numbers of what goes in.
#[must_use]
pub fn band(answers: &Answers, card: &LiftCard, paper: Paper) -> Scaled {
    let [width, _] = paper.drawing_mm();
    let row = |section| {
        let right = section::beside_levels(answers, section);
        (extent(&section.parts), Margins { left: 5.0, top: 3.0, right, bottom: 8.0 })
    };
    let rows: Vec<_> = card.bands.iter().map(row).collect();
    let title = format!("Band of {} in the unrolled wall, seen from outside", spoken::lift(&card.name));
    let mut sheet = Sheet::new(&title, &rows, paper.room([width - CARD_EDGES, BAND_HEIGHT]), answers.system);
    material::define(&mut sheet);
    for (row, section) in card.bands.iter().enumerate() {
        sheet.turn_to(row);
        section::draw(&mut sheet, answers, section);
        let [from, to] = [extent(&section.parts).x0, extent(&section.parts).x1];
        for (number, item) in card.items.iter().enumerate() {
            for mark in item.on_band.iter().filter(|mark| from <= mark.x && mark.x < to) {
                let at = dot(&mut sheet, *mark, &item.path);
                let words = (number + 1).to_string();
                sheet.label(Label { path: item.path.clone(), ..Label::beside(at, LETTERING, &words) });
            }
        }
    }
    sheet.finished()
}

/// Marks the place of a thing, and says where that is on paper.
fn dot(sheet: &mut Sheet, mark: Point, path: &str) -> [f64; 2] {
    let at = sheet.at(mark);
    let steps = (0..12).map(|step| f64::from(step) * std::f64::consts::TAU / 12.0);
    let ring: Vec<[f64; 2]> = steps.map(|turn| [at[0] + DOT * turn.cos(), at[1] + DOT * turn.sin()]).collect();
    sheet.push(Element::polygon(&ring).with("fill", CLAY).data_path(path));
    sheet.avoid(&ring, true, 3.0);
    at
}

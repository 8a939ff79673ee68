//! The cross-section with its levels: what is cut, what is seen beyond, and how high it lies.

use engine::answers::Answers;
use engine::house::part::{Level, Material};
use engine::units::{Fineness, Quantity};
use kurbo::Point;

use super::labels::Label;
use super::sheet::{LETTERING, Margins, Sheet, extent};
use super::{Scaled, dimension, material};
use crate::lettering;
use crate::paper::{INK, Paper, SLATE, weight};
use crate::svg::Element;

/// Width on paper for the words of levels, in millimetres.
const LEVELS: f64 = 45.0;

/// The cross-section at the largest true scale that fits the paper.
#[must_use]
pub fn section(answers: &Answers, paper: Paper) -> Scaled {
    let section = &answers.section;
    let margins = Margins { left: 3.0, top: 14.0, right: LEVELS, bottom: 8.0 };
    let extent = extent(&section.parts);
    let mut sheet = Sheet::new("Cross-section of the house", extent, margins, paper.drawing_mm(), answers.system);
    material::define(&mut sheet);
    for part in &section.parts {
        if part.material == Material::Ground {
            grass(&mut sheet, &part.outlines);
        }
        material::draw(&mut sheet, part);
    }
    for dimension in &section.dimensions {
        dimension::draw(&mut sheet, answers, dimension, 6.0);
    }
    for level in &section.levels {
        draw_level(&mut sheet, answers, level, extent.x1);
    }
    for place in &section.places {
        let at = sheet.at(place.at);
        let words = place.name.as_str();
        sheet.label(Label { path: place.path.clone(), ..Label::beside(at, LETTERING, words) });
    }
    sheet.finished()
}

/// Short strokes under the line of the ground.
fn grass(sheet: &mut Sheet, outlines: &[engine::house::part::Outline]) {
    for outline in outlines {
        let points = sheet.points(outline);
        let ([first, y], [last, _]) = (points[0], points[points.len() - 1]);
        let count = ((last - first).abs() / 2.2).floor() as u32;
        for step in 0..count {
            let x = first + 2.2 * f64::from(step) + 1.4;
            let stroke = Element::line([x, y + 0.6], [x - 1.2, y + 2.2]);
            sheet.push(stroke.with("stroke", SLATE).with("stroke-width", weight::THIN));
        }
    }
}

/// A level: a thin line to the right, a triangle on it, the height over the foot of the cob and the name.
fn draw_level(sheet: &mut Sheet, answers: &Answers, level: &Level, right: f64) {
    let [x, y] = sheet.at(Point::new(right, level.at.in_m()));
    let line = Element::line([x - 6.0, y], [x + 3.0, y]).with("stroke", SLATE).with("stroke-width", weight::THIN);
    sheet.push(line);
    let triangle = [[x, y], [x - 1.1, y - 1.9], [x + 1.1, y - 1.9]];
    sheet.push(Element::polygon(&triangle).with("stroke", INK).with("stroke-width", weight::THIN));
    sheet.avoid(&[[x - 6.0, y], [x + 3.0, y]], false, 6.0);
    sheet.avoid(&triangle, true, 6.0);
    let height = Quantity::from(level.at).shown(answers.system, Fineness::SetOut);
    let sign = if level.at.in_m() > 0.0 { "+" } else { "" };
    let words = format!("{sign}{height} {}", level.name);
    let middle = x + 5.0 + lettering::width(&words, LETTERING) * 0.5;
    let beside = [0.0, 1.5, -1.5, 3.0, -3.0].map(|aside| [middle, y + aside]);
    sheet.label(Label {
        path: level.path.clone(),
        preferred: beside.to_vec(),
        ..Label::beside([x + 3.0, y], LETTERING, &words)
    });
}

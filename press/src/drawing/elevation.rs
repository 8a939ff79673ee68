//! An elevation: what is seen above the ground, with the levels and the width of the house.

use engine::answers::Answers;
use engine::house::part::Place;
use engine::pictures::Elevation;

use super::labels::Label;
use super::section;
use super::sheet::{LETTERING, Margins, Sheet, extent};
use super::{Scaled, dimension, faces};
use crate::lettering;
use crate::paper::{Paper, weight};

/// The elevation at the largest true scale that fits the paper.
#[must_use]
pub fn elevation(answers: &Answers, elevation: &Elevation, paper: Paper) -> Scaled {
    let ground = extent(&elevation.section.parts);
    let whole = faces::extent(&elevation.view).map_or(ground, |seen| seen.union(ground));
    let right = section::beside_levels(answers, &elevation.section);
    let row = (whole, Margins { left: 2.0, top: 5.0, right, bottom: 13.0 });
    let title = format!("Elevation of the house from the {}", elevation.name);
    let [width, height] = paper.drawing_mm();
    let height = match paper {
        Paper::Screen { .. } => height,
        // Two stand on a page.
        Paper::A4 | Paper::Letter => height * 0.5 - 10.0,
    };
    let mut sheet = Sheet::new(&title, &[row], paper.room([width, height]), answers.system);
    faces::draw(&mut sheet, &elevation.view, weight::SEEN);
    section::ground_and_levels(&mut sheet, answers, &elevation.section);
    for one in &elevation.section.dimensions {
        dimension::draw(&mut sheet, answers, one, 7.0);
    }
    for place in &elevation.section.places {
        name(&mut sheet, place);
    }
    sheet.finished()
}

/// The name of an opening on its pane, one word a line.
fn name(sheet: &mut Sheet, place: &Place) {
    let at = sheet.at(place.at);
    let words = place.name.replace('-', "\n");
    let widest = words.lines().map(|word| lettering::width(word, LETTERING)).fold(0.0, f64::max);
    let aside = widest * 0.5 + LETTERING * 3.0;
    let preferred = vec![at, [at[0] - aside, at[1]], [at[0] + aside, at[1]]];
    sheet.label(Label { path: place.path.clone(), preferred, ..Label::beside(at, LETTERING, &words) });
}

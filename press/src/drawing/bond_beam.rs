//! The bond beam in plan: its pieces end to end, the joints of the upper layers, and a mark on each part.

use engine::answers::Answers;

use super::labels::Label;
use super::sheet::{LETTERING, Margins, Sheet, extent};
use super::{Scaled, material};
use crate::paper::Paper;

/// How far a mark stands off the beam, in millimetres of paper.
const OFF: f64 = 11.0;

/// The bond beam at the largest true scale that fits the paper; none without one.
#[must_use]
pub fn bond_beam(answers: &Answers, paper: Paper) -> Option<Scaled> {
    let plan = answers.beam_plan.as_ref()?;
    let margins = Margins { left: 22.0, top: 16.0, right: 22.0, bottom: 16.0 };
    let row = (extent(&plan.parts), margins);
    let mut sheet = Sheet::new("Plan of the bond beam", &[row], paper.room(paper.drawing_mm()), answers.system);
    material::define(&mut sheet);
    for part in &plan.parts {
        material::draw(&mut sheet, part);
    }
    for (place, away) in plan.marks.iter().zip(&plan.away) {
        let shown = |path: &str| answers.rows.find(path).map_or_else(String::new, |row| row.shown(answers.system));
        let length = shown(&place.path.replace(".pieces", ".cut-length"));
        let words = format!("{}\n{} × {length}", place.name, shown(&place.path));
        let (at, way) = (sheet.at(place.at), sheet.direction(*away));
        let preferred = vec![[at[0] + OFF * 1.3 * way[0], at[1] + OFF * way[1]]];
        sheet.label(Label { path: place.path.clone(), preferred, ..Label::beside(at, LETTERING, &words) });
    }
    Some(sheet.finished())
}

//! A coated face unrolled, as seen from where it is plastered: stop lines, stretches, and what each takes of the lots.

use engine::answers::Answers;
use engine::house::PlasteredFace;
use engine::house::part::Section;
use kurbo::Point;

use super::labels::Label;
use super::sheet::{LETTERING, Margins, Sheet, extent};
use super::{Scaled, material};
use crate::paper::Paper;
use crate::spoken::spoken;

/// From the foot of the wall to the words below it, in millimetres.
const BELOW: f64 = 5.0;
/// From one line of words to the next, as a share of their height.
const LINE: f64 = 1.25;

/// A face at the larger true scale of two: in one row or in two.
#[must_use]
pub fn plaster_lots(answers: &Answers, face: &PlasteredFace, paper: Paper) -> Scaled {
    let whole = [(face, &face.whole)];
    let rows: Vec<Shown<'_>> = face.rows.iter().map(|row| (face, row)).collect();
    let (one, several) = (sheet(answers, paper, &whole), sheet(answers, paper, &rows));
    if several.times_smaller() < one.times_smaller() {
        drawn(answers, several, &rows)
    } else {
        drawn(answers, one, &whole)
    }
}

/// A face and what of it stands in one row of the sheet.
type Shown<'a> = (&'a PlasteredFace, &'a Section);

/// Lines of words below a stretch: its name, area and people, and each coat that is mixed.
fn lines(answers: &Answers, face: &PlasteredFace, stretch: &str) -> Vec<String> {
    let said = |noun: &str| Some(answers.rows.find(&format!("{stretch}.{noun}"))?.shown(answers.system));
    let name = stretch.rsplit('.').next().unwrap_or(stretch);
    let words = answers.surfaces.stretches.iter().find(|one| one.name == name).map(|one| one.words.clone());
    let mut lines: Vec<String> = words.into_iter().collect();
    if let Some((area, people)) = said("area").zip(said("people")) {
        lines.push(format!("{area}, {people} {}", if people == "1" { "person" } else { "people" }));
    }
    let coats = answers.surfaces.coats.iter().filter(|coat| coat.side == face.side);
    lines.extend(
        coats.filter_map(|coat| Some(format!("{} {}", spoken(&coat.name), said(&format!("lot.{}", coat.name))?))),
    );
    lines
}

fn sheet(answers: &Answers, paper: Paper, rows: &[Shown<'_>]) -> Sheet {
    let row = |(face, section): &Shown<'_>| {
        let coats = answers.surfaces.coats.iter().filter(|coat| coat.side == face.side).count();
        let words = (coats + 2) as f64 * LETTERING * LINE;
        (extent(&section.parts), Margins { left: 4.0, top: 8.0, right: 4.0, bottom: words + BELOW })
    };
    let rows: Vec<_> = rows.iter().map(row).collect();
    Sheet::new("A coated face unrolled", &rows, paper.room(paper.drawing_mm()), answers.system)
}

fn drawn(answers: &Answers, mut sheet: Sheet, rows: &[Shown<'_>]) -> Scaled {
    material::define(&mut sheet);
    for (row, (face, section)) in rows.iter().enumerate() {
        sheet.turn_to(row);
        for part in &section.parts {
            material::draw(&mut sheet, part);
        }
        let size = extent(&section.parts);
        for place in &section.places {
            let lines = lines(answers, face, &place.path);
            let [x, foot] = sheet.at(place.at);
            let below = sheet.at(Point::new(place.at.x, size.y0))[1].max(foot + BELOW * 0.5);
            let at = [x, below + 0.5 * lines.len() as f64 * LETTERING * LINE + 1.0];
            let label = Label::beside(at, LETTERING, &lines.join("\n"));
            sheet.label(Label { path: place.path.clone(), preferred: vec![at], ..label });
        }
    }
    sheet.finished()
}
